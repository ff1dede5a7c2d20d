use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome, worst, worst_first};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::engineering::pack::{
    ColdReport, PackHealth, RetireReason, TwoLoads, cold, flight_time, internal_resistance, retire,
};
use crate::field::Capacity;
use crate::locale::{Locale, say};
use crate::record::{Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

use super::drive_load::LOADED_CELL_V;

/// What a hand-held voltmeter is good for, V (common practice, no source).
const VOLTMETER_V: f64 = 0.02;
/// The cold day of which every answer warns, degrees Celsius.
const COLD_C: f64 = 10.0;

/// Each pack: whether it should be retired and why, and how long a flight it allows at the power last flown.
pub(super) fn life(facts: Facts<'_>) -> Result<Computed> {
    let packs = facts.some_things(ThingKind::Pack)?;
    let judged: Vec<Judged<'_>> = packs.into_iter().map(|pack| judge(facts, pack)).collect::<Result<_>>()?;
    Ok(answer(facts.locale, &judged, allowed_minutes(facts)?, &cold(COLD_C)?))
}

fn answer(locale: Locale, judged: &[Judged<'_>], allowed_min: Option<f64>, cold: &ColdReport) -> Computed {
    let bars_of: Vec<Bar> = judged.iter().filter_map(|pack| bar(locale, pack)).collect();
    let time_figure = allowed_min.map(|minutes| {
        Figure::told(say!(locale, "computed-landing-flight"), minutes, 1, Unit::Minute)
            .noted(say!(locale, "computed-packs-flight-note"))
    });
    Computed {
        outcome: outcome(worst(judged.iter().map(|pack| pack.grade))),
        summary: summary(locale, judged, allowed_min),
        figures: judged.iter().filter_map(|pack| figure(locale, pack)).chain(time_figure).collect(),
        rows: judged.iter().map(|pack| row(locale, pack)).collect(),
        picture: if bars_of.is_empty() { None } else { Some(bars(&bars_of)) },
        remarks: vec![
            say!(locale, "computed-packs-basis"),
            say!(
                locale,
                "computed-packs-cold",
                temperature = locale.quantity(COLD_C, Unit::Celsius),
                percent = locale.number(cold.capacity_factor * 100.0, 0)
            ),
        ],
    }
}

fn summary(locale: Locale, judged: &[Judged<'_>], allowed_min: Option<f64>) -> String {
    let time = allowed_min
        .map_or_else(String::new, |minutes| say!(locale, "computed-packs-time", minutes = locale.number(minutes, 1)));
    match worst_first(judged, |pack| pack.grade, |_| 0.0).filter(|pack| pack.grade != Grade::Ok) {
        Some(pack) => {
            say!(locale, "computed-packs-tired", pack = pack.name, reasons = pack.reasons.join(", "), time = time)
        }
        None => say!(locale, "computed-packs-none", time = time),
    }
}

fn row(locale: Locale, pack: &Judged<'_>) -> Row {
    Row {
        title: pack.name.to_owned(),
        word: match pack.grade {
            Grade::Ok => say!(locale, "computed-packs-serves"),
            Grade::Caution => say!(locale, "computed-packs-watch"),
            Grade::Stop => say!(locale, "computed-packs-retire"),
        },
        detail: if pack.reasons.is_empty() {
            say!(locale, "computed-packs-nothing")
        } else {
            pack.reasons.join(", ")
        },
        outcome: outcome(pack.grade),
    }
}

fn figure(locale: Locale, pack: &Judged<'_>) -> Option<Figure> {
    let label = say!(locale, "computed-packs-resistance", pack = pack.name);
    let note = say!(locale, "computed-packs-of-new");
    Some(Figure::judged(label, pack.ratio? * 100.0, 0, Unit::Percent, note, pack.grade))
}

fn bar(locale: Locale, pack: &Judged<'_>) -> Option<Bar> {
    let ratio = pack.ratio?;
    let text = say!(locale, "computed-packs-bar", percent = locale.number(ratio * 100.0, 0));
    Some(Bar { title: pack.name.to_owned(), value: ratio, limit: 2.0, text })
}

/// A pack and what is known against it.
struct Judged<'a> {
    name: &'a str,
    ratio: Option<f64>,
    grade: Grade,
    reasons: Vec<String>,
}

/// What was read of one pack over its life, by the flights on it and then by the journal.
pub(super) fn pack_readings<'a>(facts: Facts<'a>, pack: &str) -> Vec<&'a Thing> {
    let mut readings = facts.things(ThingKind::PackReading);
    readings.retain(|thing| thing.of.as_deref() == Some(pack));
    let flights = |thing: &Thing| thing.number(ThingNumber::Flights).unwrap_or(0.0);
    readings
        .sort_by(|a, b| flights(a).total_cmp(&flights(b)).then(facts.described_at(a).cmp(&facts.described_at(b))));
    readings
}

