use std::sync::OnceLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use super::{Language, Locale};

/// One file of words for each area, in each language.
macro_rules! files {
    ($language:literal) => {
        &[
            include_str!(concat!("../../locale/", $language, "/aircraft.ftl")),
            include_str!(concat!("../../locale/", $language, "/backup.ftl")),
            include_str!(concat!("../../locale/", $language, "/board.ftl")),
            include_str!(concat!("../../locale/", $language, "/card.ftl")),
            include_str!(concat!("../../locale/", $language, "/check.ftl")),
            include_str!(concat!("../../locale/", $language, "/code.ftl")),
            include_str!(concat!("../../locale/", $language, "/common.ftl")),
            include_str!(concat!("../../locale/", $language, "/computed.ftl")),
            include_str!(concat!("../../locale/", $language, "/app.ftl")),
            include_str!(concat!("../../locale/", $language, "/damaged.ftl")),
            include_str!(concat!("../../locale/", $language, "/dossier.ftl")),
            include_str!(concat!("../../locale/", $language, "/emergency.ftl")),
            include_str!(concat!("../../locale/", $language, "/engineering.ftl")),
            include_str!(concat!("../../locale/", $language, "/errors.ftl")),
            include_str!(concat!("../../locale/", $language, "/events.ftl")),
            include_str!(concat!("../../locale/", $language, "/findings.ftl")),
            include_str!(concat!("../../locale/", $language, "/hotter.ftl")),
            include_str!(concat!("../../locale/", $language, "/hangar.ftl")),
            include_str!(concat!("../../locale/", $language, "/journal.ftl")),
            include_str!(concat!("../../locale/", $language, "/landing.ftl")),
            include_str!(concat!("../../locale/", $language, "/ledger.ftl")),
            include_str!(concat!("../../locale/", $language, "/log.ftl")),
            include_str!(concat!("../../locale/", $language, "/packs.ftl")),
            include_str!(concat!("../../locale/", $language, "/paper.ftl")),
            include_str!(concat!("../../locale/", $language, "/photo.ftl")),
            include_str!(concat!("../../locale/", $language, "/plan.ftl")),
            include_str!(concat!("../../locale/", $language, "/preference.ftl")),
            include_str!(concat!("../../locale/", $language, "/quantities.ftl")),
            include_str!(concat!("../../locale/", $language, "/reading.ftl")),
            include_str!(concat!("../../locale/", $language, "/record.ftl")),
            include_str!(concat!("../../locale/", $language, "/spotter.ftl")),
            include_str!(concat!("../../locale/", $language, "/tables.ftl")),
            include_str!(concat!("../../locale/", $language, "/told.ftl")),
            include_str!(concat!("../../locale/", $language, "/units.ftl")),
            include_str!(concat!("../../locale/", $language, "/way.ftl")),
            include_str!(concat!("../../locale/", $language, "/words.ftl")),
        ]
    };
}

const ENGLISH: &[&str] = files!("en");
const GERMAN: &[&str] = files!("de");

/// Says a text of the Fluent files: `say!(locale, "board-more", count = rest)`. A key is written out, so that a test can
/// hold the source against the files; a number with digits behind its mark goes through [`Locale::number`] first.
macro_rules! say {
    ($locale:expr, $key:literal $(,)?) => {
        $locale.text($key, &[])
    };
    ($locale:expr, $key:literal, $($name:ident = $value:expr),+ $(,)?) => {
        $locale.text($key, &[$((stringify!($name), $crate::locale::Worded::word(&$value))),+])
    };
}
pub(crate) use say;

/// What stands for a variable of a text: words, or a count that the text may choose its form by.
#[derive(Debug, Clone)]
pub enum Word {
    /// Words, as they are.
    Text(String),
    /// A whole number.
    Count(i64),
}

/// What can stand for a variable. A number with digits behind its mark cannot: it has to be shown by a locale first.
pub trait Worded {
    /// As it is put in.
    fn word(&self) -> Word;
}

impl Worded for str {
    fn word(&self) -> Word {
        Word::Text(self.to_owned())
    }
}

impl Worded for String {
    fn word(&self) -> Word {
        Word::Text(self.clone())
    }
}

impl<T: Worded + ?Sized> Worded for &T {
    fn word(&self) -> Word {
        (**self).word()
    }
}

macro_rules! counts {
    ($($whole:ty),+) => {
        $(impl Worded for $whole {
            fn word(&self) -> Word {
                Word::Count(i64::try_from(*self).unwrap_or(i64::MAX))
            }
        })+
    };
}

counts!(i32, i64, u8, u16, u32, u64, usize);

impl Locale {
    /// The text of a key with its variables put in. A key that is not there comes back as it is: a test keeps that from
    /// happening, and a person at the field is better served by a strange word than by a closed app.
    pub(crate) fn text(self, key: &str, words: &[(&str, Word)]) -> String {
        let bundle = bundle(self.language);
        let Some(pattern) = bundle.get_message(key).and_then(|message| message.value()) else {
            debug_assert!(false, "no text for '{key}' in {:?}", self.language);
            return key.to_owned();
        };
        let mut args = FluentArgs::with_capacity(words.len());
        for (name, word) in words {
            let value = match word {
                Word::Text(text) => FluentValue::from(text.as_str()),
                Word::Count(count) => FluentValue::from(*count),
            };
            args.set(*name, value);
        }
        let mut errors = Vec::new();
        let text = bundle.format_pattern(pattern, Some(&args), &mut errors).into_owned();
        debug_assert!(errors.is_empty(), "'{key}' in {:?}: {errors:?}", self.language);
        text
    }

    /// A title within a sentence: English writes it small, German keeps its nouns.
    pub(crate) fn inside(self, title: &str) -> String {
        match self.language {
            Language::English => title.to_lowercase(),
            Language::German => title.to_owned(),
        }
    }

    /// The same for a text whose first letter alone is large because it stands first.
    pub(crate) fn lower_first(self, text: &str) -> String {
        match self.language {
            Language::English => {
                let mut letters = text.chars();
                letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
            }
            Language::German => text.to_owned(),
        }
    }
}

fn bundle(language: Language) -> &'static FluentBundle<FluentResource> {
    static BUNDLES: [OnceLock<FluentBundle<FluentResource>>; 2] = [OnceLock::new(), OnceLock::new()];
    let (slot, files) = match language {
        Language::English => (&BUNDLES[0], ENGLISH),
        Language::German => (&BUNDLES[1], GERMAN),
    };
    slot.get_or_init(|| read(language.tag().parse().unwrap_or_default(), files))
}

fn read(tag: LanguageIdentifier, files: &[&str]) -> FluentBundle<FluentResource> {
    let mut bundle = FluentBundle::new_concurrent(vec![tag]);
    // Screen readers and the drawn width trip over invisible marks around every variable; both languages run one way.
    bundle.set_use_isolating(false);
    for file in files {
        // What is readable of a faulty file is taken; the test over the files refuses any fault.
        let resource = FluentResource::try_new((*file).to_owned()).unwrap_or_else(|(readable, faults)| {
            debug_assert!(false, "{faults:?}");
            readable
        });
        let doubled = bundle.add_resource(resource);
        debug_assert!(doubled.is_ok(), "{doubled:?}");
    }
    bundle
}

/// With a capital letter in front.
pub(crate) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
