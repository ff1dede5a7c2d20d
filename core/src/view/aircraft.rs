use super::context::{heading, paragraph, row, still_row};
use super::lists::{declare, is_declared, is_judged, thing_words};
use super::mend::{is_refused, mend_first};
use super::{Block, Context, Control, Edge, Edit, Icon, Keyboard, Place, Record, Screen, Tone};
use crate::form::{ChangeForm, FigureForm, FindForm, NameForm, RemovalForm, SettingForm, SubjectsForm, ThingForm};
use crate::locale::{Locale, say, sentence};
use crate::plan::{Check, Subject};
use crate::record::{Basis, OnAircraft, PhotoOf, Thing, ThingField, ThingKind};

/// All that is known of the aircraft.
pub(super) fn aircraft(context: &Context<'_>) -> Screen {
    let aircraft = &context.ledger.aircraft;
    let find = context.entry(FindForm::WORDS, say!(context.locale, "aircraft-find"), Keyboard::Words, None);
    let mut blocks = vec![paragraph(context.plan.notice.trim(), Tone::Quiet), named(context), find];
    let head = blocks.len();
    blocks.push(super::code::code_row(context));
    blocks.push(super::trends::trends_row(context.locale));
    blocks.push(super::dossier::dossier_row(context));
    blocks.extend(super::photo::photos(context, &PhotoOf::Aircraft));
    blocks.push(heading(say!(context.locale, "aircraft-kind"), None));
    let asked = context.plan.questions.iter().filter(|question| question.from.is_none());
    blocks.extend(asked.map(|question| {
        let answer = aircraft.answers.get(&question.id);
        let label = answer.and_then(|id| question.choices.iter().find(|(choice, _)| choice == id));
        let detail = label.map(|(_, label)| label.clone());
        row(
            edge(answer.is_some()),
            word(context.locale, answer.is_some()),
            &question.text,
            detail,
            Place::Question(question.id.clone()),
        )
    }));
    blocks.push(heading(say!(context.locale, "aircraft-figures"), None));
    let figures = context.plan.figures.iter().filter(|figure| aircraft.fits(&figure.when));
    blocks.extend(figures.map(|figure| figure_row(context, figure)));
    for kind in ThingKind::ALL {
        blocks.extend(things(context, kind));
    }
    blocks.push(heading(say!(context.locale, "aircraft-settings"), None));
    blocks.push(row(
        Edge::None,
        "",
        say!(context.locale, "ledger-title"),
        Some(say!(context.locale, "aircraft-changes", count = context.ledger.adjusted.len())),
        Place::SettingsLedger,
    ));
    let settings = context.plan.settings.iter().filter(|setting| aircraft.fits(&setting.when));
    blocks.extend(settings.map(|setting| {
        let now = aircraft.settings.get(&setting.id);
        let unit = setting.unit.as_deref().unwrap_or_default();
        let detail = now.map(|value| format!("{} {unit}", value.now).trim().to_owned());
        row(Edge::None, "", &setting.title, detail, Place::Setting(setting.id.clone()))
    }));
    blocks.push(heading(say!(context.locale, "aircraft-plan"), None));
    let edition = Some(say!(context.locale, "aircraft-edition", edition = context.plan.edition));
    blocks.push(row(Edge::None, "", &context.plan.title, edition, Place::Plan));
    blocks.push(heading(say!(context.locale, "hangar-title"), None));
    blocks.push(super::hangar_rows::begin_row(context));
    blocks = found(context, blocks, head);
    let change =
        Control::primary(Place::Change.into(), say!(context.locale, "aircraft-record-change")).icon(Icon::Pencil);
    Screen {
        foot: vec![change],
        ..context.screen("aircraft", say!(context.locale, "aircraft-title"), Some(context.aircraft_name()), blocks)
    }
}

