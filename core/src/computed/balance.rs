use super::facts::number;
use super::{Computed, Facts, Figure, Lacking, Result, Row, outcome};
use crate::aircraft::Aircraft;
use crate::drawing::{Anchor, Ink, LabelSize, Picture, Sheet};
use crate::engineering::balance::{
    Accuracy, BalanceInput, BalanceReport, Band, BandMargin, Part, PartMove, Support, TiltedReadings, Weighing,
    balance_report, ballast_at, mass_to_shift, move_for, move_part,
};
use crate::engineering::ballast::{
    BallastAnswer, BallastPlace, BallastPlan, BallastQuestion, BallastReport, least_ballast,
};
use crate::locale::{Locale, say};
use crate::record::{Outcome, ThingKind, ThingNumber};
use crate::unit::Unit;

/// One scale says nothing of where the mass lies.
const LEAST_SCALES: usize = 2;
/// What a phone laid on the frame is good for as an inclinometer, degrees (common practice, no source).
const TILT_HALF_WIDTH_DEG: f64 = 0.5;

fn accuracy(aircraft: &Aircraft) -> Accuracy {
    Accuracy { scale_half_width_g: aircraft.scale_accuracy_g(), ruler_half_width_mm: aircraft.ruler_accuracy_mm() }
}

pub(super) fn centre(facts: Facts<'_>) -> Result<Computed> {
    let band = band(facts)?;
    let scales = facts.some_things(ThingKind::Weighing)?;
    if scales.len() < LEAST_SCALES {
        return Err(Lacking::Count { kind: ThingKind::Weighing, described: scales.len(), wanted: LEAST_SCALES });
    }
    let supports: Vec<Support> = scales
        .into_iter()
        .map(|thing| {
            Ok(Support {
                name: thing.name.clone(),
                reading_g: number(thing, ThingNumber::MassG)?,
                x_mm: number(thing, ThingNumber::XMm)?,
                y_mm: number(thing, ThingNumber::YMm)?,
                z_mm: 0.0,
            })
        })
        .collect::<Result<_>>()?;
    let accuracy = accuracy(&facts.ledger.aircraft);
    let input = BalanceInput {
        weighing: Some(Weighing { supports, tilted: tilted(facts) }),
        parts: parts(facts)?,
        accuracy,
        band: Some(band),
    };
    let report = balance_report(&input)?;
    let ballast = ballast(facts, &report, band)?;
    Ok(Computed {
        outcome: outcome(report.grade),
        summary: summary(facts.locale, &report, ballast.as_ref()),
        figures: figures(facts.locale, &report, ballast.as_ref()).into_iter().chain(height(facts, &report)).collect(),
        rows: second_best(facts.locale, ballast.as_ref()).into_iter().chain(moves(facts, &report, band)?).collect(),
        picture: Some(picture(facts.locale, &report, ballast.as_ref())),
        remarks: remarks(facts.locale, &report, accuracy),
    })
}

/// The second weighing, with the nose raised, where every scale was read and the angle too.
fn tilted(facts: Facts<'_>) -> Option<TiltedReadings> {
    let readings = facts.things(ThingKind::Weighing).into_iter().map(|thing| thing.number(ThingNumber::TiltedG));
    Some(TiltedReadings {
        readings_g: readings.collect::<Option<_>>()?,
        nose_up_deg: facts.ledger.aircraft.figure("weighing-tilt")?,
        angle_half_width_deg: TILT_HALF_WIDTH_DEG,
    })
}

/// How high the balance point lies: with what is still to come where each height is known, as weighed otherwise.
fn height(facts: Facts<'_>, report: &BalanceReport) -> Option<Figure> {
    let weighed_mm = report.fitted.and_then(|fitted| fitted.z_mm)?;
    let to_come = facts.things(ThingKind::ToCome);
    let all_known = to_come.iter().all(|thing| thing.number(ThingNumber::ZMm).is_some());
    let (label, value) = match report.complete.z_mm.filter(|_| all_known) {
        Some(complete_mm) => (say!(facts.locale, "computed-balance-height"), complete_mm),
        None => (say!(facts.locale, "computed-balance-height-weighed"), weighed_mm),
    };
    let known = report.half_width.z_mm.map_or_else(String::new, |mm| {
        say!(facts.locale, "computed-balance-height-known", mm = facts.locale.rounded(mm, 0, Unit::Millimetre))
    });
    let note = say!(facts.locale, "computed-balance-height-note", known = known);
    Some(Figure::told(label, value, 0, Unit::Millimetre).noted(note))
}

