//! What can be said of a plan beyond that it holds together: whether it is a good one, as far as rules can tell.
//!
//! Critical items first, groups of at most nine and answers that are values follow Degani and Wiener, NASA CR-177549
//! (Human Factors of Flight-Deck Checklists, 1990), seen in an abstract. What counts as a hazard by its words is common
//! practice, without a source.

use std::collections::BTreeSet;

use super::check::{Check, CheckKind, Fly, Limit, Motion};
use super::flaw::{CHUNK, Flaw, GRADE, Hazard};
use super::model::{Plan, Question, Stage};
use super::reading_grade::reading_grade;
use super::subject::Subject;
use crate::locale::Locale;
use crate::record::Outcome;

/// A rule that a plan can break and still be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// What stops an aircraft stands before what does not.
    Order,
    /// At most nine checks are read as one.
    ChunkSize,
    /// A limit says where it comes from, and its number stands in the text.
    Basis,
    /// A check that cannot fail is none.
    CannotFail,
    /// Nothing is there that nothing uses.
    Dead,
    /// Work that can hurt has its caution.
    Caution,
    /// Text that a cold person understands at once.
    Reading,
    /// Recurring work runs out by itself.
    Recurring,
    /// The rungs of a ladder rise.
    Ladder,
    /// What only some aircraft have is asked of those only.
    Condition,
}

/// One place where a plan breaks a rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// Which rule.
    pub rule: Rule,
    /// The id of the check, figure or other item.
    pub place: String,
    /// What is wrong and what would be right.
    pub flaw: Flaw,
}

/// Everything in which a plan breaks the rules of a good one, by rule and place.
pub fn lint(plan: &Plan) -> Vec<Remark> {
    let mut linter = Linter { plan, remarks: Vec::new() };
    for stage in &plan.stages {
        linter.order(stage);
        linter.chunks(stage);
        linter.ladder(stage);
    }
    for (stage, check) in plan.checks() {
        linter.basis(check);
        linter.can_fail(check);
        linter.cautions(stage, check);
        linter.reading(check);
        linter.recurring(check);
        linter.conditions(check);
    }
    linter.dead();
    linter
        .remarks
        .sort_by_cached_key(|remark| (remark.rule, remark.place.clone(), remark.flaw.words(Locale::default())));
    linter.remarks
}

struct Linter<'a> {
    plan: &'a Plan,
    remarks: Vec<Remark>,
}

