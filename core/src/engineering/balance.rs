//! Centre of gravity in three axes, from weighings and from parts, with its uncertainty and its margin.
//!
//! Axes: `x_mm` fore and aft, positive forward of the main shaft; `y_mm` positive to the right; `z_mm` positive up. Any fixed
//! datum works as long as every figure uses the same one. Moments: centre = sum(mass x arm) / sum(mass), as in the weight and
//! balance handbooks of civil aviation authorities (FAA-H-8083-1B).
//!
//! Uncertainty follows JCGM 100:2008 ("GUM"): a scale or ruler that is right within plus or minus `a` has the standard
//! uncertainty `a / sqrt(3)`; independent contributions add in squares; the stated interval is two standard uncertainties
//! (about 95 %).
//!
//! Nothing is burnt in an electric helicopter, so the centre of gravity does not move over a flight.

use serde::{Deserialize, Serialize};

use super::conflict::Conflict;
use super::error::{EngineeringError, Result};
use super::grade::Grade;
use super::require::{count, ordered, within};

/// Greatest mass that these functions accept, in g.
pub const MASS_LIMIT_G: f64 = 1e6;
/// Greatest distance from the datum that these functions accept, in mm.
pub const ARM_LIMIT_MM: f64 = 5000.0;
/// Movement of the centre of gravity over a flight of an electric helicopter, in mm: nothing is burnt.
pub const ELECTRIC_FLIGHT_SHIFT_MM: f64 = 0.0;

/// A mass at a place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Part {
    /// The name that the person gave it.
    pub name: String,
    /// Mass, in g, above 0 to [`MASS_LIMIT_G`].
    pub mass_g: f64,
    /// Forward of the main shaft, in mm.
    pub x_mm: f64,
    /// Right of the centre line, in mm.
    pub y_mm: f64,
    /// Above the datum, in mm.
    pub z_mm: f64,
    /// True for a part that is still to be fitted (crew, seats, instruments): counted at its own place in the complete figure.
    pub to_come: bool,
}

/// One support on a scale.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Support {
    /// The name that the person gave it.
    pub name: String,
    /// Reading with the aircraft level, tare removed, in g, 0 to [`MASS_LIMIT_G`].
    pub reading_g: f64,
    /// Forward of the main shaft, in mm.
    pub x_mm: f64,
    /// Right of the centre line, in mm.
    pub y_mm: f64,
    /// Above the datum, in mm.
    pub z_mm: f64,
}

/// A second weighing on the same supports with the nose raised, from which the height of the centre of gravity follows.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TiltedReadings {
    /// Angle of the nose above level, in deg, 3 to 45 (either sign).
    pub nose_up_deg: f64,
    /// The angle is right within plus or minus this, in deg, 0 to 5.
    pub angle_half_width_deg: f64,
    /// Readings in the order of the supports, in g.
    pub readings_g: Vec<f64>,
}

/// A weighing of the aircraft on two to eight supports.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Weighing {
    /// The supports with their level readings.
    pub supports: Vec<Support>,
    /// The tilted readings, if the height is wanted.
    pub tilted: Option<TiltedReadings>,
}

/// What the measurements are good for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Accuracy {
    /// The scale is right within plus or minus this, in g, 0 to 10000.
    pub scale_half_width_g: f64,
    /// Distances are right within plus or minus this, in mm, 0 to 500.
    pub ruler_half_width_mm: f64,
}

/// The band in which the centre of gravity must lie.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Band {
    /// Rearmost, in mm.
    pub x_low_mm: f64,
    /// Foremost, in mm, not below `x_low_mm`.
    pub x_high_mm: f64,
    /// Leftmost, in mm.
    pub y_low_mm: f64,
    /// Rightmost, in mm, not below `y_low_mm`.
    pub y_high_mm: f64,
}