fn band(facts: Facts<'_>) -> Result<Band> {
    let figure = |id: &str| facts.figure(id);
    let lateral = figure("cg-lateral-limit")?.abs();
    Ok(Band {
        x_low_mm: figure("cg-aft-limit")?,
        x_high_mm: figure("cg-forward-limit")?,
        y_low_mm: -lateral,
        y_high_mm: lateral,
    })
}

/// Parts still to come, each at its own place, and ballast that was fitted since the weighing.
fn parts(facts: Facts<'_>) -> Result<Vec<Part>> {
    let aircraft = &facts.ledger.aircraft;
    let to_come = aircraft.things_of(ThingKind::ToCome).map(|thing| (thing, number(thing, ThingNumber::MassG), true));
    let fitted = aircraft.things_of(ThingKind::BallastPlace).filter_map(|thing| {
        thing.number(ThingNumber::FittedG).filter(|grams| *grams > 0.0).map(|grams| (thing, Ok(grams), false))
    });
    to_come
        .chain(fitted)
        .map(|(thing, mass_g, to_come)| {
            Ok(Part {
                name: thing.name.clone(),
                mass_g: mass_g?,
                x_mm: number(thing, ThingNumber::XMm)?,
                y_mm: number(thing, ThingNumber::YMm)?,
                z_mm: thing.number(ThingNumber::ZMm).unwrap_or(0.0),
                to_come,
            })
        })
        .collect()
}

fn ballast(facts: Facts<'_>, report: &BalanceReport, band: Band) -> Result<Option<BallastReport>> {
    let places: Vec<BallastPlace> = facts
        .things(ThingKind::BallastPlace)
        .into_iter()
        .map(|thing| {
            let fitted = thing.number(ThingNumber::FittedG).unwrap_or(0.0);
            Ok(BallastPlace {
                name: thing.name.clone(),
                x_mm: number(thing, ThingNumber::XMm)?,
                y_mm: number(thing, ThingNumber::YMm)?,
                z_mm: 0.0,
                limit_g: (number(thing, ThingNumber::LimitG)? - fitted).max(0.0),
            })
        })
        .collect::<Result<_>>()?;
    if places.is_empty() {
        return Ok(None);
    }
    // Aimed inside the band by what the measuring is good for, so that it holds with the interval and not by luck; a band
    // narrower than that is taken as it is.
    let band = band.inside(&report.half_width).unwrap_or(band);
    let question = BallastQuestion { centre: report.complete, band, places };
    Ok(Some(least_ballast(&question)?))
}

/// "6 mm ahead" or "14 mm behind", as a person says it.
fn fore_aft_words(locale: Locale, x_mm: f64) -> String {
    let mm = locale.rounded(x_mm.abs(), 1, Unit::Millimetre);
    if x_mm < 0.0 {
        say!(locale, "computed-balance-behind", mm = mm)
    } else {
        say!(locale, "computed-balance-ahead", mm = mm)
    }
}

fn summary(locale: Locale, report: &BalanceReport, ballast: Option<&BallastReport>) -> String {
    let complete = &report.complete;
    let mm = locale.rounded(complete.y_mm.abs(), 1, Unit::Millimetre);
    let side = if complete.y_mm < 0.0 {
        say!(locale, "computed-balance-left", mm = mm)
    } else {
        say!(locale, "computed-balance-right", mm = mm)
    };
    let ahead = fore_aft_words(locale, complete.x_mm);
    let where_it_is = say!(locale, "computed-balance-where", ahead = ahead, side = side);
    match ballast.map(|ballast| (ballast, &ballast.answer)) {
        Some((ballast, BallastAnswer::Found { best, .. })) => {
            say!(locale, "computed-balance-least", where = where_it_is, ballast = ballast_words(locale, ballast, best))
        }
        Some((_, BallastAnswer::Impossible { shortfall })) => {
            let missing = shortfall.x_missing_mm.max(shortfall.y_missing_mm);
            say!(locale, "computed-balance-short", where = where_it_is, missing = locale.rounded(missing, 1, Unit::Millimetre))
        }
        _ => where_it_is,
    }
}

/// A margin as a person says it.
fn room(locale: Locale, margin_mm: f64) -> String {
    if margin_mm < 0.0 {
        say!(locale, "computed-balance-outside", mm = locale.rounded(-margin_mm, 1, Unit::Millimetre))
    } else {
        say!(locale, "computed-balance-room", mm = locale.rounded(margin_mm, 1, Unit::Millimetre))
    }
}

