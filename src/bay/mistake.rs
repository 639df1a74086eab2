//! What is done wrongly in the bay without being stopped.

use serde::{Deserialize, Serialize};

/// Something done in the bay that hurts the loop, the tools or the air, and was not stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BayMistake {
    /// Liquid let into the low side of a running compressor.
    LiquidIntoRunning,
    /// The compressor ran with the low side in a vacuum.
    RanInVacuum,
    /// The vacuum pump was opened to a loop under pressure.
    PumpOnPressure,
    /// Hoses were fitted before the refrigerant was identified.
    NotIdentified,
    /// Oil of the wrong kind was put in.
    WrongOil,
    /// Nitrogen was let into a loop that still held refrigerant.
    NitrogenOnCharge,
}

impl BayMistake {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::LiquidIntoRunning => {
                "liquid went into the low side of a running compressor: it cannot squeeze liquid"
            }
            Self::RanInVacuum => "the compressor ran with its low side in a vacuum: no oil comes back to it",
            Self::PumpOnPressure => {
                "the vacuum pump was opened to pressure: it blows refrigerant into the air"
            }
            Self::NotIdentified => "hoses went on before the refrigerant was identified",
            Self::WrongOil => "oil of another kind than the label's was put in",
            Self::NitrogenOnCharge => {
                "nitrogen went into a loop that still held its charge: now it must all be recovered"
            }
        }
    }
}
