//! Places on a rig that people point at: bare pipes, air, and where a leak can be searched for; and a list with one
//! entry for each of them.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::plant::OpenPlace;
use crate::variants::{PerVariant, all};

/// A bare pipe beside one of the six state points, where a clamp thermometer fits on.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::EnumString,
    strum::IntoStaticStr,
    strum::VariantArray,
    strum::VariantNames,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum PipePlace {
    /// Suction pipe at the compressor (point 1).
    #[default]
    CompressorInlet,
    /// Discharge pipe at the compressor (point 2). Hot: caution S16.
    CompressorOutlet,
    /// Pipe after the subcooling pass (point 3).
    CondenserOutlet,
    /// Liquid pipe at the expansion valve (point 4).
    ValveInlet,
    /// Pipe after the expansion valve (point 5).
    ValveOutlet,
    /// Pipe at the evaporator outlet (point 6).
    EvaporatorOutlet,
}

impl PipePlace {
    /// In loop order, from point 1 to point 6.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people say it, such as "compressor inlet pipe".
    pub fn name(self) -> &'static str {
        match self {
            Self::CompressorInlet => "compressor inlet pipe",
            Self::CompressorOutlet => "compressor outlet pipe",
            Self::CondenserOutlet => "condenser outlet pipe",
            Self::ValveInlet => "valve inlet pipe",
            Self::ValveOutlet => "valve outlet pipe",
            Self::EvaporatorOutlet => "evaporator outlet pipe",
        }
    }
    /// The same where it is plain that it is a pipe, such as "compressor inlet".
    pub fn short(self) -> &'static str {
        self.name().trim_end_matches(" pipe")
    }
    /// Number of the state point, 1 to 6.
    pub fn point(self) -> usize {
        self as usize + 1
    }
}

/// Air an air thermometer hangs in.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::EnumString,
    strum::IntoStaticStr,
    strum::VariantArray,
    strum::VariantNames,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum AirPlace {
    /// Outside air before the condenser.
    #[default]
    Outside,
    /// Air leaving the condenser.
    CondenserOff,
    /// Cabin air.
    Cabin,
    /// Air from the middle vent.
    Vent,
}

impl AirPlace {
    /// In the order in which people list them.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people say it, such as "vent air".
    pub fn name(self) -> &'static str {
        match self {
            Self::Outside => "outside air",
            Self::CondenserOff => "air off condenser",
            Self::Cabin => "cabin air",
            Self::Vent => "vent air",
        }
    }
}

/// A place where a leak can be searched for.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::EnumString,
    strum::IntoStaticStr,
    strum::VariantArray,
    strum::VariantNames,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum SearchPlace {
    /// Shaft seal of the compressor, behind the clutch.
    #[default]
    ShaftSeal,
    /// Crimps of the discharge hose.
    DischargeHose,
    /// Joint of the condenser.
    CondenserJoint,
    /// Joint of the receiver.
    ReceiverJoint,
    /// Joint of the expansion valve.
    ValveJoint,
    /// Mouth of the evaporator's drain, where gas out of the evaporator sinks to.
    EvaporatorDrain,
    /// Low-side service valve.
    LowServiceValve,
    /// High-side service valve.
    HighServiceValve,
    /// Crimps of the suction hose.
    SuctionHose,
}

impl SearchPlace {
    /// In the order in which people list them.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people say it, such as "shaft seal".
    pub fn name(self) -> &'static str {
        match self {
            Self::ShaftSeal => "shaft seal",
            Self::DischargeHose => "discharge hose",
            Self::CondenserJoint => "condenser joint",
            Self::ReceiverJoint => "receiver joint",
            Self::ValveJoint => "expansion valve joint",
            Self::EvaporatorDrain => "evaporator drain",
            Self::LowServiceValve => "low-side service valve",
            Self::HighServiceValve => "high-side service valve",
            Self::SuctionHose => "suction hose",
        }
    }
    /// Where gas out of a hole comes to light; none for the end of the centre hose, away from the loop.
    pub fn of(hole: OpenPlace) -> Option<Self> {
        Some(match hole {
            OpenPlace::SuctionLine => Self::ShaftSeal,
            OpenPlace::DischargeLine => Self::DischargeHose,
            OpenPlace::Condenser => Self::CondenserJoint,
            OpenPlace::LiquidLine | OpenPlace::HighHose => Self::HighServiceValve,
            OpenPlace::Evaporator => Self::EvaporatorDrain,
            OpenPlace::LowHose => Self::LowServiceValve,
            OpenPlace::CentreHose => return None,
        })
    }
}

/// One entry for each place where a leak is searched for.
pub type BySearchPlace<T> = PerVariant<SearchPlace, T, { SearchPlace::ALL.len() }>;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entries_are_found_by_place_and_stored_as_a_list() {
        let mut list = BySearchPlace::<f64>::default();
        list[SearchPlace::ReceiverJoint] = 1.5;
        let text = serde_json::to_string(&list).unwrap();
        assert_eq!(text, "[0.0,0.0,0.0,1.5,0.0,0.0,0.0,0.0,0.0]");
        assert_eq!(serde_json::from_str::<BySearchPlace<f64>>(&text).unwrap(), list);
        assert!(serde_json::from_str::<BySearchPlace<f64>>("[1.0]").is_err());
        assert_eq!(PipePlace::ALL.map(PipePlace::point), [1, 2, 3, 4, 5, 6]);
    }
}
