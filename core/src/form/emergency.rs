//! Whom to call and where to send help: the form of it.

use super::{Drafts, Refusal, Result};
use crate::locale::say;
use crate::readiness::Ledger;

/// Whom to call and where, as typed or as known.
#[derive(Clone, Copy)]
pub struct EmergencyForm<'a> {
    drafts: Drafts<'a>,
    ledger: &'a Ledger,
}

impl<'a> EmergencyForm<'a> {
    /// The field of the number to call.
    pub const CALL: &'static str = "call";
    /// The field of the site's address.
    pub const ADDRESS: &'static str = "address";

    /// The form over what is known.
    pub fn new(drafts: Drafts<'a>, ledger: &'a Ledger) -> Self {
        EmergencyForm { drafts, ledger }
    }

    /// The number as it is known; empty where nobody said it.
    pub fn known_call(&self) -> &'a str {
        self.ledger.emergency.as_ref().map_or("", |known| &known.call)
    }

    /// The address as it is known; empty where nobody said it.
    pub fn known_address(&self) -> &'a str {
        self.ledger.emergency.as_ref().map_or("", |known| &known.address)
    }

    /// The number to call.
    ///
    /// # Errors
    /// Empty, or without a digit: that is no number.
    pub fn call(&self) -> Result<&'a str> {
        let label = say!(self.drafts.locale(), "emergency-call");
        let call = self.drafts.required_or_known(Self::CALL, self.known_call(), &label)?;
        if call.chars().any(|letter| letter.is_ascii_digit()) {
            Ok(call)
        } else {
            Err(Refusal::of(Self::CALL, say!(self.drafts.locale(), "emergency-call-no-number")))
        }
    }

    /// The site's address.
    ///
    /// # Errors
    /// Empty.
    pub fn address(&self) -> Result<&'a str> {
        let label = say!(self.drafts.locale(), "emergency-address");
        self.drafts.required_or_known(Self::ADDRESS, self.known_address(), &label)
    }
}