/// Which grams go where.
fn ballast_words(locale: Locale, ballast: &BallastReport, plan: &BallastPlan) -> String {
    let grams = plan.whole.as_ref().map(|whole| whole.grams.clone()).unwrap_or_default();
    let used = ballast.inputs.places.iter().zip(grams).filter(|(_, grams)| *grams > 0);
    used.map(|(place, grams)| {
        say!(
            locale,
            "computed-balance-grams-at",
            grams = locale.quantity(f64::from(grams), Unit::Gram),
            place = place.name
        )
    })
    .collect::<Vec<_>>()
    .join(&say!(locale, "computed-and"))
}

fn second_best(locale: Locale, ballast: Option<&BallastReport>) -> Option<Row> {
    let ballast = ballast?;
    let BallastAnswer::Found { second: Some(second), .. } = &ballast.answer else { return None };
    Some(Row {
        title: say!(
            locale,
            "computed-balance-other-places",
            grams = locale.rounded(second.exact_total_g.ceil(), 0, Unit::Gram)
        ),
        word: say!(locale, "computed-balance-second"),
        detail: ballast_words(locale, ballast, second),
        outcome: Outcome::Pass,
    })
}

/// How far a pack is moved to see what that does, mm.
const TRIED_MM: f64 = 10.0;

/// What moving a pack does, before any lead; and lead that is fitted, moved or put at one place alone.
fn moves(facts: Facts<'_>, report: &BalanceReport, band: Band) -> Result<Vec<Row>> {
    let goal = band.inside(&report.half_width).unwrap_or(band);
    let required_mm = report.complete.x_mm.clamp(goal.x_low_mm, goal.x_high_mm);
    let packs = facts.things(ThingKind::Pack);
    let packs: Vec<Row> =
        packs.into_iter().filter_map(|pack| pack_move(facts.locale, pack, report, required_mm)).collect();
    let off_mm = (required_mm - report.complete.x_mm).abs();
    if off_mm < 0.05 {
        return Ok(packs);
    }
    let places = facts.things(ThingKind::BallastPlace);
    let mass_g = report.complete.mass_g;
    let alone = places.iter().filter_map(|place| {
        let (arm_mm, limit_g) = (place.number(ThingNumber::XMm)?, place.number(ThingNumber::LimitG)?);
        let grams = ballast_at(mass_g, report.complete.x_mm, required_mm, arm_mm).ok().filter(|g| *g <= limit_g)?;
        let detail =
            say!(facts.locale, "computed-balance-fore-aft-only", grams = facts.locale.quantity(limit_g, Unit::Gram));
        Some(told(
            say!(facts.locale, "computed-balance-alone", place = place.name),
            facts.locale.rounded(grams.ceil(), 0, Unit::Gram),
            detail,
        ))
    });
    let fitted = places.iter().filter(|place| place.number(ThingNumber::FittedG).is_some_and(|grams| grams > 0.0));
    let moved = fitted.flat_map(|from| {
        places.iter().filter_map(|to| {
            let (from_mm, to_mm) = (from.number(ThingNumber::XMm)?, to.number(ThingNumber::XMm)?);
            let grams = mass_to_shift(mass_g, report.complete.x_mm, required_mm, from_mm, to_mm).ok()?;
            let room_g = to.number(ThingNumber::LimitG)? - to.number(ThingNumber::FittedG).unwrap_or(0.0);
            let can = from.name != to.name && grams <= from.number(ThingNumber::FittedG)?.min(room_g);
            let title = say!(facts.locale, "computed-balance-lead", from = from.name, to = to.name);
            can.then(|| {
                told(
                    title,
                    facts.locale.rounded(grams.ceil(), 0, Unit::Gram),
                    say!(facts.locale, "computed-balance-adds-nothing"),
                )
            })
        })
    });
    Ok(packs.into_iter().chain(moved).chain(alone).collect())
}