/// Of the blocks behind the head of the page only the rows that are looked for, each group under its heading; all where nothing is.
fn found(context: &Context<'_>, mut blocks: Vec<Block>, head: usize) -> Vec<Block> {
    let form = FindForm::new(context.form);
    if !form.is_wanted() {
        return blocks;
    }
    let (rest, mut group) = (blocks.split_off(head), None);
    let before = blocks.len();
    for block in rest {
        match block {
            Block::Heading { .. } => group = Some(block),
            Block::Row { ref title, ref detail, .. }
                if form.finds(&format!("{title} {}", detail.as_deref().unwrap_or_default())) =>
            {
                blocks.extend(group.take());
                blocks.push(block);
            }
            _ => {}
        }
    }
    if blocks.len() == before {
        blocks.push(paragraph(say!(context.locale, "aircraft-found-nothing"), Tone::Plain));
    }
    blocks
}

/// Its name, and whose it is.
fn named(context: &Context<'_>) -> Block {
    let (locale, aircraft) = (context.locale, &context.ledger.aircraft);
    let (builder, pilot, is_named) = (&aircraft.builder, &aircraft.pilot, aircraft.is_named());
    let by = match is_named {
        true if pilot == builder => say!(locale, "aircraft-built-by", builder = builder),
        true => say!(locale, "aircraft-built-and-flown-by", builder = builder, pilot = pilot),
        false => say!(locale, "aircraft-not-named"),
    };
    row(edge(is_named), word(locale, is_named), context.aircraft_name(), Some(by), Place::Name)
}

fn edge(known: bool) -> Edge {
    if known { Edge::Fresh } else { Edge::Missing }
}

fn word(locale: Locale, known: bool) -> String {
    if known { say!(locale, "aircraft-known") } else { say!(locale, "common-to-enter") }
}

fn figure_row(context: &Context<'_>, figure: &crate::plan::Figure) -> Block {
    let now = context.ledger.aircraft.figures.get(&figure.id);
    let detail = now.map(|value| {
        format!("{}, {}", context.locale.quantity(value.value, figure.unit), value.basis.word(context.locale))
    });
    let low = context.ledger.aircraft.out_of_order(context.plan, figure);
    let detail = match low {
        Some(below) => Some(say!(
            context.locale,
            "aircraft-must-lie-above",
            detail = detail.unwrap_or_default(),
            below = below.title
        )),
        None => detail,
    };
    let (edge, word) = match (now, figure.required) {
        _ if low.is_some() => (Edge::Stop, say!(context.locale, "board-out-of-order")),
        (Some(_), _) => (Edge::Fresh, say!(context.locale, "aircraft-known")),
        (None, true) => (Edge::Missing, say!(context.locale, "common-to-enter")),
        (None, false) => (Edge::None, say!(context.locale, "aircraft-if-it-has")),
    };
    row(edge, word, &figure.title, detail, Place::Figure(figure.id.clone()))
}

fn things(context: &Context<'_>, kind: ThingKind) -> Vec<Block> {
    let complete = is_declared(context, kind).then(|| say!(context.locale, "lists-complete"));
    let mut blocks = vec![heading(kind.words(context.locale), complete)];
    blocks.extend(context.ledger.aircraft.things_of(kind).map(|thing| {
        let place = Place::Thing { kind, name: Some(thing.name.clone()) };
        row(
            Edge::Fresh,
            say!(context.locale, "aircraft-known"),
            &thing.name,
            Some(thing_words(context.locale, thing)),
            place,
        )
    }));
    if kind == ThingKind::Pack {
        blocks.extend(super::hangar_rows::to_take_over(context));
    }
    let add = Control::new(
        Place::Thing { kind, name: None }.into(),
        say!(context.locale, "aircraft-add", kind = context.locale.inside(&kind.word(context.locale))),
    );
    let declare = is_judged(context, kind).then(|| declare(context, kind)).flatten();
    let like = super::lists::one_more_like_last(context, kind);
    let options = [add.icon(Icon::Add)].into_iter().chain(like).chain(declare).collect();
    blocks.push(Block::Choice { label: String::new(), options });
    blocks
}

