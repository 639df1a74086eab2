//! One implicit step of the network: backward Euler in conserved form, Newton with exact slopes.

use super::air_side::CoilAir;
use super::compressor::{self, Pumping};
use super::dual::{D2, D4};
use super::heat::{AirSide, film_share, wall_heat};
use super::layout::{Layout, PlantSpec};
use super::linear;
use super::link;
use super::volume::{self, Node};
use super::{Inputs, State};
use crate::refrigerant::Refrigerant;

/// Newton stops when no unknown moves more than this: ln p, and h [J/kg].
const CLOSE_LN_P: f64 = 1e-7;
const CLOSE_H: f64 = 0.02;
const MAX_ITERATIONS: usize = 14;
/// Largest move of an unknown in one iteration.
const MOVE_LN_P: f64 = 0.35;
const MOVE_H: f64 = 4e4;

/// A flow between two volumes at the end of a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flow {
    /// From this volume.
    pub from: usize,
    /// To that volume.
    pub to: usize,
    /// Mass flow [kg/s].
    pub mass_kg_s: f64,
    /// Enthalpy flow out of `from` [W].
    pub out_w: f64,
    /// Enthalpy flow into `to`; larger than `out_w` by shaft work [W].
    pub in_w: f64,
}

/// What a converged step found.
#[derive(Clone, Debug, Default)]
pub struct Outcome {
    /// ln p of each volume.
    pub u: Vec<f64>,
    /// h of each volume [J/kg].
    pub h: Vec<f64>,
    /// Wall temperatures [K].
    pub wall_k: Vec<f64>,
    /// Heat into the refrigerant from each wall [W].
    pub heat_w: Vec<f64>,
    /// All flows; the compressor first, its reed leak second, the expansion valve third.
    pub flows: Vec<Flow>,
    /// Nodes as evaluated at the end.
    pub nodes: Vec<Node>,
    /// Relief flow [kg/s] and charge service flow [kg/s] with their enthalpy flows [W].
    pub relief: (f64, f64),
    /// Refrigerant put in (positive) or taken out on purpose, at the receiver.
    pub service: (f64, f64),
    /// Valve lift, bulb temperature and bulb pressure.
    pub lift: f64,
    /// Bulb temperature [K].
    pub bulb_t_k: f64,
    /// Bulb pressure [Pa].
    pub bulb_pa: f64,
    /// Newton iterations used.
    pub iterations: usize,
}

/// Fixed data and scratch space of the stepper.
pub struct System<'a> {
    /// Properties.
    pub refrigerant: &'static Refrigerant,
    /// Rig numbers.
    pub spec: &'a PlantSpec,
    /// Indices.
    pub layout: &'a Layout,
}

/// Matrix and right-hand side, reused between steps.
#[derive(Clone, Debug, Default)]
pub struct Scratch {
    matrix: Vec<f64>,
    rhs: Vec<f64>,
}

/// Column scale of h in the matrix.
const H_SCALE: f64 = 1e5;

impl Scratch {
    fn reset(&mut self, n: usize) {
        self.matrix.clear();
        self.matrix.resize(4 * n * n, 0.0);
        self.rhs.clear();
        self.rhs.resize(2 * n, 0.0);
    }
    /// Add to the residual of row `row` of size `n2` a dual of volume `i`.
    fn add2(&mut self, n2: usize, row: usize, i: usize, x: D2) {
        self.rhs[row] += x.v;
        self.matrix[row * n2 + 2 * i] += x.d[0];
        self.matrix[row * n2 + 2 * i + 1] += x.d[1] * H_SCALE;
    }
    fn add4(&mut self, n2: usize, row: usize, (i, j): (usize, usize), x: D4, sign: f64) {
        self.rhs[row] += sign * x.v;
        self.matrix[row * n2 + 2 * i] += sign * x.d[0];
        self.matrix[row * n2 + 2 * i + 1] += sign * x.d[1] * H_SCALE;
        self.matrix[row * n2 + 2 * j] += sign * x.d[2];
        self.matrix[row * n2 + 2 * j + 1] += sign * x.d[3] * H_SCALE;
    }
    /// Slopes of row `row` by a third volume.
    fn slope(&mut self, n2: usize, row: usize, i: usize, d: [f64; 2]) {
        self.matrix[row * n2 + 2 * i] += d[0];
        self.matrix[row * n2 + 2 * i + 1] += d[1] * H_SCALE;
    }
    /// A flow of mass and enthalpy from i to j.
    fn flow(&mut self, n2: usize, (i, j): (usize, usize), m: D4, out_w: D4, in_w: D4) {
        self.add4(n2, 2 * i, (i, j), m, 1.0);
        self.add4(n2, 2 * j, (i, j), m, -1.0);
        self.add4(n2, 2 * i + 1, (i, j), out_w, 1.0);
        self.add4(n2, 2 * j + 1, (i, j), in_w, -1.0);
    }
}

