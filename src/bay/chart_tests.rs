//! The charts against fresh healthy runs; with `PINTLE_WRITE_CHARTS` set they are written anew:
//! `PINTLE_WRITE_CHARTS=1 cargo test --release --no-default-features --lib bay::chart`.

use super::*;
use crate::bench::{Action, Bench};
use crate::fault::FaultId;
use crate::instrument::{AirPlace, Probe, uncertainty};
use crate::plant::Drive;
use crate::scenario::load;

const AMBIENT_C: [f64; 6] = [15.0, 20.0, 25.0, 30.0, 35.0, 40.0];
const HUMIDITY_PCT: [f64; 3] = [20.0, 50.0, 80.0];
/// A charge within so much of the label counts as right: SAE J2788 (reference/faults.md 6, from memory) [kg].
const CHARGE_KG: f64 = 0.015;
const PER_S: u32 = 20;

/// An engine is held at its speed no better than this [rev/min] (common practice, no source).
const RPM: f64 = 100.0;

/// Gauges [bar] and vents [°C] every half second while the compressor turns, between minute 8 and 20.
fn run(rig: &str, weather: (f64, f64), charge: Option<FaultId>, rpm: f64) -> [Vec<f64>; 3] {
    let mut scenario = load("healthy").unwrap();
    scenario.rig = rig.into();
    scenario.start.engine_rpm = rpm;
    (scenario.start.ambient_c, scenario.start.relative_humidity_pct) = weather;
    let mut bench = Bench::new(&scenario, 1).unwrap();
    if let Some(id) = charge {
        let severity = CHARGE_KG / bench.rig().plant.full_charge_kg;
        bench.apply(Action::ImposeFault { id, severity }).unwrap();
    }
    bench.advance(8 * 60 * PER_S);
    let mut seen: [Vec<f64>; 3] = Default::default();
    for _ in 0..2 * 12 * 60 {
        bench.advance(PER_S / 2);
        let inside = bench.snapshot(true).inside.unwrap();
        if inside.compressor_rpm > 0.0 && inside.m_compressor_kg_s > 0.0 {
            let now = [inside.gauge_low_pa / 1e5, inside.gauge_high_pa / 1e5, inside.vent_t_k - ZERO_C_K];
            seen.iter_mut().zip(now).for_each(|(all, x)| all.push(x));
        }
    }
    assert!(bench.troubles().is_empty(), "{rig} {weather:?} {:?}", bench.troubles());
    seen
}

/// To a digit of the file.
fn round(x: f64) -> f64 {
    (x * 1e4).round() / 1e4
}

/// From 5 to 95 % of the time.
fn band(mut values: Vec<f64>) -> Option<Band> {
    values.sort_by(f64::total_cmp);
    let at = |share: f64| values.get(((values.len().max(1) - 1) as f64 * share).round() as usize).copied();
    Some(Band { min: at(0.05)?, max: at(0.95)? })
}

/// Half the steps of the chart: what a weather may be read wrong by, and what lies between its nodes [°C] and [%].
const HALF: (f64, f64) = (2.5, 15.0);

fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied()
}

/// Healthy in between the nodes: the median of a run of the car as it should be.
fn corner(rig: &str, weather: (f64, f64)) -> [Option<f64>; 3] {
    run(rig, weather, None, 1500.0).map(median)
}

/// All that counts as healthy in a weather: charge and engine speed a little off, and the weather too.
fn field(rig: &str, weather: (f64, f64), corners: &[[Option<f64>; 3]]) -> Option<Field> {
    let drive = Rig::load(rig).unwrap().plant.compressor.drive;
    let belt = matches!(drive, Drive::Belt { .. } | Drive::VariableBelt { .. });
    let charges = [None, Some(FaultId::Undercharge), Some(FaultId::Overcharge)].map(|c| (c, 1500.0));
    let speeds = [(None, 1500.0 - RPM), (None, 1500.0 + RPM)];
    let mut all: [Vec<f64>; 3] = Default::default();
    for (charge, rpm) in charges.into_iter().chain(speeds.into_iter().filter(|_| belt)) {
        for (all, seen) in all.iter_mut().zip(run(rig, weather, charge, rpm)) {
            all.extend(seen);
        }
    }
    let wide = |i: usize, values: Vec<f64>, digit: f64| {
        let mut ends = corners.iter().filter_map(|c| c[i]).collect::<Vec<f64>>();
        let inner = band(values)?;
        ends.extend([inner.min, inner.max]);
        Some(Band {
            min: round((ends.iter().copied().fold(f64::INFINITY, f64::min) / digit).floor() * digit),
            max: round((ends.iter().copied().fold(f64::NEG_INFINITY, f64::max) / digit).ceil() * digit),
        })
    };
    let [low, high, vent] = all;
    Some(Field { low_bar: wide(0, low, 0.05)?, high_bar: wide(1, high, 0.1)?, vent_c: wide(2, vent, 0.5)? })
}

