//! The plant: a conserved network of volumes that holds refrigerant, air and heat, stepped implicitly.
//!
//! Steps adapt to the loop, not to the ticks: a long step may reach beyond the present tick, and what is
//! seen in between is interpolated. When an input changes inside it, the step is taken again, shorter, up
//! to that tick. So the step sequence depends on the record alone and quiet stretches cost almost nothing.

mod air_side;
mod compressor;
mod dual;
mod heat;
mod layout;
mod linear;
mod link;
mod metering;
mod scratch;
#[cfg(test)]
mod slopes_tests;
mod start;
mod system;
mod volume;

pub use air_side::Cabin;
pub use layout::{Layout, PlantSpec};
pub use system::Flow;
pub use volume::Node;

use serde::{Deserialize, Serialize};

use crate::refrigerant::Refrigerant;
use air_side::VentAir;
use scratch::Scratch;
use system::{Outcome, System};

/// Everything the outside does to the plant; constant over a solver step.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Inputs {
    /// Compressor speed, 0 with the clutch out [rev/min].
    pub compressor_rpm: f64,
    /// Condenser fan speed, share of full.
    pub fan_share: f64,
    /// Road speed [km/h].
    pub road_kmh: f64,
    /// Blower [%].
    pub blower_pct: f64,
    /// Recirculation flap shut to outside air.
    pub recirculate: bool,
    /// Outside air [K].
    pub ambient_t_k: f64,
    /// Outside humidity ratio.
    pub ambient_w: f64,
    /// Service hoses fitted.
    pub hoses_fitted: bool,
    /// Hand valve, low side, 0 to 1.
    pub manifold_low: f64,
    /// Hand valve, high side, 0 to 1.
    pub manifold_high: f64,
    /// Share of the condenser face blocked.
    pub fins_blocked: f64,
    /// Expansion valve held at this lift.
    pub valve_held: Option<f64>,
    /// Share of the design flow that leaks back through the reed valves.
    pub reed_leak: f64,
    /// Refrigerant put in at the receiver (negative: taken out) [kg/s].
    pub charge_kg_s: f64,
    /// Enthalpy of refrigerant put in [J/kg].
    pub charge_h_j_kg: f64,
    /// Air let in at the suction line (negative: taken out everywhere) [kg/s].
    pub air_kg_s: f64,
}

/// Committed state of the plant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct State {
    /// Time [s].
    pub time_s: f64,
    /// ln p of each volume's refrigerant.
    pub u: Vec<f64>,
    /// Enthalpy of each volume's flow [J/kg].
    pub h: Vec<f64>,
    /// Refrigerant held [kg]: the conserved truth, of which u and h are the image.
    pub mass_kg: Vec<f64>,
    /// Internal energy held [J].
    pub energy_j: Vec<f64>,
    /// Air held [kg].
    pub air_kg: Vec<f64>,
    /// Wall temperatures [K].
    pub wall_k: Vec<f64>,
    /// Flow through each volume, for the films [kg/s].
    pub through_kg_s: Vec<f64>,
    /// Bulb temperature [K].
    pub bulb_t_k: f64,
    /// Fin sensor [K].
    pub fin_t_k: f64,
    /// Cabin.
    pub cabin: Cabin,
    /// Refrigerant let out so far [kg].
    pub released_kg: f64,
    /// Refrigerant put in (or, negative, taken out) on purpose so far [kg].
    pub serviced_kg: f64,
}

/// Solver counters.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SolverCounts {
    /// Steps accepted.
    pub steps: u64,
    /// Newton iterations.
    pub iterations: u64,
    /// Steps refused for error or for lack of convergence.
    pub rejected: u64,
    /// Steps taken again because an input changed inside them.
    pub cut: u64,
}

const DT_FIRST_S: f64 = 0.02;
const DT_MIN_S: f64 = 1e-5;
const DT_MAX_S: f64 = 2.0;
/// Accepted error of a step: ln p, h [J/kg].
const ERROR_LN_P: f64 = 2e-3;
const ERROR_H: f64 = 600.0;
/// Accepted move of air in a step, as a share of the pressure it makes.
const ERROR_AIR: f64 = 0.05;

