//! What stands in the way, why evidence is stale and what an entry says, in a person's words.

use chrono::{DateTime, FixedOffset};

use crate::computed::Lacking;
use crate::field::{Doubt, Flight, Mark, PACKS_JOINED, TooShort, Unanswered};
use crate::locale::{Locale, clock, say, sentence};
use crate::plan::Plan;
use crate::readiness::{Blocker, Deed, Fault, Finding, FindingState, Lack, Ledger, Left, Reason, Source, Standing};
use crate::record::{Author, Body, CheckResult, Entry, Judgement, Moment, OnAircraft, PhotoOf, Until};
use crate::unit::Unit;

/// Marks of one kind of which the times are said; of more, how many they are.
const TIMES_SHOWN: usize = 4;

/// A check's title, or its id if the plan no longer has it.
pub(crate) fn check_title(plan: &Plan, id: &str) -> String {
    plan.check(id).map_or_else(|| id.to_owned(), |(_, check)| check.title.clone())
}

/// A stage's title, or its id if the plan no longer has it.
pub(crate) fn stage_title(plan: &Plan, id: &str) -> String {
    plan.stage(id).map_or_else(|| id.to_owned(), |stage| stage.title.clone())
}

/// The word for how a check stands.
pub(crate) fn standing_word(locale: Locale, standing: &Standing) -> String {
    match standing {
        Standing::Missing { lacking } if lacking.is_empty() => say!(locale, "standing-to-do"),
        Standing::Missing { .. } => say!(locale, "standing-incomplete"),
        Standing::Fresh { outcome: crate::record::Outcome::Caution } => say!(locale, "standing-holds-caution"),
        Standing::Fresh { .. } => say!(locale, "standing-holds"),
        Standing::Stale { .. } => say!(locale, "standing-stale"),
        Standing::Failed { .. } => say!(locale, "standing-not-right"),
        Standing::Unexplained { .. } => say!(locale, "standing-not-predicted"),
    }
}

/// More about how a check stands.
pub(crate) fn standing_detail(locale: Locale, plan: &Plan, standing: &Standing) -> Option<String> {
    match standing {
        Standing::Missing { lacking } if lacking.is_empty() => None,
        Standing::Missing { lacking } => {
            let what: Vec<String> = lacking.iter().map(|lack| lack_words(locale, plan, lack)).collect();
            Some(say!(locale, "standing-wanted", what = what.join(", ")))
        }
        Standing::Fresh { .. } => None,
        Standing::Stale { reasons } => {
            Some(reasons.iter().map(|reason| reason_words(locale, plan, reason)).collect::<Vec<_>>().join(". "))
        }
        Standing::Failed { why } => Some(sentence(&fault_words(locale, why))),
        Standing::Unexplained { .. } => Some(say!(locale, "standing-explain")),
    }
}

/// Why evidence is stale.
pub(crate) fn reason_words(locale: Locale, plan: &Plan, reason: &Reason) -> String {
    match reason {
        Reason::Changed { of, subject, what, .. } => {
            let titled = of.words(locale).or_else(|| plan.subject_title(of).map(str::to_owned));
            let subject = titled.unwrap_or_else(|| subject.clone());
            say!(locale, "reason-changed", subject = subject, what = deed_words(locale, what))
        }
        Reason::Happened { of, event, .. } => {
            let title = plan.event(of).map_or(event, |event| &event.title);
            say!(locale, "reason-happened", event = locale.lower_first(title))
        }
        Reason::ClockBehind => say!(locale, "reason-clock-behind"),
        Reason::DayOver => say!(locale, "reason-day-over"),
        Reason::RunsFlown(runs) => {
            say!(locale, "reason-runs", count = *runs as usize)
        }
        Reason::HoursFlown(hours) => say!(locale, "reason-hours", hours = locale.plain(*hours)),
        Reason::DaysOver(days) => say!(locale, "reason-days", days = days),
        Reason::PaperOver { paper, last_day } => {
            say!(locale, "reason-paper-over", paper = paper, day = locale.date(*last_day))
        }
        Reason::RestsOn { check } => say!(locale, "reason-rests-on", check = check),
        Reason::PlanChanged { plan, edition } => {
            say!(locale, "reason-plan-changed", plan = plan, edition = edition)
        }
        Reason::ToProve { finding } => say!(locale, "reason-to-prove", finding = finding),
    }
}

