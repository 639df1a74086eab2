//! Void fractions and film coefficients, by the methods that the plant takes or was sized with. The others of
//! `plant/correlations` are compared with the same libraries in their unit tests: a formula that nothing in the model
//! follows says nothing about the model.
//!
//! One per cent is a check of the transcription. Between accepted methods lies a factor of 1.5 to 3, which no row here
//! can narrow.

use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use crate::bench::Bench;
use crate::plant::correlations::FilmFluid;
use crate::plant::correlations::boiling::{Channel, Drive, liu_winterton};
use crate::plant::correlations::condensation::shah;
use crate::plant::correlations::friction::{churchill, muller_steinhagen_heck};
use crate::plant::correlations::single_phase::{Exchange, dittus_boelter, gnielinski_with};
use crate::units::ZERO_C_K;

const LIBRARIES: &str = "open libraries `ht` 1.2.0 and `fluids` 1.3.1 with properties of CoolProp 8.0.0";

fn case(name: &str, source: &'static str) -> Case {
    Case::new(Section::Components, name, source, Standing::Computed)
}

/// Saturated R-134a at 50 °C, properties by CoolProp 8.0.0.
fn hot() -> FilmFluid {
    FilmFluid::new(
        1_317_910.0 / 4_059_280.0,
        (1102.31, 66.272),
        (1.417_73e-4, 1.291_67e-5),
        (0.070_431, 0.016_738),
        (1566.15, 1246.0),
        0.004_897_7,
        151_814.0,
        0.102_032,
    )
}

/// The same at 5 °C.
fn cold() -> FilmFluid {
    FilmFluid::new(
        349_660.0 / 4_059_280.0,
        (1278.07, 17.1309),
        (2.501_11e-4, 1.091_10e-5),
        (0.089_808, 0.011_954),
        (1355.16, 920.6),
        0.010_730_1,
        194_740.0,
        0.102_032,
    )
}

/// The rows.
pub fn rows(like: &Bench) -> Vec<Row> {
    let mut rows = held(like);
    rows.extend(condensing());
    rows.extend(boiling());
    rows.extend(friction_and_single_phase());
    rows
}

/// Temperature [°C], then pairs of quality and void fraction after Zivi 1964.
const ZIVI: [(f64, [(f64, f64); 6]); 2] = [
    (50.0, [(0.1, 0.4200), (0.2, 0.6196), (0.3, 0.7363), (0.5, 0.8670), (0.7, 0.9383), (0.9, 0.9832)]),
    (5.0, [(0.1, 0.6632), (0.2, 0.8159), (0.3, 0.8837), (0.5, 0.9466), (0.7, 0.9764), (0.9, 0.9938)]),
];

/// What a channel of the plant holds, against the published law.
fn held(like: &Bench) -> Vec<Row> {
    let c = case("Void fraction in the plant", "Zivi 1964 through the open library `fluids` 1.3.1");
    let (plant, r) = (like.plant(), like.plant().refrigerant());
    let void = |t_c: f64, x: f64| {
        let p = r.saturation_p_pa(t_c + ZERO_C_K);
        let s = r.saturation(libm::log(p));
        (plant.at_pressure(p, s.h_l + x * (s.h_v - s.h_l)).void, s)
    };
    let mut rows = Vec::new();
    for (t_c, points) in ZIVI {
        for (x, want) in points {
            let at = format!("R-134a, {t_c} °C, quality {x}");
            let expected = Expected::Value { value: want, tolerance: 0.003 };
            rows.push(c.row("void fraction", at, "", expected, void(t_c, x).0));
        }
    }
    // Mean densities over a linear quality: what decides how much refrigerant a coil holds.
    for (t_c, from, want) in [(50.0, 0.0, 294.0), (5.0, 0.25, 73.0)] {
        let n = 400;
        let density = |i: i32| {
            let x = from + (1.0 - from) * (f64::from(i) + 0.5) / f64::from(n);
            let (void, s) = void(t_c, x);
            void * s.rho_v + (1.0 - void) * s.rho_l
        };
        let mean: f64 = (0..n).map(density).sum::<f64>() / f64::from(n);
        let at = format!("R-134a, {t_c} °C, quality {from} to 1");
        rows.push(c.row("mean density in a coil", at, "kg/m³", Expected::share(want, 0.02), mean));
    }
    rows
}

fn condensing() -> Vec<Row> {
    let c = case("Films, condensing", LIBRARIES);
    let fluid = hot();
    let mut rows = Vec::new();
    for (x, wide, narrow) in [
        (0.1, 1492.0, 2261.0),
        (0.3, 2363.0, 3581.0),
        (0.5, 3035.0, 4600.0),
        (0.7, 3573.0, 5416.0),
        (0.9, 3920.0, 5941.0),
    ] {
        for (mm, want) in [(8.0, wide), (1.0, narrow)] {
            let got = shah(&fluid, 300.0, x, mm * 1e-3);
            let at = format!("R-134a, 50 °C, G 300 kg/(m² s), D {mm} mm, quality {x}");
            rows.push(c.row("film, Shah 1979", at, "W/(m² K)", Expected::share(want, 0.01), got));
        }
    }
    rows
}

fn boiling() -> Vec<Row> {
    let c = case("Films, boiling", LIBRARIES);
    let fluid = cold();
    let tube = Channel { flux_kg_s_m2: 200.0, diameter_m: 8e-3 };
    [(0.2, 2390.0), (0.4, 2855.0), (0.6, 3200.0), (0.8, 3483.0)]
        .map(|(x, want)| {
            let at = format!("R-134a, 5 °C, G 200 kg/(m² s), D 8 mm, 5 K, quality {x}");
            let got = liu_winterton(&fluid, &tube, x, Drive::SuperheatK(5.0));
            c.row("film, Liu & Winterton", at, "W/(m² K)", Expected::share(want, 0.01), got)
        })
        .into()
}

fn friction_and_single_phase() -> Vec<Row> {
    let c = case("Friction", LIBRARIES);
    let near = |value| Expected::share(value, 0.01);
    let mut rows = Vec::new();
    for (re, rough, want) in [
        (500.0, 0.0, 0.1280),
        (2000.0, 0.0, 0.03204),
        (4000.0, 0.0, 0.04059),
        (1e4, 0.0, 0.03100),
        (1e5, 0.0, 0.01787),
        (1e5, 1e-4, 0.01846),
    ] {
        let at = format!("Reynolds {re}, roughness {rough}");
        rows.push(c.row("friction factor, Churchill", at, "", near(want), churchill(re, rough)));
    }
    let fluid = cold();
    for (x, want) in [(0.3, 1383.0), (0.5, 2230.0), (0.8, 3490.0)] {
        let at = format!("R-134a, 5 °C, G 200 kg/(m² s), D 8 mm, quality {x}");
        let got = muller_steinhagen_heck(&fluid, 200.0, x, 8e-3);
        rows.push(c.row("pressure drop, Müller-Steinhagen & Heck", &at, "Pa/m", near(want), got));
    }
    let c = case("Single phase", LIBRARIES);
    let at = "Reynolds 10000, Prandtl 3.5";
    rows.push(
        c.row("Nusselt, Gnielinski", at, "", near(59.90), gnielinski_with(1e4, 3.5, churchill(1e4, 0.0)))
            .noting("with the friction factor of Churchill, as the library's value"),
    );
    let got = dittus_boelter(1e4, 3.5, Exchange::Heating);
    rows.push(c.row("Nusselt, Dittus-Boelter, heating", at, "", near(60.17), got));
    rows
}