/// A pack moved by a little, and by as much as is wanted.
fn pack_move(locale: Locale, pack: &crate::record::Thing, report: &BalanceReport, required_mm: f64) -> Option<Row> {
    let part_mass_g = pack.number(ThingNumber::MassG)?;
    let tried =
        move_part(&PartMove { centre: report.complete, part_mass_g, dx_mm: TRIED_MM, dy_mm: 0.0, dz_mm: 0.0 })
            .ok()?;
    let effect = say!(
        locale,
        "computed-balance-each",
        tried = locale.rounded(TRIED_MM, 0, Unit::Millimetre),
        shift = locale.rounded(tried.shift_x_mm, 1, Unit::Millimetre)
    );
    let by_mm = move_for(report.complete.mass_g, report.complete.x_mm, required_mm, part_mass_g).ok()?;
    let word = match by_mm {
        by_mm if by_mm.abs() < 0.5 => say!(locale, "computed-balance-may-stay"),
        by_mm if by_mm > 0.0 => {
            say!(locale, "computed-balance-forward", mm = locale.rounded(by_mm.ceil(), 0, Unit::Millimetre))
        }
        by_mm => say!(locale, "computed-balance-back", mm = locale.rounded((-by_mm).ceil(), 0, Unit::Millimetre)),
    };
    let place = pack.number(ThingNumber::XMm).filter(|_| by_mm.abs() >= 0.5).map_or_else(String::new, |x_mm| {
        say!(locale, "computed-balance-middle-then", mm = locale.rounded(x_mm + by_mm, 0, Unit::Millimetre))
    });
    Some(told(say!(locale, "computed-balance-moved", pack = pack.name), word, format!("{effect}{place}")))
}

fn told(title: String, word: String, detail: String) -> Row {
    Row { title, word, detail, outcome: Outcome::Pass }
}

fn figures(locale: Locale, report: &BalanceReport, ballast: Option<&BallastReport>) -> Vec<Figure> {
    let axis = |label: String, margin: &BandMargin| {
        let note = say!(
            locale,
            "computed-balance-axis-note",
            low = locale.quantity_bare(margin.low_mm, Unit::Millimetre),
            high = locale.quantity(margin.high_mm, Unit::Millimetre),
            room = room(locale, margin.margin_mm),
            known = locale.rounded(margin.half_width_mm, 1, Unit::Millimetre)
        );
        Figure::judged(label, margin.value_mm, 1, Unit::Millimetre, note, margin.grade)
    };
    let fore_aft = report.fore_aft.as_ref().map(|margin| axis(say!(locale, "computed-balance-ahead-label"), margin));
    let lateral = report.lateral.as_ref().map(|margin| axis(say!(locale, "computed-balance-right-label"), margin));
    let mass = Figure::told(say!(locale, "computed-balance-mass"), report.complete.mass_g, 0, Unit::Gram).noted(
        say!(locale, "computed-balance-mass-known", grams = locale.rounded(report.half_width.mass_g, 0, Unit::Gram)),
    );
    let ballast = ballast.and_then(|ballast| match &ballast.answer {
        BallastAnswer::Found { best, .. } => best.whole.as_ref(),
        _ => None,
    });
    let ballast = ballast.map(|whole| {
        let centre = &whole.centre;
        let note = say!(
            locale,
            "computed-balance-brings",
            ahead = locale.rounded(centre.x_mm, 1, Unit::Millimetre),
            right = locale.rounded(centre.y_mm, 1, Unit::Millimetre)
        );
        Figure::told(say!(locale, "computed-balance-least-label"), f64::from(whole.total_g), 0, Unit::Gram)
            .noted(note)
    });
    fore_aft.into_iter().chain(lateral).chain([mass]).chain(ballast).collect()
}

fn remarks(locale: Locale, report: &BalanceReport, accuracy: Accuracy) -> Vec<String> {
    let fitted = report.fitted.as_ref().map(|fitted| {
        say!(
            locale,
            "computed-balance-weighed",
            fitted = locale.rounded(fitted.x_mm, 1, Unit::Millimetre),
            complete = locale.rounded(report.complete.x_mm, 1, Unit::Millimetre)
        )
    });
    let flight =
        say!(locale, "computed-balance-electric", mm = locale.rounded(report.flight_shift_mm, 0, Unit::Millimetre));
    let basis = if accuracy == self::accuracy(&Aircraft::default()) {
        say!(locale, "computed-balance-usual")
    } else {
        say!(locale, "computed-balance-entered")
    };
    let accuracy = say!(
        locale,
        "computed-balance-accuracy",
        scale = locale.quantity(accuracy.scale_half_width_g, Unit::Gram),
        ruler = locale.quantity(accuracy.ruler_half_width_mm, Unit::Millimetre),
        basis = basis
    );
    fitted.into_iter().chain([flight, accuracy]).collect()
}