/// What was recorded and does not suffice wants this.
fn lack_words(locale: Locale, plan: &Plan, lack: &Lack) -> String {
    match lack {
        Lack::Witness => say!(locale, "lack-witness"),
        Lack::WitnessOrWhy => say!(locale, "lack-witness-or-why"),
        Lack::Titled(title) => title.clone(),
        Lack::RunOf(run) => say!(locale, "lack-run-of", run = locale.inside(run)),
        Lack::ListDeclared(list) => {
            say!(locale, "lack-list-declared", list = locale.inside(&list.words(locale)))
        }
        Lack::ChargeUsed => say!(locale, "lack-charge-used"),
        Lack::FlownTime => say!(locale, "lack-flown-time"),
        Lack::Judgement => say!(locale, "lack-judgement"),
        Lack::NotCalledOff { why } => say!(locale, "lack-not-called-off", why = why),
        Lack::PackCapacity => say!(locale, "lack-pack-capacity"),
        Lack::ReadTooLate { title, after_s } => {
            say!(locale, "lack-read-too-late", place = title, time = clock(*after_s))
        }
        Lack::Agreement { with, on_file, read, unit } => say!(
            locale,
            "lack-agreement",
            read = locale.quantity(*read, *unit),
            with = locale.inside(&plan.on_file_words(locale, with)),
            on_file = locale.quantity(*on_file, *unit)
        ),
        Lack::LongerFlight(short) => too_short_words(locale, *short),
    }
}

/// How much too short a run was for its check.
pub(crate) fn too_short_words(locale: Locale, short: TooShort) -> String {
    say!(locale, "lack-longer-flight", flown = clock(short.flown_s), wanted = clock(short.wanted_s))
}

/// What is odd about what was jotted.
pub(crate) fn doubt_words(locale: Locale, plan: &Plan, flight: &Flight, doubt: &Doubt) -> String {
    let mah = |mah: f64| locale.rounded(mah, 0, Unit::MilliampereHour);
    let celsius = |celsius: f64| locale.quantity(celsius, Unit::Celsius);
    let pack = &flight.pack_names();
    match doubt {
        Doubt::ChargeOverPack { used_mah, holds_mah } => {
            say!(locale, "doubt-over-pack", used = mah(*used_mah), pack = pack, holds = mah(*holds_mah))
        }
        Doubt::ChargeUnderReserve { left_percent, reserve_percent } => say!(
            locale,
            "doubt-under-reserve",
            pack = pack,
            left = locale.number(*left_percent, 0),
            reserve = locale.number(*reserve_percent, 0)
        ),
        Doubt::NoCharge { used_mah, flown_s, least_mah: None } => {
            say!(locale, "doubt-no-charge", used = mah(*used_mah), time = clock(*flown_s))
        }
        Doubt::NoCharge { used_mah, flown_s, least_mah: Some(least_mah) } => say!(
            locale,
            "doubt-under-lifting",
            used = mah(*used_mah),
            time = clock(*flown_s),
            least = mah(*least_mah)
        ),
        Doubt::BelowAir { place, celsius: read } => {
            let place = plan.place(place).map_or(place.as_str(), |place| place.title.as_str());
            say!(locale, "doubt-below-air", place = place, read = celsius(*read), air = celsius(flight.air_c))
        }
        Doubt::NoWarmerThanAir { flown_s, .. } => {
            say!(locale, "doubt-no-warmer", time = clock(*flown_s), air = celsius(flight.air_c))
        }
    }
}

