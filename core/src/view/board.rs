use super::context::{bare, edge, heading, row, still_row};
use super::{
    Block, Command, Context, Control, Edge, Icon, Place, Screen, Weight, blocker_words, counted, entry_words,
    finding_word, standing_detail, standing_word,
};
use crate::plan::Stage;
use crate::readiness::{Blocker, FindingState, Gate, NextFlight};

/// Blockers shown before the rest is only counted.
const IN_SIGHT: usize = 6;

/// What stands between the aircraft and its next flight.
pub(super) fn board(context: &Context<'_>) -> Screen {
    let mut blocks = vec![verdict(context)];
    blocks.extend(super::code::opened_row(context));
    blocks.extend(landings_to_record(context));
    if let Some(next) = &context.report.next {
        blocks.extend(in_the_way(context, next));
    }
    blocks.extend(carried(context));
    blocks.extend(super::packs::packs_row(context));
    blocks.extend(changed(context));
    blocks.push(heading("Stages", None));
    blocks.extend(context.plan.stages.iter().map(|stage| stage_row(context, stage)));
    let title = context.aircraft_name();
    Screen { foot: foot(context), ..bare("board", title, blocks) }
}

fn verdict(context: &Context<'_>) -> Block {
    let name = context.aircraft_in_sentence();
    let Some(next) = &context.report.next else {
        let text = format!("The plan holds no flight for {name}.");
        return Block::Verdict { text, detail: None, edge: Edge::Missing };
    };
    let flight = flight_words(context, next);
    match next.blockers.len() {
        0 => Block::Verdict {
            text: format!("Nothing stands between {name} and {flight}."),
            detail: Some("The pilot decides, every time.".to_owned()),
            edge: Edge::Fresh,
        },
        count => Block::Verdict {
            text: format!("{} between {name} and {flight}.", counted(count, "thing stands", "things stand")),
            detail: None,
            edge: if next.blockers.iter().any(|blocker| is_stop(context, blocker)) {
                Edge::Stop
            } else {
                Edge::Stale
            },
        },
    }
}

fn is_stop(context: &Context<'_>, blocker: &Blocker) -> bool {
    match blocker {
        Blocker::Finding(id) => {
            context.ledger.finding(*id).is_some_and(|finding| matches!(finding.state, FindingState::Open))
        }
        Blocker::Check { standing, .. } => matches!(standing, crate::readiness::Standing::Failed { .. }),
        _ => false,
    }
}

fn flight_words(context: &Context<'_>, next: &NextFlight) -> String {
    let title = super::check_title(context.plan, &next.check);
    let fly = context.plan.check(&next.check).and_then(|(_, check)| check.fly());
    let rpm = fly.and_then(|fly| context.ledger.aircraft.limit(&fly.head_speed_rpm));
    match rpm {
        Some(rpm) => format!("'{title}' at {rpm:.0} rpm"),
        None => format!("'{title}'"),
    }
}

/// Flights that came down and of which nothing was jotted.
fn landings_to_record(context: &Context<'_>) -> Vec<Block> {
    let open = context.ledger.flights.iter().filter(|flight| flight.awaits_landing());
    open.map(|flight| {
        let title = format!("Landing of {}", super::check_title(context.plan, &flight.check));
        row(Edge::Missing, "To jot down", &title, None, Place::Landing(flight.card))
    })
    .collect()
}

fn in_the_way(context: &Context<'_>, next: &NextFlight) -> Vec<Block> {
    if next.blockers.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("In the way, in this order", None)];
    blocks.extend(next.blockers.iter().take(IN_SIGHT).map(|blocker| blocker_row(context, blocker)));
    if next.blockers.len() > IN_SIGHT {
        let rest = next.blockers.len() - IN_SIGHT;
        blocks.push(super::context::paragraph(format!("and {rest} more after these"), super::Tone::Quiet));
    }
    blocks
}

/// One thing in the way, one touch from where it is done.
pub(super) fn blocker_row(context: &Context<'_>, blocker: &Blocker) -> Block {
    let title = blocker_words(context.plan, context.ledger, blocker);
    match blocker {
        Blocker::Question(id) => row(Edge::Missing, "To answer", &title, None, Place::Question(id.clone())),
        Blocker::Figure(id) => row(Edge::Missing, "To enter", &title, None, Place::Figure(id.clone())),
        Blocker::Check { check, standing } => row(
            edge(standing),
            standing_word(standing),
            &title,
            standing_detail(standing),
            Place::Check(check.clone()),
        ),
        Blocker::Finding(id) => {
            let finding = context.ledger.finding(*id);
            let over = finding.is_some_and(|finding| finding.carry_over(context.ledger, context.now));
            let word = match finding {
                _ if over => "Carried too long",
                Some(finding) => finding_word(&finding.state),
                None => "Finding",
            };
            row(Edge::Stop, word, &title, None, Place::Finding(*id))
        }
        Blocker::Gate(stage) => {
            let gate = context.report.gate(stage);
            row(gate_edge(gate), gate_word(gate), &title, None, Place::Stage(stage.clone()))
        }
    }
}

pub(super) fn gate_word(gate: &Gate) -> &'static str {
    match gate {
        Gate::Shut { .. } => "Shut",
        Gate::Ready => "Ready",
        Gate::Released(_) => "Released",
        Gate::Lapsed { .. } => "Lapsed",
        Gate::None => "Recurring",
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
    let detail = format!("{holds} of {wanted} checks hold");
    row(gate_edge(gate), gate_word(gate), &stage.title, Some(detail), Place::Stage(stage.id.clone()))
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
                "Carried",
                restriction,
                Some(format!("{}, {}", finding.title, super::until_words(until))),
                Place::Finding(finding.id),
            )),
            _ => None,
        })
        .collect();
    if carried.is_empty() { carried } else { [vec![heading("Flown with", None)], carried].concat() }
}