impl Band {
    /// The band drawn in by the uncertainty of the centre, so that ballast found for it holds with the interval and not by luck.
    ///
    /// # Errors
    /// A half width that is not a number or negative, or one that leaves nothing of the band: weigh and measure more closely.
    ///
    /// ```
    /// use liftgate_core::engineering::balance::{Band, CentreHalfWidth};
    /// let band = Band { x_low_mm: 0.0, x_high_mm: 6.0, y_low_mm: -3.0, y_high_mm: 3.0 };
    /// let inside = band.inside(&CentreHalfWidth { mass_g: 2.0, x_mm: 1.0, y_mm: 0.5, z_mm: None })?;
    /// assert_eq!(inside, Band { x_low_mm: 1.0, x_high_mm: 5.0, y_low_mm: -2.5, y_high_mm: 2.5 });
    /// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
    /// ```
    pub fn inside(&self, half_width: &CentreHalfWidth) -> Result<Self> {
        check_band(self)?;
        within("fore and aft half width", half_width.x_mm, "mm", 0.0, ARM_LIMIT_MM)?;
        within("lateral half width", half_width.y_mm, "mm", 0.0, ARM_LIMIT_MM)?;
        let inside = Self {
            x_low_mm: self.x_low_mm + half_width.x_mm,
            x_high_mm: self.x_high_mm - half_width.x_mm,
            y_low_mm: self.y_low_mm + half_width.y_mm,
            y_high_mm: self.y_high_mm - half_width.y_mm,
        };
        if inside.x_low_mm > inside.x_high_mm || inside.y_low_mm > inside.y_high_mm {
            return Err(EngineeringError::from(Conflict::BandTooNarrow {
                x_mm: half_width.x_mm,
                y_mm: half_width.y_mm,
            }));
        }
        Ok(inside)
    }
}

/// A total mass and where it acts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Centre {
    /// Total mass, in g.
    pub mass_g: f64,
    /// Forward of the main shaft, in mm.
    pub x_mm: f64,
    /// Right of the centre line, in mm.
    pub y_mm: f64,
    /// Above the datum, in mm; none if a weighing had no tilted readings.
    pub z_mm: Option<f64>,
}

/// Half widths of the 95 % intervals of a [`Centre`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct CentreHalfWidth {
    /// Of the mass, in g.
    pub mass_g: f64,
    /// Fore and aft, in mm.
    pub x_mm: f64,
    /// Lateral, in mm.
    pub y_mm: f64,
    /// Of the height, in mm, where it is known.
    pub z_mm: Option<f64>,
}

/// What to find the centre of gravity from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BalanceInput {
    /// The weighing, if there is one.
    pub weighing: Option<Weighing>,
    /// Parts that were not on the scales: all of them where there is no weighing. Up to 500.
    pub parts: Vec<Part>,
    /// What the scale and the ruler are good for.
    pub accuracy: Accuracy,
    /// The band to hold the result against, if there is one.
    pub band: Option<Band>,
}

/// One axis of a centre of gravity against its band.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct BandMargin {
    /// Where the centre is, in mm.
    pub value_mm: f64,
    /// Lower edge, in mm.
    pub low_mm: f64,
    /// Upper edge, in mm.
    pub high_mm: f64,
    /// Room to the nearer edge, in mm; negative outside.
    pub margin_mm: f64,
    /// The same in percent of the band's half width; 100 in its middle; 0 for a band of no width.
    pub margin_percent: f64,
    /// Half width of the 95 % interval, in mm.
    pub half_width_mm: f64,
    /// Stop outside the band, caution where the interval crosses an edge.
    pub grade: Grade,
}

/// The centre of gravity as the aircraft stands and as it will be.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BalanceReport {
    /// What went in.
    pub inputs: BalanceInput,
    /// As it stands, without the parts still to come; none if every part is still to come.
    pub fitted: Option<Centre>,
    /// With the parts still to come, each at its own place.
    pub complete: Centre,
    /// Half widths of the 95 % intervals of `complete`.
    pub half_width: CentreHalfWidth,
    /// `complete` against the fore and aft band.
    pub fore_aft: Option<BandMargin>,
    /// `complete` against the lateral band.
    pub lateral: Option<BandMargin>,
    /// [`ELECTRIC_FLIGHT_SHIFT_MM`]: the centre does not move over a flight.
    pub flight_shift_mm: f64,
    /// The worse of the two bands; `Ok` without bands.
    pub grade: Grade,
}

