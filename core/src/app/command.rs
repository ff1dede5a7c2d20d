//! Commands that record something: each reads the form, refuses what cannot be, and says what to append.

use super::AppError;
use super::phone::Shared;
use crate::computed::{Computed, endurance, planned_minutes, predicted_charge};
use crate::field::{Flight, Landing, charge_range_mah};
use crate::form::Drafts;
use crate::journal::NewEntry;
use crate::locale::say;
use crate::plan::{Check, CheckKind, Fly, Point, Stage};
use crate::readiness::{FindingState, may_be_withdrawn};
use crate::record::{
    Basis, Body, CheckResult, Entry, EntryId, FindingGrade, Moment, Outcome, Reading, Thing, ThingKind, ThingRef,
    Until,
};
use crate::unit::Unit;
use crate::view::{self, Command, Place};

/// What a command comes to.
pub(super) struct Done {
    pub entries: Vec<NewEntry>,
    pub said: String,
    pub after: After,
}

/// Where the pilot is afterwards.
pub(super) enum After {
    Stay,
    /// Where they are, with what was typed there kept: it is about something else.
    Keep,
    Back,
    To(Place),
    Instead(Place),
    /// At the second, with the first behind it.
    Through(Place, Place),
}

pub(super) type Result = std::result::Result<Done, AppError>;

pub(super) fn carry_out(shared: &Shared, command: Command, place: &Place, form: Drafts<'_>, now: &Moment) -> Result {
    match command {
        Command::Record { check, passed } => record(shared, &check, passed, form, now),
        Command::Tick { check, value } => tick(shared, &check, value, now),
        Command::Charged(pack) => charged(shared, pack, form),
        Command::Release(stage) => release(shared, &stage, now),
        Command::HandOver(check) => hand_over(shared, &check, form, now),
        Command::SaveLanding(card) => landing(shared, card, form),
        Command::DropReading { card, index } => drop_reading(shared, card, index),
        Command::Explain(card) => {
            let why = form.required("why", &say!(shared.locale(), "desk-label-explanation"))?.to_owned();
            one(Body::DisagreementExplained { card, why }, say!(shared.locale(), "desk-explained"), After::Back)
        }
        Command::RaiseFinding => raise(shared, place, form),
        Command::RaiseProposed(card) => super::log::raise_proposed(shared, card),
        Command::FixFinding(finding) => fix(shared, finding, form),
        Command::CarryFinding(finding) => carry(shared, finding, form, now),
        Command::SaveName => {
            let name = form.required("name", &say!(shared.locale(), "desk-label-aircraft"))?.to_owned();
            let builder = form.required("builder", &say!(shared.locale(), "desk-label-builder"))?.to_owned();
            one(Body::AircraftNamed { name, builder }, say!(shared.locale(), "desk-named"), After::Back)
        }
        Command::Answer(question, choice) => answer(shared, question, choice),
        Command::SaveFigure(figure) => figure_set(shared, &figure, form),
        Command::SaveThing => thing_set(shared, place, form),
        Command::RemoveThing { kind, name } => {
            let said = say!(shared.locale(), "desk-removed", name = name);
            one(Body::ThingRemoved { thing: ThingRef { kind, name } }, said, After::Back)
        }
        Command::SaveSetting(setting) => setting_changed(shared, &setting, form),
        Command::SaveChange => changed(shared, form),
        Command::RemoveCode => one(Body::CodeRemoved {}, say!(shared.locale(), "desk-code-removed"), After::Back),
        Command::PutBack(entry) => put_back(shared, entry, now),
        Command::Withdraw(entry) => withdraw(shared, entry, form),
        Command::WithdrawReleases(last) => withdraw_releases(shared, last),
        Command::RecordEvent(event) => happened(shared, event, place, form),
        Command::ReleaseAgain(stages) => release_again(shared, &stages, now),
        Command::AdoptPlan => super::plan::adopt(shared, form),
        Command::PickPlan | Command::SavePlan | Command::PickLog(_) | Command::AttachLog(_) => {
            Err(AppError::refused(say!(shared.locale(), "desk-wants-document")))
        }
        Command::Go(_)
        | Command::Prefer(_)
        | Command::Back
        | Command::Set(..)
        | Command::Step { .. }
        | Command::Read { .. }
        | Command::MovePlot(_)
        | Command::ShowChannel(_)
        | Command::ReadOn
        | Command::StopReading
        | Command::ReadAgain
        | Command::Fingers => Err(AppError::refused(say!(shared.locale(), "desk-records-nothing"))),
    }
}