impl Linter<'_> {
    fn remark(&mut self, rule: Rule, place: &str, flaw: Flaw) {
        self.remarks.push(Remark { rule, place: place.to_owned(), flaw });
    }

    /// Within a group what stops stands before what only cautions, and what is wanted before what is not; but nothing
    /// stands before what it rests on.
    fn order(&mut self, stage: &Stage) {
        for chunk in chunks(stage) {
            for (index, check) in chunk.iter().enumerate() {
                let late = chunk[index + 1..]
                    .iter()
                    .find(|later| weight(later) > weight(check) && !rests_on(later, check) && later.fly().is_none());
                if let Some(later) = late {
                    self.remark(Rule::Order, &check.id, Flaw::StopsLater { title: later.title.clone() });
                }
            }
        }
    }

    fn chunks(&mut self, stage: &Stage) {
        for chunk in chunks(stage) {
            let most = most_together(self.plan, &chunk);
            if most > CHUNK {
                self.remark(Rule::ChunkSize, &chunk[0].id, Flaw::GroupTooLong { checks: most });
            }
        }
    }

    /// Head speeds of hovers in one stage rise from check to check: by numbers, or by figures of which one lies above the
    /// other.
    fn ladder(&mut self, stage: &Stage) {
        let rungs: Vec<(&Check, &Fly)> = stage
            .checks
            .iter()
            .filter_map(|check| Some((check, check.fly()?)))
            .filter(|(_, fly)| fly.motion == Motion::Hover)
            .collect();
        for pair in rungs.windows(2) {
            let ((_, low), (check, high)) = (pair[0], pair[1]);
            if !self.rises(&low.head_speed_rpm, &high.head_speed_rpm) {
                self.remark(Rule::Ladder, &check.id, Flaw::NotAbove);
            }
        }
    }

    fn rises(&self, low: &Limit, high: &Limit) -> bool {
        match (low, high) {
            (Limit::Number(low), Limit::Number(high)) => high >= low,
            (Limit::Figure { figure: low, times: a }, Limit::Figure { figure: high, times: b }) => {
                b >= a && (low == high || self.lies_above(high, low))
            }
            _ => false,
        }
    }

    fn lies_above(&self, high: &str, low: &str) -> bool {
        let mut here = high;
        // No plan that was read goes round in a circle here; counted all the same.
        for _ in 0..=self.plan.figures.len() {
            match self.plan.figure(here).and_then(|figure| figure.above.as_deref()) {
                Some(below) if below == low => return true,
                Some(below) => here = below,
                None => return false,
            }
        }
        false
    }

    fn basis(&mut self, check: &Check) {
        let CheckKind::Measure(measure) = &check.kind else { return };
        if check.basis.as_deref().is_none_or(|basis| basis.trim().is_empty()) {
            self.remark(Rule::Basis, &check.id, Flaw::NoBasis);
        }
        let limits = &measure.limits;
        let all = [&limits.stop_below, &limits.caution_below, &limits.caution_above, &limits.stop_above];
        let numbers = all.into_iter().flatten().filter_map(|limit| match limit {
            Limit::Number(number) | Limit::FullCell { plus_v: number } => Some(*number),
            Limit::Figure { .. } => None,
        });
        let told = numbers_in(&check.judged);
        for number in numbers {
            // Zero is told as "none" or "no".
            let said = number == 0.0 || told.iter().any(|said| (said - number.abs()).abs() < 1e-9);
            if !said {
                self.remark(Rule::Basis, &check.id, Flaw::LimitNotTold { limit: number });
            }
        }
    }

    /// Some plausible reading is past a limit, some is not, and what is said to stop can stop.
    fn can_fail(&mut self, check: &Check) {
        let CheckKind::Measure(measure) = &check.kind else { return };
        let limits = &measure.limits;
        let number = |limit: &Option<Limit>| match limit {
            Some(Limit::Number(number)) => Some(*number),
            _ => None,
        };
        let below = [number(&limits.stop_below), number(&limits.caution_below)];
        let above = [number(&limits.stop_above), number(&limits.caution_above)];
        for limit in below.into_iter().flatten().filter(|limit| *limit <= measure.low) {
            self.remark(Rule::CannotFail, &check.id, Flaw::NothingBelow { limit });
        }
        for limit in above.into_iter().flatten().filter(|limit| *limit >= measure.high) {
            self.remark(Rule::CannotFail, &check.id, Flaw::NothingAbove { limit });
        }
        let stops = limits.stop_below.is_some() || limits.stop_above.is_some();
        if check.fail == Outcome::Stop && !stops {
            self.remark(Rule::CannotFail, &check.id, Flaw::NoStop);
        }
    }

    fn cautions(&mut self, stage: &Stage, check: &Check) {
        if check.fly().is_some() && check.cautions.is_empty() && stage.cautions.is_empty() {
            self.remark(Rule::Caution, &check.id, Flaw::TurnsWithoutCaution);
        }
        if matches!(check.kind, CheckKind::Compute(_)) {
            return; // What is only looked at hurts nobody.
        }
        let text = format!("{} {}", check.instruction, check.title).to_lowercase();
        let over: Vec<String> = check
            .cautions
            .iter()
            .chain(&stage.cautions)
            .filter_map(|id| self.plan.caution(id))
            .map(|caution| format!("{} {}", caution.title, caution.text).to_lowercase())
            .collect();
        for (hazard, signs, answers) in HAZARDS {
            let can_hurt = signs.iter().any(|sign| text.contains(sign));
            let answered = over.iter().any(|caution| answers.iter().any(|answer| caution.contains(answer)));
            if can_hurt && !answered {
                self.remark(Rule::Caution, &check.id, Flaw::Unanswered { hazard });
            }
        }
    }

    fn reading(&mut self, check: &Check) {
        let texts = [("do", &check.instruction), ("why", &check.why), ("judged", &check.judged)];
        for (part, text) in texts {
            let grade = reading_grade(text);
            if grade > GRADE + 4.0 {
                self.remark(Rule::Reading, &check.id, Flaw::HardPart { part, grade });
            }
        }
        let whole = format!("{} {} {}", check.instruction, check.why, check.judged);
        let grade = reading_grade(&whole);
        if grade > GRADE {
            self.remark(Rule::Reading, &check.id, Flaw::HardText { grade });
        }
    }

    fn recurring(&mut self, check: &Check) {
        let holds = &check.holds;
        let ends = holds.session || holds.flights.is_some() || holds.hours.is_some() || holds.days.is_some();
        let called = !holds.events.is_empty() || !check.called_by.is_empty();
        if check.before_flights_from.is_some() && !ends && !called {
            self.remark(Rule::Recurring, &check.id, Flaw::NeverRunsOut);
        }
    }

    /// A figure of some aircraft only is used by checks of those aircraft only: on any other they would wait for ever.
    fn conditions(&mut self, check: &Check) {
        let figures: Vec<&str> = limits_of(check).filter_map(figure_of).collect();
        for figure in figures.into_iter().filter_map(|id| self.plan.figure(id)) {
            let covered = figure.when.iter().all(|(question, answers)| {
                check.when.get(question).is_some_and(|mine| mine.iter().all(|answer| answers.contains(answer)))
            });
            if !covered {
                self.remark(Rule::Condition, &check.id, Flaw::NotEveryAircraft { figure: figure.title.clone() });
            }
        }
    }

    fn dead(&mut self) {
        let used = used(self.plan);
        let plan = self.plan;
        let all = [
            ("trait", plan.questions.iter().map(|q| &q.id).collect::<Vec<_>>()),
            ("part", plan.parts.iter().map(|p| &p.id).collect()),
            ("setting", plan.settings.iter().map(|s| &s.id).collect()),
            ("caution", plan.cautions.iter().map(|c| &c.id).collect()),
            ("event", plan.events.iter().map(|e| &e.id).collect()),
        ];
        for (kind, ids) in all {
            for id in ids.into_iter().filter(|id| !used.contains(&(kind, (*id).clone()))) {
                self.remark(Rule::Dead, id, Flaw::Unused { kind });
            }
        }
    }
}

