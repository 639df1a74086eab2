//! The one state machine: rig + faults + instruments + clock. Only [`Bench::apply`] and
//! [`Bench::advance`] change it.

mod action;
mod controls;
mod snapshot;

pub use action::{Action, Diagnosis, Relay, Standing};
pub use controls::Controls;
pub use snapshot::{CellState, Inside, Instruments, Outside, PointState, Snapshot};

use crate::fault::Group;
use crate::scenario::Scenario;

/// Length of a tick [s].
pub const TICK_S: f64 = 0.05;

/// Why an action was refused; it changed nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// A number is outside its range or not a number.
    #[error("{what} {value} is outside {min} to {max} {unit}")]
    OutOfRange {
        /// Which knob.
        what: &'static str,
        /// The refused value.
        value: f64,
        /// Lowest allowed.
        min: f64,
        /// Highest allowed.
        max: f64,
        /// Unit.
        unit: &'static str,
    },
    /// The action makes no sense now.
    #[error("{0}")]
    NotNow(String),
}

/// PLACEHOLDER until the plant lands: a still picture with plausible numbers.
pub struct Bench {
    scenario: Scenario,
    seed: u64,
    tick: u64,
    controls: Controls,
    journal: Vec<(u64, Action)>,
}

impl Bench {
    /// A bench at tick 0 of a scenario.
    pub fn new(scenario: &Scenario, seed: u64) -> Self {
        Self { scenario: scenario.clone(), seed, tick: 0, controls: scenario.start, journal: Vec::new() }
    }
    /// Do something now, on the current tick.
    pub fn apply(&mut self, action: Action) -> Result<(), Refusal> {
        match action {
            Action::EngineOn(on) => self.controls.engine_on = on,
            Action::BlowerPct(v) => self.controls.blower_pct = v,
            _ => {}
        }
        self.journal.push((self.tick, action));
        Ok(())
    }
    /// Let time pass.
    pub fn advance(&mut self, ticks: u32) {
        self.tick += u64::from(ticks);
    }
    /// The current tick.
    pub fn tick(&self) -> u64 {
        self.tick
    }
    /// The scenario this bench runs.
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }
    /// The seed of its instrument noise.
    pub fn seed(&self) -> u64 {
        self.seed
    }
    /// Everything applied so far with its tick.
    pub fn journal(&self) -> &[(u64, Action)] {
        &self.journal
    }
    /// Hash of the committed state; equal records give equal hashes.
    pub fn state_hash(&self) -> u64 {
        self.tick
    }
    /// What can be seen now, the inside only when asked for.
    pub fn snapshot(&self, inside: bool) -> Snapshot {
        let p = |p_pa: f64, h: f64, t_c: f64, x: f64, void_fraction: f64| PointState {
            p_pa,
            p_total_pa: p_pa,
            h_j_per_kg: h,
            t_k: t_c + 273.15,
            x,
            void_fraction,
            flow_kg_s: 0.026,
        };
        let (hi, lo) = (1.70e6, 3.3e5);
        let points = [
            p(lo - 1.0e4, 409.0e3, 11.0, f64::NAN, 1.0),
            p(hi + 2.0e4, 452.0e3, 86.0, f64::NAN, 1.0),
            p(hi, 274.0e3, 51.0, f64::NAN, 0.0),
            p(hi - 1.0e4, 274.0e3, 51.0, f64::NAN, 0.0),
            p(lo + 1.0e4, 274.0e3, 4.5, 0.355, 0.93),
            p(lo, 406.0e3, 8.0, f64::NAN, 1.0),
        ];
        let cell = |i: usize, n: usize, a: PointState, b: PointState, wall_c: f64, heat: f64| {
            let f = (i + 1) as f64 / n as f64;
            let h = a.h_j_per_kg + f * (b.h_j_per_kg - a.h_j_per_kg);
            let x: f64 = if a.p_pa > 1e6 { (h - 288.0e3) / 138.0e3 } else { (h - 205.0e3) / 196.0e3 };
            let inside = (0.0..=1.0).contains(&x);
            CellState {
                point: PointState {
                    h_j_per_kg: h,
                    x: if inside { x } else { f64::NAN },
                    void_fraction: if inside { 1.0 - (1.0 - x) * (1.0 - x) } else { f64::from(x > 0.5) },
                    t_k: if inside { wall_c + 273.15 } else { b.t_k },
                    ..a
                },
                wall_t_k: wall_c + 273.15,
                heat_w: heat,
            }
        };
        Snapshot {
            tick: self.tick,
            time_s: self.tick as f64 * TICK_S,
            controls: self.controls,
            outside: Outside {
                engine_rpm: if self.controls.engine_on { self.controls.engine_rpm } else { 0.0 },
                clutch_engaged: self.controls.engine_on && self.controls.ac_request,
                fan_speed_pct: if self.controls.engine_on { 100.0 } else { 0.0 },
                blower_pct: self.controls.blower_pct,
            },
            instruments: Instruments {
                hoses_fitted: true,
                low_gauge_pa: 2.25e5,
                high_gauge_pa: 15.9e5,
                manifold_low_pct: 0.0,
                manifold_high_pct: 0.0,
                jumper: None,
                jumper_fuse_blown: false,
                placed: Vec::new(),
                notebook: Vec::new(),
                suspects: Group::ALL.iter().map(|&g| (g, Standing::Open)).collect(),
            },
            inside: inside.then(|| Inside {
                points,
                condenser: (0..8).map(|i| cell(i, 8, points[1], points[2], 52.0, -550.0)).collect(),
                condenser_main_cells: 6,
                evaporator: (0..6).map(|i| cell(i, 6, points[4], points[5], 6.0, 600.0)).collect(),
                receiver_level: 0.55,
                receiver: points[2],
                valve_lift: 0.42,
                valve_bulb_pa: 3.9e5,
                valve_evaporator_pa: 3.3e5,
                valve_spring_pa: 0.4e5,
                bulb_t_k: 281.0,
                m_compressor_kg_s: 0.026,
                m_metering_kg_s: 0.026,
                q_condenser_w: 4600.0,
                q_evaporator_w: 3400.0,
                w_compressor_w: 1150.0,
                q_other_w: 50.0,
                superheat_k: 4.5,
                subcooling_k: 7.0,
                gauge_low_pa: 2.2e5,
                gauge_high_pa: 15.9e5,
                compressor_rpm: 1125.0,
                charge_kg: 0.5,
                vent_t_k: 283.0,
                cabin_t_k: 299.0,
                ambient_t_k: 308.0,
                condenser_air_off_t_k: 320.0,
                condenser_air_kg_s: 0.45,
                volts: vec![("battery_30", 13.8)],
                ..Inside::default()
            }),
        }
    }
}
