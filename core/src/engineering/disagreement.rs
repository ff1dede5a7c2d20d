//! Why a flight was not as predicted: the causes that its own figures support, and none that they do not.
//!
//! A prediction holds the aircraft's model against what was flown before. Where a reading lies outside of its interval, the other readings
//! of the same flight tell some causes apart:
//!
//! - Another head speed than the one set: profile power goes with the cube of the head speed, induced power hardly moves (momentum
//!   theory, J. G. Leishman, "Principles of Helicopter Aerodynamics", chapter 2). So the prediction is made again at the speed that was
//!   read: what that explains is the speed's, and the speed is set through the ratio of the drive.
//! - Drag in the drive: more power than predicted, also at the speed that was read.
//! - A tired pack: as much power as predicted at a voltage under load that is lower than with the hovers before, and so more current; or a
//!   resistance far above the new pack's. More current at the voltage that was predicted is drag: power is their product.
//! - Too little air: a part warmer than predicted, with no more power than predicted.
//! - Hot air: warmer than any air flown in before, so that the fit has not seen it.
//!
//! Wind, a slipping pilot's hand and a wrong meter leave no trace in these figures; what nothing explains is told as such.

use serde::{Deserialize, Serialize};

use super::error::Result;
use super::require::within;

/// A head speed this near to what was set is as set, as a share (common practice, no source).
pub const SPEED_TOLERANCE: f64 = 0.02;
/// A pack of this many times its resistance when new is tired (common practice, no source).
pub const TIRED_RATIO: f64 = 1.5;
/// Air this much above the warmest flown in is new to the fit, K (common practice, no source).
pub const NEW_AIR_K: f64 = 5.0;
/// Less than this part of a disagreement explains nothing.
const LEAST_SHARE: f64 = 0.25;

/// A reading held against its prediction.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Held {
    /// What was predicted.
    pub predicted: f64,
    /// Lower end of the prediction's 95 % interval.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// What was read.
    pub measured: f64,
}

/// How a reading lies to its interval.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Lies {
    /// Below it.
    Below,
    /// Inside.
    Within,
    /// Above it.
    Above,
}

impl Held {
    /// How the reading lies.
    pub fn lies(&self) -> Lies {
        match self.measured {
            measured if measured > self.high => Lies::Above,
            measured if measured < self.low => Lies::Below,
            _ => Lies::Within,
        }
    }

    /// Measured less predicted, as a share of the prediction.
    pub fn off(&self) -> f64 {
        (self.measured - self.predicted) / self.predicted
    }

    fn check(&self) -> Result<()> {
        for value in [self.predicted, self.low, self.high] {
            within("predicted draw", value, "", 1e-6, 1e7)?;
        }
        within("measured draw", self.measured, "", 0.0, 1e7)?;
        within("width of an interval", self.high - self.low, "", 0.0, 1e7)?;
        Ok(())
    }
}

/// A head speed that was set, and the one that was read, in rpm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct HeadSpeed {
    /// As set, 50 to 10000.
    pub set_rpm: f64,
    /// As read, 50 to 10000.
    pub read_rpm: f64,
}

/// A pack's resistance, in ohm, 1e-5 to 10.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PackResistance {
    /// When it was new.
    pub new_ohm: f64,
    /// Now, the lower end of what is known of it.
    pub least_now_ohm: f64,
}

/// A part's temperature, held against its prediction, in deg C.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PartHeat {
    /// Which part.
    pub part: String,
    /// Its temperature; read and predicted above the air.
    pub celsius: Held,
}

/// What a flight showed.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// Power in the hover in W; where no voltage was logged, current in A: both go alike.
    pub draw: Option<Held>,
    /// The same, predicted for the head speed that was read.
    pub draw_at_read_speed: Option<Held>,
    /// Current in A, where `draw` is power.
    pub current: Option<Held>,
    /// Voltage under load in V, where `draw` is power.
    pub voltage: Option<Held>,
    /// Head speed.
    pub head_speed: Option<HeadSpeed>,
    /// The pack.
    pub resistance: Option<PackResistance>,
    /// Parts whose temperature was read.
    pub parts: Vec<PartHeat>,
    /// Air of this flight, in deg C, -40 to 60.
    pub air_c: f64,
    /// The warmest air flown in before, in deg C, -40 to 60; none on the first flight.
    pub warmest_before_c: Option<f64>,
}

