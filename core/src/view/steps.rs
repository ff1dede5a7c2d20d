//! What is done at a check, as steps with their numbers.

use super::context::paragraph;
use super::{Block, Tone};

/// One action after the other: each sentence with its number, where there are several.
pub(super) fn steps(instruction: &str, tone: Tone) -> Vec<Block> {
    let sentences = sentences(instruction);
    let is_several = sentences.len() > 1;
    let step = |(number, sentence): (usize, &str)| match is_several {
        true => paragraph(format!("{number}. {sentence}"), tone),
        false => paragraph(sentence.to_owned(), tone),
    };
    (1..).zip(sentences).map(step).collect()
}

/// A sentence ends with a point or a question mark before a blank. Of an abbreviation it would not be told apart: plans have none.
fn sentences(text: &str) -> Vec<&str> {
    let mut rest = text.trim();
    let mut found = Vec::new();
    while let Some(end) = [". ", "? ", "! "].iter().filter_map(|end| rest.find(end)).min() {
        let (sentence, after) = rest.split_at(end + 1);
        found.push(sentence);
        rest = after.trim_start();
    }
    found.push(rest);
    found.retain(|sentence| !sentence.is_empty());
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_is_a_step_and_a_number_with_digits_behind_its_mark_is_none() {
        let text = "Unplugged. Weigh to 0.01 g; write it down. Wind good? Enter it.";
        assert_eq!(sentences(text), ["Unplugged.", "Weigh to 0.01 g; write it down.", "Wind good?", "Enter it."]);
        assert_eq!(steps("Do it.", Tone::Strong), [paragraph("Do it.".to_owned(), Tone::Strong)]);
        assert_eq!(steps("Look. Touch.", Tone::Plain)[1], paragraph("2. Touch.".to_owned(), Tone::Plain));
        assert_eq!(steps("", Tone::Plain), []);
    }
}
