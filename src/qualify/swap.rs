//! R-1234yf in place of R-134a. The simulator should land between two experiments.

use super::QualifyError;
use super::calorimeter::{Calorimeter, Held, STANDARD};
use super::car::{Car, IDLE};
use super::cycle::Cycle;
use super::expected::Expected;
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::sources::COOLPROP;
use crate::refrigerant::Refrigerant;

const NEW: &str = "R-1234yf";
const EXPERIMENTS: &str = "between Lee & Jung, Appl. Therm. Eng. 35 (2012) 240-242, and Navarro-Esbri et al., Int. J. Refrig. 36 (2013) \
                           870-880, abstracts";
const DISCHARGE: &str = "between Lee & Jung, Appl. Therm. Eng. 35 (2012) 240-242, abstract (−6.5 K), and the same cycle by CoolProp 8.0.0 \
                         at 2/55 °C (−12.7 K)";

/// The rows.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let cycle = Case::new(Section::Steady, "R-1234yf for R-134a, same cycle", COOLPROP, Standing::Computed);
    let stand = Case::new(Section::Steady, "R-1234yf for R-134a, same rig", EXPERIMENTS, Standing::Published);
    let discharge =
        Case::new(Section::Steady, "R-1234yf for R-134a, same rig", DISCHARGE, Standing::Computed);
    let old = Refrigerant::r134a();
    let Some(new) = Refrigerant::by_name(NEW) else {
        let missing = |c: &Case, what: &str| {
            c.row(what, "", "table", Expected::AtLeast(1.0), None)
                .noting("not available: the program has no table of this refrigerant yet")
        };
        return Ok(vec![missing(&cycle, "cycle ratios"), missing(&stand, "changes in the rig")]);
    };
    let mut rows = Vec::new();
    for (te, tc, vcc, cop, t) in [(7.0, 45.0, 0.941, 0.966, -9.4), (2.0, 55.0, 0.912, 0.937, -12.7)] {
        let c = Cycle { te, tc, sh: 5.0, sc: 5.0, eta: 0.65 };
        let (a, b) = (c.points(old), c.points(new));
        let at = format!("{te}/{tc} °C, SH 5 K, SC 5 K, efficiency 0.65");
        let near = |value| Expected::Value { value, tolerance: 0.003 };
        rows.push(cycle.row("volumetric capacity, ratio", &at, "", near(vcc), b.vcc / a.vcc));
        rows.push(cycle.row("COP, ratio", &at, "", near(cop), b.q / b.w / (a.q / a.w)));
        let expected = Expected::Value { value: t, tolerance: 0.3 };
        rows.push(cycle.row("discharge temperature, change", &at, "K", expected, b.t2 - a.t2));
    }
    let like = Car::at(IDLE)?.bench;
    for (rpm, outside_c) in [(1800.0, 35.0), (2500.0, 30.0)] {
        let held = Held { compressor_rpm: rpm, outside_c, ..STANDARD };
        let a = Calorimeter::new(&like, old, held).run(1800.0);
        // Lee & Jung charged a tenth less.
        let b = Calorimeter::new(&like, new, Held { charge_share: 0.9, ..held }).run(1800.0);
        let at = format!("room 27 °C/50 %, outside {outside_c} °C, {rpm} rev/min, 10 % less charge");
        let change = |x: f64, y: f64| 100.0 * (y / x - 1.0);
        let band = |low, high| Expected::Band { low, high };
        rows.push(stand.row(
            "capacity, change",
            &at,
            "%",
            // Down by up to 4.0 % in one and by about 9 % in the other, COP by up to 2.7 % and by about 19 %: the upper
            // ends are our own.
            band(-9.0, -2.0),
            change(a.capacity_w, b.capacity_w),
        ));
        rows.push(stand.row("COP, change", &at, "%", band(-19.0, -1.0), change(a.cop(), b.cop())));
        let drop = b.discharge_k - a.discharge_k;
        rows.push(discharge.row("discharge temperature, change", &at, "K", band(-12.7, -6.5), drop));
    }
    Ok(rows)
}
