//! The card as it is drawn up, and the hand-over to the spotter.

use super::wanted::wanted;
use crate::app::AppError;
use crate::app::done::{After, Done, Result};
use crate::app::shared::Shared;
use crate::computed::{Conditions, predicted_charge};
use crate::form::{CardForm, Drafts, WithoutPhoneForm};
use crate::journal::NewEntry;
use crate::locale::{clock, say};
use crate::plan::{Check, Fly};
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
    let (flown_s, down_ago_s) = (form.flown_s()?, form.down_ago_s(now)?);
    let noted = form.noted(flown_s)?;
    let name = shared.journal.name(now);
    let told = Body::FlownTold { card: name, flown_s, without_phone: Some(WithoutPhone { down_ago_s, spotter }) };
    let marked = |(at_s, mark)| NewEntry::pilot(Body::Marked { card: name, mark, elapsed_ms: at_s * 1_000 });
    let mut entries = vec![NewEntry::pilot(card).named(name), NewEntry::pilot(told)];
    entries.extend(noted.into_iter().map(marked));
    Ok(Done {
        entries,
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
    let air_c = form.required_air_c()?;
    let packs = form.required_packs(air_c)?;
    let not_full = form.why_not_full()?;
    let spotter = form.required_spotter()?;
    Ok(Ready { card: card(shared, check, fly, &form, Flown { packs, not_full, air_c })?, spotter })
}

/// On what, and in which air.
struct Flown {
    packs: Vec<String>,
    not_full: Option<String>,
    air_c: f64,
}

fn card(
    shared: &Shared,
    check: &Check,
    fly: &Fly,
    form: &CardForm<'_>,
    flown: Flown,
) -> std::result::Result<Body, AppError> {
    let Flown { packs, not_full, air_c } = flown;
    let head_speed_rpm = shared
        .ledger
        .aircraft
        .limit(&fly.head_speed_rpm)
        .ok_or_else(|| AppError::refused(say!(shared.locale(), "app-head-speed-unknown")))?;
    let planned_s = (form.minutes(&packs, air_c)? * 60.0).round() as i64;
    let wind = form.wind()?;
    let prediction = match fly.predict {
        true => {
            let asked = Conditions { head_rpm: head_speed_rpm, air_c, run_s: Some(planned_s as f64), wind };
            predicted_charge(shared.facts(), check, asked)
        }
        false => None,
    };
    let allowed_s = form.allowed_s(&packs, air_c);
    let mut packs = packs.into_iter();
    Ok(Body::CardDrawn {
        check: check.id.clone(),
        pack: packs.next().unwrap_or_default(),
        further_packs: packs.collect(),
        not_full,
        head_speed_rpm,
        planned_s,
        air_c,
        wind,
        prediction,
        allowed_s,
    })
}
