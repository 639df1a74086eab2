//! The p-h chart behind the unfolded loop: axes, dome, isotherms.

use egui::{Align2, Painter, Pos2, Rect, Shape, Stroke, pos2, vec2};

use super::DomeData;
use crate::bench::Inside;
use crate::desk::fonts;
use crate::desk::theme::Theme;
use crate::units::{Kelvin, Units, ZERO_C_K};

/// Pressures drawn as vapour-free nothing below this [Pa]; a vacuum stays on the chart.
const LOWEST_PA: f64 = 5.0e3;

/// Where enthalpy and pressure lie in the window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axes {
    /// Plotting area.
    pub rect: Rect,
    h: (f64, f64),
    ln_p: (f64, f64),
}

/// Ground of the dome.
pub fn dome_fill(theme: &Theme) -> egui::Color32 {
    Theme::mix(theme.ground, theme.liquid, 0.10)
}

impl Axes {
    /// Axes that show the usual range, wider where a state lies outside.
    pub fn new(area: Rect, s: f32, states: &[Option<&Inside>]) -> Self {
        let rect = Rect::from_min_max(
            area.min + vec2(58.0, 40.0) * s.max(1.0),
            area.max - vec2(26.0, 46.0) * s.max(1.0),
        );
        let (mut h, mut p): ((f64, f64), (f64, f64)) = ((160.0e3, 480.0e3), (1.0e5, 45.0e5));
        for inside in states.iter().copied().flatten() {
            for point in inside.points.iter().chain(inside.condenser.iter().map(|c| &c.point)) {
                if point.h_j_per_kg.is_finite() && point.p_pa.is_finite() {
                    h = (h.0.min(point.h_j_per_kg - 10e3), h.1.max(point.h_j_per_kg + 15e3));
                    p = (p.0.min(point.p_pa * 0.8), p.1.max(point.p_total_pa.max(point.p_pa) * 1.1));
                }
            }
        }
        let h = (h.0.max(50.0e3), h.1.min(800.0e3));
        Self { rect, h, ln_p: (p.0.max(LOWEST_PA).ln(), p.1.min(100.0e5).ln()) }
    }

    /// A state in the window.
    pub fn at(&self, h_j_per_kg: f64, p_pa: f64) -> Pos2 {
        let p = if p_pa.is_finite() { p_pa.max(LOWEST_PA) } else { LOWEST_PA };
        let h = if h_j_per_kg.is_finite() { h_j_per_kg } else { self.h.0 };
        let x = (h - self.h.0) / (self.h.1 - self.h.0);
        let y = (p.ln() - self.ln_p.0) / (self.ln_p.1 - self.ln_p.0);
        pos2(
            self.rect.left() + self.rect.width() * x as f32,
            self.rect.bottom() - self.rect.height() * y as f32,
        )
    }

    /// Does a place in the window lie in the dome?
    pub fn in_dome(&self, place: Pos2, dome: &DomeData) -> bool {
        let share = |low: (f64, f64), u: f32| low.0 + f64::from(u) * (low.1 - low.0);
        let h = share(self.h, (place.x - self.rect.left()) / self.rect.width());
        let p = share(self.ln_p, (self.rect.bottom() - place.y) / self.rect.height()).exp();
        p < dome.critical_pa() && (dome.liquid_h(p)..dome.vapour_h(p)).contains(&h)
    }

    fn pressure_ticks(&self, units: Units) -> Vec<f64> {
        let ticks: &[f64] = match units {
            Units::Bar => &[0.1, 0.2, 0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 40.0, 60.0],
            Units::Kpa => &[10.0, 20.0, 50.0, 100.0, 200.0, 300.0, 500.0, 700.0, 1e3, 1.5e3, 2e3, 3e3, 4e3],
            Units::Psi => &[1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 50.0, 70.0, 100.0, 150.0, 200.0, 300.0, 500.0],
        };
        let inside = |p: f64| (self.ln_p.0 - 1e-6..=self.ln_p.1 + 1e-6).contains(&p.ln());
        ticks.iter().copied().filter(|&v| inside(v * units.pascals())).collect()
    }

