use super::facts::number;
use super::{Computed, Facts, Figure, Lacking, Result, outcome, worst};
use crate::drawing::{Bar, bars};
use crate::engineering::Grade;
use crate::engineering::pack::{RippleShape, TwoLoads, internal_resistance, ripple, ripple_rms};
use crate::locale::{Locale, say};
use crate::record::{Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// Caution from this share of the limit (common practice, no source).
const CAUTION_SHARE: f64 = 0.8;
/// What is read lightly loaded is read at this share of the highest current or less (common practice, no source).
const LIGHT_SHARE: f64 = 0.75;
/// How well a log knows the voltage of the whole string, V (common practice, no source).
const LOG_V: f64 = 0.1;

/// One reading against both limits: the maker's, and the one by the number of cells.
struct Judged<'a> {
    thing: &'a Thing,
    current_a: f64,
    voltage_v: f64,
    ripple_v: f64,
    limit_v: f64,
    grade: Grade,
}

/// Ripple on the main pack's leads against its limit, and the current that it drives through the pack.
pub(super) fn on_pack_leads(facts: Facts<'_>) -> Result<Computed> {
    let cells = facts.whole("pack-cells")?;
    let maker_v = facts.figure("ripple-limit")?;
    let readings: Vec<Judged<'_>> = facts
        .some_things(ThingKind::LoadReading)?
        .into_iter()
        .map(|thing| judge(thing, cells, maker_v))
        .collect::<Result<_>>()?;
    let Some(tightest) = readings.iter().max_by(|a, b| a.ripple_v.total_cmp(&b.ripple_v)) else {
        return Err(Lacking::Things(ThingKind::LoadReading));
    };
    two_loads(&readings)?;
    let judged = readings.iter().map(|reading| {
        let note = say!(
            facts.locale,
            "computed-ripple-note",
            current = facts.locale.number(reading.current_a, 0),
            limit = facts.locale.number(reading.limit_v, 2)
        );
        Figure::judged(reading.thing.name.clone(), reading.ripple_v, 2, Unit::Volt, note, reading.grade)
            .against(reading.limit_v)
    });
    let bar = |reading: &Judged<'_>| Bar {
        title: say!(
            facts.locale,
            "computed-ripple-at",
            name = reading.thing.name,
            current = facts.locale.number(reading.current_a, 0)
        ),
        value: reading.ripple_v,
        limit: reading.limit_v,
        text: say!(
            facts.locale,
            "computed-of",
            part = facts.locale.bare(reading.ripple_v, 2, Unit::Volt),
            whole = facts.locale.rounded(reading.limit_v, 2, Unit::Volt)
        ),
    };
    Ok(Computed {
        outcome: outcome(worst(readings.iter().map(|reading| reading.grade))),
        summary: summary(facts.locale, tightest),
        figures: judged.chain(told(facts, tightest, &readings, cells)?).collect(),
        rows: Vec::new(),
        picture: Some(bars(&readings.iter().map(bar).collect::<Vec<_>>())),
        remarks: vec![say!(facts.locale, "computed-ripple-basis"), say!(facts.locale, "computed-ripple-cure")],
    })
}

/// Lightly loaded and at the highest current: one reading says nothing of how ripple grows.
fn two_loads(readings: &[Judged<'_>]) -> Result<()> {
    let currents = || readings.iter().map(|reading| reading.current_a);
    let (light_a, heavy_a) = (currents().fold(f64::INFINITY, f64::min), currents().fold(0.0, f64::max));
    if light_a > LIGHT_SHARE * heavy_a { Err(Lacking::OtherLoad(heavy_a)) } else { Ok(()) }
}

fn judge(thing: &Thing, cells: u32, maker_v: f64) -> Result<Judged<'_>> {
    let ripple_v = number(thing, ThingNumber::RippleV)?;
    let by_cells = ripple(cells, ripple_v)?;
    let limit_v = by_cells.limit_v.min(maker_v);
    Ok(Judged {
        thing,
        current_a: number(thing, ThingNumber::CurrentA)?,
        voltage_v: number(thing, ThingNumber::VoltageV)?,
        ripple_v,
        limit_v,
        grade: by_cells.grade.max(Grade::of_load(ripple_v, limit_v, CAUTION_SHARE)),
    })
}

fn summary(locale: Locale, tightest: &Judged<'_>) -> String {
    let margin_v = tightest.limit_v - tightest.ripple_v;
    let ripple = locale.rounded(tightest.ripple_v, 2, Unit::Volt);
    let current = locale.rounded(tightest.current_a, 0, Unit::Ampere);
    let margin = locale.rounded(margin_v.abs(), 2, Unit::Volt);
    let limit = locale.rounded(tightest.limit_v, 2, Unit::Volt);
    if margin_v < 0.0 {
        say!(locale, "computed-ripple-over", ripple = ripple, current = current, margin = margin, limit = limit)
    } else {
        say!(locale, "computed-ripple-under", ripple = ripple, current = current, margin = margin, limit = limit)
    }
}

/// The ripple current and its heat, and the resistance that two readings under different loads give.
fn told(facts: Facts<'_>, tightest: &Judged<'_>, readings: &[Judged<'_>], cells: u32) -> Result<Vec<Figure>> {
    let entered_ohm = facts.figure("main-pack-resistance")?;
    let current_a = ripple_rms(tightest.ripple_v / entered_ohm, RippleShape::Triangle)?;
    let heat_w = current_a * current_a * entered_ohm;
    let current = Figure::told(say!(facts.locale, "computed-ripple-current"), current_a, 1, Unit::Ampere)
        .noted(say!(facts.locale, "computed-ripple-heat", heat = facts.locale.number(heat_w, 0)));
    Ok([current].into_iter().chain(resistance(facts.locale, readings, cells, entered_ohm)).collect())
}

/// Two loads of one string give its resistance (IEC 61960), where they go together.
fn resistance(locale: Locale, readings: &[Judged<'_>], cells: u32, entered_ohm: f64) -> Option<Figure> {
    let light = readings.iter().min_by(|a, b| a.current_a.total_cmp(&b.current_a))?;
    let heavy = readings.iter().max_by(|a, b| a.current_a.total_cmp(&b.current_a))?;
    let report = internal_resistance(&TwoLoads {
        low_a: light.current_a,
        low_load_v: light.voltage_v,
        high_a: heavy.current_a,
        high_load_v: heavy.voltage_v,
        cells,
        voltmeter_half_width_v: LOG_V,
    })
    .ok()?;
    let note = say!(
        locale,
        "computed-ripple-resistance-note",
        half = locale.number(report.half_width_ohm * 1_000.0, 1),
        entered = locale.number(entered_ohm * 1_000.0, 1)
    );
    Some(
        Figure::told(say!(locale, "computed-ripple-resistance"), report.pack_ohm * 1_000.0, 1, Unit::Milliohm)
            .noted(note),
    )
}
