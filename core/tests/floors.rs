//! The floors of the core: a module knows only those below it, and no files need each other in a circle.
//!
//! The imports are read from the source: every path that begins at the crate, at a module above or at one beside is followed to the
//! file that defines what it names, through re-exports too; the crate's root stands above all floors. A method that is called on a value
//! is no path: what only such a call needs is not seen, but the value's type has to come from somewhere, which mostly is.

#![allow(clippy::unwrap_used)]

mod common;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use common::sources;
use proc_macro2::{TokenStream, TokenTree};
use quote::ToTokens;
use syn::visit::Visit;
use syn::{Item, ItemUse, UseTree};

/// The modules of the core from the ground up. A module may use what stands on a line before its own.
const FLOORS: [&str; 19] = [
    "unit",
    "locale",
    "drawing",
    "engineering",
    "instrument",
    "telemetry",
    "photo",
    "record",
    "journal",
    "plan",
    "aircraft",
    "field",
    "readiness",
    "tables",
    "computed",
    "form",
    "view",
    "dossier",
    "paper",
];
/// The top floor, which may use all of them.
const TOP: &str = "app";

/// A module's path from the crate's root, as `["computed", "heat"]`.
type Module = Vec<String>;

/// A module as it is written in an arrow.
fn named(module: &[String]) -> String {
    if module.is_empty() { "the crate's root".to_owned() } else { module.join("::") }
}

/// What a file says about names.
#[derive(Default)]
struct Source {
    /// What it defines at its top: types, functions, constants, macros.
    defines: BTreeSet<String>,
    /// Re-exports and imports: the name here, and the path that it stands for.
    names: BTreeMap<String, Vec<String>>,
    /// Paths of which everything is imported.
    globs: Vec<Vec<String>>,
    /// Every path that is written in it.
    paths: BTreeSet<Vec<String>>,
}

#[derive(Default)]
struct Reader {
    source: Source,
}

impl Reader {
    fn take_tree(&mut self, before: &[String], tree: &UseTree) {
        match tree {
            UseTree::Path(path) => {
                let mut longer = before.to_vec();
                longer.push(path.ident.to_string());
                self.take_tree(&longer, &path.tree);
            }
            UseTree::Name(name) => self.take_name(before, &name.ident.to_string(), &name.ident.to_string()),
            UseTree::Rename(rename) => {
                self.take_name(before, &rename.ident.to_string(), &rename.rename.to_string());
            }
            UseTree::Glob(_) => {
                self.source.globs.push(before.to_vec());
                self.source.paths.insert(before.to_vec());
            }
            UseTree::Group(group) => group.items.iter().for_each(|tree| self.take_tree(before, tree)),
        }
    }

    fn take_name(&mut self, before: &[String], name: &str, here: &str) {
        let mut path = before.to_vec();
        if name != "self" {
            path.push(name.to_owned());
        }
        let here = if here == "self" { path.last().cloned().unwrap_or_default() } else { here.to_owned() };
        self.source.names.insert(here, path.clone());
        self.source.paths.insert(path);
    }

    /// A macro's arguments are no syntax until it is expanded: paths in them are read as tokens.
    fn take_tokens(&mut self, tokens: TokenStream) {
        let mut path: Vec<String> = Vec::new();
        let mut colons = 0;
        for token in tokens {
            match token {
                TokenTree::Ident(ident) => {
                    if colons != 2 {
                        self.finish(&mut path);
                    }
                    path.push(ident.to_string());
                    colons = 0;
                }
                TokenTree::Punct(punct) if punct.as_char() == ':' => colons += 1,
                TokenTree::Group(group) => {
                    self.finish(&mut path);
                    self.take_tokens(group.stream());
                }
                _ => {
                    self.finish(&mut path);
                    colons = 0;
                }
            }
        }
        self.finish(&mut path);
    }

    fn finish(&mut self, path: &mut Vec<String>) {
        if !path.is_empty() {
            self.source.paths.insert(std::mem::take(path));
        }
    }
}

impl Visit<'_> for Reader {
    fn visit_item_use(&mut self, item: &ItemUse) {
        self.take_tree(&[], &item.tree);
    }

    fn visit_path(&mut self, path: &syn::Path) {
        let segments = path.segments.iter().map(|segment| segment.ident.to_string()).collect();
        self.source.paths.insert(segments);
        syn::visit::visit_path(self, path);
    }

    /// Who may see something is no need of it.
    fn visit_vis_restricted(&mut self, _: &syn::VisRestricted) {}

    fn visit_macro(&mut self, called: &syn::Macro) {
        self.visit_path(&called.path);
        self.take_tokens(called.tokens.clone());
    }

    fn visit_item_mod(&mut self, module: &syn::ItemMod) {
        // Tests inside a file may look anywhere.
        let is_test = module.attrs.iter().any(|attr| attr.meta.to_token_stream().to_string().contains("test"));
        if !is_test {
            syn::visit::visit_item_mod(self, module);
        }
    }
}

