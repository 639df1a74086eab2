//! Cycle points without line losses, computed from the tables and by CoolProp 8.0.0.

use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::sources::COOLPROP;
use crate::refrigerant::{Phase, Refrigerant};
use crate::units::ZERO_C_K;

/// A simple cycle: temperatures [°C], superheat and subcooling [K], isentropic efficiency.
#[derive(Clone, Copy, Debug)]
pub struct Cycle {
    /// Evaporating.
    pub te: f64,
    /// Condensing.
    pub tc: f64,
    /// Superheat.
    pub sh: f64,
    /// Subcooling.
    pub sc: f64,
    /// Isentropic efficiency.
    pub eta: f64,
}

/// What a cycle does.
#[derive(Clone, Copy, Debug)]
pub struct Points {
    /// Suction and discharge pressure [Pa].
    pub p: (f64, f64),
    /// Refrigerating effect [J/kg].
    pub q: f64,
    /// Specific work [J/kg].
    pub w: f64,
    /// Discharge temperature [K].
    pub t2: f64,
    /// Discharge temperature of an ideal compression [K].
    pub t2s: f64,
    /// Flash quality.
    pub x4: f64,
    /// Volumetric capacity [J/m3].
    pub vcc: f64,
}

impl Cycle {
    /// Work it out.
    pub fn points(&self, r: &Refrigerant) -> Points {
        let (te, tc) = (self.te + ZERO_C_K, self.tc + ZERO_C_K);
        let p = (r.saturation_p_pa(te), r.saturation_p_pa(tc));
        let (u1, u2) = (libm::log(p.0), libm::log(p.1));
        let (low, high) = (r.saturation(u1), r.saturation(u2));
        let h1 = r.h_from_pt(p.0, te + self.sh, Phase::Vapour);
        let suction = r.state(u1, h1);
        let h2s = r.isentropic_h(u2, suction.s_j_per_kg_k, high.h_v + 2e4);
        let w = (h2s - h1) / self.eta;
        let h3 = if self.sc > 0.0 { r.h_from_pt(p.1, tc - self.sc, Phase::Liquid) } else { high.h_l };
        let q = h1 - h3;
        Points {
            p,
            q,
            w,
            t2: r.state(u2, h1 + w).t_k,
            t2s: r.state(u2, h2s).t_k,
            x4: (h3 - low.h_l) / (low.h_v - low.h_l),
            vcc: q * suction.rho_kg_m3,
        }
    }
}

/// Te, Tc, SH, SC, eta; then p_s, p_d [kPa], q, w [kJ/kg], T2, T2s [°C], x4, VCC [kJ/m3].
const POINTS: [(&str, [f64; 5], [f64; 8]); 10] = [
    ("R-134a", [0.0, 40.0, 0.0, 0.0, 1.0], [292.8, 1016.6, 142.19, 25.88, 44.49, 44.49, 0.2840, 2051.6]),
    ("R-134a", [0.0, 50.0, 10.0, 5.0, 0.65], [292.8, 1317.9, 143.62, 50.85, 80.56, 64.52, 0.3217, 1971.8]),
    ("R-134a", [5.0, 45.0, 5.0, 5.0, 0.70], [349.7, 1159.9, 149.69, 36.60, 63.75, 53.81, 0.2549, 2498.3]),
    ("R-134a", [7.2, 54.4, 11.1, 8.3, 0.70], [377.2, 1469.8, 147.44, 42.89, 80.44, 69.18, 0.2891, 2569.2]),
    ("R-134a", [5.0, 60.0, 10.0, 10.0, 0.65], [349.7, 1681.8, 139.14, 53.03, 90.18, 74.39, 0.3323, 2265.6]),
    ("R-1234yf", [0.0, 40.0, 0.0, 0.0, 1.0], [315.9, 1018.5, 108.43, 20.85, 40.00, 40.00, 0.3367, 1912.2]),
    ("R-1234yf", [5.0, 45.0, 5.0, 5.0, 0.70], [373.0, 1153.9, 116.44, 29.54, 54.38, 46.79, 0.3025, 2350.8]),
    ("R-1234yf", [5.0, 60.0, 10.0, 10.0, 0.65], [373.0, 1641.8, 106.37, 42.48, 77.18, 65.49, 0.3949, 2093.8]),
    ("R-32", [5.0, 45.0, 5.0, 5.0, 0.70], [951.4, 2794.8, 247.14, 63.82, 95.01, 80.26, 0.2163, 6179.8]),
    ("R-290", [5.0, 45.0, 5.0, 5.0, 0.70], [551.1, 1534.3, 282.21, 70.27, 63.17, 53.78, 0.2569, 3288.7]),
];

/// The rows; tolerances of our own: 0.3 %, temperatures 0.3 K, quality 0.002. A pressure that the saturation tables have
/// (every ten kelvin) or that a cycle above had is no row again, nor is an ideal end of an ideal compression.
pub fn rows() -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for (name, [te, tc, sh, sc, eta], want) in POINTS {
        let c = Case::new(Section::Steady, format!("Cycle points, {name}"), COOLPROP, Standing::Computed);
        let at = format!("{te}/{tc} °C, SH {sh} K, SC {sc} K, efficiency {eta}");
        let Some(r) = Refrigerant::by_name(name) else {
            rows.push(
                c.row("cycle", at, "table", Expected::AtLeast(1.0), None)
                    .noting("not available: the program has no table of this refrigerant yet"),
            );
            continue;
        };
        let p = Cycle { te, tc, sh, sc, eta }.points(r);
        let got = [p.p.0 / 1e3, p.p.1 / 1e3, p.q / 1e3, p.w / 1e3, p.t2, p.t2s, p.x4, p.vcc / 1e3];
        let names = [
            ("suction pressure", "kPa"),
            ("discharge pressure", "kPa"),
            ("refrigerating effect", "kJ/kg"),
            ("specific work", "kJ/kg"),
            ("discharge temperature", "°C"),
            ("ideal discharge temperature", "°C"),
            ("flash quality", ""),
            ("volumetric capacity", "kJ/m³"),
        ];
        for (((quantity, unit), want), got) in names.into_iter().zip(want).zip(got) {
            let again = match quantity {
                "suction pressure" => te % 10.0 == 0.0 || (te, tc) == (5.0, 60.0),
                "discharge pressure" => tc % 10.0 == 0.0,
                // A wet end has the condensing temperature, which is given.
                "discharge temperature" => want == tc,
                "ideal discharge temperature" => eta == 1.0,
                _ => false,
            };
            if again {
                continue;
            }
            let (expected, got) = match unit {
                "°C" => (Expected::Value { value: want, tolerance: 0.3 }, got - ZERO_C_K),
                "" => (Expected::Value { value: want, tolerance: 0.002 }, got),
                _ => (Expected::share(want, 3e-3), got),
            };
            rows.push(c.row(quantity, &at, unit, expected, got));
        }
        let (want, got) = (want[2] / want[3], p.q / p.w);
        rows.push(c.row("COP", &at, "", Expected::share(want, 3e-3), got));
    }
    rows
}
