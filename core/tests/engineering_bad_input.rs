//! Bad input to every engineering function: a typed error that names the quantity, never a panic, never a result that is not a number.
#![allow(clippy::unwrap_used, missing_docs)]

use liftgate_core::engineering::EngineeringError;
use liftgate_core::engineering::{
    air, balance, ballast, drive, heat, pack, placement, prediction, rotor, supply, unbalance, wind, wire,
};
use proptest::prelude::*;

/// Any double at all, or one of the awkward ones.
fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>(),
        prop::sample::select(vec![
            0.0,
            -0.0,
            -1.0,
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::MIN_POSITIVE,
            f64::EPSILON,
            f64::MAX,
            f64::MIN,
            1e-300,
            1e300
        ]),
    ]
}

/// Mostly a plausible figure of the range, its ends among them, sometimes a wild one: so that deep paths are reached too.
fn near(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => low..=high,
        1 => Just(low),
        1 => Just(high),
        1 => wild(),
    ]
}

/// Every message must tell a person what to do, not only what is wrong.
fn is_helpful(error: &EngineeringError) -> bool {
    let text = error.to_string();
    text.contains(':') || text.contains(';')
}

/// A result, if there is one, must hold no NaN; an error must be helpful.
fn sound<T: serde::Serialize>(result: Result<T, EngineeringError>) -> Result<(), TestCaseError> {
    match result {
        // JSON has no NaN and no infinity: serde writes null, which no numeric field of an answer may be.
        Ok(value) => {
            let json = serde_json::to_value(&value).unwrap();
            prop_assert!(no_stray_null(&json), "{json}");
        }
        Err(error) => prop_assert!(is_helpful(&error), "{error}"),
    }
    Ok(())
}

/// Fields that are honestly optional.
const OPTIONAL: [&str; 36] = [
    "wind",
    "tau",
    "run_s",
    "fuse_a",
    "insulation_c",
    "outside_mm",
    "covers_s",
    "limit_after_s",
    "limit_after_low_s",
    "limit_after_high_s",
    "z_mm",
    "tilted",
    "weighing",
    "band",
    "fitted",
    "fore_aft",
    "lateral",
    "second",
    "whole",
    "without_limits_g",
    "fault_a",
    "fault",
    "stirring_low_v",
    "sag",
    "worst_window",
    "dropout_margin_v",
    "rated_a",
    "measured_gmm",
    "margin_gmm",
    "margin_percent",
    "lowest",
    "spread_v",
    "doubled_at_cycles",
    "half_width_k",
    "temperature_c",
    "beyond_percent",
];
const OPTIONAL_INPUTS: [&str; 6] =
    ["power_w", "current_a", "resistance_ratio", "capacity_ratio", "charged_spread_v", "hot_cell_k"];

fn no_stray_null(json: &serde_json::Value) -> bool {
    match json {
        serde_json::Value::Null => false,
        serde_json::Value::Array(items) => items.iter().all(no_stray_null),
        serde_json::Value::Object(fields) => fields.iter().all(|(name, v)| {
            (v.is_null() && (OPTIONAL.contains(&name.as_str()) || OPTIONAL_INPUTS.contains(&name.as_str())))
                || no_stray_null(v)
        }),
        _ => true,
    }
}

fn polar() -> impl Strategy<Value = rotor::SectionPolar> {
    (near(3.0, 7.0), near(0.3, 2.0), near(0.004, 0.1), near(0.0, 10.0), near(1e4, 1e7), near(0.0, 0.5)).prop_map(
        |v| rotor::SectionPolar {
            lift_slope_per_rad: v.0,
            lift_limit: v.1,
            drag_zero: v.2,
            drag_alpha2_per_rad2: v.3,
            reference_reynolds: v.4,
            reynolds_exponent: v.5,
        },
    )
}

fn geometry() -> impl Strategy<Value = rotor::Rotor> {
    (0u32..14, near(0.03, 3.0), near(0.003, 0.3), near(0.02, 0.6), near(-30.0, 10.0), polar()).prop_map(|v| {
        rotor::Rotor { blades: v.0, radius_m: v.1, chord_m: v.2, root_fraction: v.3, twist_deg: v.4, polar: v.5 }
    })
}

fn any_air() -> impl Strategy<Value = air::Air> {
    prop_oneof![
        4 => (-500.0..5000.0f64).prop_map(|h| air::standard_air(h).unwrap()),
        1 => prop::array::uniform8(wild()).prop_map(|v| air::Air {
            pressure_pa: v[0], temperature_c: v[1], humidity: v[2], density_kg_m3: v[3],
            viscosity_pa_s: v[4], sound_m_s: v[5], pressure_altitude_m: v[6], density_altitude_m: v[7],
        }),
    ]
}

