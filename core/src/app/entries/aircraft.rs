//! What is known of the aircraft, and what happened to it.

use crate::app::AppError;
use crate::app::done::{After, Done, Result, one};
use crate::app::opened::text_in_force;
use crate::app::shared::Shared;
use crate::form::{
    ChangeForm, Drafts, EmergencyForm, EventForm, FigureForm, NameForm, RemovalForm, SettingForm, ThingForm,
};
use crate::journal::NewEntry;
use crate::locale::say;
use crate::record::{AircraftId, Basis, Body, Moment, OnAircraft, Thing, ThingKind, ThingRef};
use crate::view::Place;

pub(super) fn named(shared: &Shared, drafts: Drafts<'_>) -> Result {
    let form = NameForm::new(drafts, &shared.ledger.aircraft);
    let (name, builder) = (form.name()?.to_owned(), form.builder()?.to_owned());
    let pilot = form.pilot().map(str::to_owned);
    one(Body::AircraftNamed { name, builder, pilot }, say!(shared.locale(), "app-named"), After::Back)
}

/// Another aircraft is begun under the plan in force here, with a name of its own.
pub(super) fn begun(shared: &Shared, drafts: Drafts<'_>, now: &Moment) -> Result {
    let locale = shared.locale();
    let form = NameForm::of_another(drafts, &shared.ledger.aircraft);
    let (name, builder) = (form.name()?.to_owned(), form.builder()?.to_owned());
    let others = shared.beside.iter().flatten().map(|other| other.ledger.aircraft.name.as_str());
    if others.chain([shared.ledger.aircraft.name.as_str()]).any(|known| known == name) {
        return Err(AppError::field(NameForm::NAME, say!(locale, "app-aircraft-exists", name = name)));
    }
    let said = say!(locale, "app-aircraft-begun", name = name);
    let (plan, edition) = (shared.written.id.clone(), shared.written.edition.clone());
    let text = text_in_force(shared.ledger.id, &shared.entries).1.to_owned();
    let id = shared.journal.name(now);
    let aircraft = AircraftId(Some(id));
    let pilot = form.pilot().map(str::to_owned);
    // Its beginning comes last: that is what "take back" takes back.
    let entries = vec![
        NewEntry::pilot(Body::AircraftNamed { name, builder, pilot }).of(aircraft),
        NewEntry::pilot(Body::AircraftBegun { plan, edition, text }).named(id).of(aircraft),
    ];
    Ok(Done { entries, said, after: After::Aircraft(aircraft) })
}

/// Whom to call, and where, in an emergency.
pub(super) fn emergency(shared: &Shared, drafts: Drafts<'_>) -> Result {
    let form = EmergencyForm::new(drafts, &shared.ledger);
    let (call, address) = (form.call()?.to_owned(), form.address()?.to_owned());
    let said = say!(shared.locale(), "entry-emergency", call = call, address = address);
    one(Body::EmergencyNoted { call, address }, said, After::Stay)
}

pub(super) fn answer(shared: &Shared, question: String, choice: String) -> Result {
    let known = shared.plan.question(&question).and_then(|q| q.choices.iter().find(|(id, _)| *id == choice));
    let Some((_, label)) = known else {
        return Err(AppError::refused(say!(shared.locale(), "app-answer-unknown")));
    };
    let said = label.clone();
    one(Body::TraitChosen { question, choice }, said, After::Onward)
}

pub(super) fn figure_set(shared: &Shared, id: &str, basis: Option<Basis>, drafts: Drafts<'_>) -> Result {
    let Some(figure) = shared.plan.figure(id) else {
        return Err(AppError::refused(say!(shared.locale(), "app-figure-unknown")));
    };
    let form = FigureForm::new(drafts, figure, shared.facts());
    let value = form.value()?;
    let unsaid = || AppError::field(FigureForm::BASIS, say!(shared.locale(), "app-basis-first"));
    let basis = basis.or(form.basis()).ok_or_else(unsaid)?;
    let said = say!(
        shared.locale(),
        "app-figure-set",
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
        _ => After::Onward,
    };
    let reason = form.reason(first_time)?.map(str::to_owned);
    one(Body::FigureSet { figure: id.to_owned(), value, basis, reason }, said, after)
}

