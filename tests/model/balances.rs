//! Balances: no gram and no joule is lost, whatever is done to the bench, and time may pass in any batches.

use crate::common::{Car, IDLE, PER_S, Setting};
use pintle::bench::{Action, Bench, Inside};
use pintle::fault::FaultId;
use pintle::knobs::Change;
use pintle::plant::{Inputs, Plant};
use pintle::record::{Record, replay};
use pintle::rig::Rig;
use pintle::{moist_air, refrigerant::Refrigerant, scenario};
use proptest::prelude::*;

/// DESIGN.md 3: charge drift over a simulated hour with clutch cycling below 1e-9. A dead fan cycles the
/// clutch on the high-pressure switch, cool weather on the thermistor.
#[test]
fn an_hour_of_cycling_loses_no_gram() {
    let cool = Setting { ambient_c: 20.0, rpm: 1500.0, kmh: 0.0, ..IDLE };
    for mut car in [Car::faulty(IDLE, &[(FaultId::CondenserFanMotorOpen, 1.0)]), Car::healthy(cool)] {
        let start = car.inside().charge_kg;
        let s = car.watch(3600);
        let end = car.inside();
        let drift = (end.charge_kg + end.released_kg - start) / start;
        println!("{} starts, drift {drift:.2e}, released {} kg", s.starts, end.released_kg);
        assert!(s.starts > 10, "{} starts", s.starts);
        assert!(drift.abs() < 1e-9, "drift {drift}");
    }
}

/// The issue: in steady state condenser = evaporator + compressor + other, within 0.5 %.
#[test]
fn steady_energy_closes() {
    let cases: [(Setting, &[(FaultId, f64)]); 5] = [
        (IDLE, &[]),
        (Setting { kmh: 60.0, rpm: 2000.0, ..IDLE }, &[]),
        (IDLE, &[(FaultId::Overcharge, 0.4)]),
        (IDLE, &[(FaultId::TxvStuckOpen, 1.0)]),
        (IDLE, &[(FaultId::CompressorLeak, 0.4)]),
    ];
    for (at, faults) in cases {
        let mut car = Car::faulty(at, faults);
        car.wait(1800);
        // A mean over a minute: heats are those of a solver step, and steps are long in steady state.
        let (mut condenser, mut into) = (0.0, 0.0);
        for _ in 0..60 {
            let i = car.wait(1).inside();
            condenser += i.q_condenser_w;
            into += i.q_evaporator_w + i.w_compressor_w + i.q_other_w;
        }
        println!("{faults:?}: condenser {:.1} W, in {:.1} W", condenser / 60.0, into / 60.0);
        assert!((condenser - into).abs() < 0.005 * condenser, "{condenser} {into}");
    }
}

/// One thing done to the bench, then some seconds.
#[derive(Clone, Debug)]
struct Deed(Action, u32);

fn fault() -> impl Strategy<Value = Action> {
    let rig = Rig::load("compact_car").expect("embedded");
    let faults: Vec<FaultId> = FaultId::on(&rig).collect();
    (0..faults.len(), 0.0..1.0f64).prop_map(move |(i, share)| {
        let id = faults[i];
        let mut severity = id.info().severity.map_or(1.0, |s| s.min + share * (s.max - s.min));
        if id == FaultId::AirInLoop {
            severity *= from_environment("PINTLE_AIR", MOST_AIR);
        }
        Action::ImposeFault { id, severity }
    })
}

/// Share of the catalogue's range of air that the random sequences use; `PINTLE_AIR=0` leaves it out.
const MOST_AIR: f64 = 1.0;

fn from_environment<T: std::str::FromStr>(name: &str, otherwise: T) -> T {
    std::env::var(name).ok().and_then(|text| text.parse().ok()).unwrap_or(otherwise)
}

/// The same few cases every time; `PINTLE_CASES=500 PINTLE_SEED=2` asks for more and others.
fn config() -> ProptestConfig {
    ProptestConfig {
        cases: from_environment("PINTLE_CASES", 16),
        max_shrink_iters: 300,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(from_environment("PINTLE_SEED", 1)),
        ..ProptestConfig::default()
    }
}

fn deed() -> impl Strategy<Value = Deed> {
    let action = prop_oneof![
        4 => fault(),
        2 => (0..FaultId::COUNT).prop_map(|i| Action::ClearFault { id: FaultId::ALL[i] }),
        1 => any::<bool>().prop_map(|v| Action::Set(Change::EngineOn(v))),
        1 => (500.0..6000.0f64).prop_map(|v| Action::Set(Change::EngineRpm(v))),
        1 => any::<bool>().prop_map(|v| Action::Set(Change::AcRequest(v))),
        1 => (0.0..100.0f64).prop_map(|v| Action::Set(Change::BlowerPct(v))),
        1 => any::<bool>().prop_map(|v| Action::Set(Change::Recirculate(v))),
        1 => (0.0..180.0f64).prop_map(|v| Action::Set(Change::RoadSpeedKmh(v))),
        1 => (-20.0..55.0f64).prop_map(|v| Action::Set(Change::AmbientC(v))),
        1 => (0.0..100.0f64).prop_map(|v| Action::Set(Change::RelativeHumidityPct(v))),
        1 => any::<bool>().prop_map(Action::Hoses),
        1 => (0.0..100.0f64).prop_map(Action::ManifoldLowPct),
        1 => (0.0..100.0f64).prop_map(Action::ManifoldHighPct),
    ];
    (action, 1..40u32).prop_map(|(a, s)| Deed(a, s))
}

