use super::context::{heading, paragraph, row, still_row};
use super::{Block, Command, Context, Control, Edge, Icon, Keyboard, Place, Screen, Tone};
use crate::aircraft::Aircraft;
use crate::plan::{Check, Subject};
use crate::record::{Basis, Thing, ThingKind};

/// Fields that say that something was touched start with this, the subject follows.
pub(crate) const SUBJECT: &str = "subject:";

/// The name of the thing of a kind, where there is no other of it.
pub(crate) fn only_one(aircraft: &Aircraft, kind: ThingKind) -> Option<&str> {
    let mut things = aircraft.things_of(kind);
    match (things.next(), things.next()) {
        (Some(only), None) => Some(&only.name),
        _ => None,
    }
}

/// All that is known of the aircraft.
pub(super) fn aircraft(context: &Context<'_>) -> Screen {
    let aircraft = &context.ledger.aircraft;
    let named = !aircraft.name.is_empty();
    let by = if named { format!("built by {}", aircraft.builder) } else { "not named yet".to_owned() };
    let mut blocks = vec![
        paragraph(context.plan.notice.trim(), Tone::Quiet),
        row(edge(named), word(named), context.aircraft_name(), Some(by), Place::Name),
    ];
    blocks.push(super::code::code_row(context));
    blocks.push(heading("What kind of aircraft", None));
    blocks.extend(context.plan.questions.iter().map(|question| {
        let answer = aircraft.answers.get(&question.id);
        let label = answer.and_then(|id| question.choices.iter().find(|(choice, _)| choice == id));
        let detail = label.map(|(_, label)| label.clone());
        row(
            edge(answer.is_some()),
            word(answer.is_some()),
            &question.text,
            detail,
            Place::Question(question.id.clone()),
        )
    }));
    blocks.push(heading("Figures", None));
    let figures = context.plan.figures.iter().filter(|figure| aircraft.fits(&figure.when));
    blocks.extend(figures.map(|figure| figure_row(context, figure)));
    for kind in ThingKind::ALL {
        blocks.extend(things(context, kind));
    }
    blocks.push(heading("Settings", None));
    let changes = super::counted(context.ledger.adjusted.len(), "change", "changes");
    blocks.push(row(
        Edge::None,
        "",
        "Settings so far",
        Some(format!("{changes}, with reason and flights")),
        Place::Ledger,
    ));
    let settings = context.plan.settings.iter().filter(|setting| aircraft.fits(&setting.when));
    blocks.extend(settings.map(|setting| {
        let now = aircraft.settings.get(&setting.id);
        let unit = setting.unit.as_deref().unwrap_or_default();
        let detail = now.map(|value| format!("{} {unit}", value.now).trim().to_owned());
        row(Edge::None, "", &setting.title, detail, Place::Setting(setting.id.clone()))
    }));
    blocks.push(heading("Plan", None));
    let edition = Some(format!("edition {}", context.plan.edition));
    blocks.push(row(Edge::None, "", &context.plan.title, edition, Place::Plan));
    let change = Control::primary(Place::Change.into(), "Record a change").icon(Icon::Pencil);
    Screen { foot: vec![change], ..context.screen("aircraft", "Aircraft", Some(context.aircraft_name()), blocks) }
}

fn edge(known: bool) -> Edge {
    if known { Edge::Fresh } else { Edge::Missing }
}

fn word(known: bool) -> &'static str {
    if known { "Known" } else { "To enter" }
}

fn figure_row(context: &Context<'_>, figure: &crate::plan::Figure) -> Block {
    let now = context.ledger.aircraft.figures.get(&figure.id);
    let detail = now.map(|value| format!("{}, {}", figure.unit.show(value.value), value.basis.word()));
    let low = context.ledger.aircraft.out_of_order(context.plan, figure);
    let detail = match low {
        Some(below) => Some(format!("{}. It must lie above: {}", detail.unwrap_or_default(), below.title)),
        None => detail,
    };
    let (edge, word) = match (now, figure.required) {
        _ if low.is_some() => (Edge::Stop, "Out of order"),
        (Some(_), _) => (Edge::Fresh, "Known"),
        (None, true) => (Edge::Missing, "To enter"),
        (None, false) => (Edge::None, "If it has one"),
    };
    row(edge, word, &figure.title, detail, Place::Figure(figure.id.clone()))
}

