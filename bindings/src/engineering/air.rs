//! Air: the standard atmosphere, density and density altitude.

use liftgate_core::engineering::air::{self, Air};

use crate::Result;

#[uniffi::remote(Record)]
pub struct Air {
    pub pressure_pa: f64,
    pub temperature_c: f64,
    pub humidity: f64,
    pub density_kg_m3: f64,
    pub viscosity_pa_s: f64,
    pub sound_m_s: f64,
    pub pressure_altitude_m: f64,
    pub density_altitude_m: f64,
}

/// The standard atmosphere at a geopotential altitude, -500 to 5000 m.
#[uniffi::export]
pub fn standard_air(altitude_m: f64) -> Result<Air> {
    Ok(air::standard_air(altitude_m)?)
}

/// Air of a measured pressure, temperature and humidity.
#[uniffi::export]
pub fn air_of(pressure_pa: f64, temperature_c: f64, humidity: f64) -> Result<Air> {
    Ok(air::air(pressure_pa, temperature_c, humidity)?)
}

/// Air at a field of known elevation from the sea-level pressure that an aerodrome reports (QNH).
#[uniffi::export]
pub fn air_from_qnh(qnh_pa: f64, elevation_m: f64, temperature_c: f64, humidity: f64) -> Result<Air> {
    Ok(air::air_from_qnh(qnh_pa, elevation_m, temperature_c, humidity)?)
}

/// Geopotential altitude from height on a ruler (geometric), both in m, -500 to 6000.
#[uniffi::export]
pub fn geopotential_from_geometric(height_m: f64) -> Result<f64> {
    Ok(air::geopotential_from_geometric(height_m)?)
}

/// Density altitude of a density, in m geopotential; `density_kg_m3` 0.6 to 1.6.
#[uniffi::export]
pub fn density_altitude(density_kg_m3: f64) -> Result<f64> {
    Ok(air::density_altitude(density_kg_m3)?)
}
