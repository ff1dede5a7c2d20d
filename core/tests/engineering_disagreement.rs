//! Why a flight was not as predicted: made-up flights in which one thing is wrong, by the rotor's own model, and what is said of them.
#![allow(clippy::unwrap_used, missing_docs)]

use liftgate_core::engineering::disagreement::{
    Cause, HeadSpeed, Held, Lies, PackResistance, PartHeat, Shown, likely_causes,
};
use proptest::prelude::*;

/// Profile power as a share of hover power at this scale; between a third and a half in NACA TN-626's small rotors.
const PROFILE_SHARE: f64 = 0.4;

fn held(predicted: f64, measured: f64) -> Held {
    Held { predicted, low: 0.94 * predicted, high: 1.06 * predicted, measured }
}

/// Power of a hover at a head speed off by a share: the induced part stays, the profile part goes with the cube.
fn power_w(off: f64) -> f64 {
    1_200.0 * (1.0 - PROFILE_SHARE + PROFILE_SHARE * (1.0 + off).powi(3))
}

/// A flight as predicted, in air flown in before.
fn flight() -> Shown {
    Shown {
        draw: Some(held(1_200.0, 1_210.0)),
        draw_at_read_speed: Some(held(1_200.0, 1_210.0)),
        current: Some(held(26.0, 26.2)),
        voltage: Some(volts(45.6)),
        head_speed: Some(HeadSpeed { set_rpm: 1_100.0, read_rpm: 1_103.0 }),
        resistance: Some(PackResistance { new_ohm: 0.024, least_now_ohm: 0.025 }),
        parts: vec![PartHeat { part: "Controller".to_owned(), celsius: heat(58.0) }],
        air_c: 20.0,
        warmest_before_c: Some(24.0),
    }
}

fn volts(measured: f64) -> Held {
    Held { predicted: 46.0, low: 43.8, high: 48.2, measured }
}

fn heat(measured: f64) -> Held {
    Held { predicted: 58.0, low: 52.0, high: 66.0, measured }
}

#[test]
fn a_flight_as_predicted_has_no_cause() {
    assert_eq!(likely_causes(&flight()).unwrap(), []);
}

#[test]
fn a_drive_that_drags_draws_more_at_the_speed_that_was_set() {
    let shown = Shown {
        draw: Some(held(1_200.0, 1_380.0)),
        draw_at_read_speed: Some(held(1_200.0, 1_380.0)),
        current: Some(held(26.0, 30.0)),
        parts: vec![PartHeat { part: "Controller".to_owned(), celsius: heat(71.0) }],
        ..flight()
    };
    let causes = likely_causes(&shown).unwrap();
    let [Cause::DriveDrag { extra }] = causes[..] else { panic!("{causes:?}") };
    assert!((extra - 0.15).abs() < 1e-9);
}

#[test]
fn a_rotor_that_turns_faster_than_set_explains_what_the_cube_of_its_speed_takes() {
    let off = 0.08;
    let at_read = power_w(off);
    let shown = Shown {
        draw: Some(held(1_200.0, at_read)),
        draw_at_read_speed: Some(held(at_read, at_read)),
        head_speed: Some(HeadSpeed { set_rpm: 1_100.0, read_rpm: 1_100.0 * (1.0 + off) }),
        ..flight()
    };
    let causes = likely_causes(&shown).unwrap();
    let [Cause::HeadSpeedOff { off: found, explains: Some(share) }] = causes[..] else { panic!("{causes:?}") };
    assert!((found - off).abs() < 1e-9 && (share - 1.0).abs() < 1e-9);
    // With drag on top of it both are named, each with its part.
    let both = Shown {
        draw: Some(held(1_200.0, at_read + 200.0)),
        draw_at_read_speed: Some(held(at_read, at_read + 200.0)),
        ..shown
    };
    let causes = likely_causes(&both).unwrap();
    assert!(matches!(causes[0], Cause::DriveDrag { .. }), "200 of 325 W: {causes:?}");
    assert!(matches!(causes[1], Cause::HeadSpeedOff { explains: Some(share), .. } if (0.3..0.45).contains(&share)));
}

