//! Components on their own: compressor, metering, coils, fan and switches.

use super::calorimeter::{Calorimeter, STANDARD};
use super::car::{Car, IDLE, Seen};
use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::sources::{MOIST_AIR, SWITCHES};
use super::{Part, QualifyError, films, short_tube};
use crate::bench::Bench;
use crate::circuit::part::MEDIUM_SWITCH;
use crate::fault::FaultId;
use crate::moist_air;
use crate::plant::correlations::compressors::{LiVolumetric, isentropic_efficiency, volumetric_efficiency};
use crate::refrigerant::{Phase, Refrigerant};
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// The section.
pub fn part() -> Result<Part, QualifyError> {
    let idle = Car::at(IDLE)?.after(600);
    let like = Car::at(IDLE)?.bench;
    let mut rows = darr_crawford();
    rows.extend(li(&like, &idle));
    rows.extend(metering(&like));
    rows.extend(coils(&like));
    rows.extend(switches()?);
    rows.extend(films::rows(&like));
    rows.extend(short_tube::rows());
    Ok(rows.into())
}

fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Components, name, source, standing)
}

/// Suction gas and the end of an ideal compression: density [kg/m3], enthalpy [J/kg], density ratio, ideal rise
/// [J/kg].
fn compression(te_c: f64, p2: f64, superheat_k: f64) -> (f64, f64, f64, f64) {
    let r = Refrigerant::r134a();
    let t = te_c + ZERO_C_K;
    let p1 = r.saturation_p_pa(t);
    let h1 = r.h_from_pt(p1, t + superheat_k, Phase::Vapour);
    let suction = r.state(libm::log(p1), h1);
    let h2s = r.isentropic_h(libm::log(p2), suction.s_j_per_kg_k, h1 + 3e4);
    let end = r.state(libm::log(p2), h2s);
    (suction.rho_kg_m3, h1, end.rho_kg_m3 / suction.rho_kg_m3, h2s - h1)
}

/// Te, tc [°C], rev/min, eta_v at clearance 0.03 and 0.05, eta_is, T_dis [°C], with suction gas of CoolProp 8.0.0.
const TABLE: [[f64; 7]; 9] = [
    [0.0, 50.0, 1000.0, 0.710, 0.657, 0.663, 79.7],
    [0.0, 50.0, 2000.0, 0.619, 0.573, 0.614, 83.3],
    [0.0, 50.0, 4000.0, 0.439, 0.406, 0.517, 92.6],
    [5.0, 55.0, 800.0, 0.732, 0.680, 0.693, 81.4],
    [5.0, 55.0, 1000.0, 0.713, 0.663, 0.683, 82.0],
    [5.0, 55.0, 2000.0, 0.623, 0.579, 0.634, 85.2],
    [5.0, 55.0, 3000.0, 0.532, 0.495, 0.586, 88.9],
    [10.0, 60.0, 1000.0, 0.717, 0.669, 0.700, 84.9],
    [-5.0, 45.0, 2000.0, 0.616, 0.567, 0.589, 82.3],
];

fn darr_crawford() -> Vec<Row> {
    let c = case(
        "Compressor, Darr & Crawford",
        "formula of Darr & Crawford, ACRC TR-14 (1992), coefficients as coded in AixLib, gas by CoolProp 8.0.0",
        Standing::Computed,
    );
    let r = Refrigerant::r134a();
    let mut rows = Vec::new();
    for [te, tc, rpm, v3, v5, is, t_dis] in TABLE {
        let p2 = r.saturation_p_pa(tc + ZERO_C_K);
        let (rho, h1, ratio, rise) = compression(te, p2, 10.0);
        let eta_v = |clearance| volumetric_efficiency(rpm, clearance, ratio);
        let eta_is = isentropic_efficiency(rpm, rho);
        let t2 = r.state(libm::log(p2), h1 + rise / eta_is).t_k - ZERO_C_K;
        let at = format!("{te}/{tc} °C, SH 10 K, {rpm} rev/min");
        let near = |value| Expected::Value { value, tolerance: 0.002 };
        rows.extend([
            c.row("volumetric efficiency, clearance 0.03", &at, "", near(v3), eta_v(0.03)),
            c.row("volumetric efficiency, clearance 0.05", &at, "", near(v5), eta_v(0.05)),
            c.row("isentropic efficiency", &at, "", near(is), eta_is),
            c.row("discharge temperature", &at, "°C", Expected::Value { value: t_dis, tolerance: 0.3 }, t2),
        ]);
    }
    rows
}

/// The compressors of the rig within 0.06 of a second, independent set of measurements.
fn li(like: &Bench, idle: &Seen) -> Vec<Row> {
    let c = case(
        "Compressor, Li",
        "formula of Li, Appl. Therm. Eng. 50 (2013) 318-326, 170 cm³, coefficients as coded in AixLib, polytropic exponent 1.1",
        Standing::Computed,
    );
    let near = |value| Expected::Value { value, tolerance: 0.06 };
    let p1 = Refrigerant::r134a().saturation_p_pa(5.0 + ZERO_C_K);
    let rig = like.plant().spec().compressor.clearance;
    let mut rows = Vec::new();
    for (ratio, rpm, want) in [
        (4.0, 1000.0, 0.728),
        (4.0, 2000.0, 0.652),
        (4.0, 3000.0, 0.571),
        (6.0, 1000.0, 0.664),
        (6.0, 2000.0, 0.595),
        (6.0, 3000.0, 0.521),
    ] {
        let (_, _, densities, _) = compression(5.0, ratio * p1, 10.0);
        let at = format!("pressure ratio {ratio}, {rpm} rev/min");
        let eta = volumetric_efficiency(rpm, rig, densities);
        rows.push(c.row("volumetric efficiency, the rig's clearance", &at, "", near(want), eta));
    }
    let swept = like.plant().spec().compressor.displacement_m3;
    let got = idle.flow_kg_s / (idle.suction_kg_m3 * swept * idle.compressor_rpm / 60.0);
    let ratio = (idle.high_pa + ATMOSPHERE_PA) / (idle.low_pa + ATMOSPHERE_PA);
    let want = LiVolumetric::RECIPROCATING_170.efficiency(idle.compressor_rpm, ratio, 1.1);
    rows.push(c.row("volumetric efficiency in the running car", "35 °C, idle", "", near(want), got));
    rows
}

