//! A circuit at work. Relays pull in and drop out by coil *current*: that is what makes the pull, it equals the stated
//! volts for a whole cold coil, and a broken coil never pulls however many volts stand across it. The network is solved
//! only when something in it has changed.

use std::sync::Arc;

use serde::Serialize;

use super::alter::{Alter, gather};
use super::branches::{Standing, clutch_ohm};
use super::inputs::{CircuitInputs, Load};
use super::memory::{FuseState, Memory, Met, fan_speed};
use super::network::{Branch, End, Factored};
use super::spec::{CircuitSpec, Kind};
use super::unit::{Pins, UnitState};
use super::wiring::{Wiring, end_of};

/// Rounds allowed to let relays and power modules settle within one tick.
const MOST_ROUNDS: usize = 12;
/// Control units think so often [s].
const THINK_S: f64 = 0.1;
/// Longest tick [s].
const MOST_S: f64 = 60.0;

/// The electrical side of a rig.
#[derive(Clone, Debug, Serialize)]
pub struct Circuit {
    #[serde(skip)]
    pub(super) spec: Arc<CircuitSpec>,
    #[serde(skip)]
    pub(super) wiring: Arc<Wiring>,
    /// What it was last told; lists are compared with it.
    #[serde(skip)]
    pub(super) told: CircuitInputs,
    #[serde(skip)]
    pub(super) alter: Vec<Alter>,
    #[serde(skip)]
    pub(super) hung: Vec<Branch>,
    /// Two for each part, one for each supply, one for each load.
    #[serde(skip)]
    pub(super) branches: Vec<Branch>,
    #[serde(skip)]
    pub(super) factored: Factored,
    pub(super) memory: Vec<Memory>,
    pub(super) units: Vec<UnitState>,
    pub(super) load_fuses: Vec<FuseState>,
    pub(super) volts: Vec<f64>,
    thought_s: f64,
    settled: bool,
    changed: bool,
}

impl Circuit {
    /// A circuit with everything at rest. Ends that do not exist are left in the air; `CircuitSpec::problems` names them.
    pub fn new(spec: &CircuitSpec) -> Self {
        let wiring = Wiring::new(spec);
        let told = CircuitInputs::default();
        let mut circuit = Self {
            alter: gather(spec, &told),
            factored: Factored::new(&wiring.order),
            memory: spec.parts.iter().map(|p| Memory::new(&p.kind)).collect(),
            units: spec.units.iter().map(UnitState::new).collect(),
            volts: vec![0.0; spec.points.len()],
            branches: Vec::new(),
            hung: Vec::new(),
            load_fuses: Vec::new(),
            thought_s: THINK_S,
            settled: false,
            changed: false,
            spec: Arc::new(spec.clone()),
            wiring: Arc::new(wiring),
            told,
        };
        circuit.settle();
        circuit
    }

    /// Let `dt_s` seconds pass with these inputs; solves again only if something changed.
    pub fn update(&mut self, inputs: &CircuitInputs, dt_s: f64) {
        let dt_s = if dt_s.is_finite() { dt_s.clamp(0.0, MOST_S) } else { 0.0 };
        let before = self.outward();
        let mut stale = !self.settled;
        stale |= self.listen(inputs);
        stale |= self.live(dt_s);
        if stale {
            self.settle();
        }
        if !self.units.is_empty() {
            self.thought_s += dt_s;
            if self.thought_s >= THINK_S - 1e-9 {
                let thought_s = self.thought_s.min(10.0 * THINK_S);
                self.thought_s = 0.0;
                if self.think(thought_s) {
                    self.settle();
                }
            }
        }
        self.changed = before != self.outward();
    }

