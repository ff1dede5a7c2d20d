//! A log of arbitrary bytes: no panic, no row unaccounted for, memory within its bound, every figure a number.
//! Run with `cargo +nightly fuzz run telemetry -- -rss_limit_mb=256` in `core`.
#![no_main]

use libfuzzer_sys::fuzz_target;
use liftgate_core::telemetry::plot::{cursor, line};
use liftgate_core::telemetry::summary::{Limits, summarise};
use liftgate_core::telemetry::{Import, Layout, Settings, TimeForm};

const KEPT_BYTES: usize = 64 * 1024;

fuzz_target!(|bytes: &[u8]| {
    read(bytes);
    // The same bytes as UTF-16, long enough to go over the decoder's buffers.
    if bytes.len() % 5 == 0 {
        let wide: Vec<u8> = [0xFF, 0xFE].into_iter().chain(bytes.iter().flat_map(|byte| [*byte, 0])).collect();
        read(&wide);
    }
});

fn read(bytes: &[u8]) {
    let Ok(layout) = Layout::of(bytes) else { return };
    let mut map = layout.suggest();
    // Ways to write the time that the guess would not come to.
    if bytes.len() % 3 == 0 && map.time_column.is_some() {
        map.time_form = TimeForm::WRITTEN[bytes.len() % TimeForm::WRITTEN.len()];
    }
    let Ok(import) =
        Import::new(&layout, &map, Settings { kept_bytes: KEPT_BYTES, file_bytes: Some(bytes.len() as u64) })
    else {
        return;
    };
    let Ok(log) = import.read(&mut &bytes[..], &mut |_| true) else { return };
    assert_eq!(log.rows.found, log.rows.imported + log.rows.left_out + log.rows.repeated);
    assert!(log.kept_bytes() <= KEPT_BYTES.max(64 * (8 + 12 * log.channels.len())));
    assert!(log.time_s.windows(2).all(|w| w[0] <= w[1]));
    if let Ok(summary) = summarise(&log, &Limits { cells: Some(12), ..Limits::default() }) {
        assert!(summary.figures.iter().all(|figure| figure.value.is_finite()));
    }
    for channel in 0..log.channels.len() as u32 {
        if let Some(drawn) = line(&log, channel, log.span(), 300) {
            assert!(drawn.strokes.iter().map(Vec::len).sum::<usize>() <= 4 * 302 + log.breaks.len() * 4);
        }
    }
    let _ = cursor(&log, log.span().end_s / 2.0);
}
