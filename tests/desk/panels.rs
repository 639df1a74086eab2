//! The panels at their real sizes: nothing runs off, nothing overlaps, every control has a name and asks
//! for the right thing.

use crate::sample::{Desk, World, busy_bench, long_words, practice, world_of};
use crate::shapes;
use egui_kittest::kittest::{NodeT, Queryable, by};
use pintle::bench::{Action, Bench, Diagnosis, DriveKind, Relay, Standing};
use pintle::desk::brief::Instructor;
use pintle::desk::{Command, DeskView, Panel, Papers, Screen, panels};
use pintle::fault::{FaultId, Group};
use pintle::instrument::{AirPlace, MeterMode, PipePlace, Probe, Tool};
use pintle::knobs::{Change, Knob, TurnedBy};
use pintle::lesson::{Belief, Hypothesis};
use pintle::scenario::{Mode, SHIPPED, load};
use pintle::units::{DeltaK, GaugePa, Units};

/// Controls and tools one above the other, as the desk sets them.
fn left(ui: &mut egui::Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    egui::ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        panels::controls_ui(ui, view, papers, out);
        ui.add_space(6.0);
        panels::tools_ui(ui, view, papers, out);
        ui.add_space(6.0);
        panels::perceived_ui(ui, view, papers, out);
    });
}

const LEFT: egui::Vec2 = egui::vec2(172.0, 524.0);
const TALL: egui::Vec2 = egui::vec2(172.0, 2000.0);
const RIGHT: egui::Vec2 = egui::vec2(296.0, 704.0);
const GAUGES: egui::Vec2 = egui::vec2(476.0, 164.0);
const STRIPS: egui::Vec2 = egui::vec2(326.0, 164.0);
const PAGE: egui::Vec2 = egui::vec2(1318.0, 692.0);

/// A world as the panel of this name is checked in: the instructor's page draws nothing without an instructor, so even
/// in a practice it gets one there, from whom the inside is hidden as it is from the learner.
fn with_reader(name: &str, mut world: World) -> World {
    if name.starts_with("instructor") {
        world.instructor.get_or_insert_default();
    }
    world
}

/// Name, panel, size, and whether the whole panel scrolls.
const PANELS: [(&str, Panel, egui::Vec2, bool); 15] = [
    ("left", left, LEFT, true),
    ("left tall", left, TALL, true),
    ("work", panels::work_ui, RIGHT, false),
    ("instructor", panels::instructor_ui, RIGHT, false),
    ("truth", panels::truth_ui, RIGHT, false),
    ("gauges", panels::gauges_ui, GAUGES, false),
    ("strips", panels::strips_ui, STRIPS, false),
    // 1280x720, the smallest window.
    ("work low", panels::work_ui, egui::vec2(296.0, 656.0), false),
    ("instructor low", panels::instructor_ui, egui::vec2(296.0, 656.0), false),
    ("strips narrow", panels::strips_ui, egui::vec2(240.0, 164.0), false),
    // 4K.
    ("work wide", panels::work_ui, egui::vec2(416.0, 2000.0), false),
    ("gauges large", panels::gauges_ui, egui::vec2(676.0, 284.0), false),
    ("strips large", panels::strips_ui, egui::vec2(1400.0, 284.0), false),
    ("start", panels::start_ui, PAGE, true),
    ("debrief", panels::debrief_ui, PAGE, true),
];

