//! A person who does whatever the board says next, with the answers of the example aircraft.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock};

use liftgate_core::record::{MarkKind, Moment};
use liftgate_core::view::{Block, Control, Screen, Tone};

use crate::example::{self, Kind, PACK, SPOTTER, Thing};
use crate::{Person, controls};

/// The words before the name of a thing that another one is like.
const ONE_MORE_LIKE: &str = "One more like";

/// How far a walk has come.
struct Come {
    file: Vec<u8>,
    now: Moment,
    done: Vec<String>,
}

/// Each walk once, however many stories ask for it at the same time.
type Walked = BTreeMap<(Kind, &'static str), Arc<OnceLock<Come>>>;

/// Someone on the way through a plan.
pub struct Walk {
    /// Who walks.
    pub person: Person,
    /// Which of the two aircraft.
    pub kind: Kind,
    /// Screens seen, by name.
    pub seen: BTreeMap<String, u32>,
    /// Checks that were recorded or flown, in order.
    pub done: Vec<String>,
    /// The charge that the last card expects, milliampere hours, as it was shown.
    pub expected_mah: Option<String>,
    /// What is described when the app asks for it.
    pub to_describe: Vec<&'static Thing>,
    /// Whether the spotter hears something in every flight, and marks it.
    pub hears_something: bool,
    /// Whether the person flies what the board leads to; else a card is left again once nothing is due on it.
    pub flies: bool,
    /// The flight that the person stops before.
    to_flight: Option<String>,
}

impl Walk {
    /// A new phone, the aircraft named and described.
    pub fn new(kind: Kind) -> Walk {
        let mut person = Person::new();
        example::fit_out(&mut person, kind);
        Walk::of(person, kind)
    }

    /// A new phone, the aircraft named, and nothing described before the app asks for it.
    pub fn describing_when_asked(kind: Kind) -> Walk {
        let mut person = Person::new();
        example::name(&mut person);
        let mut walk = Walk::of(person, kind);
        walk.to_describe = example::things(kind).collect();
        walk.hears_something = false;
        walk
    }

    /// Describes all things of a kind that are left to describe; whether there were any.
    fn describe_all(&mut self, is_of: impl Fn(&Thing) -> bool) -> bool {
        let (now, later): (Vec<_>, Vec<_>) = self.to_describe.iter().partition(|thing| is_of(thing));
        self.to_describe = later;
        now.iter().for_each(|thing| example::describe(&mut self.person, thing));
        !now.is_empty()
    }

    /// Opens the page of a new thing: of one like it that is offered, where it is like that one indeed.
    fn begin_one_more(&mut self, thing: &Thing) {
        let offered = self.person.control(ONE_MORE_LIKE).map(|control| control.label);
        let is_like = |words: &String| {
            let name = words.trim_start_matches(ONE_MORE_LIKE).trim();
            example::things(self.kind).any(|other| other.name == name && example::are_alike(other, thing))
        };
        let words = offered.filter(is_like).unwrap_or_else(|| format!("Add a {}", thing.kind));
        self.person.tap(&words);
    }

    /// Someone who has come as far as the flight with this title: walked once, then begun from a copy of that journal.
    pub fn at_flight(kind: Kind, title: &'static str) -> Walk {
        static WALKED: Mutex<Walked> = Mutex::new(BTreeMap::new());
        let slot = WALKED.lock().expect("no walk fails while it is kept").entry((kind, title)).or_default().clone();
        let come = slot.get_or_init(|| {
            let mut walk = Walk::new(kind);
            walk.until_flight(title);
            walk.person.phone.close().expect("a journal that closes");
            let file = std::fs::read(walk.person.journal()).expect("a journal");
            Come { file, now: walk.person.now.clone(), done: walk.done }
        });
        let mut walk = Walk::of(Person::with(&come.file, come.now.clone()), kind);
        walk.done.clone_from(&come.done);
        walk
    }

    /// The same, with that flight flown and landed, at its log.
    pub fn at_log(kind: Kind, title: &'static str) -> Walk {
        let mut walk = Walk::at_flight(kind, title);
        walk.person.tap("Draw up the card");
        walk.fly();
        walk.land();
        walk.to_the_log();
        walk
    }

    /// From wherever the person is to the log of the last flight.
    pub fn to_the_log(&mut self) {
        self.person.home();
        self.person.tap("Journal");
        let landing = self.person.controls().into_iter().find(|(words, _)| words.starts_with("Landing"));
        let words = landing.map(|(words, _)| words).unwrap_or_else(|| panic!("{}", self.person.words()));
        self.person.tap(&words);
        self.person.tap("Log of this flight");
    }

    /// Someone who has a phone already.
    pub fn of(person: Person, kind: Kind) -> Walk {
        Walk {
            person,
            kind,
            seen: Default::default(),
            done: Vec::new(),
            expected_mah: None,
            to_describe: Vec::new(),
            hears_something: true,
            flies: true,
            to_flight: None,
        }
    }

    /// Does what the board says until a card may be drawn up for the flight with this title.
    ///
    /// # Panics
    /// If the board leads round in a circle, or to something that the example has no answer for.
    pub fn until_flight(&mut self, title: &str) {
        self.to_flight = Some(title.to_owned());
        self.follow(|person| {
            let verdict = person.verdict();
            verdict.starts_with("Nothing stands between") && verdict.contains(&format!("'{title}'"))
        });
        self.to_flight = None;
    }

    /// Does what the board says until the gate of this stage was released.
    pub fn until_released(&mut self, stage: &str) {
        self.follow(|person| person.row(stage).is_some_and(|(_, state, _)| state == "Released"));
    }

    /// Does what the board says, and comes back to it after each thing recorded, until it looks like this.
    pub fn until(&mut self, there: impl Fn(&Person) -> bool) {
        for _ in 0..2_000 {
            if self.person.screen().name == "board" && there(&self.person) {
                return;
            }
            let before = self.person.phone.verify().expect("a journal that holds together").count;
            self.step();
            let led_on = matches!(self.person.screen().name.as_str(), "question" | "figure" | "check" | "stage");
            let recorded = self.person.phone.verify().expect("a journal that holds together").count > before;
            if led_on && recorded {
                self.person.home();
            }
        }
        panic!("the board leads round in a circle at '{}': {}", self.person.screen().title, self.person.words());
    }

    /// Does what the board says, and goes where that leads on to, until the board looks like this where it comes by.
    fn follow(&mut self, there: impl Fn(&Person) -> bool) {
        // Far more than the whole plan takes: only a circle comes to the end of it.
        for _ in 0..2_000 {
            if self.person.screen().name == "board" && there(&self.person) {
                return;
            }
            self.step();
        }
        panic!("the board leads round in a circle at '{}': {}", self.person.screen().title, self.person.words());
    }

    /// One touch in the direction that the screen gives.
    pub fn step(&mut self) {
        let screen = self.person.screen();
        *self.seen.entry(screen.name.clone()).or_default() += 1;
        match screen.name.as_str() {
            "board" => {
                let next = screen.foot[0].label.clone();
                self.person.tap(&next);
            }
            "question" => {
                let label = example::answer(self.kind, &strong(&screen));
                self.person.tap(label);
            }
            "figure" => {
                let figure = example::figure(self.kind, &screen.title);
                // What other figures on file give stands there, and is not typed again.
                if self.person.typed(&screen.title).0 != figure {
                    self.person.enter(&screen.title, figure);
                }
                self.person.tap("Record it");
            }
            "thing" => {
                let asked = screen.title.trim_start_matches("New ").to_owned();
                let first = self.to_describe.iter().position(|thing| thing.kind == asked);
                let first = first.unwrap_or_else(|| panic!("nothing is left of '{asked}'"));
                example::describe_here(&mut self.person, self.to_describe.remove(first));
            }
            "card" if self.describe_all(|thing| thing.kind == "pack") => {}
            "check" => self.check(&screen),
            "stage" | "cautions" => self.stage(),
            "card" if says_due(&screen) => self.do_what_is_due(),
            "card" if !self.flies => self.person.home(),
            // Somebody who wants to come as far as this flight looks at the board before it is flown.
            "card" if self.to_flight.as_deref() == Some(&screen.title) => self.person.home(),
            "card" => self.fly(),
            "landing" => {
                self.tell_the_time();
                self.land();
            }
            other => panic!("the walk does not know what to do on '{other}': {}", self.person.words()),
        }
    }

    /// How long the motor was on, where it is asked for: a clock was left running, or the phone was started anew in flight.
    fn tell_the_time(&mut self) {
        if self.person.control("So long it flew").is_some() {
            self.person.enter("Time with the motor on", "1");
            self.person.tap("So long it flew");
        }
    }

    /// Each due check of the card in view: touched where it stands with what is read of it, else on its own page.
    ///
    /// # Panics
    /// If one of them has no answer in the example.
    pub fn do_what_is_due(&mut self) {
        while let Some((title, ways)) = first_due(&self.person.screen()) {
            match ways.iter().find(|way| is_what_is_read(way, &title)) {
                Some(way) => {
                    self.person.touch(way);
                    self.done.push(title);
                }
                None => {
                    self.person.tap(&title);
                    let screen = self.person.screen();
                    self.check(&screen);
                }
            }
        }
    }

    fn check(&mut self, screen: &Screen) {
        let labels: Vec<String> = controls(screen).into_iter().map(|(label, _)| label).collect();
        let has = |words: &str| labels.iter().any(|label| label == words);
        // Flown, and not as predicted: why, or a finding where no explanation does for it.
        if has("Record the explanation") {
            self.person.enter("Why it differs", "Flown longer than the card planned");
            self.person.tap("Record the explanation");
            return;
        }
        if has("Draw up the card") {
            self.person.tap("Draw up the card");
            return;
        }
        // What is read on a run wants the run first; the board leads back.
        if has("To its run") {
            self.person.tap("To its run");
            return;
        }
        if screen.title == "Charge left after the service hover" && !has("Keep this result") {
            return example::read_packs_at_rest(&mut self.person, self.kind, self.done.len());
        }
        // The lists that a computation judges are declared complete, one touch each.
        if let Some(list) = self.person.control("That is all") {
            let is_listed = |thing: &&Thing| {
                let many = if thing.kind == "supply" { "supplies".to_owned() } else { format!("{}s", thing.kind) };
                list.label.contains(&many) || (thing.kind == "part to come" && list.label.contains("parts to come"))
            };
            match self.to_describe.iter().position(is_listed) {
                Some(left) => {
                    let thing = self.to_describe.remove(left);
                    self.begin_one_more(thing);
                    example::describe_here(&mut self.person, thing);
                }
                None => drop(self.person.tap("That is all")),
            }
            return;
        }
        if has("Enter it") {
            self.person.tap("Enter it");
            return;
        }
        // A limit that waits for its figure leads there.
        if let Some(figure) = screen.blocks.iter().find_map(wanted_figure) {
            self.person.tap(&figure);
            return;
        }
        if self.person.field("Second person's name").is_some() {
            // Who saw something before is one touch away.
            match self.person.control(SPOTTER) {
                Some(_) => drop(self.person.tap(SPOTTER)),
                None => self.person.enter("Second person's name", SPOTTER),
            }
        }
        if has("Seen, and right") {
            self.person.tap("Seen, and right");
        } else if has("Keep this result") {
            self.person.tap("Keep this result");
        } else if self.person.field("Reading").is_some() {
            self.person.enter("Reading", example::reading(&screen.title));
            self.person.tap("Record");
        } else {
            panic!("the walk does not know how to do '{}': {labels:?}", screen.title);
        }
        self.done.push(screen.title.clone());
    }

    fn stage(&mut self) {
        match self.person.control("Release") {
            Some(control) => {
                self.person.tap(&control.label);
            }
            None if self.person.control("Read").is_some() => {
                self.person.tap("Read");
            }
            None => {
                self.person.tap("Next check");
            }
        }
    }

    /// Fills the card, hands over, flies as planned and hands back.
    pub fn fly(&mut self) {
        self.draw_up();
        self.hand_over();
        let spotter = self.person.spotter();
        let planned_s = spotter.screen(&self.person.now).expect("the spotter's screen").clock.planned_s;
        self.person.wait(20);
        spotter.start(&self.person.now).expect("a start");
        self.person.wait(planned_s / 2);
        if self.hears_something {
            spotter.mark(MarkKind::Sound, &self.person.now).expect("a mark");
        }
        self.person.wait(planned_s - planned_s / 2);
        spotter.land(&self.person.now).expect("a touchdown");
        self.person.wait(10);
        spotter.hand_back(&self.person.now).expect("a hand-over back");
    }

    /// Fills in the card in view.
    pub fn draw_up(&mut self) {
        let screen = self.person.screen();
        self.done.push(screen.title.clone());
        self.expected_mah = self.person.figure("Charge it should use").map(|(value, _)| value);
        if self.person.control(PACK).is_some_and(|pack| !pack.chosen) {
            self.person.tap(PACK);
        }
        match self.person.control("All were charged") {
            Some(_) => drop(self.person.tap("All were charged")),
            None => example::charge_on_card(&mut self.person, PACK),
        }
        // Air and spotter of a flight earlier that day stand there already.
        if self.person.control("Hand over").is_some_and(|hand| hand.why_not.is_some_and(|why| why.contains("air"))) {
            self.person.tap("Air temperature more");
        }
        let spotter = spotter_label(&screen);
        if self.person.typed(spotter).0 != SPOTTER {
            self.person.enter(spotter, SPOTTER);
        }
        // What is due may be told only once the fields are filled in.
        self.do_what_is_due();
    }

    /// Draws up the card that the board or the check in view offers, fills it in, and gives the phone away.
    pub fn give_away(&mut self) {
        self.person.tap("Draw up the card");
        self.draw_up();
        self.hand_over();
    }

    /// Gives the phone away.
    pub fn hand_over(&mut self) {
        self.person.tap("Hand over");
    }

    /// Jots down the landing in view.
    pub fn land(&mut self) {
        for place in places_wanted(&self.person.screen()) {
            self.person.enter(&place, example::temperature(&place));
        }
        // What the card expected, but never more than the pack holds.
        let expected = self.expected_mah.take().and_then(|text| text.parse::<f64>().ok());
        let used = format!("{:.0}", expected.unwrap_or(2_400.0).min(9_000.0));
        self.person.enter("Charge used", &used);
        self.answer_marks();
        self.person.tap("As it should be");
    }

    /// Says of each mark that there was nothing to it.
    pub fn answer_marks(&mut self) {
        while self.person.control("A gust").is_some() {
            self.person.tap("A gust");
        }
    }
}

/// The places that a landing asks for.
pub fn places_wanted(screen: &Screen) -> Vec<String> {
    let places = screen.blocks.iter().filter_map(|block| match block {
        Block::Stepper { field, label, hint, .. } if field.starts_with("temp:") => {
            let asked = !hint.as_deref().unwrap_or_default().contains("not asked for");
            asked.then(|| label.clone())
        }
        _ => None,
    });
    places.collect()
}

fn says_due(screen: &Screen) -> bool {
    screen.foot[0].why_not.as_deref().is_some_and(|why| why.ends_with("due first"))
}

/// The first check under what is due on a card, and the touches that record it there.
fn first_due(screen: &Screen) -> Option<(String, Vec<Control>)> {
    let due = |block: &Block| matches!(block, Block::Heading { text, .. } if text == "Due before this flight");
    let mut blocks = screen.blocks.iter().skip_while(|block| !due(block)).filter(|_| says_due(screen));
    let title = blocks.find_map(|block| match block {
        Block::Row { title, control: Some(_), .. } => Some(title.clone()),
        _ => None,
    })?;
    match blocks.next() {
        Some(Block::Choice { options, .. }) => Some((title, options.clone())),
        _ => Some((title, Vec::new())),
    }
}

/// Whether a touch on the card says of a check what the person sees there.
fn is_what_is_read(way: &Control, title: &str) -> bool {
    way.label == "Seen, and right" || way.label.split(' ').next() == Some(example::reading(title))
}

fn wanted_figure(block: &Block) -> Option<String> {
    match block {
        Block::Row { title, control: Some(_), detail: Some(detail), .. } if detail == "The limit waits for it" => {
            Some(title.clone())
        }
        _ => None,
    }
}

fn strong(screen: &Screen) -> String {
    let found = screen.blocks.iter().find_map(|block| match block {
        Block::Paragraph { text, tone: Tone::Strong } => Some(text.clone()),
        _ => None,
    });
    found.unwrap_or_default()
}

fn spotter_label(screen: &Screen) -> &'static str {
    let with = screen.blocks.iter().any(|b| matches!(b, Block::Entry { label, .. } if label == "Spotter's name"));
    if with { "Spotter's name" } else { "Spotter's name, if not flying alone" }
}
