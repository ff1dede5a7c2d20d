//! How long the engineering functions take: each should stay under 1 ms, the ballast search at twelve places under 20 ms, the season
//! fit at two hundred steps under 5 ms. `cargo bench -p liftgate-core --bench engineering`.
#![allow(clippy::unwrap_used, missing_docs)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use liftgate_core::engineering::{
    air, balance, ballast, drive, heat, pack, placement, prediction, rotor, supply, unbalance, wind, wire,
};

fn geometry() -> rotor::Rotor {
    rotor::Rotor {
        blades: 3,
        radius_m: 0.9,
        chord_m: 0.07,
        root_fraction: 0.17,
        twist_deg: -4.0,
        polar: rotor::SectionPolar::SMALL_SYMMETRIC,
    }
}

fn rotors(c: &mut Criterion) {
    let air_m = air::standard_air(500.0).unwrap();
    let hover = rotor::HoverQuestion {
        rotor: geometry(),
        air: air_m,
        speed_rpm: 1250.0,
        mass_kg: 10.0,
        download_fraction: 0.03,
        climb_m_s: 0.0,
    };
    c.bench_function("air, moist", |b| b.iter(|| air::air(black_box(95_000.0), 25.0, 0.5)));
    c.bench_function("rotor, one collective", |b| {
        b.iter(|| {
            rotor::rotor_loads(&rotor::RotorPoint {
                rotor: geometry(),
                air: air_m,
                speed_rpm: 1250.0,
                collective_deg: black_box(6.0),
                climb_m_s: 0.0,
            })
        })
    });
    c.bench_function("rotor, hover", |b| b.iter(|| rotor::hover(black_box(&hover))));
    c.bench_function("rotor, head room", |b| {
        b.iter(|| {
            rotor::head_room(&rotor::HeadRoomQuestion {
                hover: black_box(hover),
                available_w: 1500.0,
                density_altitude_m: 2500.0,
            })
        })
    });
}

fn places(n: usize) -> ballast::BallastQuestion {
    ballast::BallastQuestion {
        centre: balance::Centre { mass_g: 11_200.0, x_mm: -9.3, y_mm: 4.1, z_mm: Some(20.0) },
        band: balance::Band { x_low_mm: 0.0, x_high_mm: 4.0, y_low_mm: -1.5, y_high_mm: 1.5 },
        places: (0..n)
            .map(|i| ballast::BallastPlace {
                name: format!("place {i}"),
                x_mm: 150.0 + 37.0 * i as f64,
                y_mm: if i % 2 == 0 { -70.0 - 3.0 * i as f64 } else { 55.0 + 5.0 * i as f64 },
                z_mm: 0.0,
                limit_g: 35.0 + 4.0 * i as f64,
            })
            .collect(),
    }
}

fn balances(c: &mut Criterion) {
    let input = balance::BalanceInput {
        weighing: None,
        parts: (0..60)
            .map(|i| balance::Part {
                name: format!("part {i}"),
                mass_g: 50.0 + f64::from(i),
                x_mm: f64::from(i) * 7.0 - 200.0,
                y_mm: 0.0,
                z_mm: 0.0,
                to_come: i % 5 == 0,
            })
            .collect(),
        accuracy: balance::Accuracy { scale_half_width_g: 1.0, ruler_half_width_mm: 0.5 },
        band: None,
    };
    c.bench_function("balance, 60 parts", |b| b.iter(|| balance::balance_report(black_box(&input))));
    for n in [4, 12, 16] {
        let question = places(n);
        c.bench_function(&format!("ballast, {n} places"), |b| {
            b.iter(|| ballast::least_ballast(black_box(&question)))
        });
    }
    let mut narrow = places(12);
    narrow.band = balance::Band { x_low_mm: 0.0, x_high_mm: 0.001, y_low_mm: 0.0, y_high_mm: 0.001 };
    c.bench_function("ballast, 12 places, a band under a gram's effect", |b| {
        b.iter(|| ballast::least_ballast(black_box(&narrow)))
    });
}

