//! The names under which a thing's numbers are kept: each once, so that one which is misspelt does not compile.

/// One of the numbers of things, whatever the kind: which kind has which is told by [`super::ThingKind::fields`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ThingNumber {
    /// The voltage when full; of a pack that of a full cell.
    FullV,
    /// The nominal voltage.
    NominalV,
    /// The voltage when empty.
    EmptyV,
    /// The current that it bears without end.
    ContinuousA,
    /// The current that it bears for a moment.
    BurstA,
    /// The peak while all servos are stirred without load.
    StirringPeakA,
    /// Ripple, peak to peak.
    RippleV,
    /// The lowest voltage it is rated for.
    LowV,
    /// The highest voltage it is rated for.
    HighV,
    /// The steady current of each.
    SteadyA,
    /// How many there are of it.
    Quantity,
    /// The current of each when stalled.
    FaultA,
    /// Cells in series.
    Cells,
    /// The charge that stands on it.
    CapacityMah,
    /// Its mass; of a scale what it reads.
    MassG,
    /// How far ahead of the main shaft.
    XMm,
    /// The resistance when new.
    NewMohm,
    /// Flights on it so far.
    Flights,
    /// The charge that was measured.
    MeasuredMah,
    /// The resistance as read.
    NowMohm,
    /// The lighter of two currents.
    LightA,
    /// The voltage at the lighter one.
    LightV,
    /// The heavier of two currents.
    HeavyA,
    /// The voltage at the heavier one.
    HeavyV,
    /// How far cells lie apart when charged.
    SpreadV,
    /// How far the hottest cell lies above the rest.
    HotCellK,
    /// The lowest cell at rest after the flight.
    RestLowV,
    /// The highest cell at rest after the flight.
    RestHighV,
    /// The current.
    CurrentA,
    /// The voltage of the whole string.
    VoltageV,
    /// Which way the rotor turns.
    Turns,
    /// Which way the weights' angle is counted.
    Counted,
    /// What a later peak does to the phase.
    Later,
    /// Vibration without the trial weight.
    FirstMmS,
    /// Its phase.
    FirstDeg,
    /// The trial weight.
    TrialG,
    /// The angle where it sits.
    TrialDeg,
    /// Vibration with the trial weight.
    WithMmS,
    /// Its phase then.
    WithDeg,
    /// How far to the right of the main shaft.
    YMm,
    /// How far above the feet of the scales.
    ZMm,
    /// What the scale reads with the nose raised.
    TiltedG,
    /// The most that a place may carry.
    LimitG,
    /// What is fitted there since the weighing.
    FittedG,
    /// The voltage in.
    InputV,
    /// The voltage out.
    OutputV,
    /// The current out.
    LoadA,
    /// Efficiency, of one that switches.
    Efficiency,
    /// The least difference, of a linear one.
    DropoutV,
    /// The rise for each watt.
    RiseKPerW,
    /// The limit of its temperature.
    LimitC,
    /// The gauge of a wire.
    Gauge,
    /// Its cross section.
    AreaMm2,
    /// Its length, one way.
    LengthM,
    /// The voltage of its source.
    SourceV,
    /// What its insulation is rated for.
    InsulationC,
    /// Its outside diameter.
    OutsideMm,
    /// How far the balance point lies from the bolt hole.
    BalancePointMm,
    /// The frequency.
    FrequencyHz,
    /// How well it is known, plus or minus.
    HalfWidthHz,
    /// The swing at resonance over the still push.
    Amplification,
    /// Time since the start.
    TimeS,
    /// The temperature.
    TemperatureC,
    /// Of which sort a paper is.
    Sort,
}

impl ThingNumber {
    /// The id that is stored. It is for ever.
    pub const fn as_str(self) -> &'static str {
        match self {
            ThingNumber::FullV => "full_v",
            ThingNumber::NominalV => "nominal_v",
            ThingNumber::EmptyV => "empty_v",
            ThingNumber::ContinuousA => "continuous_a",
            ThingNumber::BurstA => "burst_a",
            ThingNumber::StirringPeakA => "stirring_peak_a",
            ThingNumber::RippleV => "ripple_v",
            ThingNumber::LowV => "low_v",
            ThingNumber::HighV => "high_v",
            ThingNumber::SteadyA => "steady_a",
            ThingNumber::Quantity => "quantity",
            ThingNumber::FaultA => "fault_a",
            ThingNumber::Cells => "cells",
            ThingNumber::CapacityMah => "capacity_mah",
            ThingNumber::MassG => "mass_g",
            ThingNumber::XMm => "x_mm",
            ThingNumber::NewMohm => "new_mohm",
            ThingNumber::Flights => "flights",
            ThingNumber::MeasuredMah => "measured_mah",
            ThingNumber::NowMohm => "now_mohm",
            ThingNumber::LightA => "light_a",
            ThingNumber::LightV => "light_v",
            ThingNumber::HeavyA => "heavy_a",
            ThingNumber::HeavyV => "heavy_v",
            ThingNumber::SpreadV => "spread_v",
            ThingNumber::HotCellK => "hot_cell_k",
            ThingNumber::RestLowV => "rest_low_v",
            ThingNumber::RestHighV => "rest_high_v",
            ThingNumber::CurrentA => "current_a",
            ThingNumber::VoltageV => "voltage_v",
            ThingNumber::Turns => "turns",
            ThingNumber::Counted => "counted",
            ThingNumber::Later => "later",
            ThingNumber::FirstMmS => "first_mm_s",
            ThingNumber::FirstDeg => "first_deg",
            ThingNumber::TrialG => "trial_g",
            ThingNumber::TrialDeg => "trial_deg",
            ThingNumber::WithMmS => "with_mm_s",
            ThingNumber::WithDeg => "with_deg",
            ThingNumber::YMm => "y_mm",
            ThingNumber::ZMm => "z_mm",
            ThingNumber::TiltedG => "tilted_g",
            ThingNumber::LimitG => "limit_g",
            ThingNumber::FittedG => "fitted_g",
            ThingNumber::InputV => "input_v",
            ThingNumber::OutputV => "output_v",
            ThingNumber::LoadA => "load_a",
            ThingNumber::Efficiency => "efficiency",
            ThingNumber::DropoutV => "dropout_v",
            ThingNumber::RiseKPerW => "rise_k_per_w",
            ThingNumber::LimitC => "limit_c",
            ThingNumber::Gauge => "gauge",
            ThingNumber::AreaMm2 => "area_mm2",
            ThingNumber::LengthM => "length_m",
            ThingNumber::SourceV => "source_v",
            ThingNumber::InsulationC => "insulation_c",
            ThingNumber::OutsideMm => "outside_mm",
            ThingNumber::BalancePointMm => "balance_point_mm",
            ThingNumber::FrequencyHz => "frequency_hz",
            ThingNumber::HalfWidthHz => "half_width_hz",
            ThingNumber::Amplification => "amplification",
            ThingNumber::TimeS => "time_s",
            ThingNumber::TemperatureC => "temperature_c",
            ThingNumber::Sort => "sort",
        }
    }
}
