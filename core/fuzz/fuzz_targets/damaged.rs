//! The files of a damaged journal: what `hostile::damaged` says holds of any bytes.
//! Run with `cargo +nightly fuzz run damaged -- -rss_limit_mb=512 -timeout=20` in `core`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    hostile::damaged(bytes);
});
