//! What is in a hose, drawn by what it is: liquid dense, vapour sparse, air and nitrogen as hollow rings. The marks move
//! as the flow does; a hose that stands still stands still.

use egui::{Color32, Painter, Pos2, Stroke};

use crate::bench::HoseFace;
use crate::desk::theme::Theme;

/// Below this there is next to nothing in a hose [Pa absolute].
pub const EMPTY_PA: f64 = 300.0;
/// More marks than this are not drawn in one hose.
const MOST: usize = 400;

/// A line with its length.
pub struct Track {
    points: Vec<Pos2>,
    length: f32,
}

impl Track {
    /// Along points.
    pub fn new(points: Vec<Pos2>) -> Self {
        let length = points.windows(2).map(|w| (w[1] - w[0]).length()).sum();
        Self { points, length }
    }
    /// Its points.
    pub fn points(&self) -> &[Pos2] {
        &self.points
    }
    /// The point so far along.
    fn at(&self, mut way: f32) -> Option<Pos2> {
        for pair in self.points.windows(2) {
            let step = (pair[1] - pair[0]).length();
            if way <= step && step > 0.0 {
                return Some(pair[0].lerp(pair[1], way / step));
            }
            way -= step;
        }
        self.points.last().copied()
    }
}

/// Distance between the marks of vapour or air at a pressure [pt].
pub fn apart(p_pa: f64) -> f32 {
    // Four times the pressure, half the distance: dense looks dense, and a vacuum still shows what is left.
    let share = (p_pa / 6e5).clamp(1e-3, 4.0).sqrt() as f32;
    (16.0 / share).clamp(9.0, 90.0)
}

/// Marks in a hose; `phase` is the way they have gone along the track.
pub fn marks(paint: &Painter, theme: &Theme, track: &Track, hose: &HoseFace, phase: f64) {
    if hose.p_pa < EMPTY_PA || track.length < 1.0 {
        return;
    }
    let row = |spacing: f32, offset: f32| {
        let first = ((phase as f32) + offset).rem_euclid(spacing);
        let n = ((track.length - first) / spacing).max(0.0) as usize;
        (0..=n.min(MOST)).filter_map(move |i| track.at(first + i as f32 * spacing))
    };
    let refrigerant_pa = hose.p_pa * (1.0 - hose.air);
    let air_pa = hose.p_pa * hose.air;
    if hose.liquid > 0.02 {
        // Liquid fills the hose; what gas there is shows as gaps.
        let spacing = 5.0 + 12.0 * (1.0 - hose.liquid as f32);
        for at in row(spacing, 0.0) {
            paint.circle_filled(at, 2.3, theme.liquid);
        }
    } else if refrigerant_pa > EMPTY_PA {
        for at in row(apart(refrigerant_pa), 0.0) {
            paint.circle_filled(at, 1.7, theme.vapour);
        }
    }
    if air_pa > EMPTY_PA {
        for at in row(apart(air_pa), 4.0) {
            hollow(paint, at, theme.text);
        }
    }
}

/// The mark of air and nitrogen.
pub fn hollow(paint: &Painter, at: Pos2, color: Color32) {
    paint.circle_stroke(at, 2.3, Stroke::new(1.0, color));
}
