//! The table of loops with a thermostatic valve, on the compact car. The table speaks of loops without a receiver unless it
//! says otherwise; where the receiver would hide what it says of a mild undercharge, the same car is asked without one.

use super::super::QualifyError;
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::stand::Stand;
use super::table::{
    CONDENSER_AIR, EVAPORATOR_AIR, Fault, HIGH, LOW, POWER, SUBCOOLING, SUCTION_SUPERHEAT, SUPERHEAT, Sign,
    T_DISCHARGE, rows as table_rows,
};

/// The compact car at 1,000 rev/min with its fan on LOW.
pub const CAR: (&str, f64, f64) = ("compact_car", 1800.0, 0.75);
/// Outside temperatures.
const OUTSIDE_C: [f64; 3] = [25.0, 32.0, 38.0];

/// Columns of ACHR News ("The Professor", J. Tomczyk) by their numbers, and other trade texts, one for each row of the table.
const fn printed(source: &'static str) -> (&'static str, Standing) {
    (source, Standing::Published)
}
/// Trade texts that our notes do not name row by row.
const TRADE: (&str, Standing) =
    ("trade columns on expansion valves, HPAC Magazine 2019 among them", Standing::CommonPractice);
const MILD: (&str, Standing) = (
    "trade columns, not named row by row in our notes; that a valve hides faults also Kim, Yoon, Payne & Domanski, NIST SP 1087 (2008)",
    Standing::CommonPractice,
);
const SEVERE: (&str, Standing) =
    printed("ACHR News, \"The Professor\" columns on low charge, undated; Mammoth heat-pump manual, undated");
const OVERCHARGE: (&str, Standing) = printed(
    "ACHR News 115055, 143822 and 133927, undated; on discharge temperature Mammoth's manual, undated, says the reverse",
);
const RESTRICTION: (&str, Standing) =
    printed("ACHR News 134216, 142801 and 107666, undated: with a receiver");
const WORN: (&str, Standing) =
    printed("ACHR News 124501 and 107725, undated; Li & Braun after Rossi & Braun 1997");
const DIRTY: (&str, Standing) =
    printed("ACHR News 91887, undated; Li & Braun after Rossi & Braun 1997 says subcooling falls");
const LITTLE_AIR: (&str, Standing) = printed("ACHR News 143585, 102301 and 132440, undated");
const TRAPPED: (&str, Standing) = printed("ACHR News 129746, undated");
const OIL: (&str, Standing) = printed("Tomczyk, ACHR News, \"Oil-logged evaporators\", undated");
const SUCTION: (&str, Standing) = printed("macmedia 2019, on suction line and filter restrictions");

/// All rows of the car.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let car = |outside_c| Stand::new(CAR.0, outside_c, CAR.1, CAR.2);
    let mut rows = on_the_car(car)?;
    rows.extend(without_receiver(|outside_c| Ok(car(outside_c)?.without_receiver()))?);
    // No number of any instrument: the mechanism is not there.
    let oil = Case::new(Section::Signs, "Thermostatic valve: oil-logged evaporator", OIL.0, OIL.1);
    rows.push(
        oil.row("low side", "80 % too much oil, outside 32 °C", "bar", Expected::AtMost(-0.05), None)
            .noting("stands for the whole row of the table: low side, discharge and air drop down, superheat low, the rest unchanged"),
    );
    Ok(rows)
}

/// A mild undercharge, which a receiver hides: up to 10 %, where this valve holds its superheat (at 15 % it is up by 3.5 to 7 K).
fn without_receiver(at: impl Fn(f64) -> Result<Stand, QualifyError>) -> Result<Vec<Row>, QualifyError> {
    use Sign::{Down, NotDown, Same};
    let faults = [Fault {
        name: "undercharge, mild",
        source: MILD,
        at: &[("5 % missing", &|_, c| c.charge_kg *= 0.95), ("10 % missing", &|_, c| c.charge_kg *= 0.9)],
        signs: &[
            (SUPERHEAT, Same),
            (EVAPORATOR_AIR, Same),
            (LOW, Same),
            (HIGH, Down),
            (SUBCOOLING, Down),
            (T_DISCHARGE, NotDown),
            (CONDENSER_AIR, Down),
            (POWER, Down),
        ],
    }];
    table_rows(at, &OUTSIDE_C, "Thermostatic valve, no receiver", &faults)
}

/// The rows on the car as it is.
fn on_the_car(at: impl Fn(f64) -> Result<Stand, QualifyError>) -> Result<Vec<Row>, QualifyError> {
    use Sign::{Down, NotDown, NotUp, Open, Same, Up};
    let faults = [
        Fault {
            name: "undercharge, mild",
            source: MILD,
            at: &[
                ("10 % missing", &|_, c| c.charge_kg *= 0.9),
                ("15 % missing", &|_, c| c.charge_kg *= 0.85),
            ],
            signs: &[(SUPERHEAT, Same), (EVAPORATOR_AIR, Same), (LOW, Same)],
        },
        Fault {
            name: "undercharge, severe",
            source: SEVERE,
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
            source: OVERCHARGE,
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
            source: RESTRICTION,
            at: &[
                ("passage 4 % open", &|i, _| i.passages.drier = 0.04),
                ("passage 3 % open", &|i, _| i.passages.drier = 0.03),
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
            name: "compressor leak",
            source: WORN,
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
            source: DIRTY,
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
            source: LITTLE_AIR,
            at: &[
                ("30 % less air", &|i, _| i.evaporator_air = 0.7),
                ("40 % less air", &|i, _| i.evaporator_air = 0.6),
            ],
            signs: &[
                (LOW, Down),
                (SUPERHEAT, Same),
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
            source: TRAPPED,
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
            source: TRADE,
            at: &[
                ("held 0.9 open", &|i, _| i.metering.held = Some(0.9)),
                ("held fully open", &|i, _| i.metering.held = Some(1.0)),
            ],
            signs: &[
                (LOW, Up),
                (SUPERHEAT, Down),
                (HIGH, Open),
                (SUBCOOLING, Down),
                (T_DISCHARGE, Down),
                (CONDENSER_AIR, NotDown),
                (EVAPORATOR_AIR, Down),
                (POWER, Up),
            ],
        },
        Fault {
            name: "bulb charge lost",
            source: TRADE,
            at: &[
                ("60 % lost", &|i, _| i.metering.bulb_lost = 0.6),
                ("all lost", &|i, _| i.metering.bulb_lost = 1.0),
            ],
            signs: &[
                (LOW, Down),
                (SUPERHEAT, Up),
                (HIGH, Down),
                (SUBCOOLING, Up),
                (T_DISCHARGE, Up),
                (CONDENSER_AIR, Down),
                (EVAPORATOR_AIR, Down),
                (POWER, Down),
            ],
        },
        Fault {
            name: "suction restriction",
            source: SUCTION,
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
    table_rows(at, &OUTSIDE_C, "Thermostatic valve", &faults)
}
