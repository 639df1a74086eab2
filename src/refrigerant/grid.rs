//! Bicubic Hermite interpolation of deviations from the saturated state.
//!
//! One coordinate is ln p, the other the distance in enthalpy from the saturation line. The deviations are
//! zero on that line, and the interpolant is zero there too, to the last bit: so a state just outside the
//! dome meets the saturation curve without a step, however different the two sets of knots are.

use super::axis::Axis;
use super::hermite::Weights;

/// Curves carried by a grid: temperature (K), a volume measure, entropy (J/(kg K)); the fourth is padding
/// that keeps a node on one cache line.
pub(super) const LANES: usize = 4;
/// Curves that are in use and in the file.
pub(super) const CURVES: usize = 3;

type Lane<T> = [T; LANES];

/// Value, slope in ln p, slope in enthalpy distance, cross derivative. Single precision is enough for a
/// deviation (a rounding of 300 K is 2e-5 K) and halves the memory that a look-up touches.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Node {
    pub f: Lane<f32>,
    pub fx: Lane<f32>,
    pub fq: Lane<f32>,
    pub fxq: Lane<f32>,
}

/// The interpolated deviations and their derivatives.
#[derive(Debug, Clone, Copy)]
pub(super) struct Deviation {
    pub f: Lane<f64>,
    pub fx: Lane<f64>,
    pub fq: Lane<f64>,
    pub fxq: Lane<f64>,
}

/// Nodes over (ln p, enthalpy distance), enthalpy distance running fastest. The axis of ln p is the saturation
/// line's, so its cell is looked up once for both.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    pub distance: Axis,
    pub nodes: Vec<Node>,
}

impl Grid {
    /// The deviations in the row of cells `cell` of ln p, at the place in it that `wx` are the weights of. `CROSS`
    /// asks for the cross derivative as well, which only the extension beyond the table needs.
    #[inline]
    pub fn at<const CROSS: bool>(&self, cell: usize, wx: &Weights, distance: f64) -> Deviation {
        let pq = self.distance.place(distance);
        let wq = Weights::at(&pq);
        let start = cell * self.distance.len() + pq.cell;
        let next = start + self.distance.len();
        // Along the distance first, on both sides in ln p; each pair of nodes then counts for four curves at once.
        let [below, above] = [&self.nodes[start..start + 2], &self.nodes[next..next + 2]]
            .map(|pair| Side::at(&pair[0], &pair[1], &wq));
        let across = |w: &[f64; 4], [a, ax, b, bx]: [&Lane<f64>; 4]| -> Lane<f64> {
            std::array::from_fn(|k| w[0] * a[k] + w[1] * ax[k] + w[2] * b[k] + w[3] * bx[k])
        };
        let values = [&below.f, &below.fx, &above.f, &above.fx];
        let slopes = [&below.fq, &below.fxq, &above.fq, &above.fxq];
        Deviation {
            f: across(&wx.value, values),
            fx: across(&wx.slope, values),
            fq: across(&wx.value, slopes),
            fxq: if CROSS { across(&wx.slope, slopes) } else { [0.0; LANES] },
        }
    }

    /// As [`Grid::at`] up to a distance of `limit`, and straight on in the distance beyond it.
    #[inline]
    pub fn at_or_straight_on(&self, cell: usize, wx: &Weights, distance: f64, limit: f64) -> Deviation {
        if distance <= limit {
            return self.at::<false>(cell, wx, distance);
        }
        let mut d = self.at::<true>(cell, wx, limit);
        let beyond = distance - limit;
        for k in 0..LANES {
            d.f[k] += d.fq[k] * beyond;
            d.fx[k] += d.fxq[k] * beyond;
        }
        d
    }
}

/// The curves between two nodes that lie at the same ln p.
struct Side {
    f: Lane<f64>,
    fx: Lane<f64>,
    fq: Lane<f64>,
    fxq: Lane<f64>,
}

impl Side {
    #[inline(always)]
    fn at(a: &Node, b: &Node, wq: &Weights) -> Self {
        let along =
            |w: &[f64; 4], f: &Lane<f32>, fq: &Lane<f32>, g: &Lane<f32>, gq: &Lane<f32>| -> Lane<f64> {
                std::array::from_fn(|k| {
                    w[0] * f64::from(f[k])
                        + w[1] * f64::from(fq[k])
                        + w[2] * f64::from(g[k])
                        + w[3] * f64::from(gq[k])
                })
            };
        Self {
            f: along(&wq.value, &a.f, &a.fq, &b.f, &b.fq),
            fx: along(&wq.value, &a.fx, &a.fxq, &b.fx, &b.fxq),
            fq: along(&wq.slope, &a.f, &a.fq, &b.f, &b.fq),
            fxq: along(&wq.slope, &a.fx, &a.fxq, &b.fx, &b.fxq),
        }
    }
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
                let lanes = |v: f64| [v as f32; LANES];
                nodes.push(Node {
                    f: lanes(a * b),
                    fx: lanes(da * b),
                    fq: lanes(a * db),
                    fxq: lanes(da * db),
                });
            }
        }
        let (ln_p, grid) = (Axis::new(xs).unwrap(), Grid { distance: Axis::new(qs).unwrap(), nodes });
        let row = |x: f64| (ln_p.place(x).cell, Weights::at(&ln_p.place(x)));
        for (x, q) in [(-0.7, 0.1), (0.25, 1.3), (0.9, 2.0), (0.1, 0.0)] {
            let ((cell, wx), [a, da], [b, db]) = (row(x), f(x), g(q));
            let d = grid.at::<true>(cell, &wx, q);
            for k in 0..LANES {
                for (got, expected) in
                    [(d.f[k], a * b), (d.fx[k], da * b), (d.fq[k], a * db), (d.fxq[k], da * db)]
                {
                    assert!((got - expected).abs() < 1e-6, "{got} {expected}");
                }
            }
        }
        let (cell, wx) = row(0.4);
        let (edge, beyond) = (grid.at::<true>(cell, &wx, 1.5), grid.at_or_straight_on(cell, &wx, 4.5, 1.5));
        assert!((beyond.f[0] - edge.f[0] - 3.0 * edge.fq[0]).abs() < 1e-12);
        assert!((beyond.fx[0] - edge.fx[0] - 3.0 * edge.fxq[0]).abs() < 1e-12);
    }
}
