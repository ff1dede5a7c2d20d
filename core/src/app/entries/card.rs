//! The card as it is drawn up, and the hand-over to the spotter.

use super::wanted::wanted;
use crate::app::AppError;
use crate::app::done::{After, Done, Result};
use crate::app::shared::Shared;
use crate::computed::predicted_charge;
use crate::form::{CardForm, Drafts, WithoutPhoneForm};
use crate::journal::NewEntry;
use crate::locale::{clock, say};
use crate::plan::Fly;
use crate::record::{Body, Moment, WithoutPhone};
use crate::view::{self, Place};

pub(super) fn hand_over(shared: &Shared, id: &str, drafts: Drafts<'_>, now: &Moment) -> Result {
    let Ready { card, spotter } = ready(shared, id, drafts, now)?;
    let name = shared.journal.name(now);
    let handed = Body::HandedOver { card: name, spotter: spotter.clone() };
    Ok(Done {
        entries: vec![NewEntry::pilot(card).named(name), NewEntry::pilot(handed)],
        said: say!(shared.locale(), "app-handed-over", spotter = spotter),
        after: After::Stay,
    })
}

/// It was flown as the card says, and no phone was there to time it. What holds before a hand-over holds for it too.
pub(super) fn flown_without_phone(shared: &Shared, id: &str, drafts: Drafts<'_>, now: &Moment) -> Result {
    let Ready { card, spotter } = ready(shared, id, drafts, now)?;
    let form = WithoutPhoneForm(drafts);
    let (flown_s, down_ago_s) = (form.flown_s()?, form.ago_s()?);
    let name = shared.journal.name(now);
    let told = Body::FlownTold { card: name, flown_s, without_phone: Some(WithoutPhone { down_ago_s, spotter }) };
    Ok(Done {
        entries: vec![NewEntry::pilot(card).named(name), NewEntry::pilot(told)],
        said: say!(shared.locale(), "entry-flown-told", time = clock(flown_s)),
        after: After::Through(Place::Board, Place::Landing(name)),
    })
}

/// A card on which nothing stands before its flight.
struct Ready {
    card: Body,
    spotter: String,
}

fn ready(shared: &Shared, id: &str, drafts: Drafts<'_>, now: &Moment) -> std::result::Result<Ready, AppError> {
    let (_, check) = wanted(shared, id)?;
    let Some(fly) = check.fly() else { return Err(AppError::refused(say!(shared.locale(), "app-not-flown"))) };
    if let Some(blocker) = shared.ledger.before_flying(&shared.plan, id, now).first() {
        let words = view::blocker_words(shared.locale(), &shared.plan, &shared.ledger, blocker);
        return Err(AppError::refused(say!(shared.locale(), "app-not-yet", words = words)));
    }
    let form = CardForm::new(drafts, shared.facts(), check, fly, now);
    let pack = form.required_pack()?;
    let spotter = form.required_spotter()?;
    let air_c = form.required_air_c()?;
    Ok(Ready { card: card(shared, id, fly, &form, &pack, air_c)?, spotter })
}

fn card(
    shared: &Shared,
    check: &str,
    fly: &Fly,
    form: &CardForm<'_>,
    pack: &str,
    air_c: f64,
) -> std::result::Result<Body, AppError> {
    let head_speed_rpm = shared
        .ledger
        .aircraft
        .limit(&fly.head_speed_rpm)
        .ok_or_else(|| AppError::refused(say!(shared.locale(), "app-head-speed-unknown")))?;
    let planned_s = (form.minutes(pack, air_c)? * 60.0).round() as i64;
    let prediction = match fly.predict {
        true => predicted_charge(shared.facts(), fly.motion, head_speed_rpm, planned_s, air_c),
        false => None,
    };
    Ok(Body::CardDrawn {
        check: check.to_owned(),
        pack: pack.to_owned(),
        head_speed_rpm,
        planned_s,
        air_c,
        prediction,
        allowed_s: form.allowed_s(pack, air_c),
    })
}
