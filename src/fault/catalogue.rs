//! The faults and what is known of each.

use serde::{Deserialize, Serialize};

/// A fault of the catalogue. The names in files are the snake_case forms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultId {
    /// Winding of the condenser fan motor broken.
    CondenserFanMotorOpen,
    /// Coil of the condenser fan relay broken.
    CondenserFanRelayOpen,
    /// Dirt on the condenser face.
    CondenserFinsBlocked,
    /// Expansion valve held open.
    TxvStuckOpen,
    /// Expansion valve held shut.
    TxvStuckClosed,
    /// Too little refrigerant.
    Undercharge,
    /// Too much refrigerant.
    Overcharge,
    /// Air in the loop.
    AirInLoop,
    /// Reed valves that leak back.
    CompressorLeak,
    /// Winding of the clutch coil broken.
    ClutchCoilOpen,
    /// Too little oil.
    LowOil,
    /// Water in the loop.
    Moisture,
    /// Drier that holds no more water.
    DesiccantSaturated,
}

/// Functional group a learner reasons in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Group {
    /// Amount of refrigerant.
    Charge,
    /// Air or water where only refrigerant should be.
    Contamination,
    /// Air over the condenser.
    CondenserAirflow,
    /// The expansion valve.
    Metering,
    /// The compressor itself.
    Compressor,
    /// Supply, relays, switches, coils.
    Electrical,
}

impl Group {
    /// All groups in display order.
    pub const ALL: [Self; 6] = [
        Self::CondenserAirflow,
        Self::Charge,
        Self::Contamination,
        Self::Metering,
        Self::Compressor,
        Self::Electrical,
    ];
    /// Plain name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Charge => "Charge",
            Self::Contamination => "Contamination",
            Self::CondenserAirflow => "Condenser air flow",
            Self::Metering => "Metering",
            Self::Compressor => "Compressor",
            Self::Electrical => "Electrical",
        }
    }
}

/// How the severity of a fault is counted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SeverityInfo {
    /// What the number means.
    pub meaning: &'static str,
    /// Smallest allowed value.
    pub min: f64,
    /// Largest allowed value.
    pub max: f64,
    /// Value used when none is given.
    pub default: f64,
}

/// One catalogue entry.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FaultInfo {
    /// Which fault.
    pub id: FaultId,
    /// Name in files and on the command line.
    pub key: &'static str,
    /// Plain name.
    pub name: &'static str,
    /// Functional group.
    pub group: Group,
    /// What parameter of the model it changes, in one sentence.
    pub changes: &'static str,
    /// How severity is counted; `None` for faults that are present or not.
    pub severity: Option<SeverityInfo>,
    /// Relative frequency among these faults, used as a prior. From memory of trade surveys, no source:
    /// fans, air flow and charge dominate, valve and compressor faults are over-diagnosed.
    pub base_rate: f64,
    /// The repair that cures it.
    pub repair: &'static str,
}

const fn severity(meaning: &'static str, min: f64, max: f64, default: f64) -> Option<SeverityInfo> {
    Some(SeverityInfo { meaning, min, max, default })
}