pub(super) fn one(body: Body, said: impl Into<String>, after: After) -> Result {
    Ok(Done { entries: vec![NewEntry::pilot(body)], said: said.into(), after })
}

fn wanted<'a>(shared: &'a Shared, id: &str) -> std::result::Result<(&'a str, &'a Check), AppError> {
    let found = shared.plan.check(id).filter(|(_, check)| shared.ledger.aircraft.wants(check));
    found
        .map(|(stage, check)| (stage.id.as_str(), check))
        .ok_or_else(|| AppError::refused(say!(shared.locale(), "desk-check-not-wanted")))
}

fn record(shared: &Shared, id: &str, passed: bool, form: Drafts<'_>, now: &Moment) -> Result {
    let (stage, check) = wanted(shared, id)?;
    let alone = form.text("alone").filter(|_| check.point == Point::Witness).map(str::to_owned);
    let witness = match check.witness && alone.is_none() {
        true => Some(form.required("witness", &say!(shared.locale(), "desk-label-witness"))?.to_owned()),
        false => form.text("witness").map(str::to_owned),
    };
    let (result, said) = result(shared, check, passed, form)?;
    let right = !matches!(&result, CheckResult::Confirmed { passed: false })
        && !matches!(&result, CheckResult::Computed { outcome: Outcome::Stop, .. })
        && !is_past_stop(shared, check, &result);
    let after = if right { after_check(shared, stage, id, now) } else { After::Stay };
    let note = form.text("note").map(str::to_owned);
    one(Body::CheckRecorded { check: id.to_owned(), result, witness, note, alone }, said, after)
}

/// No check is seen in less, milliseconds: a second touch that follows faster is the same touch, bouncing.
const LEAST_LOOK_MS: i64 = 700;

/// A due check, recorded where it stands on the card: one touch, one piece of evidence.
fn tick(shared: &Shared, id: &str, value: Option<f64>, now: &Moment) -> Result {
    let (_, check) = wanted(shared, id)?;
    if check.witness {
        return Err(AppError::refused(say!(shared.locale(), "desk-tick-witness")));
    }
    if shared.entries.last().is_some_and(|last| now.surely_elapsed_ms_since(&last.at) < LEAST_LOOK_MS) {
        return Err(AppError::refused(say!(shared.locale(), "desk-too-quick")));
    }
    let (result, said) = match (&check.kind, value) {
        (CheckKind::Confirm, None) => {
            (CheckResult::Confirmed { passed: true }, say!(shared.locale(), "desk-check-right", check = check.title))
        }
        (CheckKind::Measure(measure), Some(value)) if (measure.low..=measure.high).contains(&value) => {
            let said = say!(
                shared.locale(),
                "desk-check-value",
                check = check.title,
                value = shared.locale().quantity(value, measure.unit)
            );
            (CheckResult::Measured { value, unit: measure.unit }, said)
        }
        _ => return Err(AppError::refused(say!(shared.locale(), "desk-tick-own-page"))),
    };
    one(
        Body::CheckRecorded { check: id.to_owned(), result, witness: None, note: None, alone: None },
        said,
        After::Stay,
    )
}

