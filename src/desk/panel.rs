//! The shape that every panel and every page has.

use super::papers::Papers;
use super::{Command, DeskView};

/// Draws what the view tells, writes on the papers, pushes wishes.
pub type Panel = fn(&mut egui::Ui, &DeskView, &mut Papers, &mut Vec<Command>);
