//! Void fractions, film coefficients and the short tube: physics.md 6.2 and 7.1.

use super::row::{Case, Expected, Row, Standing};
use super::section::Section;
use crate::bench::Bench;
use crate::units::ZERO_C_K;

/// Temperature [°C], then pairs of quality and void fraction after Zivi 1964.
const ZIVI: [(f64, [(f64, f64); 6]); 2] = [
    (50.0, [(0.1, 0.4200), (0.2, 0.6196), (0.3, 0.7363), (0.5, 0.8670), (0.7, 0.9383), (0.9, 0.9832)]),
    (5.0, [(0.1, 0.6632), (0.2, 0.8159), (0.3, 0.8837), (0.5, 0.9466), (0.7, 0.9764), (0.9, 0.9938)]),
];

/// The rows.
pub fn rows(like: &Bench) -> Vec<Row> {
    let mut rows = void_fraction(like);
    let missing = |name: &str, source: &'static str, what: &str, at: &str| {
        Case::new(Section::Components, name, source, Standing::Published)
            .row(what, at, "", Expected::AtLeast(1.0), None)
            .noting("not modelled yet")
    };
    rows.extend([
        missing(
            "Films, condensation",
            "Shah 1979 and others through the open library `ht` 1.2.0",
            "film coefficient",
            "R-134a, 50 °C, G 300 kg/(m² s)",
        ),
        missing(
            "Films, boiling",
            "Chen 1966 and others through the open library `ht` 1.2.0",
            "film coefficient",
            "R-134a, 5 °C, G 200 kg/(m² s)",
        ),
        missing(
            "Short tube",
            "Payne & O'Neal, HVAC&R Research 10(1) (2004); Kim & O'Neal 1994; Choi et al. 2004",
            "flow of orifice tubes",
            "R-134a, 0.047 to 0.072 in",
        ),
    ]);
    rows
}

/// What a channel of the plant holds, against the published law.
fn void_fraction(like: &Bench) -> Vec<Row> {
    let c = Case::new(
        Section::Components,
        "Void fraction",
        "Zivi 1964 through the open library `fluids` 1.3.1",
        Standing::Computed,
    );
    let (plant, r) = (like.plant(), like.plant().refrigerant());
    let mut rows = Vec::new();
    for (t_c, points) in ZIVI {
        let p = r.saturation_p_pa(t_c + ZERO_C_K);
        let s = r.saturation(libm::log(p));
        for (x, want) in points {
            let got = plant.at_pressure(p, s.h_l + x * (s.h_v - s.h_l)).void;
            let at = format!("R-134a, {t_c} °C, quality {x}");
            rows.push(c.row("void fraction", at, "", Expected::Value { value: want, tolerance: 0.003 }, got));
        }
    }
    // Mean densities over a linear quality: what decides how much refrigerant a coil holds.
    for (t_c, from, want) in [(50.0, 0.0, 294.0), (5.0, 0.25, 73.0)] {
        let p = r.saturation_p_pa(t_c + ZERO_C_K);
        let s = r.saturation(libm::log(p));
        let n = 400;
        let mean: f64 = (0..n)
            .map(|i| {
                let x = from + (1.0 - from) * (f64::from(i) + 0.5) / f64::from(n);
                let void = plant.at_pressure(p, s.h_l + x * (s.h_v - s.h_l)).void;
                void * s.rho_v + (1.0 - void) * s.rho_l
            })
            .sum::<f64>()
            / f64::from(n);
        let at = format!("R-134a, {t_c} °C, quality {from} to 1");
        rows.push(c.row("mean density in a coil", at, "kg/m³", Expected::share(want, 0.02), mean));
    }
    rows
}
