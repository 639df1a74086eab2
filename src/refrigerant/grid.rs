//! Bicubic Hermite interpolation of deviations from the saturated state.
//!
//! One coordinate is ln p, the other the distance in enthalpy from the saturation line. The deviations are
//! zero on that line, and the interpolant is zero there too, to the last bit: so a state just outside the
//! dome meets the saturation curve without a step, however different the two sets of knots are.

use super::axis::{Axis, Place};

/// Curves carried by a grid: temperature (K), a volume measure, entropy (J/(kg K)).
pub(super) const CURVES: usize = 3;

/// What a node says of one curve: value, slope in ln p, slope in enthalpy distance, cross derivative.
pub(super) const SLOPES: usize = 4;

/// A node as it stands in the file. Single precision is enough for a deviation: a rounding of 300 K is 2e-5 K.
pub(super) type Node = [[f32; CURVES]; SLOPES];

type Pair = [f64; 2];

/// The bicubic polynomials of a cell in memory, by powers of the place in it: a third of the arithmetic of the same
/// interpolant in terms of nodes. Numbers that go through the same arithmetic lie side by side and are computed in
/// pairs.
#[derive(Debug, Clone, Copy, PartialEq)]
#[repr(align(64))]
struct Cell {
    /// Temperature and volume measure: `tv[i][j]` belongs to the i-th power in ln p and the j-th in distance.
    tv: [[Pair; 4]; 4],
    /// Entropy, of which nobody asks the slopes: `s[i][j]` belongs to powers 2i and 2i + 1 in ln p.
    s: [[Pair; 4]; 2],
}

/// The interpolated deviations, and the derivatives of temperature and volume measure.
#[derive(Debug, Clone, Copy)]
pub(super) struct Deviation {
    pub f: [f64; CURVES],
    pub fx: Pair,
    pub fq: Pair,
}

/// Cells over (ln p, enthalpy distance), enthalpy distance running fastest. The axis of ln p is the saturation
/// line's, so a place on it is looked up once for both.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    pub distance: Axis,
    cells: Vec<Cell>,
    /// The nodes, to write them.
    #[cfg(feature = "tables")]
    pub nodes: Vec<Node>,
}

impl Grid {
    /// From the nodes over both axes, as many as their lengths multiply to.
    pub fn new(ln_p: &Axis, distance: Axis, nodes: Vec<Node>) -> Self {
        let (rows, columns) = (ln_p.knots(), distance.knots());
        let mut cells = Vec::with_capacity((rows.len() - 1) * (columns.len() - 1));
        for (x, row) in rows.windows(2).enumerate() {
            for (q, column) in columns.windows(2).enumerate() {
                let first = x * columns.len() + q;
                let corner = |i: usize, j: usize| &nodes[first + i * columns.len() + j];
                cells.push(Cell::new(corner, row[1] - row[0], column[1] - column[0]));
            }
        }
        Self {
            distance,
            cells,
            #[cfg(feature = "tables")]
            nodes,
        }
    }

    /// The deviations at the place `x` of ln p.
    #[inline(always)]
    pub fn at(&self, x: &Place, distance: f64) -> Deviation {
        let q = self.distance.place(distance);
        self.cell(x, &q).at(x, &q)
    }

    /// As [`Grid::at`] up to a distance of `limit`, and straight on in the distance beyond it.
    #[inline(always)]
    pub fn at_or_straight_on(&self, x: &Place, distance: f64, limit: f64) -> Deviation {
        if distance <= limit { self.at(x, distance) } else { self.straight_on(*x, distance, limit) }
    }

    /// The place by value: a reference would keep all of a saturation in memory on the way that is always taken.
    #[cold]
    #[inline(never)]
    fn straight_on(&self, x: Place, distance: f64, limit: f64) -> Deviation {
        let q = self.distance.place(limit);
        let cell = self.cell(&x, &q);
        let (mut d, beyond) = (cell.at(&x, &q), distance - limit);
        let slopes = cell.tv.map(|powers| slope(&powers, q.t));
        let cross = slope(&slopes, x.t);
        for (k, cross) in cross.into_iter().enumerate() {
            d.f[k] += d.fq[k] * beyond;
            d.fx[k] += cross * q.inverse_width * x.inverse_width * beyond;
        }
        let [even, odd] = cell.s.map(|powers| slope(&powers, q.t));
        let entropy = even[0] + x.t * (even[1] + x.t * (odd[0] + x.t * odd[1]));
        d.f[2] += entropy * q.inverse_width * beyond;
        d
    }

    #[inline(always)]
    fn cell(&self, x: &Place, q: &Place) -> &Cell {
        &self.cells[x.cell * (self.distance.len() - 1) + q.cell]
    }
}

