use super::check::computed_blocks;
use super::context::{outcome_edge, paragraph};
use super::{Block, Command, Context, Control, Icon, Screen, Tone, lacking_words};
use crate::computed::{AskedDay, Hotter, hotter, hottest_lately};
use crate::locale::{Locale, say};
use crate::unit::Unit;

/// A field of the day that is asked about: its name, its words, its unit, its step, its least and its most.
struct Dial {
    field: &'static str,
    unit: Unit,
    by: f64,
    range: (f64, f64),
}

const AIR: Dial = Dial { field: "air", unit: Unit::Celsius, by: 1.0, range: (-20.0, 50.0) };
const AIRFLOW: Dial = Dial { field: "airflow", unit: Unit::Percent, by: 25.0, range: (0.0, 400.0) };
const POWER: Dial = Dial { field: "power", unit: Unit::Percent, by: 5.0, range: (10.0, 300.0) };
const MINUTES: Dial = Dial { field: "minutes", unit: Unit::Minute, by: 0.5, range: (0.5, 60.0) };

/// The last hover's heat on a day and a flight that the pilot names.
pub(super) fn hotter_day(context: &Context<'_>) -> Screen {
    let hottest_c = context.ledger.aircraft.figure("hot-day-temperature");
    let lately_c = hottest_lately(context.facts(), context.now);
    let air_start = hottest_c.or(lately_c).unwrap_or(30.0);
    let planned_min = context.ledger.flights.last().map_or(6.0, |flight| flight.planned_s as f64 / 60.0);
    let minutes_start = (planned_min * 2.0).round().max(1.0) / 2.0;
    let asked = AskedDay {
        air_c: AIR.value(context, air_start),
        airflow_share: AIRFLOW.value(context, 100.0) / 100.0,
        power_share: POWER.value(context, 100.0) / 100.0,
        minutes: MINUTES.value(context, minutes_start),
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
    blocks.push(AIR.stepper(context, air_start, brief.as_ref()));
    blocks.push(AIRFLOW.stepper(context, 100.0, brief.as_ref()));
    blocks.push(POWER.stepper(context, 100.0, brief.as_ref()));
    blocks.push(MINUTES.stepper(context, minutes_start, brief.as_ref()));
    blocks.extend(details);
    context.screen("hotter-day", say!(context.locale, "hotter-title"), Some(context.aircraft_name()), blocks)
}

/// Days that are known, each one touch.
fn days(locale: Locale, hottest_c: Option<f64>, lately_c: Option<f64>, now_c: f64) -> Option<Block> {
    let known =
        [(say!(locale, "hotter-hottest-flown"), hottest_c), (say!(locale, "hotter-hottest-lately"), lately_c)];
    let option = |(words, air_c): (String, Option<f64>)| {
        let air_c = air_c?;
        let set = Command::Set(AIR.field.to_owned(), locale.quantity_bare(air_c, Unit::Celsius));
        let label = format!("{words}: {}", locale.quantity(air_c, Unit::Celsius));
        Some(Control::new(set.into(), label).chosen((now_c - air_c).abs() < 0.005))
    };
    let options: Vec<Control> = known.into_iter().filter_map(option).collect();
    (!options.is_empty()).then(|| Block::Choice { label: say!(locale, "hotter-day"), options })
}

impl Dial {
    fn label(&self, locale: Locale) -> String {
        match self.field {
            "air" => say!(locale, "hotter-air"),
            "airflow" => say!(locale, "hotter-airflow"),
            "power" => say!(locale, "hotter-power"),
            _ => say!(locale, "hotter-flight"),
        }
    }

    /// The number in the form, or where it starts; what cannot be is taken as the nearest that can.
    fn value(&self, context: &Context<'_>, start: f64) -> f64 {
        let typed = context.form.text(self.field).and_then(|text| context.locale.read(text, self.unit));
        typed.unwrap_or(start).clamp(self.range.0, self.range.1)
    }

    /// The control, with the answer beside it: the sentence at the top may be out of sight.
    fn stepper(&self, context: &Context<'_>, start: f64, brief: Option<&String>) -> Block {
        let value = self.value(context, start);
        let locale = context.locale;
        let (label, shown, by) = (self.label(locale), locale.shown(self.unit), locale.step(self.by, self.unit));
        let step = |by: f64, word: String| {
            // From the number that is in view, so that a step never leaves the range.
            let to = shown.back(shown.out(value) + by).clamp(self.range.0, self.range.1);
            let spoken = say!(
                context.locale,
                "common-step-spoken",
                label = label,
                word = word,
                by = locale.plain(by.abs()),
                unit = locale.spoken(self.unit)
            );
            Control::new(Command::Set(self.field.to_owned(), locale.quantity_bare(to, self.unit)).into(), word)
                .spoken(spoken)
        };
        Block::Stepper {
            field: self.field.to_owned(),
            label: label.clone(),
            value: locale.quantity_bare(value, self.unit),
            unit: shown.sign.to_owned(),
            less: step(-by, say!(context.locale, "common-less")).icon(Icon::Remove),
            more: step(by, say!(context.locale, "common-more")).icon(Icon::Add),
            flag: None,
            hint: brief.cloned(),
        }
    }
}
