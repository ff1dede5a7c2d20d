use super::{Computed, Facts, Figure, Result, outcome};
use crate::engineering::air::{Air, P0_PA, air_from_qnh};
use crate::engineering::rotor::{
    HeadRoomQuestion, HoverQuestion, HoverReport, ModelBasis, Rotor, SectionPolar, TailKind, TailQuestion,
    TailReport, climb_power, density_power_ratio, ground_effect, head_room, hover, model_accuracy, tail,
};
use crate::record::Unit;
use crate::view::Picture;
use crate::view::chart::{Curve, curve};

/// Humidity of the hot day: thinner than dry air, and not the thinnest there is (common practice, no source).
pub(super) const HUMIDITY: f64 = 0.5;
/// The wake's push on a body, of the weight (common practice, no source).
const BODY_DOWNLOAD: f64 = 0.04;
/// Of an open frame.
const FRAME_DOWNLOAD: f64 = 0.01;
/// Where a blade's contour begins (common practice, no source).
const ROOT: f64 = 0.17;
/// From controller to rotor shaft: motor, gears, belt (common practice, no source).
pub(super) const DRIVE_EFFICIENCY: f64 = 0.85;
/// Volts a cell under load in mid flight (common practice, no source).
pub(super) const LOADED_CELL_V: f64 = 3.75;
/// A third of the controller's rating is kept in hand (common practice, no source).
const OF_RATING: f64 = 2.0 / 3.0;
/// A climb that gets out of trouble, m/s (common practice, no source).
const CLIMB_M_S: f64 = 3.0;
/// Wake of a shrouded fan over its disc: a straight duct.
const DUCT: f64 = 1.0;
/// Ideal over real power of a small tail rotor (common practice, no source).
const TAIL_MERIT: f64 = 0.5;

/// Hover power at service speed on the hottest day at the field, against what the drive can hold.
pub(super) fn room(facts: Facts<'_>) -> Result<Computed> {
    let hot = hot_air(facts)?;
    let question = hover_question(facts, hot)?;
    let there = hover(&question)?;
    let tail = tail_of(facts, &there)?;
    let available_w = facts.figure("controller-continuous-current")?
        * OF_RATING
        * facts.figure("pack-cells")?
        * LOADED_CELL_V
        * DRIVE_EFFICIENCY;
    let for_main_w = (available_w - tail.power_w).max(1.0);
    let room = head_room(&HeadRoomQuestion {
        hover: question,
        available_w: for_main_w,
        density_altitude_m: hot.density_altitude_m,
    })?;
    let radius_m = question.rotor.radius_m;
    let climb_w = climb_power(there.loads.thrust_n, radius_m, hot.density_kg_m3, CLIMB_M_S)?
        - climb_power(there.loads.thrust_n, radius_m, hot.density_kg_m3, 0.0)?;
    let near = ground_effect(1.0)?;
    // What the ideal rotor would take goes with thin air one way, the drag of its blades the other.
    let by_air = density_power_ratio((there.ideal_w / there.loads.power_w).clamp(0.0, 1.0), hot.density_kg_m3)?;
    let summary = format!(
        "Hovering at {:.0} rpm in {:.0} °C takes {:.0} W at the rotor, {:.0} W with the tail: {:.0} % in hand",
        question.speed_rpm,
        hot.temperature_c,
        there.loads.power_w,
        there.loads.power_w + tail.power_w,
        room.margin_percent
    );
    Ok(Computed {
        outcome: outcome(room.grade.max(there.grade)),
        summary,
        figures: vec![
            Figure::judged(
                "Power in hand on the hottest day",
                room.margin_w,
                0,
                Unit::Watt,
                format!("of {for_main_w:.0} W for the main rotor, {:.0} %", room.margin_percent),
                room.grade,
            ),
            Figure::judged(
                "Blade loading, room to stall",
                there.blade_loading_margin_percent,
                0,
                Unit::Percent,
                format!("figure of merit {:.2}, disc loading {:.0} N/m²", there.loads.figure_of_merit, there.disc_loading_n_m2),
                there.grade,
            ),
            Figure::told("Density altitude", hot.density_altitude_m, 0, Unit::Metre)
                .noted(format!("{:.3} kg/m³; pressure altitude {:.0} m", hot.density_kg_m3, hot.pressure_altitude_m)),
            Figure::told("Power against standard air", (by_air - 1.0) * 100.0, 1, Unit::Percent)
                .noted("by the density alone, at the same mass and head speed; at sea level, 15 °C"),
            Figure::told("Tip speed", there.loads.tip_speed_m_s, 0, Unit::MetrePerSecond)
                .noted(format!("tip Mach {:.2}, Reynolds number {:.0} 000", there.loads.tip_mach, there.loads.tip_reynolds / 1e3)),
            Figure::told("Collective at three quarters", there.collective_deg, 1, Unit::Degree),
            Figure::told("Tail thrust", tail.thrust_n, 1, Unit::Newton)
                .noted(format!("against {:.1} N m, {:.0} W, {:.0} % of the main rotor's", tail.main_torque_nm, tail.power_w, tail.share_percent)),
            Figure::told(format!("More for a climb of {CLIMB_M_S:.0} m/s"), climb_w, 0, Unit::Watt),
        ],
        rows: Vec::new(),
        picture: Some(bucket(&question, for_main_w)?),
        remarks: vec![
            accuracy_words(&there),
            format!(
                "One rotor radius above the ground the induced power falls to {:.0} % (Hayden 1976): orientation only.",
                near.induced_power_ratio * 100.0
            ),
            "Power that the drive can hold: two thirds of the controller's continuous rating at 3.75 V a cell, 85 % to the \
             rotor shaft (common practice, no source)."
                .to_owned(),
        ],
    })
}

