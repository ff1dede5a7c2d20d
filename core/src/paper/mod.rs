//! The card of a flight on one printed page, for the day on which no phone serves: what is due before it, at what it is called off, and
//! room for what is read after it. What was written on it is entered on the page of the same card later.

use askama::Template;

use crate::computed::{Conditions, predicted_charge};
use crate::field::wanted_places;
use crate::form::{CardForm, Drafts, last_air_c};
use crate::locale::{Locale, say};
use crate::plan::{Check, CheckKind, Fly, Stage};
use crate::readiness::{Blocker, Finding, PackStand};
use crate::record::MarkKind;
use crate::unit::Unit;
use crate::view::{self, Context};

/// What is due by the next day is on the page: it is printed the evening before.
const AHEAD_S: i64 = 24 * 60 * 60;
/// Lines for what the spotter notes in flight.
const NOTE_LINES: usize = 3;

#[derive(Template)]
#[template(path = "paper/card.html")]
struct Paper {
    language: &'static str,
    labels: Labels,
    title: String,
    flight: String,
    stage: String,
    printed: String,
    /// What no tick on paper can settle.
    in_the_way: Vec<String>,
    restrictions: Vec<String>,
    due: Vec<Due>,
    cautions: Vec<String>,
    head_speed: String,
    planned: String,
    packs: Vec<String>,
    expected: String,
    call_off: Vec<String>,
    marks: Vec<String>,
    note_lines: [(); NOTE_LINES],
    places: Vec<Limits>,
    temperature_sign: &'static str,
    emergency: String,
}

/// A check that is due, with what it is held against.
struct Due {
    title: String,
    held_against: String,
    /// The unit of what is read; none where it is looked at.
    unit: Option<&'static str>,
}

struct Limits {
    title: String,
    caution: String,
    stop: String,
}

/// The page's own words.
struct Labels {
    how: String,
    in_the_way: String,
    before: String,
    nothing_due: String,
    cautions: String,
    flight: String,
    head_speed: String,
    pack: String,
    planned: String,
    air: String,
    wind: String,
    pilot: String,
    spotter: String,
    call_off: String,
    in_flight: String,
    motor_on: String,
    touchdown: String,
    noted_at: String,
    noted_what: String,
    noted_words: String,
    after: String,
    place: String,
    reads: String,
    after_min: String,
    again: String,
    caution_above: String,
    stop_above: String,
    used: String,
    unit_used: &'static str,
    was: String,
    as_it_should_be: String,
    not_so: String,
    called_off: String,
    anything_else: String,
    later: String,
    later_how: String,
}

/// The page of a check that is flown; nothing where the plan has no such check.
///
/// # Errors
/// Only if its template cannot be filled.
pub(crate) fn card(context: &Context<'_>, id: &str) -> Option<Result<String, askama::Error>> {
    let (stage, check) = context.plan.check(id)?;
    let fly = check.fly()?;
    let tomorrow = context.now.earlier_by_s(-AHEAD_S);
    let blockers = context.ledger.before_flying(context.plan, id, &tomorrow);
    let (due, in_the_way): (Vec<&Blocker>, Vec<&Blocker>) =
        blockers.iter().partition(|blocker| with_a_pen(context, blocker).is_some());
    let words = |blocker: &Blocker| view::blocker_words(context.locale, context.plan, context.ledger, blocker);
    let blank = CardForm::new(Drafts::none(context.locale), context.facts(), check, fly, context.now);
    let planned_min = blank.planned_minutes(None);
    let ledger = context.ledger;
    let paper = Paper {
        language: context.locale.language.tag(),
        labels: labels(context.locale),
        title: context.aircraft_name(),
        flight: check.title.clone(),
        stage: stage.title.clone(),
        printed: printed(context),
        in_the_way: in_the_way.into_iter().map(words).collect(),
        restrictions: ledger.findings.iter().filter_map(Finding::restriction).map(str::to_owned).collect(),
        due: due
            .into_iter()
            .filter_map(|blocker| Some(due_on_paper(context, with_a_pen(context, blocker)?)))
            .collect(),
        cautions: cautions(context, stage, check),
        head_speed: context
            .ledger
            .aircraft
            .limit(&fly.head_speed_rpm)
            .map_or_else(String::new, |rpm| context.locale.quantity(rpm, Unit::RevolutionsPerMinute)),
        planned: context.locale.quantity(planned_min, Unit::Minute),
        packs: packs(context),
        expected: expected(context, check, fly, planned_min),
        call_off: fly.knock_off.clone(),
        marks: MarkKind::ALL.iter().map(|kind| kind.word(context.locale)).collect(),
        note_lines: [(); NOTE_LINES],
        places: wanted_places(context.plan, &context.ledger.aircraft, fly)
            .map(|place| Limits {
                title: place.title.clone(),
                caution: context.locale.quantity(place.caution_above_c, Unit::Celsius),
                stop: context.locale.quantity(place.stop_above_c, Unit::Celsius),
            })
            .collect(),
        temperature_sign: context.locale.shown(Unit::Celsius).sign,
        emergency: emergency(context),
    };
    Some(paper.render())
}