fn weather() -> impl Strategy<Value = Deed> {
    let action = prop_oneof![
        (0.0..1200.0f64).prop_map(|v| Action::Set(Change::SolarWM2(v))),
        (0.0..7.0f64).prop_map(|v| Action::Set(Change::People(v))),
        any::<bool>().prop_map(|v| Action::Set(Change::EngineOn(v))),
        (500.0..6000.0f64).prop_map(|v| Action::Set(Change::EngineRpm(v))),
        any::<bool>().prop_map(|v| Action::Set(Change::AcRequest(v))),
        (0.0..100.0f64).prop_map(|v| Action::Set(Change::BlowerPct(v))),
        any::<bool>().prop_map(|v| Action::Set(Change::Recirculate(v))),
        (0.0..180.0f64).prop_map(|v| Action::Set(Change::RoadSpeedKmh(v))),
        (-20.0..55.0f64).prop_map(|v| Action::Set(Change::AmbientC(v))),
        (0.0..100.0f64).prop_map(|v| Action::Set(Change::RelativeHumidityPct(v))),
        Just(Action::ImposeFault { id: FaultId::CondenserFanMotorOpen, severity: 1.0 }),
    ];
    (action, 1..400u32).prop_map(|(a, s)| Deed(a, s))
}

fn finite(i: &Inside) -> bool {
    let points = i.points.iter().all(|p| {
        [p.p_pa, p.p_total_pa, p.h_j_per_kg, p.t_k, p.void_fraction, p.flow_kg_s]
            .iter()
            .all(|x| x.is_finite())
    });
    let rest = [
        i.charge_kg,
        i.released_kg,
        i.air_kg,
        i.vent_t_k,
        i.cabin_t_k,
        i.gauge_low_pa,
        i.gauge_high_pa,
        i.q_condenser_w,
        i.q_evaporator_w,
        i.w_compressor_w,
        i.q_other_w,
        i.condensate_kg_s,
    ];
    points && rest.iter().all(|x| x.is_finite()) && i.air_kg >= -1e-12
}

/// Refrigerant that went missing between two snapshots [kg]. What service takes out counts as released too.
fn lost_kg(before: &Inside, after: &Inside) -> f64 {
    let serviced = after.serviced_kg - before.serviced_kg;
    let relieved = after.released_kg - before.released_kg;
    before.charge_kg + serviced - relieved - after.charge_kg
}

/// Do deeds one after the other: every step solves, every value is finite, no gram is lost, and `more` holds.
fn play(deeds: Vec<Deed>, more: impl Fn(&Inside) -> Result<(), TestCaseError>) -> Result<(), TestCaseError> {
    let mut bench = Bench::new(&scenario::load("healthy").expect("healthy"), 7).expect("a bench");
    bench.advance(PER_S);
    for Deed(action, seconds) in deeds {
        let before = bench.snapshot(true).inside.expect("inside");
        bench.apply(action).expect("allowed");
        bench.advance(seconds * PER_S);
        prop_assert!(bench.troubles().is_empty(), "{:?}", bench.troubles());
        let after = bench.snapshot(true).inside.expect("inside");
        prop_assert!(finite(&after), "{after:?}");
        let lost = lost_kg(&before, &after);
        prop_assert!(lost.abs() < 1e-9, "lost {lost} kg");
        more(&after)?;
    }
    Ok(())
}

proptest! {
    #![proptest_config(config())]

    /// Whatever is done in whatever order: every step solves, every value is finite and no gram is lost. A
    /// deed before the first tick belongs to the soaked car, so one second passes first.
    #[test]
    fn nothing_breaks_the_bench(deeds in proptest::collection::vec(deed(), 3..14)) {
        play(deeds, |_| Ok(()))?;
    }

    /// The same for what stands around the loop: sun, people, weather, blower, flap, speed, stops.
    #[test]
    fn no_weather_breaks_the_bench(deeds in proptest::collection::vec(weather(), 3..14)) {
        play(deeds, |after| {
            let around = [after.bay_t_k, after.engine_t_k, after.condenser_air_on_t_k, after.cabin_t_k];
            prop_assert!(around.iter().all(|t| (240.0..420.0).contains(t)), "{around:?}");
            let coil = [after.coil_water_kg, after.coil_frost_kg, after.drained_kg, after.evaporator_air_kg_s];
            prop_assert!(coil.iter().all(|x| x.is_finite() && *x >= 0.0), "{coil:?}");
            Ok(())
        })?;
    }

    /// Fewer deeds in a loop that was soaked with air in it. Above a few grams some mixtures of faults are too slow
    /// to search here (see DEVELOPERS.md, weak spots).
    #[test]
    fn nothing_breaks_the_bench_with_air_from_the_start(
        grams in 0.0..4.0f64,
        deeds in proptest::collection::vec(deed(), 2..5),
    ) {
        let mut bench = Bench::new(&scenario::load("healthy").expect("healthy"), 7).expect("a bench");
        bench.apply(Action::ImposeFault { id: FaultId::AirInLoop, severity: grams }).expect("allowed");
        for Deed(action, seconds) in deeds {
            bench.advance(seconds * PER_S);
            bench.apply(action).expect("allowed");
            prop_assert!(bench.troubles().is_empty(), "{:?}", bench.troubles());
            prop_assert!(finite(&bench.snapshot(true).inside.expect("inside")));
        }
    }
}

