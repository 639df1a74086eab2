//! The service bay through actions, as hands would do it.

use crate::common::hands::Hands;
use pintle::bay::{
    BayAction, BayDanger, BayMistake, BaySetup, CentreEnd, Hose, OilKind, StationStep, VesselValve,
};
use pintle::bench::{Action, Bench, Refusal, UnsafeKind};
use pintle::effort::Effort;
use pintle::fault::RepairId;
use pintle::knobs::Change;
use pintle::plant::{Port, Vessel};
use pintle::rig::Rig;
use pintle::scenario::Scenario;

/// Full charge of the compact car [kg].
const FULL_KG: f64 = 0.349;

fn scenario(lines: &str) -> Scenario {
    on_rig("compact_car", lines)
}

fn on_rig(rig: &str, lines: &str) -> Scenario {
    let text = format!(
        "(format: 1, id: \"bay\", title: \"t\", unit: \"u\", trains: \"t\", work_order: \"w\", rig: \"{rig}\", \
         bay: (), start: (engine_on: false, engine_rpm: 900, ac_request: true, blower_pct: 100, recirculate: true, \
         road_speed_kmh: 0, ambient_c: 25, relative_humidity_pct: 50), {lines})"
    );
    ron::Options::default()
        .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
        .from_str(&text)
        .expect("a scenario")
}

impl Hands {
    fn at(lines: &str) -> Self {
        let mut hands = Self(Bench::new(&scenario(lines), 1).expect("a bench"));
        hands.bay(BayAction::Protect(true));
        hands
    }
    fn loop_pa(&self) -> f64 {
        self.0.plant().look(self.0.plant().layout().suction, self.0.time_s()).p_pa
    }
    fn loop_kg(&self) -> f64 {
        self.0.ledger().expect("a ledger").loop_kg
    }
    fn danger(&mut self, action: Action) -> BayDanger {
        match self.0.apply(action) {
            Err(Refusal::Danger(UnsafeKind::Bay(danger))) => danger,
            other => panic!("{other:?}"),
        }
    }
}

/// Identify, recover, replace the drier, evacuate, charge liquid into the stopped high side, run.
#[test]
fn the_trades_order_by_hand() {
    let mut h = Hands::at("");
    h.bay(BayAction::Identify).wait(60.0);
    h.fit_both().bay(BayAction::Centre(CentreEnd::RecoveryMachine)).wait(5.0);
    h.hand_valves(100.0, 100.0).bay(BayAction::Machine(true)).wait(1500.0);
    let ledger = h.0.ledger().unwrap();
    assert!(ledger.vessels_kg[Vessel::Recovery] > 0.9 * FULL_KG, "{ledger:?}");
    h.bay(BayAction::Machine(false)).act(Action::Repair(RepairId::ReplaceDrier)).wait(600.0);
    // Outside air came in.
    assert!((h.loop_pa() / 101_325.0 - 1.0).abs() < 0.02, "{}", h.loop_pa());
    assert_eq!(h.danger(Action::Set(Change::EngineOn(true))), BayDanger::StartedOpen);
    h.bay(BayAction::NewPartOilMl(30.0)).bay(BayAction::CloseUp);
    h.bay(BayAction::Centre(CentreEnd::VacuumPump)).bay(BayAction::Pump(true)).wait(1800.0);
    assert!(h.loop_pa() < 67.0, "{}", h.loop_pa());
    h.hand_valves(0.0, 0.0).bay(BayAction::Pump(false)).wait(600.0);
    let log = &h.0.bay().unwrap().log;
    assert!(log.watched_s > 500.0 && log.risen_to_pa < 300.0, "{log:?}");
    // The scale counts from before the centre hose fills.
    let before = h.0.vessel_kg(Vessel::Supply);
    h.bay(BayAction::Centre(CentreEnd::Supply))
        .bay(BayAction::Valve { vessel: Vessel::Supply, valve: VesselValve::Liquid })
        .bay(BayAction::Loosen(true))
        .wait(3.0);
    h.bay(BayAction::Loosen(false)).hand_valves(0.0, 100.0);
    // Pressures meet before it is all in.
    h.wait(300.0);
    let liquid_kg = before - h.0.vessel_kg(Vessel::Supply);
    assert!((0.1..FULL_KG).contains(&liquid_kg), "{liquid_kg}");
    // The rest as gas into the running low side.
    h.hand_valves(0.0, 0.0).bay(BayAction::Valve { vessel: Vessel::Supply, valve: VesselValve::Gas });
    h.act(Action::Set(Change::EngineOn(true))).wait(30.0).hand_valves(100.0, 0.0);
    while before - h.0.vessel_kg(Vessel::Supply) < FULL_KG {
        h.wait(1.0);
        assert!(h.0.time_s() < 7000.0, "charging never ends: {:?}", h.0.ledger());
    }
    h.bay(BayAction::Valve { vessel: Vessel::Supply, valve: VesselValve::Shut }).hand_valves(0.0, 0.0);
    // What the hoses hold goes in through the low side, a little at a time, with the high coupler shut.
    h.bay(BayAction::Knob { hose: Hose::High, open: false }).hand_valves(2.0, 100.0).wait(400.0);
    h.hand_valves(0.0, 0.0);
    let ledger = h.0.ledger().unwrap();
    assert!(ledger.hoses_kg < 0.01 && (h.loop_kg() - FULL_KG).abs() < 0.015, "{ledger:?}");
    assert!(h.0.bay().unwrap().log.mistakes.iter().all(|m| m.0 != BayMistake::LiquidIntoRunning));
}

