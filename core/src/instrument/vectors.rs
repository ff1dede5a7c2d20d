//! Balance by vectors: from the vibration as it is and with trial masses, the masses that take it away.
//!
//! The method of influence coefficients (T. P. Goodman, "A least-squares method for computing balance corrections", Journal of Engineering for
//! Industry 86 (1964), from memory): vibration answers an unbalance in proportion, so each trial mass gives one column of coefficients, and the
//! masses that cancel the vibration solve a linear system of complex numbers. With more points of measurement than planes the sum of
//! squares that is left is least. It holds for one speed and one setting of the machine.

use nalgebra::{Complex, DMatrix, DVector};

use super::error::{InstrumentError, Result};
use super::require::{count, within};

/// Condition number from which the planes cannot be told apart: readings good to 2 % would give masses that are good for nothing.
const WORST_CONDITION: f64 = 25.0;

/// A length and an angle: vibration at the turning frequency, or a mass on the rotor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vector {
    /// Length, zero or more: mm/s for a vibration, g for a mass, as long as it is the same throughout.
    pub length: f64,
    /// Angle from the mark on the rotor, in degrees, always counted the same way round.
    pub angle_deg: f64,
}

impl Vector {
    fn complex(self) -> Complex<f64> {
        Complex::from_polar(self.length, self.angle_deg.to_radians())
    }

    fn from_complex(of: Complex<f64>) -> Vector {
        Vector { length: of.norm(), angle_deg: of.arg().to_degrees().rem_euclid(360.0) }
    }
}

/// A run with one trial mass, all others taken off again.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialRun {
    /// The trial mass.
    pub mass: Vector,
    /// The vibration with it, at each point of measurement.
    pub vibration: Vec<Vector>,
}

/// What balances.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// The mass for each plane, in the order of the trial runs, with the trial masses taken off.
    pub masses: Vec<Vector>,
    /// The vibration that should be left at each point.
    pub left: Vec<Vector>,
    /// How many times a relative error of the readings is magnified in the masses, at worst.
    pub condition: f64,
    /// The smallest change that a trial mass made at the point that it moved most, over the first vibration there: below a fifth or so the
    /// trial mass was too small to learn from. Common practice, no source.
    pub smallest_effect: f64,
}

/// The masses that balance, from the vibration at one or more points and one trial run for each plane, of which there are one or two.
///
/// # Errors
/// Lengths below zero, a trial mass of nothing, other than one or two trial runs, points that are not the same in all runs or are fewer than
/// the planes, and planes that the readings do not tell apart.
pub fn correction(first: &[Vector], trials: &[TrialRun]) -> Result<Correction> {
    check(first, trials)?;
    let (points, planes) = (first.len(), trials.len());
    let changed = |k: usize, j: usize| trials[j].vibration[k].complex() - first[k].complex();
    let influence = DMatrix::from_fn(points, planes, |k, j| changed(k, j) / trials[j].mass.complex());
    let before = DVector::from_iterator(points, first.iter().map(|vector| vector.complex()));
    // Columns of one length: how strongly a plane acts is no lack of knowledge.
    let lengths: Vec<f64> = influence.column_iter().map(|column| column.norm()).collect();
    let scaled = DMatrix::from_fn(points, planes, |k, j| influence[(k, j)] / lengths[j].max(f64::MIN_POSITIVE));
    let svd = scaled.svd(true, true);
    let (most, least) = (svd.singular_values.max(), svd.singular_values.min());
    let condition = if least > 0.0 { most / least } else { f64::INFINITY };
    if condition > WORST_CONDITION || !condition.is_finite() {
        return Err(InstrumentError::Singular { condition });
    }
    let solved = svd.solve(&(-&before), 0.0).map_err(|_| InstrumentError::Singular { condition })?;
    let masses = DVector::from_fn(planes, |j, _| solved[j] / lengths[j]);
    let left = &before + &influence * &masses;
    let effect = |j: usize| {
        let ratio = |k: usize| changed(k, j).norm() / first[k].length.max(f64::MIN_POSITIVE);
        (0..points).map(ratio).fold(0.0, f64::max)
    };
    Ok(Correction {
        masses: masses.iter().map(|mass| Vector::from_complex(*mass)).collect(),
        left: left.iter().map(|vector| Vector::from_complex(*vector)).collect(),
        condition,
        smallest_effect: (0..planes).map(effect).fold(f64::INFINITY, f64::min),
    })
}

fn check(first: &[Vector], trials: &[TrialRun]) -> Result<()> {
    count("trial runs", trials.len(), (1, 2))?;
    count("points of measurement", first.len(), (trials.len(), 12))?;
    let vector = |vector: &Vector, least: f64| {
        within("length of a vector", vector.length, "", (least, 1e9))?;
        within("angle of a vector", vector.angle_deg, "°", (-720.0, 720.0))
    };
    for reading in first {
        vector(reading, 0.0)?;
    }
    for trial in trials {
        vector(&trial.mass, 1e-9)?;
        count("points of measurement in a trial run", trial.vibration.len(), (first.len(), first.len()))?;
        for reading in &trial.vibration {
            vector(reading, 0.0)?;
        }
    }
    Ok(())
}
