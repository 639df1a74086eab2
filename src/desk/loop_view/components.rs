//! What stands in the folded drawing: ports, compressor, metering device, vessels and exchangers, with their values.

use egui::{Align2, Color32, Stroke, pos2, vec2};

use super::plan::{boxes, spots};
use super::sheet::Sheet;
use super::{fluid, names, symbols, words};
use crate::bench::{DriveKind, MeteringKind};
use crate::desk::fonts;
use crate::desk::theme::Theme;
use crate::instrument::Probe;
use crate::plant::Port;
use crate::units::Kelvin;

impl Sheet<'_> {
    pub(super) fn ports(&self) {
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

    pub(super) fn compressor(&self) {
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

    pub(super) fn valve(&self) {
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
    pub(super) fn exchanger(&self) {
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

    pub(super) fn accumulator(&self) {
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

    pub(super) fn chiller(&self) {
        let (s, theme) = (self.plan.s, self.theme());
        symbols::small_valve(&self.painter, self.plan.at(spots::CHILLER_VALVE), s, theme);
        let mut lines = vec![self.name("Chiller")];
        if let Some(chiller) = self.view.snapshot.inside.as_ref().and_then(|i| i.chiller.as_ref()) {
            let coolant = self.view.units.temperature(Kelvin(chiller.coolant_t_k));
            lines = vec![self.name(&format!("Chiller, coolant {coolant}"))];
        }
        self.block(pos2(150.0, 497.0), Align2::LEFT_BOTTOM, &lines);
    }

    pub(super) fn receiver(&self) {
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
    pub(super) fn bubbles(&self) -> Option<f64> {
        let snapshot = self.view.snapshot;
        let looked = snapshot.instruments.placed.iter().find(|(p, _)| *p == Probe::SightGlass);
        snapshot.inside.as_ref().map(|i| i.sight_glass_bubbles).or(looked.map(|&(_, value)| value))
    }

    pub(super) fn sight_glass(&self) {
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
}
