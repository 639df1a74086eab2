//! Short tubes by the method that the plant takes. Kim & O'Neal 1994 and Choi et al. 2004 stand beside it in the unit tests;
//! no rig has them.

use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use crate::plant::correlations::short_tube::{ShortTube, TubeInlet};
use crate::refrigerant::Refrigerant;
use crate::units::ZERO_C_K;

const METHOD: &str =
    "formula of Payne & O'Neal, HVAC&R Research 10(1) (2004) 73-87, coefficients as coded in HPSim and ACHP";

/// Condensing temperature [°C] and subcooling [K].
const INLETS: [(f64, f64); 3] = [(45.0, 5.0), (55.0, 5.0), (60.0, 10.0)];

/// Bore [in], then g/s at each of the inlets.
const CAR_TUBES: [(f64, [f64; 3]); 5] = [
    (0.047, [15.49, 18.16, 23.47]),
    (0.057, [23.98, 27.77, 35.29]),
    (0.062, [28.98, 33.40, 42.14]),
    (0.067, [34.51, 39.60, 49.64]),
    (0.072, [40.56, 46.37, 57.78]),
];

/// Inside the range of Payne & O'Neal.
const IN_RANGE: ShortTube = ShortTube { length_m: 12.7e-3, diameter_m: 1.35e-3 };

fn inlet(tc: f64, sc: f64, quality: f64) -> TubeInlet {
    let r = Refrigerant::r134a();
    let (p_pa, p_sat_pa) = (r.saturation_p_pa(tc + ZERO_C_K), r.saturation_p_pa(tc - sc + ZERO_C_K));
    let sat = r.saturation(libm::log(p_pa));
    TubeInlet {
        p_pa,
        p_sat_pa,
        subcooling_k: sc,
        quality,
        rho_l: sat.rho_l,
        rho_v: sat.rho_v,
        rho_in: r.saturation(libm::log(p_sat_pa)).rho_l,
        // Not asked for by this method: saturated at 55 °C, CoolProp 8.0.0.
        mu: (1.325_33e-4, 1.323_19e-5),
        sigma: 0.004_897_7,
        p_critical_pa: r.critical_p_pa(),
        t_critical_k: r.critical_t_k(),
    }
}

/// The rows.
pub fn rows() -> Vec<Row> {
    let c = Case::new(Section::Components, "Short tubes", METHOD, Standing::Computed);
    let near = |want| Expected::share(want, 0.01);
    let flow = |tube: ShortTube, at: &TubeInlet| tube.payne_oneal(at).mass_kg_s * 1e3;
    let mut rows = Vec::new();
    let mut ask =
        |at: String, want, got| rows.push(c.row("flow, Payne & O'Neal", at, "g/s", near(want), got));
    for (inches, wanted) in CAR_TUBES {
        let tube = ShortTube { length_m: 38.1e-3, diameter_m: inches * 0.0254 };
        for ((tc, sc), want) in INLETS.into_iter().zip(wanted) {
            let words = format!("bore {inches} in, length 38.1 mm, {tc} °C, SC {sc} K");
            ask(words, want, flow(tube, &inlet(tc, sc, 0.0)));
        }
    }
    for (sc, want) in [(2.8, 24.21), (5.6, 25.80), (8.3, 27.52), (13.9, 32.38)] {
        let words = format!("bore 1.35 mm, length 12.7 mm, 41.7 °C, SC {sc} K");
        ask(words, want, flow(IN_RANGE, &inlet(41.7, sc, 0.0)));
    }
    for (x, want) in [(0.01, 22.91), (0.02, 21.85), (0.05, 19.87), (0.10, 17.34)] {
        let words = format!("bore 1.35 mm, length 12.7 mm, 55 °C, quality {x}");
        ask(words, want, flow(IN_RANGE, &inlet(55.0, 0.0, x)));
    }
    rows
}
