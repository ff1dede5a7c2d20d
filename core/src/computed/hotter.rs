use super::cooling::{HOVER_AIRFLOW_M_S, density_at_field, time_constant};
use super::hover::air_at;
use super::{Computed, Facts, Figure, Lacking, Result, Row, outcome, worst};
use crate::drawing::{Curve, Picture, curve};
use crate::engineering::heat::{
    FORCED_EXPONENT, HeatCondition, HotterDay, HotterDayReport, METER_K, SteadyQuestion, TimeConstant, hotter_day,
};
use crate::engineering::wire::COPPER_PER_K;
use crate::field::Flight;
use crate::locale::{Locale, clock, say};
use crate::plan::Place;
use crate::record::Outcome;
use crate::unit::Unit;

/// What a part's own heat draws past it in still air, m/s: buoyancy over inertia is one, `u = sqrt(g beta dT L)`, for 60 K over 8 cm
/// (Incropera, Fundamentals of Heat and Mass Transfer, mixed convection).
const OWN_DRAUGHT_M_S: f64 = 0.4;
/// How far the cooling exponent of a part that nobody measured may lie from the usual one (common practice, no source).
const EXPONENT_HALF_WIDTH: f64 = 0.1;

/// The day and the flight that a person asks about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AskedDay {
    /// Air, degrees Celsius.
    pub air_c: f64,
    /// Airflow over the parts, of that in the hover that was measured; 0 is none but the parts' own draught.
    pub airflow_share: f64,
    /// Power, of that in the hover that was measured.
    pub power_share: f64,
    /// Minutes with the motor on.
    pub minutes: f64,
}

/// What comes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Hotter {
    /// The whole answer.
    pub computed: Computed,
    /// The answer in a few words, for beside a control that changes it.
    pub brief: String,
}

/// One place on that day, by the flight that says the worst of it.
pub(super) struct There<'a> {
    locale: Locale,
    /// The place.
    pub place: &'a Place,
    /// The flight that it was read after.
    pub flight: &'a Flight,
    /// What comes of it.
    pub report: HotterDayReport,
}

/// The hottest air flown in within thirty days before a moment, degrees Celsius.
pub fn hottest_lately(facts: Facts<'_>, now: &crate::record::Moment) -> Option<f64> {
    let lately = |flight: &&Flight| {
        flight.started.as_ref().is_some_and(|started| now.wall - started.wall <= chrono::TimeDelta::days(30))
    };
    facts.ledger.flights.iter().filter(lately).map(|flight| flight.air_c).reduce(f64::max)
}

/// What each place would come to on another day, how soon, and what would hold it under its stop.
///
/// # Errors
/// What is lacking: a hover whose temperatures were read, the height of the field; or a day that no engineering covers.
pub fn hotter(facts: Facts<'_>, asked: AskedDay) -> Result<Hotter> {
    let places = there(facts, asked)?;
    // The place that bears the least of what is asked comes to its stop first, and what holds it holds all.
    let tightest = places.iter().min_by(|a, b| a.report.current_ratio.total_cmp(&b.report.current_ratio));
    let Some(tightest) = tightest else { return Err(Lacking::Flight(facts.last_hover()?.check.clone())) };
    let computed = Computed {
        outcome: outcome(worst(places.iter().map(|there| there.report.grade))),
        summary: tightest.sentence(asked),
        figures: places.iter().map(There::figure).collect(),
        rows: tightest.what_would_hold_it(asked),
        picture: Some(tightest.picture(asked)),
        remarks: remarks(facts, tightest),
    };
    Ok(Hotter { computed, brief: tightest.brief() })
}

fn remarks(facts: Facts<'_>, tightest: &There<'_>) -> Vec<String> {
    let locale = facts.locale;
    let mut remarks = vec![tightest.words_of_flight()];
    remarks.extend(tightest.report.covers_s.map(|covers_s| no_time_constant(locale, covers_s)));
    remarks.push(say!(locale, "computed-hotter-basis", meter = locale.quantity(METER_K, Unit::Kelvin)));
    remarks.extend(fed_back(locale, tightest));
    let draught = locale.quantity(OWN_DRAUGHT_M_S, Unit::MetrePerSecond);
    remarks.push(say!(locale, "computed-hotter-draught", draught = draught));
    remarks
}