/// What the last thing recorded did to everything else.
fn changed(context: &Context<'_>) -> Vec<Block> {
    let Some((last, ledger, plan)) = context.last else { return Vec::new() };
    let was = ledger.at(plan, &last.at);
    let mut blocks = vec![heading("Last recorded", Some(super::day_and_time(&last.at.wall, context.now)))];
    blocks.push(super::context::paragraph(entry_words(context.plan, context.entries, last), super::Tone::Plain));
    for (_, check) in context.plan.checks() {
        let (old, new) = (was.standing(&check.id), context.report.standing(&check.id));
        // By the words: a landing that lacks a reading is another thing than no landing.
        if standing_word(&old) != standing_word(&new) {
            let detail = standing_detail(&new);
            blocks.push(row(edge(&new), standing_word(&new), &check.title, detail, Place::Check(check.id.clone())));
        }
    }
    for stage in &context.plan.stages {
        let (old, new) = (was.gate(&stage.id), context.report.gate(&stage.id));
        if std::mem::discriminant(old) != std::mem::discriminant(new) {
            let title = format!("Gate of {}", stage.title.to_lowercase());
            blocks.push(row(gate_edge(new), gate_word(new), &title, None, Place::Stage(stage.id.clone())));
        }
    }
    for finding in &context.ledger.findings {
        let old = ledger.finding(finding.id).map(|finding| finding_word(&finding.state));
        let new = finding_word(&finding.state);
        if old != Some(new) {
            let edge = super::findings::finding_edge(finding);
            blocks.push(row(edge, new, &finding.title, None, Place::Finding(finding.id)));
        }
    }
    if blocks.len() == 2 {
        blocks.push(still_row(Edge::None, "", "Nothing else changed by it", None));
    }
    blocks.into_iter().map(said_as_changed).collect()
}

/// The same row may stand among what is in the way: read aloud, each says where it stands.
fn said_as_changed(block: Block) -> Block {
    match block {
        Block::Row { edge, state, title, detail, control: Some(control) } => {
            let spoken = format!("Last recorded: {}", control.spoken);
            Block::Row { edge, state, title, detail, control: Some(control.spoken(spoken)) }
        }
        other => other,
    }
}

fn foot(context: &Context<'_>) -> Vec<Control> {
    let mut foot = Vec::new();
    if let Some(flight) = context.ledger.flights.iter().find(|flight| flight.awaits_landing()) {
        foot.push(field_control(Place::Landing(flight.card).into(), "Jot down the landing").icon(Icon::Thermometer));
    } else if let Some(next) = &context.report.next {
        foot.push(next_action(context, next));
    }
    foot.push(Control::new(Place::Findings.into(), "Findings").icon(Icon::Flag).detail(findings_open(context)));
    foot.push(Control::new(Place::Aircraft.into(), "Aircraft").icon(Icon::Rotor));
    foot.push(Control::new(Place::Journal.into(), "Journal").icon(Icon::Book));
    foot
}

fn findings_open(context: &Context<'_>) -> String {
    let open = context.ledger.findings.iter().filter(|finding| finding.blocks(context.ledger, context.now)).count();
    if open == 0 { "none open".to_owned() } else { format!("{open} open") }
}

fn field_control(token: super::Token, label: &str) -> Control {
    Control::primary(token, label).weight(Weight::Field)
}

/// Whether all that is in the way of a flight in service is what is due before it: that is done on its card.
fn is_routine(context: &Context<'_>, next: &NextFlight) -> bool {
    let stage = context.plan.check(&next.check).map(|(stage, _)| stage);
    stage.is_some_and(|stage| stage.gate.is_none())
        && next.blockers.iter().all(|blocker| {
            matches!(blocker, Blocker::Check { standing, .. }
            if !matches!(standing, crate::readiness::Standing::Failed { .. }))
        })
}

fn next_action(context: &Context<'_>, next: &NextFlight) -> Control {
    match next.blockers.first() {
        Some(_) if is_routine(context, next) => {
            let due = super::counted(next.blockers.len(), "check is", "checks are");
            let detail = format!("{}, {due} due", flight_words(context, next));
            field_control(Place::Card(next.check.clone()).into(), "Draw up the card").icon(Icon::List).detail(detail)
        }
        None => {
            let detail = flight_words(context, next);
            field_control(Place::Card(next.check.clone()).into(), "Draw up the card").icon(Icon::List).detail(detail)
        }
        Some(blocker) => {
            let words = blocker_words(context.plan, context.ledger, blocker);
            let (place, verb, icon) = match blocker {
                Blocker::Question(id) => (Place::Question(id.clone()), "Answer", Icon::Pencil),
                Blocker::Figure(id) => (Place::Figure(id.clone()), "Enter", Icon::Pencil),
                Blocker::Check { check, .. } => (Place::Check(check.clone()), "Do", Icon::Tick),
                Blocker::Finding(id) => (Place::Finding(*id), "See to", Icon::Flag),
                Blocker::Gate(stage) => (Place::Stage(stage.clone()), "Decide", Icon::Next),
            };
            field_control(place.into(), verb).icon(icon).detail(words)
        }
    }
}

/// The command that draws up a fly check's card.
pub(super) fn card_command(check: &str) -> Command {
    Command::Go(Place::Card(check.to_owned()))
}
