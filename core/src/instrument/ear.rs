//! Head speed by ear: what is told of it, or why it cannot be told.

use super::comb::Comb;
use super::error::Result;
use super::level::Level;
use super::lines::{Line, lines};
use super::orders::{Drive, Family};
use super::refine::{Motion, Refined, refine};
use super::require::within;
use super::track::{Candidate, Pieces};

/// Shortest stretch that anything is told from, in seconds.
const SHORTEST_S: f64 = 1.9;
/// Level below which a phone hears its own noise, in dBFS. Common practice, no source.
const QUIET_DBFS: f64 = -75.0;
/// Share of samples cut off from which nothing is told: the tones that clipping makes lie on combs too.
const CLIPPED_SHARE: f64 = 0.08;
/// Evidence from which a speed is told at all, over the logarithm of how many speeds were looked at, and by how much it must go before the
/// next one's, in nats.
const LEAST_EVIDENCE: f64 = 5.0;
const LEAST_MARGIN: f64 = 5.0;
/// Share of the best's evidence from which another speed is one that turns too: a second aircraft of the same ratios, or nearly.
const ALIKE_SHARE: f64 = 0.68;
/// A speed so near to the best that most tones still lie on its tones' skirts is no other speed. The skirt in Hz, and its bounds as a share.
const SKIRT_HZ: f64 = 6.0;
const SKIRT_SHARES: (f64, f64) = (8e-3, 18e-3);
/// Fewest tones that must be followed in phase.
const LEAST_TONES: usize = 4;
/// Power of a tone over its noise, over the stretch, that no search through noise or through notes of half a second gives.
const CERTAIN: f64 = 40.0;
/// Speed of sound, in m/s, at 15 °C; what a colder day takes off is nothing beside the drift's own guess.
const SOUND_M_S: f64 = 340.0;
/// Standard deviation of a phone's sampling clock, as a share. Common practice, no source: crystals hold 20 to 50 parts in a million.
const CLOCK_SHARE: f64 = 3e-5;
/// Standard deviation of the delay that echoes and a microphone's filters give the tones together, in seconds: as simulated echoes of 1 to
/// 12 ms had it.
const ECHO_S: f64 = 0.002;
/// Largest wander of the common phase over what noise makes that still is a steady speed.
const MOST_WANDER: f64 = 1e4;

/// What is listened for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hearing {
    /// Slowest head speed that may be, in rpm, 200 to 4000.
    pub slowest_rpm: f64,
    /// Fastest head speed that may be, in rpm, faster than the slowest by at least a tenth.
    pub fastest_rpm: f64,
    /// Standard deviation of the aircraft's speed towards the phone, in m/s, 0 to 5: the Doppler effect, which no sound tells from head speed.
    pub drift_sd_m_s: f64,
}

impl Default for Hearing {
    /// The whole range of large helicopters, in a hover held by hand. Common practice, no source.
    fn default() -> Hearing {
        Hearing { slowest_rpm: 600.0, fastest_rpm: 2500.0, drift_sd_m_s: 0.25 }
    }
}

/// A value with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
}

impl Estimate {
    fn times(self, factor: f64) -> Estimate {
        Estimate { value: self.value * factor, low: self.low * factor, high: self.high * factor }
    }
}

/// A family of tones, as far as it was heard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FamilyHeard {
    /// Which family.
    pub family: Family,
    /// How many of its tones were followed in phase.
    pub tones: usize,
    /// How many were listened for.
    pub of: usize,
    /// Power of the loudest over the noise beside it, over the whole stretch, in dB.
    pub over_noise_db: f64,
}

/// A head speed that was heard: the mean over the stretch, weighted to its middle as a line's slope is.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadSpeed {
    /// The main rotor's speed, in rpm. Its interval allows for the drift's Doppler effect and the phone's clock.
    pub head_rpm: Estimate,
    /// The same as the sound alone has it: the interval is of noise and wander only.
    pub heard_rpm: Estimate,
    /// The tail rotor's speed, in rpm.
    pub tail_rpm: Option<Estimate>,
    /// The motor's speed, in rpm.
    pub motor_rpm: Option<Estimate>,
    /// Frequencies of the meshes, in Hz, in the drive's order.
    pub mesh_hz: Vec<Estimate>,
    /// How fast the speed changed, in rpm a second.
    pub sweep_rpm_s: f64,
    /// What was heard of each family.
    pub families: Vec<FamilyHeard>,
    /// Evidence for the speed, in nats.
    pub evidence_nats: f64,
    /// By how much the speed goes before the next likely one, in nats.
    pub margin_nats: f64,
    /// Level of the sound.
    pub level: Level,
    /// How long a stretch was listened to, in seconds.
    pub stretch_s: f64,
}

