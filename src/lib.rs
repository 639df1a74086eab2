//! Pintle: a training bench for vapor-compression loops.

pub mod commands;
pub mod refrigerant;
