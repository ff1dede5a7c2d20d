//! Every engineering function under arbitrary bytes: no panic, whatever the figures.
//! Run with `cargo +nightly fuzz run engineering` in `core`.
#![no_main]

use arbitrary::{Arbitrary, Result, Unstructured};
use libfuzzer_sys::fuzz_target;
use liftgate_core::engineering::{
    air, balance, ballast, drive, heat, pack, placement, prediction, rotor, supply, unbalance, wind, wire,
};

/// Draws figures: usually within a plausible range, so that deep paths are reached, sometimes any bits at all.
struct Figures<'a> {
    bytes: Unstructured<'a>,
}

impl Figures<'_> {
    fn figure(&mut self, low: f64, high: f64) -> Result<f64> {
        if u8::arbitrary(&mut self.bytes)? < 12 {
            return f64::arbitrary(&mut self.bytes);
        }
        let share = f64::from(u32::arbitrary(&mut self.bytes)?) / f64::from(u32::MAX);
        Ok(low + share * (high - low))
    }

    fn maybe(&mut self, low: f64, high: f64) -> Result<Option<f64>> {
        if bool::arbitrary(&mut self.bytes)? { self.figure(low, high).map(Some) } else { Ok(None) }
    }

    fn many<T>(&mut self, most: usize, mut one: impl FnMut(&mut Self) -> Result<T>) -> Result<Vec<T>> {
        let n = self.bytes.int_in_range(0..=most)?;
        (0..n).map(|_| one(self)).collect()
    }

    fn small(&mut self) -> Result<u32> {
        self.bytes.int_in_range(0..=60)
    }
}

fn rotors(f: &mut Figures) -> Result<()> {
    let pressure_pa = f.figure(5e4, 1.1e5)?;
    let Ok(air_m) = air::air(pressure_pa, f.figure(-40.0, 60.0)?, f.figure(0.0, 1.0)?) else {
        return Ok(());
    };
    let polar = rotor::SectionPolar {
        lift_slope_per_rad: f.figure(3.0, 7.0)?,
        lift_limit: f.figure(0.3, 2.0)?,
        drag_zero: f.figure(0.004, 0.1)?,
        drag_alpha2_per_rad2: f.figure(0.0, 10.0)?,
        reference_reynolds: f.figure(1e4, 1e7)?,
        reynolds_exponent: f.figure(0.0, 0.5)?,
    };
    let geometry = rotor::Rotor {
        blades: f.small()?,
        radius_m: f.figure(0.03, 2.0)?,
        chord_m: f.figure(0.003, 0.3)?,
        root_fraction: f.figure(0.02, 0.6)?,
        twist_deg: f.figure(-30.0, 10.0)?,
        polar,
    };
    let hover = rotor::HoverQuestion {
        rotor: geometry,
        air: air_m,
        speed_rpm: f.figure(10.0, 3000.0)?,
        mass_kg: f.figure(0.05, 20.0)?,
        download_fraction: f.figure(0.0, 0.3)?,
        climb_m_s: f.figure(0.0, 30.0)?,
    };
    let _ = rotor::hover(&hover);
    let available_w = f.figure(1.0, 1e5)?;
    let density_altitude_m = f.figure(-500.0, 5000.0)?;
    let _ = rotor::head_room(&rotor::HeadRoomQuestion { hover, available_w, density_altitude_m });
    let _ = rotor::tail(&rotor::TailQuestion {
        main_power_w: f.figure(1.0, 1e5)?,
        head_speed_rpm: f.figure(10.0, 3e4)?,
        arm_m: f.figure(0.1, 10.0)?,
        tail_diameter_m: f.figure(0.03, 5.0)?,
        density_kg_m3: f.figure(0.5, 1.8)?,
        kind: rotor::TailKind::Shrouded { wake_area_ratio: f.figure(0.5, 1.5)? },
        figure_of_merit: f.figure(0.2, 1.0)?,
    });
    Ok(())
}