fn charged(shared: &Shared, pack: String, form: Drafts<'_>) -> Result {
    if shared.ledger.aircraft.thing(ThingKind::Pack, &pack).is_none() {
        return Err(AppError::refused(say!(shared.locale(), "desk-pack-gone")));
    }
    let range = charge_range_mah(&shared.ledger.aircraft, &pack);
    let field = format!("{}{pack}", view::PUT_BACK);
    let put_back_mah =
        form.number(&field, &say!(shared.locale(), "desk-label-put-back"), Unit::MilliampereHour, range)?;
    let said = say!(shared.locale(), "desk-pack-charged", pack = pack);
    one(Body::PackCharged { pack, put_back_mah }, said, After::Stay)
}

fn result(
    shared: &Shared,
    check: &Check,
    passed: bool,
    form: Drafts<'_>,
) -> std::result::Result<(CheckResult, String), AppError> {
    match &check.kind {
        CheckKind::Confirm => {
            let said = if passed {
                say!(shared.locale(), "desk-check-right", check = check.title)
            } else {
                say!(shared.locale(), "desk-check-not-right", check = check.title)
            };
            Ok((CheckResult::Confirmed { passed }, said))
        }
        CheckKind::Measure(measure) => {
            let value = form.required_number("value", &check.title, measure.unit, (measure.low, measure.high))?;
            let said = say!(
                shared.locale(),
                "desk-check-value",
                check = check.title,
                value = shared.locale().quantity(value, measure.unit)
            );
            Ok((CheckResult::Measured { value, unit: measure.unit }, said))
        }
        CheckKind::Compute(computation) => {
            let computed = Computed::of(*computation, shared.facts())
                .map_err(|lacking| AppError::refused(view::lacking_words(shared.locale(), &shared.plan, &lacking)))?;
            let values = computed.values(shared.locale());
            let result =
                CheckResult::Computed { summary: computed.summary.clone(), values, outcome: computed.outcome };
            Ok((result, computed.summary))
        }
        CheckKind::Fly(_) => Err(AppError::refused(say!(shared.locale(), "desk-is-flown"))),
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

/// The next open check of the same stage if the pilot came from the stage, else back to where it was opened from.
fn after_check(shared: &Shared, stage: &str, id: &str, now: &Moment) -> After {
    let came_from = shared.places.iter().rev().nth(1);
    if came_from != Some(&Place::Stage(stage.to_owned())) {
        return After::Back;
    }
    let report = shared.report(now);
    let checks = shared.plan.stage(stage).map(|stage| stage.checks.as_slice()).unwrap_or_default();
    let later = checks.iter().skip_while(|check| check.id != id).skip(1);
    let open = later
        .filter(|check| shared.ledger.aircraft.wants(check) && check.fly().is_none())
        .find(|check| !report.standing(&check.id).holds());
    open.map_or(After::Back, |next| After::Instead(Place::Check(next.id.clone())))
}

fn release(shared: &Shared, stage: &str, now: &Moment) -> Result {
    let report = shared.report(now);
    let gate = report.gate(stage);
    let Some(stage) = shared.plan.stage(stage).filter(|_| gate.may_be_released()) else {
        return Err(AppError::refused(say!(shared.locale(), "desk-gate-not-ready")));
    };
    one(
        released(shared, stage),
        say!(shared.locale(), "desk-stage-released", stage = stage.title),
        After::To(Place::Board),
    )
}

/// A release with the evidence that it stands on.
fn released(shared: &Shared, stage: &Stage) -> Body {
    let evidence = stage
        .checks
        .iter()
        .filter_map(|check| shared.ledger.evidence.get(&check.id).map(|e| (check.id.clone(), e.entry)))
        .collect();
    Body::GateReleased { stage: stage.id.clone(), by: pilots_name(shared), evidence }
}

/// Several lapsed gates over fresh evidence: exactly those that the pilot saw, each by an entry of its own.
fn release_again(shared: &Shared, stages: &[String], now: &Moment) -> Result {
    let may = shared.ledger.releasable_again(&shared.plan, now);
    if stages.is_empty() || may != stages {
        return Err(AppError::refused(say!(shared.locale(), "desk-release-changed")));
    }
    let found = stages.iter().filter_map(|id| shared.plan.stage(id));
    let entries: Vec<NewEntry> = found.map(|stage| NewEntry::pilot(released(shared, stage))).collect();
    let said = say!(shared.locale(), "desk-gates-released", count = entries.len());
    Ok(Done { entries, said, after: After::To(Place::Board) })
}

fn happened(shared: &Shared, id: String, place: &Place, form: Drafts<'_>) -> Result {
    let Some(event) = shared.plan.event(&id) else {
        return Err(AppError::refused(say!(shared.locale(), "desk-event-unknown")));
    };
    let said = say!(shared.locale(), "desk-event-recorded", event = shared.locale().lower_first(&event.title));
    let (note, after) = match place {
        Place::Events => (form.text("note").map(str::to_owned), After::Stay),
        // Touched in the middle of jotting down a landing, say.
        _ => (None, After::Keep),
    };
    one(Body::Happened { event: id, note }, said, after)
}

/// Who stands under a decision.
fn pilots_name(shared: &Shared) -> String {
    match shared.ledger.aircraft.builder.as_str() {
        "" => say!(shared.locale(), "desk-the-pilot"),
        name => name.to_owned(),
    }
}

fn hand_over(shared: &Shared, id: &str, form: Drafts<'_>, now: &Moment) -> Result {
    let (_, check) = wanted(shared, id)?;
    let Some(fly) = check.fly() else { return Err(AppError::refused(say!(shared.locale(), "desk-not-flown"))) };
    if let Some(blocker) = shared.ledger.before_flying(&shared.plan, id, now).first() {
        let words = view::blocker_words(shared.locale(), &shared.plan, &shared.ledger, blocker);
        return Err(AppError::refused(say!(shared.locale(), "desk-not-yet", words = words)));
    }
    let pack = view::pack_chosen(&shared.ledger, form)
        .ok_or_else(|| AppError::field("pack", say!(shared.locale(), "desk-pack-empty")))?;
    let known = shared.ledger.aircraft.thing(ThingKind::Pack, &pack);
    if known.is_none() {
        return Err(AppError::field("pack", say!(shared.locale(), "desk-pack-unknown", pack = pack)));
    }
    let spotter = match (view::spotter_name(&shared.ledger, form, now), check.witness) {
        (Some(name), _) => name.to_owned(),
        (None, true) => return Err(AppError::field("spotter", say!(shared.locale(), "desk-spotter-empty"))),
        (None, false) => say!(shared.locale(), "desk-the-pilot"),
    };
    let typed = form.number("air", &say!(shared.locale(), "desk-label-air"), Unit::Celsius, (-30.0, 55.0))?;
    let air_c = typed
        .or_else(|| view::air_c(&shared.ledger, form, now))
        .ok_or_else(|| AppError::field("air", say!(shared.locale(), "desk-air-empty")))?;
    let planned = planned_minutes(fly, endurance(shared.facts(), check, Some(&pack), air_c).as_ref());
    let minutes = form
        .number("minutes", &say!(shared.locale(), "desk-label-minutes"), Unit::Minute, (0.1, 30.0))?
        .unwrap_or(planned);
    let body = card(shared, id, fly, &pack, minutes, air_c)?;
    let name = shared.journal.name(now);
    let handed = Body::HandedOver { card: name, spotter: spotter.clone() };
    Ok(Done {
        entries: vec![NewEntry::pilot(body).named(name), NewEntry::pilot(handed)],
        said: say!(shared.locale(), "desk-handed-over", spotter = spotter),
        after: After::Stay,
    })
}

fn card(
    shared: &Shared,
    check: &str,
    fly: &Fly,
    pack: &str,
    minutes: f64,
    air_c: f64,
) -> std::result::Result<Body, AppError> {
    let head_speed_rpm = shared
        .ledger
        .aircraft
        .limit(&fly.head_speed_rpm)
        .ok_or_else(|| AppError::refused(say!(shared.locale(), "desk-head-speed-unknown")))?;
    let planned_s = (minutes * 60.0).round() as i64;
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
    })
}

