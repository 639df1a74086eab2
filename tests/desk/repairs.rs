//! The list of repairs at the bench: found by letters, caution before the act, and what it came to in the debrief.

use crate::sample::{Desk, World, world_of};
use crate::shapes;
use egui_kittest::kittest::Queryable;
use pintle::bench::{Action, Bench};
use pintle::desk::{Command, demo, panels};
use pintle::fault::RepairId;
use pintle::knobs::Change;
use pintle::rig::Rig;
use pintle::scenario::{Mode, Scenario};

const RIGHT: egui::Vec2 = egui::vec2(296.0, 704.0);

fn world(rig: &str, done: &[RepairId]) -> World {
    let scenario = Scenario { rig: rig.into(), mode: Mode::Practice, ..demo::scenario() };
    let mut bench = Bench::new(&scenario, 1).expect("opens");
    bench.apply(Action::Set(Change::EngineOn(false))).expect("is allowed");
    for &id in done {
        bench.apply(Action::Repair(id)).expect("is allowed");
    }
    let mut world = world_of(&bench);
    world.rig = Rig::load(rig).expect("is shipped");
    world
}

#[test]
fn a_repair_is_found_by_letters_and_done_after_its_caution() {
    let mut desk = Desk::new(panels::work_ui, RIGHT, world("compact_car", &[]));
    desk.click("Repair");
    desk.harness.get_by_label("Find a repair").focus();
    desk.harness.run_steps(2);
    desk.harness.get_by_label("Find a repair").type_text("condenser replace");
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label_contains("Top up").is_none());
    desk.click("Replace the condenser, evacuate, charge by weight");
    desk.harness.run_steps(30);
    let caution = RepairId::ReplaceCondenser.info().caution;
    let texts = shapes::texts(desk.harness.output()).join(" ");
    let texts = texts.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(texts.contains(&caution[1..]), "no caution in {texts}");
    assert!(desk.taken().is_empty(), "nothing is done before the caution is read");
    desk.click("Carry it out");
    assert_eq!(desk.taken(), [Command::Act(Action::Repair(RepairId::ReplaceCondenser))]);
    desk.click("Back to the work order");
    assert!(desk.harness.query_by_label("Name the cause").is_some());
}

#[test]
fn a_rig_offers_only_repairs_of_what_it_has_and_everything_fits() {
    for rig in Rig::ids() {
        let done = [RepairId::ZeroGauges, RepairId::SeatClamp];
        let mut desk = Desk::new(panels::work_ui, RIGHT, world(rig, &done));
        assert_eq!(shapes::problems(desk.harness.output(), true, false), Vec::<String>::new(), "{rig}");
        desk.click("Repair");
        desk.harness.remove_cursor();
        desk.harness.run_steps(3);
        assert_eq!(shapes::problems(desk.harness.output(), true, false), Vec::<String>::new(), "{rig}");
        assert!(desk.harness.query_by_label_contains("0:00  Set both gauges to zero").is_some(), "{rig}");
        let orifice = desk.harness.query_by_label_contains("Put in the proper orifice tube").is_some();
        assert_eq!(orifice, RepairId::ReplaceOrificeTube.applies_to(&Rig::load(rig).expect("is shipped")));
    }
}
