//! What the p-h chart draws behind the loop: saturation dome and isotherms of the refrigerant.

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

/// Saturation of R-134a: °C, kPa, h liquid, h vapour in kJ/kg (IIR reference). -30 to 80 °C from
/// reference/physics.md 1.4; the ends from the same tables, only drawn.
const R134A: [(f64, f64, f64, f64); 18] = [
    (-60.0, 15.91, 123.36, 361.31),
    (-50.0, 29.45, 135.67, 367.65),
    (-40.0, 51.21, 148.14, 374.00),
    (-30.0, 84.38, 160.79, 380.32),
    (-20.0, 132.73, 173.64, 386.55),
    (-10.0, 200.60, 186.70, 392.66),
    (0.0, 292.80, 200.00, 398.60),
    (10.0, 414.61, 213.58, 404.32),
    (20.0, 571.71, 227.47, 409.75),
    (30.0, 770.20, 241.72, 414.82),
    (40.0, 1016.59, 256.41, 419.43),
    (50.0, 1317.91, 271.62, 423.44),
    (60.0, 1681.78, 287.50, 426.63),
    (70.0, 2116.83, 304.28, 428.65),
    (80.0, 2633.20, 322.39, 428.81),
    (90.0, 3244.2, 342.93, 425.42),
    (100.0, 3972.4, 373.30, 407.68),
    (101.06, 4059.3, 389.64, 389.64),
];

impl DomeData {
    /// R-134a from a short table, until the property tables are asked.
    pub fn r134a() -> Self {
        let liquid: Vec<_> = R134A.iter().map(|&(_, p, h, _)| (h * 1e3, p * 1e3)).collect();
        let vapour: Vec<_> = R134A.iter().map(|&(_, p, _, h)| (h * 1e3, p * 1e3)).collect();
        let isotherms = [0.0, 20.0, 40.0, 60.0, 80.0].iter().map(|&t| (t, isotherm(t))).collect();
        Self {
            refrigerant: "R-134a".into(),
            points_liquid: smooth(&liquid),
            points_vapour: smooth(&vapour),
            isotherms,
            saturation: R134A.iter().map(|&(t, p, ..)| (t, p * 1e3)).collect(),
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

/// An isotherm: straight up in the liquid, level through the dome, then down through the vapour with the
/// departure from ideal gas taken as proportional to pressure.
fn isotherm(t_c: f64) -> Vec<(f64, f64)> {
    let Some(&(_, p_kpa, h_l, h_v)) = R134A.iter().find(|row| (row.0 - t_c).abs() < 1e-9) else {
        return Vec::new();
    };
    let mut points = vec![(h_l * 1e3, 6.0e6), (h_l * 1e3, p_kpa * 1e3), (h_v * 1e3, p_kpa * 1e3)];
    // Enthalpy at one atmosphere: from saturated vapour at -26 °C with cp = 0.82 + 0.0014 t kJ/(kg K).
    let h_atm = 382.8 + 0.82 * (t_c + 26.0) + 0.0007 * (t_c * t_c - 676.0);
    let slope = (h_atm - h_v) / (p_kpa - 101.325);
    for step in 1..=24 {
        let p = p_kpa * (20.0 / p_kpa).powf(f64::from(step) / 24.0);
        points.push(((h_v + slope * (p_kpa - p)) * 1e3, p * 1e3));
    }
    points
}

/// A smooth curve through the points (Catmull-Rom in enthalpy and log pressure).
fn smooth(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let log: Vec<_> = points.iter().map(|&(h, p)| (h, p.ln())).collect();
    let mut out = Vec::new();
    for i in 0..log.len().saturating_sub(1) {
        let at = |k: isize| log[(i as isize + k).clamp(0, log.len() as isize - 1) as usize];
        let (a, b, c, d) = (at(-1), at(0), at(1), at(2));
        for step in 0..6 {
            let u = f64::from(step) / 6.0;
            let curve = |a: f64, b: f64, c: f64, d: f64| {
                b + 0.5
                    * u
                    * ((c - a) + u * ((2.0 * a - 5.0 * b + 4.0 * c - d) + u * (3.0 * (b - c) + d - a)))
            };
            out.push((curve(a.0, b.0, c.0, d.0), curve(a.1, b.1, c.1, d.1).exp()));
        }
    }
    out.extend(points.last());
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn saturation_follows_the_table() {
        let dome = DomeData::r134a();
        assert!((dome.saturation_c(1_016_590.0) - 40.0).abs() < 1e-6);
        assert!((dome.saturation_c(330_000.0) - 3.3).abs() < 0.3);
        assert!(dome.saturation_c(1.0).is_finite() && dome.saturation_c(1e9).is_finite());
    }

    #[test]
    fn the_dome_closes_and_the_isotherms_lean_right() {
        let dome = DomeData::r134a();
        assert_eq!(dome.points_liquid.last(), dome.points_vapour.last());
        for (t, line) in &dome.isotherms {
            assert!(line.len() > 10, "{t} °C");
            assert!(line.windows(2).all(|w| w[1].1 <= w[0].1 && w[1].0 >= w[0].0 - 1.0), "{t} °C");
        }
    }
}
