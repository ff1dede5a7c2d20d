//! What is known of the aircraft: its figures, what is fitted to it, its settings and its packs.

use std::collections::BTreeMap;

use crate::engineering::pack::FULL_CELL_V;
use crate::plan::{Check, Figure, Limit, Limits, Measure, OnFile, Plan, Subject, When};
use crate::record::{Basis, EntryId, OnAircraft, Outcome, Thing, ThingKind, ThingNumber, ThingRef};

/// How much two packs of one kind differ in mass, as a share of it (common practice, no source).
const PACK_SPREAD: f64 = 0.02;
/// What a workshop's scale is good for, grams (common practice, no source), until the aircraft says better.
const SCALE_G: f64 = 5.0;
/// What a workshop's ruler is good for, millimetres (common practice, no source), until the aircraft says better.
const RULER_MM: f64 = 1.0;

/// The aircraft as the journal describes it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Aircraft {
    /// Its name, empty until it has one.
    pub name: String,
    /// Whose it is.
    pub builder: String,
    /// Who flies it.
    pub pilot: String,
    /// Answers to the plan's questions.
    pub answers: BTreeMap<String, String>,
    /// Figures by the plan's id.
    pub figures: BTreeMap<String, FigureValue>,
    /// Things by kind and name.
    pub things: BTreeMap<ThingRef, Thing>,
    /// Settings by the plan's id.
    pub settings: BTreeMap<String, SettingValue>,
    /// Events that happened to it: the plan's id, and the last entry that says so.
    pub happened: BTreeMap<String, EntryId>,
}

/// A figure with its basis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FigureValue {
    /// In the plan's unit.
    pub value: f64,
    /// Where it comes from.
    pub basis: Basis,
    /// The entry that set it.
    pub entry: EntryId,
}

/// A setting with its past.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SettingValue {
    /// As it is now.
    pub now: String,
    /// Every change: the entry, the value it brought, the reason, and how many motor runs came before.
    pub past: Vec<(EntryId, String, String, u32)>,
}

impl Aircraft {
    /// Whether it, its builder and its pilot have names.
    pub fn is_named(&self) -> bool {
        [&self.name, &self.builder, &self.pilot].into_iter().all(|name| !name.trim().is_empty())
    }

    /// Answers the questions that a figure answers.
    pub(crate) fn answer_from_figures(&mut self, plan: &Plan) {
        for question in &plan.questions {
            let Some(from) = &question.from else { continue };
            let answer = self.figure(&from.figure).and_then(|value| question.answered_by(value)).map(str::to_owned);
            match answer {
                Some(answer) => self.answers.insert(question.id.clone(), answer),
                None => self.answers.remove(&question.id),
            };
        }
    }

    /// A figure's value.
    pub fn figure(&self, id: &str) -> Option<f64> {
        self.figures.get(id).map(|figure| figure.value)
    }

    /// A limit in numbers; `None` while its figure is missing.
    pub fn limit(&self, limit: &Limit) -> Option<f64> {
        self.known_limit(limit).ok()
    }

