//! Limits: at rest, short of liquid, empty, full, vacuum, water.

use super::car::{Car, IDLE, Setting, c};
use super::expected::Expected;
use super::plot::{Look, Plot, Series};
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::sources::{self, COOLPROP, SWITCHES};
use super::{Part, QualifyError, air};
use crate::bench::Action;
use crate::fault::FaultId;
use crate::knobs::Change;
use crate::refrigerant::{Phase, Refrigerant};
use crate::units::ZERO_C_K;

/// Base pressures with the engine off [°C, bar gauge].
const AUDI: [(f64, f64); 7] =
    [(15.0, 3.9), (20.0, 4.7), (25.0, 5.6), (30.0, 6.7), (35.0, 7.8), (40.0, 9.1), (45.0, 10.5)];

fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Limits, name, source, standing)
}

fn near(value: f64, tolerance: f64) -> Expected {
    Expected::Value { value, tolerance }
}

/// The section.
pub fn part() -> Result<Part, QualifyError> {
    let mut part = standing()?;
    part.rows.extend(vessels());
    part.rows.extend(air::vacuum_and_altitude());
    part.rows.extend(extremes()?);
    Ok(part)
}

fn standing() -> Result<Part, QualifyError> {
    let manual = case("Standing pressure", sources::AUDI, Standing::Published);
    let mut rows = Vec::new();
    let mut points = Vec::new();
    for (t_c, bar) in AUDI {
        let i = Car::parked(t_c, &[])?.wait(60).inside();
        let at = format!("{t_c} °C, soaked, engine off");
        rows.push(manual.row("low side", &at, "bar gauge", near(bar, 0.1), i.gauge_low_pa / 1e5));
        rows.push(manual.row("high side", &at, "bar gauge", near(bar, 0.1), i.gauge_high_pa / 1e5));
        points.push((t_c, i.gauge_low_pa / 1e5));
    }
    // Three hours after a run, the same.
    let mut car = Car::at(IDLE)?;
    car.wait(300).act(Action::Set(Change::EngineOn(false)))?;
    let i = car.wait(3 * 3600).inside();
    let at = "35 °C, three hours after a run";
    rows.push(manual.row("low side", at, "bar gauge", near(7.8, 0.1), i.gauge_low_pa / 1e5));
    rows.push(manual.row("high side", at, "bar gauge", near(7.8, 0.1), i.gauge_high_pa / 1e5));

    // While there is liquid, the charge does not matter; more of it, and less, stand among the signs.
    let charge = case("Standing pressure and charge", COOLPROP, Standing::Computed);
    for (severity, word) in [(0.5, "50 % missing"), (0.7, "70 % missing")] {
        let i = Car::parked(30.0, &[(FaultId::Undercharge, severity)])?.wait(60).inside();
        let at = format!("30 °C, soaked, {word}");
        let saturated = near(6.689, 0.1);
        rows.push(charge.row("low side", &at, "bar gauge", saturated, i.gauge_low_pa / 1e5));
        rows.push(charge.row("high side", &at, "bar gauge", saturated, i.gauge_high_pa / 1e5));
    }
    rows.extend(no_liquid(&charge)?);
    let plot = Plot {
        title: "Standing pressure of the soaked loop".to_owned(),
        x_label: "outside air [°C]",
        y_label: "pressure [bar gauge]",
        series: vec![
            Series { name: "model".to_owned(), look: Look::Low, dots: false, points },
            Series { name: "manual".to_owned(), look: Look::High, dots: true, points: AUDI.to_vec() },
        ],
        bands: Vec::new(),
    };
    Ok(Part { rows, plots: vec![plot] })
}

/// Vapour of R-134a at 30 °C by CoolProp 8.0.0: density [kg/m3] and pressure [bar gauge].
const VAPOUR_30: [(f64, f64); 5] =
    [(4.0, -0.043_343), (6.0, 0.428_010), (8.0, 0.890_354), (10.0, 1.343_728), (12.0, 1.788_169)];

/// That table between its lines.
fn vapour_30_bar(rho: f64) -> f64 {
    let cell = VAPOUR_30.partition_point(|&(line, _)| line <= rho).clamp(1, VAPOUR_30.len() - 1);
    let ((a, below), (b, above)) = (VAPOUR_30[cell - 1], VAPOUR_30[cell]);
    below + (above - below) * (rho - a) / (b - a)
}