/// The aircraft from above, nose to the left: the allowed band, the balance point, and where ballast would go.
fn picture(locale: Locale, report: &BalanceReport, ballast: Option<&BallastReport>) -> Picture {
    let mut sheet = Sheet::new();
    let above = Above::of(report);
    above.axes(locale, &mut sheet);
    if let Some((fore, side)) = limits(report) {
        above.band(locale, &mut sheet, fore, side);
    }
    above.points(&mut sheet, report);
    let mut spoken = say!(
        locale,
        "computed-balance-spoken",
        ahead = locale.number(report.complete.x_mm, 1),
        right = locale.number(report.complete.y_mm, 1)
    );
    if let Some((ballast, BallastAnswer::Found { best, .. })) = ballast.map(|ballast| (ballast, &ballast.answer)) {
        let text = say!(locale, "computed-balance-add", ballast = ballast_words(locale, ballast, best));
        sheet.label(MIDDLE_X, 192.0, text.clone(), Ink::Action, LabelSize::Small, Anchor::Middle);
        spoken.push_str(&format!(", {text}"));
    }
    sheet.finish(200.0, spoken)
}

/// Both axes of the band, where the aircraft has one.
fn limits(report: &BalanceReport) -> Option<(&BandMargin, &BandMargin)> {
    report.fore_aft.as_ref().zip(report.lateral.as_ref())
}

/// Where the shaft stands on the sheet.
const MIDDLE_X: f32 = Sheet::WIDTH / 2.0;
const MIDDLE_Y: f32 = 104.0;

/// The view from above, at one scale for both axes, so that what is round stays round.
struct Above {
    /// Of the sheet, a millimetre.
    scale: f32,
}

impl Above {
    /// So that the band and the balance point stay within the sheet and under the words at its top.
    fn of(report: &BalanceReport) -> Above {
        let complete = &report.complete;
        let furthest = |mm: &[f64]| mm.iter().map(|mm| mm.abs()).fold(2.5, f64::max) as f32;
        let (reach_x, reach_y) = limits(report).map_or((20.0, 10.0), |(fore, side)| {
            let x = furthest(&[fore.low_mm, fore.high_mm, complete.x_mm]);
            (x, furthest(&[side.low_mm, side.high_mm, complete.y_mm]))
        });
        Above { scale: (140.0 / reach_x).min(56.0 / reach_y) }
    }

    /// Forward is to the left and right is up: the aircraft seen from above with its nose to the left.
    fn at(&self, x_mm: f64, y_mm: f64) -> (f32, f32) {
        (MIDDLE_X - x_mm as f32 * self.scale, MIDDLE_Y - y_mm as f32 * self.scale)
    }

    fn axes(&self, locale: Locale, sheet: &mut Sheet) {
        let (left, right) = (10.0, Sheet::WIDTH - 10.0);
        sheet.line(Ink::Quiet, 1.0, &[(left, MIDDLE_Y), (right, MIDDLE_Y)]).dashed = true;
        sheet.line(Ink::Quiet, 1.0, &[(MIDDLE_X, 44.0), (MIDDLE_X, 166.0)]).dashed = true;
        for (x, y, text, anchor) in [
            (left, MIDDLE_Y - 6.0, say!(locale, "computed-balance-nose"), Anchor::Start),
            (right, MIDDLE_Y - 6.0, say!(locale, "computed-balance-tail"), Anchor::End),
            (MIDDLE_X + 4.0, 172.0, say!(locale, "computed-balance-shaft"), Anchor::Start),
        ] {
            sheet.label(x, y, text, Ink::Quiet, LabelSize::Small, anchor);
        }
    }

    fn band(&self, locale: Locale, sheet: &mut Sheet, fore: &BandMargin, side: &BandMargin) {
        let (left, top) = self.at(fore.high_mm, side.high_mm);
        let (right, bottom) = self.at(fore.low_mm, side.low_mm);
        sheet.bar(Ink::Limit, left, top, right, bottom, false);
        for (line, way, margin) in [
            (14.0, say!(locale, "computed-balance-lengthwise"), fore),
            (34.0, say!(locale, "computed-balance-sideways"), side),
        ] {
            let text = format!("{way} {}", room(locale, margin.margin_mm));
            sheet.label(10.0, line, text, Ink::Strong, LabelSize::Small, Anchor::Start);
        }
    }

    /// As it was weighed, and with all that is still to come.
    fn points(&self, sheet: &mut Sheet, report: &BalanceReport) {
        if let Some(fitted) = &report.fitted {
            let (x, y) = self.at(fitted.x_mm, fitted.y_mm);
            sheet.ring(Ink::Quiet, x, y, 5.0, false);
        }
        let (x, y) = self.at(report.complete.x_mm, report.complete.y_mm);
        sheet.ring(Ink::Strong, x, y, 6.0, true);
        sheet.line(Ink::Strong, 2.0, &[(x - 12.0, y), (x + 12.0, y)]);
        sheet.line(Ink::Strong, 2.0, &[(x, y - 12.0), (x, y + 12.0)]);
    }
}
