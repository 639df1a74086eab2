//! Random hands in the service bay: whatever they do, the books close, the state stays finite and every step solves.

use pintle::bay::{BayAction, CentreEnd, Hose, OilKind, StationStep, VesselValve};
use pintle::bench::{Action, Bench};
use pintle::fault::{FaultId, RepairId};
use pintle::knobs::Change;
use pintle::plant::{Port, Vessel};
use pintle::scenario::{Scenario, load};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

fn pick<T: Copy>(rng: &mut ChaCha8Rng, list: &[T]) -> T {
    list[rng.random_range(0..list.len())]
}

/// Something hands could do.
fn act(rng: &mut ChaCha8Rng) -> Action {
    let hose = pick(rng, &[Hose::Low, Hose::High]);
    let vessel = pick(rng, &Vessel::ALL);
    let on = rng.random_bool(0.5);
    let pct = pick(rng, &[0.0, 0.0, 5.0, 50.0, 100.0]);
    Action::Bay(match rng.random_range(0..26) {
        0 => BayAction::Fit { hose, port: on.then(|| hose.own_port()) },
        1..=3 => BayAction::Knob { hose, open: rng.random_bool(0.8) },
        4..=6 => BayAction::Centre(pick(rng, &CentreEnd::ALL)),
        7 => BayAction::Loosen(rng.random_bool(0.3)),
        8 => BayAction::Pump(rng.random_bool(0.8)),
        9 => BayAction::Machine(rng.random_bool(0.8)),
        10 | 11 => BayAction::Valve {
            vessel,
            valve: pick(rng, &[VesselValve::Shut, VesselValve::Gas, VesselValve::Liquid]),
        },
        12 => BayAction::Warm(on),
        13 => BayAction::RegulatorBar(pick(rng, &[0.0, 1.0, 5.0, 14.0])),
        14 => BayAction::Oil { ml: 10.0, kind: pick(rng, &[OilKind::AsLabelled, OilKind::Other]) },
        15 => BayAction::CloseUp,
        16 => BayAction::Station(vec![pick(
            rng,
            &[StationStep::Recover, StationStep::EvacuateMin(3.0), StationStep::ChargeG(200.0)],
        )]),
        17 => BayAction::StationStop,
        18 => BayAction::FreshCan,
        19 => {
            return Action::Repair(pick(
                rng,
                &[RepairId::ReplaceDrier, RepairId::ReplaceCompressor, RepairId::ReplaceCondenser],
            ));
        }
        20 | 21 => return Action::Set(Change::EngineOn(rng.random_bool(0.6))),
        22 | 23 => return Action::ManifoldLowPct(pct),
        24 => return Action::ManifoldHighPct(pct),
        _ => return Action::ImposeFault { id: FaultId::LeakHose, severity: pick(rng, &[20.0, 400.0]) },
    })
}

fn run(scenario: &Scenario, seed: u64, acts: usize) -> Result<(), String> {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut bench = Bench::new(scenario, seed).map_err(|e| e.to_string())?;
    let mut told = vec![];
    let mut done = |bench: &mut Bench, action: Action| {
        if bench.apply(action.clone()).is_ok() {
            told.push(format!("{:.0} s {action:?}", bench.time_s()));
        }
    };
    done(&mut bench, Action::Bay(BayAction::Protect(true)));
    for hose in [Hose::Low, Hose::High] {
        let port = if hose == Hose::Low { Port::Low } else { Port::High };
        done(&mut bench, Action::Bay(BayAction::Fit { hose, port: Some(port) }));
        done(&mut bench, Action::Bay(BayAction::Knob { hose, open: true }));
    }
    for _ in 0..acts {
        done(&mut bench, act(&mut rng));
        bench.advance(rng.random_range(1..1200));
        let ledger = bench.ledger().ok_or("no ledger")?;
        let off = ledger.unaccounted_kg().abs().max(ledger.oil_unaccounted_kg().abs());
        if off.is_nan() || off > 1e-6 || !bench.troubles().is_empty() {
            return Err(format!(
                "seed {seed}: {off:e} kg off, {:?}\n{ledger:?}\n{}",
                bench.troubles(),
                told.join("\n")
            ));
        }
    }
    Ok(())
}

/// What went wrong in sequences of 40 acts with these seeds.
pub fn failures(seeds: std::ops::Range<u64>) -> Vec<String> {
    let scenario = load("bay_open_bench").expect("the scenario");
    seeds.filter_map(|seed| run(&scenario, seed, 40).err()).collect()
}

#[test]
fn the_books_close_whatever_hands_do() {
    let asked = |name| std::env::var(name).ok().and_then(|s| s.parse().ok());
    let seeds: u64 = asked("PINTLE_BAY_SEEDS").unwrap_or(12);
    let first: u64 = asked("PINTLE_BAY_FIRST").unwrap_or(0);
    let failed = failures(first..first + seeds);
    assert!(failed.is_empty(), "{} of {seeds}:\n{}", failed.len(), failed.join("\n\n"));
}
