//! What can be typed where: what each form takes, what it refuses and at which field, the ends of its ranges, and what it begins with.

#![allow(clippy::unwrap_used)]

mod common;

use std::collections::BTreeMap;

use common::story::{Flown, Story, small_plan};
use common::{at_ms, id};
use liftgate_core::aircraft::{Aircraft, FigureValue};
use liftgate_core::computed::Facts;
use liftgate_core::field::Landing;
use liftgate_core::form::*;
use liftgate_core::locale::Locale;
use liftgate_core::plan::{CheckKind, Plan, SHIPPED, Subject};
use liftgate_core::readiness::{FindingState, Ledger, Logs, Standing};
use liftgate_core::record::{
    Basis, Body, EntryId, FindingGrade, Judgement, MarkKind, Outcome, PackState, Thing, ThingKind, Until, Wind,
};
use liftgate_core::tables::Form;
use liftgate_core::telemetry::{Layout, LogUnit, Quantity, TimeForm};

type Typed = BTreeMap<String, String>;

fn typed(fields: &[(&str, &str)]) -> Typed {
    fields.iter().map(|(field, text)| ((*field).to_owned(), (*text).to_owned())).collect()
}

fn over(fields: &Typed) -> Drafts<'_> {
    Drafts::new(fields, Locale::default())
}

/// The field at which it was refused; empty where no single field is at fault.
fn refused<T: std::fmt::Debug>(read: Result<T, Refusal>) -> String {
    let refusal = read.unwrap_err();
    assert!(!refusal.reason.is_empty());
    refusal.field.unwrap_or_default()
}

/// Holds both ends of a range as taken, and what lies a little beyond them, or is no number, as refused at its field.
fn ends<T: std::fmt::Debug>(
    field: &str,
    (low, high): (f64, f64),
    beyond: f64,
    read: impl Fn(Drafts<'_>) -> Result<T, Refusal>,
) {
    let of = |text: String| {
        let fields = typed(&[(field, &text)]);
        read(over(&fields))
    };
    for end in [low, high] {
        of(end.to_string()).unwrap_or_else(|refusal| panic!("{field} {end}: {refusal}"));
    }
    for wrong in [(low - beyond).to_string(), (high + beyond).to_string(), "much".to_owned()] {
        assert_eq!(refused(of(wrong.clone())), field, "{wrong}");
    }
}

fn fly_check<'a>(plan: &'a Plan, check: &str) -> (&'a liftgate_core::plan::Check, &'a liftgate_core::plan::Fly) {
    let (_, check) = plan.check(check).unwrap();
    (check, check.fly().unwrap())
}