/// Every weather around and between the nodes of an axis.
fn around(axis: &[f64], half: f64) -> Vec<f64> {
    axis.iter().map(|x| x - half).chain(axis.last().map(|x| x + half)).collect()
}

fn write(rig: &str) {
    let humidities = around(&HUMIDITY_PCT, HALF.1);
    let corners: Vec<Vec<[Option<f64>; 3]>> = around(&AMBIENT_C, HALF.0)
        .iter()
        .map(|&a| humidities.iter().map(|&h| corner(rig, (a, h))).collect())
        .collect();
    let field = |i: usize, j: usize| {
        let near = [corners[i][j], corners[i][j + 1], corners[i + 1][j], corners[i + 1][j + 1]];
        field(rig, (AMBIENT_C[i], HUMIDITY_PCT[j]), &near).unwrap()
    };
    let chart = Chart {
        ambient_c: AMBIENT_C.to_vec(),
        humidity_pct: HUMIDITY_PCT.to_vec(),
        fields: (0..AMBIENT_C.len())
            .map(|i| (0..HUMIDITY_PCT.len()).map(|j| field(i, j)).collect())
            .collect(),
    };
    let style = ron::ser::PrettyConfig::new().depth_limit(3);
    let text = ron::Options::default().to_string_pretty(&chart, style).unwrap();
    let path = format!("{}/assets/rigs/{rig}/chart.ron", env!("CARGO_MANIFEST_DIR"));
    let head = "// Performance chart: healthy runs of the model, see src/bay/chart.rs. Gauge pressures [bar], vents [°C].\n";
    std::fs::write(path, format!("{head}{text}\n")).unwrap();
}

#[test]
fn charts_are_healthy_runs() {
    if std::env::var_os("PINTLE_WRITE_CHARTS").is_some() {
        std::thread::scope(|threads| {
            for rig in Rig::ids() {
                threads.spawn(move || write(rig));
            }
        });
    }
}

/// Off the nodes of the chart, for interpolation is where it would go wrong. The median of a healthy run, as the
/// instruments show it.
#[test]
fn a_healthy_rig_falls_inside_its_chart() {
    let doubt = [
        uncertainty(&Probe::LowGauge, 0.0) / 1e5,
        uncertainty(&Probe::HighGauge, 0.0) / 1e5,
        uncertainty(&Probe::Air(AirPlace::Vent), 0.0),
    ];
    for rig in Rig::ids() {
        for weather in [(18.0, 60.0), (27.5, 35.0), (32.0, 65.0), (37.0, 30.0)] {
            let chart = expected(rig, weather.0, weather.1).unwrap();
            assert!(chart.on_chart);
            let seen = run(rig, weather, None, 1500.0);
            let bands = [
                chart.low_pa.map(|x| x / 1e5),
                chart.high_pa.map(|x| x / 1e5),
                chart.vent_k.map(|x| x - ZERO_C_K),
            ];
            for ((values, band), (doubt, name)) in
                seen.into_iter().zip(bands).zip(doubt.into_iter().zip(["low", "high", "vent"]))
            {
                let median = median(values).unwrap();
                let off = (median - median.clamp(band.min, band.max)).abs();
                println!(
                    "{rig} {weather:?} {name}: {median:.2} in {:.2} to {:.2}, off {off:.2}",
                    band.min, band.max
                );
                assert_eq!(
                    band.against(median, doubt),
                    Against::Inside,
                    "{rig} {weather:?} {name} {median} {band:?}"
                );
            }
        }
    }
}

#[test]
fn published() {
    for rig in ["compact_car", "pickup"] {
        for ambient_c in [22.0, 26.7, 32.2, 37.8] {
            let ours = expected(rig, ambient_c, 40.0).unwrap();
            for beside in crate::bay::published::beside_published("R-134a", ambient_c, &ours) {
                println!("{rig} {ambient_c}: {}", beside.words());
            }
        }
    }
}
