//! Moist air, water and altitude: rows of the properties and of the limits.

use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::sources::{MOIST_AIR, WATER};
use crate::constants::{ATMOSPHERE_PA, FOOT_M, MICRON_PA, ZERO_C_K};
use crate::moist_air;
use crate::moist_air::published;

/// Moist air is a real gas and differs from ideal mixing by 0.4 to 0.5 %, hence the tolerance of 0.5 %.
pub fn psychrometrics() -> Vec<Row> {
    let saturated = Case::new(
        Section::Properties,
        "Air, saturated",
        "equation of Hyland & Wexler 1983 (pressure) and CoolProp 8.0.0, HAPropsSI (ASHRAE RP-1485, humidity ratio)",
        Standing::Computed,
    );
    let mut rows = Vec::new();
    for (t_c, p_pa, w) in published::SATURATED {
        let (t_k, at) = (t_c + ZERO_C_K, format!("{t_c} °C"));
        let (pressure, ratio) = (
            moist_air::saturation_pressure_pa(t_k),
            moist_air::saturated_humidity_ratio(t_k, ATMOSPHERE_PA) * 1e3,
        );
        rows.push(saturated.row("saturation pressure", &at, "Pa", Expected::share(p_pa, 1e-3), pressure));
        rows.push(saturated.row("humidity ratio", &at, "g/kg", Expected::share(w * 1e3, 5e-3), ratio));
    }
    let moist = Case::new(Section::Properties, "Air, moist", MOIST_AIR, Standing::Computed);
    for (t_c, rh_pct, w, dew_c, h_kj, v) in published::MOIST {
        let (t_k, at) = (t_c + ZERO_C_K, format!("{t_c} °C, {rh_pct} %"));
        let got = moist_air::humidity_ratio(t_k, rh_pct / 100.0, ATMOSPHERE_PA);
        let dew = moist_air::dew_point_k(got, ATMOSPHERE_PA) - ZERO_C_K;
        let enthalpy = moist_air::enthalpy(t_k, got) / 1e3;
        let volume = moist_air::specific_volume(t_k, got, ATMOSPHERE_PA);
        let dew_band = Expected::Value { value: dew_c, tolerance: 0.08 };
        rows.extend([
            moist.row("humidity ratio", &at, "g/kg", Expected::share(w * 1e3, 5e-3), got * 1e3),
            moist.row("dew point", &at, "°C", dew_band, dew),
            moist.row("enthalpy", &at, "kJ/kg", Expected::share(h_kj, 5e-3), enthalpy),
            moist.row("specific volume", &at, "m³/kg", Expected::share(v, 5e-3), volume),
        ]);
    }
    let (t_k, p_pa, at) = (27.0 + ZERO_C_K, 83_437.0, "27 °C, 50 %, 83.437 kPa");
    let w = moist_air::humidity_ratio(t_k, 0.5, p_pa);
    rows.extend([
        moist.row("humidity ratio", at, "g/kg", Expected::share(13.641, 5e-3), w * 1e3),
        moist.row("enthalpy", at, "kJ/kg", Expected::share(61.99, 5e-3), moist_air::enthalpy(t_k, w) / 1e3),
        moist.row(
            "specific volume",
            at,
            "m³/kg",
            Expected::share(1.0549, 5e-3),
            moist_air::specific_volume(t_k, w, p_pa),
        ),
    ]);
    rows
}

/// Temperature at which the model's water boils or its ice sublimes [K], by halving.
fn boiling_t_k(p_pa: f64) -> f64 {
    let (mut low, mut high) = (200.0, 400.0);
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if moist_air::saturation_pressure_pa(mid) < p_pa { low = mid } else { high = mid }
    }
    0.5 * (low + high)
}

/// Water under vacuum.
pub fn boiling_water() -> Vec<Row> {
    let c = Case::new(Section::Properties, "Water under vacuum", WATER, Standing::Computed);
    [
        (760_000.0, 99.97),
        (100_000.0, 51.55),
        (50_000.0, 38.09),
        (25_400.0, 26.11),
        (20_000.0, 22.13),
        (17_500.0, 19.96),
        (10_000.0, 11.23),
        (5_000.0, 1.20),
        (4_588.0, 0.01),
        (3_000.0, -5.05),
        (2_000.0, -9.71),
        (1_500.0, -12.92),
        (1_000.0, -17.31),
        (500.0, -24.48),
        (300.0, -29.51),
        (100.0, -39.67),
    ]
    .map(|(micron, t_c)| {
        let got = boiling_t_k(micron * MICRON_PA) - ZERO_C_K;
        let word = if micron > 4_600.0 { "boiling point" } else { "frost point" };
        c.row(word, format!("{micron} micron"), "°C", Expected::Value { value: t_c, tolerance: 0.05 }, got)
    })
    .into()
}

/// At what vacuum free water begins to boil, and how the air thins with height. What a gauge shows of both is their
/// difference and no row of its own; temperatures that [`psychrometrics`] asks for within a tenth of a per cent are left out.
pub fn vacuum_and_altitude() -> Vec<Row> {
    let boil = Case::new(Section::Limits, "Vacuum at which free water boils", WATER, Standing::Computed);
    let mut rows = Vec::new();
    for (t_c, micron) in [(21.1, 18_790.0), (37.8, 49_161.0)] {
        let p = moist_air::saturation_pressure_pa(t_c + ZERO_C_K);
        // The temperatures are given to 0.1 °C, of which 0.05 °C is 0.3 %.
        let expected = Expected::share(micron, 5e-3);
        rows.push(boil.row("pressure", format!("{t_c} °C"), "micron", expected, p / MICRON_PA));
    }
    let air = Case::new(
        Section::Limits,
        "Vacuum and altitude",
        "formula of the US Standard Atmosphere 1976",
        Standing::Computed,
    );
    for (feet, pa) in [
        (1_000.0, 97_717.0),
        (2_000.0, 94_213.0),
        (3_000.0, 90_812.0),
        (4_000.0, 87_511.0),
        (5_000.0, 84_307.0),
        (5_280.0, 83_428.0),
        (6_000.0, 81_200.0),
        (8_000.0, 75_262.0),
        (10_000.0, 69_682.0),
    ] {
        let got = moist_air::standard_atmosphere_pa(feet * FOOT_M);
        let at = format!("{feet} ft");
        rows.push(air.row("air pressure", at, "kPa", Expected::share(pa / 1e3, 2e-4), got / 1e3));
    }
    rows
}
