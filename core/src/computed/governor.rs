use super::hover::LOADED_CELL_V;
use super::{Computed, Facts, Figure, Result, outcome};
use crate::drawing::{Bar, bars};
use crate::engineering::drive::{
    DriveSpeeds, DriveTrain, GearStage, GovernorQuestion, GovernorReport, drive_speeds, governor,
};
use crate::engineering::{Conflict, EngineeringError};
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// Rest voltage of a cell near the planned end of a flight (common practice, no source).
const END_CELL_V: f64 = 3.7;
/// Of the controller's rating, in the hardest governed manoeuvre (common practice, no source).
const HARD_SHARE: f64 = 2.0 / 3.0;
/// How far the ratio that was entered may lie from the one that the teeth give.
const RATIO_SLACK: f64 = 0.01;

/// The drive as the figures give it: one stage from the pinion, and a second one where the whole ratio wants it.
pub(super) fn train(facts: Facts<'_>) -> Result<DriveTrain> {
    let (pinion, gear) = (facts.whole("pinion-teeth")?, facts.whole("main-gear-teeth")?);
    let ratio = facts.figure("gear-ratio")?;
    let by_teeth = f64::from(gear) / f64::from(pinion.max(1));
    if (by_teeth / ratio - 1.0).abs() > RATIO_SLACK {
        return Err(EngineeringError::from(Conflict::Teeth { gear, pinion, by_teeth, entered: ratio }).into());
    }
    Ok(DriveTrain {
        stages: vec![GearStage { driver_teeth: pinion, driven_teeth: gear }],
        tail_ratio: facts.figure("tail-gear-ratio")?,
        main_blades: facts.whole("main-blade-count")?,
        tail_blades: facts.whole("tail-blade-count")?,
        pole_pairs: facts.whole("motor-pole-pairs")?,
    })
}

/// What the governor has left at the end of the pack, in the hardest governed manoeuvre.
pub(super) fn room(facts: Facts<'_>) -> Result<Computed> {
    let asked = gather(facts)?;
    let report = governor(&asked.governor)?;
    let speeds = drive_speeds(&report.inputs.train, report.inputs.head_rpm)?;
    Ok(answer(facts.locale, asked.cells, &report, &speeds))
}

struct Asked {
    cells: f64,
    governor: GovernorQuestion,
}

fn gather(facts: Facts<'_>) -> Result<Asked> {
    let cells = facts.figure("pack-cells")?;
    let head_rpm = facts.figure("service-head-speed")?;
    let governor = GovernorQuestion {
        train: train(facts)?,
        motor_rpm_per_v: facts.figure("motor-constant")?,
        motor_ohm: facts.figure("drive-resistance")?,
        end_rest_v: END_CELL_V * cells,
        pack_ohm: facts.figure("main-pack-resistance")?,
        current_a: facts.figure("controller-continuous-current")? * HARD_SHARE,
        head_rpm,
    };
    Ok(Asked { cells, governor })
}

fn answer(locale: Locale, cells: f64, report: &GovernorReport, speeds: &DriveSpeeds) -> Computed {
    let head_rpm = report.inputs.head_rpm;
    let summary = say!(
        locale,
        "computed-governor-summary",
        current = locale.number(report.inputs.current_a, 0),
        reachable = locale.rounded(report.reachable_rpm, 0, Unit::RevolutionsPerMinute),
        percent = locale.number(report.margin_percent, 0),
        rpm = locale.rounded(head_rpm, 0, Unit::RevolutionsPerMinute)
    );
    Computed {
        outcome: outcome(report.grade),
        summary,
        figures: margins(locale, cells, report).into_iter().chain(speed_figures(locale, speeds)).collect(),
        rows: Vec::new(),
        picture: Some(bars(&[Bar {
            title: say!(locale, "computed-governor-bar"),
            value: head_rpm,
            limit: report.reachable_rpm,
            text: say!(
                locale,
                "computed-of",
                part = locale.bare(head_rpm, 0, Unit::RevolutionsPerMinute),
                whole = locale.rounded(report.reachable_rpm, 0, Unit::RevolutionsPerMinute)
            ),
        }])),
        remarks: vec![say!(
            locale,
            "computed-governor-basis",
            end = locale.plain(END_CELL_V),
            loaded = locale.plain(LOADED_CELL_V)
        )],
    }
}

fn margins(locale: Locale, cells: f64, report: &GovernorReport) -> [Figure; 2] {
    let room_note = say!(locale, "computed-governor-room-note", percent = locale.number(report.throttle_percent, 0));
    let sag_note = say!(
        locale,
        "computed-governor-sag",
        sag = locale.number(report.sag_v, 1),
        cell = locale.number(report.loaded_v / cells, 2)
    );
    [
        Figure::judged(
            say!(locale, "computed-governor-room"),
            report.margin_percent,
            1,
            Unit::Percent,
            room_note,
            report.grade,
        ),
        Figure::told(say!(locale, "computed-governor-pack"), report.loaded_v, 1, Unit::Volt).noted(sag_note),
    ]
}

/// What turns how fast, so that a peak in a spectrum can be told.
fn speed_figures(locale: Locale, speeds: &DriveSpeeds) -> [Figure; 4] {
    let told = |label: String, value: f64, unit: Unit| Figure::told(label, value, 0, unit);
    let tail_note = say!(
        locale,
        "computed-governor-tail-note",
        turns = locale.number(speeds.tail_hz, 1),
        blades = locale.number(speeds.tail_blade_hz, 0)
    );
    let head_note = say!(locale, "computed-governor-head", turns = locale.number(speeds.head_hz, 1));
    let electrical_note = say!(
        locale,
        "computed-governor-commutates",
        times = locale.number(speeds.commutation_hz, 0),
        mesh = mesh(locale, &speeds.mesh_hz)
    );
    [
        told(say!(locale, "computed-governor-motor"), speeds.motor_rpm, Unit::RevolutionsPerMinute),
        told(say!(locale, "computed-governor-tail"), speeds.tail_rpm, Unit::RevolutionsPerMinute).noted(tail_note),
        told(say!(locale, "computed-governor-blades"), speeds.main_blade_hz, Unit::Hertz).noted(head_note),
        told(say!(locale, "computed-governor-electrical"), speeds.electrical_hz, Unit::Hertz).noted(electrical_note),
    ]
}

fn mesh(locale: Locale, mesh_hz: &[f64]) -> String {
    let words: Vec<String> = mesh_hz.iter().map(|hz| locale.rounded(*hz, 0, Unit::Hertz)).collect();
    words.join(", ")
}
