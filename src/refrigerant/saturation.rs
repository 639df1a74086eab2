//! The saturation line: everything about boiling liquid and dew at one pressure.
//!
//! Cubic Hermite curves in ln p carry seven properties. Their slopes at the knots are Clapeyron's, taken from
//! the equation of state. Above 98 % of the critical pressure the curves bend to a halt just short of the
//! critical point (carried straight on, liquid and vapour would cross); only the saturation temperature goes
//! on rising, so that a heat exchanger still feels a rising pressure.

use super::axis::{Axis, Place, soft_clamp};
use super::hermite::{Knot, Weights, curves};

pub(super) const T: usize = 0;
pub(super) const H_L: usize = 1;
pub(super) const H_V: usize = 2;
pub(super) const S_L: usize = 3;
pub(super) const S_V: usize = 4;
/// Specific volume of the liquid (m3/kg).
pub(super) const V_L: usize = 5;
/// Pressure times specific volume of the vapour (J/kg): nearly R*T at low pressure, so it tabulates well.
pub(super) const PV_V: usize = 6;
/// Curves of the saturation line, in the order of the constants above.
pub(super) const SATURATION_CURVES: usize = 7;
/// Curves in memory: one is padding, so that they are computed in pairs.
pub(super) const SATURATION_LANES: usize = 8;

/// ln p is cut to plus or minus this, which keeps exp(ln p) and every product finite.
const LN_P_LIMIT: f64 = 60.0;
/// Relative fall of saturated volumes per ln p above the table, about that of liquid at 20 C and 40 bar.
const YIELD: f64 = 0.02;

/// Widest cell of ln p for which [`near_one`] is exact to rounding.
pub(super) const WIDEST_CELL: f64 = 0.3;

/// exp(x) and exp(-x) for |x| <= 0.15, by the series: a third of the time of a full exponential, and no division.
#[inline(always)]
fn near_one(x: f64) -> (f64, f64) {
    let x2 = x * x;
    let x4 = x2 * x2;
    let even = 1.0
        + x2 * (1.0 / 2.0 + x2 * (1.0 / 24.0))
        + x4 * x2 * (1.0 / 720.0 + x2 * (1.0 / 40_320.0) + x4 * (1.0 / 3_628_800.0));
    let odd = x + x * x2 * (1.0 / 6.0 + x2 * (1.0 / 120.0) + x4 * (1.0 / 5040.0 + x2 * (1.0 / 362_880.0)));
    (even + odd, even - odd)
}

/// Properties on the saturation line at one pressure, with their derivatives along it.
///
/// Enthalpy and entropy count from the IIR reference (200 kJ/kg and 1 kJ/(kg K) in liquid at 0 C). A
/// derivative `d*_dlnp` is the change along the saturation line per unit of ln p. Source: the equation of
/// state named in `assets/refrigerants/`. Valid from 1 Pa to 98 % of the critical pressure; below the triple
/// point the line is continued as if the liquid did not freeze.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturation {
    /// ln(p / 1 Pa).
    pub ln_p: f64,
    /// Pressure, absolute (Pa).
    pub p_pa: f64,
    /// Saturation temperature (K).
    pub t_k: f64,
    /// Enthalpy of boiling liquid (J/kg).
    pub h_l: f64,
    /// Enthalpy of saturated vapour (J/kg).
    pub h_v: f64,
    /// Density of boiling liquid (kg/m3).
    pub rho_l: f64,
    /// Density of saturated vapour (kg/m3).
    pub rho_v: f64,
    /// Entropy of boiling liquid (J/(kg K)).
    pub s_l: f64,
    /// Entropy of saturated vapour (J/(kg K)).
    pub s_v: f64,
    /// d(t_k)/d(ln p) (K).
    pub dt_dlnp: f64,
    /// d(h_l)/d(ln p) (J/kg).
    pub dh_l_dlnp: f64,
    /// d(h_v)/d(ln p) (J/kg).
    pub dh_v_dlnp: f64,
    /// d(rho_l)/d(ln p) (kg/m3).
    pub drho_l_dlnp: f64,
    /// d(rho_v)/d(ln p) (kg/m3).
    pub drho_v_dlnp: f64,
    /// d(s_l)/d(ln p) (J/(kg K)).
    pub ds_l_dlnp: f64,
    /// d(s_v)/d(ln p) (J/(kg K)).
    pub ds_v_dlnp: f64,
    /// Whether the pressure lies in the range of the tables.
    pub valid: bool,
    /// One over the pressure (1/Pa).
    pub(super) per_p: f64,
    /// The place of ln p in the tables, for the grids on both sides of the dome.
    pub(super) place: Place,
    /// Slope in ln p of ln p as the tables see it: differs from 1 only out of range.
    pub(super) table_slope: f64,
    /// Added to every temperature above the table's top, and its slope in ln p.
    pub(super) t_shift: f64,
    pub(super) t_shift_slope: f64,
    /// Specific volumes (m3/kg) and their slopes in ln p.
    pub(super) v_l: f64,
    pub(super) dv_l: f64,
    pub(super) v_v: f64,
    pub(super) dv_v: f64,
    /// Factor on every liquid volume above the table's top, and its slope in ln p.
    pub(super) yielded: f64,
    pub(super) yielded_slope: f64,
}

