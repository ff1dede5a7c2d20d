use crate::aircraft::Aircraft;
use crate::engineering::balance::{
    Accuracy, BalanceInput, BalanceReport, Band, Part, Support, Weighing, balance_report,
};
use crate::engineering::ballast::{BallastAnswer, BallastPlace, BallastQuestion, BallastReport, least_ballast};
use crate::record::{NamedValue, ThingKind, Unit, show};

use super::{Computed, Lacking, number};

/// What a workshop's scale and ruler are good for (common practice, no source), until the aircraft says better.
const ACCURACY: Accuracy = Accuracy { scale_half_width_g: 5.0, ruler_half_width_mm: 1.0 };

pub(super) fn centre(aircraft: &Aircraft) -> Result<Computed, Lacking> {
    let band = band(aircraft)?;
    let supports: Vec<Support> = aircraft
        .things_of(ThingKind::Weighing)
        .map(|thing| {
            Ok(Support {
                name: thing.name.clone(),
                reading_g: number(thing, "mass_g")?,
                x_mm: number(thing, "x_mm")?,
                y_mm: number(thing, "y_mm")?,
                z_mm: 0.0,
            })
        })
        .collect::<Result<_, _>>()?;
    if supports.is_empty() {
        return Err(Lacking::Things(ThingKind::Weighing));
    }
    let input = BalanceInput {
        weighing: Some(Weighing { supports, tilted: None }),
        parts: parts(aircraft)?,
        accuracy: ACCURACY,
        band: Some(band),
    };
    let report = balance_report(&input).map_err(Lacking::Refused)?;
    let ballast = ballast(aircraft, &report, band)?;
    Ok(Computed::Balance { report, ballast })
}

fn band(aircraft: &Aircraft) -> Result<Band, Lacking> {
    let figure = |id: &str| aircraft.figure(id).ok_or_else(|| Lacking::Figure(id.to_owned()));
    let lateral = figure("cg-lateral-limit")?.abs();
    Ok(Band {
        x_low_mm: figure("cg-aft-limit")?,
        x_high_mm: figure("cg-forward-limit")?,
        y_low_mm: -lateral,
        y_high_mm: lateral,
    })
}

/// Parts still to come, each at its own place, and ballast that was fitted since the weighing.
fn parts(aircraft: &Aircraft) -> Result<Vec<Part>, Lacking> {
    let to_come = aircraft.things_of(ThingKind::ToCome).map(|thing| (thing, number(thing, "mass_g"), true));
    let fitted = aircraft.things_of(ThingKind::BallastPlace).filter_map(|thing| {
        thing.number("fitted_g").filter(|grams| *grams > 0.0).map(|grams| (thing, Ok(grams), false))
    });
    to_come
        .chain(fitted)
        .map(|(thing, mass_g, to_come)| {
            Ok(Part {
                name: thing.name.clone(),
                mass_g: mass_g?,
                x_mm: number(thing, "x_mm")?,
                y_mm: number(thing, "y_mm")?,
                z_mm: 0.0,
                to_come,
            })
        })
        .collect()
}

fn ballast(aircraft: &Aircraft, report: &BalanceReport, band: Band) -> Result<Option<BallastReport>, Lacking> {
    let places: Vec<BallastPlace> = aircraft
        .things_of(ThingKind::BallastPlace)
        .map(|thing| {
            let fitted = thing.number("fitted_g").unwrap_or(0.0);
            Ok(BallastPlace {
                name: thing.name.clone(),
                x_mm: number(thing, "x_mm")?,
                y_mm: number(thing, "y_mm")?,
                z_mm: 0.0,
                limit_g: (number(thing, "limit_g")? - fitted).max(0.0),
            })
        })
        .collect::<Result<_, _>>()?;
    if places.is_empty() {
        return Ok(None);
    }
    let question = BallastQuestion { centre: report.complete, band, places };
    least_ballast(&question).map(Some).map_err(Lacking::Refused)
}

/// "6 mm ahead" or "14 mm behind", as a person says it.
fn fore_aft_words(x_mm: f64) -> String {
    let side = if x_mm < 0.0 { "behind" } else { "ahead of" };
    format!("{:.1} mm {side} the main shaft", x_mm.abs())
}

pub(super) fn summary(report: &BalanceReport, ballast: Option<&BallastReport>) -> String {
    let complete = &report.complete;
    let side = if complete.y_mm < 0.0 { "left" } else { "right" };
    let where_it_is =
        format!("Balance point {}, {:.1} mm {side}", fore_aft_words(complete.x_mm), complete.y_mm.abs());
    match ballast.map(|ballast| (ballast, &ballast.answer)) {
        Some((ballast, BallastAnswer::Found { best, .. })) => {
            let grams = best.whole.as_ref().map(|whole| &whole.grams);
            let at = ballast.inputs.places.iter().enumerate().filter_map(|(index, place)| {
                let grams = grams.and_then(|grams| grams.get(index)).copied().filter(|grams| *grams > 0)?;
                Some(format!("{grams} g at {}", place.name))
            });
            let at: Vec<String> = at.collect();
            format!("{where_it_is}: least ballast {}", at.join(" and "))
        }
        Some((_, BallastAnswer::Impossible { shortfall })) => {
            let missing = shortfall.x_missing_mm.max(shortfall.y_missing_mm);
            format!("{where_it_is}: the ballast places cannot reach the band, {} mm are missing", show(missing))
        }
        _ => where_it_is,
    }
}

pub(super) fn values(report: &BalanceReport, ballast: Option<&BallastReport>) -> Vec<NamedValue> {
    let value = |name: &str, value: f64, unit| NamedValue { name: name.to_owned(), value, unit };
    let mut values = vec![
        value("Mass", report.complete.mass_g, Unit::Gram),
        value("Ahead of the main shaft", report.complete.x_mm, Unit::Millimetre),
        value("Ahead, plus or minus (95 %)", report.half_width.x_mm, Unit::Millimetre),
        value("Right of the main shaft", report.complete.y_mm, Unit::Millimetre),
        value("Right, plus or minus (95 %)", report.half_width.y_mm, Unit::Millimetre),
    ];
    if let Some(BallastAnswer::Found { best, .. }) = ballast.map(|ballast| &ballast.answer)
        && let Some(whole) = &best.whole
    {
        values.push(value("Least ballast", f64::from(whole.total_g), Unit::Gram));
    }
    values
}