fn card<T>(story: &Story, fields: &Typed, read: impl FnOnce(CardForm<'_>) -> T) -> T {
    let (ledger, locale) = (story.ledger(), Locale::default());
    let (check, fly) = fly_check(&story.plan, "rung-1");
    let facts = Facts { plan: &story.plan, ledger: &ledger, locale };
    read(CardForm::new(over(fields), facts, check, fly, &story.now))
}

#[test]
fn a_draft_is_read_as_a_person_types_and_refused_as_a_person_reads() {
    use liftgate_core::unit::Unit;
    let fields = typed(&[("mm", " 3,5 "), ("blank", "  "), ("count", "2.5"), ("mark:a", "1"), ("mark:b", " ")]);
    let drafts = over(&fields);
    assert_eq!(drafts.number("mm", "", Unit::Millimetre, (0.0, 10.0)), Ok(Some(3.5)), "a comma is a point");
    assert_eq!(drafts.number("blank", "", Unit::Millimetre, (0.0, 10.0)), Ok(None));
    assert_eq!(refused(drafts.required_number("blank", "", Unit::Millimetre, (0.0, 10.0))), "blank");
    assert_eq!(refused(drafts.required("blank", "")), "blank");
    assert_eq!(refused(drafts.number("count", "", Unit::Count, (0.0, 10.0))), "count", "two and a half of a thing");
    assert_eq!(drafts.set_with("mark:"), ["a"]);
    assert_eq!(drafts.left_or_known("new", "known"), Some("known"));
    assert_eq!(drafts.left_or_known("blank", "known"), None, "emptied is not known");
}

#[test]
fn a_card_begins_with_the_air_and_the_spotter_of_the_same_day_only() {
    let mut story = Story::released();
    story.fly("rung-1");
    let none = Typed::new();
    assert_eq!(card(&story, &none, |form| form.required_air_c()), Ok(15.0));
    assert_eq!(card(&story, &none, |form| form.required_spotter()).as_deref(), Ok("Sam"));
    assert_eq!(card(&story, &none, |form| form.wind()), Ok(None), "each flight has a wind of its own");
    let other = typed(&[("air", "21"), ("spotter", "Tilda")]);
    assert_eq!(card(&story, &other, |form| form.required_air_c()), Ok(21.0));
    assert_eq!(card(&story, &other, |form| form.required_spotter()).as_deref(), Ok("Tilda"));
    story.wait_days(1);
    assert_eq!(refused(card(&story, &none, |form| form.required_air_c())), CardForm::AIR);
    assert_eq!(refused(card(&story, &none, |form| form.required_spotter())), CardForm::SPOTTER);
}

#[test]
fn a_card_takes_what_can_be_and_no_own_name() {
    let mut story = Story::new();
    story.named();
    ends(CardForm::AIR, (-30.0, 55.0), 0.1, |drafts| {
        let (ledger, (check, fly)) = (story.ledger(), fly_check(&story.plan, "rung-1"));
        let facts = Facts { plan: &story.plan, ledger: &ledger, locale: Locale::default() };
        CardForm::new(drafts, facts, check, fly, &story.now).required_air_c()
    });
    ends(CardForm::WIND, (0.0, 25.0), 0.1, |drafts| {
        let (ledger, (check, fly)) = (story.ledger(), fly_check(&story.plan, "rung-1"));
        let facts = Facts { plan: &story.plan, ledger: &ledger, locale: Locale::default() };
        CardForm::new(drafts, facts, check, fly, &story.now).wind()
    });
    ends(CardForm::MINUTES, (0.1, 30.0), 0.05, |drafts| {
        let (ledger, (check, fly)) = (story.ledger(), fly_check(&story.plan, "rung-1"));
        let facts = Facts { plan: &story.plan, ledger: &ledger, locale: Locale::default() };
        CardForm::new(drafts, facts, check, fly, &story.now).minutes(&[], 20.0)
    });
    assert_eq!(card(&story, &Typed::new(), |form| form.minutes(&[], 20.0)), Ok(1.5), "the check's own");
    let both = typed(&[("wind", "4.5"), ("force", "2")]);
    assert_eq!(card(&story, &both, |form| form.wind()), Ok(Some(Wind::MetresPerSecond(4.5))), "a meter says more");
    let felt = typed(&[("force", "2")]);
    assert_eq!(card(&story, &felt, |form| form.wind()), Ok(Some(Wind::Beaufort(2))));
    for own in ["Kim", " jo "] {
        let own = typed(&[("spotter", own)]);
        assert_eq!(refused(card(&story, &own, |form| form.required_spotter())), CardForm::SPOTTER, "{own:?}");
    }
}

#[test]
fn a_card_is_for_packs_that_make_a_set_and_may_fly() {
    let mut story = Story::new();
    let none = Typed::new();
    assert_eq!(refused(card(&story, &none, |form| form.required_packs(20.0))), CardForm::PACK);
    story.pack("A", 6.0);
    assert_eq!(card(&story, &none, |form| form.packs()), ["A"], "the only one");
    story.pack("B", 6.0);
    assert!(card(&story, &none, |form| form.packs()).is_empty(), "which of two that are not full, nobody knows");
    assert!(card(&story, &typed(&[("pack", "B")]), |form| form.why_not_full()).is_err());
    let said = typed(&[("pack", "B"), ("not-full", "half for storage")]);
    assert!(card(&story, &said, |form| form.why_not_full()).unwrap().is_some());
    story.charge("B", None);
    assert_eq!(card(&story, &none, |form| form.packs()), ["B"], "the full one");
    assert_eq!(card(&story, &none, |form| form.why_not_full()), Ok(None));
    assert_eq!(refused(card(&story, &typed(&[("pack", "Gone")]), |form| form.required_packs(20.0))), CardForm::PACK);
    story.figure("pack-cells", 12.0);
    assert_eq!(card(&story, &none, |form| form.packs()), ["B", "A"], "the only ones that make a set");
    let one = typed(&[("pack", "B")]);
    assert_eq!(refused(card(&story, &one, |form| form.required_packs(20.0))), CardForm::PACK, "six cells of twelve");
    let both = card(&story, &typed(&[("pack", "B")]), |form| form.packs_with("A"));
    assert_eq!(both, "B\nA");
    let set = typed(&[("pack", both.as_str())]);
    assert_eq!(card(&story, &set, |form| form.required_packs(20.0)), Ok(vec!["B".to_owned(), "A".to_owned()]));
    assert_eq!(card(&story, &set, |form| form.packs_with("A")), "B", "touched again it is off");
    story.pack("C", 6.0);
    assert_eq!(card(&story, &set, |form| form.packs_with("C")), "A\nC", "the first makes room");
    story.note_pack("A", PackState::Swollen);
    assert_eq!(refused(card(&story, &set, |form| form.required_packs(20.0))), CardForm::PACK);
}

/// The form of a landing of the first rung that is down, over what was typed.
fn landing<T>(story: &Story, card: EntryId, fields: &Typed, read: impl FnOnce(LandingForm<'_>) -> T) -> T {
    let ledger = story.ledger();
    read(LandingForm::new(over(fields), &story.plan, &ledger.aircraft, ledger.flight(card).unwrap()))
}

#[test]
fn a_landing_asks_for_each_place_once_and_again_where_the_pilot_says_so() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-2", &Flown::default());
    let next = |fields: &[(&str, &str)]| {
        landing(&story, card, &typed(fields), |form| form.place_to_read().map(|place| place.id.clone()))
    };
    assert_eq!(next(&[]).as_deref(), Some("motor"));
    assert_eq!(next(&[("temp:motor", "40")]).as_deref(), Some("battery"));
    assert_eq!(next(&[("temp:motor", "40"), ("temp:battery", "30")]), None);
    let again = next(&[("temp:motor", "40"), ("temp:battery", "30"), ("again", "motor")]);
    assert_eq!(again.as_deref(), Some("motor"));
    story.land(card, &Flown { places: vec!["motor"], ..Flown::default() });
    let next = landing(&story, card, &Typed::new(), |form| form.place_to_read().map(|place| place.id.clone()));
    assert_eq!(next.as_deref(), Some("battery"), "what was jotted before is not asked for");
}

#[test]
fn a_landing_takes_what_can_be_read_and_keeps_what_was_jotted_before() {
    let mut story = Story::released();
    story.pack("Pack 1", 6.0);
    let card = story.up_and_down("rung-1", &Flown::default());
    let ledger = story.ledger();
    let flight = ledger.flight(card).unwrap();
    fn of<'a>(story: &'a Story, ledger: &'a Ledger, card: EntryId, drafts: Drafts<'a>) -> LandingForm<'a> {
        LandingForm::new(drafts, &story.plan, &ledger.aircraft, ledger.flight(card).unwrap())
    }
    let motor = story.plan.place("motor").unwrap();
    ends("temp:motor", Landing::TEMPERATURE_RANGE_C, 0.5, |drafts| {
        LandingForm::new(drafts, &story.plan, &ledger.aircraft, flight).temperature_c(motor, "")
    });
    ends(LandingForm::USED, (0.0, 1_560.0), 1.0, |drafts| {
        LandingForm::new(drafts, &story.plan, &ledger.aircraft, flight).used_mah()
    });
    ends(LandingForm::READ_AFTER, (0.0, 120.0), 0.5, |drafts| {
        LandingForm::new(drafts, &story.plan, &ledger.aircraft, flight).read_after_min("")
    });
    ends(LandingForm::FLOWN, (0.0, 60.0), 0.1, |drafts| {
        LandingForm::new(drafts, &story.plan, &ledger.aircraft, flight).required_flown_s()
    });
    let nothing = Typed::new();
    assert_eq!(refused(of(&story, &ledger, card, over(&nothing)).required_flown_s()), LandingForm::FLOWN);
    assert!(!of(&story, &ledger, card, over(&nothing)).is_refused());
    for wrong in [("temp:battery", "hot"), (LandingForm::USED, "2000"), (LandingForm::READ_AFTER, "121")] {
        assert!(of(&story, &ledger, card, over(&typed(&[wrong]))).is_refused(), "{wrong:?}");
    }
    let after = typed(&[("temp:motor", "51"), ("after:temp:motor", "40")]);
    let read = of(&story, &ledger, card, over(&after)).temperatures().unwrap();
    assert_eq!((read[0].celsius, read[0].after_s), (51.0, 40));
    story.land(card, &Flown { used_mah: Some(950.0), places: vec!["motor"], ..Flown::default() });
    let twice = landing(&story, card, &after, |form| form.temperatures()).unwrap();
    assert_eq!(twice.iter().map(|reading| reading.celsius).collect::<Vec<_>>(), [45.0, 51.0]);
    assert_eq!(landing(&story, card, &nothing, |form| form.used_mah()), Ok(Some(950.0)));
    assert_eq!(landing(&story, card, &typed(&[("used", "960")]), |form| form.used_mah()), Ok(Some(960.0)));
}