/// A cause that the figures support.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Cause {
    /// Drag somewhere between motor and rotor.
    DriveDrag {
        /// Draw beyond the prediction at the head speed that was read, as a share of it.
        extra: f64,
    },
    /// The rotor does not turn as fast as was set: the ratio or the governor's setting is another than was entered.
    HeadSpeedOff {
        /// Read over set, less one.
        off: f64,
        /// Which part of the disagreement it explains, 0 to 1; none where only the speed itself disagrees.
        explains: Option<f64>,
    },
    /// The pack gives less voltage than it should.
    TiredPack {
        /// Its resistance over new, at least, where known.
        ratio: Option<f64>,
        /// Current beyond the prediction at a power that is as predicted, as a share of it.
        extra_current: Option<f64>,
    },
    /// A part is not cooled as it was.
    LittleAir {
        /// The part.
        part: String,
        /// Its rise above the air over the predicted one.
        rise_ratio: f64,
    },
    /// Air warmer than any that the fit has seen.
    HotAir {
        /// By how much, in K.
        above_k: f64,
    },
}

/// The causes that the figures of a flight support, the one that explains most first; empty where all is as predicted, and where nothing
/// of what was read explains it.
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// A hover. Causes are likely, not proved: each is something to look at before the next flight.
///
/// ```
/// use liftgate_core::engineering::disagreement::{Cause, Held, HeadSpeed, Shown, likely_causes};
/// let held = |measured| Held { predicted: 1200.0, low: 1120.0, high: 1280.0, measured };
/// let shown = Shown {
///     draw: Some(held(1400.0)),
///     draw_at_read_speed: Some(held(1400.0)),
///     head_speed: Some(HeadSpeed { set_rpm: 1100.0, read_rpm: 1102.0 }),
///     air_c: 20.0,
///     ..Shown::default()
/// };
/// assert!(matches!(likely_causes(&shown)?[..], [Cause::DriveDrag { .. }]));
/// assert!(likely_causes(&Shown { draw: Some(held(1250.0)), ..shown })?.is_empty());
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn likely_causes(shown: &Shown) -> Result<Vec<Cause>> {
    shown.check()?;
    if !shown.disagrees() {
        return Ok(Vec::new());
    }
    let mut causes: Vec<(f64, Cause)> = Vec::new();
    causes.extend(shown.head_speed_off());
    causes.extend(shown.drive_drag());
    causes.extend(shown.tired_pack());
    causes.extend(shown.little_air());
    causes.extend(shown.hot_air());
    causes.sort_by(|a, b| b.0.total_cmp(&a.0));
    Ok(causes.into_iter().map(|(_, cause)| cause).collect())
}

impl Shown {
    fn check(&self) -> Result<()> {
        for held in [self.draw, self.draw_at_read_speed, self.current, self.voltage].into_iter().flatten() {
            held.check()?;
        }
        for part in &self.parts {
            for celsius in [part.celsius.predicted, part.celsius.low, part.celsius.high, part.celsius.measured] {
                within("temperature of a part", celsius, "deg C", -60.0, 500.0)?;
            }
        }
        if let Some(speed) = self.head_speed {
            within("head speed set", speed.set_rpm, "rpm", 50.0, 10_000.0)?;
            within("head speed read", speed.read_rpm, "rpm", 50.0, 10_000.0)?;
        }
        if let Some(pack) = self.resistance {
            within("resistance of the new pack", pack.new_ohm, "ohm", 1e-5, 10.0)?;
            within("resistance of the pack", pack.least_now_ohm, "ohm", 0.0, 10.0)?;
        }
        within("air", self.air_c, "deg C", -40.0, 60.0)?;
        self.warmest_before_c.map_or(Ok(()), |air_c| within("air before", air_c, "deg C", -40.0, 60.0).map(|_| ()))
    }

