//! The page of the rig at its real size, for every rig: nothing runs off, no words overlap, leads are placed by mouse and
//! by keyboard.

use crate::sample::{Desk, World, world_of};
use crate::shapes;
use egui_kittest::kittest::{NodeT, Queryable, by};
use pintle::bench::{Action, Bench};
use pintle::desk::{Command, demo, rig_page};
use pintle::instrument::{MeterMode, Probe, Tool};
use pintle::rig::Rig;
use pintle::scenario::Scenario;

const PAGE: egui::Vec2 = egui::vec2(1318.0, 692.0);
const SMALLEST: egui::Vec2 = egui::vec2(1232.0, 644.0);
const TABS: [&str; 4] = ["Service label", "Where things sit", "Wiring", "What works on what"];

/// A rig after half a minute, with its inside open or shut.
fn world(id: &str, open: bool) -> World {
    let scenario = Scenario { rig: id.into(), ..demo::scenario() };
    let mut bench = Bench::new(&scenario, 1).expect("opens");
    bench.advance(600);
    let mut world = world_of(&bench);
    world.rig = Rig::load(id).expect("is shipped");
    world.snapshot = bench.snapshot(open);
    if open {
        let circuit = bench.circuit();
        world.amps = circuit.parts().iter().map(|p| circuit.current(&p.id).unwrap_or(0.0)).collect();
    }
    world
}

#[test]
fn every_tab_of_every_rig_fits_and_no_words_overlap() {
    let mut problems = Vec::new();
    for id in Rig::ids() {
        for open in [true, false] {
            let world = world(id, open);
            for size in [PAGE, SMALLEST] {
                for tab in TABS {
                    let mut desk = Desk::new(rig_page::rig_ui, size, world.clone());
                    desk.click(tab);
                    desk.harness.remove_cursor();
                    desk.harness.run_steps(3);
                    let found = shapes::problems(desk.harness.output(), true, false);
                    problems.extend(
                        found.into_iter().map(|p| format!("{id}, {tab}, open {open}, {size:?}: {p}")),
                    );
                }
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn a_lead_is_put_on_a_point_by_mouse_in_the_drawing_and_by_keyboard_in_the_list() {
    let mut world = world("compact_car", false);
    world.scenario.tools = vec![Tool::Meter];
    let mut desk = Desk::new(rig_page::rig_ui, PAGE, world);
    desk.click("Wiring");
    desk.click("Point: Clutch coil plus");
    let volts = |id: &str| Probe::Meter { mode: MeterMode::VoltsDc, red: id.into(), black: "ground".into() };
    let place = |id: &str| Command::Act(Action::Place(volts(id)));
    assert_eq!(desk.taken(), [place("clutch_coil_plus")]);
    desk.harness.get_by_label("Battery plus").focus();
    desk.harness.run_steps(2);
    desk.harness.key_press(egui::Key::Enter);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [place("battery_plus")]);
    let probe = volts("battery_plus");
    desk.harness.state_mut().world.snapshot.instruments.placed.push((probe.clone(), 14.07));
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label("Meter shows 14.070 V").is_some());
    desk.click("Write it down");
    assert_eq!(desk.taken(), [Command::Act(Action::Read(probe))]);
}

#[test]
fn two_leads_a_jumper_and_a_clamp_go_where_they_are_put() {
    let mut world = world("compact_car", false);
    world.scenario.tools = Tool::ALL.into();
    let mut desk = Desk::new(rig_page::rig_ui, PAGE, world);
    desk.click("Wiring");
    let meter = |mode, red: &str, black: &str| {
        Command::Act(Action::Place(Probe::Meter { mode, red: red.into(), black: black.into() }))
    };
    desk.click("Point: Clutch coil plus");
    assert_eq!(desk.taken(), [meter(MeterMode::VoltsDc, "clutch_coil_plus", "ground")]);
    desk.click("Black: body");
    desk.click("Point: Clutch coil minus");
    assert_eq!(desk.taken(), [meter(MeterMode::VoltsDc, "clutch_coil_plus", "clutch_coil_minus")]);
    desk.click("ohm");
    assert_eq!(desk.taken(), [meter(MeterMode::Ohm, "clutch_coil_plus", "clutch_coil_minus")]);
    desk.click("Jumper lead");
    desk.click("Point: Fan relay 30, supply");
    desk.click("Point: Fan relay 87, load");
    assert!(desk.taken().is_empty(), "a jumper waits behind its cautions");
    assert!(desk.harness.query_by_label_contains("may start without warning").is_some());
    desk.click("Do it, hands clear");
    let ends = ("fan_relay_30".to_owned(), "fan_relay_87".to_owned());
    assert_eq!(desk.taken(), [Command::Act(Action::JumperBetween(Some(ends)))]);
    desk.click("Clamp ammeter");
    let fan = desk
        .harness
        .state()
        .world
        .rig
        .circuit
        .parts
        .iter()
        .find(|p| p.id == "fan_motor")
        .map(|p| p.name.clone());
    desk.harness.get_by_label_contains(&fan.expect("is there")).click();
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::Act(Action::Place(Probe::Clamp("fan_motor".into())))]);
}

