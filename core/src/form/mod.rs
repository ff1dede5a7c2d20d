//! What can be typed where. Each form is a type that names its fields once, reads the drafts, knows its defaults and ranges, and
//! refuses what cannot be. A screen shows a form's fields by these names; a command reads them by the same type.

mod aircraft;
mod asked_day;
mod card;
mod check;
mod columns;
mod drafts;
mod emergency;
mod finding;
mod journal;
mod landing;
mod pack;
mod person;
mod plan_offer;
mod refusal;
mod remark;
mod removal;
mod set;
mod subjects;
mod tables;
mod thing;
mod without_phone;
mod words;

pub use aircraft::{ChangeForm, FigureForm, FindForm, NameForm, SettingForm};
pub use asked_day::{AskedDayForm, AskedNumber};
pub use card::{CardForm, flown_today, last_air_c};
pub use check::CheckForm;
pub use columns::ColumnsForm;
pub use drafts::Drafts;
pub use emergency::EmergencyForm;
pub use finding::{CarryForm, FixForm, NewFindingForm};
pub use journal::JournalForm;
pub use landing::{HowLong, LandingForm, Said};
pub use pack::{CellsForm, PutBackForm};
pub use person::last_people;
pub use plan_offer::{KeepsOut, PlanOfferForm, keeps_out};
pub use refusal::Refusal;
use refusal::Result;
pub use remark::{EventForm, ExplanationForm, MarkAnswerForm, WaiverForm, WithdrawalForm};
pub use removal::RemovalForm;
pub use subjects::SubjectsForm;
pub use tables::TablesForm;
pub use thing::ThingForm;
pub use without_phone::WithoutPhoneForm;
