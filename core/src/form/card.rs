//! The form of a flight card, and what a card begins with: what was typed, else what the last flight of the day and the packs suggest.

use super::person::{ALONE, of_another};
use super::set::SetForm;
use super::words::required_words;
use super::{Drafts, Refusal, Result};
use crate::computed::{Endurance, Facts, endurance, planned_minutes};
use crate::field::{Flight, PACKS_JOINED};
use crate::locale::say;
use crate::plan::{Check, Fly};
use crate::readiness::{Ledger, PackStand};
use crate::record::{Moment, Wind};
use crate::unit::Unit;

/// Air where no flight tells of any, degrees Celsius.
const USUAL_AIR_C: f64 = 20.0;

/// A card of one flight, before it is drawn up.
#[derive(Clone, Copy)]
pub struct CardForm<'a> {
    drafts: Drafts<'a>,
    facts: Facts<'a>,
    check: &'a Check,
    fly: &'a Fly,
    now: &'a Moment,
}

impl<'a> CardForm<'a> {
    /// The field of the packs.
    pub const PACK: &'static str = SetForm::FIELD;
    /// The field of why it is flown on what is not known to be full.
    pub const NOT_FULL: &'static str = "not-full";
    /// The field of the air's temperature.
    pub const AIR: &'static str = "air";
    /// The field of the wind as a meter has it.
    pub const WIND: &'static str = "wind";
    /// The field of the wind's number of the Beaufort scale.
    pub const FORCE: &'static str = "force";
    /// The field of the planned minutes.
    pub const MINUTES: &'static str = "minutes";
    /// The field of the spotter's name.
    pub const SPOTTER: &'static str = "spotter";
    /// Numbers of the Beaufort scale that are offered; in the last of them nobody flies a test.
    pub const FORCES: std::ops::RangeInclusive<u8> = 0..=5;
    /// Where a meter's reading of the wind starts while nothing is entered, metres per second.
    pub const WIND_START_M_S: f64 = 2.0;
    /// Plausible air, degrees Celsius, inclusive.
    const AIR_RANGE_C: (f64, f64) = (-30.0, 55.0);
    /// Plausible wind, metres per second, inclusive.
    const WIND_RANGE_M_S: (f64, f64) = (0.0, 25.0);
    /// Plausible minutes, inclusive.
    const MINUTES_RANGE: (f64, f64) = (0.1, 30.0);

    /// The card of a check that is flown.
    pub fn new(drafts: Drafts<'a>, facts: Facts<'a>, check: &'a Check, fly: &'a Fly, now: &'a Moment) -> Self {
        CardForm { drafts, facts, check, fly, now }
    }

