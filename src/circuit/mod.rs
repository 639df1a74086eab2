//! The electrical side: supplies, fuses, relays, switches, sensors, control units and motors as a network of resistances
//! that a rig's file `circuit.ron` describes. Nothing is tabulated: every volt a meter can find is solved from the wiring,
//! so a fault is a changed resistance and nothing more.

mod alter;
mod answers;
mod branches;
mod clutch_coil;
mod ids;
mod inputs;
mod live;
mod memory;
mod network;
mod problems;
pub mod rules;
pub mod sensed;
pub mod spec;
mod switch;
mod unit;
mod wiring;

pub use clutch_coil::{CoilWarmth, slip_w as clutch_slip_w};
pub use ids::{part, point};
pub use inputs::{Change, CircuitInputs, Drives, Load, PartFault, Port, Senses, UnitCode, UnitValue};
pub use live::Circuit;
pub use spec::{CircuitSpec, Guard};
pub use switch::{Hysteresis, Lag};

#[cfg(test)]
mod tests;
