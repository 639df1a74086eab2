//! The loop's two service ports on a stub of its pipes, the couplers with their knobs, and the condenser that can be wetted
//! and covered.

use egui::{Align2, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

use super::hands::Hands;
use super::hoses;
use super::knobs::{key, one_of, switch, tap, words};
use super::plan::Plan;
use crate::bay::{BayAction, Hose};
use crate::plant::Port;

/// A stub of the low side and of the high side with a port each.
pub fn pipes(ui: &Ui, plan: &Plan, hands: &Hands) {
    let theme = hands.view.theme;
    let paint = ui.painter();
    let low = [plan.p(8.0, 24.0), plan.p(424.0, 24.0)];
    paint.extend(Shape::dashed_line(&low, Stroke::new(7.0, theme.low), 12.0, 6.0));
    let high = [plan.p(456.0, 24.0), plan.p(716.0, 24.0)];
    paint.line_segment(high, Stroke::new(7.0, theme.high));
    words(
        ui,
        plan,
        plan.p(8.0, 3.0),
        Align2::LEFT_TOP,
        "Low side: suction line to the compressor",
        theme.low,
    );
    words(ui, plan, plan.p(700.0, 3.0), Align2::RIGHT_TOP, "High side: liquid line", theme.high);
    for port in [Port::Low, Port::High] {
        let foot = plan.port(port == Port::Low);
        let stub = Rect::from_min_max(pos2(foot.x - 4.0, plan.p(0.0, 28.0).y), foot + vec2(4.0, 0.0));
        paint.rect(stub, 1.0, theme.raised, Stroke::new(1.5, theme.text), StrokeKind::Inside);
        let bay = &hands.face.bay;
        if bay.low.port != Some(port) && bay.high.port != Some(port) {
            // Its cap.
            let cap = Rect::from_center_size(foot + vec2(0.0, 3.0), vec2(16.0, 8.0));
            paint.rect(cap, 2.0, theme.muted, Stroke::NONE, StrokeKind::Inside);
        }
    }
}

/// A coupler with its knob, and where it can sit.
pub fn coupler(ui: &mut Ui, plan: &Plan, hands: &mut Hands, hose: Hose) {
    let theme = hands.view.theme;
    let low = hose == Hose::Low;
    let now = hands.face.bay.coupler(hose);
    let color = if low { theme.low } else { theme.high };
    let end = hoses::end(plan, hands, hose);
    // The body; it hangs a little below the port while it is off.
    let body = Rect::from_min_size(end - vec2(13.0, 0.0), vec2(26.0, 20.0));
    ui.painter().rect(body, 4.0, theme.raised, Stroke::new(2.0, color), StrokeKind::Inside);
    let called = capital_name(hose);
    // The knob belongs to the coupler, not to the manifold: it opens the port.
    let inward = if end.x < plan.p(440.0, 0.0).x { 1.0 } else { -1.0 };
    let knob = body.center() + vec2(inward * 27.0, 0.0);
    ui.painter().line_segment([body.center() + vec2(inward * 13.0, 0.0), knob], Stroke::new(4.0, color));
    ui.add_enabled_ui(now.port.is_some(), |ui| {
        let name = format!("Coupler knob of the {}", hose.name());
        let response = tap(ui, theme, knob, &name, now.open, true);
        if response.clicked() {
            hands.bay(BayAction::Knob { hose, open: !now.open }, response.rect);
        }
    });
    let state = match (now.port, now.open) {
        (None, _) => "not fitted",
        (Some(_), true) => "knob open",
        (Some(_), false) => "knob shut",
    };
    let ink = if now.open { theme.text } else { theme.muted };
    let left = inward > 0.0;
    if now.port.is_some() {
        // Below the knob: beside it stands the other words of the hose.
        let side = if left { Align2::LEFT_TOP } else { Align2::RIGHT_TOP };
        words(ui, plan, knob + vec2(-inward * 9.0, 13.0), side, state, ink);
    } else {
        let side = if left { Align2::LEFT_CENTER } else { Align2::RIGHT_CENTER };
        words(ui, plan, knob + vec2(inward * 17.0, 0.0), side, state, ink);
    }

    // Where it sits, in words.
    let left = if low { 330.0 } else { 444.0 };
    let row = plan.r(left, 62.0, 106.0, 22.0);
    let width = (row.width() - 4.0) / 3.0;
    let places = [(None, "off"), (Some(Port::Low), "low"), (Some(Port::High), "high")];
    words(
        ui,
        plan,
        if low { row.left_top() } else { row.right_top() } - vec2(0.0, 3.0),
        if low { Align2::LEFT_BOTTOM } else { Align2::RIGHT_BOTTOM },
        if low { "Blue hose is on" } else { "Red hose is on" },
        theme.muted,
    );
    for (i, (port, word)) in places.into_iter().enumerate() {
        let rect =
            Rect::from_min_size(row.min + vec2(i as f32 * (width + 2.0), 0.0), vec2(width, row.height()));
        let name = match port {
            None => format!("{called}: off"),
            Some(Port::Low) => format!("{called}: on the low-side port"),
            Some(Port::High) => format!("{called}: on the high-side port"),
        };
        let chosen = now.port == port;
        if one_of(ui, theme, rect, word, &name, chosen).clicked() && !chosen {
            hands.bay(BayAction::Fit { hose, port }, rect);
        }
    }
}

fn capital_name(hose: Hose) -> &'static str {
    match hose {
        Hose::Low => "Low-side hose",
        Hose::High => "High-side hose",
    }
}

