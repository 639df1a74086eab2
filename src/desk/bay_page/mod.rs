//! The service bay: hoses, machines and vessels as they are connected, and beside them what to do, what there is and what
//! was written down. Everything drawn is a face of the model or a thing that hands can turn.

mod chart;
mod column;
mod couplers;
mod drawing;
mod ends;
mod flow;
mod guide;
mod hands;
mod hoses;
mod injector;
mod instruments;
mod knobs;
mod ledger;
mod machines;
mod manifold;
mod nitrogen;
mod page;
mod plan;
mod readout;
mod record;
mod repair;
mod station;
mod sum;
mod switches;
mod vessels;
mod worked;

use egui::{Rect, ScrollArea, Ui, UiBuilder, pos2, vec2};

use self::hands::Hands;
use self::plan::Plan;
use super::panels::parts::prepare;
use super::{Command, DeskView, Papers};

pub use self::page::Page;

/// Height of the row of switches [pt].
const SWITCHES: f32 = 34.0;
/// Gap between drawing and column [pt].
const GAP: f32 = 12.0;

/// The page.
pub fn bay_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let Some(face) = &view.snapshot.bay else { return };
    let page = papers.bay.get_or_insert_with(|| Page::fresh(face.label_charge_kg));
    let mut hands = Hands { view, face, page, draft: &mut papers.draft, out };

    let area = ui.available_rect_before_wrap();
    let row = Rect::from_min_size(area.min, vec2(area.width(), SWITCHES));
    ui.scope_builder(UiBuilder::new().max_rect(row), |ui| switches::switches(ui, &mut hands));
    let below = Rect::from_min_max(pos2(area.left(), row.bottom() + 2.0), area.max);
    let room = below.width() - GAP - column::least_width(below.width());
    let split = below.left() + room;
    let left = Rect::from_min_max(below.min, pos2(split, below.bottom()));
    let right = Rect::from_min_max(pos2(split + GAP, below.top()), below.max);
    let plan = Plan::of(left);
    if plan.fits(left) {
        drawing::drawing(ui, &plan, &mut hands);
    } else {
        // Large letters or a small window: the drawing keeps its size and is moved about.
        ui.scope_builder(UiBuilder::new().max_rect(left), |ui| {
            ScrollArea::both().id_salt("bay drawing").auto_shrink(false).show(ui, |ui| {
                let (rect, _) = ui.allocate_exact_size(plan.size(), egui::Sense::hover());
                drawing::drawing(ui, &Plan::at(rect.min), &mut hands);
            });
        });
    }
    ui.scope_builder(UiBuilder::new().max_rect(right), |ui| column::column(ui, &mut hands));
    hands::waiting(ui, &mut hands);
    hands::answer(ui, &mut hands);
}
