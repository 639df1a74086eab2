//! Where a loop with an orifice must differ from one with a thermostatic valve: faults.md 1.3 and 7.3.

use super::stand::{AMBIENTS_C, Seen, Stand, Trial};
use super::tables::{CAR_RPM, PICKUP_RPM};
use crate::qualify::QualifyError;
use crate::qualify::expected::Expected;
use crate::qualify::row::{Case, Row, Standing};
use crate::qualify::section::Section;

/// A change that counts [K], and superheat that counts as constant [K] (faults.md 7.3: 1 to 2 K).
const BAND_K: f64 = 0.5;
/// See above.
const CONSTANT_K: f64 = 2.0;

/// The rows.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let orifice = Stand::new("pickup", PICKUP_RPM)?;
    let valve = Stand::new("compact_car", CAR_RPM)?;
    let swept = |stand: &Stand, share: f64| AMBIENTS_C.map(|c| stand.run(c, &Trial::charge(share)));
    let (o, v) = (swept(&orifice, 1.0), swept(&valve, 1.0));
    let case = Case::new(
        Section::Signs,
        "1.3 orifice against thermostatic valve",
        "ORNL survey of ASHRAE RP-1173 and trade tables (faults.md 1.3, 7.3)",
        Standing::Published,
    );
    let at = "outside 25, 32, 40 °C, the worst of them";
    let least = |a: &[Seen; 3], b: &[Seen; 3], f: &dyn Fn(&Seen, &Seen) -> f64| {
        a.iter().zip(b).map(|(x, y)| f(x, y)).reduce(f64::min).unwrap_or(f64::NAN)
    };
    let most = |a: &[Seen; 3], b: &[Seen; 3], f: &dyn Fn(&Seen, &Seen) -> f64| -least(a, b, &|x, y| -f(x, y));
    let tube_k = |x: &Seen, y: &Seen| x.suction_superheat_k - y.suction_superheat_k;
    let valve_k = |x: &Seen, y: &Seen| x.superheat_k - y.superheat_k;
    let lost = |x: &Seen, y: &Seen| 100.0 * (1.0 - x.capacity_w / y.capacity_w);
    let mut rows = Vec::new();
    let mut ask = |what: &str, to: &str, unit, expected, got: f64| {
        rows.push(case.row(what, format!("{to}, {at}"), unit, expected, got));
    };
    let counts = Expected::AtLeast(BAND_K);
    let constant = Expected::AtMost(CONSTANT_K);

    for share in [0.9, 0.85] {
        let to = format!("{:.0} % of the charge", 100.0 * share);
        let (less_o, less_v) = (swept(&orifice, share), swept(&valve, share));
        ask("orifice: superheat rises", &to, "K", counts, least(&less_o, &o, &tube_k));
        ask("orifice: capacity falls", &to, "%", Expected::MoreThan(0.0), least(&less_o, &o, &lost));
        ask("valve: superheat constant", &to, "K", constant, most(&less_v, &v, &|x, y| valve_k(x, y).abs()));
        ask("valve: capacity lost", &to, "%", Expected::AtMost(5.0), most(&less_v, &v, &lost));
    }
    let to = "110 % of the charge";
    let (more_o, more_v) = (swept(&orifice, 1.1), swept(&valve, 1.1));
    ask("orifice: superheat falls", to, "K", counts, least(&more_o, &o, &|x, y| -tube_k(x, y)));
    let low = |x: &Seen, y: &Seen| x.evaporating_k - y.evaporating_k;
    ask("orifice: evaporating rises", to, "K", Expected::MoreThan(0.0), least(&more_o, &o, &low));
    ask("valve: superheat constant", to, "K", constant, most(&more_v, &v, &|x, y| valve_k(x, y).abs()));
    let liquid = |x: &Seen, y: &Seen| x.subcooling_k - y.subcooling_k;
    ask("valve: subcooling rises", to, "K", Expected::MoreThan(0.0), least(&more_v, &v, &liquid));

    let mut warmer = |what: &str, unit, expected, got| {
        rows.push(case.row(what, "from 25 to 40 °C outside", unit, expected, got));
    };
    warmer("orifice: superheat falls", "K", counts, -tube_k(&o[2], &o[0]));
    warmer("orifice: evaporating rises", "K", counts, low(&o[2], &o[0]));
    warmer("valve: superheat constant", "K", constant, valve_k(&v[2], &v[0]).abs());

    // The knee: an orifice loses noticeably below 90 % of the charge, a valve drastically only below 80 %.
    let (o80, v80, v50) = (swept(&orifice, 0.8), swept(&valve, 0.8), swept(&valve, 0.5));
    let mut knee = |what: &str, to: &str, unit, expected, got| {
        rows.push(case.row(what, format!("{to}, {at}"), unit, expected, got));
    };
    knee("orifice: capacity lost", "80 % of the charge", "%", Expected::AtLeast(2.0), least(&o80, &o, &lost));
    knee("valve: capacity lost", "80 % of the charge", "%", Expected::AtMost(5.0), most(&v80, &v, &lost));
    knee("valve: capacity lost", "50 % of the charge", "%", Expected::AtLeast(5.0), least(&v50, &v, &lost));
    Ok(rows)
}