/// What was not right.
fn fault_words(locale: Locale, fault: &Fault) -> String {
    match fault {
        Fault::FoundNotRight => say!(locale, "fault-found"),
        Fault::Computed(summary) => summary.clone(),
        Fault::PastLimit { value, unit } => {
            say!(locale, "fault-past-limit", value = locale.quantity(*value, *unit))
        }
        Fault::NotSo(why) => say!(locale, "fault-not-so", why = why),
        Fault::PastStop { place, celsius } => {
            let temperature = locale.rounded(*celsius, 0, Unit::Celsius);
            say!(locale, "fault-past-stop", place = place, temperature = temperature)
        }
        Fault::UnderReserve { left_percent, reserve_percent } => say!(
            locale,
            "fault-under-reserve",
            left = locale.number(*left_percent, 0),
            reserve = locale.number(*reserve_percent, 0)
        ),
    }
}

/// What was done to something.
fn deed_words(locale: Locale, deed: &Deed) -> String {
    match deed {
        Deed::EnteredAs(value) => say!(locale, "deed-entered", value = locale.plain(*value)),
        Deed::SetTo(value) => say!(locale, "deed-set", value = value),
        Deed::Added(name) => say!(locale, "deed-added", name = name),
        Deed::Changed(name) => say!(locale, "deed-changed", name = name),
        Deed::Removed(name) => say!(locale, "deed-removed", name = name),
        Deed::Work(words) => words.clone(),
    }
}

/// What stands in the way, on one line.
pub(crate) fn blocker_words(locale: Locale, plan: &Plan, ledger: &Ledger, blocker: &Blocker) -> String {
    match blocker {
        Blocker::RecordDamaged => say!(locale, "blocker-record-damaged"),
        Blocker::Question(id) => plan.question(id).map_or_else(|| id.clone(), |question| question.text.clone()),
        Blocker::Figure(id) => plan.figure(id).map_or_else(|| id.clone(), |figure| figure.title.clone()),
        Blocker::Order { figure, above } => {
            let title = |id: &String| plan.figure(id).map_or_else(|| id.clone(), |figure| figure.title.clone());
            say!(locale, "blocker-order", figure = title(figure), above = locale.lower_first(&title(above)))
        }
        Blocker::Check { check, .. } => check_title(plan, check),
        Blocker::Finding(id) => {
            ledger.finding(*id).map_or_else(|| say!(locale, "blocker-finding"), |finding| finding.title.clone())
        }
        Blocker::Unanswered { card, what } => {
            let check = ledger.flight(*card).map_or_else(String::new, |flight| check_title(plan, &flight.check));
            say!(
                locale,
                "blocker-unanswered",
                what = unanswered_words(locale, plan, what),
                check = locale.inside(&check)
            )
        }
        Blocker::Landing(card) => {
            let check = ledger.flight(*card).map_or_else(String::new, |flight| check_title(plan, &flight.check));
            say!(locale, "board-landing-of", check = check)
        }
        Blocker::Gate(stage) => say!(locale, "blocker-gate", stage = locale.inside(&stage_title(plan, stage))),
        Blocker::Unnamed => say!(locale, "blocker-unnamed"),
        Blocker::Clock => say!(locale, "clock-is-behind"),
        Blocker::NoPack => say!(locale, "blocker-no-pack"),
    }
}

/// How the run was, behind what else is said of its landing; nothing where it was not asked or all was well.
fn judgement_words(locale: Locale, judgement: &Judgement) -> String {
    match judgement {
        Judgement::NotAsked | Judgement::Open | Judgement::AsItShouldBe => String::new(),
        Judgement::NotSo { why } => say!(locale, "entry-landing-not-so", why = why),
        Judgement::CalledOff { why } => say!(locale, "entry-landing-called-off", why = why),
    }
}

/// What was noted of one kind, with when, or how often.
fn marks_words(locale: Locale, alike: &[Mark]) -> String {
    let Some(first) = alike.first() else { return String::new() };
    let (mark, time) = (first.kind.word(locale), |mark: &Mark| clock(mark.elapsed_ms / 1_000));
    match alike.len() {
        1..=TIMES_SHOWN => {
            let times: Vec<String> = alike.iter().map(time).collect();
            say!(locale, "entry-mark", mark = mark, time = times.join(", "))
        }
        count => say!(locale, "marks-many", mark = mark, count = count, time = time(first)),
    }
}

