//! A hover's predictions beside its readings, and what to make of a disagreement: a finding that is proposed, and may be left.

use super::context::{heading, paragraph, row, still_row};
use super::{Block, Command, Context, Control, Edge, Icon, Place, Tone, check_title};
use crate::computed::{Compared, ComparedReading, Facts, What, compared};
use crate::engineering::disagreement::{Cause, Lies};
use crate::field::Flight;
use crate::plan::Plan;
use crate::readiness::Finding;
use crate::record::{AttachedLog, EntryId, Unit};

/// A finding that a disagreement proposes.
pub(crate) struct Proposal {
    /// What is wrong, with the cause that explains most of it.
    pub title: String,
    /// The entry that shows it.
    pub shown_by: EntryId,
}

/// What a flight proposes, where something disagrees.
pub(crate) fn proposal(facts: Facts<'_>, flight: &Flight, log: Option<&AttachedLog>) -> Option<Proposal> {
    proposed(facts.plan, flight, &compared(facts, flight, log)?)
}

fn proposed(plan: &Plan, flight: &Flight, compared: &Compared) -> Option<Proposal> {
    // What is furthest out, in widths of its own interval.
    let beyond = |reading: &&ComparedReading| {
        let held = reading.held;
        let out = (held.measured - held.high).max(held.low - held.measured);
        out / (held.high - held.low).max(1e-9)
    };
    let worst = compared.disagreeing().max_by(|a, b| beyond(a).total_cmp(&beyond(b)))?;
    let way = if worst.held.lies() == Lies::Above { "above" } else { "below" };
    let what = what_words(plan, &worst.what);
    let cause = compared.causes.first().map_or_else(String::new, |cause| format!(": {}?", cause_title(cause)));
    let title = format!("{what} {way} its prediction at {:.0} rpm{cause}", flight.head_speed_rpm);
    let shown_by = flight.landing.as_ref().map_or(flight.card, |landing| landing.entry);
    Some(Proposal { title, shown_by })
}

/// The finding that was raised from a proposal.
fn raised<'a>(context: &Context<'a>, flight: &Flight, proposal: &Proposal) -> Option<&'a Finding> {
    let findings = context.ledger.findings.iter();
    findings
        .rev()
        .find(|f| f.shown_by == Some(proposal.shown_by) && f.proof == flight.check && f.title == proposal.title)
}

/// All of it, for the review of a flight.
pub(super) fn blocks(context: &Context<'_>, flight: &Flight, log: Option<&AttachedLog>) -> Vec<Block> {
    let Some(compared) = compared(context.facts(), flight, log) else { return Vec::new() };
    if compared.readings.is_empty() {
        return Vec::new();
    }
    let note = format!("{:.0} rpm in {:.0} °C", flight.head_speed_rpm, flight.air_c);
    let mut blocks = vec![heading("Predicted and read", Some(note))];
    blocks.extend(compared.readings.iter().map(|reading| reading_row(context.plan, reading)));
    if let Some(proposal) = proposed(context.plan, flight, &compared) {
        blocks.extend(disagreement(context, flight, &compared, &proposal));
    }
    blocks.extend(next(context, &compared));
    blocks
}

fn reading_row(plan: &Plan, reading: &ComparedReading) -> Block {
    let held = reading.held;
    let digits = usize::from(matches!(reading.unit, Unit::Ampere));
    let show = |value: f64| format!("{value:.digits$}");
    let (edge, state) = match held.lies() {
        Lies::Within => (Edge::Fresh, "As predicted"),
        Lies::Above => (Edge::Caution, "Above"),
        Lies::Below => (Edge::Caution, "Below"),
    };
    let unit = reading.unit.sign();
    let detail = match reading.what {
        What::HeadSpeed => {
            format!(
                "{} {unit} read; {} set, {} to {} is near it",
                show(held.measured),
                show(held.predicted),
                show(held.low),
                show(held.high)
            )
        }
        _ => format!(
            "{} {unit} read; {} predicted, {} to {}",
            show(held.measured),
            show(held.predicted),
            show(held.low),
            show(held.high)
        ),
    };
    still_row(edge, state, what_words(plan, &reading.what), Some(detail))
}

