//! The electrical side: supply, fuses, relays, switches, clutch coil and fan motor as a network of
//! resistances. Nothing is tabulated: every volt a meter can find is solved from the wiring, so a fault is
//! a changed resistance and nothing more.

mod compact_car;
mod inputs;
pub mod live;
mod network;
mod parts;
pub mod rules;
pub mod spec;
mod switch;
mod wiring;

pub use compact_car::{Circuit, CircuitInputs};
pub use inputs::{Change, Drives, Load, PartFault, Port, Senses, UnitCode, UnitValue};
pub use network::{BranchId, End, LEAKAGE_S, Network};
pub use parts::Parts;
pub use spec::{CircuitSpec, Guard};
pub use switch::{Hysteresis, Lag, Sensing};
pub use wiring::TestPoint;

#[cfg(test)]
mod tests;
