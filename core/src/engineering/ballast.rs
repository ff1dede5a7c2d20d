//! The least ballast over allowed places that brings the centre of gravity into its bands.
//!
//! Move packs before adding lead. Each place has its own limit; the fore and aft band and the lateral band are met at once. After
//! multiplying by the total mass both bands are linear in the masses, so the least total is a small linear program, solved exactly
//! (see `bounded_lp`). Equal answers go to the place that was named first.

use serde::{Deserialize, Serialize};

use super::balance::{Band, Centre, check_band, check_centre, check_place};
use super::bounded_lp::{LEAST_COEFFICIENT, Optimum, Program, ROWS};
use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::require::{count, within};

/// Most places that one question may have.
pub const PLACE_LIMIT: usize = 16;
/// Bands are held to this, in mm: far below any ruler.
const BAND_SLACK_MM: f64 = 1e-7;
/// Nodes of the search for whole grams; a handful are usual.
const NODE_LIMIT: usize = 120;

/// A place where ballast may go.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BallastPlace {
    /// The name that the person gave it.
    pub name: String,
    /// Forward of the main shaft, in mm.
    pub x_mm: f64,
    /// Right of the centre line, in mm.
    pub y_mm: f64,
    /// Above the datum, in mm.
    pub z_mm: f64,
    /// Most that it may carry, in g, 0 to 100000.
    pub limit_g: f64,
}

/// The aircraft, its band, and the places.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BallastQuestion {
    /// The aircraft without ballast (the complete figure of a balance report).
    pub centre: Centre,
    /// The band to reach.
    pub band: Band,
    /// One to [`PLACE_LIMIT`] places.
    pub places: Vec<BallastPlace>,
}

/// Ballast in whole grams.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WholeGrams {
    /// Grams at each place, in the order of the question.
    pub grams: Vec<u32>,
    /// Their sum, in g.
    pub total_g: u32,
    /// The aircraft with them.
    pub centre: Centre,
    /// True if no whole-gram mix is lighter; false if the search stopped at its limit with this one.
    pub proven_least: bool,
}

/// One way to reach the band.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BallastPlan {
    /// Exact masses at each place, in the order of the question, in g.
    pub exact_g: Vec<f64>,
    /// Their sum, in g.
    pub exact_total_g: f64,
    /// The aircraft with the exact masses.
    pub exact_centre: Centre,
    /// The lightest whole-gram mix over the places of the question that holds the bands; none if whole grams cannot (a band narrower
    /// than a gram's effect).
    pub whole: Option<WholeGrams>,
}

/// What is missing where the places cannot reach the band.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BallastShortfall {
    /// The masses that come nearest, in g, in the order of the question.
    pub nearest_g: Vec<f64>,
    /// The aircraft with them.
    pub centre: Centre,
    /// How far the centre still is from the fore and aft band, in mm.
    pub x_missing_mm: f64,
    /// How far the centre still is from the lateral band, in mm.
    pub y_missing_mm: f64,
    /// Moment still missing fore and aft, in g mm.
    pub x_missing_gmm: f64,
    /// Moment still missing laterally, in g mm.
    pub y_missing_gmm: f64,
    /// Total that the same places would need with their limits lifted, in g; none if no mass at these places would do.
    pub without_limits_g: Option<f64>,
}

/// The answer to a ballast question.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum BallastAnswer {
    /// The centre already lies in its bands.
    NotNeeded,
    /// The bands can be met.
    Found {
        /// The least total.
        best: BallastPlan,
        /// The least total over any other set of places: at least one place of `best` is left empty.
        second: Option<BallastPlan>,
    },
    /// The places cannot meet the bands within their limits.
    Impossible {
        /// How near they come.
        shortfall: BallastShortfall,
    },
}

/// The answer with the question beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BallastReport {
    /// What went in.
    pub inputs: BallastQuestion,
    /// The answer.
    pub answer: BallastAnswer,
}

