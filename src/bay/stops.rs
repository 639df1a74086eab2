//! Which acts in the bay are stopped, and for what.

use super::{Bay, BayAction, BayDanger, CentreEnd, VesselValve};

/// Marked test pressure of the low side [Pa gauge] (common practice, no source: labels say 10 to 15 bar).
pub const LOW_SIDE_TEST_PA: f64 = 15e5;
/// A loop with more than this may not be opened [Pa gauge].
const MAY_OPEN_PA: f64 = 0.3e5;

/// What stands in the loop while hands reach for something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StopSees {
    /// The compressor turns.
    pub running: bool,
    /// The high-side hand valve is open.
    pub high_valve_open: bool,
    /// Highest pressure in the loop [Pa gauge].
    pub loop_gauge_pa: f64,
    /// The recovery cylinder holds all that it may.
    pub recovery_full: bool,
}

impl Bay {
    /// The centre hose is open to a vessel.
    fn open_to_vessel(&self) -> bool {
        self.centre.vessel().is_some_and(|vessel| self.valves[vessel] != VesselValve::Shut)
    }
    fn high_open(&self, sees: &StopSees) -> bool {
        sees.high_valve_open && self.high.reaches().is_some()
    }
    fn bare(&self) -> Option<BayDanger> {
        (!self.protected).then_some(BayDanger::Unprotected)
    }

    /// Why the engine is not to be started.
    pub fn stops_start(&self, sees: &StopSees) -> Option<BayDanger> {
        if self.opened.is_some() {
            return Some(BayDanger::StartedOpen);
        }
        (self.high_open(sees) && self.open_to_vessel()).then_some(BayDanger::VesselOnHighSide)
    }
    /// Why the high-side hand valve is not to be opened.
    pub fn stops_high_valve(&self, sees: &StopSees) -> Option<BayDanger> {
        (sees.running && self.high.port.is_some() && self.open_to_vessel())
            .then_some(BayDanger::VesselOnHighSide)
    }
    /// Why hoses are not to be touched.
    pub fn stops_hoses(&self) -> Option<BayDanger> {
        self.bare()
    }
    /// Why the loop is not to be opened.
    pub fn stops_opening(&self, sees: &StopSees) -> Option<BayDanger> {
        self.bare().or_else(|| (sees.loop_gauge_pa > MAY_OPEN_PA).then_some(BayDanger::UnderPressure))
    }
    /// Why an act is stopped; none when it is not.
    pub fn stops(&self, act: &BayAction, sees: &StopSees) -> Option<BayDanger> {
        match act {
            BayAction::Centre(CentreEnd::CompressedAir) => Some(BayDanger::CompressedAir),
            BayAction::Centre(CentreEnd::Oxygen) => Some(BayDanger::Oxygen),
            BayAction::Flame => Some(BayDanger::Flame),
            BayAction::RegulatorBar(bar) if bar * 1e5 > LOW_SIDE_TEST_PA => Some(BayDanger::NitrogenTooHigh),
            BayAction::Valve { vessel, valve }
                if *valve != VesselValve::Shut
                    && self.centre.vessel() == Some(*vessel)
                    && self.high_open(sees)
                    && sees.running =>
            {
                Some(BayDanger::VesselOnHighSide)
            }
            BayAction::Machine(true) if sees.recovery_full => Some(BayDanger::FullCylinder),
            BayAction::Fit { .. }
            | BayAction::Centre(_)
            | BayAction::Loosen(true)
            | BayAction::Oil { .. }
            | BayAction::DyeMl(_)
            | BayAction::NewPartOilMl(_)
            | BayAction::Identify => self.bare(),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bay::{BaySetup, Coupler};
    use crate::plant::{Port, Vessel};

    #[test]
    fn a_vessel_may_not_see_the_high_side_of_a_running_compressor() {
        let mut bay = Bay::new(BaySetup::default());
        bay.high = Coupler::on(Some(Port::High));
        bay.centre = CentreEnd::Supply;
        let still =
            StopSees { running: false, high_valve_open: true, loop_gauge_pa: 1e5, recovery_full: false };
        let running = StopSees { running: true, ..still };
        let open = BayAction::Valve { vessel: Vessel::Supply, valve: VesselValve::Gas };
        assert_eq!(bay.stops(&open, &still), None);
        assert_eq!(bay.stops(&open, &running), Some(BayDanger::VesselOnHighSide));
        bay.valves[Vessel::Supply] = VesselValve::Gas;
        assert_eq!(bay.stops_start(&still), Some(BayDanger::VesselOnHighSide));
        assert_eq!(bay.stops_high_valve(&running), Some(BayDanger::VesselOnHighSide));
        assert_eq!(bay.stops_opening(&still), Some(BayDanger::Unprotected));
        bay.protected = true;
        assert_eq!(bay.stops_opening(&still), Some(BayDanger::UnderPressure));
    }
}
