//! Which file answers which command.

use super::{aircraft, card, check, finding, gate, landing, pack, plan, withdrawal};
use crate::app::AppError;
use crate::app::done::{After, Done, one};
use crate::app::log;
use crate::app::shared::Shared;
use crate::form::Drafts;
use crate::locale::say;
use crate::record::{Body, Moment};
use crate::view::{Place, Record};

/// What a command comes to, from what was typed at `place`; none while a log is still being read for it.
pub fn appended(
    shared: &mut Shared,
    command: Record,
    place: &Place,
    drafts: Drafts<'_>,
    now: &Moment,
) -> Result<Option<Done>, AppError> {
    let done = match command {
        Record::Check { check: id, passed } => check::record(shared, &id, passed, drafts, now),
        Record::Tick { check: id, value } => check::tick(shared, &id, value, now),
        Record::Charged(name) => pack::charged(shared, name, place, drafts),
        Record::ChargedAll(names) => pack::charged_all(shared, names),
        Record::CellsRead(name) => pack::cells_read(shared, name, drafts),
        Record::PackNoted { pack, state } => pack::noted(shared, pack, state),
        Record::Release(stage) => gate::release(shared, &stage, gate::are_read(place, &stage), now),
        Record::ReleaseAgain(stages) => gate::release_again(shared, &stages, now),
        Record::HandOver(id) => card::hand_over(shared, &id, drafts, now),
        Record::FlownWithoutPhone(id) => card::flown_without_phone(shared, &id, drafts, now),
        Record::Landing { card, said } => landing::landing(shared, card, said, drafts),
        Record::WaiveLanding(id) => landing::waive(shared, id, drafts),
        Record::DropReading { card: id, index } => landing::drop_reading(shared, id, index, drafts),
        Record::TellFlown { card: id, how_long } => landing::tell_flown(shared, id, how_long, drafts),
        Record::AnswerMark { card: id, mark, usual } => landing::answer_mark(shared, id, mark, usual, drafts),
        Record::MarkIsFinding { card: id, mark, finding } => landing::mark_is_finding(shared, id, mark, finding),
        Record::RaiseMark { card: id, mark } => finding::raise_mark(shared, id, mark),
        Record::RaiseNotSo(id) => finding::raise_not_so(shared, id),
        Record::RaiseStop { card: id, place: hot } => finding::raise_stop(shared, id, &hot),
        Record::Explain(id) => landing::explain(shared, id, drafts),
        Record::RaiseCharge(id) => finding::raise_charge(shared, id),
        Record::RaiseFinding => finding::raise(shared, place, drafts, now),
        Record::RaiseProposed(id) => finding::raise_proposed(shared, id),
        Record::FixFinding(id) => finding::fix(shared, id, drafts),
        Record::CarryFinding(id) => finding::carry(shared, id, drafts, now),
        Record::Name => aircraft::named(shared, drafts),
        Record::BeginAircraft => aircraft::begun(shared, drafts, now),
        Record::Emergency => aircraft::emergency(shared, drafts),
        Record::Answer { question, choice } => aircraft::answer(shared, question, choice),
        Record::Figure { id, basis } => aircraft::figure_set(shared, &id, basis, drafts),
        Record::Thing { kind, name, on_aircraft } => {
            aircraft::thing_set(shared, kind, name.as_deref(), on_aircraft, drafts)
        }
        Record::RemoveThing { kind, name, on_aircraft } => {
            aircraft::thing_removed(shared, kind, name, on_aircraft, drafts)
        }
        Record::DeclareList(list) => aircraft::list_declared(shared, list),
        Record::Setting(id) => aircraft::setting_changed(shared, &id, drafts),
        Record::Change => aircraft::change(shared, drafts),
        Record::Event(id) => aircraft::happened(shared, id, place, drafts),
        Record::RemoveCode => one(Body::CodeRemoved {}, say!(shared.locale(), "app-code-removed"), After::Back),
        Record::PutBack(entry) => withdrawal::put_back(shared, entry, now),
        Record::Withdraw(entry) => withdrawal::withdraw(shared, entry, place, drafts, now),
        Record::WithdrawReleases(last) => withdrawal::withdraw_releases(shared, last, now),
        Record::AdoptPlan => plan::adopt(shared, drafts),
        Record::AttachLog(id) => return log::attach(shared, id, drafts),
        Record::ImportOn => return log::import_on(shared),
    };
    done.map(Some)
}
