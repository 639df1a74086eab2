//! Whole jobs, and what is to be said when a part of one goes wrong.

use super::order::Step;
use super::*;
use crate::bay::cylinder::FillLimit;
use crate::bay::facts::{NitrogenHold, RecoveryCylinder, Vented};
use crate::bay::{CentreEnd, OilKind, RecordField, StationStep, VesselValve};
use crate::fault::RepairId;
use crate::instrument::Probe;
use crate::plant::Vessel;
use crate::refrigerant::Refrigerant;

fn bay(act: BayAction) -> Action {
    Action::Bay(act)
}

/// A condenser replaced in the trade's order.
fn work() -> Vec<(u64, Action)> {
    let acts = [
        bay(BayAction::Identify),
        Action::Read(Probe::LowGauge),
        Action::Read(Probe::HighGauge),
        bay(BayAction::Centre(CentreEnd::RecoveryMachine)),
        bay(BayAction::Machine(true)),
        Action::Repair(RepairId::ReplaceCondenser),
        bay(BayAction::CloseUp),
        bay(BayAction::RegulatorBar(10.0)),
        bay(BayAction::Pump(true)),
        bay(BayAction::Pump(false)),
        bay(BayAction::Oil { ml: 40.0, kind: OilKind::AsLabelled }),
        bay(BayAction::Valve { vessel: Vessel::Charging, valve: VesselValve::Liquid }),
        Action::Read(Probe::LowGauge),
        Action::Read(Probe::HighGauge),
    ];
    acts.into_iter().enumerate().map(|(i, a)| (1000 * i as u64, a)).collect()
}

fn clean() -> Facts {
    Facts {
        charge_kg: 0.349,
        oil_kg: 0.12,
        recovered_oil_kg: 0.005,
        vacuum: Some(Vacuum { deepest_pa: 50.0, pumped_s: 1800.0, rise: Some((30.0, 900.0)) }),
        oil_added_kg: 0.04,
        ..Facts::condenser_replaced()
    }
}

fn told(truth: &Facts) -> String {
    lines(&work(), truth).join("\n")
}

#[test]
fn a_clean_job_gets_one_good_line() {
    assert_eq!(lines(&work(), &clean()), ["Every step of the trade's order was done, and in its order."]);
    assert!(lines(&[], &Facts::default()).is_empty(), "nothing done, nothing to say");
}

#[test]
fn venting_is_never_silent() {
    let vented = |parts: &[(&str, f64)]| Facts {
        vented: parts
            .iter()
            .map(|(how, kg)| Vented { how: (*how).into(), kg: *kg, by_hand: *how != "the leak" })
            .collect(),
        ..clean()
    };
    let much = told(&vented(&[("the cracked centre hose", 0.06), ("the hoses as they came off", 0.004)]));
    assert!(
        much.contains("You let out 64 g of R-134a: 60 g by the cracked centre hose, 4.0 g by the hoses"),
        "{much}"
    );
    assert!(much.contains("S2: 64 g got out and the extraction was never on"), "{much}");
    let aired: Vec<_> = core::iter::once((0, bay(BayAction::Ventilate(true)))).chain(work()).collect();
    assert!(!lines(&aired, &vented(&[("the leak", 0.06)])).join("\n").contains("S2:"));
    let few = told(&vented(&[("hoses", 0.005)]));
    assert!(few.contains("You let out 5.0 g") && few.contains("cannot help"), "{few}");
    let traces = told(&vented(&[("low-loss fittings", 0.0004)]));
    assert!(traces.contains("no more than traces of R-134a (0.4 g)"), "{traces}");
    let leak = told(&vented(&[("the leak", 0.02)]));
    assert!(leak.contains("Lost besides: 20 g by the leak.") && !leak.contains("You let out"), "{leak}");
}

#[test]
fn every_step_left_out_is_told_with_its_reason() {
    let bare = Facts {
        identified: false,
        recovered_kg: 0.0,
        nitrogen: None,
        vacuum: None,
        oil_added_kg: 0.0,
        ..clean()
    };
    let mended: Vec<_> = work().into_iter().filter(|(_, a)| matches!(a, Action::Repair(_))).collect();
    let told = lines(&mended, &bare);
    let left: Vec<&String> = told.iter().filter(|l| l.starts_with("Left out: ")).collect();
    assert_eq!(left.len(), 8, "{told:?}");
    for step in Step::ALL {
        let named = left.iter().any(|l| l.contains(step.name()));
        assert_eq!(named, !matches!(step, Step::Repair | Step::Charge), "{step:?} {told:?}");
    }
    // A top-up alone owes no vacuum, but a name and two tests.
    let topped = Facts { charged_kg: 0.05, label_charge_kg: 0.349, charge_kg: 0.349, ..Facts::default() };
    let told = lines(&[], &topped);
    assert_eq!(told.iter().filter(|l| l.starts_with("Left out")).count(), 3, "{told:?}");
}

