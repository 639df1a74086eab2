//! The Newton matrix and right-hand side, reused between steps. Each volume has two unknowns, ln p and h, and
//! a third, its air, while there is air in the loop.

use super::dual::{D2, D4, Dual};
use super::linear;
use super::link::Stream;
use super::volume::Node;

/// Column scales of h [J/kg] and of air [kg].
const H_SCALE: f64 = 1e5;
const AIR_SCALE: f64 = 1e-3;

/// Equations and unknowns of one step.
#[derive(Clone, Debug, Default)]
pub struct Scratch {
    matrix: Vec<f64>,
    rhs: Vec<f64>,
    stride: usize,
    size: usize,
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
    /// Clear for `volumes` volumes.
    pub fn reset(&mut self, volumes: usize, with_air: bool) {
        self.stride = if with_air { 3 } else { 2 };
        self.size = self.stride * volumes;
        self.matrix.clear();
        self.matrix.resize(self.size * self.size, 0.0);
        self.rhs.clear();
        self.rhs.resize(self.size, 0.0);
    }
    /// Is air among the unknowns?
    pub fn with_air(&self) -> bool {
        self.stride == 3
    }
    /// Row of equation `k` (0 mass, 1 energy, 2 air) of a volume.
    fn row(&self, volume: usize, k: usize) -> usize {
        self.stride * volume + k
    }
    fn entry(&mut self, row: usize, volume: usize, k: usize, x: f64) {
        self.matrix[row * self.size + self.stride * volume + k] += x;
    }
    fn slopes(&mut self, row: usize, volume: usize, d: [f64; 2]) {
        self.entry(row, volume, 0, d[0]);
        self.entry(row, volume, 1, d[1] * H_SCALE);
    }
    /// Slope by a volume's air.
    fn air_slope(&mut self, row: usize, volume: usize, x: f64) {
        self.entry(row, volume, 2, x * AIR_SCALE);
    }
    /// Add a dual of the volume itself to its equation `k`.
    pub fn add_own(&mut self, volume: usize, k: usize, x: D2) {
        let row = self.row(volume, k);
        self.rhs[row] += x.v;
        self.slopes(row, volume, x.d);
    }
    /// Add to the air equation of a volume: value and slope by its own air.
    pub fn add_air(&mut self, volume: usize, value: f64, slope: f64) {
        let row = self.row(volume, 2);
        self.rhs[row] += value;
        self.air_slope(row, volume, slope);
    }
    fn add_pair(&mut self, row: usize, (i, j): (usize, usize), x: D4, sign: f64) {
        self.rhs[row] += sign * x.v;
        self.slopes(row, i, [sign * x.d[0], sign * x.d[1]]);
        self.slopes(row, j, [sign * x.d[2], sign * x.d[3]]);
    }
    /// Mass and enthalpy from i to j; `in_w` differs from `out_w` by shaft work.
    pub fn add_flow(&mut self, (i, j): (usize, usize), m: D4, out_w: D4, in_w: D4) {
        for (volume, sign, w) in [(i, 1.0, out_w), (j, -1.0, in_w)] {
            let (mass, energy) = (self.row(volume, 0), self.row(volume, 1));
            self.add_pair(mass, (i, j), m, sign);
            self.add_pair(energy, (i, j), w, sign);
        }
    }
    /// A stream through a link, with the air it carries.
    pub fn add_stream(&mut self, (i, j): (usize, usize), s: &Stream, ends: (&Node, &Node), air: &AirEnds) {
        self.add_flow((i, j), s.mass_kg_s, s.heat_w, s.heat_w);
        if !self.with_air() {
            return;
        }
        let carried = air.kg.0 * air.share.0.v * s.split_kg_s.0 + air.kg.1 * air.share.1.v * s.split_kg_s.1;
        let by_mass =
            air.kg.0 * air.share.0.v * s.split_slopes.0 + air.kg.1 * air.share.1.v * s.split_slopes.1;
        // Air acts on the flow through the total pressures.
        let by_air = [(i, s.mass_per_pa * ends.0.p_per_air), (j, -s.mass_per_pa * ends.1.p_per_air)];
        for (volume, sign) in [(i, 1.0), (j, -1.0)] {
            let (mass, energy, gas) = (self.row(volume, 0), self.row(volume, 1), self.row(volume, 2));
            for (by, slope) in by_air {
                self.air_slope(mass, by, sign * slope);
                self.air_slope(energy, by, sign * slope * s.heat_per_mass);
                self.air_slope(gas, by, sign * slope * by_mass);
            }
            self.rhs[gas] += sign * carried;
            let m = s.mass_kg_s;
            self.slopes(gas, i, [sign * by_mass * m.d[0], sign * by_mass * m.d[1]]);
            self.slopes(gas, j, [sign * by_mass * m.d[2], sign * by_mass * m.d[3]]);
            for (end, kg, share, split) in
                [(i, air.kg.0, air.share.0, s.split_kg_s.0), (j, air.kg.1, air.share.1, s.split_kg_s.1)]
            {
                self.air_slope(gas, end, sign * share.v * split);
                self.slopes(gas, end, [sign * kg * split * share.d[0], sign * kg * split * share.d[1]]);
            }
        }
    }
    /// What the compressor moves from i to j, with the air it carries; `per_air` are the slopes of the ends'
    /// total pressures by their air.
    pub fn add_pumping(
        &mut self,
        (i, j): (usize, usize),
        (m, out_w, in_w): (Dual<6>, Dual<6>, Dual<6>),
        per_air: (f64, f64),
        (share, kg): (D2, f64),
    ) {
        self.add_flow((i, j), m.pair(), out_w.pair(), in_w.pair());
        if !self.with_air() {
            return;
        }
        for (volume, sign, w) in [(i, 1.0, out_w), (j, -1.0, in_w)] {
            let (mass, energy, gas) = (self.row(volume, 0), self.row(volume, 1), self.row(volume, 2));
            for (by, per, slot) in [(i, per_air.0, 4), (j, per_air.1, 5)] {
                self.air_slope(mass, by, sign * m.d[slot] * per);
                self.air_slope(energy, by, sign * w.d[slot] * per);
                self.air_slope(gas, by, sign * m.d[slot] * per * share.v * kg);
            }
            self.rhs[gas] += sign * m.v * share.v * kg;
            self.air_slope(gas, i, sign * m.v * share.v);
            let own = |k: usize| sign * kg * (m.d[k] * share.v + m.v * share.d[k]);
            self.slopes(gas, i, [own(0), own(1)]);
            self.slopes(gas, j, [sign * m.d[2] * share.v * kg, sign * m.d[3] * share.v * kg]);
        }
    }
    /// A flow from i to j grows by `per[0]` (mass) and `per[1]` (enthalpy) with a quantity of a third volume whose
    /// slopes by that volume's u, h and air are given.
    pub fn add_remote(
        &mut self,
        (i, j): (usize, usize),
        third: usize,
        per: [f64; 2],
        d: [f64; 2],
        by_air: f64,
    ) {
        for (volume, sign) in [(i, 1.0), (j, -1.0)] {
            for (k, per) in per.into_iter().enumerate() {
                let row = self.row(volume, k);
                self.slopes(row, third, [sign * per * d[0], sign * per * d[1]]);
                if self.with_air() {
                    self.air_slope(row, third, sign * per * by_air);
                }
            }
        }
    }
    /// Scale the rows of a volume and turn residuals into right-hand sides.
    pub fn scale(&mut self, volume: usize, mass: f64, energy: f64, air: f64) {
        for (k, scale) in [mass, energy, air].into_iter().enumerate().take(self.stride) {
            let row = self.row(volume, k);
            self.rhs[row] *= -scale;
            for x in &mut self.matrix[row * self.size..(row + 1) * self.size] {
                *x *= scale;
            }
        }
    }
    /// Solve for the moves. False when singular.
    pub fn solve(&mut self) -> bool {
        linear::solve(&mut self.matrix, &mut self.rhs, self.size)
    }
    /// Move of a volume after [`Self::solve`].
    pub fn step_of(&self, volume: usize) -> Move {
        let at = |k| self.rhs[self.stride * volume + k];
        Move { u: at(0), h: at(1) * H_SCALE, air: if self.with_air() { at(2) * AIR_SCALE } else { 0.0 } }
    }
}

/// Air at both ends of a link: what is there [kg] and the share a kilogram of flow carries out [1/kg].
#[derive(Clone, Copy, Debug)]
pub struct AirEnds {
    /// Air held.
    pub kg: (f64, f64),
    /// Share carried per flow.
    pub share: (D2, D2),
}

#[cfg(test)]
impl Scratch {
    /// Residuals as assembled, and the slope of one by an unknown (in the unknown's own unit).
    pub fn look(&self, row: usize, column: usize) -> (f64, f64) {
        let scale = [1.0, H_SCALE, AIR_SCALE][column % self.stride];
        (self.rhs[row], self.matrix[row * self.size + column] / scale)
    }
    /// Number of equations.
    pub fn size(&self) -> usize {
        self.size
    }
}