    fn ledger(&self) -> &'a Ledger {
        self.facts.ledger
    }

    fn typed(&self, field: &str, unit: Unit) -> Option<f64> {
        self.drafts.text(field).and_then(|text| self.drafts.locale().read(text, unit))
    }

    fn set(&self) -> SetForm<'a> {
        SetForm::new(self.drafts, self.facts.ledger)
    }

    /// The pack, or the packs that make the set: those that were touched, else the full ones that have rested longest, else the only
    /// ones there are.
    pub fn packs(&self) -> Vec<String> {
        self.set().packs()
    }

    /// What the packs' field says once this pack is touched.
    pub fn packs_with(&self, pack: &str) -> String {
        self.set().packs_with(pack)
    }

    /// The packs, which have to be there, make a set, and have something left.
    ///
    /// # Errors
    /// None is chosen, one is no longer known or may not be flown, their cells do not add up, or nothing is left in them.
    pub fn required_packs(&self, air_c: f64) -> Result<Vec<String>> {
        let packs = self.set().required_packs()?;
        match self.endurance(&packs, air_c) {
            Some(endurance) if endurance.usable_mah <= 0.0 => Err(self.nothing_left(&packs)),
            _ => Ok(packs),
        }
    }

    fn nothing_left(&self, packs: &[String]) -> Refusal {
        let packs = packs.join(PACKS_JOINED);
        Refusal::of(Self::PACK, say!(self.drafts.locale(), "app-pack-nothing-left", packs = packs))
    }

    /// Those of the packs that are not known to be full.
    pub fn not_full(&self) -> Vec<PackStand> {
        let stands = self.packs().into_iter().map(|pack| self.ledger().pack(&pack));
        stands.filter(|pack| !pack.is_full()).collect()
    }

    /// Why it is flown on what is not known to be full; none where all are.
    ///
    /// # Errors
    /// One of them is not, and nothing was said of it, or too little to tell anybody anything.
    pub fn why_not_full(&self) -> Result<Option<String>> {
        let label = say!(self.drafts.locale(), "card-why-not-full");
        let why = || required_words(self.drafts, Self::NOT_FULL, &label).map(str::to_owned);
        (!self.not_full().is_empty()).then(why).transpose()
    }

    /// The air as it was typed, else that of the last flight, if it was today. Degrees Celsius.
    pub fn air_c(&self) -> Option<f64> {
        self.typed(Self::AIR, Unit::Celsius).or_else(|| self.air_of_today_c())
    }

    fn air_of_today_c(&self) -> Option<f64> {
        if self.drafts.text(Self::AIR).is_some() {
            return None;
        }
        flown_today(self.ledger(), self.now).map(|flight| flight.air_c)
    }

    /// The air, which has to be there, degrees Celsius.
    ///
    /// # Errors
    /// None, no number, or implausible.
    pub fn required_air_c(&self) -> Result<f64> {
        let locale = self.drafts.locale();
        let label = say!(locale, "app-label-air");
        let typed = self.drafts.number(Self::AIR, &label, Unit::Celsius, Self::AIR_RANGE_C)?;
        typed.or_else(|| self.air_of_today_c()).ok_or_else(|| Refusal::of(Self::AIR, say!(locale, "app-air-empty")))
    }

    /// The wind: as a meter has it, else by its number; none where nobody said it. It is another one on each flight, so that no flight
    /// before tells it.
    ///
    /// # Errors
    /// No number, or implausible.
    pub fn wind(&self) -> Result<Option<Wind>> {
        let label = say!(self.drafts.locale(), "card-wind-measured");
        let measured = self.drafts.number(Self::WIND, &label, Unit::MetrePerSecond, Self::WIND_RANGE_M_S)?;
        let force = || self.drafts.text(Self::FORCE)?.parse().ok().map(Wind::Beaufort);
        Ok(measured.map(Wind::MetresPerSecond).or_else(force))
    }

    /// How long the packs fly until their reserve, where that is known.
    pub fn endurance(&self, packs: &[String], air_c: f64) -> Option<Endurance> {
        endurance(self.facts, self.check, packs, air_c)
    }

    /// How long the whole pack flies until its reserve, seconds, where that is known and less than the check's own minutes.
    ///
    /// Of what is in them when they are full: a run is no better evidence for being flown on less.
    pub fn allowed_s(&self, packs: &[String], air_c: f64) -> Option<i64> {
        let allowed = self.endurance(packs, air_c)?.full_minutes;
        (allowed < self.fly.minutes).then_some((allowed * 60.0).floor() as i64)
    }

    /// The minutes where nobody changes them.
    pub fn planned_minutes(&self, endurance: Option<&Endurance>) -> f64 {
        planned_minutes(self.fly, endurance)
    }

    /// The minutes: typed, else planned.
    ///
    /// # Errors
    /// No number, or implausible.
    pub fn minutes(&self, packs: &[String], air_c: f64) -> Result<f64> {
        let label = say!(self.drafts.locale(), "app-label-minutes");
        let typed = self.drafts.number(Self::MINUTES, &label, Unit::Minute, Self::MINUTES_RANGE)?;
        Ok(typed.unwrap_or_else(|| self.planned_minutes(self.endurance(packs, air_c).as_ref())))
    }

    /// The spotter's name: as typed, else that of the last flight, if it was today.
    pub fn spotter(&self) -> Option<&'a str> {
        let today = || flown_today(self.ledger(), self.now).and_then(|flight| flight.spotter.as_deref());
        self.drafts.text(Self::SPOTTER).or_else(today).filter(|name| *name != ALONE)
    }

    /// Who gets the phone.
    ///
    /// # Errors
    /// Nobody is named, and the check wants a second person; or it is the pilot or the builder.
    pub fn required_spotter(&self) -> Result<String> {
        let locale = self.drafts.locale();
        match (self.spotter(), self.check.witness) {
            (Some(name), _) => {
                let aircraft = &self.ledger().aircraft;
                of_another(self.drafts, aircraft, Self::SPOTTER, name).map(str::to_owned)
            }
            (None, true) => Err(Refusal::of(Self::SPOTTER, say!(locale, "app-spotter-empty"))),
            (None, false) => Ok(say!(locale, "app-the-pilot")),
        }
    }
}

/// The last flight, where it was today.
pub fn flown_today<'a>(ledger: &'a Ledger, now: &Moment) -> Option<&'a Flight> {
    let last = ledger.flights.iter().rev().find(|flight| flight.started.is_some())?;
    let day = last.started.as_ref().map(|at| at.wall.date_naive());
    (day == Some(now.wall.date_naive())).then_some(last)
}

/// The air of the last flight, degrees Celsius: today's is most likely near it.
pub fn last_air_c(ledger: &Ledger) -> f64 {
    ledger.flights.last().map_or(USUAL_AIR_C, |flight| flight.air_c)
}
