//! Water in the loop: dissolved in refrigerant and oil, free in puddles, bound by the desiccant, frozen at the valve.
//!
//! Solubility in liquid R-134a follows table 2 of the chapter on moisture in the ASHRAE Refrigeration
//! Handbook; water in vapour over water in liquid is taken as 1 (ASHRAE RP-1239: 0.9 to 1.2 at room temperature). Oil of the
//! PAG kind holds most of it (partition from memory); the desiccant takes up to 18 % of its mass at 25 °C, less when hot
//! (15 to 20 % from memory). How puddles boil is in `puddle.rs`, how the valve ices in `icing.rs`.

use serde::{Deserialize, Serialize};

use super::Inputs;
use super::boundary::{DRAUGHT_M3_S, Leaving, WIDE_M2};
use super::flow::Flow;
use super::icing::{Icing, Jet};
use super::layout::Layout;
use super::oil::Oil;
use super::puddle::{AIR_PER_STEAM, Boiling};
use super::spec::{PlantSpec, WaterSpec};
use super::volume::Node;
use crate::constants::R_STEAM;
use crate::moist_air;
use crate::units::ZERO_C_K;

/// State of the water.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Water {
    /// In the refrigerant and oil of each volume [kg].
    pub kg: Vec<f64>,
    /// Bound by the desiccant [kg].
    pub bound_kg: f64,
    /// Ice in the valve.
    #[serde(flatten)]
    pub icing: Icing,
    /// Came in, less what went out [kg]; what outside air brought is not counted.
    pub in_kg: f64,
    /// Came in with outside air through openings and in hoses that were not purged [kg].
    #[serde(default, skip_serializing_if = "is_zero")]
    pub breathed_kg: f64,
    /// Of what is in the volumes, frozen under vacuum [kg].
    #[serde(default, skip_serializing_if = "is_zero")]
    pub frozen_kg: f64,
}

fn is_zero(x: &f64) -> bool {
    *x == 0.0
}

/// What water rides on over a step.
#[derive(Clone, Copy)]
pub struct Ride<'a> {
    /// The rig.
    pub spec: &'a PlantSpec,
    /// Its volumes.
    pub layout: &'a Layout,
    /// Volumes at the end of the step.
    pub nodes: &'a [Node],
    /// Oil in them.
    pub oil: &'a Oil,
    /// Flows between them.
    pub flows: &'a [Flow],
    /// What goes and comes at openings.
    pub leaving: &'a [Leaving],
    /// Inputs.
    pub inputs: &'a Inputs,
}

/// Solubility of water in liquid R-134a: (°C, parts per million by mass).
const SOLUBLE_PPM: [(f64, f64); 14] = [
    (-40.0, 89.0),
    (-28.9, 150.0),
    (-17.8, 250.0),
    (-6.7, 390.0),
    (-1.1, 490.0),
    (4.4, 600.0),
    (10.0, 730.0),
    (15.6, 880.0),
    (21.1, 1100.0),
    (26.7, 1300.0),
    (32.2, 1500.0),
    (37.8, 1800.0),
    (48.9, 2400.0),
    (60.0, 3200.0),
];
/// Water that oil holds over what refrigerant holds, mass for mass (PAG; from memory).
const IN_OIL: f64 = 8.0;
/// Desiccant's capacity at 25 °C, mass of water per mass of desiccant, and its fall per kelvin.
const CAPACITY: f64 = 0.18;
const CAPACITY_PER_K: f64 = 0.006;
/// Water content of the refrigerant at which the desiccant is half full.
const HALF_FULL: f64 = 40e-6;
/// Time of the desiccant at design flow [s].
const DRYING_S: f64 = 200.0;
/// Density of refrigerant that sweeps half of the free water along [kg/m3] (own estimate: gas at a fifth of an atmosphere).
const SWEEPS_KG_M3: f64 = 1.0;
/// How many times longer it takes with nothing but gas at rest around it: hours, so a vacuum does not regenerate it (MACS, undated;
/// the number is an own estimate).
const STILL: f64 = 100.0;

