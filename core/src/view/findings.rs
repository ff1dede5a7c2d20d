use super::context::{edge, heading, paragraph, row, still_row};
use super::mend::{is_refused, mend_first};
use super::{
    Block, Context, Control, Edge, Edit, Icon, Keyboard, Place, Record, Screen, Tone, Weight, check_title,
    entry_words, finding_word, stage_title, standing_detail, standing_word,
};
use crate::form::{CarryForm, FixForm, NewFindingForm};
use crate::locale::say;
use crate::readiness::{Finding, FindingState, GoneOf, Tried};
use crate::record::{EntryId, FindingGrade, Outcome, PhotoOf};
use crate::unit::Unit;

/// All findings, those that hold something first.
pub(super) fn findings(context: &Context<'_>) -> Screen {
    let (holding, closed): (Vec<&Finding>, Vec<&Finding>) =
        context.ledger.findings.iter().rev().partition(|finding| finding.blocks(context.ledger, context.now));
    let mut blocks = Vec::new();
    let withdrawn = super::withdrawn::withdrawn(context, &GoneOf::Finding);
    if context.ledger.findings.is_empty() {
        let text = if withdrawn.is_empty() {
            say!(context.locale, "findings-none")
        } else {
            say!(context.locale, "findings-none-stands")
        };
        blocks.push(paragraph(text, Tone::Plain));
    }
    if !holding.is_empty() {
        blocks.push(heading(say!(context.locale, "findings-hold"), None));
        blocks.extend(holding.into_iter().map(|finding| finding_row(context, finding)));
    }
    if !closed.is_empty() {
        blocks.push(heading(say!(context.locale, "findings-hold-nothing"), None));
        blocks.extend(closed.into_iter().map(|finding| finding_row(context, finding)));
    }
    blocks.extend(withdrawn);
    context.screen("findings", say!(context.locale, "findings-title"), Some(context.aircraft_name()), blocks)
}

pub(super) fn finding_edge(finding: &Finding) -> Edge {
    match (&finding.state, finding.grade) {
        (FindingState::Proven { .. }, _) => Edge::Fresh,
        (FindingState::Carried { .. }, _) | (_, FindingGrade::Note) => Edge::Caution,
        (FindingState::Fixed { .. }, _) => Edge::Stale,
        (FindingState::Open, _) => Edge::Stop,
    }
}

fn finding_row(context: &Context<'_>, finding: &Finding) -> Block {
    let detail = format!(
        "{}, {}, {}",
        finding.grade.word(context.locale),
        stage_title(context.plan, &finding.stage),
        super::day(context.locale, &finding.at.wall, context.now)
    );
    let title = format!("{}. {}", finding.number, finding.title);
    row(
        finding_edge(finding),
        finding_word(context.locale, &finding.state),
        &title,
        Some(detail),
        Place::Finding(finding.id),
    )
}

/// One finding: what showed it, what was done, what will prove it.
pub(super) fn finding(context: &Context<'_>, id: EntryId) -> Screen {
    let Some(finding) = context.ledger.finding(id) else { return context.gone("finding") };
    let over = finding.carry_over(context.ledger, context.now);
    let text = match &finding.state {
        FindingState::Open if finding.tried.last().is_some_and(|t| t.outcome == Outcome::Caution) => {
            say!(context.locale, "findings-again-caution")
        }
        FindingState::Open if !finding.tried.is_empty() => say!(context.locale, "findings-again"),
        FindingState::Open => say!(context.locale, "findings-open-holds"),
        FindingState::Fixed { .. } => {
            say!(context.locale, "findings-wants-proof", check = check_title(context.plan, &finding.proof))
        }
        FindingState::Proven { .. } => say!(context.locale, "findings-proven"),
        FindingState::Carried { .. } if over => say!(context.locale, "findings-carried-over"),
        FindingState::Carried { restriction, .. } => {
            say!(context.locale, "findings-flown-with", restriction = restriction)
        }
    };
    let detail = say!(
        context.locale,
        "findings-grade",
        grade = finding.grade.word(context.locale),
        stage = context.locale.inside(&stage_title(context.plan, &finding.stage))
    );
    let mut blocks = vec![Block::Verdict { text, detail: Some(detail), edge: finding_edge(finding) }];
    if let FindingState::Carried { by, until, .. } = &finding.state {
        let words = super::carried_words(context.locale, context.ledger, finding, until);
        blocks.push(paragraph(say!(context.locale, "findings-carried-by", until = words, by = by), Tone::Plain));
    }
    blocks.push(heading(say!(context.locale, "findings-shown-by"), None));
    blocks.push(shown_by(context, finding));
    if !finding.fixes.is_empty() {
        blocks.push(heading(say!(context.locale, "findings-done"), None));
        for (entry, what) in &finding.fixes {
            blocks.push(row(Edge::None, say!(context.locale, "findings-fix"), what, None, Place::Entry(*entry)));
            let tried = finding.tried.iter().filter(|tried| tried.fix == *entry);
            blocks.extend(tried.map(|tried| tried_row(context, finding, tried)));
        }
    }
    blocks.extend(super::photo::photos(context, &PhotoOf::Finding(id)));
    blocks.push(heading(say!(context.locale, "findings-what-proves"), None));
    blocks.push(proof(context, finding));
    blocks.extend(forms(context, finding));
    let title = say!(context.locale, "findings-number", number = finding.number);
    Screen { foot: foot(context, finding), ..context.screen("finding", title, Some(finding.title.clone()), blocks) }
}