/// The figures that a check goes by where a person looks or reads, each one touch from being put right.
pub(super) fn figures_of(context: &Context<'_>, check: &Check) -> Vec<Block> {
    let figures = check.rests_on.iter().filter_map(|subject| match subject {
        Subject::Figure(id) => context.plan.figure(id),
        _ => None,
    });
    let rows: Vec<Block> = figures.map(|figure| figure_row(context, figure)).collect();
    let title = (!rows.is_empty()).then(|| heading(say!(context.locale, "check-goes-by"), None));
    title.into_iter().chain(rows).collect()
}

/// The figures, things and checks that a computed answer was made from, each one touch from being put right.
pub(super) fn what_went_in(context: &Context<'_>, check: &Check) -> Vec<Block> {
    let aircraft = &context.ledger.aircraft;
    let mut blocks = vec![heading(say!(context.locale, "aircraft-went-in"), None)];
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
                    row(
                        Edge::None,
                        thing.kind.word(context.locale),
                        &thing.name,
                        Some(thing_words(context.locale, thing)),
                        place,
                    )
                }));
            }
        }
    }
    if blocks.len() > 1 { blocks } else { Vec::new() }
}

/// The aircraft's, its builder's and its pilot's name.
pub(super) fn name(context: &Context<'_>) -> Screen {
    let blocks = names(context, &NameForm::new(context.form, &context.ledger.aircraft));
    let save = Control::primary(Record::Name.into(), say!(context.locale, "aircraft-record-names")).icon(Icon::Tick);
    Screen { foot: vec![save], ..context.screen("name", say!(context.locale, "aircraft-names"), None, blocks) }
}

/// The fields of the names.
pub(super) fn names(context: &Context<'_>, form: &NameForm<'_>) -> Vec<Block> {
    let known = |text: &str| Some(text.to_owned()).filter(|text| !text.is_empty());
    vec![
        context.entry(
            NameForm::NAME,
            say!(context.locale, "aircraft-name"),
            Keyboard::Name,
            known(form.known_name()).as_deref(),
        ),
        context.entry(
            NameForm::BUILDER,
            say!(context.locale, "aircraft-builder-name"),
            Keyboard::Name,
            known(form.known_builder()).as_deref(),
        ),
        context.entry(
            NameForm::PILOT,
            say!(context.locale, "aircraft-pilot-name"),
            Keyboard::Name,
            known(form.known_pilot()).as_deref(),
        ),
        paragraph(say!(context.locale, "aircraft-pilot-name-note"), Tone::Quiet),
    ]
}

/// One question of the plan.
pub(super) fn question(context: &Context<'_>, id: &str) -> Screen {
    let Some(question) = context.plan.question(id) else { return context.gone("question") };
    let now = context.ledger.aircraft.answers.get(id);
    let options = question.choices.iter().map(|(choice, label)| {
        let command = Record::Answer { question: id.to_owned(), choice: choice.clone() };
        Control::new(command.into(), label).chosen(now == Some(choice))
    });
    let blocks = vec![
        paragraph(question.text.clone(), Tone::Strong),
        Block::Choice { label: String::new(), options: options.collect() },
        paragraph(say!(context.locale, "aircraft-answer-decides"), Tone::Quiet),
    ];
    context.screen("question", say!(context.locale, "aircraft-kind"), Some(context.aircraft_name()), blocks)
}

