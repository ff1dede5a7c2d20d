use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome, worst};
use crate::engineering::Grade;
use crate::engineering::pack::{PackHealth, RetireReason, TwoLoads, cold, flight_time, internal_resistance, retire};
use crate::record::{Thing, ThingKind, Unit};
use crate::view::chart::{Bar, bars};

use super::hover::LOADED_CELL_V;

/// What a hand-held voltmeter is good for, V (common practice, no source).
const VOLTMETER_V: f64 = 0.02;

/// Each pack: whether it should be retired and why, and how long a flight it allows at the power last flown.
pub(super) fn life(facts: Facts<'_>) -> Result<Computed> {
    let packs = facts.some_things(ThingKind::Pack)?;
    let judged: Vec<(&Thing, Grade, Vec<String>)> =
        packs.into_iter().map(|pack| judge(pack)).collect::<Result<_>>()?;
    let tired = judged.iter().find(|(_, grade, _)| *grade != Grade::Ok);
    let allowed = allowed_minutes(facts)?;
    let time = allowed.map_or_else(String::new, |minutes| format!("; {minutes:.1} min a flight keep the reserve"));
    let summary = match tired {
        Some((pack, _, reasons)) => format!("{}: {}{time}", pack.name, reasons.join(", ")),
        None => format!("No pack gives a reason to retire it{time}"),
    };
    let rows = judged.iter().map(|(pack, grade, reasons)| Row {
        title: pack.name.clone(),
        word: match grade {
            Grade::Ok => "Serves on",
            Grade::Caution => "Watch it",
            Grade::Stop => "Retire it",
        }
        .to_owned(),
        detail: if reasons.is_empty() { "nothing known against it".to_owned() } else { reasons.join(", ") },
        outcome: outcome(*grade),
    });
    let figures = judged.iter().filter_map(|(pack, grade, _)| ratio_figure(pack, *grade));
    let bar_of = judged.iter().filter_map(|(pack, ..)| {
        let ratio = ratio(pack)?;
        let text = format!("{:.0} % of new, retired at 200 %", ratio * 100.0);
        Some(Bar { title: pack.name.clone(), value: ratio, limit: 2.0, text })
    });
    let all: Vec<Bar> = bar_of.collect();
    let time_figure = allowed.map(|minutes| {
        Figure::told("Flight that keeps the reserve", minutes, 1, Unit::Minute)
            .noted("at the power of the last hover; common practice, no source")
    });
    let cold_words = cold(10.0)?;
    Ok(Computed {
        outcome: outcome(worst(judged.iter().map(|(_, grade, _)| *grade))),
        summary,
        figures: figures.chain(time_figure).collect(),
        rows: rows.collect(),
        picture: if all.is_empty() { None } else { Some(bars(&all)) },
        remarks: vec![
            "Retired at double the new resistance, under 80 % of the capacity, when cells drift apart or one runs hot, and \
             always when swollen or dented (common practice, no source). No reason found is no promise."
                .to_owned(),
            format!(
                "A pack at 10 °C is planned with {:.0} % of its capacity; colder ones stay on the ground.",
                cold_words.capacity_factor * 100.0
            ),
        ],
    })
}

/// Resistance over that of the new pack, by the reading that was entered or from two loads.
fn ratio(pack: &Thing) -> Option<f64> {
    let new_mohm = pack.number("new_mohm")?;
    let now_mohm = two_loads(pack).or_else(|| pack.number("now_mohm"))?;
    Some(now_mohm / new_mohm)
}

/// Resistance from two loads (IEC 61960), milliohm, where both readings are there and go together.
fn two_loads(pack: &Thing) -> Option<f64> {
    let loads = TwoLoads {
        low_a: pack.number("light_a")?,
        low_load_v: pack.number("light_v")?,
        high_a: pack.number("heavy_a")?,
        high_load_v: pack.number("heavy_v")?,
        cells: pack.number("cells")? as u32,
        voltmeter_half_width_v: VOLTMETER_V,
    };
    internal_resistance(&loads).ok().map(|report| report.pack_ohm * 1_000.0)
}

fn judge(pack: &Thing) -> Result<(&Thing, Grade, Vec<String>)> {
    let capacity = number(pack, "capacity_mah")?;
    let report = retire(&PackHealth {
        resistance_ratio: ratio(pack),
        capacity_ratio: pack.number("measured_mah").map(|measured| measured / capacity),
        charged_spread_v: pack.number("spread_v"),
        hot_cell_k: pack.number("hot_cell_k"),
        damaged: false,
    })?;
    Ok((pack, report.grade, report.reasons.iter().map(words).collect()))
}

fn words(reason: &RetireReason) -> String {
    match reason {
        RetireReason::Damaged => "swollen, dented or punctured".to_owned(),
        RetireReason::Resistance { ratio, .. } => format!("resistance {:.0} % of new", ratio * 100.0),
        RetireReason::Capacity { ratio, .. } => format!("capacity {:.0} % of its label", ratio * 100.0),
        RetireReason::Spread { spread_v, .. } => format!("cells {spread_v:.2} V apart when charged"),
        RetireReason::HotCell { above_k, .. } => format!("one cell {above_k:.0} K hotter than the rest"),
    }
}

fn ratio_figure(pack: &Thing, grade: Grade) -> Option<Figure> {
    let percent = ratio(pack)? * 100.0;
    let note = "of its value when new; retired at 200 %".to_owned();
    Some(Figure::judged(format!("{}: resistance", pack.name), percent, 0, Unit::Percent, note, grade))
}

/// Minutes that keep the reserve at the power of the last hover; none before there was one.
fn allowed_minutes(facts: Facts<'_>) -> Result<Option<f64>> {
    let Some(current_ma) = facts.hovers().next_back().and_then(|flight| flight.mean_current_ma()) else {
        return Ok(None);
    };
    let nominal_v = facts.figure("pack-cells")? * LOADED_CELL_V;
    let power_w = current_ma / 1_000.0 * nominal_v;
    let minutes = flight_time(facts.figure("pack-capacity")?, nominal_v, facts.figure("reserve-percent")?, power_w)?;
    Ok(Some(minutes))
}