/// Mass fraction of water that liquid R-134a dissolves at a temperature [K]; held beyond -40 to 60 °C.
pub fn soluble(t_k: f64) -> f64 {
    let t_c = (t_k - ZERO_C_K).clamp(SOLUBLE_PPM[0].0, SOLUBLE_PPM[SOLUBLE_PPM.len() - 1].0);
    let cell = SOLUBLE_PPM.partition_point(|&(t, _)| t <= t_c).clamp(1, SOLUBLE_PPM.len() - 1);
    let ((t0, a), (t1, b)) = (SOLUBLE_PPM[cell - 1], SOLUBLE_PPM[cell]);
    // Straight in the logarithm between the table's lines.
    1e-6 * libm::exp(libm::log(a) + (t_c - t0) / (t1 - t0) * (libm::log(b) - libm::log(a)))
}

/// Water the desiccant can hold [kg] at a temperature [K], `taken` of its capacity (0 to 1) being used up for good.
pub fn capacity_kg(spec: &WaterSpec, t_k: f64, taken: f64) -> f64 {
    let hot = (CAPACITY_PER_K * (t_k - 298.15)).clamp(-0.2, 0.8);
    spec.desiccant_kg * CAPACITY * (1.0 - hot) * (1.0 - taken.clamp(0.0, 1.0))
}

/// Water that a volume holds dissolved and as vapour before any lies free [kg].
fn holds_kg(i: usize, layout: &Layout, nodes: &[Node], oil: &Oil) -> f64 {
    let (node, t) = (&nodes[i], nodes[i].t.v);
    let vapour = layout.volumes_m3[i] * node.void * moist_air::saturation_pressure_pa(t) / (R_STEAM * t);
    soluble(t) * (node.mass.v.max(0.0) + IN_OIL * oil.kg[i]) + vapour
}

impl Water {
    /// All water [kg].
    pub fn total_kg(&self) -> f64 {
        self.kg.iter().sum::<f64>() + self.bound_kg + self.icing.ice_kg
    }
    /// Share of the valve's passage that is open.
    pub fn open_share(&self, spec: &WaterSpec) -> f64 {
        (1.0 - self.icing.ice_kg / spec.closing_ice_kg).clamp(0.01, 1.0)
    }
    /// Mass fraction of water in the refrigerant of a volume.
    pub fn fraction(&self, i: usize, nodes: &[Node], oil: &Oil) -> f64 {
        self.kg[i] / (nodes[i].mass.v + IN_OIL * oil.kg[i] + self.kg[i]).max(1e-9)
    }

    /// How each volume's water boils over a step, ice too, where the pressure is below its vapour pressure; empty where
    /// none does. Steam joins the air of the volume and is taken out with it; that it could condense again under pressure
    /// is left out.
    pub fn boiling(
        &self,
        layout: &Layout,
        nodes: &[Node],
        oil: &Oil,
        wall_k: &[f64],
        dt_s: f64,
    ) -> Vec<Boiling> {
        if nodes.len() != self.kg.len() || self.kg.iter().all(|kg| *kg <= 0.0) {
            return Vec::new();
        }
        let boiling = |i: usize| {
            let (kg, holds) = (self.kg[i], holds_kg(i, layout, nodes, oil));
            let activity = if kg < holds { kg / holds } else { 1.0 };
            Boiling::of((kg, (kg - holds).max(0.0)), activity, wall_k[i], nodes[i].p.v, dt_s)
        };
        let all: Vec<_> = (0..self.kg.len()).map(boiling).collect();
        if all.iter().all(Option::is_none) {
            return Vec::new();
        }
        all.into_iter().map(Option::unwrap_or_default).collect()
    }
    /// Take what boiled off over a step, and the heat it took from the walls.
    pub fn boiled(
        &mut self,
        layout: &Layout,
        boiling: &[Boiling],
        steam_kg_s: &[f64],
        wall_k: &mut [f64],
        dt_s: f64,
    ) {
        for (i, (rate, boiling)) in steam_kg_s.iter().zip(boiling).enumerate() {
            let steam = (rate * dt_s).min(self.kg[i]);
            self.kg[i] -= steam;
            self.in_kg -= steam;
            wall_k[i] -= steam * boiling.latent_j_kg / layout.walls[i].capacity_j_k();
        }
        self.frozen_kg = boiling.iter().map(|b| b.frozen_kg).sum();
    }

