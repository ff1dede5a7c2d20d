use super::context::{bare, edge, heading, row, still_row};
use super::{
    Block, Context, Control, Edge, Go, Icon, Place, Screen, Weight, blocker_words, entry_words, finding_word,
    standing_detail, standing_word,
};
use chrono::{DateTime, FixedOffset};

use crate::field::Unanswered;
use crate::locale::{Locale, say};
use crate::plan::Stage;
use crate::readiness::{Blocker, FindingState, Gate, NextFlight};
use crate::record::ThingKind;

/// Blockers shown before the rest is only counted.
const IN_SIGHT: usize = 6;

/// What stands between the aircraft and its next flight.
pub(super) fn board(context: &Context<'_>) -> Screen {
    let unkept = context.unkept();
    let backup = super::backup::backup_row(context, unkept);
    let (asked, last) = if unkept.asks { (Some(backup), None) } else { (None, Some(backup)) };
    let mut blocks = vec![verdict(context)];
    blocks.extend(clock_is_behind(context));
    blocks.extend(super::plan::looser_row(context));
    blocks.extend(super::code::opened_row(context));
    blocks.extend(landings_to_record(context));
    blocks.extend(super::way_ahead::ahead(context));
    if let Some(next) = &context.report.next {
        blocks.extend(in_the_way(context, next));
    }
    blocks.extend(asked);
    blocks.extend(again(context));
    blocks.extend(due_soon(context));
    blocks.extend(super::papers::ending(context));
    blocks.extend(carried(context));
    blocks.extend(super::packs::packs_row(context));
    blocks.extend(super::hangar_rows::hangar_row(context));
    blocks.extend(events(context));
    blocks.push(emergency(context));
    blocks.extend(changed(context));
    blocks.push(heading(say!(context.locale, "board-stages"), None));
    blocks.extend(context.plan.stages.iter().map(|stage| stage_row(context, stage)));
    blocks.push(heading(say!(context.locale, "board-this-phone"), None));
    blocks.extend(last);
    blocks.extend(super::plan::newer_edition(context));
    blocks.push(super::preference::preference_row(context));
    let title = context.aircraft_name();
    Screen { foot: foot(context), ..bare("board", title, blocks) }
}

pub(super) fn verdict(context: &Context<'_>) -> Block {
    let name = context.aircraft_in_sentence();
    let Some(next) = &context.report.next else {
        let text = match context.plan.checks().any(|(_, check)| check.fly().is_some()) {
            true => say!(context.locale, "board-no-flight-wanted", name = name),
            false => say!(context.locale, "board-no-flight", name = name),
        };
        return Block::Verdict { text, detail: None, edge: Edge::Missing };
    };
    let flight = flight_words(context, next);
    match next.blockers.len() {
        0 => Block::Verdict {
            text: say!(context.locale, "board-nothing-stands", name = name, flight = flight),
            detail: Some(say!(context.locale, "board-pilot-decides")),
            edge: Edge::Fresh,
        },
        count => Block::Verdict {
            text: things_stand(context, count, &flight),
            detail: flown_before(context, next),
            edge: if next.blockers.iter().any(|blocker| is_stop(context, blocker)) {
                Edge::Stop
            } else {
                Edge::Stale
            },
        },
    }
}

/// How many things stand in between: at least so many, while an answer that is not given yet may add to them.
fn things_stand(context: &Context<'_>, count: usize, flight: &str) -> String {
    let (locale, name) = (context.locale, context.aircraft_in_sentence());
    let answers = &context.ledger.aircraft.answers;
    match context.plan.questions.iter().all(|question| answers.contains_key(&question.id)) {
        true => say!(locale, "board-things-stand", count = count, name = name, flight = flight),
        false => say!(locale, "board-things-stand-at-least", count = count, name = name, flight = flight),
    }
}

/// Why a flight that was flown is to be flown again: where a change sent the ladder back to this rung.
fn flown_before(context: &Context<'_>, next: &NextFlight) -> Option<String> {
    let standing = context.report.standing(&next.check);
    let is_stale = matches!(standing, crate::readiness::Standing::Stale { .. });
    let why = standing_detail(context.locale, context.plan, &standing).filter(|_| is_stale)?;
    Some(say!(context.locale, "board-fly-again", why = why))
}

