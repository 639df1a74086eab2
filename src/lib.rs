//! Pintle: a training bench for vapor-compression loops.
//!
//! The map, upward: [`units`] and [`refrigerant`] properties; the plant (conserved loop) and the circuit
//! (electrical side); the [`fault`] catalogue; [`instrument`]s; the [`bench`] that binds them into one
//! deterministic state machine; [`scenario`] files; diagnosis, lessons and records; and, behind the feature
//! `desk`, the window. Data flows one way and nothing below knows what is above it.

pub mod bench;
pub mod fault;
pub mod instrument;
pub mod lesson;
pub mod scenario;
pub mod units;

#[cfg(feature = "panels")]
pub mod desk;
