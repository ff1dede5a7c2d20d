use super::context::{edge, heading, outcome_edge, paragraph, row, still_row};
use super::stepper::{Stepper, Steps};
use super::{
    Block, Context, Control, Edge, Icon, Keyboard, Place, Record, Screen, Tone, Weight, lacking_words, result_words,
    standing_detail, standing_word,
};
use crate::computed::{Computed, Lacking};
use crate::field::Flight;
use crate::form::{CheckForm, ExplanationForm};
use crate::locale::{Locale, say};
use crate::plan::{Check, CheckKind, Computation, Holds, Measure, OnFile, Point};
use crate::readiness::{GoneOf, Lack, Source, Standing};
use crate::record::{EntryId, Outcome, PhotoOf, ThingKind};

/// Past results in sight.
const PAST_IN_SIGHT: usize = 4;

/// One check: what to do, why, how it is judged, and the way to record it.
pub(super) fn check(context: &Context<'_>, id: &str) -> Screen {
    let Some((stage, check)) = context.plan.check(id) else { return context.gone("check") };
    let standing = context.report.standing(id);
    let run = context.ledger.run_wanted(check, context.now).and_then(|run| context.plan.check(run));
    let (before, body, foot) = match (&check.kind, run) {
        (_, Some((_, run))) => run_first(context.locale, run),
        (CheckKind::Confirm, None) => (Vec::new(), Vec::new(), confirm_foot(context.locale, check)),
        (CheckKind::Measure(measure), None) => {
            (Vec::new(), measure_blocks(context, check, measure), measure_foot(context, check, measure))
        }
        // What it comes to is read first: it can be kept from the foot of the same screen.
        (CheckKind::Compute(computation), None) => compute(context, check, *computation),
        (CheckKind::Fly(_), None) => {
            let (blocks, foot) = fly(context, check);
            (Vec::new(), blocks, foot)
        }
    };
    let mut blocks = before;
    blocks.extend(context.cautions(&check.cautions));
    blocks.extend(context.stage_cautions(stage, check));
    blocks.extend(super::steps::steps(&check.instruction, Tone::Strong));
    blocks.extend(how_it_stands(context, check, &standing));
    blocks.extend(super::papers::of_check(context, check));
    blocks.extend(body);
    if check.fly().is_none() && run.is_none() {
        blocks.extend(remarks(context, check));
    }
    blocks.extend(super::photo::photos(context, &PhotoOf::Check(check.id.clone())));
    blocks.extend(past(context, check));
    blocks.extend(super::withdrawn::withdrawn(context, &GoneOf::Check(check.id.clone())));
    if !matches!(check.kind, CheckKind::Compute(_) | CheckKind::Fly(_)) {
        blocks.extend(super::aircraft::figures_of(context, check));
    }
    blocks.push(heading(say!(context.locale, "check-why"), None));
    blocks.push(paragraph(check.why.clone(), Tone::Plain));
    blocks.push(paragraph(say!(context.locale, "check-judged", judged = check.judged), Tone::Plain));
    blocks.push(paragraph(rests_words(context, check), Tone::Quiet));
    if let Some(basis) = &check.basis {
        blocks.push(paragraph(say!(context.locale, "check-basis", basis = basis), Tone::Quiet));
    }
    let foot = with_finding(context, check, &standing, foot);
    Screen { foot, ..context.screen("check", &check.title, Some(stage.title.clone()), blocks) }
}

/// The card comes first: with it the day's checks, the clock, the pack and the count of runs.
fn run_first(locale: Locale, run: &Check) -> (Vec<Block>, Vec<Block>, Vec<Control>) {
    let words = paragraph(say!(locale, "check-read-on", run = run.title), Tone::Strong);
    let card = Control::primary(Place::Check(run.id.clone()).into(), say!(locale, "check-to-its-run"));
    (Vec::new(), vec![words], vec![card.icon(Icon::Next).detail(run.title.clone()).weight(Weight::Field)])
}

