//! The dossier leaves the phone: saved through the picker piece by piece, stopped, refused, and read by a person who was not there.

use std::io::Write as _;
use std::process::Command;

use liftgate_core::view::{Block, Document, Screen, Work, Wrote};
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const SAVE: &str = "Save the dossier";
const JOURNAL: &str = "Journal";

/// Someone in the middle of the ladder, at the page of the dossier.
fn at_the_page() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    walk.person.tap("Aircraft");
    walk.person.tap("The dossier");
    walk
}

/// The share of a hundred on the page that waits, and what stands beside it.
fn share(screen: &Screen) -> (f64, String) {
    let found = screen.blocks.iter().find_map(|block| match block {
        Block::Figure { value, unit, note, .. } if unit == "%" => {
            Some((value.parse().unwrap(), note.clone().unwrap_or_default()))
        }
        _ => None,
    });
    found.unwrap_or_else(|| panic!("{screen:#?}"))
}

/// A part of the page, from this heading to the next.
fn part<'a>(page: &'a str, heading: &str) -> &'a str {
    let rest = page.split(&format!(">{heading}</h2>")).nth(1).unwrap_or_else(|| panic!("no '{heading}'"));
    rest.split("<h2").next().unwrap()
}

#[test]
fn it_is_saved_piece_by_piece_and_nothing_is_recorded() {
    let mut walk = at_the_page();
    let before = walk.person.screen();
    let entries = walk.person.entries().len();
    let control = walk.person.control(SAVE).unwrap();
    let Some(Document::Save { name, media_type }) = control.document else { panic!("{control:?}") };
    assert_eq!((name.as_str(), media_type.as_str()), ("regenpfeifer-dossier-2026-03-07.html", "text/html"));
    let mut shown = walk.person.begin_saving(SAVE);
    let pilot = walk.person.phone.pilot().unwrap();
    let (mut page, mut shares) = (String::new(), Vec::new());
    while shown.screen.work == Some(Work::Write) {
        assert_eq!(shown.screen.title, name, "what is being written is named");
        shares.push(share(&shown.screen).0);
        let piece = pilot.piece().unwrap();
        page += std::str::from_utf8(&piece.unwrap_or_default()).unwrap();
        shown = pilot.wrote(Wrote::Kept, &walk.person.now).unwrap();
    }
    assert_eq!(shown.said.as_deref(), Some("Saved: regenpfeifer-dossier-2026-03-07.html"));
    assert!(
        shares.len() > 20 && shares.is_sorted() && shares[0] == 0.0 && *shares.last().unwrap() > 95.0,
        "{shares:?}"
    );
    assert!(page.starts_with("<!doctype html>") && page.trim_end().ends_with("</html>"));
    assert!(page.contains(&format!("End of the page: all {entries} entries are in it.")));
    assert_eq!((walk.person.screen(), walk.person.entries().len()), (before, entries));
    walk.person.killed_and_the_same();
}

#[test]
fn stopped_or_refused_by_its_place_it_leaves_the_page_as_it_was_and_says_why() {
    let mut walk = at_the_page();
    let before = walk.person.screen();
    let entries = walk.person.entries().len();
    walk.person.begin_saving(SAVE);
    let pilot = walk.person.phone.pilot().unwrap();
    assert!(pilot.piece().unwrap().is_some());
    walk.person.tap("Stop");
    assert_eq!(walk.person.screen(), before);
    // What was on its way to the place when it was stopped comes late, and is passed over.
    let late = pilot.wrote(Wrote::Kept, &walk.person.now).unwrap();
    assert_eq!((late.screen, late.said, pilot.piece().unwrap()), (before.clone(), None, None));

    for (how, says) in [
        (Wrote::NoRoom, "There is no room for 'regenpfeifer-dossier-2026-03-07.html' where it was to go"),
        (Wrote::Gone, "could not be written where it was to go: the place is gone or takes nothing"),
    ] {
        walk.person.begin_saving(SAVE);
        assert!(pilot.piece().unwrap().is_some());
        let refused = pilot.wrote(how, &walk.person.now).unwrap_err().to_string();
        assert!(refused.contains(says), "{refused}");
        assert_eq!((walk.person.screen(), walk.person.entries().len()), (before.clone(), entries));
    }

    // A place that takes everything and then cannot close it did not save it.
    let mut shown = walk.person.begin_saving(SAVE);
    while pilot.piece().unwrap().is_some() {
        shown = pilot.wrote(Wrote::Kept, &walk.person.now).unwrap();
        assert_eq!((shown.said, shown.screen.work.clone()), (None, Some(Work::Write)));
    }
    assert!(pilot.wrote(Wrote::NoRoom, &walk.person.now).is_err());
    assert_eq!(walk.person.screen(), before);
    let _ = shown;

    // Killed half way, nothing waits for a piece any more.
    walk.person.begin_saving(SAVE);
    walk.person.phone.pilot().unwrap().piece().unwrap();
    walk.person.killed();
    assert_eq!(walk.person.screen(), before);
    assert_eq!(walk.person.phone.pilot().unwrap().piece().unwrap(), None);
}

