//! The dossier: one HTML file that shows another person what was proved, how and when.

use std::collections::BTreeMap;

use askama::Template;

use crate::computed::{Computed, Facts};
use crate::journal::Verified;
use crate::locale::Locale;
use crate::plan::{CheckKind, Plan};
use crate::readiness::{FindingState, Gate, Ledger, Report, withdrawn};
use crate::record::{Entry, EntryId, Moment};
use crate::view;

#[derive(Template)]
#[template(path = "dossier.html")]
struct Dossier {
    aircraft: String,
    builder: String,
    plan: String,
    notice: String,
    printed: String,
    count: i64,
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

/// Writes the dossier as it stands now.
///
/// # Errors
/// Only if the template cannot be filled.
pub fn html(
    plan: &Plan,
    entries: &[Entry],
    ledger: &Ledger,
    verified: Verified,
    plots: &BTreeMap<EntryId, view::Picture>,
    now: &Moment,
) -> Result<String, askama::Error> {
    let report = ledger.at(plan, now);
    Dossier {
        aircraft: ledger.aircraft.name.clone(),
        builder: ledger.aircraft.builder.clone(),
        plan: format!("{}, edition {}", plan.title, plan.edition),
        notice: plan.notice.trim().to_owned(),
        printed: now.wall.format("%-d %B %Y, %H:%M %:z").to_string(),
        count: verified.count,
        head: verified.head.to_string(),
        stages: stages(plan, ledger, &report, now),
        findings: findings(plan, ledger),
        flights: ledger.flights.iter().filter(|flight| flight.started.is_some()).map(|f| flight(plan, f)).collect(),
        logs: logs(plan, entries, ledger, plots),
        entries: journal(plan, entries),
    }
    .render()
}

fn stages(plan: &Plan, ledger: &Ledger, report: &Report, now: &Moment) -> Vec<StagePart> {
    let part = |stage: &crate::plan::Stage| StagePart {
        title: stage.title.clone(),
        gate: match report.gate(&stage.id) {
            Gate::Released(release) => {
                format!("Released by {}, {}", release.by, release.at.wall.format("%-d %B %Y, %H:%M"))
            }
            Gate::Ready => "Ready, not released".to_owned(),
            Gate::Shut { .. } => "Shut".to_owned(),
            Gate::Lapsed { .. } => "Lapsed".to_owned(),
            Gate::None => "Recurring work".to_owned(),
        },
        checks: stage
            .checks
            .iter()
            .filter(|check| ledger.aircraft.wants(check))
            .map(|check| check_part(plan, ledger, report, check, now))
            .collect(),
    };
    plan.stages.iter().map(part).collect()
}

fn check_part(plan: &Plan, ledger: &Ledger, report: &Report, check: &crate::plan::Check, now: &Moment) -> CheckPart {
    let standing = report.standing(&check.id);
    let evidence = ledger.evidence.get(&check.id);
    let picture = match &check.kind {
        CheckKind::Compute(computation) => {
            Computed::of(*computation, Facts { plan, ledger, locale: Locale::default() })
                .ok()
                .and_then(|computed| computed.picture)
                .map(|picture| view::svg(&picture))
        }
        _ => None,
    };
    let recorded = evidence.map(|evidence| {
        let seen = evidence.witness.as_ref().map_or_else(String::new, |name| format!(", seen by {name}"));
        format!("{}{seen}", view::day_and_time(Locale::default(), &evidence.at.wall, now))
    });
    let parts: Vec<String> =
        recorded.into_iter().chain(view::standing_detail(Locale::default(), &standing)).collect();
    CheckPart {
        title: check.title.clone(),
        state: view::standing_word(Locale::default(), &standing).to_owned(),
        result: evidence
            .map_or_else(String::new, |evidence| view::result_words(Locale::default(), ledger, &evidence.of)),
        detail: parts.join(". "),
        picture: picture.unwrap_or_default(),
    }
}

fn findings(plan: &Plan, ledger: &Ledger) -> Vec<FindingPart> {
    let part = |finding: &crate::readiness::Finding| FindingPart {
        number: finding.number,
        title: finding.title.clone(),
        grade: finding.grade.word(Locale::default()),
        state: match &finding.state {
            FindingState::Carried { restriction, .. } => format!("Carried: {restriction}"),
            state => view::finding_word(Locale::default(), state).to_owned(),
        },
        fixes: finding.fixes.iter().map(|(_, what)| what.clone()).collect::<Vec<_>>().join("; "),
        proof: view::check_title(plan, &finding.proof),
    };
    ledger.findings.iter().map(part).collect()
}

fn flight(plan: &Plan, flight: &crate::field::Flight) -> FlightPart {
    let when = flight.started.as_ref().map(|at| at.wall.format("%-d %B %Y, %H:%M").to_string());
    let landing = flight.landing.as_ref();
    let places = flight.places(plan);
    let marks = flight.marks.iter();
    FlightPart {
        when: when.unwrap_or_default(),
        what: format!("{}, {:.0} rpm", view::check_title(plan, &flight.check), flight.head_speed_rpm),
        pack: flight.pack.clone(),
        spotter: flight.spotter.clone().unwrap_or_default(),
        time: flight.down.as_ref().map_or_else(String::new, |(_, ms)| view::clock(ms / 1_000)),
        used: landing.and_then(|l| l.pack_used_mah).map_or_else(String::new, |mah| format!("{mah:.0} mAh")),
        temperatures: places
            .iter()
            .map(|p| {
                let how = if p.worked_back { " at touchdown, worked back" } else { "" };
                format!("{} {:.0} °C{how}", p.title, p.celsius)
            })
            .collect::<Vec<_>>()
            .join(", "),
        marks: marks
            .map(|m| format!("{} {}", m.kind.word(Locale::default()), view::clock(m.elapsed_ms / 1_000)))
            .collect::<Vec<_>>()
            .join(", "),
    }
}

/// The logs that were attached, each with the plot that the phone shows and the figures that a limit or an interval belongs to.
fn logs(plan: &Plan, entries: &[Entry], ledger: &Ledger, plots: &BTreeMap<EntryId, view::Picture>) -> Vec<LogPart> {
    let part = |flight: &crate::field::Flight| {
        let log = view::log_of(entries, flight.card)?;
        let when = flight.started.as_ref().map(|at| at.wall.format(", %-d %B %Y, %H:%M").to_string());
        let rows = log.rows;
        Some(LogPart {
            what: format!("{}{}", view::check_title(plan, &flight.check), when.unwrap_or_default()),
            file: format!(
                "{}: {} rows read, {} left out, {} faults; SHA-256 {}",
                log.name, rows.imported, rows.left_out, log.fault_count, log.sha256
            ),
            figures: view::log_lines(log),
            picture: plots.get(&flight.card).map(view::svg).unwrap_or_default(),
        })
    };
    ledger.flights.iter().filter_map(part).collect()
}

fn journal(plan: &Plan, entries: &[Entry]) -> Vec<EntryPart> {
    let gone = withdrawn(entries);
    let part = |entry: &Entry| EntryPart {
        seq: entry.seq,
        when: entry.at.wall.format("%Y-%m-%d %H:%M %:z").to_string(),
        who: view::author_words(Locale::default(), &entry.author),
        what: view::entry_words(Locale::default(), plan, entries, entry),
        withdrawn: gone.get(&entry.id).cloned().unwrap_or_default(),
    };
    entries.iter().map(part).collect()
}
