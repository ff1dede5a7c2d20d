use super::context::{edge, heading, paragraph, row, still_row};
use super::{
    Block, Command, Context, Control, Document, Edge, Icon, Place, Screen, Tone, counted, standing_detail,
    standing_word,
};
use crate::desk::MOST_PLAN_BYTES;
use crate::plan::{Became, Difference, Plan, lint};
use crate::readiness::{FindingState, Gate, Ledger, Report};
use crate::record::{Author, Body, Entry, EntryId};

/// The field that keeps the name of a plan file that was picked.
pub(crate) const OFFERED_NAME: &str = "name";
/// The field that keeps its text.
pub(crate) const OFFERED_TEXT: &str = "text";

/// Remarks of the linter in sight.
const REMARKS_IN_SIGHT: usize = 12;

/// The plan in force, and the ways to take it out and to bring another in.
pub(super) fn plan(context: &Context<'_>) -> Screen {
    let plan = context.plan;
    let checks = plan.checks().filter(|(_, check)| context.ledger.aircraft.wants(check)).count();
    let text = format!(
        "{} for {}, in {}.",
        counted(checks, "check", "checks"),
        context.aircraft_in_sentence(),
        counted(plan.stages.len(), "stage", "stages")
    );
    let mut blocks = vec![
        Block::Verdict { text, detail: Some(format!("Edition {}, id {}", plan.edition, plan.id)), edge: Edge::None },
        paragraph(plan.notice.trim(), Tone::Quiet),
        heading("A plan of your own", None),
        paragraph(
            "Save a copy, change it in a text editor on any machine, then open it here. What would change and what would \
             lapse is shown before it takes effect. Nothing recorded is lost by it.",
            Tone::Plain,
        ),
    ];
    let adopted = context.entries.iter().rev().filter(|entry| matches!(entry.body, Body::PlanAdopted { .. }));
    blocks.push(heading("In force so far", None));
    let gone = crate::readiness::withdrawn(context.entries);
    blocks.extend(adopted.map(|entry| {
        let title = super::entry_words(context.locale, plan, context.entries, entry);
        let when = Some(super::day_and_time(context.locale, &entry.at.wall, context.now));
        let (edge, word) = if gone.contains_key(&entry.id) { (Edge::Stale, "Withdrawn") } else { (Edge::None, "") };
        row(edge, word, &title, when, Place::Entry(entry.id))
    }));
    let open =
        Control::primary(Command::PickPlan.into(), "Open a plan file").icon(Icon::Book).document(a_plan_file());
    let save = Control::new(Command::SavePlan.into(), "Save a copy of this plan")
        .icon(Icon::List)
        .document(Document::Save { name: format!("{}.toml", plan.id), media_type: "application/toml".to_owned() });
    Screen { foot: vec![open, save], ..context.screen("plan", &plan.title, Some("Plan in force".to_owned()), blocks) }
}

/// Phones know no type for plan files, and call them text or anything.
fn a_plan_file() -> Document {
    let media_types = ["application/toml", "text/plain", "*/*"];
    Document::Pick { media_types: media_types.map(str::to_owned).to_vec(), most_bytes: MOST_PLAN_BYTES }
}

/// A plan that was picked: what is wrong with it, or what it would change.
pub(super) fn offer(context: &Context<'_>) -> Screen {
    let name = context.form.text(OFFERED_NAME).unwrap_or("plan file").to_owned();
    let Some(text) = context.form.whole(OFFERED_TEXT) else { return context.gone("plan-offer") };
    let again = Control::new(Command::PickPlan.into(), "Open another file").icon(Icon::Book).document(a_plan_file());
    let offered = match Plan::parse(&name, text) {
        Ok(offered) => offered,
        Err(faults) => {
            let count = counted(faults.faults.len(), "fault keeps", "faults keep");
            let mut blocks = vec![Block::Verdict {
                text: format!("{count} this plan out."),
                detail: Some("Mend it where it says, save it, and open it again.".to_owned()),
                edge: Edge::Stop,
            }];
            blocks.extend(faults.faults.iter().map(|fault| {
                let place = format!("Line {}, column {}", fault.line, fault.column);
                still_row(Edge::Stop, "Fault", &place, Some(fault.reason.clone()))
            }));
            return Screen {
                foot: vec![again],
                ..context.screen("plan-offer", name, Some("Plan file".to_owned()), blocks)
            };
        }
    };
    let differences = context.plan.difference(&offered, context.locale);
    let fallen = would_fall(context, &offered, text);
    let why_not = keeps_out(context.plan, context.ledger, &offered)
        .or_else(|| differences.is_empty().then(|| "It is the plan in force".to_owned()));
    let mut blocks = vec![summary(&offered, &differences, &fallen)];
    blocks.extend(why_not.iter().map(|why| still_row(Edge::Stop, "Not yet", why, None)));
    blocks.extend(fallen.blocks(context, &offered));
    blocks.extend(remarks(&offered));
    blocks.extend(difference_blocks(&differences));
    let take =
        Control::primary(Command::AdoptPlan.into(), "Bring this plan into force").icon(Icon::Tick).unless(why_not);
    let above = Some(format!("Plan file {name}"));
    Screen { foot: vec![take, again], ..context.screen("plan-offer", &offered.title, above, blocks) }
}

