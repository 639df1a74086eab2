//! The window: panels that are pure egui functions of a view, and (feature `desk`) the Bevy shell round them.

pub mod bay_page;
pub mod command;
pub mod demo;
pub mod fonts;
pub mod history;
mod keep;
pub mod keys;
pub mod layout;
pub mod loop_view;
pub mod pace;
pub mod panels;
pub mod rig_page;
pub mod session;
pub mod shelf;
#[cfg(feature = "desk")]
pub mod shell;
pub mod theme;
pub mod top_bar;
pub mod view;

pub use command::Command;
pub use history::History;
pub use session::Session;
pub use view::{DeskView, Listed, Screen, UiState};
