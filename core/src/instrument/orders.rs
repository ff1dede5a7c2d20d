//! What turns in the drive, and at which multiples of the main rotor's speed it sounds and shakes.

use super::error::Result;
use super::require::{count, within};

/// A shaft of the drive.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shaft {
    /// The main rotor's mast.
    Main,
    /// The tail rotor's shaft.
    Tail,
    /// The motor.
    Motor,
}

/// The tail rotor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tail {
    /// Turns of the tail for one of the main rotor, 1 to 15.
    pub per_main: f64,
    /// Blades, 2 to 8.
    pub blades: u32,
}

/// The motor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motor {
    /// Turns of the motor for one of the main rotor, 1 to 50.
    pub per_main: f64,
    /// Pairs of magnetic poles, 1 to 30, where known.
    pub pole_pairs: Option<u32>,
}

/// Teeth in mesh: a pair of gears, or a toothed belt on its pulley.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mesh {
    /// Teeth of one of the two wheels, 8 to 300.
    pub teeth: u32,
    /// Turns of that wheel for one of the main rotor, 0.1 to 50: 1 for the gear on the mast.
    pub per_main: f64,
}

/// The drive as far as it is known: every ratio ties one more family of tones to the head speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Drive {
    /// Blades of the main rotor, 2 to 8.
    pub main_blades: u32,
    /// The tail rotor, if it is driven by the same motor at a fixed ratio.
    pub tail: Option<Tail>,
    /// The motor, if its ratio is known.
    pub motor: Option<Motor>,
    /// Meshes of teeth, at most six.
    pub meshes: Vec<Mesh>,
    /// Turns of each belt around its pulleys for one of the main rotor (pulley's teeth times its turns, over the belt's teeth), at most four.
    pub belts_per_main: Vec<f64>,
}

/// What makes a family of tones, each a whole multiple of the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// Once a turn of a shaft: unbalance.
    Turn(Shaft),
    /// A blade of the main rotor passes.
    MainPassage,
    /// A blade of the tail rotor passes.
    TailPassage,
    /// A pair of magnetic poles passes.
    Poles,
    /// Teeth of the mesh at this place of [`Drive::meshes`].
    Mesh(usize),
    /// The belt at this place of [`Drive::belts_per_main`] comes round.
    Belt(usize),
}

/// One tone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Order {
    /// Which family it belongs to.
    pub family: Family,
    /// Which multiple of the family's first tone, from 1.
    pub harmonic: u32,
    /// Its frequency over the main rotor's turns a second.
    pub per_main: f64,
}

impl Drive {
    /// Refuses a drive that cannot be.
    ///
    /// # Errors
    /// Names the first figure that lies outside of its range.
    pub fn check(&self) -> Result<()> {
        let blades = |name, blades: u32| within(name, f64::from(blades), "", (2.0, 8.0));
        blades("main rotor blades", self.main_blades)?;
        if let Some(tail) = self.tail {
            within("turns of the tail for one of the main rotor", tail.per_main, "", (1.0, 15.0))?;
            blades("tail rotor blades", tail.blades)?;
        }
        if let Some(motor) = self.motor {
            within("turns of the motor for one of the main rotor", motor.per_main, "", (1.0, 50.0))?;
            within("pairs of poles", f64::from(motor.pole_pairs.unwrap_or(1)), "", (1.0, 30.0))?;
        }
        count("meshes", self.meshes.len(), (0, 6))?;
        for mesh in &self.meshes {
            within("teeth", f64::from(mesh.teeth), "", (8.0, 300.0))?;
            within("turns of the wheel for one of the main rotor", mesh.per_main, "", (0.1, 50.0))?;
        }
        count("belts", self.belts_per_main.len(), (0, 4))?;
        for belt in &self.belts_per_main {
            within("turns of the belt for one of the main rotor", *belt, "", (0.01, 50.0))?;
        }
        Ok(())
    }

    /// The first tone of each family over the main rotor's turns a second.
    pub fn families(&self) -> Vec<(Family, f64)> {
        let mut found = vec![(Family::Turn(Shaft::Main), 1.0), (Family::MainPassage, f64::from(self.main_blades))];
        if let Some(tail) = self.tail {
            found.push((Family::Turn(Shaft::Tail), tail.per_main));
            found.push((Family::TailPassage, tail.per_main * f64::from(tail.blades)));
        }
        if let Some(motor) = self.motor {
            found.push((Family::Turn(Shaft::Motor), motor.per_main));
            found.extend(motor.pole_pairs.map(|pairs| (Family::Poles, motor.per_main * f64::from(pairs))));
        }
        let meshes = self.meshes.iter().enumerate();
        found.extend(meshes.map(|(at, mesh)| (Family::Mesh(at), f64::from(mesh.teeth) * mesh.per_main)));
        found.extend(self.belts_per_main.iter().enumerate().map(|(at, belt)| (Family::Belt(at), *belt)));
        found
    }

    /// The first `harmonics` tones of every family.
    pub fn orders(&self, harmonics: u32) -> Vec<Order> {
        let of = |(family, first): (Family, f64)| {
            (1..=harmonics).map(move |harmonic| Order { family, harmonic, per_main: first * f64::from(harmonic) })
        };
        self.families().into_iter().flat_map(of).collect()
    }
}
