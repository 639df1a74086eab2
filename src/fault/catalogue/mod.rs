//! What is known of each fault, a file for each field of work.

mod air;
mod compressor;
mod electrical;
mod instruments;
mod refrigerant;

use serde::{Deserialize, Serialize};

use super::id::FaultId;
use super::needs::Need;
use super::repair::RepairId;
use crate::rig::Rig;

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
    /// The expansion valve or orifice tube.
    Metering,
    /// The compressor itself.
    Compressor,
    /// Supply, relays, fuses, grounds.
    Electrical,
    /// Restrictions in lines, drier and coils.
    Restriction,
    /// Belt and clutch.
    Drive,
    /// Switches, sensors and what decides by them.
    Controls,
    /// Air over the evaporator.
    CabinAirflow,
    /// Doors that mix and direct the air.
    AirDoors,
    /// Mains or traction side of a compressor with its own motor.
    MotorSupply,
    /// Gauges, hoses, thermometers.
    Instruments,
}

impl Group {
    /// All groups in display order.
    pub const ALL: [Self; 13] = [
        Self::CondenserAirflow,
        Self::Charge,
        Self::Contamination,
        Self::Metering,
        Self::Restriction,
        Self::Compressor,
        Self::Drive,
        Self::Electrical,
        Self::Controls,
        Self::CabinAirflow,
        Self::AirDoors,
        Self::MotorSupply,
        Self::Instruments,
    ];
    /// As people read it, such as "Charge".
    pub fn name(self) -> &'static str {
        match self {
            Self::Charge => "Charge",
            Self::Contamination => "Contamination",
            Self::CondenserAirflow => "Condenser air flow",
            Self::Metering => "Metering",
            Self::Compressor => "Compressor",
            Self::Electrical => "Electrical",
            Self::Restriction => "Restriction",
            Self::Drive => "Belt and clutch",
            Self::Controls => "Switches and sensors",
            Self::CabinAirflow => "Evaporator air flow",
            Self::AirDoors => "Air doors",
            Self::MotorSupply => "Motor supply",
            Self::Instruments => "Instruments",
        }
    }
}

/// How the severity of a fault is counted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SeverityInfo {
    /// What the number means.
    pub meaning: &'static str,
    /// Its unit; empty for a share.
    pub unit: &'static str,
    /// Smallest allowed value.
    pub min: f64,
    /// Largest allowed value.
    pub max: f64,
    /// Value used when none is given.
    pub default: f64,
}

/// How often a fault is met among all faults of a rig, as a weight, and where that comes from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BaseRate {
    /// Weight; see [`base_rates`].
    pub weight: f64,
    /// Source, or that there is none.
    pub source: &'static str,
}

/// A repair that people try and that does not cure the fault.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Futile {
    /// Which repair.
    pub repair: RepairId,
    /// What comes of it.
    pub consequence: &'static str,
}

/// One catalogue entry.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FaultInfo {
    /// Which fault.
    pub id: FaultId,
    /// Name in files and on the command line.
    pub key: &'static str,
    /// As people read it, such as "Condenser fan slow".
    pub name: &'static str,
    /// Functional group.
    pub group: Group,
    /// What parameter of the model it changes, in one sentence.
    pub changes: &'static str,
    /// How severity is counted; `None` for faults that are present or not.
    pub severity: Option<SeverityInfo>,
    /// How often it is met.
    pub base_rate: BaseRate,
    /// Repairs that cure it, the proper one first.
    pub cures: &'static [RepairId],
    /// Repairs that people try in vain.
    pub futile: &'static [Futile],
    /// What a rig must have for it, besides a part that it acts on.
    pub needs: &'static [Need],
}

/// From memory of trade surveys, no source: fans, air flow and charge dominate, valves and compressors are blamed too
/// often.
const SURVEYS: &str = "from memory of trade surveys, no source";
/// Nothing better.
const PRACTICE: &str = "common practice, no source";
/// A group's share that was read; its split over single faults was not.
const CLAIMS: &str =
    "insurance claims: electrical 60 to 70 % of all (HSB); the split over single faults from memory";

const fn graded(
    meaning: &'static str,
    unit: &'static str,
    [min, max, default]: [f64; 3],
) -> Option<SeverityInfo> {
    Some(SeverityInfo { meaning, unit, min, max, default })
}
/// There or not.
const PLAIN: Option<SeverityInfo> = None;

