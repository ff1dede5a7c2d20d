//! Invented sound of a hovering helicopter, with everything that disturbs it, and the speed that is in it.
#![allow(dead_code, missing_docs)]

use std::f64::consts::TAU;

use liftgate_core::instrument::{Drive, Mesh, Motor, Tail};

use super::random::Random;

/// What is in the air beside the aircraft's own tones.
#[derive(Debug, Clone, Copy, Default)]
pub struct Scene {
    /// Own tones over wind and hiss, in dB of power over the whole band.
    pub snr_db: f64,
    /// A second aircraft, so many dB below the own.
    pub second_db: Option<f64>,
    /// The second one has the same ratios.
    pub twin: bool,
    /// Chords, so many dB below the own tones.
    pub music_db: Option<f64>,
    /// Echo from the ground.
    pub echo: bool,
    /// A phone's high and low pass.
    pub phone: bool,
    /// Even change of speed over the stretch, as a share.
    pub sweep: f64,
    /// Change that dies out, as a share.
    pub droop: f64,
    /// Amplitude of a governor's hunting, as a share.
    pub hunting: f64,
    /// Drift towards the phone, standard deviation in m/s.
    pub drift_sd_m_s: f64,
    /// Share of samples cut off.
    pub clipped: f64,
}

/// A recording and what is true of it.
pub struct Recording {
    pub samples: Vec<f32>,
    pub rate_hz: f64,
    pub drive: Drive,
    pub head_rpm: f64,
    pub heard_rpm: f64,
}

pub fn any_drive(random: &mut Random) -> Drive {
    let whole =
        |random: &mut Random, low: u32, high: u32| random.uniform(f64::from(low), f64::from(high) + 1.0) as u32;
    let main_teeth = whole(random, 70, 115);
    let pinion = whole(random, 9, 13);
    let tail_teeth = f64::from(whole(random, 80, 110)) / f64::from(whole(random, 19, 23));
    Drive {
        main_blades: whole(random, 2, 4),
        tail: Some(Tail { per_main: tail_teeth, blades: whole(random, 2, 4) }),
        motor: Some(Motor {
            per_main: f64::from(main_teeth) / f64::from(pinion),
            pole_pairs: Some(whole(random, 2, 5)),
        }),
        meshes: vec![Mesh { teeth: main_teeth, per_main: 1.0 }],
        belts_per_main: Vec::new(),
    }
}

/// Turns since the beginning, as the rotor makes them and as the phone hears them, at each sample.
fn turns(random: &mut Random, scene: &Scene, rpm: f64, rate_hz: f64, count: usize) -> (Vec<f64>, Vec<f64>) {
    // Together they have the standard deviation that the scene says.
    let (drift, breath) =
        (0.954 * scene.drift_sd_m_s * random.normal(), 0.424 * scene.drift_sd_m_s * random.normal());
    let (breath_hz, hunting_hz) = (random.uniform(0.05, 0.15), random.uniform(0.3, 2.0));
    let (phase, dies_s, length_s) = (random.uniform(0.0, TAU), random.uniform(1.0, 5.0), count as f64 / rate_hz);
    let (mut head, mut heard) = (Vec::new(), Vec::new());
    let (mut of_head, mut of_heard) = (0.0, random.uniform(0.0, 1.0));
    for n in 0..count {
        let t = n as f64 / rate_hz;
        let even = scene.sweep * (t / length_s - 0.5);
        let dying = scene.droop * ((-t / dies_s).exp() - 0.5);
        let hunting = scene.hunting * (TAU * hunting_hz * t + phase).sin();
        let speed = rpm / 60.0 * (1.0 + even + dying + hunting) / rate_hz;
        head.push(of_head);
        heard.push(of_heard);
        of_head += speed;
        of_heard += speed * (1.0 + (drift + breath * (TAU * breath_hz * t + phase).sin()) / 340.0);
    }
    (head, heard)
}

