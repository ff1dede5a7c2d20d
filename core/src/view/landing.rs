use super::context::{heading, paragraph, still_row};
use super::stepper::{Stepper, Steps};
use super::{Block, Context, Control, Edge, Edit, Icon, Keyboard, Place, Record, Screen, Tone};
use crate::field::{Flight, MarkAnswer, Slip, Timed, temperature_band, wanted_places};
use crate::form::LandingForm;
use crate::locale::{Locale, clock, say};
use crate::plan::Place as PlanPlace;
use crate::record::EntryId;
use crate::unit::Unit;

/// Temperatures offered for one touch, a degree apart, and how many of them lie below the last one.
const OFFERED: i32 = 12;
const OFFERED_BELOW: i32 = 5;
/// Of a place that was read after this landing already: it has cooled since.
const OFFERED_BELOW_AGAIN: i32 = 10;

/// What is jotted down right after touchdown, hottest places first.
pub(super) fn landing(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(flight) = context.ledger.flight(card) else { return context.gone("landing") };
    let check = context.plan.check(&flight.check);
    let fly = check.and_then(|(_, check)| check.fly());
    let aircraft = &context.ledger.aircraft;
    let wanted: Vec<&str> = fly
        .into_iter()
        .flat_map(|fly| wanted_places(context.plan, aircraft, fly))
        .map(|place| place.id.as_str())
        .collect();
    let mut blocks = vec![flown(context.locale, flight)];
    blocks.extend(super::run_judged::why(context, flight));
    blocks.extend(super::landing_doubt::too_short(context, flight, fly));
    blocks.extend(super::answers::to_answer(context, flight));
    blocks.extend(super::told_time::put_right(context, flight));
    blocks.extend(super::told_time::read_after(context, flight));
    blocks.extend(offered(context, flight, &wanted));
    blocks.extend(read_so_far(context, flight));
    blocks.extend(super::settings_ledger::tested(context, flight));
    blocks.push(heading(
        say!(context.locale, "landing-temperatures"),
        Some(say!(context.locale, "landing-in-this-order")),
    ));
    let places = context.plan.places.iter().filter(|place| context.ledger.aircraft.fits(&place.when));
    let (first, rest): (Vec<_>, Vec<_>) = places.partition(|place| wanted.contains(&place.id.as_str()));
    blocks.extend(first.iter().map(|place| temperature(context, flight, place, true)));
    blocks.push(used(context, flight));
    let notes = flight.landing.as_ref().and_then(|landing| landing.notes.as_deref());
    let anything_else = say!(context.locale, "landing-anything-else");
    blocks.push(context.entry(LandingForm::NOTES, anything_else, Keyboard::Words, notes));
    if !rest.is_empty() {
        blocks.push(heading(
            say!(context.locale, "landing-other-places"),
            Some(say!(context.locale, "landing-if-read")),
        ));
        blocks.extend(rest.iter().map(|place| temperature(context, flight, place, false)));
    }
    blocks.extend(super::landing_doubt::doubts(context, flight, &context.landing_form(flight)));
    blocks.extend(super::events::event_choice(context, say!(context.locale, "landing-more-than")));
    blocks.extend(super::landing_doubt::waiver(context, flight));
    blocks.extend(super::told_time::not_right(context, flight));
    blocks.extend(marks(context.locale, flight));
    blocks.extend(super::run_judged::judged(context, flight));
    let place = Place::NewFinding { shown_by: shown_by(flight), proof: flight.check.clone() };
    let raise = Control::new(place.into(), say!(context.locale, "common-raise-finding")).icon(Icon::Flag);
    blocks.push(Block::Choice { label: String::new(), options: vec![raise] });
    blocks.push(super::log::log_row(context, card));
    let title = check.map_or_else(|| flight.check.clone(), |(_, check)| check.title.clone());
    Screen {
        foot: super::run_judged::controls(context, flight),
        ..context.screen("landing", say!(context.locale, "landing-title"), Some(title), blocks)
    }
}

