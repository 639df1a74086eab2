//! A control unit at work: reads its pins, decides, stores codes.

use serde::Serialize;

use super::inputs::CircuitInputs;
use super::rules::{Amount, CodeWhen, ControlUnit, Reads, Target, When};
use super::switch::Hysteresis;

/// A unit works again above this supply [V] and stops below the second (common practice, no source).
const AWAKE_V: (f64, f64) = (6.5, 6.0);
/// Shares of its feed within which a three-wire sensor's signal makes sense; it spans 10 to 90 %.
const SANE_SENSOR: (f64, f64) = (0.05, 0.95);
/// The same for a thermistor behind its pull-up.
const SANE_THERMISTOR: (f64, f64) = (0.02, 0.98);

/// What a unit meets at its pins.
pub struct Pins<'a> {
    /// What comes by bus.
    pub inputs: &'a CircuitInputs,
    /// Volts of pin and feed of each input against the unit's ground.
    pub volts: &'a [(f64, f64)],
    /// Current of the driver of each output [A], if one carries it.
    pub amps: &'a [Option<f64>],
    /// An inverter that this unit tells found its rotor locked.
    pub locked: bool,
}

/// A proportional and integral control at work.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct ControlState {
    integral: f64,
    answer: f64,
    /// Time since it last decided [s].
    since_s: f64,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
struct CodeState {
    held_s: f64,
    present: bool,
    stored: bool,
}

/// What a unit remembers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UnitState {
    awake: Hysteresis,
    sane: Vec<bool>,
    values: Vec<Option<f64>>,
    outputs: Vec<f64>,
    /// Drivers that have shut themselves down until the unit is next switched on.
    shut: Vec<bool>,
    /// Conditions that hold, and for how long, in the order in which they stand in the file.
    held: Vec<(bool, f64)>,
    controls: Vec<ControlState>,
    codes: Vec<CodeState>,
}

impl UnitState {
    /// A unit without supply.
    pub fn new(unit: &ControlUnit) -> Self {
        Self {
            awake: Hysteresis::new(AWAKE_V.0, AWAKE_V.1, false),
            sane: vec![false; unit.inputs.len()],
            values: vec![None; unit.inputs.len()],
            outputs: vec![0.0; unit.outputs.len()],
            shut: vec![false; unit.outputs.len()],
            held: Vec::new(),
            controls: Vec::new(),
            codes: vec![CodeState::default(); unit.codes.len()],
        }
    }
    /// Show it its supply [V]; says whether it woke up or fell asleep.
    pub fn supply(&mut self, volts: f64) -> bool {
        let before = self.awake.on();
        if self.awake.update(volts) == before {
            return false;
        }
        if before {
            self.outputs.fill(0.0);
            self.shut.fill(false);
            self.held.clear();
            self.controls.clear();
            self.values.fill(None);
        }
        true
    }
    /// It has supply enough to work.
    pub fn awake(&self) -> bool {
        self.awake.on()
    }
    /// Share of an output, 0 to 1.
    pub fn output(&self, n: usize) -> f64 {
        self.outputs.get(n).copied().unwrap_or(0.0)
    }
    /// Value of an input as the unit believes it.
    pub fn value(&self, n: usize) -> Option<f64> {
        self.values.get(n).copied().flatten()
    }
    /// Stored code: is its condition present?
    pub fn code(&self, n: usize) -> Option<bool> {
        self.codes.get(n).filter(|c| c.stored).map(|c| c.present)
    }
    /// Forget all codes.
    pub fn clear(&mut self) {
        self.codes.fill(CodeState::default());
        self.shut.fill(false);
    }

