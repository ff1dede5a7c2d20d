//! The dossier: one HTML file that shows another person what was proved, how and when.

mod labels;

use crate::unit::Unit;
use std::collections::BTreeMap;

use askama::Template;

use crate::computed::{Computed, Facts};
use crate::drawing::{Picture, svg};
use crate::journal::Verified;
use crate::locale::{Locale, clock, say};
use crate::plan::CheckKind;
use crate::readiness::{FindingState, Gate, Report, loosened};
use crate::record::{Entry, EntryId, Moment};
use crate::view;
use labels::Words;

#[derive(Template)]
#[template(path = "dossier.html")]
struct Dossier {
    language: &'static str,
    words: Words,
    title: String,
    aircraft: String,
    built: String,
    notice: String,
    /// That the plan in force asks less than one before it; empty where it does not.
    looser: String,
    count: String,
    head: String,
    stages: Vec<StagePart>,
    findings: Vec<FindingPart>,
    flights: Vec<FlightPart>,
    logs: Vec<LogPart>,
    entries: Vec<EntryPart>,
}

struct LogPart {
    what: String,
    file: String,
    figures: Vec<view::LogLine>,
    picture: String,
}

struct StagePart {
    title: String,
    gate: String,
    checks: Vec<CheckPart>,
}

struct CheckPart {
    title: String,
    state: String,
    result: String,
    detail: String,
    picture: String,
}

struct FindingPart {
    number: usize,
    title: String,
    grade: String,
    state: String,
    fixes: String,
    proof: String,
}

struct FlightPart {
    when: String,
    what: String,
    pack: String,
    spotter: String,
    time: String,
    used: String,
    temperatures: String,
    marks: String,
}

struct EntryPart {
    seq: i64,
    when: String,
    who: String,
    what: String,
    withdrawn: String,
}

/// Writes the dossier as it stands now, for someone who reads like whoever prints it.
///
/// # Errors
/// Only if the template cannot be filled.
pub(crate) fn html(
    facts: Facts<'_>,
    entries: &[Entry],
    verified: Verified,
    plots: &BTreeMap<EntryId, Picture>,
    now: &Moment,
) -> Result<String, askama::Error> {
    let Facts { plan, ledger, locale } = facts;
    let report = ledger.at(plan, now);
    let printed = format!("{} {}", date_and_time(locale, now), now.wall.format("%:z"));
    let aircraft = &ledger.aircraft;
    Dossier {
        language: locale.language.tag(),
        words: Words::of(locale),
        title: say!(locale, "dossier-title", aircraft = aircraft.name),
        aircraft: aircraft.name.clone(),
        built: say!(
            locale,
            "dossier-built",
            builder = aircraft.builder,
            plan = plan.title,
            edition = plan.edition,
            printed = printed
        ),
        notice: plan.notice.trim().to_owned(),
        looser: view::looser_words(locale, &loosened(entries, plan)).unwrap_or_default(),
        count: say!(locale, "dossier-count", count = verified.count),
        head: verified.head.to_string(),
        stages: stages(facts, &report, now),
        findings: findings(facts),
        flights: ledger.flights.iter().filter(|flight| flight.started.is_some()).map(|f| flight(facts, f)).collect(),
        logs: logs(facts, plots),
        entries: journal(facts, entries),
    }
    .render()
}

fn date_and_time(locale: Locale, at: &Moment) -> String {
    format!("{}, {}", locale.date(at.wall.date_naive()), at.wall.format("%H:%M"))
}

fn stages(facts: Facts<'_>, report: &Report, now: &Moment) -> Vec<StagePart> {
    let Facts { plan, ledger, locale } = facts;
    let part = |stage: &crate::plan::Stage| StagePart {
        title: stage.title.clone(),
        gate: match report.gate(&stage.id) {
            Gate::Released(release) => {
                say!(locale, "dossier-released", by = release.by, when = date_and_time(locale, &release.at))
            }
            Gate::Ready => say!(locale, "dossier-ready"),
            Gate::Shut { .. } => say!(locale, "dossier-shut"),
            Gate::Lapsed { .. } => say!(locale, "dossier-lapsed"),
            Gate::None => say!(locale, "dossier-recurring"),
        },
        checks: stage
            .checks
            .iter()
            .filter(|check| ledger.aircraft.wants(check))
            .map(|check| check_part(facts, report, check, now))
            .collect(),
    };
    plan.stages.iter().map(part).collect()
}