fn shown_by(context: &Context<'_>, finding: &Finding) -> Block {
    let entry = finding.shown_by.and_then(|id| context.recorded(id));
    match entry {
        Some(entry) => {
            let title = entry_words(context.locale, context.plan, context.entries, entry);
            let when = super::day_and_time(context.locale, &entry.at.wall, context.now);
            row(Edge::None, "", &title, Some(when), Place::Entry(entry.id))
        }
        None => still_row(Edge::None, "", say!(context.locale, "findings-nothing-recorded"), None),
    }
}

/// The reading that a fix came to.
fn tried_row(context: &Context<'_>, finding: &Finding, tried: &Tried) -> Block {
    let entry = context.recorded(tried.evidence);
    let title = entry.map_or_else(
        || check_title(context.plan, &finding.proof),
        |entry| entry_words(context.locale, context.plan, context.entries, entry),
    );
    let when = entry.map(|entry| super::day_and_time(context.locale, &entry.at.wall, context.now));
    let (edge, word) = match (tried.proved, tried.outcome) {
        (true, _) => (Edge::Fresh, say!(context.locale, "findings-proved-it")),
        (false, Outcome::Stop) => (Edge::Stop, say!(context.locale, "findings-did-not-hold")),
        (false, _) => (Edge::Caution, say!(context.locale, "findings-only-caution")),
    };
    row(edge, word, &title, when, Place::Entry(tried.evidence))
}

fn proof(context: &Context<'_>, finding: &Finding) -> Block {
    let title = check_title(context.plan, &finding.proof);
    let place = Place::Check(finding.proof.clone());
    if let FindingState::Proven { by } = &finding.state {
        let entry = context.recorded(*by);
        let when = entry.map(|entry| super::day_and_time(context.locale, &entry.at.wall, context.now));
        return row(Edge::Fresh, say!(context.locale, "findings-proved-it"), &title, when, place);
    }
    let standing = context.report.standing(&finding.proof);
    row(
        edge(&standing),
        standing_word(context.locale, &standing),
        &title,
        standing_detail(context.locale, context.plan, &standing),
        place,
    )
}

