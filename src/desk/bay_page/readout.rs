//! Faces of instruments in the drawing: switched on by the first click, written into the notebook by the next.

use egui::{Rect, Response, Ui};

use super::hands::Hands;
use super::knobs::display;
use crate::bench::Action;
use crate::desk::panels::words;
use crate::instrument::Probe;

/// What an instrument shows, if it is on.
pub fn shown(hands: &Hands, probe: &Probe) -> Option<f64> {
    let placed = &hands.view.snapshot.instruments.placed;
    placed.iter().find(|(p, _)| p == probe).map(|(_, value)| *value)
}

/// A display. Where the tool does not lie on the bench, a dark one.
pub fn readout(ui: &mut Ui, hands: &mut Hands, rect: Rect, name: &str, probe: &Probe) -> Response {
    let theme = hands.view.theme;
    let there = hands.view.brief.has(probe.tool());
    let value = shown(hands, probe);
    let text = match value {
        Some(si) => short(hands, probe, si),
        None if there => "switch on".to_owned(),
        None => "- - -".to_owned(),
    };
    let called = match value {
        Some(_) => format!("{name}, write it down:"),
        None => format!("{name}:"),
    };
    let response = display(ui, theme, rect, &text, &called, there);
    if response.clicked() {
        let action = if value.is_some() { Action::Read(probe.clone()) } else { Action::Place(probe.clone()) };
        hands.ask(action, rect);
    }
    let hint = if value.is_some() { "Click to write it down." } else { "Click to switch it on." };
    if there { response.on_hover_text(format!("{name}. {hint}")) } else { response }
}

/// Short enough for a small display.
fn short(hands: &Hands, probe: &Probe, si: f64) -> String {
    let text = words::value(hands.view.units, probe, si);
    // The vacuum gauge says it in two units; the face has room for one.
    text.split(" (").next().unwrap_or(&text).to_owned()
}