/// What was seen or read past a stop.
pub(crate) fn unanswered_words(locale: Locale, plan: &Plan, what: &Unanswered) -> String {
    match what {
        Unanswered::Time => say!(locale, "unanswered-time"),
        Unanswered::LongTime { counted_s } => say!(locale, "unanswered-long-time", time = clock(*counted_s)),
        Unanswered::Marks(alike) => marks_words(locale, alike),
        Unanswered::Stop { place, celsius } => {
            let found = plan.place(place);
            let title = found.map_or(place.as_str(), |place| place.title.as_str());
            let read = locale.quantity(*celsius, Unit::Celsius);
            let limit = found.map_or_else(String::new, |place| locale.quantity(place.stop_above_c, Unit::Celsius));
            say!(locale, "unanswered-stop", place = title, read = read, limit = limit)
        }
        Unanswered::NotSo(why) => say!(locale, "fault-not-so", why = why),
        Unanswered::Judgement => say!(locale, "unanswered-judgement"),
    }
}

/// Why nothing could be computed, and what to do.
pub(crate) fn lacking_words(locale: Locale, plan: &Plan, lacking: &Lacking) -> String {
    match lacking {
        Lacking::Things(kind) => say!(locale, "lacking-thing", kind = locale.inside(&kind.word(locale))),
        Lacking::Count { kind, described, wanted } => {
            say!(locale, "lacking-count", kind = kind.words(locale), described = *described, wanted = *wanted)
        }
        Lacking::Number { kind, name, field } => {
            let label = kind.field(*field).map_or_else(|| field.as_str().to_owned(), |field| field.label(locale));
            say!(locale, "lacking-number", name = name, label = label)
        }
        Lacking::Figure(id) => {
            let title = plan.figure(id).map_or(id.as_str(), |figure| figure.title.as_str());
            say!(locale, "lacking-figure", title = title)
        }
        Lacking::Flight(check) => say!(locale, "lacking-flight", check = check_title(plan, check)),
        Lacking::OtherLoad(near_a) => {
            say!(locale, "lacking-other-load", near = locale.rounded(*near_a, 0, Unit::Ampere))
        }
        Lacking::RestingPack(pack) => say!(locale, "lacking-resting-pack", pack = pack),
        Lacking::Refused(error) => error.words(locale),
    }
}

/// Where a finding stands.
pub(crate) fn finding_word(locale: Locale, state: &FindingState) -> String {
    match state {
        FindingState::Open => say!(locale, "finding-open"),
        FindingState::Fixed { .. } => say!(locale, "finding-fixed"),
        FindingState::Proven { .. } => say!(locale, "finding-proven"),
        FindingState::Carried { .. } => say!(locale, "finding-carried"),
    }
}

/// Until when a finding is carried.
pub(crate) fn until_words(locale: Locale, until: &Until) -> String {
    match until {
        Until::Flights(flights) => say!(locale, "until-runs", count = *flights as usize),
        Until::Date(date) => say!(locale, "until-date", day = locale.date(*date)),
    }
}

/// What is left of a carried finding's time.
pub(crate) fn carried_words(locale: Locale, ledger: &Ledger, finding: &Finding, until: &Until) -> String {
    match (until, finding.runs_left(ledger)) {
        (Until::Flights(flights), Some(left)) if left < *flights => {
            say!(locale, "until-left", until = until_words(locale, until), left = left)
        }
        _ => until_words(locale, until),
    }
}

/// What is left of a validity, nothing where it has no limit.
pub(crate) fn left_words(locale: Locale, left: &Left) -> Option<String> {
    let flights = left.flights.map(|flights| say!(locale, "left-flights", count = flights as usize));
    let hours = left.hours.map(|hours| say!(locale, "left-hours", hours = locale.number(hours, 1)));
    let days = left.days.map(|days| say!(locale, "left-days", count = days as usize));
    let parts: Vec<String> = [flights, hours, days].into_iter().flatten().collect();
    (!parts.is_empty()).then(|| say!(locale, "left-of", parts = parts.join(&say!(locale, "left-or"))))
}

