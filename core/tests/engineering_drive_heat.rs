//! Wire, drive, pack, heat, unbalance and placement against standards, worked examples and closed forms.
#![allow(clippy::unwrap_used, clippy::approx_constant, clippy::excessive_precision, missing_docs)]

use liftgate_core::engineering::drive::*;
use liftgate_core::engineering::heat::*;
use liftgate_core::engineering::pack::*;
use liftgate_core::engineering::placement::*;
use liftgate_core::engineering::unbalance::*;
use liftgate_core::engineering::wire::*;
use liftgate_core::engineering::{EngineeringError, Grade};
use proptest::prelude::*;

// ASTM B258 and IEC 60028, computed; within .023 % of a published table.
#[test]
fn wire_resistance_by_gauge() {
    for (gauge, ohm) in [(10, 3.2770), (12, 5.2107), (14, 8.2853), (16, 13.1742), (20, 33.3083), (22, 52.9622)] {
        let found = resistance_ohm_per_km(gauge, 20.0).unwrap();
        assert!((found / ohm - 1.0).abs() < 2e-5, "{gauge}: {found}");
    }
    // Real stranded aircraft wire, FAA AC 43.13-1B table 11-9, maxima in ohm/1000 ft: from 3 % under solid copper to 27.2 % over.
    for (gauge, ohm_per_1000_ft) in
        [(10, 1.26), (12, 2.02), (14, 3.06), (16, 4.81), (18, 6.23), (20, 9.88), (22, 16.20)]
    {
        let ratio = ohm_per_1000_ft / 0.3048 / resistance_ohm_per_km(gauge, 20.0).unwrap();
        assert!(ratio > 0.97 && ratio < STRANDED_FACTOR, "{gauge}: {ratio}");
    }
    // The same document's correction of length for a conductor at 60 deg C: .86418.
    let warm = resistance_ohm_per_km(20, 20.0).unwrap() / resistance_ohm_per_km(20, 60.0).unwrap();
    assert!((warm - 0.86418).abs() < 1e-4);
}

fn lead(area_mm2: f64, current_a: f64) -> WireRun {
    WireRun {
        area_mm2,
        length_m: 0.2,
        current_a,
        source_v: 44.4,
        air_c: 40.0,
        insulation_c: None,
        outside_mm: None,
        stranded_factor: STRANDED_FACTOR,
    }
}

fn gauge(gauge: i32, current_a: f64) -> WireRun {
    lead(gauge_area_mm2(gauge).unwrap(), current_a)
}

// FAA AC 43.13-1B: 0.5 V continuous drop at 14 V, 1 V at 28 V.
#[test]
fn wire_drop_heat_and_fuse() {
    let run = WireRun { length_m: 2.0, source_v: 14.0, stranded_factor: 1.0, ..gauge(20, 3.0) };
    let report = wire_run(&run).unwrap();
    assert!((report.allowed_drop_v - 0.5).abs() < 1e-12);
    let WireWarmth::Settles { conductor_c } = report.warmth else { panic!("{:?}", report.warmth) };
    let ohm_per_m = resistance_ohm_per_km(20, conductor_c).unwrap() / 1000.0;
    assert!((report.drop_v - 3.0 * 4.0 * ohm_per_m).abs() < 1e-9);
    assert!((report.heat_w - report.drop_v * 3.0).abs() < 1e-12);
    assert!((report.heat_w_per_m - report.heat_w / 4.0).abs() < 1e-12);
    let choice = choose_wire(&WireRun { current_a: 10.0, source_v: 28.0, ..run }).unwrap();
    assert_eq!(choice.fuse_a, Some(15.0));
    assert!(choice.wire.rated_a.unwrap() >= 15.0 && choice.wire.margin_v >= 0.0);
    assert!(matches!(
        choose_wire(&WireRun { current_a: 300.0, ..run }).unwrap_err(),
        EngineeringError::Contradiction { .. }
    ));
}

