//! What the driver and the weather do.

use egui::Ui;

use super::gate::gate;
use super::parts::{heading, prepare, slider, toggle};
use super::{Draft, propose, words};
use crate::bench::{Action, DriveKind};
use crate::desk::{Command, DeskView};
use crate::units::{Kelvin, Units};

/// Engine, climate controls, road and weather.
pub fn controls_ui(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    vehicle(ui, view, out);
    weather(ui, view, out);
}

/// What starts a rig, in its own words.
pub fn switch(drive: DriveKind) -> &'static str {
    match drive {
        DriveKind::Belt | DriveKind::VariableBelt => "Engine",
        DriveKind::Electric => "Ready to drive",
        DriveKind::Hermetic => "Main switch",
    }
}

fn vehicle(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let (c, theme) = (&view.snapshot.controls, view.theme);
    let drive = view.snapshot.topology.drive;
    heading(ui, theme, if drive == DriveKind::Hermetic { "Cold room" } else { "Vehicle" });
    if toggle(ui, theme, switch(drive), c.engine_on).clicked() {
        propose(ui.ctx(), view, Action::EngineOn(!c.engine_on), out);
    }
    let mut draft = Draft::load(ui.ctx(), view);
    gate(ui, theme, &mut draft, &Action::EngineOn(true), confirm(drive), out);
    draft.save(ui.ctx());

    if drive == DriveKind::Hermetic {
        let text = format!("{:.0} %", c.doors_open_pct);
        if let Some(v) = slider(ui, theme, "Door open", &text, c.doors_open_pct, 0.0..=100.0, 5.0) {
            out.push(Command::Act(Action::DoorsOpenPct(v)));
        }
        return;
    }
    let belt = matches!(drive, DriveKind::Belt | DriveKind::VariableBelt);
    let text = format!("{:.0} rpm", c.engine_rpm);
    if belt && let Some(v) = slider(ui, theme, "Engine speed", &text, c.engine_rpm, 500.0..=6000.0, 50.0) {
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
    if view.snapshot.topology.chiller {
        let text = format!("{:.0} W", c.battery_heat_w);
        if let Some(v) = slider(ui, theme, "Battery heat", &text, c.battery_heat_w, 0.0..=5000.0, 100.0) {
            out.push(Command::Act(Action::BatteryHeatW(v)));
        }
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

/// What the button behind the caution of switching on says.
pub fn confirm(drive: DriveKind) -> &'static str {
    match drive {
        DriveKind::Belt | DriveKind::VariableBelt => "Start, exhaust hose on",
        DriveKind::Electric | DriveKind::Hermetic => "Switch on, hands clear",
    }
}
