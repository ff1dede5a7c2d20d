//! The words: every text that the source asks for is there in every language, with the variables that it is given, and no
//! text is there that nobody asks for.

#![allow(clippy::unwrap_used)]

mod common;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use common::sources;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};

type Texts = BTreeMap<String, BTreeSet<String>>;

fn core() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The keys of a language, each with the variables in its text.
fn texts(language: &str) -> Texts {
    let mut texts = Texts::new();
    for entry in std::fs::read_dir(core().join("locale").join(language)).unwrap() {
        let path = entry.unwrap().path();
        let source = std::fs::read_to_string(&path).unwrap();
        let resource = fluent_syntax::parser::parse(source.as_str())
            .unwrap_or_else(|(_, faults)| panic!("{}: {faults:?}", path.display()));
        for entry in resource.body {
            match entry {
                Entry::Message(message) => {
                    assert!(message.attributes.is_empty(), "{}: attributes are not read", message.id.name);
                    let mut variables = BTreeSet::new();
                    pattern(message.value.as_ref().unwrap(), &mut variables);
                    let known = texts.insert(message.id.name.to_owned(), variables);
                    assert!(known.is_none(), "'{}' is there twice in {language}", message.id.name);
                }
                Entry::Junk { content } => panic!("{}: {content}", path.display()),
                Entry::Term(term) => panic!("{}: terms are not read: {}", path.display(), term.id.name),
                _ => {}
            }
        }
    }
    texts
}

fn pattern(of: &Pattern<&str>, variables: &mut BTreeSet<String>) {
    for element in &of.elements {
        let PatternElement::Placeable { expression } = element else { continue };
        match expression {
            Expression::Inline(inline) => inline_variables(inline, variables),
            Expression::Select { selector, variants } => {
                inline_variables(selector, variables);
                variants.iter().for_each(|variant| pattern(&variant.value, variables));
            }
        }
    }
}

fn inline_variables(of: &InlineExpression<&str>, variables: &mut BTreeSet<String>) {
    match of {
        InlineExpression::VariableReference { id } => {
            variables.insert(id.name.to_owned());
        }
        InlineExpression::StringLiteral { .. } | InlineExpression::NumberLiteral { .. } => {}
        other => panic!("only variables are put in: {other:?}"),
    }
}

/// One `say!` of the source: where, its key, the names that it gives.
struct Said {
    place: String,
    key: String,
    names: BTreeSet<String>,
}

fn said() -> Vec<Said> {
    let mut files = Vec::new();
    sources(&core().join("src"), &mut files);
    let mut said = Vec::new();
    for file in files {
        let source = std::fs::read_to_string(&file).unwrap();
        let code: Vec<&str> = source.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
        let code = code.join("\n");
        for (at, _) in code.match_indices("say!(") {
            let arguments = arguments(&code[at + "say!(".len()..]);
            let key = arguments.get(1).unwrap_or(&"").trim();
            // The macro's own definition has no key written out.
            let Some(key) = key.strip_prefix('"').and_then(|key| key.strip_suffix('"')) else { continue };
            let named = arguments[2..].iter().filter(|argument| !argument.trim().is_empty());
            let names = named.map(|argument| argument.split_once('=').unwrap().0.trim().to_owned()).collect();
            said.push(Said { place: file.display().to_string(), key: key.to_owned(), names });
        }
    }
    said
}

/// The arguments of a call, from behind its opening bracket.
fn arguments(code: &str) -> Vec<&str> {
    let (mut depth, mut start, mut quoted, mut escaped) = (0, 0, false, false);
    let mut found = Vec::new();
    for (at, letter) in code.char_indices() {
        if quoted {
            quoted = escaped || letter != '"';
            escaped = letter == '\\' && !escaped;
            continue;
        }
        match letter {
            '"' => quoted = true,
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' if depth == 0 => {
                found.push(&code[start..at]);
                return found;
            }
            ')' | ']' | '}' => depth -= 1,
            ',' if depth == 0 => {
                found.push(&code[start..at]);
                start = at + 1;
            }
            _ => {}
        }
    }
    panic!("a call without an end: {}", &code[..code.len().min(80)]);
}