#[test]
fn a_landings_numbers_start_from_what_is_nearest_to_them() {
    let mut story = Story::released();
    let start = |story: &Story, card, place: &str| {
        let flights = story.ledger().flights;
        landing(story, card, &Typed::new(), |form| {
            (form.temperature_start_c(&flights, place), form.used_start_mah(&flights))
        })
    };
    story
        .fly_as("rung-1", &Flown { places: vec!["motor"], celsius: 61.0, used_mah: Some(730.0), ..Flown::default() });
    let run = story.up_and_down("run-up", &Flown::default());
    assert_eq!(start(&story, run, "motor"), (61.0, 750.0), "as on the last flight, to a whole step");
    assert_eq!(start(&story, run, "nowhere").0, 40.0, "it was never read");
    let hover = story.up_and_down("rung-1", &Flown { minutes: 1, ..Flown::default() });
    assert_eq!(start(&story, hover, "motor"), (61.0, 500.0), "half of the time, half of what was predicted");
    let read = Flown { places: vec!["motor"], celsius: 55.0, used_mah: Some(480.0), ..Flown::default() };
    story.land(hover, &read);
    assert_eq!(start(&story, hover, "motor"), (55.0, 500.0), "as it was jotted");
    assert_eq!(start(&story, run, "motor").0, 55.0, "the newest flight on which it was read");
}

#[test]
fn a_landing_is_well_by_the_way_only_where_nothing_speaks_against_it() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-1", &Flown::default());
    let by_the_way =
        |fields: &[(&str, &str)]| landing(&story, card, &typed(fields), |form| form.judgement_by_the_way()).unwrap();
    assert_eq!(by_the_way(&[("temp:motor", "40")]), Judgement::AsItShouldBe);
    assert_eq!(by_the_way(&[("temp:motor", "91")]), Judgement::Open, "past its stop");
    assert_eq!(by_the_way(&[("temp:motor", "40"), ("not-so", "1")]), Judgement::Open);
    let said = |fields: &[(&str, &str)], said| landing(&story, card, &typed(fields), |form| form.judgement(said));
    for how in [Said::NotSo, Said::CalledOff] {
        assert_eq!(refused(said(&[], how)), LandingForm::WHY, "a reason is wanted");
    }
    assert_eq!(said(&[], Said::AsItShouldBe), Ok(Judgement::AsItShouldBe));
    assert_eq!(said(&[("why", "It shook")], Said::NotSo), Ok(Judgement::NotSo { why: "It shook".to_owned() }));
    assert_eq!(refused(landing(&story, card, &Typed::new(), |form| form.slip())), LandingForm::SLIP);
}

