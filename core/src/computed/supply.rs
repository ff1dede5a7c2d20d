use super::facts::number;
use super::{Computed, Facts, Figure, Lacking, Result, Row, outcome, worst};
use crate::engineering::supply::{
    Consumer, ConsumerWindow, CurrentMargin, Rail, RailLoad, RailReason, RailReport, rail_report,
};
use crate::record::{Outcome, Thing, ThingKind, Unit, show};
use crate::view::chart::{Bar, Sheet, bars};
use crate::view::{Anchor, Ink, LabelSize, Picture};

/// Every supply's load against its ratings; each must have its stirring peak measured.
pub(super) fn load(facts: Facts<'_>) -> Result<Computed> {
    let rails = reports(facts, |supply| number(supply, "stirring_peak_a"))?;
    let grade = worst(rails.iter().map(|rail| rail.continuous.grade.max(rail.burst.grade)));
    let figures = rails.iter().flat_map(|rail| {
        let name = &rail.inputs.rail.name;
        [
            margin_figure(format!("{name}: design peak"), &rail.burst, "burst rating"),
            margin_figure(format!("{name}: hard flight"), &rail.continuous, "continuous rating"),
            Figure::told(format!("{name}: stirring peak"), rail.inputs.stirring_peak_a, 1, Unit::Ampere)
                .noted("measured, all servos stirred unloaded"),
        ]
    });
    Ok(Computed {
        outcome: outcome(grade),
        summary: load_summary(&rails),
        figures: figures.collect(),
        rows: Vec::new(),
        picture: Some(load_picture(&rails)),
        remarks: vec![
            "Design peak: four times the peak of unloaded stirring, and what draws steadily. Hard flight: twice. Common \
             practice, no source; a log of the current in flight goes before it."
                .to_owned(),
        ],
    })
}

fn margin_figure(label: String, margin: &CurrentMargin, rating: &str) -> Figure {
    let note = format!(
        "{rating} {} A, room {:.1} A ({:.0} %)",
        show(margin.rated_a),
        margin.margin_a,
        margin.margin_percent
    );
    Figure::judged(label, margin.load_a, 1, Unit::Ampere, note, margin.grade).against(margin.rated_a)
}

fn load_picture(rails: &[RailReport]) -> crate::view::Picture {
    let of = |rail: &RailReport, what: &str, margin: &CurrentMargin| Bar {
        title: format!("{}, {what}", rail.inputs.rail.name),
        value: margin.load_a,
        limit: margin.rated_a,
        text: format!("{:.1} A of {} A", margin.load_a, show(margin.rated_a)),
    };
    let all: Vec<Bar> = rails
        .iter()
        .flat_map(|rail| [of(rail, "hard flight", &rail.continuous), of(rail, "design peak", &rail.burst)])
        .collect();
    bars(&all)
}

fn load_summary(rails: &[RailReport]) -> String {
    let reasons = rails.iter().flat_map(|rail| {
        let of_load = rail.reasons.iter().filter(|reason| !is_window(reason));
        of_load.map(move |reason| format!("{}: {reason}", rail.inputs.rail.name))
    });
    let reasons: Vec<String> = reasons.collect();
    if !reasons.is_empty() {
        return reasons.join("; ");
    }
    let tightest = rails.iter().min_by(|a, b| a.burst.margin_percent.total_cmp(&b.burst.margin_percent));
    tightest.map_or_else(String::new, |rail| {
        format!(
            "Every supply has room: {} the least, {:.0} % of its burst rating",
            rail.inputs.rail.name, rail.burst.margin_percent
        )
    })
}

