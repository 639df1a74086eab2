//! What traction voltage and mains ask for before anybody's hands or leads come near: isolate, wait, prove dead.

use serde::{Deserialize, Serialize};

use crate::bay::BayDanger;
use crate::circuit::Guard;

/// What is dangerous, what it does, and how to keep clear of it: the words of the cautions S13 and S17.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Danger {
    /// What is dangerous.
    pub hazard: &'static str,
    /// What it does to you.
    pub consequence: &'static str,
    /// What to do about it.
    pub avoidance: &'static str,
}

/// Traction voltage.
pub const TRACTION: Danger = Danger {
    hazard: "Traction voltage stands behind orange cables, and its capacitors hold it after the plug is out.",
    consequence: "It kills or burns at a touch.",
    avoidance: "Isolate, wait, prove dead with a proved meter. Gloves. Follow local codes and licensed practice.",
};
/// Mains.
pub const MAINS: Danger = Danger {
    hazard: "Mains stand in this panel, and capacitors may hold a charge after the switch is open.",
    consequence: "It stops hearts and burns.",
    avoidance: "Lock out, wait, prove dead with a proved meter. Follow local codes and licensed practice.",
};

/// The danger under a guard, if it is one.
pub fn danger(guard: Guard) -> Option<&'static Danger> {
    match guard {
        Guard::None => None,
        Guard::Traction => Some(&TRACTION),
        Guard::Mains => Some(&MAINS),
    }
}

/// What a guard keeps hands from, in words.
pub(super) fn guard_name(guard: Guard) -> &'static str {
    match guard {
        Guard::None => "extra-low voltage",
        Guard::Traction => "traction voltage",
        Guard::Mains => "mains",
    }
}

/// Why an action was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UnsafeKind {
    /// Near a guarded point that was not isolated.
    NotIsolated(Guard),
    /// Isolated, but not proved dead.
    NotProven(Guard),
    /// Proven dead once, live again.
    LiveAgain(Guard),
    /// On the supply's own terminal, which no isolator makes dead.
    Terminal(Guard),
    /// Pulling a plug under load: an arc.
    UnderLoad(Guard),
    /// Closing the isolator with tools still on guarded points.
    ToolsLeftOn(Guard),
    /// Something deadly in the service bay.
    Bay(BayDanger),
}

impl UnsafeKind {
    /// Whose danger it was.
    pub fn guard(self) -> Guard {
        match self {
            Self::NotIsolated(g)
            | Self::NotProven(g)
            | Self::LiveAgain(g)
            | Self::Terminal(g)
            | Self::UnderLoad(g)
            | Self::ToolsLeftOn(g) => g,
            Self::Bay(_) => Guard::None,
        }
    }
    /// Number of its caution in the table of cautions.
    pub fn caution_id(self) -> &'static str {
        match (self, self.guard()) {
            (Self::Bay(danger), _) => danger.caution().id,
            (_, Guard::Mains) => "S17",
            _ => "S13",
        }
    }
    /// Hazard, consequence and avoidance in one line.
    pub fn caution_words(self) -> Option<String> {
        if let Self::Bay(danger) = self {
            let d = danger.caution();
            return Some(format!("{} {} {}", d.hazard, d.consequence, d.avoidance));
        }
        danger(self.guard()).map(|d| format!("{} {} {}", d.hazard, d.consequence, d.avoidance))
    }
    /// In words.
    pub fn words(self) -> String {
        let name = guard_name(self.guard());
        match self {
            Self::NotIsolated(_) => format!("{name} was not isolated"),
            Self::NotProven(_) => format!("{name} was isolated but not proved dead"),
            Self::LiveAgain(_) => format!("{name} was live again after it had been proved dead"),
            Self::Terminal(_) => format!("this is the supply side of {name}: no isolator makes it dead"),
            Self::UnderLoad(_) => {
                format!("the plug of {name} was to be pulled under load: it would draw an arc")
            }
            Self::Bay(danger) => danger.words().into(),
            Self::ToolsLeftOn(_) => format!("{name} was to be switched on with a tool still on it"),
        }
    }
}

/// An act that was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct UnsafeAct {
    /// Why.
    pub kind: UnsafeKind,
    /// When.
    pub tick: u64,
}

/// What the last proving showed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Proof {
    /// Of what.
    pub guard: Guard,
    /// Highest volts found between any two points, or a point and ground [V].
    pub volts: f64,
    /// They are low enough to touch.
    pub dead: bool,
    /// When.
    pub tick: u64,
}
