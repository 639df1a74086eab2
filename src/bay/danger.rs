//! Acts in the bay that are stopped because they kill or maim, with the words of their cautions.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::variants::all;

/// What is dangerous, what it does, and how to keep clear of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DangerWords {
    /// Number in the table of cautions.
    pub id: &'static str,
    /// What is dangerous.
    pub hazard: &'static str,
    /// What it does to you.
    pub consequence: &'static str,
    /// What to do about it.
    pub avoidance: &'static str,
}

/// Why an act in the bay was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum BayDanger {
    /// Hoses, joints or oil handled without goggles and gloves.
    Unprotected,
    /// A joint was to be opened under pressure.
    UnderPressure,
    /// Compressed air on the loop.
    CompressedAir,
    /// Oxygen on the loop.
    Oxygen,
    /// Nitrogen above the test pressure of the low side.
    NitrogenTooHigh,
    /// A flame to a vessel.
    Flame,
    /// High-side hand valve open with the compressor running and a vessel on the centre hose.
    VesselOnHighSide,
    /// More into a recovery cylinder that is full.
    FullCylinder,
    /// Engine started with the loop taken apart.
    StartedOpen,
}

impl BayDanger {
    /// All.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// What was wrong, in words that follow "stopped, ".
    pub fn words(self) -> &'static str {
        match self {
            Self::Unprotected => "goggles and gloves were not on",
            Self::UnderPressure => "the loop still holds pressure: it was to be opened",
            Self::CompressedAir => "compressed air was to go into the loop",
            Self::Oxygen => "oxygen was to go into the loop",
            Self::NitrogenTooHigh => {
                "the nitrogen regulator was to be set above the low side's test pressure"
            }
            Self::Flame => "a vessel was to be warmed with a flame",
            Self::VesselOnHighSide => {
                "the high-side hand valve was to be open to a vessel with the compressor running"
            }
            Self::FullCylinder => "the recovery cylinder is at its limit: more was to be put in",
            Self::StartedOpen => "the engine was to be started with the loop taken apart",
        }
    }
    /// Hazard, consequence, avoidance.
    pub const fn caution(self) -> DangerWords {
        let (id, hazard, consequence, avoidance) = match self {
            Self::Unprotected => (
                "S1",
                "Liquid refrigerant boils far below zero and spits when fittings move.",
                "It freezes skin and blinds eyes.",
                "Goggles and gloves first. If it hits you: rinse 15 minutes, see a doctor.",
            ),
            Self::UnderPressure => (
                "S12",
                "The loop holds pressure with the engine off.",
                "A joint under pressure lets go: it cuts, freezes, and empties the charge into the air.",
                "Recover first, look at both gauges, then open. Follow local codes and licensed practice.",
            ),
            Self::CompressedAir => (
                "S5",
                "Compressed air and refrigerant can burn under pressure.",
                "The loop bursts like a bomb.",
                "Never test with compressed air. Dry nitrogen through a regulator.",
            ),
            Self::Oxygen => (
                "S6",
                "Oxygen under pressure meets oil.",
                "It explodes without a spark.",
                "Dry nitrogen only, through a regulator. Never oxygen.",
            ),
            Self::NitrogenTooHigh => (
                "S6",
                "A nitrogen cylinder holds 200 bar; low sides are made for far less.",
                "The evaporator or a hose bursts.",
                "Regulator and relief valve. Stay at or below the low side's marked test pressure.",
            ),
            Self::Flame => (
                "S11",
                "A warmed cylinder or can builds pressure fast.",
                "It bursts and spits liquid.",
                "Warm water only: cylinders below 50 °C, cans below 40 °C. Never a flame.",
            ),
            Self::VesselOnHighSide => (
                "S24",
                "The running high side pushes 15 bar and more into can or cylinder.",
                "It bursts in your hand.",
                "High hand valve stays shut while it runs.",
            ),
            Self::FullCylinder => (
                "S10",
                "A cylinder full of liquid has no room to warm up.",
                "It bursts.",
                "80 % at most, by weight on the scale. In date, own refrigerant, labelled. Never refill a throw-away.",
            ),
            Self::StartedOpen => (
                "S20",
                "An open loop has no oil return, and the compressor throws oil and air.",
                "The compressor is destroyed and oil hits faces.",
                "Close up, evacuate and charge before anything turns.",
            ),
        };
        DangerWords { id, hazard, consequence, avoidance }
    }
}
