//! One reading as it stands in the notebook.

use serde::{Deserialize, Serialize};

use super::table::Probe;

/// A value that was written down, with the instrument it came from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Tick it was read on.
    pub tick: u64,
    /// Tool and place.
    pub probe: Probe,
    /// Shown value in the unit that [`Probe::unit`] says: Pa gauge (the vacuum gauge: Pa absolute), K, V, ohm, A, kg gross,
    /// m3, m3/s (over range: [`super::OVER`]); for the sight glass the share of bubbles 0 to 1, for the test lamp its
    /// brightness, for leak detector, soap and lamp the strength of the sign 0 to 1, for the identifier a share by mass,
    /// for a control unit's value its own unit, for senses as [`crate::perceive::Sense`] says.
    pub value: f64,
    /// Half-width of the 95 % band of the instrument, same unit.
    pub uncertainty: f64,
}
