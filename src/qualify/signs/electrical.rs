//! How much of the electrical side: relay, ground, coil and switches of the compact car.

use super::super::QualifyError;
use super::super::car::{Car, IDLE, Setting};
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::super::sources::SWITCHES;
use crate::bench::BenchError;
use crate::circuit::spec::Kind;
use crate::rig::Rig;

fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Signs, name, source, standing)
}

/// Relay, ground, coil and switches of the compact car.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let geo = case("Clutch circuit", "Geo service manual, undated", Standing::Published);
    let bulletin = case(
        "Clutch circuit",
        "Land Rover service bulletin P92-007 (1992 by its number)",
        Standing::Published,
    );
    let mut rows = Vec::new();
    let mut car = Car::at(Setting { ambient_c: 20.0, ..IDLE })?;
    car.wait(2);
    let ohm = |car: &Car| {
        let circuit = car.bench.circuit();
        let v = |id| circuit.volts(id).unwrap_or(f64::NAN);
        (v("clutch_coil_plus") - v("clutch_coil_minus")) / circuit.current("clutch_coil").unwrap_or(f64::NAN)
    };
    let cold = ohm(&car);
    rows.push(geo.row("coil", "20 °C, just engaged", "ohm", Expected::Band { low: 2.9, high: 3.8 }, cold));
    let mut hot_car = Car::at(IDLE)?;
    hot_car.wait(1200);
    let circuit = hot_car.bench.circuit();
    let v = |id| circuit.volts(id).unwrap_or(f64::NAN);
    let amps = circuit.current("clutch_coil").unwrap_or(f64::NAN).abs();
    let at = "20 minutes at idle, 35 °C";
    rows.push(bulletin.row(
        "relay contact under load",
        at,
        "V/A",
        Expected::AtMost(0.025),
        (v("clutch_relay_30") - v("clutch_relay_87")) / amps,
    ));
    let memory = case("Clutch circuit", "usual limit, from memory", Standing::FromMemory);
    rows.push(memory.row("ground under load", at, "V", Expected::AtMost(0.2), v("clutch_coil_minus")));
    rows.extend(switches()?);
    Ok(rows)
}

/// Switch points as the rig's file has them, but for the two that the components find on the running car: for the medium
/// switch Saab prints 12.5 bar and Honda 9.3, for the low side of the dual one Saab 2.0, Volkswagen 1.2 to 2.4 kg/cm2, others
/// 2.0 ± 0.21.
fn switches() -> Result<Vec<Row>, QualifyError> {
    let c = case("Pressure switches", SWITCHES, Standing::Published);
    let rig = Rig::load("compact_car").map_err(BenchError::from)?;
    let mut rows = Vec::new();
    let band = |low, high| Expected::Band { low, high };
    for part in &rig.circuit.parts {
        let Kind::PressureSwitch { closes_gauge_pa, opens_gauge_pa, over, .. } = part.kind else { continue };
        let at = part.name.as_str();
        let mut point = |what: &str, expected, pa: f64| rows.push(c.row(what, at, "bar", expected, pa / 1e5));
        match over {
            // Too little and too much in one body.
            Some(_) => {
                point("closes", band(2.0, 2.4), closes_gauge_pa);
                point("opens below", band(1.2, 2.2), opens_gauge_pa);
            }
            None => point("opens", band(9.3, 12.5), opens_gauge_pa),
        }
    }
    Ok(rows)
}
