//! The actions: the only way a bench changes besides time passing.

use serde::{Deserialize, Serialize};

use crate::bay::BayAction;
use crate::circuit::Guard;
use crate::fault::{FaultId, Group, Recurs, RepairId};
use crate::instrument::{MeterRange, Probe};
use crate::knobs::Change;

/// A relay socket a fused jumper lead can bridge (contact 30 to 87).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Relay {
    /// Clutch relay.
    Clutch,
    /// Condenser fan relay.
    Fan,
}

/// How a learner holds a fault group at the moment.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Not looked at yet.
    #[default]
    Open,
    /// Suspected.
    Suspected,
    /// Cleared.
    Cleared,
}

/// A learner's answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Diagnosis {
    /// The cause named; `None`: nothing is wrong.
    pub cause: Option<FaultId>,
    /// Indices of notebook readings given as evidence.
    pub evidence: Vec<usize>,
    /// How sure, 0 to 1.
    pub confidence: f64,
    /// In the learner's own words.
    pub because: String,
}

/// Everything a person can do to a bench. Actions land on ticks. How one is read stands in `action_names.rs`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, strum::VariantNames)]
#[serde(rename_all = "snake_case", remote = "Self")]
#[strum(serialize_all = "snake_case")]
pub enum Action {
    /// Turn a knob: engine, climate controls, road, weather, state of the rig.
    Set(Change),
    /// Fit (true) or take off (false) both service hoses.
    Hoses(bool),
    /// Manifold hand valve on the low side [% open].
    ManifoldLowPct(f64),
    /// Manifold hand valve on the high side [% open].
    ManifoldHighPct(f64),
    /// Bridge a relay contact with the fused jumper lead, or take the lead away.
    Jumper(Option<Relay>),
    /// Bridge any two points (or `ground`) with the fused jumper lead, or take it away. There is one lead: this takes it
    /// away from a relay.
    JumperBetween(Option<(String, String)>),
    /// Take the tool of this kind away.
    Remove(Probe),
    /// Range of the multimeter for volts.
    MeterRange(MeterRange),
    /// Relative key of the multimeter: what it shows now counts as zero (true), or no longer (false).
    MeterRelative(bool),
    /// Zero key of the clamp ammeter.
    ClampZero,
    /// Plug the reader into the diagnostic socket, or take it out.
    Reader(bool),
    /// Clear the codes of all control units that answer the reader.
    ClearCodes,
    /// Unplug (true) or plug in (false) a connector, by name.
    Unplug(String, bool),
    /// Swap two relays of the same kind; a second time puts them back.
    SwapRelays(String, String),
    /// Put in a new fuse: a part's id, or `meter`, or `jumper`.
    RenewFuse(String),
    /// Open and lock the isolators of traction voltage or mains (true), or close them again (false).
    Isolate(Guard, bool),
    /// Try the multimeter on a known source (a proving unit).
    ProveMeter,
    /// Measure between all points behind the isolator whether they are dead.
    ProveDead(Guard),
    /// An action that was stopped because it was not safe; the bench writes it down itself.
    Stopped(Box<Action>),
    /// Impose a fault at a severity at once.
    ImposeFault {
        /// Which fault.
        id: FaultId,
        /// How bad.
        severity: f64,
    },
    /// Impose a fault that comes and goes.
    ImposeIntermittent {
        /// Which fault.
        id: FaultId,
        /// How bad while it is there.
        severity: f64,
        /// What makes it come and go.
        recurs: Recurs,
    },
    /// Move a fault to a severity over some seconds.
    RampFault {
        /// Which fault.
        id: FaultId,
        /// Where the severity ends.
        severity: f64,
        /// How long it takes [s].
        over_s: f64,
    },
    /// Take a fault away.
    ClearFault {
        /// Which fault.
        id: FaultId,
    },
    /// Something in the service bay.
    Bay(BayAction),
    /// Carry out a repair, right or wrong.
    Repair(RepairId),
    /// Put a tool on a place (it settles with its own lag), replacing the tool of the same kind.
    Place(Probe),
    /// Read a placed tool into the notebook.
    Read(Probe),
    /// Say what is expected before a reading, or remark on it.
    Note(String),
    /// Take the scenario's next hint.
    Hint,
    /// Move a suspect card.
    Suspect {
        /// Which group.
        group: Group,
        /// Where it stands now.
        standing: Standing,
    },
    /// Name the cause.
    Diagnose(Diagnosis),
}
