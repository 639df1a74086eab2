//! When a fault of what is in the loop is over, because hands have emptied, evacuated or filled it.

use super::{Fault, FaultSet, effects};
use crate::rig::Rig;

/// A loop that holds less than this share of its charge counts as empty.
const EMPTY_SHARE: f64 = 0.02;
/// A loop below this pressure counts as evacuated [Pa absolute].
const EVACUATED_PA: f64 = 1000.0;
/// Water that does no harm [kg].
const DRY_KG: f64 = 3e-4;
/// Share of the full amount within which oil counts as right.
const OIL_WITHIN: f64 = 0.1;

/// What is in a loop now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InLoop {
    /// Refrigerant, share of a full charge.
    pub charge_share: f64,
    /// Pressure [Pa absolute].
    pub pa: f64,
    /// Water [kg].
    pub water_kg: f64,
    /// Oil, share of the full amount.
    pub oil_share: f64,
}

impl InLoop {
    /// Nothing is left of what this fault put in or took out: what is in the loop now is the doing of hands.
    pub fn settles(&self, fault: Fault, rig: &Rig) -> bool {
        let mut alone = FaultSet::default();
        alone.impose(fault);
        let does = effects(&alone, rig).plant;
        (does.charge_share == 0.0 || self.charge_share < EMPTY_SHARE)
            && (does.air_kg == 0.0 || self.pa < EVACUATED_PA)
            && (does.water_kg == 0.0 || self.water_kg < DRY_KG)
            && (does.oil_share == 1.0 || (self.oil_share - 1.0).abs() < OIL_WITHIN)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::FaultId;

    #[test]
    fn air_is_gone_with_a_vacuum_and_a_charge_with_an_empty_loop() {
        let rig = Rig::load("compact_car").unwrap();
        let full = InLoop { charge_share: 1.0, pa: 6e5, water_kg: 0.0, oil_share: 1.0 };
        let empty = InLoop { charge_share: 0.01, ..full };
        let evacuated = InLoop { pa: 200.0, ..empty };
        let fault = |id| Fault { id, severity: 0.5 };
        assert!(
            !full.settles(fault(FaultId::Undercharge), &rig)
                && empty.settles(fault(FaultId::Undercharge), &rig)
        );
        assert!(
            !empty.settles(fault(FaultId::AirInLoop), &rig)
                && evacuated.settles(fault(FaultId::AirInLoop), &rig)
        );
    }
}
