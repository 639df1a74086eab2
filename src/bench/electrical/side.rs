//! The electrical side of the rig with all that hands did to it: circuit, what it is told, what it drives, the coil's warmth.

use serde::Serialize;

use super::done::Electrics;
use crate::bench::action::Relay;
use crate::bench::clock::TICK_S;
use crate::bench::now::Now;
use crate::circuit::{Circuit, CircuitInputs, CircuitSpec, CoilWarmth, Drives, clutch_slip_w};
use crate::fault::Effects;
use crate::instrument::Electrical;
use crate::plant::{told::stepped, torque_nm};

/// A door's switch cannot be open for a share of the time: it counts as open from this share up [%].
const DOOR_OPEN_PCT: f64 = 50.0;
/// The circuit is told of torque in quarters of a newton metre, so that a steady loop stays steady.
const TORQUE_STEPS: f64 = 4.0;

/// The electrical side of a bench.
#[derive(Clone, Debug, Serialize)]
pub struct ElectricalSide {
    pub(super) circuit: Circuit,
    pub(super) told: CircuitInputs,
    drives: Drives,
    coil: CoilWarmth,
    /// Tick on which the clutch plate last pulled in or let go.
    clutch_moved_tick: Option<u64>,
    /// Relay whose contact the jumper lead bridges; between other points it stands in `done`.
    pub(super) jumper: Option<Relay>,
    pub(super) jumper_blown: bool,
    pub(super) done: Electrics,
}

impl ElectricalSide {
    /// A circuit at rest in air of a temperature [K], untouched.
    pub fn new(spec: &CircuitSpec, ambient_t_k: f64) -> Self {
        Self {
            circuit: Circuit::new(spec),
            told: CircuitInputs { setting_k: spec.setting_k, ..CircuitInputs::default() },
            drives: Drives::REST,
            coil: CoilWarmth::soaked(ambient_t_k),
            clutch_moved_tick: None,
            jumper: None,
            jumper_blown: false,
            done: Electrics::default(),
        }
    }
    /// The coil as warm as the air [K] again.
    pub fn soak(&mut self, ambient_t_k: f64) {
        self.coil = CoilWarmth::soaked(ambient_t_k);
    }

    /// The circuit.
    pub fn circuit(&self) -> &Circuit {
        &self.circuit
    }
    /// What it turns and opens.
    pub fn drives(&self) -> &Drives {
        &self.drives
    }
    /// What hands have done.
    pub fn done(&self) -> &Electrics {
        &self.done
    }
    /// Relay that the jumper lead bridges.
    pub fn jumper(&self) -> Option<Relay> {
        self.jumper
    }
    /// Ticks since the clutch plate last pulled in or let go.
    pub fn clutch_moved_tick(&self) -> Option<u64> {
        self.clutch_moved_tick
    }
    /// A value of a control unit, as the reader that is plugged in shows it.
    pub fn unit_value(&self, unit: &str, id: &str) -> Option<f64> {
        if !self.done.reader {
            return None;
        }
        self.circuit.values().into_iter().find(|v| v.unit == unit && v.id == id)?.value
    }
    /// One of these fuses has blown.
    pub fn any_blown(&self, fuses: &[&str]) -> bool {
        fuses.iter().any(|fuse| self.circuit.fuse_blown(fuse))
    }
    /// Put new fuses in, as far as the rig has them.
    pub fn renew(&mut self, fuses: &[&str]) {
        for fuse in fuses {
            self.circuit.renew_fuse(fuse);
        }
    }

    /// Tell the circuit what stands now and let it live for a tick.
    pub fn tick(&mut self, now: &Now, effects: &Effects, tools: &mut Electrical) {
        self.feel(now, effects.plant.seized);
        if self.told.faults != effects.circuit {
            self.told.faults.clone_from(&effects.circuit);
        }
        self.hang(tools);
        self.circuit.update(&self.told, TICK_S);
        self.watch_fuses(tools, now.tick);
        let (drives, c) = (self.circuit.drives(), now.controls);
        let slips = c.engine_on && drives.clutch_engaged && drives.clutch_grip < 1.0;
        let slip_w =
            if slips { clutch_slip_w(self.told.load_nm, drives.clutch_grip, c.engine_rpm) } else { 0.0 };
        self.coil.advance(TICK_S, now.ambient_k(), c.engine_on, drives.clutch_coil_w + slip_w);
        if drives.clutch_engaged != self.drives.clutch_engaged {
            self.clutch_moved_tick = Some(now.tick);
        }
        self.drives = drives;
    }

    /// Knobs, and what stands where switches and sensors feel.
    fn feel(&mut self, now: &Now, seized: bool) {
        let (plant, c, time_s) = (now.plant, now.controls, now.time_s());
        let l = plant.layout();
        let i = &mut self.told;
        i.engine_on = c.engine_on;
        i.engine_rpm = c.engine_rpm;
        i.ac_request = c.ac_request;
        i.blower_pct = c.blower_pct;
        i.door_open = c.doors_open_pct >= DOOR_OPEN_PCT;
        // A switch on the low side sits on the accumulator where there is one.
        i.senses.suction_gauge_pa = now.gauge_pa(l.accumulator.unwrap_or(l.suction));
        i.senses.liquid_gauge_pa = now.gauge_pa(l.liquid);
        i.senses.discharge_gauge_pa = now.gauge_pa(l.discharge);
        i.senses.ambient_t_k = now.ambient_k();
        i.senses.fin_t_k = plant.at(time_s, |s| s.fin_t_k);
        i.senses.box_t_k = plant.at(time_s, |s| s.cabin.t_k);
        i.senses.coolant_t_k = plant.at(time_s, |s| s.engine_bay.engine_t_k);
        i.seized = seized || plant.compressor_seized(time_s);
        i.senses.evaporator_out_t_k = plant.look(l.evaporator.end - 1, time_s).t_k;
        i.senses.battery_t_k = plant.coolant_t_k(time_s).unwrap_or(i.senses.ambient_t_k);
        i.standing_pa = (i.senses.discharge_gauge_pa - i.senses.suction_gauge_pa).max(0.0);
        let shaft_w = plant.compression_w().abs() + plant.friction_w();
        i.load_nm = stepped(torque_nm(shaft_w, plant.inputs().compressor_rpm), TORQUE_STEPS);
        i.coil_t_k = self.coil.t_k;
    }
}