fn check_part(facts: Facts<'_>, report: &Report, check: &crate::plan::Check, now: &Moment) -> CheckPart {
    let Facts { plan, ledger, locale } = facts;
    let standing = report.standing(&check.id);
    let evidence = ledger.evidence.get(&check.id);
    let picture = match &check.kind {
        CheckKind::Compute(computation) => {
            Computed::of(*computation, facts).ok().and_then(|computed| computed.picture).map(|picture| svg(&picture))
        }
        _ => None,
    };
    let recorded = evidence.map(|evidence| {
        let when = view::day_and_time(locale, &evidence.at.wall, now);
        match &evidence.witness {
            Some(name) => say!(locale, "dossier-seen-by", when = when, name = name),
            None => when,
        }
    });
    let parts: Vec<String> = recorded.into_iter().chain(view::standing_detail(locale, plan, &standing)).collect();
    CheckPart {
        title: check.title.clone(),
        state: view::standing_word(locale, &standing),
        result: evidence.map_or_else(String::new, |evidence| view::result_words(locale, ledger, &evidence.of)),
        detail: parts.join(". "),
        picture: picture.unwrap_or_default(),
    }
}

fn findings(facts: Facts<'_>) -> Vec<FindingPart> {
    let locale = facts.locale;
    let part = |finding: &crate::readiness::Finding| FindingPart {
        number: finding.number,
        title: finding.title.clone(),
        grade: finding.grade.word(locale),
        state: match &finding.state {
            FindingState::Carried { restriction, .. } => {
                say!(locale, "dossier-carried", restriction = restriction)
            }
            state => view::finding_word(locale, state),
        },
        fixes: finding.fixes.iter().map(|(_, what)| what.clone()).collect::<Vec<_>>().join("; "),
        proof: view::check_title(facts.plan, &finding.proof),
    };
    facts.ledger.findings.iter().map(part).collect()
}

fn flight(facts: Facts<'_>, flight: &crate::field::Flight) -> FlightPart {
    let Facts { plan, locale, .. } = facts;
    let landing = flight.landing.as_ref();
    let places = flight.places(plan);
    let marks = flight.marks.iter();
    FlightPart {
        when: flight.started.as_ref().map_or_else(String::new, |at| date_and_time(locale, at)),
        what: say!(
            locale,
            "dossier-flown",
            check = view::check_title(plan, &flight.check),
            speed = locale.rounded(flight.head_speed_rpm, 0, Unit::RevolutionsPerMinute)
        ),
        pack: flight.pack.clone(),
        spotter: flight.spotter.clone().unwrap_or_default(),
        time: flight.flown_ms().map_or_else(String::new, |ms| clock(ms / 1_000)),
        used: landing
            .and_then(|l| l.pack_used_mah)
            .map_or_else(String::new, |mah| locale.rounded(mah, 0, Unit::MilliampereHour)),
        temperatures: places
            .iter()
            .map(|p| {
                let temperature = locale.rounded(p.celsius, 0, Unit::Celsius);
                if p.worked_back {
                    say!(locale, "dossier-worked-back", place = p.title, temperature = temperature)
                } else {
                    say!(locale, "dossier-read", place = p.title, temperature = temperature)
                }
            })
            .collect::<Vec<_>>()
            .join(", "),
        marks: marks
            .map(|m| format!("{} {}", m.kind.word(locale), clock(m.elapsed_ms / 1_000)))
            .collect::<Vec<_>>()
            .join(", "),
    }
}

/// The logs that were attached, each with the plot that the phone shows and the figures that a limit or an interval belongs to.
fn logs(facts: Facts<'_>, plots: &BTreeMap<EntryId, Picture>) -> Vec<LogPart> {
    let locale = facts.locale;
    let part = |flight: &crate::field::Flight| {
        let log = facts.ledger.logs.of_flight(flight.card)?;
        let when = flight.started.as_ref().map(|at| format!(", {}", date_and_time(locale, at)));
        let rows = log.rows;
        Some(LogPart {
            what: format!("{}{}", view::check_title(facts.plan, &flight.check), when.unwrap_or_default()),
            file: say!(
                locale,
                "dossier-log-file",
                name = log.name,
                rows = rows.imported,
                left_out = rows.left_out,
                faults = log.fault_count,
                sha256 = log.sha256
            ),
            figures: view::log_lines(locale, log),
            picture: plots.get(&flight.card).map(svg).unwrap_or_default(),
        })
    };
    facts.ledger.flights.iter().filter_map(part).collect()
}

fn withdrawn_words(facts: Facts<'_>, entry: &Entry) -> String {
    let why = facts.ledger.withdrawals.of(entry.id).map(|withdrawal| withdrawal.reason.as_str());
    why.map(|why| say!(facts.locale, "dossier-withdrawn", why = why)).unwrap_or_default()
}

fn journal(facts: Facts<'_>, entries: &[Entry]) -> Vec<EntryPart> {
    let locale = facts.locale;
    let part = |entry: &Entry| EntryPart {
        seq: entry.seq,
        when: entry.at.wall.format("%Y-%m-%d %H:%M %:z").to_string(),
        who: view::author_words(locale, &entry.author),
        what: view::entry_words(locale, facts.plan, entries, entry),
        withdrawn: withdrawn_words(facts, entry),
    };
    entries.iter().map(part).collect()
}