    /// Whether anything lies outside of its prediction.
    fn disagrees(&self) -> bool {
        let drawn = self.draw.iter().chain(&self.current).chain(&self.voltage);
        let held = drawn.chain(self.parts.iter().map(|part| &part.celsius));
        held.into_iter().any(|held| held.lies() != Lies::Within) || self.speed_is_off()
    }

    fn speed_off(&self) -> Option<f64> {
        self.head_speed.map(|speed| speed.read_rpm / speed.set_rpm - 1.0)
    }

    fn speed_is_off(&self) -> bool {
        self.speed_off().is_some_and(|off| off.abs() > SPEED_TOLERANCE)
    }

    fn head_speed_off(&self) -> Option<(f64, Cause)> {
        let off = self.speed_off().filter(|off| off.abs() > SPEED_TOLERANCE)?;
        let explains = self.draw.filter(|draw| draw.lies() != Lies::Within).and_then(|draw| {
            let at_read = self.draw_at_read_speed?;
            Some((at_read.predicted - draw.predicted) / (draw.measured - draw.predicted))
        });
        match explains {
            // The speed is off, the other way: it explains nothing, and is still to be mended.
            Some(share) if share < LEAST_SHARE => Some((0.1, Cause::HeadSpeedOff { off, explains: None })),
            Some(share) => {
                let share = share.min(1.0);
                Some((share, Cause::HeadSpeedOff { off, explains: Some(share) }))
            }
            None => Some((0.5, Cause::HeadSpeedOff { off, explains: None })),
        }
    }

    fn drive_drag(&self) -> Option<(f64, Cause)> {
        let draw = self.draw.filter(|draw| draw.lies() == Lies::Above)?;
        let fair = match self.draw_at_read_speed {
            Some(at_read) if self.speed_is_off() => at_read,
            _ => draw,
        };
        if fair.lies() != Lies::Above {
            return None;
        }
        let share = (fair.measured - fair.predicted) / (draw.measured - draw.predicted);
        Some((share.clamp(LEAST_SHARE, 1.0), Cause::DriveDrag { extra: fair.off() }))
    }

    fn tired_pack(&self) -> Option<(f64, Cause)> {
        let power_agrees = self.draw.is_some_and(|draw| draw.lies() == Lies::Within);
        let voltage_low = self.voltage.is_some_and(|voltage| voltage.lies() == Lies::Below);
        let extra_current = self.current.filter(|_| power_agrees && voltage_low).map(|current| current.off());
        let ratio = self.resistance.map(|pack| pack.least_now_ohm / pack.new_ohm);
        let ratio = ratio.filter(|ratio| *ratio >= TIRED_RATIO);
        let weight = match (extra_current, ratio) {
            (Some(_), Some(_)) => 1.0,
            (Some(_), None) => 0.8,
            (None, Some(_)) => 0.4,
            (None, None) => return None,
        };
        Some((weight, Cause::TiredPack { ratio, extra_current }))
    }

    fn little_air(&self) -> Option<(f64, Cause)> {
        // More power heats every part: then the heat follows from that, and says nothing of the air.
        if self.draw.is_none_or(|draw| draw.lies() == Lies::Above) {
            return None;
        }
        let rise = |part: &PartHeat| {
            let predicted_k = part.celsius.predicted - self.air_c;
            (predicted_k > 1.0 && part.celsius.lies() == Lies::Above)
                .then(|| (part.celsius.measured - self.air_c) / predicted_k)
        };
        let warmest = self.parts.iter().filter_map(|part| Some((part, rise(part)?)));
        let (part, rise_ratio) = warmest.max_by(|a, b| a.1.total_cmp(&b.1))?;
        Some((0.9, Cause::LittleAir { part: part.part.clone(), rise_ratio }))
    }

    fn hot_air(&self) -> Option<(f64, Cause)> {
        let above_k = self.air_c - self.warmest_before_c?;
        let more = self.draw.iter().chain(self.parts.iter().map(|part| &part.celsius));
        let anything_above = more.into_iter().any(|held| held.lies() == Lies::Above);
        (above_k >= NEW_AIR_K && anything_above).then_some((0.3, Cause::HotAir { above_k }))
    }
}