    /// Draw axes, dome and isotherms; returns the boxes that labels must keep off.
    pub fn paint(
        &self,
        painter: &Painter,
        s: f32,
        theme: &Theme,
        units: Units,
        dome: &DomeData,
        avoid: &[Pos2],
    ) -> Vec<Rect> {
        let mut taken = Vec::new();
        let font = fonts::regular((12.0 * s.clamp(1.0, 1.45)).max(fonts::SMALL));
        let mut small = |pos: Pos2, align: Align2, text: String, color| {
            taken.push(painter.text(pos, align, text, font.clone(), color).expand(2.0));
        };
        let grid = Stroke::new(1.0, Theme::mix(theme.ground, theme.line, 0.75));
        let clipped = painter.with_clip_rect(self.rect);
        self.paint_dome(&clipped, theme, dome);
        for value in self.pressure_ticks(units) {
            let y = self.at(0.0, value * units.pascals()).y;
            painter.hline(self.rect.x_range(), y, grid);
            let text = if value < 1.0 { format!("{value:.1}") } else { format!("{value:.0}") };
            small(pos2(self.rect.left() - 8.0, y), Align2::RIGHT_CENTER, text, theme.muted);
        }
        let mut h = (self.h.0 / 40e3).ceil() * 40e3;
        while h <= self.h.1 {
            let x = self.at(h, 1e5).x;
            painter.vline(x, self.rect.y_range(), grid);
            small(
                pos2(x, self.rect.bottom() + 6.0),
                Align2::CENTER_TOP,
                format!("{:.0}", h / 1e3),
                theme.muted,
            );
            h += 40e3;
        }
        painter.rect_stroke(self.rect, 0.0, Stroke::new(1.0, theme.line), egui::StrokeKind::Middle);
        let title = format!("pressure, {} absolute, log scale", units.pressure_unit());
        small(self.rect.left_top() + vec2(-44.0, -8.0), Align2::LEFT_BOTTOM, title, theme.muted);
        let title = format!("enthalpy of {}, kJ/kg", dome.refrigerant);
        small(
            self.rect.right_bottom() + vec2(0.0, 8.0 + font.size * 1.25),
            Align2::RIGHT_TOP,
            title,
            theme.muted,
        );
        self.paint_isotherms(&clipped, &font, theme, units, dome, avoid, &mut taken);
        taken
    }

    fn paint_dome(&self, painter: &Painter, theme: &Theme, dome: &DomeData) {
        let curve = |points: &[(f64, f64)]| points.iter().map(|&(h, p)| self.at(h, p)).collect::<Vec<_>>();
        let (liquid, vapour) = (curve(&dome.points_liquid), curve(&dome.points_vapour));
        // The dome is not convex: fill it as strips between its two sides at equal steps.
        let fill = dome_fill(theme);
        let mut mesh = egui::Mesh::default();
        for (a, b) in liquid.iter().zip(&vapour) {
            let n = mesh.vertices.len() as u32;
            mesh.colored_vertex(*a, fill);
            mesh.colored_vertex(*b, fill);
            if n >= 2 {
                mesh.add_triangle(n - 2, n - 1, n);
                mesh.add_triangle(n - 1, n, n + 1);
            }
        }
        painter.add(Shape::mesh(mesh));
        let edge = Theme::mix(theme.ground, theme.text, 0.62);
        for side in [liquid, vapour] {
            painter.add(Shape::line(side, Stroke::new(2.0, edge)));
        }
    }

    fn paint_isotherms(
        &self,
        painter: &Painter,
        font: &egui::FontId,
        theme: &Theme,
        units: Units,
        dome: &DomeData,
        avoid: &[Pos2],
        taken: &mut Vec<Rect>,
    ) {
        let stroke = Stroke::new(1.0, Theme::mix(theme.ground, theme.text, 0.34));
        for (t_c, line) in &dome.isotherms {
            let points: Vec<Pos2> = line.iter().map(|&(h, p)| self.at(h, p)).collect();
            painter.add(Shape::line(points, stroke));
            let text = format!(
                "{:.0} {}",
                units.temperature_value(Kelvin(t_c + ZERO_C_K)),
                units.temperature_unit()
            );
            // On the level part, where the loop's own lines do not run.
            let level = line.windows(2).map(|w| (w[0].0, w[1].0, w[0].1, w[1].1));
            let level = level.filter(|(_, _, p0, p1)| (p1 / p0 - 1.0).abs() < 1e-3);
            if let Some((left, right, p, _)) = level.max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0))) {
                let galley = painter.layout_no_wrap(text.clone(), font.clone(), theme.muted);
                let place = |share: f64| {
                    let foot = self.at(left + share * (right - left), p) + vec2(4.0, -1.0);
                    Align2::LEFT_BOTTOM.anchor_size(foot, galley.size())
                };
                let free = |rect: &Rect| {
                    let near = rect.expand(4.0);
                    let whole = [rect.left_top(), rect.right_bottom()].iter().all(|c| self.in_dome(*c, dome));
                    whole && self.rect.contains_rect(*rect) && !avoid.iter().any(|p| near.contains(*p))
                };
                let shares = [0.02, 0.12, 0.25, 0.4, 0.55, 0.7, 0.85];
                if let Some(rect) = shares.into_iter().map(place).find(free) {
                    painter.galley(rect.min, galley, theme.muted);
                    taken.push(rect);
                }
            }
            // And at the foot, in the vapour.
            if let Some(foot) =
                line.iter().rev().map(|&(h, p)| self.at(h, p)).find(|p| self.rect.contains(*p))
            {
                let galley = painter.layout_no_wrap(text, font.clone(), theme.muted);
                let pos = pos2(foot.x - 3.0, self.rect.bottom() - 3.0);
                let rect = Align2::RIGHT_BOTTOM.anchor_size(pos, galley.size());
                if !taken.iter().any(|t| t.expand(2.0).intersects(rect)) {
                    painter.galley(rect.min, galley, theme.muted);
                    taken.push(rect);
                }
            }
        }
    }
}