#[test]
fn what_is_odd_about_a_landing_is_refused_until_it_is_so() {
    let mut story = Story::released();
    let card = story.up_and_down("rung-1", &Flown::default());
    let cold = typed(&[("temp:motor", "5")]);
    let doubts = landing(&story, card, &cold, |form| form.doubts()).unwrap();
    assert!(!doubts.is_empty(), "10 K below the air");
    let words = |_: &_| String::from("odd");
    assert_eq!(refused(landing(&story, card, &cold, |form| form.confirmed(words))), "");
    let mut so = cold.clone();
    so.extend(doubts.iter().map(|doubt| (LandingForm::so_field(doubt), "1".to_owned())));
    assert_eq!(landing(&story, card, &so, |form| form.confirmed(words)).unwrap().len(), doubts.len());
}

#[test]
fn a_check_takes_its_readings_range_and_another_persons_name() {
    let plan = small_plan();
    let aircraft = Aircraft { pilot: "Kim".to_owned(), builder: "Jo".to_owned(), ..Aircraft::default() };
    let (_, gap) = plan.check("gap").unwrap();
    let CheckKind::Measure(measure) = &gap.kind else { panic!("it is measured") };
    ends(CheckForm::VALUE, (0.0, 20.0), 0.1, |drafts| CheckForm::new(drafts, gap, &aircraft).required_value(measure));
    let none = Typed::new();
    assert_eq!(CheckForm::new(over(&none), gap, &aircraft).value(measure), Ok(None));
    assert_eq!(refused(CheckForm::new(over(&none), gap, &aircraft).required_value(measure)), CheckForm::VALUE);
    assert_eq!(CheckForm::new(over(&none), gap, &aircraft).witness(), Ok(None), "nobody has to see it");
    let witness = |check: &str, fields: &[(&str, &str)]| {
        let (_, check) = plan.check(check).unwrap();
        let fields = typed(fields);
        CheckForm::new(over(&fields), check, &aircraft).witness().map(|name| name.map(str::to_owned))
    };
    assert_eq!(refused(witness("look", &[])), CheckForm::WITNESS);
    assert_eq!(refused(witness("look", &[("witness", "kim")])), CheckForm::WITNESS, "the pilot");
    assert_eq!(witness("look", &[("witness", "Sam")]), Ok(Some("Sam".to_owned())));
    assert_eq!(refused(witness("look", &[("alone", "nobody was there")])), CheckForm::WITNESS, "a hold point");
    assert_eq!(witness("track", &[("alone", "nobody was there")]), Ok(None), "a witness point");
    assert_eq!(refused(witness("track", &[("alone", "x")])), CheckForm::ALONE);
}

const LOG: &str = "Time [s],Head [rpm],Motor [°C]\n0.0,900,20\n0.1,901,21\n0.2,902,22\n0.3,903,23\n0.4,904,24\n";

#[test]
fn columns_are_what_is_chosen_and_one_alone_is_the_time() {
    let plan = small_plan();
    let layout = Layout::of(LOG.as_bytes()).unwrap();
    let named = |fields: &[(&str, &str)]| {
        let fields = typed(fields);
        ColumnsForm::new(over(&fields), &layout).named(&Logs::default(), &plan)
    };
    let quantity_of = |map: &liftgate_core::telemetry::ColumnMap, column| {
        map.columns.iter().find(|mapped| mapped.column == column).map(|mapped| mapped.quantity)
    };
    let suggested = named(&[]);
    assert_eq!(suggested.time_column, Some(0));
    assert_eq!(quantity_of(&suggested, 2), Some(Quantity::Temperature));
    let left_out = named(&[("column:2", ColumnsForm::LEAVE_OUT)]);
    assert_eq!(quantity_of(&left_out, 2), None);
    let current = ColumnsForm::quantity_id(Quantity::PackCurrent);
    assert_eq!(quantity_of(&named(&[("column:1", &current)]), 1), Some(Quantity::PackCurrent));
    let milli = ColumnsForm::unit_id(LogUnit::Milliampere);
    let in_milli = named(&[("column:1", &current), ("unit:1", &milli)]);
    assert_eq!(in_milli.columns.iter().find(|mapped| mapped.column == 1).unwrap().unit, LogUnit::Milliampere);
    let speed = ColumnsForm::quantity_id(Quantity::HeadSpeed);
    let turned = named(&[("column:1", &speed), ("turns:1", "8")]);
    assert_eq!(turned.columns.iter().find(|mapped| mapped.column == 1).unwrap().ratio, 0.125);
    let no_time = named(&[("column:0", ColumnsForm::LEAVE_OUT)]);
    assert_eq!((no_time.time_column, no_time.time_form), (None, TimeForm::EveryRow { period_s: 0.1 }));
    let slow = named(&[("column:0", ColumnsForm::LEAVE_OUT), ("period", "0.5")]);
    assert_eq!(slow.time_form, TimeForm::EveryRow { period_s: 0.5 });
    let time = ColumnsForm::quantity_id(Quantity::Time);
    let other = named(&[("column:1", &time)]);
    assert_eq!(other.time_column, Some(1));
    let was = typed(&[("column:0", &time), ("column:2", &current)]);
    assert_eq!(ColumnsForm::no_longer_time("column:1", &time, &was), ["column:0"]);
    assert!(ColumnsForm::no_longer_time("column:1", &current, &was).is_empty());
    ends("turns:1", ColumnsForm::TURNS_RANGE, 0.01, |drafts| ColumnsForm::new(drafts, &layout).check_typed(&turned));
    ends(ColumnsForm::PERIOD, ColumnsForm::PERIOD_RANGE_S, 0.0005, |drafts| {
        ColumnsForm::new(drafts, &layout).check_typed(&no_time)
    });
}

