//! The final table of a run, for people.

use std::io::{self, Write};

use crate::bay::Ledger;
use crate::bench::{Inside, Snapshot};
use crate::message::{LINE, fit};
use crate::procedure::Line;
use crate::scenario::Scenario;
use crate::units::{AbsolutePa, GaugePa, Kelvin, Units};

const POINTS: [&str; 6] = [
    "1 compressor inlet",
    "2 compressor outlet",
    "3 condenser outlet",
    "4 valve inlet",
    "5 valve outlet",
    "6 evaporator outlet",
];

/// Print the readings of a snapshot with its inside.
pub fn print(out: &mut dyn Write, scenario: &Scenario, snapshot: &Snapshot) -> io::Result<()> {
    let inside = snapshot.inside.clone().unwrap_or_default();
    writeln!(out, "{} ({})", fit(&scenario.title, LINE), scenario.id)?;
    writeln!(out, "after {}", clock(snapshot.time_s))?;
    driving(out, snapshot, &inside)?;
    pressures(out, &inside)?;
    points(out, &inside)?;
    flows(out, &inside)?;
    charge(out, &inside)?;
    if let Some(ledger) = snapshot.bay.as_ref().and_then(|bay| bay.ledger.as_ref()) {
        books(out, ledger)?;
    }
    writeln!(out)
}

fn clock(seconds: f64) -> String {
    format!("{} min {:.1} s ({seconds} s)", (seconds / 60.0).floor(), seconds % 60.0)
}

fn on(yes: bool) -> &'static str {
    if yes { "on" } else { "off" }
}

fn line(out: &mut dyn Write, name: &str, value: &str) -> io::Result<()> {
    writeln!(out, "  {name:<22}{value}")
}

/// A temperature as °C and °F.
fn temperature(kelvin: f64) -> String {
    let t = Kelvin(kelvin);
    format!("{:>7.1} °C {:>7.1} °F", t.c(), Units::Psi.temperature_value(t))
}

fn driving(out: &mut dyn Write, snapshot: &Snapshot, inside: &Inside) -> io::Result<()> {
    let (controls, outside) = (&snapshot.controls, &snapshot.outside);
    writeln!(out, "\nDriving and weather")?;
    line(out, "engine", &format!("{} rev/min", outside.engine_rpm))?;
    line(out, "road speed", &format!("{} km/h", controls.road_speed_kmh))?;
    line(out, "A/C request", on(controls.ac_request))?;
    let clutch = if outside.clutch_engaged { "engaged" } else { "released" };
    line(out, "clutch", &format!("{clutch}, compressor {:.0} rev/min", inside.compressor_rpm))?;
    line(out, "condenser fan", &format!("{:.0} %", outside.fan_speed_pct))?;
    line(out, "blower", &format!("{} %, recirculation {}", outside.blower_pct, on(controls.recirculate)))?;
    line(out, "outside air", &temperature(inside.ambient_t_k))?;
    line(out, "relative humidity", &format!("{:>7.1} %", controls.relative_humidity_pct))?;
    line(out, "vent air", &temperature(inside.vent_t_k))?;
    line(out, "cabin air", &temperature(inside.cabin_t_k))?;
    line(out, "on the condenser", &temperature(inside.condenser_air_on_t_k))?;
    line(out, "under the bonnet", &temperature(inside.bay_t_k))?;
    line(out, "engine", &temperature(inside.engine_t_k))
}

fn pressures(out: &mut dyn Write, inside: &Inside) -> io::Result<()> {
    writeln!(out, "\nGauge pressures")?;
    for (name, pa) in [("low side", inside.gauge_low_pa), ("high side", inside.gauge_high_pa)] {
        let text = format!(
            "{:>7.2} bar {:>7.1} psi {:>8.1} kPa",
            Units::Bar.pressure_value(pa),
            Units::Psi.pressure_value(pa),
            Units::Kpa.pressure_value(pa)
        );
        line(out, name, &text)?;
    }
    Ok(())
}

