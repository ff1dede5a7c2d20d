//! Sound as it comes in: in pieces of any length, and its level.
#![allow(clippy::unwrap_used, missing_docs)]

#[path = "common/random.rs"]
mod random;
#[path = "common/sound.rs"]
mod sound;

use std::f64::consts::TAU;

use liftgate_core::instrument::{Hearing, Listener};
use random::Random;
use sound::{Scene, any_drive, record};

#[test]
fn pieces_of_any_length_make_no_difference() {
    let scene = Scene { snr_db: 5.0, ..Scene::default() };
    let drive = any_drive(&mut Random(6));
    let recording = record(&mut Random(7), &scene, (drive, 900.0), (44_100.0, 3.0));
    let (mut whole, mut pieces, mut bytes) =
        (Listener::new(44_100.0).unwrap(), Listener::new(44_100.0).unwrap(), Listener::new(44_100.0).unwrap());
    whole.push(&recording.samples);
    let mut random = Random(8);
    let mut rest = &recording.samples[..];
    while !rest.is_empty() {
        let (piece, after) = rest.split_at((random.uniform(0.0, 3_000.0) as usize).min(rest.len()));
        pieces.push(piece);
        rest = after;
    }
    let words: Vec<i16> = recording.samples.iter().map(|s| (s * 32_768.0) as i16).collect();
    bytes.push_i16(&words);
    let say = |listener: &Listener| listener.head_speed(&recording.drive, &Hearing::default()).unwrap();
    assert!(say(&whole).is_ok());
    assert_eq!(say(&whole), say(&pieces));
    assert_eq!(say(&whole), say(&bytes));
    assert_eq!(whole.level(), pieces.level());
}

#[test]
fn a_level_is_that_of_a_sine_and_forgets_after_a_second() {
    let sine = |size: f64, count: usize| -> Vec<f32> {
        (0..count).map(|n| (size * (TAU * 997.0 * n as f64 / 48_000.0).sin()) as f32).collect()
    };
    let mut listener = Listener::new(48_000.0).unwrap();
    assert_eq!(listener.level().dbfs, f64::NEG_INFINITY);
    listener.push(&sine(0.5, 48_000));
    assert!((listener.level().dbfs + 6.0206).abs() < 1e-3, "{:?}", listener.level());
    assert_eq!(listener.level().clipped_share, 0.0);
    let loud: Vec<f32> = sine(2.0, 96_000).iter().map(|s| s.clamp(-1.0, 1.0)).collect();
    listener.push(&loud);
    // Two thirds of a sine of twice full scale lie beyond it.
    assert!((listener.level().clipped_share - 2.0 / 3.0).abs() < 0.01, "{:?}", listener.level());
    listener.push(&vec![0.0; 60_000]);
    assert_eq!(listener.level().dbfs, f64::NEG_INFINITY);
}
