//! Cautions at the act: what waits behind them and the button that confirms them.

use egui::text::{LayoutJob, TextFormat};
use egui::{FontId, Id, Ui, UiBuilder};

use super::Draft;
use super::parts::{SMALL, button, card};
use crate::bench::Action;
use crate::desk::theme::Theme;
use crate::desk::{Command, fonts};
use crate::lesson::cautions::{self, Caution};

/// A caution: the signal word as text, then hazard, consequence and what to do.
pub fn caution_card(ui: &mut Ui, theme: &Theme, caution: &Caution) {
    card(ui, theme, theme.chosen, |ui| {
        let ink = |color| TextFormat { font_id: FontId::proportional(SMALL), color, ..Default::default() };
        let mut job = LayoutJob::default();
        let word = TextFormat { font_id: fonts::bold(SMALL), ..ink(theme.chosen) };
        job.append(caution.signal.word(), 0.0, word);
        job.append(&format!("  {} {} ", caution.hazard, caution.consequence), 0.0, ink(theme.muted));
        job.append(caution.avoidance, 0.0, ink(theme.text));
        ui.label(job);
    });
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
    if draft.pending.as_ref() != Some(action) {
        return;
    }
    // Only one action waits at a time; an id of its own keeps the keyboard where it is when the button that
    // asked goes away.
    ui.scope_builder(UiBuilder::new().id(Id::new("caution_gate")), |ui| {
        for caution in cautions::before(action) {
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
