//! The window: panels that are pure egui functions of a view, and (feature `desk`) the Bevy shell round them.

pub mod command;
pub mod theme;

pub use command::Command;
