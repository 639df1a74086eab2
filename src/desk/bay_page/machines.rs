//! Vacuum pump with its gauge; recovery machine with its cylinder on a scale.

use egui::{Align2, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

use super::ends::head;
use super::hands::Hands;
use super::knobs::{switch, words};
use super::plan::Plan;
use super::readout::readout;
use super::vessels::{Body, body, scale};
use crate::bay::{BayAction, CentreEnd};
use crate::instrument::Probe;
use crate::plant::Vessel;

/// The vacuum pump.
pub fn pump(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let room = head(ui, plan, hands, CentreEnd::VacuumPump, "Vacuum pump");
    let on = hands.face.bay.pump_on;
    let s = plan.s;
    let centre = pos2(room.center().x, room.top() + 64.0 * s);
    // Motor and pump on a foot.
    let motor = Rect::from_center_size(centre + vec2(-22.0, 4.0) * s, vec2(50.0, 42.0) * s);
    let paint = ui.painter();
    paint.rect(motor, 5.0, theme.raised, Stroke::new(1.5, theme.text), StrokeKind::Inside);
    for i in 1..5 {
        let x = motor.left() + motor.width() * i as f32 / 5.0;
        let fin = [pos2(x, motor.top() + 5.0), pos2(x, motor.bottom() - 5.0)];
        paint.line_segment(fin, Stroke::new(1.0, theme.muted));
    }
    rotor(
        ui,
        centre + vec2(24.0, 4.0) * s,
        20.0 * s,
        hands.view.motion.machines[0],
        theme.text,
        theme.raised,
    );
    let foot = [centre + vec2(-52.0, 29.0) * s, centre + vec2(50.0, 29.0) * s];
    ui.painter().line_segment(foot, Stroke::new(4.0, theme.muted));
    let row = |from_bottom: f32| {
        let top = room.bottom() - from_bottom * plan.down();
        Rect::from_min_size(pos2(room.left(), top), vec2(room.width(), 24.0))
    };
    let rect = row(28.0);
    if switch(ui, theme, rect, "Pump", "Vacuum pump runs", on).clicked() {
        hands.bay(BayAction::Pump(!on), rect);
    }
    let gauge = row(88.0);
    words(ui, plan, gauge.left_top() - vec2(0.0, 3.0), Align2::LEFT_BOTTOM, "Vacuum gauge", theme.muted);
    readout(ui, hands, gauge, "Vacuum gauge", &Probe::VacuumGauge);
    let under = pos2(gauge.left(), gauge.bottom() + 3.0);
    words(ui, plan, under, Align2::LEFT_TOP, "absolute", theme.muted);
}

/// The recovery machine and its cylinder.
pub fn recovery(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let room = head(ui, plan, hands, CentreEnd::RecoveryMachine, "Recovery machine");
    let on = hands.face.bay.machine_on;
    let s = plan.s;
    let left = Rect::from_min_max(room.min, pos2(room.left() + room.width() * 0.47, room.bottom()));
    let right = Rect::from_min_max(pos2(left.right() + 10.0, room.top()), room.max);
    // The machine: a case with its piston, a hose to the cylinder.
    let case = Rect::from_min_size(left.min + vec2(2.0, 12.0 * s), vec2(left.width() - 4.0, 76.0 * s));
    ui.painter().rect(case, 6.0, theme.raised, Stroke::new(1.5, theme.text), StrokeKind::Inside);
    rotor(ui, case.center(), 22.0 * s, hands.view.motion.machines[1], theme.text, theme.panel);
    let neck = pos2(right.center().x, right.top() + 6.0 * s);
    let pipe = vec![
        pos2(case.right(), case.top() + 14.0 * s),
        pos2(right.left() + 2.0, case.top() + 14.0 * s),
        pos2(right.left() + 2.0, neck.y),
        neck,
    ];
    ui.painter().add(Shape::line(pipe, Stroke::new(4.0, theme.muted)));
    let rect =
        Rect::from_min_size(pos2(left.left(), room.bottom() - 28.0 * plan.down()), vec2(left.width(), 24.0));
    if switch(ui, theme, rect, "Machine", "Recovery machine runs", on).clicked() {
        hands.bay(BayAction::Machine(!on), rect);
    }
    let glass =
        Rect::from_min_size(pos2(left.left(), room.bottom() - 88.0 * plan.down()), vec2(left.width(), 24.0));
    words(ui, plan, glass.left_top() - vec2(0.0, 3.0), Align2::LEFT_BOTTOM, "Oil that came", theme.muted);
    readout(ui, hands, glass, "Oil glass", &Probe::OilGraduation);
    let under = pos2(glass.left(), glass.bottom() + 3.0);
    words(ui, plan, under, Align2::LEFT_TOP, "in its glass", theme.muted);

    let face = hands.face.vessels[Vessel::Recovery as usize];
    let cylinder = Rect::from_min_max(
        pos2(right.center().x - 30.0 * s, right.top() + 6.0 * s),
        pos2(right.center().x + 30.0 * s, right.bottom() - 92.0 * plan.down()),
    );
    body(ui, hands, cylinder, &face, Body::Upright);
    scale(ui, plan, hands, right, cylinder.bottom(), &face, &Probe::RecoveryScale);
}

/// Something round that turns.
fn rotor(ui: &Ui, centre: Pos2, r: f32, angle: f64, ink: egui::Color32, fill: egui::Color32) {
    ui.painter().circle(centre, r, fill, Stroke::new(1.5, ink));
    for k in 0..3 {
        let a = angle as f32 + k as f32 * std::f32::consts::TAU / 3.0;
        let arm = vec2(a.cos(), a.sin()) * (r - 4.0);
        ui.painter().line_segment([centre, centre + arm], Stroke::new(3.0, ink));
    }
    ui.painter().circle_filled(centre, 3.0, ink);
}
