use super::context::{heading, paragraph, still_row};
use super::{
    Block, Command, Context, Control, Edge, Icon, Keyboard, Place, Screen, Tone, Weight, board::blocker_row,
};
use crate::computed::predicted_charge;
use crate::plan::{Check, Fly, Motion};
use crate::readiness::FindingState;
use crate::record::{Thing, ThingKind, Unit, show};

/// The card of one flight: everything that is settled before the phone is handed over.
pub(super) fn card(context: &Context<'_>, id: &str) -> Screen {
    let found = context.plan.check(id).and_then(|(stage, check)| check.fly().map(|fly| (stage, check, fly)));
    let Some((stage, check, fly)) = found else { return context.gone("card") };
    let mut blocks = vec![speed_figure(context, fly)];
    blocks.extend(restrictions(context));
    let rpm = context.ledger.aircraft.limit(&fly.head_speed_rpm);
    let tests = rpm.map(|rpm| context.ledger.tested_at(rpm)).unwrap_or_default();
    blocks.extend(super::ledger::two_at_once(context.plan, &tests, "This flight tests"));
    let blockers = context.ledger.before_flying(context.plan, id, context.now);
    if !blockers.is_empty() {
        blocks.push(heading("Due before this flight", None));
        blocks.extend(blockers.iter().map(|blocker| blocker_row(context, blocker)));
    }
    blocks.push(heading("Call it off at", None));
    blocks.extend(fly.knock_off.iter().map(|call| paragraph(call.clone(), Tone::Strong)));
    blocks.extend(conditions(context, check, fly));
    blocks.extend(prediction(context, fly));
    blocks.push(heading("Limits at landing", None));
    let places = fly.temperatures.iter().filter_map(|id| context.plan.place(id));
    for place in places.filter(|place| context.ledger.aircraft.fits(&place.when)) {
        let detail = format!("Caution above {} °C. {}", show(place.caution_above_c), place.basis);
        blocks.push(still_row(
            Edge::Stop,
            "Stop",
            &format!("{} above {} °C", place.title, show(place.stop_above_c)),
            Some(detail),
        ));
    }
    blocks.extend(context.cautions(check.cautions.iter().chain(&stage.cautions)));
    let why_not = missing(context, check, blockers.len());
    let to = context.form.text("spotter").map_or_else(String::new, |name| format!(" to {name}"));
    let hand_over = Control::primary(Command::HandOver(id.to_owned()).into(), format!("Hand over{to}"))
        .icon(Icon::Hand)
        .weight(Weight::Field)
        .unless(why_not);
    Screen { foot: vec![hand_over], ..context.screen("card", &check.title, Some(stage.title.clone()), blocks) }
}

fn speed_figure(context: &Context<'_>, fly: &Fly) -> Block {
    let rpm = context.ledger.aircraft.limit(&fly.head_speed_rpm);
    Block::Figure {
        label: "Head speed".to_owned(),
        value: rpm.map_or_else(|| "not entered".to_owned(), |rpm| format!("{rpm:.0}")),
        unit: Unit::RevolutionsPerMinute.sign().to_owned(),
        note: None,
        edge: Edge::None,
    }
}

fn restrictions(context: &Context<'_>) -> Vec<Block> {
    let carried = context.ledger.findings.iter().filter_map(|finding| match &finding.state {
        FindingState::Carried { restriction, .. } => {
            Some(Block::Caution { title: restriction.clone(), text: format!("Carried: {}", finding.title) })
        }
        _ => None,
    });
    carried.collect()
}

