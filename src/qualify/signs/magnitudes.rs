//! How much: faults.md 1.4 (charge, liquid line), 3.2 (switches), 3.3 (electrical) and 3.8 (trapped air).

use super::stand::{Stand, Trial};
use super::tables::{CAR_RPM, PICKUP_RPM};
use crate::circuit::spec::Kind;
use crate::fault::FaultId;
use crate::qualify::QualifyError;
use crate::qualify::car::{Car, IDLE, Setting};
use crate::qualify::expected::Expected;
use crate::qualify::row::{Case, Row, Standing};
use crate::qualify::section::Section;
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// Outside temperature of the regressions [°C].
const OUTSIDE_C: f64 = 35.0;
const AT: &str = "room 27 °C/50 %, outside 35 °C";

fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Signs, name, source, standing)
}

/// The rows.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let mut rows = loops()?;
    rows.extend(air()?);
    rows.extend(electrical()?);
    Ok(rows)
}

/// Charge and liquid line, on the rig without a receiver; the compact car's upper bounds are in section `steady`.
fn loops() -> Result<Vec<Row>, QualifyError> {
    let stand = Stand::new("pickup", PICKUP_RPM)?;
    let full = stand.run(OUTSIDE_C, &Trial::none());
    let mut rows = Vec::new();
    let c = case(
        "1.4 undercharge, pickup",
        "NIST TN-1848 and Cheung & Braun, regressions without a receiver (faults.md 1.4 a, b; 7.4)",
        Standing::Published,
    );
    let near = |value| Expected::Value { value, tolerance: 0.06 };
    for (share, capacity, cop) in [(0.9, 0.955, 0.98), (0.8, 0.885, 0.925), (0.7, 0.80, 0.85)] {
        let s = stand.run(OUTSIDE_C, &Trial::charge(share));
        let at = format!("{:.0} % of the charge, {AT}", 100.0 * share);
        rows.push(c.row("capacity over full", &at, "", near(capacity), s.capacity_w / full.capacity_w));
        let got = s.capacity_w / s.power_w / (full.capacity_w / full.power_w);
        rows.push(c.row("COP over full", &at, "", near(cop), got));
    }
    let c = case(
        "1.4 liquid line restricted, pickup",
        "Cheung & Braun, rooftop units, single-unit fits ± 5 % (faults.md 1.4 b; 7.6)",
        Standing::Published,
    );
    for (drop, capacity) in [(0.05, 0.99), (0.1, 0.97), (0.15, 0.93), (0.2, 0.89), (0.25, 0.84)] {
        let open = stand.narrowed(OUTSIDE_C, drop);
        let s = stand.run(OUTSIDE_C, &Trial::of("", move |i| i.passages.liquid = open));
        let at = format!("{:.0} % of the pressure lost in the liquid line, {AT}", 100.0 * drop);
        let expected = Expected::Value { value: capacity, tolerance: 0.05 };
        rows.push(c.row("capacity over healthy", at, "", expected, s.capacity_w / full.capacity_w));
    }
    Ok(rows)
}

/// Trapped air.
fn air() -> Result<Vec<Row>, QualifyError> {
    let stand = Stand::new("compact_car", CAR_RPM)?;
    let full = stand.run(OUTSIDE_C, &Trial::none());
    let c = case(
        "3.8 trapped air, compact car",
        "gas law in the high side's space (faults.md 3.8, 7.8)",
        Standing::Computed,
    );
    let mut rows = Vec::new();
    for (grams, expected) in [
        (2.0, Expected::AtLeast(1.0)),
        (2.4, Expected::Band { low: 2.0, high: 4.0 }),
        (3.6, Expected::Band { low: 2.0, high: 4.0 }),
    ] {
        let got = (stand.run(OUTSIDE_C, &Trial::air(grams)).liquid_pa - full.liquid_pa) / 1e5;
        rows.push(c.row("high side above healthy", format!("{grams} g, {AT}"), "bar", expected, got));
    }
    let psat = Refrigerant::r134a().saturation_p_pa(OUTSIDE_C + ZERO_C_K) - ATMOSPHERE_PA;
    for (words, fault, expected) in [
        ("3 g of air", (FaultId::AirInLoop, 3.0), Expected::AtLeast(0.2)),
        ("40 % too much", (FaultId::Overcharge, 0.4), Expected::Value { value: 0.0, tolerance: 0.05 }),
        ("30 % missing", (FaultId::Undercharge, 0.3), Expected::Value { value: 0.0, tolerance: 0.05 }),
    ] {
        let mut parked = Car::parked(OUTSIDE_C, &[fault])?;
        let got = (parked.wait(60).inside().gauge_high_pa - psat) / 1e5;
        rows.push(c.row(
            "at rest, above saturation",
            format!("{words}, soaked at 35 °C"),
            "bar",
            expected,
            got,
        ));
    }
    Ok(rows)
}