fn electrics(c: &mut Criterion) {
    let load = supply::RailLoad {
        rail: supply::Rail {
            name: "receiver".into(),
            full_v: 8.4,
            nominal_v: 7.4,
            empty_v: 7.0,
            continuous_a: 10.0,
            burst_a: 20.0,
            ripple_v: 0.1,
        },
        consumers: (0..20)
            .map(|i| supply::Consumer {
                name: format!("consumer {i}"),
                low_v: 4.8,
                high_v: 8.4,
                steady_a: 0.05,
                quantity: 1 + i,
                fault_a: None,
            })
            .collect(),
        stirring_peak_a: 3.0,
        stirring_low_v: Some(5.8),
    };
    c.bench_function("supply, 20 consumers", |b| b.iter(|| supply::rail_report(black_box(&load))));
    let run = wire::WireRun {
        area_mm2: 0.5,
        length_m: 1.0,
        current_a: 5.0,
        source_v: 8.4,
        air_c: 40.0,
        insulation_c: None,
        outside_mm: None,
        stranded_factor: wire::STRANDED_FACTOR,
    };
    c.bench_function("wire choice", |b| b.iter(|| wire::choose_wire(black_box(&run))));
    let readings: Vec<_> = (0..300)
        .map(|i| pack::ResistanceReading { cycles: f64::from(i), pack_ohm: 0.02 + 1e-5 * f64::from(i) })
        .collect();
    c.bench_function("pack trend, 300 readings", |b| b.iter(|| pack::resistance_trend(black_box(&readings))));
}

fn heats(c: &mut Criterion) {
    let rise = |count: u32, spacing_s: f64| -> Vec<_> {
        (0..count)
            .map(|i| spacing_s * f64::from(i))
            .map(|time_s| heat::HeatReading {
                time_s,
                temperature_c: (22.0 + 38.0 * (1.0 - (-time_s / 180.0f64).exp())).round(),
            })
            .collect()
    };
    for (count, spacing_s) in [(60, 10.0), (2_000, 0.4)] {
        let rise = rise(count, spacing_s);
        c.bench_function(&format!("heat, rise of {count} readings"), |b| b.iter(|| heat::fit_rise(black_box(&rise))));
    }
    let cooling: Vec<_> = (1..8)
        .map(|i| 30.0 * f64::from(i))
        .map(|time_s| heat::HeatReading { time_s, temperature_c: (22.0 + 49.0 * (-time_s / 240.0f64).exp()).round() })
        .collect();
    c.bench_function("heat, touchdown from 7 readings", |b| b.iter(|| heat::touchdown(black_box(&cooling), 22.0)));
}

fn shakes(c: &mut Criterion) {
    let train = drive::DriveTrain {
        stages: vec![drive::GearStage::gears(12, 120)],
        tail_ratio: 4.5,
        main_blades: 3,
        tail_blades: 10,
        pole_pairs: 5,
    };
    let question = placement::PlacementQuestion {
        exciters: placement::drive_exciters(&train).unwrap(),
        naturals: (0..20)
            .map(|i| placement::NaturalFrequency {
                name: format!("mode {i}"),
                frequency_hz: 12.0 * f64::from(i + 1),
                half_width_hz: 0.5,
            })
            .collect(),
        low_rpm: 900.0,
        high_rpm: 1600.0,
        margin_percent: placement::USUAL_MARGIN_PERCENT,
    };
    c.bench_function("placement, 20 modes", |b| b.iter(|| placement::placement(black_box(&question))));
    c.bench_function("placement, nearest order", |b| {
        b.iter(|| placement::nearest_order(black_box(&question), 1234.0))
    });
    let blades = [unbalance::Blade { mass_g: 240.0, balance_point_mm: 350.0 }; 4];
    c.bench_function("unbalance of a blade set", |b| {
        b.iter(|| unbalance::blade_set(black_box(&blades), 60.0, 1400.0))
    });
}

fn seasons(c: &mut Criterion) {
    for n in [5, 200] {
        let steps = (0..n)
            .map(|i| {
                let head_rpm = 950.0 + 300.0 * f64::from(i) / f64::from(n);
                let power_w = 900.0 + 0.6 * (head_rpm - 950.0) + 15.0 * f64::from(i % 3);
                prediction::FlownStep {
                    head_rpm,
                    density_kg_m3: 1.2,
                    air_c: 18.0,
                    power_w: Some(power_w),
                    current_a: Some(power_w / 44.0),
                    temperature_c: Some(18.0 + power_w / 30.0),
                    run_s: Some(240.0),
                    wind: wind::RotorWind::by_force(u8::try_from(i % 4).unwrap_or(0)).ok(),
                }
            })
            .collect();
        let question = prediction::LadderQuestion {
            aircraft: prediction::LadderAircraft { mass_kg: 9.0, radius_m: 0.9, solidity: 0.06, loaded_v: 44.0 },
            prior: prediction::PowerPrior::LARGE_ELECTRIC,
            tau: None,
            steps,
            next: prediction::NextStep {
                head_rpm: 1300.0,
                density_kg_m3: 1.2,
                air_c: 18.0,
                run_s: Some(240.0),
                wind: None,
            },
        };
        c.bench_function(&format!("season fit, {n} steps"), |b| b.iter(|| prediction::predict(black_box(&question))));
    }
}

criterion_group!(benches, rotors, balances, electrics, heats, shakes, seasons);
criterion_main!(benches);