/// Centre of gravity of the aircraft from a weighing, from parts, or from both.
///
/// # Errors
/// A figure that is not a number or out of range, nothing to sum, fewer than two supports, tilted readings whose count or sum
/// does not agree with the level ones.
///
/// # Validity
/// Rigid aircraft, supports on one level plane, tare removed. The height from a tilted weighing is as good as the angle: small
/// angles give wide intervals.
///
/// ```
/// use liftgate_core::engineering::balance::{balance_report, Accuracy, BalanceInput, Part};
/// // FAA test figure 44 (lb and in; the sum is the same in any unit): 1910 at 97.58.
/// let part = |mass_g, x_mm| Part { name: String::new(), mass_g, x_mm, y_mm: 0.0, z_mm: 0.0, to_come: false };
/// let report = balance_report(&BalanceInput {
///     weighing: None,
///     parts: vec![part(1495.0, 101.4), part(15.0, 100.5), part(240.0, 96.0), part(160.0, 64.0)],
///     accuracy: Accuracy { scale_half_width_g: 1.0, ruler_half_width_mm: 0.5 },
///     band: None,
/// })?;
/// assert!((report.complete.x_mm - 97.58).abs() < 0.01);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn balance_report(input: &BalanceInput) -> Result<BalanceReport> {
    check_input(input)?;
    let mut sum = Sum::default();
    if let Some(weighing) = &input.weighing {
        sum.add_weighing(weighing, input.accuracy)?;
    }
    for part in input.parts.iter().filter(|p| !p.to_come) {
        sum.add_part(part);
    }
    let fitted = sum.centre();
    for part in input.parts.iter().filter(|p| p.to_come) {
        sum.add_part(part);
    }
    let complete = sum.centre().ok_or_else(|| EngineeringError::from(Conflict::NoMass))?;
    let half_width = sum.half_width(&complete, input.accuracy);
    let (fore_aft, lateral) = match &input.band {
        None => (None, None),
        Some(b) => (
            Some(band_margin(complete.x_mm, b.x_low_mm, b.x_high_mm, half_width.x_mm)),
            Some(band_margin(complete.y_mm, b.y_low_mm, b.y_high_mm, half_width.y_mm)),
        ),
    };
    let grade = [fore_aft, lateral].iter().flatten().map(|m| m.grade).max().unwrap_or(Grade::Ok);
    Ok(BalanceReport {
        inputs: input.clone(),
        fitted,
        complete,
        half_width,
        fore_aft,
        lateral,
        flight_shift_mm: ELECTRIC_FLIGHT_SHIFT_MM,
        grade,
    })
}

fn check_input(input: &BalanceInput) -> Result<()> {
    let a = &input.accuracy;
    within("scale accuracy", a.scale_half_width_g, "g", 0.0, 10_000.0)?;
    within("ruler accuracy", a.ruler_half_width_mm, "mm", 0.0, 500.0)?;
    count("parts", input.parts.len(), 0, 500)?;
    for part in &input.parts {
        within("part mass", part.mass_g, "g", 1e-3, MASS_LIMIT_G)?;
        check_place(part.x_mm, part.y_mm, part.z_mm)?;
    }
    if let Some(weighing) = &input.weighing {
        check_weighing(weighing, a)?;
    }
    input.band.as_ref().map_or(Ok(()), check_band)
}

pub(super) fn check_place(x_mm: f64, y_mm: f64, z_mm: f64) -> Result<()> {
    within("fore and aft place", x_mm, "mm", -ARM_LIMIT_MM, ARM_LIMIT_MM)?;
    within("lateral place", y_mm, "mm", -ARM_LIMIT_MM, ARM_LIMIT_MM)?;
    within("height", z_mm, "mm", -ARM_LIMIT_MM, ARM_LIMIT_MM)?;
    Ok(())
}