#[test]
fn names_stay_as_they_are_known_and_are_never_emptied() {
    let aircraft = Aircraft {
        name: "Plover".to_owned(),
        builder: "Jo".to_owned(),
        pilot: "Jo".to_owned(),
        ..Aircraft::default()
    };
    let none = Typed::new();
    let known = NameForm::new(over(&none), &aircraft);
    assert_eq!(
        (known.name(), known.builder(), known.pilot()),
        (Ok("Plover"), Ok("Jo"), None),
        "the builder flies it"
    );
    let other = Aircraft { pilot: "Kim".to_owned(), ..aircraft.clone() };
    assert_eq!(NameForm::new(over(&none), &other).pilot(), Some("Kim"));
    let emptied = typed(&[("name", " "), ("builder", ""), ("pilot", "")]);
    let emptied = NameForm::new(over(&emptied), &other);
    assert_eq!(refused(emptied.name()), NameForm::NAME);
    assert_eq!(refused(emptied.builder()), NameForm::BUILDER);
    assert_eq!(emptied.pilot(), None);
    let words = typed(&[("find", "TAIL gear")]);
    let find = FindForm::new(over(&words));
    assert!(find.is_wanted() && find.finds("Gear ratio of the tail") && !find.finds("Tail rotor"));
    let find = FindForm::new(over(&none));
    assert!(!find.is_wanted() && find.finds("anything"));
}

#[test]
fn a_figure_is_in_its_range_and_says_why_it_is_changed() {
    let mut story = Story::new();
    let figure = story.plan.figure("speed").unwrap().clone();
    let empty = Ledger::default();
    let facts = |ledger| Facts { plan: &story.plan, ledger, locale: Locale::default() };
    ends(FigureForm::VALUE, (10.0, 3_000.0), 1.0, |drafts| FigureForm::new(drafts, &figure, facts(&empty)).value());
    let none = Typed::new();
    let form = FigureForm::new(over(&none), &figure, facts(&empty));
    assert_eq!(refused(form.value()), FigureForm::VALUE);
    assert_eq!((form.basis(), form.reason(true)), (None, Ok(None)));
    assert_eq!(refused(form.reason(false)), FigureForm::REASON, "changed on purpose, it says so");
    let reach = story.plan.figure("reach").unwrap();
    assert_eq!(FigureForm::new(over(&none), reach, facts(&empty)).reason(false), Ok(None), "not one that is changed");
    let rated = typed(&[("basis", FigureForm::basis_id(Basis::Rated))]);
    assert_eq!(FigureForm::new(over(&rated), &figure, facts(&empty)).basis(), Some(Basis::Rated));
    story.figure("speed", 900.0);
    let known = story.ledger();
    let facts = Facts { plan: &story.plan, ledger: &known, locale: Locale::default() };
    let on_file = known.aircraft.figures["speed"].basis;
    assert_eq!(FigureForm::new(over(&none), &figure, facts).basis(), Some(on_file), "as it was");
}

#[test]
fn a_figure_that_others_tell_is_offered_until_something_is_typed() {
    let plan = Plan::parse("shipped.toml", SHIPPED).unwrap();
    let mut ledger = Ledger::default();
    for (figure, value) in [("main-gear-teeth", 120.0), ("pinion-teeth", 10.0)] {
        let value = FigureValue { value, basis: Basis::Measured, entry: id(1) };
        ledger.aircraft.figures.insert(figure.to_owned(), value);
    }
    let facts = Facts { plan: &plan, ledger: &ledger, locale: Locale::default() };
    let ratio = plan.figure("gear-ratio").unwrap();
    let (none, other) = (Typed::new(), typed(&[("value", "11")]));
    assert_eq!(FigureForm::new(over(&none), ratio, facts).value(), Ok(12.0));
    let form = FigureForm::new(over(&other), ratio, facts);
    assert_eq!((form.offered(), form.value()), (None, Ok(11.0)));
}

#[test]
fn a_setting_and_a_change_say_what_and_why() {
    let none = Typed::new();
    assert_eq!(refused(SettingForm(over(&none)).after()), SettingForm::AFTER);
    assert_eq!(refused(SettingForm(over(&none)).reason()), SettingForm::REASON);
    assert_eq!(refused(ChangeForm(over(&none)).what()), ChangeForm::WHAT);
    assert_eq!(refused(ChangeForm(over(&none)).subjects()), "", "nothing is marked");
    let wiring = Subject::parse("wiring").unwrap();
    let field = SubjectsForm::field(&wiring);
    let marked = typed(&[("what", "New wire"), (&field, SubjectsForm(over(&none)).turned(&wiring))]);
    assert_eq!(ChangeForm(over(&marked)).subjects(), Ok(vec!["wiring".to_owned()]));
    assert_eq!(SubjectsForm(over(&marked)).turned(&wiring), "", "touched again it is off");
}

#[test]
fn an_asked_day_is_taken_to_the_nearest_that_can_be() {
    for asked in [AskedDayForm::AIR, AskedDayForm::AIRFLOW, AskedDayForm::POWER, AskedDayForm::MINUTES] {
        let value = |text: &str| {
            let fields = typed(&[(asked.field, text)]);
            AskedDayForm(over(&fields)).value(asked, 20.0)
        };
        let (low, high) = asked.range;
        assert_eq!((value(""), value("much")), (20.0, 20.0), "where it starts");
        assert_eq!((value(&(low - 1.0).to_string()), value(&(high + 1.0).to_string())), (low, high));
        assert_eq!(value("25"), 25.0);
    }
}

