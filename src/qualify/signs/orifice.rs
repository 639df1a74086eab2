//! The fixed-orifice table on the pickup, and where an orifice and a valve must differ.

use super::super::QualifyError;
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::stand::Stand;
use super::table::{
    CONDENSER_AIR, EVAPORATOR_AIR, Fault, SUBCOOLING, SUCTION_SUPERHEAT, SUPERHEAT, Sign, T_CONDENSING,
    T_DISCHARGE, T_EVAPORATING, rows as table_rows,
};

/// The pickup at 1,000 rev/min with its fan half engaged.
pub const PICKUP: (&str, f64, f64) = ("pickup", 1350.0, 0.6);
/// Outside temperatures: those of the rooftop units' tests (ARI 210/240 to hot), in which the orifice is choked.
const OUTSIDE_C: [f64; 3] = [27.0, 32.0, 38.0];

/// All rows of the pickup.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    use Sign::{Down, Open, Up};
    // Superheat is that at the compressor, as in the rooftop units, whose evaporator has no accumulator behind it.
    let (te, sh, tc, sc) = (T_EVAPORATING, SUCTION_SUPERHEAT, T_CONDENSING, SUBCOOLING);
    let (td, ca, ea) = (T_DISCHARGE, CONDENSER_AIR, EVAPORATOR_AIR);
    let faults = [
        Fault {
            name: "undercharge",
            at: &[
                ("14 % missing", &|_, c| c.charge_kg *= 0.86),
                ("25 % missing", &|_, c| c.charge_kg *= 0.75),
            ],
            signs: &[(te, Down), (sh, Up), (tc, Down), (sc, Down), (td, Up), (ca, Down), (ea, Down)],
        },
        Fault {
            name: "compressor valve leak",
            at: &[("14 % of the flow", &|i, _| i.reed_leak = 0.14), ("28 %", &|i, _| i.reed_leak = 0.28)],
            // The suction pipe is warmed by the gas that leaks back; the table's superheat is that of the coil.
            signs: &[(te, Up), (SUPERHEAT, Down), (tc, Down), (sc, Down), (td, Open), (ca, Down), (ea, Down)],
        },
        Fault {
            name: "liquid-line restriction",
            at: &[
                ("passage 6 % open", &|i, _| i.passages.liquid = 0.06),
                ("passage 4 % open", &|i, _| i.passages.liquid = 0.04),
            ],
            signs: &[(te, Down), (sh, Up), (tc, Down), (sc, Up), (td, Up), (ca, Down), (ea, Down)],
        },
        Fault {
            name: "condenser fouling",
            at: &[
                ("28 % of the face blocked", &|i, _| i.fins_blocked = 0.28),
                ("56 %", &|i, _| i.fins_blocked = 0.56),
            ],
            signs: &[(te, Up), (sh, Down), (tc, Up), (sc, Down), (td, Up), (ca, Up), (ea, Down)],
        },
        Fault {
            name: "evaporator fouling",
            at: &[
                ("24 % less air", &|i, _| i.evaporator_air = 0.76),
                ("36 % less air", &|i, _| i.evaporator_air = 0.64),
            ],
            signs: &[(te, Down), (sh, Down), (tc, Down), (sc, Down), (td, Down), (ca, Down), (ea, Up)],
        },
    ];
    let mut rows = table_rows(
        PICKUP,
        &OUTSIDE_C,
        (
            "Fixed orifice",
            "Li & Braun, Purdue report on rooftop units, table 1-1, after Rossi & Braun 1997 and Breuker & Braun 1998 (faults.md 1.1)",
        ),
        &faults,
    )?;
    rows.extend(against_a_valve()?);
    Ok(rows)
}

/// Where orifice and valve must differ.
fn against_a_valve() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(
        Section::Signs,
        "Orifice against valve",
        "ORNL survey of ASHRAE RP-1173 (Purdue, six units) and NIST SP-1087 (faults.md 1.3)",
        Standing::Published,
    );
    let at = |(rig, rpm, fan): (&str, f64, f64), outside_c: f64| Stand::new(rig, outside_c, rpm, fan);
    let car = super::expansion_valve::CAR;
    let (orifice, valve) = (at(PICKUP, 32.0)?, at(car, 32.0)?);
    let charge = |share: f64| move |_: &mut _, c: &mut crate::plant::Contents| c.charge_kg *= share;
    let (o, v) = (orifice.healthy(), valve.healthy());
    let (o85, v85) = (orifice.with(&charge(0.85)), valve.with(&charge(0.85)));
    let (o110, v120) = (orifice.with(&charge(1.1)), valve.with(&charge(1.2)));
    let (o38, v38) = (at(PICKUP, 38.0)?.healthy(), at(car, 38.0)?.healthy());
    let same = Expected::Value { value: 0.0, tolerance: 2.0 };
    let up = Expected::AtLeast(0.5);
    let down = Expected::AtMost(-0.5);
    let low = |a: f64, b: f64| (b - a) / 1e5;
    Ok(vec![
        c.row(
            "superheat at the compressor, orifice",
            "15 % missing, 32 °C",
            "K",
            up,
            o85.suction_superheat_k - o.suction_superheat_k,
        ),
        c.row("superheat, valve", "15 % missing, 32 °C", "K", same, v85.superheat_k - v.superheat_k),
        c.row(
            "capacity, valve",
            "15 % missing, 32 °C",
            "%",
            Expected::Value { value: 0.0, tolerance: 5.0 },
            100.0 * (v85.capacity_w / v.capacity_w - 1.0),
        ),
        c.row(
            "capacity, orifice",
            "15 % missing, 32 °C",
            "%",
            Expected::AtMost(-2.0),
            100.0 * (o85.capacity_w / o.capacity_w - 1.0),
        ),
        c.row(
            "superheat at the compressor, orifice",
            "10 % added, 32 °C",
            "K",
            down,
            o110.suction_superheat_k - o.suction_superheat_k,
        ),
        c.row(
            "low side, orifice",
            "10 % added, 32 °C",
            "bar",
            Expected::AtLeast(0.0),
            low(o.low_pa, o110.low_pa),
        ),
        c.row("superheat, valve", "20 % added, 32 °C", "K", same, v120.superheat_k - v.superheat_k),
        c.row("subcooling, valve", "20 % added, 32 °C", "K", up, v120.subcooling_k - v.subcooling_k),
        c.row(
            "superheat at the compressor, orifice",
            "38 °C against 32 °C",
            "K",
            down,
            o38.suction_superheat_k - o.suction_superheat_k,
        ),
        c.row(
            "low side, orifice",
            "38 °C against 32 °C",
            "bar",
            Expected::AtLeast(0.05),
            low(o.low_pa, o38.low_pa),
        ),
        c.row("superheat, valve", "38 °C against 32 °C", "K", same, v38.superheat_k - v.superheat_k),
    ])
}
