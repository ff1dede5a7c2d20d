//! When words say something to another person.

use super::{Drafts, Refusal, Result};
use crate::locale::say;

/// Whether words tell another person what was done, or why: two words at the least, each of two letters or digits or more. Less is a finger
/// that wants to get past the field; more cannot be asked of a sentence that nobody here understands (common practice, no source).
pub(super) fn says_something(words: &str) -> bool {
    let letters = |word: &&str| word.chars().filter(|letter| letter.is_alphanumeric()).count() > 1;
    words.split_whitespace().filter(letters).count() > 1
}

/// A field's words, which say something.
///
/// # Errors
/// Empty, or too little to tell anybody anything.
pub(super) fn required_words<'a>(drafts: Drafts<'a>, field: &str, label: &str) -> Result<&'a str> {
    let words = drafts.required(field, label)?;
    match says_something(words) {
        true => Ok(words),
        false => Err(Refusal::of(field, say!(drafts.locale(), "app-too-few-words", label = label, words = words))),
    }
}

#[cfg(test)]
mod tests {
    use super::says_something;

    #[test]
    fn a_sentence_says_something_and_a_letter_does_not() {
        for words in ["gusts all along", "Wind 12", "Sam is ill", "zu viel Gas"] {
            assert!(says_something(words), "{words}");
        }
        for words in ["x", "", "gusts", "x x x", ". , -", "a b", "so."] {
            assert!(!says_something(words), "{words}");
        }
    }
}
