//! The manifold with its two hand valves.

use serde::Serialize;

/// Hoses and hand valves; in a bay each hose has a coupler of its own besides.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Manifold {
    /// Both hoses were fitted by one act.
    pub fitted: bool,
    /// Hand valve, low side [% open].
    pub low_pct: f64,
    /// Hand valve, high side [% open].
    pub high_pct: f64,
}
