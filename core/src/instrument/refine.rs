//! The head speed to the last digit: all tones of the drive followed in phase over the whole stretch.
//!
//! Each tone is turned down to zero frequency with the speed as known so far and averaged over short blocks. A speed a little off turns every
//! tone's phase in proportion to its order: the shares by which speed and sweep are off are fitted to all phases at once by weighted least
//! squares, each tone weighted by its own power over its own noise, and the tones are turned down anew. In white noise this is the
//! maximum-likelihood estimate, whose variance is the Cramer-Rao bound (D. C. Rife and R. R. Boorstyn, "Single-tone parameter estimation from
//! discrete-time observations", IEEE Transactions on Information Theory 20 (1974); for harmonics, sum of the tones' information).

use std::f64::consts::TAU;

use rustfft::num_complex::Complex;

/// Length of a block, in seconds: its band of 16 Hz holds a tone and the noise beside it.
const BLOCK_S: f64 = 0.0625;
/// Power of a tone over its noise, both over the whole stretch, from which it is followed.
const FOLLOWED: f64 = 9.0;
/// A tone whose phase runs this many standard deviations off all the others is not of this drive.
const FOREIGN: f64 = 4.0;
/// Reach of the first search about speed and sweep, as shares.
const REACH: f64 = 6e-4;

/// A speed that changes evenly over a stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Motion {
    /// Turns a second at the middle.
    pub turns_hz: f64,
    /// Change over the whole stretch, as a share.
    pub sweep: f64,
}

/// Shares by which speed and sweep are off.
type Shift = (f64, f64);

/// A speed with what the phases say of its error.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Refined {
    pub motion: Motion,
    /// Standard error of the speed, as a share, if the noise beside the tones is all that disturbs them.
    pub white_share: f64,
    /// Power of the common phase's slow wander over what that noise makes: one where there is none.
    pub wander: f64,
    /// For each tone its power over its noise over the stretch; none where it was not followed.
    pub followed: Vec<Option<f64>>,
}

/// One tone turned down to zero frequency.
struct Tone {
    /// Radians of phase over the stretch for a share of one of speed.
    gain: f64,
    blocks: Vec<Complex<f64>>,
    /// Weight of its phases; zero where it is not followed.
    weight: f64,
}

/// The stretch in blocks.
struct Blocks<'a> {
    sound: &'a [f32],
    rate_hz: f64,
    count: usize,
}

impl Blocks<'_> {
    fn duration_s(&self) -> f64 {
        self.sound.len() as f64 / self.rate_hz
    }

    /// First sample of block `m`. No sample is left over: the middle of all blocks is the middle of the stretch, which matters in a sweep.
    fn first(&self, m: usize) -> usize {
        m * self.sound.len() / self.count
    }

    /// Middle of block `m`, from -1/2 to 1/2.
    fn place(&self, m: usize) -> f64 {
        (m as f64 + 0.5) / self.count as f64 - 0.5
    }

    /// Calls with each block's samples and a turning phasor that starts right for each block, so that no error adds up.
    fn turned(&self, motion: &Motion, per_main: f64, mut with: impl FnMut(usize, usize, Complex<f64>)) {
        let (cycles, samples) = (per_main * motion.turns_hz * self.duration_s(), self.sound.len() as f64);
        let phase = |x: f64| TAU * cycles * (x + 0.5 * motion.sweep * x * x);
        let bend = Complex::from_polar(1.0, TAU * cycles * motion.sweep / (samples * samples));
        for m in 0..self.count {
            let start = (self.first(m) as f64 + 0.5) / samples - 0.5;
            let mut phasor = Complex::from_polar(1.0, phase(start));
            let mut step = Complex::from_polar(1.0, phase(start + 1.0 / samples) - phase(start));
            for n in self.first(m)..self.first(m + 1) {
                with(m, n, phasor);
                phasor *= step;
                step *= bend;
            }
        }
    }

    /// A tone's mean in each block, of `samples` in place of the sound.
    fn turned_down(&self, samples: &[f32], motion: &Motion, per_main: f64) -> Vec<Complex<f64>> {
        let mut means = vec![Complex::new(0.0, 0.0); self.count];
        self.turned(motion, per_main, |m, n, phasor| means[m] += phasor.conj() * f64::from(samples[n]));
        means.iter_mut().enumerate().for_each(|(m, mean)| *mean /= (self.first(m + 1) - self.first(m)) as f64);
        means
    }
}

