//! Makes a property table from the equation of state (feature `tables` only).

use super::axis::Axis;
use super::correlations::Heat;
use super::equation::{Equation, EquationError, Single};
use super::grid::{CURVES, Grid, Node};
use super::hermite::Knot;
use super::saturation::{SATURATION_LANES, SaturationLine};
use super::table::RANGE_T_K;
use super::table::{Facts, Table};

/// The table reaches this far below 1 Pa in ln p, for the soft stop of the saturation line.
const BOTTOM_MARGIN: f64 = 0.25;
/// Fractions of the critical pressure: end of the valid range, and end of the table.
const TOP: f64 = 0.98;
const TABLE_TOP: f64 = 0.985;
/// Widest cell of ln p, and its greatest share of the distance to the critical point.
const WIDEST: f64 = 0.18;
const SHARE: f64 = 0.16;
/// The table goes on this far beyond the range: share of the enthalpy, and for the liquid's soft stop (J/kg) besides.
const BEYOND: f64 = 1.02;
const LIQUID_MARGIN: f64 = 60e3;
/// Steps from knot to knot along the saturation line.
const MARCH: u32 = 8;
/// First cell beside the saturation line (J/kg) and growth from cell to cell.
const FIRST_CELL: f64 = 1e3;
const GROWTH: f64 = 1.14;

/// The three tabulated curves at a point and their slopes in enthalpy.
type Curves = ([f64; 3], [f64; 3]);

/// Makes the table of the refrigerant whose coefficients are `json`; `name` is its designation.
pub fn make(name: &str, json: &str) -> Result<Vec<u8>, EquationError> {
    Ok(Maker::new(Equation::from_json(json)?)?.table(name)?.to_bytes())
}

struct Maker {
    eq: Equation,
    critical_ln_p: f64,
    knots: Vec<f64>,
    line: Vec<[Single; 2]>,
    /// Liquid colder than this (K) is continued with constant heat capacity: the equation does not hold there.
    coldest: f64,
}

impl Maker {
    fn new(eq: Equation) -> Result<Self, EquationError> {
        let critical_ln_p = libm::log(eq.constants.critical_point.p_pa);
        let knots = ln_p_knots(critical_ln_p);
        let line = march(&eq, &knots)?;
        let coldest = line[0][0].t - 1.0;
        Ok(Self { eq, critical_ln_p, knots, line, coldest })
    }

    fn table(&self, name: &str) -> Result<Table, EquationError> {
        let c = &self.eq.constants;
        let molar_mass = c.molarweight * 1e-3;
        let critical_rho = c.critical_point.rho_mol_m3 * molar_mass;
        let valid_t_k = [c.triple_point.t_k.max(RANGE_T_K[0]), c.max_t_k.min(RANGE_T_K[1])];
        let reach = self.reach(valid_t_k)?;
        let facts = Facts {
            critical_t_k: c.critical_point.t_k,
            critical_p_pa: c.critical_point.p_pa,
            critical_h: self.eq.at(c.critical_point.t_k, critical_rho)?.h,
            critical_rho,
            molar_mass_kg_mol: molar_mass,
            triple_t_k: c.triple_point.t_k,
            triple_p_pa: c.triple_point.p_pa,
            max_t_k: c.max_t_k,
            low: 0.0,
            high: self.critical_ln_p + libm::log(TOP),
            vapour_limit: reach[0],
            liquid_limit: reach[1],
            valid_t_k,
        };
        let knots = self.line.iter().map(saturation_knot).collect();
        let axis = Axis::new(self.knots.clone()).expect("knots rise");
        let saturation = SaturationLine::new(axis, knots, facts.low, facts.high);
        let vapour = self.grid(reach[0], |x, q| self.vapour_row(x, q))?;
        let liquid = self.grid(reach[1] + LIQUID_MARGIN, |x, q| self.liquid_row(x, q))?;
        Ok(Table {
            name: name.to_owned(),
            facts,
            saturation,
            saturation_transport: self.saturation_transport()?,
            vapour,
            liquid,
            correlations: c.transport.correlations(),
        })
    }

    /// Enthalpy (J/kg) from the dew line to the hottest and from the bubble line to the coldest valid state, at any
    /// pressure; a little more, so that it is the temperature that ends the range.
    fn reach(&self, [coldest, hottest]: [f64; 2]) -> Result<[f64; 2], EquationError> {
        // Ever farther down in pressure the dew is ever colder, so the hottest vapour of the lowest one is farthest away.
        let dew = self.line[0][1];
        let above = self.eq.at_pt(dew.p, hottest, dew.rho * dew.t / hottest)?.h - dew.h;
        let mut below = 0.0_f64;
        for [l, _] in self.line.iter().filter(|[l, _]| l.t > coldest) {
            below = below.max(l.h - self.eq.at_pt(l.p, coldest, self.line[0][0].rho)?.h);
        }
        Ok([above * BEYOND, below * BEYOND])
    }

