use super::context::{edge, heading, paragraph, row, still_row};
use super::{
    Block, Context, Control, Document, Edge, Go, Icon, Offered, Place, Record, Screen, Tone, Wanted, standing_detail,
    standing_word,
};
use crate::form::{KeepsOut, PlanOfferForm, keeps_out};
use crate::locale::{Locale, say, sentence};
use crate::plan::{Became, Difference, Loosened, Plan, lint};
use crate::readiness::{Gate, PlanText, Report};
use crate::record::{Author, Body, Entry, EntryId};

/// Remarks of the linter in sight.
const REMARKS_IN_SIGHT: usize = 12;

/// The plan in force, and the ways to take it out and to bring another in.
pub(super) fn plan(context: &Context<'_>) -> Screen {
    let plan = context.plan;
    let checks = plan.checks().filter(|(_, check)| context.ledger.aircraft.wants(check)).count();
    let text = say!(
        context.locale,
        "plan-counts",
        checks = checks,
        aircraft = context.aircraft_in_sentence(),
        stages = plan.stages.len()
    );
    let mut blocks = vec![
        Block::Verdict {
            text,
            detail: Some(say!(context.locale, "plan-edition", edition = plan.edition, id = plan.id)),
            edge: Edge::None,
        },
        paragraph(plan.notice.trim(), Tone::Quiet),
    ];
    blocks.extend(newer_edition(context));
    blocks.extend(looser_blocks(context, context.loosened));
    blocks.extend([
        heading(say!(context.locale, "plan-own"), None),
        paragraph(say!(context.locale, "plan-own-how"), Tone::Plain),
    ]);
    let adopted = context.entries.iter().rev().filter(|entry| PlanText::of(entry).is_some());
    blocks.push(heading(say!(context.locale, "plan-so-far"), None));
    blocks.extend(adopted.map(|entry| {
        let title = super::entry_words(context.locale, plan, context.entries, entry);
        let when = Some(super::day_and_time(context.locale, &entry.at.wall, context.now));
        let (edge, word) = super::journal_rows::withdrawn_mark(context, entry.id);
        row(edge, word, &title, when, Place::Entry(entry.id))
    }));
    let open = Control::primary(Wanted::Plan.into(), say!(context.locale, "plan-open"))
        .icon(Icon::Book)
        .document(a_plan_file());
    let save = Control::new(Offered::Plan.into(), say!(context.locale, "plan-save"))
        .icon(Icon::List)
        .document(Document::Save { name: format!("{}.toml", plan.id), media_type: "application/toml".to_owned() });
    Screen {
        foot: vec![open, save],
        ..context.screen("plan", &plan.title, Some(say!(context.locale, "plan-in-force")), blocks)
    }
}

/// The newer edition of the plan in force, where one came with the app: offered, and never taken by itself.
pub(super) fn newer_edition(context: &Context<'_>) -> Option<Block> {
    let edition = context.written.newer_edition()?;
    let title = say!(context.locale, "plan-newer", edition = edition);
    let detail = say!(context.locale, "plan-newer-how", edition = context.written.edition);
    let control =
        Control::new(Go::NewerEdition.into(), title.clone()).icon(Icon::Book).spoken(format!("{title}. {detail}"));
    Some(Block::Row { edge: Edge::None, state: String::new(), title, detail: Some(detail), control: Some(control) })
}

/// Phones know no type for plan files, and call them text or anything.
fn a_plan_file() -> Document {
    let media_types = ["application/toml", "text/plain", "*/*"];
    Document::Pick { media_types: media_types.map(str::to_owned).to_vec() }
}