/// The station does the same by its program.
#[test]
fn the_station_runs_its_program() {
    let mut h = Hands::at("");
    h.bay(BayAction::Identify).fit_both();
    h.bay(BayAction::Station(vec![
        StationStep::Recover,
        StationStep::EvacuateMin(20.0),
        StationStep::HoldMin(5.0),
        StationStep::OilMl(20.0),
        StationStep::ChargeG(349.0),
    ]));
    for _ in 0..240 {
        h.wait(30.0);
        if h.0.bay().unwrap().station.as_ref().unwrap().step().is_none() {
            break;
        }
    }
    let station = h.0.bay().unwrap().station.clone().unwrap();
    assert_eq!(station.done.len(), 5, "{station:?}");
    assert!(station.done.iter().all(|done| !done.gave_up), "{station:?}");
    assert!(station.done[0].moved_kg > 0.9 * FULL_KG && station.done[1].end_pa < 100.0, "{station:?}");
    assert!((station.done[4].moved_kg - FULL_KG).abs() < 0.005, "{station:?}");
}

/// What kills is stopped, and written down.
#[test]
fn deadly_acts_are_stopped() {
    let mut h = Hands::at("");
    h.bay(BayAction::Protect(false));
    let fit = Action::Bay(BayAction::Fit { hose: Hose::Low, port: Some(Port::Low) });
    assert_eq!(h.danger(fit.clone()), BayDanger::Unprotected);
    h.bay(BayAction::Protect(true)).act(fit);
    let bay = |act| Action::Bay(act);
    assert_eq!(h.danger(bay(BayAction::Centre(CentreEnd::CompressedAir))), BayDanger::CompressedAir);
    assert_eq!(h.danger(bay(BayAction::Centre(CentreEnd::Oxygen))), BayDanger::Oxygen);
    assert_eq!(h.danger(bay(BayAction::Flame)), BayDanger::Flame);
    assert_eq!(h.danger(bay(BayAction::RegulatorBar(30.0))), BayDanger::NitrogenTooHigh);
    assert_eq!(h.danger(Action::Repair(RepairId::ReplaceDrier)), BayDanger::UnderPressure);
    h.fit_both_again();
    h.act(Action::Set(Change::EngineOn(true))).wait(30.0);
    h.bay(BayAction::Centre(CentreEnd::Can))
        .bay(BayAction::Valve { vessel: Vessel::Can, valve: VesselValve::Gas });
    assert_eq!(h.danger(Action::ManifoldHighPct(50.0)), BayDanger::VesselOnHighSide);
    assert_eq!(h.0.electrics().unsafe_acts.len(), 7);
    // A hose whose fitting differs does not go on.
    let wrong = bay(BayAction::Fit { hose: Hose::Low, port: Some(Port::High) });
    assert!(matches!(h.0.apply(wrong), Err(Refusal::NotNow(_))));
}

