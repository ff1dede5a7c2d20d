//! No sentence that a person reads is written out in the source: the modules that make screens and the dossier take every one from
//! the Fluent files.

#![allow(clippy::unwrap_used)]

mod common;

use std::path::Path;

use common::sources;
use proc_macro2::{TokenStream, TokenTree};
use syn::visit::Visit;
use syn::{Attribute, LitStr, Macro};

/// Where screens and pages are made, and what hands them their reasons.
const SPEAKING: [&str; 10] =
    ["view", "drawing", "form", "app", "computed", "dossier", "paper", "field", "readiness", "aircraft"];

/// Texts that look like words and are none for a person, each with the reason.
const NO_WORDS: [(&str, &str); 11] = [
    ("%H:%M:%S %:z", "a form of the time"),
    ("%Y-%m-%d %H:%M %:z", "a form of the time"),
    ("<svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\">", "a drawing's own language"),
    (" filled", "a drawing's own language"),
    (" stroke-dasharray=\"4 4\"", "a drawing's own language"),
    ("<{tag} class=\"{}{fill}\" stroke-width=\"{}\"{dash} points=\"{}\"/>", "a drawing's own language"),
    (
        "<text class=\"{}\" x=\"{:.1}\" y=\"{:.1}\" font-size=\"{size}\" text-anchor=\"{anchor}\">{}</text>",
        "a drawing's own language",
    ),
    ("English", "a language is written in itself"),
    ("Deutsch", "a language is written in itself"),
    ("The pilot", "what the journal has for a spotter where nobody else was there: compared with, never shown"),
    ("the shipped plan", "a file's name in the faults of a plan that the tests prove to have none"),
];

/// Macros whose texts nobody but a developer reads, and the one that takes them from the files.
const NOT_SHOWN: [&str; 8] =
    ["say", "assert", "assert_eq", "debug_assert", "debug_assert_eq", "panic", "unreachable", "include_str"];

struct Texts {
    file: String,
    found: Vec<(String, String)>,
}

impl Texts {
    fn take(&mut self, literal: &LitStr) {
        let text = literal.value();
        if is_sentence(&text) {
            self.found.push((format!("{}:{}", self.file, literal.span().start().line), text));
        }
    }

    /// A macro's arguments are no syntax until it is expanded: what stands in them is looked through as tokens.
    fn tokens(&mut self, tokens: TokenStream) {
        let mut before: Option<String> = None;
        let mut called = false;
        for token in tokens {
            match token {
                TokenTree::Group(group) => {
                    let shown = !(called && before.as_deref().is_some_and(|name| NOT_SHOWN.contains(&name)));
                    if shown {
                        self.tokens(group.stream());
                    }
                    (before, called) = (None, false);
                }
                TokenTree::Ident(name) => (before, called) = (Some(name.to_string()), false),
                TokenTree::Punct(mark) => {
                    called = mark.as_char() == '!' && before.is_some();
                    if !called {
                        before = None;
                    }
                }
                TokenTree::Literal(literal) => {
                    if let Ok(literal) = syn::parse2::<LitStr>(TokenTree::from(literal).into()) {
                        self.take(&literal);
                    }
                    (before, called) = (None, false);
                }
            }
        }
    }
}

impl<'ast> Visit<'ast> for Texts {
    fn visit_lit_str(&mut self, literal: &'ast LitStr) {
        self.take(literal);
    }

    fn visit_macro(&mut self, of: &'ast Macro) {
        let name = of.path.segments.last().map(|segment| segment.ident.to_string()).unwrap_or_default();
        if !NOT_SHOWN.contains(&name.as_str()) {
            self.tokens(of.tokens.clone());
        }
    }

    // What is compared with is not shown.
    fn visit_pat(&mut self, pattern: &'ast syn::Pat) {
        if !matches!(pattern, syn::Pat::Lit(_)) {
            syn::visit::visit_pat(self, pattern);
        }
    }

    // Documentation is an attribute, and a form's name in the journal another.
    fn visit_attribute(&mut self, _: &'ast Attribute) {}

    fn visit_item_mod(&mut self, module: &'ast syn::ItemMod) {
        if !is_test(&module.attrs) {
            syn::visit::visit_item_mod(self, module);
        }
    }
}

fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg") && attribute.parse_args::<syn::Ident>().is_ok_and(|of| of == "test")
    })
}

/// Two words with a blank between them, or one word that begins as a sentence does. What stands in `{ }` is put in later.
fn is_sentence(text: &str) -> bool {
    let mut written = String::new();
    let mut depth = 0_usize;
    for letter in text.chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ if depth == 0 => written.push(letter),
            _ => {}
        }
    }
    let is_word = |word: &&str| word.chars().filter(|letter| letter.is_alphabetic()).count() >= 2;
    let words: Vec<&str> = written.split_whitespace().filter(is_word).collect();
    let begins = |word: &&str| {
        let mut letters = word.chars();
        letters.next().is_some_and(char::is_uppercase) && letters.all(char::is_lowercase)
    };
    let apart = !words.is_empty() && written.contains(' ');
    apart || words.first().is_some_and(begins)
}

fn texts_of(file: &str, source: &str) -> Vec<(String, String)> {
    let mut texts = Texts { file: file.to_owned(), found: Vec::new() };
    texts.visit_file(&syn::parse_file(source).unwrap());
    texts.found
}

#[test]
fn no_sentence_for_a_person_is_written_out_in_the_source() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    SPEAKING.iter().for_each(|folder| sources(&root.join(folder), &mut files));
    assert!(files.len() > 50, "{} files only", files.len());
    let mut found = Vec::new();
    for file in files {
        let name = file.strip_prefix(&root).unwrap().display().to_string();
        found.extend(texts_of(&name, &std::fs::read_to_string(&file).unwrap()));
    }
    let written: Vec<String> = found
        .iter()
        .filter(|(_, text)| NO_WORDS.iter().all(|(allowed, _)| allowed != text))
        .map(|(place, text)| format!("{place}: {text:?}"))
        .collect();
    assert!(written.is_empty(), "say these through the Fluent files:\n{}", written.join("\n"));
    for (allowed, why) in NO_WORDS {
        assert!(found.iter().any(|(_, text)| text == allowed), "{allowed:?} ({why}) is there no more");
    }
}

#[test]
fn the_search_finds_what_is_written_out_and_passes_over_what_is_not() {
    let source = r#"
        /// Some words about it.
        #[doc = "Words in an attribute"]
        fn said(locale: Locale) -> Vec<String> {
            debug_assert!(true, "for a developer only");
            let key = "board-more";
            match key { "a name compared with" => 1, _ => 2 };
            let spaced = format!("{} {}", 1, 2);
            vec![
                "Written out".to_owned(),
                format!("{} flights", 3),
                say!(locale, "of-files", word = "no matter what"),
                format!("{}", say!(locale, "of-files")),
                "Alone".to_owned(),
            ]
        }
        #[cfg(test)]
        mod tests {
            const EXPECTED: &str = "what a test expects";
        }
    "#;
    let found: Vec<String> = texts_of("made.rs", source).into_iter().map(|(_, text)| text).collect();
    assert_eq!(found, ["Written out", "{} flights", "Alone"]);
}
