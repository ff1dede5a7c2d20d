//! Photos: one that was picked is looked at and kept with the entry that attaches it, and one in view is made small.

use std::io::Read;

use sha2::{Digest as _, Sha256};

use super::AppError;
use super::done::{After, Done, one};
use super::shared::Shared;
use crate::journal::{Journal, OfferedLog, hexadecimal};
use crate::locale::{Locale, say};
use crate::photo::{Looked, MOST_BYTES, PhotoError, look, small};
use crate::readiness::Photo;
use crate::record::{AttachedPhoto, Body, EntryId, PhotoOf};
use crate::view::{self, PhotoLack, Place};

/// The longer side of a photo on a screen, pixels.
const ON_SCREEN_PX: u16 = 1_080;
/// The same on a printed page.
const ON_PAPER_PX: u16 = 640;

/// Refuses a file that is longer than is taken in.
pub(super) fn short_enough(locale: Locale, name: &str, bytes: u64) -> Result<(), AppError> {
    if bytes <= MOST_BYTES { Ok(()) } else { Err(refused(locale, name, &PhotoError::TooLong)) }
}

/// A photo is here as a whole: says what to append. The file is kept with that entry.
///
/// # Errors
/// It is no photo that can be shown: nothing of it is kept.
pub(super) fn attached(shared: &mut Shared, of: PhotoOf, name: &str, file: &OfferedLog) -> Result<Done, AppError> {
    let bytes = stored(&shared.journal, &file.name);
    let looked = bytes.ok_or(PhotoError::NotJpeg).and_then(|bytes| look(&bytes));
    let Looked { width_px, height_px, taken, .. } = match looked {
        Ok(looked) => looked,
        Err(error) => {
            shared.journal.discard_log()?;
            return Err(refused(shared.locale(), name, &error));
        }
    };
    let locale = shared.locale();
    let what = view::photo_of_words(locale, &shared.plan, &shared.entries, &of);
    let photo = AttachedPhoto {
        name: name.to_owned(),
        bytes: file.bytes,
        sha256: file.name.clone(),
        width_px,
        height_px,
        taken,
    };
    one(Body::PhotoAttached { of, photo }, say!(locale, "photo-attached", of = locale.inside(&what)), After::Keep)
}

fn refused(locale: Locale, name: &str, error: &PhotoError) -> AppError {
    let most = locale.megabytes(MOST_BYTES);
    AppError::refused(match error {
        PhotoError::NotJpeg => say!(locale, "photo-not-jpeg", name = name),
        PhotoError::TooLong => say!(locale, "photo-too-long", name = name, most = most),
        PhotoError::TooManyPixels(pixels) => {
            say!(locale, "photo-too-many-pixels", name = name, count = locale.number(*pixels as f64 / 1e6, 0))
        }
        PhotoError::Broken(_) => say!(locale, "photo-broken", name = name),
    })
}

/// Makes the photo of a place small, once; what was in view elsewhere is let go.
pub(super) fn open(shared: &mut Shared, place: &Place) {
    let Place::Photo(entry) = place else {
        shared.photo = None;
        return;
    };
    if shared.photo.as_ref().is_some_and(|(shown, _)| shown == entry) {
        return;
    }
    shared.photo = shared
        .ledger
        .photos
        .by_entry(*entry)
        .map(|(_, photo)| (*entry, made_small(&shared.journal, photo, ON_SCREEN_PX)));
}

/// A photo as small as a printed page needs it; none where it cannot be shown.
pub(super) fn on_paper(shared: &Shared, entry: EntryId) -> Option<Vec<u8>> {
    made_small(&shared.journal, shared.ledger.photos.by_entry(entry)?.1, ON_PAPER_PX).ok()
}

/// The file of a photo as it came; none where it is not here any more, or not what was attached.
pub(super) fn as_it_came(shared: &Shared, entry: EntryId) -> Option<Vec<u8>> {
    stored(&shared.journal, &shared.ledger.photos.by_entry(entry)?.1.photo.sha256)
}

fn made_small(journal: &Journal, photo: &Photo, most_px: u16) -> Result<Vec<u8>, PhotoLack> {
    let bytes = stored(journal, &photo.photo.sha256).ok_or(PhotoLack::Gone)?;
    small(&bytes, most_px).map_err(|_| PhotoLack::Unreadable)
}

/// A kept file whose bytes are still those of its name.
fn stored(journal: &Journal, name: &str) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    journal.read_log(name, 0).take(MOST_BYTES).read_to_end(&mut bytes).ok()?;
    (hexadecimal(&Sha256::digest(&bytes)) == name).then_some(bytes)
}
