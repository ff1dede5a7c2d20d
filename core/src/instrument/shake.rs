//! Shake: what turns with the drive in an accelerometer's readings, as velocity.
//!
//! A phone's accelerometer is read at uneven moments, some of which are missing. Nothing is resampled: sines and cosines of the known orders are
//! fitted by least squares at the moments at which it was read, all at once, with a constant and a straight line for gravity and tilt. The
//! readings are cut into pieces, since a rotor holds its phase for seconds and not for minutes; each piece gives every order's
//! amplitude, and its speed is searched near the one that is given, where the orders take up the most of the shake.
//!
//! From acceleration to velocity each order is divided by its own angular frequency, so no drift is integrated. Uneven moments fold nothing
//! sharply, but a phone's rate is nearly even: an order above half of it appears at another frequency, and is told as such.

use std::f64::consts::{SQRT_2, TAU};

use nalgebra::{Cholesky, DMatrix, DVector};
use statrs::distribution::{ContinuousCDF, FisherSnedecor};

use super::error::Result;
use super::orders::{Drive, Order};
use super::require::{count, rising, within};

/// Length of a piece, in seconds.
const PIECE_S: f64 = 2.0;
/// Fewest pieces that a result is made of.
const FEWEST_PIECES: usize = 3;
/// Least share of the readings that must be there in a piece that counts.
const LEAST_READ: f64 = 0.5;
/// Share of half the rate up to which an order is taken: nearer to it the sensor's own filter has taken some of it off.
const USABLE: f64 = 0.9;
/// Two orders nearer than so many turns over a piece are not told apart.
const APART_TURNS: f64 = 1.5;
/// Lowest frequency that is taken, in Hz: below it a tilt of the phone shakes more than the aircraft. Common practice, no source.
const LOW_HZ: f64 = 4.0;
/// Chance that an order which is not there is called found.
const FOUND_BY_CHANCE: f64 = 0.01;
/// Multiples of each family that are looked at.
const HARMONICS: u32 = 2;

/// Readings of an accelerometer.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// Moments of the readings, in ns, rising.
    pub t_ns: Vec<i64>,
    /// Accelerations along the phone's three axes, in m/s².
    pub m_s2: Vec<[f64; 3]>,
}

/// What is said of an order.
#[derive(Debug, Clone, PartialEq)]
pub enum Seen {
    /// It is in the readings.
    Found(Shaking),
    /// It does not stand out of the noise; its velocity is below this, in mm/s rms.
    Below {
        /// The velocity that would have been found with near certainty.
        mm_s: f64,
    },
    /// It lies beyond what the sensor sees at its rate. It appears at another frequency, where it may be taken for something else.
    BeyondSensor {
        /// Where it appears, in Hz.
        appears_at_hz: f64,
    },
    /// It lies below what a phone tells from its own tilting.
    TooSlow,
    /// It cannot be told from this other order, which is named first; that one's figure holds both.
    OneWith(Order),
}

/// An order that was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Shaking {
    /// Velocity, all three axes together, in mm/s rms.
    pub mm_s: f64,
    /// The same for each axis.
    pub axes_mm_s: [f64; 3],
    /// The velocity in each piece: what a test for growth takes.
    pub pieces_mm_s: Vec<f64>,
    /// Orders beyond the sensor that appear at this one's frequency: the figure may hold them.
    pub may_hold: Vec<Order>,
}

/// An order with what was seen of it.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderSeen {
    /// The order.
    pub order: Order,
    /// Its frequency, in Hz.
    pub hz: f64,
    /// What was seen.
    pub seen: Seen,
}

/// Shake by orders.
#[derive(Debug, Clone, PartialEq)]
pub struct Shake {
    /// Every order, in the drive's sequence.
    pub orders: Vec<OrderSeen>,
    /// Mean rate of the readings that came, in Hz.
    pub rate_hz: f64,
    /// Largest share of the readings that is missing in a piece.
    pub missing_share: f64,
    /// Head speed at which the orders fit best, mean over the pieces, in rpm.
    pub head_rpm: f64,
    /// How many pieces it is made of.
    pub pieces: usize,
}