// A motor's lead of twelve cells, in silicone for 200 deg C: what is usual is no stop, what glows is.
#[test]
fn a_power_lead_is_judged_by_how_warm_it_gets() {
    let rated = |run: WireRun| WireRun { insulation_c: Some(200.0), ..run };
    let measured = |outside_mm: f64, run: WireRun| WireRun { outside_mm: Some(outside_mm), ..run };
    let grade = |run: &WireRun| wire_run(run).unwrap().grade;
    for (usual, outside_mm, current_a) in [(8, 6.3, 90.0), (10, 5.5, 65.0), (12, 4.5, 45.0)] {
        let bare = rated(gauge(usual, current_a));
        assert_eq!(grade(&measured(outside_mm, bare)), Grade::Ok, "{usual}");
        assert!(grade(&bare) <= Grade::Caution, "{usual}");
    }
    assert_eq!(grade(&rated(gauge(10, 150.0))), Grade::Stop);
    // The same lead of insulation that nobody knows: no pass, and past what any insulation bears a stop.
    assert_eq!(grade(&gauge(10, 60.0)), Grade::Caution);
    assert_eq!(grade(&gauge(10, 20.0)), Grade::Ok);
    assert_eq!(grade(&gauge(10, 150.0)), Grade::Stop);
    assert!(matches!(wire_run(&gauge(10, 500.0)).unwrap().warmth, WireWarmth::Burns { .. }));
    // Insulation that is said to bear less than usual counts as said.
    assert_eq!(grade(&WireRun { insulation_c: Some(70.0), ..gauge(10, 50.0) }), Grade::Stop);
}

// Outside of the sizes that the source gives currents for nothing is known, and that is no pass.
#[test]
fn a_wire_outside_of_the_known_sizes_is_a_caution_at_any_current() {
    for area_mm2 in [0.08, 0.2, 110.0] {
        let report = wire_run(&lead(area_mm2, 0.0)).unwrap();
        assert_eq!((report.warmth, report.rated_a, report.grade), (WireWarmth::NotKnown, None, Grade::Caution));
    }
    for known in [24, -3] {
        assert!(matches!(wire_run(&gauge(known, 0.1)).unwrap().warmth, WireWarmth::Settles { .. }), "{known}");
    }
}

proptest! {
    // More current, warmer air or a thinner wire never help, and the rated current settles the wire at its limit.
    #[test]
    fn a_wire_gets_warmer_with_current_and_air_and_cooler_with_copper(
        area_mm2 in 0.21f64..100.0, part in 0.05f64..1.0, air_c in -20.0f64..60.0, wall_mm in prop::option::of(0.1f64..2.0),
    ) {
        let outside_mm = |area_mm2: f64| wall_mm.map(|wall_mm| (4.0 * area_mm2 / std::f64::consts::PI).sqrt() + 2.0 * wall_mm);
        let at = |area_mm2: f64, current_a: f64, air_c: f64| {
            let report = wire_run(&WireRun { air_c, outside_mm: outside_mm(area_mm2), ..lead(area_mm2, current_a) }).unwrap();
            match report.warmth {
                WireWarmth::Settles { conductor_c } => conductor_c,
                WireWarmth::NotKnown => f64::NAN,
                WireWarmth::Burns { above_c } => above_c,
            }
        };
        let rated_a = wire_run(&WireRun { air_c, outside_mm: outside_mm(area_mm2), ..lead(area_mm2, 0.0) }).unwrap().rated_a.unwrap();
        // What insulates by so little gives off more than bare copper does.
        let bare_a = wire_run(&WireRun { air_c, ..lead(area_mm2, 0.0) }).unwrap().rated_a.unwrap();
        prop_assert!(rated_a >= bare_a);
        prop_assert!((at(area_mm2, rated_a, air_c) - USUAL_INSULATION_C).abs() < 1e-6);
        let here_c = at(area_mm2, part * rated_a, air_c);
        prop_assert!(here_c > air_c - 1e-6 && here_c < USUAL_INSULATION_C + 1e-6);
        prop_assert!(at(area_mm2, 1.05 * part * rated_a, air_c) > here_c);
        prop_assert!(at(area_mm2, part * rated_a, air_c + 5.0) > here_c);
        prop_assert!(at(1.05 * area_mm2, part * rated_a, air_c) < here_c);
    }
}

fn train() -> DriveTrain {
    DriveTrain {
        stages: vec![GearStage::gears(20, 40), GearStage::gears(12, 60)],
        tail_ratio: 4.6,
        main_blades: 3,
        tail_blades: 10,
        pole_pairs: 7,
    }
}

