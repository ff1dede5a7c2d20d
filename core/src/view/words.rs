//! What stands in the way, why evidence is stale and what an entry says, in a person's words.

use chrono::{DateTime, FixedOffset};

use crate::computed::Lacking;
use crate::plan::Plan;
use crate::readiness::{Blocker, Finding, FindingState, Ledger, Left, Reason, Source, Standing};
use crate::record::{Author, Body, CheckResult, Entry, Moment, Until};

/// `3 checks`, `1 check`.
pub(crate) fn counted(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}

/// A check's title, or its id if the plan no longer has it.
pub(crate) fn check_title(plan: &Plan, id: &str) -> String {
    plan.check(id).map_or_else(|| id.to_owned(), |(_, check)| check.title.clone())
}

/// A stage's title, or its id if the plan no longer has it.
pub(crate) fn stage_title(plan: &Plan, id: &str) -> String {
    plan.stage(id).map_or_else(|| id.to_owned(), |stage| stage.title.clone())
}

/// The word for how a check stands.
pub(crate) fn standing_word(standing: &Standing) -> &'static str {
    match standing {
        Standing::Missing { lacking } if lacking.is_empty() => "To do",
        Standing::Missing { .. } => "Incomplete",
        Standing::Fresh { outcome: crate::record::Outcome::Caution } => "Holds, with caution",
        Standing::Fresh { .. } => "Holds",
        Standing::Stale { .. } => "Stale",
        Standing::Failed { .. } => "Not right",
        Standing::Unexplained { .. } => "Not as predicted",
    }
}

/// More about how a check stands.
pub(crate) fn standing_detail(standing: &Standing) -> Option<String> {
    match standing {
        Standing::Missing { lacking } if lacking.is_empty() => None,
        Standing::Missing { lacking } => Some(format!("Still wanted: {}", lacking.join(", "))),
        Standing::Fresh { .. } => None,
        Standing::Stale { reasons } => Some(reasons.iter().map(reason_words).collect::<Vec<_>>().join(". ")),
        Standing::Failed { why } => Some(sentence(why)),
        Standing::Unexplained { .. } => Some("Say why the charge used lies outside its prediction".to_owned()),
    }
}

/// Why evidence is stale.
pub(crate) fn reason_words(reason: &Reason) -> String {
    match reason {
        Reason::Changed { subject, what, .. } => format!("{subject} changed: {what}"),
        Reason::Happened { event, .. } => format!("It ended with: {}", event.to_lowercase_first()),
        Reason::DayOver => "It holds for the day it was done on".to_owned(),
        Reason::RunsFlown(runs) => {
            format!("It holds for {}", counted(*runs as usize, "motor run", "motor runs"))
        }
        Reason::HoursFlown(hours) => format!("It holds for {hours} hours with the motor on"),
        Reason::DaysOver(days) => format!("It holds for {days} days"),
        Reason::RestsOn { check } => format!("It rests on '{check}'"),
        Reason::PlanChanged { plan } => format!("It was done before '{plan}', which asks for something else"),
        Reason::ToProve { finding } => format!("It is to prove the fix of '{finding}'"),
    }
}

/// What stands in the way, on one line.
pub(crate) fn blocker_words(plan: &Plan, ledger: &Ledger, blocker: &Blocker) -> String {
    match blocker {
        Blocker::Question(id) => plan.question(id).map_or_else(|| id.clone(), |question| question.text.clone()),
        Blocker::Figure(id) => plan.figure(id).map_or_else(|| id.clone(), |figure| figure.title.clone()),
        Blocker::Order { figure, above } => {
            let title = |id: &String| plan.figure(id).map_or_else(|| id.clone(), |figure| figure.title.clone());
            format!("{} must lie above: {}", title(figure), title(above).to_lowercase_first())
        }
        Blocker::Check { check, .. } => check_title(plan, check),
        Blocker::Finding(id) => {
            ledger.finding(*id).map_or_else(|| "A finding".to_owned(), |finding| finding.title.clone())
        }
        Blocker::Gate(stage) => format!("Gate of {}", stage_title(plan, stage).to_lowercase()),
    }
}

/// Why nothing could be computed, and what to do.
pub(crate) fn lacking_words(plan: &Plan, lacking: &Lacking) -> String {
    match lacking {
        Lacking::Things(kind) => format!("No {} described yet: add it under Aircraft", kind.word().to_lowercase()),
        Lacking::Number { name, label, .. } => format!("{name}: '{label}' is missing; enter it under Aircraft"),
        Lacking::Figure(id) => {
            let title = plan.figure(id).map_or(id.as_str(), |figure| figure.title.as_str());
            format!("'{title}' is missing; enter it under Aircraft")
        }
        Lacking::Flight(check) => format!("Fly '{}' and jot its landing down first", check_title(plan, check)),
        Lacking::Refused(error) => error.to_string(),
    }
}

