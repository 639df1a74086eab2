//! The drawing: loop, couplers, manifold, hoses, and what stands on the floor.

use egui::{Rect, Ui, UiBuilder};

use super::hands::Hands;
use super::knobs::frame_of_step;
use super::plan::Plan;
use super::{couplers, ends, guide, hoses, injector, machines, manifold, nitrogen, station, vessels};
use crate::bay::{CentreEnd, Hose};
use crate::plant::Vessel;
use crate::procedure::Look;

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
        if let Some(rect) = guide::look(hands).and_then(|look| looked_at(plan, hands, look)) {
            frame_of_step(ui, hands.view.theme, rect);
        }
    });
}

/// What the present step of the how-to is about. A scale is the one of the vessel at work.
fn looked_at(plan: &Plan, hands: &Hands, look: Look) -> Option<Rect> {
    let bay = &hands.face.bay;
    match look {
        Look::Scale if bay.centre == CentreEnd::RecoveryMachine => plan.look(Look::Recovery),
        Look::Scale => plan.look(match bay.on_scale {
            Vessel::Can => Look::Can,
            Vessel::Charging => Look::Charging,
            Vessel::Supply | Vessel::Recovery => Look::Supply,
        }),
        look => plan.look(look),
    }
}