fn things(context: &Context<'_>, kind: ThingKind) -> Vec<Block> {
    let mut blocks = vec![heading(kind.words(), None)];
    blocks.extend(context.ledger.aircraft.things_of(kind).map(|thing| {
        let place = Place::Thing { kind, name: Some(thing.name.clone()) };
        row(Edge::Fresh, "Known", &thing.name, Some(thing_words(thing)), place)
    }));
    let add = Control::new(Place::Thing { kind, name: None }.into(), format!("Add a {}", kind.word().to_lowercase()));
    blocks.push(Block::Choice { label: String::new(), options: vec![add.icon(Icon::Add)] });
    blocks
}

/// The figures, things and checks that a computed answer was made from, each one touch from being put right.
pub(super) fn what_went_in(context: &Context<'_>, check: &Check) -> Vec<Block> {
    let aircraft = &context.ledger.aircraft;
    let mut blocks = vec![heading("What went in", None)];
    for subject in &check.rests_on {
        match subject {
            Subject::Figure(id) => {
                blocks.extend(context.plan.figure(id).map(|figure| figure_row(context, figure)));
            }
            Subject::Check(id) => {
                let found = context.plan.check(id).zip(context.ledger.evidence.get(id));
                blocks.extend(found.map(|((_, on), evidence)| {
                    let said = super::result_words(context.locale, context.ledger, &evidence.of);
                    row(Edge::None, "", &on.title, Some(said), Place::Check(id.clone()))
                }));
            }
            general => {
                let of = |kind: &&ThingKind| Subject::parse(kind.subject()).as_ref() == Some(general);
                let things = ThingKind::ALL.iter().filter(of).flat_map(|kind| aircraft.things_of(*kind));
                blocks.extend(things.map(|thing| {
                    let place = Place::Thing { kind: thing.kind, name: Some(thing.name.clone()) };
                    row(Edge::None, thing.kind.word(), &thing.name, Some(thing_words(thing)), place)
                }));
            }
        }
    }
    if blocks.len() > 1 { blocks } else { Vec::new() }
}

fn thing_words(thing: &Thing) -> String {
    let numbers = thing.kind.fields().iter().filter_map(|field| {
        let value = thing.number(field.id)?;
        Some(format!("{} {}", field.label.to_lowercase(), field.unit.show(value)))
    });
    let of = thing.of.iter().map(|supply| format!("on {supply}"));
    of.chain(numbers).collect::<Vec<_>>().join(", ")
}

/// The aircraft's and its builder's name.
pub(super) fn name(context: &Context<'_>) -> Screen {
    let aircraft = &context.ledger.aircraft;
    let known = |text: &str| Some(text.to_owned()).filter(|text| !text.is_empty());
    let blocks = vec![
        context.entry("name", "The aircraft's name", Keyboard::Name, known(&aircraft.name).as_deref()),
        context.entry("builder", "Your name", Keyboard::Name, known(&aircraft.builder).as_deref()),
        paragraph("Your name stands under every gate that you release. It stays on this phone.", Tone::Quiet),
    ];
    let save = Control::primary(Command::SaveName.into(), "Record the names").icon(Icon::Tick);
    Screen { foot: vec![save], ..context.screen("name", "Names", None, blocks) }
}

/// One question of the plan.
pub(super) fn question(context: &Context<'_>, id: &str) -> Screen {
    let Some(question) = context.plan.question(id) else { return context.gone("question") };
    let now = context.ledger.aircraft.answers.get(id);
    let options = question.choices.iter().map(|(choice, label)| {
        let command = Command::Answer(id.to_owned(), choice.clone());
        Control::new(command.into(), label).chosen(now == Some(choice))
    });
    let blocks = vec![
        paragraph(question.text.clone(), Tone::Strong),
        Block::Choice { label: String::new(), options: options.collect() },
        paragraph("The answer decides which checks there are.", Tone::Quiet),
    ];
    context.screen("question", "What kind of aircraft", Some(context.aircraft_name()), blocks)
}