fn is_stop(context: &Context<'_>, blocker: &Blocker) -> bool {
    match blocker {
        Blocker::Finding(id) => {
            context.ledger.finding(*id).is_some_and(|finding| matches!(finding.state, FindingState::Open))
        }
        Blocker::Check { standing, .. } => matches!(standing, crate::readiness::Standing::Failed { .. }),
        Blocker::Unanswered { what, .. } => matches!(what, Unanswered::Stop { .. } | Unanswered::NotSo(_)),
        Blocker::Question(_)
        | Blocker::Figure(_)
        | Blocker::Order { .. }
        | Blocker::Landing(_)
        | Blocker::Gate(_)
        | Blocker::Unnamed
        | Blocker::Clock
        | Blocker::RecordDamaged
        | Blocker::NoPack => false,
    }
}

fn flight_words(context: &Context<'_>, next: &NextFlight) -> String {
    let title = super::check_title(context.plan, &next.check);
    let fly = context.plan.check(&next.check).and_then(|(_, check)| check.fly());
    let rpm = fly.and_then(|fly| context.ledger.aircraft.limit(&fly.head_speed_rpm));
    match rpm {
        Some(rpm) => say!(context.locale, "board-flight-at", title = title, rpm = context.locale.number(rpm, 0)),
        None => say!(context.locale, "board-flight", title = title),
    }
}

/// A wall clock that went back, with what to do; none where it did not.
fn clock_is_behind(context: &Context<'_>) -> Option<Block> {
    let (locale, now) = (context.locale, context.now);
    let shown = context.ledger.clock.behind(now)?;
    let words = |at: &DateTime<FixedOffset>| format!("{}, {}", locale.date(at.date_naive()), at.format("%H:%M"));
    let text = say!(locale, "clock-behind-how", now = words(&now.wall), last = words(&shown));
    Some(Block::Caution { title: say!(locale, "clock-is-behind"), text })
}

/// Flights that came down and of which nothing was jotted; the last one stands among what is in the way.
fn landings_to_record(context: &Context<'_>) -> Vec<Block> {
    let last = context.report.next.as_ref().and_then(|_| context.ledger.last_run_to_jot());
    let open = context.ledger.flights.iter().filter(|flight| flight.awaits_landing() && last != Some(flight.card));
    open.map(|flight| {
        let title = say!(context.locale, "board-landing-of", check = super::check_title(context.plan, &flight.check));
        row(Edge::Missing, say!(context.locale, "board-to-jot-down"), &title, None, Place::Landing(flight.card))
    })
    .collect()
}

fn in_the_way(context: &Context<'_>, next: &NextFlight) -> Vec<Block> {
    if next.blockers.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading(say!(context.locale, "board-in-the-way"), None)];
    blocks.extend(next.blockers.iter().take(IN_SIGHT).map(|blocker| blocker_row(context, blocker)));
    if next.blockers.len() > IN_SIGHT {
        let rest = next.blockers.len() - IN_SIGHT;
        blocks.push(super::context::paragraph(say!(context.locale, "board-more", rest = rest), super::Tone::Quiet));
    }
    blocks
}

/// One thing in the way, one touch from where it is done.
pub(super) fn blocker_row(context: &Context<'_>, blocker: &Blocker) -> Block {
    let title = blocker_words(context.locale, context.plan, context.ledger, blocker);
    match blocker {
        Blocker::Question(id) => {
            row(Edge::Missing, say!(context.locale, "board-to-answer"), &title, None, Place::Question(id.clone()))
        }
        Blocker::Figure(id) => {
            row(Edge::Missing, say!(context.locale, "board-to-enter"), &title, None, Place::Figure(id.clone()))
        }
        Blocker::Order { figure, .. } => {
            row(Edge::Stop, say!(context.locale, "board-out-of-order"), &title, None, Place::Figure(figure.clone()))
        }
        Blocker::Check { check, standing } => row(
            edge(standing),
            standing_word(context.locale, standing),
            &title,
            standing_detail(context.locale, context.plan, standing),
            Place::Check(check.clone()),
        ),
        Blocker::Finding(id) => {
            let finding = context.ledger.finding(*id);
            let over = finding.is_some_and(|finding| finding.carry_over(context.ledger, context.now));
            if let Some((proof, words)) = finding.and_then(|finding| to_prove(context, finding)) {
                return row(
                    Edge::Stale,
                    say!(context.locale, "finding-fixed"),
                    &title,
                    Some(words),
                    Place::Check(proof),
                );
            }
            let word = match finding {
                _ if over => say!(context.locale, "board-carried-too-long"),
                Some(finding) => finding_word(context.locale, &finding.state),
                None => say!(context.locale, "finding-word"),
            };
            row(Edge::Stop, word, &title, None, Place::Finding(*id))
        }
        Blocker::Unanswered { card, .. } => {
            let edge = if is_stop(context, blocker) { Edge::Stop } else { Edge::Caution };
            row(edge, say!(context.locale, "board-to-answer"), &title, None, Place::Landing(*card))
        }
        Blocker::Landing(card) => {
            row(Edge::Missing, say!(context.locale, "board-to-jot-down"), &title, None, Place::Landing(*card))
        }
        Blocker::Gate(stage) => {
            let gate = context.report.gate(stage);
            row(gate_edge(gate), gate_word(context.locale, gate), &title, None, Place::Stage(stage.clone()))
        }
        Blocker::Unnamed => row(Edge::Missing, say!(context.locale, "board-to-enter"), &title, None, Place::Name),
        Blocker::NoPack => no_pack_row(context, &title),
        Blocker::RecordDamaged => row(Edge::Stale, say!(context.locale, "common-look"), &title, None, Place::Backup),
        Blocker::Clock => still_row(
            Edge::Caution,
            say!(context.locale, "common-look"),
            &title,
            Some(say!(context.locale, "clock-set-it")),
        ),
    }
}