#[test]
fn whom_to_call_has_a_digit_and_stays_as_known() {
    let mut ledger = Ledger::default();
    let read = |ledger: &Ledger, fields: &[(&str, &str)]| {
        let fields = typed(fields);
        let form = EmergencyForm::new(over(&fields), ledger);
        (form.call().map(str::to_owned), form.address().map(str::to_owned))
    };
    let (call, address) = read(&ledger, &[]);
    assert_eq!(
        (refused(call), refused(address)),
        (EmergencyForm::CALL.to_owned(), EmergencyForm::ADDRESS.to_owned())
    );
    assert_eq!(refused(read(&ledger, &[("call", "the warden")]).0), EmergencyForm::CALL);
    let mut story = Story::new();
    story.add(Body::EmergencyNoted { call: "112".to_owned(), address: "Field road 1".to_owned() });
    ledger = story.ledger();
    assert_eq!(read(&ledger, &[]), (Ok("112".to_owned()), Ok("Field road 1".to_owned())));
    assert_eq!(refused(read(&ledger, &[("address", "")]).1), EmergencyForm::ADDRESS);
}

#[test]
fn a_finding_begins_as_bad_as_its_check_stands() {
    use liftgate_core::readiness::Fault;
    let failed = Standing::Failed { why: Fault::FoundNotRight };
    let fresh = Standing::Fresh { outcome: Outcome::Pass };
    let none = Typed::new();
    assert_eq!(NewFindingForm::new(over(&none), &failed).grade(), FindingGrade::Stop);
    assert_eq!(NewFindingForm::new(over(&none), &fresh).grade(), FindingGrade::Caution);
    let note = typed(&[("grade", FindingGrade::Note.id())]);
    assert_eq!(NewFindingForm::new(over(&note), &failed).grade(), FindingGrade::Note);
    assert_eq!(refused(NewFindingForm::new(over(&note), &failed).title()), NewFindingForm::TITLE);
    let fix = |grade, text: &str| {
        let fields = typed(&[("what", text)]);
        FixForm(over(&fields)).what(grade).map(str::to_owned)
    };
    assert_eq!(refused(fix(FindingGrade::Caution, "")), FixForm::WHAT);
    assert_eq!(fix(FindingGrade::Caution, "mended"), Ok("mended".to_owned()));
    assert_eq!(refused(fix(FindingGrade::Stop, "mended")), FixForm::WHAT, "of a stop, enough that another can tell");
    assert!(fix(FindingGrade::Stop, "new bearing fitted").is_ok());
}

#[test]
fn a_finding_is_carried_for_runs_or_for_days_and_not_for_both() {
    let now = at_ms(0);
    ends(CarryForm::RUNS, (1.0, 50.0), 1.0, |drafts| CarryForm(drafts).until(&now));
    ends(CarryForm::DAYS, (1.0, 120.0), 1.0, |drafts| CarryForm(drafts).until(&now));
    let until = |fields: &[(&str, &str)]| {
        let fields = typed(fields);
        CarryForm(over(&fields)).until(&now)
    };
    assert_eq!(until(&[]), Ok(Until::Flights(5)));
    assert_eq!(until(&[("days", "3")]), Ok(Until::Date(now.wall.date_naive() + chrono::TimeDelta::days(3))));
    assert_eq!(refused(until(&[("days", "3"), ("flights", "2")])), CarryForm::DAYS);
    assert_eq!(refused(until(&[("flights", "2.5")])), CarryForm::RUNS);
    let days = typed(&[("days", "3")]);
    assert_eq!((CarryForm(over(&days)).runs_usual(), CarryForm(over(&Typed::new())).runs_usual()), (None, Some(5.0)));
    assert_eq!(refused(CarryForm(over(&days)).restriction()), CarryForm::RESTRICTION);
    assert_eq!(refused(CarryForm(over(&days)).reason()), CarryForm::REASON);
}

#[test]
fn a_pack_takes_what_it_holds_and_cells_in_their_order() {
    let mut story = Story::new();
    story.pack("A", 6.0);
    let aircraft = story.ledger().aircraft;
    let (low, high) = PutBackForm::new(over(&Typed::new()), &aircraft, "A").range_mah();
    assert!(high > 1_300.0 && high < 2_000.0, "what it holds, and a little more: {high}");
    ends("put:A", (low, high), 1.0, |drafts| PutBackForm::new(drafts, &aircraft, "A").put_back_mah());
    let of_b = typed(&[("put:B", "100")]);
    assert_eq!(PutBackForm::new(over(&of_b), &aircraft, "A").put_back_mah(), Ok(None), "another pack's");
    let cells = |low: &str, high: &str| {
        let fields = typed(&[("low:A", low), ("high:A", high)]);
        CellsForm::new(over(&fields), "A").cells_v()
    };
    assert_eq!(cells("2.0", "4.6"), Ok((2.0, 4.6)));
    assert_eq!(cells("3.8", "3.8"), Ok((3.8, 3.8)));
    for (low, high, at) in [
        ("1.9", "3.8", "low:A"),
        ("3.8", "4.7", "high:A"),
        ("", "3.8", "low:A"),
        ("3.8", "", "high:A"),
        ("3.9", "3.8", "high:A"),
    ] {
        assert_eq!(refused(cells(low, high)), at, "{low} {high}");
    }
}

