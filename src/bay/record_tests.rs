//! The record of a whole job, and every way to write it wrong.

use super::*;
use crate::bay::chart::Performance;
use crate::bay::cylinder::FillLimit;
use crate::bay::facts::{RecoveryCylinder, Vacuum};
use crate::refrigerant::Refrigerant;
use crate::units::ZERO_C_K;
use RecordField as F;
use RecordValue::{Number, Words};

fn performance(low_bar: f64, high_bar: f64, vent_c: f64) -> Performance {
    Performance {
        low_pa: Some((low_bar * 1e5, 16_700.0)),
        high_pa: Some((high_bar * 1e5, 54_700.0)),
        vent_k: Some((vent_c + ZERO_C_K, 0.95)),
    }
}

/// A condenser that leaked and was replaced on a car with 349 g of R-134a.
fn job() -> Facts {
    let limit = FillLimit::of_recovery(Refrigerant::r134a());
    Facts {
        before: performance(0.8, 9.9, 18.0),
        after: performance(2.0, 15.2, 11.0),
        recovered_oil_kg: 0.0097,
        cylinder: Some(RecoveryCylinder { gross_kg: 11.7, limit }),
        vacuum: Some(Vacuum { deepest_pa: 60.0, pumped_s: 1800.0, rise: Some((80.0, 600.0)) }),
        oil_added_kg: 0.0388,
        ..Facts::condenser_replaced()
    }
}

fn right() -> Vec<(RecordField, RecordValue)> {
    vec![
        (F::Refrigerant, Words("r134a".into())),
        (F::RecoveredG, Number(205.0)),
        (F::OilRecoveredMl, Number(10.0)),
        (F::CylinderLabel, Words("Recovered R-134a, 320 g, 25 Nov".into())),
        (F::PartReplaced, Words("Condenser".into())),
        (F::LeakPlace, Words("at the condenser, lower joint".into())),
        (F::NitrogenBar, Number(10.2)),
        (F::NitrogenHeldMin, Number(15.0)),
        (F::NitrogenChangeBar, Number(0.0)),
        (F::VacuumPa, Number(67.0)),
        (F::PumpedMin, Number(30.0)),
        (F::RisePa, Number(85.0)),
        (F::OilAddedMl, Number(40.0)),
        (F::ChargedG, Number(350.0)),
        (F::LowBeforeBar, Number(0.8)),
        (F::HighBeforeBar, Number(10.0)),
        (F::VentBeforeC, Number(18.2)),
        (F::LowAfterBar, Number(2.1)),
        (F::HighAfterBar, Number(15.0)),
        (F::VentAfterC, Number(11.0)),
    ]
}

fn one(field: RecordField, value: RecordValue) -> Mark {
    let found = check(&[(field, value)], &job());
    found.into_iter().find(|f| f.field == field).unwrap().mark
}
fn cannot(mark: &Mark, part: &str) {
    assert!(matches!(mark, Mark::CannotBe(why) if why.contains(part)), "{mark:?} should say {part}");
}

#[test]
fn the_record_of_a_whole_job_asks_for_every_line_and_takes_the_right_ones() {
    assert_eq!(asks(&job()), F::ALL);
    for finding in check(&right(), &job()) {
        assert!(finding.right(), "{finding}");
    }
    let blank = check(&[], &job());
    assert!(blank.len() == F::ALL.len() && blank.iter().all(|f| f.mark == Mark::Missing));
}

#[test]
fn a_look_alone_asks_for_little() {
    let looked = Facts { refrigerant: "R-134a".into(), ..Facts::default() };
    assert_eq!(asks(&looked), [F::Refrigerant]);
    assert_eq!(check(&[], &looked)[0].mark, Mark::NotDone("no sample went to the identifier"));
}

#[test]
fn other_units_are_named() {
    cannot(&one(F::RecoveredG, Number(0.44)), "pounds");
    cannot(&one(F::ChargedG, Number(12.3)), "ounces");
    cannot(&one(F::ChargedG, Number(0.35)), "kilograms");
    cannot(&one(F::LowAfterBar, Number(3.01)), "absolute");
    cannot(&one(F::HighAfterBar, Number(220.0)), "psi");
    cannot(&one(F::HighAfterBar, Number(1520.0)), "kPa");
    cannot(&one(F::VacuumPa, Number(450.0)), "microns");
    cannot(&one(F::VacuumPa, Number(0.6)), "millibars");
    cannot(&one(F::VentAfterC, Number(52.0)), "Fahrenheit");
    cannot(&one(F::PumpedMin, Number(0.5)), "hours");
    cannot(&one(F::NitrogenHeldMin, Number(900.0)), "seconds");
}

#[test]
fn what_cannot_be_is_told() {
    cannot(&one(F::RecoveredG, Number(-3.0)), "less than nothing");
    cannot(&one(F::VacuumPa, Number(-101_000.0)), "never below zero");
    cannot(&one(F::LowAfterBar, Number(-1.2)), "emptier");
    cannot(&one(F::RisePa, Number(f64::NAN)), "no number");
    cannot(&one(F::ChargedG, Words("plenty".into())), "a number in g");
    cannot(&one(F::CylinderLabel, Words("recovered R-1234yf".into())), "no R-1234yf");
    let dry = Facts { vacuum: None, ..job() };
    let found = check(&[(F::VacuumPa, Number(60.0))], &dry);
    let vacuum = found.iter().find(|f| f.field == F::VacuumPa).unwrap();
    cannot(&vacuum.mark, "not evacuated");
    let pumped = found.iter().find(|f| f.field == F::PumpedMin).unwrap();
    assert_eq!(pumped.mark, Mark::NotDone("it was not evacuated"), "an opened loop asks for it");
}

#[test]
fn wrong_amounts_and_words_are_told() {
    assert_eq!(one(F::ChargedG, Number(380.0)), Mark::Off(31.0));
    assert!(matches!(one(F::OilAddedMl, Number(20.0)), Mark::Off(by) if (by + 20.0).abs() < 0.01));
    let off = Finding { field: F::ChargedG, mark: Mark::Off(-31.0) };
    assert_eq!(off.to_string(), "Charged: 31 g too little.");
    assert_eq!(one(F::ChargedG, Words(" 352 ".into())), Mark::Right);
    assert_eq!(one(F::ChargedG, Words("  ".into())), Mark::Missing);
    assert!(
        matches!(one(F::LeakPlace, Words("shaft seal".into())), Mark::Wrong(w) if w.contains("condenser"))
    );
    assert!(matches!(one(F::PartReplaced, Words("evaporator".into())), Mark::Wrong(_)));
    assert!(
        matches!(one(F::CylinderLabel, Words("R-134a".into())), Mark::Wrong(w) if w.contains("recovered"))
    );
    assert!(
        matches!(one(F::Refrigerant, Words("32 g of gas".into())), Mark::Wrong(_)),
        "32 is a weight here"
    );
    cannot(&one(F::Refrigerant, Words("R-32".into())), "no R-32");
}

#[test]
fn the_last_of_two_entries_counts() {
    let twice = [(F::ChargedG, Number(10.0)), (F::ChargedG, Number(349.0))];
    let found = check(&twice, &job());
    assert!(found.iter().find(|f| f.field == F::ChargedG).unwrap().right());
}
