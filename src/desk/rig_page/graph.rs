//! What works on what, found from the circuit alone: the way upstream from every load and relay coil through what
//! switches it, and what a control unit reads and drives.

use crate::circuit::rules::{ControlUnit, Reads};
use crate::circuit::sensed::{Knob, Place};
use crate::circuit::spec::{CircuitSpec, Kind};

/// What a block is, for its looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// A hand or the weather.
    Request,
    /// A switch or sensor.
    Sensor,
    /// A control unit.
    Unit,
    /// A relay or power stage.
    Relay,
    /// What is driven.
    Load,
}

/// A block.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// What stands in it.
    pub name: String,
    /// What it is.
    pub role: Role,
    /// Column, from the left.
    pub layer: usize,
}

/// Blocks and arrows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Graph {
    /// Blocks.
    pub blocks: Vec<Block>,
    /// From block to block.
    pub arrows: Vec<(usize, usize)>,
}

impl Graph {
    /// Of a circuit.
    pub fn of(spec: &CircuitSpec) -> Self {
        let mut graph = Self::default();
        for unit in &spec.units {
            let to = graph.block(&unit.name, Role::Unit);
            for input in &unit.inputs {
                graph.reads(spec, unit, &input.from, &input.name, to);
            }
        }
        for (n, part) in spec.parts.iter().enumerate() {
            let (name, role) = match &part.kind {
                Kind::Coil { relay, .. } => (relay_name(spec, relay), Role::Relay),
                Kind::Motor { .. } | Kind::ClutchCoil { .. } | Kind::Lamp { .. } => {
                    (part.name.clone(), Role::Load)
                }
                Kind::Solenoid { .. }
                | Kind::Stepper { .. }
                | Kind::Inverter { .. }
                | Kind::RunWinding { .. } => (part.name.clone(), Role::Load),
                _ => continue,
            };
            let to = graph.block(&name, role);
            let mut seen = vec![false; spec.parts.len()];
            graph.upstream(spec, &part.from, to, &mut seen);
            let told = match &part.kind {
                Kind::Stepper { unit, .. } | Kind::Inverter { unit, .. } => {
                    spec.units.iter().find(|u| u.id == *unit)
                }
                _ => None,
            };
            if let Some(unit) = told {
                let from = graph.block(&unit.name, Role::Unit);
                graph.arrow(from, to);
            }
            if let Kind::Inverter { .. } = part.kind {
                seen[n] = true;
            }
        }
        graph.layer();
        graph
    }

    fn block(&mut self, name: &str, role: Role) -> usize {
        // What stands in brackets in a name explains; it does not name.
        let name = name.split(" (").next().unwrap_or(name);
        if let Some(n) = self.blocks.iter().position(|b| b.name == name) {
            return n;
        }
        self.blocks.push(Block { name: name.to_owned(), role, layer: 0 });
        self.blocks.len() - 1
    }

    fn arrow(&mut self, from: usize, to: usize) {
        if from != to && !self.arrows.contains(&(from, to)) {
            self.arrows.push((from, to));
        }
    }

    /// What a control unit reads.
    fn reads(&mut self, spec: &CircuitSpec, unit: &ControlUnit, from: &Reads, name: &str, to: usize) {
        match from {
            Reads::Knob(knob) => {
                let from = self.block(knob_name(*knob), Role::Request);
                self.arrow(from, to);
            }
            Reads::Bus(place) => {
                let from = self.block(bus_name(*place), Role::Sensor);
                self.arrow(from, to);
            }
            Reads::EngineRpm | Reads::Setting => {
                let from = self.block(name, Role::Request);
                self.arrow(from, to);
            }
            Reads::Pressure { pin, .. } | Reads::Thermistor { pin, .. } => {
                let sensor = spec.parts.iter().find(|p| match p.kind {
                    Kind::PressureSensor { .. } => p.to == *pin,
                    Kind::Thermistor { .. } => p.from == *pin,
                    _ => false,
                });
                if let Some(sensor) = sensor {
                    let from = self.block(&sensor.name, Role::Sensor);
                    self.arrow(from, to);
                }
            }
            Reads::Volts { pin } => {
                if *pin != unit.plus {
                    let mut seen = vec![false; spec.parts.len()];
                    self.upstream(spec, pin, to, &mut seen);
                }
            }
            Reads::Superheat { .. } | Reads::Difference { .. } => {}
        }
    }