fn landing(shared: &Shared, card: EntryId, form: Drafts<'_>) -> Result {
    let flight = landed(shared, card)?;
    // A landing that is jotted once more keeps what was jotted before: a second reading of a place tells how it cools.
    let before = flight.landing.as_ref();
    let mut temperatures = before.map(|landing| landing.temperatures.clone()).unwrap_or_default();
    for place in &shared.plan.places {
        let field = format!("{}{}", view::TEMPERATURE, place.id);
        let label = say!(shared.locale(), "desk-label-temperature", place = place.title);
        if let Some(celsius) = form.number(&field, &label, Unit::Celsius, Landing::TEMPERATURE_RANGE_C)? {
            let after = form.text(&format!("{}{field}", view::READ_AFTER));
            let after_s = after.and_then(|text| text.parse().ok()).unwrap_or(0);
            temperatures.push(Reading { place: place.id.clone(), celsius, after_s });
        }
    }
    let range = charge_range_mah(&shared.ledger.aircraft, &flight.pack);
    let pack_used_mah = form
        .number("used", &say!(shared.locale(), "desk-label-used"), Unit::MilliampereHour, range)?
        .or(before.and_then(|landing| landing.pack_used_mah));
    let notes = form.text("notes").map(str::to_owned).or(before.and_then(|landing| landing.notes.clone()));
    let after = after_landing(shared, flight, &temperatures, pack_used_mah);
    one(
        Body::LandingRecorded { card, pack_used_mah, temperatures, notes },
        say!(shared.locale(), "desk-landing-recorded"),
        after,
    )
}

