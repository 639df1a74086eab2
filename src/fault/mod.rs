//! The catalogue of faults: what each one changes in the model, how its severity is counted, how common
//! it is and what cures it. No fault knows a symptom; symptoms follow from the plant and the circuit.

mod catalogue;
mod recurs;

pub use catalogue::{FaultId, FaultInfo, Group, SeverityInfo};
pub use recurs::{Conditions, Recurs};

use serde::{Deserialize, Serialize};

/// A fault at a severity, as a scenario or an instructor states it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// Which fault.
    pub id: FaultId,
    /// How bad, in the unit of [`FaultInfo::severity`]; 1 for faults that are present or not.
    pub severity: f64,
}

/// Severities of all faults at one moment; zero presence means healthy.
///
/// A fixed array in catalogue order, so iteration is the same everywhere.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FaultSet {
    active: [Option<f64>; FaultId::COUNT],
}

impl FaultSet {
    /// Severity of a fault, if it is present.
    pub fn severity(&self, id: FaultId) -> Option<f64> {
        self.active[id as usize]
    }
    /// Is the fault present?
    pub fn has(&self, id: FaultId) -> bool {
        self.severity(id).is_some()
    }
    /// Impose a fault, or change its severity.
    pub fn impose(&mut self, fault: Fault) {
        self.active[fault.id as usize] = Some(fault.severity);
    }
    /// Take a fault away.
    pub fn clear(&mut self, id: FaultId) {
        self.active[id as usize] = None;
    }
    /// Present faults in catalogue order.
    pub fn iter(&self) -> impl Iterator<Item = Fault> + '_ {
        FaultId::ALL.iter().filter_map(|&id| self.severity(id).map(|severity| Fault { id, severity }))
    }
}
