//! What was jotted after a landing and is odd: asked about before it is recorded, and recorded as so where the person says so.

use super::Flight;
use super::charge::{held_mah, left_percent, reserve_percent};
use super::lifting::least_lifting_a;
use crate::aircraft::Aircraft;
use crate::plan::Motion;
use crate::record::{Odd, Reading};

/// Nothing on board is colder than the air by more than its own thermometer is wrong, K (common practice, no source).
const BELOW_AIR_K: f64 = 4.0;
/// After a run, the warmest part is this much over the air at the least, K (common practice, no source).
const LEAST_RISE_K: f64 = 2.0;
/// Runs shorter than this need not warm anything, s.
const WARMS_AFTER_S: i64 = 60;
/// A run takes this much a minute at the least, milliampere hours: less than a drive of this size takes with no blades on (common
/// practice, no source).
const LEAST_MAH_A_MINUTE: f64 = 10.0;
/// Runs shorter than this need not show on a charger, s.
const SHOWS_AFTER_S: i64 = 30;

/// Something odd about what was jotted, with what it is held against.
#[derive(Debug, Clone, PartialEq)]
pub enum Doubt {
    /// More charge than the pack holds.
    ChargeOverPack {
        /// As read, milliampere hours.
        used_mah: f64,
        /// What it holds, milliampere hours.
        holds_mah: f64,
    },
    /// Less charge left than the reserve.
    ChargeUnderReserve {
        /// What is left, percent.
        left_percent: f64,
        /// The reserve, percent.
        reserve_percent: f64,
    },
    /// As good as no charge, or less than lifting takes, after so many seconds with the motor on.
    NoCharge {
        /// As read, milliampere hours.
        used_mah: f64,
        /// Seconds flown.
        flown_s: i64,
        /// What lifting the aircraft for so long takes at the least, milliampere hours; none of a run on the ground.
        least_mah: Option<f64>,
    },
    /// A part colder than the air.
    BelowAir {
        /// The place of the plan.
        place: String,
        /// As read, degrees Celsius.
        celsius: f64,
    },
    /// No part warmer than the air, after so many seconds with the motor on.
    NoWarmerThanAir {
        /// The warmest that was read, degrees Celsius.
        warmest_c: f64,
        /// Seconds flown.
        flown_s: i64,
    },
}

impl Doubt {
    /// Its kind, as it is recorded.
    pub fn kind(&self) -> Odd {
        match self {
            Doubt::ChargeOverPack { .. } => Odd::ChargeOverPack,
            Doubt::ChargeUnderReserve { .. } => Odd::ChargeUnderReserve,
            Doubt::NoCharge { .. } => Odd::NoCharge,
            Doubt::BelowAir { .. } => Odd::BelowAir,
            Doubt::NoWarmerThanAir { .. } => Odd::NoWarmerThanAir,
        }
    }

    /// What it is about, exactly: another reading is another doubt.
    pub fn key(&self) -> String {
        match self {
            Doubt::ChargeOverPack { used_mah, .. } => format!("over:{used_mah}"),
            Doubt::ChargeUnderReserve { left_percent, .. } => format!("reserve:{left_percent}"),
            Doubt::NoCharge { used_mah, .. } => format!("none:{used_mah}"),
            Doubt::BelowAir { place, celsius } => format!("cold:{place}:{celsius}"),
            Doubt::NoWarmerThanAir { warmest_c, .. } => format!("no-warmer:{warmest_c}"),
        }
    }
}

/// What is odd about this charge and these readings of a flight of this motion. A reading that came too late is none of touchdown, and not held against
/// the air.
pub fn doubts(
    aircraft: &Aircraft,
    flight: &Flight,
    motion: Motion,
    used_mah: Option<f64>,
    readings: &[Reading],
) -> Vec<Doubt> {
    let flown_s = flight.motor_ms / 1_000;
    let mut doubts: Vec<Doubt> =
        used_mah.and_then(|used_mah| of_charge(aircraft, flight, motion, used_mah)).into_iter().collect();
    let in_time = || readings.iter().filter(|reading| !flight.is_too_late(reading));
    doubts.extend(
        in_time()
            .filter(|reading| reading.celsius < flight.air_c - BELOW_AIR_K)
            .map(|reading| Doubt::BelowAir { place: reading.place.clone(), celsius: reading.celsius }),
    );
    let warmest_c = in_time().map(|reading| reading.celsius).max_by(f64::total_cmp);
    let cool = warmest_c.filter(|warmest_c| {
        doubts.is_empty() && flown_s >= WARMS_AFTER_S && *warmest_c < flight.air_c + LEAST_RISE_K
    });
    doubts.extend(cool.map(|warmest_c| Doubt::NoWarmerThanAir { warmest_c, flown_s }));
    doubts
}

fn of_charge(aircraft: &Aircraft, flight: &Flight, motion: Motion, used_mah: f64) -> Option<Doubt> {
    let flown_s = flight.motor_ms / 1_000;
    if let Some(holds_mah) = held_mah(aircraft, flight).filter(|holds_mah| used_mah > *holds_mah) {
        return Some(Doubt::ChargeOverPack { used_mah, holds_mah });
    }
    let flown_min = flown_s as f64 / 60.0;
    let least_mah =
        least_lifting_a(aircraft, motion, flight.air_c).map(|least_a| least_a * 1_000.0 / 60.0 * flown_min);
    let least_of_all_mah = least_mah.unwrap_or(0.0).max(LEAST_MAH_A_MINUTE * flown_min);
    if flown_s >= SHOWS_AFTER_S && used_mah < least_of_all_mah {
        return Some(Doubt::NoCharge { used_mah, flown_s, least_mah });
    }
    let reserve_percent = reserve_percent(aircraft);
    let left_percent = left_percent(aircraft, flight, used_mah)?;
    (left_percent < reserve_percent).then_some(Doubt::ChargeUnderReserve { left_percent, reserve_percent })
}
