//! Where everything stands in the folded drawing, on a plan of 850 by 544 that is stretched to the window.
//! Positions stretch with the window; symbols keep their shape.

use egui::{Pos2, Rect, Vec2, pos2, vec2};

use crate::bench::Topology;

/// Size of the plan.
const SIZE: Vec2 = vec2(850.0, 544.0);

/// The plan laid on a part of the window.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// The part of the window.
    pub rect: Rect,
    /// Scale of symbols, pipes and text.
    pub s: f32,
    /// Which parts there are.
    pub parts: Topology,
}

/// Frames of the exchangers and vessels, on the plan.
pub mod boxes {
    use egui::{Rect, pos2};
    /// Condenser before the receiver.
    pub const CONDENSER: Rect = Rect { min: pos2(404.0, 112.0), max: pos2(704.0, 202.0) };
    /// Subcooling pass.
    pub const SUBCOOLING: Rect = Rect { min: pos2(188.0, 158.0), max: pos2(292.0, 206.0) };
    /// Receiver-drier.
    pub const RECEIVER: Rect = Rect { min: pos2(324.0, 160.0), max: pos2(366.0, 262.0) };
    /// Condenser without a receiver behind it.
    pub const LONG_CONDENSER: Rect = Rect { min: pos2(300.0, 112.0), max: pos2(704.0, 202.0) };
    /// Accumulator on the suction line.
    pub const ACCUMULATOR: Rect = Rect { min: pos2(684.0, 400.0), max: pos2(722.0, 466.0) };
    /// The internal heat exchanger on its liquid line, and on its suction line.
    pub const EXCHANGER: [Rect; 2] = [
        Rect { min: pos2(74.0, 242.0), max: pos2(110.0, 268.0) },
        Rect { min: pos2(666.0, 432.0), max: pos2(722.0, 464.0) },
    ];
    /// Chiller of the battery.
    pub const CHILLER: Rect = Rect { min: pos2(150.0, 500.0), max: pos2(292.0, 538.0) };
    /// Evaporator.
    pub const EVAPORATOR: Rect = Rect { min: pos2(276.0, 376.0), max: pos2(614.0, 466.0) };
}

/// Places on the plan that carry a symbol.
pub mod spots {
    use egui::{Pos2, pos2};
    /// Compressor.
    pub const COMPRESSOR: Pos2 = pos2(760.0, 292.0);
    /// Expansion valve.
    pub const VALVE: Pos2 = pos2(190.0, 332.0);
    /// Condenser fan.
    pub const FAN: Pos2 = pos2(554.0, 62.0);
    /// Blower.
    pub const BLOWER: Pos2 = pos2(400.0, 504.0);
    /// Sight glass.
    pub const SIGHT_GLASS: Pos2 = pos2(92.0, 228.0);
    /// High-side service port.
    pub const HIGH_PORT: Pos2 = pos2(92.0, 286.0);
    /// Low-side service port.
    pub const LOW_PORT: Pos2 = pos2(732.0, 448.0);
    /// The same behind an accumulator, an exchanger or where the chiller's branch joins.
    pub const LOW_PORT_FAR: Pos2 = pos2(744.0, 448.0);
    /// Valve of the chiller.
    pub const CHILLER_VALVE: Pos2 = pos2(112.0, 519.0);
    /// Where the chiller's branch joins the suction line.
    pub const JOIN: Pos2 = pos2(714.0, 448.0);
    /// Bulb of the valve.
    pub const BULB: Pos2 = pos2(700.0, 440.0);
    /// Points 1 to 6.
    pub const POINTS: [Pos2; 6] = [
        pos2(760.0, 392.0),
        pos2(760.0, 196.0),
        pos2(138.0, 182.0),
        pos2(124.0, 332.0),
        pos2(226.0, 394.0),
        pos2(652.0, 448.0),
    ];
    /// Air places: outside, off the condenser, cabin, vent.
    pub const AIR: [Pos2; 4] =
        [pos2(512.0, 92.0), pos2(554.0, 222.0), pos2(330.0, 504.0), pos2(330.0, 358.0)];
}

impl Plan {
    /// Lay the plan on a part of the window.
    pub fn new(rect: Rect, parts: Topology) -> Self {
        let fit = (rect.width() / SIZE.x).min(rect.height() / SIZE.y);
        Self { rect, s: fit.clamp(0.8, 1.8), parts }
    }

    /// The condenser: longer where no receiver stands behind it.
    pub fn condenser(&self) -> Rect {
        if self.parts.receiver { boxes::CONDENSER } else { boxes::LONG_CONDENSER }
    }

    /// The low-side service port.
    pub fn low_port(&self) -> Pos2 {
        let far = self.parts.accumulator || self.parts.exchanger || self.parts.chiller;
        if far { spots::LOW_PORT_FAR } else { spots::LOW_PORT }
    }

    /// A place of the plan in the window.
    pub fn at(&self, p: Pos2) -> Pos2 {
        let share = vec2(p.x / SIZE.x, p.y / SIZE.y);
        self.rect.min + share * self.rect.size()
    }

    /// A box of the plan in the window.
    pub fn on(&self, r: Rect) -> Rect {
        Rect::from_min_max(self.at(r.min), self.at(r.max))
    }

    /// Size of label text; never under the smallest of the desk.
    pub fn text(&self, size: f32) -> f32 {
        (size * self.s.clamp(0.9, 1.45)).max(crate::desk::fonts::SMALL)
    }

