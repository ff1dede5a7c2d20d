//! A check's result, from its page or from the card where it is due.

use super::wanted::wanted;
use crate::app::AppError;
use crate::app::done::{After, Result, one};
use crate::app::shared::Shared;
use crate::computed::Computed;
use crate::form::{CheckForm, Drafts};
use crate::locale::say;
use crate::plan::{Check, CheckKind};
use crate::record::{Body, CheckResult, JudgedList, Moment, Outcome, ThingKind};
use crate::view::{self, Place};

pub(super) fn record(shared: &Shared, id: &str, passed: bool, drafts: Drafts<'_>, now: &Moment) -> Result {
    let (stage, check) = wanted(shared, id)?;
    is_just_run(shared, check, now)?;
    let form = CheckForm::new(drafts, check, &shared.ledger.aircraft);
    let alone = form.alone()?.map(str::to_owned);
    let witness = form.witness()?.map(str::to_owned);
    let (result, said) = result(shared, check, passed, form)?;
    let right = !matches!(&result, CheckResult::Confirmed { passed: false })
        && !matches!(&result, CheckResult::Computed { outcome: Outcome::Stop, .. })
        && !is_past_stop(shared, check, &result);
    let after = if right { after_check(shared, stage, id, now) } else { After::Stay };
    let note = form.note().map(str::to_owned);
    one(Body::CheckRecorded { check: id.to_owned(), result, witness, note, alone }, said, after)
}

/// What is read on a run wants that run: nothing turns the motor without a card.
fn is_just_run(shared: &Shared, check: &Check, now: &Moment) -> std::result::Result<(), AppError> {
    let Some(run) = shared.ledger.run_wanted(check, now) else { return Ok(()) };
    let title = view::check_title(&shared.plan, run);
    Err(AppError::refused(say!(shared.locale(), "app-read-on-a-run", run = title)))
}

/// A due check, recorded where it stands on the card: one touch, one piece of evidence.
pub(super) fn tick(shared: &Shared, id: &str, value: Option<f64>, now: &Moment) -> Result {
    let (_, check) = wanted(shared, id)?;
    is_just_run(shared, check, now)?;
    if check.witness {
        return Err(AppError::refused(say!(shared.locale(), "app-tick-witness")));
    }
    if !shared.ledger.standing(&shared.plan, check, now).is_one_touch(check) {
        return Err(AppError::refused(say!(shared.locale(), "app-tick-own-page")));
    }
    shared.is_looked_at(now)?;
    let (result, said) = match (&check.kind, value) {
        (CheckKind::Confirm, None) => {
            (CheckResult::Confirmed { passed: true }, say!(shared.locale(), "app-check-right", check = check.title))
        }
        (CheckKind::Measure(measure), Some(value)) if (measure.low..=measure.high).contains(&value) => {
            let said = say!(
                shared.locale(),
                "app-check-value",
                check = check.title,
                value = shared.locale().quantity(value, measure.unit)
            );
            (CheckResult::Measured { value, unit: measure.unit }, said)
        }
        _ => return Err(AppError::refused(say!(shared.locale(), "app-tick-own-page"))),
    };
    one(
        Body::CheckRecorded { check: id.to_owned(), result, witness: None, note: None, alone: None },
        said,
        After::Stay,
    )
}

fn result(
    shared: &Shared,
    check: &Check,
    passed: bool,
    form: CheckForm<'_>,
) -> std::result::Result<(CheckResult, String), AppError> {
    match &check.kind {
        CheckKind::Confirm => {
            let said = if passed {
                say!(shared.locale(), "app-check-right", check = check.title)
            } else {
                say!(shared.locale(), "app-check-not-right", check = check.title)
            };
            Ok((CheckResult::Confirmed { passed }, said))
        }
        CheckKind::Measure(measure) => {
            let value = form.required_value(measure)?;
            let said = say!(
                shared.locale(),
                "app-check-value",
                check = check.title,
                value = shared.locale().quantity(value, measure.unit)
            );
            Ok((CheckResult::Measured { value, unit: measure.unit }, said))
        }
        CheckKind::Compute(computation) => {
            let computed = Computed::of(*computation, shared.facts())
                .map_err(|lacking| AppError::refused(view::lacking_words(shared.locale(), &shared.plan, &lacking)))?;
            let values = computed.values(shared.locale());
            let count = |list: &ThingKind| JudgedList { list: *list, count: shared.ledger.aircraft.count_of(*list) };
            let judged = computation.lists().iter().map(count).collect();
            let (summary, outcome) = (computed.summary.clone(), computed.outcome);
            Ok((CheckResult::Computed { summary, values, outcome, judged }, computed.summary))
        }
        CheckKind::Fly(_) => Err(AppError::refused(say!(shared.locale(), "app-is-flown"))),
    }
}

fn is_past_stop(shared: &Shared, check: &Check, result: &CheckResult) -> bool {
    match (&check.kind, result) {
        (CheckKind::Measure(measure), CheckResult::Measured { value, .. }) => {
            shared.ledger.aircraft.judge(&measure.limits, *value) == Ok(Outcome::Stop)
        }
        _ => false,
    }
}

/// The next open check of the same stage that wants no run first, if the pilot came from the stage, else onward from where it was opened.
fn after_check(shared: &Shared, stage: &str, id: &str, now: &Moment) -> After {
    let came_from = shared.places.iter().rev().nth(1);
    if came_from != Some(&Place::Stage(stage.to_owned())) {
        return After::Onward;
    }
    let report = shared.report(now);
    let checks = shared.plan.stage(stage).map(|stage| stage.checks.as_slice()).unwrap_or_default();
    let later = checks.iter().skip_while(|check| check.id != id).skip(1);
    let open = later
        .filter(|check| shared.ledger.aircraft.wants(check) && check.fly().is_none())
        .filter(|check| shared.ledger.run_wanted(check, now).is_none())
        .find(|check| !report.standing(&check.id).holds());
    open.map_or(After::Back, |next| After::Instead(Place::Check(next.id.clone())))
}