/// Why shake cannot be told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoShake {
    /// Fewer than three whole pieces of two seconds.
    TooShort {
        /// Length of the readings, in seconds.
        seconds: f64,
    },
    /// Too many readings are missing, or the sensor is slower than 25 a second.
    TooFewReadings {
        /// Mean rate, in Hz.
        rate_hz: f64,
    },
}

/// One piece of the readings: moments in seconds from its middle.
struct Piece<'a> {
    t_s: Vec<f64>,
    m_s2: &'a [[f64; 3]],
}

/// What was fitted to a piece.
struct Fit {
    turns_hz: f64,
    /// Squared acceleration amplitude of each order and axis, less what noise adds to it, in (m/s²)².
    squares: Vec<[f64; 3]>,
    /// Sum over axes of the squares over their variances, two degrees of freedom an axis: for the test.
    over_noise: Vec<f64>,
    /// Variance of an amplitude, sum of the axes, in (m/s²)².
    noise: Vec<f64>,
    explained: f64,
    freedom: f64,
}

/// Shake by orders, of readings at about this head speed, which may be off by `speed_share` of it.
///
/// # Errors
/// A drive or a speed that cannot be, lists of unequal length, and moments that do not rise.
pub fn shake(
    readings: &Readings,
    drive: &Drive,
    head_rpm: f64,
    speed_share: f64,
) -> Result<std::result::Result<Shake, NoShake>> {
    drive.check()?;
    within("head speed", head_rpm, "rpm", (200.0, 5_000.0))?;
    within("share by which the head speed may be off", speed_share, "", (0.0, 0.05))?;
    check(readings)?;
    let (first, last) = (readings.t_ns[0], readings.t_ns[readings.t_ns.len() - 1]);
    let seconds = (last - first) as f64 * 1e-9;
    if seconds < PIECE_S * FEWEST_PIECES as f64 {
        return Ok(Err(NoShake::TooShort { seconds }));
    }
    let usual_hz = usual_rate_hz(&readings.t_ns);
    let (pieces, missing_share) = pieces(readings, usual_hz);
    let rate_hz = (readings.t_ns.len() - 1) as f64 / seconds;
    if pieces.len() < FEWEST_PIECES || usual_hz < 25.0 {
        return Ok(Err(NoShake::TooFewReadings { rate_hz }));
    }
    let all = drive.orders(HARMONICS);
    let sorted = sort(&all, head_rpm / 60.0, usual_hz);
    let fitted: Vec<f64> =
        all.iter().zip(&sorted).filter(|(_, seen)| seen.is_none()).map(|(o, _)| o.per_main).collect();
    let fits: Vec<Fit> =
        pieces.iter().filter_map(|piece| searched(piece, &fitted, head_rpm / 60.0, speed_share)).collect();
    if fits.len() < FEWEST_PIECES {
        return Ok(Err(NoShake::TooFewReadings { rate_hz }));
    }
    let turns_hz = fits.iter().map(|fit| fit.turns_hz).sum::<f64>() / fits.len() as f64;
    let mut place = 0;
    let mut orders = Vec::new();
    for (order, seen) in all.iter().zip(sorted) {
        let hz = order.per_main * turns_hz;
        let seen = seen.unwrap_or_else(|| {
            place += 1;
            found(&fits, place - 1, hz, &holds(&all, order, turns_hz, usual_hz))
        });
        orders.push(OrderSeen { order: *order, hz, seen });
    }
    Ok(Ok(Shake { orders, rate_hz, missing_share, head_rpm: 60.0 * turns_hz, pieces: fits.len() }))
}

fn check(readings: &Readings) -> Result<()> {
    count("moments", readings.t_ns.len(), (16, 10_000_000))?;
    count("readings", readings.m_s2.len(), (readings.t_ns.len(), readings.t_ns.len()))?;
    rising(&readings.t_ns)?;
    for value in readings.m_s2.iter().flatten() {
        within("acceleration", *value, "m/s²", (-2_000.0, 2_000.0))?;
    }
    Ok(())
}

