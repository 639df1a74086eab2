//! The row above the drawing: what protects the person, and what runs in the car.

use std::ops::RangeInclusive;

use egui::{Align, Rect, Ui, pos2, vec2};

use super::hands::Hands;
use super::knobs::{key, stepper, switch};
use crate::bay::BayAction;
use crate::bay::oil_balance::oil_ml;
use crate::bench::Action;
use crate::desk::panels::controls;
use crate::desk::panels::parts::{SMALL, write};
use crate::desk::{Command, Screen};
use crate::knobs::{Change, Knob};

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
    let has = |knob: Knob| hands.view.snapshot.topology.has(knob.info().fits);
    let (speed, air, blower) = (has(Knob::EngineRpm), has(Knob::AcRequest), has(Knob::BlowerPct));
    let rect = cell(if speed { 104.0 } else { 150.0 }, 6.0);
    let word = controls::label(Knob::EngineOn, drive);
    if switch(ui, theme, rect, word, word, controls.engine_on).clicked() {
        hands.ask(Action::Set(Change::EngineOn(!controls.engine_on)), rect);
    }
    if speed {
        let rect = cell(130.0, 6.0);
        let text = format!("{:.0} rpm", controls.engine_rpm);
        let ends = ends(Knob::EngineRpm);
        if let Some(v) = stepper(ui, theme, rect, "engine speed", &text, controls.engine_rpm, ends, 100.0) {
            hands.ask(Action::Set(Change::EngineRpm(v)), rect);
        }
    }
    if air {
        let rect = cell(86.0, 6.0);
        let name = Knob::AcRequest.info().label;
        if switch(ui, theme, rect, "A/C", name, controls.ac_request).clicked() {
            hands.ask(Action::Set(Change::AcRequest(!controls.ac_request)), rect);
        }
    }
    if blower {
        let rect = cell(150.0, 18.0);
        let text = format!("blower {:.0} %", controls.blower_pct);
        let ends = ends(Knob::BlowerPct);
        if let Some(v) = stepper(ui, theme, rect, "blower", &text, controls.blower_pct, ends, 25.0) {
            hands.ask(Action::Set(Change::BlowerPct(v)), rect);
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
        hands.out.push(Command::Show(Screen::Bench));
    }
}

/// Where a number of the table ends.
fn ends(knob: Knob) -> RangeInclusive<f64> {
    knob.info().range().map_or(0.0..=0.0, |range| range.min..=range.max)
}