/// Speed in rpm as a straight line through the turns of the last four seconds has it.
fn fitted_rpm(turns: &[f64], rate_hz: f64) -> f64 {
    let last = &turns[turns.len().saturating_sub((4.0 * rate_hz) as usize)..];
    let middle = (last.len() as f64 - 1.0) / 2.0;
    let (mut top, mut bottom) = (0.0, 0.0);
    for (n, turns) in last.iter().enumerate() {
        let x = n as f64 - middle;
        top += x * (turns - last[0]);
        bottom += x * x;
    }
    60.0 * rate_hz * top / bottom
}

/// Adds the first `count` multiples of a tone of `per_main`, `falls_db` less with each, each some decibels up or down.
fn add_family(
    random: &mut Random,
    samples: &mut [f64],
    turns: &[f64],
    (per_main, count): (f64, usize),
    (level_db, falls_db): (f64, f64),
) {
    let tone = |k: usize, random: &mut Random| {
        let db = level_db - falls_db * k as f64 + 4.0 * random.normal();
        (10f64.powf(db / 20.0), random.uniform(0.0, TAU))
    };
    let tones: Vec<(f64, f64)> = (0..count).map(|k| tone(k, random)).collect();
    let parts: Vec<(f64, f64)> = tones.iter().map(|(size, phase)| (size * phase.cos(), size * phase.sin())).collect();
    for (sample, turns) in samples.iter_mut().zip(turns) {
        let (sin, cos) = (TAU * per_main * turns).sin_cos();
        let (mut re, mut im) = (cos, sin);
        for part in &parts {
            *sample += part.0 * re - part.1 * im;
            (re, im) = (re * cos - im * sin, re * sin + im * cos);
        }
    }
}

pub fn tones(random: &mut Random, drive: &Drive, turns: &[f64]) -> Vec<f64> {
    let mut samples = vec![0.0; turns.len()];
    let falls = random.uniform(0.5, 2.5);
    add_family(random, &mut samples, turns, (f64::from(drive.main_blades), 12), (0.0, falls));
    if let Some(tail) = drive.tail {
        let family = (tail.per_main * f64::from(tail.blades), 6);
        let level = (random.uniform(-8.0, 0.0), random.uniform(1.0, 4.0));
        add_family(random, &mut samples, turns, family, level);
    }
    for mesh in &drive.meshes {
        let family = (f64::from(mesh.teeth) * mesh.per_main, 2);
        let level = (random.uniform(-15.0, -5.0), 6.0);
        add_family(random, &mut samples, turns, family, level);
    }
    if let Some(motor) = drive.motor {
        let family = (motor.per_main * f64::from(motor.pole_pairs.unwrap_or(1)), 2);
        let level = (random.uniform(-25.0, -10.0), 6.0);
        add_family(random, &mut samples, turns, family, level);
    }
    samples
}

fn power(samples: &[f64]) -> f64 {
    samples.iter().map(|s| s * s).sum::<f64>() / samples.len() as f64
}

/// Scales `more` to so many dB over the power `own`, and adds it.
fn add_at(samples: &mut [f64], more: &[f64], own: f64, db: f64) {
    let scale = (own / power(more).max(1e-300) * 10f64.powf(db / 10.0)).sqrt();
    samples.iter_mut().zip(more).for_each(|(sample, more)| *sample += scale * more);
}

/// Wind at a microphone: noise that falls with frequency, in gusts, and a little hiss.
fn wind(random: &mut Random, rate_hz: f64, count: usize) -> Vec<f64> {
    let keep = (-TAU * random.uniform(40.0, 150.0) / rate_hz).exp();
    let (gust_hz, hiss) = (random.uniform(0.3, 2.0), random.uniform(0.05, 0.3));
    let mut red = 0.0;
    let mut at = |n: usize| {
        red = keep * red + (1.0 - keep * keep).sqrt() * random.normal();
        let gust = 1.0 + 0.5 * (TAU * gust_hz * n as f64 / rate_hz).sin();
        red * gust + hiss * random.normal()
    };
    (0..count).map(&mut at).collect()
}

