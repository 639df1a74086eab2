//! The catalogue of faults: what each one changes in the model, how its severity is counted, how common
//! it is and what cures it. No fault knows a symptom; symptoms follow from the plant and the circuit.

mod catalogue;
mod effects;
mod id;
mod needs;
mod recurs;
mod repair;
mod settled;
mod wiring;

pub use catalogue::{BaseRate, FaultInfo, Futile, Group, SeverityInfo, base_rates};
pub use effects::{Effects, InstrumentEffects, PlantEffects, effects};
pub use id::FaultId;
pub use needs::Need;
pub use recurs::{Conditions, Recurs};
pub use repair::{Deed, RepairId, RepairInfo, TOP_UP_SHARE};
pub use settled::InLoop;

use serde::{Deserialize, Serialize};

/// A fault at a severity, as a scenario or an instructor states it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fault {
    /// Which fault.
    pub id: FaultId,
    /// How bad, in the unit of [`FaultInfo::severity`]; 1 for faults that are present or not.
    pub severity: f64,
}

/// Faults present at one moment, in catalogue order, so iteration is the same everywhere.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct FaultSet {
    active: Vec<Fault>,
}

impl FaultSet {
    /// Severity of a fault, if it is present.
    pub fn severity(&self, id: FaultId) -> Option<f64> {
        self.active.iter().find(|fault| fault.id == id).map(|fault| fault.severity)
    }
    /// Is the fault present?
    pub fn has(&self, id: FaultId) -> bool {
        self.severity(id).is_some()
    }
    /// Impose a fault, or change its severity.
    pub fn impose(&mut self, fault: Fault) {
        match self.active.binary_search_by_key(&fault.id, |active| active.id) {
            Ok(at) => self.active[at] = fault,
            Err(at) => self.active.insert(at, fault),
        }
    }
    /// Take a fault away.
    pub fn clear(&mut self, id: FaultId) {
        self.active.retain(|fault| fault.id != id);
    }
    /// Present faults in catalogue order.
    pub fn iter(&self) -> impl Iterator<Item = Fault> + '_ {
        self.active.iter().copied()
    }
}
