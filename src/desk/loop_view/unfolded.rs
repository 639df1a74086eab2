//! The unfolded loop: labels on the chart, the healthy ghost, what air adds, and what to say where there is
//! no loop to draw.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, Vec2, pos2, vec2};

use super::chart::Axes;
use super::labels::{Field, Wish, foot};
use super::plan::Plan;
use super::{names, track, words};
use crate::bench::{Inside, MeteringKind};
use crate::desk::theme::Theme;
use crate::desk::{DeskView, fonts};
use crate::units::{DeltaK, GaugePa, Kelvin};

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

/// Choices of the last frame, by label.
type Choices = [Option<usize>; 24];

struct Name {
    slot: usize,
    text: String,
    font: FontId,
    colour: Color32,
    anchor: Pos2,
    towards: Vec2,
    gap: f32,
}

impl Chart<'_> {
    fn theme(&self) -> &Theme {
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

    /// Labels of points and processes; returns where the badges of the points went.
    pub fn labels(&self, ui: &egui::Ui, inside: &Inside, taken: Vec<Rect>) -> Badges {
        let theme = self.theme();
        let id = ui.id().with("chart labels");
        let mut choices: Choices = ui.data(|d| d.get_temp(id)).unwrap_or_default();
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
        let badges = self.badges(inside, &mut field, &mut choices);
        if let Some(text) = words::whole_loop(inside) {
            self.sentence(text, &mut field);
        }
        self.air(inside, &mut field, &mut choices);
        for name in self.names(inside) {
            self.put(&name, &mut field, &mut choices);
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
            self.put(&name, &mut field, &mut choices);
        }
        ui.data_mut(|d| d.insert_temp(id, choices));
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

    fn names(&self, inside: &Inside) -> Vec<Name> {
        let (theme, units) = (self.theme(), self.view.units);
        let at = |p: &crate::bench::PointState| self.axes.at(p.h_j_per_kg, p.p_pa);
        let [p1, p2, p3, p4, p5, p6] = &inside.points;
        let temperature = |p| units.temperature(Kelvin(words::saturation_k(self.view.dome, p)));
        let fan = self.view.snapshot.outside.fan_speed_pct;
        let fan = if fan < 1.0 { "fan still".to_owned() } else { format!("fan {fan:.0} %") };
        let bold = fonts::bold(self.plan.text(13.0));
        let plain = fonts::regular(self.plan.text(12.5));
        let down = inside.condenser_main_cells.min(inside.condenser.len());
        let condensed = inside.condenser[..down].last().map_or(p3, |c| &c.point);
        let name = |slot, text: String, colour, anchor, towards: (f32, f32)| Name {
            slot,
            text,
            font: bold.clone(),
            colour,
            anchor,
            towards: towards.into(),
            gap: 8.0,
        };
        let parts = self.plan.parts;
        let running = words::whole_loop(inside).is_none();
        let mut list = Vec::new();
        if running {
            // With air the refrigerant's share of the pressure falls as it condenses, and so does the temperature.
            let wet = inside.condenser[..down].iter().map(|c| &c.point).find(|p| p.x.is_finite());
            let glide = wet.filter(|p| p.p_pa > condensed.p_pa * 1.06);
            let condenser = match glide {
                Some(first) => {
                    format!(
                        "Condenser: condenses from {} to {}, {fan}",
                        temperature(first),
                        temperature(condensed)
                    )
                }
                None => format!("Condenser: condenses at {}, {fan}", temperature(condensed)),
            };
            list.push(name(6, condenser, theme.high, at(condensed).lerp(at(p2), 0.5), (0.0, -1.0)));
            let evaporator = format!("Evaporator: boils at {}", temperature(p5));
            list.push(name(7, evaporator, theme.low, at(p5).lerp(at(p6), 0.45), (0.0, 1.0)));
            list.push(name(
                8,
                names::compressor(parts).into(),
                theme.text,
                at(p1).lerp(at(p2), 0.5),
                (1.0, 0.2),
            ));
            let metering = names::metering(parts);
            let open = match parts.metering {
                MeteringKind::OrificeTube => metering.to_owned(),
                _ => format!("{metering}, {:.0} % open", inside.valve_lift * 100.0),
            };
            list.push(name(9, open, theme.text, at(p4).lerp(at(p5), 0.5), (-1.0, 0.0)));
            if let Some((mass, volume)) = words::wetness(p5) {
                let text = format!("after the {} {mass} {volume}", names::narrow(parts));
                let anchor = at(p5);
                list.push(Name { font: plain.clone(), ..name(13, text, theme.muted, anchor, (-0.2, 1.0)) });
            }
            if inside.subcooling_k > 0.05 {
                let text = format!("subcooling {}", units.difference(DeltaK(inside.subcooling_k)));
                let from = if parts.receiver { &inside.receiver } else { condensed };
                let anchor = at(p3).lerp(at(from), 0.5);
                list.push(Name { font: plain.clone(), ..name(11, text, theme.text, anchor, (-0.4, -1.0)) });
            }
            if inside.superheat_k > 0.05 {
                let text = format!("superheat {}", units.difference(DeltaK(inside.superheat_k)));
                list.push(Name { font: plain.clone(), ..name(12, text, theme.text, at(p6), (0.4, 1.0)) });
            }
        }
        if parts.receiver {
            let level = format!("receiver {:.0} % full", inside.receiver_level * 100.0);
            let anchor = at(&inside.receiver);
            list.push(Name { font: plain.clone(), ..name(10, level, theme.text, anchor, (0.3, 1.0)) });
        }
        if let Some(vessel) = &inside.accumulator {
            let level = format!("accumulator {:.0} % full", vessel.level * 100.0);
            list.push(Name {
                font: plain.clone(),
                ..name(14, level, theme.text, at(&vessel.point), (0.4, 1.0))
            });
        }
        if let Some(exchanger) = inside.exchanger.as_ref().filter(|_| running) {
            let text = format!("exchanger {:.0} W", exchanger.heat_w);
            let anchor = at(p6).lerp(at(p1), 0.5);
            list.push(Name { font: plain.clone(), ..name(15, text, theme.text, anchor, (0.2, 1.0)) });
        }
        let chilled = inside.chiller.as_ref().and_then(|c| c.cells.last());
        if let Some(cell) = chilled.filter(|c| running && c.point.flow_kg_s.abs() > 1e-5) {
            list.push(name(16, "Chiller".into(), theme.good, at(&cell.point), (0.3, -1.0)));
        }
        list
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
