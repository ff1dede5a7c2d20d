//! The first page: whose aircraft it is, how it stands, who released what, and its figures.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written, joined, with_log};
use super::photos::in_page;
use crate::locale::{clock, say};
use crate::readiness::{FindingState, Gate};
use crate::view;

#[derive(Template)]
#[template(path = "dossier/opening.html")]
struct Opening {
    language: &'static str,
    words: Words,
    title: String,
    /// The same for the foot of each printed page, as a style sheet writes it.
    foot: String,
    aircraft: String,
    built: String,
    verdict: String,
    verdict_detail: String,
    blockers: Vec<String>,
    /// That the plan in force asks less than one before it; empty where it does not.
    looser: String,
    flown: String,
    carried: Vec<String>,
    gates: Vec<GatePart>,
    figures: Vec<FigurePart>,
    notice: String,
    count: String,
    head: String,
    contents: Vec<Line>,
    /// The aircraft, in base 64; empty where nobody attached a photo of it.
    photo: String,
}

struct GatePart {
    title: String,
    words: String,
    holds: String,
}

struct FigurePart {
    title: String,
    value: String,
    basis: String,
}

struct Line {
    anchor: &'static str,
    title: String,
}

pub(super) fn write(page: &Page<'_>, photo: Option<&[u8]>) -> Written {
    let context = page.context;
    let (locale, plan, ledger) = (context.locale, context.plan, context.ledger);
    let (verdict, verdict_detail) = view::verdict_words(context);
    let blockers = context.report.next.iter().flat_map(|next| &next.blockers);
    let head = page.verified.head.to_string();
    let title = say!(locale, "dossier-title", aircraft = context.aircraft_name());
    let foot = say!(locale, "dossier-foot", title = title, count = page.verified.count, head = head[..12]);
    Opening {
        language: locale.language.tag(),
        words: page.words(),
        foot: in_style(&foot),
        title,
        aircraft: context.aircraft_name(),
        built: built(page),
        verdict,
        verdict_detail,
        blockers: blockers.map(|blocker| view::blocker_words(locale, plan, ledger, blocker)).collect(),
        looser: view::looser_words(locale, context.loosened).unwrap_or_default(),
        flown: say!(
            locale,
            "dossier-flown-so-far",
            runs = ledger.runs,
            time = clock(ledger.motor_ms / 60_000),
            findings = ledger.findings.len()
        ),
        carried: carried(page),
        gates: gates(page),
        figures: figures(page),
        notice: plan.notice.trim().to_owned(),
        count: page.count(),
        head,
        contents: contents(page),
        photo: in_page(photo),
    }
    .render()
}

fn built(page: &Page<'_>) -> String {
    let context = page.context;
    let aircraft = &context.ledger.aircraft;
    let printed = format!("{} {}", page.when(context.now), context.now.wall.format("%:z"));
    let pilot = match aircraft.pilot == aircraft.builder || aircraft.pilot.is_empty() {
        true => String::new(),
        false => say!(context.locale, "dossier-flown-by", pilot = aircraft.pilot),
    };
    let built = say!(
        context.locale,
        "dossier-built",
        builder = aircraft.builder,
        plan = context.plan.title,
        edition = context.plan.edition,
        printed = printed
    );
    joined([built, pilot], " ")
}

/// What is flown with a written restriction.
fn carried(page: &Page<'_>) -> Vec<String> {
    let context = page.context;
    let carried = context.ledger.findings.iter().filter_map(|finding| match &finding.state {
        FindingState::Carried { restriction, by, until, .. } => Some(say!(
            context.locale,
            "dossier-carried-line",
            number = finding.number,
            title = finding.title,
            restriction = restriction,
            by = by,
            until = view::carried_words(context.locale, context.ledger, finding, until)
        )),
        _ => None,
    });
    carried.collect()
}

fn gates(page: &Page<'_>) -> Vec<GatePart> {
    let context = page.context;
    let part = |stage: &crate::plan::Stage| {
        let (holds, wanted) = context.progress(stage);
        GatePart {
            title: stage.title.clone(),
            words: gate_words(page, context.report.gate(&stage.id)),
            holds: match wanted {
                0 => String::new(),
                _ => say!(context.locale, "dossier-holds-of", holds = holds, wanted = wanted),
            },
        }
    };
    context.plan.stages.iter().map(part).collect()
}

/// How a gate stands, and who released it when.
pub(super) fn gate_words(page: &Page<'_>, gate: &Gate) -> String {
    let locale = page.locale();
    match gate {
        Gate::Released(release) => {
            let released = say!(locale, "dossier-released", by = release.by, when = page.when(&release.at));
            format!("{released} ({})", page.entry_number(release.entry))
        }
        Gate::Ready => say!(locale, "dossier-ready"),
        Gate::Shut { .. } => say!(locale, "dossier-shut"),
        Gate::Lapsed { release, .. } => {
            say!(locale, "dossier-lapsed-since", by = release.by, when = page.when(&release.at))
        }
        Gate::None => say!(locale, "dossier-recurring"),
    }
}

/// The answers that say which aircraft it is, and its figures with where each comes from.
fn figures(page: &Page<'_>) -> Vec<FigurePart> {
    let context = page.context;
    let (locale, aircraft) = (context.locale, &context.ledger.aircraft);
    let answers = context.plan.questions.iter().filter_map(|question| {
        let answer = aircraft.answers.get(&question.id)?;
        let label = question.choices.iter().find(|(id, _)| id == answer).map(|(_, label)| label.clone());
        Some(FigurePart { title: question.text.clone(), value: label?, basis: String::new() })
    });
    let figures = context.plan.figures.iter().filter_map(|figure| {
        let known = aircraft.figures.get(&figure.id)?;
        Some(FigurePart {
            title: figure.title.clone(),
            value: locale.quantity(known.value, figure.unit),
            basis: known.basis.word(locale),
        })
    });
    answers.chain(figures).collect()
}

fn contents(page: &Page<'_>) -> Vec<Line> {
    let words = page.words();
    let photos = page.context.ledger.photos.all().next();
    let photos = photos.map(|_| Line { anchor: "photos", title: words.photos.clone() });
    let logs = with_log(page.context).next().map(|_| Line { anchor: "logs", title: words.logs.clone() });
    let before = [
        ("stages", words.stages),
        ("findings", words.findings),
        ("ladder", words.ladder),
        ("settings", words.settings),
        ("flights", words.flights),
        ("packs", words.packs),
        ("parts", words.parts),
        ("fitted", words.fitted),
        ("trends", words.trends),
    ];
    let after = [("journal", words.journal), ("chain", words.chain_heading)];
    let line = |(anchor, title)| Line { anchor, title };
    before.into_iter().map(line).chain(photos).chain(logs).chain(after.into_iter().map(line)).collect()
}

/// A text as a string of a style sheet: everything but letters, digits and blanks by its number and the blank that
/// ends that, so that no text ends the string.
fn in_style(text: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || c == ' ';
    text.chars().map(|c| if plain(c) { c.to_string() } else { format!("\\{:x} ", u32::from(c)) }).collect()
}