pub(super) fn thing_set(
    shared: &Shared,
    kind: ThingKind,
    name: Option<&str>,
    on_aircraft: OnAircraft,
    drafts: Drafts<'_>,
) -> Result {
    let thing = ThingForm::new(drafts, &shared.ledger, kind, name).thing(name)?;
    let known = shared.ledger.aircraft.thing(kind, &thing.name);
    let on_aircraft = said_of_aircraft(shared, known, Some(&thing), on_aircraft)?;
    let said = say!(shared.locale(), "app-thing-recorded", kind = kind.word(shared.locale()), name = thing.name);
    one(Body::ThingSet { thing, on_aircraft }, said, After::Back)
}

pub(super) fn thing_removed(
    shared: &Shared,
    kind: ThingKind,
    name: String,
    on_aircraft: OnAircraft,
    drafts: Drafts<'_>,
) -> Result {
    let form = RemovalForm::new(drafts, &shared.plan, &shared.ledger, kind);
    let (instead, witness) = (form.instead()?, form.witness()?);
    let known = shared.ledger.aircraft.thing(kind, &name);
    let on_aircraft = said_of_aircraft(shared, known, None, on_aircraft)?;
    let said = say!(shared.locale(), "app-removed", name = name);
    let body = Body::ThingRemoved { thing: ThingRef { kind, name }, instead, witness, on_aircraft };
    one(body, said, After::Back)
}

/// What is recorded of the aircraft where a thing was one way and is another. Nothing was proved on it: it is as it was. Else the pilot
/// has to say which it is.
fn said_of_aircraft(
    shared: &Shared,
    old: Option<&Thing>,
    new: Option<&Thing>,
    said: OnAircraft,
) -> std::result::Result<OnAircraft, AppError> {
    match said {
        OnAircraft::NotSaid if shared.ledger.proved_on(&shared.plan, old, new).is_empty() => Ok(OnAircraft::AsItWas),
        OnAircraft::NotSaid => Err(AppError::refused(say!(shared.locale(), "app-say-of-aircraft"))),
        said => Ok(said),
    }
}

/// All things of a kind are described. Those that carry nothing stand on the control that says so.
pub(super) fn list_declared(shared: &Shared, list: ThingKind) -> Result {
    let (locale, aircraft) = (shared.locale(), &shared.ledger.aircraft);
    let count = aircraft.count_of(list);
    let idle: Vec<String> = aircraft.idle_of(list).map(|thing| thing.name.clone()).collect();
    let said = say!(locale, "entry-list-declared", list = locale.inside(&list.words(locale)), count = count);
    one(Body::ListDeclared { list, count, idle }, said, After::Keep)
}

pub(super) fn setting_changed(shared: &Shared, id: &str, drafts: Drafts<'_>) -> Result {
    let Some(setting) = shared.plan.setting(id) else {
        return Err(AppError::refused(say!(shared.locale(), "app-setting-unknown")));
    };
    let form = SettingForm(drafts);
    let (after, reason) = (form.after()?.to_owned(), form.reason()?.to_owned());
    let before = shared.ledger.aircraft.settings.get(id).map(|value| value.now.clone());
    let said = say!(shared.locale(), "app-setting-set", setting = setting.title, after = after);
    one(Body::SettingChanged { setting: id.to_owned(), before, after, reason }, said, After::Back)
}

pub(super) fn change(shared: &Shared, drafts: Drafts<'_>) -> Result {
    let form = ChangeForm(drafts);
    let (what, subjects) = (form.what()?.to_owned(), form.subjects()?);
    one(Body::Changed { subjects, what }, say!(shared.locale(), "app-change-recorded"), After::To(Place::Board))
}

pub(super) fn happened(shared: &Shared, id: String, place: &Place, drafts: Drafts<'_>) -> Result {
    let Some(event) = shared.plan.event(&id) else {
        return Err(AppError::refused(say!(shared.locale(), "app-event-unknown")));
    };
    let said = say!(shared.locale(), "app-event-recorded", event = shared.locale().lower_first(&event.title));
    let (note, after) = match place {
        Place::Events => (EventForm(drafts).note().map(str::to_owned), After::Stay),
        // Touched in the middle of jotting down a landing, say.
        _ => (None, After::Keep),
    };
    one(Body::Happened { event: id, note }, said, after)
}
