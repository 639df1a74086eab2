//! The face of one gauge: pressure in the chosen unit, vacuum on a scale of its own, a ring of saturation
//! temperatures, the needle.

use std::f32::consts::PI;

use egui::{Align2, Color32, FontId, Pos2, Rect, Stroke, Ui, Vec2, vec2};

use super::parts::SMALL;
use crate::desk::DeskView;
use crate::units::{ATMOSPHERE_PA, Kelvin, Units};

/// Which gauge of the set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Low side: blue and dashed.
    Low,
    /// High side: vermillion and solid.
    High,
}

/// Class of both gauges, as printed on their faces.
pub const CLASS: &str = "cl. 1.6";

/// Angle of full vacuum and of the end of the scale, counted clockwise from straight up.
const FIRST: f32 = -0.75 * PI;
const LAST: f32 = 0.75 * PI;

/// Marks of the saturation ring are no closer than this [rad].
const CLOSEST: f32 = 0.12;

/// Scale of a face in the chosen unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// End of the scale [unit].
    pub end: f64,
    /// Between numbers [unit].
    pub major: f64,
    /// Between ticks [unit].
    pub minor: f64,
    /// Pascals in a unit.
    pascals: f64,
    /// Arc of the vacuum part [rad].
    vacuum_arc: f32,
}

impl Scale {
    /// The scale of a side in these units.
    pub fn of(side: Side, units: Units) -> Self {
        let (end, major, minor) = match (side, units) {
            (Side::Low, Units::Bar) => (10.0, 1.0, 0.2),
            (Side::Low, Units::Kpa) => (1000.0, 200.0, 20.0),
            (Side::Low, Units::Psi) => (150.0, 25.0, 5.0),
            (Side::High, Units::Bar) => (35.0, 5.0, 1.0),
            (Side::High, Units::Kpa) => (3500.0, 500.0, 100.0),
            (Side::High, Units::Psi) => (500.0, 100.0, 20.0),
        };
        let vacuum_arc = if side == Side::Low { 0.19 * PI } else { 0.1 * PI };
        Self { end, major, minor, pascals: units.pascals(), vacuum_arc }
    }

    /// Angle of a gauge pressure [Pa], stopped at the pins of the face.
    pub fn angle(&self, gauge_pa: f64) -> f32 {
        let zero = FIRST + self.vacuum_arc;
        if gauge_pa < 0.0 {
            let share = (gauge_pa / ATMOSPHERE_PA).max(-1.04) as f32;
            return zero + share * self.vacuum_arc;
        }
        let share = (gauge_pa / (self.end * self.pascals)).min(1.02) as f32;
        zero + share * (LAST - zero)
    }

    /// Is the needle at its upper stop?
    pub fn off_scale(&self, gauge_pa: f64) -> bool {
        gauge_pa > self.end * self.pascals
    }
}

