//! The instructor's page: impose, ramp or clear any of the faults, and hide or show the inside.

use egui::{ScrollArea, Ui, vec2};

use super::Draft;
use super::parts::{button, card, choice, heading, prepare, slider, small, toggle};
use crate::bench::Action;
use crate::desk::{Command, DeskView};
use crate::fault::{FaultId, Group};

/// How long a ramp takes [s].
const RAMP_S: f64 = 60.0;

/// The page on its own.
pub fn instructor_ui(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let mut draft = Draft::load(ui.ctx(), view);
    faults(ui, view, &mut draft, out);
    draft.save(ui.ctx());
}

/// The page inside another panel.
pub fn faults(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    heading(ui, theme, "Inside view");
    if toggle(ui, theme, "Show the inside", view.ui_state.show_inside).clicked() {
        out.push(Command::ToggleInside);
    }
    let seen = view.snapshot.inside.as_ref();
    if seen.is_none() {
        small(ui, theme, "While the inside is hidden, the list does not tell which faults are in.");
    }
    ScrollArea::vertical().id_salt("faults").auto_shrink([false, false]).show(ui, |ui| {
        for group in Group::ALL {
            heading(ui, theme, group.name());
            for id in FaultId::ALL.into_iter().filter(|id| id.info().group == group) {
                let active = seen.and_then(|i| i.faults.iter().find(|f| f.id == id)).map(|f| f.severity);
                let state = active.map(|s| in_words(id, s)).unwrap_or_default();
                let open = draft.fault == Some(id);
                if choice(ui, theme, id.info().name, &state, open).clicked() {
                    draft.fault = (!open).then_some(id);
                }
                if open {
                    act_on(ui, view, draft, id, out);
                }
            }
        }
    });
}

/// A severity with its meaning kept short.
fn in_words(id: FaultId, severity: f64) -> String {
    if id.info().severity.is_none() { "active".into() } else { format!("active, {}", amount(id, severity)) }
}

fn amount(id: FaultId, severity: f64) -> String {
    match id {
        FaultId::AirInLoop | FaultId::Moisture => format!("{severity:.1} g"),
        _ => format!("{:.0} %", severity * 100.0),
    }
}

fn act_on(ui: &mut Ui, view: &DeskView, draft: &mut Draft, id: FaultId, out: &mut Vec<Command>) {
    let (theme, info) = (view.theme, id.info());
    card(ui, theme, theme.chosen, |ui| {
        small(ui, theme, info.changes);
        let severity = draft.severity[id as usize];
        if let Some(s) = info.severity {
            let step = (s.max - s.min) / 100.0;
            let new = slider(ui, theme, s.meaning, &amount(id, severity), severity, s.min..=s.max, step);
            draft.severity[id as usize] = new.unwrap_or(severity).clamp(s.min, s.max);
        }
        let severity = draft.severity[id as usize];
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
            let third = (ui.available_width() - 8.0) / 3.0;
            if button(ui, theme, "Impose", third, true).clicked() {
                out.push(Command::Act(Action::ImposeFault { id, severity }));
            }
            if info.severity.is_some() && button(ui, theme, "Over 60 s", third, false).clicked() {
                out.push(Command::Act(Action::RampFault { id, severity, over_s: RAMP_S }));
            }
            if button(ui, theme, "Clear", third, false).clicked() {
                out.push(Command::Act(Action::ClearFault { id }));
            }
        });
    });
}
