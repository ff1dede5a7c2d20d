//! The journal by its months and days: every entry is three touches away, however many there are.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{Datelike as _, NaiveDate};

use super::context::{heading, row};
use super::journal_rows::{entry_row, more_row};
use super::{Block, Context, Edge, Place, Screen};
use crate::form::JournalForm;
use crate::locale::{Locale, say};
use crate::record::Entry;

/// What a stretch of the journal holds.
#[derive(Default)]
struct Count {
    days: BTreeSet<NaiveDate>,
    entries: usize,
    runs: usize,
}

impl Count {
    fn take(&mut self, entry: &Entry, runs_began: &BTreeSet<i64>) {
        self.days.insert(day_of(entry));
        self.entries += 1;
        self.runs += usize::from(runs_began.contains(&entry.seq));
    }

    fn words(&self, locale: Locale) -> String {
        let entries = say!(locale, "journal-entries", count = self.entries);
        match self.runs {
            0 => entries,
            runs => format!("{entries}, {}", say!(locale, "common-motor-runs", count = runs)),
        }
    }
}

/// The day on which an entry was made, as the phone had it there and then.
fn day_of(entry: &Entry) -> NaiveDate {
    entry.at.wall.date_naive()
}

fn month_of(day: NaiveDate) -> String {
    day.format("%Y-%m").to_string()
}

fn month_words(locale: Locale, day: NaiveDate) -> String {
    format!("{} {}", say!(locale, "common-month", month = day.month()), day.year())
}

/// The months that have entries, the newest first.
pub(super) fn months(context: &Context<'_>) -> Vec<Block> {
    let locale = context.locale;
    let runs_began = context.ledger.runs_began();
    let mut months: BTreeMap<(i32, u32), Count> = BTreeMap::new();
    for entry in context.entries {
        let day = day_of(entry);
        months.entry((day.year(), day.month())).or_default().take(entry, &runs_began);
    }
    let mut blocks = vec![heading(say!(locale, "journal-months"), None)];
    blocks.extend(months.into_values().rev().filter_map(|count| {
        let first = *count.days.first()?;
        let days = say!(locale, "journal-days", count = count.days.len());
        let detail = format!("{days}, {}", count.words(locale));
        Some(row(Edge::None, "", month_words(locale, first), Some(detail), Place::JournalMonth(month_of(first))))
    }));
    blocks
}

/// The days of one month, the newest first.
pub(super) fn month(context: &Context<'_>, month: &str) -> Screen {
    let locale = context.locale;
    let runs_began = context.ledger.runs_began();
    let mut days: BTreeMap<NaiveDate, Count> = BTreeMap::new();
    for entry in context.entries.iter().filter(|entry| month_of(day_of(entry)) == month) {
        days.entry(day_of(entry)).or_default().take(entry, &runs_began);
    }
    let Some(first) = days.keys().next().copied() else { return context.gone("journal-month") };
    let rows = days.iter().rev().map(|(day, count)| {
        row(Edge::None, "", locale.date(*day), Some(count.words(locale)), Place::JournalDay(*day))
    });
    let blocks = rows.collect();
    context.screen("journal-month", month_words(locale, first), Some(say!(locale, "journal-title")), blocks)
}

/// The entries of one day, the newest first.
pub(super) fn day(context: &Context<'_>, day: NaiveDate) -> Screen {
    let locale = context.locale;
    let form = JournalForm::new(context.form);
    let of_day: Vec<&Entry> = context.entries.iter().rev().filter(|entry| day_of(entry) == day).collect();
    let mut blocks: Vec<Block> = of_day.iter().take(form.shown()).map(|entry| entry_row(context, entry)).collect();
    blocks.extend(more_row(context, &form, of_day.len()));
    let note = say!(locale, "journal-entries", count = of_day.len());
    context.screen("journal-day", locale.date(day), Some(note), blocks)
}