/// What a result says.
pub(crate) fn result_words(locale: Locale, ledger: &Ledger, source: &Source) -> String {
    match source {
        Source::Result(CheckResult::Confirmed { passed: true }) => say!(locale, "result-right"),
        Source::Result(CheckResult::Confirmed { passed: false }) => say!(locale, "standing-not-right"),
        Source::Result(CheckResult::Measured { value, unit }) => locale.quantity(*value, *unit),
        Source::Result(CheckResult::Computed { summary, judged, .. }) => {
            format!("{summary}{}", super::lists::judged_words(locale, judged))
        }
        Source::Flight(card) => ledger.flight(*card).map_or_else(String::new, |flight| flight_words(locale, flight)),
    }
}

fn flight_words(locale: Locale, flight: &Flight) -> String {
    let minutes = flight.flown_ms().map_or_else(String::new, |ms| format!(", {}", clock(ms / 1_000)));
    let used = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah);
    let used = used.map_or_else(String::new, |mah| say!(locale, "flight-used", mah = locale.number(mah, 0)));
    say!(locale, "flight-words", rpm = locale.number(flight.head_speed_rpm, 0), minutes = minutes, used = used)
}

/// A day, with the year where it is another one than now.
pub(crate) fn day(locale: Locale, at: &DateTime<FixedOffset>, now: &Moment) -> String {
    use chrono::Datelike;
    locale.short_day(at, at.year() != now.wall.year())
}

/// A day and a time.
pub(crate) fn day_and_time(locale: Locale, at: &DateTime<FixedOffset>, now: &Moment) -> String {
    format!("{}, {}", day(locale, at, now), at.format("%H:%M"))
}

/// Who made an entry.
pub(crate) fn author_words(locale: Locale, author: &Author) -> String {
    match author {
        Author::Pilot => say!(locale, "author-pilot"),
        Author::Spotter { name } => say!(locale, "author-spotter", name = name),
    }
}

