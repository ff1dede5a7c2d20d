//! Air and rotors against standards, reference libraries and measured rotors.
#![allow(clippy::unwrap_used, clippy::print_stdout, missing_docs)]

use liftgate_core::engineering::EngineeringError;
use liftgate_core::engineering::air::{self, air, air_from_qnh, geopotential_from_geometric, standard_air};
use liftgate_core::engineering::rotor::*;
use proptest::prelude::*;

// US Standard Atmosphere 1976, closed form at geopotential altitude.
#[test]
fn standard_atmosphere_holds_to_a_millionth() {
    for (h_m, t_k, p_pa, rho) in [
        (0.0, 288.150, 101_325.00, 1.224999),
        (500.0, 284.900, 95_460.84, 1.167268),
        (1000.0, 281.650, 89_874.57, 1.111642),
        (2000.0, 275.150, 79_495.22, 1.006490),
        (3000.0, 268.650, 70_108.54, 0.909121),
    ] {
        let a = standard_air(h_m).unwrap();
        assert!((a.temperature_c + 273.15 - t_k).abs() < 1e-6);
        assert!((a.pressure_pa / p_pa - 1.0).abs() < 1e-6, "{h_m}");
        assert!((a.density_kg_m3 / rho - 1.0).abs() < 1e-6, "{h_m}");
        assert!((a.pressure_altitude_m - h_m).abs() < 1e-6);
    }
    // The same standard at a *geometric* 1000 m: 89876.285 Pa, 1.111659 kg/m3.
    let a = standard_air(geopotential_from_geometric(1000.0).unwrap()).unwrap();
    assert!((a.pressure_pa / 89_876.285 - 1.0).abs() < 1e-6);
    assert!((a.density_kg_m3 / 1.111659 - 1.0).abs() < 1e-6);
}

// Density altitude (closed form, dry) and density against MetPy 1.7.1 (0.05 %) and CoolProp 8.0.0 (0.1 %).
#[test]
fn moist_air_agrees_with_two_libraries() {
    for (p_pa, t_c, rh, dry_m, moist_m, metpy, coolprop) in [
        (101_325.0, 30.0, 0.0, 525.5, 525.5, 1.16441, 1.16476),
        (101_325.0, 30.0, 0.5, 525.5, 607.0, 1.15521, 1.15556),
        (101_325.0, 35.0, 0.8, 693.5, 866.3, 1.12634, 1.12665),
        (89_874.57, 20.0, 0.0, 1405.5, 1405.5, 1.06805, 1.06843),
        (79_495.2, 35.0, 0.6, 3111.8, 3267.7, 0.88434, 0.88451),
    ] {
        let dry = air(p_pa, t_c, 0.0).unwrap();
        let moist = air(p_pa, t_c, rh).unwrap();
        assert!((dry.density_altitude_m - dry_m).abs() < 0.1, "{}", dry.density_altitude_m);
        assert!((moist.density_altitude_m - moist_m).abs() < 5.0, "{}", moist.density_altitude_m);
        assert!((moist.density_kg_m3 / metpy - 1.0).abs() < 5e-4);
        assert!((moist.density_kg_m3 / coolprop - 1.0).abs() < 1e-3);
    }
}

#[test]
fn qnh_shifts_the_standard_column() {
    let a = air_from_qnh(101_325.0, 1000.0, 8.5, 0.0).unwrap();
    assert!((a.pressure_pa - 89_874.57).abs() < 0.1);
    let low = air_from_qnh(99_000.0, 0.0, 15.0, 0.0).unwrap();
    assert!((low.pressure_pa - 99_000.0).abs() < 0.01);
    // US Standard Atmosphere 1976: speed of sound 340.294 m/s, viscosity 1.7894e-5 Pa s at sea level.
    let sea = standard_air(0.0).unwrap();
    assert!((sea.sound_m_s - 340.294).abs() < 0.001);
    assert!((sea.viscosity_pa_s - 1.7894e-5).abs() < 1e-9);
}

#[test]
fn a_pressure_in_hectopascals_is_refused_with_its_range() {
    assert_eq!(
        air(1013.25, 15.0, 0.5).unwrap_err(),
        EngineeringError::OutOfRange {
            quantity: "air pressure",
            value: 1013.25,
            unit: "Pa",
            low: 50_000.0,
            high: 110_000.0
        }
    );
}

