//! Dry nitrogen: a cylinder of 200 bar behind a regulator.

use egui::{Align2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};

use super::ends::head;
use super::hands::Hands;
use super::knobs::{key, stepper, words};
use super::plan::Plan;
use crate::bay::{BayAction, CentreEnd};
use crate::desk::panels::words::signed;
use crate::units::GaugePa;

/// One turn at the regulator [bar].
const TURN_BAR: f64 = 1.0;

/// Draw it.
pub fn nitrogen(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let room = head(ui, plan, hands, CentreEnd::Nitrogen, "Nitrogen");
    let set_pa = hands.face.bay.regulator_pa;
    let s = plan.s;
    let width = 38.0 * s;
    let bottom = room.bottom() - 92.0 * plan.down();
    let body = Rect::from_min_max(
        pos2(room.left() + 6.0, room.top() + 22.0),
        pos2(room.left() + 6.0 + width, bottom),
    );
    let paint = ui.painter();
    paint.rect(body, 16.0, theme.raised, Stroke::new(1.5, theme.text), StrokeKind::Inside);
    paint.text(body.center(), Align2::CENTER_CENTER, "N₂", crate::desk::fonts::bold(14.0), theme.text);
    // Valve, regulator, its needle.
    let neck = pos2(body.center().x, body.top() - 8.0);
    paint.line_segment([pos2(neck.x, body.top()), neck], Stroke::new(6.0, theme.muted));
    let dial = pos2(body.right() + 24.0 * s, body.top() + 16.0 * s);
    paint.line_segment([neck, pos2(dial.x, neck.y)], Stroke::new(4.0, theme.muted));
    paint.line_segment([pos2(dial.x, neck.y), dial], Stroke::new(4.0, theme.muted));
    let r = 17.0 * s;
    paint.circle(dial, r, theme.ground, Stroke::new(2.0, theme.text));
    let share = (set_pa / 20e5).clamp(0.0, 1.05) as f32;
    let angle = (share - 0.5) * 1.5 * std::f32::consts::PI;
    let tip = dial + (r - 4.0) * vec2(angle.sin(), -angle.cos());
    paint.line_segment([dial, tip], Stroke::new(2.0, theme.high));
    let row = |from_bottom: f32| {
        let top = room.bottom() - from_bottom * plan.down();
        Rect::from_min_size(pos2(room.left(), top), vec2(room.width(), 24.0))
    };
    words(ui, plan, row(58.0).left_top() - vec2(0.0, 3.0), Align2::LEFT_BOTTOM, "Regulator", theme.muted);
    let bar = set_pa / 1e5;
    let text = if bar > 0.0 { signed(&hands.view.units.pressure(GaugePa(set_pa))) } else { "shut".into() };
    if let Some(new) = stepper(ui, theme, row(58.0), "nitrogen pressure", &text, bar, 0.0..=40.0, TURN_BAR) {
        hands.bay(BayAction::RegulatorBar(new), row(58.0));
    }
    if key(ui, theme, row(28.0), "Shut it", "Shut the nitrogen").clicked() {
        hands.bay(BayAction::RegulatorBar(0.0), row(28.0));
    }
}
