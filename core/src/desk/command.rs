//! Commands that record something: each reads the form, refuses what cannot be, and says what to append.

use super::phone::Shared;
use super::{DeskError, Form};
use crate::computed::{Computed, endurance, planned_minutes, predicted_charge};
use crate::field::{Flight, Landing, charge_range_mah};
use crate::journal::NewEntry;
use crate::plan::{Check, CheckKind, Fly, Point, Stage};
use crate::readiness::FindingState;
use crate::record::{
    Basis, Body, CheckResult, EntryId, FindingGrade, Moment, Outcome, Reading, Thing, ThingKind, ThingRef, Unit,
    Until,
};
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

pub(super) type Result = std::result::Result<Done, DeskError>;

pub(super) fn carry_out(shared: &Shared, command: Command, place: &Place, form: Form<'_>, now: &Moment) -> Result {
    match command {
        Command::Record { check, passed } => record(shared, &check, passed, form, now),
        Command::Tick { check, value } => tick(shared, &check, value, now),
        Command::Charged(pack) => charged(shared, pack, form),
        Command::Release(stage) => release(shared, &stage, now),
        Command::HandOver(check) => hand_over(shared, &check, form, now),
        Command::SaveLanding(card) => landing(shared, card, form),
        Command::DropReading { card, index } => drop_reading(shared, card, index),
        Command::Explain(card) => {
            let why = form.required("why", "The explanation")?.to_owned();
            one(Body::DisagreementExplained { card, why }, "Explained", After::Back)
        }
        Command::RaiseFinding => raise(shared, place, form),
        Command::FixFinding(finding) => fix(shared, finding, form),
        Command::CarryFinding(finding) => carry(shared, finding, form, now),
        Command::SaveName => {
            let name = form.required("name", "The aircraft's name")?.to_owned();
            let builder = form.required("builder", "Your name")?.to_owned();
            one(Body::AircraftNamed { name, builder }, "Names recorded", After::Back)
        }
        Command::Answer(question, choice) => answer(shared, question, choice),
        Command::SaveFigure(figure) => figure_set(shared, &figure, form),
        Command::SaveThing => thing_set(shared, place, form),
        Command::RemoveThing { kind, name } => {
            let said = format!("{name} removed");
            one(Body::ThingRemoved { thing: ThingRef { kind, name } }, said, After::Back)
        }
        Command::SaveSetting(setting) => setting_changed(shared, &setting, form),
        Command::SaveChange => changed(form),
        Command::RemoveCode => one(Body::CodeRemoved {}, "Pilot's code removed", After::Back),
        Command::PutBack(entry) => put_back(shared, entry, now),
        Command::Withdraw(entry) => withdraw(shared, entry, form),
        Command::RecordEvent(event) => happened(shared, event, place, form),
        Command::ReleaseAgain(stages) => release_again(shared, &stages, now),
        Command::AdoptPlan => super::plan::adopt(shared, form),
        Command::PickPlan | Command::SavePlan | Command::PickLog(_) | Command::AttachLog(_) => {
            Err(DeskError::refused("This control goes with a document"))
        }
        Command::Go(_)
        | Command::Prefer(_)
        | Command::Back
        | Command::Set(..)
        | Command::Step { .. }
        | Command::Read { .. } => Err(DeskError::refused("This control records nothing")),
    }
}

pub(super) fn one(body: Body, said: impl Into<String>, after: After) -> Result {
    Ok(Done { entries: vec![NewEntry::pilot(body)], said: said.into(), after })
}

fn wanted<'a>(shared: &'a Shared, id: &str) -> std::result::Result<(&'a str, &'a Check), DeskError> {
    let found = shared.plan.check(id).filter(|(_, check)| shared.ledger.aircraft.wants(check));
    found
        .map(|(stage, check)| (stage.id.as_str(), check))
        .ok_or_else(|| DeskError::refused("This check is not for this aircraft under the plan in force"))
}