fn what_words(plan: &Plan, what: &What) -> String {
    match what {
        What::Charge => "Charge".to_owned(),
        What::Power => "Power in hover".to_owned(),
        What::Current => "Current in hover".to_owned(),
        What::HeadSpeed => "Head speed".to_owned(),
        What::Place(id) => plan.place(id).map_or_else(|| id.clone(), |place| place.title.clone()),
    }
}

fn disagreement(context: &Context<'_>, flight: &Flight, compared: &Compared, proposal: &Proposal) -> Vec<Block> {
    let mut blocks = vec![heading("Why it may be", Some("what the figures support, likeliest first".to_owned()))];
    if compared.causes.is_empty() {
        let words =
            "Nothing that was read explains it. Wind, the meter and the hand on the sticks leave no trace here.";
        blocks.push(paragraph(words, Tone::Plain));
    }
    blocks.extend(
        compared
            .causes
            .iter()
            .map(|cause| still_row(Edge::None, "", super::sentence(cause_title(cause)), Some(cause_words(cause)))),
    );
    match raised(context, flight, proposal) {
        Some(finding) => {
            let title = format!("{}. {}", finding.number, finding.title);
            blocks.push(row(Edge::None, "Raised", &title, None, Place::Finding(finding.id)));
        }
        None => {
            let raise =
                Control::new(Command::RaiseProposed(flight.card).into(), "Make it a finding").icon(Icon::Flag);
            let spoken = format!("Make it a finding: {}", proposal.title);
            blocks.push(Block::Choice { label: proposal.title.clone(), options: vec![raise.spoken(spoken)] });
            let words = "You may leave it: nothing is recorded then, and this stays here. One honest reading in twenty lies outside.";
            blocks.push(paragraph(words, Tone::Quiet));
        }
    }
    blocks
}

fn cause_title(cause: &Cause) -> &'static str {
    match cause {
        Cause::DriveDrag { .. } => "drag in the drive",
        Cause::HeadSpeedOff { .. } => "wrong ratio or head speed",
        Cause::TiredPack { .. } => "tired pack",
        Cause::LittleAir { .. } => "too little air",
        Cause::HotAir { .. } => "hot air",
    }
}

fn cause_words(cause: &Cause) -> String {
    let percent = |share: f64| format!("{:.0} %", 100.0 * share);
    match cause {
        Cause::DriveDrag { extra } => format!(
            "{} more than predicted at the head speed that was read. Turn the drive by hand: belt, bearings, gear mesh, blade tracking",
            percent(*extra)
        ),
        Cause::HeadSpeedOff { off, explains } => {
            let way = if *off > 0.0 { "faster" } else { "slower" };
            let share = explains.map_or_else(
                || "that explains little of the rest".to_owned(),
                |share| format!("that explains {} of it", percent(share)),
            );
            format!(
                "{} {way} than set; {share}. Check the ratio, the pole pairs and the governor's setting",
                percent(off.abs())
            )
        }
        Cause::TiredPack { ratio, extra_current } => {
            let ratio = ratio.map(|ratio| format!("at least {} of its resistance when new", percent(ratio)));
            let extra = extra_current.map(|extra| format!("{} more current for the same power", percent(extra)));
            let words: Vec<String> = extra.into_iter().chain(ratio).collect();
            format!("{}. Read the pack's resistance, and fly it warm and full", words.join(", "))
        }
        Cause::LittleAir { part, rise_ratio } => format!(
            "{part} rose {} of what was predicted, at no more power. Look for a blocked inlet, a fan, a loose heat sink",
            percent(*rise_ratio)
        ),
        Cause::HotAir { above_k } => {
            format!("{above_k:.0} K above any air flown in before: the prediction reaches beyond what was flown")
        }
    }
}

fn next(context: &Context<'_>, compared: &Compared) -> Option<Block> {
    let next = compared.next.as_ref()?;
    let from = super::counted(next.hovers, "hover", "hovers");
    let (low, high) = (next.current_a.low, next.current_a.high);
    let detail = format!(
        "{:.0} rpm: {:.1} A, {low:.1} to {high:.1}, from {from} with this one in it",
        next.head_speed_rpm, next.current_a.middle
    );
    let title = format!("Next: {}", check_title(context.plan, &next.check));
    Some(row(Edge::None, "", &title, Some(detail), Place::Card(next.check.clone())))
}
