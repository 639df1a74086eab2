//! How cost grows with the number of volumes and with the number of loops.

use super::clock::Clock;
use super::table::Table;
use pintle::bench::Bench;
use pintle::plant::{Inputs, Plant, PlantSpec};
use pintle::refrigerant::Refrigerant;
use pintle::rig::Rig;
use pintle::scenario::load;

/// Exponent of a power law and share of the variance that a straight line explains.
fn fit(points: &[(f64, f64)]) -> (f64, f64, f64, f64) {
    let line = |points: &[(f64, f64)]| {
        let n = points.len() as f64;
        let (mx, my) =
            (points.iter().map(|p| p.0).sum::<f64>() / n, points.iter().map(|p| p.1).sum::<f64>() / n);
        let sxy: f64 = points.iter().map(|p| (p.0 - mx) * (p.1 - my)).sum();
        let sxx: f64 = points.iter().map(|p| (p.0 - mx) * (p.0 - mx)).sum();
        let syy: f64 = points.iter().map(|p| (p.1 - my) * (p.1 - my)).sum();
        (my - sxy / sxx * mx, sxy / sxx, sxy * sxy / (sxx * syy))
    };
    let logs: Vec<(f64, f64)> = points.iter().map(|p| (p.0.ln(), p.1.ln())).collect();
    let (at_zero, slope, explained) = line(points);
    (line(&logs).1, at_zero, slope, explained)
}

fn finer(spec: &PlantSpec, times: usize) -> PlantSpec {
    let mut spec = spec.clone();
    for coil in
        [Some(&mut spec.condenser), spec.subcooler.as_mut(), Some(&mut spec.evaporator)].into_iter().flatten()
    {
        coil.cells *= times;
    }
    spec.fin_sensor_cell = spec.fin_sensor_cell * times + times / 2;
    spec
}

fn volumes(table: &mut Table) {
    let rig = Rig::load("compact_car").expect("embedded").plant;
    let refrigerant = Refrigerant::by_name(&rig.refrigerant).expect("embedded");
    let bench = Bench::new(&load("healthy").expect("embedded"), 1).expect("embedded rig");
    let still = *bench.plant().inputs();
    let running = Inputs {
        compressor_rpm: 900.0 * rig.compressor.drive.pulley_ratio().unwrap_or(1.0),
        fan_share: 1.0,
        ..still
    };
    let mut points = Vec::new();
    for times in [1, 2, 3, 4, 6, 8] {
        let spec = finer(&rig, times);
        let mut plant = Plant::soaked(&spec, refrigerant, still, spec.full_charge_kg, 0.0);
        plant.set_inputs(0.0, running);
        let n = plant.layout().len();
        let mut all = vec![plant; 10];
        let clock = Clock::start();
        all.iter_mut().for_each(|plant| plant.advance_to(120.0));
        let spent = clock.seconds() / all.iter().map(|p| p.counts().iterations as f64).sum::<f64>();
        println!("    {n} volumes: {:.2} us for each Newton iteration, all else included", spent * 1e6);
        points.push((n as f64, spent * 1e6));
    }
    let (exponent, at_zero, slope, explained) = fit(&points);
    table.at_most("growth with volumes (23 to 135): exponent", "(linear)", 1.1, exponent);
    let words = format!("{at_zero:.2} + {slope:.3} n us an iteration, R2 {explained:.4}");
    table.note("  straight line", words);
}

fn loops(table: &mut Table) {
    let scenario = load("healthy").expect("embedded");
    let mut points = Vec::new();
    for count in [1_u32, 2, 4, 8, 16, 32, 64, 128] {
        let rounds = 128 / count;
        let mut spent = 0.0;
        for _ in 0..rounds {
            let mut all: Vec<Bench> =
                (0..count).map(|k| Bench::new(&scenario, u64::from(k)).expect("embedded rig")).collect();
            let clock = Clock::start();
            for _ in 0..30 * 20 {
                all.iter_mut().for_each(|bench| bench.advance(1));
            }
            spent += clock.seconds() / f64::from(rounds);
        }
        points.push((f64::from(count), spent * 1e3));
    }
    let (exponent, at_zero, slope, explained) = fit(&points);
    table.at_most("growth with loops (1 to 128): exponent", "(linear)", 1.1, exponent);
    let words = format!("{at_zero:.2} + {slope:.3} n ms for 30 s, R2 {explained:.4}");
    table.note("  straight line", words);
}

/// Both.
pub fn run(table: &mut Table) {
    volumes(table);
    loops(table);
}
