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

/// What a trend rests on. The abstracts print these signs; the others are what anyone in the trade expects.
const FIXED: (&str, Standing) =
    ("Alkan & Hosoz, Int. J. Refrig. 33 (2010) 487-495, abstract: fixed displacement", Standing::Published);
const BOTH: (&str, Standing) = (
    "Alkan & Hosoz, Int. J. Vehicle Design 52 (2010) 160-176, abstract: valve and orifice",
    Standing::Published,
);
const SPEED: (&str, Standing) =
    ("Atik & Aktas, J. Therm. Sci. Tech. 31(1) (2011) 11-17, abstract", Standing::Published);
const TRADE: (&str, Standing) = ("common practice, no source", Standing::CommonPractice);

/// Signs of trends on the stand, where one thing changes at a time. What a charge does is in `charge.rs` and the signs.
fn trends() -> Result<Vec<Row>, QualifyError> {
    let like = Car::at(IDLE)?.bench;
    let run = |held| Calorimeter::new(&like, Refrigerant::r134a(), held).run(1800.0);
    let base = run(STANDARD);
    let from = "from room 27 °C/50 %, outside 35 °C, 1800 rev/min";
    let mut rows = Vec::new();
    let mut sign =
        |what: &str, to: &str, up: bool, change: f64, unit, (source, standing): (&'static str, _)| {
            let c = Case::new(Section::Steady, "Trends, one thing changed", source, standing);
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
    sign("capacity", to, true, capacity(&fast), "W", FIXED);
    sign("COP", to, false, cop(&fast), "", SPEED);
    sign("discharge temperature", to, true, fast.discharge_k - base.discharge_k, "K", TRADE);
    sign("suction pressure", to, false, (fast.low_pa - base.low_pa) / 1e3, "kPa", TRADE);

    let hot = run(Held { outside_c: 43.0, ..STANDARD });
    let to = "to outside 43 °C";
    sign("high side", to, true, (hot.high_pa - base.high_pa) / 1e3, "kPa", TRADE);
    sign("low side", to, true, (hot.low_pa - base.low_pa) / 1e3, "kPa", TRADE);
    sign("COP", to, false, cop(&hot), "", BOTH);
    sign("capacity", to, false, capacity(&hot), "W", BOTH);

    for (held, to, source) in [
        (Held { room_c: 32.0, room_rh_pct: 37.3, ..STANDARD }, "to room 32 °C with the same water", BOTH),
        (Held { room_rh_pct: 70.0, ..STANDARD }, "to room 27 °C/70 %", TRADE),
    ] {
        let m = run(held);
        sign("capacity", to, true, capacity(&m), "W", source);
        sign("suction pressure", to, true, (m.low_pa - base.low_pa) / 1e3, "kPa", TRADE);
        sign("vent temperature", to, true, m.vent_k - base.vent_k, "K", TRADE);
    }
    Ok(rows)
}
