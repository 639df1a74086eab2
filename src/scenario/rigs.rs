//! The rigs a scenario can stand on.

use serde::Serialize;

/// A rig by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct RigInfo {
    /// Name in scenario files.
    pub id: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// Refrigerant.
    pub refrigerant: &'static str,
    /// What it is made of.
    pub parts: &'static str,
}

/// All rigs.
pub const RIGS: &[RigInfo] = &[RigInfo {
    id: "compact_car",
    name: "Compact car",
    refrigerant: "R-134a",
    parts: "clutch compressor, condenser with two-speed electric fan, receiver-drier ahead of a final \
            subcooling pass, thermostatic expansion valve, evaporator, blower, cabin",
}];
