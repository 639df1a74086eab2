//! Hands of the tests at the circuit of a bench.

use crate::bench::{Action, Bench, MistakeKind, Refusal, TICK_S, UnsafeKind};
use crate::instrument::{MeterMode, Probe};
use crate::scenario::{Scenario, load};

pub fn scenario(rig: &str) -> Scenario {
    let mut scenario = load("healthy").unwrap();
    scenario.rig = rig.into();
    scenario
}

pub fn bench(rig: &str) -> Bench {
    Bench::new(&scenario(rig), 3).unwrap()
}

pub fn wait(bench: &mut Bench, seconds: f64) {
    bench.advance((seconds / TICK_S) as u32);
}

pub fn at(mode: MeterMode, red: &str, black: &str) -> Probe {
    Probe::Meter { mode, red: red.into(), black: black.into() }
}

pub fn read(bench: &mut Bench, probe: &Probe) -> f64 {
    bench.apply(Action::Place(probe.clone())).unwrap();
    wait(bench, 1.0);
    bench.apply(Action::Read(probe.clone())).unwrap();
    bench.notebook().last().unwrap().value
}

pub fn kinds(bench: &Bench) -> Vec<MistakeKind> {
    bench.electrics().mistakes.iter().map(|m| m.kind).collect()
}

pub fn danger(bench: &mut Bench, action: Action) -> UnsafeKind {
    match bench.apply(action) {
        Err(refusal @ Refusal::Danger(kind)) => {
            let words = refusal.to_string();
            assert!(words.starts_with("DANGER") && words.contains("licensed practice"), "{words}");
            kind
        }
        other => panic!("{other:?}"),
    }
}
