//! What cannot be computed because figures do not go together.

/// Two inputs that cannot both be true, or inputs that cannot determine the answer.
///
/// The numbers are those that were given, in the unit that their names end in.
#[derive(Debug, Clone, PartialEq)]
pub enum Conflict {
    /// The centre is known less well than the band is wide.
    BandTooNarrow {
        /// How well it is known fore and aft.
        x_mm: f64,
        /// How well it is known to the side.
        y_mm: f64,
    },
    /// Neither readings nor parts have a mass.
    NoMass,
    /// The two weighings of one aircraft differ in their sums.
    TiltedSum {
        /// With the nose raised.
        tilted_g: f64,
        /// Level.
        level_g: f64,
    },
    /// Mass moved between these places moves the centre the wrong way, or not far enough.
    MoveCannotReach {
        /// From here.
        from_mm: f64,
        /// To there.
        to_mm: f64,
        /// The centre now.
        now_mm: f64,
        /// The centre wanted.
        required_mm: f64,
    },
    /// Ballast at this place moves the centre the wrong way, or never far enough.
    BallastCannotReach {
        /// The place.
        arm_mm: f64,
        /// The centre now.
        now_mm: f64,
        /// The centre wanted.
        required_mm: f64,
    },
    /// Ballast places that cannot be told apart.
    BallastPlacesTogether,
    /// The ends of the fore and aft band are swapped.
    ForeAftBand {
        /// The end that should be the lower one.
        low_mm: f64,
        /// The end that should be the higher one.
        high_mm: f64,
    },
    /// The ends of the lateral band are swapped.
    LateralBand {
        /// The end that should be the lower one.
        low_mm: f64,
        /// The end that should be the higher one.
        high_mm: f64,
    },
    /// A part that weighs more than the aircraft it is on.
    PartTooHeavy {
        /// The part.
        part_g: f64,
        /// The aircraft.
        aircraft_g: f64,
    },
    /// Readings of a temperature that level off nowhere.
    NoSteadyState,
    /// Readings that were all taken at once.
    ReadingsTooClose,
    /// Readings that do not come down to the air's temperature.
    NoCooling,
    /// Moving air here and still air there.
    AirflowMixed,
    /// Air that is as hot as the part may get.
    AirAtLimit {
        /// The air.
        air_c: f64,
        /// The limit.
        limit_c: f64,
    },
    /// A part no warmer than the air around it.
    NotHeated {
        /// The part.
        part_c: f64,
        /// The air.
        air_c: f64,
    },
    /// A part no warmer than the air around it, after a flight at this head speed.
    NotHeatedInFlight {
        /// The head speed.
        rpm: f64,
        /// The part.
        part_c: f64,
        /// The air.
        air_c: f64,
    },
    /// More charge used than the pack holds.
    MoreUsedThanHeld {
        /// The charge used.
        used_mah: f64,
        /// What the pack holds.
        capacity_mah: f64,
    },
    /// Two loads under which the voltage does not fall.
    VoltageDoesNotFall {
        /// Voltage under the lower load.
        low_load_v: f64,
        /// The lower load.
        low_a: f64,
        /// Voltage under the higher load.
        high_load_v: f64,
        /// The higher load.
        high_a: f64,
    },
    /// Readings of a resistance at one point of the pack's life.
    OneCycleCount,
    /// Hovers that no aircraft of this kind could have flown.
    StepsDoNotFit,
    /// Blades that fill too much of their disc.
    DiscTooFull {
        /// Their chord.
        chord_m: f64,
        /// What they fill.
        percent: f64,
        /// The disc's radius.
        radius_m: f64,
    },
    /// A rotor that cannot lift the aircraft.
    LiftsTooLittle {
        /// Its speed.
        rpm: f64,
        /// The most that it lifts.
        most_kg: f64,
        /// What it should lift.
        mass_kg: f64,
    },
    /// A rotor that lifts the aircraft without collective.
    LiftsTooMuch {
        /// Its speed.
        rpm: f64,
        /// What it should lift.
        mass_kg: f64,
    },
    /// A regulator in air as hot as its limit.
    NoHeatAllowed {
        /// Its limit.
        limit_c: f64,
        /// The air.
        ambient_c: f64,
    },
    /// A linear regulator that should raise a voltage.
    LinearCannotRaise {
        /// What goes in.
        input_v: f64,
        /// What should come out.
        output_v: f64,
    },
    /// The ends of the head speeds are swapped.
    HeadSpeeds {
        /// The end that should be the lower one.
        low_rpm: f64,
        /// The end that should be the higher one.
        high_rpm: f64,
    },
    /// A trial weight that changed nothing.
    TrialWeightTooLight,
    /// A load for which there is no single wire.
    NoWire {
        /// The load.
        current_a: f64,
        /// Its way.
        length_m: f64,
        /// Its source.
        source_v: f64,
    },
    /// A rail whose nominal voltage is above that when full.
    NominalAboveFull {
        /// The rail.
        rail: String,
        /// Nominal.
        nominal_v: f64,
        /// Full.
        full_v: f64,
    },
    /// A rail whose voltage when empty is above the nominal one.
    EmptyAboveNominal {
        /// The rail.
        rail: String,
        /// Empty.
        empty_v: f64,
        /// Nominal.
        nominal_v: f64,
    },
    /// A rail whose burst rating is below the continuous one.
    BurstBelowContinuous {
        /// The rail.
        rail: String,
        /// For a burst.
        burst_a: f64,
        /// For good.
        continuous_a: f64,
    },
    /// A consumer whose window is upside down.
    WindowUpsideDown {
        /// The consumer.
        consumer: String,
        /// Its lowest voltage.
        low_v: f64,
        /// Its highest voltage.
        high_v: f64,
    },
    /// A consumer that should draw less when stalled than when at rest.
    FaultBelowSteady {
        /// The consumer.
        consumer: String,
        /// Stalled.
        fault_a: f64,
        /// At rest.
        steady_a: f64,
    },
    /// Teeth that make another ratio than the one that was entered.
    Teeth {
        /// Of the gear.
        gear: u32,
        /// Of the pinion.
        pinion: u32,
        /// Ratio by the teeth.
        by_teeth: f64,
        /// Ratio as entered.
        entered: f64,
    },
}
