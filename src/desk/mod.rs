//! The window: panels that are pure egui functions of a view, and (feature `desk`) the Bevy shell round them.

pub mod command;
pub mod demo;
pub mod history;
pub mod loop_view;
pub mod panels;
pub mod theme;
pub mod view;

pub use command::Command;
pub use history::History;
pub use view::{DeskView, Listed, Screen, UiState};
