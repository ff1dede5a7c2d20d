//! What records a page is closed while a field of it says, at its own place, that what is typed there cannot be: what would be refused
//! when touched does not look as if it would be taken. The reason stands at the field, so the control only sends there.

use super::Block;
use crate::locale::{Locale, say};

/// Why what is refused at its field cannot be recorded; none where nothing is.
pub(super) fn mend_first(locale: Locale, is_refused: bool) -> Option<String> {
    is_refused.then(|| say!(locale, "common-mend-first"))
}

/// Whether one of the fields to write in says that what is typed there cannot be. A stepper's flag may only say that a number is odd.
pub(super) fn is_refused(blocks: &[Block]) -> bool {
    blocks.iter().any(|block| matches!(block, Block::Entry { flag: Some(_), .. }))
}