/// Where a finding stands.
pub(crate) fn finding_word(state: &FindingState) -> &'static str {
    match state {
        FindingState::Open => "Open",
        FindingState::Fixed { .. } => "Fixed, awaiting proof",
        FindingState::Proven { .. } => "Proven",
        FindingState::Carried { .. } => "Carried",
    }
}

/// Until when a finding is carried.
pub(crate) fn until_words(until: &Until) -> String {
    match until {
        Until::Flights(flights) => format!("for {}", counted(*flights as usize, "motor run", "motor runs")),
        Until::Date(date) => format!("until {}", date.format("%-d %B %Y")),
    }
}

/// What is left of a carried finding's time.
pub(crate) fn carried_words(ledger: &Ledger, finding: &Finding, until: &Until) -> String {
    match (until, finding.runs_left(ledger)) {
        (Until::Flights(flights), Some(left)) if left < *flights => {
            format!("{}, {left} left", until_words(until))
        }
        _ => until_words(until),
    }
}

/// What is left of a validity, nothing where it has no limit.
pub(crate) fn left_words(left: &Left) -> Option<String> {
    let flights = left.flights.map(|flights| counted(flights as usize, "flight", "flights"));
    let hours = left.hours.map(|hours| format!("{hours:.1} h with the motor on"));
    let days = left.days.map(|days| counted(days as usize, "day", "days"));
    let parts: Vec<String> = [flights, hours, days].into_iter().flatten().collect();
    (!parts.is_empty()).then(|| format!("{} left", parts.join(" or ")))
}

/// What a result says.
pub(crate) fn result_words(ledger: &Ledger, source: &Source) -> String {
    match source {
        Source::Result(CheckResult::Confirmed { passed: true }) => "Right".to_owned(),
        Source::Result(CheckResult::Confirmed { passed: false }) => "Not right".to_owned(),
        Source::Result(CheckResult::Measured { value, unit }) => unit.show(*value),
        Source::Result(CheckResult::Computed { summary, .. }) => summary.clone(),
        Source::Flight(card) => ledger.flight(*card).map_or_else(String::new, flight_words),
    }
}

fn flight_words(flight: &crate::field::Flight) -> String {
    let minutes = flight.down.as_ref().map_or_else(String::new, |(_, ms)| format!(", {}", clock(*ms / 1_000)));
    let used = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
    let used = used.map_or_else(String::new, |mah| format!(", {mah:.0} mAh"));
    format!("{:.0} rpm{minutes}{used}", flight.head_speed_rpm)
}

/// Minutes and seconds.
pub(crate) fn clock(seconds: i64) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// What is left of a wait, rounded up: `25 s`, `12 min`.
pub(crate) fn time_left(left_ms: i64) -> String {
    let seconds = (left_ms + 999) / 1_000;
    if seconds < 120 { format!("{seconds} s") } else { format!("{} min", (seconds + 59) / 60) }
}

/// A day, with the year where it is another one than now.
pub(crate) fn day(at: &DateTime<FixedOffset>, now: &Moment) -> String {
    use chrono::Datelike;
    let format = if at.year() == now.wall.year() { "%-d %b" } else { "%-d %b %Y" };
    at.format(format).to_string()
}

/// A day and a time.
pub(crate) fn day_and_time(at: &DateTime<FixedOffset>, now: &Moment) -> String {
    format!("{}, {}", day(at, now), at.format("%H:%M"))
}

/// With a capital letter in front.
pub(crate) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Who made an entry.
pub(crate) fn author_words(author: &Author) -> String {
    match author {
        Author::Pilot => "Pilot".to_owned(),
        Author::Spotter { name } => format!("Spotter {name}"),
    }
}

