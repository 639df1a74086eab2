//! The instructor's page: impose, ramp or clear any of the faults, and hide or show the inside.

use egui::{ScrollArea, Ui, vec2};

use super::Draft;
use super::parts::{button, card, choice, entry, heading, prepare, slider, small, toggle};
use super::words;
use crate::bench::Action;
use crate::desk::{Command, DeskView};
use crate::fault::FaultId;

/// How long a growing fault may take to come to its severity [s].
const GROWS_S: [(f64, &str); 3] = [(60.0, "1 min"), (300.0, "5 min"), (1200.0, "20 min")];

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
    let width = ui.available_width();
    entry(ui, theme, "Find a fault", "Find: letters of a name or group", &mut draft.find, width);
    ScrollArea::vertical().id_salt("faults").auto_shrink([false, false]).show(ui, |ui| {
        let mut none = true;
        for group in words::groups(view) {
            let here: Vec<FaultId> = FaultId::on(view.rig)
                .filter(|&id| id.info().group == group && words::found(id, &draft.find))
                .collect();
            if here.is_empty() {
                continue;
            }
            none = false;
            heading(ui, theme, group.name());
            for id in here {
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
        if none {
            small(ui, theme, "No fault of this rig has these letters.");
        }
    });
}

/// A severity with its meaning kept short.
fn in_words(id: FaultId, severity: f64) -> String {
    if id.info().severity.is_none() { "active".into() } else { format!("active, {}", amount(id, severity)) }
}

/// A severity with its unit; a share as a percentage.
fn amount(id: FaultId, severity: f64) -> String {
    match id.info().severity.map(|s| s.unit).unwrap_or_default() {
        "" => format!("{:.0} %", severity * 100.0),
        unit if severity.abs() >= 100.0 => format!("{severity:.0} {unit}"),
        unit => format!("{severity:.1} {unit}"),
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
            let half = (ui.available_width() - 4.0) / 2.0;
            if button(ui, theme, "Impose", half, true).clicked() {
                out.push(Command::Act(Action::ImposeFault { id, severity }));
            }
            if button(ui, theme, "Clear", half, false).clicked() {
                out.push(Command::Act(Action::ClearFault { id }));
            }
        });
        if info.severity.is_some() {
            small(ui, theme, "Or let it grow, from now on, over");
            ui.horizontal(|ui| {
                ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
                let third = (ui.available_width() - 8.0) / 3.0;
                for (over_s, name) in GROWS_S {
                    if button(ui, theme, name, third, false).clicked() {
                        out.push(Command::Act(Action::RampFault { id, severity, over_s }));
                    }
                }
            });
        }
        small(ui, theme, &format!("Cured by: {}.", info.repair()));
    });
}