fn summary(offered: &Plan, differences: &[Difference], fallen: &Fallen) -> Block {
    let count = |became| differences.iter().filter(|difference| difference.became == became).count();
    let text = match (fallen.gates.len(), fallen.checks.len()) {
        (0, 0) => "Nothing lapses and nothing goes stale by it.".to_owned(),
        (gates, checks) => format!(
            "{} by it, and {} stale.",
            counted(gates, "gate lapses", "gates lapse"),
            counted(checks, "check goes", "checks go")
        ),
    };
    let detail = format!(
        "Edition {}. {} new, {} changed, {} no longer there",
        offered.edition,
        count(Became::Added),
        count(Became::Changed),
        count(Became::Removed)
    );
    let edge = if fallen.gates.is_empty() && fallen.checks.is_empty() { Edge::Fresh } else { Edge::Caution };
    Block::Verdict { text, detail: Some(detail), edge }
}

/// What would no longer stand under another plan.
struct Fallen {
    report: Report,
    /// Stages whose gates are released now and would not be.
    gates: Vec<String>,
    /// Checks that hold now and would not.
    checks: Vec<String>,
}

/// The fold itself says what would fall: the plan is taken in for a look, and nothing is recorded.
fn would_fall(context: &Context<'_>, offered: &Plan, text: &str) -> Fallen {
    let body =
        Body::PlanAdopted { plan: offered.id.clone(), edition: offered.edition.clone(), text: text.to_owned() };
    let seq = context.entries.len() as i64 + 1;
    let id = EntryId(uuid::Uuid::nil());
    let entry = Entry { seq, id, at: context.now.clone(), author: Author::Pilot, body };
    let mut ledger = context.ledger.clone();
    ledger.take(context.plan, std::slice::from_ref(&entry));
    let report = ledger.at(offered, context.now);
    let released = |report: &Report, stage: &str| matches!(report.gate(stage), Gate::Released(_));
    let gates = context.plan.stages.iter().map(|stage| stage.id.clone());
    let gates = gates.filter(|id| released(context.report, id) && !released(&report, id)).collect();
    let held = context.report.standings.iter().filter(|(_, standing)| standing.holds()).map(|(id, _)| id.clone());
    let checks = held.filter(|id| !report.standing(id).holds()).collect();
    Fallen { report, gates, checks }
}

impl Fallen {
    fn blocks(&self, context: &Context<'_>, offered: &Plan) -> Vec<Block> {
        let mut blocks = Vec::new();
        if !self.gates.is_empty() {
            blocks.push(heading("Gates that would lapse", None));
            blocks.extend(self.gates.iter().map(|id| {
                let here = offered.stage(id).is_some();
                let word = if here { "Lapses" } else { "No longer there" };
                still_row(Edge::Stale, word, super::stage_title(context.plan, id), None)
            }));
        }
        if !self.checks.is_empty() {
            blocks.push(heading("Checks that would want doing anew", None));
            blocks.extend(self.checks.iter().map(|id| {
                let title = super::check_title(context.plan, id);
                match offered.check(id) {
                    None => {
                        still_row(Edge::Stale, "No longer there", &title, Some("Its results stay readable".into()))
                    }
                    Some(_) => {
                        let standing = self.report.standing(id);
                        still_row(
                            edge(&standing),
                            standing_word(context.locale, &standing),
                            &title,
                            standing_detail(context.locale, &standing),
                        )
                    }
                }
            }));
        }
        blocks
    }
}

/// What the linter has against a plan. It keeps nothing out: the plan is the person's own.
fn remarks(offered: &Plan) -> Vec<Block> {
    let remarks = lint(offered);
    if remarks.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("Worth mending in it", Some(remarks.len().to_string()))];
    blocks.extend(remarks.iter().take(REMARKS_IN_SIGHT).map(|remark| {
        let title = offered.check(&remark.place).map_or(remark.place.as_str(), |(_, check)| check.title.as_str());
        still_row(Edge::Caution, "Look", title, Some(super::sentence(&remark.words)))
    }));
    if remarks.len() > REMARKS_IN_SIGHT {
        blocks.push(paragraph(format!("and {} more", remarks.len() - REMARKS_IN_SIGHT), Tone::Quiet));
    }
    blocks
}

fn difference_blocks(differences: &[Difference]) -> Vec<Block> {
    let mut blocks = Vec::new();
    let groups = [
        (Became::Removed, "No longer there", Edge::Stale),
        (Became::Added, "New", Edge::Missing),
        (Became::Changed, "Changed", Edge::Caution),
    ];
    for (became, title, edge) in groups {
        let some: Vec<&Difference> = differences.iter().filter(|difference| difference.became == became).collect();
        if some.is_empty() {
            continue;
        }
        blocks.push(heading(title, Some(some.len().to_string())));
        blocks.extend(some.into_iter().map(|difference| {
            let detail = (!difference.points.is_empty()).then(|| difference.points.join(". "));
            still_row(edge, &difference.kind, &difference.title, detail)
        }));
    }
    blocks
}

/// Why a plan cannot take the place of the one in force yet: work under way that it has no place for.
pub(crate) fn keeps_out(plan: &Plan, ledger: &Ledger, offered: &Plan) -> Option<String> {
    if let Some(flight) = ledger.flights.iter().find(|flight| flight.awaits_landing()) {
        return Some(format!("Jot down the landing of '{}' first", super::check_title(plan, &flight.check)));
    }
    let open = ledger.findings.iter().filter(|finding| !matches!(finding.state, FindingState::Proven { .. }));
    open.into_iter().find_map(|finding| {
        let proof = offered.check(&finding.proof).is_none();
        let stage = offered.stage(&finding.stage).is_none();
        (proof || stage).then(|| {
            format!(
                "Finding {}, '{}', is proven by '{}' of {}, which this plan has not: close it first, or keep that check",
                finding.number,
                finding.title,
                super::check_title(plan, &finding.proof),
                super::stage_title(plan, &finding.stage).to_lowercase()
            )
        })
    })
}
