//! Oil: what the compressor holds, what goes round with the refrigerant, where it settles, and how much refrigerant
//! is dissolved in it.
//!
//! Oil goes with liquid as fast as the liquid, and along vapour as a slow film, so it gathers where vapour is dry or
//! slow. Each transfer takes a share of what is there, so no drop is lost or made. Circulation and solubility are from
//! memory (a few percent of the flow by mass; a fifth of the oil's mass dissolved at saturation), plausibility only.

use serde::{Deserialize, Serialize};

use super::boundary::Leaving;
use super::flow::Flow;
use super::layout::Layout;
use super::spec::OilSpec;
use super::volume::Node;

/// State of the oil.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Oil {
    /// In the compressor's sump [kg].
    pub sump_kg: f64,
    /// In each volume [kg].
    pub kg: Vec<f64>,
    /// Lost with refrigerant so far [kg].
    pub lost_kg: f64,
    /// Refrigerant dissolved in the sump [kg] and its energy [J].
    pub dissolved_kg: f64,
    /// Energy of what is dissolved [J].
    pub dissolved_j: f64,
}

/// Speed of a film along dry vapour over the vapour's own (order of magnitude from memory).
const FILM_SPEED: f64 = 0.05;
/// Density of gas below which it no longer drags the film along [kg/m3] (own estimate: about a tenth of a bar). Without it
/// a vacuum pump, which turns over thin gas many times, would pump a loop's oil out.
const DRAGS_KG_M3: f64 = 0.5;
/// Refrigerant dissolved at saturation per mass of oil, and the exponent of its fall with p / p_sat.
const DISSOLVED: f64 = 0.2;
const DISSOLVED_POWER: f64 = 1.5;
/// Density of oil [kg/m3] (PAG and ester alike, from memory).
pub const OIL_KG_M3: f64 = 970.0;
/// Time in which oil takes up or gives back refrigerant: churned by a running compressor, and at rest [s].
const CHURNED_S: f64 = 60.0;
const STILL_S: f64 = 400.0;

/// Film left where an oil of another kind makes up all of it and does not mix, as a loss of the full film (own estimate:
/// half the film is left at a half-and-half mixture).
const FOREIGN_LOSS: f64 = 0.66;

/// Share left of the lubricating film with so much of the oil of another kind, 0 to 1: oils that do not mix leave a thinner
/// one.
pub fn film_of_mixture(foreign: f64) -> f64 {
    1.0 - foreign * (2.0 - foreign) * FOREIGN_LOSS
}

impl Oil {
    /// A soaked loop: most of it in the sump, the rest spread as liquid would lie.
    pub fn soaked(spec: &OilSpec, layout: &Layout, present_kg: f64) -> Self {
        let mut oil = Self { kg: vec![0.0; layout.len()], ..Self::default() };
        oil.sump_kg = present_kg.min(spec.sump_kg);
        let hoses = [layout.low_hose, layout.high_hose, layout.centre];
        let loop_m3: f64 =
            (0..layout.loop_len()).filter(|i| !hoses.contains(i)).map(|i| layout.volumes_m3[i]).sum();
        for i in (0..layout.loop_len()).filter(|i| !hoses.contains(i)) {
            oil.kg[i] = (present_kg - oil.sump_kg) * layout.volumes_m3[i] / loop_m3;
        }
        oil
    }
    /// All oil in the loop [kg].
    pub fn total_kg(&self) -> f64 {
        self.sump_kg + self.kg.iter().sum::<f64>()
    }
    /// Film in the bearings, 0 to 1: full down to two thirds of the share that belongs in the sump, gone when it is empty.
    pub fn film(&self, spec: &OilSpec) -> f64 {
        (1.5 * self.sump_kg / spec.sump_kg).clamp(0.0, 1.0)
    }
    /// Share of a clean film coefficient that is left where oil logs a volume: oil conducts a tenth to a twentieth of
    /// what a refrigerant film does (trade text, not named in our notes). A film that only passes through does no harm.
    pub fn clean_share(&self, i: usize, volume_m3: f64) -> f64 {
        let filled = self.kg[i] / (OIL_KG_M3 * volume_m3);
        (1.0 - 4.0 * (filled - 0.03).max(0.0)).max(0.3)
    }

    /// Move oil with the flows of a step. What leaves the loop takes its share along.
    pub fn step(
        &mut self,
        spec: &OilSpec,
        layout: &Layout,
        nodes: &[Node],
        flows: &[Flow],
        leaving: &[Leaving],
        dt_s: f64,
    ) {
        let share = |from: usize, mass_kg_s: f64| {
            let node = &nodes[from];
            let liquid = (1.0 - node.quality.v).clamp(0.0, 1.0);
            let density = node.mass.v / layout.volumes_m3[from];
            let film = FILM_SPEED * (density / DRAGS_KG_M3).clamp(0.0, 1.0);
            let speed = film + (1.0 - film) * liquid;
            // A volume turns its oil over as often as its refrigerant, slowed where it is a film.
            let rate = speed * mass_kg_s / (node.mass.v + 1e-6);
            dt_s * rate / (1.0 + dt_s * rate)
        };
        for flow in flows {
            let (from, to) = if flow.mass_kg_s > 0.0 { (flow.from, flow.to) } else { (flow.to, flow.from) };
            let mass = flow.mass_kg_s.abs();
            if mass < 1e-9 {
                continue;
            }
            if from == layout.suction && to == layout.discharge {
                // Through the compressor: suction oil falls into the sump, the sump feeds the discharge.
                let back = self.kg[from] * share(from, mass);
                self.kg[from] -= back;
                self.sump_kg += back;
                let rate = spec.circulating * mass / spec.sump_kg;
                let out = self.sump_kg * (dt_s * rate / (1.0 + dt_s * rate));
                self.sump_kg -= out;
                self.kg[to] += out;
            } else {
                let moved = self.kg[from] * share(from, mass);
                self.kg[from] -= moved;
                self.kg[to] += moved;
            }
        }
        for &Leaving { volume: i, mass_kg_s: mass, .. } in leaving.iter().filter(|l| l.mass_kg_s > 1e-9) {
            let lost = self.kg[i] * share(i, mass);
            self.kg[i] -= lost;
            self.lost_kg += lost;
        }
    }

    /// Put oil into the sump, or take it out of everything alike [kg].
    pub fn service(&mut self, kg: f64) {
        if kg > 0.0 {
            self.sump_kg += kg;
        } else if kg < 0.0 {
            let left = (1.0 + kg / self.total_kg().max(1e-9)).max(0.0);
            self.sump_kg *= left;
            self.kg.iter_mut().for_each(|x| *x *= left);
        }
    }

    /// Refrigerant the sump takes up over a step [kg], negative when it comes back out: towards what is dissolved in
    /// equilibrium at the suction pressure and the body's temperature.
    pub fn uptake_kg(&self, p_pa: f64, saturation_pa: f64, turning: bool, dt_s: f64) -> f64 {
        let ratio = (p_pa / saturation_pa).clamp(0.0, 1.0);
        let due = DISSOLVED * libm::pow(ratio, DISSOLVED_POWER) * self.sump_kg;
        let lag = if turning { CHURNED_S } else { STILL_S };
        (due - self.dissolved_kg) * dt_s / (lag + dt_s)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_film_is_left_of_a_half_and_half_mixture() {
        assert_eq!(film_of_mixture(0.0), 1.0);
        assert!((film_of_mixture(0.5) - 0.505).abs() < 1e-9);
    }
}
