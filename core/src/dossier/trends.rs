//! How the aircraft ages: the same words and drawings as on the phone.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written, joined};
use crate::drawing::svg;
use crate::view::{self, Block};

#[derive(Template)]
#[template(path = "dossier/trends.html")]
struct Trends {
    words: Words,
    lines: Vec<Line>,
}

/// One block of the phone's page.
#[derive(Default)]
struct Line {
    title: String,
    text: String,
    picture: String,
}

pub(super) fn write(page: &Page<'_>) -> Written {
    let lines = view::trends_printed(page.context).into_iter().map(line).collect();
    Trends { words: page.words(), lines }.render()
}

fn line(block: Block) -> Line {
    match block {
        Block::Verdict { text, detail, .. } => {
            Line { text: joined([text, detail.unwrap_or_default()], " "), ..Line::default() }
        }
        Block::Heading { text, note } => {
            Line { title: joined([text, note.unwrap_or_default()], ", "), ..Line::default() }
        }
        Block::Paragraph { text, .. } => Line { text, ..Line::default() },
        Block::Row { title, detail, .. } => {
            Line { text: joined([title, detail.unwrap_or_default()], ": "), ..Line::default() }
        }
        Block::Figure { label, value, unit, note, .. } => {
            let value = joined([value, unit], " ");
            Line { text: joined([format!("{label}: {value}"), note.unwrap_or_default()], ". "), ..Line::default() }
        }
        Block::Drawing { picture } => Line { picture: svg(&picture), ..Line::default() },
        _ => Line::default(),
    }
}