/// Draw a face with its needle. A gauge whose hose is off is dimmed and stands at zero.
pub fn face(ui: &Ui, rect: Rect, view: &DeskView, side: Side, needle_pa: f64, fitted: bool) {
    let theme = view.theme;
    let dim = |color: Color32| if fitted { color } else { color.gamma_multiply(0.75) };
    let (center, r) = (rect.center(), rect.width().min(rect.height()) / 2.0 - 2.0);
    let scale = Scale::of(side, view.units);
    let color = dim(if side == Side::Low { theme.low } else { theme.high });
    let paint = ui.painter();
    paint.circle_filled(center, r, theme.ground);
    rim(ui, center, r - 1.5, side, color);

    let at = |angle: f32, radius: f32| center + radius * vec2(angle.sin(), -angle.cos());
    let tick = |angle: f32, from: f32, to: f32, stroke: Stroke| {
        paint.line_segment([at(angle, from), at(angle, to)], stroke);
    };
    // Vacuum: a band of its own.
    let band: Vec<Pos2> = (0..=12).map(|i| at(FIRST + scale.vacuum_arc * i as f32 / 12.0, r - 9.0)).collect();
    paint.add(egui::Shape::line(band, Stroke::new(4.0, dim(theme.good))));
    // Pressure ticks.
    let steps = (scale.end / scale.minor).round() as usize;
    for i in 0..=steps {
        let value = i as f64 * scale.minor;
        let major = is_multiple(value, scale.major);
        let stroke =
            Stroke::new(if major { 2.0 } else { 1.0 }, dim(if major { theme.text } else { theme.muted }));
        tick(scale.angle(value * scale.pascals), r - 6.0, r - if major { 14.0 } else { 10.0 }, stroke);
    }
    // Saturation ring.
    let text_size = SMALL * (r / 80.0).clamp(1.0, 1.5);
    let (number_r, ring_r) = (r - 14.0 - 0.75 * text_size, r - 14.0 - 1.9 * text_size);
    let ring = saturation_marks(view, &scale);
    for (angle, _) in &ring {
        tick(*angle, ring_r + 4.0, ring_r, Stroke::new(1.0, dim(theme.muted)));
    }
    needle(ui, center, r, scale.angle(if fitted { needle_pa } else { 0.0 }), dim(theme.text));

    // Words last, so that the needle never hides a digit.
    let mut taken: Vec<Rect> = Vec::new();
    let mut put = |pos: Pos2, text: &str, color: Color32| {
        let galley = paint.layout_no_wrap(text.to_owned(), FontId::proportional(text_size), color);
        let rect = Align2::CENTER_CENTER.anchor_size(pos, galley.size());
        let clear = !taken.iter().any(|other| other.intersects(rect.expand2(vec2(2.0, -2.0))));
        if clear {
            taken.push(rect);
            paint.rect_filled(rect.shrink2(vec2(0.0, 2.0)), 2.0, theme.ground);
            paint.galley(rect.min, galley, color);
        }
        clear
    };
    for i in 0..=(scale.end / scale.major).floor() as usize {
        let value = i as f64 * scale.major;
        put(at(scale.angle(value * scale.pascals), number_r), &format!("{value:.0}"), dim(theme.text));
    }
    let end = vacuum_end(view.units);
    let inward = 2.5 * end.chars().count().saturating_sub(2) as f32;
    put(at(FIRST, number_r - inward), end, dim(theme.good));
    put(center + vec2(0.0, r * 0.40), view.units.pressure_unit(), dim(theme.text));
    put(center + vec2(0.0, r * 0.68), &ring_label(view), dim(theme.muted));
    put(center + vec2(0.0, r * 0.86), CLASS, dim(theme.muted));
    if !fitted {
        put(center - vec2(0.0, r * 0.22), "not fitted", theme.text);
    }
    for (angle, text) in ring {
        put(at(angle, ring_r - 0.75 * text_size), &text, dim(theme.muted));
    }
    paint.circle_filled(center, 5.0, dim(theme.text));
}

/// Full vacuum as it is printed: inches of mercury beside psi.
fn vacuum_end(units: Units) -> &'static str {
    match units {
        Units::Bar => "−1",
        Units::Kpa => "−100",
        Units::Psi => "30\"Hg",
    }
}

/// What the inner ring counts, said once on the face.
fn ring_label(view: &DeskView) -> String {
    format!("{} {}", view.units.temperature_unit(), view.dome.refrigerant)
}

fn is_multiple(value: f64, of: f64) -> bool {
    (value / of - (value / of).round()).abs() < 1e-6
}

/// The rim: dashed on the low side, solid on the high side.
fn rim(ui: &Ui, center: Pos2, r: f32, side: Side, color: Color32) {
    let stroke = Stroke::new(3.0, color);
    if side == Side::High {
        ui.painter().circle_stroke(center, r, stroke);
        return;
    }
    const DASHES: usize = 36;
    for i in 0..DASHES {
        let from = i as f32 / DASHES as f32 * 2.0 * PI;
        let arc: Vec<Pos2> = (0..=4)
            .map(|k| from + k as f32 / 4.0 * 0.6 * 2.0 * PI / DASHES as f32)
            .map(|a| center + r * vec2(a.sin(), -a.cos()))
            .collect();
        ui.painter().add(egui::Shape::line(arc, stroke));
    }
}

