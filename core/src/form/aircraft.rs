//! The forms about the aircraft as a whole: its name, a figure, a setting, a change.

use super::{Drafts, Refusal, Result, SubjectsForm};
use crate::aircraft::Aircraft;
use crate::computed::{Facts, derived};
use crate::locale::say;
use crate::plan::Figure;
use crate::record::Basis;

/// The aircraft's, its builder's and its pilot's name.
#[derive(Clone, Copy)]
pub struct NameForm<'a> {
    drafts: Drafts<'a>,
    aircraft: &'a Aircraft,
    /// Its name as it is known; empty of one that is about to be begun.
    known_name: &'a str,
}

impl<'a> NameForm<'a> {
    /// The field of the aircraft's name.
    pub const NAME: &'static str = "name";
    /// The field of the builder's name.
    pub const BUILDER: &'static str = "builder";
    /// The field of the pilot's name.
    pub const PILOT: &'static str = "pilot";

    /// The names as they are typed, or known.
    pub fn new(drafts: Drafts<'a>, aircraft: &'a Aircraft) -> Self {
        NameForm { drafts, aircraft, known_name: &aircraft.name }
    }

    /// The names of another aircraft, which is about to be begun: its own is new, and its people are those of the one that is here.
    pub fn of_another(drafts: Drafts<'a>, here: &'a Aircraft) -> Self {
        NameForm { drafts, aircraft: here, known_name: "" }
    }

    /// The aircraft's name as it is known.
    pub fn known_name(&self) -> &'a str {
        self.known_name
    }

    /// The builder's name as it is known.
    pub fn known_builder(&self) -> &'a str {
        &self.aircraft.builder
    }

    /// The aircraft's name.
    ///
    /// # Errors
    /// Empty.
    pub fn name(&self) -> Result<&'a str> {
        let label = say!(self.drafts.locale(), "app-label-aircraft");
        self.drafts.required_or_known(Self::NAME, self.known_name, &label)
    }

    /// The builder's name.
    ///
    /// # Errors
    /// Empty.
    pub fn builder(&self) -> Result<&'a str> {
        let label = say!(self.drafts.locale(), "app-label-builder");
        self.drafts.required_or_known(Self::BUILDER, &self.aircraft.builder, &label)
    }

    /// The pilot's name, where the builder does not fly it.
    pub fn pilot(&self) -> Option<&'a str> {
        self.drafts.left_or_known(Self::PILOT, self.known_pilot())
    }

    /// The pilot's name as it is known; empty where the builder flies it.
    pub fn known_pilot(&self) -> &'a str {
        if self.aircraft.pilot == self.aircraft.builder { "" } else { &self.aircraft.pilot }
    }
}

/// What is looked for on the aircraft's page.
pub struct FindForm<'a>(Drafts<'a>);

impl<'a> FindForm<'a> {
    /// The field of the words that are looked for.
    pub const WORDS: &'static str = "find";

    /// The form over its drafts.
    pub fn new(drafts: Drafts<'a>) -> Self {
        FindForm(drafts)
    }

    /// Whether a text has every word that is looked for, as a part of one of its own and whatever the letters' size; with nothing to look
    /// for, any text.
    pub fn finds(&self, text: &str) -> bool {
        let text = text.to_lowercase();
        self.words().all(|word| text.contains(&word.to_lowercase()))
    }

    /// Whether anything is looked for.
    pub fn is_wanted(&self) -> bool {
        self.words().next().is_some()
    }

    fn words(&self) -> impl Iterator<Item = &'a str> {
        self.0.text(Self::WORDS).unwrap_or_default().split_whitespace()
    }
}

/// A figure, and where it comes from.
#[derive(Clone, Copy)]
pub struct FigureForm<'a> {
    drafts: Drafts<'a>,
    figure: &'a Figure,
    /// Where the value on file comes from.
    known: Option<Basis>,
    /// What others on file say that it is, where nothing is on file of it.
    derived: Option<f64>,
}