    /// A limit in numbers.
    ///
    /// # Errors
    /// The id of the figure that it waits for.
    pub fn known_limit<'a>(&self, limit: &'a Limit) -> Result<f64, &'a str> {
        match limit {
            Limit::Number(number) => Ok(*number),
            // What is told as two digits is two digits: 4.20 and 0.03 are 4.23.
            Limit::FullCell { plus_v } => Ok(((self.full_cell_v() + plus_v) * 1e6).round() / 1e6),
            Limit::Figure { figure, times } => self.figure(figure).map(|value| value * times).ok_or(figure),
        }
    }

    /// Holds a reading against limits.
    ///
    /// # Errors
    /// The id of a figure that a limit waits for: such a reading is judged by nothing yet.
    pub fn judge<'a>(&self, limits: &'a Limits, value: f64) -> Result<Outcome, &'a str> {
        let number = |limit: &'a Option<Limit>| limit.as_ref().map(|limit| self.known_limit(limit)).transpose();
        let below = |limit: Option<f64>| limit.is_some_and(|limit| value < limit);
        let above = |limit: Option<f64>| limit.is_some_and(|limit| value > limit);
        if below(number(&limits.stop_below)?) || above(number(&limits.stop_above)?) {
            Ok(Outcome::Stop)
        } else if below(number(&limits.caution_below)?) || above(number(&limits.caution_above)?) {
            Ok(Outcome::Caution)
        } else {
            Ok(Outcome::Pass)
        }
    }

    /// What is on file that a reading does not agree with, and what that says.
    pub fn contradicts<'a>(&self, measure: &'a Measure, value: f64) -> impl Iterator<Item = (&'a OnFile, f64)> {
        measure.agrees_with.iter().filter_map(move |agreement| {
            let on_file = self.on_file(&agreement.with)?;
            let agrees = (value - on_file).abs() <= on_file.abs() * agreement.within_percent / 100.0;
            (!agrees).then_some((&agreement.with, on_file))
        })
    }

    fn on_file(&self, with: &OnFile) -> Option<f64> {
        match with {
            OnFile::Figure(id) => self.figure(id),
            OnFile::Scales => {
                let mut grams = self
                    .things_of(ThingKind::Weighing)
                    .filter_map(|scale| scale.number(ThingNumber::MassG))
                    .peekable();
                grams.peek()?;
                Some(grams.sum::<f64>() / 1_000.0)
            }
        }
    }

    /// All things of a kind, by name.
    pub fn things_of(&self, kind: ThingKind) -> impl Iterator<Item = &Thing> {
        self.things.values().filter(move |thing| thing.kind == kind)
    }

    /// Those things of a kind that carry no current, by name.
    pub fn idle_of(&self, kind: ThingKind) -> impl Iterator<Item = &Thing> {
        self.things_of(kind).filter(|thing| thing.is_idle())
    }

    /// How many things of a kind there are.
    pub fn count_of(&self, kind: ThingKind) -> u32 {
        u32::try_from(self.things_of(kind).count()).unwrap_or(u32::MAX)
    }

    /// A thing by kind and name.
    pub fn thing(&self, kind: ThingKind, name: &str) -> Option<&Thing> {
        self.things.get(&ThingRef { kind, name: name.to_owned() })
    }

    /// What evidence may rest on is touched where a thing was one way, and is another now; none: it was not there, or is no more.
    ///
    /// One pack more or less of a kind that is there changes nothing of the aircraft that flew with another like it: only whether each
    /// of them is still fit has to be looked at. What was recorded before anybody was asked counts as it did. A paper more, or one that was
    /// renewed in time, takes nothing away; one that is gone does, and one that ends does so by its day.
    pub fn touched_with(&self, old: Option<&Thing>, new: Option<&Thing>, on_aircraft: OnAircraft) -> Option<Subject> {
        let thing = new.or(old)?;
        if thing.kind == ThingKind::Paper && new.is_some() {
            return None;
        }
        let is_alike = [old, new].into_iter().flatten().all(|thing| self.has_another_like(thing));
        let kind = match on_aircraft {
            OnAircraft::AsItWas | OnAircraft::Changed if is_alike => ThingKind::PackReading,
            OnAircraft::AsItWas | OnAircraft::Changed | OnAircraft::NotSaid => thing.kind,
        };
        Subject::parse(kind.subject())
    }

    /// Whether there is another pack than this one that the aircraft cannot tell from it: as many cells, as much charge, as full when full, as heavy as two
    /// of one kind are, and at the same place as far as a ruler tells. Of other things each is its own.
    fn has_another_like(&self, thing: &Thing) -> bool {
        let within =
            |field: ThingNumber, accuracy: f64, other: &Thing| match (thing.number(field), other.number(field)) {
                (Some(one), Some(other)) => (one - other).abs() <= accuracy,
                (None, None) => true,
                _ => false,
            };
        let mass_g = thing.number(ThingNumber::MassG).unwrap_or_default();
        let is_like = |other: &&Thing| {
            let same = |field: ThingNumber| thing.number(field) == other.number(field);
            other.name != thing.name
                && same(ThingNumber::Cells)
                && same(ThingNumber::CapacityMah)
                && same(ThingNumber::FullV)
                && within(ThingNumber::MassG, mass_g * PACK_SPREAD, other)
                && within(ThingNumber::XMm, self.ruler_accuracy_mm(), other)
        };
        thing.kind == ThingKind::Pack && self.things_of(ThingKind::Pack).any(|other| is_like(&other))
    }

    /// The voltage of a full cell of a pack.
    pub fn full_v(&self, pack: &str) -> f64 {
        self.thing(ThingKind::Pack, pack).and_then(|pack| pack.number(ThingNumber::FullV)).unwrap_or(FULL_CELL_V)
    }

    /// The voltage of a full cell of the aircraft's packs; of the lowest kind, where there are several.
    pub fn full_cell_v(&self) -> f64 {
        let of_each =
            self.things_of(ThingKind::Pack).map(|pack| pack.number(ThingNumber::FullV).unwrap_or(FULL_CELL_V));
        of_each.min_by(f64::total_cmp).unwrap_or(FULL_CELL_V)
    }

    /// How far a scale may be off, grams.
    pub fn scale_accuracy_g(&self) -> f64 {
        self.figure("scale-accuracy").unwrap_or(SCALE_G)
    }

    /// How far a distance may be off, millimetres.
    pub fn ruler_accuracy_mm(&self) -> f64 {
        self.figure("ruler-accuracy").unwrap_or(RULER_MM)
    }

    /// Whether a check is for this aircraft. A question that is not answered yet keeps its checks away: the first gate
    /// waits for the answer. So does a check that an event calls for, until that happened.
    pub fn wants(&self, check: &Check) -> bool {
        let called = check.called_by.is_empty() || check.called_by.iter().any(|id| self.happened.contains_key(id));
        called && self.fits(&check.when)
    }

    /// Whether something of the plan is for this aircraft.
    pub fn fits(&self, when: &When) -> bool {
        when.iter().all(|(question, answers)| self.answers.get(question).is_some_and(|given| answers.contains(given)))
    }

    /// The checks of this aircraft that are asked for again once an event of the plan has happened.
    pub fn checks_asked_again_by<'p>(&self, plan: &'p Plan, event: &str) -> impl Iterator<Item = &'p Check> {
        let happened = Subject::Event(event.to_owned());
        let checks = plan.checks().map(|(_, check)| check);
        checks.filter(move |check| check.ends_with(&happened) && self.fits(&check.when))
    }

    /// The figure that this one must lie above, where both are known and it does not.
    pub fn out_of_order<'a>(&self, plan: &'a Plan, figure: &Figure) -> Option<&'a Figure> {
        let below = plan.figure(figure.above.as_deref()?)?;
        let (value, floor) = (self.figure(&figure.id)?, self.figure(&below.id)?);
        // Written so that a figure that is no number counts as out of order.
        let rises = value > floor;
        (!rises).then_some(below)
    }
}
