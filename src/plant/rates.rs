//! The loop as differential equations: rates of change at a given moment, for a general solver to compare ours
//! with.
//!
//! The unknowns of a volume are those of the solver, ln p and h. Rates of its conserved mass and energy come from
//! the solver's own functions for volumes, links, compressor, valve and walls; the slopes of mass and energy by
//! ln p and h turn them into rates of the unknowns, exactly and without an inner iteration. Coil water, cabin
//! and engine bay stand still meanwhile, films are those of the plant; air is held where it is.

use super::coil::CoilAir;
use super::scratch::Scratch;
use super::surroundings::air_sides;
use super::system::{Given, Outcome, System};
use super::wall_films::WallFilms;
use super::{Inputs, Plant, PlantSpec, State};
use crate::refrigerant::Refrigerant;

/// So short a step that walls and bulb stay as they are, to nine digits [s].
const NO_TIME_S: f64 = 1e-9;

/// Rates of what is stored.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StoreRates {
    /// Refrigerant of each volume [kg/s].
    pub mass_kg_s: Vec<f64>,
    /// Internal energy of each volume [W].
    pub energy_w: Vec<f64>,
    /// Wall temperatures [K/s].
    pub wall_k_s: Vec<f64>,
    /// Bulb [K/s].
    pub bulb_k_s: f64,
    /// Fin sensor [K/s].
    pub fin_k_s: f64,
}

/// Right-hand side of the loop's differential equations with inputs and surroundings held.
#[derive(Clone, Debug)]
pub struct RightHandSide {
    spec: PlantSpec,
    layout: super::Layout,
    refrigerant: &'static Refrigerant,
    inputs: Inputs,
    state: State,
    out: Outcome,
    scratch: Scratch,
    films: Vec<WallFilms>,
    through_kg_s: Vec<f64>,
    rates: StoreRates,
}

impl RightHandSide {
    /// Of a plant as it stands at the end of its present step.
    pub fn new(plant: &Plant) -> Self {
        let n = plant.layout.len();
        Self {
            spec: plant.spec.clone(),
            layout: plant.layout.clone(),
            refrigerant: plant.refrigerant,
            inputs: plant.inputs,
            state: plant.after.clone(),
            out: Outcome {
                air_kg: plant.after.air_kg.clone(),
                air_share: vec![0.0; n],
                ..Outcome::default()
            },
            scratch: Scratch::default(),
            films: plant.films_of(&plant.after),
            through_kg_s: vec![0.0; n],
            rates: StoreRates::default(),
        }
    }

    /// Number of unknowns: ln p of all volumes, h [J/kg] of all volumes, all walls [K], bulb [K], fin sensor [K].
    pub fn len(&self) -> usize {
        3 * self.layout.len() + 2
    }
    /// Never: a loop has volumes.
    pub fn is_empty(&self) -> bool {
        false
    }

    /// Unknowns of a state of this loop.
    pub fn unknowns(state: &State) -> Vec<f64> {
        let mut y: Vec<f64> = state.u.iter().chain(&state.h).chain(&state.wall_k).copied().collect();
        y.extend([state.bulb_t_k, state.fin_t_k]);
        y
    }

    /// How much of each unknown weighs the same as one of ln p, as the solver's own tolerances have it.
    pub fn scales(&self) -> Vec<f64> {
        let n = self.layout.len();
        let scale = |i: usize| match i / n {
            0 => 1.0,
            1 => 3e5,
            _ => 300.0,
        };
        (0..self.len()).map(scale).collect()
    }

    /// Rates of mass, energy, walls and sensors at the unknowns `y`. Too short a `y` counts as no change.
    pub fn stores(&mut self, y: &[f64]) -> &StoreRates {
        let n = self.layout.len();
        if y.len() != self.len() {
            return &self.rates;
        }
        self.out.u.clear();
        self.out.u.extend_from_slice(&y[..n]);
        self.out.h.clear();
        self.out.h.extend_from_slice(&y[n..2 * n]);
        self.state.wall_k.copy_from_slice(&y[2 * n..3 * n]);
        (self.state.bulb_t_k, self.state.fin_t_k) = (y[3 * n], y[3 * n + 1]);

        let system =
            System { refrigerant: self.refrigerant, spec: &self.spec, layout: &self.layout, accuracy: 1.0 };
        let (state, out, scratch) = (&self.state, &mut self.out, &mut self.scratch);
        system.begin(state, &self.inputs, out, scratch);
        system.links(state, &self.inputs, NO_TIME_S, out, scratch);
        let rates = &mut self.rates;
        for rate in [&mut rates.mass_kg_s, &mut rates.energy_w] {
            rate.clear();
            rate.resize(n, 0.0);
        }
        self.through_kg_s.fill(0.0);
        for flow in &out.flows {
            rates.mass_kg_s[flow.from] -= flow.mass_kg_s;
            rates.mass_kg_s[flow.to] += flow.mass_kg_s;
            rates.energy_w[flow.from] -= flow.out_w;
            rates.energy_w[flow.to] += flow.in_w;
            self.through_kg_s[flow.from] += 0.5 * flow.mass_kg_s.abs();
            self.through_kg_s[flow.to] += 0.5 * flow.mass_kg_s.abs();
        }
        let l = &self.layout;
        for leaving in &out.leaving {
            rates.mass_kg_s[leaving.volume] -= leaving.mass_kg_s;
            rates.energy_w[leaving.volume] -= leaving.heat_w;
        }
        let coil = CoilAir::entering(&self.spec, &self.inputs, state);
        let sides = air_sides(&self.spec, l, state, &self.inputs, &coil, 1.0);
        let given = Given { state, inputs: &self.inputs, sides: &sides, films: &self.films, dt_s: NO_TIME_S };
        system.walls(given, out, scratch);
        rates.wall_k_s.clear();
        for (i, side) in sides.iter().enumerate() {
            rates.energy_w[i] += out.heat_w[i];
            let from_air = side.conductance_w_k * (side.t_k - state.wall_k[i]) + side.latent_w;
            rates.wall_k_s.push((from_air - out.heat_w[i]) / l.walls[i].capacity_j_k());
        }
        let outlet = &out.nodes[l.evaporator.end - 1];
        let valve = self.spec.metering.thermostatic();
        rates.bulb_k_s = valve.map_or(0.0, |valve| (outlet.t.v - state.bulb_t_k) / valve.bulb_lag_s);
        let fin = state.wall_k[l.evaporator.start + self.spec.fin_sensor_cell];
        rates.fin_k_s = (fin - state.fin_t_k) / self.spec.fin_sensor_lag_s;
        rates
    }

