//! The one state machine: rig + faults + instruments + clock. Only [`Bench::apply`] and
//! [`Bench::advance`] change it; everything else looks.
//!
//! From below upward: clock, [`Action`], [`Refusal`]; the parts, each with its own state, checks and deeds
//! (`electrical`, `service`, `faults`, `fill`, `repairs`, `notebook`, `learner`), which get what they look at as
//! arguments (`Now`) and know nothing of the bench; what is told and shown (`plant_inputs`, `felt`, `readout`, `facts`);
//! on top [`Bench`] itself, which holds the parts and passes actions on (`machine`, `acting`, `ticking`, `seeing`).

mod acting;
mod action;
mod action_names;
mod clock;
mod committed;
mod disturbance;
mod electrical;
mod facts;
mod faults;
mod felt;
mod fill;
mod inside;
mod learner;
mod machine;
mod notebook;
mod now;
mod pipes;
mod plant_inputs;
mod probing;
mod readout;
mod refusal;
mod repairs;
mod search;
mod seeing;
mod service;
mod snapshot;
mod ticking;
mod topology;
mod truth;

pub use action::{Action, Diagnosis, Relay, Standing};
pub use clock::TICK_S;
#[cfg(test)]
pub(crate) use electrical::testing;
pub use electrical::{
    ElectricalFaces, Electrics, Mistake, MistakeKind, Proof, ReaderFace, UnsafeAct, UnsafeKind, guarding,
};
pub use inside::{CellState, ChillerState, ExchangerState, Inside, PointState, VesselState};
pub use machine::Bench;
pub use refusal::{BenchError, Refusal};
pub use repairs::RepairDone;
pub use service::{BayFace, HoseFace, Manifold, VesselFace};
pub use snapshot::{Instruments, Outside, Snapshot};
pub use topology::{DriveKind, MeteringKind, Topology};
