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

/// Nodes over (ln p, enthalpy distance), enthalpy distance running fastest.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    pub ln_p: Axis,
    pub distance: Axis,
    pub nodes: Vec<Node>,
}

impl Grid {
    /// The deviations at a place. `CROSS` asks for the cross derivative as well, which only the extension
    /// beyond the table needs.
    #[inline]
    pub fn at<const CROSS: bool>(&self, ln_p: f64, distance: f64) -> Deviation {
        let (px, pq) = (self.ln_p.place(ln_p), self.distance.place(distance));
        let (wx, wq) = (Weights::at(&px), Weights::at(&pq));
        let row = px.cell * self.distance.len() + pq.cell;
        let mut out = Deviation { f: [0.0; LANES], fx: [0.0; LANES], fq: [0.0; LANES], fxq: [0.0; LANES] };
        for (side_x, start) in [(0, row), (2, row + self.distance.len())] {
            let nodes = &self.nodes[start..start + 2];
            let (x0, x1) = (wx.value[side_x], wx.value[side_x + 1]);
            let (dx0, dx1) = (wx.slope[side_x], wx.slope[side_x + 1]);
            for (side_q, node) in [(0, &nodes[0]), (2, &nodes[1])] {
                let (q0, q1) = (wq.value[side_q], wq.value[side_q + 1]);
                let (dq0, dq1) = (wq.slope[side_q], wq.slope[side_q + 1]);
                for k in 0..LANES {
                    let (f, fx) = (f64::from(node.f[k]), f64::from(node.fx[k]));
                    let (fq, fxq) = (f64::from(node.fq[k]), f64::from(node.fxq[k]));
                    let along = q0 * f + q1 * fq;
                    let along_x = q0 * fx + q1 * fxq;
                    let slope = dq0 * f + dq1 * fq;
                    let slope_x = dq0 * fx + dq1 * fxq;
                    out.f[k] += x0 * along + x1 * along_x;
                    out.fx[k] += dx0 * along + dx1 * along_x;
                    out.fq[k] += x0 * slope + x1 * slope_x;
                    if CROSS {
                        out.fxq[k] += dx0 * slope + dx1 * slope_x;
                    }
                }
            }
        }
        out
    }

    /// As [`Grid::at`] up to a distance of `limit`, and straight on in the distance beyond it.
    #[inline]
    pub fn at_or_straight_on(&self, ln_p: f64, distance: f64, limit: f64) -> Deviation {
        if distance <= limit {
            return self.at::<false>(ln_p, distance);
        }
        let mut d = self.at::<true>(ln_p, limit);
        let beyond = distance - limit;
        for k in 0..LANES {
            d.f[k] += d.fq[k] * beyond;
            d.fx[k] += d.fxq[k] * beyond;
        }
        d
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
        let grid = Grid { ln_p: Axis::new(xs).unwrap(), distance: Axis::new(qs).unwrap(), nodes };
        for (x, q) in [(-0.7, 0.1), (0.25, 1.3), (0.9, 2.0), (0.1, 0.0)] {
            let (d, [a, da], [b, db]) = (grid.at::<true>(x, q), f(x), g(q));
            for k in 0..LANES {
                for (got, expected) in
                    [(d.f[k], a * b), (d.fx[k], da * b), (d.fq[k], a * db), (d.fxq[k], da * db)]
                {
                    assert!((got - expected).abs() < 1e-6, "{got} {expected}");
                }
            }
        }
        let (edge, beyond) = (grid.at::<true>(0.4, 1.5), grid.at_or_straight_on(0.4, 4.5, 1.5));
        assert!((beyond.f[0] - edge.f[0] - 3.0 * edge.fq[0]).abs() < 1e-12);
        assert!((beyond.fx[0] - edge.fx[0] - 3.0 * edge.fxq[0]).abs() < 1e-12);
    }
}
