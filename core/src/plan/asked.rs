//! Whether two plans ask the same of a check.

use super::check::{Check, CheckKind, Fly, Measure};

impl Check {
    /// Whether evidence of this check answers what `other` asks. Limits may differ: a reading is judged by the limits in
    /// force whenever it is looked at. What is done, how it is judged and what is flown may not.
    pub fn asks_the_same(&self, other: &Check) -> bool {
        // Every field is named, so that a new one is weighed here.
        let Check {
            id: _,
            title: _,
            instruction,
            why: _,
            judged,
            chunk: _,
            kind,
            fail: _,
            mandatory: _,
            cautions: _,
            witness: _,
            point: _,
            caution_proves: _,
            called_by: _,
            rests_on: _,
            holds: _,
            when: _,
            before_flights_from: _,
            read_on,
            rung_above: _,
            basis: _,
        } = self;
        kind.asks_the_same(&other.kind)
            && *read_on == other.read_on
            && tidy(instruction) == tidy(&other.instruction)
            && tidy(judged) == tidy(&other.judged)
    }
}

impl CheckKind {
    fn asks_the_same(&self, other: &CheckKind) -> bool {
        match (self, other) {
            (CheckKind::Confirm, CheckKind::Confirm) => true,
            (CheckKind::Compute(one), CheckKind::Compute(two)) => one == two,
            (CheckKind::Measure(one), CheckKind::Measure(two)) => {
                let Measure { unit, low: _, high: _, step: _, start: _, limits: _, agrees_with: _ } = one;
                *unit == two.unit
            }
            (CheckKind::Fly(one), CheckKind::Fly(two)) => {
                let Fly { motion, head_speed_rpm, minutes, knock_off: _, temperatures: _, predict, reserve: _ } = one;
                *motion == two.motion
                    && *head_speed_rpm == two.head_speed_rpm
                    && *minutes == two.minutes
                    && *predict == two.predict
            }
            (CheckKind::Confirm | CheckKind::Compute(_) | CheckKind::Measure(_) | CheckKind::Fly(_), _) => false,
        }
    }
}

/// Blanks and line ends are no difference.
pub(super) fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