fn hover_question() -> impl Strategy<Value = rotor::HoverQuestion> {
    (geometry(), any_air(), near(10.0, 3000.0), near(0.05, 30.0), near(0.0, 0.3), near(0.0, 30.0)).prop_map(|v| {
        rotor::HoverQuestion {
            rotor: v.0,
            air: v.1,
            speed_rpm: v.2,
            mass_kg: v.3,
            download_fraction: v.4,
            climb_m_s: v.5,
        }
    })
}

fn centre() -> impl Strategy<Value = balance::Centre> {
    (near(1.0, 20_000.0), near(-60.0, 60.0), near(-20.0, 20.0), prop::option::of(near(-300.0, 300.0)))
        .prop_map(|v| balance::Centre { mass_g: v.0, x_mm: v.1, y_mm: v.2, z_mm: v.3 })
}

fn band() -> impl Strategy<Value = balance::Band> {
    (near(-10.0, 0.0), near(0.0, 10.0), near(-5.0, 0.0), near(0.0, 5.0)).prop_map(|v| balance::Band {
        x_low_mm: v.0,
        x_high_mm: v.1,
        y_low_mm: v.2,
        y_high_mm: v.3,
    })
}

fn train() -> impl Strategy<Value = drive::DriveTrain> {
    let stage = (0u32..200, 0u32..400).prop_map(|(driver, driven)| drive::GearStage::gears(driver, driven));
    (prop::collection::vec(stage, 0..6), near(0.5, 30.0), 0u32..14, 0u32..32, 0u32..52).prop_map(|v| {
        drive::DriveTrain { stages: v.0, tail_ratio: v.1, main_blades: v.2, tail_blades: v.3, pole_pairs: v.4 }
    })
}

