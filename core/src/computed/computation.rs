//! Which file answers which computation of a plan.

use super::answer::{Computed, Result};
use super::facts::Facts;
use super::{
    balance, blades, drive_load, frequencies, governor, head_speeds, heat, hover, ladder, landing, packs, receiver,
    regulator, ripple, supply, trend, trial_weight, wires,
};
use crate::plan::Computation;

impl Computed {
    /// Computes a check's answer from what is known.
    ///
    /// # Errors
    /// What is lacking, so that a person can be led to it.
    pub fn of(computation: Computation, facts: Facts<'_>) -> Result<Computed> {
        match computation {
            Computation::SupplyLoad => supply::load(facts),
            Computation::SupplyWindow => supply::window(facts),
            Computation::ReceiverEndurance => receiver::endurance(facts),
            Computation::RegulatorHeat => regulator::heat(facts),
            Computation::WireRuns => wires::runs(facts),
            Computation::CentreOfGravity => balance::centre(facts),
            Computation::GovernorRoom => governor::room(facts),
            Computation::HoverRoom => hover::room(facts),
            Computation::BladeBalance => blades::balance(facts),
            Computation::FrequencyPlacement => frequencies::placement(facts),
            Computation::LadderAgreement => ladder::agreement(facts),
            Computation::HotDayHeat => heat::hot_day(facts),
            Computation::PackLife => packs::life(facts),
            Computation::PackTrend => trend::resistance(facts),
            Computation::LandingCharge => landing::charge(facts),
            Computation::PackRipple => ripple::on_pack_leads(facts),
            Computation::BladeSpeed => head_speeds::under_rating(facts),
            Computation::DriveLoad => drive_load::planned(facts),
            Computation::HeadSpeedSteps => head_speeds::steps(facts),
            Computation::TrialWeight => trial_weight::correction(facts),
        }
    }
}