// Kinematics in closed form; blade passage = blades x rpm / 60 (NASA TM 80200).
#[test]
fn drive_frequencies() {
    let s = drive_speeds(&train(), 1200.0).unwrap();
    assert!((s.ratio - 10.0).abs() < 1e-12);
    assert!((s.main_blade_hz - 60.0).abs() < 1e-9);
    assert!((s.tail_blade_hz - 920.0).abs() < 1e-9);
    assert!((s.motor_hz - 200.0).abs() < 1e-9);
    assert!((s.electrical_hz - 1400.0).abs() < 1e-9);
    assert!((s.commutation_hz - 8400.0).abs() < 1e-9);
    // Both gears of a stage see the same mesh: driven teeth x driven turns.
    assert!((s.mesh_hz[0] - 40.0 * 100.0).abs() < 1e-9 && (s.mesh_hz[1] - 60.0 * 20.0).abs() < 1e-9);
}

#[test]
fn governor_runs_out_as_the_pack_sags() {
    let question = GovernorQuestion {
        ratio: reduction(&train()),
        motor_rpm_per_v: 330.0,
        motor_ohm: 0.012,
        end_rest_v: 43.2,
        pack_ohm: 0.03,
        current_a: 60.0,
        head_rpm: 1300.0,
    };
    let report = governor(&question).unwrap();
    assert!((report.sag_v - 1.8).abs() < 1e-12);
    assert!((report.reachable_rpm - 330.0 * (41.4 - 0.72) / 10.0).abs() < 1e-9);
    assert_eq!(report.grade, Grade::Caution);
    // At exactly the reachable speed the throttle stands at 100 %.
    let edge = governor(&GovernorQuestion { head_rpm: report.reachable_rpm, ..question }).unwrap();
    assert!((edge.throttle_percent - 100.0).abs() < 1e-9 && edge.margin_percent.abs() < 1e-9);
    assert_eq!(governor(&GovernorQuestion { head_rpm: 1350.0, ..question }).unwrap().grade, Grade::Stop);
}

// IEC 61960: 22.92 V at 1 A, 22.68 V at 5 A: .0600 ohm.
#[test]
fn resistance_from_two_loads() {
    let loads = TwoLoads {
        low_a: 1.0,
        low_load_v: 22.92,
        high_a: 5.0,
        high_load_v: 22.68,
        cells: 6,
        voltmeter_half_width_v: 0.005,
    };
    let report = internal_resistance(&loads).unwrap();
    assert!((report.pack_ohm - 0.06).abs() < 1e-9 && (report.cell_ohm - 0.01).abs() < 1e-9);
    assert!(matches!(
        internal_resistance(&TwoLoads { high_load_v: 23.0, ..loads }).unwrap_err(),
        EngineeringError::Contradiction { .. }
    ));
}

// Least squares with its standard error against scipy 1.17.1 linregress on the same five points.
#[test]
fn resistance_trend_against_scipy() {
    let readings: Vec<ResistanceReading> =
        [(0.0, 0.0200), (20.0, 0.0212), (40.0, 0.0219), (60.0, 0.0233), (80.0, 0.0240)]
            .iter()
            .map(|(cycles, pack_ohm)| ResistanceReading { cycles: *cycles, pack_ohm: *pack_ohm })
            .collect();
    let trend = resistance_trend(&readings).unwrap();
    assert!((trend.ohm_per_cycle - SCIPY_SLOPE).abs() < 1e-12);
    assert!((trend.new_ohm - SCIPY_INTERCEPT).abs() < 1e-12);
    // Student's t for 3 degrees of freedom, 97.5 %: 3.182446 (any statistics table).
    assert!((trend.half_width_ohm_per_cycle / SCIPY_STDERR - 3.182446).abs() < 1e-4);
    assert!((trend.doubled_at_cycles.unwrap() - SCIPY_INTERCEPT / SCIPY_SLOPE).abs() < 1e-6);
    assert_eq!(trend.grade, Grade::Ok);
}
const SCIPY_SLOPE: f64 = 5.05000000000000145e-05;
const SCIPY_INTERCEPT: f64 = 2.00599999999999980e-02;
const SCIPY_STDERR: f64 = 2.98607881119477987e-06;