impl Cell {
    /// From its four corners, counted in ln p and distance, and its widths.
    #[inline]
    fn new<'a>(corner: impl Fn(usize, usize) -> &'a Node, x_width: f64, q_width: f64) -> Self {
        let mut cell = Self { tv: [[[0.0; 2]; 4]; 4], s: [[[0.0; 2]; 4]; 2] };
        for curve in 0..CURVES {
            // Powers of the distance on both sides in ln p, of the value and of the slope there; then those of ln p.
            let along = |side: usize, slope: usize, scale: f64| {
                let (a, b) = (corner(side, 0), corner(side, 1));
                let at = |node: &Node, k: usize| f64::from(node[k][curve]) * scale;
                let (from, to) = (at(a, slope), at(b, slope));
                powers(from, at(a, slope + 2) * q_width, to, at(b, slope + 2) * q_width)
            };
            let (value0, slope0) = (along(0, 0, 1.0), along(0, 1, x_width));
            let (value1, slope1) = (along(1, 0, 1.0), along(1, 1, x_width));
            for j in 0..4 {
                let column = powers(value0[j], slope0[j], value1[j], slope1[j]);
                for (i, power) in column.into_iter().enumerate() {
                    if curve < 2 {
                        cell.tv[i][j][curve] = power;
                    } else {
                        cell.s[i / 2][j][i % 2] = power;
                    }
                }
            }
        }
        cell
    }

    #[inline(always)]
    fn at(&self, x: &Place, q: &Place) -> Deviation {
        // Along the distance first, for each power of ln p.
        let values = [
            value(&self.tv[0], q.t),
            value(&self.tv[1], q.t),
            value(&self.tv[2], q.t),
            value(&self.tv[3], q.t),
        ];
        let slopes = [
            slope(&self.tv[0], q.t),
            slope(&self.tv[1], q.t),
            slope(&self.tv[2], q.t),
            slope(&self.tv[3], q.t),
        ];
        let (low, high) = (value(&self.s[0], q.t), value(&self.s[1], q.t));
        let ([t, v], [t_x, v_x], [t_q, v_q]) =
            (value(&values, x.t), slope(&values, x.t), value(&slopes, x.t));
        Deviation {
            f: [t, v, low[0] + x.t * (low[1] + x.t * (high[0] + x.t * high[1]))],
            fx: [t_x * x.inverse_width, v_x * x.inverse_width],
            fq: [t_q * q.inverse_width, v_q * q.inverse_width],
        }
    }
}

/// The powers of the cubic on 0..1 that has these values and slopes at its ends.
#[inline(always)]
fn powers(from: f64, from_slope: f64, to: f64, to_slope: f64) -> [f64; 4] {
    let rise = to - from;
    [from, from_slope, 3.0 * rise - 2.0 * from_slope - to_slope, from_slope + to_slope - 2.0 * rise]
}

/// The value of two cubics by their powers.
#[inline(always)]
fn value(powers: &[Pair; 4], t: f64) -> Pair {
    let [a, b, c, d] = powers;
    [a[0] + t * (b[0] + t * (c[0] + t * d[0])), a[1] + t * (b[1] + t * (c[1] + t * d[1]))]
}

/// The slope of two cubics by their powers.
#[inline(always)]
fn slope(powers: &[Pair; 4], t: f64) -> Pair {
    let [_, b, c, d] = powers;
    let (twice, thrice) = (2.0 * t, 3.0 * t * t);
    [b[0] + twice * c[0] + thrice * d[0], b[1] + twice * c[1] + thrice * d[1]]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A product of cubics is in the space of the interpolant, so it must come back with all derivatives.
    #[test]
    fn a_product_of_cubics_is_reproduced() {
        let f = |x: f64| [1.0 + x * (0.5 - x * x), 0.5 - 3.0 * x * x];
        let g = |q: f64| [q * (2.0 + q * q), 2.0 + 3.0 * q * q];
        let (xs, qs) = (vec![-1.0, 0.25, 1.0], vec![0.0, 0.5, 2.0]);
        let mut nodes = Vec::new();
        for &x in &xs {
            for &q in &qs {
                let ([a, da], [b, db]) = (f(x), g(q));
                nodes.push([a * b, da * b, a * db, da * db].map(|v| [v as f32; CURVES]));
            }
        }
        let ln_p = Axis::new(xs).unwrap();
        let grid = Grid::new(&ln_p, Axis::new(qs).unwrap(), nodes);
        for (x, q) in [(-0.7, 0.1), (0.25, 1.3), (0.9, 2.0), (0.1, 0.0)] {
            let (d, [a, da], [b, db]) = (grid.at(&ln_p.place(x), q), f(x), g(q));
            for k in 0..CURVES {
                assert!((d.f[k] - a * b).abs() < 1e-6, "{} {}", d.f[k], a * b);
            }
            for k in 0..2 {
                assert!((d.fx[k] - da * b).abs() < 1e-6 && (d.fq[k] - a * db).abs() < 1e-6, "{d:?}");
            }
        }
        let x = ln_p.place(0.4);
        let (edge, beyond) = (grid.at(&x, 1.5), grid.at_or_straight_on(&x, 4.5, 1.5));
        for k in 0..2 {
            assert!((beyond.f[k] - edge.f[k] - 3.0 * edge.fq[k]).abs() < 1e-12);
        }
        assert!((beyond.f[2] - beyond.f[0]).abs() < 1e-12);
        // The slope in ln p goes straight on too: at twice the way it has changed twice as much.
        let farther = grid.at_or_straight_on(&x, 7.5, 1.5);
        assert!((farther.fx[0] - edge.fx[0] - 2.0 * (beyond.fx[0] - edge.fx[0])).abs() < 1e-12);
        assert!((beyond.fx[0] - edge.fx[0]).abs() > 0.1);
    }
}
