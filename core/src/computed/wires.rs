use super::facts::number;
use super::{Computed, Facts, Figure, Result, Row, outcome, worst, worst_first};
use crate::drawing::{Bar, bars};
use crate::engineering::wire::{
    BEST_INSULATION_C, STRANDED_FACTOR, WireReport, WireRun, WireWarmth, choose_wire, gauge_area_mm2, wire_run,
};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// How much warmer the air in a body is than the day (common practice, no source).
const IN_THE_BODY_K: f64 = 10.0;

/// A run and what became of it.
type Run<'a> = (&'a str, WireReport);

/// Each run of wire: drop and temperature against what is allowed, and the thinnest wire with its fuse that would do.
pub(super) fn runs(facts: Facts<'_>) -> Result<Computed> {
    let locale = facts.locale;
    let air_c = facts.figure("hot-day-temperature")? + IN_THE_BODY_K;
    let runs: Vec<Run<'_>> = facts
        .some_things(ThingKind::Wire)?
        .into_iter()
        .map(|thing| Ok((thing.name.as_str(), wire_run(&run(thing, air_c)?)?)))
        .collect::<Result<_>>()?;
    let worst_run = worst_first(&runs, |(_, report)| report.grade, |(_, report)| -load_percent(report));
    let basis = say!(locale, "computed-wires-basis", warmer = locale.rounded(IN_THE_BODY_K, 0, Unit::Kelvin));
    Ok(Computed {
        outcome: outcome(worst(runs.iter().map(|(_, report)| report.grade))),
        summary: worst_run.map_or_else(String::new, |run| headline(locale, run)),
        figures: runs.iter().flat_map(|run| figures(locale, run)).collect(),
        rows: runs.iter().flat_map(|run| [unsettled(locale, run), choice(locale, run)]).flatten().collect(),
        picture: Some(bars(&runs.iter().flat_map(|run| pictured(locale, run)).collect::<Vec<_>>())),
        remarks: vec![basis],
    })
}

/// Percent of the rise to its limit that a wire makes, where that is known.
fn warmed_percent(report: &WireReport) -> Option<f64> {
    let room_k = report.limit_c - report.inputs.air_c;
    match report.warmth {
        WireWarmth::Settles { conductor_c } if room_k > 0.0 => {
            Some(100.0 * (conductor_c - report.inputs.air_c) / room_k)
        }
        WireWarmth::Settles { .. } | WireWarmth::Burns { .. } => Some(f64::INFINITY),
        WireWarmth::NotKnown => None,
    }
}

/// The larger share of what the wire may drop and warm, percent.
fn load_percent(report: &WireReport) -> f64 {
    warmed_percent(report).unwrap_or_default().max(100.0 - report.margin_percent)
}

/// What is the matter with the worst run: its warmth or its drop, whichever is graded worse, or else the larger share.
fn headline(locale: Locale, (name, report): &Run<'_>) -> String {
    let by_drop = report.drop_grade > report.warmth_grade
        || report.drop_grade == report.warmth_grade && load_percent(report) <= 100.0 - report.margin_percent;
    if by_drop {
        return say!(
            locale,
            "computed-wires-summary",
            name = name,
            drop = locale.number(report.drop_v, 2),
            allowed = locale.number(report.allowed_drop_v, 2)
        );
    }
    match report.warmth {
        WireWarmth::NotKnown => {
            say!(locale, "computed-wires-unknown", name = name, area = area(locale, report))
        }
        WireWarmth::Burns { above_c } => {
            say!(locale, "computed-wires-burns", name = name, temperature = locale.rounded(above_c, 0, Unit::Celsius))
        }
        WireWarmth::Settles { conductor_c } if is_unsaid(report, conductor_c) => say!(
            locale,
            "computed-wires-unsaid",
            name = name,
            temperature = locale.rounded(conductor_c, 0, Unit::Celsius),
            limit = locale.rounded(report.limit_c, 0, Unit::Celsius)
        ),
        WireWarmth::Settles { conductor_c } => say!(
            locale,
            "computed-wires-warm-summary",
            name = name,
            temperature = locale.rounded(conductor_c, 0, Unit::Celsius),
            limit = locale.rounded(report.limit_c, 0, Unit::Celsius)
        ),
    }
}

/// Whether it all hangs on an insulation that nothing is said of.
fn is_unsaid(report: &WireReport, conductor_c: f64) -> bool {
    report.inputs.insulation_c.is_none() && (report.limit_c..=BEST_INSULATION_C).contains(&conductor_c)
}

fn area(locale: Locale, report: &WireReport) -> String {
    locale.rounded(report.inputs.area_mm2, 2, Unit::SquareMillimetre)
}

