//! The form of a thing: its name, what it hangs on, its numbers.

use std::collections::BTreeMap;

use chrono::{Datelike as _, NaiveDate};

use super::{Drafts, Refusal, Result};
use crate::aircraft::Aircraft;
use crate::field::cells_of_each;
use crate::locale::say;
use crate::readiness::Ledger;
use crate::record::{Thing, ThingKind, ThingNumber};

/// A thing as it is described, or described anew.
#[derive(Clone, Copy)]
pub struct ThingForm<'a> {
    drafts: Drafts<'a>,
    ledger: &'a Ledger,
    kind: ThingKind,
    /// The thing as it is known.
    known: Option<&'a Thing>,
    /// The thing that a new one is like.
    like: Option<&'a Thing>,
}

impl<'a> ThingForm<'a> {
    /// The field of a new thing's name.
    pub const NAME: &'static str = "name";
    /// The field of the thing that it hangs on. Its numbers' fields are the ids of [`ThingKind::fields`].
    pub const OF: &'static str = "of";
    /// The field of a paper's last day.
    pub const LAST_DAY: &'static str = "last_day";
    /// The field of a paper's number and where it is kept.
    pub const NOTE: &'static str = "note";
    /// The field of the thing that a new one is like.
    pub const LIKE: &'static str = "like";

    /// The form of a thing of this kind; of a new one where it has no name.
    pub fn new(drafts: Drafts<'a>, ledger: &'a Ledger, kind: ThingKind, name: Option<&str>) -> Self {
        let thing = |name: &str| ledger.aircraft.thing(kind, name);
        let shared = |name: &str| ledger.pack_elsewhere(name).filter(|_| kind == ThingKind::Pack);
        let like = drafts.text(Self::LIKE).filter(|_| name.is_none());
        let like = like.and_then(|name| thing(name).or_else(|| shared(name)));
        ThingForm { drafts, ledger, kind, known: name.and_then(thing), like }
    }

    /// A number as it is known, else what things like this one share, else what is on file elsewhere: the flights on a pack were counted, a
    /// new pack holds what the aircraft's packs do, and a trial run's angles are counted as those of the run before.
    pub fn number_on_file(&self, number: ThingNumber) -> Option<f64> {
        let known = self.known.and_then(|known| known.number(number)).or_else(|| self.shared(number));
        let on_file = || match (self.kind, number) {
            (ThingKind::PackReading, ThingNumber::Flights) => {
                self.ledger.flights_on(self.of(ThingKind::Pack)?).map(f64::from)
            }
            (ThingKind::Pack, ThingNumber::Cells) if self.known.is_none() => {
                cells_of_each(&self.ledger.aircraft).map(f64::from)
            }
            (ThingKind::Pack, ThingNumber::CapacityMah) if self.known.is_none() => {
                self.ledger.aircraft.figure("pack-capacity")
            }
            // A rotor keeps its sense, and so does who counts its angles.
            (ThingKind::TrialRun, ThingNumber::Turns | ThingNumber::Counted | ThingNumber::Later) => {
                self.ledger.aircraft.things_of(self.kind).find_map(|run| run.number(number))
            }
            _ => None,
        };
        known.or_else(on_file)
    }

    /// What the thing that it is like says of this number, unless somebody typed there, or emptied it.
    fn shared(&self, number: ThingNumber) -> Option<f64> {
        let is_alike = match self.pack_elsewhere() {
            // The same pack: only where it sits is this aircraft's own.
            Some(_) => number != ThingNumber::XMm,
            None => self.kind.field(number).is_some_and(|field| field.alike),
        };
        let like = self.like.filter(|_| is_alike && self.drafts.whole(number.as_str()).is_none());
        like.and_then(|like| like.number(number))
    }

