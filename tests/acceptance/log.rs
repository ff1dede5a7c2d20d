//! A recorder's log after landing: picked, its columns named once, its figures with their place in the plot, the file kept.

use liftgate_core::drawing::{Ink, Picture};
use liftgate_core::record::Body;
use liftgate_core::telemetry::Quantity;
use liftgate_core::telemetry::summary::FigureKind;
use liftgate_core::view::{Block, Edge, PlotPhase};
use liftgate_tests::example::{Kind, hover_log};
use liftgate_tests::walk::Walk;

const ROW: &str = "Log of this flight";

/// The plot in view in words, and its drawing.
fn plot(walk: &Walk) -> (String, Picture) {
    let plot = walk.person.screen().blocks.into_iter().find(|block| matches!(block, Block::Plot { .. }));
    plot.map(seen).unwrap_or_else(|| panic!("{}", walk.person.words()))
}

fn seen(block: Block) -> (String, Picture) {
    match block {
        Block::Plot { picture, spoken, .. } => (spoken, picture),
        other => panic!("no plot but {other:?}"),
    }
}

#[test]
fn a_log_is_attached_to_its_flight_and_each_figure_shows_where_it_comes_from() {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    let text = hover_log();
    walk.person.pick("Pick a log", "hover.csv", text.as_bytes());
    assert_eq!(walk.person.verdict(), "Say once what its columns are.");
    let entries = walk.person.entries().len();
    walk.person.tap("Attach this log");
    assert_eq!(walk.person.entries().len(), entries + 1);
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!((log.rows.imported, log.fault_count), (750, 1));
    assert_eq!(log.faults[0], "row 302, column 2 (Spannung): not a number, left empty: \"kaputt\"");
    let named: Vec<Quantity> = log.map.columns.iter().map(|column| column.quantity).collect();
    assert_eq!(named, [Quantity::PackVoltage, Quantity::PackCurrent, Quantity::HeadSpeed, Quantity::Temperature]);

    // The burst is found, and a touch shows it: the window of the plot is about it.
    let (_, _, highest) = walk.person.row("Strom, highest").unwrap();
    assert!(highest.unwrap().starts_with("90.0 A"));
    assert!(plot(&walk).0.starts_with("0:00 to 2:30"), "{}", plot(&walk).0);
    walk.person.tap("Strom, highest");
    assert_eq!(walk.person.figure("Strom, highest").unwrap().0, "90.0");
    let (said, _) = plot(&walk);
    assert!(said.starts_with("1:1") && said.contains("90 A"), "{said}");
    walk.person.tap("Back");
    assert!(walk.person.row("Regler, would settle at").is_some());
    walk.person.killed_and_the_same();

    // The same kind of file is known next time, and a wrong one can be taken back.
    walk.person.pick("Pick another log", "again.csv", text.replace("52", "53").as_bytes());
    assert_eq!(walk.person.verdict(), "This kind of file is known.");
    walk.person.tap("Attach this log");
    walk.person.tap("Take back");
    let (_, _, kept) = walk.person.row("Kept as it was").unwrap();
    assert!(kept.unwrap().starts_with(&format!("{} bytes", text.len())), "the first log stands again");
}

