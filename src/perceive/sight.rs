//! Sight, beyond the sight glass and what stands on the pipes: what turns, what drips, what is oily.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use super::Felt;
use crate::variants::all;

/// Something to look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum View {
    /// Plate of the compressor's clutch.
    ClutchPlate,
    /// Condenser fan.
    Fan,
    /// Water under the car.
    Drip,
    /// Oil on the suction pipe and the compressor's shaft seal.
    OilAtSuction,
    /// Oil on the discharge pipe.
    OilAtDischarge,
    /// Oil on the condenser.
    OilAtCondenser,
    /// Oil on the liquid pipe.
    OilAtLiquid,
    /// Oil at the evaporator, seen at its drain.
    OilAtEvaporator,
}

impl View {
    /// All views.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "clutch plate".
    pub fn name(self) -> &'static str {
        match self {
            Self::ClutchPlate => "clutch plate",
            Self::Fan => "condenser fan",
            Self::Drip => "under the car",
            Self::OilAtSuction => "compressor seal and suction pipe",
            Self::OilAtDischarge => "discharge pipe joints",
            Self::OilAtCondenser => "condenser face",
            Self::OilAtLiquid => "liquid pipe joints",
            Self::OilAtEvaporator => "evaporator drain",
        }
    }
    /// Words for a value of [`Felt::look`].
    pub(super) fn words(self, value: f64) -> &'static str {
        match self {
            Self::ClutchPlate => match value {
                v if v < 0.0 => "pulled in, but it slips",
                v if v < 0.5 => "stands still",
                v if v < 1.5 => "stands still while the pulley turns",
                _ => "turns with the pulley",
            },
            Self::Fan => match value {
                v if v < 0.02 => "stands still",
                v if v < 0.6 => "turns slowly",
                v if v < 0.9 => "turns at part speed",
                _ => "turns at full speed",
            },
            Self::Drip => match value {
                v if v < 0.5 => "dry",
                v if v < 4.0 => "a drop now and then",
                v if v < 25.0 => "steady dripping",
                _ => "water runs",
            },
            _ => match value {
                v if v < 0.3 => "clean and dry",
                v if v < 5.0 => "a damp, dusty stain",
                _ => "wet with oil",
            },
        }
    }
    fn oil(self) -> Option<crate::plant::OpenPlace> {
        use crate::plant::OpenPlace as O;
        Some(match self {
            Self::OilAtSuction => O::SuctionLine,
            Self::OilAtDischarge => O::DischargeLine,
            Self::OilAtCondenser => O::Condenser,
            Self::OilAtLiquid => O::LiquidLine,
            Self::OilAtEvaporator => O::Evaporator,
            Self::ClutchPlate | Self::Fan | Self::Drip => return None,
        })
    }
}

/// Slip between plate and pulley an eye sees, share of the pulley's speed.
const SEEN_SLIP: f64 = 0.05;

impl Felt {
    /// Clutch plate: -1 slips, 0 nothing turns, 1 only the pulley turns, 2 both turn. Fan: share of full speed. Drip:
    /// grams of water in a minute. Oil: grams that came out there.
    pub(super) fn look(&self, view: View) -> Option<f64> {
        Some(match view {
            View::ClutchPlate if !self.has_clutch => return None,
            View::ClutchPlate => {
                let slips = self.shaft_rpm < (1.0 - SEEN_SLIP) * self.pulley_rpm;
                match (self.pulley_rpm > 1.0, self.clutch_in) {
                    (false, _) => 0.0,
                    (true, false) => 1.0,
                    (true, true) => {
                        if slips {
                            -1.0
                        } else {
                            2.0
                        }
                    }
                }
            }
            View::Fan => self.fan_share,
            View::Drip => self.drip_kg_s * 60e3,
            oil => {
                if oil.oil()? == self.leak_place {
                    self.oil_lost_kg * 1e3
                } else {
                    0.0
                }
            }
        })
    }
}