    /// Rates of the unknowns at `y`, written to `dy`.
    pub fn rates(&mut self, y: &[f64], dy: &mut [f64]) {
        let n = self.layout.len();
        self.stores(y);
        if dy.len() != self.len() || self.rates.wall_k_s.len() != n {
            return;
        }
        for (i, node) in self.out.nodes.iter().enumerate() {
            let ([a, b], [c, d]) = (node.mass.d, node.energy.d);
            let (m, e) = (self.rates.mass_kg_s[i], self.rates.energy_w[i]);
            let determinant = a * d - b * c;
            dy[i] = (d * m - b * e) / determinant;
            dy[n + i] = (a * e - c * m) / determinant;
        }
        dy[2 * n..3 * n].copy_from_slice(&self.rates.wall_k_s);
        (dy[3 * n], dy[3 * n + 1]) = (self.rates.bulb_k_s, self.rates.fin_k_s);
    }
}

#[cfg(test)]
mod tests {
    use super::super::CentreHose;
    use super::super::Contents;
    use super::super::slopes_tests::inputs;
    use super::*;
    use crate::plant::testing::rig;

    /// A step of the solver that is short beyond measure moves everything by these rates.
    #[test]
    fn a_tiny_step_moves_at_these_rates() {
        let spec = rig("compact_car");
        let mut i = inputs();
        (i.centre_hose, i.open_m2) = (CentreHose::Capped, 0.0);
        let mut plant = {
            // Without oil, which takes up and gives back refrigerant beside these equations.
            let contents =
                Contents { charge_kg: spec.full_charge_kg, air_kg: 0.0, oil_kg: 0.0, water_kg: 0.0 };
            Plant::soaked_with(&spec, Refrigerant::r134a(), i, contents)
        };
        i.compressor_rpm = 1200.0;
        plant.set_inputs(0.0, i);
        for t in [0.5, 5.0, 60.0] {
            plant.advance_to(t);
            // One more step to bring the flow for the films up to date, then the one that is looked at.
            let dt = 1e-6;
            plant.set_accuracy(1e-4);
            plant.rates = None;
            let mut tried = plant.clone();
            assert!(tried.attempt(dt).is_some());
            let mut right = RightHandSide::new(&tried);
            let y = RightHandSide::unknowns(&tried.after);
            let stores = right.stores(&y).clone();
            let mut dy = vec![0.0; right.len()];
            right.rates(&y, &mut dy);
            let old = tried.after.clone();
            assert!(tried.attempt(dt).is_some());
            let new = &tried.after;
            let check = |what: &str, rate: f64, a: f64, b: f64, floor: f64| {
                let got = (b - a) / dt;
                assert!((got - rate).abs() <= 1e-3 * rate.abs() + floor, "{what} at {t} s: {got} {rate}");
            };
            for k in 0..plant.layout.len() {
                check("mass", stores.mass_kg_s[k], old.mass_kg[k], new.mass_kg[k], 1e-5);
                check("energy", stores.energy_w[k], old.energy_j[k], new.energy_j[k], 2.0);
                check("wall", stores.wall_k_s[k], old.wall_k[k], new.wall_k[k], 1e-3);
                check("ln p", dy[k], old.u[k], new.u[k], 1e-3);
                check("h", dy[plant.layout.len() + k], old.h[k], new.h[k], 100.0);
            }
            check("bulb", stores.bulb_k_s, old.bulb_t_k, new.bulb_t_k, 1e-3);
            check("fin", stores.fin_k_s, old.fin_t_k, new.fin_t_k, 1e-3);
        }
    }
}
