//! What a circuit goes by that is not electrical: the knobs of people and the places that switches and sensors feel.

use serde::{Deserialize, Serialize};

/// Knobs and hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Knob {
    /// Ignition on (engine running), or a stationary rig's main switch.
    Ignition,
    /// Blower setting [%].
    Blower,
    /// A/C button.
    AcButton,
    /// Throttle wide open.
    Throttle,
    /// A door stands open (share of the time above a hundredth).
    Door,
}

/// Places where switches and sensors feel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Place {
    /// Suction line or accumulator.
    Suction,
    /// Liquid line.
    Liquid,
    /// Discharge line.
    Discharge,
    /// Evaporator fins.
    Fin,
    /// Pipe at the evaporator's outlet.
    EvaporatorOut,
    /// Air of cabin or cold room.
    Box,
    /// Engine coolant.
    Coolant,
    /// Outside air.
    Ambient,
    /// Coolant of the traction battery.
    Battery,
}
