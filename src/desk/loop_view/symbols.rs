//! Symbols of the components, after the manner of EN 1861 and ISO 14617, drawn as own vectors.

use egui::{Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2, vec2};

use super::strokes::Strokes;
use crate::desk::theme::Theme;

/// A finned block: casing and fins; the pipe runs over it.
pub fn coil(painter: &Painter, rect: Rect, s: f32, theme: &Theme) {
    let casing = Stroke::new(1.5, theme.line);
    painter.rect(rect, 7.0 * s, theme.panel, casing, StrokeKind::Middle);
    let fin = Stroke::new(1.0, Theme::mix(theme.panel, theme.line, 0.8));
    let count = (rect.width() / (8.0 * s)) as usize;
    let mut fins = Strokes::default();
    for i in 1..count {
        let x = painter.round_to_pixel_center(rect.left() + rect.width() * i as f32 / count as f32);
        fins.line(pos2(x, rect.top() + 6.0 * s), pos2(x, rect.bottom() - 6.0 * s), fin);
    }
    fins.paint(painter);
}

/// A fan: hub and five blades in a ring.
pub fn fan(painter: &Painter, centre: Pos2, radius: f32, angle: f64, theme: &Theme) {
    painter.circle(centre, radius, theme.panel, Stroke::new(1.5, theme.muted));
    let blade = Theme::mix(theme.ground, theme.muted, 0.8);
    for n in 0..5 {
        let a = angle as f32 + n as f32 * std::f32::consts::TAU / 5.0;
        let point = |turn: f32, r: f32| centre + Vec2::angled(a + turn) * radius * r;
        let points =
            vec![point(-0.15, 0.16), point(-0.26, 0.82), point(0.12, 0.9), point(0.34, 0.8), point(0.4, 0.2)];
        painter.add(Shape::convex_polygon(points, blade, Stroke::NONE));
    }
    painter.circle_filled(centre, radius * 0.17, theme.text);
}

/// Three wavy arrows of air; `reach` gives direction and length, `run` 0 to 1 how strongly it blows.
pub fn air(painter: &Painter, at: Pos2, reach: Vec2, run: f32, phase: f64, s: f32, theme: &Theme) {
    let stroke = Stroke::new(1.4 * s, Theme::mix(theme.line, theme.muted, run.clamp(0.15, 1.0)));
    let along = reach.normalized();
    let across = along.rot90();
    for n in -1..=1 {
        let start = at + across * (n as f32 * 11.0 * s);
        let points: Vec<Pos2> = (0..=10)
            .map(|i| {
                let u = i as f32 / 10.0;
                let wave = (u * 7.0 - phase as f32 * 2.0).sin() * 2.2 * s * (1.0 - u * 0.5);
                start + reach * u + across * wave
            })
            .collect();
        if let Some(&tip) = points.last() {
            let head = 4.5 * s;
            let wing = |side: f32| tip - along * head + across * head * 0.6 * side;
            painter.add(Shape::line(vec![wing(1.0), tip, wing(-1.0)], stroke));
        }
        painter.add(Shape::line(points, stroke));
    }
}

/// Compressor: circle with two lines closing in the direction of flow (up).
pub fn compressor(painter: &Painter, c: Pos2, r: f32, s: f32, theme: &Theme) {
    painter.circle(c, r, theme.raised, Stroke::new(2.0 * s, theme.text));
    for side in [-1.0, 1.0] {
        let line = [c + vec2(side * r * 0.70, r * 0.71), c + vec2(side * r * 0.26, -r * 0.96)];
        painter.line_segment(line, Stroke::new(2.0 * s, theme.text));
    }
}