// Common practice, no source, except the arithmetic.
#[test]
fn pack_limits_stand_at_their_edges() {
    let pack = |used_mah: f64, cells_v: Vec<f64>| PackLanding {
        capacity_mah: 5000.0,
        used_mah,
        flown_min: 5.0,
        cells_v,
        reserve_percent: 20.0,
    };
    assert_eq!(landing(&pack(4000.0, vec![3.75, 3.70])).unwrap().grade, Grade::Ok);
    assert_eq!(landing(&pack(4100.0, vec![])).unwrap().grade, Grade::Caution);
    assert_eq!(landing(&pack(3000.0, vec![3.80, 3.74])).unwrap().grade, Grade::Caution);
    assert_eq!(landing(&pack(3000.0, vec![3.80, 3.66])).unwrap().grade, Grade::Stop);
    assert_eq!(landing(&pack(3000.0, vec![3.80, 3.76])).unwrap().lowest, Some((2, 3.76)));
    assert_eq!(landing(&pack(5000.0, vec![])).unwrap().grade, Grade::Stop);
    assert!(landing(&pack(9000.0, vec![])).is_err());
    assert_eq!(ripple(12, 2.6).unwrap().grade, Grade::Stop);
    assert_eq!(cold(9.0).unwrap().grade, Grade::Stop);
    assert_eq!(cold(25.0).unwrap().capacity_factor, 1.0);
    assert!((flight_time(5000.0, 44.4, 20.0, 1776.0).unwrap() - 6.0).abs() < 1e-9);
    let health = PackHealth {
        resistance_ratio: Some(1.9),
        capacity_ratio: Some(0.79),
        charged_spread_v: Some(0.06),
        hot_cell_k: Some(12.0),
        damaged: true,
    };
    assert_eq!(retire(&health).unwrap().reasons.len(), 4);
}

// From memory, no source: the table's own points, that it rises and ends, and that a cell that is full at more has less in it.
#[test]
fn charge_at_rest_and_what_is_kept_under_load() {
    for (cell_v, percent) in
        [(3.0, 0.0), (3.3, 0.0), (3.7, 10.0), (3.8, 35.0), (3.95, 65.0), (4.2, 100.0), (4.3, 100.0)]
    {
        let found = rest_charge(cell_v, FULL_CELL_V).unwrap();
        assert!((found - percent).abs() < 1e-9, "{cell_v}: {found}");
    }
    let rising: Vec<f64> = (320..430).map(|v| rest_charge(f64::from(v) / 100.0, FULL_CELL_V).unwrap()).collect();
    assert!(rising.windows(2).all(|pair| pair[1] >= pair[0]));
    assert!(rest_charge(4.2, 4.35).unwrap() < 86.0 && (rest_charge(4.35, 4.35).unwrap() - 100.0).abs() < 1e-9);
    assert!(rest_charge(-0.1, 4.2).is_err() && rest_charge(3.8, 3.0).is_err());
    // 50 A through 2 mOhm take 0.1 V and leave 3.3 V of 3.4 V; through 9 mOhm 0.45 V.
    assert!((charge_to_keep(50.0, 0.002, 4.2).unwrap() - 5.0 / 3.0).abs() < 1e-9);
    assert!((charge_to_keep(50.0, 0.009, 4.2).unwrap() - 20.0).abs() < 1e-9);
    assert_eq!(charge_to_keep(1_000.0, 1.0, 4.2).unwrap(), 100.0);
    assert!((worn(0.0).unwrap(), worn(100.0).unwrap(), worn(900.0).unwrap()) == (1.0, 0.9, RETIRE_CAPACITY_RATIO));
    assert!(worn(-1.0).is_err());
}

// Closed forms: 40 A with a 10 A sine: ripple factor .17678; triangle of 10 A peak to peak: 2.88675 A rms.
#[test]
fn ripple_currents() {
    assert!((ripple_rms(20.0, RippleShape::Sine).unwrap() / 40.0 - 0.17678).abs() < 1e-5);
    assert!((ripple_rms(10.0, RippleShape::Triangle).unwrap() - 2.88675).abs() < 1e-5);
}

fn rise_readings(until_s: f64) -> Vec<HeatReading> {
    (0..)
        .map(|i| 20.0 * f64::from(i))
        .take_while(|t| *t <= until_s)
        .map(|t| HeatReading {
            time_s: t,
            temperature_c: ((22.0 + 38.0 * (1.0 - (-t / 180.0).exp())) * 2.0f64).round() / 2.0,
        })
        .collect()
}

