//! In which form tables are saved.

use super::Drafts;
use crate::tables::Form;

/// The choice at the tables.
pub struct TablesForm<'a>(pub Drafts<'a>);

impl TablesForm<'_> {
    /// The form that is chosen.
    pub const FORM: &'static str = "form";

    /// The form that is chosen; the first until one is.
    pub fn form(&self) -> Form {
        let chosen = self.0.text(Self::FORM);
        Form::ALL.into_iter().find(|form| Some(form.id()) == chosen).unwrap_or(Form::Csv)
    }
}