/// One figure.
pub(super) fn figure(context: &Context<'_>, id: &str) -> Screen {
    let Some(figure) = context.plan.figure(id) else { return context.gone("figure") };
    let now = context.ledger.aircraft.figures.get(id);
    let mut blocks = vec![context.number_entry(
        "value",
        &figure.title,
        figure.unit,
        (figure.low, figure.high),
        now.map(|v| v.value),
    )];
    let chosen = context.form.text("basis").unwrap_or_else(|| now.map_or("measured", |value| basis_id(value.basis)));
    let options = Basis::ALL.iter().map(|basis| {
        let command = Command::Set("basis".to_owned(), basis_id(*basis).to_owned());
        Control::new(command.into(), super::sentence(basis.word())).chosen(chosen == basis_id(*basis))
    });
    blocks.push(Block::Choice { label: "Where it comes from".to_owned(), options: options.collect() });
    if figure.adjustable && now.is_some() {
        blocks.push(context.entry("reason", "Why it changes", Keyboard::Words, None));
    }
    if let Some(below) = figure.above.as_ref().and_then(|id| context.plan.figure(id)) {
        let value = context.ledger.aircraft.figure(&below.id);
        let value = value.map_or_else(|| "not entered yet".to_owned(), |value| figure.unit.show(value));
        let edge = if context.ledger.aircraft.out_of_order(context.plan, figure).is_some() {
            Edge::Stop
        } else {
            Edge::None
        };
        blocks.push(still_row(edge, "Must lie above", &below.title, Some(value)));
    }
    if let Some(why) = &figure.why {
        blocks.push(paragraph(why.clone(), Tone::Plain));
    }
    let rests = context.plan.checks().filter(|(_, check)| check.rests_on.contains(&Subject::Figure(id.to_owned())));
    let rests: Vec<&str> = rests.map(|(_, check)| check.title.as_str()).collect();
    if !rests.is_empty() {
        blocks.push(paragraph(format!("These checks rest on it: {}.", rests.join(", ")), Tone::Quiet));
    }
    let save = Control::primary(Command::SaveFigure(id.to_owned()).into(), "Record it").icon(Icon::Tick);
    let above = Some("Figures".to_owned());
    Screen { foot: vec![save], ..context.screen("figure", &figure.title, above, blocks) }
}

fn basis_id(basis: Basis) -> &'static str {
    match basis {
        Basis::Measured => "measured",
        Basis::Rated => "rated",
        Basis::Estimated => "estimated",
    }
}

/// One thing, or a new one.
pub(super) fn thing(context: &Context<'_>, kind: ThingKind, name: Option<&str>) -> Screen {
    let aircraft = &context.ledger.aircraft;
    let known = name.and_then(|name| aircraft.thing(kind, name));
    if name.is_some() && known.is_none() {
        return context.gone("thing");
    }
    let mut blocks = Vec::new();
    if known.is_none() {
        blocks.push(context.entry("name", "Name", Keyboard::Name, None));
    }
    blocks.extend(kind.hangs_on().map(|(on, question)| on_what(context, known, on, question)));
    for field in kind.fields() {
        let now = known.and_then(|thing| thing.number(field.id));
        blocks.push(context.number_entry(field.id, field.label, field.unit, field.range, now));
    }
    if kind == ThingKind::Supply {
        let text = "Stir all servos together, unloaded, and read the highest current that this supply gives.";
        blocks.push(paragraph(text, Tone::Quiet));
    }
    let save = Control::primary(Command::SaveThing.into(), "Record it").icon(Icon::Tick);
    let mut foot = vec![save];
    if let Some(thing) = known {
        let gone = Command::RemoveThing { kind, name: thing.name.clone() };
        foot.push(Control::new(gone.into(), "It is gone").icon(Icon::Remove));
    }
    let title = name.map_or_else(|| format!("New {}", kind.word().to_lowercase()), str::to_owned);
    Screen { foot, ..context.screen("thing", title, Some(kind.words().to_owned()), blocks) }
}

/// Which thing it hangs on; the only one there is stands chosen.
fn on_what(context: &Context<'_>, known: Option<&Thing>, on: ThingKind, question: &str) -> Block {
    let aircraft = &context.ledger.aircraft;
    let chosen = context.form.text("of").or(known.and_then(|thing| thing.of.as_deref()));
    let now = chosen.or_else(|| only_one(aircraft, on));
    let there: Vec<&Thing> = aircraft.things_of(on).collect();
    if there.is_empty() {
        let place = Place::Thing { kind: on, name: None };
        return row(Edge::Missing, "To enter", format!("The {} first", on.word().to_lowercase()), None, place);
    }
    let options = there.iter().map(|thing| {
        let command = Command::Set("of".to_owned(), thing.name.clone());
        Control::new(command.into(), &thing.name).chosen(now == Some(thing.name.as_str()))
    });
    Block::Choice { label: question.to_owned(), options: options.collect() }
}

