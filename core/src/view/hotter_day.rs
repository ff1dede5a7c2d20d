use super::check::computed_blocks;
use super::context::{outcome_edge, paragraph};
use super::stepper::{Stepper, Steps};
use super::{Block, Context, Control, Edit, Screen, Tone, lacking_words};
use crate::computed::{AskedDay, Hotter, hotter, hottest_lately};
use crate::form::{AskedDayForm, AskedNumber};
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// The last hover's heat on a day and a flight that the pilot names.
pub(super) fn hotter_day(context: &Context<'_>) -> Screen {
    let hottest_c = context.ledger.aircraft.figure("hot-day-temperature");
    let lately_c = hottest_lately(context.facts(), context.now);
    let air_start = hottest_c.or(lately_c).unwrap_or(30.0);
    let planned_min = context.ledger.flights.last().map_or(6.0, |flight| flight.planned_s as f64 / 60.0);
    let minutes_start = (planned_min * 2.0).round().max(1.0) / 2.0;
    let form = AskedDayForm(context.form);
    let asked = AskedDay {
        air_c: form.value(AskedDayForm::AIR, air_start),
        airflow_share: form.value(AskedDayForm::AIRFLOW, 100.0) / 100.0,
        power_share: form.value(AskedDayForm::POWER, 100.0) / 100.0,
        minutes: form.value(AskedDayForm::MINUTES, minutes_start),
    };
    let (answer, details, brief) = match hotter(context.facts(), asked) {
        Ok(Hotter { computed, brief }) => {
            let edge = outcome_edge(computed.outcome);
            let mut answer = vec![Block::Verdict { text: computed.summary.clone(), detail: None, edge }];
            answer.extend(computed.picture.clone().map(|picture| Block::Drawing { picture }));
            (answer, computed_blocks(context.locale, &computed), Some(brief))
        }
        Err(lacking) => {
            (vec![paragraph(lacking_words(context.locale, context.plan, &lacking), Tone::Strong)], Vec::new(), None)
        }
    };
    let mut blocks = answer;
    blocks.extend(days(context.locale, hottest_c, lately_c, asked.air_c));
    blocks.push(stepper(context, AskedDayForm::AIR, air_start, brief.as_ref()));
    blocks.push(stepper(context, AskedDayForm::AIRFLOW, 100.0, brief.as_ref()));
    blocks.push(stepper(context, AskedDayForm::POWER, 100.0, brief.as_ref()));
    blocks.push(stepper(context, AskedDayForm::MINUTES, minutes_start, brief.as_ref()));
    blocks.extend(details);
    context.screen("hotter-day", say!(context.locale, "hotter-title"), Some(context.aircraft_name()), blocks)
}

/// Days that are known, each one touch.
fn days(locale: Locale, hottest_c: Option<f64>, lately_c: Option<f64>, now_c: f64) -> Option<Block> {
    let known =
        [(say!(locale, "hotter-hottest-flown"), hottest_c), (say!(locale, "hotter-hottest-lately"), lately_c)];
    let option = |(words, air_c): (String, Option<f64>)| {
        let air_c = air_c?;
        let set = Edit::set(AskedDayForm::AIR.field, locale.quantity_bare(air_c, Unit::Celsius));
        let label = format!("{words}: {}", locale.quantity(air_c, Unit::Celsius));
        Some(Control::new(set.into(), label).chosen((now_c - air_c).abs() < 0.005))
    };
    let options: Vec<Control> = known.into_iter().filter_map(option).collect();
    (!options.is_empty()).then(|| Block::Choice { label: say!(locale, "hotter-day"), options })
}

fn label(locale: Locale, number: AskedNumber) -> String {
    match number {
        AskedDayForm::AIR => say!(locale, "hotter-air"),
        AskedDayForm::AIRFLOW => say!(locale, "hotter-airflow"),
        AskedDayForm::POWER => say!(locale, "hotter-power"),
        _ => say!(locale, "hotter-flight"),
    }
}

/// The control, with the answer beside it: the sentence at the top may be out of sight.
fn stepper(context: &Context<'_>, number: AskedNumber, start: f64, brief: Option<&String>) -> Block {
    let AskedNumber { field, unit, step, range } = number;
    let value = AskedDayForm(context.form).value(number, start);
    let (locale, shown) = (context.locale, context.locale.shown(unit));
    let by = locale.step(step, unit);
    // From the number that is in view, so that a step never leaves the range.
    let to = |by: f64| locale.quantity_bare(shown.back(shown.out(value) + by).clamp(range.0, range.1), unit);
    Stepper::of(context, field.to_owned(), label(locale, number), Steps { unit, step, start })
        .at(locale.quantity_bare(value, unit), to(-by), to(by))
        .hint(brief.cloned())
        .block()
}
