//! The form of what is jotted after landing.

use serde::{Deserialize, Serialize};

use super::drafts::in_seconds;
use super::{Drafts, Refusal, Result};
use crate::aircraft::Aircraft;
use crate::field::{Doubt, Flight, Landing, Timed, doubts, used_range_mah, wanted_places};
use crate::locale::say;
use crate::plan::{Motion, Place, Plan};
use crate::record::{Judgement, Moment, Odd, Reading};
use crate::unit::Unit;

/// What the pilot says of a run with one touch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Said {
    /// As it should be.
    AsItShouldBe,
    /// Not so.
    NotSo,
    /// Called off.
    CalledOff,
}

/// How long the motor was on, by whom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum HowLong {
    /// As the pilot typed it.
    AsTyped,
    /// As the phone counted it, which was doubted.
    AsCounted,
}

/// Plausible times with the motor on, minutes: from a knock-off at once to twice the longest that a card plans.
const FLOWN_RANGE_MIN: (f64, f64) = (0.0, 60.0);

/// Where a temperature starts at a place that was never read, degrees Celsius.
const FIRST_C: f64 = 40.0;
/// Where the charge starts while nothing tells of any, milliampere hours.
const FIRST_MAH: f64 = 1_000.0;

/// A landing that is jotted down. Once more keeps what was jotted before: a second reading of a place tells how it cools.
#[derive(Clone, Copy)]
pub struct LandingForm<'a> {
    drafts: Drafts<'a>,
    plan: &'a Plan,
    aircraft: &'a Aircraft,
    flight: &'a Flight,
}

impl<'a> LandingForm<'a> {
    /// The field of the charge used.
    pub const USED: &'static str = "used";
    /// The field of how long the motor was on.
    pub const FLOWN: &'static str = "flown";
    /// The field that is filled once the pilot says that the time is not right, and not yet what it was.
    pub const TIME_WRONG: &'static str = "time-wrong";
    /// The field of anything else.
    pub const NOTES: &'static str = "notes";
    /// The field of what was not so, or why a run was called off.
    pub const WHY: &'static str = "why";
    /// The field that is filled once the pilot says that a run was not as it should be, and not yet what it was.
    pub const NOT_SO: &'static str = "not-so";
    /// The field of why a reading past its stop was a slip.
    pub const SLIP: &'static str = "slip";
    /// The field of the place that is read once more.
    pub const READ_AGAIN: &'static str = "again";
    /// The field of how long after touchdown the readings were taken that are entered next, of a run that no phone timed.
    pub const READ_AFTER: &'static str = "read-after";
    /// How far one touch moves the charge used, milliampere hours.
    pub const USED_STEP_MAH: f64 = 50.0;
    /// How long after touchdown a paper may say, minutes.
    const READ_AFTER_RANGE_MIN: (f64, f64) = (0.0, 120.0);
    const TEMPERATURE: &'static str = "temp:";

    /// The form of a flight that is down.
    pub fn new(drafts: Drafts<'a>, plan: &'a Plan, aircraft: &'a Aircraft, flight: &'a Flight) -> Self {
        LandingForm { drafts, plan, aircraft, flight }
    }

    /// The field of a place's temperature.
    pub fn temperature_field(place: &str) -> String {
        format!("{}{place}", Self::TEMPERATURE)
    }

    /// Whether a field is a temperature's.
    pub fn is_temperature(field: &str) -> bool {
        field.starts_with(Self::TEMPERATURE)
    }

    /// The field that keeps how long after touchdown, in seconds, a temperature's field was filled.
    pub fn after_field(temperature_field: &str) -> String {
        format!("after:{temperature_field}")
    }

    /// How long after touchdown the readings were taken, as a paper says, minutes.
    ///
    /// # Errors
    /// No number, or longer than anything is still warm.
    pub fn read_after_min(&self, label: &str) -> Result<Option<f64>> {
        self.drafts.number(Self::READ_AFTER, label, Unit::Minute, Self::READ_AFTER_RANGE_MIN)
    }

    /// Whether a number that is typed for it cannot be, as its field says.
    pub fn is_refused(&self) -> bool {
        let temperatures = self.plan.places.iter().any(|place| self.temperature_c(place, &place.title).is_err());
        temperatures || self.typed_used_mah("").is_err() || self.read_after_min("").is_err()
    }

    /// How long after touchdown a reading that is entered now was taken, seconds: as the paper says, else by the clock.
    pub fn after_s(&self, now: &Moment) -> i64 {
        let by_clock = || self.flight.down.as_ref().map_or(0, |(down, _)| now.elapsed_ms_since(down) / 1_000);
        let on_paper = self.flight.is_without_phone().then(|| self.read_after_min("").ok().flatten()).flatten();
        on_paper.map_or_else(by_clock, |minutes| (minutes * 60.0).round() as i64)
    }

    /// The field of how far the temperatures that are offered for a place are moved.
    pub fn shift_field(place: &str) -> String {
        format!("shift:{place}")
    }