/// The last reading that has a number for this.
pub(super) fn last_reading(readings: &[&Thing], field: ThingNumber) -> Option<f64> {
    readings.iter().rev().find_map(|reading| reading.number(field))
}

/// Resistance of a pack by one reading, milliohm: from two loads (IEC 61960) where they go together, or as it was read.
pub(super) fn resistance_mohm(pack: &Thing, reading: &Thing) -> Option<f64> {
    let two_loads = || {
        let loads = TwoLoads {
            low_a: reading.number(ThingNumber::LightA)?,
            low_load_v: reading.number(ThingNumber::LightV)?,
            high_a: reading.number(ThingNumber::HeavyA)?,
            high_load_v: reading.number(ThingNumber::HeavyV)?,
            cells: pack.number(ThingNumber::Cells)? as u32,
            voltmeter_half_width_v: VOLTMETER_V,
        };
        internal_resistance(&loads).ok().map(|report| report.pack_ohm * 1_000.0)
    };
    two_loads().or_else(|| reading.number(ThingNumber::NowMohm))
}

/// Resistance of a pack as it was read last, milliohm.
pub(super) fn last_resistance_mohm(facts: Facts<'_>, pack: &Thing) -> Option<f64> {
    pack_readings(facts, &pack.name).iter().rev().find_map(|reading| resistance_mohm(pack, reading))
}

fn judge<'a>(facts: Facts<'_>, pack: &'a Thing) -> Result<Judged<'a>> {
    let capacity = number(pack, ThingNumber::CapacityMah)?;
    let readings = pack_readings(facts, &pack.name);
    let now_mohm = last_resistance_mohm(facts, pack);
    let ratio = pack.number(ThingNumber::NewMohm).zip(now_mohm).map(|(new_mohm, now_mohm)| now_mohm / new_mohm);
    let damaged = facts.ledger.damaged.get(&pack.name);
    let report = retire(&PackHealth {
        resistance_ratio: ratio,
        capacity_ratio: last_reading(&readings, ThingNumber::MeasuredMah).map(|measured| measured / capacity),
        charged_spread_v: last_reading(&readings, ThingNumber::SpreadV),
        hot_cell_k: last_reading(&readings, ThingNumber::HotCellK),
        damaged: damaged.is_some(),
    })?;
    let reasons = report.reasons.iter().map(|reason| match (reason, damaged) {
        (RetireReason::Damaged, Some(state)) => facts.locale.inside(&state.word(facts.locale)),
        (reason, _) => words(facts.locale, reason),
    });
    let reasons = reasons.collect();
    Ok(Judged { name: &pack.name, ratio, grade: report.grade, reasons })
}

fn words(locale: Locale, reason: &RetireReason) -> String {
    match reason {
        RetireReason::Damaged => say!(locale, "computed-packs-damaged"),
        RetireReason::Resistance { ratio, .. } => {
            say!(locale, "computed-packs-by-resistance", percent = locale.number(*ratio * 100.0, 0))
        }
        RetireReason::Capacity { ratio, .. } => {
            say!(locale, "computed-packs-by-capacity", percent = locale.number(*ratio * 100.0, 0))
        }
        RetireReason::Spread { spread_v, .. } => {
            say!(locale, "computed-packs-by-spread", volts = locale.number(*spread_v, 2))
        }
        RetireReason::HotCell { above_k, .. } => {
            say!(locale, "computed-packs-by-heat", kelvin = locale.rounded(*above_k, 0, Unit::Kelvin))
        }
    }
}

/// Minutes that keep the reserve at the power of the last hover; none before there was one.
fn allowed_minutes(facts: Facts<'_>) -> Result<Option<f64>> {
    let Some(current_ma) = facts.hovers().next_back().and_then(|flight| flight.mean_current_ma()) else {
        return Ok(None);
    };
    let nominal_v = facts.figure("pack-cells")? * LOADED_CELL_V;
    let power_w = current_ma / 1_000.0 * nominal_v;
    let of_each = facts.things(ThingKind::Pack).into_iter();
    let weakest = of_each.filter_map(|pack| Some(Capacity::of(&facts.ledger.aircraft, &pack.name)?.mah));
    let capacity_mah = weakest.min_by(f64::total_cmp).map_or_else(|| facts.figure("pack-capacity"), Ok)?;
    let minutes = flight_time(capacity_mah, nominal_v, facts.figure("reserve-percent")?, power_w)?;
    Ok(Some(minutes))
}
