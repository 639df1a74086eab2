//! The saturation line: everything about boiling liquid and dew at one pressure.
//!
//! Cubic Hermite curves in ln p carry seven properties. Their slopes at the knots are Clapeyron's, taken from
//! the equation of state. Above 98 % of the critical pressure the curves bend to a halt just short of the
//! critical point (carried straight on, liquid and vapour would cross); only the saturation temperature goes
//! on rising, so that a heat exchanger still feels a rising pressure.

use super::axis::{Axis, soft_clamp};
use super::hermite::{Knot, Weights, curves};

pub(super) const T: usize = 0;
pub(super) const H_L: usize = 1;
pub(super) const H_V: usize = 2;
pub(super) const S_L: usize = 3;
pub(super) const S_V: usize = 4;
/// Specific volume of the liquid [m3/kg].
pub(super) const V_L: usize = 5;
/// Pressure times specific volume of the vapour [J/kg]: nearly R*T at low pressure, so it tabulates well.
pub(super) const PV_V: usize = 6;
/// Curves of the saturation line, in the order of the constants above.
pub(super) const SATURATION_CURVES: usize = 7;

/// ln p is cut to plus or minus this, which keeps exp(ln p) and every product finite.
const LN_P_LIMIT: f64 = 60.0;
/// Relative fall of saturated volumes per ln p above the table, about that of liquid at 20 C and 40 bar.
const YIELD: f64 = 0.02;

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
    /// Pressure, absolute [Pa].
    pub p_pa: f64,
    /// Saturation temperature [K].
    pub t_k: f64,
    /// Enthalpy of boiling liquid [J/kg].
    pub h_l: f64,
    /// Enthalpy of saturated vapour [J/kg].
    pub h_v: f64,
    /// Density of boiling liquid [kg/m3].
    pub rho_l: f64,
    /// Density of saturated vapour [kg/m3].
    pub rho_v: f64,
    /// Entropy of boiling liquid [J/(kg K)].
    pub s_l: f64,
    /// Entropy of saturated vapour [J/(kg K)].
    pub s_v: f64,
    /// d(t_k)/d(ln p) [K].
    pub dt_dlnp: f64,
    /// d(h_l)/d(ln p) [J/kg].
    pub dh_l_dlnp: f64,
    /// d(h_v)/d(ln p) [J/kg].
    pub dh_v_dlnp: f64,
    /// d(rho_l)/d(ln p) [kg/m3].
    pub drho_l_dlnp: f64,
    /// d(rho_v)/d(ln p) [kg/m3].
    pub drho_v_dlnp: f64,
    /// d(s_l)/d(ln p) [J/(kg K)].
    pub ds_l_dlnp: f64,
    /// d(s_v)/d(ln p) [J/(kg K)].
    pub ds_v_dlnp: f64,
    /// Whether the pressure lies in the range of the tables.
    pub valid: bool,
    /// ln p as the tables see it, and its slope: they differ from `ln_p` and 1 only out of range.
    pub(super) table_ln_p: f64,
    pub(super) table_slope: f64,
    /// Added to every temperature above the table's top, and its slope in ln p.
    pub(super) t_shift: f64,
    pub(super) t_shift_slope: f64,
    /// Specific volumes [m3/kg] and their slopes in ln p.
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
    pub knots: Vec<Knot<SATURATION_CURVES>>,
    /// ln p of the range in which the curves are followed exactly.
    pub low: f64,
    pub high: f64,
    /// Slope of the saturation temperature at `high` [K].
    pub top_slope: f64,
}

impl SaturationLine {
    pub fn new(ln_p: Axis, knots: Vec<Knot<SATURATION_CURVES>>, low: f64, high: f64) -> Self {
        let mut line = Self { ln_p, knots, low, high, top_slope: 0.0 };
        line.top_slope = line.curves_at(high).slope[T];
        line
    }

    #[inline]
    pub fn curves_at(&self, ln_p: f64) -> Knot<SATURATION_CURVES> {
        let place = self.ln_p.place(ln_p);
        let pair = &self.knots[place.cell..place.cell + 2];
        curves(&pair[0], &pair[1], &Weights::at(&place))
    }

    #[inline]
    pub fn at(&self, ln_p: f64) -> Saturation {
        let ln_p = ln_p.clamp(-LN_P_LIMIT, LN_P_LIMIT);
        let (table_ln_p, table_slope) =
            soft_clamp(ln_p, self.low, self.low - self.ln_p.first(), self.high, self.ln_p.last() - self.high);
        let c = self.curves_at(table_ln_p);
        let p_pa = libm::exp(ln_p);
        let slope = |k: usize| c.slope[k] * table_slope;
        let (mut t_shift, mut t_shift_slope) = (0.0, 0.0);
        let (mut yielded, mut yielded_slope) = (1.0, 0.0);
        // Vapour volume: p*v over p. Below the table p goes on falling, above it p stops with the curves.
        let (mut v_v_p, mut v_v_p_slope) = (p_pa, 1.0);
        if ln_p > self.high {
            let (beyond, beyond_slope) = (ln_p - table_ln_p, 1.0 - table_slope);
            t_shift = self.top_slope * beyond;
            t_shift_slope = self.top_slope * beyond_slope;
            yielded = 1.0 / (1.0 + YIELD * beyond);
            yielded_slope = -YIELD * beyond_slope * yielded * yielded;
            (v_v_p, v_v_p_slope) = (libm::exp(table_ln_p), table_slope);
        }
        let (v_l, v_v) = (c.value[V_L] * yielded, c.value[PV_V] / v_v_p * yielded);
        let dv_l = slope(V_L) * yielded + c.value[V_L] * yielded_slope;
        let dv_v = (slope(PV_V) * yielded + c.value[PV_V] * (yielded_slope - v_v_p_slope * yielded)) / v_v_p;
        let (rho_l, rho_v) = (1.0 / v_l, 1.0 / v_v);
        Saturation {
            ln_p,
            p_pa,
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
            valid: ln_p >= self.low && ln_p <= self.high,
            table_ln_p,
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

    /// ln p at which the saturation temperature is `t_k`, and d(ln p)/dT [1/K]: the exact inverse of the
    /// curve in range, Clausius-Clapeyron below it, a straight line above.
    pub fn ln_p_at(&self, t_k: f64) -> (f64, f64) {
        let (bottom, top) = (self.curves_at(self.low), self.curves_at(self.high));
        if t_k >= top.value[T] {
            let slope = 1.0 / top.slope[T];
            return ((self.high + (t_k - top.value[T]) * slope).min(LN_P_LIMIT), slope);
        }
        if t_k <= bottom.value[T] {
            let (t0, t) = (bottom.value[T], t_k.max(1.0));
            let strength = t0 * t0 / bottom.slope[T];
            return ((self.low + strength * (1.0 / t0 - 1.0 / t)).max(-LN_P_LIMIT), strength / (t * t));
        }
        let cell = self.knots.partition_point(|k| k.value[T] <= t_k).clamp(1, self.knots.len() - 1) - 1;
        let (a, b) = (self.knots[cell].value[T], self.knots[cell + 1].value[T]);
        let (from, to) = (self.ln_p.knots()[cell], self.ln_p.knots()[cell + 1]);
        let mut x = from + (to - from) * (t_k - a) / (b - a);
        let mut slope = 1.0;
        // The curve is nearly straight inside a cell: Newton is down to rounding after three steps.
        for _ in 0..4 {
            let c = self.curves_at(x);
            slope = c.slope[T];
            x = (x - (c.value[T] - t_k) / slope).clamp(from, to);
        }
        (x, 1.0 / slope)
    }
}
