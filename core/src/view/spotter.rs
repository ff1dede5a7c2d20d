use super::{
    Block, Icon, MarkButton, SpotterAct, SpotterClock, SpotterControl, SpotterLock, SpotterScreen, TimeCall,
};
use crate::field::{Flight, wanted_places};
use crate::locale::{Locale, clock, say, time_left};
use crate::plan::Plan;
use crate::readiness::{Emergency, Finding, Ledger};
use crate::record::{EntryId, MarkKind, Moment};
use crate::unit::Unit;

/// The spotter's screen for the card that was handed over.
pub(crate) fn spotter(locale: Locale, plan: &Plan, ledger: &Ledger, card: EntryId, now: &Moment) -> SpotterScreen {
    let unknown = Flight::drawn(card, "");
    let flight = ledger.flight(card).unwrap_or(&unknown);
    let check = plan.check(&flight.check).map(|(_, check)| check);
    let (running, elapsed_ms) = match (&flight.started, &flight.down) {
        (_, Some((_, elapsed_ms))) => (false, *elapsed_ms),
        (Some(started), None) => (true, now.elapsed_ms_since(started)),
        (None, None) => (false, 0),
    };
    let title = check.map_or_else(|| say!(locale, "spotter-flight"), |check| check.title.clone());
    let lock = lock(locale, ledger, running, now);
    let flies = plan.leaves_ground(&flight.check);
    let (main, second) = controls(locale, flight, flies, lock.is_some());
    SpotterScreen {
        aircraft: ledger.aircraft.name.clone(),
        title: say!(locale, "spotter-title", title = title, rpm = locale.number(flight.head_speed_rpm, 0)),
        phase: phase(locale, flight, flies),
        clock: SpotterClock {
            running,
            elapsed_ms,
            planned_s: flight.planned_s,
            label: say!(locale, "spotter-planned", time = clock(flight.planned_s)),
        },
        calls: calls(locale, flight.planned_s, flies),
        main,
        second,
        marks: marks(locale, flight, running),
        log: log(locale, flight),
        limits: limits(locale, plan, ledger, flight),
        knock_off: check.and_then(|check| check.fly()).map(|fly| fly.knock_off.clone()).unwrap_or_default(),
        undo: undo(locale, flight),
        lock,
    }
}

/// How long a finger rests on the large control. A knock lasts about a tenth of a second (common practice, no source). The
/// touchdown is budgeted at 2.75 s by the keystroke-level model, 1.35 to decide and 1.10 to point: that leaves 0.30, and it
/// is taken back in one touch. The others have the time.
fn hold_ms(act: SpotterAct) -> u32 {
    match act {
        SpotterAct::Land => 300,
        _ => 600,
    }
}

/// Takes back what was noted last.
fn undo(locale: Locale, flight: &Flight) -> Option<SpotterControl> {
    let last = flight.marks.last()?;
    let label = say!(locale, "spotter-take-back", mark = last.kind.word(locale));
    Some(SpotterControl { act: SpotterAct::Unmark, label, icon: Icon::Undo, hold_ms: 0 })
}

/// The way back to the pilot's side, where it is shut and the motor is off.
fn lock(locale: Locale, ledger: &Ledger, running: bool, now: &Moment) -> Option<SpotterLock> {
    let lock = &ledger.lock;
    lock.hash.as_ref().filter(|_| !running)?;
    let wait_ms = lock.next_try_in_ms(now);
    let opens_in_ms = lock.opens_in_ms(now);
    let hint = match (wait_ms, lock.wrong) {
        (0, 0) => None,
        (0, wrong) => Some(say!(locale, "spotter-wrong-codes", count = wrong as usize)),
        (wait_ms, _) => Some(say!(locale, "spotter-next-try", time = time_left(locale, wait_ms))),
    };
    let (act, label, note) = match opens_in_ms {
        None => (SpotterAct::WaitWithoutCode, say!(locale, "spotter-no-code"), say!(locale, "spotter-no-code-note")),
        Some(0) => (SpotterAct::HandBack, say!(locale, "spotter-open-without"), say!(locale, "spotter-wait-over")),
        Some(left_ms) => (
            SpotterAct::WaitWithoutCode,
            say!(locale, "spotter-waiting"),
            say!(locale, "spotter-wait-left", time = time_left(locale, left_ms)),
        ),
    };
    let pad = Block::CodePad {
        label: say!(locale, "spotter-code"),
        hint,
        done: say!(locale, "spotter-open"),
        hidden: true,
        enabled: wait_ms == 0,
    };
    Some(SpotterLock {
        pad,
        without: SpotterControl { act, label, icon: Icon::Lock, hold_ms: 0 },
        without_note: Some(note),
        counting: wait_ms > 0 || opens_in_ms.is_some_and(|left_ms| left_ms > 0),
    })
}

fn phase(locale: Locale, flight: &Flight, flies: bool) -> String {
    match (&flight.started, &flight.down) {
        (None, _) => say!(locale, "spotter-ready"),
        (Some(_), None) => say!(locale, "spotter-motor-on"),
        (Some(_), Some(_)) if flies => say!(locale, "spotter-down"),
        (Some(_), Some(_)) => say!(locale, "spotter-motor-off"),
    }
}

