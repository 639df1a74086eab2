//! The form that names the cause.

use egui::{ScrollArea, Ui};

use super::parts::{body, button, choice, entry, heading, slider, small};
use super::{Draft, words};
use crate::bench::{Action, Diagnosis, TICK_S};
use crate::desk::{Command, DeskView, Screen};
use crate::fault::FaultId;
use crate::lesson::Hypothesis;

/// Cause, evidence, confidence, reason, and the button that hands it in.
pub fn diagnose(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    let footer = 172.0;
    heading(ui, theme, "Name the cause");
    let width = ui.available_width();
    entry(ui, theme, "Find a cause", "Find: letters of a name or group", &mut draft.find, width);
    let height = (ui.available_height() - footer).max(120.0);
    ScrollArea::vertical().id_salt("causes").max_height(height).auto_shrink([false, false]).show(ui, |ui| {
        let well: Hypothesis = Hypothesis::Healthy;
        if choice(ui, theme, well.name(), "", draft.cause == Some(well)).clicked() {
            draft.cause = Some(well);
        }
        for group in words::groups(view) {
            let here: Vec<FaultId> = FaultId::on(view.rig)
                .filter(|&id| id.info().group == group && words::found(id, &draft.find))
                .collect();
            if here.is_empty() {
                continue;
            }
            small(ui, theme, group.name());
            for id in here {
                let cause = Hypothesis::Fault(id);
                if choice(ui, theme, id.info().name, "", draft.cause == Some(cause)).clicked() {
                    draft.cause = Some(cause);
                }
            }
        }
        evidence(ui, view, draft);
    });
    let share = draft.confidence;
    let text = format!("{}, {:.0} %", words::confidence(share), share * 100.0);
    if let Some(v) = slider(ui, theme, "How sure", &text, share * 100.0, 10.0..=100.0, 5.0) {
        draft.confidence = v / 100.0;
    }
    let width = ui.available_width();
    entry(ui, theme, "Because", "Because ...", &mut draft.because, width);
    match draft.lacks {
        Some(lacks) => body(ui, theme, lacks),
        None => small(ui, theme, &format!("Readings chosen as evidence: {}", draft.evidence.len())),
    };
    if button(ui, theme, "Hand it in", width, true).clicked() {
        hand_in(draft, view, out);
    }
    if button(ui, theme, "Back to the bench", width, false).clicked() {
        draft.form_open = false;
    }
}

/// Which readings speak for the cause.
fn evidence(ui: &mut Ui, view: &DeskView, draft: &mut Draft) {
    let theme = view.theme;
    let readings = &view.snapshot.instruments.notebook;
    heading(ui, theme, "Which readings show it?");
    if readings.is_empty() {
        small(ui, theme, "The notebook is empty. Go back and read something first.");
    }
    for (index, reading) in readings.iter().enumerate() {
        let picked = draft.evidence.contains(&index);
        let name = format!("{} {}", words::clock(reading.tick as f64 * TICK_S), reading.probe.short());
        let value = words::value_with_uncertainty(view.units, reading);
        let row = ui.push_id(index, |ui| choice(ui, theme, &name, &value, picked)).inner;
        if row.clicked() {
            if picked {
                draft.evidence.retain(|&i| i != index);
            } else {
                draft.evidence.push(index);
            }
        }
    }
}

fn hand_in(draft: &mut Draft, view: &DeskView, out: &mut Vec<Command>) {
    let count = view.snapshot.instruments.notebook.len();
    draft.evidence.retain(|&index| index < count);
    draft.lacks = match draft.cause {
        None => Some("Choose a cause first."),
        Some(_) if draft.evidence.is_empty() => Some("Choose at least one reading as evidence."),
        Some(_) => None,
    };
    let (Some(cause), None) = (draft.cause, draft.lacks) else { return };
    let mut evidence = draft.evidence.clone();
    evidence.sort_unstable();
    draft.form_open = false;
    out.push(Command::Act(Action::Diagnose(Diagnosis {
        cause: cause.fault(),
        evidence,
        confidence: draft.confidence,
        because: draft.because.trim().to_owned(),
    })));
    out.push(Command::Show(Screen::Debrief));
}
