//! The page of the bench: controls and tools on the left, the loop, gauges and strips below, the work on the right.

use egui::{CentralPanel, Frame, Margin, Panel as Side, ScrollArea};

use super::loop_view::loop_ui;
use super::notice::notice;
use super::panel::Panel;
use super::papers::Papers;
use super::{Command, DeskView, panels};

/// Width of controls and tools [pt].
const LEFT: f32 = 196.0;
/// Width of work order, notebook and suspects [pt].
const RIGHT: f32 = 320.0;
/// Height of gauges and strips [pt].
const BOTTOM: f32 = 180.0;

/// The page.
pub fn bench_ui(ui: &mut egui::Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    let theme = view.theme;
    let side = Frame::new().inner_margin(Margin::symmetric(12, 10));
    let plain = Frame::new();
    // On wide windows the right panel may breathe; the drawing takes the rest.
    let window = ui.available_width();
    let right = (window * 0.235).clamp(RIGHT, 440.0);
    let left = (window * 0.144).clamp(LEFT, 260.0);
    let bottom = (ui.available_height() * 0.25).clamp(BOTTOM, 300.0);
    Side::right("right").exact_size(right).resizable(false).frame(side).show(ui, |ui| {
        panels::work_ui(ui, view, papers, out);
    });
    Side::bottom("bottom").exact_size(bottom).resizable(false).frame(plain).show(ui, |ui| {
        // The two halves: instruments keep their size, strips take what is left.
        let rect = ui.available_rect_before_wrap();
        let split = rect.left() + (rect.width() * 0.52).clamp(500.0, 700.0);
        for (range, contents) in
            [(rect.left()..=split, panels::gauges_ui as Panel), (split..=rect.right(), panels::strips_ui)]
        {
            let part = egui::Rect::from_x_y_ranges(range, rect.y_range()).shrink2(egui::vec2(12.0, 8.0));
            ui.scope_builder(egui::UiBuilder::new().max_rect(part), |ui| contents(ui, view, papers, out));
        }
    });
    Side::left("left").exact_size(left).resizable(false).frame(side).show(ui, |ui| {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            panels::controls_ui(ui, view, papers, out);
            ui.add_space(6.0);
            panels::tools_ui(ui, view, papers, out);
            ui.add_space(6.0);
            panels::perceived_ui(ui, view, papers, out);
        });
    });
    CentralPanel::no_frame().frame(Frame::new().fill(theme.ground)).show(ui, |ui| {
        let rect = ui.available_rect_before_wrap();
        loop_ui(ui, view, papers, out);
        notice(ui, rect, view, out);
    });
}
