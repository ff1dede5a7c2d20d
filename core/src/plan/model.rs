//! What a plan is made of.

use super::check::Check;
use super::when::When;
use crate::unit::Unit;

/// A plan that holds together: every reference leads somewhere and nothing waits for itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its edition, for people.
    pub edition: String,
    /// For whom it is and what it does not do.
    pub notice: String,
    /// What differs between aircraft.
    pub questions: Vec<Question>,
    /// The aircraft's numbers.
    pub figures: Vec<Figure>,
    /// Fitted parts that evidence rests on.
    pub parts: Vec<Part>,
    /// Adjustable things that evidence rests on.
    pub settings: Vec<Setting>,
    /// Where temperatures are taken, in that order.
    pub places: Vec<Place>,
    /// What can hurt.
    pub cautions: Vec<Caution>,
    /// What can happen to an aircraft that ends evidence.
    pub events: Vec<Event>,
    /// The stages in order.
    pub stages: Vec<Stage>,
}

/// A question whose answer decides which checks there are.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Its id.
    pub id: String,
    /// As it is asked.
    pub text: String,
    /// Answers: id and label.
    pub choices: Vec<(String, String)>,
    /// Answered by a figure, and asked of nobody.
    pub from: Option<FromFigure>,
}

/// How a figure answers a question.
#[derive(Debug, Clone, PartialEq)]
pub struct FromFigure {
    /// The figure's id.
    pub figure: String,
    /// The highest value of it for each choice but the last, rising.
    pub up_to: Vec<f64>,
}

impl Question {
    /// The choice that a figure's value answers with; none where the question is asked of a person.
    pub fn answered_by(&self, value: f64) -> Option<&str> {
        let from = self.from.as_ref()?;
        let choice = from.up_to.iter().take_while(|up_to| value > **up_to).count();
        self.choices.get(choice).map(|(id, _)| id.as_str())
    }
}

/// One number of the aircraft.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Its id.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Its unit.
    pub unit: Unit,
    /// Lowest plausible value, inclusive.
    pub low: f64,
    /// Highest plausible value, inclusive.
    pub high: f64,
    /// Whether the first gate waits for it.
    pub required: bool,
    /// What it is good for.
    pub why: Option<String>,
    /// The aircraft that it is for.
    pub when: When,
    /// Another figure, of the same unit, that it must lie above: the next rung of a ladder.
    pub above: Option<String>,
    /// Changed on purpose from flight to flight, like a head speed: kept in the ledger of settings with its reason.
    pub adjustable: bool,
}

/// Something that can happen to an aircraft, recorded in a touch: a hard landing, a blade strike.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// Its id.
    pub id: String,
    /// What happened, in a few words.
    pub title: String,
    /// When to record it, and what to do at once.
    pub text: String,
}

/// A fitted part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Its id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// The aircraft that have it.
    pub when: When,
}

/// An adjustable thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// Its id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// Its unit, where it has one.
    pub unit: Option<String>,
    /// The aircraft that have it.
    pub when: When,
}

/// A place where a temperature is taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Its id.
    pub id: String,
    /// Its name.
    pub title: String,
    /// Degrees Celsius above which it is a caution.
    pub caution_above_c: f64,
    /// Degrees Celsius above which it is a stop.
    pub stop_above_c: f64,
    /// Whether a winding heats it: copper loses more as it gets hotter.
    pub is_winding: bool,
    /// Where the limits come from.
    pub basis: String,
    /// The aircraft that have it.
    pub when: When,
}

/// Something that can hurt, and what to do about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// Its id.
    pub id: String,
    /// What to do, in a few words.
    pub title: String,
    /// Why, and what else.
    pub text: String,
}

/// A group of checks that ends in a gate.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it is for.
    pub purpose: String,
    /// Which of the ten parts of the job.
    pub job: u8,
    /// Ids of the stages whose gates must be released before this one's.
    pub after: Vec<String>,
    /// Ids of cautions that stand over the whole stage.
    pub cautions: Vec<String>,
    /// What releasing its gate means. A stage without a gate holds recurring work.
    pub gate: Option<String>,
    /// The checks, most critical first.
    pub checks: Vec<Check>,
}
