//! What is entered about the aircraft, done to it, and happens to it.

use crate::aircraft::FigureValue;
use crate::field::Tested;
use crate::plan::{Plan, Subject};
use crate::readiness::history::{Change, Declared, Described, Emergency, Happened};
use crate::readiness::ledger::Ledger;
use crate::readiness::reason::{Deed, Reason};
use crate::readiness::touch::{Reach, Touch};
use crate::record::{Entry, OnAircraft, Thing, ThingKind, ThingRef};

impl Ledger {
    pub(super) fn named(&mut self, name: &String, builder: &String, pilot: Option<&String>) {
        self.aircraft.name.clone_from(name);
        self.aircraft.builder.clone_from(builder);
        self.aircraft.pilot.clone_from(pilot.unwrap_or(builder));
    }

    pub(super) fn emergency_noted(&mut self, call: &str, address: &str) {
        self.emergency = Some(Emergency { call: call.to_owned(), address: address.to_owned() });
    }

    pub(super) fn answered(&mut self, plan: &Plan, question: &str, choice: &str) {
        self.aircraft.answers.insert(question.to_owned(), choice.to_owned());
        self.aircraft.answer_from_figures(plan);
    }

    pub(super) fn figure_set(
        &mut self,
        plan: &Plan,
        entry: &Entry,
        figure: &str,
        new: FigureValue,
        reason: Option<&str>,
    ) {
        let old = self.aircraft.figures.insert(figure.to_owned(), new);
        self.aircraft.answer_from_figures(plan);
        if old.is_none_or(|old| old.value != new.value) {
            // Nothing was measured against a figure that was not there; it may have been computed without it.
            let reach = if old.is_some() { Reach::Everything } else { Reach::Computed { from: None } };
            if plan.figure(figure).is_some_and(|figure| figure.adjustable) {
                let before = old.map(|old| crate::unit::show_number(old.value));
                let subject = Subject::Figure(figure.to_owned());
                self.adjust(entry, subject, before, &crate::unit::show_number(new.value), reason);
            }
            self.touch(plan, entry, &[Subject::Figure(figure.to_owned())], reach, &Deed::EnteredAs(new.value));
        }
    }

    pub(super) fn thing_set(&mut self, plan: &Plan, entry: &Entry, thing: &Thing, on_aircraft: OnAircraft) {
        let old = self.aircraft.things.insert(thing.reference(), thing.clone());
        if thing.kind == ThingKind::Pack && old.is_none() {
            self.take_over_readings(&thing.name);
        }
        self.described.insert(thing.reference(), Described { seq: entry.seq, runs: self.runs });
        let asked = self.declared.get(&thing.kind);
        let is_asked = asked.is_some_and(|declared| !thing.is_idle() || declared.idle.contains(&thing.name));
        if old.is_none() || !is_asked {
            self.declared.remove(&thing.kind);
        }
        if old.as_ref() != Some(thing) {
            let name = thing.name.clone();
            let deed = if old.is_some() { Deed::Changed(name) } else { Deed::Added(name) };
            self.thing_touched(plan, entry, (old.as_ref(), Some(thing)), on_aircraft, &deed);
        }
    }

    pub(super) fn thing_removed(&mut self, plan: &Plan, entry: &Entry, thing: &ThingRef, on_aircraft: OnAircraft) {
        self.described.remove(thing);
        // One that another aircraft flies is still the same pack.
        if thing.kind == ThingKind::Pack && self.pack_elsewhere(&thing.name).is_none() {
            self.pack_gone(entry, &thing.name);
        }
        if let Some(old) = self.aircraft.things.remove(thing) {
            self.declared.remove(&thing.kind);
            self.thing_touched(plan, entry, (Some(&old), None), on_aircraft, &Deed::Removed(thing.name.clone()));
        }
    }

    fn thing_touched(
        &mut self,
        plan: &Plan,
        entry: &Entry,
        (old, new): (Option<&Thing>, Option<&Thing>),
        on_aircraft: OnAircraft,
        deed: &Deed,
    ) {
        let Some(thing) = new.or(old) else { return };
        if let Some(subject) = self.aircraft.touched_with(old, new, on_aircraft) {
            self.touch(plan, entry, &[subject], Reach::of_description(thing.kind, on_aircraft), deed);
        }
    }

    pub(super) fn list_declared(&mut self, list: ThingKind, count: u32, idle: &[String]) {
        self.declared.insert(list, Declared { count, idle: idle.to_vec() });
    }

    pub(super) fn changed(&mut self, plan: &Plan, entry: &Entry, subjects: &[String], what: &str) {
        if subjects.is_empty() {
            return;
        }
        let parsed: Vec<Subject> = subjects.iter().filter_map(|subject| Subject::parse(subject)).collect();
        self.touch(plan, entry, &parsed, Reach::Everything, &Deed::Work(what.to_owned()));
        self.untested.push(Tested::Work { what: what.to_owned() });
        self.changes.push(Change {
            entry: entry.id,
            at: entry.at.clone(),
            subjects: subjects.to_vec(),
            what: what.to_owned(),
        });
    }

    pub(super) fn happened(&mut self, plan: &Plan, entry: &Entry, event: &str, note: &Option<String>) {
        self.aircraft.happened.insert(event.to_owned(), entry.id);
        self.happened.push(Happened {
            entry: entry.id,
            at: entry.at.clone(),
            event: event.to_owned(),
            note: note.clone(),
            runs: self.runs,
        });
        let subject = Subject::Event(event.to_owned());
        let title = plan.subject_name(&subject);
        let reason = Reason::Happened { of: event.to_owned(), event: title, by: entry.id };
        self.touches.push(Touch { seq: entry.seq, subject, reach: Reach::Everything, reason });
        self.break_by_last(plan, 1);
    }
}
