//! The hash of the state: everything that acts on what comes next, and everything a learner has written or taken. A [`Bench`]
//! is serialised for it as it stands, so a new field is in it by itself; fields that are left out say why beside them.

use super::machine::Bench;
use crate::fingerprint::{FingerprintError, fingerprint};

impl Bench {
    /// Hash of the committed state: equal records give equal hashes, at any frame rate, on any machine.
    ///
    /// # Errors
    /// Something in the state cannot be written down.
    pub fn state_hash(&self) -> Result<u64, FingerprintError> {
        fingerprint(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bay::{BayAction, BaySetup};
    use crate::bench::{Action, Diagnosis, Standing};
    use crate::circuit::Guard;
    use crate::fault::{FaultId, Group, Recurs, RepairId};
    use crate::instrument::{AirPlace, MeterRange, PipePlace, Probe, Tool};
    use crate::knobs::Change;
    use crate::scenario::{Scenario, load};

    /// All that is in a bench but the journal, fields that the hash leaves out included.
    fn all_of(bench: &Bench) -> String {
        let mut bench = bench.clone();
        bench.journal.clear();
        format!("{bench:?}")
    }

    fn acts() -> Vec<Action> {
        let id = FaultId::Undercharge;
        let clutch = || ("clutch_coil_plus".to_owned(), "ground".to_owned());
        let mut acts = vec![
            Action::Set(Change::EngineOn(false)),
            Action::Set(Change::AmbientC(12.5)),
            Action::Set(Change::EngineRpm(1234.0)),
            Action::Set(Change::BlowerPct(12.0)),
            Action::Set(Change::Recirculate(false)),
            Action::Hoses(false),
            Action::Hoses(true),
            Action::ManifoldLowPct(3.0),
            Action::ManifoldHighPct(3.0),
            Action::Jumper(Some(crate::bench::Relay::Fan)),
            Action::JumperBetween(Some(clutch())),
            Action::ImposeFault { id, severity: 0.3 },
            Action::RampFault { id, severity: 0.3, over_s: 60.0 },
            Action::ImposeIntermittent {
                id: FaultId::ClutchCoilOpen,
                severity: 1.0,
                recurs: Recurs::WhenHot { above_c: 70.5, place: PipePlace::CompressorOutlet },
            },
            Action::ClearFault { id: FaultId::CondenserFinsBlocked },
            Action::MeterRange(MeterRange::SixHundred),
            Action::MeterRelative(true),
            Action::ClampZero,
            Action::Reader(true),
            Action::ClearCodes,
            Action::Unplug("clutch_plug".into(), true),
            Action::SwapRelays("fan_relay".into(), "clutch_relay".into()),
            Action::RenewFuse("meter".into()),
            Action::Isolate(Guard::Mains, true),
            Action::ProveMeter,
            Action::Note("the fan stands still".into()),
            Action::Hint,
            Action::Suspect { group: Group::CondenserAirflow, standing: Standing::Cleared },
            Action::Diagnose(Diagnosis {
                cause: Some(id),
                evidence: vec![0],
                confidence: 0.7,
                because: "low".into(),
            }),
            Action::Read(Probe::LowGauge),
        ];
        let probes = [
            Probe::Pipe(PipePlace::ValveInlet),
            Probe::Air(AirPlace::Vent),
            Probe::Clamp("clutch_coil".into()),
            Probe::Lamp { tip: "clutch_coil_plus".into(), clip: "ground".into() },
            Probe::Airflow,
        ];
        acts.extend(
            probes.into_iter().flat_map(|probe| [Action::Place(probe.clone()), Action::Remove(probe)]),
        );
        acts.extend(RepairId::ALL.map(Action::Repair));
        acts.extend(
            [
                BayAction::Protect(true),
                BayAction::Ventilate(true),
                BayAction::Identify,
                BayAction::Pump(true),
            ]
            .map(Action::Bay),
        );
        acts
    }

    fn benches() -> Vec<Bench> {
        let explore = Scenario { tools: Tool::ALL.into(), ..load("healthy").unwrap() };
        let hidden = load("weaker_by_the_mile").unwrap();
        let bay = Scenario { bay: Some(BaySetup::default()), ..explore.clone() };
        let cooler = Scenario { rig: "walk_in_cooler".into(), ..explore.clone() };
        let mut benches: Vec<Bench> =
            [explore, hidden, bay, cooler].iter().map(|scenario| Bench::new(scenario, 1).unwrap()).collect();
        for bench in &mut benches {
            bench.advance(30);
            let _not_on_every_rig = bench.apply(Action::Read(Probe::LowGauge));
        }
        benches
    }

    /// A field that changes and that the hash does not see would let two futures share a hash.
    #[test]
    fn no_act_and_no_tick_goes_past_the_hash() {
        let mut seen = 0;
        for bench in benches() {
            let (hash, all) = (bench.state_hash().unwrap(), all_of(&bench));
            for act in acts() {
                let mut done = bench.clone();
                // A refusal for danger is written down, which is a change too.
                let _refused = done.apply(act.clone());
                let changed = all_of(&done) != all;
                assert_eq!(
                    done.state_hash().unwrap() != hash,
                    changed,
                    "{act:?} on {}",
                    bench.scenario().rig
                );
                seen += usize::from(changed);
            }
            let mut later = bench.clone();
            later.advance(1);
            assert_ne!(later.state_hash().unwrap(), hash, "a tick");
        }
        assert!(seen > 100, "only {seen} acts changed anything");
    }

    #[test]
    fn seed_and_scenario_are_in_the_hash() {
        let scenario = load("healthy").unwrap();
        let hash = |scenario: &Scenario, seed| Bench::new(scenario, seed).unwrap().state_hash().unwrap();
        let one = hash(&scenario, 1);
        assert_ne!(one, hash(&scenario, 2));
        assert_ne!(one, hash(&Scenario { hints: vec!["Look at the fan.".into()], ..scenario }, 1));
    }
}