    /// Take over what is told; says whether the network has changed.
    fn listen(&mut self, inputs: &CircuitInputs) -> bool {
        let knobs = |i: &CircuitInputs| {
            (i.engine_on, i.ac_request, i.blower_pct.to_bits(), i.throttle_open, i.door_open)
        };
        let mut stale = knobs(inputs) != knobs(&self.told);
        let t = &self.told;
        let rewired = inputs.faults != t.faults
            || inputs.unplugged != t.unplugged
            || inputs.swapped != t.swapped
            || inputs.isolated != t.isolated;
        let hung = inputs.loads != t.loads;
        if rewired || hung {
            if hung {
                self.hang(&inputs.loads);
            }
            self.told.clone_from(inputs);
            self.alter = gather(&self.spec, inputs);
            stale = true;
        } else {
            // The lists are equal: copy the numbers alone.
            let lists = &mut self.told;
            let (faults, loads) = (std::mem::take(&mut lists.faults), std::mem::take(&mut lists.loads));
            let (unplugged, swapped) =
                (std::mem::take(&mut lists.unplugged), std::mem::take(&mut lists.swapped));
            let isolated = std::mem::take(&mut lists.isolated);
            *lists = CircuitInputs { faults, loads, unplugged, swapped, isolated, ..inputs.numbers() };
        }
        stale
    }

    /// Hang tools on; a load that was there before keeps its fuse.
    fn hang(&mut self, loads: &[Load]) {
        let fuses = loads.iter().map(|load| {
            let before = self.told.loads.iter().position(|l| l == load);
            before.and_then(|n| self.load_fuses.get(n)).copied().unwrap_or_default()
        });
        self.load_fuses = fuses.collect();
        let air = Some(self.spec.points.len());
        let end = |name: &str| end_of(&self.spec, name).unwrap_or(air);
        self.hung = loads.iter().map(|l| Branch::join(end(&l.a), end(&l.b), l.ohm)).collect();
    }

    /// Time passes for every part that it means something to.
    fn live(&mut self, dt_s: f64) -> bool {
        let wiring = Arc::clone(&self.wiring);
        let spec = Arc::clone(&self.spec);
        let mut stale = false;
        for &n in &wiring.lively {
            let kind = &spec.parts[n].kind;
            let (from, to) = wiring.ends[n];
            let told = wiring.told_by[n].and_then(|(u, o)| Some(self.units.get(u)?.output(o)));
            let amps = match kind {
                Kind::Fuse { .. } | Kind::Overload { .. } => self.part_current(n),
                _ => 0.0,
            };
            let start_a =
                if matches!(kind, Kind::RunWinding { .. }) { self.start_current() } else { (0.0, 1.0) };
            let met = Met {
                inputs: &self.told,
                alter: &self.alter[n],
                amps,
                volts: self.at(from) - self.at(to),
                third_v: self.at(wiring.third[n]),
                told: told.unwrap_or(0.0),
                start_a,
                dt_s,
            };
            let mut memory = self.memory[n];
            stale |= memory.live(kind, &met);
            self.memory[n] = memory;
        }
        for (n, load) in self.told.loads.iter().enumerate() {
            let amps = self.load_amps(n);
            stale |= self.load_fuses.get_mut(n).is_some_and(|f| f.carry(amps, load.fuse_a, false, dt_s));
        }
        stale
    }

    /// Current of the start winding and the current that breaks the rotor away [A].
    fn start_current(&self) -> (f64, f64) {
        let start = self.spec.parts.iter().enumerate().find_map(|(n, p)| match p.kind {
            Kind::StartWinding { breakaway_a, .. } => Some((self.part_current(n), breakaway_a)),
            _ => None,
        });
        start.unwrap_or((0.0, 0.0))
    }

