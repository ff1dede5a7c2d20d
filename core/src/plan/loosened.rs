//! What another plan asks less of: the part of a difference that can hurt. It is told by itself, and for as long as it is in force.

use super::check::{Check, CheckKind, Fly, Holds, Limit, Measure, Point};
use super::model::{Place, Plan, Stage};
use super::when::When;
use crate::locale::{Locale, say};
use crate::record::Outcome;

/// One item of a plan of which another asks less.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loosened {
    /// Its title, as the plan has it that asks more.
    pub title: String,
    /// Its id.
    pub id: String,
    /// In what.
    pub ways: Vec<Looser>,
}

/// A way in which a plan asks less.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Looser {
    /// It is no longer there.
    Gone,
    /// It is no longer mandatory, or no gate waits for it.
    Optional,
    /// It asks for something else: a look for a reading, for example.
    AnotherKind,
    /// A limit lies further out, or is gone, or comes from something else.
    Limit,
    /// What is not right is a caution where it was a stop.
    FailsAsCaution,
    /// It wants no second person, or goes on without.
    Witness,
    /// Evidence holds longer.
    HoldsLonger,
    /// Less ends its evidence.
    RestsOnLess,
    /// It is for fewer aircraft.
    FewerAircraft,
    /// Not before each flight, or not on the run or the rung that it belonged to.
    Order,
    /// A shorter run.
    Shorter,
    /// Fewer temperatures, charge or reserve not asked, or not held against what else is on file.
    ReadsLess,
    /// Fewer reasons to call off.
    FewerCallOffs,
    /// A caution is not shown.
    FewerCautions,
    /// A caution proves a fix.
    CautionProves,
}

impl Looser {
    /// In words.
    pub fn words(self, locale: Locale) -> String {
        match self {
            Looser::Gone => say!(locale, "looser-gone"),
            Looser::Optional => say!(locale, "looser-optional"),
            Looser::AnotherKind => say!(locale, "looser-another-kind"),
            Looser::Limit => say!(locale, "looser-limit"),
            Looser::FailsAsCaution => say!(locale, "looser-fails-as-caution"),
            Looser::Witness => say!(locale, "looser-witness"),
            Looser::HoldsLonger => say!(locale, "looser-holds-longer"),
            Looser::RestsOnLess => say!(locale, "looser-rests-on-less"),
            Looser::FewerAircraft => say!(locale, "looser-fewer-aircraft"),
            Looser::Order => say!(locale, "looser-order"),
            Looser::Shorter => say!(locale, "looser-shorter"),
            Looser::ReadsLess => say!(locale, "looser-reads-less"),
            Looser::FewerCallOffs => say!(locale, "looser-fewer-call-offs"),
            Looser::FewerCautions => say!(locale, "looser-fewer-cautions"),
            Looser::CautionProves => say!(locale, "looser-caution-proves"),
        }
    }
}

impl Plan {
    /// What `new` asks less of than this plan, in this plan's order.
    pub fn loosened_by(&self, new: &Plan) -> Vec<Loosened> {
        let item = |id: &str, title: &str, ways: Vec<Looser>| {
            (!ways.is_empty()).then(|| Loosened { id: id.to_owned(), title: title.to_owned(), ways })
        };
        let places =
            self.places.iter().filter_map(|was| item(&was.id, &was.title, of_place(was, new.place(&was.id))));
        let stages = self.stages.iter().flat_map(|was| {
            let stage = item(&was.id, &was.title, of_stage(was, new.stage(&was.id)));
            let checks = was.checks.iter().filter_map(|check| {
                item(&check.id, &check.title, of_check(check, new.check(&check.id).map(|(_, check)| check)))
            });
            stage.into_iter().chain(checks)
        });
        places.chain(stages).collect()
    }
}

/// Those of a list for which something holds.
fn ways<const N: usize>(ways: [(bool, Looser); N]) -> Vec<Looser> {
    ways.into_iter().filter(|(is_so, _)| *is_so).map(|(_, way)| way).collect()
}

fn of_place(was: &Place, now: Option<&Place>) -> Vec<Looser> {
    let Some(now) = now else { return vec![Looser::Gone] };
    let is_higher = now.stop_above_c > was.stop_above_c || now.caution_above_c > was.caution_above_c;
    ways([(is_higher, Looser::Limit), (is_for_fewer(&was.when, &now.when), Looser::FewerAircraft)])
}

/// A stage without its gate is told; one that is gone with its checks is told by them too.
fn of_stage(was: &Stage, now: Option<&Stage>) -> Vec<Looser> {
    let Some(now) = now else { return vec![Looser::Gone] };
    let waits_for_less = lacks_some(&was.after, &now.after);
    ways([
        (was.gate.is_some() && now.gate.is_none(), Looser::Optional),
        (waits_for_less, Looser::Order),
        (lacks_some(&was.cautions, &now.cautions), Looser::FewerCautions),
    ])
}