fn landed(shared: &Shared, card: EntryId) -> std::result::Result<&Flight, AppError> {
    let flight = shared.ledger.flight(card).filter(|flight| flight.down.is_some());
    flight.ok_or_else(|| AppError::refused(say!(shared.locale(), "desk-not-landed")))
}

/// In service, with nothing wrong and nothing lacking, the next card follows at once; the board otherwise.
fn after_landing(shared: &Shared, flight: &Flight, temperatures: &[Reading], used_mah: Option<f64>) -> After {
    let found = shared.plan.check(&flight.check);
    let Some((stage, fly)) = found.and_then(|(stage, check)| Some((stage, check.fly()?))) else {
        return After::To(Place::Board);
    };
    let cool = temperatures.iter().all(|reading| {
        shared.plan.place(&reading.place).is_none_or(|place| reading.celsius <= place.caution_above_c)
    });
    let read = fly.temperatures.iter().all(|id| temperatures.iter().any(|reading| reading.place == *id));
    let whole = read && (!fly.predict || used_mah.is_some()) && flight.marks.is_empty();
    match stage.gate.is_none() && cool && whole && flight.called_off().is_none() {
        true => After::Through(Place::Board, Place::Card(flight.check.clone())),
        false => After::To(Place::Board),
    }
}

fn drop_reading(shared: &Shared, card: EntryId, index: u32) -> Result {
    let flight = landed(shared, card)?;
    let gone = || AppError::refused(say!(shared.locale(), "desk-reading-gone"));
    let mut landing = flight.landing.clone().ok_or_else(gone)?;
    let index = usize::try_from(index).unwrap_or(usize::MAX);
    if index >= landing.temperatures.len() {
        return Err(gone());
    }
    let out = landing.temperatures.remove(index);
    let title = shared.plan.place(&out.place).map_or(out.place.as_str(), |place| place.title.as_str());
    let said = say!(
        shared.locale(),
        "desk-reading-dropped",
        title = title,
        value = shared.locale().quantity(out.celsius, Unit::Celsius)
    );
    let Landing { pack_used_mah, temperatures, notes, .. } = landing;
    one(Body::LandingRecorded { card, pack_used_mah, temperatures, notes }, said, After::Stay)
}

