//! The card as it is drawn up, and the hand-over to the spotter.

use super::wanted::wanted;
use crate::app::AppError;
use crate::app::done::{After, Done, Result};
use crate::app::shared::Shared;
use crate::computed::predicted_charge;
use crate::form::{CardForm, Drafts};
use crate::journal::NewEntry;
use crate::locale::say;
use crate::plan::Fly;
use crate::record::{Body, Moment};
use crate::view;

pub(super) fn hand_over(shared: &Shared, id: &str, drafts: Drafts<'_>, now: &Moment) -> Result {
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
    let body = card(shared, id, fly, &form, Flown { packs, not_full, air_c })?;
    let name = shared.journal.name(now);
    let handed = Body::HandedOver { card: name, spotter: spotter.clone() };
    Ok(Done {
        entries: vec![NewEntry::pilot(body).named(name), NewEntry::pilot(handed)],
        said: say!(shared.locale(), "app-handed-over", spotter = spotter),
        after: After::Stay,
    })
}

/// On what, and in which air.
struct Flown {
    packs: Vec<String>,
    not_full: Option<String>,
    air_c: f64,
}

fn card(
    shared: &Shared,
    check: &str,
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
    let prediction = match fly.predict {
        true => predicted_charge(shared.facts(), fly.motion, head_speed_rpm, planned_s, air_c),
        false => None,
    };
    let allowed_s = form.allowed_s(&packs, air_c);
    let mut packs = packs.into_iter();
    Ok(Body::CardDrawn {
        check: check.to_owned(),
        pack: packs.next().unwrap_or_default(),
        further_packs: packs.collect(),
        not_full,
        head_speed_rpm,
        planned_s,
        air_c,
        prediction,
        allowed_s,
    })
}