fn balances(f: &mut Figures) -> Result<()> {
    let centre = balance::Centre {
        mass_g: f.figure(1.0, 2e4)?,
        x_mm: f.figure(-60.0, 60.0)?,
        y_mm: f.figure(-20.0, 20.0)?,
        z_mm: f.maybe(-300.0, 300.0)?,
    };
    let band = balance::Band {
        x_low_mm: f.figure(-10.0, 0.0)?,
        x_high_mm: f.figure(0.0, 10.0)?,
        y_low_mm: f.figure(-5.0, 0.0)?,
        y_high_mm: f.figure(0.0, 5.0)?,
    };
    let places = f.many(17, |f| {
        Ok(ballast::BallastPlace {
            name: String::new(),
            x_mm: f.figure(-900.0, 900.0)?,
            y_mm: f.figure(-200.0, 200.0)?,
            z_mm: 0.0,
            limit_g: f.figure(0.0, 600.0)?,
        })
    })?;
    let _ = ballast::least_ballast(&ballast::BallastQuestion { centre, band, places });
    let supports = f.many(9, |f| {
        Ok(balance::Support {
            name: String::new(),
            reading_g: f.figure(0.0, 6000.0)?,
            x_mm: f.figure(-300.0, 300.0)?,
            y_mm: f.figure(-200.0, 200.0)?,
            z_mm: f.figure(-20.0, 20.0)?,
        })
    })?;
    let tilted = balance::TiltedReadings {
        nose_up_deg: f.figure(3.0, 45.0)?,
        angle_half_width_deg: f.figure(0.0, 5.0)?,
        readings_g: supports.iter().map(|s| s.reading_g).collect(),
    };
    let parts = f.many(12, |f| {
        Ok(balance::Part {
            name: String::new(),
            mass_g: f.figure(1.0, 5000.0)?,
            x_mm: f.figure(-900.0, 900.0)?,
            y_mm: f.figure(-200.0, 200.0)?,
            z_mm: f.figure(-200.0, 300.0)?,
            to_come: bool::arbitrary(&mut f.bytes)?,
        })
    })?;
    let _ = balance::balance_report(&balance::BalanceInput {
        weighing: Some(balance::Weighing { supports, tilted: Some(tilted) }),
        parts,
        accuracy: balance::Accuracy {
            scale_half_width_g: f.figure(0.0, 10.0)?,
            ruler_half_width_mm: f.figure(0.0, 5.0)?,
        },
        band: Some(band),
    });
    Ok(())
}

fn electrics(f: &mut Figures) -> Result<()> {
    let consumers = f.many(6, |f| {
        Ok(supply::Consumer {
            name: String::new(),
            low_v: f.figure(0.0, 8.0)?,
            high_v: f.figure(4.0, 14.0)?,
            steady_a: f.figure(0.0, 5.0)?,
            quantity: f.small()?,
            fault_a: f.maybe(0.0, 20.0)?,
        })
    })?;
    let _ = supply::rail_report(&supply::RailLoad {
        rail: supply::Rail {
            name: String::new(),
            full_v: f.figure(5.0, 9.0)?,
            nominal_v: f.figure(4.0, 8.0)?,
            empty_v: f.figure(3.0, 7.0)?,
            continuous_a: f.figure(1.0, 20.0)?,
            burst_a: f.figure(1.0, 40.0)?,
            ripple_v: f.figure(0.0, 1.0)?,
        },
        consumers,
        stirring_peak_a: f.figure(0.0, 10.0)?,
        stirring_low_v: f.maybe(3.0, 8.0)?,
    });
    let _ = wire::choose_wire(&wire::WireRun {
        area_mm2: f.figure(0.001, 120.0)?,
        length_m: f.figure(0.001, 50.0)?,
        current_a: f.figure(0.0, 100.0)?,
        source_v: f.figure(1.0, 100.0)?,
        air_c: f.figure(-40.0, 90.0)?,
        insulation_c: None,
        outside_mm: f.maybe(0.1, 40.0)?,
        stranded_factor: f.figure(1.0, 1.5)?,
    });
    let cells_v = f.many(31, |f| f.figure(3.0, 4.2))?;
    let _ = pack::landing(&pack::PackLanding {
        capacity_mah: f.figure(10.0, 1e4)?,
        used_mah: f.figure(0.0, 1e4)?,
        flown_min: f.figure(0.05, 30.0)?,
        cells_v,
        reserve_percent: f.figure(0.0, 90.0)?,
    });
    let readings = f.many(20, |f| {
        Ok(pack::ResistanceReading { cycles: f.figure(0.0, 300.0)?, pack_ohm: f.figure(0.001, 0.1)? })
    })?;
    let _ = pack::resistance_trend(&readings);
    Ok(())
}

