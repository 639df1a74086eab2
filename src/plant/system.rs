//! One implicit step of the network: backward Euler in conserved form, Newton with exact slopes.

use serde::Serialize;

use super::boundary::Leaving;
use super::coil::CoilAir;
use super::dual::D3;
use super::flow::Flow;
use super::heat::AirSide;
use super::layout::Layout;
use super::metering::below_critical;
use super::puddle::Boiling;
use super::scratch::{Move, Scratch};
use super::spec::PlantSpec;
use super::surroundings::air_sides;
use super::volume::{self, Node};
use super::wall_films::WallFilms;
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
/// Largest move of ln p of a volume that fills from a vacuum.
const MOST_LN_P: f64 = 200.0;

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
    /// How each volume's water boils over the step; empty where none does.
    pub boiling: Vec<Boiling>,
    /// Steam that boils off each volume's water [kg/s]; empty where none does.
    pub steam_kg_s: Vec<f64>,
    /// Heat the compressed gas gave to the body of the compressor [W].
    pub shell_w: f64,
    /// Saturation pressure at the temperature of the compressor's body [Pa].
    pub shell_saturation_pa: f64,
    /// Lift of a thermostatic valve, opening of an electronic one, open share of an orifice tube.
    pub lift: f64,
    /// Bulb temperature [K].
    pub bulb_t_k: f64,
    /// Bulb pressure [Pa].
    pub bulb_pa: f64,
    /// Newton iterations used.
    pub iterations: usize,
}

/// Where Newton starts: the trend of the last step carried on.
#[derive(Clone, Debug, Default, Serialize)]
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

/// What a step is taken from; it stands while the unknowns are sought.
#[derive(Clone, Copy)]
pub(super) struct Given<'a> {
    /// State at its start.
    pub state: &'a State,
    /// What the plant was told.
    pub inputs: &'a Inputs,
    /// Air on each wall.
    pub sides: &'a [AirSide],
    /// Films of each wall.
    pub films: &'a [WallFilms],
    /// Its length [s].
    pub dt_s: f64,
}

impl System<'_> {
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
        let given = Given { state, inputs, sides: &sides, films, dt_s };
        out.boiling = state.water.boiling(l, now, &state.oil, &state.wall_k, dt_s);
        out.shell_saturation_pa =
            self.refrigerant.saturation_p_pa(below_critical(self.refrigerant, state.shell.t_k));
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
                self.assemble(given, &mut out, scratch);
                return Some(out);
            }
            self.assemble(given, &mut out, scratch);
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
                self.assemble(given, &mut out, scratch);
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
    fn assemble(&self, given: Given, out: &mut Outcome, scratch: &mut Scratch) {
        self.begin(given.state, given.inputs, out, scratch);
        self.walls(given, out, scratch);
        self.links(given.state, given.inputs, given.dt_s, out, scratch);
    }

    /// Nodes, flows and heats of a state as it stands, with nothing solved: what can be looked at where not even a step of no
    /// length converges.
    pub fn as_it_stands(
        &self,
        state: &State,
        inputs: &Inputs,
        coil: &CoilAir,
        films: &[WallFilms],
        dt_s: f64,
    ) -> Outcome {
        let sides = air_sides(self.spec, self.layout, state, inputs, coil, dt_s);
        let mut out = Outcome {
            u: state.u.clone(),
            h: state.h.clone(),
            air_kg: state.air_kg.clone(),
            air_share: vec![0.0; self.layout.len()],
            ..Outcome::default()
        };
        let given = Given { state, inputs, sides: &sides, films, dt_s };
        self.assemble(given, &mut out, &mut Scratch::default());
        out
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
        let films = super::step_films::at(self.refrigerant, self.layout, state);
        self.assemble(Given { state, inputs, sides: &sides, films: &films, dt_s }, out, scratch);
    }
}
