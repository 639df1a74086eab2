//! Gauge tables of mobile air conditioning, faults.md 2.1 and 2.2, on the bench under their conditions: 1500 rev/min, full
//! blower, the coil drawing outside air as with open doors.

use crate::bench::Action;
use crate::fault::FaultId;
use crate::qualify::QualifyError;
use crate::qualify::car::{Car, Seen, Setting};
use crate::qualify::expected::Expected;
use crate::qualify::row::{Case, Row, Standing};
use crate::qualify::section::Section;

/// The conditions: the tables say 30 to 35 °C.
const SHOP: Setting = Setting { ambient_c: 32.0, rpm: 1500.0, kmh: 0.0, humidity_pct: 40.0 };
const AT: &str = "32 °C, 1500 rev/min, full blower, outside air";

fn car(rig: &str, at: Setting, faults: &[(FaultId, f64)]) -> Result<Car, QualifyError> {
    let mut car = Car::with(|s| {
        s.rig = rig.to_owned();
        s.start.ambient_c = at.ambient_c;
        s.start.engine_rpm = at.rpm;
        s.start.road_speed_kmh = at.kmh;
        s.start.relative_humidity_pct = at.humidity_pct;
    })?;
    for &(id, severity) in faults {
        car.act(Action::ImposeFault { id, severity })?;
    }
    Ok(car)
}

fn shop(faults: &[(FaultId, f64)]) -> Result<Car, QualifyError> {
    let mut car = car("compact_car", SHOP, faults)?;
    car.act(Action::Recirculate(false))?;
    Ok(car)
}

fn case(name: &str, standing: Standing) -> Case {
    let source = "service manuals of several makers collected in faults.md 2.1 and 2.2";
    Case::new(Section::Signs, format!("2.1 gauges, compact car, {name}"), source, standing)
}

/// Rows of the tables.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let seen = |faults: &[(FaultId, f64)]| -> Result<Seen, QualifyError> { Ok(shop(faults)?.after(600)) };
    let band = |low, high| Expected::Band { low, high };
    let normal = seen(&[])?;
    let both = |name: &str, standing, s: &Seen, low: Expected, high: Expected, how: &str| {
        let c = case(name, standing);
        let at = if how.is_empty() { AT.to_owned() } else { format!("{how}; {AT}") };
        [
            c.row("low gauge", at.clone(), "bar", low, s.low_pa / 1e5),
            c.row("high gauge", at, "bar", high, s.high_pa / 1e5),
        ]
    };
    let p = Standing::Published;
    let mut rows = Vec::new();
    rows.extend(both("normal", p, &normal, band(1.5, 3.5), band(13.7, 17.5), ""));
    let s = seen(&[(FaultId::Undercharge, 0.5)])?;
    rows.extend(both("undercharge", p, &s, band(0.5, 1.5), band(6.9, 9.8), "half missing"));
    let s = seen(&[(FaultId::TxvStuckClosed, 0.0)])?;
    rows.extend(both("valve shut", p, &s, Expected::AtMost(0.0), band(5.0, 6.0), "held shut"));
    let s = seen(&[(FaultId::CompressorLeak, 0.7)])?;
    let c = case("compressor leaks", p);
    let at = format!("70 % of the flow leaks back; {AT}");
    rows.push(c.row("low gauge", &at, "bar", band(4.0, 6.0), s.low_pa / 1e5));
    rows.push(c.row(
        "high gauge below normal",
        &at,
        "bar",
        Expected::MoreThan(0.0),
        (normal.high_pa - s.high_pa) / 1e5,
    ));
    let memory = case("compressor leaks", Standing::FromMemory);
    rows.push(memory.row("high gauge", &at, "bar", band(7.0, 10.0), s.high_pa / 1e5));
    let s = seen(&[(FaultId::Overcharge, 0.4)])?;
    rows.extend(both("overcharge", p, &s, band(3.5, 4.5), band(20.0, 25.0), "40 % too much"));
    let s = seen(&[(FaultId::CondenserFinsBlocked, 0.6)])?;
    rows.extend(both(
        "condenser fouled",
        p,
        &s,
        band(3.5, 4.5),
        band(20.0, 25.0),
        "60 % of the face covered",
    ));
    let above = Expected::MoreThan(0.0);
    for (name, fault, how) in [
        ("air in the loop", (FaultId::AirInLoop, 3.0), "3 g"),
        ("valve too open", (FaultId::TxvStuckOpen, 1.6), "held at 1.6 of full lift"),
    ] {
        let s = seen(&[fault])?;
        let (c, at) = (case(name, p), format!("{how}; {AT}"));
        rows.push(c.row("low gauge above normal", &at, "bar", above, (s.low_pa - normal.low_pa) / 1e5));
        rows.push(c.row("high gauge above normal", &at, "bar", above, (s.high_pa - normal.high_pa) / 1e5));
    }
    rows.extend(rest(&normal)?);
    Ok(rows)
}