/// Clutch to the right of the compressor: plate on the shaft, gap, pulley with its belt.
pub fn clutch(
    painter: &Painter,
    c: Pos2,
    r: f32,
    s: f32,
    engaged: bool,
    shaft: f64,
    pulley: f64,
    theme: &Theme,
) -> Rect {
    let colour = if engaged { theme.good } else { theme.muted };
    let x = c.x + r;
    let gap = if engaged { 0.0 } else { 6.0 * s };
    painter.line_segment([pos2(x, c.y), pos2(x + 9.0 * s, c.y)], Stroke::new(4.0 * s, theme.muted));
    let part = |left: f32, width: f32, half: f32| {
        Rect::from_min_max(pos2(left, c.y - half * s), pos2(left + width * s, c.y + half * s))
    };
    let plate = part(x + 9.0 * s, 7.0, 24.0);
    let wheel = part(plate.right() + gap, 16.0, 28.0);
    for (rect, angle, fill) in [(plate, shaft, colour), (wheel, pulley, theme.raised)] {
        painter.rect(rect, 2.0, fill, Stroke::new(1.5 * s, colour), StrokeKind::Middle);
        // Marks on the rim that come round as it turns.
        for n in 0..6 {
            let a = angle + f64::from(n) * std::f64::consts::TAU / 6.0;
            if a.cos() > 0.0 {
                let y = c.y + (a.sin() as f32) * (rect.height() / 2.0 - 3.0 * s);
                let ink = if fill == colour { theme.ground } else { theme.muted };
                painter.hline(rect.left() + 2.0..=rect.right() - 2.0, y, Stroke::new(1.5 * s, ink));
            }
        }
    }
    plate.union(wheel)
}

/// Expansion valve as an angle valve: liquid from the left, seat, pintle on its spring under the seat. On top a
/// diaphragm cap with the bulb line, or a stepper motor.
pub fn valve(painter: &Painter, c: Pos2, s: f32, lift: Option<f32>, thermostatic: bool, theme: &Theme) {
    let at = |x: f32, y: f32| c + vec2(x, y) * s;
    let body = Rect::from_center_size(c, vec2(56.0, 56.0) * s);
    let line = Stroke::new(1.8 * s, theme.text);
    painter.rect(body, 4.0 * s, theme.raised, line, StrokeKind::Middle);
    if thermostatic {
        // Cap with diaphragm.
        let cap = vec![at(-20.0, -34.0), at(-12.0, -42.0), at(12.0, -42.0), at(20.0, -34.0)];
        painter.add(Shape::convex_polygon(cap, theme.raised, line));
        painter.line_segment([at(-20.0, -34.0), at(20.0, -34.0)], line);
    } else {
        let motor = Rect::from_min_max(at(-14.0, -50.0), at(14.0, -34.0));
        painter.rect(motor, 3.0 * s, theme.raised, line, StrokeKind::Middle);
        let font = crate::desk::fonts::bold((11.0 * s).max(12.0));
        painter.text(motor.center(), egui::Align2::CENTER_CENTER, "M", font, theme.text);
    }
    painter.rect_filled(
        Rect::from_min_max(at(-6.0, -34.0), at(6.0, -28.0)),
        0.0,
        Theme::mix(theme.raised, theme.text, 0.4),
    );
    let Some(lift) = lift else { return };
    // Chamber: inlet at the left above the seat, outlet below.
    let chamber = Theme::mix(theme.ground, theme.liquid, 0.28);
    painter.rect_filled(Rect::from_min_max(at(-27.0, -8.0), at(8.0, 4.0)), 1.0, chamber);
    painter.rect_filled(Rect::from_min_max(at(-8.0, 4.0), at(8.0, 27.0)), 1.0, theme.ground);
    for side in [-1.0, 1.0] {
        let seat = vec![at(side * 4.2, 4.0), at(side * 13.0, 4.0), at(side * 13.0, 9.0), at(side * 7.0, 9.0)];
        painter.add(Shape::convex_polygon(seat, theme.text, Stroke::NONE));
    }
    let drop = lift.clamp(0.0, 1.4) * 8.0;
    painter.line_segment([at(0.0, -28.0), at(0.0, 4.0 + drop)], Stroke::new(2.0 * s, theme.muted));
    let pintle = vec![at(0.0, 2.0 + drop), at(6.0, 10.0 + drop), at(-6.0, 10.0 + drop)];
    painter.add(Shape::convex_polygon(pintle, theme.chosen, Stroke::NONE));
    // Spring between pintle and floor.
    let (top, floor) = (11.0 + drop, 26.0);
    let coil: Vec<Pos2> = (0..=6)
        .map(|i| {
            let y = top + (floor - top) * i as f32 / 6.0;
            at(if i % 2 == 0 { -5.0 } else { 5.0 }, y)
        })
        .collect();
    painter.add(Shape::line(coil, Stroke::new(1.2 * s, theme.muted)));
}

