use super::packs::{pack_readings, resistance_mohm};
use super::{Computed, Facts, Figure, Lacking, Result, Row, outcome, worst};
use crate::drawing::Picture;
use crate::drawing::{Curve, curve};
use crate::engineering::Grade;
use crate::engineering::pack::{RETIRE_RESISTANCE_RATIO, ResistanceReading, ResistanceTrend, resistance_trend};
use crate::locale::{Locale, say};
use crate::record::{Outcome, Thing, ThingKind, ThingNumber};
use crate::unit::Unit;

/// Motor runs after which a reading is too old to say how a pack is (common practice, no source).
const READING_AGES_RUNS: u32 = 10;
/// Resistance over new that is watched (common practice, no source).
const WATCH_RATIO: f64 = 1.5;

/// A pack with the resistances that were read on it.
struct Life<'a> {
    locale: Locale,
    pack: &'a Thing,
    readings: Vec<ResistanceReading>,
    new_ohm: f64,
    trend: Option<ResistanceTrend>,
    /// Motor runs since the last reading.
    age_runs: u32,
}

/// How each pack's resistance has grown, and when it will have doubled.
pub(super) fn resistance(facts: Facts<'_>) -> Result<Computed> {
    let packs = facts.some_things(ThingKind::Pack)?;
    let lives: Vec<Life<'_>> = packs.into_iter().filter_map(|pack| life(facts, pack)).collect();
    let Some(worst_of) = lives.iter().max_by(|a, b| a.ratio().total_cmp(&b.ratio())) else {
        return Err(Lacking::Things(ThingKind::PackReading));
    };
    let unread = facts.things(ThingKind::Pack).len() - lives.len();
    let rows = lives.iter().map(Life::row).chain((unread > 0).then(|| Row {
        title: say!(facts.locale, "computed-trend-unread", count = unread),
        word: say!(facts.locale, "computed-trend-unknown"),
        detail: say!(facts.locale, "computed-trend-unknown-note"),
        outcome: Outcome::Caution,
    }));
    let rows: Vec<Row> = rows.collect();
    let figures = lives.iter().map(|life| {
        let note = say!(
            facts.locale,
            "computed-trend-note",
            now = facts.locale.number(life.last_ohm() * 1e3, 1),
            new = facts.locale.number(life.new_ohm * 1e3, 1)
        );
        Figure::judged(life.pack.name.clone(), life.ratio() * 100.0, 0, Unit::Percent, note, life.grade())
            .against(RETIRE_RESISTANCE_RATIO * 100.0)
    });
    let of_rows = rows.iter().map(|row| row.outcome).max().unwrap_or(Outcome::Pass);
    Ok(Computed {
        outcome: outcome(worst(lives.iter().map(Life::grade))).max(of_rows),
        summary: worst_of.sentence(),
        figures: figures.collect(),
        picture: Some(worst_of.picture()),
        rows,
        remarks: vec![say!(facts.locale, "computed-trend-basis")],
    })
}

fn life<'a>(facts: Facts<'a>, pack: &'a Thing) -> Option<Life<'a>> {
    let things = pack_readings(facts, &pack.name);
    let of = |thing: &&Thing| {
        let pack_ohm = resistance_mohm(pack, thing)? / 1_000.0;
        Some(ResistanceReading { cycles: thing.number(ThingNumber::Flights)?, pack_ohm })
    };
    let readings: Vec<ResistanceReading> = things.iter().filter_map(of).collect();
    let first = readings.first()?;
    let newest = things.iter().filter(|thing| of(thing).is_some()).max_by_key(|thing| facts.described_at(thing))?;
    Some(Life {
        locale: facts.locale,
        pack,
        // Without its papers a pack was as good as new at its first reading, and no better.
        new_ohm: pack.number(ThingNumber::NewMohm).map_or(first.pack_ohm, |mohm| mohm / 1_000.0),
        trend: resistance_trend(&readings).ok(),
        age_runs: facts.runs_since(newest),
        readings,
    })
}