/// One figure.
pub(super) fn figure(context: &Context<'_>, id: &str) -> Screen {
    let Some(figure) = context.plan.figure(id) else { return context.gone("figure") };
    let now = context.ledger.aircraft.figures.get(id);
    let form = FigureForm::new(context.form, figure, context.facts());
    let mut blocks = vec![context.number_entry(
        FigureForm::VALUE,
        &figure.title,
        figure.unit,
        (figure.low, figure.high),
        now.map(|v| v.value).or(form.offered()),
    )];
    blocks.extend(form.offered().map(|_| paragraph(say!(context.locale, "aircraft-derived"), Tone::Plain)));
    let basis = form.basis();
    blocks.extend(basis.map(|chosen| basis_choice(context.locale, chosen)));
    if figure.adjustable && now.is_some() {
        blocks.push(context.entry(
            FigureForm::REASON,
            say!(context.locale, "aircraft-why-changes"),
            Keyboard::Words,
            None,
        ));
    }
    if let Some(below) = figure.above.as_ref().and_then(|id| context.plan.figure(id)) {
        let value = context.ledger.aircraft.figure(&below.id);
        let value = value.map_or_else(
            || say!(context.locale, "aircraft-not-entered-yet"),
            |value| context.locale.quantity(value, figure.unit),
        );
        let edge = if context.ledger.aircraft.out_of_order(context.plan, figure).is_some() {
            Edge::Stop
        } else {
            Edge::None
        };
        blocks.push(still_row(edge, say!(context.locale, "aircraft-above"), &below.title, Some(value)));
    }
    if let Some(why) = &figure.why {
        blocks.push(paragraph(why.clone(), Tone::Plain));
    }
    let rests = context.plan.checks().filter(|(_, check)| check.rests_on.contains(&Subject::Figure(id.to_owned())));
    let rests: Vec<&str> = rests.map(|(_, check)| check.title.as_str()).collect();
    if !rests.is_empty() {
        blocks.push(paragraph(say!(context.locale, "aircraft-rests", checks = rests.join(", ")), Tone::Quiet));
    }
    let above = Some(say!(context.locale, "aircraft-figures"));
    let wrong = mend_first(context.locale, is_refused(&blocks));
    let controls = figure_controls(context.locale, id, basis).into_iter();
    Screen {
        foot: controls.map(|control| control.unless(wrong.clone())).collect(),
        ..context.screen("figure", &figure.title, above, blocks)
    }
}

fn basis_choice(locale: Locale, chosen: Basis) -> Block {
    let options = Basis::ALL.iter().map(|basis| {
        let command = Edit::set(FigureForm::BASIS, FigureForm::basis_id(*basis));
        Control::new(command.into(), sentence(&basis.word(locale))).chosen(chosen == *basis)
    });
    Block::Choice { label: say!(locale, "aircraft-basis"), options: options.collect() }
}

/// Records a figure. Where nobody said yet where it comes from, the touch that records it says so, and none of them is larger.
fn figure_controls(locale: Locale, id: &str, basis: Option<Basis>) -> Vec<Control> {
    let record = |basis| Record::Figure { id: id.to_owned(), basis };
    if basis.is_some() {
        let label = say!(locale, "aircraft-record");
        return vec![Control::primary(record(None).into(), label).icon(Icon::Tick)];
    }
    let by = |basis: &Basis| {
        let label = say!(locale, "aircraft-record-as", basis = basis.word(locale));
        Control::new(record(Some(*basis)).into(), label).icon(Icon::Tick)
    };
    Basis::ALL.iter().map(by).collect()
}