pub(super) fn check_band(band: &Band) -> Result<()> {
    check_place(band.x_low_mm, band.y_low_mm, 0.0)?;
    check_place(band.x_high_mm, band.y_high_mm, 0.0)?;
    ordered(band.x_low_mm, band.x_high_mm, || Conflict::ForeAftBand {
        low_mm: band.x_low_mm,
        high_mm: band.x_high_mm,
    })?;
    ordered(band.y_low_mm, band.y_high_mm, || Conflict::LateralBand {
        low_mm: band.y_low_mm,
        high_mm: band.y_high_mm,
    })
}

pub(super) fn check_centre(centre: &Centre) -> Result<()> {
    within("aircraft mass", centre.mass_g, "g", 1.0, MASS_LIMIT_G)?;
    check_place(centre.x_mm, centre.y_mm, centre.z_mm.unwrap_or(0.0))
}

fn check_weighing(weighing: &Weighing, accuracy: &Accuracy) -> Result<()> {
    count("supports", weighing.supports.len(), 2, 8)?;
    for s in &weighing.supports {
        within("scale reading", s.reading_g, "g", 0.0, MASS_LIMIT_G)?;
        check_place(s.x_mm, s.y_mm, s.z_mm)?;
    }
    let level_g: f64 = weighing.supports.iter().map(|s| s.reading_g).sum();
    within("sum of the scale readings", level_g, "g", 1.0, MASS_LIMIT_G)?;
    let Some(tilted) = &weighing.tilted else {
        return Ok(());
    };
    within("nose angle", tilted.nose_up_deg.abs(), "deg", 3.0, 45.0)?;
    within("accuracy of the nose angle", tilted.angle_half_width_deg, "deg", 0.0, 5.0)?;
    let n = weighing.supports.len();
    count("tilted readings (one a support)", tilted.readings_g.len(), n, n)?;
    for reading_g in &tilted.readings_g {
        within("tilted scale reading", *reading_g, "g", 0.0, MASS_LIMIT_G)?;
    }
    let tilted_g: f64 = tilted.readings_g.iter().sum();
    // The mass cannot change by tilting: a larger difference than the scales explain is a slip of reading.
    let tolerance_g = (0.02 * level_g).max(4.0 * accuracy.scale_half_width_g * n as f64);
    if (tilted_g - level_g).abs() > tolerance_g || tilted_g <= 0.0 {
        return Err(EngineeringError::from(Conflict::TiltedSum { tilted_g, level_g }));
    }
    Ok(())
}

/// Running sums of mass, moment and squared uncertainty.
#[derive(Default)]
struct Sum {
    /// Mass and place of every independent scale reading.
    items: Vec<(f64, f64, f64)>,
    mass_g: f64,
    x_moment_gmm: f64,
    y_moment_gmm: f64,
    z_moment_gmm: f64,
    z_unknown: bool,
    /// Heights of single parts, as mass and height.
    z_items: Vec<(f64, f64)>,
    /// Mass and standard uncertainty of the height from a tilted weighing.
    z_weighed: Option<(f64, f64)>,
}

impl Sum {
    fn add_part(&mut self, part: &Part) {
        self.add(part.mass_g, part.x_mm, part.y_mm);
        self.z_moment_gmm += part.mass_g * part.z_mm;
        self.z_items.push((part.mass_g, part.z_mm));
    }

    fn add(&mut self, mass_g: f64, x_mm: f64, y_mm: f64) {
        self.mass_g += mass_g;
        self.x_moment_gmm += mass_g * x_mm;
        self.y_moment_gmm += mass_g * y_mm;
        self.items.push((mass_g, x_mm, y_mm));
    }