    pub(super) fn at(&self, end: End) -> f64 {
        end.and_then(|n| self.volts.get(n)).copied().unwrap_or(0.0)
    }
    /// Current through a part by number [A].
    pub(super) fn part_current(&self, n: usize) -> f64 {
        let amps = |k: usize| self.branches.get(k).map_or(0.0, |b| b.current(&self.volts));
        amps(2 * n) + amps(2 * n + 1)
    }
    pub(super) fn load_amps(&self, n: usize) -> f64 {
        let first = 2 * self.spec.parts.len() + self.spec.supplies.len();
        self.branches.get(first + n).map_or(0.0, |b| b.current(&self.volts))
    }
    pub(super) fn standing(&self) -> Standing<'_> {
        Standing {
            spec: &self.spec,
            wiring: &self.wiring,
            memory: &self.memory,
            alter: &self.alter,
            units: &self.units,
            inputs: &self.told,
            volts: &self.volts,
        }
    }
    /// Branches of everything, as a meter's direct current meets them or as they work.
    pub(super) fn all_branches(&self, direct: bool, into: &mut Vec<Branch>) {
        let standing = self.standing();
        into.clear();
        for n in 0..self.spec.parts.len() {
            into.extend(standing.part(n, direct));
        }
        into.extend((0..self.spec.supplies.len()).map(|n| standing.supply(n)));
        let whole = |n: usize| self.load_fuses.get(n).is_none_or(|f| !f.blown);
        into.extend(self.hung.iter().enumerate().map(|(n, &b)| if whole(n) { b } else { Branch::NONE }));
    }

    /// Solve, move relays, units' supplies and power modules, solve again until nothing moves.
    fn settle(&mut self) {
        self.settled = false;
        for _ in 0..MOST_ROUNDS {
            let mut branches = std::mem::take(&mut self.branches);
            self.all_branches(false, &mut branches);
            self.factored.factor(branches.iter());
            self.factored.solve(branches.iter(), &[], &mut self.volts);
            self.branches = branches;
            if !self.respond() {
                self.settled = true;
                break;
            }
        }
        self.follow();
    }

    /// What moves at once with volts and amperes.
    fn respond(&mut self) -> bool {
        let mut moved = false;
        for n in 0..self.spec.parts.len() {
            match &self.spec.parts[n].kind {
                Kind::Coil { ohm, pull_in_v, drop_out_v, .. } => {
                    let amps = self.part_current(n).abs();
                    let on = self.memory[n] == Memory::Pulled(true);
                    let now = amps >= if on { drop_out_v / ohm } else { pull_in_v / ohm };
                    moved |= now != on;
                    self.memory[n] = Memory::Pulled(now);
                }
                Kind::Regulator { by, full_v, .. } => {
                    let (from, to) = self.wiring.ends[n];
                    let wanted = (self.told.knob(*by) / 100.0).clamp(0.0, 1.0);
                    let (feed, enable) = (self.at(from), self.at(self.wiring.third[n]));
                    let before = self.memory[n].share();
                    let share = if enable < 6.0 || feed < 1.0 || wanted.is_nan() {
                        0.0
                    } else if wanted >= 1.0 {
                        1.0
                    } else {
                        // What its transistor loses comes on top, so that the motor gets what was asked for.
                        let lost = if before > 0.0 { before * feed - self.at(to) } else { 0.0 };
                        ((wanted * full_v + lost) / feed).clamp(0.0, 1.0)
                    };
                    if (share - before).abs() > 1e-4 {
                        moved = true;
                        self.memory[n] = Memory::Share(share);
                    }
                }
                _ => {}
            }
        }
        for u in 0..self.units.len() {
            let (plus, minus) = self.wiring.supply_of[u];
            let volts = self.at(plus) - self.at(minus);
            moved |= self.units[u].supply(volts);
        }
        moved
    }

    /// What follows volts and amperes later: clutch, motors, valves.
    fn follow(&mut self) {
        for &n in &self.wiring.lively {
            let amps = || {
                let at = |k: usize| self.branches.get(k).map_or(0.0, |b| b.current(&self.volts));
                (at(2 * n) + at(2 * n + 1)).abs()
            };
            let alter = &self.alter[n];
            match (&self.spec.parts[n].kind, &mut self.memory[n]) {
                (
                    Kind::ClutchCoil { ohm, pull_in_v, drop_out_v, gap_mm, .. },
                    Memory::Clutch { pulled, .. },
                ) => {
                    // The pull goes with (current / gap) squared; pulled in, there is no gap left.
                    // Turns that bridge each other carry their current in vain.
                    let gap = alter.gap_mm.unwrap_or(*gap_mm) / gap_mm;
                    let useful = if alter.shorted { 0.0 } else { alter.share.min(1.0) };
                    let volts = amps() * useful * ohm;
                    *pulled = volts >= if *pulled { *drop_out_v } else { pull_in_v * gap };
                }
                (kind @ Kind::Motor { full_v, .. }, memory @ Memory::Motor { .. }) => {
                    let own = super::branches::motor_ohm(kind, memory, alter) * alter.share;
                    let volts = if alter.shorted { 0.0 } else { amps() * own };
                    let to = fan_speed(volts, *full_v) * (1.0 - alter.drag);
                    if let Memory::Motor { target, .. } = memory {
                        *target = to;
                    }
                }
                (Kind::Solenoid { from_a, full_a, .. }, Memory::Solenoid { target, .. }) => {
                    let share = ((amps() - from_a) / (full_a - from_a)).clamp(0.0, 1.0);
                    let share = if alter.shorted { 0.0 } else { share };
                    *target = alter.stuck.map_or(share, |open| f64::from(u8::from(open)));
                }
                (Kind::Stepper { ohm, .. }, Memory::Stepper { fed, .. }) => *fed = amps() * ohm > 8.0,
                _ => {}
            }
        }
    }

    /// Let the control units think; says whether an output changed.
    fn think(&mut self, dt_s: f64) -> bool {
        let mut changed = false;
        for u in 0..self.units.len() {
            let ground = self.at(self.wiring.supply_of[u].1);
            let volts: Vec<(f64, f64)> = self.wiring.pins[u]
                .iter()
                .map(|&(pin, feed)| (self.at(pin) - ground, self.at(feed) - ground))
                .collect();
            let amps: Vec<Option<f64>> =
                self.wiring.driver_of[u].iter().map(|d| d.map(|n| self.part_current(n))).collect();
            let locked = self.memory.iter().zip(&self.wiring.told_by).any(|(m, told)| {
                matches!(m, Memory::Inverter(i) if i.given_up) && told.is_some_and(|(by, _)| by == u)
            });
            let pins = Pins { inputs: &self.told, volts: &volts, amps: &amps, locked };
            changed |= self.units[u].run(&self.spec.units[u], &pins, dt_s);
        }
        changed
    }

    /// What the rest of the rig would notice: clutch, and the speeds that fans head for.
    fn outward(&self) -> (bool, f64) {
        let mut seen = (true, 0.0);
        for &n in &self.wiring.lively {
            match &self.memory[n] {
                Memory::Clutch { pulled, .. } => seen.0 &= *pulled,
                Memory::Motor { target, .. } => seen.1 += target,
                _ => {}
            }
        }
        seen
    }

    /// Clutch or the speed that a fan is heading for changed in the last update.
    pub fn changed(&self) -> bool {
        self.changed
    }

    /// Present resistance of the clutch coil [ohm], if there is one.
    pub(super) fn clutch(&self) -> Option<(usize, f64)> {
        self.wiring.lively.iter().find_map(|&n| match (&self.spec.parts[n].kind, &self.memory[n]) {
            (Kind::ClutchCoil { ohm, copper_per_k, .. }, Memory::Clutch { coil_k, .. }) => {
                Some((n, clutch_ohm(*ohm, *copper_per_k, *coil_k)))
            }
            _ => None,
        })
    }
    /// Renew a fuse of the rig.
    pub fn renew_fuse(&mut self, part: &str) {
        if let Some(n) = self.spec.parts.iter().position(|p| p.id == part)
            && let Memory::Fuse(fuse) = &mut self.memory[n]
        {
            *fuse = FuseState::default();
            self.settled = false;
        }
    }
    /// Clear all codes; those whose condition still holds come back.
    pub fn clear_codes(&mut self) {
        self.units.iter_mut().for_each(UnitState::clear);
    }
}
