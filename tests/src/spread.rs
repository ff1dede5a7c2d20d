//! Numbers that are spread without a pattern, the same every time for the same beginning.

/// The generator SplitMix64 (Steele, Lea and Flood 2014, "Fast Splittable Pseudorandom Number Generators").
#[derive(Debug, Clone)]
pub struct Spread(u64);

impl Spread {
    /// One that begins here.
    pub fn from(seed: u64) -> Spread {
        Spread(seed)
    }

    /// The next number.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// The next number, below this one.
    pub fn below(&mut self, end: u64) -> u64 {
        self.number() % end.max(1)
    }

    /// Heads or tails.
    pub fn coin(&mut self) -> bool {
        self.number() & 1 == 0
    }
}