impl Hands {
    fn fit_both_again(&mut self) {
        self.bay(BayAction::Knob { hose: Hose::Low, open: true })
            .bay(BayAction::Fit { hose: Hose::High, port: Some(Port::High) })
            .bay(BayAction::Knob { hose: Hose::High, open: true });
    }
}

/// An open hand valve on an open centre hose vents, and every gram of it is counted.
#[test]
fn venting_is_counted() {
    let mut h = Hands::at("hoses_fitted: true");
    h.bay(BayAction::Centre(CentreEnd::Nothing)).hand_valves(0.0, 20.0).wait(60.0);
    let ledger = h.0.ledger().unwrap();
    assert!(ledger.released_kg > 0.05, "{ledger:?}");
    assert!(h.0.bay().unwrap().log.bay_air_kg > 0.04);
}

/// Liquid into the low side of a running compressor batters its reeds.
#[test]
fn liquid_into_a_running_compressor_harms_it() {
    let mut h = Hands::at("");
    h.fit_both().bay(BayAction::Centre(CentreEnd::Supply)).wait(3.0);
    h.act(Action::Set(Change::EngineOn(true))).wait(60.0);
    let before = h.0.snapshot(true).inside.unwrap().reeds_battered;
    h.bay(BayAction::Valve { vessel: Vessel::Supply, valve: VesselValve::Liquid }).hand_valves(100.0, 0.0);
    h.wait(60.0);
    let after = h.0.snapshot(true).inside.unwrap().reeds_battered;
    assert!(after > before + 0.01, "{before} then {after}");
    assert!(h.0.bay().unwrap().log.mistakes.iter().any(|m| m.0 == BayMistake::LiquidIntoRunning));
    h.bay(BayAction::Oil { ml: 10.0, kind: OilKind::AsLabelled });
}

/// Replaying the journal gives the same hash.
#[test]
fn a_job_in_the_bay_replays() {
    let mut h = Hands::at("");
    h.fit_both().bay(BayAction::Centre(CentreEnd::RecoveryMachine)).wait(4.0);
    h.hand_valves(100.0, 100.0).bay(BayAction::Machine(true)).wait(120.0);
    let mut again = Bench::new(&scenario(""), 1).unwrap();
    for (tick, action) in h.0.journal() {
        again.advance((tick - again.tick()) as u32);
        again.apply(action.clone()).unwrap();
    }
    again.advance((h.0.tick() - again.tick()) as u32);
    assert_eq!(again.state_hash(), h.0.state_hash());
}

/// The same on every rig: its own refrigerant, its own charge.
#[test]
fn the_station_serves_every_rig() {
    for rig in ["compact_car", "pickup", "sedan", "electric_van", "walk_in_cooler"] {
        let mut h = Hands(Bench::new(&on_rig(rig, ""), 1).expect("a bench"));
        h.bay(BayAction::Protect(true)).bay(BayAction::Identify).fit_both();
        let full_g = 1e3 * h.0.rig().plant.full_charge_kg;
        h.bay(BayAction::Station(vec![
            StationStep::Recover,
            StationStep::EvacuateMin(30.0),
            StationStep::ChargeG(full_g),
        ]));
        while h.0.bay().unwrap().station.as_ref().unwrap().step().is_some() {
            h.wait(60.0);
        }
        let station = h.0.bay().unwrap().station.clone().unwrap();
        let [recovered, vacuum, charged] = station.done[..] else { panic!("{rig}: {station:?}") };
        assert!(!recovered.gave_up && 1e3 * recovered.moved_kg > 0.9 * full_g, "{rig}: {recovered:?}");
        assert!(vacuum.end_pa < 300.0, "{rig}: {vacuum:?}");
        assert!(!charged.gave_up && (1e3 * charged.moved_kg - full_g).abs() < 5.0, "{rig}: {charged:?}");
    }
}

/// Where both ports have one fitting a hose can go on the wrong one, and its gauge shows the other side.
#[test]
fn hoses_can_be_crossed_on_like_fittings() {
    let mut h = Hands(Bench::new(&on_rig("walk_in_cooler", ""), 1).expect("a bench"));
    h.bay(BayAction::Protect(true));
    h.act(Action::Set(Change::EngineOn(true))).wait(300.0);
    h.bay(BayAction::Fit { hose: Hose::Low, port: Some(Port::High) })
        .bay(BayAction::Fit { hose: Hose::High, port: Some(Port::Low) })
        .bay(BayAction::Knob { hose: Hose::Low, open: true })
        .bay(BayAction::Knob { hose: Hose::High, open: true })
        .wait(60.0);
    let face = h.0.bay_face(false).unwrap();
    let (blue, red) = (face.hoses[0].p_pa, face.hoses[1].p_pa);
    assert!(blue > red + 3e5, "the blue hose holds {blue} Pa, the red one {red}");
}

