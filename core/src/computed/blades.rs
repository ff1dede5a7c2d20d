use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome};
use crate::engineering::Grade;
use crate::engineering::unbalance::{Blade, BladeSetReport, RotatingPart, blade_set, permissible};
use crate::record::{Outcome, ThingKind, Unit};
use crate::view::chart::{Bar, bars};

/// Grade that the set is held against: fans (ISO 21940-11, orientation only: a blade set is outside its rigid-rotor table).
const GRADE_MM_S: f64 = 6.3;

/// The set of main blades: its unbalance from mass and balance point, against what a fan of its mass would be allowed.
pub(super) fn balance(facts: Facts<'_>) -> Result<Computed> {
    let things = facts.some_things(ThingKind::Blade)?;
    let blades: Vec<Blade> = things
        .iter()
        .map(|thing| {
            Ok(Blade { mass_g: number(thing, "mass_g")?, balance_point_mm: number(thing, "balance_point_mm")? })
        })
        .collect::<Result<_>>()?;
    let (bolt_mm, head_rpm) = (facts.figure("blade-bolt-radius")?, facts.figure("service-head-speed")?);
    let set = blade_set(&blades, bolt_mm, head_rpm)?;
    let allowed = permissible(&RotatingPart {
        mass_kg: blades.iter().map(|blade| blade.mass_g).sum::<f64>() / 1_000.0,
        speed_rpm: head_rpm,
        grade_mm_s: GRADE_MM_S,
        correction_radius_mm: bolt_mm + blades.first().map_or(0.0, |blade| blade.balance_point_mm),
        measured_gmm: Some(set.unbalance_gmm),
    })?;
    // Orientation, not a standard's word on a rotor: past it is a caution, never a stop.
    let grade = allowed.grade.min(Grade::Caution);
    let name = |index: usize| things.get(index).map_or_else(String::new, |thing| thing.name.clone());
    let summary = format!(
        "The set pulls with {:.1} N at {head_rpm:.0} rpm; {} lacks {:.2} g at its balance point",
        set.force_n,
        name(set.lightest.0),
        set.lightest.1
    );
    Ok(Computed {
        outcome: outcome(grade),
        summary,
        figures: vec![
            Figure::judged(
                "Unbalance of the set",
                set.unbalance_gmm,
                0,
                Unit::GramMillimetre,
                format!(
                    "a fan of this mass would be allowed {:.0} g mm ({GRADE_MM_S} mm/s)",
                    allowed.permissible_gmm
                ),
                grade,
            ),
            Figure::told("Pull at service speed", set.force_n, 1, Unit::Newton),
            Figure::told("Allowed at the balance point", allowed.permissible_g, 2, Unit::Gram),
        ],
        rows: rows(&set, &name),
        picture: Some(bars(&[Bar {
            title: "Unbalance of what a fan may have".to_owned(),
            value: set.unbalance_gmm,
            limit: allowed.permissible_gmm,
            text: format!("{:.0} of {:.0} g mm", set.unbalance_gmm, allowed.permissible_gmm),
        }])),
        remarks: vec![
            "ISO 21940-11 gives 1000 G m / omega for rigid rotors; a set of blades is outside its table, so this is \
             orientation. Tracking and the run decide."
                .to_owned(),
        ],
    })
}

fn rows(set: &BladeSetReport, name: &dyn Fn(usize) -> String) -> Vec<Row> {
    let heaviest = set.moments_gmm.iter().copied().fold(0.0, f64::max);
    let row = |(index, moment): (usize, &f64)| Row {
        title: name(index),
        word: format!("{:.0} g mm", moment),
        detail: format!("{:.0} g mm less than the heaviest", heaviest - moment),
        outcome: Outcome::Pass,
    };
    set.moments_gmm.iter().enumerate().map(row).collect()
}