#[test]
fn a_tired_pack_gives_the_power_at_more_current() {
    let shown = Shown {
        current: Some(held(26.0, 28.5)),
        voltage: Some(volts(42.0)),
        resistance: Some(PackResistance { new_ohm: 0.024, least_now_ohm: 0.040 }),
        ..flight()
    };
    let causes = likely_causes(&shown).unwrap();
    let [Cause::TiredPack { ratio: Some(ratio), extra_current: Some(extra) }] = causes[..] else {
        panic!("{causes:?}")
    };
    assert!((ratio - 1.667).abs() < 0.001 && (extra - 0.096).abs() < 0.001);
    // Its resistance alone, with all as predicted, is no disagreement of this flight.
    let sound = Shown { current: flight().current, voltage: flight().voltage, ..shown.clone() };
    assert!(likely_causes(&sound).unwrap().is_empty());
    // More current at a voltage as with the hovers before is no pack: power is their product, and the drag is not yet clear of its interval.
    let dragging = Shown { voltage: flight().voltage, resistance: None, ..shown };
    assert!(likely_causes(&dragging).unwrap().is_empty());
}

#[test]
fn a_part_that_is_hot_at_the_power_predicted_lacks_air() {
    let shown = Shown { parts: vec![PartHeat { part: "Controller".to_owned(), celsius: heat(93.0) }], ..flight() };
    let causes = likely_causes(&shown).unwrap();
    let [Cause::LittleAir { part, rise_ratio }] = &causes[..] else { panic!("{causes:?}") };
    assert_eq!(part, "Controller");
    assert!((rise_ratio - 73.0 / 38.0).abs() < 1e-9);
    // In air warmer than any before, that is named as well, after it.
    let hot = Shown { air_c: 31.0, warmest_before_c: Some(24.0), ..shown.clone() };
    assert!(matches!(likely_causes(&hot).unwrap()[..], [Cause::LittleAir { .. }, Cause::HotAir { .. }]));
    // Where the power was not read, nobody can tell whether it was the power.
    assert!(
        likely_causes(&Shown { draw: None, draw_at_read_speed: None, current: None, ..shown }).unwrap().is_empty()
    );
}

#[test]
fn less_than_predicted_blames_nothing_that_only_takes_more() {
    let shown = Shown { draw: Some(held(1_200.0, 1_050.0)), ..flight() };
    assert_eq!(shown.draw.unwrap().lies(), Lies::Below);
    assert!(likely_causes(&shown).unwrap().is_empty());
    let slow = Shown {
        head_speed: Some(HeadSpeed { set_rpm: 1_100.0, read_rpm: 1_000.0 }),
        draw: Some(held(1_200.0, power_w(-0.09))),
        draw_at_read_speed: Some(held(power_w(-0.09), power_w(-0.09))),
        ..flight()
    };
    assert!(matches!(likely_causes(&slow).unwrap()[..], [Cause::HeadSpeedOff { explains: Some(_), .. }]));
}

#[test]
fn what_cannot_be_is_refused() {
    let refused = |shown: Shown| likely_causes(&shown).unwrap_err().to_string();
    assert!(refused(Shown { air_c: f64::NAN, ..flight() }).contains("air"));
    assert!(refused(Shown { draw: Some(held(-3.0, 4.0)), ..flight() }).contains("draw"));
}

proptest! {
    #[test]
    fn whatever_was_read_every_cause_has_numbers(
        draw in 1.0..5_000.0f64, current in 1.0..200.0f64, speed in 500.0..2_000.0f64, heat_c in -20.0..200.0f64,
        now in 0.001..0.2f64, air_c in -20.0..45.0f64, before in -20.0..45.0f64,
    ) {
        let shown = Shown {
            draw: Some(held(1_200.0, draw)),
            draw_at_read_speed: Some(held(1_200.0 * (speed / 1_100.0).powi(2), draw)),
            current: Some(held(26.0, current)),
            voltage: Some(volts(1_196.0 / current.max(1.0))),
            head_speed: Some(HeadSpeed { set_rpm: 1_100.0, read_rpm: speed }),
            resistance: Some(PackResistance { new_ohm: 0.024, least_now_ohm: now }),
            parts: vec![PartHeat { part: "Motor".to_owned(), celsius: heat(heat_c) }],
            air_c,
            warmest_before_c: Some(before),
        };
        for cause in likely_causes(&shown).unwrap() {
            match cause {
                Cause::DriveDrag { extra } => prop_assert!(extra > 0.06 - 1e-9),
                Cause::HeadSpeedOff { off, explains } => {
                    prop_assert!(off.abs() > 0.02);
                    prop_assert!(explains.is_none_or(|share| (0.25..=1.0).contains(&share)));
                }
                Cause::TiredPack { ratio, extra_current } => {
                    prop_assert!(ratio.is_some() || extra_current.is_some());
                }
                Cause::LittleAir { rise_ratio, .. } => prop_assert!(rise_ratio > 1.0 && draw <= 1_272.0),
                Cause::HotAir { above_k } => prop_assert!(above_k >= 5.0),
            }
        }
    }
}