/// Every consumer's window against its supply; the load does not matter to it.
pub(super) fn window(facts: Facts<'_>) -> Result<Computed> {
    let rails = reports(facts, |supply| Ok(supply.number("stirring_peak_a").unwrap_or(0.0)))?;
    let grade = worst(rails.iter().filter_map(|rail| rail.worst_window.as_ref()).map(|(_, point)| point.grade));
    let outside: Vec<String> =
        rails.iter().flat_map(|rail| &rail.reasons).filter(|r| is_window(r)).map(ToString::to_string).collect();
    let summary = match outside.is_empty() {
        true => "Every consumer stands its supply, full and empty".to_owned(),
        false => outside.join("; "),
    };
    let windows = || rails.iter().flat_map(|rail| rail.windows.iter().map(move |window| (rail, window)));
    let figure = |window: &ConsumerWindow| {
        let point = &window.worst;
        let note = format!("rated limit {:.2} V", point.limit_v);
        let label = format!("{}: room, {}", window.consumer, point.state);
        Figure::judged(label, point.margin_v, 2, Unit::Volt, note, point.grade)
    };
    let rows = windows().map(|(rail, window)| {
        let point = &window.worst;
        let outcome = outcome(point.grade);
        Row {
            title: window.consumer.clone(),
            word: match outcome {
                Outcome::Pass => "Stands it",
                Outcome::Caution => "At its limit",
                Outcome::Stop => "Outside its rating",
            }
            .to_owned(),
            detail: format!(
                "{} {}: {:.2} V, rated limit {:.2} V, room {:.2} V",
                rail.inputs.rail.name, point.state, point.rail_v, point.limit_v, point.margin_v
            ),
            outcome,
        }
    });
    Ok(Computed {
        outcome: outcome(grade),
        summary,
        figures: windows().map(|(_, window)| figure(window)).collect(),
        rows: rows.collect(),
        picture: Some(window_picture(&rails)),
        remarks: vec!["Each consumer's rated window against its supply, full, nominal and empty.".to_owned()],
    })
}

/// One line a consumer: its rated window as a box, and the voltages of its source as strokes within it or not.
fn window_picture(rails: &[RailReport]) -> Picture {
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
        let words = format!("{} rated {rated_low:.1} to {rated_high:.1} V", window.consumer);
        let ink = if window.worst.margin_v < 0.0 { Ink::Limit } else { Ink::Strong };
        sheet.label(left, top + 14.0, words.clone(), ink, LabelSize::Small, Anchor::Start);
        sheet.bar(Ink::Quiet, x(*rated_low), top + 24.0, x(*rated_high), top + 38.0, false);
        for volt in [source.full_v, source.nominal_v, source.empty_v] {
            sheet.line(ink, 3.0, &[(x(volt), top + 20.0), (x(volt), top + 42.0)]);
        }
        spoken.push(format!("{words}, source {:.1} to {:.1} V", source.empty_v, source.full_v));
    }
    let bottom = lines.len() as f32 * row;
    let key = "Box: what it is rated for. Strokes: its source empty, nominal, full";
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
    supplies
        .into_iter()
        .map(|supply| {
            let load = RailLoad {
                rail: rail(supply)?,
                consumers: consumers
                    .iter()
                    .filter(|consumer| consumer.of.as_ref() == Some(&supply.name))
                    .map(|thing| consumer(thing))
                    .collect::<Result<_>>()?,
                stirring_peak_a: stirring_peak(supply)?,
                stirring_low_v: None,
            };
            rail_report(&load).map_err(Lacking::Refused)
        })
        .collect()
}

fn rail(supply: &Thing) -> Result<Rail> {
    Ok(Rail {
        name: supply.name.clone(),
        full_v: number(supply, "full_v")?,
        nominal_v: number(supply, "nominal_v")?,
        empty_v: number(supply, "empty_v")?,
        continuous_a: number(supply, "continuous_a")?,
        burst_a: number(supply, "burst_a")?,
        ripple_v: supply.number("ripple_v").unwrap_or(0.0),
    })
}

fn consumer(thing: &Thing) -> Result<Consumer> {
    Ok(Consumer {
        name: thing.name.clone(),
        low_v: number(thing, "low_v")?,
        high_v: number(thing, "high_v")?,
        steady_a: number(thing, "steady_a")?,
        // The form takes whole numbers from 1 to 20 only.
        quantity: number(thing, "quantity")? as u32,
        fault_a: thing.number("fault_a"),
    })
}
