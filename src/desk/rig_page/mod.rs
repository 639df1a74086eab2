//! The page of the rig: service label, where things sit, wiring, and what works on what; all drawn from the rig's files.

mod blocks;
mod column;
mod diagram;
mod graph;
mod grid;
mod hands;
mod hold;
mod label;
mod location;
mod page;
mod reader;
mod route;
mod sheet;
mod symbols;
mod tools;
mod touch;
mod words;

use std::sync::Arc;

use egui::{Align, Rect, Sense, Ui, pos2, vec2};

use super::panels::parts::{self, BODY, prepare, write};
use super::{Command, DeskView, Papers, Screen};

pub use self::graph::Graph;
pub use self::page::{Page, Tab};
pub use self::route::Drawing;

/// The page.
pub fn rig_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let Papers { rig: page, draft, drawn, .. } = papers;
    tabs(ui, view, page, out);
    match page.tab {
        Tab::Label => label::label(ui, view, page),
        Tab::Places => location::location(ui, view, page),
        Tab::Wiring => {
            let rig = &view.rig;
            let wiring = once(&mut drawn.wiring, &rig.id, || route::draw(&rig.circuit));
            diagram::wiring(ui, view, &wiring, page, draft, out);
        }
        Tab::Blocks => {
            let rig = &view.rig;
            let graph = once(&mut drawn.blocks, &rig.id, || Graph::of(&rig.circuit));
            blocks::blocks(ui, view, &graph);
        }
    }
}

/// What was worked out for this rig, worked out if it is another one's.
fn once<T>(kept: &mut Option<(String, Arc<T>)>, rig: &str, make: impl FnOnce() -> T) -> Arc<T> {
    match kept {
        Some((of, made)) if of == rig => made.clone(),
        _ => {
            let made = Arc::new(make());
            *kept = Some((rig.to_owned(), made.clone()));
            made
        }
    }
}

fn tabs(ui: &mut Ui, view: &DeskView, page: &mut Page, out: &mut Vec<Command>) {
    let theme = view.theme;
    let (bar, _) = ui.allocate_exact_size(vec2(ui.available_width(), 30.0), Sense::hover());
    let plant = &view.rig.plant;
    let title = format!("{}: {}, {:.0} g", view.rig.name, plant.refrigerant, plant.full_charge_kg * 1e3);
    let mut left = bar.left();
    let names = [
        (Tab::Label, "Service label"),
        (Tab::Places, "Where things sit"),
        (Tab::Wiring, "Wiring"),
        (Tab::Blocks, "What works on what"),
    ];
    for (tab, name) in names {
        let cell = Rect::from_min_size(pos2(left, bar.top()), vec2(150.0, 28.0));
        left = cell.right() + 6.0;
        let open = page.tab == tab;
        if tab_button(ui, view, cell, name, open) {
            page.tab = tab;
        }
    }
    let back = Rect::from_min_size(pos2(bar.right() - 130.0, bar.top()), vec2(130.0, 28.0));
    let words = Rect::from_min_max(pos2(left + 10.0, bar.top()), pos2(back.left() - 10.0, back.bottom()));
    write(ui, words, Align::Min, &title, BODY, theme.muted);
    if tab_button(ui, view, back, "Back to the bench", false) {
        out.push(Command::Show(Screen::Bench));
    }
    ui.add_space(4.0);
}

fn tab_button(ui: &Ui, view: &DeskView, cell: Rect, name: &str, open: bool) -> bool {
    parts::tab(ui, view.theme, cell, ("rig tab", name), (name, name), open)
}