    /// Let water in at the suction line, or (negative) take it out of everything alike [kg].
    fn service(&mut self, suction: usize, kg: f64) {
        if kg > 0.0 {
            self.kg[suction] += kg;
            self.in_kg += kg;
        }
        if kg < 0.0 {
            let before = self.total_kg();
            let left = (1.0 + kg / before.max(1e-12)).max(0.0);
            self.kg.iter_mut().for_each(|x| *x *= left);
            self.bound_kg *= left;
            self.icing.ice_kg *= left;
            self.in_kg -= before - self.total_kg();
        }
    }

    /// Move water with the flows of a step, through desiccant and valve. What leaves the loop takes its share along, and
    /// outside air brings its humidity.
    pub fn step(&mut self, ride: &Ride, dt_s: f64) {
        let Ride { layout, nodes, flows, leaving, inputs, .. } = *ride;
        self.service(layout.suction, inputs.water_kg_s * dt_s);
        for l in leaving.iter().filter(|l| l.air_in_kg_s > 0.0) {
            let came = l.air_in_kg_s * inputs.ambient_w * dt_s;
            self.kg[l.volume] += came;
            self.breathed_kg += came;
        }
        if self.total_kg() <= 0.0 {
            return;
        }
        let (valve_in, valve_out) = (layout.metering_inlet(), layout.evaporator.start);
        let mut jet = Jet { inlet_t_k: nodes[valve_in].t.v, ..Jet::default() };
        for flow in flows {
            let forward = flow.mass_kg_s + flow.air_kg_s > 0.0;
            let (from, to) = if forward { (flow.from, flow.to) } else { (flow.to, flow.from) };
            let mass = flow.mass_kg_s.abs();
            let moved = self.carried_kg(from, (mass, flow.air_kg_s.abs()), ride, dt_s);
            self.kg[from] -= moved;
            if from == valve_in && to == valve_out {
                let t_k = nodes[to].t.v.min(nodes[to].t_sat.v);
                let fraction = moved / (mass * dt_s).max(1e-12);
                jet = Jet { t_k, mass_kg_s: mass, water_kg: moved, fraction, soluble: soluble(t_k), ..jet };
            } else {
                self.kg[to] += moved;
            }
        }
        self.kg[valve_out] += self.icing.step(&jet, dt_s);
        if inputs.openings().iter().any(|(m2, _)| *m2 >= WIDE_M2) {
            self.stir(ride, dt_s);
        }
        self.dry(ride, dt_s);
        for l in leaving.iter().filter(|l| l.mass_kg_s > 1e-9 || l.air_out_kg_s > 0.0) {
            let lost = self.carried_kg(l.volume, (l.mass_kg_s.max(0.0), l.air_out_kg_s), ride, dt_s);
            self.kg[l.volume] -= lost;
            self.in_kg -= lost;
        }
    }