/// The sensor's rate: how many usual gaps there are between the first and the last reading, those of the missing ones too.
fn usual_rate_hz(t_ns: &[i64]) -> f64 {
    let gaps: Vec<i64> = t_ns.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let mut sorted = gaps.clone();
    let middle = sorted.len() / 2;
    let usual = *sorted.select_nth_unstable(middle).1 as f64;
    let steps: f64 = gaps.iter().map(|gap| (*gap as f64 / usual).round()).sum();
    steps * 1e9 / (t_ns[t_ns.len() - 1] - t_ns[0]) as f64
}

/// The pieces that hold enough readings, and the largest share that is missing in any of those.
fn pieces(readings: &Readings, usual_hz: f64) -> (Vec<Piece<'_>>, f64) {
    let (first, step) = (readings.t_ns[0], (PIECE_S * 1e9) as i64);
    let (mut found, mut missing) = (Vec::new(), 0.0f64);
    let count = (readings.t_ns[readings.t_ns.len() - 1] - first) / step;
    for k in 0..count {
        let place = |t: i64| readings.t_ns.partition_point(|moment| *moment < t);
        let (from, to) = (place(first + k * step), place(first + (k + 1) * step));
        let here = (to - from) as f64 / (PIECE_S * usual_hz);
        if here < LEAST_READ {
            continue;
        }
        missing = missing.max(1.0 - here);
        let middle = first + k * step + step / 2;
        let t_s = readings.t_ns[from..to].iter().map(|t| (t - middle) as f64 * 1e-9).collect();
        found.push(Piece { t_s, m_s2: &readings.m_s2[from..to] });
    }
    (found, missing)
}

/// Where a frequency appears to a sensor that reads so many times a second.
fn appears_at_hz(hz: f64, rate_hz: f64) -> f64 {
    (hz - (hz / rate_hz).round() * rate_hz).abs()
}

/// For each order what is known of it beforehand; none for one that is to be fitted.
fn sort(all: &[Order], turns_hz: f64, rate_hz: f64) -> Vec<Option<Seen>> {
    let mut taken: Vec<Order> = Vec::new();
    let mut sorted = vec![None; all.len()];
    // First tones first: what two blades do twice a turn is called their passage.
    let mut places: Vec<usize> = (0..all.len()).collect();
    places.sort_by_key(|place| all[*place].harmonic);
    for place in places {
        let order = &all[place];
        let hz = order.per_main * turns_hz;
        let one_with = taken.iter().find(|other| (other.per_main * turns_hz - hz).abs() < APART_TURNS / PIECE_S);
        sorted[place] = if hz < LOW_HZ {
            Some(Seen::TooSlow)
        } else if hz > 0.5 * USABLE * rate_hz {
            Some(Seen::BeyondSensor { appears_at_hz: appears_at_hz(hz, rate_hz) })
        } else if let Some(other) = one_with {
            Some(Seen::OneWith(*other))
        } else {
            taken.push(*order);
            None
        };
    }
    sorted
}

/// The orders beyond the sensor that appear where `order` is.
fn holds(all: &[Order], order: &Order, turns_hz: f64, rate_hz: f64) -> Vec<Order> {
    let hz = order.per_main * turns_hz;
    let folded = |other: &&Order| {
        let beyond = other.per_main * turns_hz;
        beyond > 0.5 * USABLE * rate_hz && (appears_at_hz(beyond, rate_hz) - hz).abs() < APART_TURNS / PIECE_S
    };
    all.iter().filter(folded).copied().collect()
}

