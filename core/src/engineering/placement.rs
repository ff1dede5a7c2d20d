//! Frequency placement: orders of rotors, blades, gears and motor over the head-speed range against measured natural frequencies.
//!
//! Every exciter follows the head speed by a fixed order: `f = order x rpm / 60`. Margins are in percent **of the natural
//! frequency**. Ten percent clear of every order is common practice without a source; the separation margins of API 684 depend on
//! the amplification factor and are offered beside it (as coded in an open rotor-dynamics library).

use serde::{Deserialize, Serialize};

use super::conflict::Conflict;
use super::drive::{DriveSpeeds, DriveTrain, drive_speeds};
use super::error::Result;
use super::grade::Grade;
use super::require::{count, ordered, within};

/// Margin between an order and a natural frequency, in percent of the natural frequency (common practice, no source).
pub const USUAL_MARGIN_PERCENT: f64 = 10.0;

/// Something that shakes in proportion to the head speed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Exciter {
    /// What it is.
    pub name: String,
    /// Frequency over head turns per second, 0.01 to 100000.
    pub order: f64,
}

/// A measured natural frequency.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NaturalFrequency {
    /// What swings.
    pub name: String,
    /// Frequency, in Hz, 0.1 to 20000.
    pub frequency_hz: f64,
    /// It is right within plus or minus this, in Hz, 0 to half the frequency.
    pub half_width_hz: f64,
}

/// The question: who shakes what, where.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PlacementQuestion {
    /// One to 40 exciters.
    pub exciters: Vec<Exciter>,
    /// One to 40 natural frequencies.
    pub naturals: Vec<NaturalFrequency>,
    /// Lowest head speed of interest, in rpm, 10 to 10000.
    pub low_rpm: f64,
    /// Highest head speed of interest, in rpm, above `low_rpm`.
    pub high_rpm: f64,
    /// Margin wanted, in percent of the natural frequency, 0 to 50.
    pub margin_percent: f64,
}

/// Where an order meets a natural frequency.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Crossing {
    /// Index of the exciter.
    pub exciter: usize,
    /// Index of the natural frequency.
    pub natural: usize,
    /// Head speed where they meet, in rpm.
    pub rpm: f64,
    /// Start of the head speeds to keep out of, in rpm: margin and accuracy together.
    pub blocked_low_rpm: f64,
    /// End of the head speeds to keep out of, in rpm.
    pub blocked_high_rpm: f64,
}

/// A band of head speed, in rpm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SpeedBand {
    /// Low end, in rpm.
    pub low_rpm: f64,
    /// High end, in rpm.
    pub high_rpm: f64,
}

/// Crossings and clear bands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PlacementReport {
    /// What went in.
    pub inputs: PlacementQuestion,
    /// Every crossing whose blocked band touches the range, by rising head speed.
    pub crossings: Vec<Crossing>,
    /// What is left of the range, by rising head speed.
    pub clear: Vec<SpeedBand>,
}

/// The exciters that a drive brings: once and twice per turn and blade passage of main and tail rotor, motor turns, electrical
/// frequency and every gear mesh.
///
/// # Errors
/// As [`drive_speeds`].
///
/// ```
/// use liftgate_core::engineering::{drive::{DriveTrain, GearStage}, placement::drive_exciters};
/// let train = DriveTrain { stages: vec![GearStage::gears(12, 120)], tail_ratio: 4.5, main_blades: 3, tail_blades: 2, pole_pairs: 5 };
/// let exciters = drive_exciters(&train)?;
/// assert!(exciters.iter().any(|e| e.name == "main blade passage" && (e.order - 3.0).abs() < 1e-12));
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn drive_exciters(train: &DriveTrain) -> Result<Vec<Exciter>> {
    // At 60 rpm the head turns once a second, so that frequencies are orders.
    let s: DriveSpeeds = drive_speeds(train, 60.0)?;
    let mut all = vec![
        ("main rotor, 1 per turn".to_owned(), s.head_hz),
        ("main rotor, 2 per turn".to_owned(), 2.0 * s.head_hz),
        ("main blade passage".to_owned(), s.main_blade_hz),
        ("main blade passage, twice".to_owned(), 2.0 * s.main_blade_hz),
        ("tail rotor, 1 per turn".to_owned(), s.tail_hz),
        ("tail blade passage".to_owned(), s.tail_blade_hz),
        ("motor, 1 per turn".to_owned(), s.motor_hz),
        ("motor, electrical".to_owned(), s.electrical_hz),
    ];
    for (i, mesh_hz) in s.mesh_hz.iter().enumerate() {
        all.push((format!("gear mesh {}", i + 1), *mesh_hz));
    }
    all.extend(s.idlers.iter().map(|idler| (format!("idler {}", idler.stage), idler.turns_hz)));
    all.extend(s.belts.iter().map(|belt| (format!("belt {}", belt.stage), belt.turns_hz)));
    // A shaft between two stages turns at the mesh over the teeth of what is driven.
    for (i, (stage, mesh_hz)) in train.stages.iter().zip(&s.mesh_hz).enumerate().take(train.stages.len() - 1) {
        all.push((format!("shaft {}", i + 1), mesh_hz / f64::from(stage.driven_teeth)));
    }
    // Two blades or a one-stage drive make equal orders: the first name stands for both.
    let mut exciters: Vec<Exciter> = Vec::new();
    for (name, order) in all {
        if !exciters.iter().any(|e| (e.order / order - 1.0).abs() < 1e-9) {
            exciters.push(Exciter { name, order });
        }
    }
    Ok(exciters)
}

