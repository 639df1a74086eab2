//! Gauge rows of workshop tables on the compact car: pressures with numbers, and the extra test that tells look-alikes
//! apart.

use super::super::QualifyError;
use super::super::car::{Car, Setting};
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::super::sources::{EXTRA_TABLES, GAUGE_TABLES};
use super::expansion_valve::CAR;
use super::stand::{Shown, Stand};
use crate::bench::Action;
use crate::fault::FaultId;
use crate::knobs::Change;
use crate::plant::{Contents, Inputs};

/// Condition of the tables: 1,500 rev/min, air at the inlet of 30 to 35 C, blower full; the middle of it.
const AT: Setting = Setting { ambient_c: 32.0, rpm: 1500.0, kmh: 0.0, humidity_pct: 50.0 };

/// All rows.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let mut rows = numbers()?;
    rows.extend(extra_tests()?);
    rows.extend(moisture()?);
    Ok(rows)
}

/// Both gauges in MPa, mean over two minutes after ten.
fn gauges(faults: &[(FaultId, f64)]) -> Result<(f64, f64), QualifyError> {
    let seen = Car::faulty(AT, faults)?.after(600);
    Ok((seen.low_pa / 1e6, seen.high_pa / 1e6))
}

/// Distance of a value from a band.
fn outside((low, high): (f64, f64), got: f64) -> f64 {
    (low - got).max(got - high).max(0.0)
}

/// Rows with numbers. A fault of the table has no severity, so the model may choose one of its own: the row asks
/// whether any severity of the catalogue's range puts both gauges into their bands at once, and tells the nearest.
fn numbers() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(Section::Signs, "Gauge table with numbers", GAUGE_TABLES, Standing::Published);
    let memory = Case::new(
        Section::Signs,
        "Gauge table with numbers, high side from memory",
        "the manuals print \"high\" or \"low\"; the numbers are from memory",
        Standing::FromMemory,
    );
    let under = [0.4, 0.45, 0.5, 0.55, 0.6, 0.65];
    let over = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
    let fins = [0.4, 0.5, 0.55, 0.6, 0.65, 0.7];
    let reed = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
    let air = [2.0, 3.0, 4.0, 5.0, 6.0, 8.0];
    let open = [0.7, 0.85, 1.0, 1.3, 1.6, 2.5];
    let (printed, recalled) = ((&c, &c), (&memory, &memory));
    // (cases of low and high side, cause, fault, severities, low band, high band) in MPa gauge.
    let table = [
        (printed, "undercharge", FaultId::Undercharge, under, (0.05, 0.15), (0.69, 0.98)),
        (printed, "overcharge", FaultId::Overcharge, over, (0.35, 0.45), (2.0, 2.5)),
        (printed, "condenser fins", FaultId::CondenserFinsBlocked, fins, (0.35, 0.45), (2.0, 2.5)),
        // The low side is printed, the high side is "low".
        ((&c, &memory), "compressor leaking inside", FaultId::CompressorLeak, reed, (0.4, 0.6), (0.7, 1.0)),
        (recalled, "air in the loop", FaultId::AirInLoop, air, (0.25, 0.35), (1.96, 2.5)),
        (recalled, "valve too open", FaultId::TxvStuckOpen, open, (0.29, 0.39), (1.96, 2.45)),
    ];
    let at = "1,500 rev/min, 32 °C, blower full";
    let mut rows = Vec::new();
    for ((of_low, of_high), cause, id, severities, low, high) in table {
        let mut best = (f64::INFINITY, 0.0, (f64::NAN, f64::NAN));
        for severity in severities {
            let got = gauges(&[(id, severity)])?;
            let off = outside(low, got.0) + 0.2 * outside(high, got.1);
            if off < best.0 {
                best = (off, severity, got);
            }
        }
        let (_, severity, got) = best;
        let note = format!("nearest severity {severity}");
        let band = |(low, high)| Expected::Band { low, high };
        rows.push(of_low.row(format!("low side, {cause}"), at, "MPa", band(low), got.0).noting(note.clone()));
        rows.push(of_high.row(format!("high side, {cause}"), at, "MPa", band(high), got.1).noting(note));
    }
    let healthy = gauges(&[])?;
    rows.push(c.row("low side, healthy", at, "MPa", Expected::Band { low: 0.15, high: 0.35 }, healthy.0));
    rows.push(c.row("high side, healthy", at, "MPa", Expected::Band { low: 1.37, high: 1.75 }, healthy.1));
    let shut = gauges(&[(FaultId::TxvStuckClosed, 0.0)])?;
    rows.push(c.row("low side, valve shut", at, "MPa", Expected::AtMost(0.0), shut.0));
    rows.push(c.row("high side, valve shut", at, "MPa", Expected::Band { low: 0.5, high: 0.6 }, shut.1));
    Ok(rows)
}

