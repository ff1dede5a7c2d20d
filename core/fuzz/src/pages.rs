//! The app on a record, page by page: whatever stands in it, each page can be shown.

use arbitrary::{Result, Unstructured};
use liftgate_core::app::{Phone, PilotDesk};
use liftgate_core::locale::{Chosen, Language};
use liftgate_core::record::{EntryId, Moment};
use liftgate_core::view::{Command, Go, Journals, Place, Screen, Token, Turn, Work};
use serde_json::json;

/// Pages that are looked at for one input.
const PAGES: usize = 5;

/// Where the app keeps its files for an input: in memory where the system has such a place.
pub fn folder() -> tempfile::TempDir {
    let in_memory = std::path::Path::new("/dev/shm");
    let named = tempfile::Builder::new().prefix("liftgate-hostile-").to_owned();
    if in_memory.is_dir() { named.tempdir_in(in_memory).unwrap() } else { named.tempdir().unwrap() }
}

/// The token of a control that goes there.
pub fn go(place: Place) -> Token {
    command(Command::Go(Go::To(place)))
}

/// The token of a control that does this with a whole journal.
pub fn journals(journals: Journals) -> Token {
    command(Command::Journals(journals))
}

fn command(command: Command) -> Token {
    Token::from_shell(json!({ "do": command }).to_string())
}

/// The token of the control that takes a backup in.
pub fn takes_backup() -> Token {
    Token::from_shell(json!({ "take": "backup" }).to_string())
}

/// The token of the control that saves one.
pub fn gives_backup() -> Token {
    Token::from_shell(json!({ "give": "backup" }).to_string())
}

/// Lets the app go on with what it does by itself.
pub fn until_done(desk: &PilotDesk, mut screen: Screen, now: &Moment) -> Screen {
    while let Some(Work::Touch { token }) = screen.work {
        screen = desk.tap(&token, now).expect("what the app does by itself can be done").screen;
    }
    screen
}

/// Looks at some pages of an opened app, in one of the languages.
pub fn some(phone: &Phone, entries: &[EntryId], now: &Moment, u: &mut Unstructured<'_>) -> Result<()> {
    let language = *u.choose(&Language::ALL)?;
    let chosen = Chosen { language: Some(language), ..Chosen::default() };
    phone.choose(chosen).expect("the language can be chosen");
    if phone.turn().expect("somebody has the phone") == Turn::Spotter {
        let _ = phone.spotter().expect("the spotter's handle").screen(now).expect("the spotter's page");
        return Ok(());
    }
    let desk = phone.pilot().expect("the pilot's handle");
    for _ in 0..PAGES {
        let place = place(entries, u)?;
        let shown = desk.tap(&go(place.clone()), now).unwrap_or_else(|error| panic!("{place:?}: {error}"));
        until_done(&desk, shown.screen, now);
    }
    desk.tap(&go(Place::Board), now).expect("the board can be shown");
    Ok(())
}

fn place(entries: &[EntryId], u: &mut Unstructured<'_>) -> Result<Place> {
    let named = |u: &mut Unstructured<'_>| u.choose(entries).copied();
    Ok(match u.int_in_range(0..=21)? {
        0 => Place::Packs,
        1 => Place::Findings,
        2 => Place::Aircraft,
        3 | 4 => Place::Journal,
        5 => Place::Events,
        6 => Place::SettingsLedger,
        7 => Place::Plan,
        8 => Place::Trends,
        9 => Place::HotterDay,
        10 => Place::Dossier,
        11 => Place::Emergency,
        12 => Place::Change,
        13 => Place::Landing(named(u)?),
        14 => Place::Finding(named(u)?),
        15 => Place::Photo(named(u)?),
        16 => Place::Card((*u.choose(&["run-up", "track", "rung-1", "rung-2", "season"])?).to_owned()),
        18 => Place::WhyAsked,
        17 => Place::Stage((*u.choose(&["bench", "ladder", "service"])?).to_owned()),
        _ => Place::Entry(named(u)?),
    })
}