#[test]
fn every_panel_fits_and_no_words_overlap() {
    let mut problems = Vec::new();
    for (name, panel, size, scrolls) in PANELS {
        for (kind, world) in [("explore", World::explore()), ("practice", practice()), ("long", long_words())]
        {
            for units in Units::ALL {
                for tool in [None].into_iter().chain(Tool::ALL.map(Some)) {
                    if tool.is_some() && !name.starts_with("left") {
                        continue;
                    }
                    let mut world = with_reader(name, world.clone());
                    world.units = units;
                    world.ui_state.tool = tool;
                    let mut desk = Desk::new(panel, size, world);
                    desk.harness.run_steps(3);
                    let found = shapes::problems(desk.harness.output(), kind != "long", scrolls);
                    problems.extend(
                        found.into_iter().map(|p| format!("{name}, {kind}, {units:?}, {tool:?}: {p}")),
                    );
                }
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn knobs_push_their_actions_once() {
    let mut desk = Desk::new(panels::controls_ui, LEFT, World::explore());
    desk.click("A/C request");
    assert_eq!(desk.taken(), [Command::Act(Action::Set(Change::AcRequest(false)))]);
    desk.click("Recirculation");
    assert_eq!(desk.taken(), [Command::Act(Action::Set(Change::Recirculate(false)))]);
    desk.harness.get_by_label("Engine speed").focus();
    desk.harness.run_steps(2);
    desk.harness.key_press(egui::Key::ArrowRight);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::Act(Action::Set(Change::EngineRpm(950.0)))]);
    // Standing still pushes nothing.
    desk.harness.run_steps(5);
    assert!(desk.taken().is_empty());
}

#[test]
fn a_rig_shows_the_knobs_it_has_and_no_other() {
    for drive in [DriveKind::Belt, DriveKind::VariableBelt, DriveKind::Electric, DriveKind::Hermetic] {
        for chiller in [false, true] {
            let mut world = World::explore();
            (world.snapshot.topology.drive, world.snapshot.topology.chiller) = (drive, chiller);
            let topology = world.snapshot.topology;
            let desk = Desk::new(panels::controls_ui, TALL, world);
            for &knob in Knob::ALL {
                let info = knob.info();
                let offered = topology.has(info.fits) && info.turned_by != TurnedBy::Instructor;
                let label = panels::knob_label(knob, drive);
                let shown = desk.harness.query_by_label(label).is_some();
                assert_eq!(shown, offered, "{label} with {drive:?}, chiller {chiller}");
            }
        }
    }
}

#[test]
fn outside_air_is_asked_for_in_celsius_whatever_is_shown() {
    let mut world = World::explore();
    world.units = Units::Psi;
    let mut desk = Desk::new(panels::controls_ui, LEFT, world);
    desk.harness.get_by_label("Outside air").focus();
    desk.harness.run_steps(2);
    desk.harness.key_press(egui::Key::ArrowRight);
    desk.harness.run_steps(2);
    let taken = desk.taken();
    let [Command::Act(Action::Set(Change::AmbientC(celsius)))] = taken.as_slice() else {
        panic!("{taken:?}")
    };
    assert!((celsius - (96.0 - 32.0) / 1.8).abs() < 0.01, "{celsius}");
}

#[test]
fn starting_the_engine_waits_behind_its_caution() {
    let mut world = World::explore();
    world.snapshot.controls.engine_on = false;
    let mut desk = Desk::new(panels::controls_ui, LEFT, world);
    assert!(desk.harness.query_by_label_contains("carbon monoxide").is_none());
    desk.click("Engine");
    assert!(desk.taken().is_empty());
    assert!(
        desk.harness
            .get_by_label_contains("carbon monoxide")
            .value()
            .is_some_and(|v| v.starts_with("WARNING"))
    );
    desk.click("Start, exhaust hose on");
    assert_eq!(desk.taken(), [Command::Act(Action::Set(Change::EngineOn(true)))]);
    assert!(desk.harness.query_by_label_contains("carbon monoxide").is_none());
    // By keyboard: Enter asks, the safe choice has the focus, the other is one step back.
    desk.harness.get_by_label("Engine").focus();
    for (key, modifiers) in [
        (egui::Key::Enter, egui::Modifiers::NONE),
        (egui::Key::Tab, egui::Modifiers::SHIFT),
        (egui::Key::Enter, egui::Modifiers::NONE),
    ] {
        desk.harness.run_steps(3);
        desk.harness.key_press_modifiers(modifiers, key);
    }
    desk.harness.run_steps(3);
    assert_eq!(desk.taken(), [Command::Act(Action::Set(Change::EngineOn(true)))]);
    // Stopping it needs no caution.
    desk.harness.state_mut().world.snapshot.controls.engine_on = true;
    desk.click("Engine");
    assert_eq!(desk.taken(), [Command::Act(Action::Set(Change::EngineOn(false)))]);
}

#[test]
fn hoses_pipes_and_jumper_wait_behind_their_cautions() {
    let mut world = World::explore();
    world.snapshot.instruments.hoses_fitted = false;
    world.ui_state.tool = Some(Tool::GaugeSet);
    let mut desk = Desk::new(left, TALL, world);
    desk.click("Fit the hoses");
    assert!(desk.taken().is_empty());
    assert!(desk.harness.get_by_label("Not now").is_focused());
    assert!(desk.harness.query_by_label_contains("Goggles and gloves").is_some());
    assert!(desk.harness.query_by_label_contains("Follow local codes and licensed practice").is_some());
    desk.click("Fit hoses, goggles on");
    assert_eq!(desk.taken(), [Command::Act(Action::Hoses(true))]);

    desk.harness.state_mut().world.ui_state.tool = Some(Tool::PipeThermometer);
    desk.click("2 compressor outlet");
    assert!(desk.taken().is_empty());
    assert!(
        desk.harness.get_by_label_contains("burn skin").value().is_some_and(|v| v.starts_with("CAUTION"))
    );
    let hot = Probe::Pipe(PipePlace::CompressorOutlet);
    desk.click("Place it, gloves on");
    assert_eq!(desk.taken(), [Command::Act(Action::Place(hot))]);
    desk.click("4 valve inlet");
    assert_eq!(desk.taken(), [Command::Act(Action::Place(Probe::Pipe(PipePlace::ValveInlet)))]);

    desk.harness.state_mut().world.ui_state.tool = Some(Tool::Jumper);
    desk.click("Fan relay");
    assert!(desk.harness.query_by_label_contains("may start without warning").is_some());
    assert!(desk.harness.query_by_label_contains("cut-outs").is_none());
    desk.click("Not now");
    assert!(desk.taken().is_empty());
    desk.click("Clutch relay");
    assert!(desk.harness.query_by_label_contains("charge is not proven").is_some());
    assert!(desk.harness.query_by_label_contains("defeats both pressure cut-outs").is_some());
    assert!(desk.harness.query_by_label_contains("may start without warning").is_some());
    desk.click("Bridge it, hands clear");
    assert_eq!(desk.taken(), [Command::Act(Action::Jumper(Some(Relay::Clutch)))]);
}

#[test]
fn the_drawing_asks_behind_the_same_cautions() {
    let mut world = World::explore();
    world.snapshot.instruments.hoses_fitted = false;
    world.ui_state.tool = Some(Tool::GaugeSet);
    let mut desk = Desk::new(pintle::desk::layout::desk_ui, egui::vec2(1366.0, 768.0), world);
    desk.click("low-side service port");
    assert!(desk.taken().is_empty());
    desk.harness.run_steps(30);
    let confirm = desk.harness.get_by_label("Fit hoses, goggles on").rect();
    assert!(confirm.bottom() < 768.0, "the button is out of sight at {confirm:?}");
    desk.click("Fit hoses, goggles on");
    assert_eq!(desk.taken(), [Command::Act(Action::Hoses(true))]);
}

#[test]
fn a_tool_is_chosen_placed_and_read() {
    let mut desk = Desk::new(left, TALL, World::explore());
    desk.click("Air thermometer");
    assert_eq!(desk.taken(), [Command::ChooseTool(Some(Tool::AirThermometer))]);
    desk.harness.state_mut().world.ui_state.tool = Some(Tool::AirThermometer);
    desk.click("vent air");
    let probe = Probe::Air(AirPlace::Vent);
    assert_eq!(desk.taken(), [Command::Act(Action::Place(probe.clone()))]);
    desk.harness.state_mut().world.snapshot.instruments.placed.push((probe.clone(), 284.95));
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label_contains("11.8 °C").is_some());
    desk.click("Write it down");
    assert_eq!(desk.taken(), [Command::Act(Action::Read(probe))]);
    desk.harness.state_mut().world.ui_state.tool = None;
    desk.harness.run_steps(1);
    desk.harness.get_by_label("Sight glass").focus();
    desk.harness.run_steps(2);
    desk.harness.key_press(egui::Key::Enter);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::ChooseTool(Some(Tool::SightGlass))]);
}

