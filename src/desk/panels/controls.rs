//! What the driver and the weather do.

use egui::Ui;

use super::gate::gate;
use super::parts::{heading, prepare, slider, toggle};
use super::{Draft, propose, words};
use crate::bench::Action;
use crate::desk::{Command, DeskView};
use crate::units::{Kelvin, Units};

/// Engine, climate controls, road and weather.
pub fn controls_ui(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    vehicle(ui, view, out);
    weather(ui, view, out);
}

fn vehicle(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let (c, theme) = (&view.snapshot.controls, view.theme);
    heading(ui, theme, "Vehicle");
    if toggle(ui, theme, "Engine", c.engine_on).clicked() {
        propose(ui.ctx(), view, Action::EngineOn(!c.engine_on), out);
    }
    let mut draft = Draft::load(ui.ctx(), view);
    gate(ui, theme, &mut draft, &Action::EngineOn(true), "Start, exhaust hose on", out);
    draft.save(ui.ctx());

    let text = format!("{:.0} rpm", c.engine_rpm);
    if let Some(v) = slider(ui, theme, "Engine speed", &text, c.engine_rpm, 500.0..=6000.0, 50.0) {
        out.push(Command::Act(Action::EngineRpm(v)));
    }
    if toggle(ui, theme, "A/C request", c.ac_request).clicked() {
        out.push(Command::Act(Action::AcRequest(!c.ac_request)));
    }
    let text = format!("{:.0} %", c.blower_pct);
    if let Some(v) = slider(ui, theme, "Blower", &text, c.blower_pct, 0.0..=100.0, 5.0) {
        out.push(Command::Act(Action::BlowerPct(v)));
    }
    if toggle(ui, theme, "Recirculation", c.recirculate).clicked() {
        out.push(Command::Act(Action::Recirculate(!c.recirculate)));
    }
    let text = format!("{:.0} km/h", c.road_speed_kmh);
    if let Some(v) = slider(ui, theme, "Road speed", &text, c.road_speed_kmh, 0.0..=180.0, 5.0) {
        out.push(Command::Act(Action::RoadSpeedKmh(v)));
    }
}

fn weather(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let (c, theme, units) = (&view.snapshot.controls, view.theme, view.units);
    heading(ui, theme, "Weather");
    let shown = |celsius: f64| units.temperature_value(Kelvin::from_c(celsius));
    let text = words::signed(&format!("{:.0} {}", shown(c.ambient_c), units.temperature_unit()));
    let range = shown(-20.0)..=shown(55.0);
    if let Some(v) = slider(ui, theme, "Outside air", &text, shown(c.ambient_c), range, 1.0) {
        let celsius = if units == Units::Psi { (v - 32.0) / 1.8 } else { v };
        out.push(Command::Act(Action::AmbientC(celsius.clamp(-20.0, 55.0))));
    }
    let text = format!("{:.0} %", c.relative_humidity_pct);
    if let Some(v) = slider(ui, theme, "Humidity", &text, c.relative_humidity_pct, 0.0..=100.0, 5.0) {
        out.push(Command::Act(Action::RelativeHumidityPct(v)));
    }
}
