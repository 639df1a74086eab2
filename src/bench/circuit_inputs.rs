//! What the circuit is told each tick, and what it does to the clutch coil.

use super::{Bench, Relay, TICK_S};
use crate::circuit::Load;
use crate::units::ZERO_C_K;

/// The jumper lead: its resistance with clips [ohm] and its fuse [A].
pub(super) const JUMPER: (f64, f64) = (0.02, 15.0);
/// The clutch coil: time constant [s], warmth under the bonnet while the engine runs [K], rise for each watt in it [K/W]
/// (own estimates: 35 K at the 50 W of a healthy coil).
const COIL: (f64, f64, f64) = (120.0, 25.0, 0.7);
/// Share of the slip's heat that reaches the coil, and heat of each torque-speed product of a slipping clutch.
const SLIP_TO_COIL: f64 = 0.02;

impl Bench {
    /// Tell the circuit what stands now and let it live for a tick.
    pub(super) fn run_circuit(&mut self, now: f64) {
        let l = self.plant.layout();
        let c = &self.controls;
        let gauge = |place: usize| self.plant.look(place, now).p_pa - c.ambient_pa();
        let rpm = self.plant.inputs().compressor_rpm;
        let shaft_w =
            self.plant.flows().first().map_or(0.0, |f| (f.out_w - f.in_w).abs()) + self.plant.friction_w();
        let i = &mut self.circuit_inputs;
        i.engine_on = c.engine_on;
        i.engine_rpm = c.engine_rpm;
        i.ac_request = c.ac_request;
        i.blower_pct = c.blower_pct;
        // Its switch cannot be open for a share of the time: it counts as open from half of it up.
        i.door_open = c.doors_open_pct >= 50.0;
        // A switch on the low side sits on the accumulator where there is one.
        i.senses.suction_gauge_pa = gauge(l.accumulator.unwrap_or(l.suction));
        i.senses.liquid_gauge_pa = gauge(l.liquid);
        i.senses.discharge_gauge_pa = gauge(l.discharge);
        i.senses.ambient_t_k = c.ambient_c + ZERO_C_K;
        i.senses.fin_t_k = self.plant.at(now, |s| s.fin_t_k);
        i.senses.box_t_k = self.plant.at(now, |s| s.cabin.t_k);
        i.senses.coolant_t_k = self.plant.at(now, |s| s.bay.engine_t_k);
        i.seized = self.effects.plant.seized || self.plant.at(now, |s| s.shell.wear) >= 1.0;
        i.senses.evaporator_out_t_k = self.plant.look(l.evaporator.end - 1, now).t_k;
        i.senses.battery_t_k = self.plant.coolant_t_k(now).unwrap_or(i.senses.ambient_t_k);
        i.standing_pa = (i.senses.discharge_gauge_pa - i.senses.suction_gauge_pa).max(0.0);
        // In quarters, so that a steady loop stays steady.
        let load_nm = if rpm > 1.0 { shaft_w / (rpm * core::f64::consts::PI / 30.0) } else { 0.0 };
        i.load_nm = libm::round(load_nm * 4.0) / 4.0;
        i.coil_t_k = self.coil_t_k;
        if self.circuit_inputs.faults != self.effects.circuit {
            self.circuit_inputs.faults.clone_from(&self.effects.circuit);
        }
        self.hang_tools();
        self.circuit.update(&self.circuit_inputs, TICK_S);
        self.watch_fuses();
        let drives = self.circuit.drives();
        let (tau_s, bay_k, k_per_w) = COIL;
        let c = &self.controls;
        let warm = if c.engine_on { bay_k } else { 0.0 };
        let slip_w = if c.engine_on && drives.clutch_engaged && drives.clutch_grip < 1.0 {
            self.circuit_inputs.load_nm.max(20.0)
                * (1.0 - drives.clutch_grip)
                * c.engine_rpm
                * 0.1
                * SLIP_TO_COIL
        } else {
            0.0
        };
        let goal = c.ambient_c + ZERO_C_K + warm + k_per_w * (drives.clutch_coil_w + slip_w);
        self.coil_t_k += TICK_S / tau_s * (goal - self.coil_t_k);
        self.drives = drives;
    }
}

/// The jumper lead across contact 30 to 87 of a relay.
pub(super) fn lead(relay: Relay) -> Load {
    let (a, b) = match relay {
        Relay::Clutch => ("clutch_relay_30", "clutch_relay_87"),
        Relay::Fan => ("fan_relay_30", "fan_relay_87"),
    };
    Load { a: a.into(), b: b.into(), ohm: JUMPER.0, fuse_a: JUMPER.1 }
}
