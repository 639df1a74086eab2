//! Short tubes: physics.md 7.1, three published methods and what any method must do.

use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use crate::plant::correlations::short_tube::{ShortTube, TubeInlet};
use crate::refrigerant::Refrigerant;
use crate::units::ZERO_C_K;

const METHODS: &str =
    "Payne & O'Neal 2004, Kim & O'Neal 1994, Choi et al. 2004, coefficients as coded in HPSim";

/// Condensing temperature [°C], subcooling [K], viscosities [Pa s] and surface tension [N/m] by CoolProp 8.0.0.
type Inlet = (f64, f64, (f64, f64), f64);

const INLETS: [Inlet; 3] = [
    (45.0, 5.0, (1.513_92e-4, 1.263_27e-5), 0.006_114_9),
    (55.0, 5.0, (1.325_33e-4, 1.323_19e-5), 0.004_897_7),
    (60.0, 10.0, (1.236_16e-4, 1.358_74e-5), 0.004_897_7),
];

/// Bore [in], then g/s after Payne & O'Neal, Kim & O'Neal and Choi at each of the inlets.
const CAR_TUBES: [(f64, [[f64; 3]; 3]); 5] = [
    (0.047, [[15.49, 18.49, 16.38], [18.16, 20.37, 17.73], [23.47, 25.96, 20.39]]),
    (0.057, [[23.98, 26.88, 24.71], [27.77, 29.63, 26.76], [35.29, 37.66, 30.77]]),
    (0.062, [[28.98, 31.64, 29.57], [33.40, 34.89, 32.02], [42.14, 44.28, 36.81]]),
    (0.067, [[34.51, 36.77, 34.89], [39.60, 40.55, 37.78], [49.64, 51.41, 43.43]]),
    (0.072, [[40.56, 42.26, 40.67], [46.37, 46.63, 44.05], [57.78, 59.04, 50.64]]),
];

/// Inside the range of Payne & O'Neal.
const IN_RANGE: ShortTube = ShortTube { length_m: 12.7e-3, diameter_m: 1.35e-3 };

fn inlet((tc, sc, mu, sigma): Inlet, quality: f64) -> TubeInlet {
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
        mu,
        sigma,
        p_critical_pa: r.critical_p_pa(),
        t_critical_k: r.critical_t_k(),
    }
}

/// The rows.
pub fn rows() -> Vec<Row> {
    let c = Case::new(Section::Components, "Short tubes", METHODS, Standing::Computed);
    let near = |want| Expected::share(want, 0.01);
    let evaporator = Refrigerant::r134a().saturation_p_pa(2.0 + ZERO_C_K);
    let mut rows = Vec::new();
    for (inches, table) in CAR_TUBES {
        let tube = ShortTube { length_m: 38.1e-3, diameter_m: inches * 0.0254 };
        for (at, [payne, kim, choi]) in INLETS.into_iter().zip(table) {
            let words = format!("bore {inches} in, length 38.1 mm, {} °C, SC {} K", at.0, at.1);
            let at = inlet(at, 0.0);
            for (name, want, got) in [
                ("flow, Payne & O'Neal", payne, tube.payne_oneal(&at)),
                ("flow, Kim & O'Neal", kim, tube.kim_oneal_r134a(&at, evaporator)),
                ("flow, Choi", choi, tube.choi(&at, evaporator)),
            ] {
                rows.push(c.row(name, &words, "g/s", near(want), got.mass_kg_s * 1e3));
            }
        }
    }
    let (mu, sigma) = (INLETS[1].2, INLETS[1].3);
    for (sc, payne, kim) in
        [(2.8, 24.21, 23.03), (5.6, 25.80, 24.76), (8.3, 27.52, 26.51), (13.9, 32.38, 30.52)]
    {
        let at = inlet((41.7, sc, mu, sigma), 0.0);
        let words = format!("bore 1.35 mm, length 12.7 mm, 41.7 °C, SC {sc} K");
        let kim_got = IN_RANGE.kim_oneal_r134a(&at, evaporator).mass_kg_s;
        rows.push(c.row(
            "flow, Payne & O'Neal",
            &words,
            "g/s",
            near(payne),
            IN_RANGE.payne_oneal(&at).mass_kg_s * 1e3,
        ));
        rows.push(c.row("flow, Kim & O'Neal", &words, "g/s", near(kim), kim_got * 1e3));
    }
    for (x, want) in [(0.01, 22.91), (0.02, 21.85), (0.05, 19.87), (0.10, 17.34)] {
        let got = IN_RANGE.payne_oneal(&inlet((55.0, 0.0, mu, sigma), x)).mass_kg_s * 1e3;
        let words = format!("bore 1.35 mm, length 12.7 mm, 55 °C, quality {x}");
        rows.push(c.row("flow, Payne & O'Neal", words, "g/s", near(want), got));
    }
    rows.extend(must(evaporator, mu, sigma));
    rows
}

/// What every method must do: rise with subcooling and pressure, not feel the evaporator once choked, fall at a wet
/// inlet, and agree with the others within a fifth.
fn must(evaporator: f64, mu: (f64, f64), sigma: f64) -> Vec<Row> {
    let c = Case::new(
        Section::Components,
        "Short tubes, what any method must do",
        "Kim & O'Neal 1995 (choking, abstract) and physics.md 7.1",
        Standing::Published,
    );
    let payne = |tc, sc, x| IN_RANGE.payne_oneal(&inlet((tc, sc, mu, sigma), x)).mass_kg_s * 1e3;
    let kim = |tc, sc, p| IN_RANGE.kim_oneal_r134a(&inlet((tc, sc, mu, sigma), 0.0), p).mass_kg_s * 1e3;
    let up = Expected::MoreThan(0.0);
    let colder = Refrigerant::r134a().saturation_p_pa(-8.0 + ZERO_C_K);
    let felt = 100.0 * (kim(50.0, 5.0, colder) / kim(50.0, 5.0, evaporator) - 1.0).abs();
    let apart = 100.0 * (kim(50.0, 5.0, evaporator) / payne(50.0, 5.0, 0.0) - 1.0);
    let at = "bore 1.35 mm, length 12.7 mm, 50 °C, SC 5 K";
    vec![
        c.row("rise of flow to SC 10 K", at, "g/s", up, payne(50.0, 10.0, 0.0) - payne(50.0, 5.0, 0.0)),
        c.row("rise of flow to 60 °C", at, "g/s", up, payne(60.0, 5.0, 0.0) - payne(50.0, 5.0, 0.0)),
        c.row("fall of flow to quality 0.05", at, "g/s", up, payne(50.0, 0.0, 0.0) - payne(50.0, 0.0, 0.05)),
        c.row("change when the evaporator falls from 2 to −8 °C", at, "%", Expected::AtMost(5.0), felt),
        c.row(
            "Kim & O'Neal over Payne & O'Neal",
            at,
            "%",
            Expected::Value { value: 0.0, tolerance: 20.0 },
            apart,
        ),
    ]
}
