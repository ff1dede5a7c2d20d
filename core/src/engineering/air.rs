//! Standard atmosphere to 5 km, density from pressure, temperature and humidity, pressure and density altitude.
//!
//! Sources: US Standard Atmosphere 1976 (temperature, pressure, density, viscosity); density of moist air as the sum of dry air
//! and water vapour, both ideal; saturation pressure over water after Buck (1981). Altitudes here are *geopotential*:
//! at 1 km that differs from height on a ruler by 0.16 m. Checked to 1e-6 against the standard and to 0.05 % in density against a
//! meteorological library.

use serde::{Deserialize, Serialize};

use super::error::Result;
use super::require::within;

/// Standard sea-level temperature, in K.
pub const T0_K: f64 = 288.15;
/// Standard sea-level pressure, in Pa.
pub const P0_PA: f64 = 101_325.0;
/// Standard sea-level density, in kg/m3.
pub const RHO0_KG_M3: f64 = 1.225;
/// Standard gravity, in m/s2.
pub const G0_M_S2: f64 = 9.806_65;
/// Lapse rate of the lowest layer, in K/m.
const LAPSE_K_M: f64 = 0.0065;
/// Specific gas constant of dry air in the standard, in J/(kg K).
const R_DRY_J_KG_K: f64 = 287.052_87;
/// Specific gas constant of water vapour, in J/(kg K) (CODATA gas constant over 18.015268 g/mol).
const R_VAPOUR_J_KG_K: f64 = 461.523;
/// Radius of the earth in the standard's geopotential, in m.
const EARTH_RADIUS_M: f64 = 6_356_766.0;

/// Lowest altitude accepted, in m.
pub const ALTITUDE_LOW_M: f64 = -500.0;
/// Highest altitude accepted, in m.
pub const ALTITUDE_HIGH_M: f64 = 5000.0;

/// Air at one place and time.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Air {
    /// Static pressure, in Pa.
    pub pressure_pa: f64,
    /// Temperature, in deg C.
    pub temperature_c: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Density, in kg/m3.
    pub density_kg_m3: f64,
    /// Dynamic viscosity, in Pa s (Sutherland, as in the standard).
    pub viscosity_pa_s: f64,
    /// Speed of sound in dry air of this temperature, in m/s.
    pub sound_m_s: f64,
    /// Height in the standard atmosphere with this pressure, in m, geopotential.
    pub pressure_altitude_m: f64,
    /// Height in the standard atmosphere with this density, in m, geopotential.
    pub density_altitude_m: f64,
}

/// The standard atmosphere at a geopotential altitude, -500 to 5000 m.
///
/// # Errors
/// An altitude that is not a number or out of range.
///
/// ```
/// let air = liftgate_core::engineering::air::standard_air(1000.0)?;
/// // US Standard Atmosphere 1976: 281.650 K, 89874.57 Pa, 1.111642 kg/m3.
/// assert!((air.pressure_pa / 89_874.57 - 1.0).abs() < 1e-6);
/// assert!((air.density_kg_m3 / 1.111_642 - 1.0).abs() < 1e-6);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn standard_air(altitude_m: f64) -> Result<Air> {
    within("altitude", altitude_m, "m", ALTITUDE_LOW_M, ALTITUDE_HIGH_M)?;
    let temperature_k = T0_K - LAPSE_K_M * altitude_m;
    let exponent = G0_M_S2 / (R_DRY_J_KG_K * LAPSE_K_M);
    let pressure_pa = P0_PA * (temperature_k / T0_K).powf(exponent);
    Ok(state(pressure_pa, temperature_k, 0.0))
}

/// Air of a measured pressure, temperature and humidity.
///
/// `pressure_pa` is the pressure at the place (not reduced to sea level), 50000 to 110000 Pa; `temperature_c` -40 to 60; `humidity` 0 to 1.
///
/// # Errors
/// A figure that is not a number or out of range. A pressure given in hPa is out of range and says so.
///
/// ```
/// let air = liftgate_core::engineering::air::air(101_325.0, 30.0, 0.5)?;
/// assert!((air.density_altitude_m - 607.0).abs() < 5.0);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn air(pressure_pa: f64, temperature_c: f64, humidity: f64) -> Result<Air> {
    within("air pressure", pressure_pa, "Pa", 50_000.0, 110_000.0)?;
    within("air temperature", temperature_c, "deg C", -40.0, 60.0)?;
    within("relative humidity", humidity, "", 0.0, 1.0)?;
    Ok(state(pressure_pa, temperature_c + 273.15, humidity))
}