    fn add_weighing(&mut self, weighing: &Weighing, accuracy: Accuracy) -> Result<()> {
        for s in &weighing.supports {
            self.add(s.reading_g, s.x_mm, s.y_mm);
        }
        match &weighing.tilted {
            None => self.z_unknown = true,
            Some(tilted) => {
                let x_mm = self.x_moment_gmm / self.mass_g;
                let (z_mm, u_z_mm) = height_from_tilt(weighing, tilted, x_mm, accuracy);
                within("height from the tilted weighing", z_mm, "mm", -ARM_LIMIT_MM, ARM_LIMIT_MM)?;
                self.z_moment_gmm += self.mass_g * z_mm;
                self.z_weighed = Some((self.mass_g, u_z_mm));
            }
        }
        Ok(())
    }

    fn centre(&self) -> Option<Centre> {
        (self.mass_g > 0.0).then(|| Centre {
            mass_g: self.mass_g,
            x_mm: self.x_moment_gmm / self.mass_g,
            y_mm: self.y_moment_gmm / self.mass_g,
            z_mm: (!self.z_unknown).then(|| self.z_moment_gmm / self.mass_g),
        })
    }

    fn half_width(&self, centre: &Centre, accuracy: Accuracy) -> CentreHalfWidth {
        let u_scale_g = accuracy.scale_half_width_g / 3f64.sqrt();
        let u_ruler_mm = accuracy.ruler_half_width_mm / 3f64.sqrt();
        let axis = |place: fn(&(f64, f64, f64)) -> f64, centre_mm: f64| {
            let items = self.items.iter().map(|i| (i.0, place(i)));
            2.0 * squared_uncertainty(items, self.mass_g, centre_mm, u_scale_g, u_ruler_mm).sqrt()
        };
        let z_mm = centre.z_mm.map(|z_mm| {
            let parts = self.z_items.iter().copied();
            let mut u2 = squared_uncertainty(parts, self.mass_g, z_mm, u_scale_g, u_ruler_mm);
            if let Some((mass_g, u_z_mm)) = self.z_weighed {
                u2 += (mass_g / self.mass_g * u_z_mm).powi(2);
            }
            2.0 * u2.sqrt()
        });
        CentreHalfWidth {
            mass_g: 2.0 * u_scale_g * (self.items.len() as f64).sqrt(),
            x_mm: axis(|i| i.1, centre.x_mm),
            y_mm: axis(|i| i.2, centre.y_mm),
            z_mm,
        }
    }
}

/// Squared standard uncertainty of a centre: each mass moves it by its distance from the centre, each arm by its mass.
fn squared_uncertainty(
    items: impl Iterator<Item = (f64, f64)>,
    total_g: f64,
    centre_mm: f64,
    u_scale_g: f64,
    u_ruler_mm: f64,
) -> f64 {
    items
        .map(|(mass_g, arm_mm)| {
            ((arm_mm - centre_mm) / total_g * u_scale_g).powi(2) + (mass_g / total_g * u_ruler_mm).powi(2)
        })
        .sum()
}

/// Height of the centre and its standard uncertainty. With the nose up by `t`, a point's horizontal place is `x cos t - z sin t`.
fn height_from_tilt(weighing: &Weighing, tilted: &TiltedReadings, x_mm: f64, accuracy: Accuracy) -> (f64, f64) {
    let (sin, cos) = tilted.nose_up_deg.to_radians().sin_cos();
    let total_g: f64 = tilted.readings_g.iter().sum();
    let place_mm = |s: &Support| s.x_mm * cos - s.z_mm * sin;
    let pairs = || weighing.supports.iter().zip(&tilted.readings_g).map(|(s, g)| (*g, place_mm(s)));
    let h_mm = pairs().map(|(g, h)| g * h).sum::<f64>() / total_g;
    let u_scale_g = accuracy.scale_half_width_g / 3f64.sqrt();
    let u_ruler_mm = accuracy.ruler_half_width_mm / 3f64.sqrt();
    let u2_h = squared_uncertainty(pairs(), total_g, h_mm, u_scale_g, u_ruler_mm);
    let level = weighing.supports.iter().map(|s| (s.reading_g, s.x_mm));
    let level_g: f64 = weighing.supports.iter().map(|s| s.reading_g).sum();
    let u2_x = squared_uncertainty(level, level_g, x_mm, u_scale_g, u_ruler_mm);
    let u_angle = tilted.angle_half_width_deg.to_radians() / 3f64.sqrt();
    let by_angle = (h_mm * cos - x_mm) / (sin * sin);
    let u2_z = u2_x * (cos / sin).powi(2) + u2_h / (sin * sin) + (by_angle * u_angle).powi(2);
    ((x_mm * cos - h_mm) / sin, u2_z.sqrt())
}

