//! A circuit at work. (Signatures first: bodies follow; the compact car's hard-wired circuit is in use until then.)

use std::sync::Arc;

use super::inputs::{CircuitInputs, Drives, Port, UnitCode, UnitValue};
use super::spec::{CircuitSpec, Guard, Part, Point};

/// The electrical side of a rig.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    spec: Arc<CircuitSpec>,
    drives: Drives,
}

impl Circuit {
    /// A circuit with everything at rest. Ends that do not exist are left in the air; `CircuitSpec::problems` names them.
    pub fn new(spec: &CircuitSpec) -> Self {
        Self { spec: Arc::new(spec.clone()), drives: Drives::REST }
    }
    /// Let `dt_s` seconds pass with these inputs; solves again only if something changed.
    pub fn update(&mut self, inputs: &CircuitInputs, dt_s: f64) {
        let _ = (inputs, dt_s);
    }
    /// Volts of a point against ground; `None` for a name that is no point.
    pub fn volts(&self, point: &str) -> Option<f64> {
        let _ = point;
        None
    }
    /// What a meter sees between two points (or `ground`); `None` for a name that is no point.
    pub fn port(&self, red: &str, black: &str) -> Option<Port> {
        let _ = (red, black);
        None
    }
    /// Current through a part [A], positive from its `from` to its `to`; `None` for a name that is no part.
    pub fn current(&self, part: &str) -> Option<f64> {
        let _ = part;
        None
    }
    /// Current through the `n`-th load that tools hang on [A], from `a` to `b`; 0 once its fuse has blown.
    pub fn load_current(&self, n: usize) -> Option<f64> {
        let _ = n;
        None
    }
    /// The fuse of the `n`-th load has blown.
    pub fn load_blown(&self, n: usize) -> bool {
        let _ = n;
        false
    }
    /// A fuse of the rig has blown, by part id; [`Self::renew_fuse`] puts in a new one.
    pub fn fuse_blown(&self, part: &str) -> bool {
        let _ = part;
        false
    }
    /// Put in a new fuse.
    pub fn renew_fuse(&mut self, part: &str) {
        let _ = part;
    }
    /// A relay's coil is pulled in.
    pub fn relay_on(&self, relay: &str) -> bool {
        let _ = relay;
        false
    }
    /// A switch, contact, fuse or isolator passes current, by part id.
    pub fn closed(&self, part: &str) -> bool {
        let _ = part;
        false
    }
    /// All points.
    pub fn points(&self) -> &[Point] {
        &self.spec.points
    }
    /// All parts.
    pub fn parts(&self) -> &[Part] {
        &self.spec.parts
    }
    /// What it is made of.
    pub fn spec(&self) -> &CircuitSpec {
        &self.spec
    }
    /// What a reader shows: inputs and outputs of all control units, in the order of the file.
    pub fn values(&self) -> Vec<UnitValue<'_>> {
        Vec::new()
    }
    /// Codes stored in all control units.
    pub fn codes(&self) -> Vec<UnitCode<'_>> {
        Vec::new()
    }
    /// Clear all codes; those whose condition still holds come back.
    pub fn clear_codes(&mut self) {}
    /// What it does to the rest of the rig.
    pub fn drives(&self) -> Drives {
        self.drives
    }
    /// What a point may carry; [`Guard::None`] for a name that is no point.
    pub fn guarded(&self, point: &str) -> Guard {
        self.spec.points.iter().find(|p| p.id == point).map_or(Guard::None, |p| p.guard)
    }
    /// No point under this guard carries more than a person may touch: 60 V direct, 30 V alternating.
    pub fn is_dead(&self, guard: Guard) -> bool {
        let _ = guard;
        true
    }
    /// Clutch, fan, blower or compressor changed (or is heading elsewhere) since the last update.
    pub fn changed(&self) -> bool {
        false
    }
}
