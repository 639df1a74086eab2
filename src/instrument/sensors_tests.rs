//! Sensors as a bench uses them.

use super::*;
use strum::VariantArray;

use crate::circuit::CircuitSpec;
use crate::instrument::still::Still;
use crate::instrument::{AirPlace, LeakTruth, OVER, SearchPlace, Tool, is_over};
use crate::places::BySearchPlace;

const TICK: f64 = 0.05;

fn full() -> Still {
    let leak = LeakTruth { refrigerant_kg_s: 1e-8, gas_m3_s: 2e-9, dye_kg: 2.5e-6, wind_m_s: 0.0 };
    Still {
        centre_hose_pa: 60.0,
        recovery_scale_kg: 12.3,
        charging_scale_kg: 5.4,
        recovered_oil_m3: 30e-6,
        surroundings_k: 300.0,
        pipe_k: [280.0, 350.0, 320.0, 318.0, 275.0, 281.0],
        wet_bulb_k: [297.0, 299.0, 290.0, 281.0],
        vent_m3_s: 0.1,
        leaks: BySearchPlace::new(|_| leak),
        sample: Some((0.97, 0.02)),
        ..Still::default()
    }
}

/// Every instrument that only follows its place, on every place.
fn all() -> Vec<Probe> {
    let places = |tool: &Tool| tool.probes(&CircuitSpec::default());
    let follows =
        |probe: &Probe| probe.ask(|i| i.sensor().is_some()) || matches!(probe, Probe::LeakDetector { .. });
    let all: Vec<Probe> = Tool::VARIANTS.iter().flat_map(places).filter(follows).collect();
    assert!(all.len() > 60, "{}", all.len());
    all
}

#[test]
fn settled_readings_lie_within_the_limit_and_replay() {
    for seed in 0..20 {
        for probe in all() {
            let mut tools = Sensors::default();
            assert!(tools.place(&probe) && tools.shown(&probe, seed, 0).is_none());
            for _ in 0..6000 {
                tools.advance(TICK, &full());
            }
            let (shown, expected) =
                (tools.shown(&probe, seed, 9).expect("placed"), tools.expected(&probe).expect("placed"));
            // Rounding to the last digit may add half a digit to what is within the limit.
            let limit = probe.limit(shown) * 1.001 + 1e-12;
            assert!((shown - expected).abs() <= limit, "{probe:?}: {shown} against {expected} ± {limit}");
            assert_eq!(tools.clone().shown(&probe, seed, 9), Some(shown));
            assert!(tools.placed().eq(std::iter::once(probe.clone())));
            tools.remove(&probe);
            assert!(tools.is_untouched());
        }
    }
}

#[test]
fn a_tool_moves_and_others_stay() {
    let mut tools = Sensors::default();
    let soap = Probe::Soap(SearchPlace::CondenserJoint);
    assert!(tools.place(&soap) && tools.place(&Probe::Airflow));
    assert!(tools.place(&Probe::Soap(SearchPlace::ValveJoint)));
    tools.advance(TICK, &full());
    assert!(tools.shown(&soap, 1, 1).is_none() && tools.shown(&Probe::Airflow, 1, 1).is_some());
    assert!(!tools.place(&Probe::LowGauge), "not of the bay");
    assert!(tools.shown(&Probe::LowGauge, 1, 1).is_none() && tools.expected(&Probe::SightGlass).is_none());
}

#[test]
fn readings_taken_too_soon_are_wrong() {
    let after = |probe: &Probe, seconds: f64| {
        let mut tools = Sensors::default();
        tools.place(probe);
        for _ in 0..(seconds / TICK) as usize {
            tools.advance(TICK, &full());
        }
        tools.expected(probe).expect("placed")
    };
    let wet = Probe::WetBulb(AirPlace::Vent);
    assert!(after(&wet, 10.0) > 293.0 && (after(&wet, 180.0) - 281.0).abs() < 0.1);
    let soap = Probe::Soap(SearchPlace::CondenserJoint);
    assert!(after(&soap, 1.0) < 0.2 && after(&soap, 60.0) > 0.8);
}

#[test]
fn the_vacuum_gauge_follows_decades_and_has_no_say_above_its_range() {
    let mut tools = Sensors::default();
    tools.place(&Probe::VacuumGauge);
    let at = |pa| Still { centre_hose_pa: pa, ..full() };
    tools.advance(TICK, &at(101_325.0));
    assert!(is_over(tools.shown(&Probe::VacuumGauge, 1, 1).expect("placed")));
    assert_eq!(Probe::VacuumGauge.limit(OVER), 0.0);
    for _ in 0..400 {
        tools.advance(TICK, &at(60.0));
    }
    let shown = tools.shown(&Probe::VacuumGauge, 1, 1).expect("placed");
    assert!((shown - 60.0).abs() < 6.2, "{shown}");
    tools.advance(TICK, &at(f64::NAN));
    assert!(tools.shown(&Probe::VacuumGauge, 1, 1).expect("placed").is_finite());
}

#[test]
fn without_a_sample_the_identifier_shows_nothing() {
    let mut tools = Sensors::default();
    tools.place(&Probe::Identifier);
    tools.advance(TICK, &Still::default());
    assert!(tools.shown(&Probe::Identifier, 1, 1).is_none());
    tools.advance(TICK, &full());
    assert!((tools.shown(&Probe::Identifier, 1, 1).expect("sampled") - 0.97).abs() <= 0.01);
}