/// The curves behind [`Saturation`].
#[derive(Debug, Clone)]
pub(super) struct SaturationLine {
    pub ln_p: Axis,
    pub knots: Vec<Knot<SATURATION_LANES>>,
    /// Pressure (Pa) in the middle of each cell, and one over it.
    middle_p: Vec<[f64; 2]>,
    /// ln p of the range in which the curves are followed exactly.
    pub low: f64,
    pub high: f64,
    /// Saturation temperature (K) and its slope in ln p at `low` and at `high`.
    bottom: (f64, f64),
    top: (f64, f64),
}

impl SaturationLine {
    pub fn new(ln_p: Axis, knots: Vec<Knot<SATURATION_LANES>>, low: f64, high: f64) -> Self {
        let middle = |cell: &[f64]| {
            let p = libm::exp(0.5 * (cell[0] + cell[1]));
            [p, 1.0 / p]
        };
        let middle_p = ln_p.knots().windows(2).map(middle).collect();
        let mut line = Self { ln_p, knots, middle_p, low, high, bottom: (0.0, 0.0), top: (0.0, 0.0) };
        let t_at = |x| {
            let c = line.curves_at(x);
            (c.value[T], c.slope[T])
        };
        (line.bottom, line.top) = (t_at(low), t_at(high));
        line
    }

    #[inline]
    pub fn curves_at(&self, ln_p: f64) -> Knot<SATURATION_LANES> {
        let place = self.ln_p.place(ln_p);
        self.curves_in(place.cell, &Weights::at(&place))
    }

    #[inline(always)]
    fn curves_in(&self, cell: usize, weights: &Weights) -> Knot<SATURATION_LANES> {
        let pair = &self.knots[cell..cell + 2];
        curves(&pair[0], &pair[1], weights)
    }

    /// Whether the curves are followed exactly at `ln_p`.
    #[inline(always)]
    pub fn holds(&self, ln_p: f64) -> bool {
        ln_p >= self.low && ln_p <= self.high
    }

    /// The saturation at `ln_p`. `INSIDE` promises that the line holds there, which leaves out the continuation.
    #[inline(always)]
    pub fn at<const INSIDE: bool>(&self, ln_p: f64) -> Saturation {
        let ln_p = if INSIDE { ln_p } else { ln_p.clamp(-4.0 * LN_P_LIMIT, LN_P_LIMIT) };
        let (table_ln_p, table_slope) = if INSIDE {
            (ln_p, 1.0)
        } else {
            soft_clamp(ln_p, self.low, self.low - self.ln_p.first(), self.high, self.ln_p.last() - self.high)
        };
        let place = self.ln_p.place(table_ln_p);
        let c = self.curves_in(place.cell, &Weights::at(&place));
        let ([middle_p, per_middle_p], (up, down)) =
            (self.middle_p[place.cell], near_one((place.t - 0.5) * place.width));
        let (mut p_pa, mut per_p) = (middle_p * up, per_middle_p * down);
        let per_table_p = per_p;
        if !INSIDE && table_ln_p != ln_p {
            p_pa = libm::exp(ln_p);
            per_p = 1.0 / p_pa;
        }
        let slope = |k: usize| c.slope[k] * table_slope;
        let (mut t_shift, mut t_shift_slope) = (0.0, 0.0);
        let (mut yielded, mut yielded_slope) = (1.0, 0.0);
        // Vapour volume: p*v over p. Below the table p goes on falling, above it p stops with the curves.
        let (mut v_v_per_p, mut v_v_p_slope) = (per_p, 1.0);
        if !INSIDE && ln_p > self.high {
            let (beyond, beyond_slope) = (ln_p - table_ln_p, 1.0 - table_slope);
            t_shift = self.top.1 * beyond;
            t_shift_slope = self.top.1 * beyond_slope;
            yielded = 1.0 / (1.0 + YIELD * beyond);
            yielded_slope = -YIELD * beyond_slope * yielded * yielded;
            (v_v_per_p, v_v_p_slope) = (per_table_p, table_slope);
        }
        let (v_l, v_v) = (c.value[V_L] * yielded, c.value[PV_V] * v_v_per_p * yielded);
        let dv_l = slope(V_L) * yielded + c.value[V_L] * yielded_slope;
        let dv_v =
            (slope(PV_V) * yielded + c.value[PV_V] * (yielded_slope - v_v_p_slope * yielded)) * v_v_per_p;
        let (rho_l, rho_v) = (1.0 / v_l, 1.0 / v_v);
        Saturation {
            ln_p,
            p_pa,
            per_p,
            t_k: c.value[T] + t_shift,
            h_l: c.value[H_L],
            h_v: c.value[H_V],
            rho_l,
            rho_v,
            s_l: c.value[S_L],
            s_v: c.value[S_V],
            dt_dlnp: slope(T) + t_shift_slope,
            dh_l_dlnp: slope(H_L),
            dh_v_dlnp: slope(H_V),
            drho_l_dlnp: -rho_l * rho_l * dv_l,
            drho_v_dlnp: -rho_v * rho_v * dv_v,
            ds_l_dlnp: slope(S_L),
            ds_v_dlnp: slope(S_V),
            valid: INSIDE || self.holds(ln_p),
            place,
            table_slope,
            t_shift,
            t_shift_slope,
            v_l,
            dv_l,
            v_v,
            dv_v,
            yielded,
            yielded_slope,
        }
    }