#[test]
fn a_kept_log_is_read_in_steps_between_which_a_touch_comes() {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    let mut text = String::from("Time [s];Voltage [V];Current [A];Rotor [rpm]\n");
    for row in 0..200_000 {
        text += &format!("{:.3};48.{};52.{};1000\n", f64::from(row) / 200.0, row % 10, row % 7);
    }
    walk.person.pick("Pick a log", "long.csv", text.as_bytes());
    walk.person.tap("Attach this log");
    walk.person.until_done();
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("The dossier");
    let before = walk.person.screen();
    walk.person.begin_saving(SAVE);
    let pilot = walk.person.phone.pilot().unwrap();
    let (mut empty, mut page) = (0, String::new());
    while let Some(piece) = pilot.piece().unwrap() {
        empty += usize::from(piece.is_empty());
        page += std::str::from_utf8(&piece).unwrap();
        pilot.wrote(Wrote::Kept, &walk.person.now).unwrap();
    }
    assert!(empty > text.len() / (2 << 20), "one step for the chain, the others for the log: {empty}");
    assert!(part(&page, "Logs").contains("<svg") && page.contains("long.csv"));
    walk.person.tap("Stop");
    assert_eq!(walk.person.screen(), before);
}

#[test]
fn the_first_page_says_how_it_stands_and_who_released_what() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    let verdict = walk.person.verdict();
    let page = walk.person.dossier();
    let first = page.split("<nav>").next().unwrap();
    let verdict = verdict.replace('\'', "&#39;");
    assert!(first.contains(&format!("<p class=\"verdict\">{verdict}</p>")), "{first}");
    assert!(first.contains("Built by Jorun Aas.") && page.contains("<td>Main rotor diameter</td><td>1.8 m</td>"));
    let release = walk.person.entries().into_iter().find_map(|entry| match entry.body {
        liftgate_core::record::Body::GateReleased { .. } => Some(entry.seq),
        _ => None,
    });
    let released = "Released by Jorun Aas, 7 March 2026, ";
    assert!(first.contains(released) && first.contains(&format!("(entry {})", release.unwrap())), "{first}");
    assert!(first.contains("motor runs") && first.contains("No finding is carried."));
    // Every entry is there, numbered, and its table's head is one that a printer repeats.
    assert_eq!(part(&page, JOURNAL).matches("<td class=\"number\">").count(), walk.person.entries().len());
    assert!(part(&page, JOURNAL).contains("<thead>"));
}

#[test]
fn readings_stand_beside_their_limits_and_what_is_optional_is_no_hole() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the second head speed");
    let page = walk.person.dossier();
    let stages = part(&page, "Stages");
    let row = |title: &str| {
        let rest = stages.split(&format!("<tr><td>{title}</td>")).nth(1);
        rest.and_then(|rest| rest.split("</tr>").next()).unwrap_or_else(|| panic!("no row '{title}'")).to_owned()
    };
    let blade = row("Main blade to boom and body");
    assert!(blade.contains("64 mm") && blade.contains("Stop: below") && blade.contains("entry "), "{blade}");
    // A released stage shows no "to do": what is optional or for others says so.
    for stage in stages.split("<h3>").skip(1) {
        let gate = stage.split("</p>").next().unwrap();
        if gate.contains("Released by") {
            assert!(!stage.contains("<td>To do"), "{}", &stage[..200]);
            assert!(stage.contains("It stood on") && stage.contains("Digest of the release"), "{}", &stage[..400]);
        }
    }
    assert!(
        stages.contains("Not for this aircraft: ") && stages.contains("Only after an event that has not happened: ")
    );
    let ladder = part(&page, "Hovers: predicted and read");
    assert!(ladder.contains("<svg") && ladder.contains("Hover at the lowest head speed, 1000 rpm"), "{ladder}");
    assert!(
        part(&page, "Parts").contains("None recorded: as built") && part(&page, "Flight packs").contains("Pack 1")
    );
}

#[test]
fn a_finding_shows_what_showed_it_what_fixed_it_and_what_proved_it() {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    walk.person.home();
    walk.person.go_to("Fit-out", "Play at grips and links");
    walk.person.enter("Reading", "2.5");
    walk.person.tap("Record");
    walk.person.tap("Raise a finding");
    walk.person.enter("What is wrong", "Play in the grips");
    walk.person.tap("Raise it");
    walk.person.home();
    walk.person.tap("Findings");
    walk.person.tap("1. Play in the grips");
    walk.person.enter("What was done", "Bearings changed");
    walk.person.tap("Record the fix");
    let row = |page: &str| part(page, "Findings").split("<tr><td class=\"number\">1</td>").nth(1).unwrap().to_owned();
    let open = row(&walk.person.dossier());
    assert!(
        open.contains("Play in the grips") && open.contains("2.5 mm") && open.contains("Bearings changed"),
        "{open}"
    );
    assert!(open.contains("To be proved by repeating &#39;Play at grips and links&#39;"), "{open}");
    walk.person.go_to("Fit-out", "Play at grips and links");
    walk.person.enter("Reading", "0.1");
    walk.person.tap("Record");
    let proven = row(&walk.person.dossier());
    assert!(
        proven.contains("Proved: Play at grips and links: 0.1 mm") && !proven.contains("To be proved"),
        "{proven}"
    );
}

