//! The drawing: loop, couplers, manifold, hoses, and what stands on the floor.

use egui::{Rect, Ui, UiBuilder};

use super::hands::Hands;
use super::plan::Plan;
use super::{couplers, ends, hoses, injector, machines, manifold, nitrogen, station, vessels};
use crate::bay::Hose;
use crate::plant::Vessel;

/// Draw it. Hoses lie behind everything else; the order of the rest is the order of the Tab key.
pub fn drawing(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let rect = Rect::from_min_size(plan.p(0.0, 0.0), plan.size());
    ui.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
        couplers::pipes(ui, plan, hands);
        hoses::hoses(ui, plan, hands);
        injector::identifier(ui, plan, hands);
        injector::oil(ui, plan, hands);
        injector::dye(ui, plan, hands);
        couplers::coupler(ui, plan, hands, Hose::Low);
        couplers::coupler(ui, plan, hands, Hose::High);
        couplers::condenser(ui, plan, hands);
        manifold::manifold(ui, plan, hands);
        ends::ends(ui, plan, hands);
        machines::recovery(ui, plan, hands);
        machines::pump(ui, plan, hands);
        nitrogen::nitrogen(ui, plan, hands);
        vessels::vessel(ui, plan, hands, Vessel::Supply);
        vessels::vessel(ui, plan, hands, Vessel::Charging);
        vessels::vessel(ui, plan, hands, Vessel::Can);
        station::station(ui, plan, hands);
    });
}
