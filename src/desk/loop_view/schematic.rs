//! The folded drawing: components with their names and, where the inside is open, their values.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Sense, Stroke, Ui, pos2, vec2};

use super::plan::{Plan, boxes, spots};
use super::{fluid, names, symbols, words};
use crate::bay::Hose;
use crate::bench::{DriveKind, MeteringKind, PointState};
use crate::desk::theme::Theme;
use crate::desk::{DeskView, fonts};
use crate::instrument::Probe;
use crate::plant::Port;
use crate::units::{AbsolutePa, DeltaK, Kelvin};

/// Pen for the folded drawing.
pub struct Sheet<'a> {
    /// Where to draw; its opacity carries the fading.
    pub painter: Painter,
    /// The plan.
    pub plan: Plan,
    /// What to draw.
    pub view: &'a DeskView<'a>,
}

/// A line of a label.
type Line = (String, FontId, Color32);

impl Sheet<'_> {
    fn theme(&self) -> &Theme {
        self.view.theme
    }

    fn name(&self, text: &str) -> Line {
        (text.into(), fonts::bold(self.plan.text(13.5)), self.theme().text)
    }

    fn value(&self, text: String) -> Line {
        (text, fonts::regular(self.plan.text(13.0)), self.theme().text)
    }

    fn quiet(&self, text: impl Into<String>) -> Line {
        (text.into(), fonts::regular(self.plan.text(12.5)), self.theme().muted)
    }

    /// Lines under each other; `align` says which corner of the block stands at `pos` (on the plan).
    fn block(&self, pos: Pos2, align: Align2, lines: &[Line]) -> Rect {
        let galleys: Vec<_> = lines
            .iter()
            .map(|(text, font, colour)| self.painter.layout_no_wrap(text.clone(), font.clone(), *colour))
            .collect();
        let height: f32 = galleys.iter().map(|g| g.size().y).sum();
        let width = galleys.iter().map(|g| g.size().x).fold(0.0, f32::max);
        let rect = align.anchor_size(self.plan.at(pos), vec2(width, height));
        let mut y = rect.top();
        for galley in galleys {
            let x = match align.x() {
                egui::Align::Min => rect.left(),
                egui::Align::Center => rect.center().x - galley.size().x / 2.0,
                egui::Align::Max => rect.right() - galley.size().x,
            };
            let size = galley.size();
            self.painter.galley(pos2(x, y), galley, Color32::PLACEHOLDER);
            y += size.y;
        }
        rect
    }

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
    fn hose_on(&self, port: Port) -> Option<Hose> {
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

    fn ports(&self) {
        let (s, theme) = (self.plan.s, self.theme());
        let fitted = |port| self.hose_on(port).is_some();
        let at = |p| self.plan.at(p);
        symbols::port(
            &self.painter,
            at(spots::HIGH_PORT),
            vec2(-1.0, 0.0),
            s,
            theme.high,
            fitted(Port::High),
        );
        let low = at(self.plan.low_port());
        symbols::port(&self.painter, low, vec2(0.0, 1.0), s, theme.low, fitted(Port::Low));
    }

    fn compressor(&self) {
        let (view, s, theme) = (self.view, self.plan.s, self.theme());
        let (centre, r) = (self.plan.at(spots::COMPRESSOR), 42.0 * s);
        symbols::compressor(&self.painter, centre, r, s, theme);
        let drive = self.plan.parts.drive;
        let engaged = view.snapshot.outside.clutch_engaged;
        let (shaft, pulley) = (view.motion.shaft, view.motion.pulley);
        match drive {
            DriveKind::Belt => {
                symbols::clutch(&self.painter, centre, r, s, engaged, shaft, pulley, theme);
            }
            // No clutch: the plate never leaves the pulley.
            DriveKind::VariableBelt => {
                symbols::clutch(&self.painter, centre, r, s, true, shaft, pulley, theme);
            }
            DriveKind::Electric => symbols::motor(&self.painter, centre, r, s, false, theme),
            DriveKind::Hermetic => symbols::motor(&self.painter, centre, r, s, true, theme),
        }
        let mut lines = vec![self.name(names::compressor(self.plan.parts))];
        if let Some(inside) = &view.snapshot.inside {
            lines.push(self.value(format!("{:.0} rev/min", inside.compressor_rpm)));
        } else if matches!(drive, DriveKind::Belt | DriveKind::VariableBelt) {
            lines.push(self.quiet(format!("engine {:.0} rev/min", view.snapshot.outside.engine_rpm)));
        }
        let (text, colour) = if engaged { ("clutch in", theme.good) } else { ("clutch out", theme.muted) };
        match drive {
            DriveKind::Belt => lines.push((text.into(), fonts::bold(self.plan.text(12.5)), colour)),
            DriveKind::VariableBelt => lines.push(self.quiet("no clutch")),
            DriveKind::Electric => lines.push(self.quiet("on traction voltage")),
            DriveKind::Hermetic => lines.push(self.quiet("motor in the shell")),
        }
        self.block(pos2(706.0, 292.0), Align2::RIGHT_CENTER, &lines);
    }

    fn valve(&self) {
        let (s, theme) = (self.plan.s, self.theme());
        let centre = self.plan.at(spots::VALVE);
        let lift = self.view.snapshot.inside.as_ref().map(|i| i.valve_lift);
        let parts = self.plan.parts;
        let thermostatic = parts.metering == MeteringKind::Thermostatic;
        if thermostatic {
            symbols::bulb(&self.painter, self.plan.at(spots::BULB), centre - vec2(0.0, 42.0 * s), s, theme);
        }
        match parts.metering {
            MeteringKind::OrificeTube => symbols::orifice(&self.painter, centre, s, theme),
            MeteringKind::Thermostatic => {
                symbols::valve(&self.painter, centre, s, lift.map(|l| l as f32), true, theme);
            }
            MeteringKind::Electronic => {
                symbols::valve(&self.painter, centre, s, lift.map(|l| l as f32), false, theme);
            }
        }
        let mut lines = vec![self.name(names::metering(parts))];
        match lift {
            Some(lift) if parts.metering != MeteringKind::OrificeTube => {
                lines.push(self.value(format!("{:.0} % open", lift * 100.0)));
            }
            _ => {}
        }
        self.block(pos2(226.0, 330.0), Align2::LEFT_CENTER, &lines);
        if thermostatic {
            self.block(pos2(470.0, 316.0), Align2::CENTER_BOTTOM, &[self.quiet("bulb line")]);
        }
    }

    /// Both halves of the internal heat exchanger, tied together: in the rig they are one part.
    fn exchanger(&self) {
        let (s, theme) = (self.plan.s, self.theme());
        let [liquid, suction] = boxes::EXCHANGER.map(|rect| self.plan.on(rect));
        for (rect, ink) in [(liquid, theme.high), (suction, theme.low)] {
            self.painter.rect(rect, 5.0 * s, theme.raised, Stroke::new(1.6, ink), egui::StrokeKind::Middle);
        }
        let knee = [
            liquid.right_center(),
            pos2(self.plan.at(pos2(640.0, 0.0)).x, liquid.center().y),
            pos2(self.plan.at(pos2(694.0, 0.0)).x, self.plan.at(pos2(0.0, 330.0)).y),
            suction.center_top(),
        ];
        let curve = egui::epaint::CubicBezierShape::from_points_stroke(
            knee,
            false,
            Color32::TRANSPARENT,
            Stroke::NONE,
        );
        let line = curve.flatten(Some(0.5));
        let tie = Stroke::new(1.4 * s, theme.muted);
        self.painter.extend(egui::Shape::dashed_line(&line, tie, 2.0 * s, 4.0 * s));
        let mut lines = vec![self.quiet("internal heat"), self.quiet("exchanger")];
        if let Some(exchanger) = self.view.snapshot.inside.as_ref().and_then(|i| i.exchanger.as_ref()) {
            lines.push(self.value(format!("{:.0} W", exchanger.heat_w)));
        }
        self.block(pos2(214.0, 208.0), Align2::LEFT_TOP, &lines);
    }

    fn accumulator(&self) {
        let (s, theme) = (self.plan.s, self.theme());
        let level = self.view.snapshot.inside.as_ref().and_then(|i| i.accumulator).map(|vessel| vessel.level);
        let rect = self.plan.on(boxes::ACCUMULATOR);
        symbols::accumulator(&self.painter, rect, s, level.map(|l| l as f32), theme);
        let mut lines = vec![self.name("Accumulator")];
        if let Some(level) = level {
            lines.push(self.value(format!("{:.0} % full", level * 100.0)));
        }
        self.block(pos2(736.0, 394.0), Align2::RIGHT_BOTTOM, &lines);
    }

    fn chiller(&self) {
        let (s, theme) = (self.plan.s, self.theme());
        symbols::small_valve(&self.painter, self.plan.at(spots::CHILLER_VALVE), s, theme);
        let mut lines = vec![self.name("Chiller")];
        if let Some(chiller) = self.view.snapshot.inside.as_ref().and_then(|i| i.chiller.as_ref()) {
            let coolant = self.view.units.temperature(Kelvin(chiller.coolant_t_k));
            lines = vec![self.name(&format!("Chiller, coolant {coolant}"))];
        }
        self.block(pos2(150.0, 497.0), Align2::LEFT_BOTTOM, &lines);
    }

    fn receiver(&self) {
        let level = self.view.snapshot.inside.as_ref().map(|i| i.receiver_level);
        let rect = self.plan.on(boxes::RECEIVER);
        symbols::receiver(&self.painter, rect, self.plan.s, level.map(|l| l as f32), self.theme());
        let mut lines = vec![self.name("Receiver-drier")];
        if let Some(level) = level {
            lines.push(self.value(format!("{:.0} % full", level * 100.0)));
        }
        self.block(pos2(376.0, 256.0), Align2::LEFT_BOTTOM, &lines);
    }

    /// Share of bubbles that may be seen: from the inside, or because a look was taken.
    fn bubbles(&self) -> Option<f64> {
        let snapshot = self.view.snapshot;
        let looked = snapshot.instruments.placed.iter().find(|(p, _)| *p == Probe::SightGlass);
        snapshot.inside.as_ref().map(|i| i.sight_glass_bubbles).or(looked.map(|&(_, value)| value))
    }

    fn sight_glass(&self) {
        let (s, theme) = (self.plan.s, self.theme());
        let centre = self.plan.at(spots::SIGHT_GLASS);
        let r = 12.0 * s;
        self.painter.circle_filled(centre, r + 3.0 * s, theme.raised);
        let text = match self.bubbles() {
            Some(share) => {
                let phase = self.view.motion.flow[super::Segment::LiquidLine as usize];
                fluid::window(&self.painter, centre, r, share as f32, phase, theme);
                words::sight_glass(share)
            }
            None => {
                self.painter.circle_filled(centre, r, Theme::mix(theme.raised, theme.ground, 0.5));
                "not looked at"
            }
        };
        self.painter.circle_stroke(centre, r + 1.5 * s, Stroke::new(2.5 * s, theme.text));
        self.block(pos2(116.0, 224.0), Align2::LEFT_CENTER, &[self.name("Sight glass"), self.quiet(text)]);
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

    /// Names and explanations for hovering and for screen readers.
    pub fn explain(&self, ui: &mut Ui) {
        let square = |p: Pos2, half: f32| Rect::from_center_size(p, vec2(half, half) * 2.0);
        let topology = self.plan.parts;
        let (mover, ..) = names::room(topology);
        let mut parts = vec![
            (
                "Condenser",
                self.plan.condenser(),
                "Hot vapour gives its heat to the outside air and becomes liquid.",
            ),
            (names::metering(topology), square(spots::VALVE, 28.0), names::metering_words(topology)),
            ("Evaporator", boxes::EVAPORATOR, "Boiling refrigerant takes heat out of the air."),
            (names::compressor(topology), square(spots::COMPRESSOR, 42.0), names::compressor_words(topology)),
            ("Condenser fan", square(spots::FAN, 30.0), "Draws outside air over the condenser."),
            (mover, square(spots::BLOWER, 22.0), "Moves the air over the evaporator."),
        ];
        if topology.subcooler {
            let words =
                "Liquid from the receiver is cooled further, so that it does not boil in the liquid line.";
            parts.push(("Subcooling pass", boxes::SUBCOOLING, words));
        }
        if topology.receiver {
            let words = "Keeps spare liquid and dries it. Its dip tube sends liquid alone onward.";
            parts.push(("Receiver-drier", boxes::RECEIVER, words));
        }
        if topology.accumulator {
            let words = "Catches liquid that leaves the evaporator and dries it. Vapour goes on from its top; a small \
                         hole at its foot lets oil through.";
            parts.push(("Accumulator", boxes::ACCUMULATOR, words));
        }
        if topology.exchanger {
            let words =
                "Cold suction vapour cools the liquid before the valve. Liquid and suction pipe touch.";
            parts.push(("Internal heat exchanger, liquid side", boxes::EXCHANGER[0], words));
            parts.push(("Internal heat exchanger, suction side", boxes::EXCHANGER[1], words));
        }
        if topology.chiller {
            let words = "A second branch with a valve of its own: boiling refrigerant cools the coolant of the battery.";
            parts.push(("Chiller", boxes::CHILLER, words));
        }
        for (name, rect, text) in parts {
            let response = ui.interact(self.plan.on(rect), ui.id().with(name), Sense::hover());
            response.widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Label, true, name));
            response.on_hover_ui(|ui| {
                ui.set_max_width(300.0);
                ui.strong(name);
                ui.label(text);
            });
        }
    }
}
