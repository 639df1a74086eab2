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
mod plan;
mod readout;
mod record;
mod repair;
mod station;
mod switches;
mod vessels;
mod worked;

use std::collections::BTreeMap;

use egui::{Id, Rect, ScrollArea, Ui, UiBuilder, pos2, vec2};

use self::hands::Hands;
use self::plan::Plan;
use super::panels::Draft;
use super::panels::parts::prepare;
use super::{Command, DeskView};
use crate::bay::{OilKind, RecordField, StationStep};

/// Height of the row of switches [pt].
const SWITCHES: f32 = 34.0;
/// Gap between drawing and column [pt].
const GAP: f32 = 12.0;

/// What a person has chosen on the page. It lives in egui's memory.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Open tab of the column.
    pub tab: column::Tab,
    /// Where the act stands that waits behind its caution.
    pub anchor: Option<Rect>,
    /// Oil in the injector [mL], and which.
    pub oil_ml: f64,
    /// Kind of oil in the injector.
    pub oil: OilKind,
    /// Dye in its syringe [mL].
    pub dye_ml: f64,
    /// Oil to go into a new part [mL].
    pub part_oil_ml: f64,
    /// Letters being typed into lines of the record.
    pub typed: BTreeMap<RecordField, String>,
    /// The record is checked as it stands.
    pub checking: bool,
    /// Step of the how-to that was brought into sight.
    pub step: Option<usize>,
    /// A sum that has been begun.
    pub sum: worked::Sum,
    /// Program being put together for the station: step, and whether it is wanted.
    pub program: Vec<(StationStep, bool)>,
}

impl Page {
    fn fresh(label_charge_kg: f64) -> Self {
        let grams = (1e3 * label_charge_kg / 10.0).round() * 10.0;
        Self {
            tab: column::Tab::default(),
            anchor: None,
            oil_ml: 30.0,
            oil: OilKind::AsLabelled,
            dye_ml: 6.0,
            part_oil_ml: 30.0,
            typed: BTreeMap::new(),
            checking: false,
            step: None,
            sum: worked::Sum::default(),
            program: vec![
                (StationStep::Recover, true),
                (StationStep::EvacuateMin(30.0), true),
                (StationStep::HoldMin(15.0), true),
                (StationStep::OilMl(10.0), false),
                (StationStep::ChargeG(grams), true),
            ],
        }
    }
}

/// The page.
pub fn bay_ui(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let Some(face) = &view.snapshot.bay else { return };
    let id = Id::new(("bay page", &view.scenario.id));
    let kept = ui.data(|d| d.get_temp::<Page>(id));
    let mut page = kept.unwrap_or_else(|| Page::fresh(face.label_charge_kg));
    let mut draft = Draft::load(ui.ctx(), view);
    let mut hands = Hands { view, face, page: &mut page, draft: &mut draft, out };

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
    draft.save(ui.ctx());
    ui.data_mut(|d| d.insert_temp(id, page));
}
