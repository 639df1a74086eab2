//! What the p-h chart draws behind the loop: saturation dome and isotherms of the refrigerant.

use crate::refrigerant::{Phase, Refrigerant, Saturation};
use crate::units::ZERO_C_K;

/// Curves of a refrigerant as (enthalpy \[J/kg\], pressure \[Pa absolute\]).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DomeData {
    /// Name of the refrigerant for people.
    pub refrigerant: String,
    /// Saturated liquid, rising pressure, up to the critical point.
    pub points_liquid: Vec<(f64, f64)>,
    /// Saturated vapour, rising pressure, up to the critical point.
    pub points_vapour: Vec<(f64, f64)>,
    /// Isotherms: temperature \[°C\] and points from high to low pressure.
    pub isotherms: Vec<(f64, Vec<(f64, f64)>)>,
    /// Saturation: temperature \[°C\] and pressure \[Pa absolute\], rising.
    pub saturation: Vec<(f64, f64)>,
}

impl DomeData {
    /// R-134a from the property tables.
    pub fn r134a() -> Self {
        Self::of(Refrigerant::r134a())
    }

    /// Any refrigerant from its property tables.
    pub fn of(r: &Refrigerant) -> Self {
        let top = r.max_p_pa();
        // From -60 °C to the top of the tables, then straight on to the critical point.
        let bottom = r.saturation_p_pa(213.15);
        let steps = 160;
        let pressures = (0..=steps).map(|i| bottom * (top / bottom).powf(f64::from(i) / f64::from(steps)));
        let sats: Vec<_> = pressures.map(|p| r.saturation(p.ln())).collect();
        let critical = (r.critical_h_j_per_kg(), r.critical_p_pa());
        let side = |h: &dyn Fn(&Saturation) -> f64| -> Vec<(f64, f64)> {
            sats.iter().map(|s| (h(s), s.p_pa)).chain(std::iter::once(critical)).collect()
        };
        let mut saturation: Vec<(f64, f64)> = sats.iter().map(|s| (s.t_k - ZERO_C_K, s.p_pa)).collect();
        saturation.push((r.critical_t_k() - ZERO_C_K, r.critical_p_pa()));
        Self {
            refrigerant: r.name().to_owned(),
            points_liquid: side(&|s| s.h_l),
            points_vapour: side(&|s| s.h_v),
            isotherms: [0.0, 20.0, 40.0, 60.0, 80.0].iter().map(|&t| (t, isotherm(r, t))).collect(),
            saturation,
        }
    }

    /// Saturation temperature \[°C\] at a pressure, clamped to the ends of the curve.
    pub fn saturation_c(&self, p_pa: f64) -> f64 {
        let curve = &self.saturation;
        let Some(&(mut t, _)) = curve.first() else { return f64::NAN };
        for pair in curve.windows(2) {
            let ((t0, p0), (t1, p1)) = (pair[0], pair[1]);
            if p_pa >= p0 {
                let share = ((p_pa / p0).ln() / (p1 / p0).ln()).min(1.0);
                t = t0 + share * (t1 - t0);
            }
        }
        t
    }

    /// Enthalpy of saturated liquid \[J/kg\] at a pressure, clamped to the ends of the curve.
    pub fn liquid_h(&self, p_pa: f64) -> f64 {
        along(&self.points_liquid, p_pa)
    }

    /// Enthalpy of saturated vapour \[J/kg\] at a pressure, clamped to the ends of the curve.
    pub fn vapour_h(&self, p_pa: f64) -> f64 {
        along(&self.points_vapour, p_pa)
    }

    /// Highest pressure of the dome \[Pa\].
    pub fn critical_pa(&self) -> f64 {
        self.points_liquid.last().map_or(f64::INFINITY, |&(_, p)| p)
    }
}

/// Enthalpy on a curve of rising pressure.
fn along(curve: &[(f64, f64)], p_pa: f64) -> f64 {
    let Some(&(mut h, _)) = curve.first() else { return f64::NAN };
    for pair in curve.windows(2) {
        let ((h0, p0), (h1, p1)) = (pair[0], pair[1]);
        if p_pa >= p0 && p1 > p0 {
            let share = ((p_pa / p0).ln() / (p1 / p0).ln()).min(1.0);
            h = h0 + share * (h1 - h0);
        }
    }
    h
}

/// An isotherm: down through the liquid, level through the dome, down through the vapour.
fn isotherm(r: &Refrigerant, t_c: f64) -> Vec<(f64, f64)> {
    let t_k = t_c + ZERO_C_K;
    let p_sat = r.saturation_p_pa(t_k);
    let top = 0.95 * r.max_p_pa();
    let between = |from: f64, to: f64, steps: i32| {
        (0..=steps).map(move |i| from * (to / from).powf(f64::from(i) / f64::from(steps)))
    };
    let mut points: Vec<(f64, f64)> =
        between(top, p_sat, 6).map(|p| (r.h_from_pt(p, t_k, Phase::Liquid), p)).collect();
    points.extend(between(p_sat, 2.0e4, 24).map(|p| (r.h_from_pt(p, t_k, Phase::Vapour), p)));
    points
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn saturation_follows_the_table() {
        let dome = DomeData::r134a();
        assert!((dome.saturation_c(1_016_590.0) - 40.0).abs() < 0.02);
        assert!((dome.saturation_c(330_000.0) - 3.3).abs() < 0.3);
        assert!(dome.saturation_c(1.0).is_finite() && dome.saturation_c(1e9).is_finite());
    }

    #[test]
    fn the_dome_closes_and_the_isotherms_bend_on_it() {
        let dome = DomeData::r134a();
        assert_eq!(dome.points_liquid.last(), dome.points_vapour.last());
        for (t, line) in &dome.isotherms {
            assert!(line.windows(2).all(|w| w[1].1 <= w[0].1), "{t} °C does not run down");
            let p_sat = Refrigerant::r134a().saturation_p_pa(t + ZERO_C_K);
            let (liquid, vapour) =
                line.split_at(line.iter().rposition(|p| p.1 > p_sat * 1.0001).unwrap() + 2);
            // Bends where the curves of the dome stand; those are drawn straight between their points.
            let (left, right) = (liquid.last().unwrap(), vapour.first().unwrap());
            assert!((left.0 - dome.liquid_h(p_sat)).abs() < 100.0, "{t} °C enters at {left:?}");
            assert!((right.0 - dome.vapour_h(p_sat)).abs() < 100.0, "{t} °C leaves at {right:?}");
            // Liquid stands almost upright and may lean either way (pressed at one temperature, cold liquid
            // gains enthalpy and hot liquid loses some); vapour leans right all the way.
            assert!(
                liquid.iter().all(|p| (p.0 - left.0).abs() < 0.03 * (right.0 - left.0)),
                "{t} °C: {liquid:?}"
            );
            assert!(vapour.windows(2).all(|w| w[1].0 > w[0].0), "{t} °C: {vapour:?}");
        }
    }
}