const CATALOGUE: [FaultInfo; FaultId::COUNT] = [
    FaultInfo {
        id: FaultId::CondenserFanMotorOpen,
        key: "condenser_fan_motor_open",
        name: "Condenser fan motor open circuit",
        group: Group::CondenserAirflow,
        changes: "The resistance of the fan motor winding becomes very large.",
        severity: None,
        base_rate: 0.13,
        repair: "replace the fan motor",
    },
    FaultInfo {
        id: FaultId::CondenserFanRelayOpen,
        key: "condenser_fan_relay_open",
        name: "Condenser fan relay coil open circuit",
        group: Group::CondenserAirflow,
        changes: "The resistance of the fan relay coil becomes very large, so its contact never closes.",
        severity: None,
        base_rate: 0.12,
        repair: "replace the fan relay",
    },
    FaultInfo {
        id: FaultId::CondenserFinsBlocked,
        key: "condenser_fins_blocked",
        name: "Condenser fins blocked",
        group: Group::CondenserAirflow,
        changes: "A share of the condenser face passes no air and takes part in no heat exchange.",
        severity: severity("share of the face blocked", 0.0, 0.95, 0.5),
        base_rate: 0.11,
        repair: "clean the condenser face",
    },
    FaultInfo {
        id: FaultId::TxvStuckOpen,
        key: "txv_stuck_open",
        name: "Expansion valve stuck open",
        group: Group::Metering,
        changes: "The valve is held at a fixed opening, counted in full lifts.",
        severity: severity("held opening over full lift", 0.5, 3.0, 1.0),
        base_rate: 0.06,
        repair: "replace the expansion valve",
    },
    FaultInfo {
        id: FaultId::TxvStuckClosed,
        key: "txv_stuck_closed",
        name: "Expansion valve stuck closed",
        group: Group::Metering,
        changes: "The valve is held at a fixed small opening, counted in full lifts.",
        severity: severity("held opening over full lift", 0.0, 0.2, 0.0),
        base_rate: 0.06,
        repair: "replace the expansion valve",
    },
    FaultInfo {
        id: FaultId::Undercharge,
        key: "undercharge",
        name: "Undercharge",
        group: Group::Charge,
        changes: "A share of the full charge of refrigerant is missing.",
        severity: severity("share of the charge missing", 0.0, 1.0, 0.3),
        base_rate: 0.22,
        repair: "find and mend the leak, evacuate, charge by weight",
    },
    FaultInfo {
        id: FaultId::Overcharge,
        key: "overcharge",
        name: "Overcharge",
        group: Group::Charge,
        changes: "A share of the full charge is added on top of it.",
        severity: severity("share of the charge added", 0.0, 1.0, 0.4),
        base_rate: 0.08,
        repair: "recover the refrigerant, charge by weight",
    },
    FaultInfo {
        id: FaultId::AirInLoop,
        key: "air_in_loop",
        name: "Air in the loop",
        group: Group::Contamination,
        changes: "A mass of air is mixed into the vapour of the loop.",
        severity: severity("grams of air", 0.0, 20.0, 3.0),
        base_rate: 0.05,
        repair: "recover, evacuate, charge by weight",
    },
    FaultInfo {
        id: FaultId::CompressorLeak,
        key: "compressor_leak",
        name: "Compressor leaking inside",
        group: Group::Compressor,
        changes: "An opening across the reed valves lets a share of the flow back from discharge to suction.",
        severity: severity("share of the flow leaking back", 0.0, 0.9, 0.4),
        base_rate: 0.05,
        repair: "replace the compressor",
    },
    FaultInfo {
        id: FaultId::ClutchCoilOpen,
        key: "clutch_coil_open",
        name: "Clutch coil open circuit",
        group: Group::Electrical,
        changes: "The resistance of the clutch coil becomes very large, so the clutch cannot pull in.",
        severity: None,
        base_rate: 0.07,
        repair: "replace the clutch coil",
    },
    FaultInfo {
        id: FaultId::LowOil,
        key: "low_oil",
        name: "Too little oil",
        group: Group::Compressor,
        changes: "A share of the oil is missing; the film in the compressor thins, friction and wear rise.",
        severity: severity("share of the oil missing", 0.0, 1.0, 0.8),
        base_rate: 0.02,
        repair: "find where it went, put in the amount the label names, replace the compressor if it is worn",
    },
    FaultInfo {
        id: FaultId::Moisture,
        key: "moisture",
        name: "Water in the loop",
        group: Group::Contamination,
        changes: "A mass of water is in the loop: bound by the drier, dissolved in oil and refrigerant, or free to freeze.",
        severity: severity("grams of water", 0.0, 15.0, 5.0),
        base_rate: 0.02,
        repair: "recover, replace the drier, evacuate long enough, charge by weight",
    },
    FaultInfo {
        id: FaultId::DesiccantSaturated,
        key: "desiccant_saturated",
        name: "Desiccant saturated",
        group: Group::Contamination,
        changes: "A share of what the desiccant can hold is used up, so water stays in the refrigerant.",
        severity: severity("share of the desiccant used up", 0.0, 1.0, 1.0),
        base_rate: 0.01,
        repair: "replace the receiver-drier, evacuate, charge by weight",
    },
];

impl FaultId {
    /// Number of faults.
    pub const COUNT: usize = 13;
    /// All faults in catalogue order.
    pub const ALL: [Self; Self::COUNT] = [
        Self::CondenserFanMotorOpen,
        Self::CondenserFanRelayOpen,
        Self::CondenserFinsBlocked,
        Self::TxvStuckOpen,
        Self::TxvStuckClosed,
        Self::Undercharge,
        Self::Overcharge,
        Self::AirInLoop,
        Self::CompressorLeak,
        Self::ClutchCoilOpen,
        Self::LowOil,
        Self::Moisture,
        Self::DesiccantSaturated,
    ];
    /// The catalogue entry.
    pub fn info(self) -> &'static FaultInfo {
        &CATALOGUE[self as usize]
    }
    /// Find a fault by its key.
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|id| id.info().key == key)
    }
    /// Severity used when none is given: the default, or 1 for faults that are present or not.
    pub fn default_severity(self) -> f64 {
        self.info().severity.map_or(1.0, |s| s.default)
    }
    /// Is this severity within the stated range? NaN is not.
    pub fn accepts(self, severity: f64) -> bool {
        match self.info().severity {
            Some(s) => severity >= s.min && severity <= s.max,
            None => severity == 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn catalogue_is_in_order_and_complete() {
        for (index, id) in FaultId::ALL.into_iter().enumerate() {
            assert_eq!(id as usize, index);
            assert_eq!(id.info().id, id);
            assert_eq!(FaultId::by_key(id.info().key), Some(id));
            assert!(id.accepts(id.default_severity()));
            assert!(!id.accepts(f64::NAN));
        }
        let total: f64 = FaultId::ALL.iter().map(|id| id.info().base_rate).sum();
        assert!((total - 1.0).abs() < 1e-9, "base rates sum to {total}");
    }
}
