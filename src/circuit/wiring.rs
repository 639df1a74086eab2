//! A circuit's names turned into numbers, once.

use super::network::{End, order};
use super::rules::Reads;
use super::spec::{CircuitSpec, GROUND, Kind};

/// Ends and other references of all parts, by number.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wiring {
    /// From and to of each part, then minus and plus of each supply.
    pub ends: Vec<(End, End)>,
    /// Third point of a part that has one: other rail, sensor ground, enable.
    pub third: Vec<End>,
    /// For a contact the part number of its coil; for what a unit tells, unit and output.
    pub told_by: Vec<Option<(usize, usize)>>,
    /// Parts that something may happen to in a tick without anything else changing.
    pub lively: Vec<usize>,
    /// Order of elimination.
    pub order: Vec<usize>,
    /// Plus and minus of each unit.
    pub supply_of: Vec<(End, End)>,
    /// Pin and feed of each input of each unit.
    pub pins: Vec<Vec<(End, End)>>,
    /// The part that carries each output of each unit, if one does.
    pub driver_of: Vec<Vec<Option<usize>>>,
    /// Alternating current somewhere: a meter's direct current meets another network.
    pub alternating: bool,
}

/// A name as an end: `Some(None)` is ground, `None` a name that is no point.
pub fn end_of(spec: &CircuitSpec, name: &str) -> Option<End> {
    if name == GROUND { Some(None) } else { spec.points.iter().position(|p| p.id == name).map(Some) }
}

impl Wiring {
    /// Number everything. A name that is no point becomes a node beyond the last: left in the air.
    pub fn new(spec: &CircuitSpec) -> Self {
        let air = Some(spec.points.len());
        let end = |name: &str| end_of(spec, name).unwrap_or(air);
        let unit = |id: &str| spec.units.iter().position(|u| u.id == id);
        let output = |id: &str, out: &str| {
            let u = unit(id)?;
            Some((u, spec.units[u].outputs.iter().position(|o| o.id == out)?))
        };
        let coil_of = |name: &str| {
            let is = |k: &Kind| matches!(k, Kind::Coil { relay, .. } if relay == name);
            spec.parts.iter().position(|p| is(&p.kind)).map(|n| (n, 0))
        };
        let mut w = Self::default();
        for (n, part) in spec.parts.iter().enumerate() {
            w.ends.push((end(&part.from), end(&part.to)));
            let (mut third, mut told_by, mut lively) = (None, None, true);
            match &part.kind {
                Kind::Contact { relay, .. } => (told_by, lively) = (coil_of(relay), false),
                Kind::PressureSensor { minus, .. } => third = end(minus),
                Kind::Reference { unit: id, .. } => (told_by, lively) = (unit(id).map(|u| (u, 0)), false),
                Kind::Driver { unit, output: out, freewheel, .. } => {
                    (third, told_by, lively) = (end(freewheel), output(unit, out), false);
                }
                Kind::Regulator { enable, .. } => third = end(enable),
                Kind::Stepper { unit, output: out, .. } => told_by = output(unit, out),
                Kind::Inverter { unit, output: out, enable, .. } => {
                    (third, told_by) = (end(enable), output(unit, out));
                }
                Kind::Wire { .. }
                | Kind::Coil { .. }
                | Kind::Diode
                | Kind::Resistor { .. }
                | Kind::Lamp { .. }
                | Kind::Capacitor { .. }
                | Kind::StartWinding { .. }
                | Kind::Isolator { .. } => lively = false,
                _ => {}
            }
            w.third.push(third);
            w.told_by.push(told_by);
            if lively {
                w.lively.push(n);
            }
            w.alternating |= matches!(
                part.kind,
                Kind::Capacitor { .. } | Kind::RunWinding { .. } | Kind::StartWinding { .. }
            );
        }
        w.ends.extend(spec.supplies.iter().map(|s| (end(&s.minus), end(&s.plus))));
        let mut edges = w.ends.clone();
        edges.extend(w.ends.iter().zip(&w.third).flat_map(|(&(a, b), &c)| [(a, c), (c, b)]));
        w.order = order(spec.points.len(), &within(&edges, spec.points.len()));
        for (u, unit) in spec.units.iter().enumerate() {
            w.supply_of.push((end(&unit.plus), end(&unit.minus)));
            let pins = unit.inputs.iter().map(|input| match &input.from {
                Reads::Volts { pin } => (end(pin), None),
                Reads::Pressure { pin, feed, .. } | Reads::Thermistor { pin, feed, .. } => {
                    (end(pin), end(feed))
                }
                _ => (None, None),
            });
            w.pins.push(pins.collect());
            let drives = |o: usize| {
                let is = |n: &usize| {
                    matches!(spec.parts[*n].kind, Kind::Driver { .. }) && w.told_by[*n] == Some((u, o))
                };
                (0..spec.parts.len()).find(is)
            };
            let drivers = (0..unit.outputs.len()).map(drives).collect();
            w.driver_of.push(drivers);
        }
        w
    }
}

/// Edges with what is left in the air taken out.
fn within(edges: &[(End, End)], nodes: usize) -> Vec<(End, End)> {
    let inside = |end: End| end.filter(|&n| n < nodes);
    edges.iter().map(|&(a, b)| (inside(a), inside(b))).collect()
}