    /// Transport along the saturation line, its slopes in ln p by central differences.
    fn saturation_transport(&self) -> Result<Vec<Knot<SATURATION_LANES>>, EquationError> {
        let (c, p_critical) = (&self.eq.constants.transport, self.eq.constants.critical_point.p_pa);
        let correlations = c.correlations();
        let at = |x: f64| -> Result<[f64; SATURATION_LANES], EquationError> {
            let [l, v] = self.saturation(x)?;
            let [[mu_l, k_l], [mu_v, k_v]] = [&l, &v].map(|s| correlations.at(&heat(s), p_critical));
            Ok([mu_l, mu_v, k_l, k_v, l.cp(), v.cp(), c.surface_tension(l.t), 0.0])
        };
        let mut knots = Vec::with_capacity(self.knots.len());
        for &x in &self.knots {
            let e = 1e-3 * (self.critical_ln_p - x).min(1.0);
            let (below, value, above) = (at(x - e)?, at(x)?, at(x + e)?);
            knots.push(Knot { value, slope: std::array::from_fn(|k| (above[k] - below[k]) / (2.0 * e)) });
        }
        Ok(knots)
    }

    fn grid(
        &self,
        reach: f64,
        row: impl Fn(f64, &[f64]) -> Result<Vec<Curves>, EquationError>,
    ) -> Result<Grid, EquationError> {
        let qs = distance_knots(reach);
        let mut nodes = Vec::with_capacity(self.knots.len() * qs.len());
        for &x in &self.knots {
            // Slopes in ln p by central differences of states that are exact to 1e-12.
            let e = 1e-3 * (self.critical_ln_p - x).min(1.0);
            let (below, here, above) = (row(x - e, &qs)?, row(x, &qs)?, row(x + e, &qs)?);
            let along = |a: &[f64; CURVES], b: &[f64; CURVES]| -> [f32; CURVES] {
                std::array::from_fn(|k| ((b[k] - a[k]) / (2.0 * e)) as f32)
            };
            for ((below, here), above) in below.iter().zip(&here).zip(&above) {
                let node: Node = [
                    here.0.map(|v| v as f32),
                    along(&below.0, &above.0),
                    here.1.map(|v| v as f32),
                    along(&below.1, &above.1),
                ];
                nodes.push(node);
            }
        }
        let axis = |knots| Axis::new(knots).expect("knots rise");
        Ok(Grid::new(&axis(self.knots.clone()), axis(qs), nodes))
    }

    /// Boiling liquid and saturated vapour at `x` = ln p.
    fn saturation(&self, x: f64) -> Result<[Single; 2], EquationError> {
        let above = self.knots.partition_point(|&k| k < x).clamp(1, self.knots.len() - 1);
        let near = if self.knots[above] - x < x - self.knots[above - 1] { above } else { above - 1 };
        self.eq.saturation(libm::exp(x), &self.line[near])
    }

    /// Deviations from the dew state: T, p*v, s.
    fn vapour_row(&self, x: f64, above: &[f64]) -> Result<Vec<Curves>, EquationError> {
        let p = libm::exp(x);
        let dew = self.saturation(x)?[1];
        let mut at = dew;
        let mut row = Vec::with_capacity(above.len());
        for &q in above {
            at = self.eq.at_ph(p, dew.h + q, &at)?;
            let [t_h, v_h, s_h] = at.by_h();
            let f = if q == 0.0 { [0.0; 3] } else { [at.t - dew.t, p * (at.v() - dew.v()), at.s - dew.s] };
            row.push((f, [t_h, p * v_h, s_h]));
        }
        Ok(row)
    }

    /// Deviations from the bubble state: T, v, s; slopes count in the distance below.
    fn liquid_row(&self, x: f64, below: &[f64]) -> Result<Vec<Curves>, EquationError> {
        let p = libm::exp(x);
        let bubble = self.saturation(x)?[0];
        let cold = self.eq.at_pt(p, self.coldest, self.line[0][0].rho)?;
        let mut at = bubble;
        let mut row = Vec::with_capacity(below.len());
        for &q in below {
            let h = bubble.h - q;
            let ([t, v, s], [t_h, v_h, s_h]) = if h > cold.h {
                at = self.eq.at_ph(p, h, &at)?;
                ([at.t, at.v(), at.s], at.by_h())
            } else {
                continued(&cold, h)
            };
            let f = if q == 0.0 { [0.0; 3] } else { [t - bubble.t, v - bubble.v(), s - bubble.s] };
            row.push((f, [-t_h, -v_h, -s_h]));
        }
        Ok(row)
    }
}