#[test]
fn a_dial_is_read_by_a_click_and_says_its_value_only_to_screen_readers() {
    let mut desk = Desk::new(panels::gauges_ui, GAUGES, World::explore());
    let low = desk.harness.state().world.low();
    assert!((1e5..4e5).contains(&low.0), "the car does not cool: {low:?}");
    let words = |units: Units| format!("Low gauge, reads {}. Click to write it down", units.pressure(low));
    desk.click(&words(Units::Bar));
    assert_eq!(desk.taken(), [Command::Act(Action::Read(Probe::LowGauge))]);
    desk.harness.remove_cursor();
    desk.harness.run_steps(3);
    let digits = Units::Bar.pressure(low).trim_end_matches(" bar").to_owned();
    assert!(!shapes::texts(desk.harness.output()).iter().any(|t| t.contains(&digits)));
    desk.harness.state_mut().world.units = Units::Psi;
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label(&words(Units::Psi)).is_some());
    desk.click("Open the low side hand valve");
    assert_eq!(desk.taken(), [Command::Act(Action::ManifoldLowPct(100.0))]);
    desk.harness.state_mut().world.snapshot.instruments.hoses_fitted = false;
    desk.click("High gauge, not fitted");
    assert!(desk.taken().is_empty());
    assert!(shapes::texts(desk.harness.output()).iter().any(|t| t == "not fitted"));
}