/// The fit at the speed near `turns_hz` at which the orders take up the most.
fn searched(piece: &Piece, orders: &[f64], turns_hz: f64, speed_share: f64) -> Option<Fit> {
    let highest = orders.iter().copied().fold(1.0, f64::max);
    // A step turns the highest order by a sixth of a turn at the piece's ends.
    let step = 1.0 / 3.0 / (highest * turns_hz * PIECE_S);
    let steps = (speed_share / step).ceil() as i64;
    let at = |i: i64| fit(piece, orders, turns_hz * (1.0 + i as f64 * step));
    (-steps..=steps).filter_map(at).max_by(|a, b| a.explained.total_cmp(&b.explained))
}

/// Least squares of all orders at one speed.
fn fit(piece: &Piece, orders: &[f64], turns_hz: f64) -> Option<Fit> {
    let columns = 2 * orders.len() + 2;
    let readings = piece.t_s.len();
    if readings < 2 * columns {
        return None;
    }
    let design = DMatrix::from_fn(readings, columns, |n, k| {
        let t = piece.t_s[n];
        match k.checked_sub(2) {
            None => t.powi(k as i32),
            Some(k) => {
                let phase = TAU * orders[k / 2] * turns_hz * t;
                if k % 2 == 0 { phase.cos() } else { phase.sin() }
            }
        }
    });
    let normal = Cholesky::new(design.tr_mul(&design))?;
    let inverse = normal.inverse();
    let freedom = (readings - columns) as f64;
    let mut fit = Fit {
        turns_hz,
        squares: vec![[0.0; 3]; orders.len()],
        over_noise: vec![0.0; orders.len()],
        noise: vec![0.0; orders.len()],
        explained: 0.0,
        freedom,
    };
    for axis in 0..3 {
        let values = DVector::from_iterator(readings, piece.m_s2.iter().map(|value| value[axis]));
        let solved = normal.solve(&design.tr_mul(&values));
        let residual = (&values - &design * &solved).norm_squared() / freedom;
        fit.explained -= residual;
        for k in 0..orders.len() {
            let (c, s) = (2 * k + 2, 2 * k + 3);
            let square = solved[c].powi(2) + solved[s].powi(2);
            let variance = (residual * (inverse[(c, c)] + inverse[(s, s)])).max(f64::MIN_POSITIVE);
            fit.squares[k][axis] = square - variance;
            fit.noise[k] += variance;
            fit.over_noise[k] += 2.0 * square / variance;
        }
    }
    Some(fit)
}

/// What all pieces together say of the order at this place.
fn found(fits: &[Fit], place: usize, hz: f64, may_hold: &[Order]) -> Seen {
    let pieces = fits.len() as f64;
    // Amplitude in m/s2 to velocity in mm/s rms.
    let to_mm_s = 1e3 / (SQRT_2 * TAU * hz);
    let degrees = 6.0 * pieces;
    let freedom: f64 = fits.iter().map(|fit| 3.0 * fit.freedom).sum();
    let ratio = fits.iter().map(|fit| fit.over_noise[place]).sum::<f64>() / degrees;
    let least = FisherSnedecor::new(degrees, freedom).map_or(f64::INFINITY, |f| f.inverse_cdf(1.0 - FOUND_BY_CHANCE));
    if ratio < least {
        // Twice what is needed over the noise is found nearly always.
        let noise = fits.iter().map(|fit| fit.noise[place]).sum::<f64>() / pieces;
        return Seen::Below { mm_s: (2.0 * (least - 1.0) * noise).sqrt() * to_mm_s };
    }
    let axis = |axis: usize| {
        let mean = fits.iter().map(|fit| fit.squares[place][axis]).sum::<f64>() / pieces;
        mean.max(0.0).sqrt() * to_mm_s
    };
    let axes_mm_s = [axis(0), axis(1), axis(2)];
    let piece = |fit: &Fit| fit.squares[place].iter().sum::<f64>().max(0.0).sqrt() * to_mm_s;
    Seen::Found(Shaking {
        mm_s: axes_mm_s.iter().map(|v| v * v).sum::<f64>().sqrt(),
        axes_mm_s,
        pieces_mm_s: fits.iter().map(piece).collect(),
        may_hold: may_hold.to_vec(),
    })
}