fn readings() -> impl Strategy<Value = Vec<heat::HeatReading>> {
    prop::collection::vec((near(0.0, 900.0), near(-20.0, 150.0)), 0..12).prop_map(|v| {
        v.into_iter().map(|(time_s, temperature_c)| heat::HeatReading { time_s, temperature_c }).collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn air_and_momentum(v in prop::array::uniform6(prop_oneof![near(0.0, 2.0), near(-40.0, 60.0), near(5e4, 1.1e5)])) {
        sound(air::standard_air(v[0]))?;
        sound(air::air(v[0], v[1], v[2]))?;
        sound(air::air_from_qnh(v[0], v[1], v[2], v[3]))?;
        sound(air::density_altitude(v[0]))?;
        sound(air::geopotential_from_geometric(v[0]))?;
        sound(rotor::momentum_hover(v[0], v[1], v[2]))?;
        sound(rotor::climb_power(v[0], v[1], v[2], v[3]))?;
        sound(rotor::profile_power(v[0], v[1], v[2], v[3], v[4]))?;
        sound(rotor::uniform_inflow_thrust(v[0], v[1], v[2]))?;
        sound(rotor::ground_effect(v[0]))?;
        sound(placement::separation_margin(v[0]))?;
        sound(placement::magnification(v[0], v[1]))?;
        sound(pack::cold(v[0]))?;
        sound(pack::ripple(v[1].abs() as u32, v[0]))?;
        sound(pack::ripple_rms(v[0], pack::RippleShape::Sine))?;
        sound(pack::flight_time(v[0], v[1], v[2], v[3]))?;
        sound(balance::ballast_at(v[0], v[1], v[2], v[3]))?;
        sound(balance::move_for(v[0], v[1], v[2], v[3]))?;
        sound(balance::mass_to_shift(v[0], v[1], v[2], v[3], v[4]))?;
        sound(wire::gauge_diameter_mm(v[0] as i32))?;
        sound(wire::resistance_ohm_per_km(v[0] as i32, v[1]))?;
        if let Ok(Some(time_s)) = heat::time_to_limit(v[0], v[1], v[2], v[3]) {
            prop_assert!(time_s >= 0.0);
        }
    }

    #[test]
    fn rotors(question in hover_question(), deg in near(0.0, 20.0), available_w in near(1.0, 1e5), h_m in near(-500.0, 5000.0)) {
        sound(rotor::rotor_loads(&rotor::RotorPoint { rotor: question.rotor, air: question.air, speed_rpm: question.speed_rpm, collective_deg: deg, climb_m_s: question.climb_m_s }))?;
        sound(rotor::hover(&question))?;
        sound(rotor::head_room(&rotor::HeadRoomQuestion { hover: question, available_w, density_altitude_m: h_m }))?;
    }

    #[test]
    fn tails(v in (near(1.0, 1e5), near(10.0, 3e4), near(0.1, 10.0), near(0.03, 5.0), near(0.5, 1.8), near(0.2, 1.0), near(0.5, 1.5))) {
        for kind in [rotor::TailKind::Open, rotor::TailKind::Shrouded { wake_area_ratio: v.6 }] {
            sound(rotor::tail(&rotor::TailQuestion { main_power_w: v.0, head_speed_rpm: v.1, arm_m: v.2, tail_diameter_m: v.3, density_kg_m3: v.4, kind, figure_of_merit: v.5 }))?;
        }
    }

    #[test]
    fn centres(parts in prop::collection::vec((near(1.0, 5000.0), near(-900.0, 900.0), near(-200.0, 200.0), near(-200.0, 300.0), any::<bool>()), 0..8),
        supports in prop::collection::vec((near(0.0, 6000.0), near(-300.0, 300.0), near(-200.0, 200.0), near(-10.0, 10.0), near(0.0, 6000.0)), 0..10),
        tilt in prop::option::of((near(3.0, 45.0), near(0.0, 5.0))), weighed in any::<bool>(),
        accuracy in (near(0.0, 10.0), near(0.0, 5.0)), band in prop::option::of(band())) {
        let weighing = weighed.then(|| balance::Weighing {
            supports: supports.iter().map(|s| balance::Support { name: String::new(), reading_g: s.0, x_mm: s.1, y_mm: s.2, z_mm: s.3 }).collect(),
            tilted: tilt.map(|t| balance::TiltedReadings { nose_up_deg: t.0, angle_half_width_deg: t.1, readings_g: supports.iter().map(|s| if weighed { s.0 } else { s.4 }).collect() }),
        });
        sound(balance::balance_report(&balance::BalanceInput {
            weighing,
            parts: parts.iter().map(|p| balance::Part { name: String::new(), mass_g: p.0, x_mm: p.1, y_mm: p.2, z_mm: p.3, to_come: p.4 }).collect(),
            accuracy: balance::Accuracy { scale_half_width_g: accuracy.0, ruler_half_width_mm: accuracy.1 },
            band,
        }))?;
    }

    #[test]
    fn moves(centre in centre(), v in prop::array::uniform4(near(-500.0, 500.0))) {
        sound(balance::move_part(&balance::PartMove { centre, part_mass_g: v[0], dx_mm: v[1], dy_mm: v[2], dz_mm: v[3] }))?;
    }

    #[test]
    fn ballast_questions(centre in centre(), band in band(), places in prop::collection::vec((near(-900.0, 900.0), near(-200.0, 200.0), near(0.0, 600.0)), 0..18)) {
        sound(ballast::least_ballast(&ballast::BallastQuestion {
            centre,
            band,
            places: places.iter().map(|p| ballast::BallastPlace { name: String::new(), x_mm: p.0, y_mm: p.1, z_mm: 0.0, limit_g: p.2 }).collect(),
        }))?;
    }

    #[test]
    fn supplies(v in prop::array::uniform14(prop_oneof![near(0.0, 10.0), near(0.0, 100.0)]), quantity in any::<u32>()) {
        sound(supply::rail_report(&supply::RailLoad {
            rail: supply::Rail { name: String::new(), full_v: v[0], nominal_v: v[1], empty_v: v[2], continuous_a: v[3], burst_a: v[4], ripple_v: v[5] },
            consumers: vec![supply::Consumer { name: String::new(), low_v: v[6], high_v: v[7], steady_a: v[8], quantity: quantity % 12, fault_a: Some(v[9]) }],
            stirring_peak_a: v[10],
            stirring_low_v: Some(v[11]),
        }))?;
        let linear = supply::Regulator { kind: supply::RegulatorKind::Linear { dropout_v: v[0] }, input_v: v[1], output_v: v[2], load_a: v[3], ambient_c: v[4], thermal_resistance_k_per_w: v[5], limit_c: v[6] };
        sound(supply::regulator_report(&linear))?;
        sound(supply::regulator_report(&supply::Regulator { kind: supply::RegulatorKind::Switching { efficiency: v[7] }, ..linear }))?;
        sound(supply::receiver_endurance(&supply::ReceiverPack { capacity_mah: v[10], average_a: v[11], planned_min: v[12], usable_fraction: v[13] }))?;
    }

    #[test]
    fn wires_and_drives(train in train(), v in (near(0.001, 50.0), near(0.0, 100.0), near(1.0, 100.0), near(-40.0, 90.0), near(1.0, 1.5), near(0.001, 120.0), prop::option::of(near(60.0, 300.0)), prop::option::of(near(0.1, 40.0))),
        g in (near(10.0, 2000.0), near(0.0, 0.1), near(1.0, 100.0), near(0.0, 0.1), near(0.0, 300.0), near(10.0, 3000.0))) {
        let run = wire::WireRun { area_mm2: v.5, length_m: v.0, current_a: v.1, source_v: v.2, air_c: v.3, insulation_c: v.6, outside_mm: v.7, stranded_factor: v.4 };
        sound(wire::wire_run(&run))?;
        sound(wire::choose_wire(&run))?;
        sound(drive::drive_speeds(&train, g.5))?;
        sound(placement::drive_exciters(&train))?;
        sound(drive::governor(&drive::GovernorQuestion { ratio: g.5, motor_rpm_per_v: g.0, motor_ohm: g.1, end_rest_v: g.2, pack_ohm: g.3, current_a: g.4, head_rpm: g.5 }))?;
    }

    #[test]
    fn packs(v in prop::array::uniform6(near(0.1, 6000.0)), cells_v in prop::collection::vec(near(3.0, 4.2), 0..32), cells in 0u32..40,
        trend in prop::collection::vec((near(0.0, 300.0), near(0.001, 0.1)), 0..20), health in prop::array::uniform4(prop::option::of(near(0.0, 3.0))), damaged in any::<bool>()) {
        sound(pack::landing(&pack::PackLanding { capacity_mah: v[0], used_mah: v[1], flown_min: v[2], cells_v, reserve_percent: v[5] }))?;
        sound(pack::internal_resistance(&pack::TwoLoads { low_a: v[0], low_load_v: v[1], high_a: v[2], high_load_v: v[3], cells, voltmeter_half_width_v: v[4] }))?;
        sound(pack::resistance_trend(&trend.iter().map(|t| pack::ResistanceReading { cycles: t.0, pack_ohm: t.1 }).collect::<Vec<_>>()))?;
        sound(pack::retire(&pack::PackHealth { resistance_ratio: health[0], capacity_ratio: health[1], charged_spread_v: health[2], hot_cell_k: health[3], damaged }))?;
    }

    #[test]
    fn heats(readings in readings(), air_c in near(-40.0, 50.0), c in prop::array::uniform8(near(0.5, 60.0)), q in (near(0.0, 150.0), near(0.3, 0.9), near(20.0, 250.0), near(0.0, 0.01))) {
        sound(heat::fit_rise(&readings))?;
        sound(heat::touchdown(&readings, air_c))?;
        let condition = |i: usize| heat::HeatCondition { air_c: c[i], density_kg_m3: c[i + 1].min(1.8), airflow_m_s: c[i + 2], current_a: c[i + 3] };
        let steady = heat::SteadyQuestion { measured_c: q.0, measured_at: condition(0), asked_for: condition(4), exponent: q.1, limit_c: q.2, loss_per_k: q.3 };
        sound(heat::steady_elsewhere(&steady))?;
        let tau = Some(heat::TimeConstant { tau_s: c[3], half_width_s: c[2] });
        sound(heat::hotter_day(&heat::HotterDay { question: steady, measured_after_s: c[4], measured_half_width_k: c[2], exponent_half_width: c[1] / 10.0, tau, flight_s: c[0] }))?;
    }

    #[test]
    fn rotating_parts(v in (near(1e-4, 50.0), near(10.0, 1e5), near(0.4, 40.0), near(0.5, 5000.0), prop::option::of(near(0.0, 1e3))),
        blades in prop::collection::vec((near(0.1, 2000.0), near(1.0, 1000.0)), 0..14), p in prop::array::uniform6(near(0.0, 180.0)), hub in (near(0.0, 200.0), near(10.0, 3000.0))) {
        sound(unbalance::permissible(&unbalance::RotatingPart { mass_kg: v.0, speed_rpm: v.1, grade_mm_s: v.2, correction_radius_mm: v.3, measured_gmm: v.4 }))?;
        sound(unbalance::blade_set(&blades.iter().map(|b| unbalance::Blade { mass_g: b.0, balance_point_mm: b.1 }).collect::<Vec<_>>(), hub.0, hub.1))?;
        let polar = |i: usize| unbalance::Polar { size: p[i], angle_deg: p[i + 1] };
        sound(unbalance::single_plane(&unbalance::SinglePlaneRun { first: polar(0), trial_g: polar(2), with_trial: polar(4), with_rotation: true, is_lag: true }))?;
    }

    #[test]
    fn placements(exciters in prop::collection::vec(near(0.01, 1e4), 0..12), naturals in prop::collection::vec((near(0.1, 2000.0), near(0.0, 5.0)), 0..12), r in (near(10.0, 2000.0), near(10.0, 3000.0), near(0.0, 50.0), near(10.0, 3000.0))) {
        let question = placement::PlacementQuestion {
            exciters: exciters.iter().map(|order| placement::Exciter { name: String::new(), order: *order }).collect(),
            naturals: naturals.iter().map(|n| placement::NaturalFrequency { name: String::new(), frequency_hz: n.0, half_width_hz: n.1 }).collect(),
            low_rpm: r.0,
            high_rpm: r.1,
            margin_percent: r.2,
        };
        sound(placement::placement(&question))?;
        sound(placement::nearest_order(&question, r.3))?;
    }

    #[test]
    fn ladders(a in (near(0.05, 20.0), near(0.1, 2.0), near(0.005, 0.3), near(1.0, 60.0)),
        steps in prop::collection::vec((near(50.0, 3000.0), near(0.5, 1.8), near(-40.0, 60.0), prop::option::of(near(1.0, 5000.0)), prop::option::of(near(0.1, 200.0)), prop::option::of(near(61.0, 250.0))), 0..8),
        n in (near(50.0, 3000.0), near(0.5, 1.8), near(-40.0, 60.0)), reading in wild(),
        p in (near(0.3, 1.0), near(0.001, 0.5), near(1.0, 2.0), near(0.001, 0.5), near(0.004, 0.05), near(0.001, 1.0), near(0.1, 10.0), near(0.001, 1.0), near(0.001, 0.3)), usual in any::<bool>(), w in prop::option::of((near(0.0, 6.0), near(0.0, 3.0))), tau in prop::option::of((near(0.1, 600.0), near(0.0, 600.0)))) {
        let prior = prediction::PowerPrior { efficiency: p.0, efficiency_spread: p.1, induced_factor: p.2, induced_spread: p.3, drag_zero: p.4, drag_spread: p.5, drag_alpha2_per_rad2: p.6, drag_alpha2_spread: p.7, scatter: p.8, wider: 2.5, wider_chance: 0.15 };
        let wind = w.map(|(speed_m_s, half_width_m_s)| wind::RotorWind { speed_m_s, half_width_m_s });
        let result = prediction::predict(&prediction::LadderQuestion {
            aircraft: prediction::LadderAircraft { mass_kg: a.0, radius_m: a.1, solidity: a.2, loaded_v: a.3 },
            prior: if usual { prediction::PowerPrior::LARGE_ELECTRIC } else { prior },
            steps: steps.iter().map(|s| prediction::FlownStep { head_rpm: s.0, density_kg_m3: s.1, air_c: s.2, power_w: s.3, current_a: s.4, temperature_c: s.5, run_s: Some(s.0), wind }).collect(),
            tau: tau.map(|(tau_s, half_width_s)| heat::TimeConstant { tau_s, half_width_s }),
            next: prediction::NextStep { head_rpm: n.0, density_kg_m3: n.1, air_c: n.2, run_s: Some(n.1), wind },
        });
        if let Ok(prediction) = &result {
            prop_assert!(prediction.power_w.low <= prediction.power_w.middle && prediction.power_w.middle <= prediction.power_w.high);
            sound(prediction.power_w.agrees(reading))?;
        }
        sound(result)?;
    }
}

// Every quantity of a question names itself with its range.
#[test]
fn errors_tell_quantity_value_and_range() {
    let error = rotor::ground_effect(0.2).unwrap_err();
    assert_eq!(
        error.to_string(),
        "rotor height over radius is 0.2, but must be from 0.5 to 20: check the figure and its unit, then enter it again"
    );
    let error = pack::cold(f64::INFINITY).unwrap_err();
    assert!(error.to_string().starts_with("pack temperature is inf deg C, but must be from -40 to 80 deg C"));
    assert_eq!(
        air::standard_air(f64::NAN).unwrap_err().to_string(),
        "altitude is not a number: enter or measure it again"
    );
    assert!(
        unbalance::blade_set(&[], 10.0, 1000.0)
            .unwrap_err()
            .to_string()
            .starts_with("blades: 0 given, but 2 to 12 are needed")
    );
}
