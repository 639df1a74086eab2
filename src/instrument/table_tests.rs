//! The table walked through: every instrument on every place of every rig says all that is asked of it.

use std::collections::BTreeSet;

use super::*;
use crate::rig::Rig;
use crate::units::Units;

fn everywhere() -> Vec<Probe> {
    let at =
        |circuit: &CircuitSpec| Tool::VARIANTS.iter().flat_map(|t| t.probes(circuit)).collect::<Vec<_>>();
    let all: BTreeSet<Probe> = Rig::ids().flat_map(|id| at(&Rig::load(id).expect("loads").circuit)).collect();
    all.into_iter().collect()
}

#[test]
fn every_instrument_of_every_rig_says_what_it_is() {
    let all = everywhere();
    for kind in Probe::kinds() {
        let id = kind.facts().id;
        assert!(all.iter().any(|probe| probe.facts().id == id), "{id} is found on some rig");
    }
    for probe in all {
        let facts = probe.facts();
        assert!(facts.words.ends_with('.') && facts.settles_s >= 1.0, "{}", facts.id);
        assert!(![probe.name(), probe.short(), probe.choice(), probe.silent()].contains(&String::new()));
        let written = probe.notation();
        assert_eq!(Probe::parse(&written).as_ref(), Ok(&probe), "{written}");
        assert_eq!(probe.words().len(), facts.args.len(), "{}", facts.id);
        let (low, high) = probe.ask(|i| i.range());
        assert!(low < high, "{written}");
        for value in [low, 0.5 * (low + high), high].into_iter().filter(|v| v.is_finite()).chain([0.0, 290.0])
        {
            assert!(probe.limit(value) >= 0.0 && probe.spread(value, value) > 0.0, "{written} at {value}");
            for say in [Say::read(Units::Psi, None), Say::read(Units::Bar, Some(0.1)), Say::listed(Some(0.1))]
            {
                assert!(!probe.text(value, &say).is_empty(), "{written}");
            }
        }
    }
}

#[test]
fn names_of_files_and_numbers_of_noise_are_each_one_s_own() {
    let (mut ids, mut notations, mut sources) = (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
    for kind in Probe::kinds() {
        let facts = kind.facts();
        let read: Probe = ron::from_str(facts.example).expect(facts.example);
        assert_eq!(read.facts().id, facts.id);
        let stored = ron::to_string(&read).unwrap();
        assert_eq!(stored.split('(').next(), Some(facts.id), "its id is the name that files give it");
        assert!(ids.insert(facts.id) && notations.insert(facts.notation), "{}", facts.id);
        assert!(facts.sources.iter().all(|source| source.0 != 5 && sources.insert(*source)), "{}", facts.id);
        assert_eq!(kind.tool(), read.tool());
    }
}

#[test]
fn values_carry_their_units() {
    let vacuum = |pa| Probe::VacuumGauge.text(pa, &Say::read(Units::Bar, None));
    // 500 micron are 66.66 Pa.
    assert_eq!(vacuum(66.661), "66.7 Pa (500 micron)");
    assert_eq!(
        (vacuum(crate::instrument::OVER), vacuum(f64::NAN)),
        ("over range".into(), "over range".into())
    );
    let psi = |probe: Probe, value| probe.text(value, &Say::read(Units::Psi, None));
    assert_eq!(psi(Probe::WetBulb(AirPlace::Vent), 283.15), "50.0 °F");
    assert_eq!(psi(Probe::OilGraduation, 30e-6), "30 mL");
    let detector = Probe::LeakDetector { place: SearchPlace::ShaftSeal, scale: DetectorScale::G7 };
    assert_eq!(detector.name(), "leak detector at 7 g/year, shaft seal");
    let words = [0.0, 0.3, 0.6, 1.0, f64::NAN].map(|v| psi(detector.clone(), v));
    assert_eq!(words, ["silent", "ticks faster", "alarm", "full alarm", "silent"]);
    assert_eq!(Probe::LowGauge.text(2.2e5, &Say::listed(Some(0.17e5))), "2.20 ± 0.17 bar");
}
