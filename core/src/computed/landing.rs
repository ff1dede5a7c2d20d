use super::facts::number;
use super::packs::pack_readings;
use super::{Computed, Facts, Figure, Lacking, Result, outcome};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::engineering::pack::{PackLanding, PackLandingReport, REST_LOW_V, SPREAD_LIMIT_V, landing};
use crate::field::{Capacity, Flight};
use crate::locale::{Locale, clock, say};
use crate::record::{Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// Charge left that is no caution yet, over the reserve (common practice, no source).
const COMFORT: f64 = 1.25;

/// What the last hover left in its pack, against the reserve, and the timer that keeps it.
pub(super) fn charge(facts: Facts<'_>) -> Result<Computed> {
    let asked = gather(facts)?;
    let report = landing(&asked.landing)?;
    Ok(answer(facts.locale, &asked, &report))
}

/// The landing that is judged, and what of it is said.
struct Asked {
    packs: String,
    landing: PackLanding,
    flown_ms: i64,
    /// Whether the capacity was measured, and is not the label's.
    is_measured: bool,
}

fn gather(facts: Facts<'_>) -> Result<Asked> {
    let flight = facts.last_hover()?;
    let reserve_percent = facts.figure("reserve-percent")?;
    let (mut weakest, mut cells_v): (Option<Capacity>, _) = (None, Vec::new());
    for name in flight.packs() {
        let capacity = capacity(facts, name)?;
        if weakest.is_none_or(|weakest| capacity.mah < weakest.mah) {
            weakest = Some(capacity);
        }
        cells_v.extend(resting_cells_v(facts, flight, name)?);
    }
    let weakest = weakest.ok_or(Lacking::Things(ThingKind::Pack))?;
    let lacking = || Lacking::Flight(flight.check.clone());
    let used_mah = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah).ok_or_else(lacking)?;
    let flown_ms = flight.flown_ms().ok_or_else(lacking)?;
    let flown_min = flown_ms as f64 / 60_000.0;
    let landing = PackLanding { capacity_mah: weakest.mah, used_mah, flown_min, cells_v, reserve_percent };
    Ok(Asked { packs: flight.pack_names(), landing, flown_ms, is_measured: weakest.measured_at.is_some() })
}

/// What a pack holds, which has to be described.
fn capacity(facts: Facts<'_>, name: &str) -> Result<Capacity> {
    let pack = facts.ledger.aircraft.thing(ThingKind::Pack, name).ok_or(Lacking::Things(ThingKind::Pack))?;
    number(pack, ThingNumber::CapacityMah)?;
    Capacity::of(&facts.ledger.aircraft, name).ok_or(Lacking::Things(ThingKind::Pack))
}

/// Lowest and highest cell at rest, read after this flight: what the check asks for, and what tells a tired cell from a tired pack.
fn resting_cells_v(facts: Facts<'_>, flight: &Flight, pack: &str) -> Result<Vec<f64>> {
    let readings = pack_readings(facts, pack);
    let run = facts.ledger.run_number(flight.card).unwrap_or(0);
    let since = readings.iter().rev().filter(|reading| facts.runs_before(reading) >= run);
    let both = |reading: &&Thing| {
        Some(vec![reading.number(ThingNumber::RestLowV)?, reading.number(ThingNumber::RestHighV)?])
    };
    since.copied().find_map(|reading| both(&reading)).ok_or_else(|| Lacking::RestingPack(pack.to_owned()))
}

fn answer(locale: Locale, asked: &Asked, report: &PackLandingReport) -> Computed {
    let PackLanding { capacity_mah, used_mah, reserve_percent, .. } = asked.landing;
    let usable_mah = capacity_mah * (1.0 - reserve_percent / 100.0);
    Computed {
        outcome: outcome(report.grade.max(charge_grade(report.left_percent, reserve_percent))),
        summary: say!(
            locale,
            "computed-landing-summary",
            pack = asked.packs,
            left = locale.number(report.left_percent, 0),
            flown = clock(asked.flown_ms / 1_000),
            timer = clock((report.time_to_reserve_min * 60.0).floor() as i64),
            reserve = locale.number(reserve_percent, 0)
        ),
        figures: charge_figures(locale, asked, report).into_iter().chain(cell_figures(locale, report)).collect(),
        rows: Vec::new(),
        picture: Some(bars(&[Bar {
            title: say!(locale, "computed-landing-bar", pack = asked.packs),
            value: used_mah,
            limit: usable_mah,
            text: say!(
                locale,
                "computed-of",
                part = locale.bare(used_mah, 0, Unit::MilliampereHour),
                whole = locale.rounded(usable_mah, 0, Unit::MilliampereHour)
            ),
        }])),
        remarks: vec![say!(locale, "computed-landing-basis")],
    }
}

fn charge_figures(locale: Locale, asked: &Asked, report: &PackLandingReport) -> [Figure; 3] {
    let PackLanding { capacity_mah, reserve_percent, .. } = asked.landing;
    let capacity_from = if asked.is_measured {
        say!(locale, "computed-landing-measured")
    } else {
        say!(locale, "computed-landing-label")
    };
    let left_note = say!(
        locale,
        "computed-landing-left-note",
        reserve = locale.number(reserve_percent, 0),
        room = locale.number(report.reserve_margin_percent, 0),
        capacity = locale.plain(capacity_mah),
        from = capacity_from
    );
    [
        Figure::judged(
            say!(locale, "computed-landing-left"),
            report.left_percent,
            0,
            Unit::Percent,
            left_note,
            charge_grade(report.left_percent, reserve_percent),
        )
        .against(reserve_percent),
        Figure::told(say!(locale, "computed-landing-flight"), report.time_to_reserve_min, 1, Unit::Minute)
            .noted(say!(locale, "computed-landing-flight-note")),
        Figure::told(say!(locale, "computed-landing-current"), report.average_a, 1, Unit::Ampere),
    ]
}

/// What the cells showed at rest, where they were read.
fn cell_figures(locale: Locale, report: &PackLandingReport) -> Vec<Figure> {
    let lowest = report.lowest.map(|(_, cell_v)| {
        let grade = if cell_v < REST_LOW_V { Grade::Caution } else { Grade::Ok };
        let note = say!(locale, "computed-landing-rest", limit = locale.plain(REST_LOW_V));
        Figure::judged(say!(locale, "computed-landing-lowest"), cell_v, 2, Unit::Volt, note, grade)
            .against(REST_LOW_V)
    });
    let spread = report.spread_v.filter(|_| report.inputs.cells_v.len() > 1).map(|spread_v| {
        let grade = if spread_v > SPREAD_LIMIT_V + 1e-9 { Grade::Caution } else { Grade::Ok };
        let note = say!(locale, "computed-landing-at-most", limit = locale.plain(SPREAD_LIMIT_V));
        Figure::judged(say!(locale, "computed-landing-apart"), spread_v, 2, Unit::Volt, note, grade)
            .against(SPREAD_LIMIT_V)
    });
    lowest.into_iter().chain(spread).collect()
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