fn figures(locale: Locale, (name, report): &Run<'_>) -> Vec<Figure> {
    let drop_note = say!(
        locale,
        "computed-wires-note",
        allowed = locale.number(report.allowed_drop_v, 2),
        room = locale.number(report.margin_percent, 0)
    );
    let drop_title = say!(locale, "computed-wires-drop", name = name);
    let drop = Figure::judged(drop_title, report.drop_v, 2, Unit::Volt, drop_note, report.drop_grade);
    let WireWarmth::Settles { conductor_c } = report.warmth else { return vec![drop] };
    let limit = locale.rounded(report.limit_c, 0, Unit::Celsius);
    let held_against = match report.inputs.insulation_c {
        Some(_) => say!(locale, "computed-wires-insulation", limit = limit),
        None => say!(locale, "computed-wires-usual-insulation", limit = limit),
    };
    let warm_note = say!(
        locale,
        "computed-wires-warm-note",
        heat = locale.number(report.heat_w_per_m, 1),
        held = held_against,
        area = area(locale, report)
    );
    let warm_title = say!(locale, "computed-wires-warm", name = name);
    vec![drop, Figure::judged(warm_title, conductor_c, 0, Unit::Celsius, warm_note, report.warmth_grade)]
}

fn pictured(locale: Locale, (name, report): &Run<'_>) -> Vec<Bar> {
    let bar = |title: String, value: f64, limit: f64, digits: usize, unit: Unit| Bar {
        title,
        value,
        limit,
        text: say!(
            locale,
            "computed-of",
            part = locale.bare(value, digits, unit),
            whole = locale.rounded(limit, digits, unit)
        ),
    };
    let drop_title = say!(locale, "computed-wires-drop", name = name);
    let drop = bar(drop_title, report.drop_v, report.allowed_drop_v, 2, Unit::Volt);
    let WireWarmth::Settles { conductor_c } = report.warmth else { return vec![drop] };
    let warm_title = say!(locale, "computed-wires-warm", name = name);
    vec![drop, bar(warm_title, conductor_c.max(0.0), report.limit_c, 0, Unit::Celsius)]
}

fn run(thing: &Thing, air_c: f64) -> Result<WireRun> {
    // The form takes whole numbers from 0 to 40 only.
    let of_gauge = thing.number(ThingNumber::Gauge).map(|gauge| gauge_area_mm2(gauge as i32)).transpose()?;
    // Where both were entered, the thinner one is the careful one.
    let area_mm2 = match (of_gauge, thing.number(ThingNumber::AreaMm2)) {
        (Some(of_gauge), Some(area)) => of_gauge.min(area),
        (Some(area), None) | (None, Some(area)) => area,
        (None, None) => number(thing, ThingNumber::Gauge)?,
    };
    Ok(WireRun {
        area_mm2,
        length_m: number(thing, ThingNumber::LengthM)?,
        current_a: number(thing, ThingNumber::CurrentA)?,
        source_v: number(thing, ThingNumber::SourceV)?,
        air_c,
        insulation_c: thing.number(ThingNumber::InsulationC),
        outside_mm: thing.number(ThingNumber::OutsideMm),
        stranded_factor: STRANDED_FACTOR,
    })
}

/// A wire whose temperature is not known, or never settles.
fn unsettled(locale: Locale, (name, report): &Run<'_>) -> Option<Row> {
    let (word, outcome) = match report.warmth {
        WireWarmth::Settles { .. } => return None,
        WireWarmth::NotKnown => (say!(locale, "computed-wires-not-known"), Outcome::Caution),
        WireWarmth::Burns { above_c } => {
            let temperature = locale.rounded(above_c, 0, Unit::Celsius);
            (say!(locale, "computed-wires-hotter", temperature = temperature), Outcome::Stop)
        }
    };
    Some(Row {
        title: say!(locale, "computed-wires-warm", name = name),
        word,
        detail: say!(
            locale,
            "computed-wires-carries",
            area = area(locale, report),
            current = locale.number(report.inputs.current_a, 1)
        ),
        outcome,
    })
}

/// The thinnest wire that would do, where there is one; a load past every gauge says so in its own grade.
fn choice(locale: Locale, (name, report): &Run<'_>) -> Option<Row> {
    let choice = choose_wire(&report.inputs).ok()?;
    let (gauge, area) = (choice.gauge, area(locale, &choice.wire));
    let title = match choice.fuse_a {
        Some(fuse_a) => say!(
            locale,
            "computed-wires-choice",
            name = name,
            gauge = gauge,
            area = area,
            fuse = locale.plain(fuse_a)
        ),
        None => say!(locale, "computed-wires-choice-unfused", name = name, gauge = gauge, area = area),
    };
    Some(Row {
        title,
        word: say!(locale, "computed-wires-thinnest"),
        detail: say!(locale, "computed-wires-fuse"),
        outcome: Outcome::Pass,
    })
}
