//! The knobs: all that a driver, the weather, an instructor or the state of a rig sets on a bench with one value.
//!
//! One table holds them (`table.rs`), a line each: [`Controls`] (where they all stand), [`Change`] (one of them and its new
//! value) and [`Knob`] (their names, each with its [`Info`]) are made from it. Scenario files, action files, `--set`, the
//! sliders of the desk and the debrief read it, so a new knob is one line there and the physics that feels it.
//! The hand valves of the manifold are no knobs of the car, but `--set` turns them too: [`HandValve`].

mod change;
mod controls;
mod hand_valve;
mod info;
mod range;
mod table;
#[cfg(test)]
mod tests;

pub use hand_valve::HandValve;
pub use info::{Fits, Info, Scale, TurnedBy, Value};
pub use range::{Range, out_of_range};
pub use table::{Change, Controls, Knob};
