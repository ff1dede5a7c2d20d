//! Supply rails, regulators and receiver packs, against published and closed-form values.
#![allow(clippy::unwrap_used, missing_docs)]

use liftgate_core::engineering::supply::*;
use liftgate_core::engineering::{EngineeringError, Grade};
use proptest::prelude::*;

fn rail() -> Rail {
    Rail {
        name: "main".into(),
        full_v: 8.4,
        nominal_v: 7.4,
        empty_v: 7.0,
        continuous_a: 10.0,
        burst_a: 20.0,
        ripple_v: 0.2,
    }
}

fn consumer(name: &str, low_v: f64, high_v: f64, steady_a: f64, quantity: u32) -> Consumer {
    Consumer { name: name.into(), low_v, high_v, steady_a, quantity, fault_a: None }
}

fn load(consumers: Vec<Consumer>, stirring_peak_a: f64) -> RailLoad {
    RailLoad { rail: rail(), consumers, stirring_peak_a, stirring_low_v: None }
}

// Common practice, no source: design peak four times the unloaded stirring peak, hard flight twice.
#[test]
fn design_peak_and_hard_flight_stand_against_their_ratings() {
    let report =
        rail_report(&load(vec![consumer("servo", 4.8, 8.6, 0.1, 4), consumer("receiver", 3.5, 10.0, 0.2, 1)], 4.5))
            .unwrap();
    assert!((report.steady_a - 0.6).abs() < 1e-12);
    assert!((report.design_peak_a - 18.6).abs() < 1e-12);
    assert!((report.hard_flight_a - 9.6).abs() < 1e-12);
    assert!((report.burst.margin_a - 1.4).abs() < 1e-12);
    assert!((report.burst.margin_percent - 7.0).abs() < 1e-9);
    assert!((report.continuous.margin_a - 0.4).abs() < 1e-12);
    assert_eq!(report.grade, Grade::Caution);
    assert_eq!(report.reasons.len(), 2);
    let over = rail_report(&load(vec![consumer("servo", 4.8, 8.6, 0.1, 4)], 5.0)).unwrap();
    assert_eq!(over.continuous.grade, Grade::Stop);
    assert_eq!(over.reasons[0].to_string(), "hard flight draws 10.4 A of 10.0 A continuous");
}

#[test]
fn a_light_on_the_wrong_rail_is_named_at_its_worst_state() {
    let report =
        rail_report(&load(vec![consumer("servo", 4.8, 8.4, 0.1, 4), consumer("light", 4.5, 6.0, 0.3, 2)], 1.0))
            .unwrap();
    let (name, point) = report.worst_window.clone().unwrap();
    assert_eq!(name, "light");
    assert_eq!((point.state, point.edge), (RailState::Full, WindowEdge::High));
    assert!((point.margin_v + 2.4).abs() < 1e-9);
    assert_eq!(report.grade, Grade::Stop);
    // The servo sits exactly at its rating when full: only the ripple's crest leaves the window.
    assert_eq!(report.windows[0].worst.grade, Grade::Caution);
    assert_eq!(report.windows[0].worst.state, RailState::RippleCrest);
}

#[test]
fn sag_and_fault_are_held_against_their_limits() {
    let mut input = load(vec![consumer("servo", 4.8, 9.0, 0.1, 4)], 2.0);
    input.stirring_low_v = Some(4.9);
    input.consumers[0].fault_a = Some(16.0);
    let report = rail_report(&input).unwrap();
    assert_eq!(report.sag.unwrap().grade, Grade::Stop);
    assert!((report.fault.unwrap().load_a - (4.4 + 15.9)).abs() < 1e-12);
    assert_eq!(report.fault.unwrap().grade, Grade::Stop);
}

#[test]
fn sag_is_held_against_what_each_consumer_needs_and_what_was_set() {
    let mut input = load(vec![consumer("servo", 6.0, 9.0, 0.1, 4), consumer("receiver", 3.5, 10.0, 0.1, 1)], 2.0);
    let graded = |low_v: f64, input: &mut RailLoad| {
        input.stirring_low_v = Some(low_v);
        rail_report(input).unwrap().sag.unwrap()
    };
    let set_v = input.rail.nominal_v;
    let sag = graded(5.9, &mut input);
    assert_eq!((sag.grade, sag.limit_v, sag.consumer.as_deref()), (Grade::Stop, 6.0, Some("servo")));
    assert_eq!(graded(6.1, &mut input).grade, Grade::Caution);
    assert_eq!(graded(set_v * 0.89, &mut input).grade, Grade::Caution, "a tenth under what was set");
    assert_eq!(graded(set_v * 0.95, &mut input).grade, Grade::Ok);
    input.consumers[0].low_v = 4.5;
    assert_eq!(graded(4.9, &mut input).consumer, None, "no receiver is trusted under 5 V");
}

#[test]
fn the_design_peak_is_the_greater_of_stirring_and_stalling() {
    let mut input = load(vec![consumer("servo", 4.8, 9.0, 0.1, 4), consumer("light", 4.8, 9.0, 0.5, 1)], 2.0);
    let stirred = rail_report(&input).unwrap();
    assert_eq!((stirred.stalled_peak_a, stirred.design_peak_a), (None, 4.0 * 2.0 + 0.9));
    // A meter that saw 0.9 A of peaks that it was too slow for; four servos that draw 4 A stalled.
    input.stirring_peak_a = 0.9;
    input.consumers[0].fault_a = Some(4.0);
    let report = rail_report(&input).unwrap();
    assert!((report.stirred_peak_a - 4.5).abs() < 1e-12);
    assert_eq!((report.stalled_peak_a, report.design_peak_a, report.burst.load_a), (Some(16.5), 16.5, 16.5));
}

