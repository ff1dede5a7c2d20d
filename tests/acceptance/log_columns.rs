//! A recorder's columns in the words of the trade are placed by themselves, and what is left out is said, all of it.

use liftgate_core::record::Body;
use liftgate_core::view::{Block, Screen};
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const FLIGHT: &str = "Hover at the lowest head speed";

/// A log of two minutes with a hover in it, and these columns beside its current.
fn table(headers: &[&str], row: impl Fn(usize) -> String) -> String {
    let current = |i: usize| if (50..550).contains(&i) { 50 } else { 0 };
    let rows = (0..600).map(|i| format!("{:.1};{};{}\n", i as f64 * 0.2, current(i), row(i)));
    std::iter::once(format!("Time [s];Strom [A];{}\n", headers.join(";"))).chain(rows).collect()
}

#[test]
fn temperatures_named_in_trade_words_of_both_languages_are_at_their_places() {
    let headers = [
        "Temp ESC",
        "Temp Motor",
        "Akku [°C]",
        "Regler [°C]",
        "Motortemp",
        "T_Pack [°C]",
        "Temp BEC",
        "Temp Heckservo",
        "Tail servo temp",
        "Getriebe [°C]",
    ];
    let mut walk = Walk::at_log(Kind::Scale, FLIGHT);
    walk.person.pick(
        "Pick a log",
        "temps.csv",
        table(&headers, |i| vec![(30 + i / 60).to_string(); 10].join(";")).as_bytes(),
    );
    walk.person.tap("Attach this log");
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    let placed: Vec<Option<&str>> = log.map.columns.iter().skip(1).map(|column| column.place.as_deref()).collect();
    let (controller, motor, pack) = (Some("controller"), Some("motor"), Some("pack"));
    let expected = [
        controller,
        motor,
        pack,
        controller,
        motor,
        pack,
        Some("regulator"),
        Some("tail-servo"),
        Some("tail-servo"),
        None,
    ];
    assert_eq!(placed, expected, "{:?}", log.map.columns);
}

#[test]
fn a_place_that_was_guessed_wrong_is_put_right_and_kept_for_the_next_file() {
    let mut walk = Walk::at_log(Kind::Scale, FLIGHT);
    let text = table(&["Temp ESC"], |i| (30 + i / 60).to_string());
    walk.person.pick("Pick a log", "temps.csv", text.as_bytes());
    assert!(walk.person.row("Temp ESC").unwrap().2.unwrap().contains("Controller"));
    walk.person.tap("Temp ESC");
    walk.person.tap("Motor case");
    walk.person.tap("That is it");
    walk.person.tap("Attach this log");
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!(log.map.columns[1].place.as_deref(), Some("motor"));
}

/// All words of a screen that name something that is left out.
fn left_out(screen: &Screen) -> String {
    let from = |block: &&Block| matches!(block, Block::Heading { text, .. } if text == "Left out");
    let blocks: Vec<&Block> = screen.blocks.iter().skip_while(|block| !from(block)).collect();
    format!("{blocks:?}")
}

#[test]
fn a_file_of_three_hundred_columns_names_all_that_it_leaves_out() {
    let headers: Vec<String> = (1..=300).map(|i| format!("channel-{i:03}")).collect();
    let headers: Vec<&str> = headers.iter().map(String::as_str).collect();
    let mut walk = Walk::at_log(Kind::Scale, FLIGHT);
    walk.person.pick("Pick a log", "wide.csv", table(&headers, |_| vec!["1"; 300].join(";")).as_bytes());
    let screen = walk.person.screen();
    let left = left_out(&screen);
    let missing: Vec<&&str> = headers.iter().filter(|name| !left.contains(**name)).collect();
    assert!(missing.is_empty(), "nothing is said of {missing:?}");
    assert!(left.contains("300 columns"), "and how many they are");
}

#[test]
fn a_typesetters_minus_is_one() {
    let mut walk = Walk::at_log(Kind::Scale, FLIGHT);
    let minus = ["-", "\u{2212}", "\u{2013}"];
    let text = table(&["Temp ESC"], |i| format!("{}12.5", minus[i % 3]));
    walk.person.pick("Pick a log", "cold.csv", text.as_bytes());
    walk.person.tap("Attach this log");
    let Body::LogAttached { log, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert_eq!((log.fault_count, log.rows.imported), (0, 600));
    // And where one is typed.
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Balance: most aft");
    walk.person.enter("Balance: most aft (behind the shaft is minus)", "\u{2013}12");
    walk.person.tap("Record it");
    let Body::FigureSet { value, .. } = walk.person.last() else { panic!("{:?}", walk.person.last()) };
    assert!((value + 12.0).abs() < 1e-9);
}
