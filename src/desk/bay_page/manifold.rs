//! The manifold: two gauges, the block with its passage, two hand valves, a sight glass at the centre.

use egui::{Align2, Color32, Pos2, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::hands::Hands;
use super::hoses::yellow;
use super::knobs::{wheel, words};
use super::plan::Plan;
use crate::bench::Action;
use crate::desk::panels::dial::Side;
use crate::desk::panels::gauges::gauge;
use crate::desk::theme::Theme;

/// Draw it.
pub fn manifold(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let block = plan.r(262.0, 242.0, 356.0, 40.0);
    ui.painter().rect(block, 7.0, theme.panel, Stroke::new(1.5, theme.muted), StrokeKind::Inside);
    passage(ui, plan, hands);
    dial(ui, plan, hands, Side::Low);
    dial(ui, plan, hands, Side::High);
    let middle = plan.p(440.0, 118.0);
    for (i, line) in ["Manifold", "Click a gauge", "to write it down."].into_iter().enumerate() {
        let ink = if i == 0 { theme.text } else { theme.muted };
        words(ui, plan, middle + vec2(0.0, 17.0 * i as f32 * plan.s), Align2::CENTER_CENTER, line, ink);
    }
    valve(ui, plan, hands, true);
    valve(ui, plan, hands, false);
    glass(ui, plan, hands);
}

fn dial(ui: &mut Ui, plan: &Plan, hands: &mut Hands, side: Side) {
    let centre = plan.p(if side == Side::Low { 312.0 } else { 568.0 }, 175.0);
    let d = 138.0 * plan.s;
    let rect = Rect::from_center_size(centre, vec2(d, d));
    // The stem into the block.
    let stem = [pos2(centre.x, rect.bottom() - 4.0), pos2(centre.x, plan.p(0.0, 246.0).y)];
    ui.painter().line_segment(stem, Stroke::new(8.0, hands.view.theme.muted));
    gauge(ui, rect, hands.view, side, hands.out);
}

/// What is joined to what inside the block: a gauge always feels its hose; a hand valve joins hose and centre.
fn passage(ui: &Ui, plan: &Plan, hands: &Hands) {
    let theme = hands.view.theme;
    let instruments = &hands.view.snapshot.instruments;
    let y = 262.0;
    let pipe = |from: Pos2, to: Pos2, color: Color32| {
        ui.painter().line_segment([from, to], Stroke::new(6.0, color));
    };
    let sides = [
        (290.0, 346.0, 312.0, theme.low, instruments.manifold_low_pct),
        (590.0, 534.0, 568.0, theme.high, instruments.manifold_high_pct),
    ];
    for (mouth, valve, stem, color, pct) in sides {
        pipe(plan.p(mouth, 282.0), plan.p(mouth, y), color);
        pipe(plan.p(mouth, y), plan.p(valve, y), color);
        pipe(plan.p(stem, 246.0), plan.p(stem, y), color);
        // Open, the colour runs on to the centre; shut, the passage there is dark.
        let beyond = if pct > 0.0 { color } else { Theme::mix(yellow(theme), theme.panel, 0.55) };
        pipe(plan.p(valve, y), plan.p(440.0, y), beyond);
    }
    pipe(plan.p(440.0, y), plan.p(440.0, 282.0), yellow(theme));
}

fn valve(ui: &mut Ui, plan: &Plan, hands: &mut Hands, low: bool) {
    let theme = hands.view.theme;
    let instruments = &hands.view.snapshot.instruments;
    let (name, pct, color, action): (_, _, _, fn(f64) -> Action) = if low {
        ("Low hand valve", instruments.manifold_low_pct, theme.low, Action::ManifoldLowPct)
    } else {
        ("High hand valve", instruments.manifold_high_pct, theme.high, Action::ManifoldHighPct)
    };
    let centre = plan.hand_valve(low);
    let (response, new) = wheel(ui, theme, centre, 17.0 * plan.s, name, pct, color);
    if let Some(new) = new {
        hands.ask(action(new), response.rect);
    }
    let state = if pct <= 0.0 { "shut".to_owned() } else { format!("open {pct:.0} %") };
    let at = pos2(centre.x, plan.p(0.0, 289.0).y);
    let ink = if pct > 0.0 { theme.text } else { theme.muted };
    words(ui, plan, at, Align2::CENTER_CENTER, &state, ink);
}

/// The sight glass of the block: what stands at the centre hose, for everybody.
fn glass(ui: &mut Ui, plan: &Plan, hands: &Hands) {
    let theme = hands.view.theme;
    let centre = plan.p(440.0, 262.0);
    let r = 12.0 * plan.s;
    let hose = &hands.face.hoses[2];
    let paint = ui.painter();
    paint.circle(centre, r, theme.ground, Stroke::new(2.0, theme.muted));
    let phase = hands.view.motion.hoses[2] as f32;
    if hose.liquid > 0.02 {
        // Liquid stands in the glass; the gas in it goes by as bubbles.
        let level = hose.liquid.clamp(0.1, 1.0) as f32;
        paint.circle_filled(centre, r - 2.0, Theme::mix(theme.ground, theme.liquid, 0.25 + 0.5 * level));
        let bubbles = ((1.0 - level) * 7.0).ceil() as usize;
        for i in 0..bubbles.min(7) {
            let x = (phase * 0.3 + i as f32 * 9.7).rem_euclid(2.0 * (r - 4.0)) - (r - 4.0);
            let y = ((i * 5) % 9) as f32 - 4.0;
            if x * x + y * y < (r - 4.0) * (r - 4.0) {
                paint.circle_stroke(centre + vec2(x, y), 1.8, Stroke::new(1.0, theme.text));
            }
        }
    }
    let sees = match hose.liquid {
        l if l < 0.02 => "gas or nothing",
        l if l < 0.9 => "liquid with bubbles",
        _ => "clear liquid",
    };
    let rect = Rect::from_center_size(centre, vec2(2.0 * r, 2.0 * r));
    let response = ui.interact(rect, ui.id().with("manifold glass"), Sense::hover());
    let text = format!("Sight glass of the manifold: {sees}");
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &text));
    response.on_hover_text(text);
}
