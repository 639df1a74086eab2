//! Properties: refrigerant tables against independent software, a field chart, moist air and water.

use super::air;
use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::saturation_data::{Line, R_32, R_134A, R_290, R_1234YF};
use super::section::Section;
use crate::refrigerant::Refrigerant;
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// Independent software that the tables are compared with.
pub const COOLPROP: &str = "CoolProp 8.0.0 with the equation of state of physics.md 1.1";

/// What is expected of a refrigerant: physics.md 1.2, 1.3 and 1.4.
struct Fluid {
    name: &'static str,
    /// Critical temperature [K], pressure [kPa], density [kg/m3].
    critical: [f64; 3],
    /// Molar mass [g/mol], normal boiling point [°C], triple point [K], highest temperature [K].
    rest: [f64; 4],
    /// Enthalpy [kJ/kg] and entropy [kJ/(kg K)] of the IIR reference over the ASHRAE reference.
    offset: [f64; 2],
    table: &'static [Line],
}

const FLUIDS: [Fluid; 4] = [
    Fluid {
        name: "R-134a",
        critical: [374.212, 4059.28, 511.95],
        rest: [102.032, -26.07, 169.85, 455.0],
        offset: [148.144, 0.79561],
        table: &R_134A,
    },
    Fluid {
        name: "R-1234yf",
        critical: [367.85, 3384.37, 476.69],
        rest: [114.042, -29.46, 121.6, 410.0],
        offset: [150.151, 0.80370],
        table: &R_1234YF,
    },
    Fluid {
        name: "R-32",
        critical: [351.255, 5782.65, 424.0],
        rest: [52.024, -51.65, 136.34, 435.0],
        offset: [133.226, 0.73819],
        table: &R_32,
    },
    Fluid {
        name: "R-290",
        critical: [369.890, 4251.17, 220.48],
        rest: [44.096, -42.11, 85.53, 650.0],
        offset: [105.123, 0.62751],
        table: &R_290,
    },
];

fn case(name: String) -> Case {
    Case::new(Section::Properties, name, COOLPROP, Standing::Computed)
}

/// The rows.
pub fn rows() -> Vec<Row> {
    let mut rows = Vec::new();
    for fluid in &FLUIDS {
        match Refrigerant::by_name(fluid.name) {
            Some(r) => {
                rows.extend(fixed_points(fluid, r));
                rows.extend(saturation(fluid, r));
            }
            None => rows.push(
                case(format!("{}, fixed points and saturation table", fluid.name))
                    .row("property table", "", "table", Expected::AtLeast(1.0), None)
                    .noting("not available: the program has no table of this refrigerant yet"),
            ),
        }
    }
    if let Some(r) = Refrigerant::by_name("R-32") {
        // Above its critical point there is nothing to boil.
        rows.push(case("R-32, no saturation at 80 °C".to_owned()).row(
            "critical temperature",
            "",
            "°C",
            Expected::AtMost(79.99),
            r.critical_t_k() - ZERO_C_K,
        ));
    }
    rows.extend(slopes());
    rows.extend(transport());
    rows.extend(field_chart());
    rows.extend(air::psychrometrics());
    rows.extend(air::boiling_water());
    rows
}

fn fixed_points(fluid: &Fluid, r: &Refrigerant) -> Vec<Row> {
    let c = case(format!("{}, fixed points", fluid.name));
    let boiling = r.saturation(libm::log(ATMOSPHERE_PA)).t_k - ZERO_C_K;
    let near = |value, tolerance| Expected::Value { value, tolerance };
    let [tc, pc, rho_c] = fluid.critical;
    let [molar, normal, triple, highest] = fluid.rest;
    let mut rows = vec![
        c.row("critical temperature", "", "K", near(tc, 0.05), r.critical_t_k()),
        c.row("critical pressure", "", "kPa", Expected::share(pc, 1e-3), r.critical_p_pa() / 1e3),
        c.row("critical density", "", "kg/m³", Expected::share(rho_c, 5e-3), r.critical_rho_kg_m3()),
        c.row("molar mass", "", "g/mol", Expected::share(molar, 1e-4), r.molar_mass_kg_mol() * 1e3),
        c.row("normal boiling point", "101.325 kPa", "°C", near(normal, 0.05), boiling),
        c.row("triple point", "", "K", near(triple, 0.1), r.triple_t_k()),
        c.row("highest temperature", "of the equation", "K", near(highest, 0.5), r.max_t_k()),
    ];
    // The ASHRAE reference is zero in saturated liquid at −40 °C, so what the IIR reference has there is the offset.
    let liquid = |t_c: f64| r.saturation(libm::log(r.saturation_p_pa(t_c + ZERO_C_K)));
    let (zero, cold) = (liquid(0.0), liquid(-40.0));
    let c = case(format!("{}, reference states", fluid.name));
    rows.extend([
        c.row("liquid enthalpy", "0 °C", "kJ/kg", near(200.0, 0.01), zero.h_l / 1e3),
        c.row("liquid entropy", "0 °C", "kJ/(kg K)", near(1.0, 1e-4), zero.s_l / 1e3),
        c.row("enthalpy IIR − ASHRAE", "", "kJ/kg", near(fluid.offset[0], 0.05), cold.h_l / 1e3),
        c.row("entropy IIR − ASHRAE", "", "kJ/(kg K)", near(fluid.offset[1], 2e-4), cold.s_l / 1e3),
    ]);
    rows
}

