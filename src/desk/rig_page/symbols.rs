//! Symbols of the wiring drawing in the sense of IEC 60617, drawn as own vectors. Everything is drawn at rest, without
//! supply. A symbol spans from one end of its place on the wire to the other.

use egui::{Align2, Color32, Painter, Pos2, Shape, Stroke, Vec2};

use crate::circuit::spec::{Kind, SupplyKind};
use crate::desk::fonts;

/// Which symbol a part gets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Symbol {
    /// Fuse.
    Fuse,
    /// Coil of a relay, clutch, solenoid.
    Coil,
    /// Make contact, and what moves it: nothing (a relay), a hand, pressure, temperature, a clock.
    Make(&'static str),
    /// Break contact.
    Break(&'static str),
    /// A plug or switch that isolates.
    Isolator,
    /// Circle with a letter.
    Round(&'static str),
    /// Resistor.
    Resistor,
    /// Thermistor.
    Thermistor,
    /// Lamp.
    Lamp,
    /// Diode.
    Diode,
    /// Capacitor.
    Capacitor,
    /// Winding.
    Winding,
    /// Box with letters: electronics.
    Box(&'static str),
    /// Overload heater with its contact.
    Overload,
    /// Cells.
    Battery,
    /// Alternating source.
    Mains,
}

/// Symbol of a kind of part; `unit` when the part stands for a control unit.
pub fn of(kind: &Kind, unit: bool) -> Symbol {
    match kind {
        Kind::Fuse { .. } => Symbol::Fuse,
        Kind::Coil { .. } | Kind::ClutchCoil { .. } | Kind::Solenoid { .. } => Symbol::Coil,
        Kind::Contact { normally_closed, .. } => {
            if *normally_closed {
                Symbol::Break("")
            } else {
                Symbol::Make("")
            }
        }
        Kind::Switch { above, .. } if *above < 0.0 => Symbol::Break("hand"),
        Kind::Switch { .. } => Symbol::Make("hand"),
        Kind::PressureSwitch { closes_gauge_pa, opens_gauge_pa, over, .. } => {
            if closes_gauge_pa < opens_gauge_pa && over.is_none() {
                Symbol::Break("p")
            } else {
                Symbol::Make("p")
            }
        }
        Kind::Thermostat { .. } => Symbol::Make("t°"),
        Kind::Timer { .. } => Symbol::Break("t"),
        Kind::Diode => Symbol::Diode,
        Kind::Motor { .. } => Symbol::Round("M"),
        Kind::Stepper { .. } => Symbol::Round("M"),
        Kind::Resistor { .. } if unit => Symbol::Box("unit"),
        Kind::Resistor { .. } | Kind::Wire { .. } => Symbol::Resistor,
        Kind::Lamp { .. } => Symbol::Lamp,
        Kind::Regulator { .. } | Kind::Driver { .. } => Symbol::Box("T"),
        Kind::PressureSensor { .. } => Symbol::Box("p"),
        Kind::Reference { .. } => Symbol::Box("5 V"),
        Kind::Thermistor { .. } => Symbol::Thermistor,
        Kind::Inverter { .. } => Symbol::Box("M~"),
        Kind::Capacitor { .. } => Symbol::Capacitor,
        Kind::RunWinding { .. } | Kind::StartWinding { .. } => Symbol::Winding,
        Kind::Overload { .. } => Symbol::Overload,
        Kind::Isolator { .. } => Symbol::Isolator,
    }
}

/// Symbol of a supply.
pub fn of_supply(kind: &SupplyKind) -> Symbol {
    match kind {
        SupplyKind::Mains { .. } => Symbol::Mains,
        SupplyKind::Battery { .. } | SupplyKind::Traction { .. } => Symbol::Battery,
    }
}

/// Pen for one symbol: where it begins and ends, how large.
pub struct Pen<'a> {
    /// Painter.
    pub painter: &'a Painter,
    /// Where the wire comes in.
    pub a: Pos2,
    /// Where it goes out.
    pub b: Pos2,
    /// Ink.
    pub ink: Color32,
    /// Fill of bodies.
    pub fill: Color32,
    /// Half the height of a body [pt].
    pub half: f32,
}

impl Pen<'_> {
    fn along(&self) -> Vec2 {
        (self.b - self.a).normalized()
    }

    fn middle(&self) -> Pos2 {
        self.a.lerp(self.b, 0.5)
    }

    /// A place: `u` points along the wire from the middle, `v` points to its left.
    fn at(&self, u: f32, v: f32) -> Pos2 {
        let along = self.along();
        self.middle() + along * u + Vec2::new(along.y, -along.x) * v
    }

    fn stroke(&self) -> Stroke {
        Stroke::new(1.6, self.ink)
    }

    fn line(&self, points: &[(f32, f32)]) {
        let points = points.iter().map(|&(u, v)| self.at(u, v)).collect();
        self.painter.add(Shape::line(points, self.stroke()));
    }

    fn body(&self, points: &[(f32, f32)]) {
        let points = points.iter().map(|&(u, v)| self.at(u, v)).collect();
        self.painter.add(Shape::convex_polygon(points, self.fill, self.stroke()));
    }

    fn leads(&self, half: f32) {
        let reach = (self.b - self.a).length() / 2.0;
        self.line(&[(-reach, 0.0), (-half, 0.0)]);
        self.line(&[(half, 0.0), (reach, 0.0)]);
    }

    fn letters(&self, text: &str) {
        self.painter.text(self.middle(), Align2::CENTER_CENTER, text, fonts::bold(12.0), self.ink);
    }

    /// Draw it.
    pub fn draw(&self, symbol: Symbol) {
        let h = self.half;
        let reach = (self.b - self.a).length() / 2.0;
        // Bodies lie along the wire where there is room and never fill it.
        let w = (reach - 3.0).clamp(5.0, 13.0);
        let block = [(-w, -h * 0.7), (w, -h * 0.7), (w, h * 0.7), (-w, h * 0.7)];
        match symbol {
            Symbol::Fuse => {
                self.body(&[(-w, -h * 0.5), (w, -h * 0.5), (w, h * 0.5), (-w, h * 0.5)]);
                self.line(&[(-reach, 0.0), (reach, 0.0)]);
            }
            Symbol::Coil => {
                self.leads(w * 0.6);
                self.body(&[(-w * 0.6, -h), (w * 0.6, -h), (w * 0.6, h), (-w * 0.6, h)]);
            }
            Symbol::Make(by) => {
                self.leads(w * 0.8);
                self.line(&[(-w * 0.8, 0.0), (w * 0.7, h * 0.85)]);
                self.moved_by(by, w, h);
            }
            Symbol::Break(by) => {
                self.leads(w * 0.8);
                self.line(&[(-w * 0.8, 0.0), (w, -h * 0.35)]);
                self.line(&[(w * 0.8, 0.0), (w * 0.8, -h * 0.6)]);
                self.moved_by(by, w, h);
            }
            Symbol::Isolator => {
                self.leads(w * 0.8);
                self.line(&[(-w * 0.8, 0.0), (w * 0.7, h * 0.85)]);
                self.line(&[(w * 0.8, -h * 0.4), (w * 0.8, h * 0.4)]);
            }
            Symbol::Round(letter) => {
                let r = (h * 1.15).min(reach - 1.0).max(8.0);
                self.leads(r);
                self.painter.circle(self.middle(), r, self.fill, self.stroke());
                self.letters(letter);
            }
            Symbol::Lamp => {
                let r = h.min(reach - 1.0);
                self.leads(r);
                self.painter.circle(self.middle(), r, self.fill, self.stroke());
                let d = r * 0.7;
                self.line(&[(-d, -d), (d, d)]);
                self.line(&[(-d, d), (d, -d)]);
            }
            Symbol::Resistor | Symbol::Thermistor => {
                self.leads(w);
                self.body(&[(-w, -h * 0.45), (w, -h * 0.45), (w, h * 0.45), (-w, h * 0.45)]);
                if symbol == Symbol::Thermistor {
                    self.line(&[(-w - 2.0, -h), (-w * 0.5, -h), (w * 0.7, h)]);
                }
            }
            Symbol::Diode => {
                self.line(&[(-reach, 0.0), (reach, 0.0)]);
                // Blocks from plus to minus: it points back along the wire.
                self.body(&[(w * 0.6, -h * 0.6), (w * 0.6, h * 0.6), (-w * 0.5, 0.0)]);
                self.line(&[(-w * 0.5, -h * 0.6), (-w * 0.5, h * 0.6)]);
            }
            Symbol::Capacitor => {
                self.leads(2.5);
                self.line(&[(-2.5, -h), (-2.5, h)]);
                self.line(&[(2.5, -h), (2.5, h)]);
            }
            Symbol::Winding => {
                self.leads(w);
                let points = (0..=24).map(|i| {
                    let u = -w + 2.0 * w * i as f32 / 24.0;
                    let arc = ((i as f32 / 24.0 * 3.0).fract() * std::f32::consts::PI).sin();
                    self.at(u, arc * h * 0.7)
                });
                self.painter.add(Shape::line(points.collect(), self.stroke()));
            }
            Symbol::Box(letters) => {
                self.leads(w);
                let tall = if self.a.x == self.b.x { 15.0 } else { h.max(9.0) };
                self.body(&[(-w, -tall), (w, -tall), (w, tall), (-w, tall)]);
                self.letters(letters);
            }
            Symbol::Overload => {
                self.leads(w);
                self.body(&block);
                self.line(&[
                    (-w, 0.0),
                    (-w * 0.4, 0.0),
                    (-w * 0.4, h * 0.4),
                    (w * 0.4, h * 0.4),
                    (w * 0.4, 0.0),
                    (w, 0.0),
                ]);
            }
            Symbol::Battery => {
                self.leads(4.0);
                for (u, tall) in [(-4.0, 1.0), (-1.3, 0.5), (1.3, 1.0), (4.0, 0.5)] {
                    self.line(&[(u, -h * tall), (u, h * tall)]);
                }
            }
            Symbol::Mains => {
                let r = h.min(reach - 1.0);
                self.leads(r);
                self.painter.circle(self.middle(), r, self.fill, self.stroke());
                self.letters("~");
            }
        }
    }

    /// What moves a contact: a dashed link and its sign.
    fn moved_by(&self, by: &str, w: f32, h: f32) {
        if by.is_empty() {
            return;
        }
        let (from, to) = (self.at(0.0, h * 0.45), self.at(0.0, h * 1.5));
        let thin = Stroke::new(1.0, self.ink);
        self.painter.extend(Shape::dashed_line(&[from, to], thin, 2.0, 2.0));
        if by == "hand" {
            self.line(&[(-w * 0.4, h * 1.5), (w * 0.4, h * 1.5)]);
        } else {
            let place = self.at(0.0, h * 1.5 + 5.0);
            self.painter.text(place, Align2::CENTER_CENTER, by, fonts::regular(12.0), self.ink);
        }
    }
}

/// Ground: body or battery minus. It hangs below its node.
pub fn ground(painter: &Painter, at: Pos2, drop: f32, ink: Color32) {
    let stroke = Stroke::new(1.6, ink);
    let top = at + Vec2::new(0.0, drop);
    painter.line_segment([at, top], stroke);
    for (n, half) in [8.0, 5.0, 2.0].into_iter().enumerate() {
        let y = top.y + n as f32 * 3.0;
        painter.line_segment([Pos2::new(top.x - half, y), Pos2::new(top.x + half, y)], stroke);
    }
}
