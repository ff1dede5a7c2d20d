use super::drive_load::{LOADED_CELL_V, duty, part_words, ratings};
use super::{Computed, Facts, Figure, Result, outcome};
use crate::drawing::Picture;
use crate::drawing::{Curve, curve};
use crate::engineering::air::{Air, P0_PA, air_from_qnh, standard_air};
use crate::engineering::drive_load::{DrivePart, drive_hold};
use crate::engineering::rotor::{
    GroundEffect, HeadRoomQuestion, HeadRoomReport, HoverQuestion, HoverReport, ModelBasis, Rotor, SectionPolar,
    TailKind, TailQuestion, TailReport, ground_effect, head_room, hover, model_accuracy, tail,
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
/// A climb that gets out of trouble, m/s (common practice, no source).
const CLIMB_M_S: f64 = 3.0;
/// Wake of a shrouded fan over its disc: a straight duct.
const DUCT: f64 = 1.0;
/// Ideal over real power of a small tail rotor (common practice, no source).
const TAIL_MERIT: f64 = 0.5;

/// Hover power at service speed on the hottest day at the field, against what the drive can hold.
pub(super) fn room(facts: Facts<'_>) -> Result<Computed> {
    let asked = gather(facts)?;
    let lowest = low_rung(facts, &asked)?;
    let computed = answer(facts.locale, &judge(&asked)?);
    let grade = computed.outcome.max(outcome(lowest.hover.grade));
    let figures = computed.figures.into_iter().chain(low_rung_figures(facts.locale, &lowest)).collect();
    Ok(Computed { outcome: grade, figures, ..computed })
}

/// The lowest hover of the ladder, where blades and tail have the least to give.
struct LowRung {
    hover: HoverReport,
    tail: TailReport,
    /// What the tail has to give of what it can, over the same at service speed: its thrust goes with the square of the speed.
    tail_share: f64,
}

/// In the air of a standard day at the field: the ladder is not climbed on the hottest day.
fn low_rung(facts: Facts<'_>, asked: &Asked) -> Result<LowRung> {
    let air = standard_air(facts.figure("field-elevation")?)?;
    let at = |speed_rpm: f64| -> Result<(HoverReport, TailReport)> {
        let hover = hover(&HoverQuestion { speed_rpm, air, ..asked.hover })?;
        let tail = asked.tail(&hover)?;
        Ok((hover, tail))
    };
    let low_rpm = facts.figure("hover-low-head-speed")?;
    let ((hover, tail), (_, at_service)) = (at(low_rpm)?, at(asked.hover.speed_rpm)?);
    let tail_share = tail.thrust_n / at_service.thrust_n * (asked.hover.speed_rpm / low_rpm).powi(2);
    Ok(LowRung { hover, tail, tail_share })
}

fn low_rung_figures(locale: Locale, lowest: &LowRung) -> [Figure; 2] {
    let rpm = locale.rounded(lowest.hover.inputs.speed_rpm, 0, Unit::RevolutionsPerMinute);
    let loading = locale.number(lowest.hover.loads.blade_loading, 3);
    let note = say!(locale, "computed-hover-low-loading-note", rpm = rpm, loading = loading);
    let room = lowest.hover.blade_loading_margin_percent;
    let label = say!(locale, "computed-hover-low-loading");
    let thrust = locale.rounded(lowest.tail.thrust_n, 1, Unit::Newton);
    let tail_note = say!(locale, "computed-hover-low-tail-note", thrust = thrust);
    let tail = say!(locale, "computed-hover-low-tail");
    [
        Figure::judged(label, room, 0, Unit::Percent, note, lowest.hover.grade),
        Figure::told(tail, lowest.tail_share * 100.0, 0, Unit::Percent).noted(tail_note),
    ]
}

/// What the room in a hover is worked out from.
struct Asked {
    hover: HoverQuestion,
    tail_kind: TailKind,
    tail_arm_m: f64,
    tail_diameter_m: f64,
    /// What the drive can hold, for both rotors.
    available_w: f64,
    /// The part of the drive that holds no more than that.
    held_by: DrivePart,
}

fn gather(facts: Facts<'_>) -> Result<Asked> {
    let held = drive_hold(&ratings(facts)?, duty(facts, facts.figure("service-head-speed")?)?)?;
    Ok(Asked {
        hover: hover_question(facts, hot_air(facts)?)?,
        tail_kind: match facts.answered("tail", "shrouded") {
            true => TailKind::Shrouded { wake_area_ratio: DUCT },
            false => TailKind::Open,
        },
        tail_arm_m: facts.figure("tail-arm")?,
        tail_diameter_m: facts.figure("tail-rotor-diameter")? / 1_000.0,
        available_w: held.continuous_a * facts.figure("pack-cells")? * LOADED_CELL_V * DRIVE_EFFICIENCY,
        held_by: held.continuous,
    })
}

/// The hover there, and what is left of the drive.
struct Judged {
    there: HoverReport,
    tail: TailReport,
    /// What the tail leaves to the main rotor.
    for_main_w: f64,
    held_by: DrivePart,
    room: HeadRoomReport,
    climb_w: f64,
    near: GroundEffect,
    /// Power over that in standard air at sea level.
    by_air: f64,
}

impl Asked {
    /// The tail that holds this hover.
    fn tail(&self, hover: &HoverReport) -> Result<TailReport> {
        Ok(tail(&TailQuestion {
            main_power_w: hover.loads.power_w,
            head_speed_rpm: hover.inputs.speed_rpm,
            arm_m: self.tail_arm_m,
            tail_diameter_m: self.tail_diameter_m,
            density_kg_m3: hover.inputs.air.density_kg_m3,
            kind: self.tail_kind,
            figure_of_merit: TAIL_MERIT,
        })?)
    }
}

fn judge(asked: &Asked) -> Result<Judged> {
    let (question, hot) = (asked.hover, asked.hover.air);
    let there = hover(&question)?;
    let tail = asked.tail(&there)?;
    let for_main_w = (asked.available_w - tail.power_w).max(1.0);
    let room = head_room(&HeadRoomQuestion {
        hover: question,
        available_w: for_main_w,
        density_altitude_m: hot.density_altitude_m,
    })?;
    // By the same blade elements as the hover: the ideal rotor knows neither the drag that rises with the pitch nor its own losses.
    let climb_w = hover(&HoverQuestion { climb_m_s: CLIMB_M_S, ..question })?.loads.power_w - there.loads.power_w;
    let near = ground_effect(1.0)?;
    // In thin air the collective rises, and with it the drag of the blades: a share of power that keeps its drag has the wrong sign.
    let by_air = there.loads.power_w / hover(&HoverQuestion { air: standard_air(0.0)?, ..question })?.loads.power_w;
    Ok(Judged { there, tail, for_main_w, held_by: asked.held_by, room, climb_w, near, by_air })
}

fn answer(locale: Locale, judged: &Judged) -> Computed {
    let Judged { there, tail, room, .. } = judged;
    let summary = say!(
        locale,
        "computed-hover-summary",
        rpm = locale.rounded(there.inputs.speed_rpm, 0, Unit::RevolutionsPerMinute),
        day = locale.rounded(there.inputs.air.temperature_c, 0, Unit::Celsius),
        main = locale.number(there.loads.power_w, 0),
        whole = locale.number(there.loads.power_w + tail.power_w, 0),
        percent = locale.number(room.margin_percent, 0)
    );
    Computed {
        outcome: outcome(room.grade.max(there.grade)),
        summary,
        figures: margins(locale, judged).into_iter().chain(explaining(locale, judged)).collect(),
        rows: Vec::new(),
        picture: Some(bucket(locale, there, judged.for_main_w)),
        remarks: vec![
            accuracy_words(locale, there),
            say!(
                locale,
                "computed-hover-ground",
                percent = locale.number(judged.near.induced_power_ratio * 100.0, 0)
            ),
            say!(locale, "computed-hover-drive", part = locale.inside(&part_words(locale, judged.held_by))),
        ],
    }
}

/// The numbers that are judged.
fn margins(locale: Locale, judged: &Judged) -> [Figure; 2] {
    let Judged { there, room, .. } = judged;
    let power_note = say!(
        locale,
        "computed-hover-power-note",
        watts = locale.number(judged.for_main_w, 0),
        percent = locale.number(room.margin_percent, 0)
    );
    let loading_note = say!(
        locale,
        "computed-hover-loading-note",
        merit = locale.number(there.loads.figure_of_merit, 2),
        loading = locale.number(there.disc_loading_n_m2, 0)
    );
    [
        Figure::judged(say!(locale, "computed-hover-power"), room.margin_w, 0, Unit::Watt, power_note, room.grade),
        Figure::judged(
            say!(locale, "computed-hover-loading"),
            there.blade_loading_margin_percent,
            0,
            Unit::Percent,
            loading_note,
            there.grade,
        ),
    ]
}

/// The numbers that only explain.
fn explaining(locale: Locale, judged: &Judged) -> [Figure; 6] {
    let Judged { there, tail, .. } = judged;
    let (air, loads) = (there.inputs.air, there.loads);
    let density_note = say!(
        locale,
        "computed-hover-density-note",
        density = locale.number(air.density_kg_m3, 3),
        altitude = locale.rounded(air.pressure_altitude_m, 0, Unit::Metre)
    );
    let by_air_note = say!(locale, "computed-hover-by-air-note", temperature = locale.quantity(15.0, Unit::Celsius));
    let tip_note = say!(
        locale,
        "computed-hover-tip-note",
        mach = locale.number(loads.tip_mach, 2),
        reynolds = locale.number(loads.tip_reynolds / 1e3, 0)
    );
    let tail_note = say!(
        locale,
        "computed-hover-tail-note",
        torque = locale.number(tail.main_torque_nm, 1),
        watts = locale.number(tail.power_w, 0),
        percent = locale.number(tail.share_percent, 0)
    );
    let climb = say!(locale, "computed-hover-climb", speed = locale.rounded(CLIMB_M_S, 0, Unit::MetrePerSecond));
    let altitude = say!(locale, "computed-hover-density-altitude");
    let by_air_percent = (judged.by_air - 1.0) * 100.0;
    [
        Figure::told(altitude, air.density_altitude_m, 0, Unit::Metre).noted(density_note),
        Figure::told(say!(locale, "computed-hover-by-air"), by_air_percent, 1, Unit::Percent).noted(by_air_note),
        Figure::told(say!(locale, "computed-hover-tip"), loads.tip_speed_m_s, 0, Unit::MetrePerSecond)
            .noted(tip_note),
        Figure::told(say!(locale, "computed-hover-collective"), there.collective_deg, 1, Unit::Degree),
        Figure::told(say!(locale, "computed-hover-tail"), tail.thrust_n, 1, Unit::Newton).noted(tail_note),
        Figure::told(climb, judged.climb_w, 0, Unit::Watt),
    ]
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

/// Power over head speed, with the service speed marked and what the drive can hold drawn in.
fn bucket(locale: Locale, here: &HoverReport, available_w: f64) -> Picture {
    let question = &here.inputs;
    let speeds = (0..=24).map(|step| question.speed_rpm * (0.7 + 0.025 * f64::from(step)));
    // Too slow a rotor cannot lift it at all: the curve begins where it can.
    let points: Vec<(f64, f64)> = speeds
        .filter_map(|speed_rpm| hover(&HoverQuestion { speed_rpm, ..*question }).ok())
        .map(|report| (report.inputs.speed_rpm, report.loads.power_w))
        .collect();
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
    curve(&Curve {
        points: &points,
        marks: &[(question.speed_rpm, here.loads.power_w, words.clone())],
        limit: Some((available_w, say!(locale, "computed-hover-held", watts = locale.number(available_w, 0)))),
        ends,
        spoken: say!(locale, "computed-hover-spoken", words = words, watts = locale.number(available_w, 0)),
    })
}
