//! Gauge rows of workshop tables on the compact car: pressures with numbers (faults.md 2.1) and the extra test that
//! tells look-alikes apart (2.2).

use super::super::QualifyError;
use super::super::car::{Car, Setting};
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
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
    let c = Case::new(
        Section::Signs,
        "Gauge table with numbers",
        "Workshop manuals of three makers, RA410 1B-8, 7B-19 and others as collected in faults.md 2.1",
        Standing::Published,
    );
    let memory = Case::new(
        Section::Signs,
        "Gauge table with numbers, high side from memory",
        "faults.md 2.1, items marked as recalled",
        Standing::FromMemory,
    );
    let under = [0.4, 0.45, 0.5, 0.55, 0.6, 0.65];
    let over = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
    let fins = [0.4, 0.5, 0.55, 0.6, 0.65, 0.7];
    let reed = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8];
    let air = [2.0, 3.0, 4.0, 5.0, 6.0, 8.0];
    let open = [0.7, 0.85, 1.0, 1.3, 1.6, 2.5];
    // (case, cause, fault, severities, low band, high band) in MPa gauge.
    let table = [
        (&c, "undercharge", FaultId::Undercharge, under, (0.05, 0.15), (0.69, 0.98)),
        (&c, "overcharge", FaultId::Overcharge, over, (0.35, 0.45), (2.0, 2.5)),
        (&c, "condenser fins", FaultId::CondenserFinsBlocked, fins, (0.35, 0.45), (2.0, 2.5)),
        (&memory, "compressor leaking inside", FaultId::CompressorLeak, reed, (0.4, 0.6), (0.7, 1.0)),
        (&memory, "air in the loop", FaultId::AirInLoop, air, (0.25, 0.35), (1.96, 2.5)),
        (&memory, "valve too open", FaultId::TxvStuckOpen, open, (0.29, 0.39), (1.96, 2.45)),
    ];
    let at = "1,500 rev/min, 32 °C, blower full";
    let mut rows = Vec::new();
    for (case, cause, id, severities, low, high) in table {
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
        rows.push(case.row(format!("low side, {cause}"), at, "MPa", band(low), got.0).noting(note.clone()));
        rows.push(case.row(format!("high side, {cause}"), at, "MPa", band(high), got.1).noting(note));
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
    let c = Case::new(
        Section::Signs,
        "Gauge table with the extra test",
        "Workshop tables of four manuals as collected in faults.md 2.2",
        Standing::Published,
    );
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
            "step across the drier",
            at,
            "K",
            Expected::AtLeast(5.0),
            drier.before_drier_k - drier.liquid_k,
        ),
        c.row(
            "step there on the healthy car",
            at,
            "K",
            Expected::AtMost(12.0),
            h.before_drier_k - h.liquid_k,
        ),
        c.row("low side, liquid pipe clogged", at, "bar", down, low(&line)),
        c.row("high side, liquid pipe clogged", at, "bar", down, port(&line)),
        c.row(
            "bubbles ahead of the valve, liquid pipe clogged",
            at,
            "share",
            Expected::AtLeast(0.1),
            line.bubbles,
        ),
        c.row("low side, valve clogged", at, "bar", down, low(&valve)),
        c.row("high side, valve clogged", at, "bar", down, port(&valve)),
        c.row("bubbles ahead of it, valve clogged", at, "share", Expected::AtMost(0.01), valve.bubbles),
        c.row("pressure in the condenser, choke in its middle", at, "bar", up, {
            (middle.upper_condenser_k - h.upper_condenser_k) * 0.3
        }),
        c.row("low side, choke in the condenser", at, "bar", down, low(&middle)),
        c.row("tank colder than the upper condenser, choke in it", at, "K", Expected::AtLeast(15.0), {
            middle.upper_condenser_k - middle.liquid_k
        }),
        c.row("low side, compressor valves", at, "bar", up, low(&leak)),
        c.row("high side, compressor valves", at, "bar", down, port(&leak)),
        c.row("low pipe colder than healthy, valve too open", at, "K", Expected::AtMost(-1.0), {
            open.suction_pipe_k - h.suction_pipe_k
        }),
    ];
    rows.extend(splash(&c)?);
    rows.extend(stops(&c)?);
    rows.extend(by_speed(&c)?);
    Ok(rows)
}

/// Water splashed on the condenser: both sides of an overcharge fall soon.
fn splash(c: &Case) -> Result<Vec<Row>, QualifyError> {
    // Water on the fins brings their air side to about the wet-bulb temperature: here outside air of that temperature.
    let wet = Stand::new(CAR.0, 23.0, CAR.1, CAR.2)?;
    let dry = Stand::new(CAR.0, 32.0, CAR.1, CAR.2)?;
    let over = |_: &mut Inputs, c: &mut Contents| c.charge_kg *= 1.4;
    let (a, b) = (dry.with(&over), wet.with(&over));
    let at = "40 % too much, 32 °C against its wet bulb of 23 °C";
    Ok(vec![c.row("high side falls, water on the condenser", at, "bar", Expected::AtLeast(1.0), {
        (a.port_pa - b.port_pa) / 1e5
    })])
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
    let c = Case::new(
        Section::Signs,
        "Moisture",
        "Workshop manuals as collected in faults.md 2.1 and 2.2",
        Standing::Published,
    );
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
        c.row("lowest low side", at, "bar", Expected::AtMost(0.5), sound * least),
        c.row("highest low side", at, "bar", Expected::AtLeast(1.5), sound * most),
    ])
}
