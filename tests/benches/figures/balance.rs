//! What must not go missing: charge over a day of clutch cycling, energy in steady state and over a transient.

use super::table::Table;
use pintle::bench::{Action, Bench, Inside, TICK_S};
use pintle::fault::FaultId;
use pintle::knobs::Change;
use pintle::scenario::load;

const PER_S: u32 = 20;

fn healthy() -> Bench {
    Bench::new(&load("healthy").expect("embedded"), 1).expect("embedded rig")
}

fn inside(bench: &Bench) -> Inside {
    bench.snapshot(true).inside.expect("asked for")
}

fn day(table: &mut Table) {
    let mut bench = healthy();
    let fan = FaultId::CondenserFanMotorOpen;
    bench.apply(Action::ImposeFault { id: fan, severity: 1.0 }).expect("in range");
    let charge = |bench: &Bench| {
        let s = bench.plant().committed().1;
        s.mass_kg.iter().sum::<f64>() + s.oil.dissolved_kg + s.released_kg()
            - s.serviced_kg
            - s.from_cylinder_kg
    };
    let start = charge(&bench);
    let (mut worst, mut starts, mut was): (f64, u32, bool) = (0.0, 0, false);
    for _ in 0..24 * 3600 {
        bench.advance(PER_S);
        let on = bench.plant().inputs().compressor_rpm > 0.0;
        starts += u32::from(on && !was);
        was = on;
        worst = worst.max((charge(&bench) - start).abs() / start);
    }
    table.at_most("charge drift over 24 h with clutch cycling", "of the charge", 1e-9, worst);
    table.note(
        "  clutch starts in it, steps that did not solve",
        format!("{starts}, {}", bench.troubles().len()),
    );
}

fn steady(table: &mut Table) {
    let mut bench = healthy();
    bench.advance(1800 * PER_S);
    let (mut off, mut through) = (0.0, 0.0);
    for _ in 0..60 * PER_S {
        bench.advance(1);
        let i = inside(&bench);
        off += i.q_condenser_w - i.q_evaporator_w - i.w_compressor_w - i.q_other_w;
        through += i.q_condenser_w;
    }
    table.at_most("energy closure, steady", "% of throughput", 0.1, 100.0 * (off / through).abs());
}

fn transient(table: &mut Table) {
    let mut bench = healthy();
    let held = |bench: &Bench| bench.plant().at(bench.time_s(), |s| s.energy_j.iter().sum());
    let before: f64 = held(&bench);
    let fan = FaultId::CondenserFanMotorOpen;
    let (mut net, mut through, mut worst): (f64, f64, f64) = (0.0, 0.0, 0.0);
    for (seconds, deed) in [
        (240, None),
        (120, Some(Action::Set(Change::EngineRpm(2500.0)))),
        (60, Some(Action::ImposeFault { id: fan, severity: 1.0 })),
        (120, Some(Action::ClearFault { id: fan })),
        (300, Some(Action::Set(Change::EngineOn(false)))),
    ] {
        if let Some(action) = deed {
            bench.apply(action).expect("allowed");
        }
        for _ in 0..seconds * PER_S {
            bench.advance(1);
            let i = inside(&bench);
            net += TICK_S * (i.q_evaporator_w + i.w_compressor_w + i.q_other_w - i.q_condenser_w);
            through += TICK_S * (i.q_evaporator_w.abs() + i.w_compressor_w.abs());
        }
        worst = worst.max((held(&bench) - before - net).abs());
    }
    table.at_most("energy closure over a whole transient", "% of throughput", 0.5, 100.0 * worst / through);
}

/// All three.
pub fn run(table: &mut Table) {
    steady(table);
    transient(table);
    day(table);
}
