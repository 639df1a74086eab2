//! Bicubic Hermite interpolation of deviations from the saturated state.
//!
//! One coordinate is ln p, the other the distance in enthalpy from the saturation line. The deviations are
//! zero on that line, and the interpolant is zero there too, to the last bit: so a state just outside the
//! dome meets the saturation curve without a step, however different the two sets of knots are.

use super::axis::Axis;
use super::hermite::Weights;

/// Curves carried by a grid: temperature (K), a volume measure, entropy (J/(kg K)).
pub(super) const CURVES: usize = 3;

/// What a node says of one curve: value, slope in ln p, slope in enthalpy distance, cross derivative.
pub(super) const SLOPES: usize = 4;

type Pair<T> = [T; 2];

/// A node in memory. Single precision is enough for a deviation (a rounding of 300 K is 2e-5 K) and halves the memory
/// that a look-up touches: one cache line. Numbers that go through the same arithmetic lie side by side, so that they
/// are computed in pairs.
#[derive(Debug, Clone, Copy, PartialEq)]
#[repr(align(64))]
pub(super) struct Node {
    /// Temperature and volume measure, for each of the [`SLOPES`].
    tv: [Pair<f32>; SLOPES],
    /// Entropy, of which nobody asks the slopes: value and slope in ln p; slope in distance and cross derivative.
    s: [Pair<f32>; 2],
}

impl Node {
    /// From the numbers of the file: for each of the [`SLOPES`], the [`CURVES`].
    pub fn new(n: &[[f32; CURVES]; SLOPES]) -> Self {
        Self {
            tv: [[n[0][0], n[0][1]], [n[1][0], n[1][1]], [n[2][0], n[2][1]], [n[3][0], n[3][1]]],
            s: [[n[0][2], n[1][2]], [n[2][2], n[3][2]]],
        }
    }

    /// The inverse of [`Node::new`].
    #[cfg(feature = "tables")]
    pub fn numbers(&self) -> [[f32; CURVES]; SLOPES] {
        let (tv, s) = (&self.tv, [self.s[0][0], self.s[0][1], self.s[1][0], self.s[1][1]]);
        [0, 1, 2, 3].map(|k| [tv[k][0], tv[k][1], s[k]])
    }
}

/// The interpolated deviations, and the derivatives of temperature and volume measure.
#[derive(Debug, Clone, Copy)]
pub(super) struct Deviation {
    pub f: [f64; CURVES],
    pub fx: Pair<f64>,
    pub fq: Pair<f64>,
}

/// Nodes over (ln p, enthalpy distance), enthalpy distance running fastest. The axis of ln p is the saturation
/// line's, so its cell is looked up once for both.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    pub distance: Axis,
    pub nodes: Vec<Node>,
}

impl Grid {
    /// The deviations in the row of cells `cell` of ln p, at the place in it that `wx` are the weights of.
    #[inline(always)]
    pub fn at(&self, cell: usize, wx: &Weights, distance: f64) -> Deviation {
        self.sides(cell, wx, distance).0
    }

    /// As [`Grid::at`] up to a distance of `limit`, and straight on in the distance beyond it.
    #[inline(always)]
    pub fn at_or_straight_on(&self, cell: usize, wx: &Weights, distance: f64, limit: f64) -> Deviation {
        if distance <= limit {
            self.at(cell, wx, distance)
        } else {
            self.straight_on(cell, *wx, distance, limit)
        }
    }

    /// The weights by value: a reference would keep all of a saturation in memory on the way that is always taken.
    #[cold]
    #[inline(never)]
    fn straight_on(&self, cell: usize, wx: Weights, distance: f64, limit: f64) -> Deviation {
        let (mut d, [below, above], [s_below, s_above]) = self.sides(cell, &wx, limit);
        let beyond = distance - limit;
        let cross = sum(&wx.slope, below.fq, below.fxq, above.fq, above.fxq);
        for k in 0..2 {
            d.f[k] += d.fq[k] * beyond;
            d.fx[k] += cross[k] * beyond;
        }
        let w = &wx.value;
        d.f[2] += (w[0] * s_below[0] + w[1] * s_below[1] + w[2] * s_above[0] + w[3] * s_above[1]) * beyond;
        d
    }

