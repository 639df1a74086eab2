//! What is wrong with a circuit file, in words.

use super::rules::{Amount, CodeWhen, ControlUnit, Reads, Target, When};
use super::spec::{CircuitSpec, GROUND, Kind};

impl CircuitSpec {
    /// Everything that does not fit: names that do not exist or exist twice, relays without coil or contact, points on
    /// top of each other in the drawing. Empty for a good file.
    pub fn problems(&self) -> Vec<String> {
        let mut list = Vec::new();
        let point = |name: &str| name == GROUND || self.points.iter().any(|p| p.id == name);
        let mut wants = |who: &str, name: &str| {
            if !point(name) {
                list.push(format!("{who}: there is no point `{name}`"));
            }
        };
        for s in &self.supplies {
            [&s.plus, &s.minus].into_iter().for_each(|name| wants(&s.id, name));
        }
        for p in &self.parts {
            wants(&p.id, &p.from);
            wants(&p.id, &p.to);
            match &p.kind {
                Kind::PressureSensor { minus: third, .. }
                | Kind::Regulator { enable: third, .. }
                | Kind::Driver { freewheel: third, .. }
                | Kind::Inverter { enable: third, .. } => wants(&p.id, third),
                _ => {}
            }
        }
        for u in &self.units {
            wants(&u.id, &u.plus);
            wants(&u.id, &u.minus);
            for input in &u.inputs {
                match &input.from {
                    Reads::Volts { pin } => wants(&input.id, pin),
                    Reads::Pressure { pin, feed, .. } | Reads::Thermistor { pin, feed, .. } => {
                        wants(&input.id, pin);
                        wants(&input.id, feed);
                    }
                    _ => {}
                }
            }
        }
        self.twice(&mut list);
        self.untold(&mut list);
        for unit in &self.units {
            rules(unit, &mut list);
        }
        list
    }

    fn twice(&self, list: &mut Vec<String>) {
        let points: Vec<&str> = self.points.iter().map(|p| p.id.as_str()).chain([GROUND]).collect();
        let supplies = self.supplies.iter().map(|s| s.id.as_str()).chain(["alternator"]);
        let parts: Vec<&str> = self.parts.iter().map(|p| p.id.as_str()).chain(supplies).collect();
        for names in [points, parts] {
            for (n, name) in names.iter().enumerate() {
                if names[..n].contains(name) {
                    list.push(format!("`{name}` is there twice"));
                }
            }
        }
        for (n, p) in self.points.iter().enumerate() {
            if let Some(q) = self.points[..n].iter().find(|q| q.at == p.at || q.label == p.label) {
                list.push(format!(
                    "points `{}` and `{}` share a place in the drawing or a label",
                    q.id, p.id
                ));
            }
        }
    }

    /// Relays without coil or contact, and parts that nothing tells what to do.
    fn untold(&self, list: &mut Vec<String>) {
        let coil = |name: &str| {
            self.parts.iter().any(|p| matches!(&p.kind, Kind::Coil { relay, .. } if relay == name))
        };
        let contact = |name: &str| {
            self.parts.iter().any(|p| matches!(&p.kind, Kind::Contact { relay, .. } if relay == name))
        };
        let output = |unit: &str, out: &str| {
            self.units.iter().any(|u| u.id == unit && u.outputs.iter().any(|o| o.id == out))
        };
        for p in &self.parts {
            let fits = match &p.kind {
                Kind::Coil { relay, .. } => contact(relay),
                Kind::Contact { relay, .. } => coil(relay),
                Kind::Reference { unit, .. } => self.units.iter().any(|u| u.id == *unit),
                Kind::Driver { unit, output: out, .. }
                | Kind::Stepper { unit, output: out, .. }
                | Kind::Inverter { unit, output: out, .. } => output(unit, out),
                _ => true,
            };
            if !fits {
                list.push(format!("part `{}` belongs to a relay, unit or output that does not exist", p.id));
            }
        }
    }
}

/// Names in the rules of a unit.
fn rules(unit: &ControlUnit, list: &mut Vec<String>) {
    let input = |id: &str| unit.inputs.iter().any(|i| i.id == id);
    let output = |id: &str| unit.outputs.iter().any(|o| o.id == id);
    let mut wants = |fits: bool, id: &str| {
        if !fits {
            list.push(format!("unit `{}`: a rule names `{id}`, which does not exist", unit.id));
        }
    };
    for i in &unit.inputs {
        match &i.from {
            Reads::Superheat { pressure: a, temperature: b, .. } | Reads::Difference { of: a, less: b } => {
                wants(input(a), a);
                wants(input(b), b);
            }
            _ => {}
        }
    }
    let mut conditions: Vec<&When> = unit.outputs.iter().flat_map(|o| &o.when).collect();
    while let Some(when) = conditions.pop() {
        match when {
            When::Above { of, .. } | When::Below { of, .. } | When::Sane(of) => wants(input(of), of),
            When::Output(id) => wants(output(id), id),
            When::Any(more) => conditions.extend(more),
            When::For(_) => {}
        }
    }
    let mut amounts: Vec<&Amount> = unit.outputs.iter().map(|o| &o.amount).collect();
    while let Some(amount) = amounts.pop() {
        match amount {
            Amount::Full => {}
            Amount::Most(more) | Amount::Least(more) => amounts.extend(more),
            Amount::Map { of, .. } => wants(input(of), of),
            Amount::Control { of, to, .. } => {
                wants(input(of), of);
                if let Target::Input(id) = to {
                    wants(input(id), id);
                }
            }
        }
    }
    for code in &unit.codes {
        match &code.set {
            CodeWhen::VoltsBelow(id, _)
            | CodeWhen::VoltsAbove(id, _)
            | CodeWhen::Below(id, _)
            | CodeWhen::Above(id, _) => wants(input(id), id),
            CodeWhen::OpenLoad(id, _) | CodeWhen::Overcurrent(id, _) => wants(output(id), id),
            CodeWhen::RotorLocked => {}
        }
    }
}