fn raise(shared: &Shared, place: &Place, form: Drafts<'_>) -> Result {
    let Place::NewFinding { shown_by, proof } = place else {
        return Err(AppError::refused(say!(shared.locale(), "desk-finding-from")));
    };
    let (stage, _) = wanted(shared, proof)?;
    let title = form.required("title", &say!(shared.locale(), "desk-label-wrong"))?.to_owned();
    let grade = match form.text("grade") {
        Some("note") => FindingGrade::Note,
        Some("stop") => FindingGrade::Stop,
        _ => FindingGrade::Caution,
    };
    let said = say!(shared.locale(), "desk-finding-raised", title = title);
    let body = Body::FindingRaised {
        title,
        grade,
        stage: stage.to_owned(),
        proof: proof.clone(),
        shown_by: *shown_by,
        proposed_from: None,
    };
    one(body, said, After::Instead(Place::Findings))
}

fn fix(shared: &Shared, finding: EntryId, form: Drafts<'_>) -> Result {
    let Some(found) = shared.ledger.finding(finding) else {
        return Err(AppError::refused(say!(shared.locale(), "desk-finding-gone")));
    };
    let what = form.required("what", &say!(shared.locale(), "desk-label-done"))?.to_owned();
    let subjects = form.set_with(view::SUBJECT).into_iter().map(str::to_owned).collect();
    let said = say!(shared.locale(), "desk-fix-recorded", check = view::check_title(&shared.plan, &found.proof));
    one(Body::FindingFixed { finding, what, subjects }, said, After::Stay)
}

fn carry(shared: &Shared, finding: EntryId, form: Drafts<'_>, now: &Moment) -> Result {
    match shared.ledger.finding(finding) {
        Some(found) if found.grade == FindingGrade::Stop => {
            return Err(AppError::refused(say!(shared.locale(), "desk-stop-not-carried")));
        }
        Some(found) if matches!(found.state, FindingState::Proven { .. }) => {
            return Err(AppError::refused(say!(shared.locale(), "desk-finding-proven")));
        }
        Some(found) if found.grade == FindingGrade::Note => {
            return Err(AppError::refused(say!(shared.locale(), "desk-note-not-carried")));
        }
        Some(_) => {}
        None => return Err(AppError::refused(say!(shared.locale(), "desk-finding-gone"))),
    }
    let restriction = form.required("restriction", &say!(shared.locale(), "desk-label-restriction"))?.to_owned();
    let reason = form.required("reason", &say!(shared.locale(), "desk-label-reason"))?.to_owned();
    let flights = form.number("flights", &say!(shared.locale(), "desk-label-runs"), Unit::Count, (1.0, 50.0))?;
    let days = form.number("days", &say!(shared.locale(), "desk-label-days"), Unit::Count, (1.0, 120.0))?;
    let by = pilots_name(shared);
    let until = match (flights, days) {
        (Some(_), Some(_)) => {
            return Err(AppError::field("days", say!(shared.locale(), "desk-carry-both")));
        }
        (None, Some(days)) => Until::Date(now.wall.date_naive() + chrono::TimeDelta::days(days.round() as i64)),
        (flights, None) => Until::Flights(flights.unwrap_or(view::CARRY_FLIGHTS).round() as u32),
    };
    one(
        Body::FindingCarried { finding, restriction, reason, by, until },
        say!(shared.locale(), "desk-carried"),
        After::Stay,
    )
}

fn answer(shared: &Shared, question: String, choice: String) -> Result {
    let known = shared.plan.question(&question).and_then(|q| q.choices.iter().find(|(id, _)| *id == choice));
    let Some((_, label)) = known else {
        return Err(AppError::refused(say!(shared.locale(), "desk-answer-unknown")));
    };
    let said = label.clone();
    one(Body::TraitChosen { question, choice }, said, After::Back)
}