/// For a finding that was fixed: the check that proves it, where the person goes at once.
fn to_prove(context: &Context<'_>, finding: &crate::readiness::Finding) -> Option<(String, String)> {
    matches!(finding.state, FindingState::Fixed { .. }).then(|| {
        let words = say!(context.locale, "board-prove", check = super::check_title(context.plan, &finding.proof));
        (finding.proof.clone(), words)
    })
}

pub(super) fn gate_word(locale: Locale, gate: &Gate) -> String {
    match gate {
        Gate::Shut { .. } => say!(locale, "gate-shut"),
        Gate::Ready => say!(locale, "gate-ready"),
        Gate::Released(_) => say!(locale, "gate-released"),
        Gate::Lapsed { .. } => say!(locale, "gate-lapsed"),
        Gate::None => say!(locale, "gate-recurring"),
    }
}

pub(super) fn gate_edge(gate: &Gate) -> Edge {
    match gate {
        Gate::Shut { .. } | Gate::Ready => Edge::Missing,
        Gate::Released(_) => Edge::Fresh,
        Gate::Lapsed { .. } => Edge::Stale,
        Gate::None => Edge::None,
    }
}

fn stage_row(context: &Context<'_>, stage: &Stage) -> Block {
    let gate = context.report.gate(&stage.id);
    let (holds, wanted) = context.progress(stage);
    let detail = say!(context.locale, "board-checks-hold", holds = holds, wanted = wanted);
    row(gate_edge(gate), gate_word(context.locale, gate), &stage.title, Some(detail), Place::Stage(stage.id.clone()))
}

/// The way to release many lapsed gates: only where it saves going from one to the next.
fn again(context: &Context<'_>) -> Option<Block> {
    let again = context.ledger.releasable_again(context.plan, context.now);
    (again.len() > 1).then(|| {
        let detail = say!(context.locale, "board-again-detail");
        let title = say!(context.locale, "board-again", count = again.len());
        row(Edge::Stale, say!(context.locale, "gate-lapsed"), &title, Some(detail.to_owned()), Place::ReleaseAgain)
    })
}

/// The way to say that something happened; in the page, since the foot's room is dear.
fn events(context: &Context<'_>) -> Option<Block> {
    let titles: Vec<&str> = context.plan.events.iter().map(|event| event.title.as_str()).collect();
    (!titles.is_empty())
        .then(|| row(Edge::None, "", say!(context.locale, "events-title"), Some(titles.join(", ")), Place::Events))
}

/// The way to what is done when something burns or somebody is hurt: always there, and it says whether whom to call is known.
fn emergency(context: &Context<'_>) -> Block {
    let locale = context.locale;
    let detail = match &context.ledger.emergency {
        Some(known) => say!(locale, "emergency-call-now", call = known.call),
        None => say!(locale, "emergency-not-entered"),
    };
    row(Edge::None, "", say!(locale, "emergency-title"), Some(detail), Place::Emergency)
}

