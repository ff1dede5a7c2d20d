//! The dossier in the making: the chain is walked, then one section comes after the other, in steps that a touch can come between.

use std::collections::{BTreeMap, VecDeque};

use super::AppError;
use super::leaving::Making;
use super::log::limits;
use super::log_import::{LogImport, Purpose, STEP_BYTES};
use super::photo;
use super::shared::Shared;
use crate::dossier::{self, Page, Read, Section, photo_of, sections};
use crate::drawing::Picture;
use crate::form::Drafts;
use crate::journal::{Digest, Verified};
use crate::locale::say;
use crate::record::{Entry, EntryId, Moment};
use crate::telemetry::Importing;
use crate::view;

/// Entries that are walked, or written as they are stored, in one step.
const ENTRIES_A_STEP: i64 = 1_000;
/// Entries that are worded in one step: each takes longer than its digest.
const WORDED_A_STEP: usize = 400;

/// Begins it as everything stands now.
pub(super) fn begin(shared: &Shared, now: &Moment) -> Result<Making, AppError> {
    let report = shared.report(now);
    let mut releases = BTreeMap::new();
    for release in shared.ledger.releases.values() {
        let Some(entry) = Entry::by_id(&shared.entries, release.entry) else { continue };
        releases.extend(shared.journal.digest_of(entry.seq)?.map(|digest| (release.entry, digest)));
    }
    let to_come: VecDeque<Section> = {
        let context = shared.context(&report, Drafts::none(shared.locale()), now);
        sections(&context, WORDED_A_STEP, ENTRIES_A_STEP).into()
    };
    let entries = shared.journal_count as u64;
    let logs = shared.ledger.flights.iter().filter_map(|flight| shared.ledger.logs.of_flight(flight.card));
    let all = entries.div_ceil(ENTRIES_A_STEP as u64)
        + to_come.len() as u64
        + logs.map(|log| log.bytes / STEP_BYTES).sum::<u64>();
    let walked = Verified { count: 0, head: Digest::NONE };
    Ok(Making { now: now.clone(), report, walked, releases, to_come, import: None, done: 0, all })
}

/// The next piece, empty where this step made none; none at the end.
///
/// # Errors
/// The chain does not close: what does not hold together is not printed as proof.
pub(super) fn next(making: &mut Making, shared: &Shared) -> Result<Option<String>, AppError> {
    making.done += 1;
    let entries = shared.journal_count as i64;
    if making.walked.count < entries {
        let walked = shared.journal.verify_on(making.walked, ENTRIES_A_STEP)?;
        if walked.count == making.walked.count {
            return Err(AppError::refused(say!(shared.locale(), "app-saving-cut", count = walked.count)));
        }
        making.walked = walked;
        return Ok(Some(String::new()));
    }
    let Some(section) = making.to_come.pop_front() else { return Ok(None) };
    let mut read = Read::default();
    match &section {
        Section::Log(card) => match plot(making, shared, *card)? {
            Plot::ToRead => {
                making.to_come.push_front(section);
                return Ok(Some(String::new()));
            }
            Plot::Read(plot) => read.plot = plot,
        },
        Section::Record { after } => read.lines = shared.journal.lines(*after, ENTRIES_A_STEP)?.0,
        _ => {}
    }
    let context = shared.context(&making.report, Drafts::none(shared.locale()), &making.now);
    read.photo = photo_of(&context, &section).and_then(|entry| photo::on_paper(shared, entry));
    let page = Page { context: &context, verified: making.walked, releases: &making.releases };
    let written = dossier::write(&page, &section, &read);
    written.map(Some).map_err(|error| AppError::refused(error.to_string()))
}

/// Reads a flight's log on by a step, and draws it once it is read.
fn plot(making: &mut Making, shared: &Shared, card: EntryId) -> Result<Plot, AppError> {
    let Some(log) = shared.ledger.logs.of_flight(card) else { return Ok(Plot::Read(None)) };
    let import = making.import.take().map(Ok);
    // A file that is damaged or missing has no plot, and that is all: its figures are in the journal.
    let begun = import.unwrap_or_else(|| LogImport::again(&shared.journal, Purpose::Show, card, log));
    let Ok(mut import) = begun else { return Ok(Plot::Read(None)) };
    match import.step(&shared.journal, STEP_BYTES) {
        Ok(Importing::MORE) => {
            making.import = Some(import);
            Ok(Plot::ToRead)
        }
        Ok(_) => Ok(Plot::Read(
            import
                .finish()
                .ok()
                .flatten()
                .map(|recording| view::plot_printed(shared.locale(), &recording, &limits(shared, card))),
        )),
        Err(_) => Ok(Plot::Read(None)),
    }
}

/// A log's plot, as far as it is.
enum Plot {
    ToRead,
    Read(Option<Picture>),
}