/// A plan that was picked: what is wrong with it, or what it would change.
pub(super) fn offer(context: &Context<'_>) -> Screen {
    let form = PlanOfferForm(context.form);
    let name = form.name().map_or_else(|| say!(context.locale, "plan-file-inside"), str::to_owned);
    let Some(text) = form.text() else { return context.gone("plan-offer") };
    let again = Control::new(Wanted::Plan.into(), say!(context.locale, "plan-open-another"))
        .icon(Icon::Book)
        .document(a_plan_file());
    let offered = match Plan::parse(&name, text) {
        Ok(offered) => offered,
        Err(faults) => {
            let mut blocks = vec![Block::Verdict {
                text: say!(context.locale, "plan-faults", count = faults.faults.len()),
                detail: Some(say!(context.locale, "plan-mend")),
                edge: Edge::Stop,
            }];
            blocks.extend(faults.faults.iter().map(|fault| {
                let place = say!(context.locale, "plan-line", line = fault.line, column = fault.column);
                still_row(
                    Edge::Stop,
                    say!(context.locale, "plan-fault"),
                    &place,
                    Some(fault.reason.words(context.locale)),
                )
            }));
            return Screen {
                foot: vec![again],
                ..context.screen("plan-offer", name, Some(say!(context.locale, "plan-file")), blocks)
            };
        }
    };
    let differences = context.written.difference(&offered, context.locale);
    let fallen = would_fall(context, &offered, text);
    let why_not = keeps_out(context.ledger, context.written, &offered)
        .map(|why| keeps_out_words(context.locale, context.plan, &why));
    let loosened = context.written.loosened_by(&offered);
    let mut blocks = vec![summary(context.locale, &offered, &differences, &fallen, loosened.len())];
    blocks.extend(why_not.iter().map(|why| still_row(Edge::Stop, say!(context.locale, "plan-not-yet"), why, None)));
    blocks.extend(looser_blocks(context, &loosened));
    blocks.extend(fallen.blocks(context, &offered));
    blocks.extend(remarks(context.locale, &offered));
    blocks.extend(difference_blocks(context.locale, &differences));
    let take = Control::primary(Record::AdoptPlan.into(), say!(context.locale, "plan-adopt"))
        .icon(Icon::Tick)
        .unless(why_not);
    let above = Some(say!(context.locale, "plan-file-named", name = name));
    Screen { foot: vec![take, again], ..context.screen("plan-offer", &offered.title, above, blocks) }
}

fn summary(locale: Locale, offered: &Plan, differences: &[Difference], fallen: &Fallen, looser: usize) -> Block {
    let count = |became| differences.iter().filter(|difference| difference.became == became).count();
    let text = match (fallen.gates.len(), fallen.checks.len()) {
        (0, 0) => say!(locale, "plan-nothing-falls"),
        (gates, checks) => say!(locale, "plan-falls", gates = gates, checks = checks),
    };
    // What asks less is said before what lapses: it is what nobody is stopped by later.
    let text = if looser == 0 { text } else { say!(locale, "plan-loosens", count = looser, then = text) };
    let detail = say!(
        locale,
        "plan-differences",
        edition = offered.edition,
        added = count(Became::Added),
        changed = count(Became::Changed),
        removed = count(Became::Removed)
    );
    let is_nothing = fallen.gates.is_empty() && fallen.checks.is_empty() && looser == 0;
    let edge = if is_nothing { Edge::Fresh } else { Edge::Caution };
    Block::Verdict { text, detail: Some(detail), edge }
}

/// That the plan in force asks less than one before it: for as long as it is in force.
pub(super) fn looser_row(context: &Context<'_>) -> Option<Block> {
    let title = looser_words(context.locale, context.loosened)?;
    Some(row(Edge::Caution, say!(context.locale, "common-look"), &title, None, Place::Plan))
}

/// The same in words.
pub(crate) fn looser_words(locale: Locale, loosened: &[Loosened]) -> Option<String> {
    (!loosened.is_empty()).then(|| say!(locale, "plan-looser-in-force", count = loosened.len()))
}