    /// The deviations, and what they were made of: the curves at both values of ln p, and the slopes of entropy there.
    #[inline(always)]
    fn sides(&self, cell: usize, wx: &Weights, distance: f64) -> (Deviation, [Side; 2], [Pair<f64>; 2]) {
        let pq = self.distance.place(distance);
        let wq = Weights::at(&pq);
        let start = cell * self.distance.len() + pq.cell;
        let next = start + self.distance.len();
        let (a, b) = (&self.nodes[start..start + 2], &self.nodes[next..next + 2]);
        // Along the distance first: each pair of nodes then counts for four curves at once.
        let (below, above) = (Side::at(&a[0], &a[1], &wq), Side::at(&b[0], &b[1], &wq));
        let s = |n: &[Node], w| sum(w, wide(n[0].s[0]), wide(n[0].s[1]), wide(n[1].s[0]), wide(n[1].s[1]));
        let (s_below, s_above) = (s(a, &wq.value), s(b, &wq.value));
        let w = &wx.value;
        let [t, v] = sum(w, below.f, below.fx, above.f, above.fx);
        let entropy = w[0] * s_below[0] + w[1] * s_below[1] + w[2] * s_above[0] + w[3] * s_above[1];
        let deviation = Deviation {
            f: [t, v, entropy],
            fx: sum(&wx.slope, below.f, below.fx, above.f, above.fx),
            fq: sum(w, below.fq, below.fxq, above.fq, above.fxq),
        };
        (deviation, [below, above], [s(a, &wq.slope), s(b, &wq.slope)])
    }
}

/// Temperature and volume measure between two nodes that lie at the same ln p.
struct Side {
    f: Pair<f64>,
    fx: Pair<f64>,
    fq: Pair<f64>,
    fxq: Pair<f64>,
}

impl Side {
    #[inline(always)]
    fn at(a: &Node, b: &Node, wq: &Weights) -> Self {
        let (f, fx, fq, fxq) = (wide(a.tv[0]), wide(a.tv[1]), wide(a.tv[2]), wide(a.tv[3]));
        let (g, gx, gq, gxq) = (wide(b.tv[0]), wide(b.tv[1]), wide(b.tv[2]), wide(b.tv[3]));
        Self {
            f: sum(&wq.value, f, fq, g, gq),
            fx: sum(&wq.value, fx, fxq, gx, gxq),
            fq: sum(&wq.slope, f, fq, g, gq),
            fxq: sum(&wq.slope, fx, fxq, gx, gxq),
        }
    }
}

#[inline(always)]
fn wide([a, b]: Pair<f32>) -> Pair<f64> {
    [f64::from(a), f64::from(b)]
}

/// The weighted sum of four pairs.
#[inline(always)]
fn sum(w: &[f64; 4], a: Pair<f64>, b: Pair<f64>, c: Pair<f64>, d: Pair<f64>) -> Pair<f64> {
    [
        (w[0] * a[0] + w[1] * b[0]) + (w[2] * c[0] + w[3] * d[0]),
        (w[0] * a[1] + w[1] * b[1]) + (w[2] * c[1] + w[3] * d[1]),
    ]
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
                nodes.push(Node::new(&[a * b, da * b, a * db, da * db].map(|v| [v as f32; CURVES])));
            }
        }
        let (ln_p, grid) = (Axis::new(xs).unwrap(), Grid { distance: Axis::new(qs).unwrap(), nodes });
        let row = |x: f64| (ln_p.place(x).cell, Weights::at(&ln_p.place(x)));
        for (x, q) in [(-0.7, 0.1), (0.25, 1.3), (0.9, 2.0), (0.1, 0.0)] {
            let ((cell, wx), [a, da], [b, db]) = (row(x), f(x), g(q));
            let d = grid.at(cell, &wx, q);
            for k in 0..CURVES {
                assert!((d.f[k] - a * b).abs() < 1e-6, "{} {}", d.f[k], a * b);
            }
            for k in 0..2 {
                assert!((d.fx[k] - da * b).abs() < 1e-6 && (d.fq[k] - a * db).abs() < 1e-6, "{d:?}");
            }
        }
        let (cell, wx) = row(0.4);
        let (edge, beyond) = (grid.at(cell, &wx, 1.5), grid.at_or_straight_on(cell, &wx, 4.5, 1.5));
        for k in 0..2 {
            assert!((beyond.f[k] - edge.f[k] - 3.0 * edge.fq[k]).abs() < 1e-12);
        }
        assert!((beyond.f[2] - beyond.f[0]).abs() < 1e-12);
        // The slope in ln p goes straight on too: at twice the way it has changed twice as much.
        let farther = grid.at_or_straight_on(cell, &wx, 7.5, 1.5);
        assert!((farther.fx[0] - edge.fx[0] - 2.0 * (beyond.fx[0] - edge.fx[0])).abs() < 1e-12);
        assert!((beyond.fx[0] - edge.fx[0]).abs() > 0.1);
    }
}