/// Crossings of orders and natural frequencies, and the bands of head speed that keep clear of all of them.
///
/// # Errors
/// Figures out of range, empty lists, a range upside down.
///
/// # Validity
/// Natural frequencies measured at rest shift under rotation and load; blades stiffen as they turn.
///
/// ```
/// use liftgate_core::engineering::placement::*;
/// let report = placement(&PlacementQuestion {
///     exciters: vec![Exciter { name: "blade passage".into(), order: 3.0 }],
///     naturals: vec![NaturalFrequency { name: "boom".into(), frequency_hz: 60.0, half_width_hz: 0.0 }],
///     low_rpm: 900.0, high_rpm: 1500.0, margin_percent: USUAL_MARGIN_PERCENT })?;
/// assert!((report.crossings[0].rpm - 1200.0).abs() < 1e-9);
/// assert_eq!(report.clear.len(), 2);
/// assert!((report.clear[0].high_rpm - 1080.0).abs() < 1e-9 && (report.clear[1].low_rpm - 1320.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn placement(question: &PlacementQuestion) -> Result<PlacementReport> {
    check_question(question)?;
    let mut crossings = Vec::new();
    for (exciter, e) in question.exciters.iter().enumerate() {
        for (natural, n) in question.naturals.iter().enumerate() {
            let rpm_per_hz = 60.0 / e.order;
            let reach_hz = n.frequency_hz * question.margin_percent / 100.0 + n.half_width_hz;
            let crossing = Crossing {
                exciter,
                natural,
                rpm: n.frequency_hz * rpm_per_hz,
                blocked_low_rpm: (n.frequency_hz - reach_hz) * rpm_per_hz,
                blocked_high_rpm: (n.frequency_hz + reach_hz) * rpm_per_hz,
            };
            if crossing.blocked_high_rpm > question.low_rpm && crossing.blocked_low_rpm < question.high_rpm {
                crossings.push(crossing);
            }
        }
    }
    crossings.sort_by(|a, b| a.rpm.total_cmp(&b.rpm));
    Ok(PlacementReport { clear: clear_bands(question, &crossings), inputs: question.clone(), crossings })
}

fn check_question(question: &PlacementQuestion) -> Result<()> {
    count("exciters", question.exciters.len(), 1, 40)?;
    count("natural frequencies", question.naturals.len(), 1, 40)?;
    for e in &question.exciters {
        within("order", e.order, "per head turn", 0.01, 100_000.0)?;
    }
    for n in &question.naturals {
        within("natural frequency", n.frequency_hz, "Hz", 0.1, 20_000.0)?;
        within("accuracy of the natural frequency", n.half_width_hz, "Hz", 0.0, n.frequency_hz / 2.0)?;
    }
    within("lowest head speed", question.low_rpm, "rpm", 10.0, 10_000.0)?;
    within("highest head speed", question.high_rpm, "rpm", 10.0, 10_000.0)?;
    ordered(question.low_rpm, question.high_rpm, || Conflict::HeadSpeeds {
        low_rpm: question.low_rpm,
        high_rpm: question.high_rpm,
    })?;
    within("margin", question.margin_percent, "%", 0.0, 50.0)?;
    Ok(())
}

fn clear_bands(question: &PlacementQuestion, crossings: &[Crossing]) -> Vec<SpeedBand> {
    let mut blocked: Vec<(f64, f64)> = crossings.iter().map(|c| (c.blocked_low_rpm, c.blocked_high_rpm)).collect();
    blocked.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut clear = Vec::new();
    let mut from_rpm = question.low_rpm;
    for (low_rpm, high_rpm) in blocked {
        if low_rpm > from_rpm {
            clear.push(SpeedBand { low_rpm: from_rpm, high_rpm: low_rpm.min(question.high_rpm) });
        }
        from_rpm = from_rpm.max(high_rpm);
    }
    if from_rpm < question.high_rpm {
        clear.push(SpeedBand { low_rpm: from_rpm, high_rpm: question.high_rpm });
    }
    clear
}