/// What holds and will soon run out.
fn due_soon(context: &Context<'_>) -> Vec<Block> {
    if context.report.due_soon.is_empty() {
        return Vec::new();
    }
    let mut blocks =
        vec![heading(say!(context.locale, "board-due-soon"), Some(context.report.due_soon.len().to_string()))];
    blocks.extend(context.report.due_soon.iter().take(IN_SIGHT).map(|due| {
        let title = super::check_title(context.plan, &due.check);
        row(
            Edge::Caution,
            say!(context.locale, "board-soon"),
            &title,
            super::left_words(context.locale, &due.left),
            Place::Check(due.check.clone()),
        )
    }));
    blocks
}

/// Restrictions under which the aircraft flies.
fn carried(context: &Context<'_>) -> Vec<Block> {
    let carried: Vec<Block> = context
        .ledger
        .findings
        .iter()
        .filter_map(|finding| match &finding.state {
            FindingState::Carried { restriction, until, .. } => Some(row(
                Edge::Caution,
                say!(context.locale, "finding-carried"),
                restriction,
                Some(say!(
                    context.locale,
                    "board-carried-finding",
                    title = finding.title,
                    carried = super::carried_words(context.locale, context.ledger, finding, until)
                )),
                Place::Finding(finding.id),
            )),
            _ => None,
        })
        .collect();
    if carried.is_empty() {
        carried
    } else {
        [vec![heading(say!(context.locale, "board-flown-with"), None)], carried].concat()
    }
}

/// What the last thing recorded did to everything else.
fn changed(context: &Context<'_>) -> Vec<Block> {
    let Some((last, ledger, plan)) = context.last else { return Vec::new() };
    let was = ledger.at(plan, &last.at);
    let mut blocks = vec![heading(
        say!(context.locale, "board-last-recorded"),
        Some(super::day_and_time(context.locale, &last.at.wall, context.now)),
    )];
    blocks.push(super::context::paragraph(
        entry_words(context.locale, context.plan, context.entries, last),
        super::Tone::Plain,
    ));
    for (_, check) in context.plan.checks() {
        let (old, new) = (was.standing(&check.id), context.report.standing(&check.id));
        // By the words: a landing that lacks a reading is another thing than no landing.
        if standing_word(context.locale, &old) != standing_word(context.locale, &new) {
            let detail = standing_detail(context.locale, context.plan, &new);
            blocks.push(row(
                edge(&new),
                standing_word(context.locale, &new),
                &check.title,
                detail,
                Place::Check(check.id.clone()),
            ));
        }
    }
    for stage in &context.plan.stages {
        let (old, new) = (was.gate(&stage.id), context.report.gate(&stage.id));
        if std::mem::discriminant(old) != std::mem::discriminant(new) {
            let title = say!(context.locale, "blocker-gate", stage = context.locale.inside(&stage.title));
            blocks.push(row(
                gate_edge(new),
                gate_word(context.locale, new),
                &title,
                None,
                Place::Stage(stage.id.clone()),
            ));
        }
    }
    for finding in &context.ledger.findings {
        let old = ledger.finding(finding.id).map(|finding| finding_word(context.locale, &finding.state));
        let new = finding_word(context.locale, &finding.state);
        if old.as_ref() != Some(&new) {
            let edge = super::findings::finding_edge(finding);
            blocks.push(row(edge, new, &finding.title, None, Place::Finding(finding.id)));
        }
    }
    if blocks.len() == 2 {
        blocks.push(still_row(Edge::None, "", say!(context.locale, "board-nothing-changed"), None));
    }
    blocks.into_iter().map(|block| said_as_changed(context, block)).collect()
}

/// The same row may stand among what is in the way: read aloud, each says where it stands.
fn said_as_changed(context: &Context<'_>, block: Block) -> Block {
    match block {
        Block::Row { edge, state, title, detail, control: Some(control) } => {
            let spoken = say!(context.locale, "board-last-recorded-spoken", what = control.spoken);
            Block::Row { edge, state, title, detail, control: Some(control.spoken(spoken)) }
        }
        other => other,
    }
}

fn foot(context: &Context<'_>) -> Vec<Control> {
    let mut foot = Vec::new();
    if let Some(flight) = context.ledger.flights.iter().find(|flight| flight.awaits_landing()) {
        foot.push(
            field_control(Place::Landing(flight.card).into(), say!(context.locale, "board-jot-landing"))
                .icon(Icon::Thermometer),
        );
    } else if let Some(next) = &context.report.next {
        foot.push(next_action(context, next));
    }
    foot.push(
        Control::new(Place::Findings.into(), say!(context.locale, "findings-title"))
            .icon(Icon::Flag)
            .detail(findings_open(context)),
    );
    foot.push(Control::new(Place::Aircraft.into(), say!(context.locale, "aircraft-title")).icon(Icon::Rotor));
    foot.push(Control::new(Place::Journal.into(), say!(context.locale, "journal-title")).icon(Icon::Book));
    foot
}