/// The condenser at the end of the liquid line: water on it, a sheet before it.
pub fn condenser(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let bay = &hands.face.bay;
    let (spray, cover) = (bay.spray, bay.cover);
    let core = plan.r(716.0, 6.0, 62.0, 52.0);
    let paint = ui.painter();
    paint.rect(core, 3.0, theme.panel, Stroke::new(1.5, theme.high), StrokeKind::Inside);
    let rows = 5;
    let mut tube = Vec::new();
    for i in 0..rows {
        let y = core.top() + core.height() * (i as f32 + 0.5) / rows as f32;
        let (a, b) = (core.left() + 5.0, core.right() - 5.0);
        tube.extend(if i % 2 == 0 { [pos2(a, y), pos2(b, y)] } else { [pos2(b, y), pos2(a, y)] });
    }
    paint.add(Shape::line(tube, Stroke::new(2.0, theme.high)));
    if cover > 0.0 {
        let sheet = Rect::from_min_size(core.min, vec2(core.width(), core.height() * cover as f32));
        paint.rect(sheet, 2.0, theme.raised, Stroke::new(1.5, theme.text), StrokeKind::Inside);
    }
    if spray {
        for (dx, dy) in [(10.0, 14.0), (24.0, 30.0), (38.0, 12.0), (52.0, 34.0), (17.0, 42.0), (46.0, 46.0)] {
            let at = core.min + vec2(dx, dy) * plan.s;
            paint.line_segment([at, at + vec2(-2.0, 6.0)], Stroke::new(2.0, theme.liquid));
        }
    }
    let top = plan.r(784.0, 6.0, 96.0, 24.0);
    let response = switch(ui, theme, top, "Water", "Water on the condenser", spray);
    if response.clicked() {
        hands.bay(BayAction::Spray(!spray), top);
    }
    let under = plan.r(784.0, 34.0, 96.0, 24.0);
    let pct = 100.0 * cover;
    let next = match pct {
        p if p < 49.0 => 50.0,
        p if p < 79.0 => 80.0,
        p if p < 99.0 => 100.0,
        _ => 0.0,
    };
    let name = format!("Condenser covered {pct:.0} %, next {next:.0} %");
    if key(ui, theme, under, &format!("Covered {pct:.0} %"), &name).clicked() {
        hands.bay(BayAction::CoverPct(next), under);
    }
}