    /// The pack of another aircraft that this one is to fly too.
    fn pack_elsewhere(&self) -> Option<&'a Thing> {
        let like = self.like.filter(|like| self.ledger.aircraft.thing(self.kind, &like.name).is_none())?;
        self.ledger.pack_elsewhere(&like.name).filter(|_| self.kind == ThingKind::Pack)
    }

    /// The thing of a kind that it hangs on: as chosen, as known, as with the one that it is like, else the only one there is.
    pub fn of(&self, on: ThingKind) -> Option<&'a str> {
        let known = self.known.or(self.like).and_then(|known| known.of.as_deref());
        self.drafts.text(Self::OF).or(known).or_else(|| only_one(&self.ledger.aircraft, on))
    }

    /// The thing as it is to be recorded, under the name that it has or gets.
    ///
    /// # Errors
    /// A new one without a name or with one that is there already, nothing that it hangs on, a number that is missing or cannot be.
    pub fn thing(&self, name: Option<&str>) -> Result<Thing> {
        let name = match name {
            Some(name) => name.to_owned(),
            None => self.new_name()?,
        };
        let (of, numbers) = (self.required_of()?, self.numbers()?);
        let (last_day, note) = match self.kind {
            ThingKind::Paper => (self.last_day()?, self.note().map(str::to_owned)),
            _ => (None, None),
        };
        Ok(Thing { kind: self.kind, name, of, numbers, last_day, note })
    }

    /// The last day of a paper as it is typed, emptied, or known; none: it has no end.
    ///
    /// # Errors
    /// No day of the calendar, or one in another century.
    pub fn last_day(&self) -> Result<Option<NaiveDate>> {
        let Some(typed) = self.drafts.whole(Self::LAST_DAY) else {
            return Ok(self.known.and_then(|known| known.last_day));
        };
        let locale = self.drafts.locale();
        let wrong = || Refusal::of(Self::LAST_DAY, say!(locale, "app-no-day", text = typed.trim()));
        match typed.trim() {
            "" => Ok(None),
            text => read_day(text).map(Some).ok_or_else(wrong),
        }
    }

    /// The number of a paper and where it is kept, as typed, emptied, or known.
    pub fn note(&self) -> Option<&'a str> {
        let known = self.known.and_then(|known| known.note.as_deref()).unwrap_or_default();
        self.drafts.left_or_known(Self::NOTE, known)
    }

    /// What a paper that nobody names is called: what it is, with a number where there is one of that name.
    fn usual_name_of_paper(&self) -> Option<String> {
        let sort = ThingKind::Paper.field(ThingNumber::Sort)?;
        let locale = self.drafts.locale();
        let number = self.drafts.number(sort.id(), "", sort.unit, sort.range).ok()??;
        let word = sort.shown(number, locale);
        let free = |name: &String| self.ledger.aircraft.thing(self.kind, name).is_none();
        [word.clone()].into_iter().chain((2..).map(|number| format!("{word} {number}"))).find(free)
    }

    /// What a new thing of a kind that nobody names is called until somebody does: the kind with the next number.
    pub fn usual_name(&self) -> Option<String> {
        if self.kind == ThingKind::Paper {
            return self.usual_name_of_paper();
        }
        if let Some(pack) = self.pack_elsewhere() {
            return Some(pack.name.clone());
        }
        let is_alike = matches!(
            self.kind,
            ThingKind::Pack
                | ThingKind::Blade
                | ThingKind::PackReading
                | ThingKind::LoadReading
                | ThingKind::TrialRun
        );
        let word = self.kind.word(self.drafts.locale());
        let elsewhere = |name: &str| self.ledger.thing_elsewhere(self.kind, name).is_some();
        let free = |name: &String| self.ledger.aircraft.thing(self.kind, name).is_none() && !elsewhere(name);
        is_alike.then(|| (1..).map(|number| format!("{word} {number}")).find(free)).flatten()
    }

    fn new_name(&self) -> Result<String> {
        let locale = self.drafts.locale();
        let kind = locale.inside(&self.kind.word(locale));
        let typed = self.drafts.required(Self::NAME, &say!(locale, "app-label-thing-name", kind = kind));
        let name = typed.map(str::to_owned).or_else(|unnamed| self.usual_name().ok_or(unnamed))?;
        if self.ledger.aircraft.thing(self.kind, &name).is_some() {
            return Err(Refusal::of(Self::NAME, say!(locale, "app-thing-exists", kind = kind, name = name)));
        }
        match (self.ledger.thing_elsewhere(self.kind, &name), self.pack_elsewhere()) {
            (Some(other), taken) if taken.is_none_or(|taken| taken.name != other.name) => {
                let words = say!(locale, "app-thing-elsewhere", kind = kind, name = name);
                Err(Refusal::of(Self::NAME, words))
            }
            _ => Ok(name),
        }
    }

    fn required_of(&self) -> Result<Option<String>> {
        let locale = self.drafts.locale();
        let Some((on, question)) = self.kind.hangs_on(locale) else { return Ok(None) };
        let unsaid = || {
            let kind = locale.inside(&on.word(locale));
            Refusal::of(Self::OF, say!(locale, "app-thing-hangs", question = question, kind = kind))
        };
        Ok(Some(self.of(on).ok_or_else(unsaid)?.to_owned()))
    }

    fn numbers(&self) -> Result<BTreeMap<String, f64>> {
        let locale = self.drafts.locale();
        let mut numbers = self.known.map(|known| known.numbers.clone()).unwrap_or_default();
        for field in self.kind.fields() {
            let label = field.label(locale);
            if let Some(value) = self.drafts.number(field.id(), &label, field.unit, field.range)? {
                numbers.insert(field.id().to_owned(), value);
            } else if let Some(value) = self.number_on_file(field.number) {
                numbers.insert(field.id().to_owned(), value);
            } else if field.required {
                return Err(Refusal::of(field.id(), say!(locale, "app-field-empty", label = label)));
            }
        }
        let has = |number: ThingNumber| numbers.contains_key(number.as_str());
        if self.kind == ThingKind::Wire && !has(ThingNumber::Gauge) && !has(ThingNumber::AreaMm2) {
            return Err(Refusal::of(ThingNumber::Gauge.as_str(), say!(locale, "app-wire-without-size")));
        }
        match self.out_of_order(|number| numbers.get(number.as_str()).copied()) {
            Some(wrong) => Err(wrong),
            None => Ok(numbers),
        }
    }

    /// A number, as typed or on file, that lies above one that it cannot lie above: a pack is full over nominal over empty.
    pub fn disorder(&self) -> Option<Refusal> {
        let locale = self.drafts.locale();
        self.out_of_order(|number| {
            let field = self.kind.field(number)?;
            let typed = self.drafts.number(field.id(), &field.label(locale), field.unit, field.range).ok()?;
            typed.or_else(|| self.number_on_file(number))
        })
    }

    fn out_of_order(&self, number: impl Fn(ThingNumber) -> Option<f64>) -> Option<Refusal> {
        let locale = self.drafts.locale();
        self.kind.rising().iter().find_map(|(low, high)| {
            let (below, above) = (number(*low)?, number(*high)?);
            let (low, high) = (self.kind.field(*low)?, self.kind.field(*high)?);
            (below > above).then(|| {
                let words = say!(
                    locale,
                    "app-above-another",
                    low = low.label(locale),
                    below = low.shown(below, locale),
                    high = locale.inside(&high.label(locale)),
                    above = high.shown(above, locale)
                );
                Refusal::of(low.id(), words)
            })
        })
    }
}