#[test]
fn isolating_waits_behind_its_danger() {
    for (id, toggle, words) in [
        ("electric_van", "Isolate traction voltage and lock", "Traction voltage stands behind"),
        ("walk_in_cooler", "Isolate mains and lock", "Mains stand in this panel"),
    ] {
        let mut desk = Desk::new(rig_page::rig_ui, PAGE, world(id, false));
        desk.click("Wiring");
        desk.click("Hands");
        desk.click(toggle);
        assert!(desk.taken().is_empty());
        let card = desk.harness.get_by_label_contains(words);
        assert!(card.value().is_some_and(|v| v.starts_with("DANGER")), "{id}");
        desk.click("Do it, hands clear");
        let taken = desk.taken();
        assert!(matches!(taken.as_slice(), [Command::Act(Action::Isolate(_, true))]), "{taken:?}");
    }
}

#[test]
fn every_tool_in_hand_fits_beside_the_wiring() {
    let mut problems = Vec::new();
    for id in ["compact_car", "electric_van", "walk_in_cooler"] {
        let mut world = world(id, false);
        world.scenario.tools = Tool::ALL.into();
        for hold in ["Multimeter", "Test lamp", "Clamp ammeter", "Jumper lead", "Reader", "Hands"] {
            let mut desk = Desk::new(rig_page::rig_ui, SMALLEST, world.clone());
            desk.click("Wiring");
            desk.click(hold);
            desk.harness.remove_cursor();
            desk.harness.run_steps(3);
            let found = shapes::problems(desk.harness.output(), false, false);
            problems.extend(found.into_iter().map(|p| format!("{id}, {hold}: {p}")));
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn wires_say_nothing_until_measured_unless_the_inside_is_open() {
    let volts = |open: bool| {
        let mut desk = Desk::new(rig_page::rig_ui, PAGE, world("compact_car", open));
        desk.click("Wiring");
        let texts = shapes::texts(desk.harness.output());
        texts.iter().filter(|t| t.ends_with(" V") && t.contains("1")).count()
    };
    assert_eq!(volts(false), 0);
    assert!(volts(true) > 10, "only {} volts on the drawing", volts(true));
}

#[test]
fn every_part_point_and_mark_has_a_name_and_the_keyboard_reaches_it() {
    for id in Rig::ids() {
        let rig = Rig::load(id).expect("is shipped");
        let mut desk = Desk::new(rig_page::rig_ui, PAGE, world(id, false));
        for tab in TABS {
            desk.click(tab);
            desk.harness.run_steps(2);
            let focusable = |n: &egui_kittest::kittest::AccessKitNode<'_>| {
                n.data().supports_action(egui::accesskit::Action::Focus)
            };
            let nodes = desk.harness.query_all(by().predicate(focusable));
            let labels: Vec<String> = nodes.map(|n| n.accesskit_node().label().unwrap_or_default()).collect();
            assert!(labels.iter().all(|l| !l.trim().is_empty()), "{id}, {tab}: a control without a name");
            match tab {
                "Wiring" => {
                    let points = labels.iter().filter(|l| l.starts_with("Point: ")).count();
                    assert_eq!(points, rig.circuit.points.len(), "{id}");
                }
                "Where things sit" => {
                    let marks = labels.iter().filter(|l| l.starts_with("Mark ")).count();
                    assert_eq!(marks, rig.pictures.places.len(), "{id}");
                }
                _ => {}
            }
        }
    }
}

#[test]
fn a_label_says_what_burns_and_what_kills() {
    for (id, words) in [
        ("sedan", "Mildly flammable"),
        ("electric_van", "DANGER: traction voltage"),
        ("walk_in_cooler", "DANGER: mains"),
        ("pickup", "Pickup"),
    ] {
        let mut desk = Desk::new(rig_page::rig_ui, PAGE, world(id, false));
        desk.click("Service label");
        let texts = shapes::texts(desk.harness.output());
        assert!(texts.iter().any(|t| t.contains(words)), "{id}: no “{words}” in {texts:?}");
        let plant = Rig::load(id).expect("is shipped").plant;
        for kg in [plant.full_charge_kg, plant.oil.full_kg] {
            let grams = format!("{:.0} g", kg * 1e3);
            assert!(texts.contains(&grams), "{id}: no {grams} in {texts:?}");
        }
    }
}