/// Tolerances of physics.md 1.4: pressure and liquid density 0.1 %, vapour density 0.3 %, enthalpy 0.3 kJ/kg,
/// temperature 0.05 K; entropy as enthalpy over 300 K, heat capacity by the equation's own 1 % (1.1).
fn saturation(fluid: &Fluid, r: &Refrigerant) -> Vec<Row> {
    let c = case(format!("{}, saturation table", fluid.name));
    let mut rows = Vec::new();
    for &[t_c, p_kpa, rho_l, rho_v, h_l, h_v, s_l, s_v, cp_l, cp_v] in fluid.table {
        let p_pa = r.saturation_p_pa(t_c + ZERO_C_K);
        let ln_p = libm::log(p_pa);
        let s = r.saturation(ln_p);
        let at_p = r.saturation(libm::log(p_kpa * 1e3));
        // Just outside the dome the slope of temperature in enthalpy is 1 / cp.
        let cp = |h: f64| 1e-3 / r.state_with(&s, h).dt_dh;
        let at = format!("{t_c} °C");
        let h = |value| Expected::Value { value, tolerance: 0.3 };
        let entropy = |value| Expected::Value { value, tolerance: 1e-3 };
        let t = Expected::Value { value: t_c, tolerance: 0.05 };
        rows.extend([
            c.row("pressure", &at, "kPa", Expected::share(p_kpa, 1e-3), p_pa / 1e3),
            c.row("saturation temperature", format!("{p_kpa} kPa"), "°C", t, at_p.t_k - ZERO_C_K),
            c.row("liquid density", &at, "kg/m³", Expected::share(rho_l, 1e-3), s.rho_l),
            c.row("vapour density", &at, "kg/m³", Expected::share(rho_v, 3e-3), s.rho_v),
            c.row("liquid enthalpy", &at, "kJ/kg", h(h_l), s.h_l / 1e3),
            c.row("vapour enthalpy", &at, "kJ/kg", h(h_v), s.h_v / 1e3),
            c.row("liquid entropy", &at, "kJ/(kg K)", entropy(s_l), s.s_l / 1e3),
            c.row("vapour entropy", &at, "kJ/(kg K)", entropy(s_v), s.s_v / 1e3),
            c.row("liquid heat capacity", &at, "kJ/(kg K)", Expected::share(cp_l, 0.01), cp(s.h_l)),
            c.row("vapour heat capacity", &at, "kJ/(kg K)", Expected::share(cp_v, 0.01), cp(s.h_v)),
        ]);
    }
    rows
}

/// Physics.md 7.2: the slope of the vapour pressure, which sets how static superheat varies.
fn slopes() -> Vec<Row> {
    let c = case("R-134a, slope of the vapour pressure".to_owned());
    let r = Refrigerant::r134a();
    [(-5.0, 9.20), (0.0, 10.61), (5.0, 12.16), (10.0, 13.85)]
        .map(|(t_c, want)| {
            let got = r.saturation_dp_dt(t_c + ZERO_C_K) / 1e3;
            c.row("dp/dT", format!("{t_c} °C"), "kPa/K", Expected::share(want, 3e-3), got)
        })
        .into()
}

/// Physics.md 6.2: transport of saturated R-134a, within the 2 % that the tables promise.
fn transport() -> Vec<Row> {
    let c = case("R-134a, transport".to_owned());
    let r = Refrigerant::r134a();
    let mut rows = Vec::new();
    for (t_c, mu_l, mu_v, k_l, sigma) in
        [(50.0, 141.773, 12.9167, 70.431, 4.8977), (5.0, 250.111, 10.9110, 89.808, 10.7301)]
    {
        let at = format!("saturated, {t_c} °C");
        let t = r.saturation_transport(libm::log(r.saturation_p_pa(t_c + ZERO_C_K)));
        for (quantity, unit, want, got) in [
            ("liquid viscosity", "µPa s", mu_l, t.mu_l * 1e6),
            ("vapour viscosity", "µPa s", mu_v, t.mu_v * 1e6),
            ("liquid conductivity", "mW/(m K)", k_l, t.k_l * 1e3),
            ("surface tension", "mN/m", sigma, t.sigma_n_m * 1e3),
        ] {
            rows.push(c.row(quantity, &at, unit, Expected::share(want, 0.02), got));
        }
    }
    rows
}

/// Physics.md 1.5: a chart in a service manual, within 1.5 % of absolute pressure.
fn field_chart() -> Vec<Row> {
    let c = Case::new(
        Section::Properties,
        "R-134a, chart of a service manual",
        "pressure-temperature chart, Suzuki service manual 2006",
        Standing::Published,
    );
    let r = Refrigerant::r134a();
    [
        (0.0, 188.2),
        (10.0, 309.6),
        (25.0, 567.5),
        (40.0, 916.4),
        (50.0, 1222.1),
        (60.0, 1589.6),
        (70.0, 2026.6),
        (80.0, 2544.0),
    ]
    .map(|(t_c, gauge_kpa): (f64, f64)| {
        let absolute = gauge_kpa + ATMOSPHERE_PA / 1e3;
        let got = (r.saturation_p_pa(t_c + ZERO_C_K) - ATMOSPHERE_PA) / 1e3;
        let expected = Expected::Value { value: gauge_kpa, tolerance: 0.015 * absolute };
        c.row("pressure", format!("{t_c} °C"), "kPa gauge", expected, got)
    })
    .into()
}
