//! STUB: stands in for the panels of the `panels` branch and is overwritten when that is merged.

use super::{Command, DeskView};

macro_rules! stub {
    ($($name:ident),*) => {$(
        /// Stub.
        pub fn $name(ui: &mut egui::Ui, view: &DeskView, _out: &mut Vec<Command>) {
            ui.colored_label(view.theme.muted, stringify!($name));
        }
    )*};
}

stub!(controls_ui, work_ui, gauges_ui, strips_ui, start_ui, debrief_ui, help);

/// Stub: the tools, enough to try places.
pub fn tools_ui(ui: &mut egui::Ui, view: &DeskView, out: &mut Vec<Command>) {
    for &tool in &view.scenario.tools {
        let chosen = view.ui_state.tool == Some(tool);
        if ui.selectable_label(chosen, tool.name()).clicked() {
            out.push(Command::ChooseTool((!chosen).then_some(tool)));
        }
    }
}
