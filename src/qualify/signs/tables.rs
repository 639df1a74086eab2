//! faults.md 1.1 on the pickup (orifice tube) and 1.2 on the compact car (thermostatic valve).

use super::stand::{AMBIENTS_C, Seen, Stand, Trial};
use super::table::{Column, Line, kelvin, rows};
use crate::qualify::QualifyError;
use crate::qualify::row::Row;

/// Compressor speed on the stand, compact car and pickup [rev/min].
pub const CAR_RPM: f64 = 1800.0;
/// See above; its compressor is larger.
pub const PICKUP_RPM: f64 = 1350.0;
/// Outside temperature at which restrictions are made [°C].
const MADE_AT_C: f64 = AMBIENTS_C[1];

/// A liquid line that takes these shares of the pressure.
fn restricted(stand: &Stand, drops: [f64; 2]) -> [Trial; 2] {
    drops.map(|drop| {
        let open = stand.narrowed(MADE_AT_C, drop);
        Trial::of(format!("{:.0} % of the pressure lost in the liquid line", 100.0 * drop), move |i| {
            i.passages.liquid = open;
        })
    })
}

fn reeds(shares: [f64; 2]) -> [Trial; 2] {
    shares.map(|x| Trial::of(format!("{:.0} % of the flow leaks back", 100.0 * x), move |i| i.reed_leak = x))
}

fn covered(shares: [f64; 2]) -> [Trial; 2] {
    shares.map(|x| Trial::of(format!("{:.0} % of the face covered", 100.0 * x), move |i| i.fins_blocked = x))
}

fn blown(shares: [f64; 2]) -> [Trial; 2] {
    shares.map(|x| Trial::of(format!("{:.0} % of the air", 100.0 * x), move |i| i.evaporator_air = x))
}

/// Table 1.1.
pub fn orifice() -> Result<Vec<Row>, QualifyError> {
    let stand = Stand::new("pickup", PICKUP_RPM)?;
    // A rooftop unit has no accumulator: its superheat is that of the compressor's inlet as of the coil's outlet.
    let columns: [Column; 7] = [
        kelvin("evaporating", |s| s.evaporating_k),
        kelvin("superheat", |s| s.suction_superheat_k),
        kelvin("condensing", |s| s.condensing_k),
        kelvin("subcooling", |s| s.subcooling_k),
        kelvin("discharge", |s| s.discharge_k),
        kelvin("condenser air rise", |s| s.condenser_air_k),
        kelvin("evaporator air drop", |s| s.evaporator_air_k),
    ];
    let lines = vec![
        Line {
            fault: "undercharge",
            signs: "- + - - + - -",
            trials: [0.8, 0.7].map(Trial::charge),
            note: "NIST measured to 30 % below",
        },
        Line { fault: "valves leak", signs: "+ - - - ? - -", trials: reeds([0.15, 0.28]), note: "" },
        Line {
            fault: "liquid line restricted",
            signs: "- + - + + - -",
            trials: restricted(&stand, [0.1, 0.2]),
            note: "",
        },
        Line { fault: "condenser fouled", signs: "+ - + - + + -", trials: covered([0.3, 0.5]), note: "" },
        Line { fault: "evaporator fouled", signs: "- - - - - - +", trials: blown([0.8, 0.65]), note: "" },
    ];
    Ok(rows(
        &stand,
        "1.1 orifice, pickup",
        "Li & Braun, rule set of Rossi & Braun 1997 and Breuker & Braun 1998 (faults.md 1.1)",
        &columns,
        lines,
    ))
}

/// Columns of table 1.2, the low side where it is measured.
fn thermostatic_columns(evaporating: fn(&Seen) -> f64, superheat: fn(&Seen) -> f64) -> [Column; 8] {
    [
        kelvin("evaporating", evaporating),
        kelvin("superheat", superheat),
        kelvin("condensing", |s| s.condensing_k),
        kelvin("subcooling", |s| s.subcooling_k),
        kelvin("discharge", |s| s.discharge_k),
        kelvin("condenser air rise", |s| s.condenser_air_k),
        kelvin("evaporator air drop", |s| s.evaporator_air_k),
        Column { name: "power", of: |s| s.power_w, relative: true },
    ]
}

/// Table 1.2.
pub fn thermostatic() -> Result<Vec<Row>, QualifyError> {
    let stand = Stand::new("compact_car", CAR_RPM)?;
    let held = |lifts: [f64; 2]| {
        lifts.map(|x| Trial::of(format!("held at {x} of full lift"), move |i| i.metering.held = Some(x)))
    };
    let lines = vec![
        Line {
            fault: "undercharge, mild",
            signs: "0- 0 0- 0- 0+ ? 0 0-",
            trials: [0.9, 0.8].map(Trial::charge),
            note: "printed as falls for loops without a receiver; with one, faults.md 4 row 1 and 7.2 have a plateau first, \
                   so no rise is asked for",
        },
        Line {
            fault: "undercharge, severe",
            signs: "- + - - + - - -",
            trials: [0.4, 0.3].map(Trial::charge),
            note: "",
        },
        Line {
            fault: "overcharge",
            signs: "0+ 0 + + ? + 0- +",
            trials: [1.3, 1.5].map(Trial::charge),
            note: "",
        },
        Line {
            fault: "liquid line restricted, with receiver",
            signs: "- 0+ - 0+ + - - -",
            trials: restricted(&stand, [0.4, 0.6]),
            note: "superheat is 0 until the valve is wide open, then +",
        },
        Line {
            fault: "valves leak",
            signs: "+ 0- - 0- ? - - -",
            trials: reeds([0.2, 0.4]),
            note: "fixed air",
        },
        Line {
            fault: "condenser air low",
            signs: "0+ 0 + ? + + 0- +",
            trials: covered([0.3, 0.5]),
            note: "",
        },
        Line { fault: "evaporator air low", signs: "- 0 - ? - - + -", trials: blown([0.8, 0.65]), note: "" },
        Line {
            fault: "air in the loop",
            signs: "0+ 0 + 0+ + 0 0- +",
            trials: [2.0, 4.0].map(Trial::air),
            note: "",
        },
        Line {
            fault: "valve feeds too much",
            signs: "+ 0- ? - - 0+ - +",
            trials: held([1.0, 1.6]),
            note: "contested: the high side rises on this valve, falls on a flooding one",
        },
        Line {
            fault: "bulb lost its charge",
            signs: "- + - + + - - .",
            trials: [0.7, 1.0].map(|x| {
                Trial::of(format!("{:.0} % of the bulb's charge lost", 100.0 * x), move |i| {
                    i.metering.bulb_lost = x;
                })
            }),
            note: "",
        },
    ];
    let source = "trade columns, manuals and handbooks collected in faults.md 1.2";
    let columns = thermostatic_columns(|s| s.evaporating_k, |s| s.superheat_k);
    let mut all = rows(&stand, "1.2 thermostatic, compact car", source, &columns, lines);
    let suction = Line {
        fault: "suction line restricted",
        signs: "- + - 0+ + - - -",
        trials: [0.25, 0.15].map(|x| {
            Trial::of(format!("suction line {:.0} % open", 100.0 * x), move |i| i.passages.suction = x)
        }),
        note: "low side and superheat at the compressor, as printed",
    };
    let columns = thermostatic_columns(|s| s.suction_sat_k, |s| s.suction_superheat_k);
    all.extend(rows(&stand, "1.2 thermostatic, compact car", source, &columns, vec![suction]));
    Ok(all)
}