/// The speed near `near` that fits all of the tones' phases, each tone a multiple `per_main` of it; none where too few can be followed.
pub(super) fn refine(sound: &[f32], rate_hz: f64, near: Motion, per_main: &[f64]) -> Option<Refined> {
    let blocks = Blocks { sound, rate_hz, count: (sound.len() as f64 / rate_hz / BLOCK_S).round() as usize };
    if blocks.count < 16 {
        return None;
    }
    let tone = |samples: &[f32], motion: &Motion, per_main: &f64| Tone {
        gain: TAU * per_main * motion.turns_hz * blocks.duration_s(),
        blocks: blocks.turned_down(samples, motion, *per_main),
        weight: 0.0,
    };
    let mut tones: Vec<Tone> = per_main.iter().map(|order| tone(sound, &near, order)).collect();
    let first = searched(&blocks, &tones);
    let (shift, _) = fitted(&blocks, &mut tones, first)?;
    let motion = moved(near, shift);
    // Turned down anew with the others taken out, no tone leaks into another's blocks.
    let means: Vec<Complex<f64>> = tones.iter().map(|tone| mean(&blocks, tone, shift)).collect();
    let kept: Vec<Complex<f64>> =
        means.iter().zip(&tones).map(|(mean, tone)| if tone.weight > 0.0 { *mean } else { 0.0.into() }).collect();
    let residual = without(&blocks, &motion, per_main, &kept);
    let mut tones: Vec<Tone> = per_main.iter().map(|order| tone(&residual, &motion, order)).collect();
    tones.iter_mut().zip(&kept).for_each(|(tone, kept)| tone.blocks.iter_mut().for_each(|block| *block += kept));
    let (shift, followed) = fitted(&blocks, &mut tones, (0.0, 0.0))?;
    let motion = moved(motion, shift);
    let information: f64 = tones.iter().map(|tone| tone.weight * tone.gain * tone.gain).sum();
    let squares: f64 = (0..blocks.count).map(|m| blocks.place(m).powi(2)).sum();
    let wander = wander(&blocks, &tones, shift, information);
    Some(Refined { motion, white_share: (information * squares).sqrt().recip(), wander, followed })
}

fn moved(motion: Motion, (speed, sweep): Shift) -> Motion {
    Motion { turns_hz: motion.turns_hz * (1.0 + speed), sweep: motion.sweep + sweep }
}

/// The phasor by which a block of a tone is turned back when speed and sweep are off by these shares.
fn back(blocks: &Blocks, gain: f64, m: usize, (speed, sweep): Shift) -> Complex<f64> {
    let x = blocks.place(m);
    Complex::from_polar(1.0, -gain * (speed * x + 0.5 * sweep * x * x))
}

fn mean(blocks: &Blocks, tone: &Tone, shift: Shift) -> Complex<f64> {
    let turned = tone.blocks.iter().enumerate().map(|(m, block)| block * back(blocks, tone.gain, m, shift));
    turned.sum::<Complex<f64>>() / blocks.count as f64
}

/// The shares of speed and sweep with the highest likelihood on a grid about zero, each tone with its own unknown noise.
fn searched(blocks: &Blocks, tones: &[Tone]) -> Shift {
    let highest = tones.iter().map(|tone| tone.gain).fold(1.0, f64::max);
    // A step turns the highest tone by a radian at the stretch's ends.
    let (speed_step, sweep_step) = (2.0 / highest, 8.0 / highest);
    let steps = |step: f64| (REACH / step).ceil() as i64;
    let likelihood = |shift: Shift| -> f64 {
        let of = |tone: &Tone| {
            let all: f64 = tone.blocks.iter().map(Complex::norm_sqr).sum::<f64>() / blocks.count as f64;
            let coherent = mean(blocks, tone, shift).norm_sqr() / all.max(f64::MIN_POSITIVE);
            -(1.0 - coherent.min(1.0 - 1e-9)).ln()
        };
        tones.iter().map(of).sum()
    };
    let mut best = (f64::NEG_INFINITY, (0.0, 0.0));
    for i in -steps(speed_step)..=steps(speed_step) {
        for j in -steps(sweep_step)..=steps(sweep_step) {
            let shift = (i as f64 * speed_step, j as f64 * sweep_step);
            let value = likelihood(shift);
            if value > best.0 {
                best = (value, shift);
            }
        }
    }
    best.1
}

/// Least squares over all phases, in a few rounds; with it each followed tone's power over its noise. None without a tone to follow.
fn fitted(blocks: &Blocks, tones: &mut [Tone], start: Shift) -> Option<(Shift, Vec<Option<f64>>)> {
    let mut shift = start;
    let mut foreign = vec![false; tones.len()];
    let mut followed = vec![None; tones.len()];
    for round in 0..8 {
        weigh(blocks, tones, shift, &foreign, &mut followed);
        let (mut top, mut bottom) = ([0.0; 2], [0.0; 2]);
        for (tone, foreign) in tones.iter().zip(&mut foreign) {
            let (pull, stiff) = pulls(blocks, tone, shift);
            let off = |k: usize| pull[k] / stiff[k].sqrt();
            // Only once the others agree is it known who is foreign.
            *foreign = tone.weight > 0.0 && round >= 3 && (off(0).abs() > FOREIGN || off(1).abs() > FOREIGN);
            for k in 0..2 {
                top[k] += pull[k];
                bottom[k] += stiff[k];
            }
        }
        if bottom[0] <= 0.0 || bottom[1] <= 0.0 {
            return None;
        }
        shift = (shift.0 + top[0] / bottom[0], shift.1 + top[1] / bottom[1]);
    }
    weigh(blocks, tones, shift, &foreign, &mut followed);
    tones.iter().any(|tone| tone.weight > 0.0).then_some((shift, followed))
}