// Momentum theory, closed form, g = 9.80665.
#[test]
fn ideal_hover_and_profile_power() {
    let hover = momentum_hover(11.0 * 9.80665, 1.0, 1.225).unwrap();
    assert!((hover.induced_m_s - 3.74368).abs() < 1e-4);
    assert!((hover.ideal_w - 403.843).abs() < 1e-2);
    assert!((momentum_hover(11.0 * 9.80665, 1.0, 1.0066).unwrap().ideal_w - 445.504).abs() < 1e-2);
    assert!((profile_power(0.05, 0.0113, 0.8, 1800.0, 1.225).unwrap() - 596.48).abs() < 0.01);
    for (deg, ct) in [(5.0, 0.00312), (8.0, 0.00622), (12.0, 0.01094)] {
        let found = uniform_inflow_thrust(0.1061, std::f64::consts::TAU, deg).unwrap();
        assert!((found - ct).abs() < 5.1e-6);
    }
}

fn table(text: &str) -> Vec<Vec<f64>> {
    text.lines()
        .filter(|l| !l.starts_with('#') && !l.is_empty())
        .skip(1)
        .map(|l| l.split(',').map(|f| f.trim().parse().unwrap_or(f64::NAN)).collect())
        .collect()
}

fn mean(v: &[f64]) -> f64 {
    v.iter().sum::<f64>() / v.len() as f64
}

fn worst(v: &[f64]) -> f64 {
    v.iter().fold(0.0, |w, e| w.max(e.abs()))
}

fn spread(v: &[f64]) -> String {
    format!("mean {:+.4} worst {:.4}", mean(v), worst(v))
}

/// The rotor of NACA TN-626 (Knight and Hefner, 1937): D 5 ft, chord 2 in, NACA 0015, untwisted, about 960 rpm, root 16.7 % R.
fn rotor_of_tn_626(blades: u32) -> RotorPoint {
    RotorPoint {
        rotor: Rotor {
            blades,
            radius_m: 0.762,
            chord_m: 0.0508,
            root_fraction: 0.167,
            twist_deg: 0.0,
            polar: SectionPolar::SMALL_SYMMETRIC,
        },
        air: standard_air(0.0).unwrap(),
        speed_rpm: 960.0,
        collective_deg: 0.0,
        climb_m_s: 0.0,
    }
}

// NACA TN-626, all blade counts; thrust and torque stated to 1 %. Report coefficients are twice today's. Thrust within 3 % in the mean is what
// was asked for; each other bound lies a little above what was measured when it was set, which stands beside it.
#[test]
fn measured_rotors_of_tn_626() {
    let (mut thrust, mut power) = (vec![], vec![]);
    let (mut by_blades, mut at_thrust) = (vec![vec![]; 4], vec![]);
    for row in table(include_str!("data/naca_tn626.csv")) {
        let (ct, cp) = (row[3] / 2.0, row[4] / 2.0);
        let point = RotorPoint { collective_deg: row[2], ..rotor_of_tn_626(row[0] as u32) };
        assert!((point.rotor.solidity() - row[1]).abs() < 1e-4);
        let loads = rotor_loads(&point).unwrap();
        assert!((loads.tip_reynolds / 242_000.0 - 1.0).abs() < 0.12);
        let off = (loads.thrust_coefficient / ct - 1.0, loads.power_coefficient / cp - 1.0);
        // What the phone says about the model must hold at every measured point that lifts.
        let stated = model_accuracy(&loads);
        if row[2] >= 1.0 {
            println!("{row:?} thrust {:+.3} power {:+.3}", off.0, off.1);
            assert!(100.0 * off.0.abs() <= stated.thrust_percent.unwrap(), "{row:?}");
            assert!(100.0 * off.1.abs() <= stated.power_percent.unwrap(), "{row:?}");
        }
        if row[2] >= 6.0 {
            thrust.push(off.0);
            power.push(off.1);
            by_blades[row[0] as usize - 2].push(off.0);
            let hovering = hover_at(&point, ct);
            at_thrust.push(hovering.power_coefficient / cp - 1.0);
            // Measured figures of merit run from .42 to .63.
            assert!(loads.figure_of_merit > 0.4 && loads.figure_of_merit < 0.65);
        }
    }
    println!("TN-626 thrust {}, power {}, at its thrust {}", spread(&thrust), spread(&power), spread(&at_thrust));
    assert_eq!(thrust.len(), 19);
    assert!(mean(&thrust).abs() < 0.03); // -0.020
    assert!(worst(&thrust) < 0.065); // 0.060
    // The mean of each blade count: -0.033, -0.016, -0.025, -0.001.
    assert!(by_blades.iter().all(|of| of.len() >= 4 && mean(of).abs() < 0.04));
    assert!(mean(&power).abs() < 0.035 && worst(&power) < 0.11); // -0.033, 0.105
    assert!(mean(&at_thrust).abs() < 0.015 && worst(&at_thrust) < 0.05); // -0.008, 0.045
}