/// Pressures at rest, and how fast they meet after a stop.
fn rest(normal: &Seen) -> Result<Vec<Row>, QualifyError> {
    let mut rows = Vec::new();
    let c = case("at rest", Standing::Published);
    // The pressures printed are those of 22 to 35.5 °C.
    for ambient_c in [22.0, 29.0, 35.0] {
        let mut parked = Car::parked(ambient_c, &[])?;
        parked.wait(60);
        let inside = parked.inside();
        for (name, pa) in [("low gauge", inside.gauge_low_pa), ("high gauge", inside.gauge_high_pa)] {
            let at = format!("soaked at {ambient_c} °C");
            rows.push(c.row(name, at, "bar", Expected::Band { low: 5.0, high: 8.0 }, pa / 1e5));
        }
    }
    // Seconds until the sides are within a tenth of their difference.
    let meet = |faults: &[(FaultId, f64)]| -> Result<f64, QualifyError> {
        let mut car = shop(faults)?;
        car.wait(600);
        let apart = |car: &Car| car.inside().gauge_high_pa - car.inside().gauge_low_pa;
        let first = apart(&car);
        car.act(Action::EngineOn(false))?;
        for s in 1..=600 {
            if apart(car.wait(1)) < 0.1 * first {
                return Ok(f64::from(s));
            }
        }
        Ok(f64::INFINITY)
    };
    let (sound, leaky) = (meet(&[])?, meet(&[(FaultId::CompressorLeak, 0.7)])?);
    let c = case("compressor leaks", Standing::Published);
    rows.push(c.row(
        "equalised sooner after the stop than a sound one",
        format!("70 % of the flow leaks back; {AT}"),
        "s",
        Expected::MoreThan(0.0),
        sound - leaky,
    ));
    let c = case("idle against road", Standing::Published);
    let dead = |kmh: f64, rpm: f64| -> Result<Seen, QualifyError> {
        let at = Setting { kmh, rpm, ..SHOP };
        Ok(car("compact_car", at, &[(FaultId::CondenserFanMotorOpen, 1.0)])?.after(600))
    };
    let (stand, road) = (dead(0.0, 900.0)?, dead(80.0, 2200.0)?);
    rows.push(c.row(
        "fan dead: vent warmer at idle than on the road",
        "32 °C, idle; 80 km/h",
        "K",
        Expected::MoreThan(0.0),
        stand.vent_k - road.vent_k,
    ));
    rows.push(c.row(
        "fan dead: high gauge on the road above normal",
        "32 °C, 80 km/h",
        "bar",
        Expected::AtMost(3.0),
        (road.high_pa - normal.high_pa) / 1e5,
    ));
    Ok(rows)
}

/// The clutch of a loop that is short of charge.
pub struct Cycling {
    /// Times the clutch pulled in, each minute.
    pub starts_per_min: f64,
    /// Suction when it lets go and pulls in, means [bar gauge].
    pub opens_bar: f64,
    /// See above.
    pub closes_bar: f64,
    /// Share of the time engaged.
    pub engaged: f64,
}

/// Ten minutes of a clutch after ten minutes to settle.
pub fn clutch(rig: &str, ambient_c: f64, missing: f64) -> Result<Cycling, QualifyError> {
    let faults: &[(FaultId, f64)] = &[(FaultId::Undercharge, missing)];
    let at = Setting { ambient_c, rpm: 1500.0, kmh: 0.0, humidity_pct: 40.0 };
    let mut car = car(rig, at, if missing > 0.0 { faults } else { &[] })?;
    car.wait(600);
    let engaged = |car: &Car| car.bench.snapshot(false).outside.clutch_engaged;
    let suction = |car: &Car| {
        let plant = car.bench.plant();
        (plant.look(plant.layout().suction, car.bench.time_s()).p_pa - crate::units::ATMOSPHERE_PA) / 1e5
    };
    let (mut was, mut starts, mut stops, mut on) = (engaged(&car), 0.0, 0.0, 0.0);
    let (mut opens, mut closes) = (0.0, 0.0);
    let ticks = 600 * crate::qualify::car::PER_S;
    for _ in 0..ticks {
        let before = suction(&car);
        car.bench.advance(1);
        let now = engaged(&car);
        on += f64::from(u8::from(now));
        match (was, now) {
            (false, true) => (starts, closes) = (starts + 1.0, closes + before),
            (true, false) => (stops, opens) = (stops + 1.0, opens + before),
            _ => {}
        }
        was = now;
    }
    Ok(Cycling {
        starts_per_min: starts / 10.0,
        opens_bar: opens / stops,
        closes_bar: closes / starts,
        engaged: on / f64::from(ticks),
    })
}

/// Fast cycling on the pickup, lock-out on the compact car: faults.md 2.3 and 4 row 4.
pub fn clutches() -> Result<Vec<Row>, QualifyError> {
    let source = "service manual of an orifice-tube car (faults.md 2.3)";
    let c = Case::new(Section::Signs, "2.3 clutch on low charge, pickup", source, Standing::Published);
    let mut rows = Vec::new();
    let at = "35 °C, 1500 rev/min";
    let full = clutch("pickup", 35.0, 0.0)?;
    for missing in [0.5, 0.6] {
        let low = clutch("pickup", 35.0, missing)?;
        let at = format!("{:.0} % missing, {at}", 100.0 * missing);
        let near = |value| Expected::Value { value, tolerance: 0.1 };
        rows.push(c.row("suction when the switch opens", &at, "bar", near(1.75), low.opens_bar));
        rows.push(c.row("suction when it closes", &at, "bar", near(3.15), low.closes_bar));
        rows.push(
            c.row(
                "more starts a minute than with full charge",
                &at,
                "",
                Expected::AtLeast(1.0),
                low.starts_per_min - full.starts_per_min,
            )
            .noting(format!("{:.1} against {:.1}", low.starts_per_min, full.starts_per_min)),
        );
    }
    let source = "massive leak: low-pressure switch open, clutch dead (faults.md 4 row 4)";
    let c = Case::new(Section::Signs, "2.3 clutch on low charge, compact car", source, Standing::Published);
    for missing in [0.97, 1.0] {
        let low = clutch("compact_car", 35.0, missing)?;
        let at = format!("{:.0} % missing, {at}", 100.0 * missing);
        rows.push(c.row("time engaged: locked out", at, "%", Expected::AtMost(0.0), 100.0 * low.engaged));
    }
    Ok(rows)
}