    /// Go upstream from a point; everything that switches becomes a block with an arrow on.
    fn upstream(&mut self, spec: &CircuitSpec, point: &str, to: usize, seen: &mut [bool]) {
        for (n, part) in spec.parts.iter().enumerate() {
            if part.to != point || seen[n] {
                continue;
            }
            seen[n] = true;
            let block = match &part.kind {
                Kind::Switch { by, .. } if shared(spec, *by) => {
                    Some((knob_name(*by).to_owned(), Role::Request))
                }
                Kind::Switch { .. } | Kind::Isolator { .. } => Some((part.name.clone(), Role::Request)),
                Kind::PressureSwitch { .. } | Kind::Thermostat { .. } | Kind::Timer { .. } => {
                    Some((part.name.clone(), Role::Sensor))
                }
                Kind::Contact { relay, .. } => Some((relay_name(spec, relay), Role::Relay)),
                Kind::Regulator { .. } => Some((part.name.clone(), Role::Relay)),
                Kind::Driver { .. } => Some((part.name.clone(), Role::Relay)),
                Kind::Wire { .. } | Kind::Resistor { .. } | Kind::Overload { .. } | Kind::Fuse { .. } => None,
                _ => continue,
            };
            let Some((name, role)) = block else {
                self.upstream(spec, &part.from, to, seen);
                continue;
            };
            let from = self.block(&name, role);
            self.arrow(from, to);
            match &part.kind {
                // What a relay's contact carries is told by its own coil; what feeds it is a fuse.
                Kind::Contact { .. } => {}
                Kind::Driver { unit, .. } => {
                    if let Some(unit) = spec.units.iter().find(|u| u.id == *unit) {
                        let unit = self.block(&unit.name, Role::Unit);
                        self.arrow(unit, from);
                    }
                }
                Kind::Regulator { by, enable, .. } => {
                    let knob = self.block(knob_name(*by), Role::Request);
                    self.arrow(knob, from);
                    self.upstream(spec, enable, from, seen);
                }
                _ => self.upstream(spec, &part.from, from, seen),
            }
        }
    }

    /// Columns: a block stands right of everything that works on it; rings (an interlock) stop the count.
    fn layer(&mut self) {
        for _ in 0..self.blocks.len() {
            let mut moved = false;
            for &(from, to) in &self.arrows {
                let least = self.blocks[from].layer + 1;
                if self.blocks[to].layer < least && least < self.blocks.len() {
                    self.blocks[to].layer = least;
                    moved = true;
                }
            }
            if !moved {
                break;
            }
        }
        // Sources stand next to what they work on, loads at the right edge.
        let last = self.blocks.iter().map(|b| b.layer).max().unwrap_or(0);
        for n in 0..self.blocks.len() {
            if self.blocks[n].role == Role::Load {
                self.blocks[n].layer = last;
            }
        }
        for n in 0..self.blocks.len() {
            if !self.arrows.iter().any(|&(_, to)| to == n) {
                let next = self.arrows.iter().filter(|a| a.0 == n).map(|a| self.blocks[a.1].layer).min();
                self.blocks[n].layer = next.unwrap_or(1).saturating_sub(1);
            }
        }
    }
}

/// Several switches of one knob (the steps of a blower switch) are one block.
fn shared(spec: &CircuitSpec, by: Knob) -> bool {
    spec.parts.iter().filter(|p| matches!(p.kind, Kind::Switch { by: b, .. } if b == by)).count() > 1
}

/// Name of a relay: that of its coil without the word.
fn relay_name(spec: &CircuitSpec, relay: &str) -> String {
    let coil = spec.parts.iter().find(|p| matches!(&p.kind, Kind::Coil { relay: r, .. } if r == relay));
    coil.map_or_else(|| relay.replace('_', " "), |p| p.name.trim_end_matches(", coil").to_owned())
}

fn knob_name(knob: Knob) -> &'static str {
    match knob {
        Knob::Ignition => "Ignition",
        Knob::Blower => "Blower setting",
        Knob::AcButton => "A/C button",
        Knob::Throttle => "Throttle",
        Knob::Door => "Door",
    }
}

fn bus_name(place: Place) -> &'static str {
    match place {
        Place::Coolant => "Engine coolant, by bus",
        Place::Ambient => "Outside air, by bus",
        Place::Battery => "Battery coolant, by bus",
        Place::Suction => "Suction, by bus",
        Place::Liquid => "Liquid, by bus",
        Place::Discharge => "Discharge, by bus",
        Place::Fin => "Evaporator, by bus",
        Place::EvaporatorOut => "Evaporator outlet, by bus",
        Place::Box => "Box air, by bus",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;

    #[test]
    fn a_request_reaches_what_cools_on_every_rig() {
        for (id, request, load) in [
            ("compact_car", "A/C switch", "Clutch coil"),
            ("pickup", "Mode switch", "Clutch coil"),
            ("sedan", "A/C button", "Control valve of the compressor"),
            ("electric_van", "A/C button", "Compressor with inverter"),
            ("walk_in_cooler", "Box thermostat", "Run winding"),
        ] {
            let graph = Graph::of(&Rig::load(id).unwrap().circuit);
            let find = |name: &str| graph.blocks.iter().position(|b| b.name == name);
            let start = find(request).unwrap_or_else(|| panic!("{id}: no block {request}"));
            let mut reached = vec![start];
            while let Some(next) =
                graph.arrows.iter().find(|(a, b)| reached.contains(a) && !reached.contains(b))
            {
                reached.push(next.1);
            }
            assert!(
                find(load).is_some_and(|n| reached.contains(&n)),
                "{id}: {request} does not reach {load}"
            );
        }
    }
}