/// A diagnosis handed in after the loop was opened is still weighed against the car as it came.
#[test]
fn the_debrief_remembers_the_car_as_it_came() {
    use pintle::bench::Diagnosis;
    use pintle::fault::FaultId;
    use pintle::instrument::Probe;
    let mut h = Hands::at("faults: [(id: leak_hose, severity: 400), (id: undercharge, severity: 0.5)]");
    h.bay(BayAction::Identify).fit_both().wait(60.0);
    h.act(Action::Set(Change::EngineOn(true))).wait(300.0);
    h.act(Action::Read(Probe::LowGauge))
        .act(Action::Read(Probe::HighGauge))
        .act(Action::Set(Change::EngineOn(false)));
    h.bay(BayAction::Centre(CentreEnd::RecoveryMachine)).wait(4.0);
    h.hand_valves(100.0, 100.0).bay(BayAction::Machine(true)).wait(900.0);
    h.act(Action::Repair(RepairId::ReplaceDischargeLine)).wait(60.0);
    assert!(!h.0.faults().has(FaultId::LeakHose) && !h.0.faults().has(FaultId::Undercharge));
    let cause = Some(FaultId::LeakHose);
    h.act(Action::Diagnose(Diagnosis { cause, evidence: vec![0], confidence: 0.8, because: "hiss".into() }));
    let debrief = pintle::lesson::review(&h.0, &Effort::default()).unwrap().unwrap();
    assert!(debrief.truth.iter().any(|f| f.id == FaultId::LeakHose), "{:?}", debrief.truth);
    assert!(debrief.verdict_right && debrief.lines.len() == 2);
    assert!(debrief.bay.iter().any(|line| line.contains("g ")), "{:?}", debrief.bay);
}

/// What a step of the station's program could not do ends the program: nothing is pumped out of a charged loop, nothing is
/// pressed into a full cylinder.
#[test]
fn the_station_gives_up_rather_than_go_on() {
    let program = |h: &mut Hands, steps: Vec<StationStep>| {
        h.bay(BayAction::Identify).fit_both().wait(30.0);
        h.bay(BayAction::Station(steps)).wait(30.0);
        let station = h.0.bay().unwrap().station.clone().expect("it tells what came of it");
        assert!(
            station.step().is_none() && station.done.len() == 1 && station.done[0].gave_up,
            "{station:?}"
        );
        assert!(h.loop_kg() > 0.7 * FULL_KG, "{}", h.loop_kg());
    };
    program(&mut Hands::at(""), vec![StationStep::EvacuateMin(20.0), StationStep::ChargeG(349.0)]);
    let mut full = scenario("");
    full.bay.as_mut().expect("a bay").recovery_kg = Some(21.5);
    let mut h = Hands(Bench::new(&full, 1).expect("a bench"));
    h.bay(BayAction::Protect(true));
    program(&mut h, vec![StationStep::Recover, StationStep::EvacuateMin(20.0)]);
}

/// A loop left open on a cold day indexed volumes before its first step: not even a step of no length converges there.
#[test]
fn a_loop_left_open_in_the_cold_can_be_looked_at() {
    for rig in Rig::ids() {
        for ambient_c in [-20.0, 0.0, 1.5, 10.0] {
            let mut scenario = on_rig(rig, "");
            scenario.start.ambient_c = ambient_c;
            scenario.bay = Some(BaySetup { left_open: true, ..BaySetup::default() });
            let mut bench = Bench::new(&scenario, 1).unwrap();
            let seen = bench.snapshot(true);
            assert!(seen.inside.unwrap().points.iter().all(|p| p.t_k.is_finite()), "{rig} at {ambient_c}");
            bench.advance(200);
            assert!(bench.instruments().low_gauge_pa.is_finite(), "{rig} at {ambient_c}");
            println!("{rig} at {ambient_c}: {} troubles", bench.troubles().len());
        }
    }
}