fn conditions(context: &Context<'_>, check: &Check, fly: &Fly) -> Vec<Block> {
    let chosen = context.form.text("pack");
    let packs: Vec<&Thing> = context.ledger.aircraft.things_of(ThingKind::Pack).collect();
    let mut blocks = vec![heading("Pack and air", None)];
    if packs.is_empty() {
        let place = Place::Thing { kind: ThingKind::Pack, name: None };
        blocks.push(super::context::row(Edge::Missing, "To enter", "No pack described yet", None, place));
    } else {
        let options = packs.iter().map(|pack| {
            let command = Command::Set("pack".to_owned(), pack.name.clone());
            Control::new(command.into(), &pack.name).icon(Icon::Pack).chosen(chosen == Some(pack.name.as_str()))
        });
        blocks.push(Block::Choice { label: "Pack".to_owned(), options: options.collect() });
    }
    blocks.push(stepper(context, "minutes", "Planned time, motor on", Unit::Minute, 0.5, fly.minutes));
    blocks.push(stepper(context, "air", "Air temperature", Unit::Celsius, 1.0, last_air(context)));
    let label = if check.witness { "Spotter's name" } else { "Spotter's name, if not flying alone" };
    blocks.push(context.entry("spotter", label, Keyboard::Name, None));
    let names = last_spotters(context);
    if !names.is_empty() {
        let options = names.into_iter().map(|name| {
            let chosen = context.form.text("spotter") == Some(name);
            Control::new(Command::Set("spotter".to_owned(), name.to_owned()).into(), name).chosen(chosen)
        });
        blocks.push(Block::Choice { label: "Spotter".to_owned(), options: options.collect() });
    }
    blocks
}

/// The air of the last flight, degrees Celsius: today's is most likely near it.
fn last_air(context: &Context<'_>) -> f64 {
    context.ledger.flights.last().map_or(20.0, |flight| flight.air_c)
}

fn last_spotters<'a>(context: &Context<'a>) -> Vec<&'a str> {
    let mut names: Vec<&str> = Vec::new();
    for name in context.ledger.flights.iter().rev().filter_map(|flight| flight.spotter.as_deref()) {
        if !names.contains(&name) && names.len() < 3 {
            names.push(name);
        }
    }
    names
}

fn stepper(context: &Context<'_>, field: &str, label: &str, unit: Unit, by: f64, start: f64) -> Block {
    let step = |by: f64, word: &str| {
        let command = Command::Step { field: field.to_owned(), by, start };
        let spoken = format!("{label}: {word} by {} {}", show(by.abs()), unit.spoken());
        Control::new(command.into(), word).spoken(spoken)
    };
    Block::Stepper {
        field: field.to_owned(),
        label: label.to_owned(),
        value: context.form.text(field).unwrap_or_default().to_owned(),
        unit: unit.sign().to_owned(),
        less: step(-by, "less").icon(Icon::Remove),
        more: step(by, "more").icon(Icon::Add),
        flag: None,
        hint: Some(format!("starts from {}", unit.show(start))),
    }
}

fn prediction(context: &Context<'_>, fly: &Fly) -> Vec<Block> {
    if !fly.predict || fly.motion != Motion::Hover {
        // Only a hover has a model behind it.
        return Vec::new();
    }
    let minutes = context.form.text("minutes").and_then(crate::desk::parse_number).unwrap_or(fly.minutes);
    let planned_s = (minutes * 60.0).round() as i64;
    let rpm = context.ledger.aircraft.limit(&fly.head_speed_rpm);
    let typed = context.form.text("air").and_then(crate::desk::parse_number);
    let air_c = typed.unwrap_or_else(|| last_air(context));
    let prediction = rpm.and_then(|rpm| predicted_charge(context.facts(), fly.motion, rpm, planned_s, air_c));
    let Some(prediction) = prediction else {
        let text = "Nothing to predict the charge from yet: the figures of rotor, mass and pack are missing.";
        return vec![paragraph(text, Tone::Quiet)];
    };
    vec![Block::Figure {
        label: "Charge it should use".to_owned(),
        value: format!("{:.0}", prediction.used_mah),
        unit: Unit::MilliampereHour.sign().to_owned(),
        note: Some(format!("{:.0} to {:.0} mAh, from {}", prediction.low_mah, prediction.high_mah, prediction.from)),
        edge: Edge::None,
    }]
}

/// Why the card cannot be handed over yet.
fn missing(context: &Context<'_>, check: &Check, blockers: usize) -> Option<String> {
    if blockers > 0 {
        return Some(format!("{} due first", super::counted(blockers, "thing is", "things are")));
    }
    let wanted = [
        ("pack", "Choose the pack first", true),
        ("air", "Enter the air temperature first", true),
        ("spotter", "Enter the spotter's name first", check.witness),
    ];
    let empty = wanted.iter().find(|(field, _, wanted)| *wanted && context.form.text(field).is_none());
    empty.map(|(_, why, _)| (*why).to_owned())
}