// scipy 1.17.1 curve_fit on the same rounded readings: Ta 21.95, dT 38.06, tau 179.4 (sigma 1.2); only to 240 s: tau 183.9 (4.2).
#[test]
fn rise_fit_against_scipy() {
    let fit = fit_rise(&rise_readings(600.0)).unwrap();
    assert!((fit.start_c - 21.95).abs() < 0.005 && (fit.rise_k - 38.06).abs() < 0.005, "{fit:?}");
    assert!((fit.tau_s - 179.4).abs() < 0.05 && (fit.tau_u_s - 1.2).abs() < 0.05, "{} {}", fit.tau_s, fit.tau_u_s);
    assert_eq!(fit.grade, Grade::Ok);
    let short = fit_rise(&rise_readings(240.0)).unwrap();
    assert!((short.tau_s - 183.9).abs() < 0.05 && (short.tau_u_s - 4.2).abs() < 0.05);
    assert_eq!(short.grade, Grade::Caution);
    assert!(short.steady_half_width_k > fit.steady_half_width_k);
    let straight: Vec<HeatReading> =
        (0..10).map(|i| HeatReading { time_s: 10.0 * f64::from(i), temperature_c: 20.0 + f64::from(i) }).collect();
    assert!(matches!(fit_rise(&straight).unwrap_err(), EngineeringError::Contradiction { .. }));
}

// Closed form: T0 71, tau 240, air 22. With readings rounded to one degree, or the air 3 K wrong, scipy 1.17.1 curve_fit (least squares of
// the temperatures, as here) gives 70.7636 and 71.2682; a straight line through their logarithms gives 70.970 and 71.354.
#[test]
fn touchdown_worked_back() {
    let times_s = [30.0, 60.0, 90.0, 120.0, 180.0];
    let exact: [f64; 5] = [65.242, 60.161, 55.677, 51.720, 45.146];
    let readings = |round: bool| -> Vec<HeatReading> {
        times_s
            .iter()
            .zip(exact)
            .map(|(t, c)| HeatReading { time_s: *t, temperature_c: if round { c.round() } else { c } })
            .collect()
    };
    let fit = touchdown(&readings(false), 22.0).unwrap();
    assert!((fit.touchdown_c - 71.0).abs() < 0.002 && (fit.tau_s - 240.0).abs() < 0.05);
    let rounded = touchdown(&readings(true), 22.0).unwrap();
    assert!((rounded.touchdown_c - 70.7636).abs() < 1e-3);
    assert!((rounded.touchdown_c - 71.0).abs() < rounded.half_width_k.unwrap());
    let wrong_air = touchdown(&readings(false), 25.0).unwrap().touchdown_c;
    assert!((wrong_air - 71.2682).abs() < 1e-3, "{wrong_air}");
    assert!(fit.above_first_k > 5.0);
    let warming =
        [HeatReading { time_s: 0.0, temperature_c: 40.0 }, HeatReading { time_s: 60.0, temperature_c: 50.0 }];
    assert!(touchdown(&warming, 22.0).is_err());
}

#[test]
fn a_hot_day_adds_its_degrees_and_thin_air_more() {
    let here = HeatCondition { air_c: 15.0, density_kg_m3: 1.225, airflow_m_s: 6.0, current_a: 40.0 };
    let question = SteadyQuestion {
        measured_c: 65.0,
        measured_at: here,
        asked_for: HeatCondition { air_c: 35.0, ..here },
        exponent: FORCED_EXPONENT,
        limit_c: 90.0,
        loss_per_k: 0.0,
    };
    assert!((steady_elsewhere(&question).unwrap().steady_c - 85.0).abs() < 1e-9);
    let thin = HeatCondition { air_c: 35.0, density_kg_m3: 1.0, ..here };
    let report = steady_elsewhere(&SteadyQuestion { asked_for: thin, ..question }).unwrap();
    assert!((report.rise_k - 50.0 * 1.225f64.powf(0.6)).abs() < 1e-9);
    assert_eq!(report.grade, Grade::Stop);
    let still = HeatCondition { airflow_m_s: 0.0, ..here };
    assert!(steady_elsewhere(&SteadyQuestion { asked_for: still, ..question }).is_err());
    // Twice the current in the same air: four times the rise.
    let double = HeatCondition { current_a: 80.0, ..here };
    assert!(
        (steady_elsewhere(&SteadyQuestion { asked_for: double, ..question }).unwrap().rise_k - 200.0).abs() < 1e-9
    );
    assert_eq!(time_to_limit(20.0, 80.0, 100.0, 90.0).unwrap(), None);
    assert_eq!(time_to_limit(95.0, 80.0, 100.0, 90.0).unwrap(), Some(0.0));
}

