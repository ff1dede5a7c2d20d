//! The tones that are listened for, and how surely each is thought to be there beforehand.

use super::orders::{Drive, Family};

/// Two tones nearer than this share of their frequency are one to the ear.
const ALIKE: f64 = 2e-3;

/// A tone to listen for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub family: Family,
    /// Frequency over the main rotor's turns a second.
    pub per_main: f64,
    /// Chance beforehand that it stands out of the noise.
    pub presence: f64,
}

/// Multiples listened for, the chance that the first stands out, and how that falls with each further one. Common practice, no source: blade
/// passages have many multiples, a mesh has few.
fn belief(family: Family) -> (u32, f64, f64) {
    match family {
        Family::MainPassage => (12, 0.9, 0.92),
        Family::TailPassage => (6, 0.9, 0.85),
        Family::Mesh(_) => (3, 0.85, 0.7),
        Family::Poles => (2, 0.5, 0.7),
        // Unbalance is felt rather than heard.
        Family::Turn(_) | Family::Belt(_) => (0, 0.0, 0.0),
    }
}

/// The tones of a drive, each once, the surest first.
pub(super) fn lines(drive: &Drive) -> Vec<Line> {
    let mut all = Vec::new();
    for (family, first) in drive.families() {
        let (multiples, chance, falls) = belief(family);
        let line = |k: u32| Line {
            family,
            per_main: first * f64::from(k),
            presence: chance * falls.powi(k.cast_signed() - 1),
        };
        all.extend((1..=multiples).map(line));
    }
    all.sort_by(|a, b| b.presence.total_cmp(&a.presence));
    let mut once: Vec<Line> = Vec::new();
    for line in all {
        if once.iter().all(|known| (known.per_main / line.per_main - 1.0).abs() > ALIKE) {
            once.push(line);
        }
    }
    once
}