/// The rotor at the collective that makes this thrust coefficient.
fn hover_at(point: &RotorPoint, thrust_coefficient: f64) -> RotorLoads {
    let tip_m_s = point.rotor.radius_m * point.speed_rpm * std::f64::consts::TAU / 60.0;
    let area_m2 = std::f64::consts::PI * point.rotor.radius_m.powi(2);
    let thrust_n = thrust_coefficient * point.air.density_kg_m3 * area_m2 * tip_m_s * tip_m_s;
    let question = HoverQuestion {
        rotor: point.rotor,
        air: point.air,
        speed_rpm: point.speed_rpm,
        mass_kg: thrust_n / 9.80665,
        download_fraction: 0.0,
        climb_m_s: 0.0,
    };
    hover(&question).unwrap().loads
}

// NACA TN-2474 (Castles and Gray, 1951): three blades, solidity .050, root 6.09 in.
#[test]
fn measured_rotors_of_tn_2474() {
    let mut thrust = vec![];
    let mut torque = vec![];
    for row in table(include_str!("data/naca_tn2474.csv")) {
        let radius_m = row[1] * 0.3048 / 2.0;
        let point = |collective_deg| RotorPoint {
            rotor: Rotor {
                blades: 3,
                radius_m,
                chord_m: 0.05 * std::f64::consts::PI * radius_m / 3.0,
                root_fraction: 6.09 * 0.0254 / radius_m,
                twist_deg: 0.0,
                polar: SectionPolar::SMALL_SYMMETRIC,
            },
            air: standard_air(0.0).unwrap(),
            speed_rpm: row[2],
            collective_deg,
            climb_m_s: 0.0,
        };
        let loads = rotor_loads(&point(row[3])).unwrap();
        let zero = rotor_loads(&point(0.0)).unwrap();
        let off = 100.0 * (loads.thrust_coefficient / row[4] - 1.0).abs();
        println!("{row:?} thrust off {off:.0} %");
        assert!(off <= model_accuracy(&loads).thrust_percent.unwrap(), "{row:?}: {off}");
        if row[4] > 0.0015 {
            thrust.push(loads.thrust_coefficient / row[4] - 1.0);
            if row[5].is_finite() {
                torque.push((loads.power_coefficient - zero.power_coefficient) / row[5] - 1.0);
            }
        }
    }
    println!(
        "TN-2474 thrust mean {:.4} worst {:.4}, torque rise mean {:.4} worst {:.4}",
        mean(&thrust),
        worst(&thrust),
        mean(&torque),
        worst(&torque)
    );
    assert!(thrust.len() >= 17);
    // Two runs of one of these rotors lie up to 8 % apart in thrust. Measured: mean -0.036, worst 0.138.
    assert!(mean(&thrust).abs() < 0.04 && worst(&thrust) < 0.14);
    // No tolerance is set for the torque above zero thrust; what the documentation says about it must stay true: mean 0.041, worst 0.219.
    assert!(mean(&torque) > 0.0 && mean(&torque) < 0.05 && worst(&torque) < 0.23);
}

