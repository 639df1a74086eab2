//! Cubic Hermite interpolation: value and slope meet at every knot, so the curve is smooth to the first
//! derivative, and its own derivative is a polynomial that a Newton solver can trust exactly.

use super::axis::Place;

/// Weights of (value below, slope below, value above, slope above), for the value and for its derivative.
#[derive(Debug, Clone, Copy)]
pub(super) struct Weights {
    pub value: [f64; 4],
    pub slope: [f64; 4],
}

impl Weights {
    #[inline(always)]
    pub fn at(place: &Place) -> Self {
        let (t, width) = (place.t, place.width);
        let t2 = t * t;
        let above = t2 * (3.0 - 2.0 * t);
        let slope_above = 6.0 * (t - t2) * place.inverse_width;
        Self {
            value: [1.0 - above, width * t * (1.0 - t) * (1.0 - t), above, width * t2 * (t - 1.0)],
            slope: [-slope_above, 1.0 + t * (3.0 * t - 4.0), slope_above, t * (3.0 * t - 2.0)],
        }
    }
}

/// Several curves over the same knots: at each knot `N` values and `N` slopes.
#[derive(Debug, Clone, Copy, PartialEq)]
#[repr(align(64))]
pub(super) struct Knot<const N: usize> {
    pub value: [f64; N],
    pub slope: [f64; N],
}

/// Values and slopes of all curves between two knots.
#[inline(always)]
pub(super) fn curves<const N: usize>(below: &Knot<N>, above: &Knot<N>, w: &Weights) -> Knot<N> {
    let mut out = Knot { value: [0.0; N], slope: [0.0; N] };
    for k in 0..N {
        let (a, da, b, db) = (below.value[k], below.slope[k], above.value[k], above.slope[k]);
        out.value[k] = w.value[0] * a + w.value[1] * da + w.value[2] * b + w.value[3] * db;
        out.slope[k] = w.slope[0] * a + w.slope[1] * da + w.slope[2] * b + w.slope[3] * db;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::super::axis::Axis;
    use super::*;

    #[test]
    fn a_cubic_is_reproduced_with_its_slope() {
        let f = |x: f64| 1.0 + x * (2.0 + x * (-3.0 + 0.5 * x));
        let g = |x: f64| 2.0 + x * (-6.0 + 1.5 * x);
        let knots = [0.0, 0.3, 1.7];
        let axis = Axis::new(knots.to_vec()).unwrap();
        let knot = |x| Knot { value: [f(x)], slope: [g(x)] };
        for x in [0.0, 0.1, 0.3, 1.0, 1.69, 1.7] {
            let place = axis.place(x);
            let y = curves(&knot(knots[place.cell]), &knot(knots[place.cell + 1]), &Weights::at(&place));
            assert!((y.value[0] - f(x)).abs() < 1e-14 && (y.slope[0] - g(x)).abs() < 1e-13);
        }
    }
}