impl Life<'_> {
    fn last_ohm(&self) -> f64 {
        self.readings.last().map_or(self.new_ohm, |reading| reading.pack_ohm)
    }

    /// Last reading over the new pack, or over the best of its first readings where that was better still.
    fn ratio(&self) -> f64 {
        let by_papers = self.last_ohm() / self.new_ohm;
        self.trend.as_ref().map_or(by_papers, |trend| trend.ratio.max(by_papers))
    }

    fn grade(&self) -> Grade {
        match self.ratio() {
            ratio if ratio >= RETIRE_RESISTANCE_RATIO => Grade::Stop,
            ratio if ratio >= WATCH_RATIO => Grade::Caution,
            _ => Grade::Ok,
        }
    }

    fn doubled_at(&self) -> Option<f64> {
        self.trend.as_ref()?.doubled_at_cycles
    }

    fn sentence(&self) -> String {
        let percent = self.ratio() * 100.0;
        let now =
            say!(self.locale, "computed-trend-now", pack = self.pack.name, percent = self.locale.number(percent, 0));
        match (self.doubled_at(), self.readings.len()) {
            (Some(flights), _) => {
                say!(self.locale, "computed-trend-doubled", now = now, flights = self.locale.number(flights, 0))
            }
            (None, count) if count < 3 => {
                say!(self.locale, "computed-trend-more", now = now, count = 3 - count)
            }
            _ => say!(self.locale, "computed-trend-flat", now = now),
        }
    }

    fn row(&self) -> Row {
        let old = self.age_runs >= READING_AGES_RUNS;
        let detail = match &self.trend {
            Some(trend) => say!(
                self.locale,
                "computed-trend-slope",
                slope = signed(self.locale, trend.ohm_per_cycle * 1e4),
                half = self.locale.number(trend.half_width_ohm_per_cycle * 1e4, 2),
                readings = say!(self.locale, "computed-trend-readings", count = self.readings.len())
            ),
            None => say!(self.locale, "computed-trend-readings", count = self.readings.len()),
        };
        let (word, outcome_of_age) = match old {
            true => (say!(self.locale, "computed-trend-old", runs = self.age_runs), Outcome::Caution),
            false => (say!(self.locale, "computed-trend-lately"), Outcome::Pass),
        };
        Row { title: self.pack.name.clone(), word, detail, outcome: outcome_of_age.max(outcome(self.grade())) }
    }

    /// Readings over flights with the line through them, and twice the new resistance as the limit.
    fn picture(&self) -> Picture {
        let last_flights = self.readings.last().map_or(1.0, |reading| reading.cycles).max(1.0);
        let end =
            self.doubled_at().map_or(last_flights * 1.5, |doubled| doubled.clamp(last_flights, last_flights * 3.0));
        let line = |flights: f64| match &self.trend {
            Some(trend) => trend.new_ohm + trend.ohm_per_cycle * flights,
            None => self.last_ohm(),
        };
        let marks: Vec<(f64, f64, String)> = self
            .readings
            .iter()
            .map(|reading| {
                (
                    reading.cycles,
                    reading.pack_ohm * 1e3,
                    say!(
                        self.locale,
                        "computed-milliohms",
                        resistance = self.locale.number(reading.pack_ohm * 1e3, 1)
                    ),
                )
            })
            .collect();
        let limit_mohm = self.new_ohm * RETIRE_RESISTANCE_RATIO * 1e3;
        curve(&Curve {
            points: &[(0.0, line(0.0) * 1e3), (end, line(end) * 1e3)],
            marks: &marks,
            limit: Some((
                limit_mohm,
                say!(self.locale, "computed-trend-retired", limit = self.locale.number(limit_mohm, 1)),
            )),
            ends: (
                say!(self.locale, "computed-trend-new"),
                say!(self.locale, "computed-trend-flights", flights = self.locale.number(end, 0)),
            ),
            spoken: self.sentence(),
        })
    }
}

/// A number that says which way it goes.
fn signed(locale: Locale, value: f64) -> String {
    let number = locale.number(value, 2);
    if value.is_sign_negative() { number } else { format!("+{number}") }
}