// NASA TM-81232 (1981): aspect ratio 6, strong tip vortices. Simple models read 15 to 55 % high: a band, never an accuracy claim.
#[test]
fn short_blades_read_high_as_documented() {
    for (deg, ct) in [(5.0, 0.00213), (8.0, 0.00459), (12.0, 0.00796)] {
        let loads = rotor_loads(&RotorPoint {
            rotor: Rotor {
                blades: 2,
                radius_m: 1.143,
                chord_m: 0.1905,
                root_fraction: 0.17,
                twist_deg: 0.0,
                polar: SectionPolar::SMALL_SYMMETRIC,
            },
            air: standard_air(0.0).unwrap(),
            speed_rpm: 0.435 * 340.294 / 1.143 * 60.0 / std::f64::consts::TAU,
            collective_deg: deg,
            climb_m_s: 0.0,
        })
        .unwrap();
        let high = loads.thrust_coefficient / ct - 1.0;
        println!("TM-81232 {deg} deg: {high:.3}");
        // Measured: 0.249, 0.163, 0.180.
        assert!((0.15..0.25).contains(&high), "{high}");
    }
}

// Cheeseman and Bennett, ARC R&M 3021 (1955); Hayden (1976).
#[test]
fn ground_effect_at_published_heights() {
    for (z, thrust, power) in [(0.5, 1.33333, 0.62514), (1.0, 1.06667, 0.87385), (2.0, 1.01587, 0.97037)] {
        let effect = ground_effect(z).unwrap();
        assert!((effect.thrust_ratio - thrust).abs() < 1e-5);
        assert!((effect.induced_power_ratio - power).abs() < 1e-5);
    }
    assert!(ground_effect(0.49).is_err());
    assert_eq!(ground_effect(20.0).unwrap().induced_power_ratio, 1.0);
}

// Closed form: 1200 W at 1600 rpm, arm 0.95 m, tail 0.30 m: 7.16197 N m, 7.53892 N, 6.5979 m/s, 49.741 W.
#[test]
fn tail_thrust_and_power() {
    let mut question = TailQuestion {
        main_power_w: 1200.0,
        head_speed_rpm: 1600.0,
        arm_m: 0.95,
        tail_diameter_m: 0.30,
        density_kg_m3: 1.225,
        kind: TailKind::Open,
        figure_of_merit: 0.5,
    };
    let open = tail(&question).unwrap();
    assert!((open.main_torque_nm - 7.16197).abs() < 1e-4);
    assert!((open.thrust_n - 7.53892).abs() < 1e-4);
    assert!((open.induced_m_s - 6.5979).abs() < 1e-4);
    assert!((open.ideal_w - 49.741).abs() < 1e-3);
    assert!((open.power_w - 99.482).abs() < 1e-3);
    // Ducted-fan momentum theory: a straight duct needs 1/sqrt 2 of the open rotor's power.
    question.kind = TailKind::Shrouded { wake_area_ratio: 1.0 };
    assert!((tail(&question).unwrap().ideal_w / open.ideal_w - 0.5f64.sqrt()).abs() < 1e-12);
}

fn class_rotor() -> Rotor {
    Rotor {
        blades: 3,
        radius_m: 0.9,
        chord_m: 0.07,
        root_fraction: 0.17,
        twist_deg: 0.0,
        polar: SectionPolar::SMALL_SYMMETRIC,
    }
}

// Closed form: R 0.8 m at 1800 rpm and 15 deg C: 150.7964 m/s, Mach .44314.
#[test]
fn tip_speed_and_mach() {
    let rotor = Rotor { radius_m: 0.8, ..class_rotor() };
    let loads = rotor_loads(&RotorPoint {
        rotor,
        air: standard_air(0.0).unwrap(),
        speed_rpm: 1800.0,
        collective_deg: 5.0,
        climb_m_s: 0.0,
    })
    .unwrap();
    assert!((loads.tip_speed_m_s - 150.7964).abs() < 1e-4);
    assert!((loads.tip_mach - 0.44314).abs() < 1e-5);
}