fn points(out: &mut dyn Write, inside: &Inside) -> io::Result<()> {
    writeln!(
        out,
        "\n  {:<22}{:>10}{:>10}{:>10}{:>9}{:>10}{:>9}",
        "State points", "kPa abs", "bar g", "psi g", "°C", "kJ/kg", "vapour"
    )?;
    for (name, point) in POINTS.iter().zip(&inside.points) {
        let GaugePa(gauge) = AbsolutePa(point.p_pa).gauge();
        let share = if point.x.is_nan() { "-".to_owned() } else { format!("{:.3}", point.x) };
        writeln!(
            out,
            "  {name:<22}{:>10.1}{:>10.2}{:>10.1}{:>9.1}{:>10.1}{share:>9}",
            point.p_pa / 1e3,
            Units::Bar.pressure_value(gauge),
            Units::Psi.pressure_value(gauge),
            Kelvin(point.t_k).c(),
            point.h_j_per_kg / 1e3
        )?;
    }
    Ok(())
}

fn flows(out: &mut dyn Write, inside: &Inside) -> io::Result<()> {
    writeln!(out, "\nFlows")?;
    line(out, "compressor", &format!("{:>7.2} g/s", inside.m_compressor_kg_s * 1e3))?;
    line(out, "expansion valve", &format!("{:>7.2} g/s", inside.m_metering_kg_s * 1e3))?;
    line(out, "condenser heat", &format!("{:>7.0} W out", inside.q_condenser_w))?;
    line(out, "evaporator heat", &format!("{:>7.0} W in", inside.q_evaporator_w))?;
    line(out, "compressor work", &format!("{:>7.0} W in", inside.w_compressor_w))?;
    line(out, "lines and shell", &format!("{:>7.0} W in", inside.q_other_w))?;
    line(out, "superheat", &format!("{:>7.1} K", inside.superheat_k))?;
    line(out, "subcooling", &format!("{:>7.1} K", inside.subcooling_k))
}

/// The ledger of the bay.
fn books(out: &mut dyn Write, ledger: &Ledger) -> io::Result<()> {
    writeln!(out, "\nLedger")?;
    for entry in Line::ALL {
        let kg = entry.value(ledger);
        // Smaller than what the model rounds.
        let kg = if kg.abs() < 1e-8 { 0.0 } else { kg };
        line(out, entry.words(), &format!("{:>11.2} g", kg * 1e3))?;
    }
    Ok(())
}

fn charge(out: &mut dyn Write, inside: &Inside) -> io::Result<()> {
    writeln!(out, "\nCharge")?;
    line(out, "in loop and hoses", &format!("{:>7.1} g", inside.charge_kg * 1e3))?;
    line(out, "let out", &format!("{:>7.1} g", inside.released_kg * 1e3))?;
    line(out, "air", &format!("{:>7.2} g", inside.air_kg * 1e3))?;
    line(out, "receiver", &format!("{:>7.0} % full of liquid", inside.receiver_level * 1e2))?;
    line(out, "sight glass", &format!("{:>7.0} % bubbles", inside.sight_glass_bubbles * 1e2))?;
    line(
        out,
        "oil",
        &format!("{:>7.0} g, {:.0} g of it in the compressor", inside.oil_kg * 1e3, inside.oil_sump_kg * 1e3),
    )?;
    let bound = inside.water_bound_kg * 1e3;
    let ice = inside.valve_ice_kg * 1e3;
    line(
        out,
        "water",
        &format!(
            "{:>7.2} g, {bound:.2} g in the desiccant, {ice:.2} g ice at the valve",
            inside.water_kg * 1e3
        ),
    )?;
    let worn = if inside.compressor_wear >= 1.0 { "seized" } else { "turns" };
    line(
        out,
        "compressor body",
        &format!("{:>7.1} °C, friction {:.0} W, {worn}", Kelvin(inside.shell_t_k).c(), inside.friction_w),
    )?;
    line(out, "valve opening", &format!("{:>7.0} % of full lift", inside.valve_lift * 1e2))
}