/// Each thing of which less is asked, and in what.
fn looser_blocks(context: &Context<'_>, loosened: &[Loosened]) -> Vec<Block> {
    if loosened.is_empty() {
        return Vec::new();
    }
    let locale = context.locale;
    let mut blocks = vec![heading(say!(locale, "plan-loosened-heading"), Some(loosened.len().to_string()))];
    blocks.extend(loosened.iter().map(|item| {
        let title = context.plan.check(&item.id).map_or(item.title.as_str(), |(_, check)| check.title.as_str());
        let ways: Vec<String> = item.ways.iter().map(|way| way.words(locale)).collect();
        still_row(Edge::Caution, say!(locale, "plan-looser-word"), title, Some(sentence(&ways.join("; "))))
    }));
    blocks
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
    let seq = context.journal_count as i64 + 1;
    let id = EntryId(uuid::Uuid::nil());
    let aircraft = context.ledger.id;
    let entry = Entry { seq, id, at: context.now.clone(), author: Author::Pilot, aircraft, body };
    let mut ledger = context.ledger.clone();
    ledger.take(context.written, std::slice::from_ref(&entry));
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
            blocks.push(heading(say!(context.locale, "plan-gates-lapse"), None));
            blocks.extend(self.gates.iter().map(|id| {
                let here = offered.stage(id).is_some();
                let word = if here { say!(context.locale, "plan-lapses") } else { say!(context.locale, "plan-gone") };
                still_row(Edge::Stale, word, super::stage_title(context.plan, id), None)
            }));
        }
        if !self.checks.is_empty() {
            blocks.push(heading(say!(context.locale, "plan-checks-anew"), None));
            blocks.extend(self.checks.iter().map(|id| {
                let title = super::check_title(context.plan, id);
                match offered.check(id) {
                    None => still_row(
                        Edge::Stale,
                        say!(context.locale, "plan-gone"),
                        &title,
                        Some(say!(context.locale, "plan-results-stay")),
                    ),
                    Some(_) => {
                        let standing = self.report.standing(id);
                        still_row(
                            edge(&standing),
                            standing_word(context.locale, &standing),
                            &title,
                            standing_detail(context.locale, offered, &standing),
                        )
                    }
                }
            }));
        }
        blocks
    }
}

/// What the linter has against a plan. It keeps nothing out: the plan is the person's own.
fn remarks(locale: Locale, offered: &Plan) -> Vec<Block> {
    let remarks = lint(offered);
    if remarks.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading(say!(locale, "plan-worth-mending"), Some(remarks.len().to_string()))];
    blocks.extend(remarks.iter().take(REMARKS_IN_SIGHT).map(|remark| {
        let title = offered.check(&remark.place).map_or(remark.place.as_str(), |(_, check)| check.title.as_str());
        still_row(Edge::Caution, say!(locale, "common-look"), title, Some(sentence(&remark.flaw.words(locale))))
    }));
    if remarks.len() > REMARKS_IN_SIGHT {
        blocks.push(paragraph(say!(locale, "plan-more", count = remarks.len() - REMARKS_IN_SIGHT), Tone::Quiet));
    }
    blocks
}

fn difference_blocks(locale: Locale, differences: &[Difference]) -> Vec<Block> {
    let mut blocks = Vec::new();
    let groups = [
        (Became::Removed, say!(locale, "plan-gone"), Edge::Stale),
        (Became::Added, say!(locale, "plan-new"), Edge::Missing),
        (Became::Changed, say!(locale, "plan-changed"), Edge::Caution),
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
pub(crate) fn keeps_out_words(locale: Locale, plan: &Plan, why: &KeepsOut<'_>) -> String {
    match why {
        KeepsOut::InForce => say!(locale, "plan-is-in-force"),
        KeepsOut::Landing { check } => say!(locale, "plan-landing-first", check = super::check_title(plan, check)),
        KeepsOut::Finding(finding) => say!(
            locale,
            "plan-finding-keeps",
            number = finding.number,
            title = finding.title,
            proof = super::check_title(plan, &finding.proof),
            stage = locale.inside(&super::stage_title(plan, &finding.stage))
        ),
    }
}
