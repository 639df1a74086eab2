//! The window: panels that are pure egui functions of a view, and (feature `desk`) the Bevy shell round them.

pub mod bay_page;
pub mod bench_page;
pub mod brief;
pub mod command;
pub mod demo;
mod errand;
pub mod fonts;
pub mod help;
pub mod history;
pub mod kept;
pub mod keys;
pub mod layout;
pub mod loop_view;
mod notice;
pub mod pages;
pub mod panel;
pub mod panels;
pub mod papers;
pub mod repaint;
pub mod rig_page;
pub mod screen;
pub mod session;
pub mod shelf;
#[cfg(feature = "desk")]
pub mod shell;
mod standing;
pub mod theme;
pub mod top_bar;
pub mod view;

pub use command::Command;
pub use history::History;
pub use panel::Panel;
pub use papers::Papers;
pub use screen::Screen;
pub use session::Session;
pub use shelf::{Case, Listed};
pub use view::{DeskView, UiState, Working};
