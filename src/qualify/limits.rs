//! Limits: at rest, short of liquid, empty, full, vacuum, water.

use super::car::{Car, IDLE, Setting, c};
use super::expected::Expected;
use super::plot::{Look, Plot, Series};
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::{Part, QualifyError, air};
use crate::bench::{Action, BenchError};
use crate::constants::MICRON_PA;
use crate::fault::FaultId;
use crate::knobs::Change;
use crate::plant::{self, CentreHose, Contents, Inputs, Plant, PlantSpec};
use crate::refrigerant::{Phase, Refrigerant};
use crate::rig::Rig;
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// Base pressures with the engine off [°C, bar gauge].
const AUDI: [(f64, f64); 7] =
    [(15.0, 3.9), (20.0, 4.7), (25.0, 5.6), (30.0, 6.7), (35.0, 7.8), (40.0, 9.1), (45.0, 10.5)];
const MANUAL: &str = "Audi A6 2001 manual, \"base pressure in refrigerant system, engine OFF\"";

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
    part.rows.extend(water()?);
    Ok(part)
}

fn standing() -> Result<Part, QualifyError> {
    let manual = case("Standing pressure", MANUAL, Standing::Published);
    let r = Refrigerant::r134a();
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

    let charge = case("Standing pressure and charge", "saturation (physics.md 1.6)", Standing::Computed);
    let saturated = r.saturation_p_pa(30.0 + ZERO_C_K) - ATMOSPHERE_PA;
    for (id, severity, word) in [
        (FaultId::Undercharge, 0.3, "30 % missing"),
        (FaultId::Undercharge, 0.5, "50 % missing"),
        (FaultId::Undercharge, 0.7, "70 % missing"),
        (FaultId::Overcharge, 0.4, "40 % too much"),
    ] {
        let i = Car::parked(30.0, &[(id, severity)])?.wait(60).inside();
        let at = format!("30 °C, soaked, {word}");
        rows.push(charge.row("low side", &at, "bar gauge", near(saturated / 1e5, 0.1), i.gauge_low_pa / 1e5));
        rows.push(charge.row(
            "high side",
            &at,
            "bar gauge",
            near(saturated / 1e5, 0.1),
            i.gauge_high_pa / 1e5,
        ));
    }
    rows.extend(no_liquid(&charge, r)?);
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

/// Below the mass that saturated vapour needs there is no liquid, and the pressure falls with the charge.
fn no_liquid(charge: &Case, r: &Refrigerant) -> Result<Vec<Row>, QualifyError> {
    let t_k = 30.0 + ZERO_C_K;
    let mut car = Car::parked(30.0, &[(FaultId::Undercharge, 0.95)])?;
    let l = car.bench.plant().layout();
    // The centre hose is shut off.
    let centre = l.centre;
    let room: f64 = l.volumes_m3.iter().sum::<f64>() - l.volumes_m3[centre];
    let i = car.wait(60).inside();
    let shut_off = car.bench.plant().at(car.bench.time_s(), |s| s.mass_kg[centre]);
    // What is dissolved in the oil makes no pressure.
    let per_litre = (i.charge_kg - i.dissolved_kg - shut_off) / room;
    let want = vapour_p_pa(r, t_k, per_litre) - ATMOSPHERE_PA;
    let s = r.saturation(libm::log(i.receiver.p_pa));
    let quality = (i.receiver.h_j_per_kg - s.h_l) / (s.h_v - s.h_l);
    let at = "30 °C, soaked, 95 % missing";
    let pressure = Expected::share(want / 1e5, 0.02);
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

/// Closed vessels of physics.md 1.6, from the tables.
fn vessels() -> Vec<Row> {
    let c = case("Closed vessels, R-134a", super::properties::COOLPROP, Standing::Computed);
    let r = Refrigerant::r134a();
    let at_t = |t_c: f64| r.saturation(libm::log(r.saturation_p_pa(t_c + ZERO_C_K)));
    let mut rows = Vec::new();
    for (t_c, want) in [(-10.0, 10.0), (0.0, 14.4), (20.0, 27.8), (25.0, 32.3), (35.0, 43.4), (50.0, 66.3)] {
        let row =
            c.row("least mass with liquid", format!("{t_c} °C"), "g/L", near(want, 0.1), at_t(t_c).rho_v);
        rows.push(row);
    }
    for (t_c, quality, level) in
        [(20.0, 0.0905, 0.186), (25.0, 0.105, 0.185), (35.0, 0.142, 0.184), (50.0, 0.218, 0.177)]
    {
        let s = at_t(t_c);
        let (v_l, v_v) = (1.0 / s.rho_l, 1.0 / s.rho_v);
        let x = (0.002 / 0.5 - v_l) / (v_v - v_l);
        let at = format!("0.5 kg in 2.0 L, {t_c} °C");
        rows.push(c.row("quality", &at, "", near(quality, 0.001), x));
        rows.push(c.row(
            "liquid share of the volume",
            &at,
            "",
            near(level, 0.001),
            0.5 * (1.0 - x) * v_l / 0.002,
        ));
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
    let c0 =
        case("Empty loop", "low-pressure cut-out of makers' figures, faults.md 3.2", Standing::Published);
    let own = case("Extremes", "nothing breaks", Standing::OwnTarget);
    let mut car = Car::faulty(IDLE, &[(FaultId::Undercharge, 0.95)])?;
    car.wait(60);
    let empty = car.watch(540);
    let none = Expected::Band { low: 0.0, high: 0.0 };
    let at = "35 °C, 95 % missing, ten minutes with A/C on";
    let mut rows = vec![
        c0.row("clutch engaged", at, "% of time", Expected::AtMost(1.0), 100.0 * empty.running),
        own.row("steps that did not solve", at, "", none, car.troubles()),
        own.row("vent air, no cold", at, "°C", Expected::AtLeast(35.0), c(car.inside().vent_t_k)),
    ];
    let relief = car.bench.plant().spec().relief_pa - ATMOSPHERE_PA;
    let mut hot = Car::parked(55.0, &[(FaultId::Overcharge, 0.6)])?;
    let i = hot.wait(3600).inside();
    let at = "55 °C, parked, 60 % too much";
    let below = Expected::AtMost(relief / 1e5);
    rows.push(own.row("high side, below the relief valve", at, "bar gauge", below, i.gauge_high_pa / 1e5));
    rows.push(own.row("steps that did not solve", at, "", none, hot.troubles()));
    let full = Car::at(IDLE)?.after(480);
    let mut car = Car::faulty(IDLE, &[(FaultId::Overcharge, 0.6)])?;
    let over = car.after(480);
    let at = "35 °C, idle, 60 % too much";
    let c6 = case("Overfull loop", "published trend (physics.md 4.3)", Standing::Published);
    let head = (over.high_pa - full.high_pa) / 1e5;
    rows.push(c6.row("rise of the high side", at, "bar", Expected::MoreThan(0.0), head));
    rows.push(own.row("steps that did not solve", at, "", none, car.troubles()));
    let cold = Setting { ambient_c: -15.0, rpm: 2000.0, kmh: 100.0, humidity_pct: 80.0 };
    let mut car = Car::at(cold)?;
    car.wait(1200);
    let at = "−15 °C, 100 km/h, 2000 rev/min, A/C on";
    rows.push(own.row("steps that did not solve", at, "", none, car.troubles()));
    Ok(rows)
}

/// Water in the loop: solubility, desiccant, and a wet loop under vacuum.
fn water() -> Result<Vec<Row>, QualifyError> {
    let spec = Rig::load("compact_car").map_err(BenchError::from)?.plant;
    let desiccant = plant::desiccant_capacity_kg(&spec.water, 25.0 + ZERO_C_K, 0.0) / spec.water.desiccant_kg;
    let band = Expected::Band { low: 15.0, high: 20.0 };
    let mut rows = vec![case("Desiccant", "from memory (faults.md 3.5)", Standing::FromMemory).row(
        "capacity by mass",
        "25 °C",
        "%",
        band,
        100.0 * desiccant,
    )];
    for (t_c, micron) in [(10.0, 9_212.0), (21.1, 18_790.0), (35.0, 42_221.0)] {
        let got = wet_vacuum_pa(&spec, t_c)? / MICRON_PA;
        rows.push(
            case(
                "Vacuum on a wet loop",
                "water vapour pressure at the loop's temperature (physics.md 2)",
                Standing::Computed,
            )
            .row(
                "pressure the loop comes back to",
                format!("{t_c} °C, 8 g of water, pump shut off after 5 minutes, an hour later"),
                "micron",
                Expected::share(micron, 0.05),
                got,
            ),
        );
    }
    for (t_c, ppm) in [
        (-40.0, 89.0),
        (-29.0, 150.0),
        (-18.0, 250.0),
        (-7.0, 390.0),
        (-1.0, 490.0),
        (4.0, 600.0),
        (10.0, 730.0),
        (16.0, 880.0),
        (21.0, 1100.0),
        (27.0, 1300.0),
        (32.0, 1500.0),
        (38.0, 1800.0),
        (49.0, 2400.0),
        (60.0, 3200.0),
    ] {
        let published = "ASHRAE Refrigeration Handbook, table 2 (faults.md 3.5)";
        rows.push(case("Water in liquid R-134a", published, Standing::Published).row(
            "solubility",
            format!("{t_c} °C"),
            "mg/kg",
            Expected::share(ppm, 0.1),
            1e6 * plant::water_soluble(t_c + ZERO_C_K),
        ));
    }
    Ok(rows)
}

/// What a loop with free water in it comes back to after a short vacuum [Pa]: without oil, so that nothing else
/// gives off gas.
fn wet_vacuum_pa(spec: &PlantSpec, t_c: f64) -> Result<f64, QualifyError> {
    let refrigerant = Refrigerant::by_name(&spec.refrigerant).unwrap_or_else(Refrigerant::r134a);
    let mut inputs = Inputs::parked(t_c + ZERO_C_K);
    (inputs.manifold_low, inputs.manifold_high) = (1.0, 1.0);
    inputs = inputs.with_hoses(true);
    (inputs.centre_hose, inputs.desiccant_taken) = (CentreHose::VacuumPump, 1.0);
    let contents = Contents { charge_kg: 1e-4, air_kg: 2e-3, oil_kg: 0.0, water_kg: 8e-3 };
    let mut plant = Plant::soaked_with(spec, refrigerant, inputs, contents);
    plant.advance_to(300.0);
    inputs.centre_hose = CentreHose::Capped;
    plant.set_inputs(300.0, inputs);
    plant.advance_to(3900.0);
    Ok(plant.look(plant.layout().suction, 3900.0).p_pa)
}
