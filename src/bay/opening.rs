//! Which part of the loop a repair opens, and where.

use serde::{Deserialize, Serialize};

use crate::fault::RepairId;
use crate::plant::{LoopPart, OpenPlace, Taken};

/// Flow constant of a joint taken apart [m2]: two pipe ends of some 8 mm, most of it behind bends (own estimate).
pub const JOINT_M2: f64 = 2e-5;

/// A joint that a repair left open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Opened {
    /// The repair.
    pub repair: RepairId,
    /// Part that was renewed.
    pub part: LoopPart,
    /// Where the loop is open.
    pub place: OpenPlace,
    /// Since when.
    pub tick: u64,
    /// What came out with the old part.
    pub taken: Taken,
    /// Oil that the new part holds as it goes in [kg].
    pub new_oil_kg: f64,
}

impl Opened {
    /// A repair has taken a part out of a loop with so much oil when full [kg]. A replacement compressor comes with the full fill
    /// of the system in it (common practice, no source), any other part dry.
    pub fn by(
        repair: RepairId,
        (part, place): (LoopPart, OpenPlace),
        tick: u64,
        taken: Taken,
        full_oil_kg: f64,
    ) -> Self {
        let new_oil_kg = if part == LoopPart::Compressor { full_oil_kg } else { 0.0 };
        Self { repair, part, place, tick, taken, new_oil_kg }
    }
}

/// Part and place of a repair that opens the loop.
pub fn opens(repair: RepairId, drier_on_low_side: bool) -> (LoopPart, OpenPlace) {
    match repair {
        RepairId::ReplaceCompressor => (LoopPart::Compressor, OpenPlace::SuctionLine),
        RepairId::ReplaceCondenser => (LoopPart::Condenser, OpenPlace::Condenser),
        RepairId::ReplaceEvaporator => (LoopPart::Evaporator, OpenPlace::Evaporator),
        RepairId::ReplaceDrier if drier_on_low_side => (LoopPart::Drier, OpenPlace::SuctionLine),
        RepairId::ReplaceDrier => (LoopPart::Drier, OpenPlace::LiquidLine),
        RepairId::ReplaceDischargeLine => (LoopPart::DischargeLine, OpenPlace::DischargeLine),
        RepairId::ReplaceLiquidLine => (LoopPart::LiquidLine, OpenPlace::LiquidLine),
        RepairId::ReplaceSuctionLine => (LoopPart::SuctionLine, OpenPlace::SuctionLine),
        RepairId::ReplaceExchanger => (LoopPart::Exchanger, OpenPlace::SuctionLine),
        RepairId::ReplaceExpansionValve | RepairId::ReplaceOrificeTube | RepairId::ReplaceChillerValve => {
            (LoopPart::Joint, OpenPlace::Evaporator)
        }
        RepairId::SetOil => (LoopPart::Whole, OpenPlace::SuctionLine),
        RepairId::MendServiceValve => (LoopPart::Joint, OpenPlace::LiquidLine),
        RepairId::MendJoints => (LoopPart::Joint, OpenPlace::Condenser),
        _ => (LoopPart::Joint, OpenPlace::SuctionLine),
    }
}