/// That the heat of a winding feeds back, where it is one.
pub(super) fn fed_back(locale: Locale, there: &There<'_>) -> Option<String> {
    there.place.is_winding.then(|| say!(locale, "computed-heat-winding", part = there.place.title))
}

/// Up to which time the answer holds, and which reading would carry it further.
pub(super) fn no_time_constant(locale: Locale, covers_s: f64) -> String {
    say!(locale, "computed-heat-no-time-constant", time = seconds(covers_s))
}

/// Each place, by the flight like the last hover that says the worst of it: of the same check, with nothing changed in between that it rests on,
/// and not called off. One arithmetic for the hottest day and for another day.
pub(super) fn there<'a>(facts: Facts<'a>, asked: AskedDay) -> Result<Vec<There<'a>>> {
    let last = facts.last_hover()?;
    let alike: Vec<&Flight> =
        facts.hovers().filter(|flight| facts.ledger.was_flown_alike(facts.plan, flight, last)).collect();
    let tau = time_constant(facts)?;
    let mut places = Vec::new();
    for place in &facts.plan.places {
        let carried: Vec<There<'a>> = alike
            .iter()
            .filter_map(|flight| carried(facts, flight, place, tau, asked).transpose())
            .collect::<Result<_>>()?;
        places.extend(carried.into_iter().max_by(|a, b| a.report.at_end_c.total_cmp(&b.report.at_end_c)));
    }
    Ok(places)
}

/// One place after one flight on that day; none where it was not read, or is no warmer than the air: that says nothing of a hotter day.
fn carried<'a>(
    facts: Facts<'a>,
    flight: &'a Flight,
    place: &'a Place,
    tau: Option<TimeConstant>,
    asked: AskedDay,
) -> Result<Option<There<'a>>> {
    let Some(read_c) = flight.hottest_reading(&place.id).filter(|celsius| *celsius > flight.air_c) else {
        return Ok(None);
    };
    // Worked back to touchdown where it was read more than once, and never cooler than what was read.
    let worked_back = flight.at_touchdown(&place.id).filter(|fit| fit.touchdown_c > read_c);
    let measured_c = worked_back.as_ref().map_or(read_c, |fit| fit.touchdown_c);
    let worked_back_k = worked_back.and_then(|fit| fit.half_width_k).unwrap_or(0.0);
    let current_a = flight.mean_current_ma().unwrap_or(0.0) / 1_000.0;
    let measured_at = HeatCondition {
        air_c: flight.air_c,
        density_kg_m3: density_at_field(facts, flight.air_c)?,
        airflow_m_s: HOVER_AIRFLOW_M_S,
        current_a,
    };
    let asked_for = HeatCondition {
        air_c: asked.air_c,
        density_kg_m3: air_at(facts, asked.air_c)?.density_kg_m3,
        airflow_m_s: (HOVER_AIRFLOW_M_S * asked.airflow_share).max(OWN_DRAUGHT_M_S),
        current_a: current_a * asked.power_share,
    };
    let (exponent, limit_c) = (FORCED_EXPONENT, place.stop_above_c);
    let loss_per_k = if place.is_winding { COPPER_PER_K } else { 0.0 };
    let report = hotter_day(&HotterDay {
        question: SteadyQuestion { measured_c, measured_at, asked_for, exponent, limit_c, loss_per_k },
        measured_after_s: (flight.flown_ms().unwrap_or(0) as f64 / 1_000.0).max(1.0),
        measured_half_width_k: METER_K.hypot(worked_back_k).min(30.0),
        exponent_half_width: EXPONENT_HALF_WIDTH,
        tau,
        flight_s: asked.minutes * 60.0,
    })?;
    Ok(Some(There { locale: facts.locale, place, flight, report }))
}

fn seconds(seconds: f64) -> String {
    clock(seconds.round() as i64)
}