/// One thing, or a new one.
pub(super) fn thing(context: &Context<'_>, kind: ThingKind, name: Option<&str>) -> Screen {
    let aircraft = &context.ledger.aircraft;
    let known = name.and_then(|name| aircraft.thing(kind, name));
    if name.is_some() && known.is_none() {
        return context.gone("thing");
    }
    let mut blocks = Vec::new();
    let form = ThingForm::new(context.form, context.ledger, kind, name);
    if known.is_none() {
        let (label, usual) = (say!(context.locale, "aircraft-thing-name"), form.usual_name());
        blocks.push(context.entry(ThingForm::NAME, label, Keyboard::Name, usual.as_deref()));
    }
    blocks.extend(kind.hangs_on(context.locale).map(|(on, question)| on_what(context, (kind, known), on, &question)));
    let wrong = form.disorder();
    for field in kind.fields() {
        let now = form.number_on_file(field.number);
        let mut block = one_of_few(context, field, now).unwrap_or_else(|| {
            context.number_entry(field.id(), &field.label(context.locale), field.unit, field.range, now)
        });
        let here = wrong.as_ref().filter(|wrong| wrong.field.as_deref() == Some(field.id()));
        if let (Block::Entry { flag: flag @ None, .. }, Some(wrong)) = (&mut block, here) {
            *flag = Some(wrong.reason.clone());
        }
        blocks.push(block);
    }
    if kind == ThingKind::Paper {
        blocks.extend(last_day_and_note(context, &form, known));
    }
    if kind == ThingKind::Supply {
        let text = say!(context.locale, "aircraft-stir-servos");
        blocks.push(paragraph(text, Tone::Quiet));
    }
    if let Some(like) = known.and_then(|known| super::lists::one_more_like(context.locale, known)) {
        blocks.push(Block::Choice { label: String::new(), options: vec![like] });
    }
    blocks.extend(known.into_iter().flat_map(|_| removal(context, kind)));
    let drafted = form.thing(name).ok();
    let set = |on_aircraft| Record::Thing { kind, name: name.map(str::to_owned), on_aircraft };
    let words = if known.is_none() { said_of_new(context.locale) } else { said_of_changed(context.locale) };
    let mut foot = said_of_aircraft(context, known, drafted.as_ref(), set, words);
    if foot.is_empty() {
        let save = Control::primary(set(OnAircraft::NotSaid).into(), say!(context.locale, "aircraft-record"));
        foot.push(save.icon(Icon::Tick));
    }
    let wrong = mend_first(context.locale, is_refused(&blocks));
    foot = foot.into_iter().map(|control| control.unless(wrong.clone())).collect();
    // Who describes it anew does not take it off the list.
    let is_as_known = |known: &&Thing| drafted.as_ref().is_none_or(|drafted| drafted == *known);
    foot.extend(known.filter(is_as_known).into_iter().flat_map(|known| gone(context, known)));
    let title = name.map_or_else(
        || say!(context.locale, "aircraft-new", kind = context.locale.inside(&kind.word(context.locale))),
        str::to_owned,
    );
    Screen { foot, ..context.screen("thing", title, Some(kind.words(context.locale)), blocks) }
}

/// The last day of a paper, and its number and where it is kept.
fn last_day_and_note(context: &Context<'_>, form: &ThingForm<'_>, known: Option<&Thing>) -> [Block; 3] {
    let locale = context.locale;
    let typed = context.form.whole(ThingForm::LAST_DAY).map(str::to_owned);
    let last_day = typed.or_else(|| known?.last_day.map(|day| day.to_string()));
    let mut day = context.entry(ThingForm::LAST_DAY, say!(locale, "aircraft-last-day"), Keyboard::Words, None);
    if let Block::Entry { text, hint, flag, .. } = &mut day {
        *text = last_day.unwrap_or_default();
        *hint = Some(say!(locale, "aircraft-last-day-how"));
        *flag = form.last_day().err().map(|refusal| refusal.to_string());
    }
    let note = context.entry(ThingForm::NOTE, say!(locale, "aircraft-paper-note"), Keyboard::Words, form.note());
    [day, note, paragraph(say!(locale, "aircraft-paper-told"), Tone::Quiet)]
}

/// The words of two controls: the aircraft is as it was, and it was changed.
type SaidOf = [String; 2];

fn said_of_new(locale: Locale) -> SaidOf {
    [say!(locale, "aircraft-was-on-it"), say!(locale, "aircraft-new-on-it")]
}

fn said_of_changed(locale: Locale) -> SaidOf {
    [say!(locale, "aircraft-only-written-wrong"), say!(locale, "aircraft-changed-on-it")]
}

fn said_of_gone(locale: Locale, kind: ThingKind) -> SaidOf {
    match kind {
        ThingKind::ToCome => [say!(locale, "aircraft-will-not-come"), say!(locale, "aircraft-fitted-now")],
        _ => [say!(locale, "aircraft-never-on-it"), say!(locale, "aircraft-taken-off")],
    }
}

