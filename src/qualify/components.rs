//! Components on their own: compressor, metering, coils, fan and switches.

use super::calorimeter::{Calorimeter, Held, STANDARD};
use super::car::{Car, IDLE, Seen};
use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::{Part, QualifyError, films, short_tube};
use crate::bench::Bench;
use crate::fault::FaultId;
use crate::moist_air;
use crate::plant::correlations::compressors::{LiVolumetric, isentropic_efficiency, volumetric_efficiency};
use crate::refrigerant::{Phase, Refrigerant};
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

const CP_AIR: f64 = moist_air::CP_DRY_AIR;

/// The section.
pub fn part() -> Result<Part, QualifyError> {
    let idle = Car::at(IDLE)?.after(600);
    let like = Car::at(IDLE)?.bench;
    let mut rows = darr_crawford();
    rows.extend(li(&like, &idle));
    rows.extend(metering(&like));
    rows.extend(coils(&like, &idle));
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

/// Physics.md 5.2: te, tc [°C], rev/min, eta_v at clearance 0.03 and 0.05, eta_is, T_dis [°C], g/s of 169 cm3.
const TABLE: [[f64; 8]; 9] = [
    [0.0, 50.0, 1000.0, 0.710, 0.657, 0.663, 79.7, 27.4],
    [0.0, 50.0, 2000.0, 0.619, 0.573, 0.614, 83.3, 47.9],
    [0.0, 50.0, 4000.0, 0.439, 0.406, 0.517, 92.6, 67.9],
    [5.0, 55.0, 800.0, 0.732, 0.680, 0.693, 81.4, 26.8],
    [5.0, 55.0, 1000.0, 0.713, 0.663, 0.683, 82.0, 32.7],
    [5.0, 55.0, 2000.0, 0.623, 0.579, 0.634, 85.2, 57.1],
    [5.0, 55.0, 3000.0, 0.532, 0.495, 0.586, 88.9, 73.2],
    [10.0, 60.0, 1000.0, 0.717, 0.669, 0.700, 84.9, 38.8],
    [-5.0, 45.0, 2000.0, 0.616, 0.567, 0.589, 82.3, 39.9],
];

fn darr_crawford() -> Vec<Row> {
    let c = case(
        "Compressor, Darr & Crawford",
        "Darr & Crawford, ACRC TR-14 (1992), coefficients as coded in AixLib, values computed",
        Standing::Published,
    );
    let r = Refrigerant::r134a();
    let mut rows = Vec::new();
    for [te, tc, rpm, v3, v5, is, t_dis, flow] in TABLE {
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
            c.row(
                "flow of 169 cm³",
                &at,
                "g/s",
                Expected::share(flow, 5e-3),
                rho * eta_v(0.03) * 0.169 * rpm / 60.0,
            ),
        ]);
    }
    rows
}

/// Within 0.06 of a second, independent set of measurements.
fn li(like: &Bench, idle: &Seen) -> Vec<Row> {
    let c = case(
        "Compressor, Li",
        "Li, Appl. Therm. Eng. 50 (2013) 318-326, 170 cm³, coefficients as coded in AixLib",
        Standing::Published,
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
        let eta = |clearance| volumetric_efficiency(rpm, clearance, densities);
        // Exponent 1.1 as in physics.md 5.3.
        let own = LiVolumetric::RECIPROCATING_170.efficiency(rpm, ratio, 1.1);
        let printed = Expected::Value { value: want, tolerance: 0.002 };
        rows.push(c.row("volumetric efficiency, the formula itself", &at, "", printed, own));
        rows.push(c.row("volumetric efficiency, clearance 0.03", &at, "", near(want), eta(0.03)));
        rows.push(c.row("volumetric efficiency, the rig's clearance", &at, "", near(want), eta(rig)));
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
    let memory = case("Expansion valve, usual figures", "from memory (physics.md 7.2)", Standing::FromMemory);
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

/// Physics.md 3 (the coil case) and 6.4 (conductances).
fn coils(like: &Bench, idle: &Seen) -> Vec<Row> {
    let c = case("Coil, 27 °C/50 % to 8 °C/95 %", "CoolProp HAPropsSI (ASHRAE RP-1485)", Standing::Computed);
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

    let ua = case(
        "Conductances, order of magnitude",
        "arithmetic of physics.md 6.4, a factor of two either way",
        Standing::Computed,
    );
    let dry =
        Calorimeter::new(like, Refrigerant::r134a(), Held { room_rh_pct: 10.0, ..STANDARD }).run(1800.0);
    let conductance = |flow: f64, share: f64| -libm::log(1.0 - share) * flow * CP_AIR;
    let room_k = 27.0 + ZERO_C_K;
    let evaporator = conductance(flow, (room_k - dry.vent_k) / (room_k - dry.evaporating_k));
    let ambient_k = idle.condensing_k - idle.lift_k;
    let condenser =
        conductance(idle.condenser_air_kg_s, (idle.condenser_air_off_k - ambient_k) / idle.lift_k);
    let band = |low, high| Expected::Band { low, high };
    rows.push(ua.row("condenser", "35 °C, idle", "W/K", band(207.0, 1200.0), condenser));
    rows.push(ua.row("evaporator, dry", "room 27 °C/10 %", "W/K", band(85.0, 340.0), evaporator));
    rows
}

/// Pressures at which the fan goes to high speed and the clutch is cut out, as the liquid line feels them.
fn switches() -> Result<Vec<Row>, QualifyError> {
    let c = case("Pressure switches", "makers' figures collected in faults.md 3.2", Standing::Published);
    let mut fan = None;
    let mut cut = None;
    let mut car = Car::faulty(IDLE, &[(FaultId::CondenserFinsBlocked, 0.6)])?;
    for _ in 0..6000 {
        car.bench.advance(1);
        let seen = car.bench.snapshot(true);
        if seen.outside.fan_speed_pct > 80.0 {
            fan = seen.inside.map(|i| i.gauge_high_pa / 1e3);
            break;
        }
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
            band(1400.0, 1700.0),
            never(fan),
        ),
        c.row("clutch cut out", "35 °C, idle, fan motor open", "kPa gauge", band(2746.0, 3214.0), never(cut)),
    ])
}