/// The plant alone keeps exact books: mass = start + serviced - relieved, through charging, discharging,
/// stops and leaks.
#[test]
fn the_books_of_the_plant_are_exact() {
    let rig = Rig::load("compact_car").expect("the rig").plant;
    let ambient_t_k = 308.15;
    let mut inputs = Inputs {
        engine_on: true,
        engine_rpm: 900.0,
        blower_pct: 100.0,
        ambient_w: moist_air::humidity_ratio(ambient_t_k, 0.4, 101_325.0),
        people: 1.0,
        ..Inputs::parked(ambient_t_k).with_hoses(true)
    };
    let mut plant = Plant::soaked(&rig, Refrigerant::r134a(), inputs, rig.full_charge_kg, 0.0);
    // (compressor rev/min, fan, charge kg/s, reed leak, valve held, manifold)
    let phases: [(f64, f64, f64, f64, Option<f64>, f64); 8] = [
        (1260.0, 1.0, 0.0, 0.0, None, 0.0),
        (1260.0, 0.6, 0.002, 0.0, None, 0.0),
        (2800.0, 0.6, -0.004, 0.0, None, 1.0),
        (0.0, 0.0, -0.002, 0.5, Some(1.5), 1.0),
        (1260.0, 0.0, 0.004, 0.0, None, 0.0),
        (4200.0, 0.0, 0.004, 0.0, Some(0.02), 0.0),
        (0.0, 1.0, -0.01, 0.0, None, 0.5),
        (1260.0, 1.0, 0.0, 0.3, Some(1.0), 0.0),
    ];
    let books = |p: &Plant| {
        let s = p.committed().1;
        (s.mass_kg.iter().sum::<f64>() + s.oil.dissolved_kg, s.serviced_kg, s.released_kg())
    };
    let mut time = 0.0;
    for (rpm, fan, charge, leak, held, manifold) in phases {
        (inputs.compressor_rpm, inputs.fan_share, inputs.charge_kg_s) = (rpm, fan, charge);
        (inputs.reed_leak, inputs.metering.held) = (leak, held);
        (inputs.manifold_low, inputs.manifold_high) = (manifold, manifold);
        plant.set_inputs(time, inputs);
        let (m0, s0, r0) = books(&plant);
        time += 40.0;
        plant.advance_to(time);
        let (m1, s1, r1) = books(&plant);
        let lost = (m0 + (s1 - s0) - (r1 - r0) - m1) / rig.full_charge_kg;
        println!("charge {m1:.4} kg, serviced {s1:.4}, released {r1:.4}, off by {lost:.1e}");
        assert!(lost.abs() < 1e-9, "{lost}");
        assert_eq!(plant.troubles(), [] as [String; 0]);
    }
}

/// The same session at 10, 30 and 144 frames a second, through the headless path and in a replay: one hash.
#[test]
fn frame_rate_does_not_matter() {
    let script = |bench: &mut Bench| {
        let tick = bench.tick();
        let deed = match tick {
            1200 => Action::ImposeFault { id: FaultId::CompressorLeak, severity: 0.3 },
            1800 => Action::Set(Change::EngineRpm(1500.0)),
            2400 => Action::Hoses(false),
            3000 => Action::RampFault { id: FaultId::Undercharge, severity: 0.4, over_s: 60.0 },
            _ => return,
        };
        bench.apply(deed).expect("allowed");
    };
    for id in ["healthy", "cold_only_on_the_road"] {
        let scenario = scenario::load(id).expect("a shipped scenario");
        let run = |batch: u64| {
            let mut bench = Bench::new(&scenario, 3).expect("a bench");
            while bench.tick() < 6000 {
                script(&mut bench);
                // A frame ends at the next deed, as it does in the desk.
                let next =
                    [1200, 1800, 2400, 3000, 6000].into_iter().find(|&t| t > bench.tick()).unwrap_or(6000);
                let ticks = batch.min(next - bench.tick());
                bench.advance(u32::try_from(ticks).expect("few ticks"));
                let _seen = bench.snapshot(true);
            }
            bench
        };
        let one = run(1);
        for batch in [2, 7, 40] {
            assert_eq!(run(batch).state_hash(), one.state_hash(), "{id}: batches of {batch}");
        }
        // The headless path jumps from deed to deed without looking, and a replay does the same.
        assert_eq!(run(6000).state_hash(), one.state_hash(), "{id}: headless");
        assert!(replay(&Record::of(&one, &[]).unwrap()).is_ok(), "{id}: replay");
    }
}