#[test]
fn each_column_is_named_on_a_page_of_its_own_and_only_one_is_the_time() {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    // Nothing tells that the first column is the time: it does not grow at first, and is called by a letter.
    let mut text = "k;Pack [V];I [mA];Heat;Count\n".to_owned();
    for row in 0..1_500 {
        let a = if (75..1_350).contains(&row) { 52_000 + row % 3 } else { 500 };
        text += &format!("{};48.{};{a};{};{}\n", (row / 3) * 300, row % 10, 86 + row / 100, row * 100);
    }
    walk.person.pick("Pick a log", "letters.csv", text.as_bytes());
    assert_eq!(walk.person.row("Count").unwrap().1, "Time");
    assert_eq!(
        walk.person.row("I [mA]").unwrap(),
        (Edge::None, "Pack current".into(), Some("mA, begins 500".into()))
    );
    assert_eq!(walk.person.row("Heat").unwrap().1, "", "left out until it is named");
    walk.person.tap("Heat");
    for chosen in ["Temperature", "°F", "Motor case"] {
        walk.person.tap(chosen);
    }
    walk.person.killed_and_the_same();
    walk.person.tap("That is it");
    let heat = walk.person.row("Heat").unwrap();
    assert_eq!((heat.1.as_str(), heat.2.as_deref()), ("Temperature", Some("°F, Motor case, begins 86")));

    // Another column is the time: the first one no longer is. Then none is, and rows are so far apart.
    walk.person.tap("k");
    walk.person.tap("Time");
    let forms = |walk: &Walk| walk.person.choices("How it is written");
    assert_eq!(forms(&walk), ["seconds", "milliseconds", "microseconds", "minutes"], "no clock reads it, no date");
    walk.person.tap("milliseconds");
    walk.person.tap("That is it");
    let words = |walk: &Walk, row: &str| walk.person.row(row).unwrap();
    assert_eq!(words(&walk, "k").2.as_deref(), Some("milliseconds, begins 0"));
    assert_eq!(words(&walk, "Count").1, "");
    walk.person.tap("Count");
    walk.person.tap("Time");
    walk.person.tap("That is it");
    assert_eq!((words(&walk, "k").1.as_str(), words(&walk, "Count").1.as_str()), ("", "Time"));
    walk.person.tap("Count");
    walk.person.tap("Leave out");
    walk.person.tap("That is it");
    walk.person.enter("Rows are apart", "0");
    assert!(walk.person.closed("Attach this log").contains("Rows are apart"));
    walk.person.enter("Rows are apart", "0.1");
    walk.person.tap("Attach this log");
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!((log.map.time_column, log.rows.imported), (None, 1_500));
    let hottest = log.figures.iter().find(|figure| figure.channel == Some(2) && figure.unit == "°C").unwrap();
    assert!((hottest.value - (86.0 + 13.0 - 32.0) / 1.8).abs() < 1.0, "{hottest:?}");
    let highest = walk.person.row("I, highest").unwrap().2.unwrap();
    assert!(highest.starts_with("52.0 A"), "{highest}");
}

/// Someone who looks at the plot of the invented hover.
fn at_the_plot() -> Walk {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    walk.person.pick("Pick a log", "hover.csv", hover_log().as_bytes());
    walk.person.tap("Attach this log");
    walk
}