/// One axis against its band.
pub(super) fn band_margin(value_mm: f64, low_mm: f64, high_mm: f64, half_width_mm: f64) -> BandMargin {
    let margin_mm = (value_mm - low_mm).min(high_mm - value_mm);
    let half_band_mm = (high_mm - low_mm) / 2.0;
    let grade = if margin_mm < -1e-9 {
        Grade::Stop
    } else if margin_mm < half_width_mm {
        Grade::Caution
    } else {
        Grade::Ok
    };
    BandMargin {
        value_mm,
        low_mm,
        high_mm,
        margin_mm,
        margin_percent: if half_band_mm > 0.0 { 100.0 * margin_mm / half_band_mm } else { 0.0 },
        half_width_mm,
        grade,
    }
}

/// A pack, or any part, that moves within the aircraft.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PartMove {
    /// The aircraft with the part at its old place.
    pub centre: Centre,
    /// Mass of the part, in g, not above the aircraft's.
    pub part_mass_g: f64,
    /// Movement forward, in mm.
    pub dx_mm: f64,
    /// Movement to the right, in mm.
    pub dy_mm: f64,
    /// Movement up, in mm.
    pub dz_mm: f64,
}

/// What moving a part does.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PartMoveReport {
    /// What went in.
    pub inputs: PartMove,
    /// Shift of the centre forward, in mm.
    pub shift_x_mm: f64,
    /// Shift of the centre to the right, in mm.
    pub shift_y_mm: f64,
    /// Shift of the centre up, in mm.
    pub shift_z_mm: f64,
    /// The aircraft afterwards.
    pub after: Centre,
}

/// The effect of moving a pack or any other part: shift = part mass x movement / aircraft mass (FAA-H-8083-1B).
///
/// # Errors
/// Figures out of range, or a part heavier than the aircraft.
///
/// ```
/// use liftgate_core::engineering::balance::{move_part, Centre, PartMove};
/// // Pilot's Handbook (FAA): 100 lb from 30 to 150 in, 8000 lb at 77.0 in: 78.5 in.
/// let report = move_part(&PartMove {
///     centre: Centre { mass_g: 8000.0, x_mm: 77.0, y_mm: 0.0, z_mm: None },
///     part_mass_g: 100.0, dx_mm: 120.0, dy_mm: 0.0, dz_mm: 0.0,
/// })?;
/// assert!((report.after.x_mm - 78.5).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn move_part(question: &PartMove) -> Result<PartMoveReport> {
    check_centre(&question.centre)?;
    check_part_mass(question.part_mass_g, question.centre.mass_g)?;
    let limit_mm = 2.0 * ARM_LIMIT_MM;
    within("movement forward", question.dx_mm, "mm", -limit_mm, limit_mm)?;
    within("movement to the right", question.dy_mm, "mm", -limit_mm, limit_mm)?;
    within("movement up", question.dz_mm, "mm", -limit_mm, limit_mm)?;
    let share = question.part_mass_g / question.centre.mass_g;
    let c = question.centre;
    Ok(PartMoveReport {
        inputs: *question,
        shift_x_mm: share * question.dx_mm,
        shift_y_mm: share * question.dy_mm,
        shift_z_mm: share * question.dz_mm,
        after: Centre {
            mass_g: c.mass_g,
            x_mm: c.x_mm + share * question.dx_mm,
            y_mm: c.y_mm + share * question.dy_mm,
            z_mm: c.z_mm.map(|z| z + share * question.dz_mm),
        },
    })
}

