//! How much of the electrical side: faults.md 3.2 (switches) and 3.3 (relay, ground, coil), on the compact car.

use super::super::QualifyError;
use super::super::car::{Car, IDLE, Setting};
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use crate::bench::BenchError;
use crate::circuit::spec::Kind;
use crate::rig::Rig;

fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Signs, name, source, standing)
}

/// Relay, ground, coil and switches of the compact car.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let source = "relay bulletin, coil figures of several makers (faults.md 3.3)";
    let c = case("Clutch circuit", source, Standing::Published);
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
    let copper = case("Clutch circuit", "copper, 0.39 % for each kelvin (faults.md 3.3)", Standing::Computed);
    let band = Expected::Band { low: 1.0 + 0.0039 * 15.0, high: 1.0 + 0.0039 * 90.0 };
    rows.push(copper.row("coil, hot over cold", at, "", band, ohm(&hot_car) / cold));
    let memory = case("Clutch circuit", "usual limit, from memory (faults.md 3.3)", Standing::FromMemory);
    rows.push(memory.row("ground under load", at, "V", Expected::AtMost(0.2), v("clutch_coil_minus")));
    rows.extend(switches()?);
    Ok(rows)
}

/// Switch points as the rig's file has them; the bench is told nothing else.
fn switches() -> Result<Vec<Row>, QualifyError> {
    let c = case("Pressure switches", "makers' figures (faults.md 3.2)", Standing::Published);
    let rig = Rig::load("compact_car").map_err(BenchError::from)?;
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