fn weigh(blocks: &Blocks, tones: &mut [Tone], shift: Shift, foreign: &[bool], followed: &mut [Option<f64>]) {
    for ((tone, foreign), followed) in tones.iter_mut().zip(foreign).zip(followed) {
        let mean = mean(blocks, tone, shift);
        let off = |(m, block): (usize, &Complex<f64>)| (block * back(blocks, tone.gain, m, shift) - mean).norm_sqr();
        let scatter: f64 = tone.blocks.iter().enumerate().map(off).sum();
        // Two numbers a block, less the mean's two and the phase's slope and bend.
        let noise = (scatter / (2 * blocks.count - 4) as f64).max(1e-20 * mean.norm_sqr()).max(f64::MIN_POSITIVE);
        let over_noise = mean.norm_sqr() * blocks.count as f64 / (2.0 * noise);
        *followed = (over_noise > FOLLOWED && !foreign).then_some(over_noise);
        tone.weight = if followed.is_some() { mean.norm_sqr() / noise } else { 0.0 };
    }
}

/// What a tone's phases pull at the shares of speed and sweep, and how stiffly.
fn pulls(blocks: &Blocks, tone: &Tone, shift: Shift) -> ([f64; 2], [f64; 2]) {
    let phases = phases(blocks, tone, shift);
    let squares = (0..blocks.count).map(|m| blocks.place(m).powi(2)).sum::<f64>() / blocks.count as f64;
    let (mut pull, mut stiff) = ([0.0; 2], [0.0; 2]);
    for (m, phase) in phases.iter().enumerate() {
        let x = blocks.place(m);
        for (k, along) in [x, 0.5 * (x * x - squares)].into_iter().enumerate() {
            pull[k] += tone.weight * tone.gain * along * phase;
            stiff[k] += tone.weight * (tone.gain * along).powi(2);
        }
    }
    (pull, stiff)
}

/// A tone's phase in each block against its mean.
fn phases(blocks: &Blocks, tone: &Tone, shift: Shift) -> Vec<f64> {
    let mean = mean(blocks, tone, shift);
    let power = mean.norm_sqr().max(f64::MIN_POSITIVE);
    let phase =
        |(m, block): (usize, &Complex<f64>)| (block * back(blocks, tone.gain, m, shift) * mean.conj()).im / power;
    tone.blocks.iter().enumerate().map(phase).collect()
}

/// The sound less the tones with these means.
fn without(blocks: &Blocks, motion: &Motion, per_main: &[f64], means: &[Complex<f64>]) -> Vec<f32> {
    let mut rest = blocks.sound.to_vec();
    for (order, mean) in per_main.iter().zip(means).filter(|(_, mean)| mean.norm_sqr() > 0.0) {
        blocks.turned(motion, *order, |_, n, phasor| rest[n] -= 2.0 * (mean * phasor).re as f32);
    }
    rest
}

/// Terms of the common phase that are neither speed nor sweep, and still slow: from the third to this.
const SLOW: usize = 8;

/// Mean power of the slow terms of the phase that all tones have in common, over what white noise of this information makes.
fn wander(blocks: &Blocks, tones: &[Tone], shift: Shift, information: f64) -> f64 {
    let mut common = vec![0.0; blocks.count];
    for tone in tones.iter().filter(|tone| tone.weight > 0.0) {
        for (sum, phase) in common.iter_mut().zip(phases(blocks, tone, shift)) {
            *sum += tone.weight * tone.gain * phase / information;
        }
    }
    let terms = polynomials(blocks);
    let power = |term: &Vec<f64>| term.iter().zip(&common).map(|(t, c)| t * c).sum::<f64>().powi(2);
    terms[3..=SLOW].iter().map(power).sum::<f64>() / (SLOW - 2) as f64 * information
}

/// Orthonormal polynomials over the blocks, up to degree [`SLOW`] (Gram and Schmidt, twice for rounding).
fn polynomials(blocks: &Blocks) -> Vec<Vec<f64>> {
    let mut terms: Vec<Vec<f64>> = Vec::new();
    for degree in 0..=SLOW {
        let mut term: Vec<f64> = (0..blocks.count).map(|m| (2.0 * blocks.place(m)).powi(degree as i32)).collect();
        for _ in 0..2 {
            for before in &terms {
                let along: f64 = term.iter().zip(before).map(|(a, b)| a * b).sum();
                term.iter_mut().zip(before).for_each(|(a, b)| *a -= along * b);
            }
        }
        let length = term.iter().map(|a| a * a).sum::<f64>().sqrt();
        terms.push(term.iter().map(|a| a / length).collect());
    }
    terms
}
