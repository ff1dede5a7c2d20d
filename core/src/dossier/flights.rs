//! Flights and runs, each on a line.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Stretch, Written, flown, joined};
use crate::field::{Flight, Mark, MarkAnswer};
use crate::locale::{clock, say};
use crate::record::Judgement;
use crate::unit::Unit;
use crate::view;

#[derive(Template)]
#[template(path = "dossier/flights.html")]
struct Flights {
    words: Words,
    flights: Vec<FlightPart>,
    is_first: bool,
    is_last: bool,
}

struct FlightPart {
    number: String,
    when: String,
    what: String,
    pack: String,
    spotter: String,
    time: String,
    used: String,
    temperatures: String,
    noted: Vec<String>,
}

pub(super) fn write(page: &Page<'_>, stretch: &Stretch) -> Written {
    let flights = flown(page.context).skip(stretch.from).take(stretch.to - stretch.from);
    let flights = flights.map(|flight| part(page, flight)).collect();
    Flights { words: page.words(), flights, is_first: stretch.is_first, is_last: stretch.is_last }.render()
}

fn part(page: &Page<'_>, flight: &Flight) -> FlightPart {
    let context = page.context;
    let (plan, locale) = (context.plan, context.locale);
    let check = say!(
        locale,
        "dossier-flown",
        check = view::check_title(plan, &flight.check),
        speed = locale.rounded(flight.head_speed_rpm, 0, Unit::RevolutionsPerMinute)
    );
    let air = say!(locale, "dossier-air", air = locale.rounded(flight.air_c, 0, Unit::Celsius));
    let wind = flight.wind.map(|wind| view::wind_words(locale, wind));
    FlightPart {
        number: context.ledger.run_number(flight.card).map_or_else(String::new, |number| number.to_string()),
        when: flight.started.as_ref().map_or_else(String::new, |at| page.when(at)),
        what: std::iter::once(format!("{check}, {air}")).chain(wind).collect::<Vec<_>>().join(", "),
        pack: flight.pack_names(),
        spotter: flight.spotter.clone().unwrap_or_default(),
        time: flight.flown_ms().map_or_else(String::new, |ms| clock(ms / 1_000)),
        used: used(page, flight),
        temperatures: temperatures(page, flight),
        noted: noted(page, flight),
    }
}

/// The charge that it took, beside what was expected.
fn used(page: &Page<'_>, flight: &Flight) -> String {
    let locale = page.locale();
    let charge = |mah: f64| locale.rounded(mah, 0, Unit::MilliampereHour);
    let read = flight.landing.as_ref().and_then(|landing| landing.pack_used_mah).map(charge).unwrap_or_default();
    let expected = flight.expected().map(|expected| {
        say!(locale, "dossier-expected", low = locale.number(expected.low_mah, 0), high = charge(expected.high_mah))
    });
    joined([read, expected.unwrap_or_default()], "; ")
}

fn temperatures(page: &Page<'_>, flight: &Flight) -> String {
    let locale = page.locale();
    let places = flight.places(page.context.plan).into_iter().map(|place| {
        let temperature = locale.rounded(place.celsius, 0, Unit::Celsius);
        let read = match place.worked_back {
            true => say!(locale, "dossier-worked-back", place = place.title, temperature = temperature),
            false => say!(locale, "dossier-read", place = place.title, temperature = temperature),
        };
        let limit =
            place.limit_c.map(|limit| say!(locale, "dossier-past", limit = locale.rounded(limit, 0, Unit::Celsius)));
        joined([read, limit.unwrap_or_default()], ", ")
    });
    places.collect::<Vec<_>>().join("; ")
}

/// What the spotter noted with what the pilot said of it, how the run was, and remarks.
fn noted(page: &Page<'_>, flight: &Flight) -> Vec<String> {
    let locale = page.locale();
    let marks = flight.marks.iter().map(|mark| mark_words(page, mark));
    let landing = flight.landing.as_ref();
    let judged = landing.and_then(|landing| match &landing.judgement {
        Judgement::AsItShouldBe => Some(say!(locale, "dossier-as-it-should")),
        Judgement::NotSo { why } => Some(say!(locale, "dossier-not-so", why = why)),
        Judgement::CalledOff { why } => Some(say!(locale, "dossier-called-off", why = why)),
        Judgement::NotAsked | Judgement::Open => None,
    });
    let waived = flight.waived.as_ref().map(|waived| say!(locale, "entry-landing-waived", reason = waived));
    let remarks = landing.and_then(|landing| landing.notes.clone());
    marks.chain(judged).chain(waived).chain(remarks).collect()
}

fn mark_words(page: &Page<'_>, mark: &Mark) -> String {
    let seen = format!("{} {}", mark.kind.word(page.locale()), clock(mark.elapsed_ms / 1_000));
    match &mark.answer {
        Some(MarkAnswer::Nothing(words)) => format!("{seen}: {words}"),
        Some(MarkAnswer::Finding(id)) => {
            let number = page.context.ledger.finding(*id).map_or(0, |finding| finding.number);
            format!("{seen}: {}", say!(page.locale(), "dossier-mark-finding", number = number))
        }
        None => seen,
    }
}
