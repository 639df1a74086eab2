//! One implicit step of the network: backward Euler in conserved form, Newton with exact slopes.

use super::boundary::{self, CentreHose, Exchange, Leaving, Outside};
use super::coil::CoilAir;
use super::compressor;
use super::dual::{D2, D3};
use super::heat::{AirSide, wall_heat};
use super::layout::{Layout, PlantSpec};
use super::link;
use super::scratch::{Move, Scratch};
use super::surroundings::air_sides;
use super::volume::{self, Node};
use super::wall_films::WallFilms;
use super::water::AIR_PER_STEAM;
use super::{Inputs, State};
use crate::refrigerant::Refrigerant;

/// Newton stops when no unknown moved more than this: ln p, h [J/kg], air [kg]. What is left after such a move is
/// of second order, and the conserved totals move by the flows evaluated after it, so nothing adds up.
const CLOSE_LN_P: f64 = 2e-5;
const CLOSE_H: f64 = 4.0;
const CLOSE_AIR: f64 = 2e-9;
const MAX_ITERATIONS: usize = 24;
/// Moves below this (ln p, h in 1e5 J/kg, air in grams) may remain after the last iteration.
const HAIR: f64 = 5e-4;
/// Largest move of an unknown in one iteration.
const MOVE_LN_P: f64 = 0.35;
const MOVE_H: f64 = 4e4;
/// Pressure at which the couplers of a service hose let go [Pa absolute] (hoses are rated to some 40 bar and burst above
/// 200; own estimate between).
const COUPLERS_GIVE_PA: f64 = 5.5e6;
/// Largest move of ln p of a volume that fills from a vacuum.
const MOST_LN_P: f64 = 200.0;

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
    /// Air carried along [kg/s].
    pub air_kg_s: f64,
    /// Enthalpy flow into `to`; larger than `out_w` by shaft work [W].
    pub in_w: f64,
}

/// A Newton move as a volume can follow it. In vapour, mass and energy are all but linear in pressure, not in its
/// logarithm: a volume filling from a vacuum takes the linear move in p (and the enthalpy move that goes with the
/// larger mass), however many orders of magnitude that is. Elsewhere moves are held to a modest size.
fn fitting(step: Move, node: &Node) -> Move {
    let vapour = node.quality.v >= 1.0;
    let (u, h) = if vapour && step.u > 0.1 {
        (libm::log(1.0 + step.u).min(MOST_LN_P), step.h / (1.0 + step.u))
    } else if vapour && step.u < -0.1 {
        (-libm::log(1.0 - step.u).min(MOST_LN_P), step.h)
    } else {
        (step.u.clamp(-MOVE_LN_P, MOVE_LN_P), step.h)
    };
    Move { u, h: h.clamp(-MOVE_H, MOVE_H), air: step.air }
}

/// What a converged step found.
#[derive(Clone, Debug, Default)]
pub struct Outcome {
    /// ln p of each volume.
    pub u: Vec<f64>,
    /// h of each volume [J/kg].
    pub h: Vec<f64>,
    /// Air of each volume [kg].
    pub air_kg: Vec<f64>,
    /// Share of a volume's air that a kilogram of flow carries out [1/kg].
    pub air_share: Vec<f64>,
    /// Air that leaves each volume per kilogram of refrigerant.
    pub load: Vec<D3>,
    /// Air that leaves the loop [kg/s].
    pub air_lost_kg_s: f64,
    /// Rates of change of each volume's air [kg/s]; they sum to what comes from outside.
    pub air_rate_kg_s: Vec<f64>,
    /// Wall temperatures [K].
    pub wall_k: Vec<f64>,
    /// Heat into the refrigerant from each wall [W].
    pub heat_w: Vec<f64>,
    /// All flows; the compressor first, its reed leak second, the expansion valve third.
    pub flows: Vec<Flow>,
    /// Nodes as evaluated at the end.
    pub nodes: Vec<Node>,
    /// Refrigerant that leaves the loop, negative where it comes in.
    pub leaving: Vec<Leaving>,
    /// Steam that boils off each volume's water [kg/s]; empty where nothing boils.
    pub steam_kg_s: Vec<f64>,
    /// Heat the compressed gas gave to the body of the compressor [W].
    pub shell_w: f64,
    /// Saturation pressure at the temperature of the compressor's body [Pa].
    pub shell_saturation_pa: f64,
    /// Valve lift, bulb temperature and bulb pressure.
    pub lift: f64,
    /// Bulb temperature [K].
    pub bulb_t_k: f64,
    /// Bulb pressure [Pa].
    pub bulb_pa: f64,
    /// Newton iterations used.
    pub iterations: usize,
}

