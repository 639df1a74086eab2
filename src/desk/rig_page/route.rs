//! The wiring drawing of a circuit, laid out from its file alone: points stand on their grid, wires find their way round
//! them, symbols sit on the wires.

use super::grid::{Found, Goal, Grid, Node};
use crate::circuit::spec::{CircuitSpec, GROUND, Kind, SupplyKind};

/// Steps of the fine grid to one of the file's: as few as let every wire through.
const FINE: std::ops::RangeInclusive<i32> = 4..=8;
/// Steps left free round everything.
const MARGIN: Node = (2, 4);

/// What a stretch of the drawing stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// A part, by number.
    Part(usize),
    /// A supply, by number.
    Supply(usize),
    /// The third lead of a part.
    Third(usize),
}

/// A wire with its symbol.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What it is.
    pub of: Of,
    /// Its way.
    pub way: Found,
    /// It ends at a ground mark.
    pub grounded: bool,
    /// Which points its ends belong to.
    pub ends: (Option<usize>, Option<usize>),
}

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Size in fine steps.
    pub size: Node,
    /// Where each point stands.
    pub points: Vec<Node>,
    /// Wires.
    pub runs: Vec<Run>,
    /// Parts for which no way was found.
    pub left_out: Vec<Of>,
    /// Short designations of parts and of supplies: letter by kind and a number.
    pub names: Vec<String>,
    /// ... of supplies.
    pub supply_names: Vec<String>,
}

struct Wish {
    of: Of,
    from: usize,
    to: Option<usize>,
    symbol: bool,
}

/// Lay out a circuit.
pub fn draw(spec: &CircuitSpec) -> Drawing {
    let mut best: Option<Drawing> = None;
    for fine in FINE {
        let drawing = draw_with(spec, fine);
        let better = best.as_ref().is_none_or(|b| drawing.left_out.len() < b.left_out.len());
        if better {
            best = Some(drawing);
        }
        if best.as_ref().is_some_and(|b| b.left_out.is_empty()) {
            break;
        }
    }
    best.unwrap_or_else(|| draw_with(spec, *FINE.start()))
}

fn draw_with(spec: &CircuitSpec, fine: i32) -> Drawing {
    let number = |name: &str| spec.points.iter().position(|p| p.id == name);
    let spot = |at: (u16, u16)| (i32::from(at.0) * fine + MARGIN.0, i32::from(at.1) * fine + MARGIN.1);
    let points: Vec<Node> = spec.points.iter().map(|p| spot(p.at)).collect();
    let most = |f: fn(&Node) -> i32| points.iter().map(f).max().unwrap_or(0);
    let size = (most(|p| p.0) + 1 + MARGIN.0 + 1, most(|p| p.1) + 1 + MARGIN.1);
    let mut grid = Grid::new(size);
    for (n, &at) in points.iter().enumerate() {
        grid.point(at, n);
    }
    let mut wishes = Vec::new();
    for (n, supply) in spec.supplies.iter().enumerate() {
        let (Some(from), to) = (number(&supply.plus), number(&supply.minus)) else { continue };
        wishes.push(Wish { of: Of::Supply(n), from, to, symbol: true });
    }
    for (n, part) in spec.parts.iter().enumerate() {
        let symbol = !matches!(part.kind, Kind::Wire { .. });
        match (number(&part.from), number(&part.to)) {
            (Some(from), to) => wishes.push(Wish { of: Of::Part(n), from, to, symbol }),
            (None, Some(to)) if part.from == GROUND => {
                wishes.push(Wish { of: Of::Part(n), from: to, to: None, symbol });
            }
            _ => {}
        }
    }
    let length = |w: &Wish| {
        w.to.map_or(2, |to| {
            let (a, b) = (points[w.from], points[to]);
            (a.0 - b.0).abs() * 2 + (a.1 - b.1).abs()
        })
    };
    wishes.sort_by_key(|w| (w.symbol && w.to.is_none(), length(w)));
    let mut drawing = Drawing {
        size,
        points,
        runs: Vec::new(),
        left_out: Vec::new(),
        names: designations(spec),
        supply_names: spec.supplies.iter().enumerate().map(|(n, _)| format!("G{}", n + 1)).collect(),
    };
    for wish in wishes {
        let goal = wish.to.map_or(Goal::Ground, |to| Goal::Point(drawing.points[to], to));
        let Some(way) = grid.find(drawing.points[wish.from], wish.from, goal, wish.symbol) else {
            drawing.left_out.push(wish.of);
            continue;
        };
        grid.lay(&way, (wish.from, wish.to));
        let grounded = wish.to.is_none();
        drawing.runs.push(Run { of: wish.of, way, grounded, ends: (Some(wish.from), wish.to) });
    }
    thirds(spec, &mut grid, &mut drawing);
    drawing
}