/// The plant of one bench.
#[derive(Clone, Debug)]
pub struct Plant {
    spec: PlantSpec,
    layout: Layout,
    refrigerant: &'static Refrigerant,
    /// State at the start of the present step.
    before: State,
    /// State at its end, possibly beyond the present tick.
    after: State,
    outcome: Outcome,
    vent: VentAir,
    condensate_kg_s: f64,
    inputs: Inputs,
    /// Rates of (u, h) over the last step, for the predictor.
    rates: Option<(Vec<f64>, Vec<f64>)>,
    next_dt_s: f64,
    counts: SolverCounts,
    troubles: Vec<String>,
    scratch: Scratch,
}

impl Plant {
    /// The rig soaked and at rest: everything at outside temperature, pressures equal, with `charge_kg`
    /// of refrigerant and `air_kg` of air.
    pub fn soaked(
        spec: &PlantSpec,
        refrigerant: &'static Refrigerant,
        inputs: Inputs,
        charge_kg: f64,
        air_kg: f64,
    ) -> Self {
        let layout = Layout::new(spec);
        let state = start::soaked(&layout, refrigerant, &inputs, charge_kg, air_kg);
        let mut plant = Self {
            spec: spec.clone(),
            layout,
            refrigerant,
            before: state.clone(),
            after: state,
            outcome: Outcome::default(),
            vent: VentAir { t_k: inputs.ambient_t_k, w: inputs.ambient_w },
            condensate_kg_s: 0.0,
            inputs,
            rates: None,
            next_dt_s: DT_FIRST_S,
            counts: SolverCounts::default(),
            troubles: Vec::new(),
            scratch: Scratch::default(),
        };
        // A first look, so that readings exist at time zero: a step of no length that changes nothing.
        let mut still = plant.clone();
        still.attempt(DT_MIN_S);
        plant.outcome = still.outcome;
        plant
    }

    /// Rig numbers.
    pub fn spec(&self) -> &PlantSpec {
        &self.spec
    }
    /// Inputs in force.
    pub fn inputs(&self) -> &Inputs {
        &self.inputs
    }
    /// Solver counters.
    pub fn counts(&self) -> SolverCounts {
        self.counts
    }
    /// What went wrong so far; empty in a good run.
    pub fn troubles(&self) -> &[String] {
        &self.troubles
    }
    /// States at both ends of the present step, for the state hash.
    pub fn committed(&self) -> (&State, &State) {
        (&self.before, &self.after)
    }

