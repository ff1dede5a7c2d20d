//! A backup, or a journal that was set aside, on its way back: unpacked and checked step by step, compared, and put in place.

use super::AppError;
use super::brought::{BringingIn, Stage};
use super::opened::Opened;
use super::shared::Shared;
use crate::journal::{Journal, JournalError, LastBackup, Unpacking};
use crate::locale::say;
use crate::readiness::is_told;
use crate::record::{Body, Entry, Moment};
use crate::view::{Holds, Offer, Place};

/// Its bytes are here: goes to where it is unpacked. What is no backup at all is told there too.
pub(super) fn arrived(
    shared: &mut Shared,
    name: &str,
    unpacking: Result<Unpacking, JournalError>,
) -> Result<(), AppError> {
    let stage = unpacking.map_or_else(Stage::Refused, |unpacking| Stage::Unpacking(Box::new(unpacking)));
    shared.go(Place::BackupOffer)?;
    shared.brought = Some(BringingIn { name: name.to_owned(), stage });
    Ok(())
}

/// Unpacks it on by a step; once it is whole, it is compared.
pub(super) fn step(shared: &mut Shared) -> Result<(), AppError> {
    let Some(BringingIn { name, stage }) = shared.brought.take() else { return Ok(()) };
    let stage = match stage {
        Stage::Unpacking(mut unpacking) => match unpacking.step() {
            Ok(false) => Stage::Unpacking(unpacking),
            Ok(true) => {
                let left_out = unpacking.left_out();
                offered(shared, unpacking.into_journal(), left_out, true)
            }
            Err(why) => Stage::Refused(why),
        },
        done => done,
    };
    shared.brought = Some(BringingIn { name, stage });
    Ok(())
}

/// Compares a journal that was set aside with the one that is here, as a backup is compared.
pub(super) fn compare(shared: &mut Shared, number: u32) -> Result<(), AppError> {
    let copied = shared.journal.copy_of(number).map_err(AppError::from)?;
    let name = say!(shared.locale(), "backup-aside-named", number = number);
    shared.go(Place::BackupOffer)?;
    let stage = offered(shared, copied, 0, false);
    shared.brought = Some(BringingIn { name, stage });
    Ok(())
}

fn offered(shared: &Shared, made: Journal, logs_left_out: usize, is_backup: bool) -> Stage {
    match offer(shared, &made, logs_left_out) {
        Ok(offer) => Stage::Offered { made: Box::new(made), offer, is_backup },
        Err(why) => Stage::Refused(why),
    }
}

fn offer(shared: &Shared, made: &Journal, logs_left_out: usize) -> Result<Offer, JournalError> {
    let compared = shared.journal.compare(made)?;
    let here = shared.journal.entries()?;
    let alone = usize::try_from(compared.common).ok().and_then(|common| here.get(common));
    Ok(Offer {
        compared,
        here: holds(&here),
        brought: holds(&made.entries()?),
        logs_left_out,
        here_is_new: !here.iter().any(is_told),
        lost_from: alone.map(|entry| entry.at.wall),
    })
}

fn holds(entries: &[Entry]) -> Holds {
    let named = entries.iter().rev().find_map(|entry| match &entry.body {
        Body::AircraftNamed { name, .. } => Some(name.clone()),
        _ => None,
    });
    Holds {
        aircraft: named.unwrap_or_default(),
        entries: entries.len() as i64,
        last: entries.last().map(|entry| entry.at.wall),
    }
}

/// Puts it in place of the record that is here, which is set aside.
pub(super) fn lay_in(shared: &mut Shared, now: &Moment) -> Result<String, AppError> {
    let Some(BringingIn { stage: Stage::Offered { mut made, offer, is_backup }, name }) = shared.brought.take()
    else {
        return Err(AppError::refused(say!(shared.locale(), "app-other-screen")));
    };
    // How this phone reads and types stays with the phone.
    made.keep_chosen(shared.chosen)?;
    if is_backup {
        keep_as_last(&mut made, offer.compared.brought, now)?;
    }
    // Read before it is in place: after that, nothing is left that could fail.
    let opened = Opened::read(&mut made, now)?;
    if let Err(why) = shared.journal.lay_in(*made) {
        if let JournalError::BetweenTwo = why {
            return Err(why.into());
        }
        shared.brought = Some(BringingIn { name, stage: Stage::Refused(why) });
        return Ok(say!(shared.locale(), "backup-nothing-changed"));
    }
    shared.go_on_with(opened);
    Ok(say!(shared.locale(), "backup-laid-in", entries = offer.compared.brought))
}

/// What came out of a backup is in one.
fn keep_as_last(made: &mut Journal, count: i64, now: &Moment) -> Result<(), JournalError> {
    let head = made.digest_of(count)?.map(|digest| digest.to_string()).unwrap_or_default();
    made.keep_last_backup(&LastBackup::new(now.wall, count, &head))
}

/// Lets go of a journal that was set aside, for good.
pub(super) fn let_go(shared: &mut Shared, number: u32) -> Result<String, AppError> {
    shared.journal.let_go(number);
    shared.back()?;
    Ok(say!(shared.locale(), "backup-gone-for-good", number = number))
}
