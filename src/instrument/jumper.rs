//! The fused jumper lead: a tool that shows nothing.

use super::kit::{Kit, Shelf};
use crate::circuit::Load;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Jumper lead, fused",
    touches: "Bridges the contact of a relay. Live parts after it prove the power path.",
    shelf: Shelf::Bench,
    needs_bay: false,
};

/// Resistance with its clips [ohm].
pub const OHM: f64 = 0.02;
/// Its fuse [A].
pub const FUSE_A: f64 = 15.0;

/// The lead between two points, as it hangs on the circuit.
pub fn lead(a: &str, b: &str) -> Load {
    Load { a: a.into(), b: b.into(), ohm: OHM, fuse_a: FUSE_A }
}