#[test]
fn a_face_carries_its_unit_class_refrigerant_and_both_ends() {
    for (units, words) in [
        (Units::Bar, ["bar", "°C R-134a", "cl. 1.6", "−1", "0", "10", "35"]),
        (Units::Kpa, ["kPa", "°C R-134a", "cl. 1.6", "−100", "0", "1000", "3500"]),
        (Units::Psi, ["psi", "°F R-134a", "cl. 1.6", "30\"Hg", "0", "150", "500"]),
    ] {
        let mut world = World::explore();
        world.units = units;
        let desk = Desk::new(panels::gauges_ui, GAUGES, world);
        let texts = shapes::texts(desk.harness.output());
        for word in words {
            assert!(texts.iter().any(|t| t == word), "{units:?}: “{word}” is not on a face: {texts:?}");
        }
    }
}

#[test]
fn strips_say_what_they_show_and_what_they_lack() {
    let world = World::explore();
    let superheat_k = world.inside().superheat_k;
    assert!((1.0..15.0).contains(&superheat_k), "the car is not healthy: {superheat_k} K");
    let superheat = format!("superheat {}", Units::Bar.difference(DeltaK(superheat_k)));
    let high = format!("high {}", Units::Kpa.pressure(GaugePa(world.snapshot.instruments.high_gauge_pa)));
    let mut desk = Desk::new(panels::strips_ui, STRIPS, world);
    assert!(desk.harness.query_by_label_contains(&superheat).is_some(), "{superheat}");
    desk.harness.state_mut().world.units = Units::Kpa;
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label_contains(&high).is_some(), "{high}");
    desk.harness.state_mut().world.snapshot.inside = None;
    desk.harness.state_mut().world.snapshot.instruments.hoses_fitted = false;
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label_contains("Fit the gauge set to record pressures").is_some());
}

#[test]
fn suspects_move_on_and_remarks_are_written() {
    let mut desk = Desk::new(panels::work_ui, RIGHT, practice());
    desk.click("Metering, not looked at");
    let suspect = |standing| Command::Act(Action::Suspect { group: Group::Metering, standing });
    assert_eq!(desk.taken(), [suspect(Standing::Suspected)]);
    desk.click("Condenser air flow, suspected");
    let cleared = Action::Suspect { group: Group::CondenserAirflow, standing: Standing::Cleared };
    assert_eq!(desk.taken(), [Command::Act(cleared)]);
    desk.harness.get_by_label("Remark or prediction").focus();
    desk.harness.run_steps(2);
    desk.harness.get_by_label("Remark or prediction").type_text("I expect no change");
    desk.harness.run_steps(2);
    desk.harness.key_press(egui::Key::Enter);
    desk.harness.run_steps(2);
    assert_eq!(desk.taken(), [Command::Act(Action::Note("I expect no change".into()))]);
}

#[test]
fn a_diagnosis_needs_a_cause_and_evidence() {
    let mut desk = Desk::new(panels::work_ui, RIGHT, practice());
    assert!(desk.harness.query_by_label("Step 3 of 5: test").is_some());
    desk.click("Name the cause");
    desk.click("Hand it in");
    assert!(desk.harness.query_by_label("Choose a cause first.").is_some());
    desk.click(FaultId::CondenserFanRelayOpen.info().name);
    desk.click("Hand it in");
    assert!(desk.harness.query_by_label("Choose at least one reading as evidence.").is_some());
    assert!(desk.taken().is_empty());
    desk.click("Back to the bench");
    desk.click("Evidence: 2:10, low side, 2.2 ± 0.2 bar");
    desk.click("Name the cause");
    desk.click("Hand it in");
    let diagnosis = Diagnosis {
        cause: Some(FaultId::CondenserFanRelayOpen),
        evidence: vec![0],
        confidence: 0.6,
        because: String::new(),
    };
    assert_eq!(desk.taken(), [Command::Act(Action::Diagnose(diagnosis)), Command::Show(Screen::Debrief)]);
}

