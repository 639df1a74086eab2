//! Beside the wiring: the meter with its leads, what is chosen, the knobs that matter here, and all points as a list for
//! the keyboard.

use egui::{ScrollArea, Ui};

use super::{Page, tools};
use crate::bench::Action;
use crate::circuit::Guard;
use crate::circuit::spec::{GROUND, Kind};
use crate::desk::panels::gate::gate;
use crate::desk::panels::parts::{body, choice, entry, heading, small, toggle};
use crate::desk::panels::{Draft, controls};
use crate::desk::{Command, DeskView};
use crate::instrument::{MeterMode, Probe, Tool, is_over};
use crate::knobs::{Change, Knob};

/// Where the red lead of a meter is that shows volts, and how many [V].
pub fn red_lead<'a>(view: &DeskView<'a>) -> Option<(&'a str, f64)> {
    view.snapshot.instruments.placed.iter().find_map(|(probe, value)| match probe {
        Probe::Meter { mode: MeterMode::VoltsDc, red, .. } if !is_over(*value) => {
            Some((red.as_str(), *value))
        }
        _ => None,
    })
}

/// Can a lead be put on a point at all?
pub fn has_meter(view: &DeskView) -> bool {
    let leads = [Tool::Meter, Tool::TestLamp, Tool::Jumper];
    leads.iter().any(|tool| view.scenario.has(*tool))
}

/// The column.
pub fn column(ui: &mut Ui, view: &DeskView, page: &mut Page, out: &mut Vec<Command>) {
    let mut draft = Draft::load(ui.ctx(), view);
    let height = ui.available_height();
    ScrollArea::vertical().id_salt("tools").max_height(height * 0.62).auto_shrink([false, true]).show(
        ui,
        |ui| {
            ui.set_width(ui.available_width() - 2.0);
            tools::tools(ui, view, page, &mut draft, out);
            chosen(ui, view, page);
            knobs(ui, view, &mut draft, out);
        },
    );
    points(ui, view, page, &mut draft, out);
    draft.save(ui.ctx());
}

/// What was clicked in the drawing, in words.
fn chosen(ui: &mut Ui, view: &DeskView, page: &Page) {
    let theme = view.theme;
    heading(ui, theme, "Chosen part");
    let circuit = &view.rig.circuit;
    let number = page.part.as_ref().and_then(|id| circuit.parts.iter().position(|p| p.id == *id));
    let Some(n) = number else {
        let supply = page.part.as_ref().and_then(|id| circuit.supplies.iter().find(|s| s.id == *id));
        match supply {
            Some(supply) => body(ui, theme, &supply.name),
            None => small(ui, theme, "Click a symbol to read what it is."),
        };
        return;
    };
    let part = &circuit.parts[n];
    let place = view.rig.pictures.places.iter().find(|m| m.id == part.place).map(|m| m.name.as_str());
    body(ui, theme, &part.name);
    let mut lines = vec![kind_words(&part.kind)];
    lines.extend(place.map(|p| format!("sits at: {p}")));
    if let Some(amps) = view.amps.get(n) {
        lines.push(format!("carries {} now", amps_words(*amps)));
    }
    small(ui, theme, &lines.join(" · "));
}

/// A current short enough to stand on the drawing.
pub fn amps_words(amps: f64) -> String {
    let size = amps.abs();
    if size < 0.0005 {
        "0 A".into()
    } else if size < 0.1 {
        format!("{:.0} mA", size * 1e3)
    } else {
        format!("{size:.1} A")
    }
}

/// Volts short enough to stand on the drawing.
pub fn volts_words(volts: f64) -> String {
    let text = if volts.abs() < 99.95 { format!("{volts:.1} V") } else { format!("{volts:.0} V") };
    crate::desk::panels::words::signed(if text == "-0.0 V" { "0.0 V" } else { &text })
}

