//! What the sign tables leave: the knee of capacity over charge, loops at rest, more of the liquid line, the points at which
//! the pickup's clutch cycles on low charge, and the chiller table, from memory.

use super::super::QualifyError;
use super::super::car::{Car, PER_S, healthy};
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::super::sources::{CHEUNG_BRAUN, COOLPROP, ORIFICE_MANUAL, RP_1173};
use super::expansion_valve::CAR;
use super::orifice::PICKUP;
use super::stand::{Shown, Stand};
use crate::bench::{Action, Bench};
use crate::fault::FaultId;
use crate::plant::{Contents, Inputs};
use crate::units::ATMOSPHERE_PA;

fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Signs, name, source, standing)
}

/// All rows.
pub fn rows() -> Result<Vec<Row>, QualifyError> {
    let mut rows = knee()?;
    rows.extend(at_rest()?);
    rows.extend(liquid_line()?);
    rows.extend(cycling()?);
    rows.extend(chiller()?);
    Ok(rows)
}

/// An orifice loses noticeably below 90 % of the charge, a valve drastically only below 80 %; the valve's superheat stands
/// still at 115 % as well. What valve and orifice do at 32 °C with 15 % missing is in `orifice.rs`, the valve's superheat with
/// charge missing in its table.
fn knee() -> Result<Vec<Row>, QualifyError> {
    let name = "Orifice against valve, three temperatures";
    let survey = case(name, RP_1173, Standing::Published);
    let trade = case(name, "common practice, no source", Standing::CommonPractice);
    let mut rows = Vec::new();
    for outside_c in [25.0, 32.0, 38.0] {
        let stand = |(rig, rpm, fan): (&str, f64, f64)| Stand::new(rig, outside_c, rpm, fan);
        let (orifice, valve) = (stand(PICKUP)?, stand(CAR)?);
        let charge = |share: f64| move |_: &mut Inputs, c: &mut Contents| c.charge_kg *= share;
        let (o, v) = (orifice.healthy(), valve.healthy());
        let lost = |x: &Shown, y: &Shown| 100.0 * (1.0 - x.capacity_w / y.capacity_w);
        let mut ask = |c: &Case, what: &str, at: &str, unit, expected, got: f64| {
            rows.push(c.row(what, format!("{at}, {outside_c} °C"), unit, expected, got));
        };
        for (share, at) in [(0.9, "10 % missing"), (0.85, "15 % missing")] {
            if (share, outside_c) == (0.85, 32.0) {
                continue;
            }
            let (x, y) = (orifice.with(&charge(share)), valve.with(&charge(share)));
            let up = x.suction_superheat_k - o.suction_superheat_k;
            ask(&trade, "orifice: superheat at the compressor", at, "K", Expected::AtLeast(0.5), up);
            ask(&survey, "orifice: capacity lost", at, "%", Expected::MoreThan(0.0), lost(&x, &o));
            ask(&survey, "valve: capacity lost", at, "%", Expected::AtMost(5.0), lost(&y, &v));
        }
        let y = valve.with(&charge(1.15));
        let same = Expected::Value { value: 0.0, tolerance: 2.0 };
        ask(&trade, "valve: superheat", "15 % added", "K", same, y.superheat_k - v.superheat_k);
        let half = valve.with(&charge(0.5));
        ask(&survey, "valve: capacity lost", "50 % missing", "%", Expected::AtLeast(5.0), lost(&half, &v));
    }
    Ok(rows)
}

/// Pressure at rest follows temperature whatever the charge, as long as there is liquid; air adds to it.
fn at_rest() -> Result<Vec<Row>, QualifyError> {
    let c = case("At rest", COOLPROP, Standing::Computed);
    let trade = case("At rest", "the trade's static test for air, no source", Standing::CommonPractice);
    let same = Expected::Value { value: 0.0, tolerance: 0.05 };
    let mut rows = Vec::new();
    for (case, words, fault, expected) in [
        // More than gauges err.
        (&trade, "3 g of air", (FaultId::AirInLoop, 3.0), Expected::AtLeast(0.2)),
        (&c, "40 % too much", (FaultId::Overcharge, 0.4), same),
        (&c, "30 % missing", (FaultId::Undercharge, 0.3), same),
    ] {
        for (ambient_c, saturated_bar) in [(25.0, 5.6406), (35.0, 7.8566)] {
            let mut parked = Car::parked(ambient_c, &[fault])?;
            let got = parked.wait(60).inside().gauge_high_pa / 1e5 - saturated_bar;
            let at = format!("{words}, soaked at {ambient_c} °C");
            rows.push(case.row("high gauge above saturation", at, "bar", expected, got));
        }
    }
    Ok(rows)
}

/// The steps of the restriction regression that `magnitudes` does not take.
fn liquid_line() -> Result<Vec<Row>, QualifyError> {
    let c = case("Liquid restriction, other steps", CHEUNG_BRAUN, Standing::Computed);
    let stand = Stand::new(PICKUP.0, 35.0, PICKUP.1, PICKUP.2)?;
    let full = stand.healthy();
    let mut rows = Vec::new();
    for (drop, capacity) in [(0.05, 0.99), (0.1, 0.97), (0.15, 0.93), (0.25, 0.84)] {
        let run = |open: f64| stand.with(&|i: &mut Inputs, _| i.passages.liquid = open);
        let (mut narrow, mut wide) = (0.005_f64, 0.5_f64);
        for _ in 0..10 {
            let middle = (narrow * wide).sqrt();
            let s = run(middle);
            let fell = (s.high_pa - s.port_pa) / (s.high_pa - s.low_pa);
            if fell > drop { narrow = middle } else { wide = middle }
        }
        let s = run(narrow);
        let at = format!("{:.0} % of the difference on the passage, pickup, 35 °C", 100.0 * drop);
        let expected = Expected::Value { value: capacity, tolerance: 0.05 };
        rows.push(c.row("capacity over healthy", at, "", expected, s.capacity_w / full.capacity_w));
    }
    Ok(rows)
}

