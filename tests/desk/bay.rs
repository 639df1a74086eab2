//! The page of the service bay at its real size: nothing runs off, no words overlap, every end, knob and valve is turned by
//! mouse and by keyboard, cautions stand before the act.

use crate::sample::{Desk, World, world_of};
use crate::shapes;
use egui_kittest::kittest::{NodeT, Queryable, by};
use pintle::bay::{
    BayAction, CentreEnd, Hose, RecordField, RecordValue, VesselValve, WorkedUnit, WorkedValue,
};
use pintle::bench::{Action, Bench};
use pintle::desk::{Command, bay_page};
use pintle::fault::RepairId;
use pintle::instrument::{PipePlace, Probe};
use pintle::plant::{Port, Vessel};
use pintle::procedure::{self, Guide, SHIPPED};
use pintle::rig::Rig;
use pintle::scenario::{Scenario, load};

/// What is left of 1366x768 and 1280x720 under the top bar and inside the margins.
const PAGE: egui::Vec2 = egui::vec2(1342.0, 708.0);
const SMALLEST: egui::Vec2 = egui::vec2(1256.0, 660.0);
const TABS: [&str; 8] = ["How-to", "Ledger", "Tools", "Notebook", "Record", "Work out", "Repair", "Chart"];

fn bench(rig: &str) -> Bench {
    let open = load("bay_open_bench").expect("is shipped");
    Bench::new(&Scenario { rig: rig.into(), ..open }, 1).expect("opens")
}

fn act(bench: &mut Bench, action: BayAction) {
    bench.apply(Action::Bay(action)).expect("is allowed");
}

/// The desk on a bench, its inside open or shut.
fn world(bench: &Bench, open: bool) -> World {
    let mut world = world_of(bench);
    world.snapshot = bench.snapshot(open);
    world.ui_state.show_inside = open;
    world
}

/// Everything connected and under way: hoses on, recovery running, a can in its bath, oil and dye in.
fn busy(rig: &str) -> Bench {
    let mut bench = bench(rig);
    act(&mut bench, BayAction::Protect(true));
    act(&mut bench, BayAction::Ventilate(true));
    act(&mut bench, BayAction::Identify);
    for hose in [Hose::Low, Hose::High] {
        act(&mut bench, BayAction::Fit { hose, port: Some(hose.own_port()) });
        act(&mut bench, BayAction::Knob { hose, open: true });
    }
    act(&mut bench, BayAction::Centre(CentreEnd::RecoveryMachine));
    act(&mut bench, BayAction::Machine(true));
    act(&mut bench, BayAction::Valve { vessel: Vessel::Can, valve: VesselValve::Liquid });
    act(&mut bench, BayAction::Warm(true));
    act(&mut bench, BayAction::CoverPct(50.0));
    act(&mut bench, BayAction::Spray(true));
    bench.apply(Action::ManifoldLowPct(100.0)).expect("is allowed");
    bench.apply(Action::ManifoldHighPct(45.0)).expect("is allowed");
    bench.advance(600);
    bench
}

fn bay(action: BayAction) -> Command {
    Command::Act(Action::Bay(action))
}

#[test]
fn the_page_fits_on_every_rig_idle_and_busy_and_no_words_overlap() {
    let mut problems = Vec::new();
    for rig in Rig::ids() {
        for (state, bench) in [("idle", bench(rig)), ("busy", busy(rig))] {
            for open in [true, false] {
                for size in [PAGE, SMALLEST] {
                    let mut desk = Desk::new(bay_page::bay_ui, size, world(&bench, open));
                    desk.harness.remove_cursor();
                    desk.harness.run_steps(3);
                    let found = shapes::problems(desk.harness.output(), true, false);
                    problems.extend(
                        found.into_iter().map(|p| format!("{rig}, {state}, open {open}, {size:?}: {p}")),
                    );
                }
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn hoses_knobs_ends_and_valves_are_turned_by_a_click() {
    let mut bench = bench("compact_car");
    act(&mut bench, BayAction::Protect(true));
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&bench, true));
    desk.click("Low-side hose: on the low-side port");
    assert!(desk.taken().is_empty(), "it waits behind its cautions");
    assert!(desk.harness.query_by_label_contains("freezes skin").is_some());
    desk.click("Fit it");
    assert_eq!(desk.taken(), [bay(BayAction::Fit { hose: Hose::Low, port: Some(Port::Low) })]);

    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&busy("compact_car"), true));
    desk.click("Coupler knob of the low-side hose");
    assert_eq!(desk.taken(), [bay(BayAction::Knob { hose: Hose::Low, open: false })]);
    desk.click("Vacuum pump runs");
    assert_eq!(desk.taken(), [bay(BayAction::Pump(true))]);
    desk.click("Centre hose: on the vacuum pump");
    if let Some(confirm) = desk.harness.query_by_label("Screw it on the vacuum pump") {
        confirm.click();
        desk.harness.run_steps(2);
    }
    assert_eq!(desk.taken(), [bay(BayAction::Centre(CentreEnd::VacuumPump))]);
    desk.click("Supply cylinder: open, upside down, gives liquid");
    let liquid = BayAction::Valve { vessel: Vessel::Supply, valve: VesselValve::Liquid };
    assert_eq!(desk.taken(), [bay(liquid)]);
    desk.click("Low hand valve");
    assert_eq!(desk.taken(), [Command::Act(Action::ManifoldLowPct(0.0))]);
}

