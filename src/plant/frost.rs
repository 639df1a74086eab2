//! Frost on the coil: it insulates, and it narrows the way of the air.

use super::coil_water::{CellWater, CoilWater};
use super::spec::CoilSurfaceSpec;

/// Density [kg/m3] and conductivity [W/(m K)] of frost some minutes old: middle of the published 100 to 400 and
/// 0.1 to 0.4 (from memory, Hayashi et al. 1977, J. Heat Transfer 99:239).
const DENSITY_KG_M3: f64 = 250.0;
const CONDUCTIVITY_W_M_K: f64 = 0.18;
/// What always stays open of a gap.
const LEAST_OPEN: f64 = 0.03;
/// Frost below this is dew gone hard: it neither insulates nor narrows [kg].
const TRACE_KG: f64 = 1e-6;

/// Conductance through the frost on `area_m2` of surface [W/K]; none where there is none.
pub fn conductance_w_k(area_m2: f64, frost_kg: f64) -> Option<f64> {
    (frost_kg > TRACE_KG).then(|| CONDUCTIVITY_W_M_K * DENSITY_KG_M3 * area_m2 * area_m2 / frost_kg)
}

/// The way of the air through the coil, its cells side by side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Path {
    /// Number of cells.
    pub cells: f64,
    /// No frost anywhere.
    pub clean: bool,
    /// Sum over the cells of how easily each lets air through, 1 each when clean.
    sum: f64,
    /// Flow at a given blower speed, share of that through a clean coil.
    pub flow_share: f64,
}

impl Path {
    /// The way through `water`. The blower's head falls with the square of flow from shut-off, `1 - a q²`; duct and
    /// coil take head with the square of flow, the coil the share `s` of it when clean and `s / c²` when its
    /// ease is `c`. Both meet at `q² = 1 / (a + (1 - a) (1 - s + s / c²))`.
    pub fn of(spec: &CoilSurfaceSpec, water: &CoilWater) -> Self {
        let cells = water.cells.len() as f64;
        let clean = water.cells.iter().all(|c| c.frost_kg <= TRACE_KG);
        if clean {
            return Self { cells, clean, sum: cells, flow_share: 1.0 };
        }
        let sum: f64 = water.cells.iter().map(|c| ease(spec, cells, c)).sum();
        let c = sum / cells;
        let (a, s) = (spec.blower_droop, spec.resistance_share);
        let flow_share = (1.0 / (a + (1.0 - a) * (1.0 - s + s / (c * c)))).sqrt();
        Self { cells, clean, sum, flow_share }
    }

    /// How easily the coil lets air through, 1 when clean.
    pub fn openness(&self) -> f64 {
        self.sum / self.cells
    }

    /// Share of the flow that goes through one cell.
    pub fn share(&self, spec: &CoilSurfaceSpec, water: &CellWater) -> f64 {
        if self.clean { 1.0 / self.cells } else { ease(spec, self.cells, water) / self.sum }
    }
}

/// Ease of a cell's gaps: pressure drop at a given flow goes with one over the cube of the open width (slow flow
/// between plates, Poiseuille), so flow at a given drop with its power 1.5 in our square law.
fn ease(spec: &CoilSurfaceSpec, cells: f64, water: &CellWater) -> f64 {
    let layer_m = water.frost_kg / (DENSITY_KG_M3 * spec.surface_m2 / cells);
    let open = (1.0 - 2.0 * layer_m / spec.fin_gap_m).max(LEAST_OPEN);
    open * open.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plant::testing::rig;

    #[test]
    fn frost_takes_flow_and_moves_it_to_clean_cells() {
        let spec = rig("compact_car").coil;
        let mut water = CoilWater::dry(6);
        assert_eq!(Path::of(&spec, &water).flow_share, 1.0);
        let mut last = 1.0;
        for grams in [10.0, 30.0, 60.0, 80.0, 120.0] {
            water.cells.iter_mut().for_each(|c| c.frost_kg = grams * 1e-3);
            let path = Path::of(&spec, &water);
            assert!(path.flow_share < last && path.flow_share > 0.0, "{grams} g: {path:?}");
            last = path.flow_share;
        }
        // 0.7 kg fill the gaps of this coil.
        assert!(last < 0.05, "{last}");
        water.cells[5].frost_kg = 0.0;
        let path = Path::of(&spec, &water);
        let shares: Vec<f64> = water.cells.iter().map(|c| path.share(&spec, c)).collect();
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        assert!(shares[5] > 0.9, "{shares:?}");
    }
}
