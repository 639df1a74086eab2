//! A flow between two volumes.

/// A flow between two volumes at the end of a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flow {
    /// From this volume.
    pub from: usize,
    /// To that volume.
    pub to: usize,
    /// Mass flow [kg/s].
    pub mass_kg_s: f64,
    /// Enthalpy flow out of `from` [W].
    pub out_w: f64,
    /// Air carried along [kg/s].
    pub air_kg_s: f64,
    /// Enthalpy flow into `to`; larger than `out_w` by shaft work [W].
    pub in_w: f64,
}
