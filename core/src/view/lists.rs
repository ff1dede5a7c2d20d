//! Lists of things that a check judges every one of: whether they are declared complete, and the control that declares them.

use super::context::{row, still_row};
use super::{Block, Context, Control, Edge, Go, Icon, Place, Record};
use crate::locale::{Locale, say, sentence};
use crate::plan::CheckKind;
use crate::record::{JudgedList, Thing, ThingKind};

/// Whether any check that this aircraft wants judges every thing of a kind.
pub(super) fn is_judged(context: &Context<'_>, kind: ThingKind) -> bool {
    let mut wanted = context.plan.checks().filter(|(_, check)| context.ledger.aircraft.wants(check));
    wanted.any(|(_, check)| match check.kind {
        CheckKind::Compute(computation) => computation.lists().contains(&kind),
        _ => false,
    })
}

/// Whether a list is declared complete.
pub(super) fn is_declared(context: &Context<'_>, list: ThingKind) -> bool {
    context.ledger.declared.contains_key(&list)
}

/// How a list stands, and what on it carries nothing and is asked about.
pub(super) fn list_rows(context: &Context<'_>, list: ThingKind) -> Vec<Block> {
    let (locale, declared) = (context.locale, is_declared(context, list));
    let (edge, word) = match declared {
        true => (Edge::Fresh, say!(locale, "lists-complete")),
        false => (Edge::Missing, say!(locale, "lists-to-declare")),
    };
    let aircraft = &context.ledger.aircraft;
    let names: Vec<&str> = aircraft.things_of(list).map(|thing| thing.name.as_str()).collect();
    let detail = Some(names.join(", ")).filter(|names| !names.is_empty());
    let title = sentence(&counted(locale, list, aircraft.count_of(list)));
    let mut rows = vec![still_row(edge, word, title, detail)];
    rows.extend(aircraft.idle_of(list).map(|thing| {
        let place = Place::Thing { kind: list, name: Some(thing.name.clone()) };
        let asked = Some(say!(locale, "lists-idle-asked"));
        row(Edge::Caution, say!(locale, "lists-idle"), &thing.name, asked, place)
    }));
    rows
}

/// The control that declares a list complete; none where it is.
pub(super) fn declare(context: &Context<'_>, list: ThingKind) -> Option<Control> {
    let locale = context.locale;
    let aircraft = &context.ledger.aircraft;
    let idle = aircraft.idle_of(list).count();
    let what = counted(locale, list, aircraft.count_of(list));
    let label = match idle {
        0 => say!(locale, "lists-declare", what = what),
        idle => say!(locale, "lists-declare-idle", what = what, idle = idle),
    };
    (!is_declared(context, list)).then(|| Control::primary(Record::DeclareList(list).into(), label).icon(Icon::List))
}

/// The control that describes one more thing of a list, from where the list is asked about; none where it is declared.
pub(super) fn add(context: &Context<'_>, list: ThingKind) -> Option<Control> {
    let locale = context.locale;
    let label = say!(locale, "aircraft-add", kind = locale.inside(&list.word(locale)));
    let place = Place::Thing { kind: list, name: None };
    (!is_declared(context, list)).then(|| Control::new(place.into(), label).icon(Icon::Pencil))
}

/// The control that describes one more thing like the one of this kind that was described last; none where there is none, and of kinds of
/// which all is measured of each.
pub(super) fn one_more_like_last(context: &Context<'_>, kind: ThingKind) -> Option<Control> {
    let described = |thing: &&Thing| context.ledger.described.get(&thing.reference()).map(|described| described.seq);
    let last = context.ledger.aircraft.things_of(kind).max_by_key(described)?;
    one_more_like(context.locale, last)
}

/// The control that describes one more thing like this one.
pub(super) fn one_more_like(locale: Locale, thing: &Thing) -> Option<Control> {
    let go = Go::Like { kind: thing.kind, name: thing.name.clone() };
    let control =
        || Control::new(go.into(), say!(locale, "aircraft-one-more-like", name = thing.name)).icon(Icon::Add);
    thing.kind.may_be_alike().then(control)
}

/// "wire runs (3)".
fn counted(locale: Locale, list: ThingKind, count: u32) -> String {
    say!(locale, "lists-counted", list = locale.inside(&list.words(locale)), count = count)
}

/// What a computation judged, behind what it came to: nothing where it judges no list.
pub(super) fn judged_words(locale: Locale, judged: &[JudgedList]) -> String {
    if judged.is_empty() {
        return String::new();
    }
    let counts: Vec<String> = judged.iter().map(|judged| counted(locale, judged.list, judged.count)).collect();
    say!(locale, "lists-judged", lists = counts.join(", "))
}

pub(super) fn thing_words(locale: Locale, thing: &Thing) -> String {
    let numbers = thing.kind.fields().iter().filter_map(|field| {
        let value = thing.number(field.number)?;
        Some(format!("{} {}", locale.inside(&field.label(locale)), field.shown(value, locale)))
    });
    let of = thing.of.iter().map(|supply| say!(locale, "aircraft-on", supply = supply));
    of.chain(numbers).chain(thing.beside_numbers(locale)).collect::<Vec<_>>().join(", ")
}
