use super::hover::LOADED_CELL_V;
use super::{Computed, Facts, Figure, Result, outcome};
use crate::engineering::EngineeringError;
use crate::engineering::drive::{DriveTrain, GearStage, GovernorQuestion, drive_speeds, governor};
use crate::record::{Unit, show};
use crate::view::chart::{Bar, bars};

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
        return Err(EngineeringError::Contradiction {
            what: format!(
                "{gear} teeth on {pinion} make {by_teeth:.2} turns of the motor for one of the rotor, {} were entered: count \
                 the teeth and read the papers once more",
                show(ratio)
            ),
        }
        .into());
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
    let cells = facts.figure("pack-cells")?;
    let head_rpm = facts.figure("service-head-speed")?;
    let report = governor(&GovernorQuestion {
        train: train(facts)?,
        motor_rpm_per_v: facts.figure("motor-constant")?,
        motor_ohm: facts.figure("drive-resistance")?,
        end_rest_v: END_CELL_V * cells,
        pack_ohm: facts.figure("main-pack-resistance")?,
        current_a: facts.figure("controller-continuous-current")? * HARD_SHARE,
        head_rpm,
    })?;
    let speeds = drive_speeds(&report.inputs.train, head_rpm)?;
    let summary = format!(
        "At the end of the pack and {:.0} A the drive reaches {:.0} rpm: {:.0} % above the {head_rpm:.0} rpm it must hold",
        report.inputs.current_a, report.reachable_rpm, report.margin_percent
    );
    let told = |label: &str, value: f64, unit: Unit| Figure::told(label, value, 0, unit);
    Ok(Computed {
        outcome: outcome(report.grade),
        summary,
        figures: vec![
            Figure::judged(
                "Room above service speed",
                report.margin_percent,
                1,
                Unit::Percent,
                format!("full throttle needed {:.0} %, caution under 10 % of room", report.throttle_percent),
                report.grade,
            ),
            Figure::told("Pack under that load", report.loaded_v, 1, Unit::Volt).noted(format!(
                "{:.1} V sag; a cell at {:.2} V",
                report.sag_v,
                report.loaded_v / cells
            )),
            told("Motor", speeds.motor_rpm, Unit::RevolutionsPerMinute),
            told("Tail rotor", speeds.tail_rpm, Unit::RevolutionsPerMinute).noted(format!(
                "{:.1} turns a second, blades pass {:.0} times",
                speeds.tail_hz, speeds.tail_blade_hz
            )),
            told("Main blades pass", speeds.main_blade_hz, Unit::Hertz)
                .noted(format!("the head turns {:.1} times a second", speeds.head_hz)),
            told("Motor, electrical", speeds.electrical_hz, Unit::Hertz).noted(format!(
                "commutates {:.0} times a second; gear mesh {}",
                speeds.commutation_hz,
                mesh(&speeds.mesh_hz)
            )),
        ],
        rows: Vec::new(),
        picture: Some(bars(&[Bar {
            title: "Service speed of what can be reached".to_owned(),
            value: head_rpm,
            limit: report.reachable_rpm,
            text: format!("{head_rpm:.0} of {:.0} rpm", report.reachable_rpm),
        }])),
        remarks: vec![format!(
            "Rest voltage {END_CELL_V} V a cell at the end, {LOADED_CELL_V} V in mid flight, two thirds of the controller's \
             rating as the hardest load (common practice, no source). Near full throttle only: a lower throttle draws more \
             motor current than this counts."
        )],
    })
}

fn mesh(mesh_hz: &[f64]) -> String {
    let words: Vec<String> = mesh_hz.iter().map(|hz| format!("{hz:.0} Hz")).collect();
    words.join(", ")
}