#[test]
fn volts_stand_in_the_notebook_by_their_points_alone() {
    let placed = |mode, black: &str| Probe::Meter { mode, red: "fan_relay_86".into(), black: black.into() };
    let volts = |black| placed(MeterMode::VoltsDc, black).short();
    assert_eq!(
        (volts("ground").as_str(), volts("fan_relay_85").as_str()),
        ("fan relay 86", "fan relay 86 to fan relay 85")
    );
    // Over its range every place of the dial shows OL, so the other places keep their names.
    for mode in MeterMode::ALL.into_iter().filter(|mode| *mode != MeterMode::VoltsDc) {
        let probe = placed(mode, "ground");
        assert_eq!(probe.short(), probe.name());
    }
    let desk = Desk::new(panels::work_ui, RIGHT, practice());
    assert!(desk.harness.query_by_label_contains(", fan relay 86, 13.600").is_some());
}

#[test]
fn without_an_instructor_the_page_of_faults_stays_empty() {
    let focusable = |node: &egui_kittest::kittest::AccessKitNode<'_>| {
        node.data().supports_action(egui::accesskit::Action::Focus)
    };
    let world = practice();
    assert_eq!(world.instructor, None);
    let mut desk = Desk::new(panels::instructor_ui, RIGHT, world);
    assert_eq!(shapes::texts(desk.harness.output()), Vec::<String>::new());
    assert_eq!(desk.harness.query_all(by().predicate(focusable)).count(), 0);
    // The same page with one, so that empty means something.
    desk.harness.state_mut().world.instructor = Some(Instructor::default());
    desk.harness.run_steps(2);
    assert!(shapes::texts(desk.harness.output()).iter().any(|text| text == "Show the inside"));
    assert!(desk.harness.query_all(by().predicate(focusable)).count() > 1);
}

#[test]
fn an_instructor_imposes_ramps_and_clears() {
    let world = World::explore();
    let superheat = format!("Superheat at 6 {}", Units::Bar.difference(DeltaK(world.inside().superheat_k)));
    let mut desk = Desk::new(panels::work_ui, RIGHT, world);
    desk.click("Undercharge");
    desk.harness.run_steps(60);
    desk.click("Impose");
    let id = FaultId::Undercharge;
    assert_eq!(desk.taken(), [Command::Act(Action::ImposeFault { id, severity: 0.3 })]);
    desk.click("Grows in 5 min");
    desk.click("Impose");
    assert_eq!(desk.taken(), [Command::Act(Action::RampFault { id, severity: 0.3, over_s: 300.0 })]);
    desk.click("On the road");
    desk.click("Impose");
    let recurs = pintle::fault::Recurs::WhenOnTheRoad { above_kmh: 40.0 };
    assert_eq!(desk.taken(), [Command::Act(Action::ImposeIntermittent { id, severity: 0.3, recurs })]);
    desk.click("Clear");
    assert_eq!(desk.taken(), [Command::Act(Action::ClearFault { id })]);
    desk.click("Undercharge");
    desk.click("Show the inside");
    assert_eq!(desk.taken(), [Command::ToggleInside]);
    desk.click("Page: True values");
    assert!(desk.harness.query_by_label(&superheat).is_some(), "{superheat}");
}

#[test]
fn the_start_screen_opens_scenarios_and_shows_broken_files() {
    let mut desk = Desk::new(panels::start_ui, PAGE, practice());
    assert!(desk.harness.query_by_label_contains("scenarios/torn.ron:3:7: unknown field").is_some());
    desk.click("Bakery van: cold only on the road. Reading condenser air flow by head pressure and speed.");
    assert_eq!(desk.taken(), [Command::OpenScenario("bakery".into())]);
    desk.click("Explore. Everything open: turn the knobs, look inside, unfold the loop.");
    assert_eq!(desk.taken(), [Command::OpenScenario("healthy".into())]);
    desk.click("Go on where you left: Bakery van: cold only on the road");
    assert_eq!(desk.taken(), [Command::Show(Screen::Bench)]);
}

