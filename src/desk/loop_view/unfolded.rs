//! The unfolded loop: labels on the chart, the healthy ghost, what air adds, and what to say where there is
//! no loop to draw.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, Vec2, pos2, vec2};

use super::chart::Axes;
use super::labels::{Choices, Field, Wish, foot};
use super::plan::Plan;
use super::{track, words};
use crate::bench::Inside;
use crate::desk::theme::Theme;
use crate::desk::{DeskView, fonts};
use crate::units::{GaugePa, Kelvin};

/// Pen for the chart.
pub struct Chart<'a> {
    /// Where to draw; its opacity carries the fading.
    pub painter: Painter,
    /// Axes.
    pub axes: Axes,
    /// Scale and text sizes.
    pub plan: Plan,
    /// What to draw.
    pub view: &'a DeskView<'a>,
}

/// Where the numbered badges of the points stand on the chart.
pub type Badges = [Pos2; 6];

/// Words with a foot that points at what they are about.
pub(super) struct Name {
    pub(super) slot: usize,
    pub(super) text: String,
    pub(super) font: FontId,
    pub(super) colour: Color32,
    pub(super) anchor: Pos2,
    pub(super) towards: Vec2,
    pub(super) gap: f32,
}

impl Chart<'_> {
    pub(super) fn theme(&self) -> &Theme {
        self.view.theme
    }

    /// The ghost, unless the loop stands: two flat lines tell nothing.
    fn ghost_shown(&self) -> Option<&Inside> {
        let inside = self.view.snapshot.inside.as_ref()?;
        self.view.ghost.filter(|_| words::whole_loop(inside).is_none())
    }

    /// The healthy loop in the same weather.
    pub fn ghost(&self) {
        let Some(ghost) = self.ghost_shown() else { return };
        let stroke = Stroke::new(1.8, self.theme().muted);
        self.painter.extend(Shape::dashed_line(&track::outline(&self.axes, ghost), stroke, 6.0, 5.0));
    }

    /// Dots of the cells and of the receiver on their lines.
    pub fn cells(&self, inside: &Inside) {
        let theme = self.theme();
        let at = |p: &crate::bench::PointState| self.axes.at(p.h_j_per_kg, p.p_pa);
        for (cells, colour) in [(&inside.condenser, theme.high), (&inside.evaporator, theme.low)] {
            for cell in cells.iter() {
                self.painter.circle(at(&cell.point), 2.6, theme.ground, Stroke::new(1.5, colour));
            }
        }
        let parts = self.plan.parts;
        if let Some(chiller) = &inside.chiller {
            for cell in &chiller.cells {
                self.painter.circle(at(&cell.point), 2.6, theme.ground, Stroke::new(1.5, theme.good));
            }
        }
        let receiver = parts.receiver.then_some((inside.receiver, theme.high));
        let accumulator = inside.accumulator.map(|vessel| (vessel.point, theme.low));
        for (point, ink) in [receiver, accumulator].into_iter().flatten() {
            let vessel = Rect::from_center_size(at(&point), vec2(9.0, 9.0));
            let stroke = Stroke::new(2.0, ink);
            self.painter.rect(vessel, 2.0, theme.ground, stroke, egui::StrokeKind::Middle);
        }
    }

    /// With air in the loop: what the gauge shows against what the refrigerant does.
    fn air(&self, inside: &Inside, field: &mut Field, choices: &mut Choices) {
        let Some(added) = words::air_share_pa(inside) else { return };
        let theme = self.theme();
        let (a, b) = (&inside.points[1], &inside.points[3]);
        let line = [self.axes.at(b.h_j_per_kg, b.p_total_pa), self.axes.at(a.h_j_per_kg, a.p_total_pa)];
        self.painter.extend(Shape::dashed_line(&line, Stroke::new(1.8, theme.chosen), 2.5, 4.0));
        let units = self.view.units;
        let text = format!(
            "the gauge shows {}: air adds {}",
            units.pressure(GaugePa(inside.gauge_high_pa)),
            units.pressure(GaugePa(added))
        );
        let name = Name {
            slot: 20,
            text,
            font: fonts::bold(self.plan.text(12.5)),
            colour: theme.chosen,
            anchor: line[0].lerp(line[1], 0.4),
            towards: vec2(0.0, -1.0),
            gap: 5.0,
        };
        self.put(&name, field, choices);
    }

    /// Labels of points and processes; returns where the badges of the points went. `choices` keeps
    /// labels where they stood in the last frame.
    pub fn labels(&self, inside: &Inside, taken: Vec<Rect>, choices: &mut Choices) -> Badges {
        let theme = self.theme();
        let mut way = track::dotted(&track::outline(&self.axes, inside));
        if let Some(ghost) = self.ghost_shown() {
            way.extend(track::dotted(&track::outline(&self.axes, ghost)));
        }
        let at = |p: &crate::bench::PointState| self.axes.at(p.h_j_per_kg, p.p_pa);
        let mut field = Field { bounds: self.axes.rect.shrink(4.0), taken, lines: way };
        // The state points themselves stay visible.
        for point in &inside.points {
            field.taken.push(Rect::from_center_size(at(point), Vec2::splat(9.0)));
        }
        let badges = self.badges(inside, &mut field, choices);
        if let Some(text) = words::whole_loop(inside) {
            self.sentence(text, &mut field);
        }
        self.air(inside, &mut field, choices);
        for name in self.names(inside) {
            self.put(&name, &mut field, choices);
        }
        if let Some(ghost) = self.ghost_shown() {
            let (a, b) = (at(&ghost.points[2]), at(&ghost.points[1]));
            let name = Name {
                slot: 21,
                text: "healthy, same weather".into(),
                font: fonts::regular(self.plan.text(12.5)),
                colour: theme.muted,
                anchor: a.lerp(b, 0.3),
                towards: vec2(0.0, 1.0),
                gap: 6.0,
            };
            self.put(&name, &mut field, choices);
        }
        badges
    }

    /// Badges of the six points with their temperatures.
    fn badges(&self, inside: &Inside, field: &mut Field, choices: &mut Choices) -> Badges {
        let theme = self.theme();
        let s = self.plan.s.clamp(1.0, 1.4);
        // Directions the labels like: away from the loop.
        let towards = [(1.0, 0.6), (0.3, -1.0), (-1.0, -0.5), (-1.0, 0.5), (-0.7, 1.0), (-0.5, 1.0)];
        let mut badges = [Pos2::ZERO; 6];
        for i in [1, 0, 4, 2, 5, 3] {
            let point = &inside.points[i];
            let place = self.axes.at(point.h_j_per_kg, point.p_pa);
            let text = self.view.units.temperature(Kelvin(point.t_k));
            let galley = self.painter.layout_no_wrap(text, fonts::regular(self.plan.text(12.5)), theme.text);
            let size = vec2(galley.size().x + 25.0 * s, 20.0 * s);
            let wish = Wish { anchor: place, size, towards: towards[i].into(), gap: 13.0 * s };
            let (choice, rect) = field.settle(&wish, choices[i]);
            choices[i] = Some(choice);
            let badge = pos2(rect.left() + 10.0 * s, rect.center().y);
            self.painter.line_segment([place, foot(rect, place)], Stroke::new(1.0, theme.muted));
            let colour = if matches!(i, 0 | 4 | 5) { theme.low } else { theme.high };
            self.painter.circle(place, 4.0 * s, colour, Stroke::new(1.5, theme.ground));
            let text_at = Align2::LEFT_CENTER
                .anchor_size(pos2(rect.left() + 23.0 * s, rect.center().y), galley.size())
                .min;
            self.clear(rect.expand(1.0), 9.0 * s);
            self.painter.galley(text_at, galley, theme.text);
            badges[i] = badge;
        }
        badges
    }

    fn put(&self, name: &Name, field: &mut Field, choices: &mut Choices) {
        let galley = self.painter.layout_no_wrap(name.text.clone(), name.font.clone(), name.colour);
        let size = galley.size();
        let wish = Wish { anchor: name.anchor, size, towards: name.towards, gap: name.gap };
        let (choice, rect) = field.settle(&wish, choices[name.slot]);
        choices[name.slot] = Some(choice);
        let end = foot(rect, name.anchor);
        if (end - name.anchor).length() > 14.0 {
            self.painter.line_segment([name.anchor, end], Stroke::new(1.0, name.colour.gamma_multiply(0.6)));
        }
        self.clear(rect.expand2(vec2(3.0, 0.0)), 3.0);
        self.painter.galley(rect.min, galley, name.colour);
    }

    /// Take the grid away under a label, where the label lies wholly within or wholly without the dome.
    fn clear(&self, rect: Rect, round: f32) {
        let corners = [rect.left_top(), rect.right_top(), rect.left_bottom(), rect.right_bottom()];
        let within = corners.map(|corner| self.axes.in_dome(corner, self.view.dome));
        if within.iter().all(|&w| w == within[0]) {
            let theme = self.theme();
            let fill = if within[0] { super::chart::dome_fill(theme) } else { theme.ground };
            self.painter.rect_filled(rect, round, fill);
        }
    }

    /// One sentence over the chart.
    fn sentence(&self, text: &str, field: &mut Field) {
        let top = self.axes.rect.right_top() + vec2(0.0, -7.0);
        let font = fonts::bold(self.plan.text(13.5));
        let rect = self.painter.text(top, Align2::RIGHT_BOTTOM, text, font, self.theme().chosen);
        field.taken.push(rect.expand(4.0));
    }

    /// Without an inside view the chart shows what the gauges say and nothing else.
    pub fn measured(&self, taken: Vec<Rect>) {
        let (theme, view) = (self.theme(), self.view);
        let mut field = Field { bounds: self.axes.rect.shrink(4.0), taken, lines: Vec::new() };
        let instruments = &view.snapshot.instruments;
        if !instruments.hoses_fitted {
            self.sentence("Fit the gauges: the chart shows what you measure.", &mut field);
            return;
        }
        self.sentence("The inside stays hidden: these are your gauge readings.", &mut field);
        let mut choices = Choices::default();
        let sides = [
            (instruments.low_gauge_pa, theme.low, "low side", "boils at", true),
            (instruments.high_gauge_pa, theme.high, "high side", "condenses at", false),
        ];
        for (slot, (gauge, colour, side, does, dashed)) in sides.into_iter().enumerate() {
            let p = GaugePa(gauge).absolute().0;
            let y = self.axes.at(200e3, p).y;
            let line = [pos2(self.axes.rect.left(), y), pos2(self.axes.rect.right(), y)];
            let stroke = Stroke::new(2.5, colour);
            if dashed {
                self.painter.extend(Shape::dashed_line(&line, stroke, 9.0, 6.0));
            } else {
                self.painter.line_segment(line, stroke);
            }
            let t = Kelvin::from_c(view.dome.saturation_c(p));
            let name = Name {
                slot,
                text: format!(
                    "{side} {}: {} {does} {}",
                    view.units.pressure(GaugePa(gauge)),
                    view.dome.refrigerant,
                    view.units.temperature(t)
                ),
                font: fonts::bold(self.plan.text(13.0)),
                colour,
                anchor: line[0].lerp(line[1], 0.45),
                towards: vec2(0.0, if dashed { 1.0 } else { -1.0 }),
                gap: 5.0,
            };
            self.put(&name, &mut field, &mut choices);
        }
    }
}