/// Below the mass that saturated vapour needs there is no liquid, and the pressure falls with the charge.
fn no_liquid(charge: &Case) -> Result<Vec<Row>, QualifyError> {
    let r = Refrigerant::r134a();
    let mut car = Car::parked(30.0, &[(FaultId::Undercharge, 0.95)])?;
    let l = car.bench.plant().layout();
    // The centre hose is shut off.
    let centre = l.centre;
    let room: f64 = l.volumes_m3.iter().sum::<f64>() - l.volumes_m3[centre];
    let i = car.wait(60).inside();
    let shut_off = car.bench.plant().at(car.bench.time_s(), |s| s.mass_kg[centre]);
    // What is dissolved in the oil makes no pressure.
    let per_litre = (i.charge_kg - i.dissolved_kg - shut_off) / room;
    let want = vapour_30_bar(per_litre);
    let s = r.saturation(libm::log(i.receiver.p_pa));
    let quality = (i.receiver.h_j_per_kg - s.h_l) / (s.h_v - s.h_l);
    let at = "30 °C, soaked, 95 % missing";
    let pressure = Expected::share(want, 0.02);
    Ok(vec![
        charge
            .row("low side", at, "bar gauge", pressure, i.gauge_low_pa / 1e5)
            .noting(format!("{per_litre:.1} g/L, against 37.5 g/L of saturated vapour")),
        charge.row("quality in the receiver", at, "", Expected::AtLeast(1.0), quality),
    ])
}

/// Pressure at which vapour of a temperature has a density, by halving [Pa].
fn vapour_p_pa(r: &Refrigerant, t_k: f64, rho: f64) -> f64 {
    let (mut low, mut high) = (1e3, r.saturation_p_pa(t_k));
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if r.density_at_pt(mid, t_k, Phase::Vapour) < rho { low = mid } else { high = mid }
    }
    0.5 * (low + high)
}

/// Closed vessels, from the tables; at every ten degrees the density of vapour is a row of the saturation tables.
fn vessels() -> Vec<Row> {
    let c = case("Closed vessels, R-134a", COOLPROP, Standing::Computed);
    let r = Refrigerant::r134a();
    let at_t = |t_c: f64| r.saturation(libm::log(r.saturation_p_pa(t_c + ZERO_C_K)));
    let mut rows = Vec::new();
    for (t_c, want) in [(25.0, 32.3), (35.0, 43.4)] {
        let row =
            c.row("least mass with liquid", format!("{t_c} °C"), "g/L", near(want, 0.1), at_t(t_c).rho_v);
        rows.push(row);
    }
    let p = vapour_p_pa(r, 80.0 + ZERO_C_K, 150.0) / 1e3;
    rows.push(c.row("pressure", "0.3 kg in 2.0 L, 80 °C", "kPa", Expected::share(2595.0, 3e-3), p));
    // A line full of liquid that is warmed.
    let full = at_t(25.0);
    for (dt, want) in [(1.0, 1307.0), (2.0, 1949.0), (5.0, 3879.0)] {
        let t_k = 25.0 + dt + ZERO_C_K;
        let (mut low, mut high) = (full.p_pa, r.max_p_pa());
        for _ in 0..60 {
            let mid = 0.5 * (low + high);
            if r.density_at_pt(mid, t_k, Phase::Liquid) < full.rho_l { low = mid } else { high = mid }
        }
        let at = format!("liquid-full at 25 °C, warmed by {dt} K");
        rows.push(c.row("pressure", at, "kPa", Expected::share(want, 0.02), low / 1e3));
    }
    rows
}

/// Empty, overfull and hot: nothing breaks, and the switches do what they are for.
fn extremes() -> Result<Vec<Row>, QualifyError> {
    let cut_out = case("Empty loop", SWITCHES, Standing::Published);
    let own = case("Extremes", "nothing breaks", Standing::OwnTarget);
    let mut car = Car::faulty(IDLE, &[(FaultId::Undercharge, 0.95)])?;
    car.wait(60);
    let empty = car.watch(540);
    let none = Expected::Band { low: 0.0, high: 0.0 };
    let at = "35 °C, 95 % missing, ten minutes with A/C on";
    let mut rows = vec![
        cut_out
            .row("clutch engaged", at, "% of time", Expected::AtMost(1.0), 100.0 * empty.running)
            .noting("at rest this loop stands under the 2.0 bar below which the makers' switches are open"),
        own.row("steps that did not solve", at, "", none, car.troubles()),
        own.row("vent air, no cold", at, "°C", Expected::AtLeast(35.0), c(car.inside().vent_t_k)),
    ];
    let mut hot = Car::parked(55.0, &[(FaultId::Overcharge, 0.6)])?;
    let i = hot.wait(3600).inside();
    let at = "55 °C, parked, 60 % too much";
    let saturated = case("Overfull loop, parked", COOLPROP, Standing::Computed);
    rows.push(saturated.row("high side", at, "bar gauge", near(13.902, 0.1), i.gauge_high_pa / 1e5));
    rows.push(own.row("steps that did not solve", at, "", none, hot.troubles()));
    let mut car = Car::faulty(IDLE, &[(FaultId::Overcharge, 0.6)])?;
    car.wait(600);
    let at = "35 °C, idle, 60 % too much";
    rows.push(own.row("steps that did not solve", at, "", none, car.troubles()));
    let cold = Setting { ambient_c: -15.0, rpm: 2000.0, kmh: 100.0, humidity_pct: 80.0 };
    let mut car = Car::at(cold)?;
    car.wait(1200);
    let at = "−15 °C, 100 km/h, 2000 rev/min, A/C on";
    rows.push(own.row("steps that did not solve", at, "", none, car.troubles()));
    Ok(rows)
}