/// Why no head speed is told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CannotTell {
    /// The recording is shorter than two seconds.
    TooShort {
        /// Its length, in seconds.
        seconds: f64,
    },
    /// Too little sound.
    TooQuiet {
        /// Its level, in dBFS.
        dbfs: f64,
    },
    /// Too much of it is cut off.
    Clipped {
        /// Share of samples at full scale.
        share: f64,
    },
    /// There is sound, but no speed in the range whose tones stand out of it.
    NothingHeard,
    /// Two speeds explain the sound about as well.
    TwoSpeedsAlike {
        /// The likelier, in rpm.
        one_rpm: f64,
        /// The other, in rpm.
        other_rpm: f64,
    },
    /// Of several families of tones that a drive has, only one was heard. A chord is a comb too, and so is another drive: nothing holds the
    /// ratios against it.
    OneFamily {
        /// Which.
        family: Family,
        /// The speed that it would be, in rpm.
        about_rpm: f64,
    },
    /// The speed was about this, but changed in another way than evenly.
    NotSteady {
        /// The speed, roughly, in rpm.
        about_rpm: f64,
    },
}

fn check(drive: &Drive, hearing: &Hearing) -> Result<()> {
    drive.check()?;
    within("slowest head speed", hearing.slowest_rpm, "rpm", (200.0, 4_000.0))?;
    within("fastest head speed", hearing.fastest_rpm, "rpm", (1.1 * hearing.slowest_rpm, 5_000.0))?;
    within("drift", hearing.drift_sd_m_s, "m/s", (0.0, 5.0))?;
    Ok(())
}

/// A decimated stretch of sound.
pub(super) struct Stretch<'a> {
    pub sound: &'a [f32],
    pub rate_hz: f64,
    /// Highest frequency that the decimation lets through.
    pub high_hz: f64,
    /// By how much the decimation delays it.
    pub late_s: f64,
    pub level: Level,
}

impl Stretch<'_> {
    fn seconds(&self) -> f64 {
        self.sound.len() as f64 / self.rate_hz
    }
}

/// The head speed in a stretch of sound.
pub(super) fn listen(
    stretch: &Stretch,
    drive: &Drive,
    hearing: &Hearing,
) -> Result<std::result::Result<HeadSpeed, CannotTell>> {
    check(drive, hearing)?;
    let (level, stretch_s) = (stretch.level, stretch.seconds());
    if stretch_s < SHORTEST_S {
        return Ok(Err(CannotTell::TooShort { seconds: stretch_s }));
    }
    if level.dbfs.is_nan() || level.dbfs < QUIET_DBFS {
        return Ok(Err(CannotTell::TooQuiet { dbfs: level.dbfs }));
    }
    if level.clipped_share > CLIPPED_SHARE {
        return Ok(Err(CannotTell::Clipped { share: level.clipped_share }));
    }
    let lines = lines(drive);
    let (best, margin_nats) = match chosen(stretch, &lines, hearing) {
        Ok(chosen) => chosen,
        Err(reason) => return Ok(Err(reason)),
    };
    let audible: Vec<Line> = lines
        .into_iter()
        .filter(|line| (60.0..0.95 * stretch.high_hz).contains(&(line.per_main * best.turns_hz)))
        .collect();
    let orders: Vec<f64> = audible.iter().map(|line| line.per_main).collect();
    let near = Motion { turns_hz: best.turns_hz, sweep: best.sweep };
    let steady = refine(stretch.sound, stretch.rate_hz, near, &orders).filter(is_steady);
    let Some(refined) = steady else {
        return Ok(Err(CannotTell::NotSteady { about_rpm: 60.0 * best.turns_hz }));
    };
    if let Some(reason) = too_little(&refined, &audible) {
        return Ok(Err(reason));
    }
    Ok(Ok(told(&refined, &audible, drive, hearing, (best.evidence, margin_nats, stretch))))
}

fn is_steady(refined: &Refined) -> bool {
    refined.wander < MOST_WANDER && refined.followed.iter().flatten().count() >= LEAST_TONES
}

