//! Repairs of this rig: found by letters, with time, cost and caution before the work, and what was done so far.

use egui::text::{LayoutJob, TextFormat};
use egui::{FontId, ScrollArea, Ui};

use super::parts::{SMALL, button, capital, card, choice, entry, heading, small};
use super::{Draft, words};
use crate::bench::{Action, TICK_S};
use crate::desk::theme::Theme;
use crate::desk::{Command, DeskView, fonts};
use crate::fault::{RepairId, RepairInfo};

/// Height kept under the list for the way back [pt].
const FOOT: f32 = 36.0;
/// Most of the page that the list of work done may take.
const DONE_SHARE: f32 = 0.25;

/// The page.
pub fn repairs(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    heading(ui, theme, "Repair");
    done(ui, view);
    let width = ui.available_width();
    entry(ui, theme, "Find a repair", "Find: letters of its name", &mut draft.find, width);
    let height = (ui.available_height() - FOOT).max(120.0);
    ScrollArea::vertical().id_salt("repairs").max_height(height).auto_shrink([false, false]).show(ui, |ui| {
        let found = RepairId::ALL.into_iter().filter(|id| id.applies_to(view.rig) && near(*id, &draft.find));
        let found: Vec<RepairId> = found.collect();
        if found.is_empty() {
            small(ui, theme, "No repair of this rig has these letters.");
        }
        for id in found {
            let open = draft.repair == Some(id);
            let row = choice(ui, theme, &capital(id.info().words), "", open);
            if row.clicked() {
                draft.repair = (!open).then_some(id);
                // What opens below it comes into sight.
                row.scroll_to_me(Some(egui::Align::Min));
            }
            if open {
                details(ui, view, draft, id, out);
            }
        }
    });
    if button(ui, theme, "Back to the work order", ui.available_width(), false).clicked() {
        draft.repairing = false;
        draft.repair = None;
        draft.find.clear();
    }
}

/// What has been done; whether it helped is for the learner to find out.
fn done(ui: &mut Ui, view: &DeskView) {
    let done = &view.snapshot.instruments.repairs;
    if done.is_empty() {
        small(ui, view.theme, "Nothing has been repaired yet. A repair is not a test: name the cause first.");
        return;
    }
    let most = ui.available_height() * DONE_SHARE;
    ScrollArea::vertical().id_salt("done").max_height(most).auto_shrink([false, true]).show(ui, |ui| {
        for (tick, repair) in done {
            let at = words::clock(*tick as f64 * TICK_S);
            small(ui, view.theme, &format!("{at}  {}", capital(repair.info().words)));
        }
    });
}

/// Time, cost and caution of a repair.
pub fn facts(ui: &mut Ui, theme: &Theme, info: &RepairInfo) {
    let cost = format!("{:.0} min; costs as much as {:.1} hours of work.", info.minutes, info.cost);
    small(ui, theme, &cost);
    if !info.caution.is_empty() {
        let format = |font, color| TextFormat { font_id: font, color, ..Default::default() };
        let mut job = LayoutJob::default();
        job.append("SAFETY", 0.0, format(fonts::bold(SMALL), theme.chosen));
        let text = format!("  {}.", capital(info.caution));
        job.append(&text, 0.0, format(FontId::proportional(SMALL), theme.text));
        ui.label(job);
    }
}

/// They stand before the button.
fn details(ui: &mut Ui, view: &DeskView, draft: &mut Draft, id: RepairId, out: &mut Vec<Command>) {
    let (theme, info) = (view.theme, id.info());
    card(ui, theme, if info.caution.is_empty() { theme.line } else { theme.chosen }, |ui| {
        facts(ui, theme, info);
        if button(ui, theme, "Carry it out", ui.available_width(), true).clicked() {
            draft.repair = None;
            out.push(Command::Act(Action::Repair(id)));
        }
    });
}

fn near(id: RepairId, typed: &str) -> bool {
    let text = id.info().words.to_lowercase();
    typed.to_lowercase().split_whitespace().all(|word| text.contains(word))
}
