//! How hard a text is to read, after Kincaid, Fishburne, Rogers and Chissom, Research Branch Report 8-75 (Naval Technical
//! Training Command, 1975).

/// The reading grade of a text, in years of school: 0.39 words a sentence and 11.8 syllables a word, less 15.59
/// (Kincaid and others, 1975). Syllables are counted by groups of vowels, as is usual where no dictionary is at hand.
/// Numbers and signs of units count as words of one syllable. Zero for a text without a word.
pub fn reading_grade(text: &str) -> f64 {
    let sentences = sentences(text).max(1) as f64;
    let words: Vec<&str> = text
        .split(|c: char| c.is_whitespace() || c == '-')
        .filter(|word| word.chars().any(char::is_alphanumeric))
        .collect();
    if words.is_empty() {
        return 0.0;
    }
    let syllables: usize = words.iter().map(|word| syllables(word)).sum();
    let count = words.len() as f64;
    0.39 * count / sentences + 11.8 * syllables as f64 / count - 15.59
}

/// Sentences, clauses after a colon or semicolon among them: each is read at one breath.
fn sentences(text: &str) -> usize {
    let mut count = 0;
    let mut open = false;
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        open |= letter.is_alphanumeric();
        let ends =
            matches!(letter, '.' | '!' | '?' | ';' | ':') && letters.peek().is_none_or(|next| next.is_whitespace());
        if ends && open {
            count += 1;
            open = false;
        }
    }
    count + usize::from(open)
}

fn syllables(word: &str) -> usize {
    let letters: Vec<char> = word.chars().filter(|c| c.is_alphabetic()).map(|c| c.to_ascii_lowercase()).collect();
    let vowel = |c: char| matches!(c, 'a' | 'e' | 'i' | 'o' | 'u' | 'y');
    let mut groups = 0;
    let mut before = false;
    for letter in &letters {
        let now = vowel(*letter);
        groups += usize::from(now && !before);
        before = now;
    }
    // A silent e at the end, as in 'blade', but not in 'cable', and the one of '-es' and '-ed'.
    let ends = |tail: &str| letters.iter().collect::<String>().ends_with(tail);
    let silent = (ends("e") && !ends("le") && !ends("ee") && !ends("ye"))
        || (ends("es") && !["ses", "zes", "ces", "ges", "xes", "ches", "shes"].iter().any(|tail| ends(tail)))
        || (ends("ed") && !ends("ted") && !ends("ded"));
    if silent && groups > 1 {
        groups -= 1;
    }
    groups.max(1)
}
