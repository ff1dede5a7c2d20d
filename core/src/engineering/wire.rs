//! Wire: resistance, voltage drop, heat and temperature of a run out and back, and the choice of wire and fuse.
//!
//! Sources: ASTM B258 for the gauge's diameter; IEC 60028 for copper's resistivity at 20 deg C and its temperature coefficient; FAA
//! AC 43.13-1B for the drop that is allowed continuously (0.5 V at 14 V, 1 V at 28 V), for real stranded, tinned
//! aircraft wire, which may have up to 27.2 % more resistance than solid copper, for the sizes that its currents are given for, and for
//! the insulations that it knows (105, 150 and 200 deg C, table 11-9); ISO 8820 for the steps of blade fuses (from memory). How warm a
//! wire gets is [`super::wire_heat`].

use serde::{Deserialize, Serialize};

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::require::within;
use super::wire_heat::Surface;

/// Resistivity of annealed copper at 20 deg C, in ohm mm2/m (IEC 60028).
pub const COPPER_OHM_MM2_M: f64 = 0.017_241;
/// Temperature coefficient of copper at 20 deg C, per K (IEC 60028).
pub const COPPER_PER_K: f64 = 0.003_93;
/// Most that stranding and tinning make of the resistance of solid copper, rounded up (FAA AC 43.13-1B, table 11-9 maxima: 1.272).
pub const STRANDED_FACTOR: f64 = 1.28;
/// Continuous drop allowed per volt of the source: 0.5 V at 14 V, 1 V at 28 V (FAA AC 43.13-1B).
pub const ALLOWED_DROP_FRACTION: f64 = 1.0 / 28.0;
/// Share of a fuse's rating that may flow continuously (common practice, no source).
pub const FUSE_CONTINUOUS_FRACTION: f64 = 0.75;
/// Coolest insulation of FAA AC 43.13-1B, table 11-9, in deg C: what a wire is held against that nothing is said of.
pub const USUAL_INSULATION_C: f64 = 105.0;
/// Hottest insulation of the same table, in deg C: what no wire may pass.
pub const BEST_INSULATION_C: f64 = 200.0;
/// Cross-sections that currents are known for, in mm2: sizes 24 to 0000 of the same table.
pub const KNOWN_AREAS_MM2: (f64, f64) = (0.204, 107.3);

/// Gauges that a wire is chosen from, thinnest first.
const CHOICE: [i32; 13] = [24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 0];

/// Steps of blade fuses, in A (ISO 8820, from memory).
const FUSES_A: [f64; 16] = [1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0];

/// Diameter of a gauge, in mm: `0.127 x 92^((36 - n) / 39)`; gauge -3 (0000) to 40.
///
/// # Errors
/// A gauge out of range.
///
/// ```
/// let d_mm = liftgate_core::engineering::wire::gauge_diameter_mm(36)?;
/// assert!((d_mm - 0.127).abs() < 1e-12);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn gauge_diameter_mm(gauge: i32) -> Result<f64> {
    within("wire gauge", f64::from(gauge), "AWG", -3.0, 40.0)?;
    Ok(0.127 * 92f64.powf(f64::from(36 - gauge) / 39.0))
}

/// Cross-section of a gauge, in mm2; gauge -3 (0000) to 40.
///
/// # Errors
/// A gauge out of range.
///
/// ```
/// let mm2 = liftgate_core::engineering::wire::gauge_area_mm2(10)?;
/// assert!((mm2 / 5.261 - 1.0).abs() < 1e-3);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn gauge_area_mm2(gauge: i32) -> Result<f64> {
    Ok(std::f64::consts::PI * gauge_diameter_mm(gauge)?.powi(2) / 4.0)
}

