//! The folded drawing: what lies under the pipes and over them, the air, and the values at the points.

use egui::{Align2, Color32, Stroke, pos2, vec2};

use super::plan::{boxes, spots};
use super::sheet::Sheet;
use super::{names, symbols, words};
use crate::bay::Hose;
use crate::bench::PointState;
use crate::desk::fonts;
use crate::desk::theme::Theme;
use crate::plant::Port;
use crate::units::{AbsolutePa, DeltaK, Kelvin};

impl Sheet<'_> {
    /// What lies under the pipes.
    pub fn under(&self) {
        let (p, s, theme) = (&self.painter, self.plan.s, self.theme());
        let parts = self.plan.parts;
        let mut coils = vec![self.plan.condenser(), boxes::EVAPORATOR];
        if parts.subcooler {
            coils.push(boxes::SUBCOOLING);
        }
        if parts.chiller {
            coils.push(boxes::CHILLER);
        }
        for rect in coils {
            symbols::coil(p, self.plan.on(rect), s, theme);
        }
        if parts.exchanger {
            self.exchanger();
        }
        self.hoses();
        self.directions();
    }

    /// The hose on a port; in a bay either may sit on it, or none.
    pub(super) fn hose_on(&self, port: Port) -> Option<Hose> {
        let snapshot = self.view.snapshot;
        let mut hoses = [Hose::Low, Hose::High].into_iter();
        match &snapshot.bay {
            Some(face) => hoses.find(|hose| face.bay.coupler(*hose).port == Some(port)),
            None => hoses.find(|hose| snapshot.instruments.hoses_fitted && hose.own_port() == port),
        }
    }

    fn hoses(&self) {
        let theme = self.theme();
        let at = |x: f32, y: f32| self.plan.at(pos2(x, y));
        let s = self.plan.s;
        let (high, low) = (spots::HIGH_PORT, self.plan.low_port());
        let from_high = [at(high.x - 18.0, high.y), at(40.0, high.y), at(36.0, 360.0), at(36.0, 546.0)];
        let from_low = [at(low.x, low.y + 16.0), at(low.x, 500.0), at(low.x, 520.0), at(low.x, 546.0)];
        let words = |hose| if hose == Hose::Low { "to low gauge" } else { "to high gauge" };
        for (port, points) in [(Port::High, from_high), (Port::Low, from_low)] {
            let Some(hose) = self.hose_on(port) else { continue };
            let colour = if hose == Hose::Low { theme.low } else { theme.high };
            let curve = egui::epaint::CubicBezierShape::from_points_stroke(
                points,
                false,
                Color32::TRANSPARENT,
                Stroke::NONE,
            );
            let line = curve.flatten(Some(0.4));
            let stroke = Stroke::new(4.0 * s, Theme::mix(theme.ground, colour, 0.7));
            if hose == Hose::Low {
                self.painter.extend(egui::Shape::dashed_line(&line, stroke, 10.0 * s, 5.0 * s));
            } else {
                self.painter.add(egui::Shape::line(line, stroke));
            }
            let (x, align) = match port {
                // The chiller's valve stands where the words would.
                Port::High if self.plan.parts.chiller => continue,
                Port::High => (46.0, Align2::LEFT_BOTTOM),
                Port::Low if self.plan.parts.chiller => (low.x + 10.0, Align2::LEFT_BOTTOM),
                Port::Low => (low.x - 10.0, Align2::RIGHT_BOTTOM),
            };
            self.block(pos2(x, 538.0), align, &[self.quiet(words(hose))]);
        }
    }

    /// Pressure upward, enthalpy to the right: the same directions as on the chart.
    fn directions(&self) {
        let corner = self.plan.at(pos2(22.0, 84.0));
        for (way, at, align, text) in [
            (vec2(0.0, -1.0), pos2(16.0, 36.0), Align2::LEFT_BOTTOM, "pressure"),
            (vec2(1.0, 0.0), pos2(72.0, 84.0), Align2::LEFT_CENTER, "enthalpy"),
        ] {
            let tip = corner + way * 42.0 * self.plan.s;
            let stroke = Stroke::new(1.2, self.theme().muted);
            self.painter.line_segment([corner, tip], stroke);
            let wing = |side: f32| tip - way * 5.0 + way.rot90() * 3.5 * side;
            self.painter.add(egui::Shape::line(vec![wing(1.0), tip, wing(-1.0)], stroke));
            self.block(at, align, &[self.quiet(text)]);
        }
    }

    /// What lies over the pipes.
    pub fn over(&self) {
        let parts = self.plan.parts;
        self.compressor();
        self.valve();
        if parts.receiver {
            self.receiver();
        }
        if parts.accumulator {
            self.accumulator();
        }
        if parts.chiller {
            self.chiller();
        }
        self.sight_glass();
        self.air_side();
        self.ports();
        let condenser = self.plan.condenser().left();
        self.block(pos2(condenser, 106.0), Align2::LEFT_BOTTOM, &[self.name("Condenser")]);
        if parts.subcooler {
            self.block(pos2(240.0, 152.0), Align2::CENTER_BOTTOM, &[self.name("Subcooling pass")]);
        }
        self.block(pos2(276.0, 370.0), Align2::LEFT_BOTTOM, &[self.name("Evaporator")]);
        let high = (String::from("high side"), fonts::bold(self.plan.text(12.5)), self.theme().high);
        let low = (String::from("low side"), fonts::bold(self.plan.text(12.5)), self.theme().low);
        self.block(pos2(748.0, 120.0), Align2::RIGHT_BOTTOM, &[high]);
        let at = if parts.accumulator || parts.exchanger { pos2(774.0, 446.0) } else { pos2(750.0, 438.0) };
        let align = if at.x > 760.0 { Align2::LEFT_CENTER } else { Align2::RIGHT_BOTTOM };
        self.block(at, align, &[low]);
        if let Some(inside) = &self.view.snapshot.inside {
            self.point_values(inside);
        }
    }

    fn air_side(&self) {
        let (view, s, theme) = (self.view, self.plan.s, self.theme());
        let outside = &view.snapshot.outside;
        let (fan, blower) = (outside.fan_speed_pct, outside.blower_pct);
        let at = |x: f32, y: f32| self.plan.at(pos2(x, y));
        symbols::fan(&self.painter, self.plan.at(spots::FAN), 30.0 * s, view.motion.fan, theme);
        symbols::fan(&self.painter, self.plan.at(spots::BLOWER), 22.0 * s, view.motion.blower, theme);
        let road = (view.snapshot.controls.road_speed_kmh / 60.0).min(1.0);
        let draught = ((fan / 100.0).max(road)) as f32;
        let down = vec2(0.0, 26.0 * s);
        symbols::air(&self.painter, at(512.0, 80.0), down, draught, view.motion.fan, s, theme);
        symbols::air(&self.painter, at(640.0, 80.0), down, draught, view.motion.fan, s, theme);
        symbols::air(&self.painter, at(554.0, 208.0), down, draught, view.motion.fan, s, theme);
        let up = vec2(0.0, -24.0 * s);
        let blow = (blower / 100.0) as f32;
        symbols::air(&self.painter, at(330.0, 496.0), up, blow, view.motion.blower, s, theme);
        symbols::air(&self.painter, at(400.0, 372.0), up, blow, view.motion.blower, s, theme);
        let fan_line = if fan < 1.0 {
            let controls = &view.snapshot.controls;
            // A learner has eyes of their own; the colour points it out only where everything is open.
            let open = view.snapshot.inside.is_some();
            let wanted = open && controls.engine_on && controls.ac_request;
            let colour = if wanted { theme.chosen } else { theme.text };
            ("Fan stands still".to_owned(), fonts::bold(self.plan.text(13.5)), colour)
        } else {
            self.name(&format!("Fan {fan:.0} %"))
        };
        self.block(pos2(592.0, 46.0), Align2::LEFT_CENTER, &[fan_line]);
        let mut into = vec![self.quiet("outside air")];
        let mut off = vec![self.quiet("air off the condenser")];
        let (mover, room, way) = names::room(self.plan.parts);
        let mut cabin = vec![self.name(&format!("{mover} {blower:.0} %"))];
        let mut vents = vec![self.quiet(way)];
        if let Some(inside) = &view.snapshot.inside {
            let t = |k: f64| view.units.temperature(Kelvin(k));
            into.insert(0, self.value(t(inside.ambient_t_k)));
            off.insert(0, self.value(t(inside.condenser_air_off_t_k)));
            cabin.push(self.value(format!("{room} {}", t(inside.cabin_t_k))));
            vents.insert(0, self.value(t(inside.vent_t_k)));
        }
        self.block(pos2(492.0, 84.0), Align2::RIGHT_BOTTOM, &into);
        self.block(pos2(578.0, 210.0), Align2::LEFT_TOP, &off);
        self.block(pos2(430.0, 504.0), Align2::LEFT_CENTER, &cabin);
        self.block(pos2(424.0, 372.0), Align2::LEFT_BOTTOM, &vents);
    }

    fn point_values(&self, inside: &crate::bench::Inside) {
        let units = self.view.units;
        let lines = |p: &PointState| {
            let pressure = units.pressure(AbsolutePa(p.p_total_pa).gauge());
            vec![self.value(units.temperature(Kelvin(p.t_k))), self.quiet(pressure)]
        };
        let [p1, p2, p3, p4, p5, p6] = &inside.points;
        self.block(pos2(778.0, 392.0), Align2::LEFT_CENTER, &lines(p1));
        self.block(pos2(778.0, 196.0), Align2::LEFT_CENTER, &lines(p2));
        self.block(pos2(132.0, 168.0), Align2::CENTER_BOTTOM, &lines(p3));
        self.block(pos2(128.0, 318.0), Align2::CENTER_BOTTOM, &lines(p4));
        let subcooling = format!("subcooling {}", units.difference(DeltaK(inside.subcooling_k)));
        // The exchanger's sleeve and tie take the place beside the pipe.
        let at = if self.plan.parts.exchanger { pos2(116.0, 277.0) } else { pos2(116.0, 256.0) };
        self.block(at, Align2::LEFT_CENTER, &[self.value(subcooling)]);
        let mut after = lines(p5);
        if let Some((mass, volume)) = words::wetness(p5) {
            after.push(self.value(mass));
            after.push(self.quiet(volume));
        }
        self.block(pos2(262.0, 408.0), Align2::RIGHT_TOP, &after);
        let mut leaving = lines(p6);
        leaving.push(self.value(format!("superheat {}", units.difference(DeltaK(inside.superheat_k)))));
        let x = if self.plan.parts.chiller { 640.0 } else { 652.0 };
        self.block(pos2(x, 468.0), Align2::CENTER_TOP, &leaving);
    }
}
