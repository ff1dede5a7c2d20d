use super::facts::number;
use super::packs::{last_reading, pack_readings};
use super::{Computed, Facts, Figure, Lacking, Result, outcome};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::engineering::pack::{PackLanding, REST_LOW_V, SPREAD_LIMIT_V, landing};
use crate::locale::say;
use crate::record::ThingKind;
use crate::unit::Unit;

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
    let whole_minutes = crate::locale::clock((timer * 60.0).floor() as i64);
    let usable_mah = capacity_mah * (1.0 - reserve_percent / 100.0);
    let capacity_from = if measured_mah.is_some() {
        say!(facts.locale, "computed-landing-measured")
    } else {
        say!(facts.locale, "computed-landing-label")
    };
    let figures = [
        Figure::judged(
            say!(facts.locale, "computed-landing-left"),
            report.left_percent,
            0,
            Unit::Percent,
            say!(
                facts.locale,
                "computed-landing-left-note",
                reserve = facts.locale.number(reserve_percent, 0),
                room = facts.locale.number(report.reserve_margin_percent, 0),
                capacity = facts.locale.plain(capacity_mah),
                from = capacity_from
            ),
            charge_grade(report.left_percent, reserve_percent),
        )
        .against(reserve_percent),
        Figure::told(say!(facts.locale, "computed-landing-flight"), timer, 1, Unit::Minute)
            .noted(say!(facts.locale, "computed-landing-flight-note")),
        Figure::told(say!(facts.locale, "computed-landing-current"), report.average_a, 1, Unit::Ampere),
    ];
    let lowest = report.lowest.map(|(_, cell_v)| {
        let grade = if cell_v < REST_LOW_V { Grade::Caution } else { Grade::Ok };
        let note = say!(facts.locale, "computed-landing-rest", limit = facts.locale.plain(REST_LOW_V));
        Figure::judged(say!(facts.locale, "computed-landing-lowest"), cell_v, 2, Unit::Volt, note, grade)
            .against(REST_LOW_V)
    });
    let spread = report.spread_v.filter(|_| report.inputs.cells_v.len() > 1).map(|spread_v| {
        let grade = if spread_v > SPREAD_LIMIT_V + 1e-9 { Grade::Caution } else { Grade::Ok };
        let note = say!(facts.locale, "computed-landing-at-most", limit = facts.locale.plain(SPREAD_LIMIT_V));
        Figure::judged(say!(facts.locale, "computed-landing-apart"), spread_v, 2, Unit::Volt, note, grade)
            .against(SPREAD_LIMIT_V)
    });
    Ok(Computed {
        outcome: outcome(grade),
        summary: say!(
            facts.locale,
            "computed-landing-summary",
            pack = pack.name,
            left = facts.locale.number(report.left_percent, 0),
            flown = crate::locale::clock(elapsed_ms / 1_000),
            timer = whole_minutes,
            reserve = facts.locale.number(reserve_percent, 0)
        ),
        figures: figures.into_iter().chain(lowest).chain(spread).collect(),
        rows: Vec::new(),
        picture: Some(bars(&[Bar {
            title: say!(facts.locale, "computed-landing-bar", pack = pack.name),
            value: used_mah,
            limit: usable_mah,
            text: say!(
                facts.locale,
                "computed-of",
                part = facts.locale.bare(used_mah, 0, Unit::MilliampereHour),
                whole = facts.locale.rounded(usable_mah, 0, Unit::MilliampereHour)
            ),
        }])),
        remarks: vec![say!(facts.locale, "computed-landing-basis")],
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
