//! Values worked out from readings: choose the readings, give the answer with its unit, and see whether it is right.

use egui::{Ui, vec2};

use super::hands::Hands;
use super::knobs::one_of;
use super::sum::Sum;
use crate::bay::worked::{Worked, check_in};
use crate::bay::{BayAction, WorkedValue};
use crate::bench::TICK_S;
use crate::desk::panels::parts::{body, button, capital, card, choice, entry, heading, small};
use crate::desk::panels::words;
use crate::instrument::{Probe, Reading};
use crate::refrigerant::Refrigerant;

/// Readings shown at most, newest first.
const MOST: usize = 14;

/// The page.
pub fn worked(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    heading(ui, theme, "Work out");
    for row in WorkedValue::ALL.chunks(2) {
        ui.columns(2, |columns| {
            for (column, &what) in columns.iter_mut().zip(row) {
                if choice(column, theme, &capital(what.name()), "", hands.page.sum.what == what).clicked() {
                    let unit = what.units()[0];
                    hands.page.sum = Sum { what, unit, ..Sum::default() };
                }
            }
        });
    }
    small(ui, theme, &format!("Needs {}.", hands.page.sum.what.needs_words()));
    readings(ui, hands);
    answer(ui, hands);
    verdicts(ui, hands);
}

/// Readings that a sum may come from, newest first.
fn readings(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    heading(ui, theme, "From these readings");
    let notebook = &hands.view.snapshot.instruments.notebook;
    let fits =
        |r: &Reading| matches!(r.probe, Probe::LowGauge | Probe::HighGauge | Probe::Pipe(_) | Probe::Air(_));
    let here: Vec<(usize, &Reading)> =
        notebook.iter().enumerate().rev().filter(|(_, r)| fits(r)).take(MOST).collect();
    if here.is_empty() {
        small(ui, theme, "No gauge or thermometer stands in the notebook yet.");
    }
    for (index, reading) in here {
        let at = words::clock(reading.tick as f64 * TICK_S);
        let name = format!("{at}  {}", reading.probe.short());
        let value = words::value(hands.view.units, &reading.probe, reading.value);
        let chosen = hands.page.sum.readings.contains(&index);
        if ui.push_id(index, |ui| choice(ui, theme, &name, &value, chosen)).inner.clicked() {
            let list = &mut hands.page.sum.readings;
            match list.iter().position(|&i| i == index) {
                Some(there) => {
                    list.remove(there);
                }
                None => list.push(index),
            }
        }
    }
}

fn answer(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    heading(ui, theme, "Your answer");
    let choices = hands.page.sum.what.units();
    let mut entered = false;
    ui.horizontal(|ui| {
        entered = entry(ui, theme, "Answer", "number", &mut hands.page.sum.answer, 90.0);
        let width = (ui.available_width() - 6.0 * (choices.len() - 1) as f32) / choices.len() as f32;
        for unit in choices {
            let (rect, _) = ui.allocate_exact_size(vec2(width, 24.0), egui::Sense::hover());
            if one_of(
                ui,
                theme,
                rect,
                unit.symbol(),
                &format!("Unit: {}", unit.name()),
                hands.page.sum.unit == *unit,
            )
            .clicked()
            {
                hands.page.sum.unit = *unit;
            }
        }
    });
    let number = hands.page.sum.answer.trim().replace(',', ".").replace('−', "-").parse::<f64>();
    let ready = number.is_ok() && !hands.page.sum.readings.is_empty();
    let response =
        ui.add_enabled_ui(ready, |ui| button(ui, theme, "Say so", ui.available_width(), ready)).inner;
    if let (Ok(answer), true) = (number, ready && (response.clicked() || entered)) {
        hands.page.sum.answer.clear();
        let (what, unit) = (hands.page.sum.what, hands.page.sum.unit);
        let readings = hands.page.sum.readings.clone();
        hands.bay(BayAction::Work { what, readings, answer, unit }, response.rect);
    }
}

/// Answers given, newest first, each with its verdict.
fn verdicts(ui: &mut Ui, hands: &Hands) {
    let theme = hands.view.theme;
    let done = &hands.face.bay.worked;
    let Some(refrigerant) = Refrigerant::by_name(&hands.face.refrigerant) else { return };
    let notebook = &hands.view.snapshot.instruments.notebook;
    let ambient_pa = hands.view.snapshot.controls.ambient_pa();
    if !done.is_empty() {
        heading(ui, theme, "Answers");
    }
    for work in done.iter().rev() {
        let checked: Worked =
            check_in(notebook, &work.readings, work.what, work.answer, work.unit, refrigerant, ambient_pa);
        card(ui, theme, if checked.right() { theme.good } else { theme.line }, |ui| {
            let unit = work.unit.symbol();
            let at = words::clock(work.tick as f64 * TICK_S);
            small(ui, theme, &format!("{at}  {}: {} {unit}", capital(work.what.name()), work.answer));
            body(ui, theme, &checked.to_string());
        });
    }
}