/// Where something was proved on the aircraft as it was, what a description says of the aircraft: one touch for each answer. None where
/// it makes no difference.
fn said_of_aircraft(
    context: &Context<'_>,
    old: Option<&Thing>,
    new: Option<&Thing>,
    record: impl Fn(OnAircraft) -> Record,
    [as_it_was, changed]: SaidOf,
) -> Vec<Control> {
    let locale = context.locale;
    let proved = context.ledger.proved_on(context.plan, old, new).len();
    if proved == 0 {
        return Vec::new();
    }
    vec![
        Control::new(record(OnAircraft::AsItWas).into(), as_it_was)
            .icon(Icon::Tick)
            .detail(say!(locale, "aircraft-keeps")),
        Control::new(record(OnAircraft::Changed).into(), changed).icon(Icon::Tick).detail(say!(
            locale,
            "aircraft-sends-back",
            count = proved
        )),
    ]
}

/// Taking a thing off the list.
fn gone(context: &Context<'_>, known: &Thing) -> Vec<Control> {
    let remove = |on_aircraft| Record::RemoveThing { kind: known.kind, name: known.name.clone(), on_aircraft };
    let words = said_of_gone(context.locale, known.kind);
    let said = said_of_aircraft(context, Some(known), None, remove, words);
    if !said.is_empty() {
        return said.into_iter().map(|control| control.icon(Icon::Remove)).collect();
    }
    vec![Control::new(remove(OnAircraft::NotSaid).into(), say!(context.locale, "aircraft-gone")).icon(Icon::Remove)]
}

/// What is asked before a thing is gone that a stop is about.
fn removal(context: &Context<'_>, kind: ThingKind) -> Vec<Block> {
    let form = RemovalForm::new(context.form, context.plan, context.ledger, kind);
    let Some(finding) = form.stop() else { return Vec::new() };
    let locale = context.locale;
    let title = say!(locale, "aircraft-if-gone", number = finding.number, title = finding.title);
    let mut blocks = vec![heading(title, None)];
    blocks.push(context.entry(RemovalForm::INSTEAD, say!(locale, "aircraft-instead"), Keyboard::Words, None));
    if form.wants_witness() {
        blocks.push(context.entry(RemovalForm::WITNESS, say!(locale, "check-witness"), Keyboard::Name, None));
        blocks.extend(context.people(
            RemovalForm::WITNESS,
            context.form.text(RemovalForm::WITNESS),
            say!(locale, "check-second-person"),
        ));
    }
    blocks
}

/// A field that is one of a few; what is on file stands chosen.
fn one_of_few(context: &Context<'_>, field: &ThingField, now: Option<f64>) -> Option<Block> {
    let choices = field.choices(context.locale);
    if choices.is_empty() {
        return None;
    }
    let chosen = context.form.text(field.id()).map(str::to_owned).or_else(|| now.map(|now| now.to_string()));
    let options = choices.into_iter().map(|(number, word)| {
        let number = number.to_string();
        let is_chosen = chosen.as_deref() == Some(number.as_str());
        Control::new(Edit::set(field.id(), number).into(), word).chosen(is_chosen)
    });
    Some(Block::Choice { label: field.label(context.locale), options: options.collect() })
}

