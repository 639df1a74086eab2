//! The Newton matrix and right-hand side, reused between steps. Each volume has two unknowns, ln p and h, and
//! a third, its air, while there is air in the loop.

use std::sync::Arc;

use super::boundary::Exchange;
use super::dual::{D2, D4, D6};
use super::linear::Pattern;

/// An equation: the volume and which (0 mass, 1 energy, 2 air).
type Row = (usize, usize);

/// Equations and unknowns of one step, as blocks of the layout's pattern.
#[derive(Clone, Debug, Default)]
pub struct Scratch {
    /// Blocks without air: mass and energy by ln p and h.
    two: Vec<[[f64; 2]; 2]>,
    rhs_two: Vec<[f64; 2]>,
    /// Blocks with air: the same and air by air.
    three: Vec<[[f64; 3]; 3]>,
    rhs_three: Vec<[f64; 3]>,
    pattern: Arc<Pattern>,
    with_air: bool,
}

/// Move of one volume's unknowns: ln p, h [J/kg], air [kg].
#[derive(Clone, Copy, Debug)]
pub struct Move {
    /// ln p.
    pub u: f64,
    /// h [J/kg].
    pub h: f64,
    /// Air [kg].
    pub air: f64,
}

impl Scratch {
    /// Clear for a pattern.
    pub fn reset(&mut self, pattern: &Arc<Pattern>, with_air: bool) {
        if !Arc::ptr_eq(&self.pattern, pattern) {
            self.pattern = Arc::clone(pattern);
        }
        self.with_air = with_air;
        let (volumes, blocks) = (pattern.volumes(), pattern.blocks());
        if with_air {
            self.three.clear();
            self.three.resize(blocks, [[0.0; 3]; 3]);
            self.rhs_three.clear();
            self.rhs_three.resize(volumes, [0.0; 3]);
        } else {
            self.two.clear();
            self.two.resize(blocks, [[0.0; 2]; 2]);
            self.rhs_two.clear();
            self.rhs_two.resize(volumes, [0.0; 2]);
        }
    }
    /// Is air among the unknowns?
    pub fn with_air(&self) -> bool {
        self.with_air
    }
    fn add(&mut self, (volume, k): Row, x: f64) {
        if self.with_air {
            self.rhs_three[volume][k] += x;
        } else {
            self.rhs_two[volume][k] += x;
        }
    }
    fn slopes(&mut self, (row, k): Row, volume: usize, d: [f64; 2]) {
        let block = self.pattern.block(row, volume);
        if self.with_air {
            let line = &mut self.three[block][k];
            line[0] += d[0];
            line[1] += d[1];
        } else {
            let line = &mut self.two[block][k];
            line[0] += d[0];
            line[1] += d[1];
        }
    }
    /// Slope by a volume's air.
    fn air_slope(&mut self, (row, k): Row, volume: usize, x: f64) {
        let block = self.pattern.block(row, volume);
        self.three[block][k][2] += x;
    }
    /// Add a dual of the volume itself to its equation `k`.
    pub fn add_own(&mut self, volume: usize, k: usize, x: D2) {
        let row = (volume, k);
        self.add(row, x.v);
        self.slopes(row, volume, x.d);
    }
    /// Add what leaves a volume to the outside.
    pub fn add_exchange(&mut self, volume: usize, e: &Exchange) {
        for (k, x) in [e.mass_kg_s, e.heat_w, e.air_kg_s].into_iter().enumerate() {
            if k == 2 && !self.with_air {
                return;
            }
            self.add((volume, k), x.v);
            self.slopes((volume, k), volume, [x.d[0], x.d[1]]);
            if self.with_air {
                self.air_slope((volume, k), volume, x.d[2]);
            }
        }
    }
    /// Add to the air equation of a volume: value and slope by its own air.
    pub fn add_air(&mut self, volume: usize, value: f64, slope: f64) {
        let row = (volume, 2);
        self.add(row, value);
        self.air_slope(row, volume, slope);
    }
    fn add_pair(&mut self, row: Row, (i, j): (usize, usize), x: D4, sign: f64) {
        self.add(row, sign * x.v);
        self.slopes(row, i, [sign * x.d[0], sign * x.d[1]]);
        self.slopes(row, j, [sign * x.d[2], sign * x.d[3]]);
    }
    /// Mass and enthalpy from i to j; `in_w` differs from `out_w` by shaft work.
    pub fn add_flow(&mut self, (i, j): (usize, usize), m: D4, out_w: D4, in_w: D4) {
        for (volume, sign, w) in [(i, 1.0, out_w), (j, -1.0, in_w)] {
            let (mass, energy) = ((volume, 0), (volume, 1));
            self.add_pair(mass, (i, j), m, sign);
            self.add_pair(energy, (i, j), w, sign);
        }
    }
    fn add_six(&mut self, row: Row, (i, j): (usize, usize), x: D6, sign: f64) {
        self.add_pair(row, (i, j), x.pair(), sign);
        self.air_slope(row, i, sign * x.d[4]);
        self.air_slope(row, j, sign * x.d[5]);
    }
    /// Mass, enthalpy (`in_w` where it arrives) and air from i to j, where there is air.
    pub fn add_loaded_flow(&mut self, (i, j): (usize, usize), m: D6, out_w: D6, in_w: D6, air: D6) {
        for (volume, sign, w) in [(i, 1.0, out_w), (j, -1.0, in_w)] {
            self.add_six((volume, 0), (i, j), m, sign);
            self.add_six((volume, 1), (i, j), w, sign);
            self.add_six((volume, 2), (i, j), air, sign);
        }
    }
    /// A flow from i to j grows by `per` (mass, enthalpy, air) with a quantity of a third volume whose
    /// slopes by that volume's u, h and air are given.
    pub fn add_remote(
        &mut self,
        (i, j): (usize, usize),
        third: usize,
        per: [f64; 3],
        d: [f64; 2],
        by_air: f64,
    ) {
        for (volume, sign) in [(i, 1.0), (j, -1.0)] {
            for (k, per) in per.into_iter().enumerate().take(if self.with_air { 3 } else { 2 }) {
                let row = (volume, k);
                self.slopes(row, third, [sign * per * d[0], sign * per * d[1]]);
                if self.with_air() {
                    self.air_slope(row, third, sign * per * by_air);
                }
            }
        }
    }
    /// Solve for the moves that bring all residuals to zero. False when singular.
    pub fn solve(&mut self) -> bool {
        let pattern = Arc::clone(&self.pattern);
        if self.with_air {
            self.rhs_three.iter_mut().flatten().for_each(|x| *x = -*x);
            pattern.solve(&mut self.three, &mut self.rhs_three)
        } else {
            self.rhs_two.iter_mut().flatten().for_each(|x| *x = -*x);
            pattern.solve(&mut self.two, &mut self.rhs_two)
        }
    }
    /// Move of a volume after [`Self::solve`].
    pub fn step_of(&self, volume: usize) -> Move {
        if self.with_air {
            let [u, h, air] = self.rhs_three[volume];
            Move { u, h, air }
        } else {
            let [u, h] = self.rhs_two[volume];
            Move { u, h, air: 0.0 }
        }
    }
}

#[cfg(test)]
impl Scratch {
    /// Unknowns of a volume.
    pub fn stride(&self) -> usize {
        if self.with_air { 3 } else { 2 }
    }
    /// Residual of an equation as assembled, and its slope by an unknown.
    pub fn look(&self, (row, k): Row, (volume, unknown): Row) -> (f64, f64) {
        let block = self.pattern.known(row, volume);
        if self.with_air {
            (self.rhs_three[row][k], block.map_or(0.0, |b| self.three[b][k][unknown]))
        } else {
            (self.rhs_two[row][k], block.map_or(0.0, |b| self.two[b][k][unknown]))
        }
    }
}
