//! A recorder's log that takes its time: it comes in piece by piece, how far it is shows, and it can be stopped.

use liftgate_core::app::AppError;
use liftgate_core::record::Body;
use liftgate_core::view::{Block, Document, Screen, Tapped, Work};
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

/// Six megabytes of an invented hover at two hundred rows a second, with one sample of 91 A in it.
fn long_log() -> Vec<u8> {
    let mut text = "Time [s];Voltage [V];Current [A];Rotor [rpm];Controller [°C]\n".to_owned();
    for row in 0..200_000_u32 {
        let t = f64::from(row) / 200.0;
        let a = match row {
            0..6_000 => 5.0,
            123_456 => 91.0,
            _ => 52.0 + f64::from(row % 7) / 10.0,
        };
        text +=
            &format!("{t:.3};{:.2};{a:.1};1180;{:.1}\n", 50.0 - t / 300.0, 30.0 + 30.0 * (1.0 - (-t / 200.0).exp()));
    }
    text.into_bytes()
}

fn down() -> Walk {
    Walk::at_log(Kind::Scale, "Hover at the lowest head speed")
}

/// Picks a file in the phone's picker; its pieces are still to come.
fn begin(walk: &mut Walk, length: Option<u64>) -> Tapped {
    let control = walk.person.control("Pick a log").unwrap();
    assert!(matches!(control.document, Some(Document::Pick { .. })));
    walk.person.phone.pilot().unwrap().picked(&control.token, "long.csv", length, &walk.person.now).unwrap()
}

fn feed(walk: &Walk, piece: Option<&[u8]>) -> Result<Tapped, AppError> {
    walk.person.phone.pilot().unwrap().fed(piece, &walk.person.now)
}

/// What the shell does by itself, once; nothing where the screen asks for nothing.
fn step(walk: &Walk, screen: &Screen) -> Option<Tapped> {
    let Some(Work::Touch { token }) = &screen.work else { return None };
    Some(walk.person.phone.pilot().unwrap().tap(token, &walk.person.now).unwrap())
}

/// Goes on until nothing is under way; the shares of a hundred that were seen on the way.
fn to_the_end(walk: &Walk) -> Vec<f64> {
    let mut shares = Vec::new();
    let mut screen = walk.person.screen();
    while let Some(tapped) = step(walk, &screen) {
        let share = screen.blocks.iter().find_map(|block| match block {
            Block::Figure { label, value, unit, .. } if label == "Reading the log" && unit == "%" => {
                value.parse().ok()
            }
            _ => None,
        });
        shares.push(share.unwrap());
        screen = tapped.screen;
    }
    shares
}

fn figure(screen: &Screen) -> (String, String, Option<String>) {
    let figure = screen.blocks.iter().find_map(|block| match block {
        Block::Figure { value, unit, note, .. } => Some((value.clone(), unit.clone(), note.clone())),
        _ => None,
    });
    figure.unwrap()
}

#[test]
fn a_file_comes_in_piece_by_piece_and_stopping_leaves_everything_as_it_was() {
    let mut walk = down();
    let text = long_log();
    let (entries, before) = (walk.person.entries().len(), walk.person.screen());
    let begun = begin(&mut walk, Some(text.len() as u64));
    assert_eq!((figure(&begun.screen).0.as_str(), begun.screen.work.clone()), ("0", Some(Work::Feed)));
    let (first, rest) = text.split_at(2_500_000);
    let some = feed(&walk, Some(first)).unwrap();
    assert_eq!(some.screen.title, "long.csv");
    let (value, unit, note) = figure(&some.screen);
    let length = text.len() as f64 / 1e6;
    assert_eq!((value, unit.as_str()), (format!("{:.0}", (250.0 / length).floor()), "%"));
    assert_eq!(note.unwrap(), format!("2.5 of {length:.1} MB"));
    walk.person.tap("Stop");
    assert_eq!(walk.person.screen(), before, "as if nothing had been picked");
    let late = feed(&walk, Some(rest)).unwrap();
    assert_eq!(late.screen, before, "a piece that comes late is passed over");

    // How long it is need not be known, and a file that cannot be read to its end is not taken for one that ended.
    begin(&mut walk, None);
    let some = feed(&walk, Some(&text[..3_000_000])).unwrap();
    assert_eq!(figure(&some.screen), ("3.0".to_owned(), "MB".to_owned(), None));
    let broken = feed(&walk, None).unwrap_err();
    assert!(broken.to_string().contains("could not be read to its end"), "{broken}");
    assert_eq!((walk.person.screen(), walk.person.entries().len()), (before.clone(), entries));

    // Killed half way, it has to be picked again; killed once it is there, it need not.
    begin(&mut walk, None);
    feed(&walk, Some(&text[..3_000_000])).unwrap();
    walk.person.killed();
    assert_eq!(walk.person.screen(), before);
    walk.person.pick("Pick a log", "long.csv", &text);
    walk.person.killed_and_the_same();
    walk.person.killed_and_the_same();
    assert_eq!(walk.person.screen().title, "long.csv");
}

#[test]
fn reading_it_shows_how_far_it_is_and_stopping_loses_nothing() {
    let mut walk = down();
    let text = long_log();
    walk.person.pick("Pick a log", "long.csv", &text);
    walk.person.tap("Rotor [rpm]");
    walk.person.tap("Leave out");
    walk.person.tap("That is it");
    let (entries, named) = (walk.person.entries().len(), walk.person.screen());
    let reading = walk.person.tap("Attach this log");
    assert_eq!(figure(&reading.screen).1, "%");
    assert!(figure(&reading.screen).2.unwrap().contains(" rows"), "{:?}", figure(&reading.screen));
    assert!(step(&walk, &reading.screen).unwrap().screen.work.is_some());
    walk.person.tap("Stop");
    assert_eq!((walk.person.screen(), walk.person.entries().len()), (named, entries), "the columns stay as named");

    walk.person.tap("Attach this log");
    let shares = to_the_end(&walk);
    assert!(shares.len() >= 2 && shares.is_sorted() && shares[0] > 0.0 && shares[0] < shares[1], "{shares:?}");
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!((log.rows.imported, log.bytes), (200_000, text.len() as u64));
    let plot = |walk: &Walk| walk.person.words().contains("Plot {");
    assert!(plot(&walk), "what was just read is not read again");
    let highest = walk.person.row("Current, highest").unwrap();

    // Opened anew, its figures are there at once, and its plot once it is read; or not, if the person does not want to wait.
    walk.person.killed();
    assert_eq!(walk.person.row("Current, highest").unwrap(), highest);
    assert!(!plot(&walk) && walk.person.screen().work.is_some());
    walk.person.tap("Draw no plot");
    assert!(walk.person.screen().work.is_none() && !plot(&walk));
    walk.person.tap("Read it for its plot");
    assert!(to_the_end(&walk).len() >= 2);
    assert!(plot(&walk));
    // Whoever goes elsewhere does not leave it running.
    walk.person.killed();
    assert!(walk.person.screen().work.is_some());
    walk.person.tap("Back");
    assert!(walk.person.screen().work.is_none());
}
