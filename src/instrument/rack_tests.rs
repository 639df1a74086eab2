//! The rack as a bench uses it.

use super::*;
use crate::circuit::{Circuit, CircuitInputs};
use crate::instrument::MeterMode;
use crate::instrument::still::Still;
use crate::rig::Rig;

const TICK: f64 = 0.05;

fn volts(point: &str) -> Probe {
    Probe::Meter { mode: MeterMode::VoltsDc, red: point.into(), black: "ground".into() }
}

fn truth() -> Still {
    let spec = Rig::load("compact_car").expect("is shipped").circuit;
    let mut circuit = Circuit::new(&spec);
    circuit.update(&CircuitInputs::default(), TICK);
    Still {
        gauges_live: true,
        low_gauge_pa: 2.2e5,
        high_gauge_pa: 16.0e5,
        compressor_turns: true,
        pipe_k: [284.0, 358.0, 324.0, 324.0, 277.0, 281.0],
        air_k: [308.0, 320.0, 300.0, 283.0],
        surroundings_k: 308.0,
        circuit: Some(circuit),
        ..Still::default()
    }
}

fn all_probes() -> Vec<Probe> {
    let mut all = vec![Probe::LowGauge, Probe::HighGauge, Probe::SightGlass];
    all.extend(PipePlace::ALL.map(Probe::Pipe));
    all.extend(AirPlace::ALL.map(Probe::Air));
    all.push(volts("battery_plus"));
    all
}

#[test]
fn settled_readings_lie_in_their_band_and_replay_exactly() {
    let true_now = truth();
    for seed in 0..30 {
        for probe in all_probes() {
            let mut rack = InstrumentRack::new(seed);
            assert!(rack.place(&probe, &truth()));
            for _ in 0..1200 {
                rack.advance(TICK, &true_now);
            }
            let (value, band) = rack.shown(&probe, 1200).expect("placed");
            let expected = rack.expected(&probe).expect("placed");
            assert!((value - expected).abs() <= band, "{probe:?}: {value} against {expected} ± {band}");
            assert!(band > 1.5 * probe.sigma(value));
            assert_eq!(rack.clone().read(&probe, 1200), rack.read(&probe, 1200));
        }
    }
}

#[test]
fn one_tool_of_each_kind_starting_from_the_surroundings() {
    let mut rack = InstrumentRack::new(1);
    let (outlet, inlet) = (Probe::Pipe(PipePlace::CompressorOutlet), Probe::Pipe(PipePlace::CompressorInlet));
    assert!(rack.shown(&outlet, 0).is_none());
    rack.place(&outlet, &truth());
    for _ in 0..20 {
        rack.advance(TICK, &truth());
    }
    let soon = rack.expected(&outlet).expect("placed");
    assert!(soon > 310.0 && soon < 325.0, "after one second the clamp shows {soon} K");
    rack.place(&outlet, &truth());
    assert_eq!(rack.expected(&outlet), Some(soon), "placing it again where it is changes nothing");
    rack.place(&inlet, &truth());
    assert_eq!((rack.expected(&outlet), rack.expected(&inlet)), (None, Some(308.0)));
    rack.place(&Probe::SightGlass, &truth());
    assert_eq!(rack.placed().collect::<Vec<_>>(), [inlet.clone(), Probe::SightGlass]);
    rack.remove(&inlet);
    assert!(rack.expected(&inlet).is_none());
}

#[test]
fn no_point_no_volts_and_no_hose_no_pressure() {
    let mut rack = InstrumentRack::new(1);
    assert!(!rack.place(&volts("nowhere"), &truth()));
    assert!(rack.place(&volts("battery_plus"), &truth()));
    assert_eq!(rack.expected(&volts("battery_plus")), None, "its display takes half a second");
    let mut later = rack.clone();
    for _ in 0..20 {
        later.advance(TICK, &truth());
    }
    assert!(later.expected(&volts("battery_plus")).is_some_and(|v| (12.0..13.0).contains(&v)));
    let off = Still { gauges_live: false, ..truth() };
    for _ in 0..200 {
        rack.advance(TICK, &off);
    }
    assert_eq!(rack.expected(&Probe::HighGauge), Some(0.0));
    let first = rack.shown(&Probe::HighGauge, 1);
    assert_eq!(first, rack.shown(&Probe::HighGauge, 2), "no flutter on a bench");
}

#[test]
fn the_state_survives_storage_and_strange_truth() {
    let mut rack = InstrumentRack::new(9);
    for probe in all_probes() {
        rack.place(&probe, &truth());
    }
    rack.advance(TICK, &truth());
    let text = serde_json::to_string(&rack).expect("plain data");
    assert_eq!(serde_json::from_str::<InstrumentRack>(&text).expect("same data"), rack);
    let nan = f64::NAN;
    let strange = Still {
        low_gauge_pa: nan,
        high_gauge_pa: f64::INFINITY,
        pipe_k: [nan; 6],
        air_k: [nan; 4],
        surroundings_k: nan,
        bubbles: nan,
        ..truth()
    };
    rack.advance(nan, &strange);
    rack.advance(TICK, &strange);
    for probe in all_probes() {
        assert!(
            rack.shown(&probe, 5).is_some_and(|(v, u)| v.is_finite() && u.is_finite())
                == rack.expected(&probe).is_some(),
            "{probe:?}"
        );
    }
}
