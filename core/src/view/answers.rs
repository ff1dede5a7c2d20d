//! What was seen in a flight or read past a stop, each with its answers.

use super::context::{heading, still_row};
use super::{Block, Context, Control, Edge, Icon, Keyboard, Record, UsualAnswer};
use crate::field::{Flight, Mark, Unanswered};
use crate::form::{LandingForm, MarkAnswerForm};
use crate::locale::{Locale, say};
use crate::record::EntryId;

/// What was seen, and what was read past a stop: each with its answers, before anything else is asked.
pub(super) fn to_answer(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    let locale = context.locale;
    let asked = flight.unanswered(context.plan);
    if asked.is_empty() {
        return Vec::new();
    }
    let holds = say!(locale, "landing-answers-hold");
    let mut blocks = vec![heading(say!(locale, "landing-to-answer"), Some(holds))];
    for what in &asked {
        let title = super::unanswered_words(locale, context.plan, what);
        match what {
            Unanswered::Time => {
                let why = say!(locale, "landing-time-why");
                blocks.extend(super::told_time::asked(context, flight, &title, why));
            }
            Unanswered::LongTime { .. } => {
                let why = say!(locale, "told-long-why");
                blocks.extend(super::told_time::asked(context, flight, &title, why));
            }
            Unanswered::Marks(alike) => {
                let spotter = flight.spotter.clone();
                blocks.push(still_row(Edge::Caution, say!(locale, "landing-noted"), &title, spotter));
                let first = alike.first().into_iter();
                blocks.extend(first.flat_map(|mark| mark_answers(context, flight.card, mark, &title)));
            }
            Unanswered::Stop { place, .. } => {
                let how = Some(say!(locale, "landing-slip-how"));
                blocks.push(still_row(Edge::Stop, say!(locale, "common-stop"), &title, how));
                let command = Record::RaiseStop { card: flight.card, place: place.clone() };
                blocks.push(alone(raise(locale, command, say!(locale, "landing-raise-stop"), &title)));
                let label = say!(locale, "landing-slip-because");
                blocks.push(context.entry(LandingForm::SLIP, label, Keyboard::Words, None));
            }
            Unanswered::NotSo(_) => {
                blocks.push(still_row(Edge::Stop, say!(locale, "landing-not-so"), &title, None));
                let command = Record::RaiseNotSo(flight.card);
                blocks.push(alone(raise(locale, command, say!(locale, "landing-mark-finding"), &title)));
            }
            Unanswered::Judgement => {
                let how = Some(say!(locale, "landing-judge-below"));
                blocks.push(still_row(Edge::Caution, say!(locale, "landing-to-say"), &title, how));
            }
        }
    }
    blocks
}

fn raise(locale: Locale, command: Record, label: String, what: &str) -> Control {
    let spoken = say!(locale, "landing-raise-spoken", what = what);
    Control::new(command.into(), label).icon(Icon::Flag).spoken(spoken)
}

fn alone(control: Control) -> Block {
    Block::Choice { label: String::new(), options: vec![control] }
}

/// A finding in one touch; or nothing to it, in words: the usual ones in one touch, others typed.
fn mark_answers(context: &Context<'_>, card: EntryId, mark: &Mark, title: &str) -> Vec<Block> {
    let locale = context.locale;
    let command = Record::RaiseMark { card, mark: mark.entry };
    let raise = raise(locale, command, say!(locale, "landing-mark-finding"), title);
    let answer = |usual| Record::AnswerMark { card, mark: mark.entry, usual };
    // What is a finding already needs no second one.
    let flight = context.ledger.flight(card);
    let found = flight.into_iter().flat_map(|flight| &flight.findings);
    let found = found.filter_map(|shown| context.ledger.finding(shown.finding)).map(|finding| {
        let command = Record::MarkIsFinding { card, mark: mark.entry, finding: finding.id };
        let label = say!(locale, "landing-is-finding", number = finding.number);
        let spoken = say!(locale, "landing-is-finding-spoken", what = title, number = finding.number);
        Control::new(command.into(), label).icon(Icon::Flag).detail(finding.title.clone()).spoken(spoken)
    });
    let usual = UsualAnswer::ALL.into_iter().map(|usual| {
        let words = usual.words(locale);
        let spoken = say!(locale, "landing-nothing-spoken", what = title, words = words);
        Control::new(answer(Some(usual)).into(), words).icon(Icon::Tick).spoken(spoken)
    });
    let options = found.chain([raise]).chain(usual).collect();
    let form = MarkAnswerForm::new(context.form, mark.entry);
    let label = say!(locale, "landing-nothing-why");
    let mut blocks = vec![
        Block::Choice { label: String::new(), options },
        context.entry(&form.field(), label, Keyboard::Words, None),
    ];
    if form.is_typed() {
        let typed = Control::new(answer(None).into(), say!(locale, "landing-nothing-typed")).icon(Icon::Tick);
        blocks.push(alone(typed));
    }
    blocks
}