// A maker's e-learning example for a linear regulator (3.6 to 1.8 V, 0.1 A, 40 deg C, 208.33 K/W: 77.5 deg C).
#[test]
fn linear_regulator_matches_the_published_example() {
    let regulator = Regulator {
        kind: RegulatorKind::Linear { dropout_v: 0.2 },
        input_v: 3.6,
        output_v: 1.8,
        load_a: 0.1,
        ambient_c: 40.0,
        thermal_resistance_k_per_w: 208.33,
        limit_c: 125.0,
    };
    let report = regulator_report(&regulator).unwrap();
    assert!((report.temperature_c - 77.5).abs() < 0.01);
    assert_eq!(report.grade, Grade::Ok);
    // Closed form: 12 to 5 V at 0.5 A with 50 K/W in 25 deg C comes to 200 deg C and is refused.
    let hot = regulator_report(&Regulator {
        input_v: 12.0,
        output_v: 5.0,
        load_a: 0.5,
        ambient_c: 25.0,
        thermal_resistance_k_per_w: 50.0,
        ..regulator
    })
    .unwrap();
    assert!((hot.temperature_c - 200.0).abs() < 1e-9);
    assert_eq!(hot.grade, Grade::Stop);
}

#[test]
fn a_linear_regulator_cannot_raise_a_voltage() {
    let error = regulator_report(&Regulator {
        kind: RegulatorKind::Linear { dropout_v: 0.2 },
        input_v: 5.0,
        output_v: 6.0,
        load_a: 0.1,
        ambient_c: 25.0,
        thermal_resistance_k_per_w: 50.0,
        limit_c: 125.0,
    })
    .unwrap_err();
    assert!(matches!(error, EngineeringError::Contradiction { .. }));
}

// Common practice, no source: average current times planned time at most 60 % of the capacity.
#[test]
fn sixty_percent_rule_stands_at_its_edge() {
    let mut pack =
        ReceiverPack { capacity_mah: 5000.0, average_a: 3.0, planned_min: 60.0, usable_fraction: USABLE_FRACTION };
    let edge = receiver_endurance(&pack).unwrap();
    assert!((edge.endurance_min - 60.0).abs() < 1e-9);
    assert_eq!(edge.grade, Grade::Caution);
    pack.planned_min = 60.1;
    assert_eq!(receiver_endurance(&pack).unwrap().grade, Grade::Stop);
    pack.planned_min = 30.0;
    assert_eq!(receiver_endurance(&pack).unwrap().grade, Grade::Ok);
}

#[test]
fn bad_figures_name_the_quantity_and_its_range() {
    let mut input = load(vec![], 1.0);
    input.rail.nominal_v = f64::NAN;
    assert_eq!(rail_report(&input).unwrap_err(), EngineeringError::NotANumber { quantity: "nominal voltage" });
    let mut input = load(vec![], 1.0);
    input.rail.burst_a = 5.0;
    assert!(matches!(rail_report(&input).unwrap_err(), EngineeringError::Contradiction { .. }));
    let mut input = load(vec![], -1.0);
    assert!(matches!(
        rail_report(&input).unwrap_err(),
        EngineeringError::OutOfRange { quantity: "stirring peak", .. }
    ));
    input.stirring_peak_a = f64::INFINITY;
    assert!(rail_report(&input).is_err());
    let input = load(vec![consumer("servo", 8.0, 6.0, 0.1, 4)], 1.0);
    assert!(matches!(rail_report(&input).unwrap_err(), EngineeringError::Contradiction { .. }));
    let input = load(vec![consumer("servo", 4.0, 6.0, 0.1, 0)], 1.0);
    assert!(rail_report(&input).is_err());
}

proptest! {
    #[test]
    fn no_input_panics(v in prop::array::uniform14(any::<f64>()), quantity in any::<u32>()) {
        let input = RailLoad {
            rail: Rail { name: String::new(), full_v: v[0], nominal_v: v[1], empty_v: v[2], continuous_a: v[3], burst_a: v[4], ripple_v: v[5] },
            consumers: vec![Consumer { name: String::new(), low_v: v[6], high_v: v[7], steady_a: v[8], quantity, fault_a: Some(v[9]) }],
            stirring_peak_a: v[10],
            stirring_low_v: Some(v[11]),
        };
        if let Ok(report) = rail_report(&input) {
            prop_assert!(report.design_peak_a.is_finite());
        }
        let regulator = Regulator { kind: RegulatorKind::Switching { efficiency: v[0] }, input_v: v[1], output_v: v[2], load_a: v[3], ambient_c: v[4], thermal_resistance_k_per_w: v[5], limit_c: v[6] };
        let _ = regulator_report(&regulator);
        let _ = regulator_report(&Regulator { kind: RegulatorKind::Linear { dropout_v: v[7] }, ..regulator });
        let _ = receiver_endurance(&ReceiverPack { capacity_mah: v[10], average_a: v[11], planned_min: v[12], usable_fraction: v[13] });
    }

    #[test]
    fn more_load_never_improves_a_grade(peak_a in 0.0..50.0f64, extra_a in 0.0..50.0f64) {
        let less = rail_report(&load(vec![], peak_a)).unwrap();
        let more = rail_report(&load(vec![], peak_a + extra_a)).unwrap();
        prop_assert!(more.grade >= less.grade);
        prop_assert!(more.burst.margin_a <= less.burst.margin_a);
    }
}
