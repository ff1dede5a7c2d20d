use statrs::distribution::{ContinuousCDF, StudentsT};

use crate::plan::Place;

use super::Flight;

/// Air that the limits of a place are thought for, degrees Celsius: what a place may rise to its caution is counted from here.
const LIMIT_AIR_C: f64 = 25.0;
/// A place that was never read: its rise over the air, of the rise to its caution, in the mean over aircraft, and how far aircraft
/// and flights of one aircraft differ (common practice, no source).
const USUAL: f64 = 0.45;
const AIRCRAFT_DIFFER: f64 = 0.30;
const FLIGHTS_DIFFER: f64 = 0.12;
/// Flights differ by this at the least, in K: a meter held by hand, a longer hover.
const LEAST_DIFFERENCE_K: f64 = 3.0;
/// Weight of what is known of flights in general, as flights flown.
const FLIGHTS_KNOWN: f64 = 4.0;
/// Nothing on board is colder than the air by more than its own thermometer is wrong, in K.
const BELOW_AIR_K: f64 = 4.0;
/// One reading in a hundred may be flagged in vain.
const OUTSIDE: f64 = 0.01;

/// Where a reading most likely lies. What lies outside is flagged and taken all the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// A slip of the finger or of the meter, by what was most likely meant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Slip {
    /// The decimal point is one place off.
    Tenfold {
        /// What was meant.
        meant: f64,
    },
    /// Two digits changed places.
    Swapped {
        /// What was meant.
        meant: f64,
    },
    /// Read in degrees Fahrenheit.
    Fahrenheit {
        /// The same in degrees Celsius.
        meant: f64,
    },
}

impl Band {
    /// Where a temperature right after a flight most likely lies, degrees Celsius.
    ///
    /// `rises_k` are what the place read over the air after earlier flights. The band is the 99 % posterior predictive
    /// interval of a normal rise with unknown mean and scatter under a conjugate prior (Gelman and others, Bayesian Data
    /// Analysis, 3rd edition, section 3.3): wide for a new aircraft, closer with every landing.
    pub fn of_temperature(caution_above_c: f64, air_c: f64, rises_k: &[f64]) -> Band {
        let room_k = (caution_above_c - LIMIT_AIR_C).max(10.0);
        let within_k = (FLIGHTS_DIFFER * room_k).max(LEAST_DIFFERENCE_K);
        let weight = (within_k / (AIRCRAFT_DIFFER * room_k)).powi(2);
        let n = rises_k.len() as f64;
        let mean = if rises_k.is_empty() { 0.0 } else { rises_k.iter().sum::<f64>() / n };
        let spread: f64 = rises_k.iter().map(|rise| (rise - mean).powi(2)).sum();
        let prior_mean = USUAL * room_k;
        let known = weight + n;
        let centre_k = (weight * prior_mean + n * mean) / known;
        let shape = FLIGHTS_KNOWN / 2.0 + n / 2.0;
        let scale = FLIGHTS_KNOWN / 2.0 * within_k.powi(2)
            + spread / 2.0
            + weight * n * (mean - prior_mean).powi(2) / (2.0 * known);
        let deviation_k = (scale * (known + 1.0) / (shape * known)).sqrt();
        let reach_k = deviation_k * quantile(2.0 * shape);
        let low = (air_c + centre_k - reach_k).max(air_c - BELOW_AIR_K);
        Band { low, high: (air_c + centre_k + reach_k).max(low) }
    }

    /// Whether a reading lies within, ends counted in.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// What was most likely meant by a temperature outside, if a usual slip explains it.
    pub fn slip(&self, value: f64) -> Option<Slip> {
        if self.holds(value) {
            return None;
        }
        let fahrenheit = (value - 32.0) / 1.8;
        let tenfold = [value / 10.0, value * 10.0].into_iter().find(|meant| self.holds(*meant));
        let swapped = swapped(value).filter(|meant| self.holds(*meant));
        // Most readings that are far too high were read off a meter set to the other scale.
        Some(fahrenheit)
            .filter(|meant| self.holds(*meant))
            .map(|meant| Slip::Fahrenheit { meant })
            .or(swapped.map(|meant| Slip::Swapped { meant }))
            .or(tenfold.map(|meant| Slip::Tenfold { meant }))
    }
}

/// Half width of the central interval that leaves [`OUTSIDE`], in deviations.
fn quantile(freedom: f64) -> f64 {
    StudentsT::new(0.0, 1.0, freedom).map_or(5.0, |t| t.inverse_cdf(1.0 - OUTSIDE / 2.0))
}

/// A number of two digits before the point with these two the other way round.
fn swapped(value: f64) -> Option<f64> {
    let whole = value.abs().trunc();
    (10.0..100.0).contains(&whole).then(|| {
        let (tens, ones) = ((whole / 10.0).trunc(), whole % 10.0);
        (ones * 10.0 + tens + value.abs().fract()).copysign(value)
    })
}

/// Where a place's temperature after this flight most likely lies, from the landings before it.
pub fn temperature_band(flights: &[Flight], flight: &Flight, place: &Place) -> Band {
    let earlier = flights.iter().take_while(|other| other.card != flight.card);
    let rises: Vec<f64> = earlier.filter_map(|other| Some(other.hottest_reading(&place.id)? - other.air_c)).collect();
    Band::of_temperature(place.caution_above_c, flight.air_c, &rises)
}
