//! A plan file: what `hostile::plan` says holds of any bytes.
//! Run with `cargo +nightly fuzz run plan -- -rss_limit_mb=256 -timeout=20` in `core`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    hostile::plan(bytes);
});
