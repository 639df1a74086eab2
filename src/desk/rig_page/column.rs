//! Beside the wiring: the meter with its leads, what is chosen, the knobs that matter here, and all points as a list for
//! the keyboard.

use egui::{ScrollArea, Ui};

use super::page::Page;
use super::tools::tools;
use super::touch::{next_words, red_lead, touch};
use super::words::{amps_words, kind_words};
use crate::bench::Action;
use crate::circuit::Guard;
use crate::circuit::spec::GROUND;
use crate::desk::panels::gate::gate;
use crate::desk::panels::parts::{body, choice, entry, heading, small, toggle};
use crate::desk::panels::{Draft, controls};
use crate::desk::{Command, DeskView};
use crate::knobs::{Change, Knob};

/// The column.
pub fn column(ui: &mut Ui, view: &DeskView, page: &mut Page, draft: &mut Draft, out: &mut Vec<Command>) {
    let height = ui.available_height();
    ScrollArea::vertical().id_salt("tools").max_height(height * 0.62).auto_shrink([false, true]).show(
        ui,
        |ui| {
            ui.set_width(ui.available_width() - 2.0);
            tools(ui, view, page, draft, out);
            chosen(ui, view, page);
            knobs(ui, view, draft, out);
        },
    );
    points(ui, view, page, draft, out);
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
    heading(ui, theme, next_words(page));
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
                touch(view, page, draft, GROUND, out);
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
                touch(view, page, draft, &point.id, out);
            }
        }
    });
}