fn check_part_mass(part_mass_g: f64, aircraft_mass_g: f64) -> Result<()> {
    within("part mass", part_mass_g, "g", 1e-3, MASS_LIMIT_G)?;
    ordered(part_mass_g, aircraft_mass_g, || Conflict::PartTooHeavy {
        part_g: part_mass_g,
        aircraft_g: aircraft_mass_g,
    })
}

/// How far a part must move along one axis to bring the centre from `now_mm` to `required_mm`, in mm (signed).
///
/// # Errors
/// Figures out of range, or a part heavier than the aircraft.
///
/// ```
/// use liftgate_core::engineering::balance::move_for;
/// assert!((move_for(10_000.0, -3.0, 2.0, 1_000.0)? - 50.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn move_for(aircraft_mass_g: f64, now_mm: f64, required_mm: f64, part_mass_g: f64) -> Result<f64> {
    within("aircraft mass", aircraft_mass_g, "g", 1.0, MASS_LIMIT_G)?;
    check_part_mass(part_mass_g, aircraft_mass_g)?;
    check_place(now_mm, required_mm, 0.0)?;
    Ok((required_mm - now_mm) * aircraft_mass_g / part_mass_g)
}

/// Mass that must move from one place to another to bring the centre from `now_mm` to `required_mm`, in g.
///
/// # Errors
/// Figures out of range; a movement that goes the wrong way or nowhere.
///
/// ```
/// use liftgate_core::engineering::balance::mass_to_shift;
/// // Pilot's Handbook (FAA): 7800 lb, 81.5 to 80.5 in, from 150 to 30 in: 65 lb.
/// assert!((mass_to_shift(7800.0, 81.5, 80.5, 150.0, 30.0)? - 65.0).abs() < 1e-9);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn mass_to_shift(aircraft_mass_g: f64, now_mm: f64, required_mm: f64, from_mm: f64, to_mm: f64) -> Result<f64> {
    within("aircraft mass", aircraft_mass_g, "g", 1.0, MASS_LIMIT_G)?;
    check_place(now_mm, required_mm, 0.0)?;
    check_place(from_mm, to_mm, 0.0)?;
    let moment_gmm = aircraft_mass_g * (required_mm - now_mm);
    if moment_gmm == 0.0 {
        return Ok(0.0);
    }
    let mass_g = moment_gmm / (to_mm - from_mm);
    if !mass_g.is_finite() || mass_g < 0.0 || mass_g > aircraft_mass_g {
        return Err(EngineeringError::from(Conflict::MoveCannotReach { from_mm, to_mm, now_mm, required_mm }));
    }
    Ok(mass_g)
}

/// Ballast at one place that brings the centre along one axis to `required_mm`, in g:
/// `w = W (required - now) / (arm - required)`. The required centre stands in the denominator because the ballast adds to the
/// total. Not rounded.
///
/// # Errors
/// Figures out of range; a place on the wrong side of the required centre.
///
/// ```
/// use liftgate_core::engineering::balance::ballast_at;
/// // FAA mechanic's test bank: 4954 lb at 30.5 in, limit 32.0 in, ballast at 162 in: 57.16 lb.
/// assert!((ballast_at(4954.0, 30.5, 32.0, 162.0)? - 57.16).abs() < 0.005);
/// # Ok::<(), liftgate_core::engineering::EngineeringError>(())
/// ```
pub fn ballast_at(aircraft_mass_g: f64, now_mm: f64, required_mm: f64, arm_mm: f64) -> Result<f64> {
    within("aircraft mass", aircraft_mass_g, "g", 1.0, MASS_LIMIT_G)?;
    check_place(now_mm, required_mm, 0.0)?;
    check_place(arm_mm, 0.0, 0.0)?;
    if required_mm == now_mm {
        return Ok(0.0);
    }
    let mass_g = aircraft_mass_g * (required_mm - now_mm) / (arm_mm - required_mm);
    if !mass_g.is_finite() || mass_g < 0.0 {
        return Err(EngineeringError::from(Conflict::BallastCannotReach { arm_mm, now_mm, required_mm }));
    }
    Ok(mass_g)
}