    /// Corner points of each segment in flow order.
    pub fn pipes(&self) -> [Vec<Pos2>; super::SEGMENTS] {
        let c = self.condenser();
        let e = boxes::EVAPORATOR;
        let (c_in, c_mid, c_out) = (c.top() + 18.0, c.center().y, 182.0);
        let (e_in, e_mid, e_out) = (394.0, 421.0, 448.0);
        let passes = |left: f32, right: f32, ys: [f32; 3], from_right: bool| {
            let (a, b) = if from_right { (right, left) } else { (left, right) };
            vec![
                pos2(a, ys[0]),
                pos2(b, ys[0]),
                pos2(b, ys[1]),
                pos2(a, ys[1]),
                pos2(a, ys[2]),
                pos2(b, ys[2]),
            ]
        };
        let mut condenser = passes(c.left() + 22.0, c.right() - 22.0, [c_in, c_mid, c_out], true);
        condenser.insert(0, pos2(c.right(), c_in));
        condenser.push(pos2(c.left(), c_out));
        let mut evaporator = passes(e.left() + 22.0, e.right() - 22.0, [e_in, e_mid, e_out], false);
        evaporator.insert(0, pos2(e.left(), e_in));
        evaporator.push(pos2(e.right(), e_out));
        let (k, v, s) = (spots::COMPRESSOR, spots::VALVE, boxes::SUBCOOLING);
        let (chiller, tap, join) = (boxes::CHILLER, spots::CHILLER_VALVE, spots::JOIN);
        // Without a receiver its two pipes are one.
        let vessel =
            if self.parts.receiver { boxes::RECEIVER.x_range() } else { egui::Rangef::point(c.left() - 2.0) };
        [
            vec![pos2(k.x, k.y - 42.0), pos2(k.x, c_in), pos2(c.right(), c_in)],
            condenser,
            vec![pos2(c.left(), c_out), pos2(vessel.max, c_out)],
            vec![pos2(vessel.min, c_out), pos2(s.right(), c_out)],
            vec![pos2(s.right(), c_out), pos2(s.left(), c_out)],
            vec![pos2(s.left(), c_out), pos2(92.0, c_out), pos2(92.0, v.y), pos2(v.x - 28.0, v.y)],
            vec![pos2(v.x, v.y + 28.0), pos2(v.x, e_in), pos2(e.left(), e_in)],
            evaporator,
            vec![pos2(e.right(), e_out), pos2(k.x, e_out), pos2(k.x, k.y + 42.0)],
            vec![pos2(92.0, v.y), pos2(92.0, tap.y), pos2(tap.x - 9.0, tap.y)],
            vec![pos2(tap.x + 9.0, tap.y), pos2(chiller.left(), tap.y), pos2(chiller.right(), tap.y)],
            vec![
                pos2(chiller.right(), tap.y),
                pos2(310.0, tap.y),
                pos2(310.0, 535.0),
                pos2(join.x, 535.0),
                join,
            ],
        ]
        .map(|corners| corners.into_iter().map(|p| self.at(p)).collect())
    }
}

/// Round the corners of a polyline and take points of it about `step` apart.
pub fn sample(corners: &[Pos2], radius: f32, step: f32) -> Vec<Pos2> {
    let mut rounded: Vec<Pos2> = Vec::new();
    for i in 0..corners.len() {
        let here = corners[i];
        if i == 0 || i + 1 == corners.len() {
            rounded.push(here);
            continue;
        }
        let (before, after) = (corners[i - 1] - here, corners[i + 1] - here);
        let r = radius.min(before.length() * 0.49).min(after.length() * 0.49);
        let (a, b) = (here + before.normalized() * r, here + after.normalized() * r);
        for n in 0..=4 {
            let u = n as f32 / 4.0;
            // Quadratic curve with the corner as its control point.
            let p = a.lerp(here, u).lerp(here.lerp(b, u), u);
            rounded.push(p);
        }
    }
    let mut out = Vec::new();
    for pair in rounded.windows(2) {
        let pieces = ((pair[1] - pair[0]).length() / step).ceil().max(1.0) as usize;
        for n in 0..pieces {
            out.push(pair[0].lerp(pair[1], n as f32 / pieces as f32));
        }
    }
    out.extend(rounded.last());
    out
}

/// Share of the length of a polyline at which it passes nearest to a place.
pub fn share_at(path: &[Pos2], place: Pos2) -> f32 {
    let (mut walked, mut best, mut at) = (0.0, f32::INFINITY, 0.0);
    for pair in path.windows(2) {
        let along = pair[1] - pair[0];
        let length = along.length();
        if length > 0.0 {
            let u = ((place - pair[0]).dot(along) / (length * length)).clamp(0.0, 1.0);
            let distance = (pair[0] + along * u - place).length();
            if distance < best {
                (best, at) = (distance, walked + u * length);
            }
        }
        walked += length;
    }
    if walked > 0.0 { at / walked } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sampling_keeps_the_ends_and_finds_places() {
        let corners = [pos2(0.0, 0.0), pos2(100.0, 0.0), pos2(100.0, 100.0)];
        let path = sample(&corners, 10.0, 5.0);
        assert_eq!(path.first(), corners.first());
        assert_eq!(path.last(), corners.last());
        assert!((share_at(&path, pos2(100.0, 99.9)) - 1.0).abs() < 0.01);
        assert!(share_at(&path, pos2(50.0, 3.0)) < 0.3);
    }

    #[test]
    fn points_lie_on_their_pipes() {
        let plan = Plan::new(Rect::from_min_size(Pos2::ZERO, SIZE), Topology::default());
        let pipes = plan.pipes();
        for (point, segment) in [(1, 8), (2, 0), (3, 5), (4, 5), (5, 6), (6, 8)] {
            let place = spots::POINTS[point - 1];
            let path = sample(&pipes[segment], 10.0, 6.0);
            let gap = path.iter().map(|p| (*p - place).length()).fold(f32::INFINITY, f32::min);
            assert!(gap < 6.0, "point {point} is {gap} off its pipe");
        }
    }
}
