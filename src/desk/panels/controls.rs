//! The knobs that the desk offers: what the driver does, what state the rig is in, what the weather is.

use egui::Ui;

use super::gate::gate;
use super::parts::{heading, prepare, slider, toggle};
use super::{Draft, words};
use crate::bench::{Action, DriveKind};
use crate::desk::{Command, DeskView, Papers};
use crate::knobs::{Change, Knob, Scale, TurnedBy, Value};
use crate::units::{Kelvin, Units};

/// Switches and sliders of the knobs that the rig has.
pub fn controls_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let (drive, draft) = (view.snapshot.topology.drive, &mut papers.draft);
    heading(ui, view.theme, if drive == DriveKind::Hermetic { "Cold room" } else { "Vehicle" });
    for knob in offered(view, &[TurnedBy::Driver, TurnedBy::Condition]) {
        turn(ui, view, knob, draft, out);
        if knob == Knob::EngineOn {
            gate(ui, view.theme, draft, &Action::Set(Change::EngineOn(true)), confirm(drive), out);
        }
    }
    heading(ui, view.theme, "Weather");
    for knob in offered(view, &[TurnedBy::Weather]) {
        turn(ui, view, knob, draft, out);
    }
}

/// Knobs of the rig that these turn, in the order of the table.
fn offered(view: &DeskView, turned_by: &[TurnedBy]) -> impl Iterator<Item = Knob> {
    Knob::ALL.iter().copied().filter(move |knob| {
        let info = knob.info();
        view.snapshot.topology.has(info.fits) && turned_by.contains(&info.turned_by)
    })
}

/// The switch or slider of a knob.
fn turn(ui: &mut Ui, view: &DeskView, knob: Knob, draft: &mut Draft, out: &mut Vec<Command>) {
    let (theme, now) = (view.theme, view.snapshot.controls.get(knob));
    let label = label(knob, view.snapshot.topology.drive);
    let asked = match (knob.info().scale, now.value()) {
        (Scale::Number { range, step }, Value::Number(value)) => {
            let shown = Shown::new(view.units, range.unit);
            let text = format!("{:.0} {}", shown.of(value), shown.unit);
            let text = words::signed(text.trim_end());
            let ends = shown.of(range.min)..=shown.of(range.max);
            slider(ui, theme, label, &text, shown.of(value), ends, step)
                .map(|new| Value::Number(shown.back(new).clamp(range.min, range.max)))
        }
        (_, Value::Switch(on)) => toggle(ui, theme, label, on).clicked().then_some(Value::Switch(!on)),
        (Scale::Switch, Value::Number(_)) => None,
    };
    match asked.and_then(|value| knob.to(value)) {
        // A start waits behind its caution.
        Some(start @ Change::EngineOn(_)) => draft.ask(Action::Set(start), out),
        Some(change) => out.push(Command::Act(Action::Set(change))),
        None => {}
    }
}

/// A knob's number as the person reads it: degrees Fahrenheit where they chose these.
struct Shown {
    unit: &'static str,
    fahrenheit: bool,
}

impl Shown {
    fn new(units: Units, unit: &'static str) -> Self {
        // Short, as the dashboard has it; the column is narrow.
        let unit = if unit == "rev/min" { "rpm" } else { unit };
        let temperature = unit == Units::Bar.temperature_unit();
        let fahrenheit = temperature && units == Units::Psi;
        Self { unit: if temperature { units.temperature_unit() } else { unit }, fahrenheit }
    }
    fn of(&self, value: f64) -> f64 {
        if self.fahrenheit { Units::Psi.temperature_value(Kelvin::from_c(value)) } else { value }
    }
    fn back(&self, shown: f64) -> f64 {
        if self.fahrenheit { Kelvin::from_f(shown).c() } else { shown }
    }
}

/// What a knob is called on a rig: what starts it has a word of its own.
pub fn label(knob: Knob, drive: DriveKind) -> &'static str {
    match (knob, drive) {
        (Knob::EngineOn, DriveKind::Electric) => "Ready to drive",
        (Knob::EngineOn, DriveKind::Hermetic) => "Main switch",
        _ => knob.info().label,
    }
}

/// What the button behind the caution of switching on says.
pub fn confirm(drive: DriveKind) -> &'static str {
    match drive {
        DriveKind::Belt | DriveKind::VariableBelt => "Start, exhaust hose on",
        DriveKind::Electric | DriveKind::Hermetic => "Switch on, hands clear",
    }
}
