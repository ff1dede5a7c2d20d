//! A file that is brought in as a backup: what `hostile::backup` says holds of any bytes.
//! Run with `cargo +nightly fuzz run backup -- -rss_limit_mb=512 -timeout=20` in `core`.
#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    hostile::backup(bytes);
});