fn record(shared: &Shared, id: &str, passed: bool, form: Form<'_>, now: &Moment) -> Result {
    let (stage, check) = wanted(shared, id)?;
    let alone = form.text("alone").filter(|_| check.point == Point::Witness).map(str::to_owned);
    let witness = match check.witness && alone.is_none() {
        true => Some(form.required("witness", "The second person's name")?.to_owned()),
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
        return Err(DeskError::refused("This check wants a second person's name: open it"));
    }
    if shared.entries.last().is_some_and(|last| now.surely_elapsed_ms_since(&last.at) < LEAST_LOOK_MS) {
        return Err(DeskError::refused("Too quick for a look: touch it again"));
    }
    let (result, said) = match (&check.kind, value) {
        (CheckKind::Confirm, None) => (CheckResult::Confirmed { passed: true }, format!("{}: right", check.title)),
        (CheckKind::Measure(measure), Some(value)) if (measure.low..=measure.high).contains(&value) => {
            let said = format!("{}: {}", check.title, measure.unit.show(value));
            (CheckResult::Measured { value, unit: measure.unit }, said)
        }
        _ => return Err(DeskError::refused("This check is done on its own page")),
    };
    one(
        Body::CheckRecorded { check: id.to_owned(), result, witness: None, note: None, alone: None },
        said,
        After::Stay,
    )
}

fn charged(shared: &Shared, pack: String, form: Form<'_>) -> Result {
    if shared.ledger.aircraft.thing(ThingKind::Pack, &pack).is_none() {
        return Err(DeskError::refused("This pack is no longer described"));
    }
    let range = charge_range_mah(&shared.ledger.aircraft, &pack);
    let field = format!("{}{pack}", view::PUT_BACK);
    let put_back_mah = form.number(&field, "Charge put back", Unit::MilliampereHour, range)?;
    let said = format!("{pack} charged");
    one(Body::PackCharged { pack, put_back_mah }, said, After::Stay)
}

fn result(
    shared: &Shared,
    check: &Check,
    passed: bool,
    form: Form<'_>,
) -> std::result::Result<(CheckResult, String), DeskError> {
    match &check.kind {
        CheckKind::Confirm => {
            let word = if passed { "right" } else { "not right" };
            Ok((CheckResult::Confirmed { passed }, format!("{}: {word}", check.title)))
        }
        CheckKind::Measure(measure) => {
            let value = form.required_number("value", &check.title, measure.unit, (measure.low, measure.high))?;
            let said = format!("{}: {}", check.title, measure.unit.show(value));
            Ok((CheckResult::Measured { value, unit: measure.unit }, said))
        }
        CheckKind::Compute(computation) => {
            let computed = Computed::of(*computation, shared.facts()).map_err(|lacking| {
                DeskError::refused(view::lacking_words(shared.locale(), &shared.plan, &lacking))
            })?;
            let values = computed.values(shared.locale());
            let result =
                CheckResult::Computed { summary: computed.summary.clone(), values, outcome: computed.outcome };
            Ok((result, computed.summary))
        }
        CheckKind::Fly(_) => Err(DeskError::refused("This check is flown: draw up its card")),
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
        return Err(DeskError::refused("This gate is not ready: see what is still in the way"));
    };
    one(released(shared, stage), format!("{} released", stage.title), After::To(Place::Board))
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
        return Err(DeskError::refused("What may be released has changed since you looked: look again"));
    }
    let found = stages.iter().filter_map(|id| shared.plan.stage(id));
    let entries: Vec<NewEntry> = found.map(|stage| NewEntry::pilot(released(shared, stage))).collect();
    let said = view::counted(entries.len(), "gate released again", "gates released again");
    Ok(Done { entries, said, after: After::To(Place::Board) })
}

fn happened(shared: &Shared, id: String, place: &Place, form: Form<'_>) -> Result {
    let Some(event) = shared.plan.event(&id) else {
        return Err(DeskError::refused("This event is not in the plan in force"));
    };
    let said = format!("Recorded: {}", shared.locale().lower_first(&event.title));
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
        "" => "The pilot".to_owned(),
        name => name.to_owned(),
    }
}