/// Where Newton starts: the trend of the last step carried on.
#[derive(Clone, Debug, Default)]
pub struct Guess {
    /// ln p.
    pub u: Vec<f64>,
    /// h [J/kg].
    pub h: Vec<f64>,
    /// Air [kg].
    pub air_kg: Vec<f64>,
}

impl Guess {
    /// Become equal to a state's unknowns, in the memory at hand.
    pub fn copy(&mut self, state: &State) {
        self.u.clone_from(&state.u);
        self.h.clone_from(&state.h);
        self.air_kg.clone_from(&state.air_kg);
    }
}

/// Fixed data and scratch space of the stepper.
pub struct System<'a> {
    /// Properties.
    pub refrigerant: &'static Refrigerant,
    /// Rig numbers.
    pub spec: &'a PlantSpec,
    /// Indices.
    pub layout: &'a Layout,
    /// Share of the usual tolerances, see [`super::Plant::set_accuracy`].
    pub accuracy: f64,
}

impl System<'_> {
    fn nodes(&self, out: &Outcome, nodes: &mut Vec<Node>) {
        nodes.clear();
        let l = self.layout;
        for i in 0..l.len() {
            nodes.push(volume::evaluate(
                self.refrigerant,
                l.kinds[i],
                l.volumes_m3[i],
                out.air_kg[i],
                out.u[i],
                out.h[i],
            ));
        }
    }

    /// Share of each volume's air that a kilogram of flow carries out, at the start of a step [1/kg].
    fn air_shares(&self, state: &State, now: &[Node], shares: &mut Vec<f64>) {
        let l = self.layout;
        shares.clear();
        if now.len() == l.len() {
            shares.extend(now.iter().map(|node| node.air_share.v));
            return;
        }
        shares.extend((0..l.len()).map(|i| {
            let (u, h) = (state.u[i], state.h[i]);
            volume::evaluate(self.refrigerant, l.kinds[i], l.volumes_m3[i], state.air_kg[i], u, h).air_share.v
        }));
    }

    /// One step of `dt_s` from `state` (with its volumes as evaluated `now`, when known) and the films of that state,
    /// starting Newton at `guess`. None when it does not converge. `out` is an old outcome whose memory is used again.
    pub fn step(
        &self,
        (state, now): (&State, &[Node]),
        films: &[WallFilms],
        inputs: &Inputs,
        coil: &CoilAir,
        dt_s: f64,
        guess: &Guess,
        mut out: Outcome,
        scratch: &mut Scratch,
    ) -> Option<Outcome> {
        let l = self.layout;
        let n = l.len();
        let sides = air_sides(self.spec, self.layout, state, inputs, coil, dt_s);
        out.steam_kg_s = state.water.boiling_kg_s(l, now, &state.wall_k, dt_s);
        out.shell_saturation_pa = self.refrigerant.saturation_p_pa(state.shell.t_k.clamp(200.0, 370.0));
        out.u.clone_from(&guess.u);
        out.h.clone_from(&guess.h);
        out.air_kg.clone_from(&guess.air_kg);
        self.air_shares(state, now, &mut out.air_share);
        out.iterations = 0;
        let (mut damp, mut last_size) = (1.0_f64, f64::INFINITY);
        loop {
            if out.iterations >= MAX_ITERATIONS {
                // Hopping by a hair about a stalled flow: good enough, for the conserved totals move by the
                // flows as they stand and the next step starts from those.
                // At the shortest steps more may remain, since a step must end.
                if last_size > if dt_s > 1e-4 { HAIR } else { 20.0 * HAIR } {
                    return None;
                }
                self.assemble(state, inputs, &sides, films, dt_s, &mut out, scratch);
                return Some(out);
            }
            self.assemble(state, inputs, &sides, films, dt_s, &mut out, scratch);
            if !scratch.solve() {
                return None;
            }
            let mut size: f64 = 0.0;
            for i in 0..n {
                let step = fitting(scratch.step_of(i), &out.nodes[i]);
                if !(step.u.is_finite() && step.h.is_finite() && step.air.is_finite()) {
                    return None;
                }
                size = size.max(step.u.abs()).max(step.h.abs() * 1e-5).max(step.air.abs() * 1e3);
            }
            // A square-root flow law sends full Newton moves to and fro about a stalled flow: when they do not
            // shrink as they should, they are shortened.
            damp = if size > (1.0 - 0.5 * damp) * last_size {
                (0.5 * damp).max(0.25)
            } else {
                (1.5 * damp).min(1.0)
            };
            last_size = size;
            let mut close = true;
            for i in 0..n {
                let node = &out.nodes[i];
                let step = fitting(scratch.step_of(i), node);
                close &= step.u.abs() < CLOSE_LN_P * self.accuracy
                    && step.h.abs() < CLOSE_H * self.accuracy
                    && step.air.abs() < CLOSE_AIR * self.accuracy;
                let (by_u, by_h, by_air) = (damp * step.u, damp * step.h, damp * step.air);
                out.h[i] += by_h;
                // Air that is flushed out goes by a factor of ten at most in one move: below zero its flow has a corner.
                let floor = 0.1 * out.air_kg[i];
                out.air_kg[i] = (out.air_kg[i] + by_air).max(floor.max(f64::MIN_POSITIVE));
                if scratch.with_air() && node.quality.v < 1.0 && out.air_kg[i].abs() > 1e-12 {
                    let p = node.p;
                    let change = (p.d[0] * by_u + p.d[1] * by_h + node.p_per_air * by_air) / p.v;
                    let goal = libm::log(p.v) + change.clamp(-1.0, 1.0);
                    out.u[i] = self.partial_ln_p(i, goal, out.u[i] + by_u, out.h[i], out.air_kg[i]);
                } else {
                    out.u[i] += by_u;
                }
            }
            out.iterations += 1;
            if close {
                // Evaluate once more, so that all flows belong to the accepted unknowns.
                self.assemble(state, inputs, &sides, films, dt_s, &mut out, scratch);
                return Some(out);
            }
        }
    }

    /// ln of the refrigerant's partial pressure at which volume `i` has the total pressure `exp(goal)`.
    ///
    /// Flows answer to the total pressure, steeply, and where a cell has all but condensed a little void more or
    /// less changes its air's pressure by more than drives the whole flow. A Newton move is therefore taken in
    /// total pressure, enthalpy and air, and the refrigerant's part is found from them.
    fn partial_ln_p(&self, i: usize, goal: f64, start: f64, h: f64, air_kg: f64) -> f64 {
        let l = self.layout;
        let mut u = start.min(goal + 1.0);
        for _ in 0..12 {
            let node = volume::evaluate(self.refrigerant, l.kinds[i], l.volumes_m3[i], air_kg, u, h);
            let off = (libm::log(node.p.v) - goal) * node.p.v / node.p.d[0];
            u -= off.clamp(-0.5, 0.5);
            if off.abs() < 1e-8 {
                break;
            }
        }
        u
    }

    /// Fill residual and matrix, flows and heats at the current unknowns.
    fn assemble(
        &self,
        state: &State,
        inputs: &Inputs,
        sides: &[AirSide],
        films: &[WallFilms],
        dt_s: f64,
        out: &mut Outcome,
        scratch: &mut Scratch,
    ) {
        self.begin(state, inputs, out, scratch);
        self.walls(state, inputs, sides, films, dt_s, out, scratch);
        self.links(state, inputs, dt_s, out, scratch);
    }

    /// Evaluate the volumes at the current unknowns and clear what is summed up next.
    pub(super) fn begin(&self, state: &State, inputs: &Inputs, out: &mut Outcome, scratch: &mut Scratch) {
        let n = self.layout.len();
        let mut nodes = std::mem::take(&mut out.nodes);
        self.nodes(out, &mut nodes);
        let with_air = state.air_kg.iter().sum::<f64>() > 0.0
            || inputs.lets_air_in()
            || out.steam_kg_s.iter().any(|steam| *steam > 0.0);
        scratch.reset(&self.layout.pattern, with_air);
        if with_air {
            self.loads(&nodes, out);
        } else {
            out.load.clear();
            out.load.resize(n, D3::constant(0.0));
        }
        out.flows.clear();
        out.wall_k.clear();
        out.heat_w.clear();
        out.air_rate_kg_s.clear();
        out.air_rate_kg_s.resize(n, 0.0);
        out.air_lost_kg_s = 0.0;
        out.nodes = nodes;
    }

    /// What each volume holds more than before, and the heat of its wall.
    pub(super) fn walls(
        &self,
        state: &State,
        inputs: &Inputs,
        sides: &[AirSide],
        films: &[WallFilms],
        dt_s: f64,
        out: &mut Outcome,
        scratch: &mut Scratch,
    ) {
        let l = self.layout;
        let with_air = scratch.with_air();
        let total_air: f64 = if with_air { state.air_kg.iter().sum() } else { 0.0 };
        for i in 0..l.len() {
            let node = &out.nodes[i];
            let clean = state.oil.clean_share(i, l.volumes_m3[i]);
            let film = films[i].films.times(clean);
            let wall = wall_heat(&film, l.walls[i].capacity_j_k(), node, state.wall_k[i], &sides[i], dt_s);
            out.wall_k.push(wall.wall_t_k);
            out.heat_w.push(wall.into_refrigerant_w.v);
            scratch.add_own(i, 0, (node.mass - state.mass_kg[i]) * (1.0 / dt_s));
            scratch.add_own(i, 1, (node.energy - state.energy_j[i]) * (1.0 / dt_s) - wall.into_refrigerant_w);
            if with_air {
                scratch.add_air(i, (out.air_kg[i] - state.air_kg[i]) / dt_s, 1.0 / dt_s);
                // Air let in at the suction line, or taken out everywhere alike.
                let (come, go) =
                    (inputs.air_kg_s.max(0.0), (-inputs.air_kg_s).max(0.0) / total_air.max(1e-9));
                let come = if i == l.suction { come } else { 0.0 };
                scratch.add_air(i, go * out.air_kg[i] - come, go);
                out.air_rate_kg_s[i] += come - go * out.air_kg[i];
                out.air_lost_kg_s += go * out.air_kg[i] - come;
                if let Some(steam) = out.steam_kg_s.get(i) {
                    let come = steam * AIR_PER_STEAM;
                    scratch.add_air(i, -come, 0.0);
                    out.air_rate_kg_s[i] += come;
                    out.air_lost_kg_s -= come;
                }
            }
        }
    }

    /// All flows between the volumes and to the outside.
    pub(super) fn links(
        &self,
        state: &State,
        inputs: &Inputs,
        dt_s: f64,
        out: &mut Outcome,
        scratch: &mut Scratch,
    ) {
        let (l, spec) = (self.layout, self.spec);
        let with_air = scratch.with_air();
        let nodes = std::mem::take(&mut out.nodes);
        let (s, d) = (l.suction, l.discharge);
        let rpm = if state.shell.seized() { 0.0 } else { inputs.compressor_rpm };
        let pumping = compressor::pump(
            self.refrigerant,
            (&spec.compressor, &spec.shell),
            (rpm, state.shell.t_k),
            &nodes[s],
            &nodes[d],
        );
        out.shell_w = pumping.shell_w;
        let (m, suction_w, discharge_w) = (pumping.mass_kg_s, pumping.suction_w, pumping.discharge_w);
        let air = if with_air {
            let air = m * out.load[s].first();
            scratch.add_loaded_flow((s, d), m, suction_w, discharge_w, air);
            air.v
        } else {
            scratch.add_flow((s, d), m.pair(), suction_w.pair(), discharge_w.pair());
            0.0
        };
        out.flows.push(Flow {
            from: s,
            to: d,
            mass_kg_s: m.v,
            out_w: suction_w.v,
            in_w: discharge_w.v,
            air_kg_s: air,
        });
        out.air_rate_kg_s[s] -= air;
        out.air_rate_kg_s[d] += air;

        let leak = spec.compressor.reed_leak_m2
            + spec.compressor.full_leak_m2 * (inputs.reed_leak + state.shell.reed_leak()).min(0.95);
        self.connect((d, s), leak, &nodes, scratch, out);

        // Expansion valve: two ends and, through bulb and diaphragm, the evaporator outlet.
        let (a, b, end) = (l.liquid, l.evaporator.start, l.evaporator.end - 1);
        let bulb_t = spec.valve.bulb_t(state.bulb_t_k, &nodes[end], dt_s);
        let bulb_pa = spec.valve.bulb_pa(self.refrigerant, bulb_t);
        let (lift, lift_per_pa) = match inputs.valve_held {
            Some(held) => (D2::constant(held), 0.0),
            None => spec.valve.lift(bulb_pa, &nodes[end]),
        };
        (out.bulb_t_k, out.bulb_pa, out.lift) = (bulb_t.v, bulb_pa.v, lift.v);
        // Ice narrows the passage at every lift.
        let open = state.water.open_share(&spec.water);
        let k = spec.valve.orifice_m2(lift.v) * open;
        let flow = self.connect((a, b), k, &nodes, scratch, out);
        let per_lift = (spec.valve.orifice_m2(1.0) - spec.valve.orifice_m2(0.0)) * open / k;
        scratch.add_remote(
            (a, b),
            end,
            [flow.mass_kg_s * per_lift, flow.out_w * per_lift, flow.air_kg_s * per_lift],
            lift.d,
            lift_per_pa * nodes[end].p_per_air,
        );

        for &(i, j, k) in &l.pipes {
            self.connect((i, j), k, &nodes, scratch, out);
        }
        let port = if inputs.hoses_fitted { spec.port_flow_m2 } else { 0.0 };
        for (i, j, k) in [
            (s, l.low_hose, port),
            (l.liquid, l.high_hose, port),
            (l.low_hose, l.centre, spec.hand_valve_flow_m2 * inputs.manifold_low),
            (l.high_hose, l.centre, spec.hand_valve_flow_m2 * inputs.manifold_high),
        ] {
            if k > 0.0 {
                self.connect((i, j), k, &nodes, scratch, out);
            }
        }

        // Relief valve at the discharge line; couplers of hoses let go before a liquid-full one bursts.
        out.leaving.clear();
        for (i, opens_pa) in [
            (d, spec.relief_pa),
            (l.low_hose, COUPLERS_GIVE_PA),
            (l.high_hose, COUPLERS_GIVE_PA),
            (l.centre, COUPLERS_GIVE_PA),
        ] {
            if nodes[i].p.v <= opens_pa - 2e5 {
                continue;
            }
            let relief = (nodes[i].p - opens_pa).soft_positive(1e3) * spec.relief_kg_s_pa;
            let relief_w = relief * nodes[i].h_out;
            scratch.add_own(i, 0, relief);
            scratch.add_own(i, 1, relief_w);
            out.leaving.push(Leaving {
                volume: i,
                mass_kg_s: relief.v,
                heat_w: relief_w.v,
                to: Outside::Air,
            });
            if with_air {
                let gone = relief.v * out.load[i].v;
                scratch.add_air(i, gone, relief.v * out.load[i].d[2]);
                out.air_rate_kg_s[i] -= gone;
                out.air_lost_kg_s += gone;
            }
        }

        // A hole somewhere, and what hangs on the centre hose.
        if inputs.open_m2 > 0.0 {
            let i = l.open_place(inputs.open_place);
            let e = boundary::opening(&nodes[i], out.load[i], inputs.open_m2, inputs.ambient_t_k);
            self.give(i, &e, Outside::Air, scratch, out);
        }
        let c = l.centre;
        let load = out.load[c];
        let (k, t) = (spec.hand_valve_flow_m2, inputs.ambient_t_k);
        let at_hose = match inputs.centre_hose {
            CentreHose::Capped => None,
            CentreHose::Open => Some(boundary::opening(&nodes[c], load, k, t)),
            CentreHose::VacuumPump => Some(boundary::vacuum_pump(&nodes[c], load)),
            CentreHose::CylinderVapour => {
                Some(boundary::cylinder(self.refrigerant, &nodes[c], load, k, t, false))
            }
            CentreHose::CylinderLiquid => {
                Some(boundary::cylinder(self.refrigerant, &nodes[c], load, k, t, true))
            }
        };
        if let Some(e) = at_hose {
            let to = if inputs.centre_hose.is_cylinder() { Outside::Cylinder } else { Outside::Air };
            self.give(c, &e, to, scratch, out);
        }

        // Charge put in as liquid at outside temperature, or taken out as the receiver gives it.
        let r = l.receiver;
        let (m, w) = if inputs.charge_kg_s > 0.0 {
            (D2::constant(inputs.charge_kg_s), D2::constant(inputs.charge_kg_s * inputs.charge_h_j_kg))
        } else {
            // Slower and slower as it runs empty.
            let fade = (nodes[r].mass / (nodes[r].mass + 1e-3)).square();
            let m = fade * inputs.charge_kg_s;
            (m, m * nodes[r].h_out)
        };
        scratch.add_own(r, 0, -m);
        scratch.add_own(r, 1, -w);
        out.leaving.push(Leaving { volume: r, mass_kg_s: -m.v, heat_w: -w.v, to: Outside::Service });
        out.nodes = nodes;
    }

    /// Air that leaves each volume per kilogram of refrigerant. In vapour this is the composition itself. Where
    /// liquid moves too, the share is held as it was when the step began: it answers steeply to void, and the step
    /// would have to chase it.
    fn loads(&self, nodes: &[Node], out: &mut Outcome) {
        out.load.clear();
        for (i, node) in nodes.iter().enumerate() {
            let share = if node.quality.v >= 1.0 { node.air_share } else { D2::constant(out.air_share[i]) };
            let kg = D3 { v: out.air_kg[i], d: [0.0, 0.0, 1.0] };
            // The books may hold a rounding below zero; nothing can leave of that.
            out.load.push(if kg.v > 0.0 { share.with_air(0.0) * kg } else { D3::constant(0.0) });
        }
    }

    /// What the volume gives to the outside through `exchange`.
    fn give(&self, i: usize, exchange: &Exchange, to: Outside, scratch: &mut Scratch, out: &mut Outcome) {
        scratch.add_exchange(i, exchange);
        let (mass_kg_s, heat_w) = (exchange.mass_kg_s.v, exchange.heat_w.v);
        out.leaving.push(Leaving { volume: i, mass_kg_s, heat_w, to });
        out.air_rate_kg_s[i] -= exchange.air_kg_s.v;
        out.air_lost_kg_s += exchange.air_kg_s.v;
    }

    /// Connect two volumes by a turbulent link of constant `k` and note the flow.
    fn connect(
        &self,
        (i, j): (usize, usize),
        k: f64,
        nodes: &[Node],
        scratch: &mut Scratch,
        out: &mut Outcome,
    ) -> Flow {
        let flow = if scratch.with_air() {
            let stream = link::loaded_stream(&nodes[i], &nodes[j], k, (out.load[i], out.load[j]));
            let (m, w, air) = (stream.mass_kg_s, stream.heat_w, stream.air_kg_s);
            scratch.add_loaded_flow((i, j), m, w, w, air);
            out.air_rate_kg_s[i] -= air.v;
            out.air_rate_kg_s[j] += air.v;
            Flow { from: i, to: j, mass_kg_s: m.v, out_w: w.v, in_w: w.v, air_kg_s: air.v }
        } else {
            let stream = link::stream(&nodes[i], &nodes[j], k);
            let (m, w) = (stream.mass_kg_s, stream.heat_w);
            scratch.add_flow((i, j), m, w, w);
            Flow { from: i, to: j, mass_kg_s: m.v, out_w: w.v, in_w: w.v, air_kg_s: 0.0 }
        };
        out.flows.push(flow);
        flow
    }

    /// Residuals and slopes at given unknowns, for the tests of the slopes.
    #[cfg(test)]
    pub fn assemble_for_test(
        &self,
        state: &State,
        inputs: &Inputs,
        coil: &CoilAir,
        dt_s: f64,
        out: &mut Outcome,
        scratch: &mut Scratch,
    ) {
        let sides = air_sides(self.spec, self.layout, state, inputs, coil, dt_s);
        let films = super::wall_films::at(self.refrigerant, self.layout, state);
        self.assemble(state, inputs, &sides, &films, dt_s, out, scratch);
    }
}
