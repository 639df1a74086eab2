//! What a circuit answers: meter, clamp, reader, and what it does to the rest of the rig.

use super::inputs::{Drives, Port, UnitCode, UnitValue};
use super::live::Circuit;
use super::memory::{Memory, moves, turns};
use super::network::End;
use super::spec::{CircuitSpec, Guard, Kind, Moves, Part, Point, Turns};
use super::wiring::end_of;

/// A person may touch up to this: direct volts (ISO 6469-3, class A) and effective alternating volts (from memory).
const TOUCH_V: (f64, f64) = (60.0, 30.0);

impl Circuit {
    fn end(&self, name: &str) -> Option<End> {
        end_of(&self.spec, name)
    }
    fn part_number(&self, id: &str) -> Option<usize> {
        self.spec.parts.iter().position(|p| p.id == id)
    }

    /// Volts of a point against ground; `None` for a name that is no point.
    pub fn volts(&self, point: &str) -> Option<f64> {
        self.spec.points.iter().position(|p| p.id == point).map(|n| self.volts[n])
    }
    /// All points with their volts against ground, in the order of [`Self::points`].
    pub fn all_volts(&self) -> impl Iterator<Item = (&str, f64)> + '_ {
        self.spec.points.iter().zip(&self.volts).map(|(p, v)| (p.id.as_str(), *v))
    }
    /// What a meter sees between two points (or `ground`), everything as it stands now; `None` for a name that is no
    /// point.
    pub fn port(&self, red: &str, black: &str) -> Option<Port> {
        let (red, black) = (self.end(red)?, self.end(black)?);
        let volts = self.at(red) - self.at(black);
        let mut answer = Vec::new();
        let probe = [(red, 1.0), (black, -1.0)];
        if self.wiring.alternating {
            let mut branches = Vec::new();
            self.all_branches(true, &mut branches);
            let mut direct = self.factored.clone();
            direct.factor(branches.iter());
            direct.solve(std::iter::empty(), &probe, &mut answer);
        } else {
            self.factored.solve(std::iter::empty(), &probe, &mut answer);
        }
        let at = |end: End| end.and_then(|n| answer.get(n)).copied().unwrap_or(0.0);
        Some(Port { volts, ohm: (at(red) - at(black)).max(0.0) })
    }
    /// Current through a part [A], positive from its `from` to its `to`; `None` for a name that is no part.
    pub fn current(&self, part: &str) -> Option<f64> {
        self.part_number(part).map(|n| self.part_current(n))
    }
    /// Current through the `n`-th load that tools hang on [A], from `a` to `b`; 0 once its fuse has blown.
    pub fn load_current(&self, n: usize) -> Option<f64> {
        (n < self.told.loads.len()).then(|| self.load_amps(n))
    }
    /// The fuse of the `n`-th load has blown; taking the load away renews it.
    pub fn load_blown(&self, n: usize) -> bool {
        self.load_fuses.get(n).is_some_and(|f| f.blown)
    }
    /// A fuse of the rig has blown, by part id; [`Self::renew_fuse`] puts in a new one.
    pub fn fuse_blown(&self, part: &str) -> bool {
        self.part_number(part).is_some_and(|n| matches!(self.memory[n], Memory::Fuse(f) if f.blown))
    }
    /// A relay's coil is pulled in.
    pub fn relay_on(&self, relay: &str) -> bool {
        let is = |p: &Part| matches!(&p.kind, Kind::Coil { relay: name, .. } if name == relay);
        self.spec.parts.iter().position(is).is_some_and(|n| self.memory[n] == Memory::Pulled(true))
    }
    /// A switch, contact, fuse or isolator passes current (less than ten ohm), by part id.
    pub fn closed(&self, part: &str) -> bool {
        self.part_number(part).is_some_and(|n| self.branches.get(2 * n).is_some_and(|b| b.ohm() < 10.0))
    }
    /// All points.
    pub fn points(&self) -> &[Point] {
        &self.spec.points
    }
    /// All parts.
    pub fn parts(&self) -> &[Part] {
        &self.spec.parts
    }
    /// What it is made of.
    pub fn spec(&self) -> &CircuitSpec {
        &self.spec
    }

    /// What a reader shows: inputs and outputs of all control units, in the order of the file. A unit without supply
    /// does not answer and is left out.
    pub fn values(&self) -> Vec<UnitValue<'_>> {
        let mut values = Vec::new();
        for (unit, state) in self.spec.units.iter().zip(&self.units).filter(|(_, s)| s.awake()) {
            values.extend(unit.inputs.iter().enumerate().map(|(n, i)| UnitValue {
                unit: &unit.id,
                id: &i.id,
                name: &i.name,
                in_unit: &i.unit,
                value: state.value(n),
            }));
            values.extend(unit.outputs.iter().enumerate().map(|(n, o)| UnitValue {
                unit: &unit.id,
                id: &o.id,
                name: &o.name,
                in_unit: "%",
                value: Some(100.0 * state.output(n)),
            }));
        }
        values
    }
    /// Codes stored in all control units that answer.
    pub fn codes(&self) -> Vec<UnitCode<'_>> {
        let units = self.spec.units.iter().zip(&self.units).filter(|(_, s)| s.awake());
        units
            .flat_map(|(unit, state)| {
                unit.codes.iter().enumerate().filter_map(|(n, code)| {
                    state.code(n).map(|present| UnitCode { unit: &unit.id, words: &code.words, present })
                })
            })
            .collect()
    }

    /// What a point may carry; [`Guard::None`] for a name that is no point.
    pub fn guarded(&self, point: &str) -> Guard {
        self.spec.points.iter().find(|p| p.id == point).map_or(Guard::None, |p| p.guard)
    }
    /// A supply's own terminal: upstream of every isolator, so live whatever is isolated.
    pub fn is_terminal(&self, point: &str) -> bool {
        self.spec.supplies.iter().any(|s| s.plus == point || s.minus == point)
    }
    /// Most volts between any two points under this guard behind the isolators, or one of them and ground [V]. The
    /// supply's own terminals stay live and are left out.
    pub fn most_volts(&self, guard: Guard) -> f64 {
        let points = self.spec.points.iter().zip(&self.volts);
        let guarded = points.filter(|(p, _)| p.guard == guard && !self.is_terminal(&p.id));
        let (low, high) = guarded.fold((0.0_f64, 0.0_f64), |(low, high), (_, &v)| (low.min(v), high.max(v)));
        high - low
    }
    /// No point under this guard behind the isolators carries more than a person may touch, against any other of them
    /// or ground.
    pub fn is_dead(&self, guard: Guard) -> bool {
        let limit = match guard {
            Guard::None => return true,
            Guard::Traction => TOUCH_V.0,
            Guard::Mains => TOUCH_V.1,
        };
        self.most_volts(guard) <= limit
    }

    /// Speed that a motor is heading for, 0 to 1; `None` for a name that is no motor.
    pub fn heading(&self, part: &str) -> Option<f64> {
        match self.memory[self.part_number(part)?] {
            Memory::Motor { target, .. } => Some(target),
            _ => None,
        }
    }

    /// Mean speed of what turns something, 1 where nothing does.
    fn turning(&self, what: Turns) -> f64 {
        let (mut sum, mut count) = (0.0, 0.0);
        for &n in &self.wiring.lively {
            if turns(&self.spec.parts[n].kind, what) {
                sum += self.memory[n].share();
                count += 1.0;
            }
        }
        if count > 0.0 { sum / count } else { 1.0 }
    }
    fn moved(&self, what: Moves) -> Option<f64> {
        let is = |&&n: &&usize| moves(&self.spec.parts[n].kind, what);
        self.wiring.lively.iter().find(is).map(|&n| self.memory[n].share())
    }

    /// What it does to the rest of the rig.
    pub fn drives(&self) -> Drives {
        let mut drives = Drives {
            fan_share: self.turning(Turns::CondenserFan),
            blower_share: self.turning(Turns::Blower),
            stroke: self.moved(Moves::Stroke).unwrap_or(1.0),
            expansion_opening: self.moved(Moves::Expansion),
            chiller_opening: self.moved(Moves::Chiller),
            liquid_line_open: self.moved(Moves::LiquidLine).unwrap_or(1.0),
            ..Drives::REST
        };
        if let Some((n, ohm)) = self.clutch() {
            let amps = self.part_current(n);
            drives.clutch_engaged = matches!(self.memory[n], Memory::Clutch { pulled: true, .. });
            drives.clutch_coil_w = amps * amps * ohm;
            if let Kind::ClutchCoil { ohm: cold, torque_nm, .. } = self.spec.parts[n].kind {
                let share = amps * cold / 12.0;
                let holds = torque_nm * share * share * (1.0 - self.alter[n].weak);
                drives.clutch_grip = match (self.told.seized, self.told.load_nm <= holds) {
                    (true, _) => 0.0,
                    (_, true) => 1.0,
                    _ => (holds / self.told.load_nm).clamp(0.0, 1.0),
                };
            }
        }
        for &n in &self.wiring.lively {
            match (&self.spec.parts[n].kind, &self.memory[n]) {
                (Kind::Inverter { .. }, Memory::Inverter(state)) => drives.electric_rpm = Some(state.rpm),
                (Kind::RunWinding { rpm, .. }, Memory::Rotor { speed, .. }) => {
                    drives.hermetic_rpm = Some(speed * rpm);
                }
                _ => {}
            }
        }
        drives
    }
}
