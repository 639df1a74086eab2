//! How the window is divided. Designed at 1366x768, good from 1280x720 up.

use egui::{Frame, Panel};

use super::papers::Papers;
use super::{Command, DeskView, help, pages, standing, top_bar};

/// Height of the top bar [pt].
const TOP: f32 = 44.0;

/// The whole window.
pub fn desk_ui(ui: &mut egui::Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    // The window is cleared in the colour of the panels, so they need no fill of their own; on a software
    // renderer that is a third of all pixels painted.
    let plain = Frame::new();
    Panel::top("top").exact_size(TOP).resizable(false).frame(plain).show(ui, |ui| {
        top_bar::top_bar_ui(ui, view, &mut papers.drawn.bar_pt, out);
    });
    standing::standing_ui(ui, view, out);
    (pages::page(view.ui_state.screen).draw)(ui, view, papers, out);
    if view.ui_state.help {
        help::help(ui, view, papers, out);
    }
}
