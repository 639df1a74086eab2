//! The column beside the drawing: tabs of what to do, what there is, and what is written down.

use egui::{Rect, ScrollArea, Sense, Ui, vec2};

use super::hands::Hands;
use super::page::Tab;
use super::{chart, guide, instruments, ledger, record, repair, worked};
use crate::desk::panels::notebook::notebook;
use crate::desk::panels::parts;

/// Least width of the column in a window so wide [pt].
pub fn least_width(window: f32) -> f32 {
    (window * 0.27).clamp(340.0, 460.0)
}

/// Draw it.
pub fn column(ui: &mut Ui, hands: &mut Hands) {
    tabs(ui, hands);
    ui.add_space(4.0);
    match hands.page.tab {
        Tab::Notebook => {
            let height = (ui.available_height() - 62.0).max(72.0);
            notebook(ui, hands.view, hands.draft, height, hands.out);
        }
        Tab::Guide => {
            guide::ways(ui, hands);
            scroll(ui, |ui| guide::guide(ui, hands));
        }
        Tab::Record => scroll(ui, |ui| record::record(ui, hands)),
        Tab::Worked => scroll(ui, |ui| worked::worked(ui, hands)),
        Tab::Chart => scroll(ui, |ui| chart::chart(ui, hands)),
        Tab::Ledger => scroll(ui, |ui| ledger::ledger(ui, hands)),
        Tab::Instruments => scroll(ui, |ui| instruments::instruments(ui, hands)),
        Tab::Repair => scroll(ui, |ui| repair::repair(ui, hands)),
    }
}

fn scroll(ui: &mut Ui, inside: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical().id_salt("bay column").auto_shrink(false).show(ui, inside);
}

fn tabs(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    const ACROSS: usize = 4;
    let rows = Tab::ALL.len().div_ceil(ACROSS);
    let (bar, _) = ui.allocate_exact_size(vec2(ui.available_width(), 30.0 * rows as f32), Sense::hover());
    let width = (bar.width() - 4.0 * (ACROSS - 1) as f32) / ACROSS as f32;
    for (i, (tab, name)) in Tab::ALL.into_iter().enumerate() {
        let at = vec2((i % ACROSS) as f32 * (width + 4.0), (i / ACROSS) as f32 * 30.0);
        let cell = Rect::from_min_size(bar.min + at, vec2(width, 26.0));
        let spoken = format!("Page: {name}");
        if parts::tab(ui, theme, cell, ("bay tab", name), (name, &spoken), hands.page.tab == tab) {
            hands.page.tab = tab;
        }
    }
}