#[test]
fn any_rig_can_be_explored_from_the_start_screen() {
    let mut desk = Desk::new(panels::start_ui, PAGE, practice());
    desk.click("Sedan. R-1234yf, 360 g");
    assert_eq!(desk.taken(), [Command::ExploreRig("sedan".into())]);
}

#[test]
fn letters_find_a_fault_and_a_cause() {
    let mut desk = Desk::new(panels::instructor_ui, RIGHT, World::explore());
    let shown = |desk: &Desk, name: &str| desk.harness.query_by_label(name).is_some();
    assert!(shown(&desk, "Condenser fan motor open circuit"));
    desk.harness.get_by_label("Find a fault").focus();
    desk.harness.run_steps(2);
    desk.harness.get_by_label("Find a fault").type_text("charge");
    desk.harness.run_steps(2);
    assert!(shown(&desk, "Undercharge") && !shown(&desk, "Condenser fan motor open circuit"));
}

#[test]
fn the_list_holds_the_faults_that_the_rig_can_have() {
    let pickup = pintle::rig::Rig::load("pickup").expect("is shipped");
    let car = World::explore();
    let own: Vec<&str> = FaultId::on(&pickup).map(|id| id.info().name).collect();
    let other = FaultId::on(&car.rig).map(|id| id.info().name).find(|name| !own.contains(name));
    let mut world = car;
    world.rig = pickup;
    let desk = Desk::new(panels::instructor_ui, egui::vec2(296.0, 3000.0), world);
    let shown = |name: &str| desk.harness.query_by_label(name).is_some();
    assert!(own.iter().all(|name| shown(name)));
    assert!(other.is_some_and(|name| !shown(name)), "{other:?}");
}

/// A file that cannot be opened leads to the list, where its reason was not to be seen.
#[test]
fn what_the_bench_says_stands_on_every_page_to_read() {
    for screen in [Screen::Start, Screen::Debrief, Screen::Rig] {
        let mut world = practice();
        world.ui_state.notice = Some("Broken.ron: unknown rig.".into());
        let mut desk = Desk::new(pintle::desk::pages::page(screen).draw, PAGE, world);
        assert!(desk.harness.query_by_label("Broken.ron: unknown rig.").is_some(), "{screen:?}");
        desk.click("OK");
        assert_eq!(desk.taken(), [Command::DismissNotice], "{screen:?}");
    }
}

#[test]
fn a_kept_session_is_offered_and_taken_up() {
    let mut desk = Desk::new(panels::start_ui, PAGE, practice());
    desk.click("Weak at idle. 3:20 worked · 4 readings");
    assert_eq!(desk.taken(), [Command::TakeUp("3.session".into())]);
    // A file that cannot be read is told, hides nothing and opens nothing.
    desk.click("2.session. cannot be opened: format 9 is not known");
    assert_eq!(desk.taken(), []);
    let oldest = "Oldest. 0:10 worked";
    assert!(desk.harness.query_by_label(oldest).is_none(), "the newest three are shown at first");
    desk.click("Show all 4");
    assert!(desk.harness.query_by_label(oldest).is_some());
    desk.harness.state_mut().world.kept.clear();
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label("Work that was kept").is_none());
}

#[test]
fn a_hint_is_asked_for_and_shown_once_it_is_in_the_journal() {
    let mut world = practice();
    world.scenario = load("cold_only_on_the_road").expect("is shipped");
    let hints = world.scenario.hints.clone();
    let mut bench = Bench::new(&world.scenario, 1).expect("opens");
    let mut desk = Desk::new(panels::work_ui, RIGHT, world);
    for (i, hint) in hints.iter().enumerate() {
        let shown = format!("Hint {}: {hint}", i + 1);
        desk.click(&format!("Take hint {} of {}", i + 1, hints.len()));
        let taken = desk.taken();
        assert_eq!(taken, [Command::Act(Action::Hint)]);
        // Asking alone shows nothing: the bench puts it on record first.
        assert!(desk.harness.query_by_label(&shown).is_none());
        bench.apply(Action::Hint).expect("one is left");
        desk.harness.state_mut().world.journal = bench.journal().to_vec();
        desk.harness.run_steps(2);
        assert!(desk.harness.query_by_label(&shown).is_some(), "{shown}");
    }
    assert!(desk.harness.query_by_label_contains("Take hint").is_none());
}