/// The temperatures of the place that is asked for now, a touch each, around its last one.
fn offered(context: &Context<'_>, flight: &Flight, wanted: &[&str]) -> Vec<Block> {
    let Some(place) = context.landing_form(flight).place_to_read() else { return Vec::new() };
    let is_read_today = flight.readings(&place.id).next().is_some();
    let form = context.landing_form(flight);
    let last = form.last_c(&context.ledger.flights, &place.id);
    let (locale, shown) = (context.locale, context.locale.shown(Unit::Celsius));
    let around = shown.out(form.temperature_start_c(&context.ledger.flights, &place.id)).round() as i32;
    let below = if is_read_today { OFFERED_BELOW_AGAIN } else { OFFERED_BELOW };
    let shift = form.shift(&place.id);
    let low = around - below + shift;
    let read = |degrees: i32| {
        let command = Edit::Read { card: flight.card, place: place.id.clone(), degrees };
        let spoken = format!("{}: {degrees} {}", place.title, locale.spoken(Unit::Celsius));
        let control = Control::new(command.into(), format!("{degrees} {}", shown.sign)).spoken(spoken);
        let is_last = last.is_some_and(|last| (shown.out(last) - f64::from(degrees)).abs() < 0.01);
        if is_last { control.detail(say!(context.locale, "common-last")) } else { control }
    };
    let go = |by: i32, word: String| {
        let to = (shift + by).clamp(-240, 360).to_string();
        let spoken =
            say!(context.locale, "landing-temperatures-spoken", place = place.title, which = locale.inside(&word));
        Control::new(Edit::set(LandingForm::shift_field(&place.id), to).into(), word).spoken(spoken)
    };
    let mut options: Vec<Control> = (low..low + OFFERED).map(read).collect();
    options.push(go(-OFFERED, say!(context.locale, "landing-cooler")).icon(Icon::Remove));
    options.push(go(OFFERED, say!(context.locale, "landing-hotter")).icon(Icon::Add));
    let number = wanted.iter().position(|id| *id == place.id);
    let note = match number {
        Some(number) if !is_read_today && super::run_judged::is_recorded_by_last(context, flight, place, wanted) => {
            say!(context.locale, "landing-last-records", number = number + 1, count = wanted.len())
        }
        Some(number) if !is_read_today => {
            say!(context.locale, "landing-number-of", number = number + 1, count = wanted.len())
        }
        _ => say!(context.locale, "landing-once-more"),
    };
    vec![
        heading(say!(context.locale, "landing-reads", place = place.title), Some(note)),
        Block::Choice { label: String::new(), options },
    ]
}

/// Each reading so far, and what two of a place tell of touchdown.
fn read_so_far(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    let readings = flight.landing.iter().flat_map(|landing| &landing.temperatures);
    let end = end_word(context, flight);
    let mut blocks = Vec::new();
    for (index, reading) in (0..).zip(readings) {
        let title = context.plan.place(&reading.place).map_or(reading.place.as_str(), |place| place.title.as_str());
        let words = format!("{title} {}", context.locale.quantity(reading.celsius, Unit::Celsius));
        let is_late = flight.is_too_late(reading);
        let time = clock(flight.since_touchdown_s(reading));
        let detail = match is_late {
            true => say!(context.locale, "landing-too-late", time = time, end = end),
            false => say!(context.locale, "landing-after-touchdown", time = time, end = end),
        };
        let command = Record::DropReading { card: flight.card, index };
        blocks.push(Block::Row {
            edge: if is_late { Edge::Stale } else { Edge::Fresh },
            state: say!(context.locale, "landing-read"),
            title: words.clone(),
            detail: Some(detail),
            control: Some(
                Control::new(command.into(), say!(context.locale, "landing-leave-out", what = words))
                    .icon(Icon::Remove),
            ),
        });
    }
    if blocks.is_empty() {
        return blocks;
    }
    blocks.insert(0, heading(say!(context.locale, "landing-read-so-far"), None));
    let read = context.plan.places.iter().filter(|place| flight.readings(&place.id).next().is_some());
    blocks.extend(read.clone().filter_map(|place| at_touchdown(context.locale, flight, place, &end)));
    let again = read.map(|place| {
        let command = Edit::set(LandingForm::READ_AGAIN, place.id.clone());
        let spoken = say!(context.locale, "landing-read-again-spoken", place = context.locale.inside(&place.title));
        Control::new(command.into(), say!(context.locale, "landing-again", place = place.title))
            .icon(Icon::Thermometer)
            .spoken(spoken)
    });
    let label = say!(context.locale, "landing-second-reading", end = end);
    blocks.push(Block::Choice { label, options: again.collect() });
    blocks
}

