//! The band that flags slips of the finger: what it catches, and how often it flags in vain, over invented seasons.
//!
//! The seasons are drawn from another family than the band's own prior: mean rises are uniform, scatter differs from aircraft to
//! aircraft, long and short flights mix, the meter rounds, and the air goes from frost to heat. Invented data proves no physics;
//! it measures the promise of the screen: at most one false alarm in a hundred, and what leaves the band is flagged.
#![allow(clippy::unwrap_used)]

use liftgate_core::field::{Band, Slip};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, TestRunner};

/// One place over one season: its caution limit, and for each flight the air and the reading.
#[derive(Debug, Clone)]
struct Season {
    caution_c: f64,
    flights: Vec<(f64, f64)>,
}

fn season() -> impl Strategy<Value = Season> {
    let place = prop_oneof![3 => Just(80.0), 2 => Just(50.0), 1 => Just(70.0)];
    (place, 0.10..0.85_f64, 0.04..0.16_f64, 1..40_usize).prop_flat_map(|(caution_c, level, scatter, count)| {
        let room_k = caution_c - 25.0;
        let flight = (-5.0..36.0_f64, unit_normal(), 0.85..1.12_f64);
        prop::collection::vec(flight, count).prop_map(move |drawn| {
            let read = |(air_c, z, length): (f64, f64, f64)| {
                let rise_k = (level * room_k * length + z * scatter * room_k).max(0.5);
                (air_c, (air_c + rise_k).round())
            };
            Season { caution_c, flights: drawn.into_iter().map(read).collect() }
        })
    })
}

/// The sum of twelve uniform numbers, less six: near enough to a normal one, and without its endless tails.
fn unit_normal() -> impl Strategy<Value = f64> {
    prop::collection::vec(0.0..1.0_f64, 12).prop_map(|parts| parts.iter().sum::<f64>() - 6.0)
}

/// The slips that a thumb or a meter makes out of a true reading.
fn slips(reading: f64) -> Vec<(&'static str, f64)> {
    let whole = reading.abs();
    let (tens, ones) = ((whole / 10.0).trunc(), whole % 10.0);
    let mut made = vec![("times ten", reading * 10.0), ("by ten", reading / 10.0), ("F for C", reading * 1.8 + 32.0)];
    if (10.0..100.0).contains(&whole) && tens != ones {
        made.push(("swapped", ones * 10.0 + tens));
    }
    made
}

#[test]
fn at_most_one_false_alarm_in_a_hundred_and_what_leaves_the_band_is_flagged() {
    let mut runner = TestRunner::new_with_rng(
        Config::default(),
        proptest::test_runner::TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha),
    );
    let (mut readings, mut alarms) = (0_u32, 0_u32);
    let mut made: std::collections::BTreeMap<&str, (u32, u32)> = Default::default();
    let mut out_of_reach = (0_u32, 0_u32);
    for _ in 0..6_000 {
        let season = season().new_tree(&mut runner).unwrap().current();
        let mut rises_k: Vec<f64> = Vec::new();
        for (air_c, reading) in &season.flights {
            let band = Band::of_temperature(season.caution_c, *air_c, &rises_k);
            readings += 1;
            alarms += u32::from(!band.holds(*reading));
            for (kind, slip) in slips(*reading) {
                let count = made.entry(kind).or_default();
                count.0 += 1;
                count.1 += u32::from(!band.holds(slip));
                // Reckoned without the band: no flight of this place in this season was ever within 30 K of it.
                let nearest =
                    season.flights.iter().map(|(a, r)| (r - a - (slip - air_c)).abs()).fold(f64::MAX, f64::min);
                if rises_k.len() >= 3 && nearest > 30.0 {
                    out_of_reach.0 += 1;
                    out_of_reach.1 += u32::from(!band.holds(slip));
                }
            }
            rises_k.push(reading - air_c);
        }
    }
    let share = |(of, caught): (u32, u32)| 100.0 * f64::from(caught) / f64::from(of);
    let false_alarms = 100.0 * f64::from(alarms) / f64::from(readings);
    #[allow(clippy::print_stdout)]
    {
        println!(
            "{readings} readings, {false_alarms:.2} % flagged in vain; slips far from any flight: {:.2} % flagged",
            share(out_of_reach)
        );
        made.iter().for_each(|(kind, count)| println!("{kind}: {:.1} % of all {} flagged", share(*count), count.0));
    }
    assert!(readings > 100_000, "{readings}");
    assert!(false_alarms <= 1.0, "{false_alarms} %");
    assert!(out_of_reach.0 > 10_000 && share(out_of_reach) >= 99.0, "{out_of_reach:?}");
    assert!(share(made["times ten"]) >= 90.0 && share(made["F for C"]) >= 50.0, "{made:?}");
}

#[test]
fn the_band_narrows_with_what_is_flown_and_follows_the_air() {
    let first = Band::of_temperature(80.0, 20.0, &[]);
    let later = Band::of_temperature(80.0, 20.0, &[36.0, 38.0, 35.0, 40.0, 37.0, 36.0]);
    assert!(later.high - later.low < (first.high - first.low) / 2.0, "{first:?} {later:?}");
    assert!(later.holds(57.0) && !later.holds(85.0) && !later.holds(20.0));
    let hotter = Band::of_temperature(80.0, 35.0, &[36.0, 38.0, 35.0, 40.0, 37.0, 36.0]);
    assert!((hotter.low - later.low - 15.0).abs() < 1e-9 && (hotter.high - later.high - 15.0).abs() < 1e-9);
}

/// The interval itself against a textbook one: with the prior outweighed, that of a normal sample, mean ± z s. z for two-sided
/// 1 % is 2.576 (tables of the normal distribution).
#[test]
fn with_many_flights_it_is_the_textbooks_prediction_interval() {
    let rises_k: Vec<f64> = (0..4_000).map(|i| if i % 2 == 0 { 33.0 } else { 37.0 }).collect();
    let band = Band::of_temperature(50.0, 20.0, &rises_k);
    // Standard deviation 2.0 K.
    assert!((band.high - (20.0 + 35.0 + 2.576 * 2.0)).abs() < 0.15, "{band:?}");
    assert!((band.low - (20.0 + 35.0 - 2.576 * 2.0)).abs() < 0.15, "{band:?}");
}

#[test]
fn a_slip_is_told_by_what_was_meant() {
    let band = Band::of_temperature(80.0, 20.0, &[36.0, 38.0, 35.0, 40.0, 37.0, 36.0]);
    assert_eq!(band.slip(58.0), None);
    assert_eq!(band.slip(136.4), Some(Slip::Fahrenheit { meant: (136.4 - 32.0) / 1.8 }));
    assert_eq!(band.slip(580.0), Some(Slip::Tenfold { meant: 58.0 }));
    assert_eq!(band.slip(5.8), Some(Slip::Tenfold { meant: 58.0 }));
    assert_eq!(band.slip(85.0), Some(Slip::Swapped { meant: 58.0 }));
    assert_eq!(band.slip(190.0), None, "nothing explains it: {band:?}");
}