/// A day of this century as it is typed: `2027-06-30` or `30.6.2027`. One with a stroke is not taken, since half of the world puts the month first.
fn read_day(text: &str) -> Option<NaiveDate> {
    let text: String = text.chars().filter(|sign| !sign.is_whitespace()).collect();
    let day = ["%Y-%m-%d", "%d.%m.%Y"].iter().find_map(|form| NaiveDate::parse_from_str(&text, form).ok())?;
    (2_000..2_100).contains(&day.year()).then_some(day)
}

/// The name of the thing of a kind, where there is no other of it.
fn only_one(aircraft: &Aircraft, kind: ThingKind) -> Option<&str> {
    let mut things = aircraft.things_of(kind);
    match (things.next(), things.next()) {
        (Some(only), None) => Some(&only.name),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::locale::Locale;

    fn thing(kind: ThingKind, name: &str) -> Thing {
        Thing { kind, name: name.to_owned(), of: None, numbers: BTreeMap::new(), last_day: None, note: None }
    }

    #[test]
    fn a_day_is_read_as_two_parts_of_the_world_write_it_and_no_other_text_is() {
        let day = NaiveDate::from_ymd_opt(2027, 6, 30);
        for text in ["2027-06-30", "30.6.2027", "30.06.2027", "30. 6. 2027"] {
            assert_eq!(read_day(text), day, "{text}");
        }
        for text in ["6/30/2027", "30.6.27", "30.6", "31.6.2027", "2027", "soon", "30.6.20270"] {
            assert_eq!(read_day(text), None, "{text}");
        }
    }

    #[test]
    fn a_supply_is_full_over_nominal_over_empty() {
        let ledger = Ledger::default();
        let refused = |full: &str, nominal: &str, empty: &str| {
            let typed = [("name", "Main"), ("full_v", full), ("nominal_v", nominal), ("empty_v", empty)];
            let rest = [("continuous_a", "20"), ("burst_a", "30")];
            let drafts =
                typed.into_iter().chain(rest).map(|(field, text)| (field.to_owned(), text.to_owned())).collect();
            let form = ThingForm::new(Drafts::new(&drafts, Locale::default()), &ledger, ThingKind::Supply, None);
            let recorded = form.thing(None).err().and_then(|refusal| refusal.field);
            assert_eq!(
                form.disorder().and_then(|wrong| wrong.field),
                recorded,
                "said where it is typed, and refused"
            );
            recorded
        };
        assert_eq!(refused("8.4", "7.4", "6.6"), None);
        assert_eq!(refused("6.0", "6.0", "6.0"), None, "a regulator gives the same from first to last");
        assert_eq!(refused("7.4", "8.4", "6.6").as_deref(), Some("nominal_v"));
        assert_eq!(refused("8.4", "7.4", "7.6").as_deref(), Some("empty_v"));
    }

    #[test]
    fn the_only_supply_stands_chosen_and_of_two_none() {
        let mut ledger = Ledger::default();
        let drafts = BTreeMap::new();
        let drafts = Drafts::new(&drafts, Locale::default());
        let insert = |ledger: &mut Ledger, name: &str| {
            let supply = thing(ThingKind::Supply, name);
            ledger.aircraft.things.insert(supply.reference(), supply);
        };
        let chosen = |ledger: &Ledger| {
            ThingForm::new(drafts, ledger, ThingKind::Consumer, None).of(ThingKind::Supply).map(str::to_owned)
        };
        assert_eq!(chosen(&ledger), None);
        insert(&mut ledger, "Main");
        assert_eq!(chosen(&ledger).as_deref(), Some("Main"));
        insert(&mut ledger, "Second");
        assert_eq!(chosen(&ledger), None);
    }
}