/// The bulb on the suction pipe and its capillary to the cap of the valve.
pub fn bulb(painter: &Painter, bulb: Pos2, cap: Pos2, s: f32, theme: &Theme) {
    let rect = Rect::from_center_size(bulb, vec2(30.0, 8.0) * s);
    let start = rect.left_center() + vec2(0.0, 0.0);
    let curve = egui::epaint::CubicBezierShape::from_points_stroke(
        [cap, cap + vec2(150.0, -34.0) * s, start + vec2(-150.0, -78.0) * s, start],
        false,
        egui::Color32::TRANSPARENT,
        Stroke::NONE,
    );
    let stroke = Stroke::new(1.5 * s, theme.muted);
    let mut dashes = Strokes::default();
    dashes.dashes(&curve.flatten(Some(0.6)), stroke, 2.5 * s, 4.0 * s);
    dashes.paint(painter);
    painter.rect(
        rect,
        4.0 * s,
        Theme::mix(theme.ground, theme.muted, 0.75),
        Stroke::NONE,
        StrokeKind::Middle,
    );
}

/// A bottle without its outline, filled to a level where one is known. Returns where the liquid ends at the top.
fn bottle(
    painter: &Painter,
    rect: Rect,
    round: f32,
    s: f32,
    level: Option<f32>,
    theme: &Theme,
) -> Option<f32> {
    let back = if level.is_some() { Theme::mix(theme.ground, theme.liquid, 0.06) } else { theme.raised };
    painter.rect(rect, round, back, Stroke::NONE, StrokeKind::Middle);
    let top = egui::lerp(rect.bottom() - 3.0 * s..=rect.top() + 3.0 * s, level?.clamp(0.0, 1.0));
    let pool = Rect::from_min_max(pos2(rect.left(), top), rect.max);
    painter.with_clip_rect(pool.intersect(painter.clip_rect())).rect_filled(
        rect,
        round,
        Theme::mix(theme.ground, theme.liquid, 0.42),
    );
    Some(top)
}

/// The receiver-drier: bottle with its dip tube, desiccant and level.
pub fn receiver(painter: &Painter, rect: Rect, s: f32, level: Option<f32>, theme: &Theme) {
    let wall = Stroke::new(2.0 * s, theme.high);
    let round = 12.0 * s;
    if let Some(top) = bottle(painter, rect, round, s, level, theme) {
        painter.hline(rect.left() + 2.0..=rect.right() - 2.0, top, Stroke::new(1.5 * s, theme.liquid));
        // Desiccant bag.
        let bag = Rect::from_center_size(rect.center(), vec2(rect.width() * 0.62, 13.0 * s));
        let ink = Theme::mix(theme.ground, theme.muted, 0.65);
        painter.rect_stroke(bag, 2.0, Stroke::new(1.0, ink), StrokeKind::Middle);
        for row in 0..2 {
            for column in 0..4 {
                let step = vec2(bag.width() / 4.0, 6.0 * s);
                let dot = bag.min + vec2((column as f32 + 0.5) * step.x, (row as f32 + 0.55) * step.y);
                painter.circle_filled(dot, 1.2 * s, ink);
            }
        }
        // Dip tube.
        let tube = rect.left() + 8.0 * s;
        let inlet = rect.top() + 22.0 * s;
        painter.vline(tube, inlet..=rect.bottom() - 8.0 * s, Stroke::new(3.0 * s, ink));
    }
    painter.rect_stroke(rect, round, wall, StrokeKind::Middle);
}

/// A service port: a capped stub on the pipe, with its hose when one is fitted.
pub fn port(painter: &Painter, at: Pos2, towards: Vec2, s: f32, colour: egui::Color32, fitted: bool) {
    let end = at + towards * 16.0 * s;
    painter.line_segment([at + towards * 7.0 * s, end], Stroke::new(5.0 * s, colour));
    let cap = Rect::from_center_size(end, vec2(9.0, 9.0) * s);
    if fitted {
        painter.circle_filled(end, 6.0 * s, colour);
    } else {
        painter.rect_filled(cap, 2.0, colour);
    }
}

