//! The plan that comes with Liftgate, and whether a newer edition of a plan came with it.

use super::model::Plan;

/// The plan that comes with Liftgate.
pub const SHIPPED: &str = include_str!("../../plans/large-electric-helicopter.toml");

/// What the shipped plan says of itself under a key, read off its lines: every board asks for it, and to parse all of it for that takes long.
fn shipped(key: &str) -> Option<&'static str> {
    let head = SHIPPED.lines().take_while(|line| !line.starts_with('['));
    head.filter_map(|line| line.split_once(" = "))
        .find(|(told, _)| *told == key)
        .map(|(_, value)| value.trim_matches('"'))
}

impl Plan {
    /// The edition of this plan that came with the app, where that is a newer one. Editions are told apart by year and month; one that a
    /// person named otherwise is their own, and has none after it.
    pub fn newer_edition(&self) -> Option<&'static str> {
        let is_of_it = shipped("id") == Some(&self.id) && is_a_month(&self.edition);
        shipped("edition").filter(|edition| is_of_it && *edition > self.edition.as_str())
    }
}

/// Whether an edition is written `2027-04`.
fn is_a_month(edition: &str) -> bool {
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    edition
        .split_once('-')
        .is_some_and(|(year, month)| year.len() == 4 && month.len() == 2 && digits(year) && digits(month))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn with_edition(edition: &str) -> Plan {
        Plan { edition: edition.to_owned(), ..Plan::parse("the shipped plan", SHIPPED).unwrap() }
    }

    #[test]
    fn only_an_older_edition_of_the_same_plan_has_a_newer_one() {
        let Plan { id, edition, .. } = Plan::parse("the shipped plan", SHIPPED).unwrap();
        assert_eq!((shipped("id"), shipped("edition")), (Some(id.as_str()), Some(edition.as_str())));
        assert!(is_a_month(&edition), "the next one can be told from it");
        assert_eq!(with_edition("2026-11").newer_edition(), Some(edition.as_str()));
        assert_eq!(with_edition(&edition).newer_edition(), None);
        assert_eq!(with_edition("2099-01").newer_edition(), None, "of an app that was newer");
        for own in ["mine", "1", "2026", "2026-11 mine", "20-2611"] {
            assert_eq!(with_edition(own).newer_edition(), None, "{own}");
        }
        let another = Plan { id: "my-helicopter".to_owned(), ..with_edition("2026-11") };
        assert_eq!(another.newer_edition(), None);
    }
}
