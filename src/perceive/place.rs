//! Surfaces in reach of a hand.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::variants::all;

/// A surface in reach of a hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// Body of the compressor.
    CompressorBody,
    /// Pipe from the compressor.
    DischargePipe,
    /// First part of the condenser.
    CondenserIn,
    /// Half way through it.
    CondenserMiddle,
    /// Its last part, the subcooling pass included.
    CondenserOut,
    /// Receiver-drier where liquid enters.
    DrierIn,
    /// First pipe or pass behind its outlet.
    DrierOut,
    /// Liquid pipe.
    LiquidPipe,
    /// Just ahead of the metering.
    BeforeMetering,
    /// Just behind it.
    AfterMetering,
    /// Pipe at the evaporator outlet.
    EvaporatorOut,
    /// Accumulator.
    Accumulator,
    /// Pipe to the compressor.
    SuctionPipe,
    /// Hose from the engine to the heater core.
    HeaterHose,
}

impl Place {
    /// All places in flow order.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "compressor".
    pub fn name(self) -> &'static str {
        match self {
            Self::CompressorBody => "compressor",
            Self::DischargePipe => "discharge pipe",
            Self::CondenserIn => "condenser, where it enters",
            Self::CondenserMiddle => "condenser, middle",
            Self::CondenserOut => "condenser, where it leaves",
            Self::DrierIn => "drier, inlet end",
            Self::DrierOut => "drier, outlet end",
            Self::LiquidPipe => "liquid pipe",
            Self::BeforeMetering => "pipe before the valve",
            Self::AfterMetering => "pipe after the valve",
            Self::EvaporatorOut => "evaporator outlet",
            Self::Accumulator => "accumulator",
            Self::SuctionPipe => "suction pipe",
            Self::HeaterHose => "heater hose",
        }
    }
    /// May be too hot to touch, or near belts and fans, in a car with nothing wrong.
    pub fn usually_hot(self) -> bool {
        matches!(self, Self::CompressorBody | Self::DischargePipe | Self::CondenserIn | Self::HeaterHose)
    }
}