fn how_it_stands(context: &Context<'_>, check: &Check, standing: &Standing) -> Vec<Block> {
    let Some(evidence) = context.ledger.evidence.get(&check.id) else { return Vec::new() };
    let said = result_words(context.locale, context.ledger, &evidence.of);
    let when = super::day_and_time(context.locale, &evidence.at.wall, context.now);
    let detail = match standing_detail(context.locale, context.plan, standing) {
        Some(detail) => say!(context.locale, "check-recorded-with", detail = detail, when = when),
        None => say!(context.locale, "check-recorded", when = when),
    };
    let left = context.ledger.left(check, context.now).filter(|_| standing.holds());
    let left = left
        .as_ref()
        .and_then(|it| super::left_words(context.locale, it))
        .map(|left| format!(". {left}"))
        .unwrap_or_default();
    let alone = evidence.alone.as_ref().map(|why| say!(context.locale, "check-alone", why = why)).unwrap_or_default();
    let detail = format!("{detail}{left}{alone}");
    let stands = still_row(edge(standing), standing_word(context.locale, standing), &said, Some(detail));
    [stands].into_iter().chain(contradictions(context, standing)).collect()
}

/// What is on file and says otherwise than the reading: one touch from where it is put right.
fn contradictions(context: &Context<'_>, standing: &Standing) -> Vec<Block> {
    let Standing::Missing { lacking } = standing else { return Vec::new() };
    let rows = lacking.iter().filter_map(|lack| {
        let Lack::Agreement { with, on_file, unit, .. } = lack else { return None };
        let place = match with {
            OnFile::Figure(id) => Place::Figure(id.clone()),
            OnFile::Scales => {
                let first = context.ledger.aircraft.things_of(ThingKind::Weighing).next()?;
                Place::Thing { kind: ThingKind::Weighing, name: Some(first.name.clone()) }
            }
        };
        let title = context.plan.on_file_words(context.locale, with);
        let says = context.locale.quantity(*on_file, *unit);
        Some(row(Edge::Stop, say!(context.locale, "check-does-not-agree"), &title, Some(says), place))
    });
    rows.collect()
}

/// Where a finding can be raised from this check's own result, that is what the person most likely wants.
fn with_finding(context: &Context<'_>, check: &Check, standing: &Standing, foot: Vec<Control>) -> Vec<Control> {
    if !matches!(standing, Standing::Failed { .. }) {
        return foot;
    }
    let open = context.ledger.findings.iter().any(|finding| {
        finding.proof == check.id && !matches!(finding.state, crate::readiness::FindingState::Proven { .. })
    });
    if open {
        return foot;
    }
    let shown_by = context.ledger.evidence.get(&check.id).map(|evidence| evidence.entry);
    let place = Place::NewFinding { shown_by, proof: check.id.clone() };
    let raise = Control::primary(place.into(), say!(context.locale, "common-raise-finding")).icon(Icon::Flag);
    let rest = foot.into_iter().map(|control| control.weight(Weight::Plain));
    [raise].into_iter().chain(rest).collect()
}

fn record(check: &Check, passed: bool) -> super::Token {
    Record::Check { check: check.id.clone(), passed }.into()
}

fn confirm_foot(locale: Locale, check: &Check) -> Vec<Control> {
    vec![
        Control::primary(record(check, true), say!(locale, "check-seen-right"))
            .icon(Icon::Tick)
            .weight(Weight::Field),
        Control::new(record(check, false), say!(locale, "standing-not-right")).icon(Icon::Cross),
    ]
}