/// Suction pressures at which the pickup's clutch lets go and pulls in while charge is short.
fn cycling() -> Result<Vec<Row>, QualifyError> {
    let c = case("Low charge and the clutch, where it cycles", ORIFICE_MANUAL, Standing::CommonPractice);
    let mut scenario = healthy()?;
    scenario.rig = PICKUP.0.into();
    scenario.start.engine_rpm = 1500.0;
    let mut bench = Bench::new(&scenario, 1)?;
    bench.apply(Action::ImposeFault { id: FaultId::Undercharge, severity: 0.5 })?;
    bench.advance(300 * PER_S);
    let suction = |bench: &Bench| {
        let plant = bench.plant();
        // Where the switch sits.
        let at = plant.layout().accumulator.unwrap_or(plant.layout().suction);
        (plant.look(at, bench.time_s()).p_pa - ATMOSPHERE_PA) / 1e5
    };
    let engaged = |bench: &Bench| bench.outside().clutch_engaged;
    let (mut was, mut opens, mut closes) = (engaged(&bench), (0.0, 0.0), (0.0, 0.0));
    for _ in 0..300 * PER_S {
        let bar = suction(&bench);
        bench.advance(1);
        let now = engaged(&bench);
        match (was, now) {
            (true, false) => opens = (opens.0 + bar, opens.1 + 1.0),
            (false, true) => closes = (closes.0 + bar, closes.1 + 1.0),
            _ => {}
        }
        was = now;
    }
    let at = "50 % missing, 35 °C, 1500 rev/min";
    let near = |value| Expected::Value { value, tolerance: 0.1 };
    let note = format!("{} starts in five minutes", closes.1);
    Ok(vec![
        c.row("suction when it lets go", at, "bar", near(1.75), opens.0 / opens.1).noting(&note),
        c.row("suction when it pulls in", at, "bar", near(3.15), closes.0 / closes.1).noting(&note),
    ])
}

/// A fault of the chiller table and the changes it says: quantity, direction, value.
type Soft = (&'static str, fn(&mut Inputs, &mut Contents), &'static [(&'static str, f64, fn(&Shown) -> f64)]);

/// Signs of ASHRAE RP-1043 on a centrifugal chiller, from memory, that have a counterpart on a car's loop.
fn chiller() -> Result<Vec<Row>, QualifyError> {
    let c = case(
        "Chiller table, soft",
        "ASHRAE RP-1043 (Comstock & Braun 1999), signs from memory",
        Standing::FromMemory,
    );
    const CONDENSING: fn(&Shown) -> f64 = |s| s.condensing_k;
    const EVAPORATING: fn(&Shown) -> f64 = |s| s.evaporating_k;
    const SUBCOOLING: fn(&Shown) -> f64 = |s| s.subcooling_k;
    const POWER: fn(&Shown) -> f64 = |s| s.power_w / 10.0;
    const COND_AIR: fn(&Shown) -> f64 = |s| s.condenser_air_k;
    const EVAP_AIR: fn(&Shown) -> f64 = |s| s.evaporator_air_k;
    let table: [Soft; 7] = [
        (
            "condenser flow 30 % less",
            |i, _| i.fan_share *= 0.7,
            &[
                ("condensing, up", 1.0, CONDENSING),
                ("condenser rise, up", 1.0, COND_AIR),
                ("power, up", 1.0, POWER),
            ],
        ),
        (
            "evaporator flow 30 % less",
            |i, _| i.evaporator_air = 0.7,
            &[("evaporating, down", -1.0, EVAPORATING), ("evaporator drop, up", 1.0, EVAP_AIR)],
        ),
        (
            "refrigerant 30 % missing",
            |_, c| c.charge_kg *= 0.7,
            &[("subcooling, down", -1.0, SUBCOOLING), ("evaporating, down", -1.0, EVAPORATING)],
        ),
        (
            "refrigerant 30 % too much",
            |_, c| c.charge_kg *= 1.3,
            &[
                ("condensing, up", 1.0, CONDENSING),
                ("subcooling, up", 1.0, SUBCOOLING),
                ("power, up", 1.0, POWER),
            ],
        ),
        ("oil 50 % too much", |_, c| c.oil_kg *= 1.5, &[("evaporating, down", -1.0, EVAPORATING)]),
        (
            "condenser fouled, 30 % less film",
            |i, _| i.condenser_film = 0.7,
            &[("condensing, up", 1.0, CONDENSING), ("power, up", 1.0, POWER)],
        ),
        (
            "non-condensables, 2 g",
            |_, c| c.air_kg = 2e-3,
            &[
                ("condensing, up", 1.0, CONDENSING),
                ("apparent subcooling, up", 1.0, SUBCOOLING),
                ("power, up", 1.0, POWER),
            ],
        ),
    ];
    let stand = Stand::new(CAR.0, 32.0, CAR.1, CAR.2)?;
    let sound = stand.healthy();
    let mut rows = Vec::new();
    for (fault, change, signs) in table {
        let seen = stand.with(&change);
        for (what, direction, of) in signs {
            let unit = if what.starts_with("power") { "10 W" } else { "K" };
            let got = direction * (of(&seen) - of(&sound));
            rows.push(c.row(
                *what,
                format!("{fault}, compact car, 32 °C"),
                unit,
                Expected::MoreThan(0.0),
                got,
            ));
        }
    }
    Ok(rows)
}