/// Orifice tube: a pipe bend with the plastic body in it, its screens at both ends and the bore through it.
pub fn orifice(painter: &Painter, c: Pos2, s: f32, theme: &Theme) {
    let at = |x: f32, y: f32| c + vec2(x, y) * s;
    let line = Stroke::new(1.8 * s, theme.text);
    // The bend: liquid from the left, outlet below.
    let body = Rect::from_min_max(at(-28.0, -14.0), at(14.0, 14.0));
    painter.rect(body, 4.0 * s, theme.raised, line, StrokeKind::Middle);
    let foot = Rect::from_min_max(at(-14.0, 14.0), at(14.0, 28.0));
    painter.rect(foot, 3.0 * s, theme.raised, line, StrokeKind::Middle);
    let plug = Rect::from_min_max(at(-16.0, -9.0), at(6.0, 9.0));
    painter.rect_filled(plug, 1.0, Theme::mix(theme.raised, theme.chosen, 0.35));
    painter.line_segment([at(-16.0, 0.0), at(6.0, 0.0)], Stroke::new(2.4 * s, theme.ground));
    for x in [-21.0, 10.0] {
        painter.extend(Shape::dashed_line(
            &[at(x, -9.0), at(x, 9.0)],
            Stroke::new(1.5 * s, theme.muted),
            2.0,
            2.0,
        ));
    }
}

/// Accumulator: a bottle on the suction line with its level and the U-tube that takes vapour from the top.
pub fn accumulator(painter: &Painter, rect: Rect, s: f32, level: Option<f32>, theme: &Theme) {
    let round = 10.0 * s;
    bottle(painter, rect, round, s, level, theme);
    let ink = Stroke::new(2.5 * s, Theme::mix(theme.ground, theme.muted, 0.8));
    let (left, right) = (rect.left() + 12.0 * s, rect.right() - 10.0 * s);
    let (top, low) = (rect.top() + 10.0 * s, rect.bottom() - 8.0 * s);
    painter.add(Shape::line(vec![pos2(left, top), pos2(left, low), pos2(right, low), pos2(right, top)], ink));
    painter.rect_stroke(rect, round, Stroke::new(2.0 * s, theme.low), StrokeKind::Middle);
}

/// The motor of a compressor without belt: beside it, or in one welded shell with it.
pub fn motor(painter: &Painter, c: Pos2, r: f32, s: f32, in_shell: bool, theme: &Theme) {
    let stroke = Stroke::new(1.8 * s, theme.text);
    let centre = c + vec2(r + 22.0 * s, 0.0);
    painter.line_segment([c + vec2(r, 0.0), centre], Stroke::new(4.0 * s, theme.muted));
    painter.circle(centre, 14.0 * s, theme.raised, stroke);
    let font = crate::desk::fonts::bold((13.0 * s).max(12.0));
    painter.text(centre, egui::Align2::CENTER_CENTER, "M", font, theme.text);
    if in_shell {
        let shell =
            Rect::from_min_max(c - vec2(r + 7.0 * s, r + 9.0 * s), c + vec2(r + 42.0 * s, r + 9.0 * s));
        painter.rect_stroke(shell, 16.0 * s, Stroke::new(2.0 * s, theme.muted), StrokeKind::Middle);
    }
}

/// A small valve on a pipe: two triangles, tip to tip, with a motor on top.
pub fn small_valve(painter: &Painter, c: Pos2, s: f32, theme: &Theme) {
    let at = |x: f32, y: f32| c + vec2(x, y) * s;
    let line = Stroke::new(1.6 * s, theme.text);
    for side in [-1.0, 1.0] {
        let wing = vec![c, at(10.0 * side, -8.0), at(10.0 * side, 8.0)];
        painter.add(Shape::convex_polygon(wing, theme.raised, line));
    }
    painter.line_segment([c, at(0.0, -10.0)], line);
    painter.rect(
        Rect::from_center_size(at(0.0, -14.0), vec2(14.0, 9.0) * s),
        1.0,
        theme.raised,
        line,
        StrokeKind::Middle,
    );
}
