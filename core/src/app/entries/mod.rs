//! What each command that records appends: it reads its form, refuses what cannot be, and says where the pilot is then.

mod aircraft;
mod author;
mod card;
mod check;
mod dispatch;
mod finding;
mod gate;
mod landing;
mod pack;
mod plan;
mod wanted;
mod withdrawal;

pub(super) use dispatch::appended;
