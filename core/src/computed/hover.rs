use super::{Computed, Facts, Figure, Result, outcome};
use crate::drawing::Picture;
use crate::drawing::{Curve, curve};
use crate::engineering::air::{Air, P0_PA, air_from_qnh};
use crate::engineering::rotor::{
    HeadRoomQuestion, HoverQuestion, HoverReport, ModelBasis, Rotor, SectionPolar, TailKind, TailQuestion,
    TailReport, climb_power, density_power_ratio, ground_effect, head_room, hover, model_accuracy, tail,
};
use crate::locale::{Locale, say};
use crate::unit::Unit;

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
    let summary = say!(
        facts.locale,
        "computed-hover-summary",
        rpm = facts.locale.rounded(question.speed_rpm, 0, Unit::RevolutionsPerMinute),
        day = facts.locale.rounded(hot.temperature_c, 0, Unit::Celsius),
        main = facts.locale.number(there.loads.power_w, 0),
        whole = facts.locale.number(there.loads.power_w + tail.power_w, 0),
        percent = facts.locale.number(room.margin_percent, 0)
    );
    Ok(Computed {
        outcome: outcome(room.grade.max(there.grade)),
        summary,
        figures: vec![
            Figure::judged(
                say!(facts.locale, "computed-hover-power"),
                room.margin_w,
                0,
                Unit::Watt,
                say!(
                    facts.locale,
                    "computed-hover-power-note",
                    watts = facts.locale.number(for_main_w, 0),
                    percent = facts.locale.number(room.margin_percent, 0)
                ),
                room.grade,
            ),
            Figure::judged(
                say!(facts.locale, "computed-hover-loading"),
                there.blade_loading_margin_percent,
                0,
                Unit::Percent,
                say!(
                    facts.locale,
                    "computed-hover-loading-note",
                    merit = facts.locale.number(there.loads.figure_of_merit, 2),
                    loading = facts.locale.number(there.disc_loading_n_m2, 0)
                ),
                there.grade,
            ),
            Figure::told(
                say!(facts.locale, "computed-hover-density-altitude"),
                hot.density_altitude_m,
                0,
                Unit::Metre,
            )
            .noted(say!(
                facts.locale,
                "computed-hover-density-note",
                density = facts.locale.number(hot.density_kg_m3, 3),
                altitude = facts.locale.rounded(hot.pressure_altitude_m, 0, Unit::Metre)
            )),
            Figure::told(say!(facts.locale, "computed-hover-by-air"), (by_air - 1.0) * 100.0, 1, Unit::Percent)
                .noted(say!(
                    facts.locale,
                    "computed-hover-by-air-note",
                    temperature = facts.locale.quantity(15.0, Unit::Celsius)
                )),
            Figure::told(
                say!(facts.locale, "computed-hover-tip"),
                there.loads.tip_speed_m_s,
                0,
                Unit::MetrePerSecond,
            )
            .noted(say!(
                facts.locale,
                "computed-hover-tip-note",
                mach = facts.locale.number(there.loads.tip_mach, 2),
                reynolds = facts.locale.number(there.loads.tip_reynolds / 1e3, 0)
            )),
            Figure::told(say!(facts.locale, "computed-hover-collective"), there.collective_deg, 1, Unit::Degree),
            Figure::told(say!(facts.locale, "computed-hover-tail"), tail.thrust_n, 1, Unit::Newton).noted(say!(
                facts.locale,
                "computed-hover-tail-note",
                torque = facts.locale.number(tail.main_torque_nm, 1),
                watts = facts.locale.number(tail.power_w, 0),
                percent = facts.locale.number(tail.share_percent, 0)
            )),
            Figure::told(
                say!(
                    facts.locale,
                    "computed-hover-climb",
                    speed = facts.locale.rounded(CLIMB_M_S, 0, Unit::MetrePerSecond)
                ),
                climb_w,
                0,
                Unit::Watt,
            ),
        ],
        rows: Vec::new(),
        picture: Some(bucket(facts.locale, &question, for_main_w)?),
        remarks: vec![
            accuracy_words(facts.locale, &there),
            say!(
                facts.locale,
                "computed-hover-ground",
                percent = facts.locale.number(near.induced_power_ratio * 100.0, 0)
            ),
            say!(facts.locale, "computed-hover-drive"),
        ],
    })
}

/// How far the model was off against rotors that were measured.
fn accuracy_words(locale: Locale, hover: &HoverReport) -> String {
    let accuracy = model_accuracy(&hover.loads);
    let like = match accuracy.basis {
        ModelBasis::Measured => say!(locale, "computed-hover-measured"),
        ModelBasis::OtherReynolds => say!(locale, "computed-hover-reynolds"),
        ModelBasis::LowCollective => {
            say!(locale, "computed-hover-low-pitch")
        }
        ModelBasis::ShortBlades => {
            say!(locale, "computed-hover-short-blades")
        }
    };
    let off = |percent: Option<f64>| {
        percent.map_or_else(
            || say!(locale, "computed-hover-unknown"),
            |p| say!(locale, "computed-percent", percent = locale.number(p, 0)),
        )
    };
    say!(
        locale,
        "computed-hover-accuracy",
        like = like,
        thrust = off(accuracy.thrust_percent),
        power = off(accuracy.power_percent)
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
fn bucket(locale: Locale, question: &HoverQuestion, available_w: f64) -> Result<Picture> {
    let speeds = (0..=24).map(|step| question.speed_rpm * (0.7 + 0.025 * f64::from(step)));
    // Too slow a rotor cannot lift it at all: the curve begins where it can.
    let points: Vec<(f64, f64)> = speeds
        .filter_map(|speed_rpm| hover(&HoverQuestion { speed_rpm, ..*question }).ok())
        .map(|report| (report.inputs.speed_rpm, report.loads.power_w))
        .collect();
    let here = hover(question)?;
    let words = say!(
        locale,
        "computed-hover-here",
        watts = locale.number(here.loads.power_w, 0),
        rpm = locale.rounded(question.speed_rpm, 0, Unit::RevolutionsPerMinute)
    );
    let ends = (
        points.first().map_or_else(String::new, |p| locale.rounded(p.0, 0, Unit::RevolutionsPerMinute)),
        points.last().map_or_else(String::new, |p| locale.rounded(p.0, 0, Unit::RevolutionsPerMinute)),
    );
    Ok(curve(&Curve {
        points: &points,
        marks: &[(question.speed_rpm, here.loads.power_w, words.clone())],
        limit: Some((available_w, say!(locale, "computed-hover-held", watts = locale.number(available_w, 0)))),
        ends,
        spoken: say!(locale, "computed-hover-spoken", words = words, watts = locale.number(available_w, 0)),
    }))
}
