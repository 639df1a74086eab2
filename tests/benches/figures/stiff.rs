//! The same right-hand side through a general stiff solver (diffsol's BDF), at equal accuracy, in the same run.
//!
//! Start of the healthy car, 60 s, compressor and fan on from the first moment, surroundings held. Reference: our
//! solver at a ten-thousandth of its tolerances. The general solver gets our unknowns (ln p and h), so no inner
//! iteration, and error weights in the proportion of ours; its slopes are differences.

use super::clock::Clock;
use super::table::Table;
use diffsol::{FaerLU, FaerMat, OdeBuilder, OdeSolverMethod};
use pintle::bench::Bench;
use pintle::plant::{Contents, Plant, RightHandSide};
use pintle::scenario::load;
use std::cell::{Cell, RefCell};

const TIMES_S: [f64; 8] = [1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 45.0, 60.0];

/// A plant just started whose surroundings do not move.
fn plant() -> Plant {
    let bench = Bench::new(&load("healthy").expect("embedded"), 1).expect("embedded rig");
    let mut spec = bench.plant().spec().clone();
    let still = *bench.plant().inputs();
    for capacity in [&mut spec.cabin.air_kg, &mut spec.cabin.trim_j_k] {
        *capacity *= 1e12;
    }
    (spec.engine_bay.engine_j_k, spec.engine_bay.bay_j_k) = (1e18, 1e18);
    // The compressor's body would warm beside these equations.
    spec.shell.gas_w_k = 0.0;
    let mut running = still;
    running.compressor_rpm = still.engine_rpm * spec.compressor.drive.pulley_ratio().unwrap_or(1.0);
    running.fan_share = 1.0;
    // Without oil, which takes up and gives back refrigerant beside these equations.
    let contents = Contents { charge_kg: spec.full_charge_kg, air_kg: 0.0, oil_kg: 0.0, water_kg: 0.0 };
    let mut plant = Plant::soaked_with(&spec, bench.plant().refrigerant(), still, contents);
    plant.set_inputs(0.0, running);
    // Films of a loop that has settled, held for both: worked out anew they would give the general solver corners.
    let mut settled = plant.clone();
    settled.advance_to(120.0);
    plant.hold_films_of(&settled);
    plant
}

/// Our solution at the times and the seconds it took.
fn ours(start: &Plant, accuracy: f64) -> (Vec<Vec<f64>>, f64) {
    let mut plant = start.clone();
    plant.set_accuracy(accuracy);
    let clock = Clock::start();
    let mut spent = 0.0;
    let mut all = Vec::new();
    for t in TIMES_S {
        plant.advance_to(t);
        spent = clock.seconds();
        let n = plant.layout().len();
        let mut y = vec![0.0; 2 * n];
        for i in 0..n {
            (y[i], y[n + i]) = (plant.at(t, |s| s.u[i]), plant.at(t, |s| s.h[i]));
        }
        all.push(y);
    }
    (all, spent)
}

/// The general solver's solution: the same, with calls of the right-hand side and steps.
fn theirs(start: &Plant, tolerance: f64) -> Option<(Vec<Vec<f64>>, f64, usize, usize)> {
    let right = RightHandSide::new(start);
    let (count, scales) = (right.len(), right.scales());
    let first = RightHandSide::unknowns(start.committed().1);
    // All unknowns in units of their scale, so that one absolute tolerance weighs them alike.
    let cell = RefCell::new((right, vec![0.0; count], vec![0.0; count]));
    let calls = Cell::new(0_usize);
    let eval = |x: &[f64], out: &mut [f64]| {
        calls.set(calls.get() + 1);
        let (right, y, _) = &mut *cell.borrow_mut();
        for i in 0..count {
            y[i] = x[i] * scales[i];
        }
        right.rates(y, out);
        for i in 0..count {
            out[i] /= scales[i];
        }
    };
    let base: RefCell<(Vec<f64>, Vec<f64>)> = RefCell::default();
    let rhs = |x: &[f64], _p: &[f64], _t: f64, y: &mut [f64]| eval(x, y);
    let jac = |x: &[f64], _p: &[f64], _t: f64, v: &[f64], y: &mut [f64]| {
        let size = v.iter().fold(0.0_f64, |a, b| a.max(b.abs()));
        if size == 0.0 || !size.is_finite() {
            y.fill(0.0);
            return;
        }
        // The undisturbed point is the same for all columns of one set-up.
        let (at, f) = &mut *base.borrow_mut();
        if at.as_slice() != x {
            at.clear();
            at.extend_from_slice(x);
            f.resize(count, 0.0);
            eval(x, f);
        }
        let e = 1e-8 / size;
        let moved: Vec<f64> = x.iter().zip(v).map(|(a, b)| a + e * b).collect();
        eval(&moved, y);
        for i in 0..count {
            y[i] = (y[i] - f[i]) / e;
        }
    };
    let mut problem = OdeBuilder::<FaerMat<f64>>::new()
        .rtol(1e-14)
        .atol(vec![tolerance; count])
        .h0(1e-4)
        .rhs_implicit(rhs, jac)
        .init(|_p, _t, y: &mut [f64]| (0..count).for_each(|i| y[i] = first[i] / scales[i]), count)
        .build()
        .ok()?;
    // It stumbles over the bubble and dew lines at loose tolerances; let it, rather than give up.
    problem.ode_options.max_nonlinear_solver_failures = 100_000;
    problem.ode_options.max_error_test_failures = 100_000;
    calls.set(0);
    let clock = Clock::start();
    let mut solver = problem.bdf::<FaerLU<f64>>().ok()?;
    let solved = solver.solve_dense(&TIMES_S);
    let spent = clock.seconds();
    let (columns, _) = match solved {
        Ok(x) => x,
        Err(why) => {
            println!("    tolerance {tolerance:.0e}: {why}");
            return None;
        }
    };
    let n = 2 * (count - 2) / 3;
    let all = (0..TIMES_S.len()).map(|k| (0..n).map(|i| columns[(i, k)] * scales[i]).collect()).collect();
    Some((all, spent, calls.get(), solver.get_statistics().number_of_steps))
}

