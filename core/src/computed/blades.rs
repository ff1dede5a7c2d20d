use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::engineering::unbalance::{Blade, BladeSetReport, RotatingPart, blade_set, permissible};
use crate::locale::{Locale, say};
use crate::record::{Outcome, ThingKind};
use crate::unit::Unit;

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
    let summary = say!(
        facts.locale,
        "computed-blades-summary",
        force = facts.locale.number(set.force_n, 1),
        rpm = facts.locale.rounded(head_rpm, 0, Unit::RevolutionsPerMinute),
        blade = name(set.lightest.0),
        grams = facts.locale.rounded(set.lightest.1, 2, Unit::Gram)
    );
    Ok(Computed {
        outcome: outcome(grade),
        summary,
        figures: vec![
            Figure::judged(
                say!(facts.locale, "computed-blades-unbalance"),
                set.unbalance_gmm,
                0,
                Unit::GramMillimetre,
                say!(
                    facts.locale,
                    "computed-blades-fan",
                    allowed = facts.locale.rounded(allowed.permissible_gmm, 0, Unit::GramMillimetre),
                    grade = facts.locale.quantity(GRADE_MM_S, Unit::MillimetrePerSecond)
                ),
                grade,
            ),
            Figure::told(say!(facts.locale, "computed-blades-pull"), set.force_n, 1, Unit::Newton),
            Figure::told(say!(facts.locale, "computed-blades-allowed"), allowed.permissible_g, 2, Unit::Gram),
        ],
        rows: rows(facts.locale, &set, &name),
        picture: Some(bars(&[Bar {
            title: say!(facts.locale, "computed-blades-bar"),
            value: set.unbalance_gmm,
            limit: allowed.permissible_gmm,
            text: say!(
                facts.locale,
                "computed-of",
                part = facts.locale.bare(set.unbalance_gmm, 0, Unit::GramMillimetre),
                whole = facts.locale.rounded(allowed.permissible_gmm, 0, Unit::GramMillimetre)
            ),
        }])),
        remarks: vec![say!(facts.locale, "computed-blades-basis")],
    })
}

fn rows(locale: Locale, set: &BladeSetReport, name: &dyn Fn(usize) -> String) -> Vec<Row> {
    let heaviest = set.moments_gmm.iter().copied().fold(0.0, f64::max);
    let row = |(index, moment): (usize, &f64)| Row {
        title: name(index),
        word: locale.rounded(*moment, 0, Unit::GramMillimetre),
        detail: say!(
            locale,
            "computed-blades-less",
            moment = locale.rounded(heaviest - moment, 0, Unit::GramMillimetre)
        ),
        outcome: Outcome::Pass,
    };
    set.moments_gmm.iter().enumerate().map(row).collect()
}
