//! The instruments where the service bay's work is done: weighing, vacuum, dye, nitrogen, a cloud in the shop.

use crate::common::hands::Hands;
use pintle::bay::{BayAction, CentreEnd};
use pintle::bench::{Action, Bench};
use pintle::constants::MICRON_PA;
use pintle::fault::FaultId;
use pintle::instrument::{CLEAR_SIGN, DetectorScale, Probe, SearchPlace, is_over};
use pintle::knobs::Change;
use pintle::plant::Vessel;
use pintle::scenario;

const LEAK: SearchPlace = SearchPlace::DischargeHose;

impl Hands {
    /// The healthy car in a bay, at rest, with goggles on.
    fn new(seed: u64) -> Self {
        let mut scenario = scenario::load("healthy").unwrap();
        scenario.bay = Some(pintle::bay::BaySetup::default());
        scenario.hoses_fitted = false;
        (scenario.start.engine_on, scenario.start.blower_pct) = (false, 0.0);
        let mut hands = Self(Bench::new(&scenario, seed).unwrap());
        hands.bay(BayAction::Protect(true));
        hands
    }
    /// Recover all there is.
    fn recover(&mut self) -> &mut Self {
        self.fit_both().bay(BayAction::Centre(CentreEnd::RecoveryMachine)).wait(5.0);
        self.hand_valves(100.0, 100.0)
            .bay(BayAction::Machine(true))
            .wait(1500.0)
            .bay(BayAction::Machine(false))
    }
    /// Put a tool on, leave it there for a time [s] and read it.
    fn read(&mut self, probe: &Probe, seconds: f64) -> f64 {
        self.act(Action::Place(probe.clone())).wait(seconds).act(Action::Read(probe.clone()));
        self.0.notebook().last().expect("just read").value
    }
}

/// What the scale gains is what the ledger says went into the cylinder, within its 5 g; the oil is in the glass.
#[test]
fn recovered_refrigerant_is_weighed_and_its_oil_measured() {
    for seed in 1..4 {
        let mut h = Hands::new(seed);
        let before = h.read(&Probe::RecoveryScale, 5.0);
        h.recover();
        let gained = h.read(&Probe::RecoveryScale, 5.0) - before;
        let ledger = h.0.ledger().unwrap();
        let true_kg = ledger.vessels_kg[Vessel::Recovery];
        assert!(true_kg > 0.25, "{ledger:?}");
        assert!((gained - true_kg).abs() <= 5e-3, "{gained} against {true_kg}");
        let oil = h.read(&Probe::OilGraduation, 5.0);
        let true_m3 = ledger.oil_vessels_kg / pintle::plant::OIL_KG_M3;
        assert!((oil - true_m3).abs() <= 2e-6 + 1e-9, "{oil} against {true_m3}");
    }
}

/// Over range at first, then down behind the pump with a lag, and within a tenth of the truth when it has settled.
#[test]
fn the_vacuum_gauge_follows_the_pump_down() {
    let mut h = Hands::new(2);
    h.recover().bay(BayAction::Centre(CentreEnd::VacuumPump)).bay(BayAction::Pump(true));
    assert!(is_over(h.read(&Probe::VacuumGauge, 0.5)), "over range to begin with");
    let true_pa = |h: &Hands| h.0.plant().look(h.0.plant().layout().centre, h.0.time_s()).p_pa;
    let mut falling = 0;
    for _ in 0..60 {
        let value = h.read(&Probe::VacuumGauge, 1.0);
        let pa = true_pa(&h);
        if !is_over(value) && pa > 20.0 {
            assert!(value > 0.9 * pa, "it lags behind a falling pressure: {value} {pa}");
            falling += 1;
        }
    }
    assert!(falling > 5, "{falling}");
    let value = h.wait(1800.0).read(&Probe::VacuumGauge, 1.0);
    let pa = true_pa(&h);
    assert!(value < 67.0 && (value - pa).abs() <= 0.1 * pa + MICRON_PA, "{value} {pa}");
}

