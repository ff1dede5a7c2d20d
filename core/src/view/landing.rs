use super::context::{heading, paragraph, still_row};
use super::{Block, Command, Context, Control, Edge, Icon, Keyboard, Place, Screen, Tone, Weight, clock};
use crate::field::{Flight, Landing};
use crate::record::{EntryId, Unit, show};

/// Fields of temperatures start with this, the place's id follows.
pub(crate) const TEMPERATURE: &str = "temp:";
/// Fields that keep how long after touchdown a temperature was read start with this.
pub(crate) const READ_AFTER: &str = "after:";
/// Where a stepper starts at a place that was never read, degrees Celsius.
const FIRST_C: f64 = 40.0;

/// What is jotted down right after touchdown, hottest places first.
pub(super) fn landing(context: &Context<'_>, card: EntryId) -> Screen {
    let Some(flight) = context.ledger.flight(card) else { return context.gone("landing") };
    let check = context.plan.check(&flight.check);
    let fly = check.and_then(|(_, check)| check.fly());
    let wanted: Vec<&str> = fly.map(|fly| fly.temperatures.iter().map(String::as_str).collect()).unwrap_or_default();
    let mut blocks = vec![flown(flight)];
    blocks.extend(super::ledger::tested(context.plan, flight));
    blocks.push(heading("Temperatures", Some("in this order, within the first minute".to_owned())));
    let places = context.plan.places.iter().filter(|place| context.ledger.aircraft.fits(&place.when));
    let (first, rest): (Vec<_>, Vec<_>) = places.partition(|place| wanted.contains(&place.id.as_str()));
    blocks.extend(first.iter().map(|place| temperature(context, flight, place, true)));
    blocks.push(used(context, flight));
    let notes = flight.landing.as_ref().and_then(|landing| landing.notes.as_deref());
    blocks.push(context.entry("notes", "Anything else", Keyboard::Words, notes));
    if !rest.is_empty() {
        blocks.push(heading("Other places", Some("if you read them".to_owned())));
        blocks.extend(rest.iter().map(|place| temperature(context, flight, place, false)));
    }
    blocks.extend(super::events::event_choice(context, "Was it more than a landing?"));
    blocks.extend(marks(flight));
    let save = Control::primary(Command::SaveLanding(card).into(), "Record the landing").icon(Icon::Tick);
    let place = Place::NewFinding { shown_by: shown_by(flight), proof: flight.check.clone() };
    let raise = Control::new(place.into(), "Raise a finding").icon(Icon::Flag);
    let title = check.map_or_else(|| flight.check.clone(), |(_, check)| check.title.clone());
    Screen {
        foot: vec![save.weight(Weight::Field), raise],
        ..context.screen("landing", "Landing", Some(title), blocks)
    }
}

/// The entry that a finding from this flight points to: its last mark, else its landing or card.
fn shown_by(flight: &Flight) -> Option<EntryId> {
    let mark = flight.marks.last().map(|mark| mark.entry);
    mark.or(flight.landing.as_ref().map(|landing| landing.entry)).or(Some(flight.card))
}

fn flown(flight: &Flight) -> Block {
    let time = flight.down.as_ref().map_or_else(|| "0:00".to_owned(), |(_, ms)| clock(ms / 1_000));
    Block::Figure {
        label: format!("Motor on, {:.0} rpm, {}", flight.head_speed_rpm, flight.pack),
        value: time,
        unit: String::new(),
        note: Some(format!("planned {}", clock(flight.planned_s))),
        edge: Edge::None,
    }
}

