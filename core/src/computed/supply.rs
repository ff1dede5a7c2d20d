use super::facts::number;
use super::{Computed, Facts, Figure, Lacking, Result, Row, outcome, worst};
use crate::drawing::{Anchor, Bar, Ink, LabelSize, Picture, Sheet, bars};
use crate::engineering::Grade;
use crate::engineering::supply::{
    Consumer, ConsumerWindow, CurrentMargin, Rail, RailLoad, RailReason, RailReport, SagMargin, rail_report,
};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// The check that reads the lowest voltage under stirring, at the supply that carries the servos.
const STIRRING_LOW: &str = "receiver-voltage-under-load";

/// Every supply's load against its ratings; each must have its stirring peak measured.
pub(super) fn load(facts: Facts<'_>) -> Result<Computed> {
    let rails = reports(facts, |supply| number(supply, ThingNumber::StirringPeakA))?;
    let locale = facts.locale;
    Ok(Computed {
        outcome: outcome(worst(rails.iter().map(load_grade))),
        summary: load_summary(locale, &rails),
        figures: rails.iter().flat_map(|rail| load_figures(locale, rail)).collect(),
        rows: Vec::new(),
        picture: Some(load_picture(locale, &rails)),
        remarks: vec![say!(locale, "computed-supply-basis"), say!(locale, "computed-supply-sag-basis")],
    })
}

/// Of the load alone: the windows have a check of their own.
fn load_grade(rail: &RailReport) -> Grade {
    worst(rail.reasons.iter().filter(|reason| !is_window(reason)).map(RailReason::grade))
}

fn load_figures(locale: Locale, rail: &RailReport) -> Vec<Figure> {
    let name = &rail.inputs.rail.name;
    let burst = || say!(locale, "computed-supply-burst");
    let mut figures = vec![
        margin_figure(locale, say!(locale, "computed-supply-peak", name = name), &rail.burst, burst()),
        margin_figure(
            locale,
            say!(locale, "computed-supply-hard", name = name),
            &rail.continuous,
            say!(locale, "computed-supply-continuous"),
        ),
    ];
    figures.extend(
        rail.fault
            .as_ref()
            .map(|fault| margin_figure(locale, say!(locale, "computed-supply-fault", name = name), fault, burst())),
    );
    figures.extend(rail.sag.as_ref().map(|sag| sag_figure(locale, name, sag)));
    let told = |label: String, ampere: f64| Figure::told(label, ampere, 1, Unit::Ampere);
    figures.push(
        told(say!(locale, "computed-supply-by-stirring", name = name), rail.stirred_peak_a)
            .noted(say!(locale, "computed-supply-by-stirring-note")),
    );
    figures.extend(rail.stalled_peak_a.map(|stalled_a| {
        told(say!(locale, "computed-supply-by-stalling", name = name), stalled_a)
            .noted(say!(locale, "computed-supply-by-stalling-note"))
    }));
    figures.push(
        told(say!(locale, "computed-supply-stirring", name = name), rail.inputs.stirring_peak_a)
            .noted(say!(locale, "computed-supply-stirring-note")),
    );
    figures
}

fn sag_figure(locale: Locale, name: &str, sag: &SagMargin) -> Figure {
    let (limit, set) = (locale.number(sag.limit_v, 1), locale.number(sag.set_v, 1));
    let below = locale.number(sag.below_set_percent, 0);
    let note = match &sag.consumer {
        Some(consumer) => {
            say!(locale, "computed-supply-sag-consumer", consumer = consumer, limit = limit, set = set, below = below)
        }
        None => say!(locale, "computed-supply-sag-note", limit = limit, set = set, below = below),
    };
    let label = say!(locale, "computed-supply-sag", name = name);
    Figure::judged(label, sag.low_v, 2, Unit::Volt, note, sag.grade).against(sag.limit_v)
}

fn margin_figure(locale: Locale, label: String, margin: &CurrentMargin, rating: String) -> Figure {
    let note = say!(
        locale,
        "computed-supply-note",
        rating = rating,
        rated = locale.plain(margin.rated_a),
        room = locale.number(margin.margin_a, 1),
        percent = locale.number(margin.margin_percent, 0)
    );
    Figure::judged(label, margin.load_a, 1, Unit::Ampere, note, margin.grade).against(margin.rated_a)
}