/// Ground leads of three-wire sensors: from the ground point to the middle of the symbol.
fn thirds(spec: &CircuitSpec, grid: &mut Grid, drawing: &mut Drawing) {
    for (n, part) in spec.parts.iter().enumerate() {
        let Kind::PressureSensor { minus, .. } = &part.kind else { continue };
        let Some(from) = spec.points.iter().position(|p| p.id == *minus) else { continue };
        let middle = drawing.runs.iter().find(|r| r.of == Of::Part(n)).and_then(|r| {
            let (a, b) = r.way.symbol?;
            Some((r.way.nodes[a], r.way.nodes[(a + b) / 2], r.way.nodes[b]))
        });
        let Some((first, middle, last)) = middle else { continue };
        // The lead ends beside the symbol and is drawn on to it.
        let lying = first.1 == last.1;
        let sides = if lying { [(0, 1), (0, -1)] } else { [(1, 0), (-1, 0)] };
        let way = sides.into_iter().find_map(|(dx, dy)| {
            let beside = (middle.0 + dx, middle.1 + dy);
            let mut found = grid.find(drawing.points[from], from, Goal::Point(beside, from), false)?;
            grid.lay(&found, (from, Some(from)));
            found.nodes.push(middle);
            Some(found)
        });
        match way {
            Some(way) => {
                let run = Run { of: Of::Third(n), way, grounded: false, ends: (Some(from), Some(from)) };
                drawing.runs.push(run);
            }
            None => drawing.left_out.push(Of::Third(n)),
        }
    }
}

/// Letter of a kind in the manner of IEC 81346: what a part does.
fn letter(spec: &CircuitSpec, n: usize) -> Option<char> {
    Some(match &spec.parts[n].kind {
        Kind::Wire { .. } => return None,
        Kind::Fuse { .. } | Kind::Overload { .. } => 'F',
        Kind::Coil { .. } | Kind::Contact { .. } => 'K',
        Kind::Switch { .. } | Kind::Timer { .. } | Kind::Isolator { .. } => 'S',
        Kind::PressureSwitch { .. }
        | Kind::Thermostat { .. }
        | Kind::PressureSensor { .. }
        | Kind::Thermistor { .. } => 'B',
        Kind::Motor { .. } | Kind::RunWinding { .. } | Kind::StartWinding { .. } => 'M',
        Kind::ClutchCoil { .. } | Kind::Solenoid { .. } | Kind::Stepper { .. } => 'Y',
        Kind::Resistor { .. } if unit_of(spec, n).is_some() => 'A',
        Kind::Resistor { .. } | Kind::Diode => 'R',
        Kind::Lamp { .. } => 'E',
        Kind::Capacitor { .. } => 'C',
        Kind::Regulator { .. } | Kind::Driver { .. } | Kind::Reference { .. } => 'T',
        Kind::Inverter { .. } => 'A',
    })
}

/// The control unit that a part's own supply stands for.
pub fn unit_of(spec: &CircuitSpec, n: usize) -> Option<usize> {
    let part = &spec.parts[n];
    let load = matches!(part.kind, Kind::Resistor { .. });
    spec.units.iter().position(|u| load && u.plus == part.from && u.minus == part.to)
}

/// Numbers by letter in the order of the file; coil and contact of one relay share theirs.
fn designations(spec: &CircuitSpec) -> Vec<String> {
    let mut counts = std::collections::BTreeMap::new();
    let mut relays: Vec<&str> = Vec::new();
    let mut names = Vec::new();
    for (n, part) in spec.parts.iter().enumerate() {
        let Some(letter) = letter(spec, n) else {
            names.push(String::new());
            continue;
        };
        let number = match &part.kind {
            Kind::Coil { relay, .. } | Kind::Contact { relay, .. } => {
                let known = relays.iter().position(|r| r == relay).unwrap_or_else(|| {
                    relays.push(relay);
                    relays.len() - 1
                });
                known + 1
            }
            _ => {
                let count = counts.entry(letter).or_insert(0);
                *count += 1;
                *count
            }
        };
        names.push(format!("{letter}{number}"));
    }
    names
}

/// Highest volts of a circuit's supplies [V], to scale colours with.
pub fn full_volts(spec: &CircuitSpec) -> f64 {
    let volts = spec.supplies.iter().map(|s| match s.kind {
        SupplyKind::Battery { charging_v, .. } => charging_v,
        SupplyKind::Traction { volts, .. } | SupplyKind::Mains { volts, .. } => volts,
    });
    volts.fold(12.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Rig;

    #[test]
    fn every_part_of_every_rig_finds_its_way() {
        for id in Rig::ids() {
            let rig = Rig::load(id).unwrap();
            let drawing = draw(&rig.circuit);
            let name = |of: &Of| match *of {
                Of::Part(n) | Of::Third(n) => rig.circuit.parts[n].id.clone(),
                Of::Supply(n) => rig.circuit.supplies[n].id.clone(),
            };
            let left: Vec<_> = drawing.left_out.iter().map(name).collect();
            assert!(left.is_empty(), "{id}: no way for {left:?}");
        }
    }

    #[test]
    fn wires_of_two_nets_never_run_on_the_same_stretch() {
        for id in Rig::ids() {
            let rig = Rig::load(id).unwrap();
            let drawing = draw(&rig.circuit);
            let mut used: std::collections::BTreeMap<(Node, Node), Vec<Option<usize>>> = Default::default();
            for run in &drawing.runs {
                for (n, pair) in run.way.nodes.windows(2).enumerate() {
                    let inside = run.way.symbol.is_some_and(|(a, b)| n >= a && n < b);
                    let before = run.way.symbol.is_some_and(|(a, _)| n < a);
                    if inside || run.way.symbol.is_none() {
                        continue;
                    }
                    let net = if before { run.ends.0 } else { run.ends.1 };
                    let key = (pair[0].min(pair[1]), pair[0].max(pair[1]));
                    used.entry(key).or_default().push(net);
                }
            }
            for (stretch, nets) in used {
                assert!(nets.windows(2).all(|w| w[0] == w[1]), "{id}: {nets:?} share {stretch:?}");
            }
        }
    }
}