#[test]
fn the_last_people_are_named_once_the_last_first_and_never_the_pilot() {
    let mut story = Story::released();
    story.named();
    for spotter in ["Ann", "Bea", "ann", "Kim", "The pilot"] {
        story.fly_as("rung-1", &Flown { spotter: spotter.to_owned(), ..Flown::default() });
    }
    let ledger = story.ledger();
    assert_eq!(last_people(&ledger, 2), ["ann", "Bea"]);
    assert!(last_people(&ledger, 9).iter().all(|name| !["Kim", "Jo", "The pilot"].contains(name)));
}

#[test]
fn a_remark_that_is_wanted_says_something() {
    let mark = id(7);
    let read = |fields: &[(&str, &str)]| {
        let fields = typed(fields);
        let drafts = over(&fields);
        let explained = ExplanationForm(drafts).why().map(str::to_owned);
        (explained, WaiverForm(drafts).reason().map(str::to_owned), WithdrawalForm(drafts).required_reason())
    };
    let (why, waiver, withdrawal) = read(&[]);
    assert_eq!([refused(why), refused(waiver), refused(withdrawal)], ["why", "waiver", "reason"]);
    let (why, waiver, withdrawal) = read(&[("why", "gusts"), ("waiver", "x"), ("reason", "typo")]);
    assert_eq!([refused(why), refused(waiver)], ["why", "waiver"], "one word is no sentence");
    assert_eq!(withdrawal, Ok("typo".to_owned()));
    assert_eq!(read(&[("why", "gusts all along")]).0, Ok("gusts all along".to_owned()));
    assert!(!WithdrawalForm(over(&Typed::new())).reason().is_empty(), "taken back, without a word");
    let none = Typed::new();
    let answer = MarkAnswerForm::new(over(&none), mark);
    assert_eq!((answer.is_typed(), refused(answer.words())), (false, answer.field()));
    let one = typed(&[(&answer.field(), "a bird")]);
    assert_eq!(MarkAnswerForm::new(over(&one), mark).words(), Ok("a bird"));
    assert!(!MarkAnswerForm::new(over(&one), id(8)).is_typed(), "each mark has its own");
    assert_eq!(EventForm(over(&typed(&[("note", "hard")]))).note(), Some("hard"));
}

#[test]
fn a_part_under_a_stop_goes_only_with_what_took_its_place_and_a_witness() {
    let mut story = Story::new();
    story.named();
    let read = |story: &Story, kind, fields: &[(&str, &str)]| {
        let (ledger, fields) = (story.ledger(), typed(fields));
        let form = RemovalForm::new(over(&fields), &story.plan, &ledger, kind);
        (form.stop().is_some(), form.instead(), form.wants_witness(), form.witness())
    };
    assert_eq!(read(&story, ThingKind::Pack, &[]), (false, Ok(None), false, Ok(None)));
    let finding = story.raise(FindingGrade::Stop, "rung-2");
    let (is_stop, instead, wants, witness) = read(&story, ThingKind::Pack, &[]);
    assert!(is_stop && wants, "the second rung rests on the packs");
    assert_eq!(
        (refused(instead), refused(witness)),
        (RemovalForm::INSTEAD.to_owned(), RemovalForm::WITNESS.to_owned())
    );
    let (_, instead, _, witness) = read(&story, ThingKind::Pack, &[("instead", "nothing"), ("witness", "Jo")]);
    assert_eq!(
        (refused(instead), refused(witness)),
        (RemovalForm::INSTEAD.to_owned(), RemovalForm::WITNESS.to_owned())
    );
    let (_, instead, _, witness) = read(&story, ThingKind::Pack, &[("instead", "a new pack"), ("witness", "Sam")]);
    assert_eq!((instead, witness), (Ok(Some("a new pack".to_owned())), Ok(Some("Sam".to_owned()))));
    assert!(!read(&story, ThingKind::Wire, &[]).0, "it rests on no wire");
    story.withdraw(finding);
    story.raise(FindingGrade::Caution, "rung-2");
    assert!(!read(&story, ThingKind::Pack, &[]).0, "a caution is no stop");
}

