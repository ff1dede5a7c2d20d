//! The photos that were attached.

use crate::record::{AttachedPhoto, Entry, EntryId, Moment, PhotoOf};

/// A photo that was attached and not taken back.
#[derive(Debug, Clone, PartialEq)]
pub struct Photo {
    /// The entry that attached it.
    pub entry: EntryId,
    /// When that was.
    pub at: Moment,
    /// What it is of.
    pub of: PhotoOf,
    /// It.
    pub photo: AttachedPhoto,
}

/// The photos that stand, oldest first.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Photos(Vec<Photo>);

impl Photos {
    /// Each with its number, counted from 1.
    pub fn all(&self) -> impl Iterator<Item = (usize, &Photo)> {
        (1..).zip(&self.0)
    }

    /// Those of something.
    pub fn of<'a>(&'a self, of: &'a PhotoOf) -> impl Iterator<Item = (usize, &'a Photo)> {
        self.all().filter(move |(_, photo)| photo.of == *of)
    }

    /// The one that an entry attached, with its number.
    pub fn by_entry(&self, entry: EntryId) -> Option<(usize, &Photo)> {
        self.all().find(|(_, photo)| photo.entry == entry)
    }

    pub(super) fn attach(&mut self, entry: &Entry, of: &PhotoOf, photo: &AttachedPhoto) {
        self.0.push(Photo { entry: entry.id, at: entry.at.clone(), of: of.clone(), photo: photo.clone() });
    }
}