impl System<'_> {
    fn nodes(&self, state: &State, u: &[f64], h: &[f64], nodes: &mut Vec<Node>) {
        nodes.clear();
        let l = self.layout;
        for i in 0..l.len() {
            nodes.push(volume::evaluate(
                self.refrigerant,
                l.kinds[i],
                l.volumes_m3[i],
                state.air_kg[i],
                u[i],
                h[i],
            ));
        }
    }

    /// Air side of every wall over this step.
    fn air_sides(&self, state: &State, inputs: &Inputs, coil: &CoilAir) -> Vec<AirSide> {
        let (l, s) = (self.layout, self.spec);
        let (flow, ua) = s.condenser_air.flow(inputs.fan_share, inputs.road_kmh, inputs.fins_blocked);
        let capacity = flow * super::air_side::AIR_CP;
        let face = capacity * (1.0 - libm::exp(-ua / capacity));
        let outside =
            |conductance_w_k: f64| AirSide { conductance_w_k, t_k: inputs.ambient_t_k, ..AirSide::default() };
        let mut sides = vec![AirSide::default(); l.len()];
        for i in l.condenser.clone() {
            sides[i] = outside(face * (1.0 - s.subcooler_face) / l.condenser.len() as f64);
        }
        for i in l.subcooler.clone() {
            sides[i] = outside(face * s.subcooler_face / l.subcooler.len() as f64);
        }
        for i in l.evaporator.clone() {
            sides[i] = coil.cell(1.0 / l.evaporator.len() as f64, state.wall_k[i]);
        }
        for (i, pipe) in [
            (l.suction, &s.suction_line),
            (l.discharge, &s.discharge_line),
            (l.receiver, &s.receiver),
            (l.liquid, &s.liquid_line),
            (l.low_hose, &s.hose),
            (l.high_hose, &s.hose),
            (l.centre, &s.hose),
        ] {
            sides[i] = outside(pipe.outside_w_k);
        }
        sides
    }

    /// One step of `dt_s` from `state`, starting Newton at `guess`. None when it does not converge.
    pub fn step(
        &self,
        state: &State,
        inputs: &Inputs,
        coil: &CoilAir,
        dt_s: f64,
        guess: (&[f64], &[f64]),
        scratch: &mut Scratch,
    ) -> Option<Outcome> {
        let l = self.layout;
        let n = l.len();
        let n2 = 2 * n;
        let sides = self.air_sides(state, inputs, coil);
        let mut out = Outcome { u: guess.0.to_vec(), h: guess.1.to_vec(), ..Outcome::default() };
        let mut films = Vec::with_capacity(n);
        for i in 0..n {
            films.push(film_share(state.through_kg_s[i], self.spec.design_flow_kg_s));
        }
        loop {
            if out.iterations >= MAX_ITERATIONS {
                return None;
            }
            self.assemble(state, inputs, &sides, &films, dt_s, &mut out, scratch);
            // Scale rows to relative errors, then solve for the move.
            for i in 0..n {
                let inertia = l.volumes_m3[i] * (out.nodes[i].mass.v / l.volumes_m3[i] + 5.0) / dt_s;
                for (row, scale) in [(2 * i, 1.0 / inertia), (2 * i + 1, 1.0 / (inertia * 2e5))] {
                    scratch.rhs[row] *= -scale;
                    for x in &mut scratch.matrix[row * n2..(row + 1) * n2] {
                        *x *= scale;
                    }
                }
            }
            if !linear::solve(&mut scratch.matrix, &mut scratch.rhs, n2) {
                return None;
            }
            let mut close = true;
            for i in 0..n {
                let (du, dh) = (scratch.rhs[2 * i], scratch.rhs[2 * i + 1] * H_SCALE);
                if !(du.is_finite() && dh.is_finite()) {
                    return None;
                }
                close &= du.abs() < CLOSE_LN_P && dh.abs() < CLOSE_H;
                out.u[i] += du.clamp(-MOVE_LN_P, MOVE_LN_P);
                out.h[i] += dh.clamp(-MOVE_H, MOVE_H);
            }
            out.iterations += 1;
            if close {
                // Evaluate once more, so that all flows belong to the accepted unknowns.
                self.assemble(state, inputs, &sides, &films, dt_s, &mut out, scratch);
                return Some(out);
            }
        }
    }

    /// Fill residual and matrix, flows and heats at the current unknowns.
    fn assemble(
        &self,
        state: &State,
        inputs: &Inputs,
        sides: &[AirSide],
        films: &[f64],
        dt_s: f64,
        out: &mut Outcome,
        scratch: &mut Scratch,
    ) {
        let (l, spec) = (self.layout, self.spec);
        let n = l.len();
        let n2 = 2 * n;
        let mut nodes = std::mem::take(&mut out.nodes);
        self.nodes(state, &out.u, &out.h, &mut nodes);
        scratch.reset(n);
        out.flows.clear();
        out.wall_k.clear();
        out.heat_w.clear();
        for i in 0..n {
            let node = &nodes[i];
            let wall = wall_heat(&l.walls[i], films[i], node, state.wall_k[i], &sides[i], dt_s);
            out.wall_k.push(wall.wall_t_k);
            out.heat_w.push(wall.into_refrigerant_w.v);
            scratch.add2(n2, 2 * i, i, (node.mass - state.mass_kg[i]) * (1.0 / dt_s));
            scratch.add2(
                n2,
                2 * i + 1,
                i,
                (node.energy - state.energy_j[i]) * (1.0 / dt_s) - wall.into_refrigerant_w,
            );
        }
        let mut push = |scratch: &mut Scratch, i: usize, j: usize, m: D4, out_w: D4, in_w: D4| {
            scratch.flow(n2, (i, j), m, out_w, in_w);
            out.flows.push(Flow { from: i, to: j, mass_kg_s: m.v, out_w: out_w.v, in_w: in_w.v });
        };

        let (s, d) = (l.suction, l.discharge);
        let pumping: Pumping =
            compressor::pump(self.refrigerant, &spec.compressor, inputs.compressor_rpm, &nodes[s], &nodes[d]);
        push(scratch, s, d, pumping.mass_kg_s, pumping.suction_w, pumping.discharge_w);
        let leak = spec.compressor.reed_leak_m2 + spec.compressor.full_leak_m2 * inputs.reed_leak;
        let m = link::orifice(&nodes[d], &nodes[s], D4::constant(leak));
        let w = link::carried(&nodes[d], &nodes[s], m);
        push(scratch, d, s, m, w, w);

        // Expansion valve: two ends and, through bulb and diaphragm, the evaporator outlet.
        let (a, b, end) = (l.liquid, l.evaporator.start, l.evaporator.end - 1);
        let bulb_t = spec.valve.bulb_t(state.bulb_t_k, &nodes[end], dt_s);
        let bulb_pa = spec.valve.bulb_pa(self.refrigerant, bulb_t);
        let lift = match inputs.valve_held {
            Some(held) => D2::constant(held),
            None => spec.valve.lift(bulb_pa, &nodes[end]),
        };
        (out.bulb_t_k, out.bulb_pa, out.lift) = (bulb_t.v, bulb_pa.v, lift.v);
        let k = spec.valve.orifice_m2(lift.v);
        let m = link::orifice(&nodes[a], &nodes[b], D4::constant(k));
        let w = link::carried(&nodes[a], &nodes[b], m);
        push(scratch, a, b, m, w, w);
        let per_lift = (spec.valve.orifice_m2(1.0) - spec.valve.orifice_m2(0.0)) / k;
        for (row, flow, sign) in
            [(2 * a, m.v, 1.0), (2 * b, m.v, -1.0), (2 * a + 1, w.v, 1.0), (2 * b + 1, w.v, -1.0)]
        {
            scratch.slope(
                n2,
                row,
                end,
                [sign * flow * per_lift * lift.d[0], sign * flow * per_lift * lift.d[1]],
            );
        }

        for &(i, j, k) in &l.pipes {
            let m = link::orifice(&nodes[i], &nodes[j], D4::constant(k));
            let w = link::carried(&nodes[i], &nodes[j], m);
            push(scratch, i, j, m, w, w);
        }
        let port = if inputs.hoses_fitted { spec.port_flow_m2 } else { 0.0 };
        for (i, j, k) in [
            (s, l.low_hose, port),
            (l.liquid, l.high_hose, port),
            (l.low_hose, l.centre, spec.hand_valve_flow_m2 * inputs.manifold_low),
            (l.high_hose, l.centre, spec.hand_valve_flow_m2 * inputs.manifold_high),
        ] {
            if k > 0.0 {
                let m = link::orifice(&nodes[i], &nodes[j], D4::constant(k));
                let w = link::carried(&nodes[i], &nodes[j], m);
                push(scratch, i, j, m, w, w);
            }
        }

        // Relief valve at the discharge line.
        let over = (nodes[d].p - spec.relief_pa).soft_positive(1e3);
        let relief =
            if nodes[d].p.v > spec.relief_pa - 2e5 { over * spec.relief_kg_s_pa } else { D2::constant(0.0) };
        let relief_w = relief * nodes[d].h_out;
        scratch.add2(n2, 2 * d, d, relief);
        scratch.add2(n2, 2 * d + 1, d, relief_w);
        out.relief = (relief.v, relief_w.v);

        // Charge put in as liquid at outside temperature, or taken out as the receiver gives it.
        let r = l.receiver;
        let (m, w) = if inputs.charge_kg_s > 0.0 {
            (D2::constant(inputs.charge_kg_s), D2::constant(inputs.charge_kg_s * inputs.charge_h_j_kg))
        } else {
            let fade = nodes[r].mass / (nodes[r].mass + 1e-3);
            let m = fade * inputs.charge_kg_s;
            (m, m * nodes[r].h_out)
        };
        scratch.add2(n2, 2 * r, r, -m);
        scratch.add2(n2, 2 * r + 1, r, -w);
        out.service = (m.v, w.v);
        out.nodes = nodes;
    }
}
