//! What comes before and beside refrigerant: the identifier, the oil injector, the dye.

use egui::{Align2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};

use super::hands::Hands;
use super::knobs::{key, stepper, switch, words};
use super::plan::Plan;
use super::readout::shown;
use crate::bay::{BayAction, OilKind};
use crate::bench::Action;
use crate::desk::panels::words as say;
use crate::instrument::Probe;

/// A frame with a title; gives the room in it.
fn frame(ui: &Ui, plan: &Plan, hands: &Hands, rect: Rect, title: &str) -> Rect {
    let theme = hands.view.theme;
    ui.painter().rect(rect, 6.0, theme.panel, Stroke::new(1.0, theme.line), StrokeKind::Inside);
    let at = rect.min + vec2(8.0, 5.0);
    words(ui, plan, at, Align2::LEFT_TOP, title, theme.text);
    Rect::from_min_max(pos2(rect.left() + 8.0, rect.top() + 24.0), rect.max - vec2(8.0, 8.0))
}

/// The identifier: a sample at the low-side port, a minute, and what is in it.
pub fn identifier(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let room = frame(ui, plan, hands, plan.r(0.0, 72.0, 206.0, 82.0), "Refrigerant identifier");
    let row = Rect::from_min_size(pos2(room.left(), room.bottom() - 22.0), vec2(room.width(), 22.0));
    let half = (row.width() - 6.0) / 2.0;
    let take = Rect::from_min_size(row.min, vec2(half, row.height()));
    if key(ui, theme, take, "Take a sample", "Take a sample to the identifier").clicked() {
        hands.bay(BayAction::Identify, take);
    }
    let write = Rect::from_min_size(row.min + vec2(half + 6.0, 0.0), vec2(half, row.height()));
    // It shows two shares, refrigerant and air; both go into the notebook.
    const SHARES: [Probe; 2] = [Probe::Identifier, Probe::IdentifierAir];
    let values = SHARES.map(|probe| shown(hands, &probe));
    let on = values.iter().any(Option::is_some);
    let word = if on { "Write it down" } else { "Switch it on" };
    if key(ui, theme, write, word, &format!("Identifier: {}", word.to_lowercase())).clicked() {
        for probe in SHARES {
            hands.ask(if on { Action::Read(probe) } else { Action::Place(probe) }, write);
        }
    }
    let units = hands.view.units;
    let text = match (values, hands.face.bay.sample) {
        ([Some(refrigerant), Some(air)], _) => {
            let share = say::value(units, &SHARES[0], refrigerant);
            format!("{share}, air {}", say::value(units, &SHARES[1], air))
        }
        (_, Some(_)) => "sample in it: switch it on".into(),
        (_, None) => "no sample yet".into(),
    };
    words(ui, plan, room.min + vec2(0.0, 2.0), Align2::LEFT_TOP, &text, theme.muted);
}

/// The oil injector.
pub fn oil(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let room = frame(ui, plan, hands, plan.r(0.0, 162.0, 206.0, 108.0), "Oil injector");
    let ml = hands.page.oil_ml;
    syringe(ui, plan, hands, room, (ml / 100.0) as f32, theme.vapour);
    let right = Rect::from_min_max(pos2(room.left() + 46.0 * plan.s, room.top()), room.max);
    let row = |i: f32| {
        let pitch = (right.height() - 22.0) / 2.0;
        Rect::from_min_size(pos2(right.left(), right.top() + i * pitch), vec2(right.width(), 22.0))
    };
    if let Some(new) = stepper(ui, theme, row(0.0), "oil", &format!("{ml:.0} mL"), ml, 5.0..=100.0, 5.0) {
        hands.page.oil_ml = new;
    }
    let other = hands.page.oil == OilKind::Other;
    let word = if other { "Another kind" } else { "As on the label" };
    if switch(ui, theme, row(1.0), word, "Oil of the kind on the label", !other).clicked() {
        hands.page.oil = if other { OilKind::AsLabelled } else { OilKind::Other };
    }
    let put = row(2.0);
    if key(ui, theme, put, "Put it in", "Put the oil in").clicked() {
        let (ml, kind) = (hands.page.oil_ml, hands.page.oil);
        hands.bay(BayAction::Oil { ml, kind }, put);
    }
}

/// The dye.
pub fn dye(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let room = frame(ui, plan, hands, plan.r(0.0, 276.0, 206.0, 56.0), "Leak dye");
    let ml = hands.page.dye_ml;
    let row = Rect::from_min_size(pos2(room.left(), room.bottom() - 22.0), vec2(room.width(), 22.0));
    let half = (row.width() - 6.0) / 2.0;
    let amount = Rect::from_min_size(row.min, vec2(half, row.height()));
    if let Some(new) = stepper(ui, theme, amount, "dye", &format!("{ml:.0} mL"), ml, 1.0..=30.0, 1.0) {
        hands.page.dye_ml = new;
    }
    let put = Rect::from_min_size(row.min + vec2(half + 6.0, 0.0), vec2(half, row.height()));
    if key(ui, theme, put, "Put it in", "Put the dye in").clicked() {
        let ml = hands.page.dye_ml;
        hands.bay(BayAction::DyeMl(ml), put);
    }
}

/// A syringe with marks, filled to a share.
fn syringe(ui: &Ui, plan: &Plan, hands: &Hands, room: Rect, share: f32, color: egui::Color32) {
    let theme = hands.view.theme;
    let paint = ui.painter();
    let tube = Rect::from_min_size(room.min + vec2(4.0, 8.0), vec2(20.0 * plan.s, room.height() - 20.0));
    paint.rect(tube, 2.0, theme.ground, Stroke::new(1.5, theme.text), StrokeKind::Inside);
    let top = tube.bottom() - share.clamp(0.0, 1.0) * tube.height();
    let fill = Rect::from_min_max(pos2(tube.left() + 2.0, top), tube.max - vec2(2.0, 2.0));
    paint.rect_filled(fill, 1.0, color);
    let plunger = [pos2(tube.center().x, top), pos2(tube.center().x, tube.top() - 8.0)];
    paint.line_segment(plunger, Stroke::new(3.0, theme.muted));
    for i in 1..10 {
        let y = tube.bottom() - tube.height() * i as f32 / 10.0;
        let long = if i == 5 { 8.0 } else { 5.0 };
        let mark = [pos2(tube.right(), y), pos2(tube.right() + long, y)];
        paint.line_segment(mark, Stroke::new(1.0, theme.muted));
    }
    let nozzle = [tube.center_bottom(), tube.center_bottom() + vec2(0.0, 8.0)];
    paint.line_segment(nozzle, Stroke::new(3.0, theme.text));
}
