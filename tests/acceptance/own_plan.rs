//! A plan of one's own: copied out, changed, looked at before it takes effect, and taken back again.

use liftgate_core::app::AppError;
use liftgate_core::record::Body;
use liftgate_core::view::Block;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const OPEN: &str = "Open a plan file";
const ADOPT: &str = "Bring this plan into force";

fn plan_text(walk: &mut Walk) -> String {
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Large electric helicopter");
    String::from_utf8(walk.person.save("Save a copy of this plan")).unwrap()
}

/// What the rows with a title say.
fn states(walk: &Walk, of: &str) -> Vec<String> {
    let state = |block| match block {
        Block::Row { title, state, .. } if title == of => Some(state),
        _ => None,
    };
    walk.person.screen().blocks.into_iter().filter_map(state).collect()
}

/// Replaces what must stand in the plan.
fn with(text: &str, from: &str, to: &str) -> String {
    assert!(text.contains(from), "'{from}' is not in the plan");
    text.replacen(from, to, 1)
}

#[test]
fn what_would_lapse_is_seen_before_it_takes_effect_and_nothing_is_lost_by_it() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Bench electrics");
    let text = plan_text(&mut walk);
    let entries = walk.person.entries().len();

    // A stricter limit, past which the reading lies; another instruction; a check more.
    let mine = with(&text, "edition = \"", "edition = \"mine, ");
    let mine = with(&mine, "caution_above = { figure = \"mass-limit\", times = 0.95 }", "");
    let mine = with(&mine, "stop_above = { figure = \"mass-limit\", times = 1.0 }", "stop_above = 8.0");
    let mine = with(&mine, "do = \"Look up the national rules for this mass and rotor.", "do = \"Look up all rules.");
    let mine = with(
        &mine,
        "[[stage.check]]\nid = \"planned-mass-under-limit\"",
        "[[stage.check]]\nid = \"label\"\ntitle = \"Name plate\"\n\
         do = \"Look for it.\"\nwhy = \"The rules ask for it.\"\njudged = \"It is there.\"\nkind = \"confirm\"\n\n\
         [[stage.check]]\nid = \"planned-mass-under-limit\"",
    );
    walk.person.pick(OPEN, "mine.toml", mine.as_bytes());
    assert_eq!(walk.person.verdict(), "It asks less in 1 place. 2 gates lapse by it, and 2 checks go stale.");
    let (_, word, why) = walk.person.row("Rules and permission looked up").unwrap();
    assert_eq!(word, "Stale");
    assert!(why.unwrap().contains("asks for something else"));
    let states = states(&walk, "Planned mass under the limit");
    assert_eq!(states[..2], ["Asks less", "Not right"], "judged by the new limit: {states:?}");
    assert_eq!(walk.person.row("Name plate").unwrap().1, "Check");
    assert!(walk.person.words().contains("Stop above: was 'Highest mass allowed, by maker or permission', now 8 kg"));
    assert_eq!(walk.person.entries().len(), entries, "looking records nothing");
    assert!(walk.person.words().contains("Worth mending in it"), "the linter has its say: 8 kg is not in its text");

    walk.person.tap(ADOPT);
    assert!(matches!(walk.person.last(), Body::PlanAdopted { text, .. } if text == mine), "its whole text is kept");
    assert_eq!(walk.person.row("Figures and papers").unwrap().1, "Lapsed");
    assert_eq!(walk.person.row("Rules and permission looked up").unwrap().1, "Stale", "the board says what it did");
    walk.person.killed_and_the_same();

    // A slip: taken back, all stands as before.
    walk.person.tap("Take back");
    assert_eq!(walk.person.row("Figures and papers").unwrap().1, "Released");
    assert_eq!(walk.person.row("Bench electrics").unwrap().1, "Released");
    assert_eq!(plan_text(&mut walk), text);
}

#[test]
fn words_alone_lapse_nothing() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let text = plan_text(&mut walk);
    let mine = with(&text, "title = \"Figures and papers\"", "title = \"Papers\"");
    let mine = with(&mine, "why = \"A blade turned faster", "why = \"A blade that is turned faster");
    walk.person.pick(OPEN, "mine.toml", mine.as_bytes());
    assert_eq!(walk.person.verdict(), "Nothing lapses and nothing goes stale by it.");
    walk.person.tap(ADOPT);
    assert_eq!(walk.person.row("Papers").unwrap().1, "Released");
}