fn defined(item: &Item) -> Option<String> {
    Some(match item {
        Item::Const(item) => item.ident.to_string(),
        Item::Enum(item) => item.ident.to_string(),
        Item::Fn(item) => item.sig.ident.to_string(),
        Item::Static(item) => item.ident.to_string(),
        Item::Struct(item) => item.ident.to_string(),
        Item::Trait(item) => item.ident.to_string(),
        Item::Type(item) => item.ident.to_string(),
        Item::Macro(item) => item.ident.as_ref()?.to_string(),
        _ => return None,
    })
}

fn read(text: &str) -> Source {
    let file = syn::parse_file(text).unwrap();
    let mut reader = Reader::default();
    reader.source.defines = file.items.iter().filter_map(defined).collect();
    reader.visit_file(&file);
    reader.source
}

/// All files of a crate, by module.
struct Crate(BTreeMap<Module, Source>);

impl Crate {
    fn of(root: &Path) -> Crate {
        let mut files = Vec::new();
        sources(root, &mut files);
        let module = |path: &Path| -> Module {
            let inside = path.strip_prefix(root).unwrap().with_extension("");
            let mut parts: Module = inside.iter().map(|part| part.to_str().unwrap().to_owned()).collect();
            if matches!(parts.last().map(String::as_str), Some("mod" | "lib")) {
                parts.pop();
            }
            parts
        };
        Crate(files.iter().map(|path| (module(path), read(&std::fs::read_to_string(path).unwrap()))).collect())
    }

    /// The module whose file defines what a path names that is written in the file of module `at`; none outside of the crate.
    fn home(&self, at: &[String], path: &[String], depth: usize) -> Option<Module> {
        if depth > 16 {
            return None;
        }
        let (first, rest) = path.split_first()?;
        let start: Module = match first.as_str() {
            "crate" => Vec::new(),
            "self" => at.to_vec(),
            "super" => at[..at.len().checked_sub(1)?].to_vec(),
            // A name of this file: an import, or a child.
            _ => return self.named(at, first, rest, depth),
        };
        self.walk(&start, rest, depth)
    }

    fn walk(&self, start: &[String], path: &[String], depth: usize) -> Option<Module> {
        match path.split_first() {
            None => Some(start.to_vec()),
            Some((first, rest)) if first == "super" => self.walk(&start[..start.len().checked_sub(1)?], rest, depth),
            Some((first, rest)) => self.named(start, first, rest, depth),
        }
    }

    /// What `name` is in the file of module `at`, and what `rest` is in that.
    fn named(&self, at: &[String], name: &str, rest: &[String], depth: usize) -> Option<Module> {
        let source = self.0.get(at)?;
        let mut child = at.to_vec();
        child.push(name.to_owned());
        if self.0.contains_key(&child) {
            return self.walk(&child, rest, depth + 1);
        }
        if source.defines.contains(name) {
            return Some(at.to_vec());
        }
        if let Some(path) =
            source.names.get(name).filter(|path| path.first().is_some_and(|first| first != name || path.len() > 1))
        {
            let longer: Vec<String> = path.iter().chain(rest).cloned().collect();
            return self.home(at, &longer, depth + 1);
        }
        let within = |glob: &Vec<String>| {
            let module = self.home(at, glob, depth + 1)?;
            self.named(&module, name, rest, depth + 1)
        };
        source.globs.iter().find_map(within)
    }

    /// Which module's file needs which other's.
    fn arrows(&self) -> BTreeMap<Module, BTreeSet<Module>> {
        let mut arrows: BTreeMap<Module, BTreeSet<Module>> = BTreeMap::new();
        for (module, source) in &self.0 {
            let homes = source.paths.iter().filter_map(|path| self.home(module, path, 0));
            let others = homes.filter(|home| home != module);
            arrows.insert(module.clone(), others.collect());
        }
        arrows
    }
}

/// The files that can be reached from one.
fn reached(arrows: &BTreeMap<Module, BTreeSet<Module>>, from: &Module) -> BTreeSet<Module> {
    let mut seen = BTreeSet::new();
    let mut open: Vec<&Module> = arrows[from].iter().collect();
    while let Some(next) = open.pop() {
        if seen.insert(next.clone()) {
            open.extend(arrows.get(next).into_iter().flatten());
        }
    }
    seen
}