/// What ended it: a touchdown is of what flew.
fn end_word(context: &Context<'_>, flight: &Flight) -> String {
    match context.plan.leaves_ground(&flight.check) {
        true => say!(context.locale, "landing-end-of-flight"),
        false => say!(context.locale, "landing-end-of-run"),
    }
}

fn at_touchdown(locale: Locale, flight: &Flight, place: &PlanPlace, end: &str) -> Option<Block> {
    let fit = flight.at_touchdown(&place.id)?;
    let within = fit
        .half_width_k
        .map_or_else(String::new, |k| say!(locale, "landing-within", within = locale.rounded(k, 0, Unit::Kelvin)));
    let over = match () {
        () if fit.touchdown_c > place.stop_above_c => say!(locale, "landing-past-stop-look"),
        () if fit.touchdown_c > place.caution_above_c => say!(locale, "landing-past-caution-note"),
        () => String::new(),
    };
    Some(Block::Figure {
        label: say!(locale, "landing-at-touchdown", place = place.title, end = end),
        value: locale.bare(fit.touchdown_c, 0, Unit::Celsius),
        unit: locale.shown(Unit::Celsius).sign.to_owned(),
        note: Some(say!(locale, "landing-worked-back", count = fit.readings.len(), within = within, over = over)),
        edge: if over.is_empty() { Edge::None } else { Edge::Caution },
    })
}

/// The entry that a finding from this flight points to: its landing or card. A mark has a control of its own.
fn shown_by(flight: &Flight) -> Option<EntryId> {
    flight.landing.as_ref().map(|landing| landing.entry).or(Some(flight.card))
}

fn flown(locale: Locale, flight: &Flight) -> Block {
    let time = flight.down.as_ref().map_or_else(|| "0:00".to_owned(), |(_, ms)| clock(ms / 1_000));
    let planned = say!(locale, "spotter-planned", time = clock(flight.planned_s));
    let over = flight.overrun_s();
    Block::Figure {
        label: say!(
            locale,
            "landing-flown",
            rpm = locale.number(flight.head_speed_rpm, 0),
            pack = flight.pack_names()
        ),
        value: time,
        unit: String::new(),
        note: Some(match over {
            _ if flight.timed == Timed::AtLeast => say!(locale, "landing-time-at-least"),
            _ if flight.timed == Timed::Doubtful => say!(locale, "told-doubted", planned = planned),
            _ if flight.timed == Timed::Told => told(locale, flight, planned),
            Some(over_s) => say!(locale, "landing-overrun", planned = planned, over = clock(over_s)),
            None => planned,
        }),
        edge: if over.is_some() || !flight.timed.is_known() { Edge::Caution } else { Edge::None },
    }
}

/// Who says how long it was, beside what was planned and what the phone counted.
fn told(locale: Locale, flight: &Flight, planned: String) -> String {
    match flight.counted_otherwise_ms() {
        Some(counted_ms) => say!(locale, "told-counted", planned = planned, counted = clock(counted_ms / 1_000)),
        None => say!(locale, "told-not-counted", planned = planned),
    }
}

fn temperature(context: &Context<'_>, flight: &Flight, place: &PlanPlace, wanted: bool) -> Block {
    let (locale, form) = (context.locale, context.landing_form(flight));
    let last = form.last_c(&context.ledger.flights, &place.id);
    let start = form.temperature_start_c(&context.ledger.flights, &place.id);
    let flag = match form.temperature_c(place, &place.title) {
        Err(refusal) => Some(refusal.to_string()),
        Ok(Some(celsius)) => temperature_flag(context, flight, place, celsius),
        Ok(None) => None,
    };
    let wanted = if wanted { String::new() } else { say!(locale, "landing-not-asked") };
    let stepper = Stepper::of(
        context,
        LandingForm::temperature_field(&place.id),
        place.title.clone(),
        Steps { unit: Unit::Celsius, step: 1.0, start },
    );
    let hint = match last {
        Some(last) => say!(locale, "landing-last", last = locale.quantity(last, Unit::Celsius), wanted = wanted),
        None => say!(locale, "landing-starts-at", start = stepper.start_words(), wanted = wanted),
    };
    stepper.flag(flag).hint(hint).block()
}