fn figure_set(shared: &Shared, id: &str, form: Drafts<'_>) -> Result {
    let Some(figure) = shared.plan.figure(id) else {
        return Err(AppError::refused(say!(shared.locale(), "desk-figure-unknown")));
    };
    let value = form.required_number("value", &figure.title, figure.unit, (figure.low, figure.high))?;
    let basis = match form.text("basis") {
        Some("rated") => Basis::Rated,
        Some("estimated") => Basis::Estimated,
        _ => Basis::Measured,
    };
    let said = say!(
        shared.locale(),
        "desk-figure-set",
        figure = figure.title,
        value = shared.locale().quantity(value, figure.unit),
        basis = basis.word(shared.locale())
    );
    // The next figure that is missing follows at once: they are entered in a row.
    let missing = shared.plan.figures.iter().skip_while(|f| f.id != id).skip(1);
    let aircraft = &shared.ledger.aircraft;
    let next = missing.into_iter().find(|f| f.required && aircraft.fits(&f.when) && aircraft.figure(&f.id).is_none());
    let first_time = shared.ledger.aircraft.figure(id).is_none();
    let after = match next {
        Some(next) if first_time => After::Instead(Place::Figure(next.id.clone())),
        _ => After::Back,
    };
    // A figure that is changed on purpose says why, from its second value on.
    let reason = match figure.adjustable && !first_time {
        true => Some(form.required("reason", &say!(shared.locale(), "desk-label-reason"))?.to_owned()),
        false => None,
    };
    one(Body::FigureSet { figure: id.to_owned(), value, basis, reason }, said, after)
}

fn thing_set(shared: &Shared, place: &Place, form: Drafts<'_>) -> Result {
    let Place::Thing { kind, name } = place else {
        return Err(AppError::refused(say!(shared.locale(), "desk-nothing-described")));
    };
    let old = name.as_ref().and_then(|name| shared.ledger.aircraft.thing(*kind, name));
    let name = match name {
        Some(name) => name.clone(),
        None => form
            .required(
                "name",
                &say!(
                    shared.locale(),
                    "desk-label-thing-name",
                    kind = shared.locale().inside(&kind.word(shared.locale()))
                ),
            )?
            .to_owned(),
    };
    if old.is_none() && shared.ledger.aircraft.thing(*kind, &name).is_some() {
        return Err(AppError::field(
            "name",
            say!(
                shared.locale(),
                "desk-thing-exists",
                kind = shared.locale().inside(&kind.word(shared.locale())),
                name = name
            ),
        ));
    }
    let of = match kind.hangs_on(shared.locale()) {
        Some((on, question)) => {
            let kept = old.and_then(|old| old.of.as_deref());
            let chosen = form.text("of").or(kept).or_else(|| view::only_one(&shared.ledger.aircraft, on));
            let unsaid = || {
                AppError::field(
                    "of",
                    say!(
                        shared.locale(),
                        "desk-thing-hangs",
                        question = question,
                        kind = shared.locale().inside(&on.word(shared.locale()))
                    ),
                )
            };
            Some(chosen.ok_or_else(unsaid)?.to_owned())
        }
        None => None,
    };
    let mut numbers = old.map(|old| old.numbers.clone()).unwrap_or_default();
    for field in kind.fields() {
        if let Some(value) = form.number(field.id, &field.label(shared.locale()), field.unit, field.range)? {
            numbers.insert(field.id.to_owned(), value);
        } else if field.required && !numbers.contains_key(field.id) {
            return Err(AppError::field(
                field.id,
                say!(shared.locale(), "desk-field-empty", label = field.label(shared.locale())),
            ));
        }
    }
    let said = say!(shared.locale(), "desk-thing-recorded", kind = kind.word(shared.locale()), name = name);
    one(Body::ThingSet { thing: Thing { kind: *kind, name, of, numbers } }, said, After::Back)
}