fn temperature(context: &Context<'_>, flight: &Flight, place: &crate::plan::Place, wanted: bool) -> Block {
    let field = format!("{TEMPERATURE}{}", place.id);
    let jotted = flight.reading(&place.id);
    let last = jotted.or_else(|| last_at(context, &place.id));
    let start = last.unwrap_or(FIRST_C);
    let step = |by: f64, word: &str| {
        let spoken = format!("{}: {word} by {} degrees Celsius", place.title, show(by.abs()));
        let command = Command::Step { field: field.clone(), by, start };
        Control::new(command.into(), word).spoken(spoken)
    };
    let typed = context.form.number(&field, &place.title, Unit::Celsius, Landing::TEMPERATURE_RANGE_C);
    let flag = match &typed {
        Err(error) => Some(error.to_string()),
        Ok(Some(c)) if *c > place.stop_above_c => Some(format!("Past its stop, {} °C", show(place.stop_above_c))),
        Ok(Some(c)) if *c > place.caution_above_c => {
            Some(format!("Past its caution, {} °C", show(place.caution_above_c)))
        }
        Ok(_) => None,
    };
    let wanted = if wanted { "" } else { ", not asked for here" };
    Block::Stepper {
        field: field.clone(),
        label: place.title.clone(),
        value: context.form.text(&field).map(str::to_owned).or(jotted.map(show)).unwrap_or_default(),
        unit: Unit::Celsius.sign().to_owned(),
        less: step(-1.0, "less").icon(Icon::Remove),
        more: step(1.0, "more").icon(Icon::Add),
        flag,
        hint: Some(match last {
            Some(last) => format!("last {} °C{wanted}", show(last)),
            None => format!("starts at {} °C{wanted}", show(FIRST_C)),
        }),
    }
}

fn last_at(context: &Context<'_>, place: &str) -> Option<f64> {
    let landings = context.ledger.flights.iter().rev().filter_map(|flight| flight.landing.as_ref());
    landings
        .filter_map(|landing| landing.temperatures.iter().find(|reading| reading.place == place))
        .map(|reading| reading.celsius)
        .next()
}

fn used(context: &Context<'_>, flight: &Flight) -> Block {
    let jotted = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
    let prediction = flight.expected();
    let expected = prediction.as_ref().map(|prediction| prediction.used_mah);
    let last = context.ledger.flights.iter().rev().find_map(|flight| flight.landing.as_ref()?.pack_used_mah);
    let start = (jotted.or(expected).or(last).unwrap_or(1_000.0) / 50.0).round() * 50.0;
    let step = |by: f64, word: &str| {
        let command = Command::Step { field: "used".to_owned(), by, start };
        Control::new(command.into(), word).spoken(format!("Charge used: {word} by 50 milliampere hours"))
    };
    let typed = context.form.number("used", "Charge used", Unit::MilliampereHour, (0.0, 36_000.0));
    let flag = match (&typed, &prediction) {
        (Err(error), _) => Some(error.to_string()),
        (Ok(Some(used)), Some(p)) if !(p.low_mah..=p.high_mah).contains(used) => {
            Some(format!("{:.0} to {:.0} mAh was predicted", p.low_mah, p.high_mah))
        }
        _ => None,
    };
    Block::Stepper {
        field: "used".to_owned(),
        label: "Charge used".to_owned(),
        value: context.form.text("used").map(str::to_owned).or(jotted.map(show)).unwrap_or_default(),
        unit: Unit::MilliampereHour.sign().to_owned(),
        less: step(-50.0, "less").icon(Icon::Remove),
        more: step(50.0, "more").icon(Icon::Add),
        flag,
        hint: Some(format!("starts from {} mAh", show(start))),
    }
}

fn marks(flight: &Flight) -> Vec<Block> {
    if flight.marks.is_empty() {
        return vec![paragraph("Nothing was noted in flight.", Tone::Quiet)];
    }
    let mut blocks = vec![heading("Noted in flight", None)];
    for mark in &flight.marks {
        let title = format!("{} at {}", mark.kind.word(), clock(mark.elapsed_ms / 1_000));
        blocks.push(still_row(Edge::Caution, "Noted", &title, flight.spotter.clone()));
    }
    blocks
}