/// What of the work panel must be in sight whatever was written and taken.
fn out_of_sight(desk: &Desk, window: egui::Vec2) -> Vec<String> {
    let world = &desk.harness.state().world;
    let hints = &world.scenario.hints;
    let taken = world.journal.iter().filter(|(_, a)| *a == Action::Hint).count();
    // An order that is one quotation is shown in proper marks, any other as written.
    let written = world.scenario.work_order.trim();
    let inner = written.strip_prefix('"').and_then(|w| w.strip_suffix('"')).filter(|w| !w.contains('"'));
    let order = inner.map_or_else(|| written.to_owned(), |w| format!("“{w}”"));
    let mut wanted = vec!["Work order".to_owned(), order, "Notebook".into(), "Name the cause".into()];
    let groups: std::collections::BTreeSet<Group> =
        FaultId::on(&world.rig).map(|id| id.info().group).collect();
    wanted.extend(groups.into_iter().map(|group| group.name().to_owned()));
    if taken > 0 {
        wanted.push(format!("Hint {taken}: {}", hints[taken - 1]));
    }
    if taken < hints.len() {
        wanted.push(format!("Take hint {} of {}", taken + 1, hints.len()));
    }
    wanted.retain(|text| !shapes::in_sight(desk.harness.output(), window.x - 320.0, text));
    // The remark line is empty: its place is known by its name.
    let remark = desk.harness.get_by_label("Remark or prediction").rect();
    let button = desk.harness.get_by_label("Name the cause").rect();
    if remark.bottom() > button.top() || button.bottom() > window.y + 8.0 {
        wanted.push(format!("remark {remark:?} or button {button:?}"));
    }
    wanted
}

/// Is it a scenario with a cause to be found?
fn is_practice(id: &str) -> bool {
    load(id).expect("is shipped").mode == Mode::Practice
}

const SMALLEST: [egui::Vec2; 2] = [egui::vec2(1366.0, 768.0), egui::vec2(1280.0, 720.0)];