fn needle(ui: &Ui, center: Pos2, r: f32, angle: f32, color: Color32) {
    let along = vec2(angle.sin(), -angle.cos());
    let across: Vec2 = along.rot90();
    let points = vec![
        center + along * (r - 8.0),
        center + across * 2.5 - along * 14.0,
        center - across * 2.5 - along * 14.0,
    ];
    ui.painter().add(egui::Shape::convex_polygon(points, color, Stroke::NONE));
}

/// Marks of the saturation ring: angle and temperature in the chosen unit, the roundest first so that
/// they win where room is short.
fn saturation_marks(view: &DeskView, scale: &Scale) -> Vec<(f32, String)> {
    let units = view.units;
    let celsius = |shown: f64| if units == Units::Psi { (shown - 32.0) / 1.8 } else { shown };
    let curve = &view.dome.saturation;
    let (Some(&(cold, _)), Some(&(hot, _))) = (curve.first(), curve.last()) else { return Vec::new() };
    let shown = |c: f64| units.temperature_value(Kelvin::from_c(c));
    let (first, last) = ((shown(cold) / 10.0).ceil() as i64, (shown(hot) / 10.0).floor() as i64);
    let mut temperatures: Vec<i64> = (first..=last).map(|t| t * 10).collect();
    temperatures.sort_by_key(|t| (t % 20 != 0, t % 40 != 0, t.abs()));
    let mut marks: Vec<(f32, String)> = Vec::new();
    for t in temperatures {
        let Some(pa) = saturation_pa(curve, celsius(t as f64)) else { continue };
        let gauge_pa = pa - ATMOSPHERE_PA;
        let angle = scale.angle(gauge_pa);
        let on_scale = gauge_pa > -0.6 * ATMOSPHERE_PA && !scale.off_scale(gauge_pa);
        if on_scale && marks.iter().all(|(other, _)| (other - angle).abs() > CLOSEST) {
            marks.push((angle, t.to_string().replace('-', "−")));
        }
    }
    marks
}

/// Saturation pressure [Pa absolute] between the rows of a table; `None` off its ends.
fn saturation_pa(curve: &[(f64, f64)], celsius: f64) -> Option<f64> {
    let pair = curve.windows(2).find(|w| (w[0].0..=w[1].0).contains(&celsius))?;
    let ((t0, p0), (t1, p1)) = (pair[0], pair[1]);
    // ln p is nearly straight in 1/T.
    let inverse = |c: f64| 1.0 / Kelvin::from_c(c).0;
    let share = (inverse(celsius) - inverse(t0)) / (inverse(t1) - inverse(t0));
    Some((p0.ln() + share * (p1 / p0).ln()).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_run_from_full_vacuum_to_the_end() {
        for side in [Side::Low, Side::High] {
            for units in Units::ALL {
                let scale = Scale::of(side, units);
                assert!((scale.angle(-ATMOSPHERE_PA) - FIRST).abs() < 1e-6);
                assert!((scale.angle(scale.end * units.pascals()) - LAST).abs() < 1e-5);
                assert!(scale.angle(0.0) > FIRST && scale.angle(1e5) > scale.angle(0.0));
                assert!(scale.angle(1e9) < LAST + 0.2 && scale.off_scale(1e9));
            }
        }
    }

    #[test]
    fn saturation_between_rows_is_right() {
        let curve = [(0.0, 292_800.0), (10.0, 414_610.0)];
        // R-134a at 5 °C: 349.66 kPa (published tables).
        let p = saturation_pa(&curve, 5.0).unwrap_or_default();
        assert!((p - 349_660.0).abs() < 500.0, "{p}");
        assert!(saturation_pa(&curve, 11.0).is_none());
    }
}
