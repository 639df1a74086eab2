//! The page of the rig: service label, where things sit, wiring, and what works on what; all drawn from the rig's files.

mod blocks;
mod diagram;
mod graph;
mod grid;
mod label;
mod location;
mod meter;
mod route;
mod symbols;
mod tools;

use egui::{Align, Id, Rect, Sense, Ui, pos2, vec2};

use super::panels::parts::{self, BODY, prepare, write};
use super::{Command, DeskView};

/// Pages of the rig.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// Service label.
    Label,
    /// Where things sit.
    Places,
    /// Wiring.
    #[default]
    Wiring,
    /// What works on what.
    Blocks,
}

/// What a person has chosen on the page. It lives in egui's memory.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// Open tab.
    pub tab: Tab,
    /// Place chosen.
    pub place: Option<String>,
    /// Part or supply chosen in the wiring, by id.
    pub part: Option<String>,
    /// Letters typed to find a point.
    pub find: String,
    /// Tool in hand at the wiring.
    pub hold: tools::Hold,
    /// The next point takes the black lead (clip, second end) instead of the red one.
    pub black_next: bool,
    /// Point of the red lead, tip or first end.
    pub red: Option<String>,
    /// Point of the black lead, clip or second end; the body where nothing else is said.
    pub black: Option<String>,
    /// What the dial stands on, by its place.
    pub mode: usize,
    /// First relay of a swap.
    pub relay: Option<String>,
}

/// The page.
pub fn rig_ui(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let id = Id::new(("rig page", &view.rig.id));
    let mut page: Page = ui.data(|d| d.get_temp(id)).unwrap_or_default();
    tabs(ui, view, &mut page, out);
    match page.tab {
        Tab::Label => label::label(ui, view, &mut page),
        Tab::Places => location::location(ui, view, &mut page),
        Tab::Wiring => diagram::wiring(ui, view, &mut page, out),
        Tab::Blocks => blocks::blocks(ui, view),
    }
    ui.data_mut(|d| d.insert_temp(id, page));
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
        out.push(Command::ShowBench);
    }
    ui.add_space(4.0);
}

fn tab_button(ui: &Ui, view: &DeskView, cell: Rect, name: &str, open: bool) -> bool {
    parts::tab(ui, view.theme, cell, ("rig tab", name), (name, name), open)
}
