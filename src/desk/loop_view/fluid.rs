//! Pipes and what runs in them. Liquid is dense slow dots, vapour sparse fast dots, two-phase is rings in
//! liquid whose share is the void fraction. One rule makes all three: particles pass at equal intervals of
//! time, so where the flow is faster they are further apart, as continuity wants it.

use egui::{Color32, Painter, Pos2, Shape, Stroke, vec2};

use super::strokes::Strokes;
use super::track::Track;
use crate::desk::theme::Theme;

/// Half the width of a pipe in the schematic [pt at scale 1].
const HALF_WIDTH: f32 = 6.5;
/// Speed of liquid at nominal flow [pt/s at scale 1].
const LIQUID_SPEED: f32 = 24.0;
/// Vapour runs so many times faster in the drawing; the true ratio (20 to 70) would be unreadable.
const VAPOUR_RATIO: f32 = 5.0;
/// Interval between particles of one lane [nominal s].
const INTERVAL: f32 = 0.26;
/// Lanes side by side.
const LANES: usize = 2;

/// How a pipe is to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    /// Scale of the drawing.
    pub s: f32,
    /// Share of unfolding.
    pub unfold: f32,
    /// The wall can be looked through.
    pub open: bool,
}

/// Draw one segment.
pub fn paint(painter: &Painter, track: &Track, phase: f64, look: Look, theme: &Theme) {
    if track.stations.len() < 2 {
        return;
    }
    let half = egui::lerp(HALF_WIDTH * look.s..=0.9, look.unfold);
    fill(painter, track, half, look, theme);
    if look.open {
        particles(painter, track, phase, half, look, theme);
    }
    walls(painter, track, half, look, theme);
}

fn fill(painter: &Painter, track: &Track, half: f32, look: Look, theme: &Theme) {
    let mut mesh = egui::Mesh::default();
    for (i, station) in track.stations.iter().enumerate() {
        let colour =
            if look.open { ground(station.void, theme) } else { Theme::mix(theme.raised, theme.line, 0.35) };
        let across = track.normal(i) * half;
        mesh.colored_vertex(station.pos + across, colour);
        mesh.colored_vertex(station.pos - across, colour);
        if i > 0 {
            let n = 2 * i as u32;
            mesh.add_triangle(n - 2, n - 1, n);
            mesh.add_triangle(n - 1, n, n + 1);
        }
    }
    painter.add(Shape::mesh(mesh));
}

fn walls(painter: &Painter, track: &Track, half: f32, look: Look, theme: &Theme) {
    let colour = if track.low { theme.low } else { theme.high };
    let width = 2.0 * look.s.clamp(0.9, 1.4);
    // On the chart the two walls are one process line.
    let (sides, width) =
        if look.unfold > 0.93 { (&[0.0][..], width + 1.4) } else { (&[half, -half][..], width) };
    let stroke = Stroke::new(width, colour);
    let mut dashes = Strokes::default();
    for &side in sides {
        let line = straightened(&track.beside(side));
        if track.low {
            dashes.dashes(&line, stroke, 9.0 * look.s, 5.0 * look.s);
        } else {
            painter.add(Shape::line(line, stroke));
        }
    }
    dashes.paint(painter);
}

/// The same line without points that lie on the straight between their neighbours.
fn straightened(line: &[Pos2]) -> Vec<Pos2> {
    let mut out: Vec<Pos2> = Vec::new();
    for &p in line {
        if let [.., a, b] = out[..] {
            let (along, next) = (b - a, p - b);
            let bend = along.x * next.y - along.y * next.x;
            // The kept chord grows, so the bend is measured against its length: the way off it in points.
            if bend.abs() < 0.08 * along.length().max(next.length()) && along.dot(next) > 0.0 {
                out.pop();
            }
        }
        out.push(p);
    }
    out
}

/// A small ring as two discs: egui paints discs from its atlas, which costs a twentieth of a stroked circle.
fn ring(painter: &Painter, at: Pos2, radius: f32, width: f32, ink: Color32, hole: Color32) {
    painter.circle_filled(at, radius + width / 2.0, ink);
    painter.circle_filled(at, radius - width / 2.0, hole);
}

/// Colour of what fills an open pipe: wet until little liquid is left.
fn ground(void: f32, theme: &Theme) -> Color32 {
    Theme::mix(theme.ground, theme.liquid, 0.06 + 0.22 * (1.0 - void))
}

/// Speed in the drawing against liquid, by void fraction.
fn speed(void: f32) -> f32 {
    1.0 / (1.0 - (1.0 - 1.0 / VAPOUR_RATIO) * void)
}

/// A number from 0 to 1 that belongs to particle `k` for good.
fn dice(k: i64, lane: usize, salt: u32) -> f32 {
    let mut x = (k as u32).wrapping_mul(0x9E37_79B9) ^ (lane as u32 + 1).wrapping_mul(0x85EB_CA6B) ^ salt;
    x = (x ^ (x >> 16)).wrapping_mul(0x7FEB_352D);
    x = (x ^ (x >> 15)).wrapping_mul(0x846C_A68B);
    ((x ^ (x >> 16)) >> 8) as f32 / 16_777_216.0
}

