//! Plans and recorders' logs that were made to do harm.

use liftgate_core::plan::{Plan, SHIPPED, lint};
use liftgate_core::telemetry::{Import, Layout, Settings};

use super::Hostile;

/// The longest plan that the app takes: `core/src/app/plan.rs`.
const LONGEST_PLAN: usize = 1 << 19;
/// What the app keeps of a log: `core/src/app/open_log.rs`.
const KEPT: usize = 32 << 20;

fn repeated(text: &str, length: usize) -> Vec<u8> {
    text.bytes().cycle().take(length).collect()
}

pub fn plans() -> Vec<Hostile> {
    let with = |what, head: &str, text: &str| Hostile {
        what,
        bytes: [head.as_bytes(), &repeated(text, LONGEST_PLAN - head.len())].concat(),
    };
    let mut shipped_twice = SHIPPED.repeat(2).into_bytes();
    shipped_twice.truncate(LONGEST_PLAN);
    vec![
        with("a plan of brackets", "a = ", "["),
        with("a plan of tables in tables", "a = ", "{a="),
        with("a plan of one long name", "", "a"),
        with("a plan of dotted names", "", "a."),
        with("a plan of empty checks", "", "[[stage.check]]\n"),
        with("a plan of empty stages", "", "[[stage]]\n"),
        with("a plan of wrong lines", "", "?\n"),
        with("a plan of numbers", "a = [", "0,"),
        with("a plan of keys that are not known", "", "x"),
        with("a plan of one comment", "#", "x"),
        with("a plan of zeros", "", "\0"),
        Hostile { what: "a plan that is there twice", bytes: shipped_twice },
    ]
}

/// What is said of a plan; how many remarks where it is one.
pub fn refusal_of_plan(bytes: &[u8]) -> String {
    match Plan::parse("hostile", &String::from_utf8_lossy(bytes)) {
        Ok(plan) => format!("it is a plan, with {} remarks", lint(&plan).len()),
        Err(faults) => faults.to_string(),
    }
}

pub fn logs() -> Vec<Hostile> {
    let long = 8 << 20;
    let with =
        |what, head: &str, text: &str| Hostile { what, bytes: [head.as_bytes(), &repeated(text, long)].concat() };
    vec![
        with("a log of one long line", "", "a"),
        with("a log of empty columns", "", ","),
        with("a log of line ends", "", "\n"),
        with("a log of quotes", "", "\""),
        with("a log with a quote that never ends", "Time [s],Voltage [V]\n0,\"", "1\n"),
        with("a log of zeros", "", "\0"),
        with("a log of wrong rows", "Time [s],Voltage [V]\n", "x,y\n"),
        with("a log of digits", "Time [s],Voltage [V]\n0,", "9"),
        with("a log of wide zeros", "\u{feff}", "\0a"),
    ]
}

/// What is said of a log.
pub fn refusal_of_log(bytes: &[u8]) -> String {
    let layout = match Layout::of(bytes) {
        Ok(layout) => layout,
        Err(error) => return error.to_string(),
    };
    let settings = Settings { kept_bytes: KEPT, file_bytes: Some(bytes.len() as u64) };
    let read = Import::new(&layout, &layout.suggest(), settings)
        .and_then(|import| import.read(&mut &bytes[..], &mut |_| true));
    read.map_or_else(
        |error| error.to_string(),
        |log| format!("{} rows, {} left out", log.rows.found, log.rows.left_out),
    )
}
