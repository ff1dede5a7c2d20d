use super::{Icon, MarkButton, SpotterAct, SpotterClock, SpotterControl, SpotterScreen, TimeCall, clock};
use crate::field::Flight;
use crate::plan::Plan;
use crate::readiness::{FindingState, Ledger};
use crate::record::{EntryId, MarkKind, Moment, show};

/// The spotter's screen for the card that was handed over.
pub(crate) fn spotter(plan: &Plan, ledger: &Ledger, card: EntryId, now: &Moment) -> SpotterScreen {
    let unknown = Flight::drawn(card, "");
    let flight = ledger.flight(card).unwrap_or(&unknown);
    let check = plan.check(&flight.check).map(|(_, check)| check);
    let (running, elapsed_ms) = match (&flight.started, &flight.down) {
        (_, Some((_, elapsed_ms))) => (false, *elapsed_ms),
        (Some(started), None) => (true, now.elapsed_ms_since(started)),
        (None, None) => (false, 0),
    };
    let (main, second) = controls(flight);
    SpotterScreen {
        aircraft: ledger.aircraft.name.clone(),
        title: format!("{}, {:.0} rpm", check.map_or("Flight", |check| check.title.as_str()), flight.head_speed_rpm),
        phase: phase(flight).to_owned(),
        clock: SpotterClock {
            running,
            elapsed_ms,
            planned_s: flight.planned_s,
            label: format!("planned {}", clock(flight.planned_s)),
        },
        calls: calls(flight.planned_s),
        main,
        second,
        marks: marks(flight, running),
        log: log(flight),
        limits: limits(plan, ledger, flight),
        knock_off: check.and_then(|check| check.fly()).map(|fly| fly.knock_off.clone()).unwrap_or_default(),
    }
}

fn phase(flight: &Flight) -> &'static str {
    match (&flight.started, &flight.down) {
        (None, _) => "Ready. Everyone clear of the rotor?",
        (Some(_), None) => "Motor on",
        (Some(_), Some(_)) => "Down, motor off",
    }
}

fn controls(flight: &Flight) -> (SpotterControl, Option<SpotterControl>) {
    let control = |act, label: &str, icon| SpotterControl { act, label: label.to_owned(), icon };
    let hand_back = control(SpotterAct::HandBack, "Back to the pilot", Icon::Hand);
    match (&flight.started, &flight.down) {
        (None, _) => (control(SpotterAct::Start, "Motor on", Icon::Play), Some(hand_back)),
        (Some(_), None) => (control(SpotterAct::Land, "Touchdown", Icon::Stop), None),
        (Some(_), Some(_)) => (hand_back, Some(control(SpotterAct::Resume, "Still flying", Icon::Undo))),
    }
}

/// Half time, one minute left where that is later, and the planned end.
fn calls(planned_s: i64) -> Vec<TimeCall> {
    let mut calls = Vec::new();
    if planned_s >= 60 {
        calls.push(TimeCall { at_s: planned_s / 2, words: "Half time".to_owned() });
    }
    if planned_s > 120 {
        calls.push(TimeCall { at_s: planned_s - 60, words: "One minute left".to_owned() });
    }
    calls.push(TimeCall { at_s: planned_s, words: "Time. Land now".to_owned() });
    calls.sort_by_key(|call| call.at_s);
    calls
}

fn marks(flight: &Flight, running: bool) -> Vec<MarkButton> {
    let count = |kind: MarkKind| flight.marks.iter().filter(|mark| mark.kind == kind).count();
    let button = |kind: MarkKind| MarkButton {
        kind,
        label: kind.word().to_owned(),
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

fn log(flight: &Flight) -> Vec<String> {
    let marks = flight.marks.iter().rev();
    marks.map(|mark| format!("{}  {}", clock(mark.elapsed_ms / 1_000), mark.kind.word())).collect()
}

fn limits(plan: &Plan, ledger: &Ledger, flight: &Flight) -> Vec<String> {
    let restrictions = ledger.findings.iter().filter_map(|finding| match &finding.state {
        FindingState::Carried { restriction, .. } => Some(restriction.clone()),
        _ => None,
    });
    let fly = plan.check(&flight.check).and_then(|(_, check)| check.fly());
    let places = fly.into_iter().flat_map(|fly| &fly.temperatures).filter_map(|id| plan.place(id));
    let temperatures = places.map(|place| format!("{}: stop above {} °C", place.title, show(place.stop_above_c)));
    let pack = (!flight.pack.is_empty()).then(|| format!("Flown on {}", flight.pack));
    restrictions.chain(pack).chain(temperatures).collect()
}