#[test]
fn steps_in_the_wrong_order_are_told() {
    let mut late = work();
    let charge = late.iter().position(|(_, a)| matches!(a, Action::Bay(BayAction::Valve { .. }))).unwrap();
    late[charge].0 = 6500;
    late.sort_by_key(|(tick, _)| *tick);
    let told = lines(&late, &clean()).join("\n");
    assert!(told.contains("Too late: evacuate came after charge by weight; air and water"), "{told}");
    assert!(told.contains("Too late: hold under nitrogen came after charge"), "{told}");
    // A station does everything in one program; none of it is late.
    let program = vec![
        StationStep::Recover,
        StationStep::EvacuateMin(30.0),
        StationStep::HoldMin(10.0),
        StationStep::ChargeG(349.0),
    ];
    let at = |tick, probe| (tick, Action::Read(probe));
    let by_station = [
        at(0, Probe::LowGauge),
        at(0, Probe::HighGauge),
        (1, bay(BayAction::Identify)),
        (2, bay(BayAction::Station(program))),
        at(9, Probe::LowGauge),
        at(9, Probe::HighGauge),
    ];
    let facts = Facts { repair: None, nitrogen: None, oil_added_kg: 0.0, ..clean() };
    assert_eq!(lines(&by_station, &facts), ["Every step of the trade's order was done, and in its order."]);
}

#[test]
fn a_poor_vacuum_and_hold_are_told() {
    let with =
        |deepest_pa, pumped_s, rise| Facts { vacuum: Some(Vacuum { deepest_pa, pumped_s, rise }), ..clean() };
    let short = told(&with(400.0, 300.0, Some((30.0, 900.0))));
    assert!(short.contains("The pump ran 5 min.") && short.contains("400 Pa (3000 microns)"), "{short}");
    assert!(told(&with(50.0, 1800.0, Some((20.0, 60.0)))).contains("You watched the rise for 1 min."));
    assert!(told(&with(50.0, 1800.0, Some((900.0, 900.0)))).contains("It rose by 900 Pa in 15 min."));
    assert!(told(&with(50.0, 1800.0, None)).contains("Left out: watch the vacuum rise"));
    let hold = NitrogenHold { end_pa: 9.5e5, held_s: 300.0, ..clean().nitrogen.unwrap() };
    let told = told(&Facts { nitrogen: Some(hold), ..clean() });
    assert!(told.contains("held for 5 min") && told.contains("fell by 0.50 bar"), "{told}");
}

#[test]
fn topping_up_by_pressure_is_explained() {
    let over = Facts { charge_kg: 0.45, weighed: false, subcooling_k: Some(17.0), ..clean() };
    let told = told(&over);
    assert!(told.contains("101 g too much") && told.contains("never looked at the scale"), "{told}");
    assert!(told.contains("plateau") && told.contains("subcooling rises first"), "{told}");
    assert!(told.contains("Subcooling now is 17 K"), "{told}");
    let pickup = lines(&work(), &Facts { receiver: false, ..over.clone() }).join("\n");
    assert!(pickup.contains("accumulator") && !pickup.contains("receiver"), "{pickup}");
    let weighed = lines(&work(), &Facts { weighed: true, ..over.clone() }).join("\n");
    assert!(weighed.contains("though you weighed") && !weighed.contains("plateau"), "{weighed}");
    let short = lines(&work(), &Facts { charge_kg: 0.25, ..over.clone() }).join("\n");
    assert!(short.contains("99 g are missing in the loop. Weigh"), "{short}");
    let hoses = Facts { charge_kg: 0.25, hoses_kg: 0.09, ..over.clone() };
    assert!(lines(&work(), &hoses).join("\n").contains("90 g stand in the hoses"));
    // Recovered again at the end, as a lesson may: the scale tells how much it was.
    let emptied = Facts { charge_kg: 0.003, recovered_kg: 0.42, ..over.clone() };
    let mut again = work();
    again.push((99_000, bay(BayAction::Machine(true))));
    let again = lines(&again, &emptied).join("\n");
    assert!(
        again.contains("74 g too much") && again.contains("plateau") && !again.contains("Subcooling now"),
        "{again}"
    );
    let close = lines(&work(), &Facts { charge_kg: 0.36, ..over }).join("\n");
    assert!(!close.contains("too much"), "{close}");
}

#[test]
fn mistakes_dangers_and_oil_are_told() {
    let limit = FillLimit::of_recovery(Refrigerant::r134a());
    let bad = Facts {
        mistakes: vec![(BayMistake::LiquidIntoRunning, 2000)],
        battered: 0.3,
        stopped: vec![(BayDanger::CompressedAir, 400)],
        cylinder: Some(RecoveryCylinder { gross_kg: 34.0, limit }),
        oil_added_kg: 0.0097,
        oil_kg: 0.09,
        ..clean()
    };
    let told = lines(&work(), &bad);
    assert!(told[0].starts_with("S5: stopped at 20 s: compressed air"), "{told:?}");
    let told = told.join("\n");
    assert!(
        told.contains("At 100 s: liquid went into the low side") && told.contains("30 % of what breaks"),
        "{told}"
    );
    assert!(told.contains("S10: the recovery cylinder weighs 34.0 kg: too full. 22.0 L x 0.8"), "{told}");
    assert!(told.contains("You put 10 mL of oil in. For this part 30 to 45 mL"), "{told}");
    assert!(told.contains("Too little oil"), "{told}");
}

#[test]
fn the_record_is_summed_up() {
    let findings = [
        Finding { field: RecordField::Refrigerant, mark: Mark::Right },
        Finding { field: RecordField::ChargedG, mark: Mark::Missing },
    ];
    assert_eq!(record_lines(&findings), ["Work record: 1 of 2 lines in order.", "Charged: nothing written."]);
}