#[test]
fn dye_shows_a_leak_after_it_was_carried_round_and_stays_after() {
    let mut h = Hands::new(1);
    h.act(Action::ImposeFault { id: FaultId::LeakHose, severity: 5.0 });
    h.wait(600.0);
    assert_eq!(h.read(&Probe::UvLamp(LEAK), 3.0), 0.0, "no dye, no glow");
    h.fit_both().bay(BayAction::DyeMl(7.0));
    h.act(Action::Set(Change::EngineOn(true)))
        .act(Action::Set(Change::AcRequest(true)))
        .act(Action::Set(Change::BlowerPct(100.0)));
    h.wait(1200.0);
    let glow = h.read(&Probe::UvLamp(LEAK), 3.0);
    assert!(glow > CLEAR_SIGN, "{glow}");
    assert_eq!(h.read(&Probe::UvLamp(SearchPlace::CondenserJoint), 3.0), 0.0);
    h.act(Action::ClearFault { id: FaultId::LeakHose }).wait(60.0);
    assert!(h.read(&Probe::UvLamp(LEAK), 3.0) > CLEAR_SIGN, "what is not wiped off still glows");
}

/// Nitrogen blows bubbles as well as refrigerant does, but a detector answers to refrigerant alone; under vacuum there are
/// no bubbles at all.
#[test]
fn nitrogen_blows_bubbles_and_does_not_sound_the_detector() {
    let mut h = Hands::new(1);
    h.act(Action::ImposeFault { id: FaultId::LeakHose, severity: 5.0 });
    h.recover().bay(BayAction::Centre(CentreEnd::VacuumPump)).bay(BayAction::Pump(true)).wait(1200.0);
    assert_eq!(h.read(&Probe::Soap(LEAK), 40.0), 0.0, "none under vacuum");
    h.bay(BayAction::Pump(false)).bay(BayAction::Centre(CentreEnd::Nitrogen));
    h.bay(BayAction::RegulatorBar(10.0)).bay(BayAction::Ventilate(true)).wait(900.0);
    assert!(h.read(&Probe::Soap(LEAK), 40.0) > CLEAR_SIGN);
    let tip = Probe::LeakDetector { place: LEAK, scale: DetectorScale::G14 };
    let alarm = h.read(&tip, 10.0);
    assert!(alarm < CLEAR_SIGN, "{alarm}");
}

/// Refrigerant that hangs in the shop: the tip sounds where there is no leak, and with the doors open it is over soon.
#[test]
fn a_cloud_in_the_shop_sounds_the_detector_and_goes_when_the_doors_open() {
    let mut h = Hands::new(1);
    let place = SearchPlace::ReceiverJoint;
    let tip = Probe::LeakDetector { place, scale: DetectorScale::G7 };
    assert!(h.read(&tip, 5.0) < 0.1);
    // A cracked centre hose lets tens of grams out.
    h.fit_both().bay(BayAction::Centre(CentreEnd::Nothing)).hand_valves(100.0, 100.0).wait(4.0);
    let alarm = h.read(&tip, 0.05);
    let cloud_kg = h.0.bay().unwrap().log.bay_air_kg;
    assert!(alarm > CLEAR_SIGN && cloud_kg > 0.01, "{alarm} with {cloud_kg} kg in the air");
    h.hand_valves(0.0, 0.0).wait(120.0);
    let used = h.read(&tip, 5.0);
    assert!(used < CLEAR_SIGN, "it has taken the cloud for its zero: {used}");
    let shut_kg = h.0.bay().unwrap().log.bay_air_kg;
    h.bay(BayAction::Ventilate(true)).wait(900.0);
    let open_kg = h.0.bay().unwrap().log.bay_air_kg;
    assert!(shut_kg > 0.9 * cloud_kg && open_kg < 0.02 * shut_kg, "{shut_kg} {open_kg}");
}

#[test]
fn the_identifier_needs_a_sample_and_a_minute() {
    let mut h = Hands::new(1);
    h.act(Action::Place(Probe::Identifier)).wait(5.0);
    assert!(h.0.apply(Action::Read(Probe::Identifier)).is_err());
    h.bay(BayAction::Identify).wait(65.0);
    let share = h.read(&Probe::Identifier, 1.0);
    assert!(share > 0.98, "{share}");
}