/// Resistance of a gauge in solid copper, in ohm per km, at a conductor temperature of -60 to 250 deg C.
///
/// # Errors
/// A gauge or a temperature out of range.
///
/// ```
/// let ohm = liftgate_core::engineering::wire::resistance_ohm_per_km(20, 20.0)?;
/// assert!((ohm / 33.3083 - 1.0).abs() < 1e-4);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn resistance_ohm_per_km(gauge: i32, conductor_c: f64) -> Result<f64> {
    within("conductor temperature", conductor_c, "deg C", -60.0, 250.0)?;
    Ok(1000.0 * copper_ohm_per_m(gauge_area_mm2(gauge)?, conductor_c))
}

fn copper_ohm_per_m(area_mm2: f64, conductor_c: f64) -> f64 {
    COPPER_OHM_MM2_M / area_mm2 * (1.0 + COPPER_PER_K * (conductor_c - 20.0))
}

/// A run of wire, out and back, the two side by side.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WireRun {
    /// Cross-section of the copper, in mm2, 0.001 to 120; of a gauge by [`gauge_area_mm2`].
    pub area_mm2: f64,
    /// Length one way, in m, 0.001 to 50; the current goes out and back.
    pub length_m: f64,
    /// Continuous current, in A, 0 to 1000.
    pub current_a: f64,
    /// Voltage of the source, in V, 1 to 100.
    pub source_v: f64,
    /// Temperature of the air round it, in deg C, -40 to 90.
    pub air_c: f64,
    /// What its insulation is rated for, in deg C, 60 to 300, where that is known.
    pub insulation_c: Option<f64>,
    /// Diameter over the insulation, in mm, at least that of the copper, at most 40, where it was measured.
    pub outside_mm: Option<f64>,
    /// Resistance over that of solid copper, 1 to 1.5; [`STRANDED_FACTOR`] is the careful choice.
    pub stranded_factor: f64,
}

impl WireRun {
    fn ohm_per_m(&self, conductor_c: f64) -> f64 {
        copper_ohm_per_m(self.area_mm2, conductor_c) * self.stranded_factor
    }

    /// What it is held against, in deg C.
    fn limit_c(&self) -> f64 {
        self.insulation_c.unwrap_or(USUAL_INSULATION_C)
    }

    fn is_known(&self) -> bool {
        (KNOWN_AREAS_MM2.0..=KNOWN_AREAS_MM2.1).contains(&self.area_mm2)
    }

    fn copper_mm(&self) -> f64 {
        (4.0 * self.area_mm2 / std::f64::consts::PI).sqrt()
    }

    /// Temperature of the copper, in deg C, and the current that holds it there, in A, where the surface is at `surface_c`.
    fn held_at(&self, surface_c: f64) -> (f64, f64) {
        let copper_m = self.copper_mm() / 1000.0;
        let outside_m = self.outside_mm.map_or(copper_m, |mm| mm / 1000.0);
        let (lost_w_per_m, copper_c) = Surface { copper_m, outside_m, air_c: self.air_c }.lost_w_per_m(surface_c);
        (copper_c, (lost_w_per_m.max(0.0) / self.ohm_per_m(copper_c)).sqrt())
    }

    /// The same at the last surface temperature that is not `too_hot`. All grows with the surface's temperature, the resistance of hot
    /// copper counted, so halving finds it.
    fn held_until(&self, too_hot: impl Fn(f64, f64) -> bool) -> (f64, f64) {
        let (mut low_c, mut high_c) = (self.air_c, HOTTEST_C);
        for _ in 0..50 {
            let middle_c = f64::midpoint(low_c, high_c);
            let (copper_c, current_a) = self.held_at(middle_c);
            if too_hot(copper_c, current_a) {
                high_c = middle_c;
            } else {
                low_c = middle_c;
            }
        }
        self.held_at(low_c)
    }

    /// Current that settles the copper at a temperature, in A.
    fn current_at(&self, settled_c: f64) -> f64 {
        self.held_until(|copper_c, _| copper_c > settled_c).1
    }

    /// Where the copper settles.
    fn warmth(&self) -> WireWarmth {
        if !self.is_known() {
            return WireWarmth::NotKnown;
        }
        let (conductor_c, _) = self.held_until(|_, current_a| current_a > self.current_a);
        if conductor_c >= HOTTEST_C - 0.01 {
            return WireWarmth::Burns { above_c: HOTTEST_C };
        }
        WireWarmth::Settles { conductor_c }
    }

