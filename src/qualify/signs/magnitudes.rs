//! How much faults move things, against published numbers.

use super::super::QualifyError;
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::super::sources::{CHEUNG_BRAUN, ORIFICE_MANUAL};
use super::orifice::PICKUP;
use super::stand::Stand;
use crate::bench::{Action, Bench};
use crate::plant::{Contents, Inputs};
use crate::scenario::Scenario;

/// All rows.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let mut rows = undercharge()?;
    rows.extend(restriction()?);
    rows.extend(cycling()?);
    Ok(rows)
}

/// Undercharge on the rig without a receiver: the regressions are its target (they bound the compact car from above, see
/// the charge sweep).
fn undercharge() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(Section::Signs, "Undercharge without a receiver", CHEUNG_BRAUN, Standing::Computed);
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
    let c = Case::new(Section::Signs, "Liquid restriction", CHEUNG_BRAUN, Standing::Computed);
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
    let expected = Expected::Value { value: 0.89, tolerance: 0.05 };
    // Only where the passage was found does the number say anything.
    let found = if (fell - 0.2).abs() < 0.03 { 1.0 } else { f64::NAN };
    Ok(vec![c.row("capacity over healthy", at, "", expected, found * s.capacity_w / full.capacity_w)])
}

/// Clutch starts of the pickup in ten minutes on the bench, with a share of its charge missing.
fn starts(charge_missing: f64) -> Result<f64, QualifyError> {
    let mut scenario: Scenario = super::super::car::healthy()?;
    scenario.rig = PICKUP.0.into();
    scenario.start.ambient_c = 32.0;
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
    Ok(if bench.troubles().is_empty() { count } else { f64::NAN })
}

/// Fast cycling on low charge where the switch sits on the suction side. (That an empty loop never engages its clutch is a
/// row of the limits.)
fn cycling() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(Section::Signs, "Low charge and the clutch", ORIFICE_MANUAL, Standing::CommonPractice);
    let (healthy, low) = (starts(0.0)?, starts(0.5)?);
    let at = "1,500 rev/min, 32 °C, ten minutes";
    Ok(vec![
        c.row("clutch starts, half the charge missing", at, "", Expected::AtLeast(30.0), low)
            .noting("fast: a cycle of 20 s or less"),
        c.row(
            "more starts than with full charge",
            at,
            "times",
            Expected::AtLeast(3.0),
            low / healthy.max(1.0),
        ),
    ])
}