/// How far the model was off against rotors that were measured.
fn accuracy_words(hover: &HoverReport) -> String {
    let accuracy = model_accuracy(&hover.loads);
    let like = match accuracy.basis {
        ModelBasis::Measured => "Rotors like this one were measured (NACA TN-626, TN-2474)",
        ModelBasis::OtherReynolds => "Rotors of another Reynolds number were measured (NACA TN-626, TN-2474)",
        ModelBasis::LowCollective => {
            "Below 6 degrees of pitch the measured rotors lifted less (NACA TN-626, TN-2474)"
        }
        ModelBasis::ShortBlades => {
            "Blades this short shed strong vortices that the model does not know (NASA TM-81232)"
        }
    };
    let off = |percent: Option<f64>| percent.map_or_else(|| "unknown".to_owned(), |p| format!("{p:.0} %"));
    format!(
        "Blade-element momentum theory. {like}: at worst thrust was off by {}, power by {}.",
        off(accuracy.thrust_percent),
        off(accuracy.power_percent)
    )
}

/// Air at the field on the hottest day that would be flown.
pub(super) fn hot_air(facts: Facts<'_>) -> Result<Air> {
    air_at(facts, facts.figure("hot-day-temperature")?)
}

/// Air at the field at this temperature, on a day of the lowest pressure that would be flown.
pub(super) fn air_at(facts: Facts<'_>, air_c: f64) -> Result<Air> {
    let aircraft = &facts.ledger.aircraft;
    // A day of low pressure is thinner still; the standard day's stands until the pilot names a lower one.
    let qnh_pa = aircraft.figure("lowest-pressure").map_or(P0_PA, |hpa| hpa * 100.0);
    Ok(air_from_qnh(qnh_pa, facts.figure("field-elevation")?, air_c, HUMIDITY)?)
}

/// The rotor as the figures give it.
pub(super) fn rotor(facts: Facts<'_>) -> Result<Rotor> {
    Ok(Rotor {
        blades: facts.whole("main-blade-count")?,
        radius_m: facts.figure("rotor-diameter")? / 2.0,
        chord_m: facts.figure("main-blade-chord")? / 1_000.0,
        root_fraction: ROOT,
        twist_deg: 0.0,
        polar: SectionPolar::SMALL_SYMMETRIC,
    })
}

pub(super) fn hover_question(facts: Facts<'_>, air: Air) -> Result<HoverQuestion> {
    let in_body = facts.answered("frame", "body");
    Ok(HoverQuestion {
        rotor: rotor(facts)?,
        air,
        speed_rpm: facts.figure("service-head-speed")?,
        mass_kg: facts.figure("flying-mass")?,
        download_fraction: if in_body { BODY_DOWNLOAD } else { FRAME_DOWNLOAD },
        climb_m_s: 0.0,
    })
}

fn tail_of(facts: Facts<'_>, hover: &HoverReport) -> Result<TailReport> {
    let kind = match facts.answered("tail", "shrouded") {
        true => TailKind::Shrouded { wake_area_ratio: DUCT },
        false => TailKind::Open,
    };
    Ok(tail(&TailQuestion {
        main_power_w: hover.loads.power_w,
        head_speed_rpm: hover.inputs.speed_rpm,
        arm_m: facts.figure("tail-arm")?,
        tail_diameter_m: facts.figure("tail-rotor-diameter")? / 1_000.0,
        density_kg_m3: hover.inputs.air.density_kg_m3,
        kind,
        figure_of_merit: TAIL_MERIT,
    })?)
}

/// Power over head speed, with the service speed marked and what the drive can hold drawn in.
fn bucket(question: &HoverQuestion, available_w: f64) -> Result<Picture> {
    let speeds = (0..=24).map(|step| question.speed_rpm * (0.7 + 0.025 * f64::from(step)));
    // Too slow a rotor cannot lift it at all: the curve begins where it can.
    let points: Vec<(f64, f64)> = speeds
        .filter_map(|speed_rpm| hover(&HoverQuestion { speed_rpm, ..*question }).ok())
        .map(|report| (report.inputs.speed_rpm, report.loads.power_w))
        .collect();
    let here = hover(question)?;
    let words = format!("{:.0} W at {:.0} rpm", here.loads.power_w, question.speed_rpm);
    let ends = (
        points.first().map_or_else(String::new, |p| format!("{:.0} rpm", p.0)),
        points.last().map_or_else(String::new, |p| format!("{:.0} rpm", p.0)),
    );
    Ok(curve(&Curve {
        points: &points,
        marks: &[(question.speed_rpm, here.loads.power_w, words.clone())],
        limit: Some((available_w, format!("{available_w:.0} W can be held"))),
        ends,
        spoken: format!("Main rotor power over head speed: {words}; the drive can hold {available_w:.0} watts"),
    }))
}
