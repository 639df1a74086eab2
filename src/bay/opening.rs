//! Which part of the loop a repair opens, and where.

use serde::{Deserialize, Serialize};

use crate::fault::RepairId;
use crate::plant::{OpenPlace, Taken, Units};

/// Flow constant of a joint taken apart [m2]: two pipe ends of some 8 mm, most of it behind bends (own estimate).
pub const JOINT_M2: f64 = 2e-5;

/// A joint that a repair left open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Opened {
    /// The repair.
    pub repair: RepairId,
    /// Part that was renewed.
    pub part: Units,
    /// Where the loop is open.
    pub place: OpenPlace,
    /// Since when.
    pub tick: u64,
    /// What came out with the old part.
    pub taken: Taken,
    /// Oil that the new part holds as it goes in [kg].
    pub new_oil_kg: f64,
}

/// Part and place of a repair that opens the loop.
pub fn opens(repair: RepairId, drier_on_low_side: bool) -> (Units, OpenPlace) {
    match repair {
        RepairId::ReplaceCompressor => (Units::Compressor, OpenPlace::SuctionLine),
        RepairId::ReplaceCondenser => (Units::Condenser, OpenPlace::Condenser),
        RepairId::ReplaceEvaporator => (Units::Evaporator, OpenPlace::Evaporator),
        RepairId::ReplaceDrier if drier_on_low_side => (Units::Drier, OpenPlace::SuctionLine),
        RepairId::ReplaceDrier => (Units::Drier, OpenPlace::LiquidLine),
        RepairId::ReplaceDischargeLine => (Units::DischargeLine, OpenPlace::DischargeLine),
        RepairId::ReplaceLiquidLine => (Units::LiquidLine, OpenPlace::LiquidLine),
        RepairId::ReplaceSuctionLine => (Units::SuctionLine, OpenPlace::SuctionLine),
        RepairId::ReplaceExchanger => (Units::Exchanger, OpenPlace::SuctionLine),
        RepairId::ReplaceExpansionValve | RepairId::ReplaceOrificeTube | RepairId::ReplaceChillerValve => {
            (Units::Joint, OpenPlace::Evaporator)
        }
        RepairId::SetOil => (Units::Whole, OpenPlace::SuctionLine),
        RepairId::MendServiceValve => (Units::Joint, OpenPlace::LiquidLine),
        RepairId::MendJoints => (Units::Joint, OpenPlace::Condenser),
        _ => (Units::Joint, OpenPlace::SuctionLine),
    }
}