#[test]
fn what_asks_less_is_said_first_counted_and_in_sight_for_as_long_as_it_is_in_force() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    let text = plan_text(&mut walk);
    assert!(!walk.person.words().contains("asks less"));
    // A stop further out, and no prediction to hold a hover against.
    let mine = with(&text, "edition = \"", "edition = \"mine, ");
    let mine = with(
        &mine,
        "stop_above = { figure = \"mass-limit\", times = 1.0 }",
        "stop_above = { figure = \"mass-limit\", times = 1.5 }",
    );
    let mine = with(&mine, "predict = true\n", "");
    walk.person.pick(OPEN, "loose.toml", mine.as_bytes());
    let verdict = walk.person.verdict();
    assert!(verdict.starts_with("It asks less in 2 places. Nothing lapses"), "{verdict}");
    let (_, word, how) = walk.person.row("Planned mass under the limit").unwrap();
    assert_eq!((word.as_str(), how.as_deref()), ("Asks less", Some("A limit is another, or further out")));
    walk.person.tap(ADOPT);
    let marked = "The plan in force asks less in 2 places than one before it";
    walk.person.home();
    assert!(walk.person.row(marked).is_some(), "{}", walk.person.words());
    walk.person.killed();
    assert!(walk.person.row(marked).is_some(), "a kill changes nothing of it");
    // Another edition on top of it hides nothing.
    let again = with(&mine, "title = \"Figures and papers\"", "title = \"Papers\"");
    walk.person.tap(marked);
    walk.person.pick("Open a plan file", "loose.toml", again.as_bytes());
    walk.person.tap(ADOPT);
    walk.person.home();
    assert!(walk.person.row(marked).is_some(), "{}", walk.person.words());
    // As it was: nothing is marked any more.
    walk.person.tap(marked);
    walk.person.pick("Open a plan file", "as-it-was.toml", text.as_bytes());
    walk.person.tap(ADOPT);
    walk.person.home();
    assert!(!walk.person.words().contains("asks less"), "{}", walk.person.words());
}

#[test]
fn a_plan_whose_flights_are_not_mandatory_is_told_so() {
    let mut walk = Walk::new(Kind::Scale);
    let text = plan_text(&mut walk);
    let mine = text.replace("kind = \"fly\"\n", "kind = \"fly\"\nmandatory = false\n");
    walk.person.pick(OPEN, "no-flights.toml", mine.as_bytes());
    assert!(walk.person.verdict().starts_with("It asks less in "), "{}", walk.person.verdict());
    walk.person.tap(ADOPT);
    walk.person.home();
    assert!(
        walk.person.verdict().starts_with("None of the plan's flights is mandatory"),
        "{}",
        walk.person.verdict()
    );
}

#[test]
fn what_is_no_plan_says_where_and_is_not_taken() {
    let mut walk = Walk::new(Kind::Scale);
    let text = plan_text(&mut walk);
    let broken =
        with(&text, "rests_on = [\"mass\", \"figure:mass-limit\"", "rests_on = [\"mas\", \"figure:mass-limit\"");
    let line = broken.split("\"mas\"").next().unwrap().lines().count();
    walk.person.pick(OPEN, "broken.toml", broken.as_bytes());
    assert_eq!(walk.person.verdict(), "1 fault keeps this plan out.");
    let (_, _, reason) = walk.person.row(&format!("Line {line}, column 13")).unwrap();
    assert!(reason.unwrap().contains("'mas' is nothing that evidence rests on"));
    assert!(walk.person.control(ADOPT).is_none());
    walk.person.pick("Open another file", "the same.toml", text.as_bytes());
    assert_eq!(walk.person.control(ADOPT).unwrap().why_not.as_deref(), Some("It is the plan in force"));
    let Err(AppError::Refused { reason, .. }) = walk.person.try_pick("Open another file", "a.toml", &[0xff]) else {
        panic!("bytes that are no text were taken")
    };
    assert!(reason.contains("byte 0 is not UTF-8"), "{reason}");
}

#[test]
fn a_plan_without_the_proof_of_an_open_finding_is_kept_out() {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Figures and papers");
    walk.person.go_to("Bench electrics", "Swashplate level at mid stick");
    walk.person.enter("Reading", "3");
    walk.person.tap("Record 3");
    walk.person.tap("Raise a finding");
    walk.person.enter("What is wrong", "Swashplate leans");
    walk.person.tap("Raise it");
    let text = plan_text(&mut walk);
    let mine = with(&text, "id = \"swashplate-level\"", "id = \"swashplate-tilt\"");
    walk.person.pick(OPEN, "mine.toml", mine.as_bytes());
    let why = walk.person.control(ADOPT).unwrap().why_not.unwrap();
    assert!(why.starts_with("Finding 1, 'Swashplate leans', is proven by 'Swashplate level"), "{why}");
}