/// Which thing it hangs on; the only one there is stands chosen.
fn on_what(
    context: &Context<'_>,
    (kind, known): (ThingKind, Option<&Thing>),
    on: ThingKind,
    question: &str,
) -> Block {
    let aircraft = &context.ledger.aircraft;
    let now = ThingForm::new(context.form, context.ledger, kind, known.map(|thing| thing.name.as_str())).of(on);
    let there: Vec<&Thing> = aircraft.things_of(on).collect();
    if there.is_empty() {
        let place = Place::Thing { kind: on, name: None };
        return row(
            Edge::Missing,
            say!(context.locale, "common-to-enter"),
            say!(context.locale, "aircraft-first", kind = context.locale.inside(&on.word(context.locale))),
            None,
            place,
        );
    }
    let options = there.iter().map(|thing| {
        let command = Edit::set(ThingForm::OF, thing.name.clone());
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
        others.map(|tested| super::settings_ledger::words(context.locale, context.plan, tested)).collect();
    if !others.is_empty() {
        let text = say!(context.locale, "aircraft-fly-first", others = others.join("; "));
        blocks.push(Block::Caution { title: say!(context.locale, "aircraft-waits"), text });
    }
    if let Some(value) = now {
        blocks.push(Block::Figure {
            label: say!(context.locale, "aircraft-now"),
            value: value.now.clone(),
            unit: unit.clone().unwrap_or_default(),
            note: None,
            edge: Edge::None,
        });
    }
    let entry = context.entry(SettingForm::AFTER, say!(context.locale, "aircraft-new-value"), Keyboard::Words, None);
    blocks.push(match entry {
        Block::Entry { field, label, text, keyboard, hint, flag, .. } => {
            Block::Entry { field, label, text, unit, keyboard, hint, flag }
        }
        other => other,
    });
    blocks.push(context.entry(SettingForm::REASON, say!(context.locale, "aircraft-why"), Keyboard::Words, None));
    if let Some(value) = now {
        blocks.push(heading(say!(context.locale, "common-before"), None));
        let runs_now = context.ledger.runs;
        let mut until = runs_now;
        for (entry, after, reason, runs) in value.past.iter().rev() {
            let detail =
                format!("{reason}. {}", say!(context.locale, "ledger-flown-on", count = (until - runs) as usize));
            blocks.push(row(Edge::None, "", after, Some(detail), Place::Entry(*entry)));
            until = *runs;
        }
    }
    let save = Control::primary(Record::Setting(id.to_owned()).into(), say!(context.locale, "aircraft-record"))
        .icon(Icon::Tick);
    let above = Some(say!(context.locale, "aircraft-settings"));
    Screen { foot: vec![save], ..context.screen("setting", &setting.title, above, blocks) }
}

/// A change to a part, the wiring or the mass.
pub(super) fn change(context: &Context<'_>) -> Screen {
    let fitted = context.plan.parts.iter().filter(|part| context.ledger.aircraft.fits(&part.when));
    let parts = fitted.map(|part| Subject::Part(part.id.clone()));
    let general = [Subject::Wiring, Subject::Mass, Subject::Supplies, Subject::Packs];
    let subjects: Vec<Subject> = general.into_iter().chain(parts).collect();
    let mut blocks = vec![
        context.entry(ChangeForm::WHAT, say!(context.locale, "findings-done"), Keyboard::Words, None),
        subject_choice(context, say!(context.locale, "common-what-touched"), &subjects),
        paragraph(say!(context.locale, "aircraft-goes-stale"), Tone::Quiet),
    ];
    if !context.ledger.changes.is_empty() {
        blocks.push(heading(say!(context.locale, "common-before"), None));
        let past = context.ledger.changes.iter().rev().take(5);
        blocks.extend(past.map(|change| {
            let when = super::day_and_time(context.locale, &change.at.wall, context.now);
            still_row(Edge::None, "", &change.what, Some(when))
        }));
    }
    let save =
        Control::primary(Record::Change.into(), say!(context.locale, "aircraft-record-the-change")).icon(Icon::Tick);
    Screen {
        foot: vec![save],
        ..context.screen("change", say!(context.locale, "aircraft-change"), Some(context.aircraft_name()), blocks)
    }
}

/// Chips for what was touched; each goes on and off by itself.
pub(super) fn subject_choice(context: &Context<'_>, label: String, subjects: &[Subject]) -> Block {
    let options = subjects.iter().map(|subject| {
        let form = SubjectsForm(context.form);
        let turn_over = Edit::set(SubjectsForm::field(subject), form.turned(subject));
        let words = context.plan.subject_words(context.locale, subject);
        Control::new(turn_over.into(), words).chosen(form.is_on(subject))
    });
    Block::Choice { label, options: options.collect() }
}
