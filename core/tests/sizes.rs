//! No function is longer than a person takes in at a look: sixty lines from its `fn` to its closing brace, in Rust and in the shell's
//! Kotlin. Tables that have one arm a kind are named here, each with its reason.

#![allow(clippy::unwrap_used)]

mod common;
#[path = "common/kotlin.rs"]
mod kotlin;

use std::path::Path;

use common::{files_ending, sources};
use quote::ToTokens;
use syn::spanned::Spanned;
use syn::visit::Visit;

/// Lines of the longest function.
const LONGEST: usize = 60;

/// Functions that are tables, by file and name, each with the reason why it may be longer.
const TABLES: [(&str, &str, &str); 3] = [
    ("core/src/record/thing_number.rs", "as_str", "one arm a number, with the id that is stored"),
    ("core/src/computed/refused.rs", "words", "one arm an error of engineering, and nothing else"),
    (
        "core/src/view/words.rs",
        "entry_words",
        "one arm a kind of entry: a new kind does not compile before it has its words",
    ),
];

/// A function and how long it is.
#[derive(Debug, PartialEq)]
struct Long {
    file: String,
    function: String,
    lines: usize,
}

struct Lengths {
    file: String,
    found: Vec<Long>,
}

impl Lengths {
    fn take(&mut self, signature: &syn::Signature, body: &syn::Block) {
        let lines = body.span().end().line - signature.span().start().line + 1;
        if lines > LONGEST {
            self.found.push(Long { file: self.file.clone(), function: signature.ident.to_string(), lines });
        }
    }
}

impl Visit<'_> for Lengths {
    fn visit_item_fn(&mut self, function: &syn::ItemFn) {
        self.take(&function.sig, &function.block);
        syn::visit::visit_item_fn(self, function);
    }

    fn visit_impl_item_fn(&mut self, function: &syn::ImplItemFn) {
        self.take(&function.sig, &function.block);
        syn::visit::visit_impl_item_fn(self, function);
    }

    fn visit_trait_item_fn(&mut self, function: &syn::TraitItemFn) {
        if let Some(body) = &function.default {
            self.take(&function.sig, body);
        }
        syn::visit::visit_trait_item_fn(self, function);
    }

    fn visit_item_mod(&mut self, module: &syn::ItemMod) {
        // Tests inside a file tell a story from top to bottom.
        let is_test = module.attrs.iter().any(|attr| attr.meta.to_token_stream().to_string() == "cfg (test)");
        if !is_test {
            syn::visit::visit_item_mod(self, module);
        }
    }
}

fn long_in(file: &str, text: &str) -> Vec<Long> {
    let mut lengths = Lengths { file: file.to_owned(), found: Vec::new() };
    lengths.visit_file(&syn::parse_file(text).unwrap());
    lengths.found
}

fn long_in_kotlin(file: &str, text: &str) -> Vec<Long> {
    let all = kotlin::functions(text).into_iter().filter(|(_, lines)| *lines > LONGEST);
    all.map(|(function, lines)| Long { file: file.to_owned(), function, lines }).collect()
}

#[test]
fn no_function_is_longer_than_sixty_lines() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut files = Vec::new();
    sources(&root.join("core/src"), &mut files);
    sources(&root.join("bindings/src"), &mut files);
    let named = |path: &Path| {
        let name = path.strip_prefix(&root).unwrap().to_str().unwrap().to_owned();
        (name, std::fs::read_to_string(path).unwrap())
    };
    let read = files.iter().map(|path| named(path));
    let mut long: Vec<Long> = read.flat_map(|(name, text)| long_in(&name, &text)).collect();
    let mut files = Vec::new();
    files_ending(&root.join("android-shell/src/main"), "kt", &mut files);
    files_ending(&root.join("android-shell/src/desk"), "kt", &mut files);
    let read: Vec<_> = files.iter().map(|path| named(path)).collect();
    let counted: usize = read.iter().map(|(_, text)| kotlin::functions(text).len()).sum();
    assert!(counted > read.len(), "{counted} functions in {} files: they are not found", read.len());
    long.extend(read.iter().flat_map(|(name, text)| long_in_kotlin(name, text)));
    let is_table = |long: &Long, table: &(&str, &str, &str)| long.file == table.0 && long.function == table.1;
    let too_long: Vec<String> = long
        .iter()
        .filter(|long| !TABLES.iter().any(|table| is_table(long, table)))
        .map(|long| format!("{}: {} has {} lines", long.file, long.function, long.lines))
        .collect();
    assert!(too_long.is_empty(), "longer than {LONGEST} lines:\n{}", too_long.join("\n"));
    for table in TABLES {
        assert!(long.iter().any(|long| is_table(long, &table)), "{} of {} needs no exception", table.1, table.0);
    }
}

/// The measure itself: a function, a method and a trait's own body over the limit are found, one at the limit and a test are not.
#[test]
fn a_long_function_is_found() {
    // Between the line of its `fn` and the one of its closing brace.
    let body = |lines: usize| "    let _ = 1;\n".repeat(lines - 2);
    let at_limit = format!("fn whole() {{\n{}}}\n", body(LONGEST));
    assert_eq!(long_in("a.rs", &at_limit), []);
    let over = body(LONGEST + 1);
    let text = format!(
        "/// What it does.\n#[inline]\nfn alone() {{\n{over}}}\nimpl Of {{ fn method() {{\n{over}}} }}\n\
         trait That {{ fn given() {{\n{over}}} }}\n#[cfg(test)]\nmod tests {{ fn story() {{\n{over}}} }}\n"
    );
    let found = ["alone", "method", "given"];
    let found = found.map(|name| Long { file: "a.rs".to_owned(), function: name.to_owned(), lines: LONGEST + 1 });
    assert_eq!(long_in("a.rs", &text), found);
}

/// The same for Kotlin: what is over the limit is found, and words that look like code are none.
#[test]
fn a_long_kotlin_function_is_found() {
    let body = |lines: usize| "        one()\n".repeat(lines - 2);
    let over = body(LONGEST + 1);
    let at_limit = format!("class A {{\n    fun whole() {{\n{}    }}\n}}\n", body(LONGEST));
    assert_eq!(long_in_kotlin("a.kt", &at_limit), []);
    let text = format!(
        "class A {{\n    init {{\n{over}    }}\n    val b: Int\n        get() {{\n{over}        }}\n\
         \x20   override fun <T> List<T>.alone(with: (Int) -> Unit = {{}}): Map<T, (Int) -> T>? {{\n{over}    }}\n\
         \x20   fun held() = listOf(\n{over}    )\n    private val other = 1\n}}\n"
    );
    let found = ["init", "get", "alone", "held"];
    let found = found.map(|name| Long { file: "a.kt".to_owned(), function: name.to_owned(), lines: LONGEST + 1 });
    assert_eq!(long_in_kotlin("a.kt", &text), found);
}

#[test]
fn braces_in_kotlin_words_end_no_function() {
    let text = r#####"
interface Of { fun abstract(): Int
    fun given() = 3 }
/* fun no() { /* } */ */
fun interface Done { fun done(how: String) }
fun one(): String {
    // }
    val brace = '}' + "}" + '\'' + "\"}" + "${ "}" + two { "}" } }" + """ } " } """"
    return brace
}
fun two(of: () -> String) =
    // }
    of()
        .trim()

val after = 1
"#####;
    let named = |name: &str, lines: usize| (name.to_owned(), lines);
    assert_eq!(kotlin::functions(text), [named("given", 1), named("one", 5), named("two", 4)]);
}