impl<'a> FigureForm<'a> {
    /// The field of the value.
    pub const VALUE: &'static str = "value";
    /// The field of where it comes from: [`FigureForm::basis_id`].
    pub const BASIS: &'static str = "basis";
    /// The field of why it is changed.
    pub const REASON: &'static str = "reason";

    /// The form of a figure over what was typed there, and what is known of it.
    pub fn new(drafts: Drafts<'a>, figure: &'a Figure, facts: Facts<'_>) -> Self {
        let known = facts.ledger.aircraft.figures.get(&figure.id).map(|value| value.basis);
        FigureForm { drafts, figure, known, derived: derived(facts, &figure.id) }
    }

    /// What others on file say that it is, where nothing is on file of it, and nothing else was typed.
    pub fn offered(&self) -> Option<f64> {
        self.derived.filter(|_| self.drafts.text(Self::VALUE).is_none())
    }

    /// A basis as it stands in the form, whatever the language.
    pub fn basis_id(basis: Basis) -> &'static str {
        match basis {
            Basis::Measured => "measured",
            Basis::Rated => "rated",
            Basis::Estimated => "estimated",
        }
    }

    /// Where the value comes from: as chosen, else as it was. None where nobody said so yet: it is said by recording it.
    pub fn basis(&self) -> Option<Basis> {
        let chosen = self.drafts.text(Self::BASIS);
        Basis::ALL.into_iter().find(|basis| chosen == Some(Self::basis_id(*basis))).or(self.known)
    }

    /// The value in the figure's unit.
    ///
    /// # Errors
    /// Empty, no number, or outside of the plausible range.
    pub fn value(&self) -> Result<f64> {
        let Figure { title, unit, low, high, .. } = self.figure;
        if let Some(offered) = self.offered() {
            return Ok(offered);
        }
        self.drafts.required_number(Self::VALUE, title, *unit, (*low, *high))
    }

    /// Why it is changed: a figure that is changed on purpose says so from its second value on.
    ///
    /// # Errors
    /// Empty where it is wanted.
    pub fn reason(&self, is_first: bool) -> Result<Option<&'a str>> {
        match self.figure.adjustable && !is_first {
            true => self.drafts.required(Self::REASON, &say!(self.drafts.locale(), "app-label-reason")).map(Some),
            false => Ok(None),
        }
    }
}

/// A setting's new value.
#[derive(Clone, Copy)]
pub struct SettingForm<'a>(pub Drafts<'a>);

impl<'a> SettingForm<'a> {
    /// The field of the new value.
    pub const AFTER: &'static str = "after";
    /// The field of why it is changed.
    pub const REASON: &'static str = "reason";

    /// The new value.
    ///
    /// # Errors
    /// Empty.
    pub fn after(&self) -> Result<&'a str> {
        self.0.required(Self::AFTER, &say!(self.0.locale(), "app-label-new-value"))
    }

    /// Why it is changed.
    ///
    /// # Errors
    /// Empty.
    pub fn reason(&self) -> Result<&'a str> {
        self.0.required(Self::REASON, &say!(self.0.locale(), "app-label-reason"))
    }
}

/// A change to a part, the wiring or the mass.
#[derive(Clone, Copy)]
pub struct ChangeForm<'a>(pub Drafts<'a>);

impl<'a> ChangeForm<'a> {
    /// The field of what was done.
    pub const WHAT: &'static str = "what";

    /// What was done.
    ///
    /// # Errors
    /// Empty.
    pub fn what(&self) -> Result<&'a str> {
        self.0.required(Self::WHAT, &say!(self.0.locale(), "app-label-done"))
    }

    /// What was touched.
    ///
    /// # Errors
    /// Nothing is marked.
    pub fn subjects(&self) -> Result<Vec<String>> {
        let touched = SubjectsForm(self.0).touched();
        match touched.is_empty() {
            true => Err(Refusal::new(say!(self.0.locale(), "app-change-subjects"))),
            false => Ok(touched),
        }
    }
}