fn controls(locale: Locale, flight: &Flight, flies: bool, locked: bool) -> (SpotterControl, Option<SpotterControl>) {
    let control = |act, label: String, icon| SpotterControl { act, label, icon, hold_ms: hold_ms(act) };
    let back = if locked { SpotterAct::EnterCode } else { SpotterAct::HandBack };
    let hand_back = control(back, say!(locale, "spotter-hand-back"), Icon::Hand);
    match (&flight.started, &flight.down) {
        (None, _) => (control(SpotterAct::Start, say!(locale, "spotter-motor-on"), Icon::Play), Some(hand_back)),
        (Some(_), None) => {
            let down = if flies { say!(locale, "spotter-touchdown") } else { say!(locale, "spotter-motor-off") };
            (control(SpotterAct::Land, down, Icon::Stop), None)
        }
        (Some(_), Some(_)) => {
            let back = if flies { say!(locale, "spotter-still-flying") } else { say!(locale, "spotter-still-on") };
            (hand_back, Some(control(SpotterAct::Resume, back, Icon::Undo)))
        }
    }
}

/// How long it is over, and what ends it: what flies lands, what stands on the ground is switched off.
fn over_words(locale: Locale, over_s: i64, flies: bool) -> String {
    let end = end_words(locale, flies);
    match over_s {
        30 => say!(locale, "spotter-call-half-minute-over", end = end),
        60 => say!(locale, "spotter-call-minute-over", end = end),
        over_s => say!(locale, "spotter-call-minutes-over", minutes = over_s / 60, end = end),
    }
}

fn end_words(locale: Locale, flies: bool) -> String {
    if flies { say!(locale, "spotter-call-land") } else { say!(locale, "spotter-call-motor-off") }
}

/// Half time, one minute left where that is later, the planned end, and three reminders after it.
fn calls(locale: Locale, planned_s: i64, flies: bool) -> Vec<TimeCall> {
    let mut calls = Vec::new();
    if planned_s >= 60 {
        calls.push(TimeCall { at_s: planned_s / 2, words: say!(locale, "spotter-call-half-time") });
    }
    if planned_s > 120 {
        calls.push(TimeCall { at_s: planned_s - 60, words: say!(locale, "spotter-call-minute-left") });
    }
    let time = say!(locale, "spotter-call-time", end = end_words(locale, flies));
    calls.push(TimeCall { at_s: planned_s, words: time });
    // Nobody looks at the clock any more by then.
    let over = |over_s| TimeCall { at_s: planned_s + over_s, words: over_words(locale, over_s, flies) };
    calls.extend([30, 60, 120].map(over));
    calls.sort_by_key(|call| call.at_s);
    calls
}

fn marks(locale: Locale, flight: &Flight, running: bool) -> Vec<MarkButton> {
    let count = |kind: MarkKind| flight.marks.iter().filter(|mark| mark.kind == kind).count();
    let button = |kind: MarkKind| MarkButton {
        kind,
        label: kind.word(locale),
        icon: icon(kind),
        count: u32::try_from(count(kind)).unwrap_or(u32::MAX),
        enabled: running,
    };
    MarkKind::ALL.into_iter().map(button).collect()
}

fn icon(kind: MarkKind) -> Icon {
    match kind {
        MarkKind::Shake => Icon::Shake,
        MarkKind::Sound => Icon::Sound,
        MarkKind::Tail => Icon::Tail,
        MarkKind::Drift => Icon::Drift,
        MarkKind::Power => Icon::Power,
        MarkKind::Smell => Icon::Smell,
        MarkKind::Alarm => Icon::Warning,
        MarkKind::Other => Icon::Other,
    }
}

fn log(locale: Locale, flight: &Flight) -> Vec<String> {
    let marks = flight.marks.iter().rev();
    marks.map(|mark| format!("{}  {}", clock(mark.elapsed_ms / 1_000), mark.kind.word(locale))).collect()
}

fn limits(locale: Locale, plan: &Plan, ledger: &Ledger, flight: &Flight) -> Vec<String> {
    let restrictions = ledger.findings.iter().filter_map(Finding::restriction).map(str::to_owned);
    let fly = plan.check(&flight.check).and_then(|(_, check)| check.fly());
    let places = fly.into_iter().flat_map(|fly| wanted_places(plan, &ledger.aircraft, fly));
    let temperatures = places.map(|place| {
        say!(
            locale,
            "spotter-stop-above",
            place = place.title,
            limit = locale.quantity(place.stop_above_c, Unit::Celsius)
        )
    });
    let pack = (!flight.pack.is_empty()).then(|| say!(locale, "spotter-flown-on", pack = flight.pack_names()));
    let not_full = flight.not_full.as_ref().map(|why| say!(locale, "spotter-not-full", why = why));
    let call = |known: &Emergency| say!(locale, "spotter-emergency", call = known.call, address = known.address);
    let emergency = ledger.emergency.as_ref().map(call);
    restrictions.chain(pack).chain(not_full).chain(temperatures).chain(emergency).collect()
}