/// Each circle as the arrows that make it up.
fn circles(arrows: &BTreeMap<Module, BTreeSet<Module>>) -> Vec<String> {
    let reach: BTreeMap<&Module, BTreeSet<Module>> = arrows.keys().map(|m| (m, reached(arrows, m))).collect();
    let mut found: BTreeMap<&Module, Vec<String>> = BTreeMap::new();
    for (module, others) in arrows.iter().filter(|(module, _)| reach[module].contains(*module)) {
        let together = |other: &&Module| reach.get(other).is_some_and(|back| back.contains(module));
        // A circle is known by the first file in it.
        let first = reach[module].iter().find(|other| together(other)).unwrap_or(module);
        let (first, _) = arrows.get_key_value(first).unwrap();
        let back = others.iter().filter(together).map(|other| format!("{} needs {}", named(module), named(other)));
        found.entry(first).or_default().extend(back);
    }
    found.into_values().map(|arrows| arrows.join("\n")).collect()
}

fn core_crate() -> Crate {
    Crate::of(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"))
}

#[test]
fn every_arrow_goes_down() {
    let height = |floor: &str| match FLOORS.iter().position(|known| *known == floor) {
        Some(height) => height,
        None if floor == TOP => FLOORS.len(),
        None => panic!("{floor} is on no floor: name it in FLOORS, where it belongs"),
    };
    let mut up = Vec::new();
    for (module, others) in core_crate().arrows() {
        let Some(floor) = module.first() else { continue };
        // The root names every module, so what needs it needs all of them.
        let is_up = |other: &&Module| other.first().is_none_or(|other| height(other) > height(floor));
        up.extend(others.iter().filter(is_up).map(|other| format!("{} needs {}", named(&module), named(other))));
    }
    assert!(up.is_empty(), "arrows that go up:\n{}", up.join("\n"));
}

#[test]
fn no_files_need_each_other_in_a_circle() {
    let bindings = Path::new(env!("CARGO_MANIFEST_DIR")).join("../bindings/src");
    let mut found = circles(&core_crate().arrows());
    found.extend(circles(&Crate::of(&bindings).arrows()));
    assert!(found.is_empty(), "circles of files:\n{}", found.join("\n\n"));
}

/// The reader of imports itself: it finds an arrow that goes up, and a circle, also through a re-export and inside a macro.
#[test]
fn an_arrow_and_a_circle_are_found() {
    let source = |module: &str, text: &str| (module.split("::").map(str::to_owned).collect::<Module>(), read(text));
    let small = Crate(BTreeMap::from([
        (Vec::new(), read("mod low; mod high;")),
        source("low", "mod first; mod second; pub use first::First;"),
        source("low::first", "use super::second::Second; pub struct First(Second);"),
        source("low::second", "pub struct Second; fn made() { assert!(crate::low::First::is_up()); }"),
        source("high", "pub use crate::low::*;"),
    ]));
    let arrows = small.arrows();
    let module = |path: &str| path.split("::").map(str::to_owned).collect::<Module>();
    assert!(arrows[&module("low::second")].contains(&module("low::first")), "{arrows:?}");
    assert_eq!(circles(&arrows), ["low::first needs low::second\nlow::second needs low::first"]);
    assert_eq!(small.home(&module("high"), &module("Second"), 0), None, "it is not re-exported");
    assert_eq!(small.home(&module("high"), &module("First"), 0), Some(module("low::first")));
}

/// What a path names that begins at the crate's root: what the root defines, what it passes on by name, and what it passes on as a whole.
#[test]
fn an_arrow_through_the_root_is_found() {
    let source = |module: &str, text: &str| (module.split("::").map(str::to_owned).collect::<Module>(), read(text));
    let root =
        "pub mod low; pub mod high; pub mod other; pub use high::High; pub use crate::other::*; pub struct Made;";
    let small = Crate(BTreeMap::from([
        (Vec::new(), read(root)),
        source("low", "mod named; mod whole; mod made; mod inside;"),
        source("low::named", "use crate::High; fn high(_: High) {}"),
        source("low::whole", "fn other() { crate::passed_on() }"),
        source("low::made", "fn made(_: crate::Made) {}"),
        source("low::inside", "fn made() { assert!(crate::High::is_up()); }"),
        source("high", "pub struct High;"),
        source("other", "pub fn passed_on() {}"),
    ]));
    let arrows = small.arrows();
    let needs = |path: &str| {
        let module: Module = path.split("::").map(str::to_owned).collect();
        arrows[&module].iter().map(|other| named(other)).collect::<Vec<_>>()
    };
    assert_eq!(needs("low::named"), ["high"]);
    assert_eq!(needs("low::inside"), ["high"]);
    assert_eq!(needs("low::whole"), ["other"]);
    assert_eq!(needs("low::made"), ["the crate's root"]);
}