#[test]
fn a_refusal_stands_beside_what_was_touched() {
    let mut world = world(&bench("compact_car"), true);
    world.ui_state.notice = Some("The fittings differ.".into());
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world);
    assert!(desk.harness.query_by_label("The fittings differ.").is_some());
    desk.click("OK");
    assert_eq!(desk.taken(), [Command::DismissNotice]);
}

#[test]
fn a_hand_valve_is_turned_with_the_arrow_keys() {
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&busy("compact_car"), true));
    desk.harness.get_by_label("High hand valve").focus();
    desk.harness.run_steps(2);
    assert!(
        shapes::has_ring(desk.harness.output()) || desk.harness.get_by_label("High hand valve").is_focused()
    );
    desk.harness.key_press(egui::Key::ArrowUp);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::Act(Action::ManifoldHighPct(50.0))]);
    desk.harness.key_press(egui::Key::ArrowLeft);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::Act(Action::ManifoldHighPct(40.0))]);
    desk.harness.key_press(egui::Key::Enter);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::Act(Action::ManifoldHighPct(0.0))]);
}

#[test]
fn steel_hides_what_is_in_it_from_who_may_not_look_inside() {
    let bench = busy("compact_car");
    let grams = |open: bool| {
        let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&bench, open));
        desk.click("Page: Ledger");
        let texts = shapes::texts(desk.harness.output());
        texts.iter().filter(|t| t.ends_with(" g")).count()
    };
    // What was let out is always told.
    assert_eq!(grams(false), grams(true) - 10, "{} {}", grams(false), grams(true));
    assert!(grams(true) > 8);
}

#[test]
fn every_control_has_a_name_and_the_keyboard_reaches_it() {
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&busy("sedan"), true));
    desk.harness.run_steps(2);
    let focusable = |n: &egui_kittest::kittest::AccessKitNode<'_>| {
        n.data().supports_action(egui::accesskit::Action::Focus)
    };
    let nodes = desk.harness.query_all(by().predicate(focusable));
    let labels: Vec<String> = nodes.map(|n| n.accesskit_node().label().unwrap_or_default()).collect();
    assert!(labels.len() > 50, "{labels:?}");
    assert!(labels.iter().all(|l| !l.trim().is_empty()), "a control without a name: {labels:?}");
    let mut sorted = labels.clone();
    sorted.sort();
    sorted.dedup();
    assert_eq!(sorted.len(), labels.len(), "two controls of one name: {labels:?}");
}

/// A world that follows a how-to from its first step.
fn following(bench: &Bench, id: &str) -> World {
    let guide = Guide::new(procedure::load(id).expect("is shipped"), bench);
    let parts = guide.parts(bench);
    World { guide: Some((guide, parts)), facts: bench.bay_facts(), ..world(bench, true) }
}

/// Click a tab.
fn open_tab(desk: &mut Desk, tab: &str) {
    desk.click(&format!("Page: {tab}"));
}

