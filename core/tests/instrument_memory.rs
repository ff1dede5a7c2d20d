//! A listener's memory, which is bounded, and its time. A program of its own, since it watches all of its memory.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;
#[path = "common/sound.rs"]
mod sound;

use std::alloc::System;
use std::time::Instant;

use cap::Cap;
use liftgate_core::instrument::{Hearing, Listener};
use random::Random;
use sound::{Scene, any_drive, record};

#[global_allocator]
static MEMORY: Cap<System> = Cap::new(System, usize::MAX);

#[test]
fn it_listens_in_bounded_memory_and_time() {
    let scene = Scene { snr_db: 10.0, ..Scene::default() };
    let drive = any_drive(&mut Random(5));
    let recording = record(&mut Random(4), &scene, (drive, 1300.0), (48_000.0, 5.0));
    for rate_hz in [8_000.0, 16_000.0, 23_999.0, 44_100.0, 48_000.0, 96_000.0] {
        let before = MEMORY.allocated();
        let mut listener = Listener::new(rate_hz).unwrap();
        for _ in 0..4 {
            listener.push(&recording.samples);
        }
        let held = MEMORY.allocated() - before;
        println!("{rate_hz} Hz: {held} bytes held");
        assert!(held <= Listener::HELD_BYTES, "{rate_hz} Hz: {held}");
    }
    let mut listener = Listener::new(48_000.0).unwrap();
    let start = Instant::now();
    listener.push(&recording.samples);
    let pushed_ms = start.elapsed().as_secs_f64() * 1e3;
    let start = Instant::now();
    // What goes beyond the limit aborts.
    MEMORY.set_limit(MEMORY.allocated() + Listener::WORKING_BYTES).unwrap();
    let answer = listener.head_speed(&recording.drive, &Hearing::default()).unwrap();
    MEMORY.set_limit(usize::MAX).unwrap();
    let told_ms = start.elapsed().as_secs_f64() * 1e3;
    println!(
        "a second of sound is taken in in {:.2} ms; a head speed over four is told in {told_ms:.1} ms",
        pushed_ms / 5.0
    );
    assert!((answer.unwrap().heard_rpm.value / recording.heard_rpm - 1.0).abs() < 1e-3);
    // Unoptimised and beside other work it takes many times as long as on its own.
    assert!(pushed_ms / 5.0 + told_ms / 4.0 < 400.0, "{pushed_ms} {told_ms}");
}
