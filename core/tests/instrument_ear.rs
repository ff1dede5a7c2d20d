//! Head speed by ear, on invented sound whose speed is known.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;
#[path = "common/sound.rs"]
mod sound;

use liftgate_core::instrument::*;
use random::Random;
use sound::{Recording, Scene, any_drive, record};

/// A scene in which one or some things disturb.
fn any_scene(random: &mut Random, snr_db: f64) -> Scene {
    let chance = |random: &mut Random, p: f64| random.uniform(0.0, 1.0) < p;
    let mut scene = Scene { snr_db, phone: chance(random, 0.7), echo: chance(random, 0.5), ..Scene::default() };
    if chance(random, 0.3) {
        scene.second_db = Some(random.uniform(3.0, 12.0));
        scene.twin = chance(random, 0.5);
    }
    scene.music_db = chance(random, 0.3).then(|| random.uniform(0.0, 10.0));
    scene.sweep = if chance(random, 0.4) { random.uniform(-0.01, 0.01) } else { 0.0 };
    scene.droop = if chance(random, 0.2) { random.uniform(-0.01, 0.01) } else { 0.0 };
    scene.hunting = if chance(random, 0.3) { 10f64.powf(random.uniform(-5.0, -3.0)) } else { 0.0 };
    scene.drift_sd_m_s = 0.25;
    scene.clipped = if chance(random, 0.15) { random.uniform(0.001, 0.05) } else { 0.0 };
    scene
}

fn any_recording(random: &mut Random, scene: &Scene) -> Recording {
    let rpm = 600.0 * (2500.0f64 / 600.0).powf(random.uniform(0.02, 0.98));
    let rate_hz = [48_000.0, 44_100.0, 16_000.0][random.uniform(0.0, 3.0) as usize];
    let drive = any_drive(random);
    let length_s = random.uniform(2.0, 4.0);
    record(random, scene, (drive, rpm), (rate_hz, length_s))
}

#[derive(Default, Debug)]
struct Tally {
    trials: u32,
    answers: u32,
    off_by_0_3: u32,
    off_by_1: u32,
    head_held: u32,
    heard_held: u32,
}

fn trials() -> u32 {
    std::env::var("LIFTGATE_TRIALS").ok().and_then(|text| text.parse().ok()).unwrap_or(120)
}

#[test]
fn tuning() {
    let seed: u64 = std::env::var("SEED").ok().and_then(|t| t.parse().ok()).unwrap_or(1);
    for snr in [0.0, 10.0] {
        let mut tally = Tally::default();
        let mut reasons: std::collections::BTreeMap<String, u32> = Default::default();
        let (mut spent, mut rel) = (0.0, Vec::new());
        for trial in 0..trials() {
            let mut random = Random(seed * 1_000_000 + u64::from(trial));
            let scene = any_scene(&mut random, snr);
            let r = any_recording(&mut random, &scene);
            let start = std::time::Instant::now();
            let answer = hear(&r.samples, r.rate_hz, &r.drive, &Hearing::default()).unwrap();
            spent += start.elapsed().as_secs_f64();
            tally.trials += 1;
            match answer {
                Ok(a) => {
                    tally.answers += 1;
                    let off = a.head_rpm.value / r.head_rpm - 1.0;
                    let inside = |e: &Estimate, v: f64| e.low <= v && v <= e.high;
                    if off.abs() > 0.003 { tally.off_by_0_3 += 1 }
                    if off.abs() > 0.01 { tally.off_by_1 += 1; println!("WRONG {trial} {off:.4} rpm {:.0} margin {:.1} {scene:?}", r.head_rpm, a.margin_nats); }
                    if inside(&a.head_rpm, r.head_rpm) { tally.head_held += 1 }
                    if inside(&a.heard_rpm, r.heard_rpm) { tally.heard_held += 1 }
                    else { println!("miss {trial} {:.1} sd half {:.2e} off {:.2e} hunting {:.1e} droop {:.4} {:?} {:?} clip {:.3}", (a.heard_rpm.value-r.heard_rpm)/(a.heard_rpm.high-a.heard_rpm.value)*1.96, a.heard_rpm.high/a.heard_rpm.value-1.0, a.heard_rpm.value/r.heard_rpm-1.0, scene.hunting, scene.droop, scene.second_db, scene.music_db, scene.clipped); }
                    rel.push(a.heard_rpm.high/a.heard_rpm.value-1.0);
                }
                Err(reason) => {
                    let text = format!("{reason:?}");
                    *reasons.entry(text.split(' ').next().unwrap().to_owned()).or_default() += 1;
                    if !text.contains("Alike") || scene.second_db.is_none() { println!("none {trial} {text} true {:.1} {scene:?}", r.head_rpm); }
                }
            }
        }
        rel.sort_by(f64::total_cmp);
        println!("SNR {snr} {tally:?} {reasons:?} {:.1} ms a trial, median half-interval {:.2e}", 1e3 * spent / f64::from(tally.trials), rel[rel.len()/2]);
    }
}
