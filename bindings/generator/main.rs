//! Writes the Kotlin and Python bindings from a built library. Pinned here so that the generator
//! and the scaffolding in the library are always of one version.

fn main() {
    uniffi::uniffi_bindgen_main()
}