#[test]
fn every_tab_fits_beside_the_drawing() {
    let mut problems = Vec::new();
    let mut bench = busy("compact_car");
    bench.apply(Action::Place(Probe::Pipe(PipePlace::EvaporatorOutlet))).expect("is allowed");
    bench.advance(400);
    for probe in [Probe::LowGauge, Probe::HighGauge, Probe::Pipe(PipePlace::EvaporatorOutlet)] {
        bench.apply(Action::Read(probe)).expect("is allowed");
    }
    let work = BayAction::Work {
        what: WorkedValue::Superheat,
        readings: vec![0, 2],
        answer: 7.5,
        unit: WorkedUnit::Kelvin,
    };
    act(&mut bench, work);
    let write = |field, x| BayAction::Write { field, value: RecordValue::Number(x) };
    for (field, x) in [
        (RecordField::LowBeforeBar, 2.4),
        (RecordField::LowAfterBar, 1.7),
        (RecordField::HighBeforeBar, 21.0),
        (RecordField::VentAfterC, 8.0),
    ] {
        act(&mut bench, write(field, x));
    }
    for size in [PAGE, SMALLEST] {
        for id in [None, Some("recover"), Some("evacuate")] {
            for tab in TABS {
                let base = world(&bench, true);
                let world = id.map_or(base, |id| following(&bench, id));
                let mut desk = Desk::new(bay_page::bay_ui, size, world);
                open_tab(&mut desk, tab);
                desk.harness.remove_cursor();
                desk.harness.run_steps(3);
                let found = shapes::problems(desk.harness.output(), tab != "How-to", true);
                problems.extend(found.into_iter().map(|p| format!("{tab}, {id:?}, {size:?}: {p}")));
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn a_how_to_is_followed_and_frames_what_it_is_about() {
    let bench = busy("compact_car");
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&bench, true));
    let first = procedure::load(SHIPPED[0].id).expect("is shipped");
    desk.click(&first.title);
    assert_eq!(desk.taken(), [Command::Follow(Some(SHIPPED[0].id.into()))]);
    for shipped in SHIPPED {
        let procedure = procedure::load(shipped.id).expect("is shipped");
        let mut desk = Desk::new(bay_page::bay_ui, PAGE, following(&bench, shipped.id));
        // The present step glides into sight.
        desk.harness.run_steps(30);
        let texts = shapes::texts(desk.harness.output()).join(" ");
        let said: String = procedure.steps[0].say.split_whitespace().take(3).collect::<Vec<_>>().join(" ");
        assert!(texts.contains(&said), "{}: no “{said}”", shipped.id);
        let word =
            if desk.harness.query_by_label("Next step").is_some() { "Next step" } else { "Go on without it" };
        desk.click(word);
        assert_eq!(desk.taken(), [Command::FollowStep(1)], "{}", shipped.id);
        desk.click("All how-tos");
        assert_eq!(desk.taken(), [Command::Follow(None)], "{}", shipped.id);
    }
}

#[test]
fn a_line_of_the_record_is_written_and_what_is_no_number_stays_in_sight() {
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&busy("compact_car"), true));
    open_tab(&mut desk, "Record");
    let typed = |desk: &mut Desk, text: &str| {
        desk.harness.get_by_label("Recovered").focus();
        desk.harness.run_steps(2);
        desk.harness.get_by_label("Recovered").type_text(text);
        desk.harness.run_steps(2);
        desk.harness.key_press(egui::Key::Enter);
        desk.harness.run_steps(2);
        desk.taken()
    };
    assert!(typed(&mut desk, "lots").is_empty());
    assert!(desk.harness.query_by_label("A number belongs here.").is_some());
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&busy("compact_car"), true));
    open_tab(&mut desk, "Record");
    let write = BayAction::Write { field: RecordField::RecoveredG, value: RecordValue::Number(431.5) };
    assert_eq!(typed(&mut desk, "431,5"), [bay(write)]);
}

#[test]
fn findings_stay_shut_in_practice_until_the_record_is_handed_in() {
    let mut bench = busy("compact_car");
    let seen = |bench: &Bench, mode| {
        let mut world = World { facts: bench.bay_facts(), ..world(bench, false) };
        world.scenario.mode = mode;
        let mut desk = Desk::new(bay_page::bay_ui, PAGE, world);
        open_tab(&mut desk, "Record");
        if let Some(check) = desk.harness.query_by_label("Check it as it stands") {
            check.click();
            desk.harness.run_steps(2);
        }
        shapes::texts(desk.harness.output()).iter().any(|t| t.starts_with("Checked: "))
    };
    use pintle::scenario::Mode;
    assert!(seen(&bench, Mode::Explore));
    assert!(!seen(&bench, Mode::Practice));
    act(&mut bench, BayAction::HandOver);
    assert!(seen(&bench, Mode::Practice));
}

#[test]
fn a_sum_is_handed_in_with_its_readings() {
    let mut bench = busy("compact_car");
    bench.apply(Action::Read(Probe::LowGauge)).expect("is allowed");
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&bench, true));
    open_tab(&mut desk, "Work out");
    desk.click("Absolute pressure");
    let row = desk.harness.get_by_label_contains("low side, ");
    row.click();
    desk.harness.run_steps(2);
    desk.click("Unit: kilopascal");
    desk.harness.get_by_label("Answer").focus();
    desk.harness.run_steps(2);
    desk.harness.get_by_label("Answer").type_text("650");
    desk.harness.run_steps(2);
    desk.click("Say so");
    let work = BayAction::Work {
        what: WorkedValue::Absolute,
        readings: vec![0],
        answer: 650.0,
        unit: WorkedUnit::Kilopascal,
    };
    assert_eq!(desk.taken(), [bay(work)]);
}

#[test]
fn a_part_is_swapped_behind_its_cautions_and_the_loop_closed_up() {
    let mut bench = bench("compact_car");
    act(&mut bench, BayAction::Protect(true));
    let mut desk = Desk::new(bay_page::bay_ui, PAGE, world(&bench, true));
    open_tab(&mut desk, "Repair");
    desk.click("Replace the condenser");
    desk.click("Open the loop and swap it");
    assert!(desk.taken().is_empty());
    assert!(desk.harness.query_by_label_contains("freezes skin").is_some());
    desk.harness.get_all_by_label("Replace the condenser").last().expect("the way through").click();
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::Act(Action::Repair(RepairId::ReplaceCondenser))]);
}