fn hand_over(shared: &Shared, id: &str, form: Form<'_>, now: &Moment) -> Result {
    let (_, check) = wanted(shared, id)?;
    let Some(fly) = check.fly() else { return Err(DeskError::refused("This check is not flown")) };
    if let Some(blocker) = shared.ledger.before_flying(&shared.plan, id, now).first() {
        let words = view::blocker_words(shared.locale(), &shared.plan, &shared.ledger, blocker);
        return Err(DeskError::refused(format!("Not yet: {words}")));
    }
    let pack = view::pack_chosen(&shared.ledger, form)
        .ok_or_else(|| DeskError::field("pack", "The pack is empty: choose it first"))?;
    let known = shared.ledger.aircraft.thing(ThingKind::Pack, &pack);
    if known.is_none() {
        return Err(DeskError::field("pack", format!("There is no pack '{pack}': describe it under Aircraft first")));
    }
    let spotter = match (view::spotter_name(&shared.ledger, form, now), check.witness) {
        (Some(name), _) => name,
        (None, true) => return Err(DeskError::field("spotter", "The spotter's name is empty: enter it first")),
        (None, false) => "The pilot",
    };
    let typed = form.number("air", "Air temperature", Unit::Celsius, (-30.0, 55.0))?;
    let air_c = typed
        .or_else(|| view::air_c(&shared.ledger, form, now))
        .ok_or_else(|| DeskError::field("air", "Air temperature is empty: enter it first"))?;
    let planned = planned_minutes(fly, endurance(shared.facts(), check, Some(&pack), air_c).as_ref());
    let minutes = form.number("minutes", "Planned time", Unit::Minute, (0.1, 30.0))?.unwrap_or(planned);
    let body = card(shared, id, fly, &pack, minutes, air_c)?;
    let name = shared.journal.name(now);
    let handed = Body::HandedOver { card: name, spotter: spotter.to_owned() };
    Ok(Done {
        entries: vec![NewEntry::pilot(body).named(name), NewEntry::pilot(handed)],
        said: format!("Handed over to {spotter}"),
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
) -> std::result::Result<Body, DeskError> {
    let head_speed_rpm = shared
        .ledger
        .aircraft
        .limit(&fly.head_speed_rpm)
        .ok_or_else(|| DeskError::refused("The head speed is not known yet: enter it under Aircraft"))?;
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

fn landing(shared: &Shared, card: EntryId, form: Form<'_>) -> Result {
    let flight = landed(shared, card)?;
    // A landing that is jotted once more keeps what was jotted before: a second reading of a place tells how it cools.
    let before = flight.landing.as_ref();
    let mut temperatures = before.map(|landing| landing.temperatures.clone()).unwrap_or_default();
    for place in &shared.plan.places {
        let field = format!("{}{}", view::TEMPERATURE, place.id);
        let label = format!("{} temperature", place.title);
        if let Some(celsius) = form.number(&field, &label, Unit::Celsius, Landing::TEMPERATURE_RANGE_C)? {
            let after = form.text(&format!("{}{field}", view::READ_AFTER));
            let after_s = after.and_then(|text| text.parse().ok()).unwrap_or(0);
            temperatures.push(Reading { place: place.id.clone(), celsius, after_s });
        }
    }
    let range = charge_range_mah(&shared.ledger.aircraft, &flight.pack);
    let pack_used_mah = form
        .number("used", "Charge used", Unit::MilliampereHour, range)?
        .or(before.and_then(|landing| landing.pack_used_mah));
    let notes = form.text("notes").map(str::to_owned).or(before.and_then(|landing| landing.notes.clone()));
    let after = after_landing(shared, flight, &temperatures, pack_used_mah);
    one(Body::LandingRecorded { card, pack_used_mah, temperatures, notes }, "Landing recorded", after)
}

fn landed(shared: &Shared, card: EntryId) -> std::result::Result<&Flight, DeskError> {
    let flight = shared.ledger.flight(card).filter(|flight| flight.down.is_some());
    flight.ok_or_else(|| DeskError::refused("This card has not landed yet"))
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
    let gone = || DeskError::refused("This reading is no longer there");
    let mut landing = flight.landing.clone().ok_or_else(gone)?;
    let index = usize::try_from(index).unwrap_or(usize::MAX);
    if index >= landing.temperatures.len() {
        return Err(gone());
    }
    let out = landing.temperatures.remove(index);
    let title = shared.plan.place(&out.place).map_or(out.place.as_str(), |place| place.title.as_str());
    let said = format!("{title} {} left out", Unit::Celsius.show(out.celsius));
    let Landing { pack_used_mah, temperatures, notes, .. } = landing;
    one(Body::LandingRecorded { card, pack_used_mah, temperatures, notes }, said, After::Stay)
}

fn raise(shared: &Shared, place: &Place, form: Form<'_>) -> Result {
    let Place::NewFinding { shown_by, proof } = place else {
        return Err(DeskError::refused("A finding is raised from a check or a landing"));
    };
    let (stage, _) = wanted(shared, proof)?;
    let title = form.required("title", "What is wrong")?.to_owned();
    let grade = match form.text("grade") {
        Some("note") => FindingGrade::Note,
        Some("stop") => FindingGrade::Stop,
        _ => FindingGrade::Caution,
    };
    let said = format!("Finding raised: {title}");
    let body =
        Body::FindingRaised { title, grade, stage: stage.to_owned(), proof: proof.clone(), shown_by: *shown_by };
    one(body, said, After::Instead(Place::Findings))
}

fn fix(shared: &Shared, finding: EntryId, form: Form<'_>) -> Result {
    let Some(found) = shared.ledger.finding(finding) else {
        return Err(DeskError::refused("This finding is no longer there"));
    };
    let what = form.required("what", "What was done")?.to_owned();
    let subjects = form.set_with(view::SUBJECT).into_iter().map(str::to_owned).collect();
    let said = format!("Fix recorded; it wants its proof: {}", view::check_title(&shared.plan, &found.proof));
    one(Body::FindingFixed { finding, what, subjects }, said, After::Stay)
}

fn carry(shared: &Shared, finding: EntryId, form: Form<'_>, now: &Moment) -> Result {
    match shared.ledger.finding(finding) {
        Some(found) if found.grade == FindingGrade::Stop => {
            return Err(DeskError::refused("A stop is not carried: it holds until it is proven"));
        }
        Some(found) if matches!(found.state, FindingState::Proven { .. }) => {
            return Err(DeskError::refused("This finding is proven: nothing is left to carry"));
        }
        Some(found) if found.grade == FindingGrade::Note => {
            return Err(DeskError::refused("A note holds nothing shut: it needs no carrying"));
        }
        Some(_) => {}
        None => return Err(DeskError::refused("This finding is no longer there")),
    }
    let restriction = form.required("restriction", "The restriction")?.to_owned();
    let reason = form.required("reason", "The reason")?.to_owned();
    let flights = form.number("flights", "Motor runs", Unit::Count, (1.0, 50.0))?;
    let days = form.number("days", "Days", Unit::Count, (1.0, 120.0))?;
    let by = pilots_name(shared);
    let until = match (flights, days) {
        (Some(_), Some(_)) => {
            return Err(DeskError::field("days", "Carried by runs or by days: leave one of the two empty"));
        }
        (None, Some(days)) => Until::Date(now.wall.date_naive() + chrono::TimeDelta::days(days.round() as i64)),
        (flights, None) => Until::Flights(flights.unwrap_or(view::CARRY_FLIGHTS).round() as u32),
    };
    one(Body::FindingCarried { finding, restriction, reason, by, until }, "Carried under a restriction", After::Stay)
}

fn answer(shared: &Shared, question: String, choice: String) -> Result {
    let known = shared.plan.question(&question).and_then(|q| q.choices.iter().find(|(id, _)| *id == choice));
    let Some((_, label)) = known else {
        return Err(DeskError::refused("This answer is not in the plan in force"));
    };
    let said = label.clone();
    one(Body::TraitChosen { question, choice }, said, After::Back)
}

fn figure_set(shared: &Shared, id: &str, form: Form<'_>) -> Result {
    let Some(figure) = shared.plan.figure(id) else {
        return Err(DeskError::refused("This figure is not in the plan in force"));
    };
    let value = form.required_number("value", &figure.title, figure.unit, (figure.low, figure.high))?;
    let basis = match form.text("basis") {
        Some("rated") => Basis::Rated,
        Some("estimated") => Basis::Estimated,
        _ => Basis::Measured,
    };
    let said = format!("{}: {}, {}", figure.title, figure.unit.show(value), basis.word(shared.locale()));
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
        true => Some(form.required("reason", "The reason")?.to_owned()),
        false => None,
    };
    one(Body::FigureSet { figure: id.to_owned(), value, basis, reason }, said, after)
}

fn thing_set(shared: &Shared, place: &Place, form: Form<'_>) -> Result {
    let Place::Thing { kind, name } = place else {
        return Err(DeskError::refused("Nothing is described here"));
    };
    let old = name.as_ref().and_then(|name| shared.ledger.aircraft.thing(*kind, name));
    let name = match name {
        Some(name) => name.clone(),
        None => form
            .required("name", &format!("The name of the {}", kind.word(shared.locale()).to_lowercase()))?
            .to_owned(),
    };
    if old.is_none() && shared.ledger.aircraft.thing(*kind, &name).is_some() {
        return Err(DeskError::field(
            "name",
            format!("There is a {} '{name}' already", kind.word(shared.locale()).to_lowercase()),
        ));
    }
    let of = match kind.hangs_on(shared.locale()) {
        Some((on, question)) => {
            let kept = old.and_then(|old| old.of.as_deref());
            let chosen = form.text("of").or(kept).or_else(|| view::only_one(&shared.ledger.aircraft, on));
            let unsaid = || {
                DeskError::field("of", format!("{question}: choose the {}", on.word(shared.locale()).to_lowercase()))
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
            return Err(DeskError::field(
                field.id,
                format!("{} is empty: enter it first", field.label(shared.locale())),
            ));
        }
    }
    let said = format!("{} {name} recorded", kind.word(shared.locale()));
    one(Body::ThingSet { thing: Thing { kind: *kind, name, of, numbers } }, said, After::Back)
}

fn setting_changed(shared: &Shared, id: &str, form: Form<'_>) -> Result {
    let Some(setting) = shared.plan.setting(id) else {
        return Err(DeskError::refused("This setting is not in the plan in force"));
    };
    let after = form.required("after", "The new value")?.to_owned();
    let reason = form.required("reason", "The reason")?.to_owned();
    let before = shared.ledger.aircraft.settings.get(id).map(|value| value.now.clone());
    let said = format!("{} set to {after}", setting.title);
    one(Body::SettingChanged { setting: id.to_owned(), before, after, reason }, said, After::Back)
}

fn changed(form: Form<'_>) -> Result {
    let what = form.required("what", "What was done")?.to_owned();
    let subjects: Vec<String> = form.set_with(view::SUBJECT).into_iter().map(str::to_owned).collect();
    if subjects.is_empty() {
        return Err(DeskError::refused("Choose what was touched, so that its evidence can be asked for again"));
    }
    one(Body::Changed { subjects, what }, "Change recorded", After::To(Place::Board))
}

fn withdraw(shared: &Shared, entry: EntryId, form: Form<'_>) -> Result {
    let Some(found) = shared.entries.iter().find(|e| e.id == entry) else {
        return Err(DeskError::refused("This entry is not in the journal"));
    };
    if !view::can_be_withdrawn(found) {
        return Err(DeskError::refused("What happened in flight is not withdrawn; write a remark instead"));
    }
    let reason = form.text("reason").unwrap_or("Taken back at once").to_owned();
    let said = format!("Withdrawn: {}", view::entry_words(shared.locale(), &shared.plan, &shared.entries, found));
    one(Body::Withdrawn { entry, reason }, said, After::Stay)
}

/// The taking back was the slip: the same is recorded once more. A gate is released once more only if it may be.
fn put_back(shared: &Shared, entry: EntryId, now: &Moment) -> Result {
    let found = view::taken_back_just_now(&shared.entries, now).filter(|found| found.id == entry);
    let found = found.ok_or_else(|| DeskError::refused("This was taken back too long ago: record it anew"))?;
    if let Body::GateReleased { stage, .. } = &found.body {
        return release(shared, stage, now).map(|done| Done { after: After::Stay, ..done });
    }
    let said = format!("Put back: {}", view::entry_words(shared.locale(), &shared.plan, &shared.entries, found));
    one(found.body.clone(), said, After::Stay)
}
