//! How the window is divided. Designed at 1366x768, good from 1280x720 up.

use egui::{CentralPanel, Frame, Margin, Panel, ScrollArea};

use super::loop_view::loop_ui;
use super::{Command, DeskView, Screen, bay_page, panels, rig_page, top_bar};

/// Height of the top bar [pt].
const TOP: f32 = 44.0;
/// Width of controls and tools [pt].
const LEFT: f32 = 196.0;
/// Width of work order, notebook and suspects [pt].
const RIGHT: f32 = 320.0;
/// Height of gauges and strips [pt].
const BOTTOM: f32 = 180.0;

/// The whole window.
pub fn desk_ui(ui: &mut egui::Ui, view: &DeskView, out: &mut Vec<Command>) {
    // The window is cleared in the colour of the panels, so they need no fill of their own; on a software
    // renderer that is a third of all pixels painted.
    let plain = Frame::new();
    Panel::top("top").exact_size(TOP).resizable(false).frame(plain).show(ui, |ui| {
        top_bar::top_bar_ui(ui, view, out);
    });
    match view.ui_state.screen {
        Screen::Bench => bench_ui(ui, view, out),
        Screen::Start => full_page(ui, view, |ui| panels::start_ui(ui, view, out)),
        Screen::Rig => {
            full_page(ui, view, |ui| {
                let rect = ui.available_rect_before_wrap();
                rig_page::rig_ui(ui, view, out);
                notice(ui, rect, view, out);
            });
        }
        Screen::Bay => {
            let frame = Frame::new().fill(view.theme.ground).inner_margin(Margin::symmetric(12, 8));
            CentralPanel::no_frame().frame(frame).show(ui, |ui| {
                bay_page::bay_ui(ui, view, out);
            });
        }
        Screen::Debrief => full_page(ui, view, |ui| panels::debrief_ui(ui, view, out)),
    }
    if view.ui_state.help {
        panels::help(ui, view, out);
    }
}

fn full_page(ui: &mut egui::Ui, view: &DeskView, contents: impl FnOnce(&mut egui::Ui)) {
    let frame = Frame::new().fill(view.theme.ground).inner_margin(Margin::symmetric(24, 16));
    CentralPanel::no_frame().frame(frame).show(ui, contents);
}

fn bench_ui(ui: &mut egui::Ui, view: &DeskView, out: &mut Vec<Command>) {
    let theme = view.theme;
    let side = Frame::new().inner_margin(Margin::symmetric(12, 10));
    let plain = Frame::new();
    // On wide windows the right panel may breathe; the drawing takes the rest.
    let window = ui.available_width();
    let right = (window * 0.235).clamp(RIGHT, 440.0);
    let left = (window * 0.144).clamp(LEFT, 260.0);
    let bottom = (ui.available_height() * 0.25).clamp(BOTTOM, 300.0);
    Panel::right("right").exact_size(right).resizable(false).frame(side).show(ui, |ui| {
        panels::work_ui(ui, view, out);
    });
    Panel::bottom("bottom").exact_size(bottom).resizable(false).frame(plain).show(ui, |ui| {
        // The two halves: instruments keep their size, strips take what is left.
        let rect = ui.available_rect_before_wrap();
        let split = rect.left() + (rect.width() * 0.52).clamp(500.0, 700.0);
        for (range, contents) in [
            (rect.left()..=split, panels::gauges_ui as fn(&mut egui::Ui, &DeskView, &mut Vec<Command>)),
            (split..=rect.right(), panels::strips_ui),
        ] {
            let part = egui::Rect::from_x_y_ranges(range, rect.y_range()).shrink2(egui::vec2(12.0, 8.0));
            ui.scope_builder(egui::UiBuilder::new().max_rect(part), |ui| contents(ui, view, out));
        }
    });
    Panel::left("left").exact_size(left).resizable(false).frame(side).show(ui, |ui| {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            panels::controls_ui(ui, view, out);
            ui.add_space(6.0);
            panels::tools_ui(ui, view, out);
            ui.add_space(6.0);
            panels::perceived_ui(ui, view, out);
        });
    });
    CentralPanel::no_frame().frame(Frame::new().fill(theme.ground)).show(ui, |ui| {
        let rect = ui.available_rect_before_wrap();
        loop_ui(ui, view, out);
        notice(ui, rect, view, out);
    });
}

/// What the bench has to say, at the foot of the drawing; a click puts it away.
fn notice(ui: &mut egui::Ui, rect: egui::Rect, view: &DeskView, out: &mut Vec<Command>) {
    let Some(text) = &view.ui_state.notice else { return };
    let theme = view.theme;
    let area = egui::Area::new("notice".into())
        .order(egui::Order::Foreground)
        .pivot(egui::Align2::CENTER_BOTTOM)
        .fixed_pos(rect.center_bottom() - egui::vec2(0.0, 12.0));
    area.show(ui.ctx(), |ui| {
        let frame = Frame::new()
            .fill(theme.raised)
            .stroke(egui::Stroke::new(1.0, theme.chosen))
            .corner_radius(6)
            .inner_margin(Margin::symmetric(12, 6));
        frame.show(ui, |ui| {
            // A caution is long, and every word of it must be read: it wraps.
            ui.set_max_width(rect.width() * 0.7);
            ui.vertical(|ui| {
                ui.add(egui::Label::new(egui::RichText::new(text).color(theme.text)).wrap());
                if ui.button("OK").clicked() {
                    out.push(Command::DismissNotice);
                }
            });
        });
    });
}
