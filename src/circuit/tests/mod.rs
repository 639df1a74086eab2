//! Circuits as a technician would measure them.

mod any;
mod compact_car;
mod parts;

use std::fs;
use std::path::Path;

use super::*;

pub(super) const TICK: f64 = 0.05;

/// The circuit of a rig.
pub(super) fn spec(rig: &str) -> CircuitSpec {
    let found = circuits().into_iter().find(|(id, _)| id == rig);
    found.unwrap_or_else(|| panic!("no circuit of {rig}")).1
}

/// The circuits of the shipped rigs, read from their files.
pub(super) fn circuits() -> Vec<(String, CircuitSpec)> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let root = here.ancestors().find(|folder| folder.join("assets/rigs").is_dir()).expect("assets");
    let mut folders: Vec<_> =
        fs::read_dir(root.join("assets/rigs")).unwrap().map(|entry| entry.unwrap().path()).collect();
    folders.sort();
    let read = |folder: &Path| {
        let text = fs::read_to_string(folder.join("circuit.ron")).ok()?;
        Some((folder.file_name()?.to_string_lossy().into_owned(), ron::from_str(&text).ok()?))
    };
    folders.iter().filter_map(|folder| read(folder)).collect()
}

/// Everything asked for on a hot day: 14 bar in the liquid line, 2 bar in the suction line, fins at 10 °C.
pub(super) fn hot_day() -> CircuitInputs {
    let rest = CircuitInputs::default();
    CircuitInputs {
        engine_on: true,
        engine_rpm: 900.0,
        ac_request: true,
        blower_pct: 100.0,
        senses: Senses {
            suction_gauge_pa: 2.2e5,
            liquid_gauge_pa: 14.0e5,
            discharge_gauge_pa: 14.5e5,
            fin_t_k: 283.0,
            coolant_t_k: 363.15,
            ambient_t_k: 308.15,
            box_t_k: 303.15,
            ..rest.senses
        },
        ..rest
    }
}

/// The same with a fault.
pub(super) fn faulty(faults: &[(&str, Change)]) -> CircuitInputs {
    let faults = faults.iter().map(|&(part, change)| PartFault { part: part.into(), change }).collect();
    CircuitInputs { faults, ..hot_day() }
}

/// Let so many seconds pass.
pub(super) fn pass(c: &mut Circuit, inputs: &CircuitInputs, seconds: f64) {
    for _ in 0..(seconds / TICK) as u32 {
        c.update(inputs, TICK);
    }
}

/// A rig's circuit after twenty seconds.
pub(super) fn run(rig: &str, inputs: &CircuitInputs) -> Circuit {
    let mut c = Circuit::new(&spec(rig));
    pass(&mut c, inputs, 20.0);
    c
}

pub(super) fn v(c: &Circuit, id: &str) -> f64 {
    c.volts(id).unwrap_or_else(|| panic!("no point {id}"))
}

pub(super) fn a(c: &Circuit, id: &str) -> f64 {
    c.current(id).unwrap_or_else(|| panic!("no part {id}"))
}

/// Points of a relay in the order 30, 87, 86, 85: live above 11 V, dead below 0.2 V.
pub(super) fn pattern(c: &Circuit, relay: &str) -> String {
    let sign = |pin: &str| match v(c, &format!("{relay}_{pin}")) {
        x if x > 11.0 => '+',
        x if x.abs() < 0.2 => '0',
        _ => '?',
    };
    ["30", "87", "86", "85"].into_iter().map(sign).collect()
}

/// The jumper lead across contact 30 to 87 of a relay.
pub(super) fn jumped(relay: &str, inputs: CircuitInputs) -> CircuitInputs {
    let lead = Load { a: format!("{relay}_30"), b: format!("{relay}_87"), ohm: 0.02, fuse_a: 15.0 };
    CircuitInputs { loads: vec![lead], ..inputs }
}