    fn grade_of_warmth(&self, warmth: WireWarmth) -> Grade {
        match warmth {
            // What is not known is no pass.
            WireWarmth::NotKnown => Grade::Caution,
            WireWarmth::Burns { .. } => Grade::Stop,
            WireWarmth::Settles { conductor_c } => {
                let against = Grade::of_load(conductor_c - self.air_c, self.limit_c() - self.air_c, 0.8);
                if against == Grade::Stop && self.insulation_c.is_none() && conductor_c <= BEST_INSULATION_C {
                    return Grade::Caution;
                }
                against
            }
        }
    }
}

/// Hottest that is reckoned with, in deg C.
const HOTTEST_C: f64 = 300.0;

/// Where a wire's temperature settles.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum WireWarmth {
    /// A cross-section that no currents are known for.
    NotKnown,
    /// It stays at that.
    Settles {
        /// Temperature of the conductor, in deg C.
        conductor_c: f64,
    },
    /// It gets hotter than anything that insulates.
    Burns {
        /// Hotter than this, in deg C.
        above_c: f64,
    },
}

/// Drop, heat and temperature of a run.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WireReport {
    /// What went in.
    pub inputs: WireRun,
    /// Resistance out and back as warm as it gets (where that is not known, as warm as it is held against), in ohm.
    pub resistance_ohm: f64,
    /// Drop out and back, in V.
    pub drop_v: f64,
    /// Drop allowed continuously, in V.
    pub allowed_drop_v: f64,
    /// Room in the drop, in V; negative when too much.
    pub margin_v: f64,
    /// The same in percent of what is allowed.
    pub margin_percent: f64,
    /// Heat in the whole run, in W.
    pub heat_w: f64,
    /// Heat per metre of wire, in W/m.
    pub heat_w_per_m: f64,
    /// How warm it gets.
    pub warmth: WireWarmth,
    /// What that is held against, in deg C: its insulation's rating, [`USUAL_INSULATION_C`] where nothing is said of it.
    pub limit_c: f64,
    /// Current that settles it at that, in A; none where no currents are known.
    pub rated_a: Option<f64>,
    /// Grade of the drop: stop above what is allowed, caution above 80 % of it.
    pub drop_grade: Grade,
    /// Grade of the warmth: stop above the limit, caution above 80 % of the rise to it; caution too where nothing is known, or where
    /// nothing is said of the insulation and it must bear more than usual ones.
    pub warmth_grade: Grade,
    /// The worse of both.
    pub grade: Grade,
}