/// The nearest order to a natural frequency at one head speed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct NearestOrder {
    /// Head speed, in rpm.
    pub head_rpm: f64,
    /// Index of the exciter.
    pub exciter: usize,
    /// Index of the natural frequency.
    pub natural: usize,
    /// The exciter's frequency, in Hz.
    pub exciter_hz: f64,
    /// The natural frequency, in Hz.
    pub natural_hz: f64,
    /// Distance less the natural frequency's accuracy, in percent of the natural frequency; negative when they may coincide.
    pub margin_percent: f64,
    /// Margin wanted, in percent.
    pub wanted_percent: f64,
    /// Stop under half the wanted margin, caution under it.
    pub grade: Grade,
}

/// The tightest pair of order and natural frequency at a head speed (10 to 10000 rpm).
///
/// # Errors
/// As [`placement`], or a head speed out of range.
///
/// ```
/// use liftgate_core::engineering::placement::*;
/// let question = PlacementQuestion {
///     exciters: vec![Exciter { name: "blade passage".into(), order: 3.0 }],
///     naturals: vec![NaturalFrequency { name: "boom".into(), frequency_hz: 60.0, half_width_hz: 0.0 }],
///     low_rpm: 900.0, high_rpm: 1500.0, margin_percent: USUAL_MARGIN_PERCENT };
/// assert!((nearest_order(&question, 1320.0)?.margin_percent - 10.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn nearest_order(question: &PlacementQuestion, head_rpm: f64) -> Result<NearestOrder> {
    check_question(question)?;
    within("head speed", head_rpm, "rpm", 10.0, 10_000.0)?;
    let mut nearest = pair(question, head_rpm, 0, 0);
    for exciter in 0..question.exciters.len() {
        for natural in 0..question.naturals.len() {
            let next = pair(question, head_rpm, exciter, natural);
            if next.margin_percent < nearest.margin_percent {
                nearest = next;
            }
        }
    }
    Ok(nearest)
}

fn pair(question: &PlacementQuestion, head_rpm: f64, exciter: usize, natural: usize) -> NearestOrder {
    let n = &question.naturals[natural];
    let exciter_hz = question.exciters[exciter].order * head_rpm / 60.0;
    let distance_hz = (exciter_hz - n.frequency_hz).abs() - n.half_width_hz;
    let margin_percent = 100.0 * distance_hz / n.frequency_hz;
    let wanted_percent = question.margin_percent;
    let grade = if margin_percent < wanted_percent / 2.0 {
        Grade::Stop
    } else if margin_percent < wanted_percent - 1e-9 {
        Grade::Caution
    } else {
        Grade::Ok
    };
    NearestOrder {
        head_rpm,
        exciter,
        natural,
        exciter_hz,
        natural_hz: n.frequency_hz,
        margin_percent,
        wanted_percent,
        grade,
    }
}

/// Separation margins by amplification factor, in percent of the critical speed: API 684, as coded in an open rotor-dynamics library.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct SeparationMargin {
    /// Running below the critical speed, in percent.
    pub below_percent: f64,
    /// Running above the critical speed, in percent.
    pub above_percent: f64,
}

/// API 684 separation margins for an amplification factor of 1 to 1000; none are asked for below 2.5.
///
/// # Errors
/// A factor out of range.
///
/// # Validity
/// Made for industrial machines; orientation only on a helicopter.
///
/// ```
/// let margin = liftgate_core::engineering::placement::separation_margin(10.0)?;
/// assert!((margin.below_percent - 25.0).abs() < 1e-9 && (margin.above_percent - 15.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn separation_margin(amplification_factor: f64) -> Result<SeparationMargin> {
    within("amplification factor", amplification_factor, "", 1.0, 1000.0)?;
    if amplification_factor < 2.5 {
        return Ok(SeparationMargin { below_percent: 0.0, above_percent: 0.0 });
    }
    let growth = 17.0 * (1.0 - 1.0 / (amplification_factor - 1.5));
    Ok(SeparationMargin { below_percent: (10.0 + growth).min(26.0), above_percent: growth.min(16.0) })
}

/// Magnification of a single mode at a frequency ratio (0 to 100) with a damping ratio (0.0001 to 2): `1 / sqrt((1 - r2)2 + (2 z r)2)`.
///
/// # Errors
/// Figures out of range.
///
/// ```
/// let m = liftgate_core::engineering::placement::magnification(1.0, 0.05)?;
/// assert!((m - 10.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn magnification(frequency_ratio: f64, damping_ratio: f64) -> Result<f64> {
    within("frequency ratio", frequency_ratio, "", 0.0, 100.0)?;
    within("damping ratio", damping_ratio, "", 0.0001, 2.0)?;
    let r2 = frequency_ratio * frequency_ratio;
    let swing = (1.0 - r2).powi(2) + (2.0 * damping_ratio * frequency_ratio).powi(2);
    Ok(1.0 / swing.sqrt())
}
