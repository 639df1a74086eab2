//! How much faults move things, against published numbers.

use super::super::QualifyError;
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::orifice::PICKUP;
use super::stand::Stand;
use crate::bench::{Action, Bench};
use crate::plant::{Contents, Inputs};
use crate::scenario::Scenario;

/// All rows.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let mut rows = undercharge()?;
    rows.extend(restriction()?);
    rows.extend(trapped_air()?);
    rows.extend(cycling()?);
    Ok(rows)
}

/// Undercharge on the rig without a receiver: the regressions are its target (they bound the compact car from above, see
/// the charge sweep).
fn undercharge() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(
        Section::Signs,
        "Undercharge without a receiver",
        "Cheung & Braun, rooftop units with fixed and thermostatic devices, regression of faults.md 1.4 b",
        Standing::Published,
    );
    let stand = Stand::new(PICKUP.0, 35.0, PICKUP.1, PICKUP.2)?;
    let full = stand.healthy();
    let mut rows = Vec::new();
    for (missing, capacity, cop) in [(0.1, 0.95, 0.99), (0.2, 0.88, 0.94), (0.3, 0.80, 0.87)] {
        let s = stand.with(&|_, c: &mut Contents| c.charge_kg *= 1.0 - missing);
        let at = format!("{:.0} % missing, 35 °C", 100.0 * missing);
        let near = |value| Expected::Value { value, tolerance: 0.06 };
        rows.push(c.row(
            "capacity over that at full charge",
            &at,
            "",
            near(capacity),
            s.capacity_w / full.capacity_w,
        ));
        let ratio = (s.capacity_w / s.power_w) / (full.capacity_w / full.power_w);
        rows.push(c.row("COP over that at full charge", &at, "", near(cop), ratio));
    }
    Ok(rows)
}

/// Liquid restriction counted by the share of the pressure difference that falls on it.
fn restriction() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(
        Section::Signs,
        "Liquid restriction",
        "Cheung & Braun, regression of faults.md 1.4 b",
        Standing::Published,
    );
    let stand = Stand::new(PICKUP.0, 35.0, PICKUP.1, PICKUP.2)?;
    let full = stand.healthy();
    // The opening at which a fifth of the difference between condenser and evaporator falls on the passage.
    let share = |open: f64| {
        let s = stand.with(&|i: &mut Inputs, _| i.passages.liquid = open);
        ((s.high_pa - s.port_pa) / (s.high_pa - s.low_pa), s)
    };
    let (mut narrow, mut wide) = (0.005, 0.5);
    for _ in 0..12 {
        let middle = f64::sqrt(narrow * wide);
        if share(middle).0 > 0.2 { narrow = middle } else { wide = middle }
    }
    let (fell, s) = share(narrow);
    let at = "a fifth of the difference on the passage, pickup, 35 °C";
    let near = |value, tolerance| Expected::Value { value, tolerance };
    Ok(vec![
        c.row("share of the difference on the passage", at, "", near(0.2, 0.03), fell),
        c.row("capacity over healthy", at, "", near(0.89, 0.05), s.capacity_w / full.capacity_w),
        c.row("low side against healthy", at, "bar", Expected::AtMost(-0.05), (s.low_pa - full.low_pa) / 1e5),
    ])
}

/// Two grams of air in about a litre of gas space on the high side: 1 to 2 bar (Dalton).
fn trapped_air() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(
        Section::Signs,
        "Trapped air",
        "ideal gas in a litre of high-side gas space at 55 °C (faults.md 3.8)",
        Standing::Computed,
    );
    let mut rows = Vec::new();
    for (rig, rpm, fan, most) in
        [(super::expansion_valve::CAR.0, 1800.0, 0.75, 4.5), (PICKUP.0, PICKUP.1, PICKUP.2, 4.5)]
    {
        let stand = Stand::new(rig, 35.0, rpm, fan)?;
        let (clean, airy) = (stand.healthy(), stand.with(&|_, c: &mut Contents| c.air_kg = 2e-3));
        let at = format!("2 g of air, {rig}, 35 °C");
        let band = Expected::Band { low: 1.0, high: most };
        let row = c.row("high side above healthy", at, "bar", band, (airy.port_pa - clean.port_pa) / 1e5);
        rows.push(row.noting("1 g in a litre makes 0.94 bar; these high sides hold less gas than a litre"));
    }
    Ok(rows)
}

/// Clutch starts in ten minutes and whether the clutch is in at the end, on the bench.
fn starts(rig: &str, ambient_c: f64, charge_missing: f64) -> Result<(f64, bool), QualifyError> {
    let mut scenario: Scenario = super::super::car::healthy()?;
    scenario.rig = rig.into();
    scenario.start.ambient_c = ambient_c;
    scenario.start.engine_rpm = 1500.0;
    let mut bench = Bench::new(&scenario, 1)?;
    if charge_missing > 0.0 {
        bench.apply(Action::ImposeFault {
            id: crate::fault::FaultId::Undercharge,
            severity: charge_missing,
        })?;
    }
    bench.advance(20 * 300);
    let (mut was, mut count) = (bench.outside().clutch_engaged, 0.0);
    for _ in 0..20 * 600 {
        bench.advance(1);
        let engaged = bench.outside().clutch_engaged;
        count += f64::from(u8::from(engaged && !was));
        was = engaged;
    }
    Ok((if bench.troubles().is_empty() { count } else { f64::NAN }, was))
}

/// Fast cycling on low charge where the switch sits on the suction side, lock-out where it sits on the liquid side.
fn cycling() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(
        Section::Signs,
        "Low charge and the clutch",
        "orifice-tube service manual, switch 1.75 and 3.15 bar gauge on the suction side (faults.md 2.3)",
        Standing::Published,
    );
    let own = Case::new(
        Section::Signs,
        "Lock-out on an empty loop",
        "dual pressure switch 2.0 bar gauge on the liquid side (faults.md 3.2)",
        Standing::Published,
    );
    let healthy = starts(PICKUP.0, 32.0, 0.0)?;
    let low = starts(PICKUP.0, 32.0, 0.5)?;
    let car = starts(super::expansion_valve::CAR.0, 32.0, 0.97)?;
    let at = "1,500 rev/min, 32 °C, ten minutes";
    Ok(vec![
        c.row("clutch starts, half the charge missing", at, "", Expected::AtLeast(30.0), low.0)
            .noting("fast: a cycle of 20 s or less (common practice)"),
        c.row(
            "more starts than with full charge",
            at,
            "times",
            Expected::AtLeast(3.0),
            low.0 / healthy.0.max(1.0),
        ),
        own.row(
            "clutch starts, 97 % missing, compact car",
            at,
            "",
            Expected::Band { low: 0.0, high: 0.0 },
            car.0,
        ),
        own.row("clutch in", at, "", Expected::Band { low: 0.0, high: 0.0 }, f64::from(u8::from(car.1))),
    ])
}