fn measure_blocks(context: &Context<'_>, check: &Check, measure: &Measure) -> Vec<Block> {
    let last = context.ledger.last_measured(&check.id);
    let start = last.unwrap_or(measure.start);
    let (locale, unit) = (context.locale, measure.unit);
    let steps = Steps { unit, step: measure.step, start };
    let stepper = Stepper::of(context, CheckForm::VALUE.to_owned(), say!(locale, "check-reading"), steps);
    let by = stepper.by_words();
    let form = CheckForm::new(context.form, check, &context.ledger.aircraft);
    let stepper = stepper.begun_by(CheckForm::BEGUN, form.is_begun());
    let typed = form.value(measure);
    let hint = match last {
        _ if form.is_begun() && typed == Ok(None) => {
            say!(locale, "check-starts-from", start = stepper.start_words())
        }
        Some(last) => say!(locale, "check-last-time", last = locale.quantity(last, unit)),
        None => say!(
            locale,
            "check-between",
            low = locale.quantity_bare(measure.low, unit),
            high = locale.quantity(measure.high, unit)
        ),
    };
    let spoken = |_: &str, adds: bool| {
        let word = if adds { say!(locale, "check-more-by") } else { say!(locale, "check-less-by") };
        say!(locale, "check-step-spoken", check = check.title, word = word, by = by, unit = locale.spoken(unit))
    };
    let flag = typed.err().map(|refusal| refusal.to_string());
    let mut blocks = vec![stepper.spoken(spoken).flag(flag).hint(hint).block()];
    blocks.extend(limit_rows(context, measure));
    blocks
}

/// What a result is held against: limits, or how it is judged.
pub(crate) fn held_against_words(context: &Context<'_>, check: &Check) -> Vec<String> {
    let limits = match &check.kind {
        CheckKind::Measure(measure) => limits_words(context.locale, context.facts(), measure),
        _ => Vec::new(),
    };
    if limits.is_empty() { vec![check.judged.clone()] } else { limits }
}

/// The limits of a reading, each with its grade: `stop above 5 mm`. One that waits for a figure names it.
fn limits_words(locale: Locale, facts: crate::computed::Facts<'_>, measure: &Measure) -> Vec<String> {
    let (limits, aircraft) = (&measure.limits, &facts.ledger.aircraft);
    let (below, above) = (say!(locale, "check-below"), say!(locale, "check-above"));
    let (caution, stop) = (say!(locale, "common-caution"), say!(locale, "common-stop"));
    let all = [
        (&limits.stop_below, &below, &stop),
        (&limits.caution_below, &below, &caution),
        (&limits.caution_above, &above, &caution),
        (&limits.stop_above, &above, &stop),
    ];
    let words = all.into_iter().filter_map(|(limit, side, grade)| {
        let number = match aircraft.known_limit(limit.as_ref()?) {
            Ok(number) => limit_told(locale, number, measure),
            Err(figure) => facts.plan.figure(figure).map_or_else(|| figure.to_owned(), |figure| figure.title.clone()),
        };
        Some(format!("{grade}: {} {number}", locale.lower_first(side)))
    });
    words.collect()
}

/// A limit as it is read: two thirds of 160 A are 106.7 A to whoever reads whole amperes.
fn limit_told(locale: Locale, limit: f64, measure: &Measure) -> String {
    let is_whole = |digits: &i32| (measure.step * 10_f64.powi(*digits)).fract() < 1e-9;
    let scale = 10_f64.powi((0..3).find(is_whole).unwrap_or(3) + 1);
    locale.quantity((limit * scale).round() / scale, measure.unit)
}

fn limit_rows(context: &Context<'_>, measure: &Measure) -> Vec<Block> {
    let limits = &measure.limits;
    let all = [
        (
            &limits.caution_below,
            say!(context.locale, "check-below"),
            Edge::Caution,
            say!(context.locale, "common-caution"),
        ),
        (&limits.stop_below, say!(context.locale, "check-below"), Edge::Stop, say!(context.locale, "common-stop")),
        (
            &limits.caution_above,
            say!(context.locale, "check-above"),
            Edge::Caution,
            say!(context.locale, "common-caution"),
        ),
        (&limits.stop_above, say!(context.locale, "check-above"), Edge::Stop, say!(context.locale, "common-stop")),
    ];
    let mut rows = Vec::new();
    for (limit, word, edge, state) in all {
        let Some(limit) = limit else { continue };
        let block = match context.ledger.aircraft.known_limit(limit) {
            Ok(number) => {
                still_row(edge, state, format!("{word} {}", limit_told(context.locale, number, measure)), None)
            }
            // The reading is judged by nothing until the figure is there: the row leads to it.
            Err(figure) => missing_figure_row(context, figure),
        };
        if !rows.contains(&block) {
            rows.push(block);
        }
    }
    rows
}

