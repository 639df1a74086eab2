//! What hands have done to the circuit, and the mistakes made.

use serde::{Deserialize, Serialize};

use super::guarding::{Proof, UnsafeAct};
use crate::circuit::Guard;

/// Something done wrongly that hurts no one but the reading or a fuse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MistakeKind {
    /// Resistance measured in a live circuit.
    LiveOhms,
    /// The fuse of the meter's ampere socket has blown.
    MeterFuse,
    /// The fuse of the jumper lead has blown.
    JumperFuse,
    /// The relative key took a part's resistance as zero.
    RelativeOnPart,
    /// The clamp was zeroed with current in its jaws.
    ClampZeroedLive,
    /// A new fuse blew again: the short was still there.
    FuseBlewAgain,
}

impl MistakeKind {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::LiveOhms => "resistance measured in a live circuit: what the meter showed was not ohms",
            Self::MeterFuse => {
                "too much current through the meter on amperes: its fuse blew. Amperes are measured in series"
            }
            Self::JumperFuse => "too much current through the jumper lead: its fuse blew",
            Self::RelativeOnPart => {
                "the relative key was pressed on a part: its resistance counted as zero. Touch the tips together first"
            }
            Self::ClampZeroedLive => {
                "the clamp was zeroed round a wire with current in it: that current was taken off"
            }
            Self::FuseBlewAgain => "a new fuse blew again: find the short before the next one",
        }
    }
}

/// A mistake.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mistake {
    /// Which.
    pub kind: MistakeKind,
    /// When.
    pub tick: u64,
}

/// What hands have done to the circuit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Electrics {
    /// Points that the jumper lead joins.
    pub jumper_between: Option<(String, String)>,
    /// Connectors unplugged.
    pub unplugged: Vec<String>,
    /// Relays that have changed sockets.
    pub swapped: Vec<(String, String)>,
    /// Guards whose isolators are open and locked.
    pub isolated: Vec<Guard>,
    /// Guards proved dead since.
    pub proven_dead: Vec<Guard>,
    /// When the meter was last tried on a known source.
    pub meter_proven_tick: Option<u64>,
    /// The last proving.
    pub proof: Option<Proof>,
    /// The reader is plugged in.
    pub reader: bool,
    /// Fuses put in by hand; they are watched.
    pub renewed: Vec<String>,
    /// Mistakes made.
    pub mistakes: Vec<Mistake>,
    /// Acts that were stopped.
    pub unsafe_acts: Vec<UnsafeAct>,
}

impl Electrics {
    /// Nothing was done: left out of the state hash then.
    pub fn is_untouched(&self) -> bool {
        *self == Self::default()
    }
    /// Write a mistake down, once for each tick.
    pub(super) fn mistake(&mut self, kind: MistakeKind, tick: u64) {
        let mistake = Mistake { kind, tick };
        if self.mistakes.last() != Some(&mistake) {
            self.mistakes.push(mistake);
        }
    }
    /// Forget a guard's proving.
    pub(super) fn live_again(&mut self, guard: Guard) {
        self.isolated.retain(|g| *g != guard);
        self.proven_dead.retain(|g| *g != guard);
    }
}