/// The extra observation of each row of the discriminating table, between held rooms.
fn extra_tests() -> Result<Vec<Row>, QualifyError> {
    let name = "Gauge table with the extra test";
    let c = Case::new(Section::Signs, name, EXTRA_TABLES, Standing::Published);
    let flash = Case::new(Section::Signs, name, "common practice, no source", Standing::CommonPractice);
    let at = "1,000 rev/min, 32 °C";
    let stand = Stand::new(CAR.0, 32.0, CAR.1, CAR.2)?;
    let with = |change: &dyn Fn(&mut Inputs, &mut Contents)| stand.with(change);
    let h = stand.healthy();
    let low = |s: &Shown| (s.low_pa - h.low_pa) / 1e5;
    let port = |s: &Shown| (s.port_pa - h.port_pa) / 1e5;
    let (up, down) = (Expected::AtLeast(0.05), Expected::AtMost(-0.05));
    let drier = with(&|i, _| i.passages.drier = 0.03);
    let line = with(&|i, _| i.passages.liquid = 0.02);
    let valve = with(&|i, _| i.metering.bore = 0.25);
    let middle = with(&|i, _| i.passages.condenser = 0.03);
    let leak = with(&|i, _| i.reed_leak = 0.6);
    let open = with(&|i, _| i.metering.held = Some(1.0));
    let mut rows = vec![
        c.row("low side, drier clogged", at, "bar", down, low(&drier)),
        c.row("high side, drier clogged", at, "bar", down, port(&drier)),
        c.row(
            "step across the drier over that of the healthy car",
            at,
            "K",
            Expected::AtLeast(5.0),
            (drier.before_drier_k - drier.liquid_k) - (h.before_drier_k - h.liquid_k),
        ),
        c.row("low side, liquid pipe clogged", at, "bar", down, low(&line)),
        c.row("high side, liquid pipe clogged", at, "bar", down, port(&line)),
        flash.row(
            "bubbles ahead of the valve, liquid pipe clogged",
            at,
            "share",
            Expected::AtLeast(0.1),
            line.bubbles,
        ),
        c.row("low side, valve clogged", at, "bar", down, low(&valve)),
        c.row("high side, valve clogged", at, "bar", down, port(&valve)),
        flash.row("bubbles ahead of it, valve clogged", at, "share", Expected::AtMost(0.01), valve.bubbles),
        c.row("pressure in the condenser, choke in its middle", at, "bar", up, {
            (middle.upper_condenser_pa - h.upper_condenser_pa) / 1e5
        }),
        c.row("low side, choke in the condenser", at, "bar", down, low(&middle)),
        c.row(
            "tank colder than the upper condenser by more than on the healthy car, choke in it",
            at,
            "K",
            Expected::AtLeast(1.0),
            (middle.upper_condenser_k - middle.liquid_k) - (h.upper_condenser_k - h.liquid_k),
        ),
        c.row("low side, compressor valves", at, "bar", up, low(&leak)),
        c.row("high side, compressor valves", at, "bar", down, port(&leak)),
        c.row("low pipe colder than healthy, valve too open", at, "K", Expected::AtMost(-1.0), {
            open.suction_pipe_k - h.suction_pipe_k
        }),
    ];
    rows.extend(stops(&c)?);
    rows.extend(by_speed(&c)?);
    Ok(rows)
}

/// Both sides soon equal after a stop with leaking valves.
fn stops(c: &Case) -> Result<Vec<Row>, QualifyError> {
    let left = |faults: &[(FaultId, f64)]| -> Result<f64, QualifyError> {
        let mut car = Car::faulty(AT, faults)?;
        car.wait(600);
        car.act(Action::Set(Change::AcRequest(false)))?;
        let at = |car: &Car| {
            let i = car.inside();
            (i.gauge_high_pa - i.gauge_low_pa) / 1e5
        };
        let before = at(&car);
        car.wait(20);
        Ok(at(&car) / before)
    };
    let (leaking, healthy) = (left(&[(FaultId::CompressorLeak, 0.5)])?, left(&[])?);
    let at = "20 s after a stop, 1,500 rev/min, 32 °C";
    Ok(vec![
        c.row("difference left, compressor valves", at, "share", Expected::AtMost(0.4), leaking),
        c.row("more left on the healthy car", at, "share", Expected::MoreThan(0.1), healthy - leaking),
    ])
}

/// Warm at idle only, fine at speed: fan and condenser air.
fn by_speed(c: &Case) -> Result<Vec<Row>, QualifyError> {
    let fault = [(FaultId::CondenserFanMotorOpen, 1.0)];
    let at = |kmh: f64, rpm: f64, faults: &[(FaultId, f64)]| -> Result<f64, QualifyError> {
        let setting = Setting { ambient_c: 32.0, rpm, kmh, humidity_pct: 40.0 };
        Ok(Car::faulty(setting, faults)?.after(600).high_pa / 1e5)
    };
    let (idle, idle_well) = (at(0.0, 900.0, &fault)?, at(0.0, 900.0, &[])?);
    let (road, road_well) = (at(80.0, 2000.0, &fault)?, at(80.0, 2000.0, &[])?);
    Ok(vec![
        c.row("high side, fan dead", "idle, 32 °C", "bar", Expected::AtLeast(3.0), idle - idle_well),
        c.row(
            "high side, fan dead",
            "80 km/h, 32 °C",
            "bar",
            Expected::Value { value: 0.0, tolerance: 1.0 },
            road - road_well,
        ),
    ])
}

/// Water: the low side swings between normal and vacuum by itself, and the car cools again in between.
fn moisture() -> Result<Vec<Row>, QualifyError> {
    let c = Case::new(Section::Signs, "Moisture", GAUGE_TABLES, Standing::Published);
    let setting = Setting { ambient_c: 30.0, rpm: 1500.0, kmh: 0.0, humidity_pct: 40.0 };
    let mut car = Car::faulty(setting, &[(FaultId::Moisture, 14.0), (FaultId::DesiccantSaturated, 1.0)])?;
    car.wait(300);
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for _ in 0..240 {
        let low = car.wait(10).inside().gauge_low_pa / 1e5;
        (least, most) = (least.min(low), most.max(low));
    }
    let at = "14 g of water, drier used up, 30 °C, 1,500 rev/min, 40 minutes";
    let sound = if car.troubles() == 0.0 { 1.0 } else { f64::NAN };
    Ok(vec![
        c.row("lowest low side", at, "bar", Expected::AtMost(0.0), sound * least),
        c.row("highest low side", at, "bar", Expected::AtLeast(1.5), sound * most),
    ])
}
