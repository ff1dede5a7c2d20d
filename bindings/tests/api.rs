//! The signatures that Kotlin and Python see, held against the committed lists: `api-phone.txt` of what a phone carries, `api.txt`
//! with the calculations that Python calls by themselves.
//!
//! They are read from the metadata that UniFFI left in the built library: exactly what the generator writes bindings from.
#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use camino::Utf8Path;
use uniffi_meta::{FieldMetadata, FnParamMetadata, Metadata, Type, VariantMetadata};

#[test]
fn the_surface_is_as_committed() {
    let list = if cfg!(feature = "calculations") { "api.txt" } else { "api-phone.txt" };
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(list);
    let now = listing(&library());
    if std::env::var_os("UPDATE_API").is_some() {
        std::fs::write(&file, &now).unwrap();
        return;
    }
    let committed = std::fs::read_to_string(&file).unwrap_or_default();
    let drift = drift(&committed, &now);
    assert!(
        drift.is_empty(),
        "the surface drifted from bindings/{list} ('-' is committed, '+' is built):\n{drift}\
         If that is meant: UPDATE_API=1 cargo test -p liftgate-bindings --test api, once as it is and once with\
         --features calculations, and commit both lists."
    );
}

#[test]
fn drift_names_what_went_and_what_came() {
    assert_eq!(drift("a\nb\n", "a\nb\n"), "");
    assert_eq!(drift("a\nfn b()\n", "a\nfn b(x: u32)\n"), "  - fn b()\n  + fn b(x: u32)\n");
}

/// The library that cargo built for this very test: beside the folder that the test runs from.
fn library() -> PathBuf {
    let exe = std::env::current_exe().unwrap();
    let deps = exe.parent().unwrap();
    let name = format!("{}liftgate{}", std::env::consts::DLL_PREFIX, std::env::consts::DLL_SUFFIX);
    let path = deps.join(&name);
    assert!(path.exists(), "cargo left no {name} in {}", deps.display());
    path
}

/// Every signature, one a line, in an order that does not depend on the build.
fn listing(library: &Path) -> String {
    let items = uniffi_bindgen::macro_metadata::extract_from_library(Utf8Path::from_path(library).unwrap()).unwrap();
    // Types first, each with its members; functions after them.
    let mut types: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    let mut functions = BTreeSet::new();
    for item in &items {
        match item {
            Metadata::Record(record) => {
                types.entry(format!("record {} {}", record.name, fields(&record.fields))).or_default();
            }
            Metadata::Enum(of) => {
                let kind = if of.shape.is_error() { "error" } else { "enum" };
                let variants: Vec<String> = of.variants.iter().map(variant).collect();
                types.entry(format!("{kind} {} {{ {} }}", of.name, variants.join(", "))).or_default();
            }
            Metadata::CustomType(of) => {
                types.entry(format!("custom {} = {}", of.name, word(&of.builtin))).or_default();
            }
            Metadata::Object(of) => {
                types.entry(format!("object {}", of.name)).or_default();
            }
            Metadata::Constructor(of) => {
                let line =
                    format!("  constructor {}", signature(&of.name, of.is_async, &of.inputs, None, &of.throws));
                types.entry(format!("object {}", of.self_name)).or_default().insert(line);
            }
            Metadata::Method(of) => {
                let returns = of.return_type.as_ref();
                let line = format!("  method {}", signature(&of.name, of.is_async, &of.inputs, returns, &of.throws));
                types.entry(format!("object {}", of.self_name)).or_default().insert(line);
            }
            Metadata::Func(of) => {
                let returns = of.return_type.as_ref();
                let line = signature(&of.name, of.is_async, &of.inputs, returns, &of.throws);
                functions.insert(format!("fn {line}"));
            }
            Metadata::Namespace(_) => {}
            // A kind that is not known here must not slip by unlisted.
            other => {
                functions.insert(format!("{other:?}"));
            }
        }
    }
    let mut text = String::new();
    for (of, members) in types {
        writeln!(text, "{of}").unwrap();
        members.iter().for_each(|member| writeln!(text, "{member}").unwrap());
    }
    functions.iter().for_each(|function| writeln!(text, "{function}").unwrap());
    text
}

fn signature(
    name: &str,
    is_async: bool,
    inputs: &[FnParamMetadata],
    returns: Option<&Type>,
    throws: &Option<Type>,
) -> String {
    let inputs: Vec<String> = inputs.iter().map(|input| format!("{}: {}", input.name, word(&input.ty))).collect();
    let wait = if is_async { "async " } else { "" };
    let returns = returns.map_or_else(String::new, |of| format!(" -> {}", word(of)));
    let throws = throws.as_ref().map_or_else(String::new, |of| format!(" throws {}", word(of)));
    format!("{wait}{name}({}){returns}{throws}", inputs.join(", "))
}

fn fields(of: &[FieldMetadata]) -> String {
    let fields: Vec<String> = of.iter().map(|field| format!("{}: {}", field.name, word(&field.ty))).collect();
    format!("{{ {} }}", fields.join(", "))
}

fn variant(of: &VariantMetadata) -> String {
    if of.fields.is_empty() { of.name.clone() } else { format!("{} {}", of.name, fields(&of.fields)) }
}

fn word(of: &Type) -> String {
    match of {
        Type::Optional { inner_type } => format!("{}?", word(inner_type)),
        Type::Sequence { inner_type } => format!("[{}]", word(inner_type)),
        Type::Map { key_type, value_type } => format!("{{{}: {}}}", word(key_type), word(value_type)),
        Type::Object { name, .. }
        | Type::Record { name, .. }
        | Type::Enum { name, .. }
        | Type::CallbackInterface { name, .. }
        | Type::Custom { name, .. } => name.clone(),
        plain => format!("{plain:?}").to_lowercase(),
    }
}

/// Lines that are in one and not in the other, in their order.
fn drift(committed: &str, now: &str) -> String {
    let (old, new): (BTreeSet<&str>, BTreeSet<&str>) = (committed.lines().collect(), now.lines().collect());
    let gone = committed.lines().filter(|line| !new.contains(line)).map(|line| format!("  - {line}\n"));
    let come = now.lines().filter(|line| !old.contains(line)).map(|line| format!("  + {line}\n"));
    gone.chain(come).collect()
}
