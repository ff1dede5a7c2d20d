use super::packs::{pack_readings, resistance_mohm};
use super::{Computed, Facts, Figure, Lacking, Result, Row, outcome, worst};
use crate::engineering::Grade;
use crate::engineering::pack::{RETIRE_RESISTANCE_RATIO, ResistanceReading, ResistanceTrend, resistance_trend};
use crate::record::{Outcome, Thing, ThingKind, Unit};
use crate::view::Picture;
use crate::view::chart::{Curve, curve};

/// Motor runs after which a reading is too old to say how a pack is (common practice, no source).
const READING_AGES_RUNS: u32 = 10;
/// Resistance over new that is watched (common practice, no source).
const WATCH_RATIO: f64 = 1.5;

/// A pack with the resistances that were read on it.
struct Life<'a> {
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
        title: crate::view::counted(unread, "pack was never read", "packs were never read"),
        word: "Not known".to_owned(),
        detail: "add a pack reading with its resistance".to_owned(),
        outcome: Outcome::Caution,
    }));
    let rows: Vec<Row> = rows.collect();
    let figures = lives.iter().map(|life| {
        let note =
            format!("{:.1} mΩ now, {:.1} mΩ when new; retired at 200 %", life.last_ohm() * 1e3, life.new_ohm * 1e3);
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
        remarks: vec![
            "Straight line through the readings of one pack, all at about the same charge and temperature. Cold reads high, \
             and wear is no straight line near the end. Retired at double the resistance of the new pack (common practice, \
             no source)."
                .to_owned(),
        ],
    })
}

fn life<'a>(facts: Facts<'a>, pack: &'a Thing) -> Option<Life<'a>> {
    let things = pack_readings(facts, &pack.name);
    let of = |thing: &&Thing| {
        let pack_ohm = resistance_mohm(pack, thing)? / 1_000.0;
        Some(ResistanceReading { cycles: thing.number("flights")?, pack_ohm })
    };
    let readings: Vec<ResistanceReading> = things.iter().filter_map(of).collect();
    let first = readings.first()?;
    let newest = things.iter().filter(|thing| of(thing).is_some()).max_by_key(|thing| facts.described_at(thing))?;
    Some(Life {
        pack,
        // Without its papers a pack was as good as new at its first reading, and no better.
        new_ohm: pack.number("new_mohm").map_or(first.pack_ohm, |mohm| mohm / 1_000.0),
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
        let now = format!("{}: {percent:.0} % of its resistance when new", self.pack.name);
        match (self.doubled_at(), self.readings.len()) {
            (Some(flights), _) => format!("{now}; at this rate doubled after {flights:.0} flights"),
            (None, count) if count < 3 => {
                format!("{now}; {} more for a trend", crate::view::counted(3 - count, "reading", "readings"))
            }
            _ => format!("{now}, with no growth that stands out of its readings"),
        }
    }

    fn row(&self) -> Row {
        let old = self.age_runs >= READING_AGES_RUNS;
        let detail = match &self.trend {
            Some(trend) => format!(
                "{:+.2} ± {:.2} mΩ for ten flights, from {}",
                trend.ohm_per_cycle * 1e4,
                trend.half_width_ohm_per_cycle * 1e4,
                crate::view::counted(self.readings.len(), "reading", "readings")
            ),
            None => crate::view::counted(self.readings.len(), "reading", "readings"),
        };
        let (word, outcome_of_age) = match old {
            true => (format!("Read {} motor runs ago: read it again", self.age_runs), Outcome::Caution),
            false => ("Read lately".to_owned(), Outcome::Pass),
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
            .map(|reading| (reading.cycles, reading.pack_ohm * 1e3, format!("{:.1} mΩ", reading.pack_ohm * 1e3)))
            .collect();
        let limit_mohm = self.new_ohm * RETIRE_RESISTANCE_RATIO * 1e3;
        curve(&Curve {
            points: &[(0.0, line(0.0) * 1e3), (end, line(end) * 1e3)],
            marks: &marks,
            limit: Some((limit_mohm, format!("retired at {limit_mohm:.1} mΩ"))),
            ends: ("new".to_owned(), format!("{end:.0} flights")),
            spoken: self.sentence(),
        })
    }
}
