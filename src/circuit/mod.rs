//! The electrical side: supply, fuses, relays, switches, clutch coil and fan motor as a network of
//! resistances. Nothing is tabulated: every volt a meter can find is solved from the wiring, so a fault is
//! a changed resistance and nothing more.

mod compact_car;
mod network;
mod parts;
mod switch;
mod wiring;

pub use compact_car::{Circuit, CircuitInputs};
pub use network::{BranchId, End, LEAKAGE_S, Network};
pub use parts::Parts;
pub use switch::{Hysteresis, Lag, Sensing};
pub use wiring::TestPoint;

#[cfg(test)]
mod tests;
