use super::drive_load::LOADED_CELL_V;
use super::{Computed, Facts, Figure, Lacking, Result, Row, outcome};
use crate::drawing::{Bar, bars};
use crate::engineering::drive::{
    DriveSpeeds, DriveTrain, GearStage, GovernorQuestion, GovernorReport, drive_speeds, governor, reduction,
};
use crate::engineering::{Conflict, EngineeringError};
use crate::locale::{Locale, say};
use crate::record::Outcome;
use crate::unit::Unit;

/// Rest voltage of a cell near the planned end of a flight (common practice, no source).
const END_CELL_V: f64 = 3.7;
/// How far the ratio that was entered may lie from the one that the teeth give.
const RATIO_SLACK: f64 = 0.01;

/// The drive as the figures give it: pinion and main gear, or with a shaft between them two stages; an idler and a belt in the first.
///
/// # Errors
/// Teeth that do not make the ratio that was entered.
pub(super) fn train(facts: Facts<'_>) -> Result<DriveTrain> {
    let train = DriveTrain {
        stages: stages(facts)?,
        tail_ratio: facts.figure("tail-gear-ratio")?,
        main_blades: facts.whole("main-blade-count")?,
        tail_blades: facts.whole("tail-blade-count")?,
        pole_pairs: facts.whole("motor-pole-pairs")?,
    };
    let (by_teeth, ratio) = (reduction(&train), facts.figure("gear-ratio")?);
    if (by_teeth / ratio - 1.0).abs() > RATIO_SLACK {
        let (driver, driven) = (facts.whole("pinion-teeth")?, facts.whole("main-gear-teeth")?);
        let conflict = Conflict::Teeth { gear: driven, pinion: driver, by_teeth, entered: ratio };
        return Err(EngineeringError::from(conflict).into());
    }
    Ok(train)
}

fn stages(facts: Facts<'_>) -> Result<Vec<GearStage>> {
    let teeth = |id: &str| facts.whole(id).ok();
    let (pinion, gear) = (facts.whole("pinion-teeth")?, facts.whole("main-gear-teeth")?);
    let first = |driven_teeth: u32| GearStage {
        idler_teeth: teeth("idler-teeth"),
        belt_teeth: teeth("main-belt-teeth"),
        ..GearStage::gears(pinion, driven_teeth)
    };
    match (teeth("middle-gear-teeth"), teeth("middle-pinion-teeth")) {
        (None, None) => Ok(vec![first(gear)]),
        (Some(middle_gear), Some(middle_pinion)) => {
            Ok(vec![first(middle_gear), GearStage::gears(middle_pinion, gear)])
        }
        (Some(_), None) => Err(Lacking::Figure("middle-pinion-teeth".to_owned())),
        (None, Some(_)) => Err(Lacking::Figure("middle-gear-teeth".to_owned())),
    }
}

/// What the governor has left at the end of the pack, in the hardest flying that is planned.
pub(super) fn room(facts: Facts<'_>) -> Result<Computed> {
    let asked = gather(facts)?;
    let report = governor(&asked.governor)?;
    // The room goes by the whole ratio. Teeth tell the frequencies besides, and whether the ratio is right.
    let speeds = match train(facts) {
        Ok(train) => Ok(drive_speeds(&train, report.inputs.head_rpm)?),
        Err(Lacking::Refused(error)) => Err(error),
        Err(lacking) => return Err(lacking),
    };
    Ok(answer(facts, asked.cells, &report, speeds))
}

struct Asked {
    cells: f64,
    governor: GovernorQuestion,
}

fn gather(facts: Facts<'_>) -> Result<Asked> {
    let cells = facts.figure("pack-cells")?;
    let governor = GovernorQuestion {
        ratio: facts.figure("gear-ratio")?,
        motor_rpm_per_v: facts.figure("motor-constant")?,
        motor_ohm: facts.figure("drive-resistance")?,
        end_rest_v: END_CELL_V * cells,
        pack_ohm: facts.figure("main-pack-resistance")?,
        current_a: facts.figure("planned-current")?,
        head_rpm: facts.figure("service-head-speed")?,
    };
    Ok(Asked { cells, governor })
}

fn answer(
    facts: Facts<'_>,
    cells: f64,
    report: &GovernorReport,
    speeds: std::result::Result<DriveSpeeds, EngineeringError>,
) -> Computed {
    let (locale, head_rpm) = (facts.locale, report.inputs.head_rpm);
    let basis =
        say!(locale, "computed-governor-basis", end = locale.plain(END_CELL_V), loaded = locale.plain(LOADED_CELL_V));
    let refused = speeds.as_ref().err().map(|error| refused(locale, error));
    Computed {
        outcome: outcome(report.grade).max(refused.as_ref().map_or(Outcome::Pass, |row| row.outcome)),
        summary: summary(locale, report),
        figures: margins(locale, cells, report)
            .into_iter()
            .chain(speeds.iter().flat_map(|speeds| speed_figures(locale, speeds)))
            .collect(),
        rows: refused.into_iter().collect(),
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
        remarks: vec![basis],
    }
}

fn summary(locale: Locale, report: &GovernorReport) -> String {
    let current = locale.number(report.inputs.current_a, 0);
    let reachable = locale.rounded(report.reachable_rpm, 0, Unit::RevolutionsPerMinute);
    let percent = locale.number(report.margin_percent.abs(), 0);
    let rpm = locale.rounded(report.inputs.head_rpm, 0, Unit::RevolutionsPerMinute);
    match report.margin_percent < 0.0 {
        true => say!(
            locale,
            "computed-governor-short",
            current = current,
            reachable = reachable,
            percent = percent,
            rpm = rpm
        ),
        false => say!(
            locale,
            "computed-governor-summary",
            current = current,
            reachable = reachable,
            percent = percent,
            rpm = rpm
        ),
    }
}

/// Teeth and ratio that do not go together: one of them is wrong, and the frequencies cannot be told.
fn refused(locale: Locale, error: &EngineeringError) -> Row {
    Row {
        title: say!(locale, "computed-governor-teeth"),
        word: say!(locale, "computed-governor-teeth-differ"),
        detail: error.words(locale),
        outcome: Outcome::Caution,
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
