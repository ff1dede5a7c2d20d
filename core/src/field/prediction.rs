//! How the charge that a flight took lies to what was predicted: the one place that judges it.

use crate::engineering::disagreement::{Held, Lies};
use crate::record::Prediction;

impl Prediction {
    /// A charge held against it.
    pub fn held(&self, used_mah: f64) -> Held {
        Held { predicted: self.used_mah, low: self.low_mah, high: self.high_mah, measured: used_mah }
    }

    /// Whether a charge lies within its interval, ends counted in.
    pub fn holds(&self, used_mah: f64) -> bool {
        self.held(used_mah).lies() == Lies::Within
    }

    /// Whether a charge lies outside by more than the interval's own width (common practice, no source; an interval that holds 95 % is
    /// about four standard deviations wide, so that this is six from the middle).
    pub fn is_far_from(&self, used_mah: f64) -> bool {
        let width_mah = (self.high_mah - self.low_mah).max(0.0);
        used_mah > self.high_mah + width_mah || used_mah < self.low_mah - width_mah
    }
}

#[cfg(test)]
mod tests {
    use crate::engineering::disagreement::Lies;
    use crate::record::Prediction;

    fn predicted() -> Prediction {
        Prediction { used_mah: 2_000.0, low_mah: 1_800.0, high_mah: 2_300.0, from: String::new() }
    }

    #[test]
    fn a_charge_at_either_end_is_as_predicted_and_one_beyond_is_not() {
        for (used_mah, lies) in [
            (1_799.0, Lies::Below),
            (1_800.0, Lies::Within),
            (2_000.0, Lies::Within),
            (2_300.0, Lies::Within),
            (2_301.0, Lies::Above),
        ] {
            assert_eq!(predicted().held(used_mah).lies(), lies, "{used_mah}");
            assert_eq!(predicted().holds(used_mah), lies == Lies::Within, "{used_mah}");
        }
    }

    #[test]
    fn a_charge_is_far_off_where_the_interval_would_fit_in_between_once_more() {
        for (used_mah, is_far) in
            [(1_299.0, true), (1_300.0, false), (2_000.0, false), (2_800.0, false), (2_801.0, true)]
        {
            assert_eq!(predicted().is_far_from(used_mah), is_far, "{used_mah}");
        }
    }
}