fn particles(painter: &Painter, track: &Track, phase: f64, half: f32, look: Look, theme: &Theme) {
    // Transit time from the start of the segment to each station, in nominal seconds.
    let stations = &track.stations;
    let mut times = Vec::with_capacity(stations.len());
    let mut total = 0.0;
    times.push(0.0);
    for pair in stations.windows(2) {
        let way = (pair[1].folded - pair[0].folded).length() / look.s;
        total += way / (LIQUID_SPEED * speed(0.5 * (pair[0].void + pair[1].void)));
        times.push(total);
    }
    for lane in 0..LANES {
        let shift = phase + f64::from(INTERVAL) * (lane as f64) / (LANES as f64);
        let first = (-shift / f64::from(INTERVAL)).ceil() as i64;
        let last = ((f64::from(total) - shift) / f64::from(INTERVAL)).floor() as i64;
        let mut at = 0;
        for k in first..=last {
            let time = (k as f64 * f64::from(INTERVAL) + shift) as f32;
            while at + 2 < times.len() && times[at + 1] < time {
                at += 1;
            }
            let width = times[at + 1] - times[at];
            let u = if width > 0.0 { ((time - times[at]) / width).clamp(0.0, 1.0) } else { 0.0 };
            let (a, b) = (&stations[at], &stations[at + 1]);
            let room = (half - 2.6 * look.s).max(0.0);
            let aside = (dice(k, lane, 1) * 2.0 - 1.0) * room;
            let place = a.pos.lerp(b.pos, u) + track.normal(at) * aside;
            let void = a.void + u * (b.void - a.void);
            particle(painter, place, void, k, lane, look, theme);
        }
    }
}

fn particle(painter: &Painter, at: Pos2, void: f32, k: i64, lane: usize, look: Look, theme: &Theme) {
    // On the chart a process line carries a few beads only.
    if look.unfold > 0.0 && !(lane == 0 && k.rem_euclid(4) == 0) {
        if look.unfold > 0.6 {
            return;
        }
    } else if look.unfold > 0.6 {
        painter.circle_filled(at, 2.2 * look.s, theme.text);
        return;
    }
    let s = look.s;
    if void > 0.997 {
        painter.circle_filled(at, 1.6 * s, theme.vapour);
    } else if void > 0.003 && dice(k, lane, 2) < void {
        let radius = (2.0 + 2.0 * dice(k, lane, 3)) * s;
        ring(painter, at, radius, 0.95 * s, theme.vapour, ground(void, theme));
    } else {
        painter.circle_filled(at, 1.35 * s, theme.liquid);
    }
}

/// Bubbles behind a round window, such as a sight glass: `share` of them rings, the rest liquid.
pub fn window(painter: &Painter, centre: Pos2, radius: f32, share: f32, phase: f64, theme: &Theme) {
    let empty = share > 0.985;
    let inside =
        if empty { theme.ground } else { Theme::mix(theme.ground, theme.liquid, 0.42 - 0.22 * share) };
    painter.circle_filled(centre, radius, inside);
    if empty {
        return;
    }
    let count = (share * 16.0).ceil() as i64;
    for k in 0..count {
        // Bubbles pass downward with the flow and come back at the top.
        let y = (f64::from(dice(k, 0, 7)) + phase * 0.5 + 1e4).fract() as f32 * 2.0 - 1.0;
        let x = dice(k, 0, 8) * 2.0 - 1.0;
        let place = vec2(x, y) * (radius - 2.5);
        if place.length() < radius - 2.0 {
            let r = 1.4 + 1.8 * dice(k, 0, 9);
            ring(painter, centre + place, r, 0.95, theme.vapour, inside);
        }
    }
}

/// A chevron on the pipe that shows the way.
pub fn chevron(painter: &Painter, track: &Track, share: f32, s: f32, colour: Color32) {
    let last = track.stations.len() - 1;
    let i = ((share * last as f32) as usize).min(last);
    let across = track.normal(i);
    let along = vec2(-across.y, across.x);
    let tip = track.stations[i].pos + along * 4.5 * s;
    let back = track.stations[i].pos - along * 4.5 * s;
    let points = vec![tip, back + across * 5.0 * s, back - across * 5.0 * s];
    painter.add(Shape::convex_polygon(points, colour, Stroke::NONE));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn vapour_runs_faster_than_liquid_and_two_phase_between() {
        assert!((speed(0.0) - 1.0).abs() < 1e-6);
        assert!((speed(1.0) - VAPOUR_RATIO).abs() < 1e-4);
        assert!(speed(0.5) > 1.2 && speed(0.5) < 2.5);
    }

    #[test]
    fn straight_pieces_need_two_points() {
        let line: Vec<Pos2> = (0..50).map(|i| Pos2::new(i as f32 * 6.0, 3.0)).collect();
        assert_eq!(straightened(&line).len(), 2);
        let arc: Vec<Pos2> =
            (0..20).map(|i| Pos2::ZERO + 10.0 * egui::Vec2::angled(i as f32 * 0.08)).collect();
        assert!(straightened(&arc).len() > 6);
    }

    #[test]
    fn dice_are_fair_enough() {
        let mean = (0..4000).map(|k| dice(k - 2000, 1, 2)).sum::<f32>() / 4000.0;
        assert!((mean - 0.5).abs() < 0.03, "{mean}");
    }
}