/// A winding in its own balance of heat, stepped through time until it settles: loss by current squared and by copper's resistance at its own
/// temperature, cooling in proportion to the rise. `watts_at_20` over `per_k` is in K.
fn settled_c(air_c: f64, same_loss_at_20_k: f64) -> Option<f64> {
    let mut celsius = air_c;
    for _ in 0..400_000 {
        let loss_k = same_loss_at_20_k * (1.0 + 0.003_93 * (celsius - 20.0));
        celsius += 0.001 * (air_c + loss_k - celsius);
        if celsius > 2_000.0 {
            return None;
        }
    }
    Some(celsius)
}

// IEC 60028: copper's resistance grows by 0.393 % of that at 20 deg C for each K. The closed form against a winding that is stepped through its
// balance of heat, there and here.
#[test]
fn a_hot_winding_heats_itself_further() {
    let here = HeatCondition { air_c: 15.0, density_kg_m3: 1.2, airflow_m_s: 6.0, current_a: 40.0 };
    let asked = |air_c: f64, times: f64, same_loss_at_20_k: f64| {
        let question = SteadyQuestion {
            measured_c: settled_c(here.air_c, same_loss_at_20_k).unwrap(),
            measured_at: here,
            asked_for: HeatCondition { air_c, current_a: 40.0 * times, ..here },
            exponent: FORCED_EXPONENT,
            limit_c: 90.0,
            loss_per_k: COPPER_PER_K,
        };
        steady_elsewhere(&question).unwrap()
    };
    for (air_c, times, at_20_k) in
        [(15.0, 1.0, 40.0), (35.0, 1.0, 40.0), (35.0, 1.2, 40.0), (15.0, 1.4, 60.0), (40.0, 1.1, 25.0)]
    {
        let report = asked(air_c, times, at_20_k);
        let settles = settled_c(air_c, at_20_k * times * times).unwrap();
        assert!(
            (report.steady_c - settles).abs() < 0.02,
            "{air_c} {times} {at_20_k}: {} for {settles}",
            report.steady_c
        );
        let same = SteadyQuestion { loss_per_k: 0.0, ..report.inputs };
        assert!(report.steady_c >= steady_elsewhere(&same).unwrap().steady_c - 1e-9);
    }
    // From 60 to about 100 deg C without it: 13 % more heat, and that feeds back.
    assert!(asked(40.0, 1.2, 40.0).steady_c > 104.0);
    // It settles nowhere from 1 / 0.00393 K of the loss at 20 deg C on: 2.6 times the current of 40 K.
    assert!(settled_c(15.0, 40.0 * 2.6 * 2.6).is_none() && settled_c(15.0, 40.0 * 2.3 * 2.3).is_some());
    let runs_away = asked(15.0, 2.6, 40.0);
    assert!(runs_away.steady_c == 400.0 && runs_away.grade == Grade::Stop);
    // A part that gets cooler is not credited with less of a loss that may be none of copper's.
    let (cooler, same) = (asked(0.0, 0.9, 40.0), asked(0.0, 0.9, 40.0).inputs);
    assert_eq!(cooler.steady_c, steady_elsewhere(&SteadyQuestion { loss_per_k: 0.0, ..same }).unwrap().steady_c);
}

// "At most 101 %" of the power holds nothing: what is told holds the limit with its interval.
#[test]
fn the_power_that_would_hold_the_limit_holds_it_with_its_interval() {
    let here = HeatCondition { air_c: 26.0, density_kg_m3: 1.18, airflow_m_s: 4.0, current_a: 22.0 };
    for (air_c, loss_per_k) in [(33.0, 0.0), (38.0, 0.0), (33.0, COPPER_PER_K), (40.0, COPPER_PER_K)] {
        let question = SteadyQuestion {
            measured_c: 79.0,
            measured_at: here,
            asked_for: HeatCondition { air_c, ..here },
            exponent: FORCED_EXPONENT,
            limit_c: 90.0,
            loss_per_k,
        };
        let day = HotterDay {
            question,
            measured_after_s: 400.0,
            measured_half_width_k: 2.0,
            exponent_half_width: 0.1,
            tau: Some(TimeConstant { tau_s: 150.0, half_width_s: 25.0 }),
            flight_s: 400.0,
        };
        let report = hotter_day(&day).unwrap();
        assert!(report.reached.steady_c + report.half_width_k > 90.0, "{air_c}: nothing to hold");
        assert!(report.current_ratio < 1.0 && report.airflow_ratio > 1.0, "{air_c}: {}", report.current_ratio);
        let held = |times: f64, flow: f64| {
            let asked_for = HeatCondition { current_a: 22.0 * times, airflow_m_s: 4.0 * flow, ..question.asked_for };
            hotter_day(&HotterDay { question: SteadyQuestion { asked_for, ..question }, ..day }).unwrap()
        };
        for held in [held(report.current_ratio, 1.0), held(1.0, report.airflow_ratio)] {
            let (end_c, half_k) = (held.reached.steady_c, held.half_width_k);
            assert!(end_c < 90.0 && (end_c + half_k - 90.0).abs() < 1.0, "{air_c}: {end_c} and {half_k}");
        }
    }
}