/// Voltage drop, heat and temperature of a run of wire that carries its current for as long as you like.
///
/// # Errors
/// Figures out of range.
///
/// # Validity
/// Two wires side by side in still air, far from others; in a bundle they get hotter, and what wind there is cools them. A lead of a
/// hand's length gives heat to what it is soldered to, too. Sizes 24 to 0000.
///
/// ```
/// use liftgate_core::engineering::wire::{gauge_area_mm2, wire_run, WireRun, WireWarmth};
/// let run = WireRun { area_mm2: gauge_area_mm2(10)?, length_m: 0.2, current_a: 60.0, source_v: 44.4, air_c: 40.0, insulation_c: Some(200.0), outside_mm: None, stranded_factor: 1.28 };
/// let WireWarmth::Settles { conductor_c } = wire_run(&run)?.warmth else { panic!("size 10 is known") };
/// assert!(conductor_c > 100.0 && conductor_c < 160.0);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn wire_run(run: &WireRun) -> Result<WireReport> {
    within("wire cross-section", run.area_mm2, "mm2", 0.001, 120.0)?;
    within("wire length", run.length_m, "m", 0.001, 50.0)?;
    within("wire current", run.current_a, "A", 0.0, 1000.0)?;
    within("source voltage", run.source_v, "V", 1.0, 100.0)?;
    within("air temperature", run.air_c, "deg C", -40.0, 90.0)?;
    within("insulation rating", run.limit_c(), "deg C", 60.0, 300.0)?;
    if let Some(outside_mm) = run.outside_mm {
        within("wire outside diameter", outside_mm, "mm", run.copper_mm(), 40.0)?;
    }
    within("stranded factor", run.stranded_factor, "", 1.0, 1.5)?;
    let warmth = run.warmth();
    let ohm_per_m = run.ohm_per_m(match warmth {
        WireWarmth::NotKnown => run.limit_c(),
        WireWarmth::Settles { conductor_c } => conductor_c,
        WireWarmth::Burns { above_c } => above_c,
    });
    let resistance_ohm = 2.0 * run.length_m * ohm_per_m;
    let drop_v = resistance_ohm * run.current_a;
    let allowed_drop_v = run.source_v * ALLOWED_DROP_FRACTION;
    let drop_grade = Grade::of_load(drop_v, allowed_drop_v, 0.8);
    let warmth_grade = run.grade_of_warmth(warmth);
    Ok(WireReport {
        inputs: *run,
        resistance_ohm,
        drop_v,
        allowed_drop_v,
        margin_v: allowed_drop_v - drop_v,
        margin_percent: 100.0 * (1.0 - drop_v / allowed_drop_v),
        heat_w: drop_v * run.current_a,
        heat_w_per_m: ohm_per_m * run.current_a * run.current_a,
        warmth,
        limit_c: run.limit_c(),
        rated_a: run.is_known().then(|| run.current_at(run.limit_c())),
        drop_grade,
        warmth_grade,
        grade: drop_grade.max(warmth_grade),
    })
}

/// A wire and a fuse for a load.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WireChoice {
    /// Its gauge.
    pub gauge: i32,
    /// The thinnest gauge that holds both current and drop, and carries the fuse.
    pub wire: WireReport,
    /// The fuse that protects it, in A: the load is at most [`FUSE_CONTINUOUS_FRACTION`] of it, and it is at most what the wire carries.
    /// None for a load past the largest blade fuse; the wire then carries the load with the same room.
    pub fuse_a: Option<f64>,
}

/// The thinnest wire and the fuse for a continuous load; `run.area_mm2` and `run.outside_mm` are not used.
///
/// # Errors
/// Figures out of range; a load for which no gauge from 24 to 0 will do.
///
/// # Validity
/// A fuse protects the wire, not the load; a motor's power leads are not fused in flight.
///
/// ```
/// use liftgate_core::engineering::wire::{choose_wire, WireRun, STRANDED_FACTOR};
/// let choice = choose_wire(&WireRun { area_mm2: 1.0, length_m: 0.5, current_a: 5.0, source_v: 8.4, air_c: 40.0, insulation_c: None, outside_mm: None, stranded_factor: STRANDED_FACTOR })?;
/// assert_eq!(choice.fuse_a, Some(7.5));
/// // 20 gauge loses 0.23 of 0.30 V; 22 would lose 0.37 V.
/// assert_eq!(choice.gauge, 20);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn choose_wire(run: &WireRun) -> Result<WireChoice> {
    within("wire current", run.current_a, "A", 0.0, 1000.0)?;
    let wanted_a = run.current_a / FUSE_CONTINUOUS_FRACTION;
    let fuse_a = FUSES_A.iter().copied().find(|fuse_a| wanted_a <= *fuse_a);
    for gauge in CHOICE {
        let wire = wire_run(&WireRun { area_mm2: gauge_area_mm2(gauge)?, outside_mm: None, ..*run })?;
        let carries = wire.rated_a.is_some_and(|rated_a| fuse_a.unwrap_or(wanted_a) <= rated_a);
        if carries && wire.margin_v >= 0.0 {
            return Ok(WireChoice { gauge, wire, fuse_a });
        }
    }
    Err(EngineeringError::from(Conflict::NoWire {
        current_a: run.current_a,
        length_m: run.length_m,
        source_v: run.source_v,
    }))
}
