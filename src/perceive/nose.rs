//! Smells and haze. Strengths run from 0 (nothing) to 1 (overpowering); all are own estimates.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use super::Felt;
use crate::units::ZERO_C_K;
use crate::variants::all;

/// Something to smell, or a haze that hangs in the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Smell {
    /// Burnt lining of the clutch.
    Clutch,
    /// Damp and mould from the vents.
    Musty,
    /// Hot coolant.
    Coolant,
    /// Oily mist of escaping refrigerant.
    Mist,
}

impl Smell {
    /// All smells.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "smell at the compressor".
    pub fn name(self) -> &'static str {
        match self {
            Self::Clutch => "smell at the compressor",
            Self::Musty => "smell of the vent air",
            Self::Coolant => "smell at the radiator",
            Self::Mist => "air at the pipes",
        }
    }
    /// Words for a strength.
    pub(super) fn words(self, strength: f64) -> &'static str {
        match (self, strength) {
            (Self::Clutch | Self::Musty | Self::Coolant, s) if s < FAINT => "nothing to smell",
            (Self::Clutch, s) if s < 0.5 => "a whiff of burnt lining",
            (Self::Clutch, _) => "sharp smell of a burnt clutch",
            (Self::Musty, s) if s < 0.6 => "musty, like damp cloth",
            (Self::Musty, _) => "stale water, strong and musty",
            (Self::Coolant, _) => "sweet steam of hot coolant",
            (Self::Mist, s) if s < FAINT => "clear",
            (Self::Mist, s) if s < 0.5 => "a trace of oily mist",
            (Self::Mist, _) => "oily mist blows out",
        }
    }
}

/// Below this strength nobody notices.
pub(super) const FAINT: f64 = 0.1;
/// Slip heat that makes a clutch smell within a minute [W].
const BURNING_W: f64 = 1_000.0;
/// Escaping refrigerant that stands as mist in the air [kg/s].
const MIST_KG_S: f64 = 2e-3;
/// Coolant temperature at which it smells and at which it boils over [K] (from memory).
const COOLANT_K: (f64, f64) = (ZERO_C_K + 112.0, ZERO_C_K + 125.0);
/// A wet evaporator warmer than this smells [K] (20 °C; common practice, no source).
const MOULD_K: f64 = ZERO_C_K + 20.0;

impl Felt {
    /// Strength of a smell, 0 to 1.
    pub(super) fn smell(&self, smell: Smell) -> f64 {
        let strength = match smell {
            Smell::Clutch => self.slip_w / BURNING_W,
            // Only air that is blown over wet fins carries it; water standing in the housing smells cold as well.
            Smell::Musty if self.blower_share <= 0.0 => 0.0,
            Smell::Musty => {
                let warm = ((self.coil_k - MOULD_K) / 10.0).clamp(0.0, 1.0);
                let standing = self.coil_water - 1.0;
                (0.5 * warm * self.coil_water.min(1.0)).max(standing)
            }
            Smell::Coolant => self.coolant_k.map_or(0.0, |t| (t - COOLANT_K.0) / (COOLANT_K.1 - COOLANT_K.0)),
            Smell::Mist => self.leak_kg_s / MIST_KG_S,
        };
        strength.clamp(0.0, 1.0)
    }
}