/// Keys that no `say!` names: those of a thing's fields stand in the table of its fields, and a quantity's is made of its English
/// name, which the engineering functions give to what they check.
fn tabled() -> BTreeSet<String> {
    let things = std::fs::read_to_string(core().join("src/record/thing.rs")).unwrap();
    let fields = things.split('"').filter(|text| text.starts_with("field-")).map(str::to_owned);
    let mut files = Vec::new();
    sources(&core().join("src/engineering"), &mut files);
    let mut quantities = BTreeSet::new();
    for file in files {
        let source = std::fs::read_to_string(file).unwrap();
        for call in ["within(", "count("] {
            for (at, _) in source.match_indices(call) {
                let Some(name) = source[at + call.len()..].trim_start().strip_prefix('"') else { continue };
                let name = name.split('"').next().unwrap();
                let words: Vec<&str> =
                    name.split(|c: char| !c.is_ascii_alphanumeric()).filter(|w| !w.is_empty()).collect();
                quantities.insert(format!("quantity-{}", words.join("-").to_ascii_lowercase()));
            }
        }
    }
    assert!(quantities.len() > 100, "the search found {} quantities only", quantities.len());
    fields.chain(quantities).collect()
}

#[test]
fn both_languages_have_the_same_texts_with_the_same_variables() {
    let (english, german) = (texts("en"), texts("de"));
    let keys = |texts: &Texts| texts.keys().cloned().collect::<BTreeSet<_>>();
    let odd: Vec<String> = keys(&english).symmetric_difference(&keys(&german)).cloned().collect();
    assert!(odd.is_empty(), "in one language only: {odd:?}");
    for (key, variables) in &english {
        assert_eq!(variables, &german[key], "the variables of '{key}'");
    }
}

#[test]
fn the_source_asks_for_every_text_and_for_no_other_and_gives_it_what_it_names() {
    let english = texts("en");
    let said = said();
    assert!(said.len() > 100, "the search through the source found {} only", said.len());
    for said in &said {
        let variables = english.get(&said.key);
        let variables = variables.unwrap_or_else(|| panic!("{}: no text for '{}'", said.place, said.key));
        assert_eq!(&said.names, variables, "{}: what '{}' is given", said.place, said.key);
    }
    let tabled = tabled();
    for key in &tabled {
        assert!(english.get(key).is_some_and(BTreeSet::is_empty), "no text for '{key}'");
    }
    let asked: BTreeSet<&String> = said.iter().map(|said| &said.key).chain(&tabled).collect();
    let unused: Vec<&String> = english.keys().filter(|key| !asked.contains(key)).collect();
    assert!(unused.is_empty(), "nobody asks for {unused:?}");
}

#[test]
fn no_text_is_english_in_the_german_files_by_oversight() {
    let read = |language: &str| {
        let mut lines = BTreeMap::new();
        for entry in std::fs::read_dir(core().join("locale").join(language)).unwrap() {
            let text = std::fs::read_to_string(entry.unwrap().path()).unwrap();
            for line in text.lines() {
                if let Some((key, value)) = line.split_once(" = ") {
                    lines.insert(key.to_owned(), value.to_owned());
                }
            }
        }
        lines
    };
    let (english, german) = (read("en"), read("de"));
    // The same in both languages, as the trade writes them.
    let same = [
        "Pilot",
        "Journal",
        "Motor",
        "Servo",
        "Name",
        "Position",
        "Start",
        "Plan",
        "Code",
        "Test",
        "Drift",
        "Alarm",
        "Celsius",
        "Fahrenheit",
        "Wind",
    ];
    let words = |text: &str| {
        let without =
            text.split('{').map(|part| part.split_once('}').map_or(part, |(_, rest)| rest)).collect::<String>();
        without.split(|c: char| !c.is_alphabetic()).filter(|word| word.len() > 3 && !same.contains(word)).count()
    };
    for (key, text) in &english {
        let suspicious = german.get(key) == Some(text) && words(text) > 0 && !key.starts_with("unit-");
        assert!(!suspicious, "'{key}' is the same in both languages: {text}");
    }
}

/// German is quoted „so“ and never “so” or "so": the marks of the file's own syntax stand in braces.
#[test]
fn german_has_its_own_quotation_marks() {
    let mut wrong = Vec::new();
    for entry in std::fs::read_dir(core().join("locale/de")).unwrap() {
        let path = entry.unwrap().path();
        let source = std::fs::read_to_string(&path).unwrap();
        let resource = fluent_syntax::parser::parse(source.as_str()).unwrap();
        for entry in resource.body {
            let Entry::Message(message) = entry else { continue };
            let mut words = String::new();
            plain_text(message.value.as_ref().unwrap(), &mut words);
            let (open, closed) = (words.matches('„').count(), words.matches('“').count());
            if open != closed || words.contains('”') || (words.contains('"') && !words.contains(" = ")) {
                wrong.push(format!("{}: {words}", message.id.name));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

fn plain_text(of: &Pattern<&str>, words: &mut String) {
    for element in &of.elements {
        match element {
            PatternElement::TextElement { value } => words.push_str(value),
            PatternElement::Placeable { expression: Expression::Select { variants, .. } } => {
                variants.iter().for_each(|variant| plain_text(&variant.value, words));
            }
            PatternElement::Placeable { .. } => {}
        }
    }
}