fn heats_and_shakes(f: &mut Figures) -> Result<()> {
    let readings = f.many(20, |f| {
        Ok(heat::HeatReading { time_s: f.figure(0.0, 900.0)?, temperature_c: f.figure(-20.0, 150.0)? })
    })?;
    let _ = heat::fit_rise(&readings);
    let _ = heat::touchdown(&readings, f.figure(-40.0, 50.0)?);
    let mut condition = || {
        Ok(heat::HeatCondition {
            air_c: f.figure(-20.0, 45.0)?,
            density_kg_m3: f.figure(0.8, 1.4)?,
            airflow_m_s: f.figure(0.0, 20.0)?,
            current_a: f.figure(0.1, 200.0)?,
        })
    };
    let (measured_at, asked_for) = (condition()?, condition()?);
    let (measured_c, limit_c) = (f.figure(0.0, 150.0)?, f.figure(30.0, 150.0)?);
    let _ = heat::hotter_day(&heat::HotterDay {
        question: heat::SteadyQuestion {
            measured_c,
            measured_at,
            asked_for,
            exponent: f.figure(0.3, 0.9)?,
            limit_c,
            loss_per_k: f.figure(0.0, 0.01)?,
        },
        measured_after_s: f.figure(1.0, 900.0)?,
        measured_half_width_k: f.figure(0.0, 10.0)?,
        exponent_half_width: f.figure(0.0, 0.2)?,
        tau: Some(heat::TimeConstant { tau_s: f.figure(1.0, 900.0)?, half_width_s: f.figure(0.0, 200.0)? }),
        flight_s: f.figure(1.0, 900.0)?,
    });
    let blades = f.many(13, |f| {
        Ok(unbalance::Blade { mass_g: f.figure(0.1, 2000.0)?, balance_point_mm: f.figure(1.0, 1000.0)? })
    })?;
    let _ = unbalance::blade_set(&blades, f.figure(0.0, 200.0)?, f.figure(10.0, 3000.0)?);
    let stages = f.many(5, |f| Ok(drive::GearStage::gears(f.small()?, 3 * f.small()?)))?;
    let train = drive::DriveTrain {
        stages,
        tail_ratio: f.figure(0.5, 30.0)?,
        main_blades: f.small()?,
        tail_blades: f.small()?,
        pole_pairs: f.small()?,
    };
    let Ok(exciters) = placement::drive_exciters(&train) else {
        return Ok(());
    };
    let naturals = f.many(10, |f| {
        Ok(placement::NaturalFrequency {
            name: String::new(),
            frequency_hz: f.figure(0.1, 2000.0)?,
            half_width_hz: f.figure(0.0, 5.0)?,
        })
    })?;
    let question = placement::PlacementQuestion {
        exciters,
        naturals,
        low_rpm: f.figure(10.0, 2000.0)?,
        high_rpm: f.figure(10.0, 3000.0)?,
        margin_percent: f.figure(0.0, 50.0)?,
    };
    let _ = placement::placement(&question);
    let _ = placement::nearest_order(&question, f.figure(10.0, 3000.0)?);
    Ok(())
}

fn winds(f: &mut Figures) -> Result<Option<wind::RotorWind>> {
    let Some(speed_m_s) = f.maybe(0.0, 6.0)? else { return Ok(None) };
    Ok(Some(wind::RotorWind { speed_m_s, half_width_m_s: f.figure(0.0, 3.0)? }))
}

fn ladders(f: &mut Figures) -> Result<()> {
    let steps = f.many(12, |f| {
        Ok(prediction::FlownStep {
            head_rpm: f.figure(50.0, 3000.0)?,
            density_kg_m3: f.figure(0.5, 1.8)?,
            air_c: f.figure(-40.0, 60.0)?,
            power_w: f.maybe(1.0, 5000.0)?,
            current_a: f.maybe(0.1, 200.0)?,
            temperature_c: f.maybe(61.0, 250.0)?,
            run_s: f.maybe(1.0, 3600.0)?,
            wind: winds(f)?,
        })
    })?;
    let question = prediction::LadderQuestion {
        aircraft: prediction::LadderAircraft {
            mass_kg: f.figure(0.05, 20.0)?,
            radius_m: f.figure(0.1, 2.0)?,
            solidity: f.figure(0.005, 0.3)?,
            loaded_v: f.figure(1.0, 60.0)?,
        },
        prior: prediction::PowerPrior::LARGE_ELECTRIC,
        tau: match f.maybe(0.1, 600.0)? {
            Some(tau_s) => Some(heat::TimeConstant { tau_s, half_width_s: f.figure(0.0, 600.0)? }),
            None => None,
        },
        steps,
        next: prediction::NextStep {
            head_rpm: f.figure(50.0, 3000.0)?,
            density_kg_m3: f.figure(0.5, 1.8)?,
            air_c: f.figure(-40.0, 60.0)?,
            run_s: f.maybe(1.0, 3600.0)?,
            wind: winds(f)?,
        },
    };
    if let Ok(prediction) = prediction::predict(&question) {
        let _ = prediction.power_w.agrees(f.figure(0.0, 5000.0)?);
    }
    Ok(())
}

fuzz_target!(|bytes: &[u8]| {
    let mut f = Figures { bytes: Unstructured::new(bytes) };
    let Ok(which) = u8::arbitrary(&mut f.bytes) else {
        return;
    };
    // Bytes that run out end the round, nothing else.
    let _ = match which % 5 {
        0 => rotors(&mut f),
        1 => balances(&mut f),
        2 => electrics(&mut f),
        3 => heats_and_shakes(&mut f),
        _ => ladders(&mut f),
    };
});
