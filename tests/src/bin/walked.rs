//! Leaves journals of the example aircraft, walked as far as the shell's tests want them, in the folder that is named: each
//! `name.db` with its `name.txt`, the moment at which it was left (wall clock in milliseconds, offset from UTC in minutes, the
//! running clock in milliseconds, the phone's start).

use std::path::Path;

use liftgate_core::record::MarkKind;
use liftgate_tests::example::{Kind, hover_log};
use liftgate_tests::walk::Walk;

const FIRST: &str = "First start, slow, no blades";
const HOVER: &str = "Hover at the lowest head speed";

fn main() {
    let folder = std::env::args().nth(1).expect("a folder to leave the journals in");
    let folder = Path::new(&folder);
    std::fs::create_dir_all(folder).expect("a folder that can be made");

    leave(folder, "flight", Walk::at_flight(Kind::Scale, FIRST));
    leave(folder, "flying", flying());
    leave(folder, "hovering", hovering());
    leave(folder, "hot", hot());
    leave(folder, "service", in_service());
}

/// The phone is with the spotter, the clock runs, some things were noted.
fn flying() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, FIRST);
    walk.person.tap("Draw up the card");
    walk.draw_up();
    walk.hand_over();
    let spotter = walk.person.spotter();
    walk.person.wait(30);
    spotter.start(&walk.person.now).expect("a start");
    for kind in [MarkKind::Shake, MarkKind::Tail, MarkKind::Tail, MarkKind::Alarm] {
        walk.person.wait(11);
        spotter.mark(kind, &walk.person.now).expect("a mark");
    }
    walk
}

/// In the first hover, after which three temperatures are read.
fn hovering() -> Walk {
    let mut walk = Walk::at_flight(Kind::Scale, HOVER);
    walk.person.tap("Draw up the card");
    walk.draw_up();
    walk.hand_over();
    walk.person.spotter().start(&walk.person.now).expect("a start");
    walk.person.wait(95);
    walk
}

/// Landed too hot, with a finding raised and the landing half filled in.
fn hot() -> Walk {
    let mut walk = hovering();
    let spotter = walk.person.spotter();
    spotter.mark(MarkKind::Smell, &walk.person.now).expect("a mark");
    walk.person.wait(25);
    spotter.land(&walk.person.now).expect("a touchdown");
    spotter.hand_back(&walk.person.now).expect("a hand-over back");
    walk.person.enter("Controller", "96");
    walk.person.enter("Motor case", "1000");
    walk.person.tap("Raise a finding");
    walk.person.enter("What is wrong", "Controller at 96 °C after two minutes");
    walk.person.tap("Raise it");
    walk
}

/// Every gate released.
fn in_service() -> Walk {
    let mut walk = Walk::new(Kind::Scale);
    walk.until_released("Envelope");
    with_a_log(&mut walk);
    walk
}

/// A log at the newest landing.
fn with_a_log(walk: &mut Walk) {
    walk.person.home();
    walk.person.tap("Journal");
    let landing = walk.person.controls().into_iter().find(|(words, _)| words.starts_with("Landing"));
    walk.person.tap(&landing.expect("a landing").0);
    walk.person.tap("Log of this flight");
    walk.person.pick("Pick a log", "hover.csv", hover_log().as_bytes());
    walk.person.tap("Attach this log");
    walk.person.home();
}

fn leave(folder: &Path, name: &str, walk: Walk) {
    walk.person.phone.close().expect("a journal that closes");
    std::fs::copy(walk.person.journal(), folder.join(format!("{name}.db"))).expect("a copy of the journal");
    let now = &walk.person.now;
    let offset_min = now.wall.offset().local_minus_utc() / 60;
    let moment = format!("{} {offset_min} {} {}\n", now.wall.timestamp_millis(), now.monotonic_ms, now.boot);
    std::fs::write(folder.join(format!("{name}.txt")), moment).expect("the moment beside it");
}