fn missing_figure_row(context: &Context<'_>, id: &str) -> Block {
    let title = context.plan.figure(id).map_or(id, |figure| figure.title.as_str());
    row(
        Edge::Missing,
        say!(context.locale, "common-to-enter"),
        title,
        Some(say!(context.locale, "check-limit-waits")),
        Place::Figure(id.to_owned()),
    )
}

fn measure_foot(context: &Context<'_>, check: &Check, measure: &Measure) -> Vec<Control> {
    let typed = CheckForm::new(context.form, check, &context.ledger.aircraft).value(measure);
    let (label, why_not) = match typed {
        Ok(Some(value)) => {
            (say!(context.locale, "check-record-value", value = context.locale.quantity(value, measure.unit)), None)
        }
        Ok(None) => (say!(context.locale, "check-record"), Some(say!(context.locale, "check-enter-first"))),
        Err(_) => (say!(context.locale, "check-record"), super::mend::mend_first(context.locale, true)),
    };
    vec![Control::primary(record(check, true), label).icon(Icon::Tick).weight(Weight::Field).unless(why_not)]
}

/// The result, what it rests on, and the foot.
fn compute(context: &Context<'_>, check: &Check, computation: Computation) -> (Vec<Block>, Vec<Block>, Vec<Control>) {
    match Computed::of(computation, context.facts()) {
        Ok(computed) => {
            let result =
                Block::Verdict { text: computed.summary.clone(), detail: None, edge: outcome_edge(computed.outcome) };
            let mut blocks = Vec::new();
            blocks.extend(computed.picture.clone().map(|picture| Block::Drawing { picture }));
            blocks.extend(computed_blocks(context.locale, &computed));
            blocks.extend(super::aircraft::what_went_in(context, check));
            let label = match computed.outcome {
                Outcome::Stop => say!(context.locale, "check-record-result"),
                _ => say!(context.locale, "check-keep-result"),
            };
            let keep = Control::primary(record(check, true), label).icon(Icon::Tick).weight(Weight::Field);
            let other_day = Control::new(Place::HotterDay.into(), say!(context.locale, "check-another-day"))
                .icon(Icon::Thermometer);
            let heat = computation == Computation::HotDayHeat;
            // One list at a time: the next one is asked about when this one is declared.
            let lists = computation.lists();
            let declare = lists.iter().find_map(|list| super::lists::declare(context, *list));
            let add = lists.iter().find_map(|list| {
                let add = super::lists::add(context, *list)?;
                Some([add].into_iter().chain(super::lists::one_more_like_last(context, *list)))
            });
            let add = add.into_iter().flatten();
            let keep = if declare.is_none() { keep } else { keep.weight(Weight::Plain) };
            let mut before = vec![result];
            before.extend(computation.lists().iter().flat_map(|list| super::lists::list_rows(context, *list)));
            (before, blocks, declare.into_iter().chain(add).chain([keep]).chain(heat.then_some(other_day)).collect())
        }
        Err(lacking) => {
            let words = lacking_words(context.locale, context.plan, &lacking);
            let place = match &lacking {
                Lacking::Things(kind) => Place::Thing { kind: *kind, name: None },
                Lacking::Count { kind, described, wanted } if described < wanted => {
                    Place::Thing { kind: *kind, name: None }
                }
                Lacking::Count { .. } | Lacking::Refused(_) => Place::Aircraft,
                Lacking::Number { kind, name, .. } => Place::Thing { kind: *kind, name: Some(name.clone()) },
                Lacking::Figure(id) => Place::Figure(id.clone()),
                Lacking::Flight(check) => Place::Check(check.clone()),
                Lacking::OtherLoad(_) => Place::Thing { kind: ThingKind::LoadReading, name: None },
                Lacking::RestingPack(_) => Place::Thing { kind: ThingKind::PackReading, name: None },
            };
            let label = if matches!(lacking, Lacking::Flight(_)) {
                say!(context.locale, "check-go-there")
            } else {
                say!(context.locale, "check-enter-it")
            };
            let control = Control::primary(place.into(), label).icon(Icon::Pencil).detail(words.clone());
            (
                vec![still_row(Edge::Missing, say!(context.locale, "check-cannot-compute"), &words, None)],
                Vec::new(),
                vec![control],
            )
        }
    }
}