#[test]
fn a_thing_begins_with_what_is_on_file_and_says_which_number_lacks() {
    let mut story = Story::new();
    story.pack("Pack 1", 6.0);
    story.figure("pack-capacity", 5_000.0);
    let ledger = story.ledger();
    let form = |fields: &Typed, kind, name: Option<&str>| -> Result<Thing, Refusal> {
        ThingForm::new(over(fields), &ledger, kind, name).thing(None)
    };
    let numbers = |thing: Thing| (thing.name, thing.numbers);
    let cells = typed(&[("cells", "12")]);
    let (name, read) = numbers(form(&cells, ThingKind::Pack, None).unwrap());
    assert_eq!(
        (name.as_str(), read["cells"], read["capacity_mah"]),
        ("Pack 2", 12.0, 5_000.0),
        "the next number is free"
    );
    assert_eq!(refused(form(&Typed::new(), ThingKind::Pack, None)), "cells");
    assert_eq!(refused(form(&typed(&[("name", "Pack 1"), ("cells", "6")]), ThingKind::Pack, None)), ThingForm::NAME);
    for (text, is_taken) in [("1", true), ("16", true), ("0", false), ("17", false), ("6.5", false)] {
        let read = form(&typed(&[("cells", text)]), ThingKind::Pack, None);
        assert_eq!(
            read.as_ref().map_or_else(|refusal| refusal.field.as_deref() != Some("cells"), |_| true),
            is_taken,
            "{text}"
        );
    }
    let like = typed(&[(ThingForm::LIKE, "Pack 1")]);
    assert_eq!(numbers(form(&like, ThingKind::Pack, None).unwrap()).1["cells"], 6.0, "as the one that it is like");
    let wire = typed(&[("name", "Lead"), ("length_m", "0.3"), ("current_a", "20"), ("source_v", "44")]);
    assert_eq!(refused(form(&wire, ThingKind::Wire, None)), "gauge", "a wire without a size");
    let mut sized = wire.clone();
    sized.insert("area_mm2".to_owned(), "4".to_owned());
    assert!(form(&sized, ThingKind::Wire, None).is_ok());
    assert_eq!(
        refused(form(&typed(&[("name", "Servo")]), ThingKind::Consumer, None)),
        ThingForm::OF,
        "fed by nothing"
    );
    let read = typed(&[("now_mohm", "12")]);
    assert_eq!(refused(form(&read, ThingKind::PackReading, None)), "flights", "it may have been flown before");
    story.measure_pack("Reading 1", "Pack 1", 8.0, 4_900.0);
    let ledger = story.ledger();
    let reading = ThingForm::new(over(&read), &ledger, ThingKind::PackReading, None).thing(None).unwrap();
    assert_eq!((reading.of.as_deref(), reading.numbers["flights"]), (Some("Pack 1"), 8.0), "as they were counted");
}

#[test]
fn a_run_without_a_phone_has_its_time_its_end_and_marks_within_it() {
    let now = at_ms(0);
    ends(WithoutPhoneForm::FLOWN, (0.1, 60.0), 0.05, |drafts| WithoutPhoneForm(drafts).flown_s());
    ends(WithoutPhoneForm::AGO, (0.0, 1_440.0), 1.0, |drafts| WithoutPhoneForm(drafts).down_ago_s(&now));
    let none = Typed::new();
    assert_eq!(refused(WithoutPhoneForm(over(&none)).flown_s()), WithoutPhoneForm::FLOWN);
    assert_eq!(refused(WithoutPhoneForm(over(&none)).down_ago_s(&now)), WithoutPhoneForm::AGO);
    let (first, second) = (MarkKind::ALL[0], MarkKind::ALL[1]);
    let field = |kind| (WithoutPhoneForm::noted_field(kind), WithoutPhoneForm::noted_at_field(kind));
    let noted = |at_first: &str, at_second: &str| {
        let ((one, one_at), (other, other_at)) = (field(first), field(second));
        let fields = typed(&[(&one, "1"), (&one_at, at_first), (&other, "1"), (&other_at, at_second)]);
        WithoutPhoneForm(over(&fields)).noted(120)
    };
    assert_eq!(noted("2", "0.5"), Ok(vec![(30, second), (120, first)]), "the earliest first");
    assert_eq!(refused(noted("2.1", "1")), field(first).1, "after the touchdown");
    assert_eq!(refused(noted("1", "")), field(second).1);
    let unmarked = typed(&[(&field(first).1, "9")]);
    assert_eq!(WithoutPhoneForm(over(&unmarked)).noted(120), Ok(vec![]), "it was not noted");
}

#[test]
fn another_plan_is_kept_out_by_what_it_would_lose() {
    let mut story = Story::released();
    let plan = story.plan.clone();
    let without = Plan::parse("other.toml", &common::story::edition(2)).unwrap();
    let why = |story: &Story, offered: &Plan| {
        let ledger = story.ledger();
        match keeps_out(&ledger, &plan, offered) {
            None => "nothing".to_owned(),
            Some(KeepsOut::InForce) => "in force".to_owned(),
            Some(KeepsOut::Landing { check }) => format!("landing {check}"),
            Some(KeepsOut::Finding(finding)) => format!("finding {}", finding.proof),
        }
    };
    assert_eq!(why(&story, &plan), "in force");
    assert_eq!(why(&story, &without), "nothing");
    let finding = story.raise(FindingGrade::Note, "belt");
    assert_eq!(why(&story, &without), "finding belt", "the other one has no belt");
    story.withdraw(finding);
    story.raise(FindingGrade::Note, "gap");
    assert_eq!(why(&story, &without), "nothing");
    story.up_and_down("rung-1", &Flown::default());
    assert_eq!(why(&story, &without), "landing rung-1");
    assert!(story.ledger().findings.iter().any(|finding| !matches!(finding.state, FindingState::Proven { .. })));
}

#[test]
fn choices_of_a_page_begin_somewhere_and_go_on() {
    let none = Typed::new();
    assert_eq!(TablesForm(over(&none)).form(), Form::Csv);
    for form in Form::ALL {
        assert_eq!(TablesForm(over(&typed(&[("form", form.id())]))).form(), form);
    }
    let page = JournalForm::new(over(&none));
    assert_eq!((page.wanted(), page.more() - page.shown()), (None, page.shown()));
    let further = typed(&[("shown", &page.more().to_string()), ("search", " belt ")]);
    let further = JournalForm::new(over(&further));
    assert_eq!((further.wanted(), further.shown()), (Some("belt"), page.more()));
    let picked = typed(&[("name", " plan.toml "), ("text", "\n a \n")]);
    let picked = PlanOfferForm(over(&picked));
    assert_eq!(
        (picked.name(), picked.text()),
        (Some("plan.toml"), Some("\n a \n")),
        "a document's blanks are its own"
    );
}
