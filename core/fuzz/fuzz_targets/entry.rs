//! Stored entries, and the fold that takes them in: what `hostile::entry` says holds of any bytes.
//! Run with `cargo +nightly fuzz run entry -- -rss_limit_mb=512 -timeout=20` in `core`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    hostile::entry(bytes);
});