pub(super) fn computed_blocks(locale: Locale, computed: &Computed) -> Vec<Block> {
    let figures = computed.figures.iter().map(|figure| Block::Figure {
        label: figure.label.clone(),
        value: locale.bare(figure.value, figure.digits, figure.unit),
        unit: locale.shown(figure.unit).sign.to_owned(),
        note: figure.note.clone(),
        edge: figure.outcome.map_or(Edge::None, outcome_edge),
    });
    let rows = computed
        .rows
        .iter()
        .map(|row| still_row(outcome_edge(row.outcome), &row.word, &row.title, Some(row.detail.clone())));
    let remarks = computed.remarks.iter().map(|remark| paragraph(remark.clone(), Tone::Quiet));
    figures.chain(rows).chain(remarks).collect()
}

fn fly(context: &Context<'_>, check: &Check) -> (Vec<Block>, Vec<Control>) {
    let blockers = context.ledger.before_flying(context.plan, &check.id, context.now);
    let mut blocks = Vec::new();
    let mut foot = Vec::new();
    if let Standing::Unexplained { card } = context.report.standing(&check.id) {
        if let Some((used, prediction)) = context.ledger.flight(card).and_then(|flight| flight.disagreement()) {
            let text = say!(
                context.locale,
                "check-charge-range",
                used = context.locale.number(used, 0),
                low = context.locale.number(prediction.low_mah, 0),
                high = context.locale.number(prediction.high_mah, 0),
                from = prediction.from
            );
            blocks.push(still_row(Edge::Caution, say!(context.locale, "standing-not-predicted"), &text, None));
        }
        let (said, control) = account_for(context, card);
        blocks.push(said);
        foot.push(control);
    }
    if let Some(card) = landing_to_complete(context, check) {
        let complete = Control::primary(Place::Landing(card).into(), say!(context.locale, "check-complete-landing"));
        foot.push(complete.icon(Icon::Thermometer).weight(Weight::Field));
    }
    if !blockers.is_empty() {
        blocks.push(heading(say!(context.locale, "check-in-the-way"), None));
        blocks.extend(blockers.iter().take(6).map(|blocker| super::board::blocker_row(context, blocker)));
    }
    let why_not =
        (!blockers.is_empty()).then(|| say!(context.locale, "check-things-in-the-way", count = blockers.len()));
    let card = Control::primary(Place::Card(check.id.clone()).into(), say!(context.locale, "board-draw-card"))
        .icon(Icon::List);
    foot.push(card.weight(Weight::Field).unless(why_not));
    (blocks, foot)
}

/// What a charge that was not as predicted wants: why, or a finding where it lies too far out for any reason.
fn account_for(context: &Context<'_>, card: EntryId) -> (Block, Control) {
    let locale = context.locale;
    if context.ledger.flight(card).is_some_and(Flight::disagrees_widely) {
        let raise = Control::primary(Record::RaiseCharge(card).into(), say!(locale, "common-raise-finding"));
        return (paragraph(say!(locale, "app-wants-finding"), Tone::Plain), raise.icon(Icon::Flag));
    }
    let why = context.entry(ExplanationForm::WHY, say!(locale, "check-why-differs"), Keyboard::Words, None);
    let explain = Control::primary(Record::Explain(card).into(), say!(locale, "check-record-explanation"));
    (why, explain.icon(Icon::Pencil))
}

