//! The reader of control units: codes, and values that can be written down.

use egui::Ui;

use crate::bench::Action;
use crate::desk::panels::parts::{body, button, choice, small, toggle};
use crate::desk::panels::words;
use crate::desk::{Command, DeskView};
use crate::instrument::Probe;

/// Its screen.
pub fn reader(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let theme = view.theme;
    let faces = &view.snapshot.instruments.electrical;
    if toggle(ui, theme, "In the diagnostic socket", faces.done.reader).clicked() {
        out.push(Command::Act(Action::Reader(!faces.done.reader)));
    }
    let Some(face) = &faces.reader else {
        small(ui, theme, "Not plugged in, or no control unit answers.");
        return;
    };
    if face.codes.is_empty() {
        small(ui, theme, "No codes stored.");
    }
    for (_, says, present) in &face.codes {
        body(ui, theme, &format!("{says} ({})", if *present { "present" } else { "stored" }));
    }
    if !face.codes.is_empty() && button(ui, theme, "Clear codes", ui.available_width(), false).clicked() {
        out.push(Command::Act(Action::ClearCodes));
    }
    small(ui, theme, "Click a value to write it down.");
    for (unit, id, name, value, of) in &face.values {
        let text = value.map_or_else(|| "implausible".to_owned(), |v| reader_value(v, of));
        let row = ui.push_id((unit, id), |ui| choice(ui, theme, name, &text, false)).inner;
        if row.clicked() {
            let probe = Probe::UnitValue { unit: unit.clone(), id: id.clone() };
            out.push(Command::Act(Action::Read(probe)));
        }
    }
}

/// A value of a control unit; temperatures and pressures as people say them.
fn reader_value(value: f64, unit: &str) -> String {
    words::signed(&match unit {
        "K" if value > 150.0 => format!("{:.1} °C", crate::units::Kelvin(value).c()),
        "K" => format!("{value:.1} K"),
        "Pa" => format!("{:.2} bar", value / 1e5),
        "" => format!("{value:.0}"),
        unit => format!("{value:.1} {unit}"),
    })
}
