//! The fixed-orifice table on the pickup, and where an orifice and a valve must differ.

use super::super::QualifyError;
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::super::sources::RP_1173;
use super::stand::{Shown, Stand};
use super::table::{
    CONDENSER_AIR, EVAPORATOR_AIR, Fault, SUBCOOLING, SUCTION_SUPERHEAT, SUPERHEAT, Sign, T_CONDENSING,
    T_DISCHARGE, T_EVAPORATING, rows as table_rows,
};

/// The pickup at 1,000 rev/min with its fan half engaged.
pub const PICKUP: (&str, f64, f64) = ("pickup", 1350.0, 0.6);
/// Outside temperatures: those of the rooftop units' tests (ARI 210/240 to hot), in which the orifice is choked.
const OUTSIDE_C: [f64; 3] = [27.0, 32.0, 38.0];
/// The table of rules.
const RULES: (&str, Standing) = (
    "Li & Braun, Fault Detection and Diagnostics for Rooftop Air Conditioners (Purdue, undated), table 1-1, after Rossi & Braun, HVAC&R \
     Research 3(1) (1997) 19-37, and Breuker & Braun, HVAC&R Research 4(3) (1998) 303-318",
    Standing::Published,
);

/// All rows of the pickup.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    use Sign::{Down, Up};
    // Superheat is that at the compressor, as in the rooftop units, whose evaporator has no accumulator behind it.
    let (te, sh, tc, sc) = (T_EVAPORATING, SUCTION_SUPERHEAT, T_CONDENSING, SUBCOOLING);
    let (td, ca, ea) = (T_DISCHARGE, CONDENSER_AIR, EVAPORATOR_AIR);
    let faults = [
        Fault {
            name: "undercharge",
            source: RULES,
            at: &[
                ("14 % missing", &|_, c| c.charge_kg *= 0.86),
                ("25 % missing", &|_, c| c.charge_kg *= 0.75),
            ],
            signs: &[(te, Down), (sh, Up), (tc, Down), (sc, Down), (td, Up), (ca, Down), (ea, Down)],
        },
        Fault {
            name: "compressor valve leak",
            source: RULES,
            at: &[("14 % of the flow", &|i, _| i.reed_leak = 0.14), ("28 %", &|i, _| i.reed_leak = 0.28)],
            // The suction pipe is warmed by the gas that leaks back; the table's superheat is that of the coil. Its discharge
            // temperature falls; a worked case in ACHR News (valve, R-134a) has it high.
            signs: &[(te, Up), (SUPERHEAT, Down), (tc, Down), (sc, Down), (td, Down), (ca, Down), (ea, Down)],
        },
        Fault {
            name: "liquid-line restriction",
            source: RULES,
            at: &[
                ("passage 6 % open", &|i, _| i.passages.liquid = 0.06),
                ("passage 4 % open", &|i, _| i.passages.liquid = 0.04),
            ],
            signs: &[(te, Down), (sh, Up), (tc, Down), (sc, Up), (td, Up), (ca, Down), (ea, Down)],
        },
        Fault {
            name: "condenser fouling",
            source: RULES,
            at: &[
                ("28 % of the face blocked", &|i, _| i.fins_blocked = 0.28),
                ("56 %", &|i, _| i.fins_blocked = 0.56),
            ],
            signs: &[(te, Up), (sh, Down), (tc, Up), (sc, Down), (td, Up), (ca, Up), (ea, Down)],
        },
        Fault {
            name: "evaporator fouling",
            source: RULES,
            at: &[
                ("24 % less air", &|i, _| i.evaporator_air = 0.76),
                ("36 % less air", &|i, _| i.evaporator_air = 0.64),
            ],
            signs: &[(te, Down), (sh, Down), (tc, Down), (sc, Down), (td, Down), (ca, Down), (ea, Up)],
        },
    ];
    let mut rows = table_rows(
        |outside_c| Stand::new(PICKUP.0, outside_c, PICKUP.1, PICKUP.2),
        &OUTSIDE_C,
        "Fixed orifice",
        &faults,
    )?;
    rows.extend(against_a_valve()?);
    Ok(rows)
}

/// Where orifice and valve must differ: what capacity does is printed, the rest is what the trade knows of them. What the
/// sign tables ask for at the same charge is not asked for again.
fn against_a_valve() -> Result<Vec<Row>, QualifyError> {
    let name = "Orifice against valve";
    let c = Case::new(Section::Signs, name, "common practice, no source", Standing::CommonPractice);
    let knee = Case::new(Section::Signs, name, RP_1173, Standing::Published);
    let at = |(rig, rpm, fan): (&str, f64, f64), outside_c: f64| Stand::new(rig, outside_c, rpm, fan);
    let car = super::expansion_valve::CAR;
    let (orifice, valve) = (at(PICKUP, 32.0)?, at(car, 32.0)?);
    let charge = |share: f64| move |_: &mut _, c: &mut crate::plant::Contents| c.charge_kg *= share;
    let (o, v) = (orifice.healthy(), valve.healthy());
    let (o85, v85) = (orifice.with(&charge(0.85)), valve.with(&charge(0.85)));
    let (o110, v120) = (orifice.with(&charge(1.1)), valve.with(&charge(1.2)));
    let (o38, v38) = (at(PICKUP, 38.0)?.healthy(), at(car, 38.0)?.healthy());
    let same = Expected::Value { value: 0.0, tolerance: 2.0 };
    let (up, down) = (Expected::AtLeast(0.5), Expected::AtMost(-0.5));
    let hot = |a: &Shown, b: &Shown| b.suction_superheat_k - a.suction_superheat_k;
    let low = |a: &Shown, b: &Shown| (b.low_pa - a.low_pa) / 1e5;
    let capacity = |a: &Shown, b: &Shown| 100.0 * (b.capacity_w / a.capacity_w - 1.0);
    let (less, more, warm) = ("15 % missing, 32 °C", "10 % added, 32 °C", "38 °C against 32 °C");
    let valve_more = "20 % added, 32 °C";
    Ok(vec![
        c.row("superheat at the compressor, orifice", less, "K", up, hot(&o, &o85)),
        knee.row(
            "capacity, valve",
            less,
            "%",
            Expected::Value { value: 0.0, tolerance: 5.0 },
            capacity(&v, &v85),
        ),
        knee.row("capacity, orifice", less, "%", Expected::AtMost(-2.0), capacity(&o, &o85)),
        c.row("superheat at the compressor, orifice", more, "K", down, hot(&o, &o110)),
        c.row("low side, orifice", more, "bar", Expected::AtLeast(0.0), low(&o, &o110)),
        c.row("superheat, valve", valve_more, "K", same, v120.superheat_k - v.superheat_k),
        c.row("subcooling, valve", valve_more, "K", up, v120.subcooling_k - v.subcooling_k),
        c.row("superheat at the compressor, orifice", warm, "K", down, hot(&o, &o38)),
        c.row("low side, orifice", warm, "bar", Expected::AtLeast(0.05), low(&o, &o38)),
        c.row("superheat, valve", warm, "K", same, v38.superheat_k - v.superheat_k),
    ])
}
