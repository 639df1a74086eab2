//! Water in the loop: dissolved in refrigerant and oil, bound by the desiccant, frozen at the valve.
//!
//! Solubility in liquid R-134a follows the ASHRAE Refrigeration Handbook table as read in
//! shared/reference/faults.md 3.5; water in vapour over water in liquid is taken as 1 (0.9 to 1.2 there). Oil of the
//! PAG kind holds most of it (partition from memory); the desiccant takes up to 18 % of its mass at 25 °C, less when hot
//! (15 to 20 % from memory).

use serde::{Deserialize, Serialize};

use super::boundary::Leaving;
use super::layout::Layout;
use super::oil::Oil;
use super::system::Flow;
use super::volume::{Node, R_AIR};
use crate::moist_air;
use crate::units::ZERO_C_K;

/// Drier and valve of a rig as water meets them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaterSpec {
    /// Desiccant [kg].
    pub desiccant_kg: f64,
    /// Ice that closes the valve [kg].
    pub closing_ice_kg: f64,
}

/// State of the water.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Water {
    /// In the refrigerant and oil of each volume [kg].
    pub kg: Vec<f64>,
    /// Bound by the desiccant [kg].
    pub bound_kg: f64,
    /// Ice in the valve [kg].
    pub ice_kg: f64,
    /// Came in, less what went out [kg].
    pub in_kg: f64,
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
/// Share of the water beyond solubility that stays as ice where it freezes.
const STAYS: f64 = 0.03;
/// Melting of ice in the valve per kelvin above freezing [kg/(s K)].
const MELTS_KG_S_K: f64 = 1e-7;
/// Specific gas constant of steam [J/(kg K)] and latent heat of water near 0 °C [J/kg].
const R_STEAM: f64 = 461.5;
/// Mass of air that makes the pressure of a kilogram of steam.
pub const AIR_PER_STEAM: f64 = R_STEAM / R_AIR;
const LATENT_J_KG: f64 = 2.5e6;
/// Boiling per pascal below the vapour pressure [kg/(s Pa)] (own estimate: grams leave in tens of minutes).
const BOILS_KG_S_PA: f64 = 2e-9;
/// Time in which boiling water fills a volume with steam at the soonest [s].
const FILLING_S: f64 = 3.0;
/// Pressure above which no water in a loop at bearable temperatures boils [Pa].
const BOILS_BELOW_PA: f64 = 5e4;

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

impl Water {
    /// A dry loop.
    pub fn dry(layout: &Layout) -> Self {
        Self { kg: vec![0.0; layout.len()], ..Self::default() }
    }
    /// All water [kg].
    pub fn total_kg(&self) -> f64 {
        self.kg.iter().sum::<f64>() + self.bound_kg + self.ice_kg
    }
    /// Share of the valve's passage that is open.
    pub fn open_share(&self, spec: &WaterSpec) -> f64 {
        (1.0 - self.ice_kg / spec.closing_ice_kg).clamp(0.01, 1.0)
    }
    /// Mass fraction of water in the refrigerant of a volume.
    pub fn fraction(&self, i: usize, nodes: &[Node], oil: &Oil) -> f64 {
        self.kg[i] / (nodes[i].mass.v + IN_OIL * oil.kg[i] + self.kg[i]).max(1e-9)
    }

    /// Steam that boils off each volume's water over a step, ice too, where the pressure is below its vapour pressure
    /// at the temperature of the wall [kg/s]; empty where nothing boils. Steam joins the air of the volume and is taken
    /// out with it; that it could condense again under pressure is left out.
    pub fn boiling_kg_s(&self, layout: &Layout, nodes: &[Node], wall_k: &[f64], dt_s: f64) -> Vec<f64> {
        let boils = |i: usize| self.kg[i] > 0.0 && nodes[i].p.v < BOILS_BELOW_PA;
        if nodes.len() != self.kg.len() || !(0..self.kg.len()).any(boils) {
            return Vec::new();
        }
        let steam = |i: usize| {
            if !boils(i) {
                return 0.0;
            }
            let short_pa = (moist_air::saturation_pressure_pa(wall_k[i]) - nodes[i].p.v).max(0.0);
            // As fast as heat and surface allow, and no faster than would fill the volume in some seconds.
            let filling = layout.volumes_m3[i] / (R_STEAM * wall_k[i] * FILLING_S);
            (short_pa * filling.min(BOILS_KG_S_PA)).min(self.kg[i] / dt_s)
        };
        (0..self.kg.len()).map(steam).collect()
    }
    /// Take what boiled off over a step, and the heat it took from the walls.
    pub fn boiled(&mut self, layout: &Layout, steam_kg_s: &[f64], wall_k: &mut [f64], dt_s: f64) {
        for (i, rate) in steam_kg_s.iter().enumerate() {
            let steam = rate * dt_s;
            self.kg[i] -= steam;
            self.in_kg -= steam;
            wall_k[i] -= steam * LATENT_J_KG / layout.walls[i].capacity_j_k();
        }
    }

