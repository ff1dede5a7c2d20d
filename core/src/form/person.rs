//! Who somebody is: a spotter and a second person are somebody else than who built the aircraft and who flies it.

use super::{Drafts, Refusal, Result};
use crate::aircraft::Aircraft;
use crate::locale::say;
use crate::readiness::Ledger;
use crate::record::EntryId;

/// Who has the phone where nobody else is there, as the journal has it.
pub(super) const ALONE: &str = "The pilot";

/// A name as it is compared: large and small letters and blanks tell nobody apart.
fn folded(name: &str) -> String {
    name.split_whitespace().map(str::to_lowercase).collect::<Vec<_>>().join(" ")
}

/// Whether a name is the pilot's or the builder's.
fn is_own(aircraft: &Aircraft, name: &str) -> bool {
    let name = folded(name);
    !name.is_empty() && [&aircraft.pilot, &aircraft.builder].into_iter().any(|own| folded(own) == name)
}

/// A field's name, which is somebody else's than the pilot's and the builder's; none where the field is empty.
///
/// # Errors
/// It is one of theirs.
pub(super) fn other<'a>(drafts: Drafts<'a>, aircraft: &Aircraft, field: &str) -> Result<Option<&'a str>> {
    let name = drafts.text(field);
    name.map(|name| of_another(drafts, aircraft, field, name)).transpose()
}

/// A name that stands at a field, where it is somebody else's.
///
/// # Errors
/// It is the pilot's or the builder's.
pub(super) fn of_another<'n>(drafts: Drafts<'_>, aircraft: &Aircraft, field: &str, name: &'n str) -> Result<&'n str> {
    match is_own(aircraft, name) {
        true => Err(Refusal::of(field, say!(drafts.locale(), "app-own-name", name = name))),
        false => Ok(name),
    }
}

/// A field's name, which has to be there.
///
/// # Errors
/// As [`other`], and where it is empty.
pub(super) fn required_other<'a>(
    drafts: Drafts<'a>,
    aircraft: &Aircraft,
    field: &str,
    label: &str,
) -> Result<&'a str> {
    drafts.required(field, label)?;
    Ok(other(drafts, aircraft, field)?.unwrap_or_default())
}

/// The last people who held the phone, for whichever aircraft, or saw a check done, at most `most` of them, each once, the last one first.
pub fn last_people(ledger: &Ledger, most: usize) -> Vec<&str> {
    let flights = ledger.flights.iter().chain(ledger.flights_elsewhere());
    let spotters = flights.filter_map(|flight| Some((flight.card, flight.spotter.as_deref()?)));
    let results = ledger.results.values().flatten();
    let witnesses = results.filter_map(|result| Some((result.entry, result.witness.as_deref()?)));
    let mut named: Vec<(EntryId, &str)> = spotters.chain(witnesses).collect();
    named.sort_unstable_by(|a, b| b.cmp(a));
    let mut people: Vec<&str> = Vec::new();
    for (_, name) in named {
        let is_known = people.iter().any(|known| folded(known) == folded(name));
        if !is_known && name != ALONE && !is_own(&ledger.aircraft, name) && people.len() < most {
            people.push(name);
        }
    }
    people
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_the_pilots_however_it_is_written() {
        let aircraft =
            Aircraft { pilot: "Jorun Aas".to_owned(), builder: "Tove  Lind".to_owned(), ..Aircraft::default() };
        for own in ["Jorun Aas", " jorun   AAS ", "tove lind"] {
            assert!(is_own(&aircraft, own), "{own}");
        }
        for other in ["Jorun", "Jorun Aass", "", "Tilda Moor"] {
            assert!(!is_own(&aircraft, other), "{other}");
        }
        assert!(!is_own(&Aircraft::default(), ""), "nobody is nobody");
    }
}