impl There<'_> {
    /// Which flight it starts from.
    pub(super) fn words_of_flight(&self) -> String {
        let (locale, measured) = (self.locale, &self.report.inputs.question);
        let day = self.flight.started.as_ref().map_or_else(String::new, |at| locale.date(at.wall.date_naive()));
        say!(
            locale,
            "computed-hotter-from",
            part = self.place.title,
            day = day,
            read = locale.rounded(measured.measured_c, 0, Unit::Celsius),
            time = seconds(self.report.inputs.measured_after_s),
            air = locale.rounded(measured.measured_at.air_c, 0, Unit::Celsius),
            current = locale.number(measured.measured_at.current_a, 1)
        )
    }

    /// "At 33 °C and no airflow the controller reaches its stop of 90 °C after 4:10 (3:30 to 5:05)".
    fn sentence(&self, asked: AskedDay) -> String {
        let report = &self.report;
        let day = say!(
            self.locale,
            "computed-hotter-day",
            air = self.locale.rounded(asked.air_c, 0, Unit::Celsius),
            airflow = airflow_words(self.locale, asked),
            part = self.locale.inside(&self.place.title)
        );
        let shown = self.locale.shown(Unit::Celsius);
        let half = format!("{} {}", self.locale.number(shown.difference_out(report.half_width_k), 0), shown.sign);
        let (steady_c, limit_c) = (report.reached.steady_c, self.place.stop_above_c);
        let around = match (report.limit_after_low_s, report.limit_after_high_s) {
            (Some(low_s), Some(high_s)) => {
                say!(self.locale, "computed-hotter-between", low = seconds(low_s), high = seconds(high_s))
            }
            (Some(low_s), None) => say!(self.locale, "computed-hotter-earliest", low = seconds(low_s)),
            _ => String::new(),
        };
        match report.limit_after_s {
            Some(after_s) => say!(
                self.locale,
                "computed-hotter-reaches",
                day = day,
                limit = self.locale.rounded(limit_c, 0, Unit::Celsius),
                after = seconds(after_s),
                around = around
            ),
            None if steady_c > limit_c => say!(
                self.locale,
                "computed-hotter-would",
                day = day,
                temperature = self.locale.rounded(steady_c, 0, Unit::Celsius),
                limit = self.locale.rounded(limit_c, 0, Unit::Celsius)
            ),
            None => self.under(&day, &half),
        }
    }

    /// It stays under its stop, as far as that is known.
    fn under(&self, day: &str, half: &str) -> String {
        let (locale, report) = (self.locale, &self.report);
        let temperature = locale.bare(report.reached.steady_c, 0, Unit::Celsius);
        let room = locale.rounded(report.reached.margin_k, 0, Unit::Kelvin);
        let as_long = seconds(report.inputs.measured_after_s);
        match report.covers_s {
            None => {
                say!(locale, "computed-hotter-under", day = day, temperature = temperature, half = half, room = room)
            }
            Some(_) if report.is_too_long() => say!(
                locale,
                "computed-hotter-too-long",
                day = day,
                temperature = temperature,
                half = half,
                time = as_long,
                flight = seconds(report.inputs.flight_s)
            ),
            Some(_) => say!(
                locale,
                "computed-hotter-under-as-long",
                day = day,
                temperature = temperature,
                half = half,
                time = as_long,
                room = room
            ),
        }
    }

    fn brief(&self) -> String {
        match self.report.limit_after_s {
            Some(after_s) => {
                say!(
                    self.locale,
                    "computed-hotter-brief-after",
                    part = self.place.title,
                    limit = self.locale.rounded(self.place.stop_above_c, 0, Unit::Celsius),
                    after = seconds(after_s)
                )
            }
            None => say!(
                self.locale,
                "computed-hotter-brief",
                part = self.place.title,
                temperature = self.locale.rounded(self.report.reached.steady_c, 0, Unit::Celsius)
            ),
        }
    }

    fn figure(&self) -> Figure {
        let report = &self.report;
        let note = say!(
            self.locale,
            "computed-hotter-note",
            half = self.locale.rounded(report.half_width_k, 0, Unit::Kelvin),
            limit = self.locale.rounded(self.place.stop_above_c, 0, Unit::Celsius),
            end = self.locale.rounded(report.at_end_c, 0, Unit::Celsius),
            day = self.flight.started.as_ref().map_or_else(String::new, |at| self.locale.date(at.wall.date_naive())),
            read = self.locale.rounded(report.inputs.question.measured_c, 0, Unit::Celsius)
        );
        Figure::judged(self.place.title.clone(), report.reached.steady_c, 0, Unit::Celsius, note, report.grade)
            .against(self.place.stop_above_c)
    }

    /// Less power, more air, or a shorter flight; nothing where it stays under its stop with its interval.
    fn what_would_hold_it(&self, asked: AskedDay) -> Vec<Row> {
        let report = &self.report;
        if report.reached.steady_c + report.half_width_k <= self.place.stop_above_c {
            return Vec::new();
        }
        let row = |word: String, title: String, detail: String| Row { title, word, detail, outcome: Outcome::Pass };
        let percent = |share: f64| {
            say!(self.locale, "computed-percent", percent = self.locale.number((share * 100.0).floor(), 0))
        };
        let power = percent(asked.power_share * report.current_ratio);
        let airflow = asked.airflow_share.max(OWN_DRAUGHT_M_S / HOVER_AIRFLOW_M_S) * report.airflow_ratio;
        let mut rows = vec![
            row(
                say!(self.locale, "computed-hotter-at-most", what = power),
                say!(self.locale, "computed-hotter-less-power"),
                match report.covers_s {
                    None => say!(self.locale, "computed-hotter-of-last"),
                    Some(_) => say!(self.locale, "computed-hotter-of-last-as-long"),
                },
            ),
            row(
                say!(self.locale, "computed-hotter-at-least", times = self.locale.number(airflow, 1)),
                say!(self.locale, "computed-hotter-more-air"),
                say!(self.locale, "computed-hotter-last-airflow"),
            ),
        ];
        rows.extend(report.limit_after_low_s.or(report.limit_after_s).map(|after_s| {
            row(
                say!(self.locale, "computed-hotter-at-most", what = seconds(after_s)),
                say!(self.locale, "computed-hotter-shorter"),
                say!(self.locale, "computed-hotter-early-end"),
            )
        }));
        rows
    }

    /// The rise over the flight, with the stop across it.
    fn picture(&self, asked: AskedDay) -> Picture {
        let report = &self.report;
        let (air_c, rise_k) = (asked.air_c, report.reached.rise_k);
        let flight_s = asked.minutes * 60.0;
        // Without a measured time constant the shape is drawn over three of whatever it may be.
        let tau_s = report.inputs.tau.map(|tau| tau.tau_s);
        let (end_s, shape_s) = tau_s.map_or((3.0, 1.0), |tau_s| (flight_s.max(3.0 * tau_s), tau_s));
        let at = |time_s: f64| air_c - rise_k * (-time_s / shape_s).exp_m1();
        let points: Vec<(f64, f64)> =
            (0..=40).map(|step| f64::from(step) / 40.0 * end_s).map(|time_s| (time_s, at(time_s))).collect();
        let landing = tau_s.map(|_| {
            (
                flight_s,
                report.at_end_c,
                say!(
                    self.locale,
                    "computed-hotter-at-landing",
                    temperature = self.locale.rounded(report.at_end_c, 0, Unit::Celsius)
                ),
            )
        });
        curve(&Curve {
            points: &points,
            marks: landing.as_slice(),
            limit: Some((
                self.place.stop_above_c,
                say!(
                    self.locale,
                    "computed-stop",
                    temperature = self.locale.rounded(self.place.stop_above_c, 0, Unit::Celsius)
                ),
            )),
            ends: (
                say!(self.locale, "computed-start"),
                tau_s.map_or_else(|| say!(self.locale, "computed-warm-through"), |_| seconds(end_s)),
            ),
            spoken: self.sentence(asked),
        })
    }
}

fn airflow_words(locale: Locale, asked: AskedDay) -> String {
    match asked.airflow_share * 100.0 {
        share if share < 0.5 => say!(locale, "computed-hotter-no-airflow"),
        share if (share - 100.0).abs() < 0.5 => say!(locale, "computed-hotter-hover-airflow"),
        share => say!(locale, "computed-hotter-share", percent = locale.number(share, 0)),
    }
}