fn load_picture(locale: Locale, rails: &[RailReport]) -> crate::drawing::Picture {
    let of = |rail: &RailReport, what: String, margin: &CurrentMargin| Bar {
        title: format!("{}, {what}", rail.inputs.rail.name),
        value: margin.load_a,
        limit: margin.rated_a,
        text: say!(
            locale,
            "computed-of",
            part = locale.rounded(margin.load_a, 1, Unit::Ampere),
            whole = locale.quantity(margin.rated_a, Unit::Ampere)
        ),
    };
    let all: Vec<Bar> = rails
        .iter()
        .flat_map(|rail| {
            [
                of(rail, say!(locale, "computed-supply-hard-flight"), &rail.continuous),
                of(rail, say!(locale, "computed-supply-design-peak"), &rail.burst),
            ]
        })
        .collect();
    bars(&all)
}

fn load_summary(locale: Locale, rails: &[RailReport]) -> String {
    let reasons = rails.iter().flat_map(|rail| {
        let of_load = rail.reasons.iter().filter(|reason| !is_window(reason));
        of_load.map(move |reason| format!("{}: {}", rail.inputs.rail.name, reason.words(locale)))
    });
    let reasons: Vec<String> = reasons.collect();
    if !reasons.is_empty() {
        return reasons.join("; ");
    }
    let tightest = rails.iter().min_by(|a, b| a.burst.margin_percent.total_cmp(&b.burst.margin_percent));
    tightest.map_or_else(String::new, |rail| {
        say!(
            locale,
            "computed-supply-summary",
            name = rail.inputs.rail.name,
            percent = locale.number(rail.burst.margin_percent, 0)
        )
    })
}

/// Every consumer's window against its supply; the load does not matter to it.
pub(super) fn window(facts: Facts<'_>) -> Result<Computed> {
    let rails = reports(facts, |supply| Ok(supply.number(ThingNumber::StirringPeakA).unwrap_or(0.0)))?;
    let grade = worst(rails.iter().filter_map(|rail| rail.worst_window.as_ref()).map(|(_, point)| point.grade));
    let outside: Vec<String> =
        rails.iter().flat_map(|rail| &rail.reasons).filter(|r| is_window(r)).map(|r| r.words(facts.locale)).collect();
    let summary = match outside.is_empty() {
        true => say!(facts.locale, "computed-supply-all-stand"),
        false => outside.join("; "),
    };
    let windows = || rails.iter().flat_map(|rail| rail.windows.iter().map(move |window| (rail, window)));
    let figure = |window: &ConsumerWindow| {
        let point = &window.worst;
        let note = say!(facts.locale, "computed-supply-limit", volts = facts.locale.number(point.limit_v, 2));
        let label = say!(
            facts.locale,
            "computed-supply-window-room",
            consumer = window.consumer,
            state = point.state.words(facts.locale)
        );
        Figure::judged(label, point.margin_v, 2, Unit::Volt, note, point.grade)
    };
    let rows = windows().map(|(rail, window)| {
        let point = &window.worst;
        let outcome = outcome(point.grade);
        Row {
            title: window.consumer.clone(),
            word: match outcome {
                Outcome::Pass => say!(facts.locale, "computed-supply-stands"),
                Outcome::Caution => say!(facts.locale, "computed-supply-at-limit"),
                Outcome::Stop => say!(facts.locale, "computed-supply-outside"),
            },
            detail: say!(
                facts.locale,
                "computed-supply-window-note",
                rail = rail.inputs.rail.name,
                state = point.state.words(facts.locale),
                volts = facts.locale.number(point.rail_v, 2),
                limit = facts.locale.number(point.limit_v, 2),
                room = facts.locale.number(point.margin_v, 2)
            ),
            outcome,
        }
    });
    Ok(Computed {
        outcome: outcome(grade),
        summary,
        figures: windows().map(|(_, window)| figure(window)).collect(),
        rows: rows.collect(),
        picture: Some(window_picture(facts.locale, &rails)),
        remarks: vec![say!(facts.locale, "computed-supply-window-basis")],
    })
}

