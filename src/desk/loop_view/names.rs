//! What parts are called and what they are for, by the topology of the loop.

use crate::bench::{DriveKind, MeteringKind, Topology};

/// Name of what meters the liquid.
pub fn metering(parts: Topology) -> &'static str {
    match parts.metering {
        MeteringKind::Thermostatic => "Expansion valve",
        MeteringKind::OrificeTube => "Orifice tube",
        MeteringKind::Electronic => "Electronic expansion valve",
    }
}

/// What it is for.
pub fn metering_words(parts: Topology) -> &'static str {
    match parts.metering {
        MeteringKind::Thermostatic => {
            "Lets as much liquid through as the evaporator can boil. The bulb opens it, the spring closes it."
        }
        MeteringKind::OrificeTube => {
            "A fixed narrow bore: what passes follows the pressures and the subcooling alone."
        }
        MeteringKind::Electronic => {
            "A stepper motor moves the needle; the control unit sets it by the superheat that it reads."
        }
    }
}

/// What is between liquid line and evaporator, in a word.
pub fn restriction(parts: Topology) -> &'static str {
    if parts.metering == MeteringKind::OrificeTube { "orifice" } else { "valve" }
}

/// Name of the compressor.
pub fn compressor(parts: Topology) -> &'static str {
    match parts.drive {
        DriveKind::Belt => "Compressor",
        DriveKind::VariableBelt => "Variable compressor",
        DriveKind::Electric => "Electric compressor",
        DriveKind::Hermetic => "Hermetic compressor",
    }
}

/// What it is for.
pub fn compressor_words(parts: Topology) -> &'static str {
    match parts.drive {
        DriveKind::Belt => "Draws in vapour and presses it up. It runs when the clutch is in.",
        DriveKind::VariableBelt => {
            "Draws in vapour and presses it up. It turns with the engine; its control valve sets the stroke."
        }
        DriveKind::Electric => {
            "Draws in vapour and presses it up. A motor on traction voltage turns it at the speed asked for."
        }
        DriveKind::Hermetic => {
            "Draws in vapour and presses it up. Motor and compressor share one welded shell."
        }
    }
}

/// The air that the evaporator cools, and what moves it.
pub fn room(parts: Topology) -> (&'static str, &'static str, &'static str) {
    if parts.drive == DriveKind::Hermetic {
        ("Evaporator fans", "box air", "into the box")
    } else {
        ("Blower", "cabin air", "to the vents")
    }
}