#[test]
fn fingers_stretch_the_plot_draw_it_along_and_put_the_cursor_where_they_touch() {
    let mut walk = at_the_plot();
    let whole = plot(&walk).1;
    assert!(whole.labels.iter().any(|label| label.text == "caution 160 A"), "the controller's rating is drawn in");
    let below = |words: &str| whole.labels.iter().find(|label| label.text == words).map(|label| label.y);
    assert!(below("50") > below("150 A"), "the current has a scale of round numbers: {:?}", whole.labels);
    assert!(below("0:00") < below("Spannung"), "the time stands below the first trace already: {:?}", whole.labels);
    // Two fingers over the burst at 80 of 150 s, four times as far apart in three moves: a window of 37 s about it.
    walk.person.fingers(PlotPhase::Down, 0.53, 1.0, 0.0);
    walk.person.fingers(PlotPhase::Move, 0.53, 2.0, 0.0);
    let (said, _) = seen(walk.person.fingers(PlotPhase::Move, 0.53, 2.0, 0.0));
    assert!(said.starts_with("0:59.") || said.starts_with("1:00."), "{said}");
    assert!(said.contains("90 A"), "no spike is lost: {said}");
    let (moved, _) = seen(walk.person.fingers(PlotPhase::Move, 0.53, 1.0, 0.25));
    assert!(moved.starts_with("0:50.") || moved.starts_with("0:51."), "what was earlier comes into view: {moved}");
    assert!(plot(&walk).0.starts_with("0:00 to 2:30"), "nothing is kept while fingers are on it");
    walk.person.fingers(PlotPhase::Up, 0.53, 1.0, 0.0);
    assert_eq!(plot(&walk).0, moved);
    walk.person.killed_and_the_same();

    // A touch puts the cursor there, with every channel's value; a finger that begins near it takes it along.
    walk.person.tap("All of it");
    let (said, drawn) = seen(walk.person.fingers(PlotPhase::Tap, 0.54, 1.0, 0.0));
    assert!(said.starts_with("At 1:2") && said.contains("Strom 90 A"), "{said}");
    let rings = |picture: &Picture| picture.strokes.iter().filter(|s| s.ink == Ink::Action && s.filled).count();
    assert_eq!(rings(&drawn), 3, "a ring on each line");
    walk.person.fingers(PlotPhase::Down, 0.56, 1.0, 0.0);
    let (said, _) = seen(walk.person.fingers(PlotPhase::Move, 0.30, 1.0, -0.26));
    assert!(said.starts_with("At 0:4") && said.contains("Strom 5"), "{said}");
    walk.person.fingers(PlotPhase::Up, 0.30, 1.0, 0.0);
    walk.person.killed_and_the_same();

    // The same by controls, each of which says what it does.
    walk.person.tap("Cursor on");
    assert_ne!(plot(&walk).0, said);
    walk.person.tap("Closer");
    walk.person.tap("Later");
    walk.person.tap("No cursor");
    assert!(!plot(&walk).0.starts_with("At"));
    walk.person.tap("All of it");
    assert!(plot(&walk).0.starts_with("0:00 to 2:30"));
    walk.person.tap("Regler");
    assert_eq!(plot(&walk).1.labels[0].text, "Regler", "the channel that was chosen stands on top");
}

#[test]
fn what_is_no_log_is_refused_and_nothing_is_recorded() {
    let mut walk = Walk::at_log(Kind::Scale, "First start, slow, no blades");
    let entries = walk.person.entries().len();
    let refused = walk.person.try_pick("Pick a log", "letter.txt", b"Dear all,\nhow are you?\n").unwrap_err();
    assert!(refused.to_string().contains("no rows of numbers"), "{refused}");
    // Nothing in it flew.
    walk.person.pick("Pick a log", "bench.csv", b"Time [s],Current [A]\n0,0.1\n1,0.1\n2,0.1\n3,0.1\n");
    let refused = walk.person.refused("Attach this log");
    assert!(refused.contains("no flight was found"), "{refused}");
    // A column can be left out, and then there is nothing to read.
    walk.person.tap("Current [A]");
    walk.person.tap("Leave out");
    walk.person.tap("That is it");
    assert!(walk.person.refused("Attach this log").contains("no column is named yet"));
    assert_eq!(walk.person.entries().len(), entries);
    assert_eq!(walk.person.row(ROW).map(|(edge, ..)| edge), None::<Edge>);
}

/// An invented climb to 30 m, with a controller that warms.
fn climb_log() -> String {
    let mut text = "Time [s];Current [A];Height [m];Speed [m/s];Controller [°C]\n".to_owned();
    for row in 0..600 {
        let t = f64::from(row) * 0.2;
        let (a, height) = if (15.0..105.0).contains(&t) { (50.0, (t - 15.0).min(30.0)) } else { (1.0, 0.0) };
        let heat = 25.0 + if t > 15.0 { 60.0 * (1.0 - (-(t - 15.0) / 40.0).exp()) } else { 0.0 };
        text += &format!("{t:.1};{a:.1};{height:.1};{:.1};{heat:.1}\n", if a > 1.0 { 10.0 } else { 0.0 });
    }
    text
}

