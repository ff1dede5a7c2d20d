//! A camera's file: what `hostile::photo` says holds of any bytes.
//! Run with `cargo +nightly fuzz run photo -- -rss_limit_mb=512 -timeout=20` in `core`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    hostile::photo(bytes);
});
