//! The typed entries of the journal, the identifiers in them, and quantities with their units.

mod belongs;
mod entry;
mod id;
mod moment;
mod thing;
mod thing_number;

pub use entry::{
    AttachedLog, AttachedPhoto, Author, Basis, Body, CheckResult, Entry, FindingGrade, Gap, JudgedList, Judgement,
    MarkKind, NamedValue, Odd, Outcome, Outlier, PackState, PhotoOf, Prediction, Reading, StoredBody,
    StoredFormError, Until, Wind, WithoutPhone,
};
pub use id::{AircraftId, EntryId};
pub use moment::Moment;
pub use thing::{OnAircraft, Thing, ThingField, ThingKind, ThingRef};
pub use thing_number::ThingNumber;