    /// How far they are moved, in whole degrees of the scale that the person reads.
    pub fn shift(&self, place: &str) -> i32 {
        self.drafts.text(&Self::shift_field(place)).and_then(|text| text.parse().ok()).unwrap_or(0)
    }

    /// The place whose temperature is asked for now: one that the pilot wants to read again, else the first that the check wants and
    /// this aircraft has, and that was not read yet.
    pub fn place_to_read(&self) -> Option<&'a Place> {
        if let Some(again) = self.drafts.text(Self::READ_AGAIN) {
            return self.plan.place(again);
        }
        let fly = self.plan.check(&self.flight.check).and_then(|(_, check)| check.fly())?;
        let read = |place: &&Place| {
            let typed = self.drafts.text(&Self::temperature_field(&place.id)).is_some();
            typed || self.flight.readings(&place.id).next().is_some()
        };
        wanted_places(self.plan, self.aircraft, fly).find(|place| !read(place))
    }

    /// A place's temperature as typed, degrees Celsius.
    ///
    /// # Errors
    /// No number, or of no part of an aircraft.
    pub fn temperature_c(&self, place: &Place, label: &str) -> Result<Option<f64>> {
        let field = Self::temperature_field(&place.id);
        self.drafts.number(&field, label, Unit::Celsius, Landing::TEMPERATURE_RANGE_C)
    }

    /// The last reading of a place: of this landing, else the first of the last flight on which it was read. Degrees Celsius.
    pub fn last_c(&self, flights: &[Flight], place: &str) -> Option<f64> {
        let of_earlier = || {
            let earlier = flights.iter().rev().filter(|other| other.card != self.flight.card);
            earlier.filter_map(|other| other.readings(place).next()).map(|reading| reading.celsius).next()
        };
        self.flight.readings(place).next_back().map(|reading| reading.celsius).or_else(of_earlier)
    }

    /// Where a place's temperature starts, degrees Celsius.
    pub fn temperature_start_c(&self, flights: &[Flight], place: &str) -> f64 {
        self.last_c(flights, place).unwrap_or(FIRST_C)
    }

    /// Where the charge used starts, milliampere hours, to a whole step: as jotted, else as predicted, else as on the last flight.
    pub fn used_start_mah(&self, flights: &[Flight]) -> f64 {
        let jotted = self.flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
        let predicted = self.flight.expected().map(|expected| expected.used_mah);
        let last = || flights.iter().rev().find_map(|flight| flight.landing.as_ref()?.pack_used_mah);
        let start_mah = jotted.or(predicted).or_else(last).unwrap_or(FIRST_MAH);
        (start_mah / Self::USED_STEP_MAH).round() * Self::USED_STEP_MAH
    }

    /// All temperatures, those that were jotted before first.
    ///
    /// # Errors
    /// As [`LandingForm::temperature_c`].
    pub fn temperatures(&self) -> Result<Vec<Reading>> {
        let before = self.flight.landing.as_ref();
        let mut temperatures = before.map(|landing| landing.temperatures.clone()).unwrap_or_default();
        for place in &self.plan.places {
            let label = say!(self.drafts.locale(), "app-label-temperature", place = place.title);
            if let Some(celsius) = self.temperature_c(place, &label)? {
                let after = self.drafts.text(&Self::after_field(&Self::temperature_field(&place.id)));
                let after_s = after.and_then(|text| text.parse().ok()).unwrap_or(0);
                temperatures.push(Reading { place: place.id.clone(), celsius, after_s });
            }
        }
        Ok(temperatures)
    }

    /// The charge used as typed, milliampere hours.
    ///
    /// # Errors
    /// No number, or more than the pack can give.
    pub fn typed_used_mah(&self, label: &str) -> Result<Option<f64>> {
        let range = used_range_mah(self.aircraft, self.flight);
        self.drafts.number(Self::USED, label, Unit::MilliampereHour, range)
    }

    /// The charge used, as typed or as jotted before, milliampere hours.
    ///
    /// # Errors
    /// As [`LandingForm::typed_used_mah`].
    pub fn used_mah(&self) -> Result<Option<f64>> {
        let typed = self.typed_used_mah(&say!(self.drafts.locale(), "app-label-used"))?;
        Ok(typed.or(self.flight.landing.as_ref().and_then(|landing| landing.pack_used_mah)))
    }

    /// Whether the pilot has to say in so many words how the run was.
    ///
    /// # Errors
    /// As [`LandingForm::temperature_c`].
    pub fn asks_how_it_was(&self) -> Result<bool> {
        let before = self.flight.landing.as_ref().map(|landing| &landing.judgement);
        let was_well = matches!(before, None | Some(Judgement::AsItShouldBe | Judgement::NotAsked));
        let says_not_so = self.drafts.text(Self::NOT_SO).is_some();
        Ok(says_not_so || !was_well || self.flight.has_against_it(self.plan, &self.temperatures()?))
    }

    /// The judgement where the last reading records the landing: as it should be, or what was said before, if nothing speaks against it.
    ///
    /// # Errors
    /// As [`LandingForm::temperature_c`].
    pub fn judgement_by_the_way(&self) -> Result<Judgement> {
        let before = self.flight.landing.as_ref().map(|landing| landing.judgement.clone());
        match before {
            Some(said) if said != Judgement::Open => Ok(said),
            _ if self.asks_how_it_was()? => Ok(Judgement::Open),
            _ => Ok(Judgement::AsItShouldBe),
        }
    }

    /// The judgement with its reason.
    ///
    /// # Errors
    /// The reason is not there.
    pub fn judgement(&self, said: Said) -> Result<Judgement> {
        let why = |label: String| self.drafts.required(Self::WHY, &label).map(str::to_owned);
        let locale = self.drafts.locale();
        Ok(match said {
            Said::AsItShouldBe => Judgement::AsItShouldBe,
            Said::NotSo => Judgement::NotSo { why: why(say!(locale, "app-label-not-so"))? },
            Said::CalledOff => Judgement::CalledOff { why: why(say!(locale, "app-label-called-off"))? },
        })
    }

    /// Why a reading past its stop was a slip.
    ///
    /// # Errors
    /// It is not there.
    pub fn slip(&self) -> Result<String> {
        self.drafts.required(Self::SLIP, &say!(self.drafts.locale(), "app-label-slip")).map(str::to_owned)
    }

    /// What is odd about what was typed now: what was jotted before was asked about then.
    ///
    /// # Errors
    /// As [`LandingForm::temperatures`].
    pub fn doubts(&self) -> Result<Vec<Doubt>> {
        let used = self.typed_used_mah(&say!(self.drafts.locale(), "app-label-used"))?;
        let before = self.flight.landing.as_ref().map_or(0, |landing| landing.temperatures.len());
        let temperatures = self.temperatures()?;
        let typed = temperatures.get(before..).unwrap_or_default();
        let fly = self.plan.check(&self.flight.check).and_then(|(_, check)| check.fly());
        // Of a run that the plan no longer knows, nothing is known of how it was flown.
        let motion = fly.map_or(Motion::Run, |fly| fly.motion);
        Ok(doubts(self.aircraft, self.flight, motion, used, typed))
    }

    /// The field that says of a doubt that it is so.
    pub fn so_field(doubt: &Doubt) -> String {
        format!("so:{}", doubt.key())
    }

    /// Whether the person said that it is so.
    pub fn is_so(&self, doubt: &Doubt) -> bool {
        self.drafts.text(&Self::so_field(doubt)).is_some()
    }

    /// What is odd and is so, what was said before among it.
    ///
    /// # Errors
    /// Something is odd, and nobody said yet that it is so.
    pub fn confirmed(&self, words: impl Fn(&Doubt) -> String) -> Result<Vec<Odd>> {
        let doubts = self.doubts()?;
        if let Some(open) = doubts.iter().find(|doubt| !self.is_so(doubt)) {
            return Err(Refusal::new(say!(self.drafts.locale(), "app-landing-doubt", words = words(open))));
        }
        let before = self.flight.landing.as_ref().map(|landing| landing.confirmed.clone());
        let mut confirmed = before.unwrap_or_default();
        confirmed.extend(doubts.iter().map(Doubt::kind));
        confirmed.sort();
        confirmed.dedup();
        Ok(confirmed)
    }

    /// How long the motor was on as typed, minutes.
    ///
    /// # Errors
    /// No number, or longer than any pack flies.
    pub fn flown_min(&self, label: &str) -> Result<Option<f64>> {
        self.drafts.number(Self::FLOWN, label, Unit::Minute, FLOWN_RANGE_MIN)
    }

    /// How long the motor was on, seconds.
    ///
    /// # Errors
    /// As [`LandingForm::flown_min`], and where nothing was typed.
    pub fn required_flown_s(&self) -> Result<i64> {
        let locale = self.drafts.locale();
        let minutes = self.flown_min(&say!(locale, "landing-time"))?;
        in_seconds(minutes, Self::FLOWN, say!(locale, "landing-time-first"))
    }

    /// How long the phone counted, seconds, where a pack can have flown as long; none where nothing was counted.
    pub fn may_be_as_counted_s(&self) -> Option<i64> {
        let counted_s = self.flight.counted_ms? / 1_000;
        (self.flight.timed == Timed::Doubtful && counted_s as f64 <= FLOWN_RANGE_MIN.1 * 60.0).then_some(counted_s)
    }

    /// How long the phone counted, which was doubted and is so, seconds.
    ///
    /// # Errors
    /// Nothing was counted, or longer than any pack flies.
    pub fn counted_s(&self) -> Result<i64> {
        let refusal = || Refusal::of(Self::FLOWN, say!(self.drafts.locale(), "landing-time-first"));
        self.may_be_as_counted_s().ok_or_else(refusal)
    }

    /// Whether the pilot says that the time is not right.
    pub fn is_time_wrong(&self) -> bool {
        self.drafts.text(Self::TIME_WRONG).is_some()
    }

    /// Anything else, as typed or as jotted before.
    pub fn notes(&self) -> Option<&'a str> {
        let before = self.flight.landing.as_ref().and_then(|landing| landing.notes.as_deref());
        self.drafts.text(Self::NOTES).or(before)
    }
}