/// What an entry says, on one line.
pub(crate) fn entry_words(plan: &Plan, entries: &[Entry], entry: &Entry) -> String {
    let named = |id: &crate::record::EntryId| entries.iter().find(|other| other.id == *id);
    let finding = |id: &crate::record::EntryId| match named(id).map(|entry| &entry.body) {
        Some(Body::FindingRaised { title, .. }) => title.clone(),
        _ => "a finding".to_owned(),
    };
    match &entry.body {
        Body::AircraftNamed { name, builder } => format!("{name}, built by {builder}"),
        Body::PlanAdopted { plan, edition, .. } => format!("Plan in force: {plan}, edition {edition}"),
        Body::TraitChosen { question, choice } => {
            let found = plan.question(question);
            let label = found.and_then(|q| q.choices.iter().find(|(id, _)| id == choice)).map(|(_, label)| label);
            let text = found.map_or(question.as_str(), |question| question.text.as_str());
            format!("{text} {}", label.unwrap_or(choice))
        }
        Body::FigureSet { figure, value, basis, .. } => {
            let found = plan.figure(figure);
            let title = found.map_or(figure.as_str(), |figure| figure.title.as_str());
            let value = found.map_or_else(|| crate::record::show(*value), |figure| figure.unit.show(*value));
            format!("{title}: {value}, {}", basis.word())
        }
        Body::ThingSet { thing } => format!("{} {} described", thing.kind.word(), thing.name),
        Body::ThingRemoved { thing } => format!("{} {} removed", thing.kind.word(), thing.name),
        Body::Changed { what, .. } => format!("Changed: {what}"),
        Body::Happened { event, .. } => {
            let title = plan.event(event).map_or(event.as_str(), |event| event.title.as_str());
            format!("Happened: {}", title.to_owned().to_lowercase_first())
        }
        Body::SettingChanged { setting, before, after, .. } => {
            let title = plan.setting(setting).map_or(setting.as_str(), |setting| setting.title.as_str());
            match before {
                Some(before) => format!("{title}: from {before} to {after}"),
                None => format!("{title}: {after}"),
            }
        }
        Body::CheckRecorded { check, result, .. } => {
            let of = Source::Result(result.clone());
            format!("{}: {}", check_title(plan, check), result_words(&Ledger::default(), &of).to_lowercase_first())
        }
        Body::CardDrawn { check, pack, .. } => format!("Card: {}, {pack}", check_title(plan, check)),
        Body::HandedOver { spotter, .. } => format!("Phone to {spotter}"),
        Body::Started { .. } => "Motor on".to_owned(),
        Body::Marked { mark, elapsed_ms, .. } => format!("{} at {}", mark.word(), clock(elapsed_ms / 1_000)),
        Body::TouchedDown { elapsed_ms, .. } => format!("Touchdown at {}", clock(elapsed_ms / 1_000)),
        Body::Resumed { .. } => "Touchdown taken back: still flying".to_owned(),
        Body::HandedBack { .. } => "Phone back with the pilot".to_owned(),
        Body::Unmarked { mark: id, .. } => match named(id) {
            Some(mark) => format!("Taken back: {}", entry_words(plan, entries, mark)),
            None => "A mark taken back".to_owned(),
        },
        Body::PackCharged { pack, put_back_mah } => match put_back_mah {
            Some(mah) => format!("{pack} charged, {mah:.0} mAh put back"),
            None => format!("{pack} charged"),
        },
        Body::CodeRefused { .. } => "A wrong code was tried".to_owned(),
        Body::WaitBegun { .. } => "No code at hand: the wait for the phone to open without it began".to_owned(),
        Body::OpenedWithoutCode { .. } => "Opened without the pilot's code, after the wait".to_owned(),
        Body::CodeSet { .. } => "Pilot's code set".to_owned(),
        Body::CodeRemoved {} => "Pilot's code removed".to_owned(),
        Body::LandingRecorded { pack_used_mah, temperatures, .. } => {
            let used = pack_used_mah.map_or_else(String::new, |used| format!(", {used:.0} mAh used"));
            let hottest = temperatures.iter().map(|reading| reading.celsius).max_by(f64::total_cmp);
            let hottest = hottest.map_or_else(String::new, |hottest| format!(", hottest {hottest:.0} °C"));
            format!("Landing{used}{hottest}")
        }
        Body::LogAttached { log, .. } => format!("Log attached: {}, {} rows", log.name, log.rows.imported),
        Body::DisagreementExplained { why, .. } => format!("Explained: {why}"),
        Body::FindingRaised { title, grade, .. } => {
            format!("Finding, {}: {title}", grade.word().to_lowercase())
        }
        Body::FindingFixed { finding: id, what, .. } => format!("Fixed '{}': {what}", finding(id)),
        Body::FindingCarried { finding: id, restriction, .. } => format!("Carried '{}': {restriction}", finding(id)),
        Body::GateReleased { stage, by, .. } => format!("{} released by {by}", stage_title(plan, stage)),
        Body::Withdrawn { entry: id, reason } => match named(id) {
            Some(other) => format!("Withdrawn: {}. {reason}", entry_words(plan, entries, other)),
            None => format!("Withdrawn. {reason}"),
        },
    }
}

/// A text with a small letter in front, for use within a sentence.
pub(crate) fn lower_first(text: &str) -> String {
    text.to_owned().to_lowercase_first()
}

/// Lower-cases the first letter only, for use within a sentence.
trait LowerFirst {
    fn to_lowercase_first(&self) -> String;
}

impl LowerFirst for String {
    fn to_lowercase_first(&self) -> String {
        let mut letters = self.chars();
        letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
    }
}
