//! The chain: its count and head, how anyone checks them, and the entries as they are stored.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written};
use crate::locale::say;
use crate::record::Body;

/// The lines that walk the chain on any computer; a test runs them on a page.
const CHECK: &str = include_str!("../../templates/dossier/check_chain.py");

#[derive(Template)]
#[template(path = "dossier/chain.html")]
struct Chain {
    words: Words,
    count: String,
    head: String,
    python: &'static str,
}

#[derive(Template)]
#[template(path = "dossier/record.html")]
struct Record {
    lines: Vec<String>,
}

#[derive(Template)]
#[template(path = "dossier/end.html")]
struct End {
    words: Words,
}

pub(super) fn write(page: &Page<'_>) -> Written {
    let kept_back = page.context.entries.iter().filter(|entry| matches!(entry.body, Body::CodeSet { .. })).count();
    let mut words = page.words();
    words.kept_back = match kept_back {
        0 => String::new(),
        count => say!(page.locale(), "dossier-kept-back", count = count),
    };
    words.of_others = match page.context.journal_count.saturating_sub(page.context.entries.len()) {
        0 => String::new(),
        count => say!(page.locale(), "dossier-of-others", count = count),
    };
    Chain { words, count: page.count(), head: page.verified.head.to_string(), python: CHECK }.render()
}

/// Entries as they are stored, a line each. What a page would take for its own marks is written by its number, which JSON reads the same.
pub(super) fn write_lines(lines: &[String]) -> Written {
    let harmless = |line: &String| line.replace('<', "\\u003c").replace('>', "\\u003e").replace('&', "\\u0026");
    Record { lines: lines.iter().map(harmless).collect() }.render()
}

pub(super) fn write_end(page: &Page<'_>) -> Written {
    let mut words = page.words();
    words.end = say!(page.locale(), "dossier-end", count = page.verified.count);
    End { words }.render()
}