fn findings_open(context: &Context<'_>) -> String {
    let open = context.ledger.findings.iter().filter(|finding| finding.blocks(context.ledger, context.now)).count();
    if open == 0 { say!(context.locale, "board-none-open") } else { say!(context.locale, "board-open", open = open) }
}

fn field_control(token: super::Token, label: String) -> Control {
    Control::primary(token, label).weight(Weight::Field)
}

fn next_action(context: &Context<'_>, next: &NextFlight) -> Control {
    match next.blockers.first() {
        Some(_) if next.is_done_on_card(context.plan) => {
            let detail = say!(
                context.locale,
                "board-flight-due",
                flight = flight_words(context, next),
                count = next.blockers.len()
            );
            field_control(Place::Card(next.check.clone()).into(), say!(context.locale, "board-draw-card"))
                .icon(Icon::List)
                .detail(detail)
        }
        None => {
            let detail = flight_words(context, next);
            field_control(Place::Card(next.check.clone()).into(), say!(context.locale, "board-draw-card"))
                .icon(Icon::List)
                .detail(detail)
        }
        Some(blocker) => {
            let words = blocker_words(context.locale, context.plan, context.ledger, blocker);
            let (place, verb, icon) = match blocker {
                Blocker::Question(id) => {
                    (Place::Question(id.clone()), say!(context.locale, "board-answer"), Icon::Pencil)
                }
                Blocker::Figure(id) => (Place::Figure(id.clone()), say!(context.locale, "board-enter"), Icon::Pencil),
                Blocker::Order { figure, .. } => {
                    (Place::Figure(figure.clone()), say!(context.locale, "board-correct"), Icon::Pencil)
                }
                Blocker::Check { check, .. } => {
                    (Place::Check(check.clone()), say!(context.locale, "board-do"), Icon::Tick)
                }
                Blocker::Finding(id) => {
                    let proof = context.ledger.finding(*id).and_then(|finding| to_prove(context, finding));
                    match proof {
                        Some((proof, _)) => {
                            (Place::Check(proof), say!(context.locale, "board-prove-fix"), Icon::Tick)
                        }
                        None => (Place::Finding(*id), say!(context.locale, "board-see-to"), Icon::Flag),
                    }
                }
                Blocker::Unanswered { card, .. } => {
                    (Place::Landing(*card), say!(context.locale, "board-answer"), Icon::Flag)
                }
                Blocker::Landing(card) => {
                    (Place::Landing(*card), say!(context.locale, "board-jot-landing"), Icon::Thermometer)
                }
                Blocker::Gate(stage) => {
                    (Place::Stage(stage.clone()), say!(context.locale, "board-decide"), Icon::Next)
                }
                Blocker::Unnamed => (Place::Name, say!(context.locale, "board-enter"), Icon::Pencil),
                Blocker::NoPack => no_pack_action(context),
                Blocker::RecordDamaged => (Place::Backup, say!(context.locale, "common-look"), Icon::Warning),
                Blocker::Clock => (Place::Journal, say!(context.locale, "common-look"), Icon::Warning),
            };
            field_control(place.into(), verb).icon(icon).detail(words)
        }
    }
}

/// That no pack may be flown: it leads to where one is described, or to why none of those there may be flown.
fn no_pack_row(context: &Context<'_>, title: &str) -> Block {
    let state = match context.ledger.packs().is_empty() {
        true => say!(context.locale, "board-to-enter"),
        false => say!(context.locale, "common-look"),
    };
    row(Edge::Missing, state, title, None, no_pack_action(context).0)
}

/// The same as the board's one control: where it leads, its word and its icon.
fn no_pack_action(context: &Context<'_>) -> (Place, String, Icon) {
    match context.ledger.packs().is_empty() {
        true => {
            let place = Place::Thing { kind: ThingKind::Pack, name: None };
            (place, say!(context.locale, "board-enter"), Icon::Pack)
        }
        false => (Place::Packs, say!(context.locale, "common-look"), Icon::Pack),
    }
}

/// The command that draws up a fly check's card.
pub(super) fn card_command(check: &str) -> Go {
    Go::To(Place::Card(check.to_owned()))
}
