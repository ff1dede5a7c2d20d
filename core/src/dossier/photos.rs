//! The photos, small, each with what it is of and the digest of the file as it came.

use askama::Template;
use base64ct::{Base64, Encoding};

use super::labels::Words;
use super::page::{Page, Stretch, Written, joined};
use crate::locale::say;
use crate::record::PhotoOf;
use crate::view;

#[derive(Template)]
#[template(path = "dossier/photo.html")]
struct PhotoPart {
    words: Words,
    title: String,
    of: String,
    recorded: String,
    file: String,
    /// The photo, in base 64; empty where it cannot be shown.
    small: String,
    is_first: bool,
    is_last: bool,
}

pub(super) fn write(page: &Page<'_>, stretch: &Stretch, small: Option<&[u8]>) -> Written {
    let context = page.context;
    let locale = context.locale;
    let Some((number, photo)) = context.ledger.photos.all().nth(stretch.from) else { return Ok(String::new()) };
    let file = say!(
        locale,
        "dossier-photo-file",
        name = photo.photo.name,
        bytes = photo.photo.bytes,
        sha256 = photo.photo.sha256
    );
    PhotoPart {
        words: page.words(),
        title: say!(locale, "photo-title", number = number),
        of: view::photo_of_words(locale, context.plan, context.entries, &photo.of),
        recorded: joined(
            [
                page.when(&photo.at),
                page.entry_number(photo.entry),
                view::taken_words(locale, photo).unwrap_or_default(),
            ],
            ", ",
        ),
        file,
        small: in_page(small),
        is_first: stretch.is_first,
        is_last: stretch.is_last,
    }
    .render()
}

/// Where the photos of something are found: their titles, behind each other.
pub(super) fn seen_in(page: &Page<'_>, of: &PhotoOf) -> String {
    let title = |(number, _)| say!(page.locale(), "photo-title", number = number);
    joined(page.context.ledger.photos.of(of).map(title), ", ")
}

/// A photo as the page carries it; empty where there is none.
pub(super) fn in_page(small: Option<&[u8]>) -> String {
    small.map(Base64::encode_string).unwrap_or_default()
}
