//! The highest current that is planned, against what each part of the drive can hold.

use super::{Computed, Facts, Figure, Result, outcome};
use crate::drawing::{Bar, bars};
use crate::engineering::drive_load::{DriveHold, DrivePart, DriveRatings, PartHold, drive_hold};
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// Volts a cell under load in mid flight (common practice, no source).
pub(super) const LOADED_CELL_V: f64 = 3.75;

/// Throttle that a head speed takes without load in mid flight, 1 for full: what the motor's own current is more than the pack's by.
pub(super) fn duty(facts: Facts<'_>, head_rpm: f64) -> Result<f64> {
    let motor_v = head_rpm * facts.figure("gear-ratio")? / facts.figure("motor-constant")?;
    Ok((motor_v / (facts.figure("pack-cells")? * LOADED_CELL_V)).clamp(0.05, 1.0))
}

/// What motor, pack and controller bear, by their makers. Where a maker says nothing of some seconds, no more is counted on for those.
pub(super) fn ratings(facts: Facts<'_>) -> Result<DriveRatings> {
    let (motor_a, pack_a) = (facts.figure("motor-continuous-current")?, facts.figure("pack-continuous-current")?);
    Ok(DriveRatings {
        motor_continuous_a: motor_a,
        motor_burst_a: facts.figure("motor-burst-current").unwrap_or(motor_a),
        pack_continuous_a: pack_a,
        pack_burst_a: facts.figure("pack-burst-current").unwrap_or(pack_a),
        controller_continuous_a: facts.figure("controller-continuous-current")?,
    })
}

/// The planned current against each part. It flows for some seconds, near full throttle.
pub(super) fn planned(facts: Facts<'_>) -> Result<Computed> {
    let planned_a = facts.figure("planned-current")?;
    let hold = drive_hold(&ratings(facts)?, 1.0)?;
    Ok(answer(facts.locale, planned_a, &hold))
}

fn answer(locale: Locale, planned_a: f64, hold: &DriveHold) -> Computed {
    let ampere = |value: f64| locale.rounded(value, 0, Unit::Ampere);
    let summary = say!(
        locale,
        "computed-drive-summary",
        planned = ampere(planned_a),
        burst = ampere(hold.burst_a),
        burst_part = locale.inside(&part_words(locale, hold.burst)),
        continuous = ampere(hold.continuous_a),
        continuous_part = locale.inside(&part_words(locale, hold.continuous))
    );
    Computed {
        outcome: outcome(hold.at(planned_a)),
        summary,
        figures: hold.parts.iter().map(|part| figure(locale, planned_a, part)).collect(),
        rows: Vec::new(),
        picture: Some(bars(&hold.parts.iter().map(|part| bar(locale, planned_a, part)).collect::<Vec<_>>())),
        remarks: vec![say!(locale, "computed-drive-basis"), say!(locale, "computed-drive-controller")],
    }
}

fn figure(locale: Locale, planned_a: f64, part: &PartHold) -> Figure {
    let note = say!(
        locale,
        "computed-drive-note",
        burst = locale.rounded(part.burst_a, 0, Unit::Ampere),
        continuous = locale.rounded(part.continuous_a, 0, Unit::Ampere)
    );
    let label = part_words(locale, part.part);
    Figure::judged(label, planned_a, 0, Unit::Ampere, note, part.at(planned_a)).against(part.burst_a)
}

fn bar(locale: Locale, planned_a: f64, part: &PartHold) -> Bar {
    Bar {
        title: part_words(locale, part.part),
        value: planned_a,
        limit: part.burst_a,
        text: say!(
            locale,
            "computed-of",
            part = locale.bare(planned_a, 0, Unit::Ampere),
            whole = locale.rounded(part.burst_a, 0, Unit::Ampere)
        ),
    }
}

pub(super) fn part_words(locale: Locale, part: DrivePart) -> String {
    match part {
        DrivePart::Motor => say!(locale, "drive-part-motor"),
        DrivePart::Pack => say!(locale, "drive-part-pack"),
        DrivePart::Controller => say!(locale, "drive-part-controller"),
    }
}