/// What can hurt, the words that give it away, and the words of which a caution over it has one. Common practice, no
/// source; words in other languages are not known here.
const HAZARDS: [(Hazard, &[&str], &[&str]); 5] = [
    (Hazard::Rotor, &["spool", "hover ", "fly ", "circuit"], &["rotor", "blade", "people", "spool-up"]),
    (Hazard::Drive, &["by hand, ten", "turn the drive"], &["unplug", "hold on", "blades off"]),
    (
        Hazard::PackVoltage,
        &["plug in", "first plug", "connect through", "pull the main pack plug"],
        &["pack", "voltage"],
    ),
    (Hazard::Heat, &["hottest spot", "measure the tail gearbox", "solder joint"], &["hot", "burn"]),
    (Hazard::Lifting, &["lift it", "lift the aircraft", "hang it"], &["lift", "heavy"]),
];

fn weight(check: &Check) -> u8 {
    match (check.mandatory, check.fail) {
        (true, Outcome::Stop) => 2,
        (true, _) => 1,
        (false, _) => 0,
    }
}

fn rests_on(check: &Check, other: &Check) -> bool {
    check.rests_on.contains(&Subject::Check(other.id.clone()))
}

/// The checks of a stage in the groups in which they are read.
fn chunks(stage: &Stage) -> Vec<Vec<&Check>> {
    let mut chunks: Vec<Vec<&Check>> = Vec::new();
    for check in &stage.checks {
        match chunks.last_mut() {
            Some(last) if check.chunk.is_none() => last.push(check),
            _ => chunks.push(vec![check]),
        }
    }
    chunks
}

/// Most checks of a group that one aircraft can have: for each question the answer that brings most.
fn most_together(plan: &Plan, chunk: &[&Check]) -> usize {
    let questions: Vec<&Question> =
        plan.questions.iter().filter(|q| chunk.iter().any(|check| check.when.contains_key(&q.id))).collect();
    // Few questions bear on one group, so that all their answers can be gone through.
    let mut answers: Vec<Vec<(&str, &str)>> = vec![Vec::new()];
    for question in questions {
        answers = answers
            .into_iter()
            .flat_map(|given| {
                question.choices.iter().map(move |(id, _)| {
                    let mut more = given.clone();
                    more.push((question.id.as_str(), id.as_str()));
                    more
                })
            })
            .collect();
    }
    let fits = |check: &Check, given: &[(&str, &str)]| {
        check
            .when
            .iter()
            .all(|(q, of)| given.iter().any(|(question, answer)| q == question && of.iter().any(|a| a == answer)))
    };
    answers.iter().map(|given| chunk.iter().filter(|check| fits(check, given)).count()).max().unwrap_or(0)
}

fn limits_of(check: &Check) -> impl Iterator<Item = &Limit> {
    let of: Vec<&Limit> = match &check.kind {
        CheckKind::Measure(measure) => {
            let limits = &measure.limits;
            let all = [&limits.stop_below, &limits.caution_below, &limits.caution_above, &limits.stop_above];
            all.into_iter().flatten().collect()
        }
        CheckKind::Fly(fly) => vec![&fly.head_speed_rpm],
        _ => Vec::new(),
    };
    of.into_iter()
}

fn figure_of(limit: &Limit) -> Option<&str> {
    match limit {
        Limit::Figure { figure, .. } => Some(figure),
        Limit::Number(_) | Limit::FullCell { .. } => None,
    }
}

/// Everything that some check has to do with, by kind and id.
fn used(plan: &Plan) -> BTreeSet<(&'static str, String)> {
    let mut used = BTreeSet::new();
    let whens = plan.checks().map(|(_, check)| &check.when).chain(plan.figures.iter().map(|figure| &figure.when));
    used.extend(whens.flat_map(|when| when.keys().map(|question| ("trait", question.clone()))));
    for (stage, check) in plan.checks() {
        used.extend(stage.cautions.iter().chain(&check.cautions).map(|id| ("caution", id.clone())));
        used.extend(check.holds.events.iter().chain(&check.called_by).map(|id| ("event", id.clone())));
        for subject in &check.rests_on {
            match subject {
                Subject::Part(id) => used.insert(("part", id.clone())),
                Subject::Setting(id) => used.insert(("setting", id.clone())),
                _ => false,
            };
        }
    }
    used
}

/// The numbers in a text, without their signs.
fn numbers_in(text: &str) -> Vec<f64> {
    let digits = |c: char| c.is_ascii_digit() || c == '.';
    text.split(|c: char| !digits(c)).filter_map(|word| word.trim_matches('.').parse().ok()).collect()
}
