//! The row above the drawing: what protects the person, and what runs in the car.

use egui::{Align, Rect, Ui, pos2, vec2};

use super::hands::Hands;
use super::knobs::{key, stepper, switch};
use crate::bay::BayAction;
use crate::bay::oil_balance::oil_ml;
use crate::bench::{Action, DriveKind};
use crate::desk::Command;
use crate::desk::panels::controls;
use crate::desk::panels::parts::{SMALL, write};

/// Draw it.
pub fn switches(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    let area = ui.max_rect();
    let mut left = area.left();
    let mut cell = |width: f32, gap: f32| {
        let rect = Rect::from_min_size(pos2(left, area.top()), vec2(width, 28.0));
        left = rect.right() + gap;
        rect
    };
    let bay = &hands.face.bay;
    let (protected, ventilated) = (bay.protected, bay.ventilated);
    let rect = cell(170.0, 6.0);
    if switch(ui, theme, rect, "Goggles and gloves", "Goggles and gloves", protected).clicked() {
        hands.bay(BayAction::Protect(!protected), rect);
    }
    let rect = cell(190.0, 18.0);
    let name = "Extraction on, doors open";
    if switch(ui, theme, rect, "Extraction, doors open", name, ventilated).clicked() {
        hands.bay(BayAction::Ventilate(!ventilated), rect);
    }
    let controls = hands.view.snapshot.controls;
    let drive = hands.view.snapshot.topology.drive;
    let rect =
        cell(if matches!(drive, DriveKind::Belt | DriveKind::VariableBelt) { 104.0 } else { 150.0 }, 6.0);
    let word = controls::switch(drive);
    if switch(ui, theme, rect, word, word, controls.engine_on).clicked() {
        hands.ask(Action::EngineOn(!controls.engine_on), rect);
    }
    if matches!(drive, DriveKind::Belt | DriveKind::VariableBelt) {
        let rect = cell(130.0, 6.0);
        let text = format!("{:.0} rpm", controls.engine_rpm);
        let range = 500.0..=6000.0;
        if let Some(v) = stepper(ui, theme, rect, "engine speed", &text, controls.engine_rpm, range, 100.0) {
            hands.ask(Action::EngineRpm(v), rect);
        }
    }
    if drive != DriveKind::Hermetic {
        let rect = cell(86.0, 6.0);
        if switch(ui, theme, rect, "A/C", "A/C request", controls.ac_request).clicked() {
            hands.ask(Action::AcRequest(!controls.ac_request), rect);
        }
        let rect = cell(150.0, 18.0);
        let text = format!("blower {:.0} %", controls.blower_pct);
        if let Some(v) = stepper(ui, theme, rect, "blower", &text, controls.blower_pct, 0.0..=100.0, 25.0) {
            hands.ask(Action::BlowerPct(v), rect);
        }
    }
    let back = Rect::from_min_size(pos2(area.right() - 130.0, area.top()), vec2(130.0, 28.0));
    let room = Rect::from_min_max(pos2(left, area.top()), pos2(back.left() - 10.0, back.bottom()));
    let label = format!(
        "Label: {}, {:.0} g, oil {:.0} mL",
        hands.face.refrigerant,
        1e3 * hands.face.label_charge_kg,
        oil_ml(hands.face.label_oil_kg)
    );
    write(ui, room, Align::Max, &label, SMALL, theme.muted);
    if key(ui, theme, back, "Back to the bench", "Back to the bench").clicked() {
        hands.out.push(Command::ShowBench);
    }
}
