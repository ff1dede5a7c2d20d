use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::engineering::unbalance::{Blade, BladeSetReport, RotatingPart, UnbalanceReport, blade_set, permissible};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// Grade that the set is held against: fans (ISO 21940-11, orientation only: a blade set is outside its rigid-rotor table).
const GRADE_MM_S: f64 = 6.3;
/// Grade past which the set is not run: car wheels and drive shafts (ISO 21940-11, from memory; orientation only, as above). At a blade
/// set of 0.8 kg and 1,200 rpm that is some 0.5 g at the balance point (common practice, no source, stops at 0.5 to 1.5 g).
const STOP_GRADE_MM_S: f64 = 40.0;

/// The set of main blades: its unbalance from mass and balance point, against what a fan of its mass would be allowed.
pub(super) fn balance(facts: Facts<'_>) -> Result<Computed> {
    let asked = gather(facts)?;
    let (set, allowed) = judge(&asked)?;
    Ok(answer(facts.locale, &asked, &set, &allowed))
}

struct Asked<'a> {
    names: Vec<&'a str>,
    blades: Vec<Blade>,
    bolt_mm: f64,
    head_rpm: f64,
}

impl Asked<'_> {
    fn name(&self, index: usize) -> String {
        self.names.get(index).map_or_else(String::new, |name| (*name).to_owned())
    }
}

fn gather(facts: Facts<'_>) -> Result<Asked<'_>> {
    // A set is balanced as a whole: a blade that nobody weighed passes for none.
    let things = facts.so_many_things(ThingKind::Blade, facts.whole("main-blade-count")? as usize)?;
    let blade = |thing: &&Thing| {
        Ok(Blade {
            mass_g: number(thing, ThingNumber::MassG)?,
            balance_point_mm: number(thing, ThingNumber::BalancePointMm)?,
        })
    };
    Ok(Asked {
        names: things.iter().map(|thing| thing.name.as_str()).collect(),
        blades: things.iter().map(blade).collect::<Result<_>>()?,
        bolt_mm: facts.figure("blade-bolt-radius")?,
        head_rpm: facts.figure("service-head-speed")?,
    })
}

fn judge(asked: &Asked<'_>) -> Result<(BladeSetReport, UnbalanceReport)> {
    let set = blade_set(&asked.blades, asked.bolt_mm, asked.head_rpm)?;
    let allowed = permissible(&RotatingPart {
        mass_kg: asked.blades.iter().map(|blade| blade.mass_g).sum::<f64>() / 1_000.0,
        speed_rpm: asked.head_rpm,
        grade_mm_s: GRADE_MM_S,
        correction_radius_mm: asked.bolt_mm + asked.blades.first().map_or(0.0, |blade| blade.balance_point_mm),
        measured_gmm: Some(set.unbalance_gmm),
    })?;
    Ok((set, allowed))
}

fn answer(locale: Locale, asked: &Asked<'_>, set: &BladeSetReport, allowed: &UnbalanceReport) -> Computed {
    let grade = grade(set, allowed);
    let unbalance_note = say!(
        locale,
        "computed-blades-fan",
        allowed = locale.rounded(allowed.permissible_gmm, 0, Unit::GramMillimetre),
        grade = locale.quantity(GRADE_MM_S, Unit::MillimetrePerSecond)
    );
    let unbalance = say!(locale, "computed-blades-unbalance");
    let bar = Bar {
        title: say!(locale, "computed-blades-bar"),
        value: set.unbalance_gmm,
        limit: allowed.permissible_gmm,
        text: say!(
            locale,
            "computed-of",
            part = locale.bare(set.unbalance_gmm, 0, Unit::GramMillimetre),
            whole = locale.rounded(allowed.permissible_gmm, 0, Unit::GramMillimetre)
        ),
    };
    Computed {
        outcome: outcome(grade),
        summary: say!(
            locale,
            "computed-blades-summary",
            force = locale.number(set.force_n, 1),
            rpm = locale.rounded(asked.head_rpm, 0, Unit::RevolutionsPerMinute),
            blade = asked.name(set.lightest.0),
            grams = locale.rounded(set.lightest.1, 2, Unit::Gram)
        ),
        figures: vec![
            Figure::judged(unbalance, set.unbalance_gmm, 0, Unit::GramMillimetre, unbalance_note, grade),
            Figure::told(say!(locale, "computed-blades-pull"), set.force_n, 1, Unit::Newton),
            Figure::told(say!(locale, "computed-blades-allowed"), allowed.permissible_g, 2, Unit::Gram),
        ],
        rows: rows(locale, asked, set),
        picture: Some(bars(&[bar])),
        remarks: vec![
            say!(
                locale,
                "computed-blades-scale",
                allowed = locale.rounded(allowed.permissible_g, 2, Unit::Gram),
                stop = locale.rounded(allowed.permissible_g * STOP_GRADE_MM_S / GRADE_MM_S, 2, Unit::Gram)
            ),
            say!(locale, "computed-blades-basis"),
        ],
    }
}

/// Within the grade of a fan is a pass, past it a caution, and a stop past the grade of a wheel: what is allowed goes with the grade.
fn grade(set: &BladeSetReport, allowed: &UnbalanceReport) -> Grade {
    let stop_above_gmm = allowed.permissible_gmm * STOP_GRADE_MM_S / GRADE_MM_S;
    if set.unbalance_gmm > stop_above_gmm { Grade::Stop } else { allowed.grade.min(Grade::Caution) }
}

fn rows(locale: Locale, asked: &Asked<'_>, set: &BladeSetReport) -> Vec<Row> {
    let heaviest = set.moments_gmm.iter().copied().fold(0.0, f64::max);
    let row = |(index, moment): (usize, &f64)| Row {
        title: asked.name(index),
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