    /// Read, decide, store; says whether an output changed.
    pub fn run(&mut self, unit: &ControlUnit, pins: &Pins<'_>, dt_s: f64) -> bool {
        if !self.awake() {
            return false;
        }
        for (n, input) in unit.inputs.iter().enumerate() {
            let (volts, feed) = pins.volts.get(n).copied().unwrap_or((0.0, 0.0));
            let read = self.read(unit, &input.from, volts, feed, pins.inputs).filter(|v| v.is_finite());
            self.sane[n] = read.is_some();
            self.values[n] = read.or(input.instead);
        }
        let before = self.outputs.clone();
        let mut at = Cursor { dt_s, ..Cursor::default() };
        for (n, output) in unit.outputs.iter().enumerate() {
            let holds = self.all(unit, &output.when, &mut at);
            let amount = self.amount(unit, &output.amount, holds, &mut at);
            let share = if holds { amount } else { output.off };
            // Outputs move in two hundredths and not back and forth between two, so that a steady rig stays steady.
            let share = share.clamp(0.0, 1.0);
            let nearby = (share - self.outputs[n]).abs() < 0.8 / 200.0 && share > 0.0;
            if self.shut[n] {
                self.outputs[n] = 0.0;
            } else if !nearby {
                self.outputs[n] = libm::round(share * 200.0) / 200.0;
            }
        }
        self.store(unit, pins, dt_s);
        before != self.outputs
    }

    fn find(&self, unit: &ControlUnit, id: &str) -> Option<f64> {
        self.value(unit.inputs.iter().position(|i| i.id == id)?)
    }

    fn read(
        &self,
        unit: &ControlUnit,
        from: &Reads,
        volts: f64,
        feed: f64,
        inputs: &CircuitInputs,
    ) -> Option<f64> {
        let within = |x: f64, (low, high): (f64, f64)| x >= low && x <= high;
        match from {
            Reads::Volts { .. } => Some(volts),
            Reads::Pressure { range_gauge_pa: (low, high), .. } => {
                let share = volts / feed;
                within(share, SANE_SENSOR).then(|| low + (share - 0.1) / 0.8 * (high - low))
            }
            Reads::Thermistor { pull_up_ohm, r25_ohm, beta_k, .. } => {
                let share = volts / feed;
                let ohm = pull_up_ohm * share / (1.0 - share);
                within(share, SANE_THERMISTOR)
                    .then(|| 1.0 / (libm::log(ohm / r25_ohm) / beta_k + 1.0 / 298.15))
            }
            Reads::Knob(knob) => Some(inputs.knob(*knob)),
            Reads::Bus(place) => Some(inputs.senses.at(*place)),
            Reads::EngineRpm => Some(if inputs.engine_on { inputs.engine_rpm } else { 0.0 }),
            Reads::Setting => Some(inputs.setting_k),
            Reads::Superheat { pressure, temperature, saturation } => {
                Some(self.find(unit, temperature)? - line(saturation, self.find(unit, pressure)?))
            }
            Reads::Difference { of, less } => Some(self.find(unit, of)? - self.find(unit, less)?),
        }
    }

    /// All conditions of a list; every one is looked at, so that each keeps its place in the memory.
    fn all(&mut self, unit: &ControlUnit, list: &[When], at: &mut Cursor) -> bool {
        let mut so_far = true;
        for when in list {
            let holds = self.holds(unit, when, so_far, at);
            so_far &= holds;
        }
        so_far
    }

    fn holds(&mut self, unit: &ControlUnit, when: &When, so_far: bool, at: &mut Cursor) -> bool {
        let place = at.conditions;
        at.conditions += 1;
        if self.held.len() <= place {
            self.held.resize(place + 1, (false, 0.0));
        }
        let (held, time_s) = self.held[place];
        let mut time = 0.0;
        let now = match when {
            When::Above { of, on, off } => {
                self.find(unit, of).is_some_and(|v| v >= *on || (held && v > *off))
            }
            When::Below { of, on, off } => {
                self.find(unit, of).is_some_and(|v| v <= *on || (held && v < *off))
            }
            When::Sane(id) => unit.inputs.iter().position(|i| i.id == *id).is_some_and(|n| self.sane[n]),
            When::Output(id) => {
                unit.outputs.iter().position(|o| o.id == *id).is_some_and(|n| self.outputs[n] > 0.0)
            }
            When::Any(list) => {
                // Every one is looked at, for each remembers where it stands.
                let held: Vec<bool> = list.iter().map(|w| self.holds(unit, w, true, at)).collect();
                held.contains(&true)
            }
            When::For(seconds) => {
                time = if so_far { time_s + at.dt_s } else { 0.0 };
                so_far && time >= *seconds
            }
        };
        self.held[place] = (now, time);
        now
    }

