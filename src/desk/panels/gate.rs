//! Cautions at the act: what waits behind them and the button that confirms them.

use egui::text::{LayoutJob, TextFormat};
use egui::{FontId, Id, Ui, UiBuilder};

use super::Draft;
use super::parts::{SMALL, button, card};
use crate::bench::Action;
use crate::desk::theme::Theme;
use crate::desk::{Command, fonts};
use crate::lesson::cautions::{self, Caution, SignalWord};

/// A caution: the signal word as text, then hazard, consequence and what to do. What can hurt has a triangle; a notice
/// has none.
pub fn caution_card(ui: &mut Ui, theme: &Theme, caution: &Caution) {
    let color = match caution.signal {
        SignalWord::Danger => theme.high,
        SignalWord::Warning | SignalWord::Caution => theme.chosen,
        SignalWord::Notice => theme.low,
    };
    card(ui, theme, color, |ui| {
        let ink = |color| TextFormat { font_id: FontId::proportional(SMALL), color, ..Default::default() };
        let mut job = LayoutJob::default();
        let word = TextFormat { font_id: fonts::bold(SMALL), ..ink(color) };
        let hurts = caution.signal != SignalWord::Notice;
        if hurts {
            triangle(ui, color);
        }
        job.append(caution.signal.word(), if hurts { 18.0 } else { 0.0 }, word);
        job.append(&format!("  {} {} ", caution.hazard, caution.consequence), 0.0, ink(theme.muted));
        job.append(caution.avoidance, 0.0, ink(theme.text));
        ui.label(job);
    });
}

/// The safety alert sign, at the head of the first line.
fn triangle(ui: &Ui, color: egui::Color32) {
    let at = ui.cursor().min + egui::vec2(7.0, 8.0);
    let corners = [(0.0, -6.5), (7.0, 5.5), (-7.0, 5.5)].map(|(x, y)| at + egui::vec2(x, y));
    ui.painter().add(egui::Shape::closed_line(corners.to_vec(), egui::Stroke::new(1.5, color)));
    ui.painter()
        .line_segment([at + egui::vec2(0.0, -2.5), at + egui::vec2(0.0, 1.5)], egui::Stroke::new(1.5, color));
    ui.painter().circle_filled(at + egui::vec2(0.0, 3.6), 0.9, color);
}

/// The cautions of an action that waits for them, with the button that does it and one that does not.
/// Draws nothing while the action is not waiting.
pub fn gate(
    ui: &mut Ui,
    theme: &Theme,
    draft: &mut Draft,
    action: &Action,
    confirm: &str,
    out: &mut Vec<Command>,
) {
    gate_with(ui, theme, draft, action, cautions::before(action), confirm, out);
}

/// The same with cautions that the situation names.
pub fn gate_with(
    ui: &mut Ui,
    theme: &Theme,
    draft: &mut Draft,
    action: &Action,
    cautions: &[&'static Caution],
    confirm: &str,
    out: &mut Vec<Command>,
) {
    if draft.pending.as_ref() != Some(action) {
        return;
    }
    // Only one action waits at a time; an id of its own keeps the keyboard where it is when the button that
    // asked goes away.
    ui.scope_builder(UiBuilder::new().id(Id::new("caution_gate")), |ui| {
        for caution in cautions {
            caution_card(ui, theme, caution);
        }
        let width = ui.available_width();
        if button(ui, theme, confirm, width, true).clicked() {
            draft.pending = None;
            out.push(Command::Act(action.clone()));
        }
        let not_now = button(ui, theme, "Not now", width, false);
        if not_now.clicked() {
            draft.pending = None;
        }
        if std::mem::take(&mut draft.bring_up) {
            // The keyboard lands on the safe choice; the other one is a step back.
            not_now.request_focus();
            ui.scroll_to_rect(ui.min_rect(), None);
        }
    });
}
