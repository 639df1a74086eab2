//! Instruments in the hand: choose one, choose its place, write down what it shows; among them the search for leaks.

use egui::Ui;

use super::hands::Hands;
use crate::desk::Command;
use crate::desk::panels::parts::{choice, heading, small};
use crate::desk::panels::tools::{in_use, state_of};
use crate::instrument::{Shelf, Tool};

/// The page.
pub fn instruments(ui: &mut Ui, hands: &mut Hands) {
    group(ui, hands, "Leak search", Shelf::LeakSearch);
    group(ui, hands, "Temperature and air", Shelf::Air);
    small(
        ui,
        hands.view.theme,
        "Gauges, scales, vacuum gauge and identifier are read in the drawing: click them.",
    );
}

/// Tools two abreast, and below them the places of the one in hand.
fn group(ui: &mut Ui, hands: &mut Hands, title: &str, shelf: Shelf) {
    let theme = hands.view.theme;
    let brief = hands.view.brief;
    let on_it = |tool: &Tool| tool.shelf() == shelf && brief.has(*tool);
    let here: Vec<Tool> = Tool::ALL.into_iter().filter(on_it).collect();
    if here.is_empty() {
        return;
    }
    heading(ui, theme, title);
    let in_hand = hands.view.ui_state.tool;
    for pair in here.chunks(2) {
        ui.columns(2, |columns| {
            for (column, &tool) in columns.iter_mut().zip(pair) {
                let chosen = in_hand == Some(tool);
                if choice(column, theme, tool.name(), &state_of(hands.view, tool), chosen).clicked() {
                    hands.draft.pending = None;
                    hands.out.push(Command::ChooseTool((!chosen).then_some(tool)));
                }
            }
        });
    }
    if let Some(tool) = in_hand.filter(|tool| here.contains(tool)) {
        small(ui, theme, tool.touches());
        let waited = hands.draft.pending.clone();
        in_use(ui, hands.view, tool, hands.draft, hands.out);
        if hands.draft.pending != waited {
            // Its caution stands in the list, beside the place.
            hands.page.anchor = None;
        }
    }
}