/// The least ballast that brings the centre of gravity into both bands, exact, with the next best set of places beside it.
///
/// # Errors
/// Figures that are not numbers or out of range, no place or more than [`PLACE_LIMIT`], a band upside down. Bands that cannot be
/// reached are an answer ([`BallastAnswer::Impossible`]), not an error.
///
/// # Validity
/// Rigid aircraft; the ballast acts at the place given. The result inherits the uncertainty of the centre that it starts from.
///
/// ```
/// use liftgate_core::engineering::balance::{Band, Centre};
/// use liftgate_core::engineering::ballast::{least_ballast, BallastAnswer, BallastPlace, BallastQuestion};
/// let report = least_ballast(&BallastQuestion {
///     centre: Centre { mass_g: 10_000.0, x_mm: -6.0, y_mm: 0.0, z_mm: None },
///     band: Band { x_low_mm: 0.0, x_high_mm: 5.0, y_low_mm: -3.0, y_high_mm: 3.0 },
///     places: vec![BallastPlace { name: "nose".into(), x_mm: 450.0, y_mm: 0.0, z_mm: 0.0, limit_g: 300.0 }],
/// })?;
/// let BallastAnswer::Found { best, .. } = report.answer else { panic!("reachable") };
/// assert!((best.exact_total_g - 133.333).abs() < 0.001);
/// assert_eq!(best.whole.map(|w| w.total_g), Some(134));
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn least_ballast(question: &BallastQuestion) -> Result<BallastReport> {
    check_question(question)?;
    let report = |answer| BallastReport { inputs: question.clone(), answer };
    if in_band(&question.centre, &question.band) {
        return Ok(report(BallastAnswer::NotNeeded));
    }
    let frame = Frame::new(question);
    let limits_g: Vec<f64> = question.places.iter().map(|p| p.limit_g).collect();
    let optimum = frame.solve(&vec![0.0; limits_g.len()], &limits_g)?;
    if optimum.missing > 1e-8 {
        let shortfall = shortfall(question, &frame, optimum)?;
        return Ok(report(BallastAnswer::Impossible { shortfall }));
    }
    let second = second_best(question, &frame, &limits_g, &optimum.values)?;
    let best = plan(question, &frame, &limits_g, optimum.values)?;
    Ok(report(BallastAnswer::Found { best, second }))
}

fn check_question(question: &BallastQuestion) -> Result<()> {
    check_centre(&question.centre)?;
    check_band(&question.band)?;
    count("ballast places", question.places.len(), 1, PLACE_LIMIT)?;
    for place in &question.places {
        check_place(place.x_mm, place.y_mm, place.z_mm)?;
        within("limit of a place", place.limit_g, "g", 0.0, 100_000.0)?;
    }
    Ok(())
}

fn in_band(centre: &Centre, band: &Band) -> bool {
    centre.x_mm >= band.x_low_mm - BAND_SLACK_MM
        && centre.x_mm <= band.x_high_mm + BAND_SLACK_MM
        && centre.y_mm >= band.y_low_mm - BAND_SLACK_MM
        && centre.y_mm <= band.y_high_mm + BAND_SLACK_MM
}

/// The linear program's rows, in figures of order one: masses by the aircraft's mass, arms by the longest one.
struct Frame {
    columns: Vec<[f64; ROWS]>,
    need: [f64; ROWS],
    cost: Vec<f64>,
    mass_g: f64,
}

impl Frame {
    fn new(question: &BallastQuestion) -> Self {
        let (c, b) = (&question.centre, &question.band);
        let length_mm = question
            .places
            .iter()
            .flat_map(|p| [p.x_mm.abs(), p.y_mm.abs()])
            .chain([c.x_mm.abs(), c.y_mm.abs()])
            .fold(1.0, f64::max);
        let rows = |x_mm: f64, y_mm: f64| {
            [
                (x_mm - b.x_low_mm) / length_mm,
                (b.x_high_mm - x_mm) / length_mm,
                (y_mm - b.y_low_mm) / length_mm,
                (b.y_high_mm - y_mm) / length_mm,
            ]
        };
        Self {
            // A place within a thousandth of a millimetre of a band's edge line does nothing for that edge.
            columns: question
                .places
                .iter()
                .map(|p| rows(p.x_mm, p.y_mm).map(|v| if v.abs() < LEAST_COEFFICIENT { 0.0 } else { v }))
                .collect(),
            need: rows(c.x_mm, c.y_mm).map(|v| -v),
            cost: (0..question.places.len()).map(tie_break).collect(),
            mass_g: c.mass_g,
        }
    }