/// Largest and root-mean-square error over all times and volumes: pressure (share), enthalpy [J/kg].
fn error(got: &[Vec<f64>], want: &[Vec<f64>]) -> [f64; 4] {
    let n = want[0].len() / 2;
    let (mut most, mut sum, mut count) = ([0.0_f64; 2], [0.0; 2], 0.0);
    for (a, b) in got.iter().zip(want) {
        for i in 0..n {
            let off = [(a[i] - b[i]).abs(), (a[n + i] - b[n + i]).abs()];
            for k in 0..2 {
                most[k] = most[k].max(off[k]);
                sum[k] += off[k] * off[k];
            }
            count += 1.0;
        }
    }
    [most[0], (sum[0] / count).sqrt(), most[1], (sum[1] / count).sqrt()]
}

/// An error as one number: shares of a thousandth of pressure and of 300 J/kg.
fn size(e: [f64; 4]) -> f64 {
    (e[1] / 1e-3).hypot(e[3] / 300.0)
}

fn words(e: [f64; 4]) -> String {
    format!("p {:.1e} rms {:.1e} most, h {:.0} rms {:.0} J/kg most", e[1], e[0], e[3], e[2])
}

/// The row.
pub fn run(table: &mut Table) {
    let start = plant();
    let (reference, _) = ours(&start, 1e-4);
    let own = error(&ours(&start, 1.0).0, &reference);
    let clock = Clock::start();
    (0..50).for_each(|_| drop(ours(&start, 1.0)));
    let own_s = clock.seconds() / 50.0;
    let (finer, finer_s) = ours(&start, 1e-3);
    let finer = error(&finer, &reference);
    println!("    ours at a thousandth of the tolerances: {:.1} ms, {}", finer_s * 1e3, words(finer));
    println!("    ours: {:.2} ms, {}", own_s * 1e3, words(own));
    let mut chosen: Option<(f64, f64, [f64; 4])> = None;
    for tolerance in [1e-2, 3e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 1e-6] {
        let Some((got, mut s, calls, steps)) = theirs(&start, tolerance) else { continue };
        let e = error(&got, &reference);
        println!("    BDF at {tolerance:.0e}: {:.1} ms, {steps} steps, {calls} calls, {}", s * 1e3, words(e));
        // The fastest of those that are as accurate as ours.
        if size(e) <= size(own) {
            for _ in 0..4 {
                s = theirs(&start, tolerance).map_or(s, |again| s.min(again.1));
            }
            if chosen.is_none_or(|(_, best, _)| s < best) {
                chosen = Some((tolerance, s, e));
            }
        }
    }
    let what = "the same equations by a general stiff solver (diffsol BDF)";
    match chosen {
        Some((tolerance, s, e)) => {
            table.at_least(what, "times slower than ours, equal accuracy", 20.0, None, s / own_s);
            table.note("  ours, 60 s of a start", format!("{:.2} ms, {}", own_s * 1e3, words(own)));
            table.note(
                &format!("  BDF, tolerance {tolerance:.0e}"),
                format!("{:.1} ms, {}", s * 1e3, words(e)),
            );
        }
        None => table.missing(what, "20 times slower", "it reached no equal accuracy"),
    }
}