fn of_check(was: &Check, now: Option<&Check>) -> Vec<Looser> {
    // What is not mandatory may be left out: nobody is asked less by its going.
    let Some(now) = now else { return ways([(was.mandatory, Looser::Gone)]) };
    let Check {
        // Words, and what it is known by.
        id: _,
        title: _,
        instruction: _,
        why: _,
        judged: _,
        chunk: _,
        basis: _,
        kind,
        fail,
        mandatory,
        cautions,
        witness,
        point,
        caution_proves,
        called_by,
        rests_on,
        holds,
        when,
        before_flights_from,
        read_on,
        rung_above,
    } = now;
    let is_without = |was: &Option<String>, now: &Option<String>| was.is_some() && was != now;
    let goes_on_alone = was.witness && (!witness || (was.point, *point) == (Point::Hold, Point::Witness));
    // What recurs before each flight is part of no gate.
    let leaves_gate = was.mandatory && was.before_flights_from.is_none() && before_flights_from.is_some();
    let is_out_of_order = is_without(&was.before_flights_from, before_flights_from)
        || is_without(&was.read_on, read_on)
        || is_without(&was.rung_above, rung_above);
    let mut all = ways([
        (was.mandatory && !mandatory || leaves_gate, Looser::Optional),
        (was.fail == Outcome::Stop && *fail != Outcome::Stop, Looser::FailsAsCaution),
        (goes_on_alone, Looser::Witness),
        (holds_longer(&was.holds, holds), Looser::HoldsLonger),
        (lacks_some(&was.rests_on, rests_on) || lacks_some(&was.called_by, called_by), Looser::RestsOnLess),
        (is_for_fewer(&was.when, when), Looser::FewerAircraft),
        (is_out_of_order, Looser::Order),
        (lacks_some(&was.cautions, cautions), Looser::FewerCautions),
        (!was.caution_proves && *caution_proves, Looser::CautionProves),
    ]);
    all.extend(of_kind(&was.kind, kind));
    all
}

fn of_kind(was: &CheckKind, now: &CheckKind) -> Vec<Looser> {
    match (was, now) {
        (CheckKind::Confirm, _) => Vec::new(),
        (CheckKind::Measure(was), CheckKind::Measure(now)) => of_measure(was, now),
        (CheckKind::Fly(was), CheckKind::Fly(now)) => of_fly(was, now),
        (CheckKind::Compute(was), CheckKind::Compute(now)) if was == now => Vec::new(),
        _ => vec![Looser::AnotherKind],
    }
}

fn of_measure(was: &Measure, now: &Measure) -> Vec<Looser> {
    let (a, b) = (&was.limits, &now.limits);
    let is_wider = is_further(&a.stop_below, &b.stop_below, -1.0)
        || is_further(&a.caution_below, &b.caution_below, -1.0)
        || is_further(&a.caution_above, &b.caution_above, 1.0)
        || is_further(&a.stop_above, &b.stop_above, 1.0);
    let is_held_less = was.agrees_with.iter().any(|was| {
        !now.agrees_with.iter().any(|now| now.with == was.with && now.within_percent <= was.within_percent)
    });
    ways([(was.unit != now.unit, Looser::AnotherKind), (is_wider, Looser::Limit), (is_held_less, Looser::ReadsLess)])
}

fn of_fly(was: &Fly, now: &Fly) -> Vec<Looser> {
    let Fly { motion, head_speed_rpm, minutes, knock_off, temperatures, predict, reserve } = now;
    let reads_less =
        lacks_some(&was.temperatures, temperatures) || was.predict && !predict || was.reserve && !reserve;
    ways([
        (was.motion != *motion, Looser::AnotherKind),
        (was.head_speed_rpm != *head_speed_rpm, Looser::Limit),
        (*minutes < was.minutes, Looser::Shorter),
        (knock_off.len() < was.knock_off.len(), Looser::FewerCallOffs),
        (reads_less, Looser::ReadsLess),
    ])
}

/// Whether a limit lies further out on its side, or is gone. One that comes from something else may lie anywhere: it is told.
fn is_further(was: &Option<Limit>, now: &Option<Limit>, side: f64) -> bool {
    match (was, now) {
        (None, _) => false,
        (Some(_), None) => true,
        (Some(Limit::Number(was)), Some(Limit::Number(now))) => (now - was) * side > 0.0,
        (Some(Limit::Figure { figure, times }), Some(Limit::Figure { figure: other, times: now }))
            if figure == other =>
        {
            (now - times) * side > 0.0
        }
        (Some(was), Some(now)) => was != now,
    }
}

/// Whether evidence holds longer than it did.
fn holds_longer(was: &Holds, now: &Holds) -> bool {
    let Holds { session, flights, hours, days, events } = now;
    let is_longer = |was: Option<f64>, now: Option<f64>| was.is_some_and(|was| now.is_none_or(|now| now > was));
    let count = |count: Option<u32>| count.map(f64::from);
    was.session && !session
        || is_longer(count(was.flights), count(*flights))
        || is_longer(was.hours, *hours)
        || is_longer(count(was.days), count(*days))
        || lacks_some(&was.events, events)
}

/// Whether something is for fewer aircraft: a question more decides, or fewer answers fit.
fn is_for_fewer(was: &When, now: &When) -> bool {
    now.iter().any(|(question, answers)| match was.get(question) {
        None => true,
        Some(before) => lacks_some(before, answers),
    })
}

/// Whether one of these is no longer among those.
fn lacks_some<T: PartialEq>(was: &[T], now: &[T]) -> bool {
    was.iter().any(|one| !now.contains(one))
}