    /// Index map.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }
    /// Properties.
    pub fn refrigerant(&self) -> &'static Refrigerant {
        self.refrigerant
    }
    /// Flows of the present step; the compressor first, its reed leak second, the expansion valve third.
    pub fn flows(&self) -> &[Flow] {
        &self.outcome.flows
    }
    /// Heat into the refrigerant from each wall over the present step [W].
    pub fn heats_w(&self) -> &[f64] {
        &self.outcome.heat_w
    }
    /// Expansion valve: lift, bulb temperature [K], bulb pressure [Pa].
    pub fn valve(&self) -> (f64, f64, f64) {
        (self.outcome.lift, self.outcome.bulb_t_k, self.outcome.bulb_pa)
    }
    /// Vent air temperature [K] and water condensing on the coil [kg/s].
    pub fn vent(&self) -> (f64, f64) {
        (self.vent.t_k, self.condensate_kg_s)
    }
    /// Condenser air: flow [kg/s] and temperature off the face [K].
    pub fn condenser_air(&self) -> (f64, f64) {
        let i = &self.inputs;
        let (flow, _) = self.spec.condenser_air.flow(i.fan_share, i.road_kmh, i.fins_blocked);
        let cells = self.layout.condenser.clone().chain(self.layout.subcooler.clone());
        let heat: f64 = -cells.map(|c| self.outcome.heat_w[c]).sum::<f64>();
        (flow, i.ambient_t_k + heat / (flow * air_side::AIR_CP))
    }
    /// How far into the present step `time_s` lies, 0 to 1.
    fn share(&self, time_s: f64) -> f64 {
        let span = self.after.time_s - self.before.time_s;
        if span > 0.0 { ((time_s - self.before.time_s) / span).clamp(0.0, 1.0) } else { 1.0 }
    }
    /// Volume `i` at a time within the present step.
    pub fn node(&self, i: usize, time_s: f64) -> Node {
        let (a, b, f) = (&self.before, &self.after, self.share(time_s));
        let mix = |x: &[f64], y: &[f64]| x[i] + f * (y[i] - x[i]);
        let air = mix(&a.air_kg, &b.air_kg);
        let l = &self.layout;
        volume::evaluate(self.refrigerant, l.kinds[i], l.volumes_m3[i], air, mix(&a.u, &b.u), mix(&a.h, &b.h))
    }
    /// A small channel volume at a pressure and enthalpy, free of air: the state just after the valve.
    pub fn at_pressure(&self, p_pa: f64, h_j_kg: f64) -> Node {
        volume::evaluate(self.refrigerant, volume::Kind::Channel, 1e-6, 0.0, libm::log(p_pa), h_j_kg)
    }
    /// Something of the state at a time within the present step.
    pub fn at(&self, time_s: f64, pick: impl Fn(&State) -> f64) -> f64 {
        let (x, y) = (pick(&self.before), pick(&self.after));
        x + self.share(time_s) * (y - x)
    }

    /// Change the inputs at `time_s`: a step that reaches beyond is taken again up to there.
    pub fn set_inputs(&mut self, time_s: f64, inputs: Inputs) {
        if inputs == self.inputs {
            return;
        }
        if self.after.time_s > time_s + 1e-9 {
            self.counts.cut += 1;
            let span = time_s - self.before.time_s;
            self.after = self.before.clone();
            if span > 1e-9 {
                self.run_to(time_s, span);
            }
        }
        self.inputs = inputs;
        self.rates = None;
        self.next_dt_s = DT_FIRST_S;
    }

    /// Let time reach `time_s`; the solver may run ahead of it.
    pub fn advance_to(&mut self, time_s: f64) {
        while self.after.time_s < time_s - 1e-9 {
            self.take_step(self.next_dt_s);
        }
    }

    /// Steps that end exactly at `time_s`.
    fn run_to(&mut self, time_s: f64, first_s: f64) {
        self.next_dt_s = first_s;
        loop {
            let left = time_s - self.after.time_s;
            if left <= 1e-9 {
                break;
            }
            self.take_step(self.next_dt_s.min(left));
        }
        self.after.time_s = time_s;
    }

    /// One accepted step of at most `dt_s`.
    fn take_step(&mut self, dt_s: f64) {
        let mut dt = dt_s;
        loop {
            match self.attempt(dt) {
                Some(grow) => {
                    self.next_dt_s = (dt * grow).clamp(DT_MIN_S, DT_MAX_S);
                    self.counts.steps += 1;
                    return;
                }
                None if dt > DT_MIN_S => {
                    self.counts.rejected += 1;
                    self.rates = None;
                    dt *= 0.3;
                }
                None => {
                    // Hold the state over a short stretch rather than stop; say so loudly.
                    if self.troubles.len() < 20 {
                        let t = self.after.time_s;
                        self.troubles.push(format!("step of {dt:.1e} s at {t:.3} s did not solve"));
                    }
                    self.before = self.after.clone();
                    self.after.time_s += DT_FIRST_S;
                    self.next_dt_s = DT_MIN_S * 10.0;
                    return;
                }
            }
        }
    }

    /// Try one step from `after`; on success it is committed and the growth factor for the next returned.
    fn attempt(&mut self, dt: f64) -> Option<f64> {
        let from = &self.after;
        let n = self.layout.len();
        let (mut u, mut h) = (from.u.clone(), from.h.clone());
        if let Some((ru, rh)) = &self.rates {
            for i in 0..n {
                u[i] += (ru[i] * dt).clamp(-0.2, 0.2);
                h[i] += (rh[i] * dt).clamp(-2e4, 2e4);
            }
        }
        let coil = self.spec.cabin.coil_air(
            &from.cabin,
            self.inputs.blower_pct,
            self.inputs.recirculate,
            (self.inputs.ambient_t_k, self.inputs.ambient_w),
        );
        let system = System { refrigerant: self.refrigerant, spec: &self.spec, layout: &self.layout };
        let out = system.step(from, &self.inputs, &coil, dt, (&u, &h), &mut self.scratch)?;

        // Error of backward Euler against the linear predictor.
        let mut error: f64 = 0.0;
        for i in 0..n {
            let (eu, eh) = if self.rates.is_some() {
                ((out.u[i] - u[i]).abs() / ERROR_LN_P, (out.h[i] - h[i]).abs() / ERROR_H)
            } else {
                (
                    (out.u[i] - from.u[i]).abs() / (20.0 * ERROR_LN_P),
                    (out.h[i] - from.h[i]).abs() / (20.0 * ERROR_H),
                )
            };
            // Nearly empty volumes may swing; nobody can see them.
            let weight = (out.nodes[i].mass.v / (self.layout.volumes_m3[i] * 0.5)).min(1.0);
            error = error.max(0.5 * eu * weight).max(0.5 * eh * weight);
        }
        // Air may not move far in one step.
        let air_kg: Vec<f64> =
            from.air_kg.iter().zip(&out.air_rate_kg_s).map(|(a, rate)| a + dt * rate).collect();
        for i in 0..n {
            let moved = (air_kg[i] - from.air_kg[i]).abs();
            let room = self.layout.volumes_m3[i] * out.nodes[i].void.max(0.15);
            let pressure = moved * volume::R_AIR * out.nodes[i].t.v / room;
            error = error.max(pressure / (ERROR_AIR * out.nodes[i].p.v));
        }
        // Air may not move far in one step either.
        let air_kg: Vec<f64> =
            from.air_kg.iter().zip(&out.air_rate_kg_s).map(|(a, rate)| a + dt * rate).collect();
        for i in 0..n {
            let pressure = (air_kg[i] - from.air_kg[i]).abs() * out.nodes[i].p_per_air;
            error = error.max(pressure / (ERROR_AIR * out.nodes[i].p.v));
        }
        if !(error < 4.0) && dt > 1e-3 {
            return None;
        }
        let grow = (0.9 / error.max(1e-6).sqrt()).clamp(0.3, 2.0);

        let mut next = from.clone();
        next.time_s += dt;
        for flow in &out.flows {
            next.mass_kg[flow.from] -= dt * flow.mass_kg_s;
            next.mass_kg[flow.to] += dt * flow.mass_kg_s;
            next.energy_j[flow.from] -= dt * flow.out_w;
            next.energy_j[flow.to] += dt * flow.in_w;
        }
        let (d, r) = (self.layout.discharge, self.layout.receiver);
        next.mass_kg[d] -= dt * out.relief.0;
        next.energy_j[d] -= dt * out.relief.1;
        next.mass_kg[r] += dt * out.service.0;
        next.energy_j[r] += dt * out.service.1;
        next.released_kg += dt * (out.relief.0 - out.service.0.min(0.0));
        next.serviced_kg += dt * out.service.0;
        for i in 0..n {
            next.energy_j[i] += dt * out.heat_w[i];
            next.through_kg_s[i] = 0.0;
        }
        for flow in &out.flows {
            // Through-flow of a volume: half of what enters and leaves.
            next.through_kg_s[flow.from] += 0.5 * flow.mass_kg_s.abs();
            next.through_kg_s[flow.to] += 0.5 * flow.mass_kg_s.abs();
        }
        next.u.clone_from(&out.u);
        next.h.clone_from(&out.h);
        next.wall_k.clone_from(&out.wall_k);
        next.air_kg = air_kg;
        next.bulb_t_k = out.bulb_t_k;
        let lag = dt / (self.spec.fin_sensor_lag_s + dt);
        let fin = out.wall_k[self.layout.evaporator.start + self.spec.fin_sensor_cell];
        next.fin_t_k += lag * (fin - next.fin_t_k);

        let (mut sensible, mut latent) = (0.0, 0.0);
        let cells = self.layout.evaporator.clone();
        let share = 1.0 / cells.len() as f64;
        for i in cells {
            let side = coil.cell(share, from.wall_k[i]);
            sensible += side.conductance_w_k * (side.t_k - out.wall_k[i]);
            latent += (side.latent_w - side.latent_slope_w_k * (out.wall_k[i] - from.wall_k[i])).max(0.0);
        }
        self.condensate_kg_s = latent / 2.49e6;
        self.vent = VentAir {
            t_k: coil.t_k - sensible / (coil.flow_kg_s * air_side::AIR_CP),
            w: (coil.w - self.condensate_kg_s / coil.flow_kg_s).max(0.0),
        };
        let outside = (self.inputs.ambient_t_k, self.inputs.ambient_w);
        next.cabin.step(&self.spec.cabin, &coil, self.vent, outside, dt);

        self.rates = Some((
            out.u.iter().zip(&from.u).map(|(a, b)| (a - b) / dt).collect(),
            out.h.iter().zip(&from.h).map(|(a, b)| (a - b) / dt).collect(),
        ));
        self.counts.iterations += out.iterations as u64;
        self.outcome = out;
        self.before = std::mem::replace(&mut self.after, next);
        Some(grow)
    }
}
