//! How much oil goes back in with a new part, and what too little or too much of it does.

use crate::fault::RepairId;
use crate::plant::{Drive, OIL_KG_M3};

/// Volume of an amount of oil [mL].
pub fn oil_ml(oil_kg: f64) -> f64 {
    oil_kg * 1e6 / OIL_KG_M3
}

/// A part that takes oil away with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OilPart {
    /// Compressor.
    Compressor,
    /// Condenser.
    Condenser,
    /// Evaporator.
    Evaporator,
    /// Receiver-drier.
    Drier,
    /// Accumulator.
    Accumulator,
    /// A hose or pipe.
    Line,
    /// A seal, a valve, a joint.
    Joint,
}

/// Oil that goes back in with a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilShare {
    /// Least [mL], besides what drained out of the old part where the words say so.
    pub low_ml: f64,
    /// Most [mL].
    pub high_ml: f64,
    /// How the trade does it.
    pub words: &'static str,
}

/// What drains below which a compressor gets a fixed amount [mL], and that amount (a service manual, not named in our notes).
const LITTLE_ML: f64 = 30.0;
const IF_LITTLE_ML: f64 = 60.0;

/// Oil that goes in with a new part, after service manuals that our notes do not name; the condenser's upper end and what is
/// marked in the words from common practice.
pub fn oil_for(part: OilPart) -> OilShare {
    let (low_ml, high_ml, words) = match part {
        OilPart::Compressor => (
            LITTLE_ML,
            150.0,
            "Drain the old one and measure. Put in as much as drained; about 60 mL if less than 30 mL drained. A new one \
             that comes filled is drained first.",
        ),
        OilPart::Condenser => (30.0, 45.0, "30 to 45 mL."),
        OilPart::Evaporator => {
            (30.0, 90.0, "90 mL for a large one, 30 mL for a small one: look at the maker's data.")
        }
        OilPart::Drier => (30.0, 30.0, "30 mL."),
        OilPart::Accumulator => (30.0, 60.0, "As much as drained from the old one, and 30 to 60 mL more."),
        OilPart::Line => (10.0, 60.0, "10 to 30 mL (common practice, no source); 60 mL after a hose burst."),
        OilPart::Joint => {
            (0.0, 10.0, "None to speak of. After a sudden large leak 90 mL, after slow seeping none.")
        }
    };
    OilShare { low_ml, high_ml, words }
}

impl OilPart {
    /// The part of a repair that opens the loop; none for one that does not.
    pub fn of(repair: RepairId, accumulator: bool) -> Option<Self> {
        use RepairId as R;
        Some(match repair {
            R::ReplaceCompressor => Self::Compressor,
            R::ReplaceCondenser => Self::Condenser,
            R::ReplaceEvaporator => Self::Evaporator,
            R::ReplaceDrier if accumulator => Self::Accumulator,
            R::ReplaceDrier => Self::Drier,
            R::ReplaceDischargeLine | R::ReplaceLiquidLine | R::ReplaceSuctionLine | R::ReplaceExchanger => {
                Self::Line
            }
            R::MendJoints
            | R::MendServiceValve
            | R::ReplaceShaftSeal
            | R::ReplaceControlValve
            | R::ReplaceExpansionValve
            | R::ReplaceOrificeTube
            | R::ReplaceChillerValve => Self::Joint,
            _ => return None,
        })
    }
}

/// Oil to put into a new compressor when so much drained out of the old one [mL].
pub fn into_compressor_ml(drained_ml: f64) -> f64 {
    if drained_ml < LITTLE_ML { IF_LITTLE_ML } else { drained_ml }
}

/// Least and most that goes in with a part when so much drained out of the old one [mL].
pub fn range_ml(part: OilPart, drained_ml: f64) -> (f64, f64) {
    let share = oil_for(part);
    match part {
        // The graduations of a measuring glass: 10 mL.
        OilPart::Compressor => {
            let goal = into_compressor_ml(drained_ml);
            (goal - 10.0, goal + 10.0)
        }
        OilPart::Accumulator => (drained_ml + share.low_ml, drained_ml + share.high_ml),
        _ => (share.low_ml, share.high_ml),
    }
}

/// How the oil in a loop stands against its label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OilVerdict {
    /// The compressor starves.
    TooLittle,
    /// As it should be.
    Right,
    /// It floods the coils.
    TooMuch,
}

/// Share by which oil may differ from the label. Hyundai gives 150 ± 10 mL for a filled loop (undated);
/// after a repair twice that share, for the balance by parts is an estimate itself.
const OIL_SHARE: f64 = 0.14;

/// How the oil in a loop [kg] stands against the label's [kg].
pub fn oil_verdict(oil_kg: f64, label_kg: f64) -> OilVerdict {
    if oil_kg < label_kg * (1.0 - OIL_SHARE) {
        OilVerdict::TooLittle
    } else if oil_kg > label_kg * (1.0 + OIL_SHARE) {
        OilVerdict::TooMuch
    } else {
        OilVerdict::Right
    }
}

impl OilVerdict {
    /// What comes of it.
    pub fn words(self) -> &'static str {
        match self {
            Self::TooLittle => "Too little oil: the compressor wears, runs hot and seizes.",
            Self::Right => "The oil is as it should be.",
            Self::TooMuch => {
                "Too much oil: it coats the coils, takes the place of refrigerant and raises the high side."
            }
        }
    }
}

/// What may be wrong with the kind of oil for a drive.
pub fn kind_words(drive: &Drive) -> &'static str {
    match drive {
        Drive::Electric { .. } => "Ester oil alone: PAG lets current through the windings (S14).",
        Drive::Hermetic { .. } => "Ester oil of the label: the motor sits in it.",
        Drive::Belt { .. } | Drive::VariableBelt { .. } => {
            "Oil of the kind and thickness on the label; they do not mix."
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Deed;

    #[test]
    fn every_repair_that_takes_a_part_out_of_the_loop_has_its_share() {
        for repair in RepairId::ALL {
            let part = matches!(repair.info().deed, Deed::LoopPart | Deed::Compressor);
            assert_eq!(OilPart::of(repair, false).is_some(), part, "{repair:?}");
        }
        assert_eq!(OilPart::of(RepairId::ReplaceDrier, true), Some(OilPart::Accumulator));
    }

    #[test]
    fn the_balance_follows_the_table() {
        // Service manuals, not named in our notes.
        assert_eq!(into_compressor_ml(12.0), 60.0);
        assert_eq!(into_compressor_ml(75.0), 75.0);
        assert_eq!(range_ml(OilPart::Accumulator, 40.0), (70.0, 100.0));
        assert_eq!(range_ml(OilPart::Condenser, 0.0), (30.0, 45.0));
        assert_eq!(oil_for(OilPart::Drier).low_ml, 30.0);
    }

    #[test]
    fn too_little_and_too_much_are_told() {
        assert_eq!(oil_verdict(0.12, 0.12), OilVerdict::Right);
        assert_eq!(oil_verdict(0.105, 0.12), OilVerdict::Right);
        assert_eq!(oil_verdict(0.10, 0.12), OilVerdict::TooLittle);
        assert_eq!(oil_verdict(0.14, 0.12), OilVerdict::TooMuch);
    }
}
