//! Balance by vectors, against a textbook's two planes and rotors that are turned forward.
#![allow(clippy::unwrap_used, missing_docs)]

#[path = "common/random.rs"]
mod random;

use liftgate_core::instrument::{InstrumentError, TrialRun, Vector, correction};
use nalgebra::Complex;
use random::Random;

fn v(length: f64, angle_deg: f64) -> Vector {
    Vector { length, angle_deg }
}

fn complex(of: &Vector) -> Complex<f64> {
    Complex::from_polar(of.length, of.angle_deg.to_radians())
}

fn vector(of: Complex<f64>) -> Vector {
    v(of.norm(), of.arg().to_degrees())
}

/// The turbine rotor of S. S. Rao, "Mechanical Vibrations", chapter on vibration control. Readings and the unbalance that they come to are from
/// memory; the masses that balance lie opposite to the unbalance.
#[test]
fn the_two_planes_of_a_textbook() {
    let trials = [
        TrialRun { mass: v(10.0, 270.0), vibration: vec![v(6.0, 125.0), v(4.5, 230.0)] },
        TrialRun { mass: v(12.0, 180.0), vibration: vec![v(6.0, 35.0), v(10.5, 160.0)] },
    ];
    let found = correction(&[v(8.5, 60.0), v(6.5, 205.0)], &trials).unwrap();
    for (mass, (length, angle)) in found.masses.iter().zip([(10.0561, 145.5548 + 180.0), (5.8774, 248.2559 - 180.0)])
    {
        assert!((mass.length - length).abs() < 5e-4 && (mass.angle_deg - angle).abs() < 5e-3, "{mass:?}");
    }
    assert!(found.left.iter().all(|left| left.length < 1e-12), "{:?}", found.left);
}

/// A rotor that answers any masses in proportion.
struct Rotor {
    influence: Vec<Vec<Complex<f64>>>,
    unbalance: Vec<Complex<f64>>,
}

impl Rotor {
    fn any(random: &mut Random, points: usize, planes: usize) -> Rotor {
        let mut any = |size: f64| Complex::from_polar(size, random.uniform(0.0, std::f64::consts::TAU));
        // Each point feels its own plane more than the other.
        let influence =
            (0..points).map(|k| (0..planes).map(|j| any(if k % planes == j { 1.0 } else { 0.4 })).collect());
        let influence = influence.collect();
        Rotor { influence, unbalance: (0..planes).map(|_| any(5.0)).collect() }
    }

    fn runs(&self, masses: &[Complex<f64>]) -> Vec<Vector> {
        let point = |row: &Vec<Complex<f64>>| {
            let each = row.iter().zip(&self.unbalance).zip(masses).map(|((answer, own), mass)| answer * (own + mass));
            vector(each.sum())
        };
        self.influence.iter().map(point).collect()
    }
}

#[test]
fn a_rotor_turned_forward_runs_still_with_the_masses() {
    let mut random = Random(11);
    for (points, planes) in [(1, 1), (3, 1), (2, 2), (4, 2)] {
        for _ in 0..200 {
            let rotor = Rotor::any(&mut random, points, planes);
            let trial = |j: usize, random: &mut Random| {
                let mass = v(random.uniform(1.0, 4.0), random.uniform(-360.0, 360.0));
                let mut masses = vec![Complex::new(0.0, 0.0); planes];
                masses[j] = complex(&mass);
                TrialRun { mass, vibration: rotor.runs(&masses) }
            };
            let trials: Vec<TrialRun> = (0..planes).map(|j| trial(j, &mut random)).collect();
            let found = correction(&rotor.runs(&vec![Complex::new(0.0, 0.0); planes]), &trials).unwrap();
            let masses: Vec<Complex<f64>> = found.masses.iter().map(complex).collect();
            let left = rotor.runs(&masses);
            assert!(left.iter().all(|left| left.length < 1e-9), "{left:?}");
            assert!(found.smallest_effect > 0.05 && found.condition >= 1.0);
        }
    }
}

/// With more points than planes and readings that do not fit, no other masses leave a smaller sum of squares, and what is said to be left is.
#[test]
fn what_is_left_is_least() {
    let mut random = Random(12);
    let any = |random: &mut Random| v(random.uniform(0.5, 4.0), random.uniform(0.0, 360.0));
    let first: Vec<Vector> = (0..4).map(|_| any(&mut random)).collect();
    let trials: Vec<TrialRun> = (0..2)
        .map(|_| TrialRun { mass: any(&mut random), vibration: (0..4).map(|_| any(&mut random)).collect() })
        .collect();
    let found = correction(&first, &trials).unwrap();
    let left = |masses: &[Complex<f64>]| -> Vec<Complex<f64>> {
        let at = |k: usize| {
            let moved = |(trial, mass): (&TrialRun, &Complex<f64>)| {
                (complex(&trial.vibration[k]) - complex(&first[k])) / complex(&trial.mass) * mass
            };
            complex(&first[k]) + trials.iter().zip(masses).map(moved).sum::<Complex<f64>>()
        };
        (0..4).map(at).collect()
    };
    let sum = |left: &[Complex<f64>]| left.iter().map(|left| left.norm_sqr()).sum::<f64>();
    let masses: Vec<Complex<f64>> = found.masses.iter().map(complex).collect();
    let least = left(&masses);
    assert!(least.iter().zip(&found.left).all(|(left, said)| (left - complex(said)).norm() < 1e-9));
    for _ in 0..500 {
        let other: Vec<Complex<f64>> =
            masses.iter().map(|mass| mass + Complex::new(0.05 * random.normal(), 0.05 * random.normal())).collect();
        assert!(sum(&left(&other)) > sum(&least));
    }
}

#[test]
fn planes_that_act_alike_and_masses_of_nothing_are_refused() {
    let first = [v(3.0, 10.0), v(2.0, 80.0)];
    let trial = |mass: Vector| TrialRun { mass, vibration: vec![v(4.0, 30.0), v(2.5, 100.0)] };
    let alike = correction(&first, &[trial(v(1.0, 0.0)), trial(v(1.0, 0.0))]);
    assert!(matches!(alike, Err(InstrumentError::Singular { condition }) if condition > 1e6), "{alike:?}");
    let nearly = TrialRun { mass: v(1.0, 0.0), vibration: vec![v(4.02, 30.2), v(2.5, 100.0)] };
    let alike = correction(&first, &[trial(v(1.0, 0.0)), nearly]);
    assert!(matches!(alike, Err(InstrumentError::Singular { condition }) if condition < 1e4), "{alike:?}");
    let still = TrialRun { mass: v(1.0, 0.0), vibration: first.to_vec() };
    assert!(matches!(correction(&first, &[still]), Err(InstrumentError::Singular { .. })));
    assert!(matches!(correction(&first, &[trial(v(0.0, 0.0))]), Err(InstrumentError::OutOfRange { .. })));
    assert!(matches!(correction(&first, &[trial(v(f64::NAN, 0.0))]), Err(InstrumentError::OutOfRange { .. })));
    assert!(matches!(correction(&first, &[]), Err(InstrumentError::Count { .. })));
    assert!(matches!(correction(&first[..1], &[trial(v(1.0, 0.0))]), Err(InstrumentError::Count { .. })));
}
