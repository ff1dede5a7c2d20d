//! A number that is set by touches: the one way to build a stepper.

use super::{Block, Context, Control, Edit, Icon};
use crate::locale::{Locale, say, with_sign};
use crate::unit::Unit;

/// How a number is moved, in its recorded unit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Steps {
    /// Its unit.
    pub unit: Unit,
    /// How far one touch moves it.
    pub step: f64,
    /// Where it starts while nothing is entered.
    pub start: f64,
}

/// A stepper under way. All words and numbers are in the units that the person reads.
pub(super) struct Stepper {
    locale: Locale,
    field: String,
    label: String,
    unit: Unit,
    by: f64,
    start: f64,
    value: String,
    less: (String, Edit),
    more: (String, Edit),
    flag: Option<String>,
    hint: Option<String>,
}

impl Stepper {
    /// A stepper of a field: as it stands in the draft, moved from its last value or from the start.
    pub fn of(context: &Context<'_>, field: String, label: String, steps: Steps) -> Stepper {
        let locale = context.locale;
        let by = locale.step(steps.step, steps.unit);
        let start = locale.start(steps.start, steps.step, steps.unit);
        let step = |by: f64| Edit::Step { field: field.clone(), by, start };
        let stepper = Stepper {
            locale,
            value: context.form.text(&field).unwrap_or_default().to_owned(),
            less: (String::new(), step(-by)),
            more: (String::new(), step(by)),
            field,
            label,
            unit: steps.unit,
            by,
            start,
            flag: None,
            hint: None,
        };
        let (label, by, unit) = (stepper.label.clone(), locale.plain(by), locale.spoken(steps.unit));
        stepper.spoken(|word, _| say!(locale, "common-step-spoken", label = label, word = word, by = by, unit = unit))
    }

    /// Says the two steps otherwise: `words` gets the word on the control, and whether it is the one that adds.
    pub fn spoken(mut self, words: impl Fn(&str, bool) -> String) -> Stepper {
        self.less.0 = words(&say!(self.locale, "common-less"), false);
        self.more.0 = words(&say!(self.locale, "common-more"), true);
        self
    }

    /// Shows another value than the draft's, with the values that a step down and a step up come to.
    pub fn at(mut self, value: String, less: String, more: String) -> Stepper {
        self.less.1 = Edit::set(self.field.clone(), less);
        self.more.1 = Edit::set(self.field.clone(), more);
        self.value = value;
        self
    }

    /// While nothing is entered the first touch fills `begun`, so that the page says where it starts, and only the next one moves it from
    /// there: nobody records by one touch what nobody read.
    pub fn begun_by(mut self, begun: &str, is_begun: bool) -> Stepper {
        if self.value.is_empty() {
            let edit = |to: f64| match is_begun {
                true => Edit::set(self.field.clone(), self.locale.plain(to)),
                false => Edit::set(begun, "1"),
            };
            (self.less.1, self.more.1) = (edit(self.start - self.by), edit(self.start + self.by));
        }
        self
    }

    /// What is shown while the draft is empty.
    pub fn or_value(mut self, value: Option<String>) -> Stepper {
        if self.value.is_empty() {
            self.value = value.unwrap_or_default();
        }
        self
    }

    /// Something odd about the value, which never blocks.
    pub fn flag(self, flag: Option<String>) -> Stepper {
        Stepper { flag, ..self }
    }

    /// The last value, the range, the start.
    pub fn hint(self, hint: impl Into<Option<String>>) -> Stepper {
        Stepper { hint: hint.into(), ..self }
    }

    /// Where it starts, with its unit.
    pub fn start_words(&self) -> String {
        with_sign(self.locale.plain(self.start), self.locale.shown(self.unit).sign)
    }

    /// How far one touch moves it, as a person reads it.
    pub fn by_words(&self) -> String {
        self.locale.plain(self.by)
    }

    /// The block.
    pub fn block(self) -> Block {
        let control = |(spoken, edit): (String, Edit), word: String| Control::new(edit.into(), word).spoken(spoken);
        Block::Stepper {
            less: control(self.less, say!(self.locale, "common-less")).icon(Icon::Remove),
            more: control(self.more, say!(self.locale, "common-more")).icon(Icon::Add),
            field: self.field,
            label: self.label,
            value: self.value,
            unit: self.locale.shown(self.unit).sign.to_owned(),
            flag: self.flag,
            hint: self.hint,
        }
    }
}
