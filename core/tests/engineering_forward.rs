//! What a flight draws beyond its hover: coverage over simulated aircraft whose speeds, drag and pilots the model does not know.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

#[path = "common/random.rs"]
mod random;

use liftgate_core::engineering::forward::{FlownForward, forward_current, forward_rise};
use liftgate_core::engineering::prediction::Interval95;
use random::Random;

/// An aircraft of this class by its power over that of its hover at a speed: Glauert's induced velocity by iteration, the blades' drag by
/// 1 + 4.65 mu^2 and the body's (A. R. S. Bramwell, Helicopter Dynamics).
struct Simulated {
    still_m_s: f64,
    tip_m_s: f64,
    profile_share: f64,
    drag_share: f64,
}

impl Simulated {
    fn new(random: &mut Random) -> Self {
        Self {
            still_m_s: random.uniform(2.8, 4.3),
            tip_m_s: random.uniform(90.0, 130.0),
            profile_share: random.uniform(0.3, 0.5),
            drag_share: random.uniform(0.005, 0.03),
        }
    }

    fn over_hover(&self, speed_m_s: f64) -> f64 {
        let (mut induced, still) = (self.still_m_s, self.still_m_s);
        for _ in 0..200 {
            induced = 0.5 * (induced + still * still / speed_m_s.hypot(induced));
        }
        // Ideal power T v_h is the induced share over 1.2; the body's is half rho f V^3, and T = 2 rho A v_h^2.
        let induced_share = 1.0 - self.profile_share;
        let body = self.drag_share * speed_m_s.powi(3) / (4.0 * still.powi(3)) * induced_share / 1.2;
        let profile = self.profile_share * (1.0 + 4.65 * (speed_m_s / self.tip_m_s).powi(2));
        induced_share * induced / still + profile + body
    }

    /// The mean of a flight: a third near the hover and in climbs, the rest at its speed, give or take the pilot.
    fn flight(&self, random: &mut Random, speed_m_s: f64) -> f64 {
        let speed_m_s = speed_m_s * (1.0 + 0.1 * random.normal()).max(0.5);
        let slow = random.uniform(0.2, 0.45);
        let climbs = random.uniform(1.0, 1.12);
        (slow * climbs + (1.0 - slow) * self.over_hover(speed_m_s)) * (1.0 + 0.03 * random.normal())
    }
}

/// Holds the share of the truths that an interval held.
fn holds(flown: &str, inside: f64, width: f64) {
    let percent = 100.0 * inside;
    println!("{flown}: {percent:.1} % inside, {:.0} % wide", 100.0 * width);
    assert!((93.0..=99.9).contains(&percent), "{flown}: {percent}");
}

#[test]
fn the_interval_of_a_flight_holds_before_the_first_one_and_narrows() {
    let hover = Interval95 { low: 23.2, middle: 25.0, high: 26.9 };
    let mut last_width = f64::INFINITY;
    for (alike, others) in [(0, 0), (0, 3), (1, 3), (4, 6)] {
        let mut random = Random(20_261_130);
        let (mut inside, seasons) = (0, 4_000);
        let mut width = 0.0;
        for _ in 0..seasons {
            let simulated = Simulated::new(&mut random);
            // The hover itself is not known better than its interval says.
            let hover_a = 25.0 * (1.0 + 0.037 * random.normal());
            let speed_m_s = random.uniform(3.0, 18.0);
            let mut flown = Vec::new();
            for i in 0..alike + others {
                let is_alike = i < alike;
                let speed_m_s = if is_alike { speed_m_s } else { random.uniform(3.0, 18.0) };
                let over_hover = simulated.flight(&mut random, speed_m_s) * hover_a / hover.middle;
                flown.push(FlownForward { over_hover, is_alike });
            }
            let expected = forward_current(hover, &flown).unwrap();
            let current_a = simulated.flight(&mut random, speed_m_s) * hover_a;
            inside += u32::from(expected.agrees(current_a).unwrap().agrees);
            width += (expected.high - expected.low) / expected.middle / f64::from(seasons);
        }
        holds(&format!("{alike} alike, {others} others"), f64::from(inside) / f64::from(seasons), width);
        assert!(width < last_width);
        last_width = width;
    }
}

/// A part: how its loss goes with the current, its cooling with the air over it, and how much of the wind of flight comes to it.
struct Part {
    loss_exponent: f64,
    cooling_exponent: f64,
    exposure: f64,
}

impl Part {
    fn new(random: &mut Random) -> Self {
        Self {
            loss_exponent: random.uniform(1.0, 2.0),
            cooling_exponent: random.uniform(0.4, 0.65),
            exposure: random.uniform(0.0, 1.0),
        }
    }

    /// Its rise over that of the hover, in which the rotor brings it 4 m/s.
    fn over_hover(&self, power: f64, speed_m_s: f64, random: &mut Random) -> f64 {
        let air = 1.0 + self.exposure * (speed_m_s.hypot(4.0) / 4.0 - 1.0);
        power.powf(self.loss_exponent) * air.powf(-self.cooling_exponent) * (0.06 * random.normal()).exp()
    }
}

#[test]
fn the_interval_of_a_rise_holds_for_parts_in_the_open_and_inside() {
    let hover = Interval95 { low: 24.0, middle: 30.0, high: 37.5 };
    let mut last_width = f64::INFINITY;
    for (alike, others) in [(0, 0), (0, 3), (1, 3), (3, 3)] {
        let mut random = Random(30_111_130);
        let (mut inside, seasons, mut width) = (0, 4_000, 0.0);
        for _ in 0..seasons {
            let (simulated, part) = (Simulated::new(&mut random), Part::new(&mut random));
            let hover_k = 30.0 * (0.114 * random.normal()).exp();
            let kind_m_s = random.uniform(3.0, 18.0);
            let mut fly = |is_alike: bool| {
                let speed_m_s = if is_alike { kind_m_s } else { random.uniform(3.0, 18.0) };
                let power = simulated.flight(&mut random, speed_m_s);
                part.over_hover(power, speed_m_s, &mut random) * hover_k
            };
            let flown: Vec<FlownForward> = (0..alike + others)
                .map(|i| FlownForward { over_hover: fly(i < alike) / hover.middle, is_alike: i < alike })
                .collect();
            let expected = forward_rise(hover, &flown).unwrap();
            inside += u32::from(expected.agrees(fly(true)).unwrap().agrees);
            width += (expected.high - expected.low) / expected.middle / f64::from(seasons);
        }
        holds(&format!("{alike} alike, {others} others"), f64::from(inside) / f64::from(seasons), width);
        assert!(width < last_width);
        last_width = width;
    }
}

#[test]
fn what_cannot_be_is_refused() {
    let hover = Interval95 { low: 20.0, middle: 25.0, high: 30.0 };
    assert!(forward_current(Interval95 { low: 0.0, ..hover }, &[]).is_err());
    let flown = FlownForward { over_hover: f64::NAN, is_alike: true };
    assert!(forward_current(hover, &[flown]).is_err());
    assert!(forward_rise(Interval95 { low: -1.0, ..hover }, &[]).is_err());
}