    /// Move water with the flows of a step, through desiccant and valve. What leaves the loop takes its share along; `come_kg_s` is the water that comes in at the suction line (negative: is taken out of everything), `taken` the share of
    /// the desiccant that is used up.
    pub fn step(
        &mut self,
        spec: &WaterSpec,
        layout: &Layout,
        (nodes, oil): (&[Node], &Oil),
        (flows, leaving): (&[Flow], &[Leaving]),
        (come_kg_s, taken): (f64, f64),
        dt_s: f64,
    ) {
        if come_kg_s > 0.0 {
            self.kg[layout.suction] += come_kg_s * dt_s;
            self.in_kg += come_kg_s * dt_s;
        }
        if come_kg_s < 0.0 {
            let before = self.total_kg();
            let left = (1.0 + come_kg_s * dt_s / before.max(1e-12)).max(0.0);
            self.kg.iter_mut().for_each(|x| *x *= left);
            (self.bound_kg, self.ice_kg) = (self.bound_kg * left, self.ice_kg * left);
            self.in_kg -= before - self.total_kg();
        }
        if self.total_kg() <= 0.0 {
            return;
        }
        let share = |water: &Self, i: usize, mass: f64| {
            if water.kg[i] <= 0.0 {
                return 0.0;
            }
            let rate = mass / (nodes[i].mass.v + IN_OIL * oil.kg[i] + water.kg[i] + 1e-6);
            water.kg[i] * (dt_s * rate / (1.0 + dt_s * rate))
        };
        let (valve_in, valve_out) = (layout.metering_inlet(), layout.evaporator.start);
        for flow in flows {
            let (from, to) = if flow.mass_kg_s > 0.0 { (flow.from, flow.to) } else { (flow.to, flow.from) };
            let mass = flow.mass_kg_s.abs();
            let mut moved = share(self, from, mass);
            if moved <= 0.0 {
                continue;
            }
            self.kg[from] -= moved;
            if from == valve_in && to == valve_out && nodes[to].t.v < ZERO_C_K {
                let carried = moved / (mass * dt_s).max(1e-12);
                let beyond = 1.0 - soluble(nodes[to].t.v) / carried.max(1e-12);
                let ice = STAYS * moved * beyond.max(0.0);
                self.ice_kg += ice;
                moved -= ice;
            }
            self.kg[to] += moved;
        }
        let melting = (MELTS_KG_S_K * (nodes[valve_out].t.v - ZERO_C_K).max(0.0) * dt_s).min(self.ice_kg);
        self.ice_kg -= melting;
        self.kg[valve_out] += melting;

        // Desiccant: towards a Langmuir isotherm, as fast as water comes by.
        // In the receiver, or in the accumulator of a loop without one.
        let r = layout.store();
        let fraction = self.fraction(r, nodes, oil);
        let capacity = capacity_kg(spec, nodes[r].t.v, taken);
        let due = capacity * fraction / (fraction + HALF_FULL);
        let uptake = ((due - self.bound_kg) * dt_s / (DRYING_S + dt_s)).min(self.kg[r]);
        self.kg[r] -= uptake;
        self.bound_kg += uptake;

        for &Leaving { volume: i, mass_kg_s: mass, .. } in leaving.iter().filter(|l| l.mass_kg_s > 1e-9) {
            let lost = share(self, i, mass);
            self.kg[i] -= lost;
            self.in_kg -= lost;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ASHRAE Refrigeration Handbook table 2 as read in shared/reference/faults.md 3.5.
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