    /// ln p at which the saturation temperature is `t_k`, and d(ln p)/dT (1/K): the exact inverse of the
    /// curve in range, Clausius-Clapeyron below it, a straight line above.
    pub fn ln_p_at(&self, t_k: f64) -> (f64, f64) {
        let ((t_bottom, bottom_slope), (t_top, top_slope)) = (self.bottom, self.top);
        if t_k >= t_top {
            return ((self.high + (t_k - t_top) / top_slope).min(LN_P_LIMIT), 1.0 / top_slope);
        }
        if t_k <= t_bottom {
            let t = t_k.max(1.0);
            let strength = t_bottom * t_bottom / bottom_slope;
            let ln_p = self.low + strength * (1.0 / t_bottom - 1.0 / t);
            return (ln_p.max(-LN_P_LIMIT), strength / (t * t));
        }
        let cell = self.knots.partition_point(|k| k.value[T] <= t_k).clamp(1, self.knots.len() - 1) - 1;
        let (below, above) = (&self.knots[cell], &self.knots[cell + 1]);
        let of_t = |k: &Knot<SATURATION_LANES>| Knot { value: [k.value[T]], slope: [k.slope[T]] };
        let (below, above) = (of_t(below), of_t(above));
        let (from, width) = (self.ln_p.knots()[cell], self.ln_p.knots()[cell + 1] - self.ln_p.knots()[cell]);
        let mut place = Place {
            cell,
            t: (t_k - below.value[0]) / (above.value[0] - below.value[0]),
            width,
            inverse_width: 1.0 / width,
        };
        let mut slope = 1.0;
        // The curve is nearly straight inside a cell: Newton is down to rounding after three steps.
        for _ in 0..3 {
            let c = curves(&below, &above, &Weights::at(&place));
            slope = c.slope[0];
            place.t -= (c.value[0] - t_k) / (slope * width);
        }
        (from + place.t * width, 1.0 / slope)
    }
}

#[cfg(test)]
mod tests {
    use super::super::Refrigerant;

    /// CoolProp 8.0.0, R-134a at 20 C: 571.706 kPa, 1225.33 and 27.7803 kg/m3.
    #[test]
    fn saturation_at_20_c() {
        let r = Refrigerant::r134a();
        let sat = r.saturation(libm::log(571_706.0));
        assert!((sat.t_k - 293.15).abs() < 1e-4);
        assert!((sat.rho_l - 1225.33).abs() < 0.01 && (sat.rho_v - 27.7803).abs() < 1e-4);
        assert!((r.saturation_p_pa(293.15) / 571_706.0 - 1.0).abs() < 1e-5);
    }

    #[test]
    fn the_short_exponential_is_exact_to_rounding() {
        for i in -150..=150 {
            let x = f64::from(i) * 1e-3;
            let (up, down) = super::near_one(x);
            assert!(
                (up / libm::exp(x) - 1.0).abs() < 5e-16 && (down * libm::exp(x) - 1.0).abs() < 5e-16,
                "{x}"
            );
        }
    }

    /// Above the table the temperature goes on rising and the phases stay apart and in order.
    #[test]
    fn above_the_table_the_dome_stays_open() {
        let r = Refrigerant::r134a();
        let mut last = r.saturation(libm::log(r.max_p_pa()));
        for _ in 0..200 {
            let next = r.saturation(last.ln_p + 0.05);
            assert!(next.t_k > last.t_k && next.rho_v > last.rho_v && next.rho_l > next.rho_v);
            assert!(next.h_v > next.h_l && !next.valid);
            last = next;
        }
    }
}
