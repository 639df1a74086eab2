//! Steady states: cycle points, service manuals, refrigerant swaps, charge, and the signs of published trends.

use super::calorimeter::{Calorimeter, Held, Moment, STANDARD};
use super::car::{Car, IDLE};
use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::{Part, QualifyError, charge, cycle, envelopes, swap};
use crate::refrigerant::Refrigerant;

/// The section.
pub fn part() -> Result<Part, QualifyError> {
    let mut part = Part::from(cycle::rows());
    part.extend(envelopes::part()?);
    part.rows.extend(trends()?);
    part.extend(charge::part()?);
    part.rows.extend(swap::rows()?);
    Ok(part)
}

/// Signs of physics.md 4.3, on the stand, where one thing changes at a time.
fn trends() -> Result<Vec<Row>, QualifyError> {
    let like = Car::at(IDLE)?.bench;
    let run = |held| Calorimeter::new(&like, Refrigerant::r134a(), held).run(1800.0);
    let base = run(STANDARD);
    let c = Case::new(
        Section::Steady,
        "Trends, one thing changed",
        "Alkan & Hosoz 2010 (two papers), Atik & Aktas 2011, Ratts & Brown 2000, abstracts (physics.md 4.3)",
        Standing::Published,
    );
    let from = "from room 27 °C/50 %, outside 35 °C, 1800 rev/min";
    let mut rows = Vec::new();
    let mut sign = |what: &str, to: &str, up: bool, change: f64, unit: &'static str| {
        let (word, change) = if up { ("rise of", change) } else { ("fall of", -change) };
        rows.push(c.row(
            format!("{word} {what}"),
            format!("{to}, {from}"),
            unit,
            Expected::MoreThan(0.0),
            change,
        ));
    };
    let capacity = |m: &Moment| m.capacity_w - base.capacity_w;
    let cop = |m: &Moment| m.cop() - base.cop();

    let fast = run(Held { compressor_rpm: 3000.0, ..STANDARD });
    let to = "to 3000 rev/min";
    sign("capacity", to, true, capacity(&fast), "W");
    sign("COP", to, false, cop(&fast), "");
    sign("discharge temperature", to, true, fast.discharge_k - base.discharge_k, "K");
    sign("suction pressure", to, false, (fast.low_pa - base.low_pa) / 1e3, "kPa");

    let hot = run(Held { outside_c: 43.0, ..STANDARD });
    let to = "to outside 43 °C";
    sign("high side", to, true, (hot.high_pa - base.high_pa) / 1e3, "kPa");
    sign("low side", to, true, (hot.low_pa - base.low_pa) / 1e3, "kPa");
    sign("COP", to, false, cop(&hot), "");
    sign("capacity", to, false, capacity(&hot), "W");

    for (held, to) in [
        (Held { room_c: 32.0, room_rh_pct: 37.3, ..STANDARD }, "to room 32 °C with the same water"),
        (Held { room_rh_pct: 70.0, ..STANDARD }, "to room 27 °C/70 %"),
    ] {
        let m = run(held);
        sign("capacity", to, true, capacity(&m), "W");
        sign("suction pressure", to, true, (m.low_pa - base.low_pa) / 1e3, "kPa");
        sign("vent temperature", to, true, m.vent_k - base.vent_k, "K");
    }
    let low = run(Held { charge_share: 0.5, ..STANDARD });
    sign("capacity", "to half the charge", false, capacity(&low), "W");
    let over = run(Held { charge_share: 1.5, ..STANDARD });
    sign("high side", "to 50 % more charge", true, (over.high_pa - base.high_pa) / 1e3, "kPa");
    sign("capacity", "to 50 % more charge", false, capacity(&over), "W");
    Ok(rows)
}