    /// Masses in g that meet the rows at least cost, or come nearest to it.
    fn solve(&self, low_g: &[f64], high_g: &[f64]) -> Result<Optimum> {
        let program = Program {
            columns: self.columns.clone(),
            need: self.need,
            low: low_g.iter().map(|g| g / self.mass_g).collect(),
            high: high_g.iter().map(|g| g / self.mass_g).collect(),
            cost: self.cost.clone(),
        };
        let mut optimum = program.solve().ok_or_else(|| EngineeringError::from(Conflict::BallastPlacesTogether))?;
        for value in &mut optimum.values {
            *value *= self.mass_g;
        }
        for ((value, low), high) in optimum.values.iter_mut().zip(low_g).zip(high_g) {
            // Rounding dust must not show as a gram at an empty place.
            *value = value.clamp(*low, *high);
            if *value < 1e-6 {
                *value = 0.0;
            }
        }
        Ok(optimum)
    }
}

/// A cost of one gram each, raised by a billionth and less, more for each later place, so that equal answers go to the earlier
/// one. The square roots of the primes have no whole-numbered relation among them: mixes of whole arms that cost the same
/// without it never do with it, and the search always has one answer that is the best.
fn tie_break(i: usize) -> f64 {
    const PRIMES: [f64; PLACE_LIMIT] =
        [2.0, 3.0, 5.0, 7.0, 11.0, 13.0, 17.0, 19.0, 23.0, 29.0, 31.0, 37.0, 41.0, 43.0, 47.0, 53.0];
    1.0 + 1e-9 * (PRIMES[i % PLACE_LIMIT] / PRIMES[PLACE_LIMIT - 1]).sqrt()
}

fn with_ballast(question: &BallastQuestion, masses_g: impl Iterator<Item = f64>) -> Centre {
    let c = &question.centre;
    let mut sum = [c.mass_g, c.mass_g * c.x_mm, c.mass_g * c.y_mm];
    let mut z_gmm = c.z_mm.map(|z| z * c.mass_g);
    for (place, mass_g) in question.places.iter().zip(masses_g) {
        sum[0] += mass_g;
        sum[1] += mass_g * place.x_mm;
        sum[2] += mass_g * place.y_mm;
        z_gmm = z_gmm.map(|z| z + mass_g * place.z_mm);
    }
    Centre { mass_g: sum[0], x_mm: sum[1] / sum[0], y_mm: sum[2] / sum[0], z_mm: z_gmm.map(|z| z / sum[0]) }
}

fn plan(question: &BallastQuestion, frame: &Frame, limits_g: &[f64], exact_g: Vec<f64>) -> Result<BallastPlan> {
    Ok(BallastPlan {
        exact_total_g: exact_g.iter().sum(),
        exact_centre: with_ballast(question, exact_g.iter().copied()),
        whole: whole_grams(question, frame, limits_g)?,
        exact_g,
    })
}

/// The least plan that leaves at least one of the best plan's places empty.
fn second_best(
    question: &BallastQuestion,
    frame: &Frame,
    limits_g: &[f64],
    best_g: &[f64],
) -> Result<Option<BallastPlan>> {
    let mut second: Option<(f64, Vec<f64>, Vec<f64>)> = None;
    for (j, _) in best_g.iter().enumerate().filter(|(_, g)| **g > 0.0) {
        let mut without_g = limits_g.to_vec();
        without_g[j] = 0.0;
        let optimum = frame.solve(&vec![0.0; limits_g.len()], &without_g)?;
        let total_g: f64 = optimum.values.iter().sum();
        if optimum.missing <= 1e-8 && second.as_ref().is_none_or(|(t, _, _)| total_g < *t) {
            second = Some((total_g, optimum.values, without_g));
        }
    }
    second.map(|(_, exact_g, without_g)| plan(question, frame, &without_g, exact_g)).transpose()
}

