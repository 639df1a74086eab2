//! The three hoses, from the manifold to wherever they are screwed to.

use egui::{Color32, Pos2, Shape, Stroke, Ui, pos2};

use super::flow::{Track, marks};
use super::hands::Hands;
use super::plan::Plan;
use crate::bay::{CentreEnd, Hose};
use crate::desk::theme::Theme;
use crate::plant::Port;

/// Outer and inner width of a hose [pt].
const OUTER: f32 = 10.0;
const INNER: f32 = 6.0;

/// Where a hose of the loop ends: at a port, or hanging below it.
pub fn end(plan: &Plan, hands: &Hands, hose: Hose) -> Pos2 {
    let own = plan.port(hose == Hose::Low);
    match hands.face.bay.coupler(hose).port {
        Some(port) => plan.port(port == Port::Low),
        None => pos2(own.x, plan.p(0.0, 66.0).y),
    }
}

/// The way of a hose of the loop, from the manifold to its coupler.
fn way(plan: &Plan, hands: &Hands, hose: Hose) -> Vec<Pos2> {
    let low = hose == Hose::Low;
    let (mouth, own, end) = (plan.mouth(usize::from(!low)), plan.port(low), end(plan, hands, hose));
    let floor = plan.p(0.0, 300.0).y;
    let mut points = vec![mouth, pos2(mouth.x, floor), pos2(own.x, floor)];
    if (end.x - own.x).abs() > 1.0 {
        // Crossed: over to the other port, each hose in a lane of its own.
        let lane = plan.p(0.0, if low { 90.0 } else { 100.0 }).y;
        points.extend([pos2(own.x, lane), pos2(end.x, lane)]);
    }
    points.push(end);
    points
}

/// The way of the centre hose, from what it ends in to the manifold.
fn centre(plan: &Plan, hands: &Hands) -> Vec<Pos2> {
    let mouth = plan.mouth(2);
    let end = hands.face.bay.centre;
    let inlet = plan.inlet(end);
    match end {
        CentreEnd::Cap | CentreEnd::Nothing | CentreEnd::CompressedAir | CentreEnd::Oxygen => {
            let lane = plan.p(0.0, 298.0).y;
            vec![inlet, pos2(inlet.x, lane), pos2(mouth.x, lane), mouth]
        }
        _ => {
            let lane = plan.p(0.0, 338.0).y;
            vec![inlet, pos2(inlet.x, lane), pos2(mouth.x, lane), mouth]
        }
    }
}

/// Draw them.
pub fn hoses(ui: &Ui, plan: &Plan, hands: &Hands) {
    let theme = hands.view.theme;
    let face = hands.face;
    let shown = hands.sees_inside();
    let phases = hands.view.motion.hoses;
    let colors = [theme.low, theme.high, yellow(theme)];
    for (i, color) in colors.into_iter().enumerate() {
        // From the manifold to the loop, and from whatever is on the centre hose to the manifold: all the way that
        // counts as positive.
        let (points, open) = match i {
            0 => (way(plan, hands, Hose::Low), face.bay.low.reaches().is_some()),
            1 => (way(plan, hands, Hose::High), face.bay.high.reaches().is_some()),
            _ => (centre(plan, hands), face.bay.centre != CentreEnd::Cap),
        };
        let track = Track::new(points);
        tube(ui, theme, &track, if open { color } else { Theme::mix(color, theme.ground, 0.35) }, i == 0);
        if shown {
            marks(ui.painter(), theme, &track, &face.hoses[i], phases[i]);
        }
    }
}

/// Colour of the centre hose: the trade's yellow, which both themes have for what is chosen.
pub fn yellow(theme: &Theme) -> Color32 {
    Theme::mix(theme.chosen, theme.muted, 0.35)
}

/// A hose: a tube that is dashed on the low side.
fn tube(ui: &Ui, theme: &Theme, track: &Track, color: Color32, dashed: bool) {
    let rounded = round(track.points());
    let paint = ui.painter();
    if dashed {
        paint.extend(Shape::dashed_line(&rounded, Stroke::new(OUTER, color), 9.0, 4.0));
    } else {
        paint.add(Shape::line(rounded.clone(), Stroke::new(OUTER, color)));
    }
    paint.add(Shape::line(rounded, Stroke::new(INNER, theme.ground)));
}

/// Corners become bends.
fn round(points: &[Pos2]) -> Vec<Pos2> {
    const R: f32 = 10.0;
    let mut out = Vec::with_capacity(points.len() * 5);
    for (i, &p) in points.iter().enumerate() {
        let (Some(&a), Some(&b)) = (i.checked_sub(1).and_then(|j| points.get(j)), points.get(i + 1)) else {
            out.push(p);
            continue;
        };
        let (to, on) = (p - a, b - p);
        let r = R.min(to.length() / 2.0).min(on.length() / 2.0);
        if r < 1.0 {
            out.push(p);
            continue;
        }
        let (start, stop) = (p - to.normalized() * r, p + on.normalized() * r);
        out.extend((0..=4).map(|k| {
            let t = k as f32 / 4.0;
            start.lerp(p, t).lerp(p.lerp(stop, t), t)
        }));
    }
    out
}