/// What is odd about a temperature, which is taken all the same: past a limit of its place, or outside of what is plausible
/// there, with the slip that would explain it.
fn temperature_flag(context: &Context<'_>, flight: &Flight, place: &PlanPlace, celsius: f64) -> Option<String> {
    let limit = match celsius {
        c if c > place.stop_above_c => Some(say!(
            context.locale,
            "landing-past-stop",
            limit = context.locale.quantity(place.stop_above_c, Unit::Celsius)
        )),
        c if c > place.caution_above_c => Some(say!(
            context.locale,
            "landing-past-caution",
            limit = context.locale.quantity(place.caution_above_c, Unit::Celsius)
        )),
        _ => None,
    };
    let band = temperature_band(&context.ledger.flights, flight, place);
    let locale = context.locale;
    let odd = (!band.holds(celsius)).then(|| {
        let meant = match band.slip(celsius) {
            // Whoever reads Fahrenheit entered Fahrenheit: the other scale explains nothing then.
            Some(Slip::Fahrenheit { meant }) if locale.shown(Unit::Celsius).is_as_recorded() => {
                say!(context.locale, "landing-in-fahrenheit", meant = locale.rounded(meant, 0, Unit::Celsius))
            }
            Some(Slip::Fahrenheit { .. }) => String::new(),
            Some(Slip::Swapped { meant } | Slip::Tenfold { meant }) => {
                say!(context.locale, "landing-meant", meant = locale.quantity(meant, Unit::Celsius))
            }
            None => String::new(),
        };
        say!(
            context.locale,
            "landing-usual",
            low = locale.bare(band.low, 0, Unit::Celsius),
            high = locale.rounded(band.high, 0, Unit::Celsius),
            meant = meant
        )
    });
    let flags: Vec<String> = limit.into_iter().chain(odd).collect();
    (!flags.is_empty()).then(|| flags.join(". "))
}

fn used(context: &Context<'_>, flight: &Flight) -> Block {
    let jotted = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
    let prediction = flight.expected();
    let form = context.landing_form(flight);
    let start = form.used_start_mah(&context.ledger.flights);
    let typed = form.typed_used_mah(&say!(context.locale, "landing-charge-used"));
    let flag = match (&typed, &prediction) {
        (Err(refusal), _) => Some(refusal.to_string()),
        (Ok(Some(used)), Some(p)) if !p.holds(*used) => Some(say!(
            context.locale,
            "landing-predicted",
            low = context.locale.number(p.low_mah, 0),
            high = context.locale.number(p.high_mah, 0)
        )),
        _ => None,
    };
    let label = say!(context.locale, "landing-charge-used");
    let steps = Steps { unit: Unit::MilliampereHour, step: LandingForm::USED_STEP_MAH, start };
    let stepper = Stepper::of(context, LandingForm::USED.to_owned(), label, steps);
    let start = context.locale.quantity(start, Unit::MilliampereHour);
    stepper
        .spoken(|word, _| say!(context.locale, "landing-charge-step-spoken", word = word))
        .or_value(jotted.map(|used| context.locale.plain(used)))
        .flag(flag)
        .hint(say!(context.locale, "common-starts-from", start = start))
        .block()
}

fn marks(locale: Locale, flight: &Flight) -> Vec<Block> {
    if flight.marks.is_empty() {
        return vec![paragraph(say!(locale, "landing-nothing-noted"), Tone::Quiet)];
    }
    let mut blocks = vec![heading(say!(locale, "landing-noted-heading"), None)];
    for mark in &flight.marks {
        let title = say!(locale, "entry-mark", mark = mark.kind.word(locale), time = clock(mark.elapsed_ms / 1_000));
        let (edge, detail) = match &mark.answer {
            Some(MarkAnswer::Nothing(words)) => (Edge::None, Some(say!(locale, "landing-answered", words = words))),
            Some(MarkAnswer::Finding(_)) => (Edge::Caution, Some(say!(locale, "landing-is-a-finding"))),
            None => (Edge::Caution, flight.spotter.clone()),
        };
        blocks.push(still_row(edge, say!(locale, "landing-noted"), &title, detail));
    }
    blocks
}