fn metering(like: &Bench) -> Vec<Row> {
    let Some(valve) = like.plant().spec().metering.thermostatic() else { return Vec::new() };
    let memory = case("Expansion valve, usual figures", "from memory", Standing::FromMemory);
    let slope = Refrigerant::r134a().saturation_dp_dt(ZERO_C_K);
    let band = |low, high| Expected::Band { low, high };
    vec![
        memory.row("static superheat", "0 °C", "K", band(3.0, 6.0), valve.spring_pa / slope),
        memory.row(
            "superheat from seat to full lift",
            "0 °C",
            "K",
            band(3.0, 5.0),
            valve.spring_rate_pa / slope,
        ),
        memory.row("greatest bulb pressure", "", "kPa", band(350.0, 450.0), valve.max_bulb_pa / 1e3),
        memory.row("time constant of the bulb", "", "s", band(2.0, 30.0), valve.bulb_lag_s),
    ]
}

/// Moist air over a coil, and the two sides of the rig's own.
fn coils(like: &Bench) -> Vec<Row> {
    let c = case("Coil, 27 °C/50 % to 8 °C/95 %", MOIST_AIR, Standing::Computed);
    let w = |t_c: f64, rh| moist_air::humidity_ratio(t_c + ZERO_C_K, rh, ATMOSPHERE_PA);
    let (w1, w2) = (w(27.0, 0.5), w(8.0, 0.95));
    let h = |t_c: f64, w| moist_air::enthalpy(t_c + ZERO_C_K, w);
    let all = h(27.0, w1) - h(8.0, w2);
    let sensible = h(27.0, w2) - h(8.0, w2);
    let near = |value, tolerance| Expected::Value { value, tolerance };
    let mut rows = vec![
        c.row("enthalpy drop", "", "kJ/kg", Expected::share(31.706, 5e-3), all / 1e3),
        c.row("water taken out", "", "g/kg", Expected::share(4.849, 5e-3), (w1 - w2) * 1e3),
        c.row("sensible share", "", "", near(0.610, 0.005), sensible / all),
    ];
    // The coil of the rig: what the air gives up is what the refrigerant takes.
    let own = case("Coil of the rig", "first law", Standing::OwnTarget);
    let flow = like.plant().spec().cabin.blower_kg_s;
    let wet = Calorimeter::new(like, Refrigerant::r134a(), STANDARD).run(1800.0);
    let w_out = w1 - wet.condensate_kg_s / flow;
    // What drips off takes the enthalpy of liquid water with it.
    let drips = wet.condensate_kg_s * 4186.0 * (wet.vent_k - ZERO_C_K);
    let given = flow * (h(27.0, w1) - moist_air::enthalpy(wet.vent_k, w_out)) - drips;
    let at = "room 27 °C/50 %, outside 35 °C, 1800 rev/min";
    rows.push(own.row(
        "heat given by the air over heat taken",
        at,
        "",
        near(1.0, 0.01),
        given / wet.capacity_w,
    ));
    let off = moist_air::relative_humidity(wet.vent_k, w_out, ATMOSPHERE_PA);
    rows.push(own.row("humidity of the air off the coil", at, "", Expected::AtMost(1.02), off));
    rows
}

/// Pressures at which the fan goes to high speed and the clutch is cut out, as the liquid line feels them. The makers print
/// 14.0 (Hyundai), 15.2 (Honda) and 16.5 bar (Saab), and 27.46 (Nissan) to 32.14 (Hyundai). The fan's is the last pressure that
/// its switch met without closing.
fn switches() -> Result<Vec<Row>, QualifyError> {
    let c = case("Pressure switches", SWITCHES, Standing::Published);
    let (mut fan, mut open) = (None, None);
    let mut cut = None;
    let mut car = Car::faulty(IDLE, &[(FaultId::CondenserFinsBlocked, 0.6)])?;
    for _ in 0..6000 {
        let met = car.inside().gauge_high_pa / 1e3;
        car.bench.advance(1);
        if car.bench.circuit().closed(MEDIUM_SWITCH) {
            fan = open;
            break;
        }
        open = Some(met);
    }
    let mut car = Car::faulty(IDLE, &[(FaultId::CondenserFanMotorOpen, 1.0)])?;
    let mut was = false;
    for _ in 0..12_000 {
        car.bench.advance(1);
        let seen = car.bench.snapshot(true);
        if was && !seen.outside.clutch_engaged {
            cut = seen.inside.map(|i| i.gauge_high_pa / 1e3);
            break;
        }
        was = seen.outside.clutch_engaged;
    }
    let band = |low, high| Expected::Band { low, high };
    let never = f64::NAN;
    let never = |x: Option<f64>| x.unwrap_or(never);
    Ok(vec![
        c.row(
            "fan to high speed",
            "35 °C, idle, fins blocked by 60 %",
            "kPa gauge",
            band(1400.0, 1650.0),
            never(fan),
        ),
        c.row("clutch cut out", "35 °C, idle, fan motor open", "kPa gauge", band(2746.0, 3214.0), never(cut)),
    ])
}