    /// Water that a flow of refrigerant and air carries out of a volume over a step [kg]: refrigerant what is dissolved
    /// in it, air what it takes up of vapour.
    fn carried_kg(&self, i: usize, (mass_kg_s, air_kg_s): (f64, f64), ride: &Ride, dt_s: f64) -> f64 {
        let (kg, node) = (self.kg[i], &ride.nodes[i]);
        if kg <= 0.0 {
            return 0.0;
        }
        // Free water is swept along by what is dense, and left behind by thin gas.
        let holds = holds_kg(i, ride.layout, ride.nodes, ride.oil);
        let density = node.rho_out.v;
        let swept = density / (density + SWEEPS_KG_M3);
        let moving = (kg.min(holds) + (kg - holds).max(0.0) * swept) / kg;
        let mut rate = moving * mass_kg_s / (node.mass.v + IN_OIL * ride.oil.kg[i] + kg + 1e-6);
        if air_kg_s > 0.0 {
            let vapour_pa = (kg / holds).min(1.0) * moist_air::saturation_pressure_pa(node.t.v);
            let air_pa = node.p.v - node.p_ref;
            // Where water boils its steam counts as air already.
            if vapour_pa < node.p.v && air_pa > 0.0 {
                rate += air_kg_s / AIR_PER_STEAM * vapour_pa / (air_pa + vapour_pa) / kg;
            }
        }
        kg * (dt_s * rate / (1.0 + dt_s * rate))
    }

    /// While a pipe is open the draught carries vapour along the loop, from where it is moist to where it is dry.
    fn stir(&mut self, ride: &Ride, dt_s: f64) {
        let vapour_kg_m3 = |water: &Self, i: usize| {
            let t = ride.nodes[i].t.v;
            let share = (water.kg[i] / holds_kg(i, ride.layout, ride.nodes, ride.oil)).min(1.0);
            share * moist_air::saturation_pressure_pa(t) / (R_STEAM * t)
        };
        for pipe in &ride.layout.pipes {
            let (a, b) = (pipe.from, pipe.to);
            let falls = vapour_kg_m3(self, a) - vapour_kg_m3(self, b);
            let moved = (DRAUGHT_M3_S * dt_s * falls).clamp(-0.3 * self.kg[b], 0.3 * self.kg[a]);
            self.kg[a] -= moved;
            self.kg[b] += moved;
        }
    }

    /// Desiccant: towards a Langmuir isotherm, as fast as water comes by. It is in the receiver, or in the accumulator of a
    /// loop without one.
    fn dry(&mut self, ride: &Ride, dt_s: f64) {
        let r = ride.layout.store();
        let by: f64 = ride.flows.iter().filter(|f| f.from == r || f.to == r).map(|f| f.mass_kg_s.abs()).sum();
        let slower = (ride.spec.design_flow_kg_s / (0.5 * by).max(1e-9)).clamp(1.0, STILL);
        let fraction = self.fraction(r, ride.nodes, ride.oil);
        let capacity = capacity_kg(&ride.spec.water, ride.nodes[r].t.v, ride.inputs.desiccant_taken);
        let due = capacity * fraction / (fraction + HALF_FULL);
        let uptake = ((due - self.bound_kg) * dt_s / (DRYING_S * slower + dt_s)).min(self.kg[r]);
        self.kg[r] -= uptake;
        self.bound_kg += uptake;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ASHRAE Refrigeration Handbook, moisture, table 2.
    #[test]
    fn solubility_follows_the_table() {
        for (t_c, ppm) in SOLUBLE_PPM {
            assert!((soluble(t_c + 273.15) * 1e6 / ppm - 1.0).abs() < 1e-9);
        }
        // Between the lines for 32 and 40 °F.
        let at_freezing = soluble(273.15) * 1e6;
        assert!(at_freezing > 490.0 && at_freezing < 600.0, "{at_freezing}");
    }

    /// XH-7 and XH-9 beads hold 15 to 20 % of their mass at 25 °C and less when hot (from memory).
    #[test]
    fn desiccant_holds_its_share_and_less_when_hot() {
        let spec = WaterSpec { desiccant_kg: 0.04, closing_ice_kg: 1e-4 };
        let share = capacity_kg(&spec, 298.15, 0.0) / spec.desiccant_kg;
        assert!((0.15..=0.20).contains(&share));
        assert!(capacity_kg(&spec, 338.15, 0.0) < 0.85 * capacity_kg(&spec, 298.15, 0.0));
        assert_eq!(capacity_kg(&spec, 298.15, 1.0), 0.0);
    }
}