/// The order in which places are read is the order in which the landing asks for them.
#[test]
fn a_plan_that_only_moves_something_is_told_and_may_be_taken() {
    let mut walk = Walk::new(Kind::Scale);
    let text = plan_text(&mut walk);
    let begins = |id: &str| text.find(&format!("[[place]]\nid = \"{id}\"")).unwrap();
    let (first, second, third) = (begins("controller"), begins("motor"), begins("pack"));
    let mine = [&text[..first], &text[second..third], &text[first..second], &text[third..]].concat();
    walk.person.pick(OPEN, "mine.toml", mine.as_bytes());
    assert!(
        walk.person.words().contains("Order: was Controller; Motor case, now Motor case; Controller"),
        "{}",
        walk.person.words()
    );
    walk.person.tap(ADOPT);
    assert!(matches!(walk.person.last(), Body::PlanAdopted { text, .. } if text == mine));
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Large electric helicopter");
    walk.person.pick(OPEN, "again.toml", mine.as_bytes());
    assert!(walk.person.words().contains("It is the plan in force"), "{}", walk.person.words());
}

/// The spotter reads the limits of what this aircraft has.
#[test]
fn a_place_that_the_aircraft_does_not_have_is_no_limit_for_the_spotter() {
    let mut walk = Walk::new(Kind::Scale);
    let text = plan_text(&mut walk);
    let mine = with(
        &text,
        "id = \"motor\"\ntitle = \"Motor case\"",
        "id = \"motor\"\ntitle = \"Motor case\"\nwhen = { tail = \"open\" }",
    );
    walk.person.pick(OPEN, "mine.toml", mine.as_bytes());
    walk.person.tap(ADOPT);
    walk.person.home();
    walk.until_flight("Motor at its slowest, on the bench");
    walk.person.tap("Draw up the card");
    walk.draw_up();
    walk.hand_over();
    let limits = walk.person.spotter().screen(&walk.person.now).unwrap().limits;
    assert!(limits.iter().any(|limit| limit.contains("Controller")), "{limits:?}");
    assert!(!limits.iter().any(|limit| limit.contains("Motor case")), "{limits:?}");
}

/// A journal goes on under the edition that it began with; a newer one that comes with the app is offered and takes nothing by itself.
#[test]
fn a_newer_edition_is_offered_with_what_it_changes_and_the_one_before_goes_on() {
    let mut walk = Walk::new(Kind::Scale);
    let shipped = plan_text(&mut walk);
    let edition =
        shipped.lines().find_map(|line| line.strip_prefix("edition = \"")?.strip_suffix('"')).unwrap().to_owned();
    let offered = format!("Edition {edition} of the plan came with the app");
    walk.person.home();
    assert!(walk.person.row(&offered).is_none(), "the newest is in force");

    let older = with(&shipped, &format!("edition = \"{edition}\""), "edition = \"2026-11\"");
    let older =
        with(&older, "do = \"Look up the national rules for this mass and rotor.", "do = \"Look up all rules.");
    walk.person.tap("Aircraft");
    walk.person.tap("Large electric helicopter");
    walk.person.pick(OPEN, "older.toml", older.as_bytes());
    walk.person.tap(ADOPT);
    walk.until_released("Figures and papers");
    let entries = walk.person.entries().len();
    walk.person.killed_and_the_same();
    assert_eq!(walk.person.entries().len(), entries, "opening the app brings none into force");

    let (_, _, how) = walk.person.row(&offered).unwrap();
    assert!(how.unwrap().contains("2026-11 holds"));
    walk.person.tap(&offered);
    assert!(walk.person.words().contains("Rules and permission looked up"), "{}", walk.person.words());
    assert_eq!(walk.person.row("Rules and permission looked up").unwrap().1, "Stale");
    assert_eq!(walk.person.entries().len(), entries, "looking records nothing");
    walk.person.tap(ADOPT);
    assert!(matches!(walk.person.last(), Body::PlanAdopted { text, .. } if text == shipped));
    walk.person.home();
    assert!(walk.person.row(&offered).is_none());
}
