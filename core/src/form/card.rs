//! The form of a flight card, and what a card begins with: what was typed, else what the last flight of the day and the packs suggest.

use super::person::{ALONE, of_another};
use super::{Drafts, Refusal, Result};
use crate::computed::{Endurance, Facts, endurance, planned_minutes};
use crate::field::Flight;
use crate::locale::say;
use crate::plan::{Check, Fly};
use crate::readiness::{Charge, Ledger, PackStand};
use crate::record::{Moment, ThingKind};
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
    /// The field of the pack.
    pub const PACK: &'static str = "pack";
    /// The field of the air's temperature.
    pub const AIR: &'static str = "air";
    /// The field of the planned minutes.
    pub const MINUTES: &'static str = "minutes";
    /// The field of the spotter's name.
    pub const SPOTTER: &'static str = "spotter";
    /// Plausible air, degrees Celsius, inclusive.
    const AIR_RANGE_C: (f64, f64) = (-30.0, 55.0);
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

    /// The pack: the one that was touched, else the charged one that has rested longest, else the only one there is.
    pub fn pack(&self) -> Option<String> {
        if let Some(chosen) = self.drafts.text(Self::PACK) {
            return Some(chosen.to_owned());
        }
        let packs: Vec<_> = self.ledger().packs().into_iter().filter(PackStand::may_fly).collect();
        let only = packs.len() == 1;
        let first = packs.into_iter().next();
        first.filter(|pack| only || matches!(pack.charge, Charge::Charged { .. })).map(|pack| pack.name)
    }

    /// The pack, which has to be there.
    ///
    /// # Errors
    /// None is chosen, or it is no longer known.
    pub fn required_pack(&self) -> Result<String> {
        let locale = self.drafts.locale();
        let pack = self.pack().ok_or_else(|| Refusal::of(Self::PACK, say!(locale, "app-pack-empty")))?;
        if let Some(state) = self.ledger().damaged.get(&pack) {
            let state = locale.inside(&state.word(locale));
            return Err(Refusal::of(Self::PACK, say!(locale, "app-pack-retired", pack = pack, state = state)));
        }
        match self.ledger().aircraft.thing(ThingKind::Pack, &pack) {
            Some(_) => Ok(pack),
            None => Err(Refusal::of(Self::PACK, say!(locale, "app-pack-unknown", pack = pack))),
        }
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

    /// How long the pack flies until its reserve, where that is known.
    pub fn endurance(&self, pack: Option<&str>, air_c: f64) -> Option<Endurance> {
        endurance(self.facts, self.check, pack, air_c)
    }

    /// How long the whole pack flies until its reserve, seconds, where that is known and less than the check's own minutes.
    pub fn allowed_s(&self, pack: &str, air_c: f64) -> Option<i64> {
        let allowed = self.endurance(Some(pack), air_c)?.minutes;
        (allowed < self.fly.minutes).then_some((allowed * 60.0).floor() as i64)
    }

    /// The minutes where nobody changes them.
    pub fn planned_minutes(&self, endurance: Option<&Endurance>) -> f64 {
        planned_minutes(self.fly, endurance)
    }

    /// The minutes as they were typed, as far as they can be read.
    pub fn typed_minutes(&self) -> Option<f64> {
        self.typed(Self::MINUTES, Unit::Minute)
    }

    /// The minutes: typed, else planned.
    ///
    /// # Errors
    /// No number, or implausible.
    pub fn minutes(&self, pack: &str, air_c: f64) -> Result<f64> {
        let label = say!(self.drafts.locale(), "app-label-minutes");
        let typed = self.drafts.number(Self::MINUTES, &label, Unit::Minute, Self::MINUTES_RANGE)?;
        Ok(typed.unwrap_or_else(|| self.planned_minutes(self.endurance(Some(pack), air_c).as_ref())))
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