/// Liquid colder than the equation holds: T and v fall exponentially in h, so they stay positive, and the
/// entropy follows from dh = T ds.
fn continued(cold: &Single, h: f64) -> Curves {
    let [t_h, v_h, _] = cold.by_h();
    let y = h - cold.h;
    let t = cold.t * libm::exp(y * t_h / cold.t);
    let v = cold.v() * libm::exp(y * v_h / cold.v());
    let s = cold.s + (1.0 / cold.t - 1.0 / t) / t_h * cold.t;
    ([t, v, s], [t * t_h / cold.t, v * v_h / cold.v(), 1.0 / t])
}

/// The saturation line over rising knots of ln p, followed up and down from 0 C.
fn march(eq: &Equation, knots: &[f64]) -> Result<Vec<[Single; 2]>, EquationError> {
    let start = eq.at_0_c()?;
    let first = knots.partition_point(|&x| x < libm::log(start[0].p));
    let mut line = vec![start; knots.len()];
    let follow = |from: &[Single; 2], x: f64| {
        // Clapeyron's slope carries the guess from knot to knot.
        let [l, v] = *from;
        let dp = libm::exp(x) - l.p;
        let dt_dlnp = l.p * (v.v() - l.v()) / (v.s - l.s);
        let t = 1.0 / (1.0 / l.t - (x - libm::log(l.p)) * dt_dlnp / (l.t * l.t));
        let rho_l = l.rho + dp / l.p_rho - (t - l.t) * l.p_t / l.p_rho;
        let rho_v = v.rho * libm::exp(x) / v.p * v.t / t;
        let guess = |old: &Single, rho| Single { t, rho, ..*old };
        eq.saturation(libm::exp(x), &[guess(&l, rho_l), guess(&v, rho_v)])
    };
    // Steps shorter than a cell: near the critical point a guess must be close.
    let walk = |from: &[Single; 2], x: f64| -> Result<[Single; 2], EquationError> {
        let x0 = libm::log(from[0].p);
        (1..=MARCH).try_fold(*from, |last, i| follow(&last, x0 + (x - x0) * f64::from(i) / f64::from(MARCH)))
    };
    let mut last = start;
    for i in first..knots.len() {
        last = walk(&last, knots[i])?;
        line[i] = last;
    }
    last = start;
    for i in (0..first).rev() {
        last = walk(&last, knots[i])?;
        line[i] = last;
    }
    Ok(line)
}

/// The seven curves of the saturation line and their slopes in ln p.
fn saturation_knot([l, v]: &[Single; 2]) -> Knot<SATURATION_LANES> {
    let p = l.p;
    let t_p = (v.v() - l.v()) / (v.s - l.s);
    let along = |at: &Single| {
        let h = at.cp() * t_p + at.v() - at.t * at.v_t();
        let s = at.cp() / at.t * t_p - at.v_t();
        let vol = at.v_t() * t_p - 1.0 / (at.rho * at.rho * at.p_rho);
        [p * h, p * s, p * vol]
    };
    let ([hl, sl, vl], [hv, sv, vv]) = (along(l), along(v));
    Knot {
        value: [l.t, l.h, v.h, l.s, v.s, l.v(), p * v.v(), 0.0],
        slope: [p * t_p, hl, hv, sl, sv, vl, p * (v.v() + vv), 0.0],
    }
}

/// What the critical enhancement of the conductivity needs of a state.
fn heat(at: &Single) -> Heat {
    Heat { t: at.t, rho: at.rho, cp: at.cp(), cv: at.cv, rho_p: 1.0 / at.p_rho }
}

/// Knots of ln p from below 1 Pa to near the critical point: cells as wide as [`WIDEST`], and towards the
/// critical point no wider than [`SHARE`] of the distance to it.
fn ln_p_knots(critical: f64) -> Vec<f64> {
    let bottom = -BOTTOM_MARGIN;
    let mut knots = vec![critical + libm::log(TABLE_TOP)];
    loop {
        let x = knots[knots.len() - 1];
        let width = WIDEST.min(SHARE * (critical - x));
        if x - 1.5 * width <= bottom {
            break;
        }
        knots.push(x - width);
    }
    knots.push(bottom);
    knots.reverse();
    knots
}

/// Knots of the distance from the saturation line, each cell wider than the one before.
fn distance_knots(reach: f64) -> Vec<f64> {
    let mut knots = vec![0.0];
    let mut width = FIRST_CELL;
    while knots[knots.len() - 1] + 1.5 * width < reach {
        knots.push(knots[knots.len() - 1] + width);
        width *= GROWTH;
    }
    knots.push(reach);
    knots
}