/// The flight whose landing was jotted down and still lacks something.
fn landing_to_complete(context: &Context<'_>, check: &Check) -> Option<EntryId> {
    let Standing::Missing { lacking } = context.report.standing(&check.id) else { return None };
    match context.ledger.evidence.get(&check.id).map(|evidence| &evidence.of) {
        // What was too short is flown again; jotting down more does not make it longer.
        Some(Source::Flight(card)) if !lacking.is_empty() => {
            let long_enough = |flight: &&Flight| check.fly().is_none_or(|fly| flight.too_short(fly).is_none());
            context.ledger.flight(*card).filter(long_enough).map(|flight| flight.card)
        }
        _ => None,
    }
}

fn remarks(context: &Context<'_>, check: &Check) -> Vec<Block> {
    let mut blocks = Vec::new();
    if check.witness {
        blocks.push(context.entry(CheckForm::WITNESS, say!(context.locale, "check-witness"), Keyboard::Name, None));
        blocks.extend(context.people(
            CheckForm::WITNESS,
            context.form.text(CheckForm::WITNESS),
            say!(context.locale, "check-second-person"),
        ));
    }
    if check.point == Point::Witness {
        blocks.push(context.entry(CheckForm::ALONE, say!(context.locale, "check-why-alone"), Keyboard::Words, None));
        blocks.push(paragraph(say!(context.locale, "check-witness-point"), Tone::Quiet));
    }
    blocks.push(context.entry(CheckForm::NOTE, say!(context.locale, "common-remark"), Keyboard::Words, None));
    blocks
}

fn past(context: &Context<'_>, check: &Check) -> Vec<Block> {
    let Some(results) = context.ledger.results.get(&check.id).filter(|results| results.len() > 1) else {
        return Vec::new();
    };
    let mut blocks = vec![heading(
        say!(context.locale, "common-before"),
        Some(say!(context.locale, "check-times", count = results.len() - 1)),
    )];
    for result in results.iter().rev().skip(1).take(PAST_IN_SIGHT) {
        let title = result_words(context.locale, context.ledger, &result.of);
        let mut detail = super::day_and_time(context.locale, &result.at.wall, context.now);
        if let Some(witness) = &result.witness {
            detail.push_str(&say!(context.locale, "check-seen-by", witness = witness));
        }
        if let Some(note) = &result.note {
            detail.push_str(&format!(". {note}"));
        }
        blocks.push(row(Edge::None, "", &title, Some(detail), Place::Entry(result.entry)));
    }
    blocks
}

fn rests_words(context: &Context<'_>, check: &Check) -> String {
    let subjects: Vec<String> =
        check.rests_on.iter().map(|subject| context.plan.subject_words(context.locale, subject)).collect();
    let rests = match subjects.is_empty() {
        true => String::new(),
        false => say!(context.locale, "check-rests-on", subjects = subjects.join(", ")),
    };
    format!("{rests}{}", holds_words(context, &check.holds))
}

fn holds_words(context: &Context<'_>, holds: &Holds) -> String {
    let mut limits = Vec::new();
    if holds.session {
        limits.push(say!(context.locale, "check-holds-day"));
    }
    if let Some(flights) = holds.flights {
        limits.push(say!(context.locale, "common-motor-runs", count = flights as usize));
    }
    if let Some(hours) = holds.hours {
        limits.push(say!(context.locale, "check-holds-hours", hours = context.locale.plain(hours)));
    }
    if let Some(days) = holds.days {
        limits.push(say!(context.locale, "check-holds-days", days = days));
    }
    let event =
        |id: &String| context.plan.event(id).map_or_else(|| id.clone(), |e| context.locale.lower_first(&e.title));
    let events: Vec<String> = holds.events.iter().map(event).collect();
    let until = match events.is_empty() {
        true => String::new(),
        false => say!(context.locale, "check-ends-with", events = events.join(", ")),
    };
    let or = say!(context.locale, "left-or");
    match limits.as_slice() {
        [] => say!(context.locale, "check-holds-unchanged", until = until),
        [limit] => say!(context.locale, "check-holds-for-one", limit = limit, until = until),
        limits => say!(context.locale, "check-holds-for", limits = limits.join(&or), until = until),
    }
}
