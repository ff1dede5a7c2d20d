//! Photos: a list of those of something, the ways to attach one, and one photo with what is known of it.

use super::context::{heading, in_groups, paragraph, row, still_row};
use super::{
    Block, Context, Control, Document, Edge, Icon, Offered, PhotoLack, Place, Screen, Tone, Wanted, photo_of_words,
};
use crate::locale::{Locale, say};
use crate::readiness::Photo;
use crate::record::{EntryId, PhotoOf};

/// The media type of what a camera writes.
const JPEG: &str = "image/jpeg";

/// The photos of something, newest first, and the ways to attach one.
pub(super) fn photos(context: &Context<'_>, of: &PhotoOf) -> Vec<Block> {
    let locale = context.locale;
    let mut blocks = Vec::new();
    let attached: Vec<(usize, &Photo)> = context.ledger.photos.of(of).collect();
    if !attached.is_empty() {
        blocks.push(heading(say!(locale, "photo-heading"), None));
    }
    blocks.extend(attached.into_iter().rev().map(|(number, photo)| {
        let when = super::day_and_time(locale, &photo.at.wall, context.now);
        let title = say!(locale, "photo-number", number = number, when = when);
        row(Edge::None, "", title, Some(size(locale, photo)), Place::Photo(photo.entry))
    }));
    let wanted = |words: String, document| {
        Control::new(Wanted::Photo(of.clone()).into(), words).icon(Icon::Add).document(document)
    };
    let take = wanted(say!(locale, "photo-take"), Document::Take);
    let pick = wanted(say!(locale, "photo-add"), Document::Pick { media_types: vec![JPEG.to_owned()] });
    blocks.push(Block::Choice { label: String::new(), options: vec![take, pick] });
    blocks
}

/// One photo, small, with what is known of it.
pub(super) fn photo(context: &Context<'_>, entry: EntryId) -> Screen {
    let locale = context.locale;
    let Some((number, photo)) = context.ledger.photos.by_entry(entry) else {
        return context.gone("photo");
    };
    let of = photo_of_words(locale, context.plan, context.entries, &photo.of);
    let shown = match context.photo {
        Some(Ok(jpeg)) => {
            Block::Photo { jpeg: jpeg.to_vec(), spoken: say!(locale, "photo-spoken", of = locale.inside(&of)) }
        }
        Some(Err(PhotoLack::Unreadable)) => paragraph(say!(locale, "photo-unreadable"), Tone::Plain),
        Some(Err(PhotoLack::Gone)) | None => paragraph(say!(locale, "photo-gone"), Tone::Call),
    };
    let when = super::day_and_time(locale, &photo.at.wall, context.now);
    let mut blocks = vec![shown];
    blocks.push(row(Edge::None, "", say!(locale, "photo-recorded", when = when), None, Place::Entry(entry)));
    blocks.push(still_row(Edge::None, "", photo.photo.name.clone(), Some(size(locale, photo))));
    blocks.extend(taken_words(locale, photo).map(|words| still_row(Edge::None, "", words, None)));
    let digest = in_groups(&photo.photo.sha256);
    blocks.push(still_row(Edge::None, "", say!(locale, "photo-digest"), Some(digest)));
    blocks.push(paragraph(say!(locale, "photo-kept"), Tone::Quiet));
    let name = format!("{}-{}.jpg", context.file_stem(), say!(locale, "photo-file-word", number = number));
    let save = Control::new(Offered::Photo(entry).into(), say!(locale, "photo-save"))
        .icon(Icon::Book)
        .document(Document::Save { name, media_type: JPEG.to_owned() });
    Screen {
        foot: vec![save],
        ..context.screen("photo", say!(locale, "photo-title", number = number), Some(of), blocks)
    }
}

/// When it was taken, by the camera's own clock.
pub(crate) fn taken_words(locale: Locale, photo: &Photo) -> Option<String> {
    let taken = photo.photo.taken?;
    let (day, time) = (locale.date(taken.date()), taken.format("%H:%M").to_string());
    Some(say!(locale, "photo-taken", day = day, time = time))
}

fn size(locale: Locale, photo: &Photo) -> String {
    let megabytes = locale.megabytes(photo.photo.bytes);
    say!(locale, "photo-size", width = photo.photo.width_px, height = photo.photo.height_px, megabytes = megabytes)
}