/// The check that a pen can settle: a look or a reading, which is entered later. What is computed, proved or released is none.
fn with_a_pen<'a>(context: &Context<'a>, blocker: &Blocker) -> Option<&'a Check> {
    let Blocker::Check { check, .. } = blocker else { return None };
    let (_, check) = context.plan.check(check)?;
    matches!(check.kind, CheckKind::Confirm | CheckKind::Measure(_)).then_some(check)
}

fn due_on_paper(context: &Context<'_>, check: &Check) -> Due {
    let unit = match &check.kind {
        CheckKind::Measure(measure) => Some(context.locale.shown(measure.unit).sign),
        _ => None,
    };
    Due { title: check.title.clone(), held_against: view::held_against_words(context, check).join(". "), unit }
}

fn printed(context: &Context<'_>) -> String {
    let locale = context.locale;
    let (day, time) = (locale.date(context.now.wall.date_naive()), context.now.wall.format("%H:%M").to_string());
    say!(locale, "paper-printed", day = day, time = time, count = context.journal_count)
}

fn cautions(context: &Context<'_>, stage: &Stage, check: &Check) -> Vec<String> {
    let named = context.named_cautions(check.cautions.iter().chain(&stage.cautions));
    named.into_iter().map(|caution| format!("{}. {}", caution.title, caution.text)).collect()
}

/// The charge that it is expected to take, with its interval, in air like the last flight's and a wind that nobody knows yet.
fn expected(context: &Context<'_>, check: &Check, fly: &Fly, planned_min: f64) -> String {
    let run_s = Some((planned_min * 60.0).round());
    let air_c = last_air_c(context.ledger);
    let head_rpm = context.ledger.aircraft.limit(&fly.head_speed_rpm).filter(|_| fly.predict);
    let asked = head_rpm.map(|head_rpm| Conditions { head_rpm, air_c, run_s, wind: None });
    let charge = asked.and_then(|asked| predicted_charge(context.facts(), check, asked));
    charge.map_or_else(String::new, |charge| {
        say!(
            context.locale,
            "paper-expected",
            used = context.locale.rounded(charge.used_mah, 0, Unit::MilliampereHour),
            low = context.locale.number(charge.low_mah, 0),
            high = context.locale.number(charge.high_mah, 0)
        )
    })
}

/// The packs that may be flown. What was done with them last is of the evening before.
fn packs(context: &Context<'_>) -> Vec<String> {
    context.ledger.packs().into_iter().filter(PackStand::may_fly).map(|pack| pack.name).collect()
}

fn emergency(context: &Context<'_>) -> String {
    let locale = context.locale;
    let first = say!(locale, "paper-emergency");
    match &context.ledger.emergency {
        Some(known) => format!(
            "{}: {}. {}. {first}",
            say!(locale, "emergency-title"),
            say!(locale, "emergency-call-now", call = known.call),
            known.address
        ),
        None => format!("{}: {}. {first}", say!(locale, "emergency-title"), say!(locale, "emergency-call-unknown")),
    }
}

fn labels(locale: Locale) -> Labels {
    Labels {
        how: say!(locale, "paper-how"),
        in_the_way: say!(locale, "paper-in-the-way"),
        before: say!(locale, "paper-before"),
        nothing_due: say!(locale, "paper-nothing-due"),
        cautions: say!(locale, "paper-cautions"),
        flight: say!(locale, "paper-flight"),
        head_speed: say!(locale, "card-head-speed"),
        pack: say!(locale, "paper-pack"),
        planned: say!(locale, "paper-planned"),
        air: say!(locale, "paper-air"),
        wind: say!(locale, "paper-wind"),
        pilot: say!(locale, "paper-pilot"),
        spotter: say!(locale, "paper-spotter"),
        call_off: say!(locale, "card-call-off"),
        in_flight: say!(locale, "paper-in-flight"),
        motor_on: say!(locale, "paper-motor-on"),
        touchdown: say!(locale, "paper-touchdown"),
        noted_at: say!(locale, "paper-noted-at"),
        noted_what: say!(locale, "paper-noted-what"),
        noted_words: say!(locale, "paper-noted-words"),
        after: say!(locale, "paper-after"),
        place: say!(locale, "paper-place"),
        reads: say!(locale, "paper-reads"),
        after_min: say!(locale, "paper-after-min"),
        again: say!(locale, "paper-again"),
        caution_above: say!(locale, "paper-caution-above"),
        stop_above: say!(locale, "paper-stop-above"),
        used: say!(locale, "landing-charge-used"),
        unit_used: locale.shown(Unit::MilliampereHour).sign,
        was: say!(locale, "paper-was"),
        as_it_should_be: say!(locale, "paper-as-it-should-be"),
        not_so: say!(locale, "paper-not-so"),
        called_off: say!(locale, "paper-called-off"),
        anything_else: say!(locale, "landing-anything-else"),
        later: say!(locale, "paper-later"),
        later_how: say!(locale, "paper-later-how"),
    }
}
