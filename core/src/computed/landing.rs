use super::facts::number;
use super::packs::{last_reading, pack_readings};
use super::{Computed, Facts, Figure, Lacking, Result, outcome};
use crate::engineering::Grade;
use crate::engineering::pack::{PackLanding, REST_LOW_V, SPREAD_LIMIT_V, landing};
use crate::record::{ThingKind, Unit};
use crate::view::chart::{Bar, bars};

/// Charge left that is no caution yet, over the reserve (common practice, no source).
const COMFORT: f64 = 1.25;

/// What the last hover left in its pack, against the reserve, and the timer that keeps it.
pub(super) fn charge(facts: Facts<'_>) -> Result<Computed> {
    let flight = facts.last_hover()?;
    let reserve_percent = facts.figure("reserve-percent")?;
    let pack = facts.ledger.aircraft.thing(ThingKind::Pack, &flight.pack);
    let pack = pack.ok_or(Lacking::Things(ThingKind::Pack))?;
    let readings = pack_readings(facts, &pack.name);
    let measured_mah = last_reading(&readings, "measured_mah");
    let capacity_mah = match measured_mah {
        Some(measured) => measured,
        None => number(pack, "capacity_mah")?,
    };
    let cells_v: Vec<f64> =
        ["rest_low_v", "rest_high_v"].into_iter().filter_map(|field| last_reading(&readings, field)).collect();
    let lacking = || Lacking::Flight(flight.check.clone());
    let used_mah = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah).ok_or_else(lacking)?;
    let (_, elapsed_ms) = flight.down.as_ref().ok_or_else(lacking)?;
    let report = landing(&PackLanding {
        capacity_mah,
        used_mah,
        flown_min: *elapsed_ms as f64 / 60_000.0,
        cells_v,
        reserve_percent,
    })?;
    let grade = report.grade.max(charge_grade(report.left_percent, reserve_percent));
    let timer = report.time_to_reserve_min;
    let whole_minutes = crate::view::clock((timer * 60.0).floor() as i64);
    let usable_mah = capacity_mah * (1.0 - reserve_percent / 100.0);
    let capacity_from = if measured_mah.is_some() { "as measured" } else { "by its label" };
    let figures = [
        Figure::judged(
            "Charge left",
            report.left_percent,
            0,
            Unit::Percent,
            format!(
                "reserve {reserve_percent:.0} %, room {:.0} %; {} mAh {capacity_from}",
                report.reserve_margin_percent,
                crate::record::show(capacity_mah)
            ),
            charge_grade(report.left_percent, reserve_percent),
        )
        .against(reserve_percent),
        Figure::told("Flight that keeps the reserve", timer, 1, Unit::Minute)
            .noted("at the mean current of this hover; a timer is set to less"),
        Figure::told("Mean current", report.average_a, 1, Unit::Ampere),
    ];
    let lowest = report.lowest.map(|(_, cell_v)| {
        let grade = if cell_v < REST_LOW_V { Grade::Caution } else { Grade::Ok };
        let note = format!("at rest; {REST_LOW_V} V or more is wanted");
        Figure::judged("Lowest cell", cell_v, 2, Unit::Volt, note, grade).against(REST_LOW_V)
    });
    let spread = report.spread_v.filter(|_| report.inputs.cells_v.len() > 1).map(|spread_v| {
        let grade = if spread_v > SPREAD_LIMIT_V + 1e-9 { Grade::Caution } else { Grade::Ok };
        let note = format!("{SPREAD_LIMIT_V} V at most");
        Figure::judged("Cells apart at rest", spread_v, 2, Unit::Volt, note, grade).against(SPREAD_LIMIT_V)
    });
    Ok(Computed {
        outcome: outcome(grade),
        summary: format!(
            "{} kept {:.0} % after {}; {whole_minutes} at this current would leave {reserve_percent:.0} %",
            pack.name,
            report.left_percent,
            crate::view::clock(elapsed_ms / 1_000),
        ),
        figures: figures.into_iter().chain(lowest).chain(spread).collect(),
        rows: Vec::new(),
        picture: Some(bars(&[Bar {
            title: format!("Used of what may be used of {}", pack.name),
            value: used_mah,
            limit: usable_mah,
            text: format!("{used_mah:.0} of {usable_mah:.0} mAh"),
        }])),
        remarks: vec![
            "Charge left, rest voltage of 3.7 V a cell and 0.05 V between cells are common practice, no source. A cold \
             pack, an old one and a harder flight take more: set the timer shorter than this."
                .to_owned(),
        ],
    })
}

/// Under the reserve is a stop, little above it a caution.
fn charge_grade(left_percent: f64, reserve_percent: f64) -> Grade {
    if left_percent < reserve_percent {
        Grade::Stop
    } else if left_percent < COMFORT * reserve_percent {
        Grade::Caution
    } else {
        Grade::Ok
    }
}
