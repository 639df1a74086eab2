//! The table of loops with a thermostatic valve, on the compact car.

use super::super::QualifyError;
use super::super::row::Row;
use super::table::{
    CONDENSER_AIR, EVAPORATOR_AIR, Fault, HIGH, LOW, POWER, SUBCOOLING, SUCTION_SUPERHEAT, SUPERHEAT, Sign,
    T_DISCHARGE, rows as table_rows,
};

/// The compact car at 1,000 rev/min with its fan on LOW.
pub const CAR: (&str, f64, f64) = ("compact_car", 1800.0, 0.75);
/// Outside temperatures.
const OUTSIDE_C: [f64; 3] = [25.0, 32.0, 38.0];

/// All rows of the car. The table's "no receiver" signs of a mild undercharge and of subcooling are told only: this rig
/// has a receiver, whose plateau hides them.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    use Sign::{Down, NotDown, NotUp, Open, Same, Up};
    let faults = [
        Fault {
            name: "undercharge, mild",
            at: &[
                ("10 % missing", &|_, c| c.charge_kg *= 0.9),
                ("15 % missing", &|_, c| c.charge_kg *= 0.85),
            ],
            signs: &[
                (SUPERHEAT, Same),
                (EVAPORATOR_AIR, Same),
                (HIGH, Open),
                (SUBCOOLING, Open),
                (LOW, Same),
            ],
        },
        Fault {
            name: "undercharge, severe",
            at: &[("50 % missing", &|_, c| c.charge_kg *= 0.5), ("60 % missing", &|_, c| c.charge_kg *= 0.4)],
            signs: &[
                (LOW, Down),
                (SUPERHEAT, Up),
                (HIGH, Down),
                (T_DISCHARGE, Up),
                (CONDENSER_AIR, Down),
                (EVAPORATOR_AIR, Down),
                (POWER, Down),
            ],
        },
        Fault {
            name: "overcharge",
            at: &[("30 % added", &|_, c| c.charge_kg *= 1.3), ("50 % added", &|_, c| c.charge_kg *= 1.5)],
            signs: &[
                (LOW, NotDown),
                (SUPERHEAT, Same),
                (HIGH, Up),
                (SUBCOOLING, Up),
                (T_DISCHARGE, Open),
                (CONDENSER_AIR, Up),
                (EVAPORATOR_AIR, NotUp),
                (POWER, Up),
            ],
        },
        Fault {
            name: "liquid restriction behind the receiver",
            at: &[
                ("passage 4 % open", &|i, _| i.passages.drier = 0.04),
                ("passage 3 % open", &|i, _| i.passages.drier = 0.03),
            ],
            signs: &[
                (LOW, Down),
                (SUPERHEAT, Up),
                (HIGH, Down),
                (SUBCOOLING, Open),
                (T_DISCHARGE, Up),
                (CONDENSER_AIR, Down),
                (EVAPORATOR_AIR, Down),
                (POWER, Down),
            ],
        },
        Fault {
            name: "compressor leak",
            at: &[("25 % of the flow", &|i, _| i.reed_leak = 0.25), ("50 %", &|i, _| i.reed_leak = 0.5)],
            signs: &[
                (LOW, Up),
                (SUPERHEAT, NotUp),
                (HIGH, Down),
                (SUBCOOLING, NotUp),
                (T_DISCHARGE, Open),
                (CONDENSER_AIR, Down),
                (EVAPORATOR_AIR, Down),
                (POWER, Down),
            ],
        },
        Fault {
            name: "condenser air low",
            at: &[
                ("30 % of the face blocked", &|i, _| i.fins_blocked = 0.3),
                ("50 %", &|i, _| i.fins_blocked = 0.5),
            ],
            signs: &[
                (LOW, NotDown),
                (SUPERHEAT, Same),
                (HIGH, Up),
                (SUBCOOLING, Open),
                (T_DISCHARGE, Up),
                (CONDENSER_AIR, Up),
                (EVAPORATOR_AIR, NotUp),
                (POWER, Up),
            ],
        },
        Fault {
            name: "evaporator air low",
            at: &[
                ("30 % less air", &|i, _| i.evaporator_air = 0.7),
                ("40 % less air", &|i, _| i.evaporator_air = 0.6),
            ],
            signs: &[
                (LOW, Down),
                (SUPERHEAT, Open),
                (HIGH, Down),
                (SUBCOOLING, Open),
                (T_DISCHARGE, Down),
                (CONDENSER_AIR, Down),
                (EVAPORATOR_AIR, Up),
                (POWER, Down),
            ],
        },
        Fault {
            name: "air in the loop",
            at: &[("1 g of air", &|_, c| c.air_kg = 1e-3), ("3 g of air", &|_, c| c.air_kg = 3e-3)],
            signs: &[
                (LOW, NotDown),
                (SUPERHEAT, Same),
                (HIGH, Up),
                (SUBCOOLING, NotDown),
                (T_DISCHARGE, Up),
                (CONDENSER_AIR, Same),
                (EVAPORATOR_AIR, NotUp),
                (POWER, Up),
            ],
        },
        Fault {
            name: "valve over-feeding",
            at: &[
                ("held 0.9 open", &|i, _| i.metering.held = Some(0.9)),
                ("held fully open", &|i, _| i.metering.held = Some(1.0)),
            ],
            signs: &[
                (LOW, Up),
                (SUPERHEAT, Down),
                (HIGH, Open),
                (SUBCOOLING, Open),
                (T_DISCHARGE, Down),
                (CONDENSER_AIR, NotDown),
                (EVAPORATOR_AIR, Open),
                (POWER, Open),
            ],
        },
        Fault {
            name: "bulb charge lost",
            at: &[
                ("60 % lost", &|i, _| i.metering.bulb_lost = 0.6),
                ("all lost", &|i, _| i.metering.bulb_lost = 1.0),
            ],
            signs: &[
                (LOW, Down),
                (SUPERHEAT, Up),
                (HIGH, Down),
                (SUBCOOLING, NotDown),
                (T_DISCHARGE, Up),
                (CONDENSER_AIR, Down),
                (EVAPORATOR_AIR, Down),
                (POWER, Down),
            ],
        },
        Fault {
            name: "oil-logged evaporator",
            at: &[
                ("80 % too much oil", &|_, c| c.oil_kg *= 1.8),
                ("twice too much oil", &|_, c| c.oil_kg *= 3.0),
            ],
            signs: &[
                (LOW, Down),
                (SUPERHEAT, Open),
                (HIGH, Same),
                (SUBCOOLING, Same),
                (T_DISCHARGE, NotUp),
                (EVAPORATOR_AIR, Down),
            ],
        },
        Fault {
            name: "suction restriction",
            at: &[
                ("passage 30 % open", &|i, _| i.passages.suction = 0.3),
                ("passage 20 % open", &|i, _| i.passages.suction = 0.2),
            ],
            signs: &[
                (LOW, Down),
                (SUCTION_SUPERHEAT, Up),
                (HIGH, Down),
                (SUBCOOLING, NotDown),
                (T_DISCHARGE, Up),
                (CONDENSER_AIR, Down),
                (EVAPORATOR_AIR, Down),
                (POWER, Down),
            ],
        },
    ];
    table_rows(
        CAR,
        &OUTSIDE_C,
        (
            "Thermostatic valve",
            "Synthesis of ACHR News columns, Mammoth IOM, HPAC magazine 2019, Chen & Braun 2001, NIST SP-1087 (faults.md 1.2)",
        ),
        &faults,
    )
}