fn forms(context: &Context<'_>, finding: &Finding) -> Vec<Block> {
    let mut blocks = Vec::new();
    let closed = matches!(finding.state, FindingState::Proven { .. });
    if closed {
        return blocks;
    }
    if finding.wants_fix(context.ledger, context.now) {
        blocks.push(heading(say!(context.locale, "findings-the-fix"), None));
        blocks.push(context.entry(FixForm::WHAT, say!(context.locale, "findings-done"), Keyboard::Words, None));
        let subjects = finding.may_have_touched(context.plan);
        if !subjects.is_empty() {
            blocks.push(super::aircraft::subject_choice(
                context,
                say!(context.locale, "common-what-touched"),
                &subjects,
            ));
        }
    }
    if finding.not_carried(context.ledger, context.now).is_none() {
        blocks.push(heading(
            say!(context.locale, "findings-or-fly"),
            Some(say!(context.locale, "findings-or-fly-note")),
        ));
        blocks.push(context.entry(
            CarryForm::RESTRICTION,
            say!(context.locale, "findings-restriction"),
            Keyboard::Words,
            None,
        ));
        blocks.push(context.entry(
            CarryForm::REASON,
            say!(context.locale, "findings-why-wait"),
            Keyboard::Words,
            None,
        ));
        blocks.push(context.number_entry(
            CarryForm::RUNS,
            &say!(context.locale, "findings-how-many-runs"),
            Unit::Count,
            CarryForm::RUNS_RANGE,
            CarryForm(context.form).runs_usual(),
        ));
        let label = say!(context.locale, "findings-how-many-days");
        blocks.push(context.number_entry(CarryForm::DAYS, &label, Unit::Count, CarryForm::DAYS_RANGE, None));
        let carry = Control::new(Record::CarryFinding(finding.id).into(), say!(context.locale, "findings-carry"))
            .icon(Icon::Hand)
            .unless(mend_first(context.locale, is_refused(&blocks)));
        blocks.push(Block::Choice { label: String::new(), options: vec![carry] });
    }
    blocks
}

fn foot(context: &Context<'_>, finding: &Finding) -> Vec<Control> {
    match &finding.state {
        _ if finding.wants_fix(context.ledger, context.now) => vec![fix_control(context, finding)],
        FindingState::Fixed { .. } => {
            let title = check_title(context.plan, &finding.proof);
            let place = Place::Check(finding.proof.clone());
            vec![
                Control::primary(place.into(), say!(context.locale, "findings-go-to-proof"))
                    .icon(Icon::Next)
                    .detail(title),
            ]
        }
        _ => Vec::new(),
    }
}

fn fix_control(context: &Context<'_>, finding: &Finding) -> Control {
    let empty = !FixForm(context.form).is_said();
    let fix = Control::primary(Record::FixFinding(finding.id).into(), say!(context.locale, "findings-record-fix"))
        .icon(Icon::Tick);
    match empty {
        // Not closed: a shell keeps typed text without asking for the screen anew, and a refusal names the field.
        true => fix.detail(say!(context.locale, "findings-say-done")),
        false => fix,
    }
}

/// A finding about to be raised.
pub(super) fn new_finding(context: &Context<'_>, shown_by: Option<EntryId>, proof: &str) -> Screen {
    let Some((stage, check)) = context.plan.check(proof) else { return context.gone("new-finding") };
    let mut blocks = Vec::new();
    if let Some(entry) = shown_by.and_then(|id| context.recorded(id)) {
        blocks.push(heading(say!(context.locale, "findings-shown-by"), None));
        blocks.push(paragraph(entry_words(context.locale, context.plan, context.entries, entry), Tone::Plain));
    }
    blocks.push(context.entry(
        NewFindingForm::TITLE,
        say!(context.locale, "findings-what-wrong"),
        Keyboard::Words,
        None,
    ));
    let standing = context.report.standing(&check.id);
    let now = NewFindingForm::new(context.form, &standing).grade();
    let grades = FindingGrade::ALL.iter().map(|grade| {
        let command = Edit::set(NewFindingForm::GRADE, grade.id());
        Control::new(command.into(), grade.word(context.locale)).chosen(now == *grade)
    });
    blocks.push(Block::Choice { label: say!(context.locale, "findings-how-bad"), options: grades.collect() });
    let text = match now {
        FindingGrade::Note => say!(context.locale, "findings-note-holds"),
        FindingGrade::Stop => {
            say!(context.locale, "findings-stop-holds", stage = context.locale.inside(&stage.title))
        }
        FindingGrade::Caution => {
            say!(context.locale, "findings-caution-holds", stage = context.locale.inside(&stage.title))
        }
    };
    blocks.push(paragraph(text, Tone::Quiet));
    blocks.push(heading(say!(context.locale, "findings-will-prove"), None));
    blocks.push(still_row(Edge::None, "", &check.title, Some(say!(context.locale, "findings-to-repeat"))));
    let raise = Control::primary(Record::RaiseFinding.into(), say!(context.locale, "findings-raise"))
        .icon(Icon::Flag)
        .weight(Weight::Field);
    Screen {
        foot: vec![raise],
        ..context.screen("new-finding", say!(context.locale, "findings-new"), Some(stage.title.clone()), blocks)
    }
}