/// Chords of three notes with four multiples each, a new one every half second or so.
fn music(random: &mut Random, rate_hz: f64, count: usize) -> Vec<f64> {
    let mut samples = vec![0.0; count];
    let mut from = 0;
    while from < count {
        let to = (from + (random.uniform(0.25, 0.9) * rate_hz) as usize).min(count);
        for _ in 0..3 {
            let note_hz = 110.0 * (random.uniform(0.0, 36.0).floor() / 12.0).exp2();
            for k in 1..=4 {
                let (size, phase) = (1.0 / f64::from(k), random.uniform(0.0, TAU));
                for (n, sample) in samples[from..to].iter_mut().enumerate() {
                    *sample += size * (TAU * note_hz * f64::from(k) * n as f64 / rate_hz + phase).sin();
                }
            }
        }
        from = to;
    }
    samples
}

/// A phone's microphone: two high passes and a low pass of first order.
fn phone(random: &mut Random, samples: &mut [f64], rate_hz: f64) {
    for corner_hz in [random.uniform(60.0, 130.0), random.uniform(60.0, 130.0)] {
        let keep = (-TAU * corner_hz / rate_hz).exp();
        let (mut last_in, mut last_out) = (0.0, 0.0);
        for sample in samples.iter_mut() {
            last_out = keep * (last_out + *sample - last_in);
            last_in = *sample;
            *sample = last_out;
        }
    }
    let keep = (-TAU * 6_000.0 / rate_hz).exp();
    let mut last = 0.0;
    for sample in samples.iter_mut() {
        last = keep * last + (1.0 - keep) * *sample;
        *sample = last;
    }
}

fn echo(random: &mut Random, samples: &mut [f64], rate_hz: f64) {
    let (delay, size) = ((random.uniform(0.001, 0.012) * rate_hz) as usize, random.uniform(0.3, 0.8));
    let before = samples.to_vec();
    samples[delay..].iter_mut().zip(&before).for_each(|(sample, earlier)| *sample += size * earlier);
}

/// Scales to a usual level, or so loud that the given share of samples is cut off, and cuts off.
fn recorded(samples: &[f64], clipped: f64) -> Vec<f32> {
    let mut sizes: Vec<f64> = samples.iter().map(|s| s.abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let full = if clipped > 0.0 {
        sizes[((1.0 - clipped) * (sizes.len() - 1) as f64) as usize]
    } else {
        3.0 * sizes[sizes.len() - 1]
    };
    let step = |s: &f64| ((s / full).clamp(-1.0, 32_767.0 / 32_768.0) * 32_768.0).round() / 32_768.0;
    samples.iter().map(|s| step(s) as f32).collect()
}

/// A recording of `length_s` seconds in a scene, of a drive at a head speed.
pub fn record(
    random: &mut Random,
    scene: &Scene,
    (drive, rpm): (Drive, f64),
    (rate_hz, length_s): (f64, f64),
) -> Recording {
    let count = (length_s * rate_hz) as usize;
    let (head, heard) = turns(random, scene, rpm, rate_hz, count);
    let mut samples = tones(random, &drive, &heard);
    if scene.echo {
        echo(random, &mut samples, rate_hz);
    }
    let own = power(&samples);
    if let Some(db) = scene.second_db {
        let off = random.uniform(0.02, 0.4) * if random.uniform(0.0, 1.0) < 0.5 { -1.0 } else { 1.0 };
        let other_drive = if scene.twin { drive.clone() } else { any_drive(random) };
        let (_, other) = turns(random, &Scene::default(), rpm * (1.0 + off), rate_hz, count);
        let other = tones(random, &other_drive, &other);
        add_at(&mut samples, &other, own, -db);
    }
    if let Some(db) = scene.music_db {
        let music = music(random, rate_hz, count);
        add_at(&mut samples, &music, own, -db);
    }
    let wind = wind(random, rate_hz, count);
    add_at(&mut samples, &wind, own, -scene.snr_db);
    if scene.phone {
        phone(random, &mut samples, rate_hz);
    }
    Recording {
        samples: recorded(&samples, scene.clipped),
        rate_hz,
        drive,
        head_rpm: fitted_rpm(&head, rate_hz),
        heard_rpm: fitted_rpm(&heard, rate_hz),
    }
}
