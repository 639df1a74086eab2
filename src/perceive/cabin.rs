//! The driver's seat: lamps of the dash, and what comes out of the vents.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use super::Felt;
use crate::moist_air;
use crate::units::ZERO_C_K;
use crate::variants::all;

/// A lamp or dial of the dash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Dash {
    /// Lamp in the A/C button.
    AcLamp,
    /// Warning of a hot engine.
    EngineHot,
    /// Charge warning.
    Battery,
}

impl Dash {
    /// All lamps.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "A/C lamp".
    pub fn name(self) -> &'static str {
        match self {
            Self::AcLamp => "A/C lamp",
            Self::EngineHot => "engine temperature lamp",
            Self::Battery => "battery lamp",
        }
    }
}

/// What the vents do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Vent {
    /// How hard they blow: share of the full flow of a clean car.
    Strength,
    /// How the air feels [K].
    Feel,
    /// Relative humidity of the cabin air, 0 to 1.
    Damp,
    /// Fog on the windows: -1 outside, 0 none, 1 inside.
    Fog,
}

impl Vent {
    /// All of them.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "vents blow".
    pub fn name(self) -> &'static str {
        match self {
            Self::Strength => "vents blow",
            Self::Feel => "vent air",
            Self::Damp => "air inside",
            Self::Fog => "windows",
        }
    }
    /// Words for a value. Borders are common practice, no source.
    pub(super) fn words(self, value: f64) -> &'static str {
        match self {
            Self::Strength => match value {
                v if v < 0.08 => "hardly at all",
                v if v < 0.45 => "weakly",
                v if v < 0.8 => "at half strength",
                _ => "strongly",
            },
            Self::Feel => match value - ZERO_C_K {
                t if t < 12.0 => "cold",
                t if t < 19.0 => "cool",
                t if t < 26.0 => "lukewarm",
                t if t < 36.0 => "warm",
                _ => "hot",
            },
            Self::Damp => match value {
                v if v < 0.3 => "dry",
                v if v < 0.65 => "pleasant",
                v if v < 0.85 => "damp",
                _ => "muggy",
            },
            Self::Fog => match value {
                v if v < -0.5 => "fogged outside",
                v if v < 0.5 => "clear",
                _ => "fogged inside",
            },
        }
    }
}

/// The engine's warning lights above this [K] (115 °C, from memory).
const ENGINE_HOT_K: f64 = ZERO_C_K + 115.0;
/// The charge lamp lights below this while the engine runs [V] (from memory; a charging system holds 13.5 to 14.7).
const CHARGING_V: f64 = 13.0;
/// Volts a lamp needs to be seen.
const LAMP_V: f64 = 6.0;

impl Felt {
    /// 1 lit, 0 dark; none where there is no such lamp.
    pub(super) fn dash(&self, dash: Dash) -> Option<f64> {
        let lit = match dash {
            _ if !self.has_cabin => return None,
            Dash::AcLamp => self.ac_feed_v? > LAMP_V,
            Dash::EngineHot => self.coolant_k? > ENGINE_HOT_K && self.ignition_on,
            Dash::Battery => self.battery_v? < CHARGING_V && self.ignition_on,
        };
        Some(f64::from(u8::from(lit)))
    }

    /// Number behind what the vents do; a cold room has vents and no windows.
    pub(super) fn vent(&self, vent: Vent) -> Option<f64> {
        let (cabin_k, cabin_w) = self.cabin;
        Some(match vent {
            Vent::Strength => self.vent_share,
            Vent::Feel => self.vent.0,
            Vent::Damp => moist_air::relative_humidity(cabin_k, cabin_w, self.air_pa).clamp(0.0, 1.0),
            Vent::Fog if !self.has_cabin => return None,
            Vent::Fog => {
                // Thin glass between two like films stands half way; cold vent air runs along the inside of it.
                let washed = 0.5 * self.vent_share.clamp(0.0, 1.0);
                let inside_k = cabin_k + washed * (self.vent.0 - cabin_k);
                let glass_k = 0.5 * (inside_k + self.outside_k);
                if glass_k < moist_air::dew_point_k(cabin_w, self.air_pa) {
                    1.0
                } else if glass_k < self.dew_k {
                    -1.0
                } else {
                    0.0
                }
            }
        })
    }
}
