//! What the bench has to say to the person.

use egui::{Frame, Margin};

use super::{Command, DeskView};

/// It stands at the foot of the drawing; a click puts it away.
pub fn notice(ui: &mut egui::Ui, rect: egui::Rect, view: &DeskView, out: &mut Vec<Command>) {
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
