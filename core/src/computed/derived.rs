//! Figures that others on file give: what the app has is not asked for again, it is offered.

use super::Facts;

/// How far a count may lie from a whole number of teeth: the ratio is told with two digits behind its mark.
const WHOLE_WITHIN: f64 = 0.1;

/// What other figures on file say that a figure is; none where they do not.
///
/// The ratio is the main gear's teeth over the pinion's where no middle shaft is in between, and the main gear's teeth are the pinion's
/// times the ratio. In flight pilot and crew stand no nearer to the rotor than when it spools up.
pub fn derived(facts: Facts<'_>, figure: &str) -> Option<f64> {
    let known = |id: &str| facts.figure(id).ok();
    match figure {
        _ if known(figure).is_some() => None,
        "flight-line-distance" => known("stand-off-distance"),
        _ => of_gears(known, figure),
    }
}

fn of_gears(known: impl Fn(&str) -> Option<f64>, figure: &str) -> Option<f64> {
    if known("middle-pinion-teeth").or(known("middle-gear-teeth")).is_some() {
        return None;
    }
    let pinion = known("pinion-teeth").filter(|pinion| *pinion > 0.0);
    match figure {
        "gear-ratio" => Some(known("main-gear-teeth")? / pinion?),
        "main-gear-teeth" => {
            let teeth = pinion? * known("gear-ratio")?;
            ((teeth - teeth.round()).abs() <= WHOLE_WITHIN).then(|| teeth.round())
        }
        _ => None,
    }
}
