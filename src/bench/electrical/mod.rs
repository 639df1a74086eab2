//! The electrical side: the circuit, what hands do to it, and the guard of traction voltage and mains.

mod acts;
mod check;
mod done;
mod faces;
mod guard;
pub mod guarding;
mod side;
#[cfg(test)]
pub mod testing;
#[cfg(test)]
mod tests;

pub use done::{Electrics, Mistake, MistakeKind};
pub use faces::{ElectricalFaces, ReaderFace};
pub use guarding::{Proof, UnsafeAct, UnsafeKind};
pub use side::ElectricalSide;