#[test]
fn hover_climb_and_thin_air_cost_power() {
    let question = HoverQuestion {
        rotor: class_rotor(),
        air: standard_air(0.0).unwrap(),
        speed_rpm: 1200.0,
        mass_kg: 10.0,
        download_fraction: 0.03,
        climb_m_s: 0.0,
    };
    let level = hover(&question).unwrap();
    let climb = hover(&HoverQuestion { climb_m_s: 3.0, ..question }).unwrap();
    let extra_w = climb.loads.power_w - level.loads.power_w;
    // Momentum theory: a slow climb costs between half and all of weight times climb.
    let lift_w = level.loads.thrust_n * 3.0;
    assert!(extra_w > 0.5 * lift_w && extra_w < lift_w, "{extra_w} of {lift_w}");
    let ideal_w = climb_power(level.loads.thrust_n, 0.9, 1.225, 3.0).unwrap();
    assert!(climb.loads.power_w > ideal_w);
    let high =
        head_room(&HeadRoomQuestion { hover: question, available_w: 1200.0, density_altitude_m: 3000.0 }).unwrap();
    assert!(high.hover.collective_deg > level.collective_deg);
    assert!(high.hover.loads.blade_loading > level.loads.blade_loading);
    let heavy = hover(&HoverQuestion { mass_kg: 90.0, ..question }).unwrap_err();
    assert!(matches!(heavy, EngineeringError::Contradiction { .. }));
}

proptest! {
    #[test]
    fn thrust_grows_with_collective_and_speed(deg in 1.0..11.0f64, rpm in 400.0..2000.0f64, blades in 2u32..6) {
        let point = RotorPoint { rotor: Rotor { blades, ..class_rotor() }, air: standard_air(0.0).unwrap(), speed_rpm: rpm, collective_deg: deg, climb_m_s: 0.0 };
        let loads = rotor_loads(&point).unwrap();
        let more = rotor_loads(&RotorPoint { collective_deg: deg + 0.5, ..point }).unwrap();
        let faster = rotor_loads(&RotorPoint { speed_rpm: rpm * 1.05, ..point }).unwrap();
        prop_assert!(more.thrust_n > loads.thrust_n && more.power_w > loads.power_w);
        prop_assert!(faster.thrust_n > loads.thrust_n && faster.power_w > loads.power_w);
        // No rotor beats momentum theory.
        let ideal = momentum_hover(loads.thrust_n.max(0.01), 0.9, 1.225).unwrap();
        prop_assert!(loads.power_w > ideal.ideal_w);
        prop_assert!(loads.profile_w > 0.0 && loads.profile_w < loads.power_w);
    }

    #[test]
    fn hover_finds_its_thrust(mass_kg in 3.0..15.0f64, rpm in 1000.0..1800.0f64, h_m in 0.0..4000.0f64) {
        let question = HoverQuestion { rotor: class_rotor(), air: standard_air(h_m).unwrap(), speed_rpm: rpm, mass_kg, download_fraction: 0.0, climb_m_s: 0.0 };
        let report = hover(&question).unwrap();
        prop_assert!((report.loads.thrust_n / (mass_kg * 9.80665) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn altitude_round_trips(h_m in -500.0..5000.0f64) {
        let a = standard_air(h_m).unwrap();
        prop_assert!((a.pressure_altitude_m - h_m).abs() < 1e-6);
        // The standard's rho0 is rounded to 1.225 (6e-7 of it), which is worth 6 mm.
        prop_assert!((air::density_altitude(a.density_kg_m3).unwrap() - h_m).abs() < 0.02);
    }
}

// A figure that was seen at 242,000 says nothing of a rotor at three times that, whatever its pitch: TN-626 and TN-2474 cover 150,000 to 400,000.
#[test]
fn no_accuracy_is_told_for_a_reynolds_number_at_which_nothing_was_measured() {
    let rotor = Rotor {
        blades: 2,
        radius_m: 0.9,
        chord_m: 0.08,
        root_fraction: 0.17,
        twist_deg: 0.0,
        polar: SectionPolar::SMALL_SYMMETRIC,
    };
    for collective_deg in [4.0, 9.0] {
        let air = standard_air(0.0).unwrap();
        let point = RotorPoint { rotor, air, speed_rpm: 1_300.0, collective_deg, climb_m_s: 0.0 };
        let stated = model_accuracy(&rotor_loads(&point).unwrap());
        assert_eq!((stated.basis, stated.thrust_percent), (ModelBasis::OtherReynolds, None), "{collective_deg}");
    }
}