/// Why what was followed is not enough: no tone stands out for certain, or those of one family only, where there are more.
fn too_little(refined: &Refined, lines: &[Line]) -> Option<CannotTell> {
    let first = lines.first()?.family;
    let single = lines.iter().all(|line| line.family == first);
    let certain = lines.iter().zip(&refined.followed).filter(|(_, power)| power.is_some_and(|power| power > CERTAIN));
    let mut heard = certain.map(|(line, _)| line.family);
    let Some(one) = heard.next() else { return Some(CannotTell::NothingHeard) };
    let alone = !single && heard.all(|family| family == one);
    alone.then_some(CannotTell::OneFamily { family: one, about_rpm: 60.0 * refined.motion.turns_hz })
}

/// The speed with the most evidence, and by how much it goes before the next; or why none is chosen.
fn chosen(stretch: &Stretch, lines: &[Line], hearing: &Hearing) -> std::result::Result<(Candidate, f64), CannotTell> {
    let range = (hearing.slowest_rpm / 60.0, hearing.fastest_rpm / 60.0);
    let pieces = Pieces::new(stretch.sound, stretch.rate_hz, stretch.high_hz);
    let candidates = pieces.candidates(&Comb::new(lines), range);
    let least = LEAST_EVIDENCE + (pieces.speeds(range) as f64).ln();
    let best = candidates.first().filter(|best| best.evidence >= least).ok_or(CannotTell::NothingHeard)?;
    let mut tones: Vec<f64> = lines.iter().map(|line| line.per_main * best.turns_hz).collect();
    tones.sort_by(f64::total_cmp);
    let skirt =
        tones.get(tones.len() / 2).map_or(0.0, |middle| SKIRT_HZ / middle).clamp(SKIRT_SHARES.0, SKIRT_SHARES.1);
    let other = candidates.iter().find(|other| (other.turns_hz / best.turns_hz).ln().abs() > skirt);
    let margin = best.evidence - other.map_or(0.0, |other| other.evidence.max(0.0));
    match other {
        Some(other) if margin < LEAST_MARGIN || other.evidence > ALIKE_SHARE * best.evidence => {
            Err(CannotTell::TwoSpeedsAlike { one_rpm: 60.0 * best.turns_hz, other_rpm: 60.0 * other.turns_hz })
        }
        _ => Ok((*best, margin)),
    }
}

/// Everything that follows from the speed.
fn told(
    refined: &Refined,
    lines: &[Line],
    drive: &Drive,
    hearing: &Hearing,
    (evidence_nats, margin_nats, stretch): (f64, f64, &Stretch),
) -> HeadSpeed {
    let stretch_s = stretch.seconds();
    // In a sweep the middle of what came out of the decimator is not the middle of what went in.
    let rpm = 60.0 * refined.motion.turns_hz * (1.0 + refined.motion.sweep * stretch.late_s / stretch_s);
    let around = |share: f64| Estimate { value: rpm, low: rpm * (1.0 - share), high: rpm * (1.0 + share) };
    // Echoes delay each tone by its own few milliseconds; while the speed changes that is an error of speed.
    let delayed = refined.motion.sweep * ECHO_S / stretch_s;
    let sd = refined.white_share.hypot(delayed);
    let all = (sd * sd + (hearing.drift_sd_m_s / SOUND_M_S).powi(2) + CLOCK_SHARE * CLOCK_SHARE).sqrt();
    let head_rpm = around(1.96 * all);
    HeadSpeed {
        head_rpm,
        heard_rpm: around(1.96 * sd),
        tail_rpm: drive.tail.map(|tail| head_rpm.times(tail.per_main)),
        motor_rpm: drive.motor.map(|motor| head_rpm.times(motor.per_main)),
        mesh_hz: drive
            .meshes
            .iter()
            .map(|mesh| head_rpm.times(f64::from(mesh.teeth) * mesh.per_main / 60.0))
            .collect(),
        sweep_rpm_s: rpm * refined.motion.sweep / stretch_s,
        families: families(refined, lines),
        evidence_nats,
        margin_nats,
        level: stretch.level,
        stretch_s,
    }
}

fn families(refined: &Refined, lines: &[Line]) -> Vec<FamilyHeard> {
    let mut families: Vec<Family> = lines.iter().map(|line| line.family).collect();
    families.sort_unstable();
    families.dedup();
    let heard = |family: Family| {
        let of = lines.iter().zip(&refined.followed).filter(|(line, _)| line.family == family);
        let powers: Vec<Option<f64>> = of.map(|(_, power)| *power).collect();
        let loudest = powers.iter().flatten().copied().fold(0.0, f64::max);
        FamilyHeard {
            family,
            tones: powers.iter().flatten().count(),
            of: powers.len(),
            over_noise_db: 10.0 * loudest.log10(),
        }
    };
    families.into_iter().map(heard).collect()
}