/// Air at a field of known elevation from the sea-level pressure that an aerodrome reports (QNH).
///
/// `qnh_pa` 87000 to 108500 Pa; `elevation_m` -500 to 5000 m; temperature and humidity as in [`air`].
///
/// # Errors
/// A figure that is not a number or out of range.
///
/// ```
/// let air = liftgate_core::engineering::air::air_from_qnh(101_325.0, 1000.0, 8.5, 0.0)?;
/// assert!((air.pressure_pa - 89_874.57).abs() < 0.1);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn air_from_qnh(qnh_pa: f64, elevation_m: f64, temperature_c: f64, humidity: f64) -> Result<Air> {
    within("QNH", qnh_pa, "Pa", 87_000.0, 108_500.0)?;
    within("elevation", elevation_m, "m", ALTITUDE_LOW_M, ALTITUDE_HIGH_M)?;
    // The altimeter's setting shifts the standard column in altitude, not in ratio.
    let shift_m = pressure_altitude(qnh_pa);
    let pressure_pa = standard_pressure(elevation_m + shift_m);
    air(pressure_pa, temperature_c, humidity)
}

/// Geopotential altitude from height on a ruler (geometric), both in m, -500 to 6000.
///
/// # Errors
/// A height that is not a number or out of range.
///
/// ```
/// let h_m = liftgate_core::engineering::air::geopotential_from_geometric(1000.0)?;
/// assert!((h_m - 999.843).abs() < 0.001);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn geopotential_from_geometric(height_m: f64) -> Result<f64> {
    within("height", height_m, "m", ALTITUDE_LOW_M, 6000.0)?;
    Ok(EARTH_RADIUS_M * height_m / (EARTH_RADIUS_M + height_m))
}

/// Density altitude of a density, in m geopotential; `density_kg_m3` 0.6 to 1.6.
///
/// # Errors
/// A density that is not a number or out of range.
///
/// ```
/// let h_m = liftgate_core::engineering::air::density_altitude(1.225)?;
/// assert!(h_m.abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn density_altitude(density_kg_m3: f64) -> Result<f64> {
    within("air density", density_kg_m3, "kg/m3", 0.6, 1.6)?;
    Ok(density_altitude_of(density_kg_m3))
}

/// Air from pressure, temperature and humidity, unchecked: dry air and vapour each fill the place at their own pressure.
fn state(pressure_pa: f64, temperature_k: f64, humidity: f64) -> Air {
    let temperature_c = temperature_k - 273.15;
    let vapour_pa = humidity * saturation_pressure(pressure_pa, temperature_c);
    let density_kg_m3 =
        (pressure_pa - vapour_pa) / (R_DRY_J_KG_K * temperature_k) + vapour_pa / (R_VAPOUR_J_KG_K * temperature_k);
    Air {
        pressure_pa,
        temperature_c,
        humidity,
        density_kg_m3,
        viscosity_pa_s: 1.458e-6 * temperature_k.powf(1.5) / (temperature_k + 110.4),
        sound_m_s: (1.4 * R_DRY_J_KG_K * temperature_k).sqrt(),
        pressure_altitude_m: pressure_altitude(pressure_pa),
        density_altitude_m: density_altitude_of(density_kg_m3),
    }
}

/// Vapour pressure of saturated air over water, in Pa (Buck 1981, with his enhancement factor).
fn saturation_pressure(pressure_pa: f64, temperature_c: f64) -> f64 {
    let enhancement = 1.0007 + 3.46e-8 * pressure_pa;
    enhancement * 611.21 * ((18.678 - temperature_c / 234.5) * temperature_c / (257.14 + temperature_c)).exp()
}

fn standard_pressure(altitude_m: f64) -> f64 {
    let exponent = G0_M_S2 / (R_DRY_J_KG_K * LAPSE_K_M);
    P0_PA * (1.0 - LAPSE_K_M * altitude_m / T0_K).powf(exponent)
}

fn pressure_altitude(pressure_pa: f64) -> f64 {
    let exponent = R_DRY_J_KG_K * LAPSE_K_M / G0_M_S2;
    T0_K / LAPSE_K_M * (1.0 - (pressure_pa / P0_PA).powf(exponent))
}

fn density_altitude_of(density_kg_m3: f64) -> f64 {
    let exponent = 1.0 / (G0_M_S2 / (R_DRY_J_KG_K * LAPSE_K_M) - 1.0);
    T0_K / LAPSE_K_M * (1.0 - (density_kg_m3 / RHO0_KG_M3).powf(exponent))
}

/// Checks an [`Air`] that somebody else may have put together.
pub(super) fn check_air(air: &Air) -> Result<()> {
    within("air pressure", air.pressure_pa, "Pa", 30_000.0, 120_000.0)?;
    within("air temperature", air.temperature_c, "deg C", -60.0, 60.0)?;
    within("relative humidity", air.humidity, "", 0.0, 1.0)?;
    within("air density", air.density_kg_m3, "kg/m3", 0.5, 1.8)?;
    within("air viscosity", air.viscosity_pa_s, "Pa s", 1e-5, 3e-5)?;
    within("speed of sound", air.sound_m_s, "m/s", 250.0, 400.0)?;
    within("pressure altitude", air.pressure_altitude_m, "m", -5000.0, 15_000.0)?;
    within("density altitude", air.density_altitude_m, "m", -9000.0, 15_000.0)?;
    Ok(())
}