#[test]
fn a_log_is_read_in_the_units_of_who_reads_it_and_kept_as_it_is() {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    walk.person.pick("Pick a log", "climb.csv", climb_log().as_bytes());
    // The controller's column is said to be of the controller: its limits are drawn in.
    walk.person.tap("Controller [°C]");
    walk.person.tap("Controller");
    walk.person.tap("That is it");
    walk.person.tap("Attach this log");
    let Body::LogAttached { log: kept, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    let metric = walk.person.words();
    assert!(metric.contains("30.0 m") && metric.contains("°C") && !metric.contains("°F"), "{metric}");

    walk.person.home();
    walk.person.tap("Language and units");
    walk.person.tap("Fahrenheit, °F");
    walk.person.tap("Imperial: ft, in, lb, oz");
    walk.to_the_log();
    // By hand: 30 m is 30 / 0.3048 = 98.4 ft, 10 m/s is 32.8 ft/s, and F = 1.8 C + 32: 25 °C is 77 °F, 80.6 °C is 177 °F.
    let detail = |walk: &Walk, title: &str| walk.person.row(title).unwrap_or_else(|| panic!("{title}")).2.unwrap();
    assert_eq!(detail(&walk, "Height, highest"), "98.4 ft");
    assert_eq!(detail(&walk, "Speed, highest"), "32.8 ft/s");
    let warmest = kept.figures.iter().find(|f| f.kind == FigureKind::Peak && f.unit == "°C").unwrap();
    assert_eq!(detail(&walk, "Controller, highest"), format!("{:.0} °F", 1.8 * warmest.value + 32.0));
    let past = walk.person.screen().blocks.into_iter().find_map(|block| match block {
        Block::Row { title, detail, .. } if title == "Controller, time past its limit" => detail,
        _ => None,
    });
    assert!(past.as_deref().is_some_and(|past| past.contains("s; above 176 °F: ")), "the worst first: {past:?}");
    assert!(!walk.person.words().contains("°C"), "one scale on the page: {}", walk.person.words());
    // An interval is a difference: no zero comes into it.
    let settles = kept.figures.iter().find(|f| f.kind == FigureKind::SteadyTemperature).unwrap();
    let line = detail(&walk, "Controller, would settle at");
    let width = 1.8 * settles.half_width.unwrap();
    let by_hand = format!("{:.0} ± {width:.2} °F", 1.8 * settles.value + 32.0);
    assert!(width < 10.0 && line.starts_with(&by_hand), "{line} for {by_hand}");

    // The plot: what is read, what is drawn in, what is spoken.
    walk.person.tap("Controller");
    let (said, drawn) = plot(&walk);
    assert!(said.contains("Controller 77 to 177 °F"), "{said}");
    let limits: Vec<&str> = drawn.labels.iter().map(|label| label.text.as_str()).collect();
    assert!(limits.iter().any(|text| text.contains("caution 176 °F") && text.contains("stop 194 °F")), "{limits:?}");
    let (said, _) = seen(walk.person.fingers(PlotPhase::Tap, 0.99, 1.0, 0.0));
    assert!(said.contains("Controller 177 °F"), "{said}");
    walk.person.tap("Controller, highest");
    assert_eq!(walk.person.figure("Controller, highest").unwrap().0, format!("{:.0}", 1.8 * warmest.value + 32.0));
    assert!(!walk.person.words().contains("°C"), "{}", walk.person.words());

    let again = walk.person.entries().into_iter().rev().find_map(|entry| match entry.body {
        Body::LogAttached { log, .. } => Some(log),
        _ => None,
    });
    assert_eq!(again.unwrap(), kept, "nothing recorded knows of it");
    let page = walk.person.dossier();
    let log = page.split("Logs</h2>").nth(1).and_then(|rest| rest.split("<h2").next()).unwrap();
    assert!(log.contains("°F") && !log.contains("°C"), "the dossier is printed as whoever prints it reads: {log}");
}