fn kind_words(kind: &Kind) -> String {
    match kind {
        Kind::Fuse { amps, .. } => format!("fuse, {amps:.0} A"),
        Kind::Coil { ohm, .. } => format!("relay coil, {ohm:.0} ohm"),
        Kind::Contact { normally_closed: true, .. } => "relay contact, closed at rest".into(),
        Kind::Contact { .. } => "relay contact, open at rest".into(),
        Kind::Switch { .. } => "switch worked by hand".into(),
        Kind::PressureSwitch { closes_gauge_pa, opens_gauge_pa, .. } => format!(
            "pressure switch: closes at {:.1}, opens at {:.1} bar gauge",
            closes_gauge_pa / 1e5,
            opens_gauge_pa / 1e5
        ),
        Kind::Thermostat { .. } => "temperature switch".into(),
        Kind::Timer { .. } => "clock with a contact".into(),
        Kind::ClutchCoil { ohm, .. } => format!("clutch coil, {ohm:.1} ohm cold"),
        Kind::Diode => "diode: takes the kick of the coil".into(),
        Kind::Motor { .. } => "motor".into(),
        Kind::Resistor { ohm } if *ohm >= 1e6 => format!("{:.0} Mohm", ohm / 1e6),
        Kind::Resistor { ohm } if *ohm >= 1e3 => format!("{:.1} kohm", ohm / 1e3),
        Kind::Resistor { ohm } => format!("{ohm:.2} ohm"),
        Kind::Lamp { .. } => "lamp".into(),
        Kind::Regulator { .. } => "power module: holds the motor at a share".into(),
        Kind::PressureSensor { .. } => "three-wire pressure sensor".into(),
        Kind::Thermistor { r25_ohm, .. } => format!("thermistor, {:.1} kohm at 25 °C", r25_ohm / 1e3),
        Kind::Reference { volts, .. } => format!("steady {volts:.0} V of the control unit"),
        Kind::Driver { .. } => "output of a control unit".into(),
        Kind::Solenoid { .. } => "solenoid valve".into(),
        Kind::Stepper { .. } => "stepper motor".into(),
        Kind::Inverter { .. } => "inverter with its motor".into(),
        Kind::Capacitor { farad } => format!("capacitor, {:.0} microfarad", farad * 1e6),
        Kind::RunWinding { ohm, .. } | Kind::StartWinding { ohm, .. } => {
            format!("winding, {ohm:.1} ohm cold")
        }
        Kind::Overload { holds_a, .. } => format!("overload, holds {holds_a:.0} A"),
        Kind::Isolator { .. } => "isolator".into(),
        Kind::Wire { ohm } => format!("wire, {:.0} mohm", ohm * 1e3),
    }
}

/// The knobs one works while measuring.
fn knobs(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let (theme, c) = (view.theme, &view.snapshot.controls);
    heading(ui, theme, "Meanwhile");
    let drive = view.snapshot.topology.drive;
    if toggle(ui, theme, controls::label(Knob::EngineOn, drive), c.engine_on).clicked() {
        draft.ask(Action::Set(Change::EngineOn(!c.engine_on)), out);
    }
    gate(ui, theme, draft, &Action::Set(Change::EngineOn(true)), controls::confirm(drive), out);
    let air = Knob::AcRequest.info();
    if view.snapshot.topology.has(air.fits) && toggle(ui, theme, air.label, c.ac_request).clicked() {
        out.push(Command::Act(Action::Set(Change::AcRequest(!c.ac_request))));
    }
}

fn points(ui: &mut Ui, view: &DeskView, page: &mut Page, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    heading(ui, theme, tools::next_words(page));
    let width = ui.available_width();
    entry(ui, theme, "Find a point", "Find: letters of a name or number", &mut page.find, width);
    let wanted = page.find.to_lowercase();
    let now = red_lead(view).map(|(id, _)| id);
    ScrollArea::vertical().id_salt("points").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let ground = "Body: battery minus, earth";
        if ground.to_lowercase().contains(&wanted) {
            let here = page.red.as_deref() == Some(GROUND) || page.black.as_deref() == Some(GROUND);
            if choice(ui, theme, ground, "", here).clicked() {
                tools::touch(view, page, draft, GROUND, out);
            }
        }
        for point in &view.rig.circuit.points {
            if !point.label.to_lowercase().contains(&wanted) && !point.terminal.contains(wanted.as_str()) {
                continue;
            }
            let guarded = if point.guard == Guard::None { "" } else { "danger" };
            let here = now == Some(point.id.as_str())
                || page.red.as_deref() == Some(point.id.as_str())
                || page.black.as_deref() == Some(point.id.as_str());
            if choice(ui, theme, &point.label, guarded, here).clicked() {
                tools::touch(view, page, draft, &point.id, out);
            }
        }
    });
}