/// One setting with its past.
pub(super) fn setting(context: &Context<'_>, id: &str) -> Screen {
    let Some(setting) = context.plan.setting(id) else { return context.gone("setting") };
    let now = context.ledger.aircraft.settings.get(id);
    let unit = setting.unit.clone();
    let mut blocks = Vec::new();
    let waiting = context.ledger.tested_at(context.ledger.flights.last().map_or(0.0, |flight| flight.head_speed_rpm));
    let others = waiting.iter().filter(|t| {
        !matches!(t, crate::field::Tested::Setting { subject, .. } if *subject == Subject::Setting(id.to_owned()))
    });
    let others: Vec<String> =
        others.map(|tested| super::ledger::words(context.locale, context.plan, tested)).collect();
    if !others.is_empty() {
        let text = format!("{}. Fly that first: one change a flight.", others.join("; "));
        blocks.push(Block::Caution { title: "Something else waits to be flown".to_owned(), text });
    }
    if let Some(value) = now {
        blocks.push(Block::Figure {
            label: "Now".to_owned(),
            value: value.now.clone(),
            unit: unit.clone().unwrap_or_default(),
            note: None,
            edge: Edge::None,
        });
    }
    let entry = context.entry("after", "New value", Keyboard::Words, None);
    blocks.push(match entry {
        Block::Entry { field, label, text, keyboard, hint, flag, .. } => {
            Block::Entry { field, label, text, unit, keyboard, hint, flag }
        }
        other => other,
    });
    blocks.push(context.entry("reason", "Why", Keyboard::Words, None));
    if let Some(value) = now {
        blocks.push(heading("Before", None));
        let runs_now = context.ledger.runs;
        let mut until = runs_now;
        for (entry, after, reason, runs) in value.past.iter().rev() {
            let flown = super::counted((until - runs) as usize, "motor run", "motor runs");
            let detail = format!("{reason}. Flown on it: {flown}");
            blocks.push(row(Edge::None, "", after, Some(detail), Place::Entry(*entry)));
            until = *runs;
        }
    }
    let save = Control::primary(Command::SaveSetting(id.to_owned()).into(), "Record it").icon(Icon::Tick);
    let above = Some("Settings".to_owned());
    Screen { foot: vec![save], ..context.screen("setting", &setting.title, above, blocks) }
}

/// A change to a part, the wiring or the mass.
pub(super) fn change(context: &Context<'_>) -> Screen {
    let fitted = context.plan.parts.iter().filter(|part| context.ledger.aircraft.fits(&part.when));
    let parts = fitted.map(|part| Subject::Part(part.id.clone()));
    let general = [Subject::Wiring, Subject::Mass, Subject::Supplies, Subject::Packs];
    let subjects: Vec<Subject> = general.into_iter().chain(parts).collect();
    let mut blocks = vec![
        context.entry("what", "What was done", Keyboard::Words, None),
        subject_choice(context, "What it touched", &subjects),
        paragraph("Evidence that rests on what was touched goes stale and is asked for again.", Tone::Quiet),
    ];
    if !context.ledger.changes.is_empty() {
        blocks.push(heading("Before", None));
        let past = context.ledger.changes.iter().rev().take(5);
        blocks.extend(past.map(|change| {
            let when = super::day_and_time(context.locale, &change.at.wall, context.now);
            still_row(Edge::None, "", &change.what, Some(when))
        }));
    }
    let save = Control::primary(Command::SaveChange.into(), "Record the change").icon(Icon::Tick);
    Screen { foot: vec![save], ..context.screen("change", "A change", Some(context.aircraft_name()), blocks) }
}

/// Chips for what was touched; each goes on and off by itself.
pub(super) fn subject_choice(context: &Context<'_>, label: &str, subjects: &[Subject]) -> Block {
    let options = subjects.iter().map(|subject| {
        let field = format!("{SUBJECT}{subject}");
        let chosen = context.form.text(&field).is_some();
        let text = if chosen { String::new() } else { "1".to_owned() };
        let words = context.plan.subject_words(subject);
        Control::new(Command::Set(field, text).into(), words).chosen(chosen)
    });
    Block::Choice { label: label.to_owned(), options: options.collect() }
}