// ISO 21940-11: U_per = 1000 G m / omega.
#[test]
fn permissible_unbalance() {
    for (g, kg, rpm, gmm) in [(6.3, 1.0, 3000.0, 20.0535), (6.3, 0.45, 1800.0, 15.0401), (2.5, 0.12, 9000.0, 0.31831)]
    {
        let report = permissible(&RotatingPart {
            mass_kg: kg,
            speed_rpm: rpm,
            grade_mm_s: g,
            correction_radius_mm: 20.0,
            measured_gmm: Some(gmm),
        })
        .unwrap();
        assert!((report.permissible_gmm / gmm - 1.0).abs() < 1e-5);
        // The grade is the speed of the offset centre of mass: e x omega = G.
        assert!((report.permissible_um / 1000.0 * rpm * std::f64::consts::TAU / 60.0 - g).abs() < 1e-9);
    }
}

// Brueel and Kjaer application note, single plane; pyPRB 1.0.0: 2.0117 g at -30.789 deg.
#[test]
fn single_plane_correction() {
    let run = SinglePlaneRun {
        first: Polar { size: 3.4, angle_deg: 116.0 },
        trial_g: Polar { size: 2.0, angle_deg: 0.0 },
        with_trial: Polar { size: 1.8, angle_deg: 42.0 },
        with_rotation: true,
        is_lag: false,
    };
    let report = single_plane(&run).unwrap();
    assert!((report.correction_g.size - 2.0117).abs() < 1e-4);
    assert!((report.correction_g.angle_deg + 30.789).abs() < 1e-3);
    assert!(single_plane(&SinglePlaneRun { with_trial: run.first, ..run }).is_err());

    // The same rotor read the other way round, angles and phases: the same weight. One of the two alone: another one.
    let mirrored = |polar: Polar| Polar { angle_deg: -polar.angle_deg, ..polar };
    let lags =
        SinglePlaneRun { first: mirrored(run.first), with_trial: mirrored(run.with_trial), is_lag: true, ..run };
    assert!((single_plane(&lags).unwrap().correction_g.angle_deg + 30.789).abs() < 1e-3);
    let against = SinglePlaneRun { trial_g: mirrored(run.trial_g), with_rotation: false, ..run };
    assert!((single_plane(&against).unwrap().correction_g.angle_deg - 30.789).abs() < 1e-3);
    let wrong = single_plane(&SinglePlaneRun { is_lag: true, ..run }).unwrap();
    assert!((wrong.correction_g.angle_deg + 30.789).abs() > 30.0);
}

#[test]
fn equal_blades_balance_whatever_their_number() {
    for n in 2..=8 {
        let set = vec![Blade { mass_g: 240.0, balance_point_mm: 350.0 }; n];
        assert!(blade_set(&set, 60.0, 1500.0).unwrap().unbalance_gmm < 1e-6);
    }
    let mut set = vec![Blade { mass_g: 240.0, balance_point_mm: 350.0 }; 3];
    set[1].mass_g = 239.0;
    let report = blade_set(&set, 50.0, 1500.0).unwrap();
    assert!((report.unbalance_gmm - 400.0).abs() < 1e-6);
    assert_eq!(report.lightest.0, 1);
    assert!((report.lightest.1 - 1.0).abs() < 1e-9);
}