#[test]
fn a_busy_work_panel_keeps_everything_in_sight() {
    let mut problems = Vec::new();
    for shipped in SHIPPED.iter().filter(|s| is_practice(s.id)) {
        let mut bench = busy_bench(shipped.id);
        for taken in 0..=bench.scenario().hints.len() {
            if taken > 0 {
                bench.apply(Action::Hint).expect("one is left");
            }
            for window in SMALLEST {
                let mut desk = Desk::new(pintle::desk::layout::desk_ui, window, world_of(&bench));
                desk.harness.run_steps(3);
                let named = format!("{window:?}, {}, {taken} hints", shipped.id);
                let found = shapes::problems(desk.harness.output(), true, false);
                problems.extend(found.into_iter().map(|p| format!("{named}: {p}")));
                problems.extend(
                    out_of_sight(&desk, window).iter().map(|w| format!("{named}: “{w}” is out of sight")),
                );
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn the_way_to_the_diagnosis_stays_in_sight_under_the_longest_work_order() {
    for window in SMALLEST {
        for length in [1, 7, 60] {
            let mut world = long_words();
            world.scenario.work_order = "The customer talks and talks and nobody stops him. ".repeat(length);
            world.scenario.hints = vec!["Think of the air, and then think of it once more. ".repeat(8)];
            world.journal.push((80_100, Action::Hint));
            let mut desk = Desk::new(pintle::desk::layout::desk_ui, window, world);
            desk.harness.run_steps(3);
            assert!(
                shapes::in_sight(desk.harness.output(), window.x - 320.0, "Name the cause"),
                "{window:?}, work order of {length} sentences"
            );
            desk.click("Name the cause");
            desk.harness.run_steps(2);
            assert!(desk.harness.query_by_label("Back to the bench").is_some());
        }
    }
}

#[test]
fn a_lucky_guess_is_told_from_a_reasoned_answer() {
    let mut world = practice();
    let debrief = world.debrief.as_mut().expect("is worked out");
    debrief.named = Hypothesis::Fault(FaultId::CondenserFanRelayOpen);
    debrief.verdict_right = true;
    let lucky = debrief.reasoning();
    assert!(lucky.contains("62 %") && lucky.contains("luck"), "{lucky}");
    assert!(lucky.contains("condenser fan motor"), "the rival is not named: {lucky}");
    let mut desk = Desk::new(panels::debrief_ui, egui::vec2(1318.0, 1400.0), world);
    assert!(desk.harness.query_by_label("Right").is_some());
    assert!(desk.harness.query_by_label(&lucky).is_some(), "{lucky}");
    assert_eq!(shapes::problems(desk.harness.output(), true, true), Vec::<String>::new());

    let belief = Belief { hypothesis: Hypothesis::Fault(FaultId::CondenserFanRelayOpen), share: 0.93 };
    desk.harness.state_mut().world.debrief.as_mut().expect("is worked out").belief = vec![belief];
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label_contains("93 % likely: that was reasoned").is_some());
    assert!(desk.harness.query_by_label(&lucky).is_none());
}

#[test]
fn the_debrief_says_right_or_wrong_and_offers_the_next_step() {
    let mut desk = Desk::new(panels::debrief_ui, egui::vec2(1318.0, 1400.0), practice());
    assert!(desk.harness.query_by_label("Not this time").is_some());
    assert!(
        desk.harness.query_by_label_contains("The cause: Condenser fan relay coil open circuit").is_some()
    );
    desk.click("Look inside");
    assert_eq!(desk.taken(), [Command::LookInside]);
    desk.click("Try another");
    assert_eq!(desk.taken(), [Command::Show(Screen::Start)]);
    desk.harness.state_mut().world.debrief = None;
    desk.harness.run_steps(2);
    assert!(desk.harness.query_by_label_contains("Working out").is_some());
}

#[test]
fn the_help_sheet_lists_every_key_and_the_disclaimer() {
    let mut desk = Desk::new(pintle::desk::help::help, egui::vec2(1366.0, 768.0), World::explore());
    desk.harness.run_steps(3);
    for label in ["U: unfold to the p-h chart, fold back", "F1: this sheet", "0: 20 times as fast"] {
        assert!(desk.harness.query_by_label(label).is_some(), "{label}");
    }
    assert!(desk.harness.query_by_label_contains("never a certificate").is_some());
    assert_eq!(shapes::problems(desk.harness.output(), true, false), Vec::<String>::new());
    desk.click("Close (F1)");
    assert_eq!(desk.taken(), [Command::ToggleHelp]);
}

#[test]
fn every_control_has_a_name_and_the_keyboard_reaches_it() {
    for (name, panel, size, _) in PANELS {
        for world in [World::explore(), practice()] {
            let mut desk = Desk::new(panel, size, with_reader(name, world));
            let controls = |desk: &Desk| -> Vec<String> {
                let clickable = |node: &egui_kittest::kittest::AccessKitNode<'_>| {
                    node.data().supports_action(egui::accesskit::Action::Focus)
                };
                let nodes = desk.harness.query_all(by().predicate(clickable));
                nodes.map(|node| node.accesskit_node().label().unwrap_or_default()).collect()
            };
            let wanted = controls(&desk);
            assert!(
                wanted.iter().all(|label| !label.trim().is_empty()),
                "{name} has a control without a name"
            );
            let least = if name.starts_with("strips") || name == "truth" { 0 } else { 1 };
            assert!(wanted.len() >= least, "{name} has only {wanted:?}");
            let mut reached = std::collections::BTreeSet::new();
            for _ in 0..wanted.len() + 3 {
                desk.harness.key_press(egui::Key::Tab);
                desk.harness.run_steps(2);
                let focused = desk.harness.query_all(by().predicate(|n| n.is_focused()));
                let labels: Vec<_> = focused.filter_map(|node| node.accesskit_node().label()).collect();
                if !labels.is_empty() {
                    assert!(shapes::has_ring(desk.harness.output()), "{name}: {labels:?} shows no focus");
                }
                reached.extend(labels);
            }
            for label in &wanted {
                assert!(reached.contains(label), "{name}: Tab never reaches “{label}”, only {reached:?}");
            }
        }
    }
}

#[test]
fn after_the_diagnosis_the_debrief_stays_at_hand() {
    let mut world = practice();
    let diagnosis = Diagnosis {
        cause: Some(FaultId::Overcharge),
        evidence: vec![0],
        confidence: 0.5,
        because: String::new(),
    };
    world.journal.push((16_000, Action::Diagnose(diagnosis)));
    let mut desk = Desk::new(panels::work_ui, RIGHT, world);
    assert!(desk.harness.query_by_label("Step 4 of 5: repair").is_some());
    assert_eq!(shapes::problems(desk.harness.output(), true, false), Vec::<String>::new());
    desk.click("Debrief");
    assert_eq!(desk.taken(), [Command::Show(Screen::Debrief)]);
}