/// The lines that the page itself gives to check its chain, run on it with Python; what they print, or what they end with.
fn checked(page: &str) -> Result<String, String> {
    let lines = page.split("<pre>").nth(1).and_then(|rest| rest.split("</pre>").next()).unwrap();
    let lines = lines.replace("&#34;", "\"").replace("&#39;", "'").replace("&lt;", "<").replace("&gt;", ">");
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in [("check_chain.py", lines.replace("&amp;", "&").as_str()), ("dossier.html", page)] {
        std::fs::File::create(folder.path().join(name)).unwrap().write_all(text.as_bytes()).unwrap();
    }
    let run = Command::new("python3").args(["check_chain.py", "dossier.html"]).current_dir(folder.path()).output();
    let run = run.expect("Python 3");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).trim().to_owned();
    if run.status.success() { Ok(text(&run.stdout)) } else { Err(text(&run.stderr)) }
}

/// Outside: Python's own `hashlib` and `json`, from the lines that stand in the page.
#[test]
fn anyone_walks_the_chain_with_the_lines_that_stand_in_the_page() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    walk.person.tap("Aircraft");
    walk.person.tap("Pilot's code");
    walk.person.phone.pilot().unwrap().set_code("2580", &walk.person.now).unwrap();
    let page = walk.person.dossier();
    let verified = walk.person.phone.verify().unwrap();
    assert_eq!(checked(&page), Ok(format!("{} {}", verified.count, verified.head)));
    assert!(page.contains(&verified.head.to_string()));
    let shown = walk.person.row(&format!("{} entries; the head of their chain", verified.count)).unwrap().2.unwrap();
    assert_eq!(shown.replace(' ', ""), verified.head.to_string(), "the phone shows what the page is held against");
    // The code's hash does not leave the phone, and the page says so.
    assert!(!page.contains("argon2") && page.contains("One entry holds the hash of the pilot"));

    // One letter altered in the middle, a line taken out, two swapped: each is found at its place.
    let lines: Vec<&str> = page.lines().filter(|line| line.starts_with("{\"seq\":")).collect();
    let middle = lines.len() / 2;
    let told = |place: usize| Err(format!("entry {place} is missing or was altered"));
    let altered = page.replacen(lines[middle], &lines[middle].replacen("\\\":", "\\\" :", 1), 1);
    assert_ne!(altered, page);
    assert_eq!(checked(&altered), told(middle + 1));
    assert_eq!(checked(&page.replacen(&format!("{}\n", lines[middle]), "", 1)), told(middle + 1));
    let cut = checked(&page.replacen(&format!("{}\n", lines[lines.len() - 1]), "", 1)).unwrap();
    assert!(!cut.contains(&verified.head.to_string()), "a tail that is cut off shows by its head: {cut}");
}

#[test]
fn nothing_from_a_text_can_run_or_end_the_page() {
    let mut person = Person::new();
    person.tap("Aircraft");
    person.tap("This aircraft");
    let hostile = "</template></style><script>alert(1)</script><img src=x onerror=alert(2)>\"}\\00003c";
    person.enter("The aircraft's name", hostile);
    person.enter("Builder's name", "{\"seq\":1}\u{2028}*/ } body { display: none } /* <b>");
    person.tap("Record the names");
    let page = person.dossier();
    assert!(
        page.contains("default-src &#39;none&#39;") || page.contains("content=\"default-src 'none';"),
        "a policy"
    );
    let lower = page.to_lowercase();
    for mark in ["<script", "<img", "<b>", "javascript:", "onload="] {
        assert!(!lower.contains(mark), "{mark}");
    }
    assert_eq!((lower.matches("</template>").count(), lower.matches("</style>").count()), (1, 2));
    let verified = person.phone.verify().unwrap();
    assert_eq!(checked(&page), Ok(format!("{} {}", verified.count, verified.head)));
}

#[test]
fn a_journal_that_does_not_close_is_not_printed_as_proof() {
    let mut walk = Walk::at_flight(Kind::Scale, "Hover at the lowest head speed");
    let journal = walk.person.journal();
    let changed = std::process::Command::new("python3")
        .args(["-c", "import sqlite3, sys\nd = sqlite3.connect(sys.argv[1])\nd.execute('DROP TRIGGER entry_is_never_changed')\nd.execute(\"UPDATE entry SET at = replace(at, '2026', '2025') WHERE seq = 30\")\nd.commit()"])
        .arg(&journal)
        .status()
        .unwrap();
    assert!(changed.success());
    // While the app is open: the next start would find it.
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("The dossier");
    let before = walk.person.screen();
    walk.person.begin_saving(SAVE);
    let broken = walk.person.phone.pilot().unwrap().piece().unwrap_err().to_string();
    assert!(broken.contains("30"), "{broken}");
    assert_eq!(walk.person.screen(), before);
}
