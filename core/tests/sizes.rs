//! No function is longer than a person takes in at a look: sixty lines from its `fn` to its closing brace. Tables that have one arm a kind
//! are named here, each with its reason.

#![allow(clippy::unwrap_used)]

mod common;

use std::path::Path;

use common::sources;
use quote::ToTokens;
use syn::spanned::Spanned;
use syn::visit::Visit;

/// Lines of the longest function.
const LONGEST: usize = 60;

/// Functions that are tables, by file and name, each with the reason why it may be longer.
const TABLES: [(&str, &str, &str); 2] = [
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

#[test]
fn no_function_is_longer_than_sixty_lines() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let mut files = Vec::new();
    sources(&root.join("core/src"), &mut files);
    sources(&root.join("bindings/src"), &mut files);
    let long: Vec<Long> = files
        .iter()
        .flat_map(|path| {
            let name = path.strip_prefix(&root).unwrap().to_str().unwrap();
            long_in(name, &std::fs::read_to_string(path).unwrap())
        })
        .collect();
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