fn setting_changed(shared: &Shared, id: &str, form: Drafts<'_>) -> Result {
    let Some(setting) = shared.plan.setting(id) else {
        return Err(AppError::refused(say!(shared.locale(), "desk-setting-unknown")));
    };
    let after = form.required("after", &say!(shared.locale(), "desk-label-new-value"))?.to_owned();
    let reason = form.required("reason", &say!(shared.locale(), "desk-label-reason"))?.to_owned();
    let before = shared.ledger.aircraft.settings.get(id).map(|value| value.now.clone());
    let said = say!(shared.locale(), "desk-setting-set", setting = setting.title, after = after);
    one(Body::SettingChanged { setting: id.to_owned(), before, after, reason }, said, After::Back)
}

fn changed(shared: &Shared, form: Drafts<'_>) -> Result {
    let what = form.required("what", &say!(shared.locale(), "desk-label-done"))?.to_owned();
    let subjects: Vec<String> = form.set_with(view::SUBJECT).into_iter().map(str::to_owned).collect();
    if subjects.is_empty() {
        return Err(AppError::refused(say!(shared.locale(), "desk-change-subjects")));
    }
    one(Body::Changed { subjects, what }, say!(shared.locale(), "desk-change-recorded"), After::To(Place::Board))
}

fn withdraw(shared: &Shared, entry: EntryId, form: Drafts<'_>) -> Result {
    let Some(found) = Entry::by_id(&shared.entries, entry) else {
        return Err(AppError::refused(say!(shared.locale(), "desk-entry-unknown")));
    };
    if !may_be_withdrawn(found) {
        return Err(AppError::refused(say!(shared.locale(), "desk-flight-not-withdrawn")));
    }
    let reason = form.text("reason").map_or_else(|| say!(shared.locale(), "desk-taken-back"), str::to_owned);
    let said = say!(
        shared.locale(),
        "desk-withdrawn",
        entry = view::entry_words(shared.locale(), &shared.plan, &shared.entries, found)
    );
    one(Body::Withdrawn { entry, reason }, said, After::Stay)
}

/// Takes the releases of one touch back with one touch.
fn withdraw_releases(shared: &Shared, last: EntryId) -> Result {
    let together = shared.ledger.withdrawals.released_together();
    if together.last() != Some(&last) {
        return Err(AppError::refused(say!(shared.locale(), "desk-entry-unknown")));
    }
    let reason = say!(shared.locale(), "desk-taken-back");
    let body = |entry: &EntryId| Body::Withdrawn { entry: *entry, reason: reason.clone() };
    let entries: Vec<NewEntry> = together.iter().map(|entry| NewEntry::pilot(body(entry))).collect();
    let released = say!(shared.locale(), "desk-gates-released", count = entries.len());
    Ok(Done { entries, said: say!(shared.locale(), "desk-withdrawn", entry = released), after: After::Stay })
}

/// The taking back was the slip: the same is recorded once more. A gate is released once more only if it may be.
fn put_back(shared: &Shared, entry: EntryId, now: &Moment) -> Result {
    let taken_back = shared.ledger.withdrawals.taken_back_just_now(now).filter(|taken_back| *taken_back == entry);
    let found = taken_back.and_then(|id| Entry::by_id(&shared.entries, id));
    let found = found.ok_or_else(|| AppError::refused(say!(shared.locale(), "desk-too-long-ago")))?;
    if let Body::GateReleased { stage, .. } = &found.body {
        return release(shared, stage, now).map(|done| Done { after: After::Stay, ..done });
    }
    let said = say!(
        shared.locale(),
        "desk-put-back",
        entry = view::entry_words(shared.locale(), &shared.plan, &shared.entries, found)
    );
    one(found.body.clone(), said, After::Stay)
}