/// Relay, ground, coil and switches of the compact car.
fn electrical() -> Result<Vec<Row>, QualifyError> {
    let source = "relay bulletin, coil figures of several makers (faults.md 3.3)";
    let c = case("3.3 clutch circuit, compact car", source, Standing::Published);
    let mut rows = Vec::new();
    let mut car = Car::at(Setting { ambient_c: 20.0, ..IDLE })?;
    car.wait(2);
    let ohm = |car: &Car| {
        let circuit = car.bench.circuit();
        let v = |id| circuit.volts(id).unwrap_or(f64::NAN);
        (v("clutch_coil_plus") - v("clutch_coil_minus")) / circuit.current("clutch_coil").unwrap_or(f64::NAN)
    };
    let cold = ohm(&car);
    rows.push(c.row("coil", "20 °C, just engaged", "ohm", Expected::Band { low: 2.9, high: 3.8 }, cold));
    rows.push(
        c.row("coil at 12 V", "20 °C, just engaged", "A", Expected::AtMost(4.2), 12.0 / cold)
            .noting("at most 4 A by one maker, 2.9 ohm (4.1 A) by another"),
    );
    let mut hot_car = Car::at(IDLE)?;
    hot_car.wait(1200);
    let circuit = hot_car.bench.circuit();
    let v = |id| circuit.volts(id).unwrap_or(f64::NAN);
    let amps = circuit.current("clutch_coil").unwrap_or(f64::NAN).abs();
    let at = "20 minutes at idle, 35 °C";
    rows.push(c.row(
        "relay contact under load",
        at,
        "V/A",
        Expected::Band { low: 0.0, high: 0.025 },
        (v("clutch_relay_30") - v("clutch_relay_87")) / amps,
    ));
    // Copper, 0.39 %/K, the coil between the outside air and 110 °C.
    let copper = case(
        "3.3 clutch circuit, compact car",
        "copper, 0.39 % for each kelvin (faults.md 3.3)",
        Standing::Computed,
    );
    let band = Expected::Band { low: 1.0 + 0.0039 * 15.0, high: 1.0 + 0.0039 * 90.0 };
    rows.push(copper.row("coil, hot over cold", at, "", band, ohm(&hot_car) / cold));
    let memory = case(
        "3.3 clutch circuit, compact car",
        "usual limit, from memory (faults.md 3.3)",
        Standing::FromMemory,
    );
    rows.push(memory.row("ground under load", at, "V", Expected::AtMost(0.2), v("clutch_coil_minus")));
    rows.extend(switches()?);
    Ok(rows)
}

/// Switch points as the rig's file has them; the bench is told nothing else.
fn switches() -> Result<Vec<Row>, QualifyError> {
    let c = case("3.2 switches, compact car", "makers' figures (faults.md 3.2)", Standing::Published);
    let rig = Rig::load("compact_car")?;
    let mut rows = Vec::new();
    let band = |low, high| Expected::Band { low, high };
    for part in &rig.circuit.parts {
        let Kind::PressureSwitch { closes_gauge_pa, opens_gauge_pa, over, .. } = part.kind else { continue };
        let at = part.name.as_str();
        let mut point = |what: &str, expected, pa: f64| rows.push(c.row(what, at, "bar", expected, pa / 1e5));
        match over {
            // Too little and too much in one body.
            Some((opens_above_pa, _)) => {
                point("closes", band(2.0, 2.4), closes_gauge_pa);
                point("opens below", band(1.2, 2.2), opens_gauge_pa);
                point("opens above", band(27.4, 32.6), opens_above_pa);
            }
            None => {
                point("closes", band(14.0, 16.5), closes_gauge_pa);
                point("opens", band(9.3, 12.5), opens_gauge_pa);
            }
        }
    }
    Ok(rows)
}