// API 684, as coded in an open rotor-dynamics library: a machine that runs below a critical speed keeps the larger margin, one that runs
// above it the smaller. AF 5 22.143 and 12.143, AF 10 25 and 15, none below 2.5.
#[test]
fn separation_margins() {
    let five = separation_margin(5.0).unwrap();
    assert!((five.below_percent - 22.143).abs() < 5e-4 && (five.above_percent - 12.143).abs() < 5e-4);
    let ten = separation_margin(10.0).unwrap();
    assert!((ten.below_percent - 25.0).abs() < 1e-9 && (ten.above_percent - 15.0).abs() < 1e-9);
    let thirty = separation_margin(30.0).unwrap();
    assert_eq!((thirty.below_percent, thirty.above_percent), (26.0, 16.0));
    assert_eq!(separation_margin(2.4).unwrap().below_percent, 0.0);
    // At resonance a mode magnifies by 1 / (2 zeta).
    assert!((magnification(1.0, 0.02).unwrap() - 25.0).abs() < 1e-9);
}

fn placement_question() -> PlacementQuestion {
    PlacementQuestion {
        exciters: drive_exciters(&train()).unwrap(),
        naturals: vec![
            NaturalFrequency { name: "boom, lateral".into(), frequency_hz: 27.0, half_width_hz: 0.5 },
            NaturalFrequency { name: "frame on its skids".into(), frequency_hz: 62.0, half_width_hz: 1.0 },
        ],
        low_rpm: 900.0,
        high_rpm: 1600.0,
        margin_percent: USUAL_MARGIN_PERCENT,
    }
}

#[test]
fn clear_bands_keep_their_margin_from_every_order() {
    let question = placement_question();
    let report = placement(&question).unwrap();
    assert!(!report.crossings.is_empty() && !report.clear.is_empty());
    for c in &report.crossings {
        let order_hz = question.exciters[c.exciter].order * c.rpm / 60.0;
        assert!((order_hz - question.naturals[c.natural].frequency_hz).abs() < 1e-9);
    }
    for i in 0..=700 {
        let rpm = 900.0 + f64::from(i);
        let clear = report.clear.iter().any(|b| rpm > b.low_rpm + 1e-6 && rpm < b.high_rpm - 1e-6);
        let nearest = nearest_order(&question, rpm).unwrap();
        if clear {
            assert!(nearest.margin_percent >= USUAL_MARGIN_PERCENT - 1e-6, "{rpm}: {nearest:?}");
            assert_eq!(nearest.grade, Grade::Ok);
        } else if !report.clear.iter().any(|b| (rpm - b.low_rpm).abs() < 1.0 || (rpm - b.high_rpm).abs() < 1.0) {
            assert!(nearest.margin_percent < USUAL_MARGIN_PERCENT, "{rpm}: {nearest:?}");
        }
    }
}

proptest! {
    #[test]
    fn heat_fits_find_what_made_the_readings(tau_s in 60.0..400.0f64, rise_k in 5.0..80.0f64, start_c in 0.0..40.0f64) {
        let readings: Vec<HeatReading> = (0..40).map(|i| {
            let time_s = 20.0 * f64::from(i);
            HeatReading { time_s, temperature_c: start_c + rise_k * (1.0 - (-time_s / tau_s).exp()) }
        }).collect();
        let fit = fit_rise(&readings).unwrap();
        prop_assert!((fit.tau_s / tau_s - 1.0).abs() < 1e-4);
        prop_assert!((fit.steady_c - start_c - rise_k).abs() < 1e-3 * rise_k);
    }

    #[test]
    fn a_single_plane_correction_removes_the_vibration(v in 0.1..10.0f64, a in -180.0..180.0f64, k in 0.1..5.0f64, b in -180.0..180.0f64, trial in 0.1..5.0f64, t in -180.0..180.0f64) {
        let polar = |size: f64, angle_deg: f64| (size * angle_deg.to_radians().cos(), size * angle_deg.to_radians().sin());
        let add = |p: (f64, f64), q: (f64, f64)| (p.0 + q.0, p.1 + q.1);
        let first = polar(v, a);
        let after = add(first, polar(k * trial, b + t));
        let run = SinglePlaneRun {
            first: Polar { size: v, angle_deg: a },
            trial_g: Polar { size: trial, angle_deg: t },
            with_trial: Polar { size: after.0.hypot(after.1), angle_deg: after.1.atan2(after.0).to_degrees() },
            with_rotation: true,
            is_lag: false,
        };
        let Ok(report) = single_plane(&run) else { return Ok(()) };
        let left = add(first, polar(k * report.correction_g.size, b + report.correction_g.angle_deg));
        prop_assert!(left.0.hypot(left.1) < 1e-6 * v.max(1.0) * 1e3);
    }
}