/// What an entry says, on one line.
pub(crate) fn entry_words(locale: Locale, plan: &Plan, entries: &[Entry], entry: &Entry) -> String {
    let named = |id: &crate::record::EntryId| Entry::by_id(entries, *id);
    let finding = |id: &crate::record::EntryId| match named(id).map(|entry| &entry.body) {
        Some(Body::FindingRaised { title, .. }) => title.clone(),
        _ => say!(locale, "entry-a-finding"),
    };
    match &entry.body {
        Body::AircraftNamed { name, builder, pilot: None } => {
            say!(locale, "entry-named", name = name, builder = builder)
        }
        Body::AircraftNamed { name, builder, pilot: Some(pilot) } => {
            say!(locale, "entry-named-pilot", name = name, builder = builder, pilot = pilot)
        }
        Body::Illegible {} => say!(locale, "entry-illegible"),
        Body::Repaired { gaps, lost_logs, .. } => {
            let entries: i64 = gaps.iter().map(|gap| gap.count()).sum();
            say!(locale, "entry-repaired", entries = entries, logs = lost_logs.len())
        }
        Body::EmergencyNoted { call, address } => {
            say!(locale, "entry-emergency", call = call, address = address)
        }
        Body::PlanAdopted { plan, edition, .. } => say!(locale, "entry-plan", plan = plan, edition = edition),
        Body::AircraftBegun { plan, edition, .. } => {
            say!(locale, "entry-aircraft-begun", plan = plan, edition = edition)
        }
        Body::TraitChosen { question, choice } => {
            let found = plan.question(question);
            let label = found.and_then(|q| q.choices.iter().find(|(id, _)| id == choice)).map(|(_, label)| label);
            let text = found.map_or(question.as_str(), |question| question.text.as_str());
            format!("{text} {}", label.unwrap_or(choice))
        }
        Body::FigureSet { figure, value, basis, .. } => {
            let found = plan.figure(figure);
            let title = found.map_or(figure.as_str(), |figure| figure.title.as_str());
            let value = found.map_or_else(|| locale.plain(*value), |figure| locale.quantity(*value, figure.unit));
            format!("{title}: {value}, {}", basis.word(locale))
        }
        Body::ThingSet { thing, on_aircraft } => {
            let described = say!(locale, "entry-thing-described", kind = thing.kind.word(locale), name = thing.name);
            format!("{described}{}", changed_with_it(locale, *on_aircraft))
        }
        Body::ListDeclared { list, count, .. } => {
            say!(locale, "entry-list-declared", list = locale.inside(&list.words(locale)), count = count)
        }
        Body::ThingRemoved { thing, instead, witness, on_aircraft } => {
            let instead = instead.as_ref().map(|instead| say!(locale, "entry-thing-instead", what = instead));
            let seen = witness.as_ref().map(|name| say!(locale, "check-seen-by", witness = name));
            let removed = say!(locale, "entry-thing-removed", kind = thing.kind.word(locale), name = thing.name);
            let changed = changed_with_it(locale, *on_aircraft);
            format!("{removed}{changed}{}{}", instead.unwrap_or_default(), seen.unwrap_or_default())
        }
        Body::Changed { what, .. } => say!(locale, "entry-changed", what = what),
        Body::Happened { event, .. } => {
            let title = plan.event(event).map_or(event.as_str(), |event| event.title.as_str());
            say!(locale, "entry-happened", event = locale.lower_first(title))
        }
        Body::SettingChanged { setting, before, after, .. } => {
            let title = plan.setting(setting).map_or(setting.as_str(), |setting| setting.title.as_str());
            match before {
                Some(before) => say!(locale, "entry-setting-from", title = title, before = before, after = after),
                None => format!("{title}: {after}"),
            }
        }
        Body::CheckRecorded { check, result, .. } => {
            let of = Source::Result(result.clone());
            format!(
                "{}: {}",
                check_title(plan, check),
                locale.lower_first(&result_words(locale, &Ledger::default(), &of))
            )
        }
        Body::CardDrawn { check, pack, further_packs, .. } => {
            let packs: Vec<&str> = std::iter::once(pack).chain(further_packs).map(String::as_str).collect();
            say!(locale, "entry-card", check = check_title(plan, check), pack = packs.join(PACKS_JOINED))
        }
        Body::HandedOver { spotter, .. } => say!(locale, "entry-handed-over", spotter = spotter),
        Body::Started { .. } => say!(locale, "entry-motor-on"),
        Body::Marked { mark, elapsed_ms, .. } => {
            say!(locale, "entry-mark", mark = mark.word(locale), time = clock(elapsed_ms / 1_000))
        }
        Body::MarkAnswered { mark: id, words, .. } => match named(id) {
            Some(mark) => {
                let mark = entry_words(locale, plan, entries, mark);
                say!(locale, "entry-mark-answered", mark = mark, words = words)
            }
            None => say!(locale, "entry-mark-answered-unknown", words = words),
        },
        Body::TouchedDown { card, elapsed_ms } => {
            let time = clock(elapsed_ms / 1_000);
            let flew = named(card).is_none_or(|drawn| match &drawn.body {
                Body::CardDrawn { check, .. } => plan.leaves_ground(check),
                _ => true,
            });
            match flew {
                true => say!(locale, "entry-touchdown", time = time),
                false => say!(locale, "entry-motor-off", time = time),
            }
        }
        Body::RestartedInFlight { .. } => say!(locale, "entry-restarted"),
        Body::FlownTold { flown_s, without_phone: None, .. } => {
            say!(locale, "entry-flown-told", time = clock(*flown_s))
        }
        Body::FlownTold { flown_s, without_phone: Some(told), .. } => say!(
            locale,
            "entry-flown-without-phone",
            time = clock(*flown_s),
            ago = clock(told.down_ago_s),
            spotter = told.spotter
        ),
        Body::Resumed { .. } => say!(locale, "entry-resumed"),
        Body::HandedBack { .. } => say!(locale, "entry-handed-back"),
        Body::Unmarked { mark: id, .. } => match named(id) {
            Some(mark) => say!(locale, "entry-unmarked", mark = entry_words(locale, plan, entries, mark)),
            None => say!(locale, "entry-unmarked-unknown"),
        },
        Body::PackNoted { pack, state } => format!("{pack}: {}", locale.inside(&state.word(locale))),
        Body::PackCharged { pack, put_back_mah } => match put_back_mah {
            Some(mah) => say!(locale, "entry-charged-with", pack = pack, mah = locale.number(*mah, 0)),
            None => say!(locale, "entry-charged", pack = pack),
        },
        Body::CellsRead { pack, low_v, high_v } => say!(
            locale,
            "entry-cells-read",
            pack = pack,
            low = locale.number(*low_v, 2),
            high = locale.quantity(*high_v, Unit::Volt)
        ),
        Body::CodeRefused { .. } => say!(locale, "entry-code-refused"),
        Body::WaitBegun { .. } => say!(locale, "entry-wait-begun"),
        Body::OpenedWithoutCode { .. } => say!(locale, "entry-opened-without"),
        Body::CodeSet { .. } => say!(locale, "entry-code-set"),
        Body::CodeRemoved {} => say!(locale, "entry-code-removed"),
        Body::LandingWaived { reason, .. } => say!(locale, "entry-landing-waived", reason = reason),
        Body::LandingRecorded { pack_used_mah, temperatures, confirmed, judgement, .. } => {
            let used = pack_used_mah
                .map_or_else(String::new, |used| say!(locale, "entry-landing-used", used = locale.number(used, 0)));
            let hottest = temperatures.iter().map(|reading| reading.celsius).max_by(f64::total_cmp);
            let hottest = hottest.map_or_else(String::new, |hottest| {
                say!(locale, "entry-landing-hottest", hottest = locale.rounded(hottest, 0, Unit::Celsius))
            });
            let so = if confirmed.is_empty() { String::new() } else { say!(locale, "entry-landing-confirmed") };
            let was = judgement_words(locale, judgement);
            say!(locale, "entry-landing", used = used, hottest = hottest, so = so, was = was)
        }
        Body::LogAttached { log, .. } => say!(locale, "entry-log", name = log.name, rows = log.rows.imported),
        Body::PhotoAttached { of, .. } => {
            say!(locale, "entry-photo", of = locale.inside(&photo_of_words(locale, plan, entries, of)))
        }
        Body::DisagreementExplained { why, .. } => say!(locale, "entry-explained", why = why),
        Body::FindingRaised { title, grade, .. } => {
            say!(locale, "entry-finding", grade = locale.inside(&grade.word(locale)), title = title)
        }
        Body::FindingFixed { finding: id, what, .. } => {
            say!(locale, "entry-fixed", finding = finding(id), what = what)
        }
        Body::FindingCarried { finding: id, restriction, .. } => {
            say!(locale, "entry-carried", finding = finding(id), restriction = restriction)
        }
        Body::GateReleased { stage, by, .. } => {
            say!(locale, "entry-gate-released", stage = stage_title(plan, stage), by = by)
        }
        Body::Withdrawn { entry: id, reason } => match named(id) {
            Some(other) => {
                say!(locale, "entry-withdrawn", entry = entry_words(locale, plan, entries, other), reason = reason)
            }
            None => say!(locale, "entry-withdrawn-unknown", reason = reason),
        },
    }
}

/// What a photo is of.
pub(crate) fn photo_of_words(locale: Locale, plan: &Plan, entries: &[Entry], of: &PhotoOf) -> String {
    match of {
        PhotoOf::Aircraft => say!(locale, "photo-of-aircraft"),
        PhotoOf::Check(check) => check_title(plan, check),
        PhotoOf::Finding(id) => match Entry::by_id(entries, *id).map(|entry| &entry.body) {
            Some(Body::FindingRaised { title, .. }) => title.clone(),
            _ => say!(locale, "blocker-finding"),
        },
    }
}

fn changed_with_it(locale: Locale, on_aircraft: OnAircraft) -> String {
    match on_aircraft {
        OnAircraft::Changed => say!(locale, "entry-thing-changed-on-it"),
        OnAircraft::NotSaid | OnAircraft::AsItWas => String::new(),
    }
}
