//! The list of repairs: found by letters, told with time and caution before they are carried out. What comes of one is
//! for the learner to see at the instruments.

use egui::{ScrollArea, Ui};

use super::Draft;
use super::parts::{body, button, card, choice, entry, heading, small};
use crate::bench::Action;
use crate::desk::{Command, DeskView};
use crate::fault::RepairId;

/// Repairs that this rig has something for.
pub fn repairs(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    heading(ui, theme, "Carry out a repair");
    let width = ui.available_width();
    entry(ui, theme, "Find a repair", "Find: letters of a repair", &mut draft.find, width);
    let typed = draft.find.trim().to_lowercase();
    let height = (ui.available_height() - 34.0).max(120.0);
    ScrollArea::vertical().id_salt("repairs").max_height(height).auto_shrink([false, false]).show(ui, |ui| {
        for id in RepairId::ALL.into_iter().filter(|id| id.applies_to(view.rig)) {
            let info = id.info();
            if !info.words.to_lowercase().contains(&typed) {
                continue;
            }
            let open = draft.repair == Some(id);
            let done = view.snapshot.instruments.repairs.iter().filter(|r| r.repair == id).count();
            let state = if done > 0 { "done" } else { "" };
            let row = choice(ui, theme, info.words, state, open);
            if row.clicked() {
                draft.repair = (!open).then_some(id);
                row.scroll_to_me(Some(egui::Align::Min));
            }
            if open {
                card(ui, theme, theme.chosen, |ui| {
                    small(ui, theme, &format!("About {:.0} minutes of work.", info.minutes));
                    if !info.caution.is_empty() {
                        body(ui, theme, &format!("CAUTION: {}.", info.caution));
                    }
                    if button(ui, theme, "Carry it out", ui.available_width(), true).clicked() {
                        out.push(Command::Act(Action::Repair(id)));
                    }
                });
            }
        }
    });
    if button(ui, theme, "Back to the bench", width, false).clicked() {
        draft.repairs_open = false;
        draft.find.clear();
    }
}