/// One line a consumer: its rated window as a box, and the voltages of its source as strokes within it or not.
fn window_picture(locale: Locale, rails: &[RailReport]) -> Picture {
    let mut sheet = Sheet::new();
    let (left, right, row) = (8.0, Sheet::WIDTH - 8.0, 50.0);
    let rated = |rail: &RailReport, name: &str| {
        rail.inputs.consumers.iter().find(|consumer| consumer.name == name).map(|c| (c.low_v, c.high_v))
    };
    let lines: Vec<(&RailReport, &ConsumerWindow, (f64, f64))> = rails
        .iter()
        .flat_map(|rail| rail.windows.iter().map(move |window| (rail, window)))
        .filter_map(|(rail, window)| Some((rail, window, rated(rail, &window.consumer)?)))
        .collect();
    let volts = lines.iter().flat_map(|(rail, _, (low, high))| {
        [*low, *high, rail.inputs.rail.full_v + rail.inputs.rail.ripple_v / 2.0, rail.inputs.rail.empty_v]
    });
    let (low, high) = volts.fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
    let x = |v: f64| left + (right - left) * ((v - low) / (high - low).max(0.1)) as f32;
    let mut spoken = Vec::new();
    for (index, (rail, window, (rated_low, rated_high))) in lines.iter().enumerate() {
        let top = index as f32 * row;
        let source = &rail.inputs.rail;
        let words = say!(
            locale,
            "computed-supply-rated",
            consumer = window.consumer,
            low = locale.number(*rated_low, 1),
            high = locale.number(*rated_high, 1)
        );
        let ink = if window.worst.margin_v < 0.0 { Ink::Limit } else { Ink::Strong };
        sheet.label(left, top + 14.0, words.clone(), ink, LabelSize::Small, Anchor::Start);
        sheet.bar(Ink::Quiet, x(*rated_low), top + 24.0, x(*rated_high), top + 38.0, false);
        for volt in [source.full_v, source.nominal_v, source.empty_v] {
            sheet.line(ink, 3.0, &[(x(volt), top + 20.0), (x(volt), top + 42.0)]);
        }
        spoken.push(say!(
            locale,
            "computed-supply-source",
            words = words,
            empty = locale.number(source.empty_v, 1),
            full = locale.number(source.full_v, 1)
        ));
    }
    let bottom = lines.len() as f32 * row;
    let key = say!(locale, "computed-supply-key");
    sheet.label(left, bottom + 12.0, key, Ink::Quiet, LabelSize::Small, Anchor::Start);
    sheet.finish(bottom + 20.0, spoken.join(". "))
}

fn is_window(reason: &RailReason) -> bool {
    matches!(reason, RailReason::Window { .. })
}

/// Every supply with what hangs on it.
pub(super) fn reports(facts: Facts<'_>, stirring_peak: impl Fn(&Thing) -> Result<f64>) -> Result<Vec<RailReport>> {
    let supplies = facts.some_things(ThingKind::Supply)?;
    let consumers = facts.some_things(ThingKind::Consumer)?;
    let peaks: Vec<f64> = supplies.iter().map(|supply| stirring_peak(supply)).collect::<Result<_>>()?;
    // The servos hang on the supply that stirring draws the most from: its voltage was read at the receiver.
    let most_a = peaks.iter().copied().fold(0.0, f64::max);
    let report = |(supply, stirring_peak_a): (&Thing, f64)| {
        let of_it = consumers.iter().filter(|consumer| consumer.of.as_ref() == Some(&supply.name));
        let load = RailLoad {
            rail: rail(supply)?,
            consumers: of_it.map(|thing| consumer(thing)).collect::<Result<_>>()?,
            stirring_peak_a,
            stirring_low_v: (most_a > 0.0 && stirring_peak_a >= most_a)
                .then(|| facts.measured(STIRRING_LOW))
                .flatten(),
        };
        rail_report(&load).map_err(Lacking::Refused)
    };
    supplies.into_iter().zip(peaks).map(report).collect()
}

fn rail(supply: &Thing) -> Result<Rail> {
    Ok(Rail {
        name: supply.name.clone(),
        full_v: number(supply, ThingNumber::FullV)?,
        nominal_v: number(supply, ThingNumber::NominalV)?,
        empty_v: number(supply, ThingNumber::EmptyV)?,
        continuous_a: number(supply, ThingNumber::ContinuousA)?,
        burst_a: number(supply, ThingNumber::BurstA)?,
        ripple_v: supply.number(ThingNumber::RippleV).unwrap_or(0.0),
    })
}

fn consumer(thing: &Thing) -> Result<Consumer> {
    Ok(Consumer {
        name: thing.name.clone(),
        low_v: number(thing, ThingNumber::LowV)?,
        high_v: number(thing, ThingNumber::HighV)?,
        steady_a: number(thing, ThingNumber::SteadyA)?,
        // The form takes whole numbers from 1 to 20 only.
        quantity: number(thing, ThingNumber::Quantity)? as u32,
        fault_a: thing.number(ThingNumber::FaultA),
    })
}