/// Rows: id, key, name; group; what it changes; severity; base rate; cures; in vain; needs.
macro_rules! rows {
    ($($id:ident $key:literal $name:literal, $group:ident: $changes:literal, $severity:expr,
       $weight:literal $source:ident, cured by [$($cure:ident),* $(,)?],
       not by [$($futile:ident: $consequence:literal),* $(,)?], needs [$($need:expr),* $(,)?];)*) => {
        pub(in crate::fault::catalogue) const ROWS: &[crate::fault::FaultInfo] = &[$(crate::fault::FaultInfo {
            id: crate::fault::FaultId::$id,
            key: $key,
            name: $name,
            group: crate::fault::Group::$group,
            changes: $changes,
            severity: $severity,
            base_rate: crate::fault::BaseRate { weight: $weight, source: crate::fault::catalogue::$source },
            cures: &[$(crate::fault::RepairId::$cure),*],
            futile: &[$(crate::fault::Futile {
                repair: crate::fault::RepairId::$futile, consequence: $consequence
            }),*],
            needs: &[$($need),*],
        }),*];
    };
}
use rows;

/// All rows; their order within the files is that of [`FaultId`], which a test checks.
const FILES: [&[FaultInfo]; 8] = [
    air::condenser::ROWS,
    refrigerant::ROWS,
    refrigerant::flow::ROWS,
    compressor::ROWS,
    electrical::ROWS,
    air::cabin::ROWS,
    electrical::motor::ROWS,
    instruments::ROWS,
];

const CATALOGUE: [&FaultInfo; FaultId::COUNT] = {
    let mut all = [&FILES[0][0]; FaultId::COUNT];
    let (mut file, mut n) = (0, 0);
    while file < FILES.len() {
        let mut row = 0;
        while row < FILES[file].len() {
            all[n] = &FILES[file][row];
            (row, n) = (row + 1, n + 1);
        }
        file += 1;
    }
    assert!(n == FaultId::COUNT, "every fault has a row");
    all
};

impl FaultInfo {
    /// Can this rig have the fault?
    pub fn applies_to(&self, rig: &Rig) -> bool {
        let wired = super::wiring::parts(self.id).is_none_or(|ids| ids.iter().any(|id| rig.has_part(id)));
        wired && self.needs.iter().all(|need| need.met_by(rig))
    }
    /// The proper repair, in words.
    pub fn repair(&self) -> &'static str {
        self.cures.first().map_or("none", |repair| repair.info().words)
    }
}

impl FaultId {
    /// The catalogue entry.
    pub fn info(self) -> &'static FaultInfo {
        CATALOGUE[self as usize]
    }
    /// Find a fault by its key.
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|id| id.info().key == key)
    }
    /// Faults that a rig can have, in catalogue order.
    pub fn on(rig: &Rig) -> impl Iterator<Item = Self> {
        Self::ALL.into_iter().filter(|id| id.info().applies_to(rig))
    }
    /// Severity used when none is given: the default, or 1 for faults that are present or not.
    pub fn default_severity(self) -> f64 {
        self.info().severity.map_or(1.0, |s| s.default)
    }
    /// Is it a mass in the loop, or a drier used up? Such a thing grows, but does not come and go.
    pub fn is_contents(self) -> bool {
        matches!(
            self,
            Self::Undercharge
                | Self::Overcharge
                | Self::AirInLoop
                | Self::Moisture
                | Self::DesiccantSaturated
                | Self::PoorEvacuation
                | Self::LowOil
                | Self::ExcessOil
        )
    }
    /// The healthy end of its range; 1 for faults that are present or not.
    pub fn mildest(self) -> f64 {
        match (self, self.info().severity) {
            // Counted by what is left.
            (Self::TxvStuckClosed | Self::ClutchCoilShorted, Some(s)) => s.max,
            (_, Some(s)) => s.min.max(0.0),
            (_, None) => 1.0,
        }
    }
    /// Is this severity within the stated range? NaN is not.
    pub fn accepts(self, severity: f64) -> bool {
        match self.info().severity {
            Some(s) => severity >= s.min && severity <= s.max,
            None => severity == 1.0,
        }
    }
}

/// Probability of each fault that a rig can have, given that it has exactly one; sums to 1.
pub fn base_rates(rig: &Rig) -> Vec<(FaultId, f64)> {
    let total: f64 = FaultId::on(rig).map(|id| id.info().base_rate.weight).sum();
    FaultId::on(rig).map(|id| (id, id.info().base_rate.weight / total)).collect()
}

#[cfg(test)]
#[path = "../tests.rs"]
mod tests;
