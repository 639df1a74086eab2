use super::super::{FaultId, FaultSet, RepairId, effects};
use super::*;
use crate::fault::Fault;

#[test]
fn catalogue_is_in_order_and_complete() {
    for (index, id) in FaultId::ALL.into_iter().enumerate() {
        let info = id.info();
        assert_eq!(id as usize, index);
        assert_eq!(info.id, id, "order of the files and of the names");
        assert_eq!(FaultId::by_key(info.key), Some(id));
        assert_eq!(serde_json::to_string(&id).unwrap(), format!("\"{}\"", info.key));
        assert!(id.accepts(id.default_severity()), "{}", info.key);
        assert!(!id.accepts(f64::NAN));
        assert!(info.changes.ends_with('.') && !info.name.is_empty(), "{}", info.key);
        assert!(info.base_rate.weight > 0.0 && !info.base_rate.source.is_empty(), "{}", info.key);
        assert!(!info.cures.is_empty() && !info.futile.is_empty(), "{}", info.key);
        for futile in info.futile {
            assert!(!futile.consequence.is_empty());
            assert!(!info.cures.contains(&futile.repair), "{}: {:?}", info.key, futile.repair);
        }
        if let Some(s) = info.severity {
            assert!(s.min < s.max && !s.meaning.is_empty(), "{}", info.key);
        }
    }
}

#[test]
fn repairs_are_complete_and_each_cures_something() {
    for (index, id) in RepairId::ALL.into_iter().enumerate() {
        let info = id.info();
        assert_eq!((id as usize, info.id), (index, id));
        assert_eq!(RepairId::by_key(info.key), Some(id));
        assert_eq!(serde_json::to_string(&id).unwrap(), format!("\"{}\"", info.key));
        assert!(info.minutes > 0.0 && info.cost > 0.0 && !info.words.is_empty());
        assert!(id == RepairId::TopUp || id.cures().count() > 0, "{} cures nothing", info.key);
    }
}

#[test]
fn every_fault_has_a_rig_and_base_rates_sum_to_one() {
    let rigs: Vec<Rig> = Rig::ids().map(|id| Rig::load(id).unwrap()).collect();
    for id in FaultId::ALL {
        assert!(rigs.iter().any(|rig| id.info().applies_to(rig)), "no rig has {}", id.info().key);
    }
    for rig in &rigs {
        let rates = base_rates(rig);
        let total: f64 = rates.iter().map(|(_, rate)| rate).sum();
        assert!((total - 1.0).abs() < 1e-9, "{}: {total}", rig.id);
        assert!(rates.len() > 30, "{} has {} faults", rig.id, rates.len());
    }
}

#[test]
fn rigs_have_the_faults_of_their_parts_alone() {
    let has = |rig: &str, id: FaultId| id.info().applies_to(&Rig::load(rig).unwrap());
    for (id, rigs) in [
        (FaultId::OrificeTubeClogged, &["pickup"][..]),
        (FaultId::TxvStuckOpen, &["compact_car", "sedan", "walk_in_cooler"]),
        (FaultId::ElectronicValveJammed, &["electric_van"]),
        (FaultId::ViscousCouplingWorn, &["pickup"]),
        (FaultId::ExchangerFouled, &["sedan"]),
        (FaultId::ClutchCoilOpen, &["compact_car", "pickup"]),
        (FaultId::StrokeStuckLeast, &["sedan"]),
        (FaultId::StartCapacitorWeak, &["walk_in_cooler"]),
        (FaultId::InterlockOpen, &["electric_van"]),
        (FaultId::BeltSlip, &["compact_car", "pickup", "sedan"]),
        (FaultId::BoxThermostatOff, &["walk_in_cooler"]),
        (FaultId::BlendDoorStuck, &["compact_car", "pickup", "sedan"]),
        (FaultId::NotCharging, &["compact_car", "electric_van", "pickup", "sedan"]),
    ] {
        let mut found: Vec<&str> = Rig::ids().filter(|rig| has(rig, id)).collect();
        found.sort_unstable();
        assert_eq!(found, rigs, "{}", id.info().key);
    }
}

/// Every fault changes something somewhere, and only on rigs that can have it.
#[test]
fn every_fault_has_an_effect_where_it_applies_and_none_elsewhere() {
    for rig in Rig::ids().map(|id| Rig::load(id).unwrap()) {
        let none = effects(&FaultSet::default(), &rig);
        for id in FaultId::ALL {
            let mut set = FaultSet::default();
            set.impose(Fault { id, severity: id.default_severity() });
            let changed = effects(&set, &rig) != none;
            assert_eq!(changed, id.info().applies_to(&rig), "{} on {}", id.info().key, rig.id);
        }
    }
}

#[test]
fn faults_combine() {
    let rig = Rig::load("compact_car").unwrap();
    let with = |faults: &[(FaultId, f64)]| {
        let mut set = FaultSet::default();
        for &(id, severity) in faults {
            set.impose(Fault { id, severity });
        }
        effects(&set, &rig).plant
    };
    let air = with(&[(FaultId::CabinFilterClogged, 0.5), (FaultId::EvaporatorFouled, 0.5)]);
    assert!((air.evaporator_air - 0.25).abs() < 1e-12 && (air.evaporator_film - 0.75).abs() < 1e-12);
    let mass = with(&[(FaultId::Undercharge, 0.3), (FaultId::Overcharge, 0.1), (FaultId::AirInLoop, 2.0)]);
    assert!((mass.charge_share + 0.2).abs() < 1e-12 && (mass.air_kg - 2e-3).abs() < 1e-12);
    let leaks = [(FaultId::LeakHose, 50.0), (FaultId::LeakEvaporator, 200.0)];
    assert_eq!(with(&leaks).hole, with(&leaks[1..]).hole, "the larger hole counts");
    let held = with(&[(FaultId::TxvStuckOpen, 1.0), (FaultId::TxvStuckClosed, 0.0)]);
    assert_eq!(held.metering.held, Some(0.0), "held shut stays shut");
}

/// What code asks a circuit for by name is there on one rig at least.
#[test]
fn named_parts_and_points_stand_in_a_rig() {
    use crate::circuit::{part, point};
    let rigs: Vec<Rig> = Rig::ids().map(|id| Rig::load(id).unwrap()).collect();
    for id in part::ALL {
        assert!(rigs.iter().any(|rig| rig.has_part(id)), "no rig has a part {id}");
    }
    for id in point::ALL {
        assert!(
            rigs.iter().any(|rig| rig.circuit.points.iter().any(|p| p.id == *id)),
            "no rig has a point {id}"
        );
    }
}