fn shortfall(question: &BallastQuestion, frame: &Frame, nearest: Optimum) -> Result<BallastShortfall> {
    let centre = with_ballast(question, nearest.values.iter().copied());
    let outside = |v: f64, low: f64, high: f64| (low - v).max(v - high).max(0.0);
    let b = &question.band;
    let x_missing_mm = outside(centre.x_mm, b.x_low_mm, b.x_high_mm);
    let y_missing_mm = outside(centre.y_mm, b.y_low_mm, b.y_high_mm);
    // A thousand times the aircraft's own mass stands for "no limit" and keeps the figures in range.
    let lifted_g = vec![1000.0 * frame.mass_g; question.places.len()];
    let lifted = frame.solve(&vec![0.0; lifted_g.len()], &lifted_g).ok();
    Ok(BallastShortfall {
        x_missing_gmm: x_missing_mm * centre.mass_g,
        y_missing_gmm: y_missing_mm * centre.mass_g,
        x_missing_mm,
        y_missing_mm,
        without_limits_g: lifted.filter(|l| l.missing <= 1e-8).map(|l| l.values.iter().sum()),
        nearest_g: nearest.values,
        centre,
    })
}

/// The lightest whole-gram mix, by branch and bound on the linear program.
fn whole_grams(question: &BallastQuestion, frame: &Frame, limits_g: &[f64]) -> Result<Option<WholeGrams>> {
    let high_g: Vec<f64> = limits_g.iter().map(|g| g.floor()).collect();
    let mut open = vec![(vec![0.0; high_g.len()], high_g)];
    let mut best: Option<(f64, Vec<f64>)> = None;
    let mut nodes = 0;
    while let Some((low_g, high_g)) = open.pop() {
        nodes += 1;
        if nodes > NODE_LIMIT {
            break;
        }
        let optimum = frame.solve(&low_g, &high_g)?;
        let bound_g = (optimum.values.iter().sum::<f64>() - 1e-6).ceil();
        let beaten = best.as_ref().is_some_and(|(t, _)| bound_g >= *t);
        if optimum.missing > 1e-8 || beaten {
            continue;
        }
        for candidate in roundings(&optimum.values, &high_g) {
            let total_g: f64 = candidate.iter().sum();
            let lighter = best.as_ref().is_none_or(|(t, _)| total_g < *t);
            if lighter && in_band(&with_ballast(question, candidate.iter().copied()), &question.band) {
                best = Some((total_g, candidate));
            }
        }
        branch(&mut open, &optimum.values, low_g, high_g);
    }
    let proven_least = nodes <= NODE_LIMIT;
    Ok(best.map(|(total_g, grams)| WholeGrams {
        centre: with_ballast(question, grams.iter().copied()),
        grams: grams.iter().map(|g| *g as u32).collect(),
        total_g: total_g as u32,
        proven_least,
    }))
}

fn is_whole(mass_g: f64) -> bool {
    (mass_g - mass_g.round()).abs() < 1e-6
}

/// Every mix of up and down for the broken grams (two at most at a vertex).
fn roundings(exact_g: &[f64], high_g: &[f64]) -> Vec<Vec<f64>> {
    let mut all = vec![exact_g.iter().map(|g| g.round()).collect::<Vec<f64>>()];
    for (j, mass_g) in exact_g.iter().enumerate().filter(|(_, g)| !is_whole(**g)).take(3) {
        let mut next = Vec::with_capacity(2 * all.len());
        for mut mix in all {
            mix[j] = mass_g.floor();
            next.push(mix.clone());
            mix[j] = mass_g.ceil().min(high_g[j]);
            next.push(mix);
        }
        all = next;
    }
    all
}

fn branch(open: &mut Vec<(Vec<f64>, Vec<f64>)>, exact_g: &[f64], low_g: Vec<f64>, high_g: Vec<f64>) {
    let Some((j, mass_g)) = exact_g.iter().enumerate().find(|(_, g)| !is_whole(**g)) else {
        return;
    };
    let mut down_g = high_g.clone();
    down_g[j] = mass_g.floor();
    open.push((low_g.clone(), down_g));
    let mut up_g = low_g;
    up_g[j] = mass_g.ceil();
    if up_g[j] <= high_g[j] {
        // Popped first: rounding up is what usually holds the band.
        open.push((up_g, high_g));
    }
}
