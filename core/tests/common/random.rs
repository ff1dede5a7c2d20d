//! A small generator with a fixed seed (splitmix64, Steele, Lea and Flood 2014), so that a failure repeats.
#![allow(dead_code, missing_docs)]

pub struct Random(pub u64);

impl Random {
    pub fn uniform(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^= z >> 31;
        low + (high - low) * ((z >> 11) as f64 / (1u64 << 53) as f64)
    }

    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.uniform(1e-12, 1.0).ln()).sqrt();
        radius * self.uniform(0.0, std::f64::consts::TAU).cos()
    }
}