    fn amount(&mut self, unit: &ControlUnit, amount: &Amount, holds: bool, at: &mut Cursor) -> f64 {
        match amount {
            Amount::Full => 1.0,
            Amount::Map { of, points, unknown } => {
                self.find(unit, of).map_or(*unknown, |value| line(points, value))
            }
            Amount::Most(list) => {
                list.iter().map(|a| self.amount(unit, a, holds, at)).fold(0.0, |most, a| a.max(most))
            }
            Amount::Least(list) => {
                list.iter().map(|a| self.amount(unit, a, holds, at)).fold(1.0, |least, a| a.min(least))
            }
            Amount::Control {
                of,
                to,
                gain,
                integral_s,
                dead_band,
                every_s,
                lowest,
                highest,
                start,
                unknown,
            } => {
                let place = at.controls;
                at.controls += 1;
                let fresh = ControlState { integral: *start, answer: *start, since_s: f64::INFINITY };
                if self.controls.len() <= place {
                    self.controls.resize(place + 1, fresh);
                }
                let goal = match to {
                    Target::Fixed(value) => Some(*value),
                    Target::Input(id) => self.find(unit, id),
                };
                let error = self.find(unit, of).zip(goal).map(|(value, goal)| value - goal);
                let Some(error) = error.filter(|_| holds) else {
                    self.controls[place] = fresh;
                    return if holds { *unknown } else { 0.0 };
                };
                let state = &mut self.controls[place];
                state.since_s += at.dt_s;
                if state.since_s < every_s - 1e-9 {
                    return state.answer;
                }
                // The first decision counts one thought: there was no time before it.
                let passed_s = if state.since_s.is_finite() { state.since_s } else { at.dt_s };
                let beyond = error - error.max(-dead_band).min(*dead_band);
                let limited = |x: f64| x.max(*lowest).min(*highest);
                let moved = gain * beyond * passed_s / integral_s.max(0.1);
                state.integral = limited(state.integral + moved);
                state.answer = limited(state.integral + gain * beyond);
                state.since_s = 0.0;
                state.answer
            }
        }
    }

    fn store(&mut self, unit: &ControlUnit, pins: &Pins<'_>, dt_s: f64) {
        let input = |id: &str| unit.inputs.iter().position(|i| i.id == id);
        let output = |id: &str| unit.outputs.iter().position(|o| o.id == id);
        let pin_v = |id: &str| input(id).and_then(|n| pins.volts.get(n)).map(|v| v.0);
        let amps = |n: usize| pins.amps.get(n).copied().flatten().map(f64::abs);
        for (n, code) in unit.codes.iter().enumerate() {
            let now = match &code.set {
                CodeWhen::VoltsBelow(id, v) => pin_v(id).is_some_and(|at| at < *v),
                CodeWhen::VoltsAbove(id, v) => pin_v(id).is_some_and(|at| at > *v),
                CodeWhen::Below(id, v) => self.find(unit, id).is_some_and(|at| at < *v),
                CodeWhen::Above(id, v) => self.find(unit, id).is_some_and(|at| at > *v),
                CodeWhen::OpenLoad(id, a) => {
                    output(id).is_some_and(|n| self.outputs[n] > 0.05 && amps(n).is_some_and(|at| at < *a))
                }
                CodeWhen::Overcurrent(id, a) => {
                    output(id).is_some_and(|n| self.shut[n] || amps(n).is_some_and(|at| at > *a))
                }
                CodeWhen::RotorLocked => pins.locked,
            };
            let state = &mut self.codes[n];
            state.held_s = if now { state.held_s + dt_s } else { 0.0 };
            state.present = now && state.held_s >= code.after_s;
            state.stored |= state.present;
            if let (CodeWhen::Overcurrent(id, _), true) = (&code.set, state.present)
                && let Some(n) = output(id)
            {
                self.shut[n] = true;
                self.outputs[n] = 0.0;
            }
        }
    }
}

/// Where a walk through the rules stands.
#[derive(Default)]
struct Cursor {
    conditions: usize,
    controls: usize,
    dt_s: f64,
}

/// A piecewise-linear line, held beyond its ends; 0 without points.
pub fn line(points: &[(f64, f64)], x: f64) -> f64 {
    let Some(&(first, low)) = points.first() else { return 0.0 };
    if x <= first {
        return low;
    }
    for pair in points.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        if x <= x1 {
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0).max(1e-12);
        }
    }
    points.last().map_or(low, |&(_, high)| high)
}
