//! The loop drawing through egui_kittest: every shape of it draws, and its parts have names.

use std::sync::OnceLock;
use std::time::Duration;

use crate::shapes;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use pintle::bench::{Action, Bench, Inside, Snapshot};
use pintle::desk::brief::{Brief, Log};
use pintle::desk::kept::Keeping;
use pintle::desk::loop_view::{DomeData, Motion, loop_ui};
use pintle::desk::{Command, DeskView, History, Papers, Session, UiState, demo, fonts, layout, theme};
use pintle::instrument::{PipePlace, Probe, Tool};
use pintle::scenario::{Mode, Scenario};
use pintle::units::Units;

struct Scene {
    scenario: Scenario,
    snapshot: Snapshot,
    ghost: Option<Inside>,
    unfold: f32,
    ui_state: UiState,
    theme: theme::Theme,
    units: Units,
    papers: Papers,
    out: Vec<Command>,
}

/// The healthy car after a minute, worked out once for all tests.
static RUNNING: OnceLock<Bench> = OnceLock::new();

fn running() -> Bench {
    let mut bench = Bench::new(&demo::scenario(), 1).expect("the healthy car opens");
    bench.advance(1200);
    let inside = bench.snapshot(true).inside.expect("is asked for");
    assert!(inside.m_compressor_kg_s > 0.005, "nothing flows: {} kg/s", inside.m_compressor_kg_s);
    bench
}

fn scene(inside: bool, unfold: f32) -> Scene {
    let scenario = demo::scenario();
    let snapshot = RUNNING.get_or_init(running).snapshot(inside);
    Scene {
        scenario,
        snapshot,
        ghost: None,
        unfold,
        ui_state: UiState::default(),
        theme: theme::DARK,
        units: Units::Bar,
        papers: Papers::default(),
        out: Vec::new(),
    }
}

fn draw(ui: &mut egui::Ui, scene: &mut Scene) {
    let (history, dome, mut motion) = (History::new(), DomeData::r134a(), Motion::default());
    motion.advance(1.7, &scene.snapshot);
    let view = DeskView {
        snapshot: &scene.snapshot,
        ghost: scene.ghost.as_ref(),
        brief: &Brief::of(&scene.scenario, &[]),
        log: &Log::default(),
        instructor: None,
        history: &history,
        dome: &dome,
        motion: &motion,
        units: scene.units,
        theme: &scene.theme,
        speed: 1,
        lagging_at: None,
        paused: false,
        unfold: scene.unfold,
        clock_s: 1.0,
        shelf: &[],
        kept: &[],
        standing: &[],
        working: None,
        rig: &pintle::rig::Rig::load("compact_car").expect("is shipped"),
        amps: &[],
        debrief: None,
        guide: None,
        facts: None,
        ui_state: &scene.ui_state,
    };
    loop_ui(ui, &view, &mut scene.papers, &mut scene.out);
}

/// Are the fonts of the desk in force? The harness draws a frame while it is built, and fonts count from the
/// next one on.
fn dressed(ui: &egui::Ui) -> bool {
    let bound = ui.ctx().fonts(|f| f.definitions().families.contains_key(&fonts::semibold()));
    if !bound {
        ui.ctx().set_fonts(fonts::definitions());
    }
    bound
}

fn harness(scene: Scene, size: (f32, f32)) -> Harness<'static, Scene> {
    let mut harness = Harness::builder().with_size(egui::vec2(size.0, size.1)).build_ui_state(
        |ui, scene: &mut Scene| {
            // The harness draws a frame while it is built; fonts count from the next one on.
            let bound = ui.ctx().fonts(|f| f.definitions().families.contains_key(&fonts::semibold()));
            if bound {
                draw(ui, scene);
            } else {
                ui.ctx().set_fonts(fonts::definitions());
            }
        },
        scene,
    );
    harness.run_steps(3);
    harness
}

/// Every rig after a minute and a half, folded and unfolded.
#[test]
fn every_topology_draws_without_words_over_words() {
    let mut problems = Vec::new();
    for id in pintle::rig::Rig::ids() {
        let scenario = Scenario { rig: id.into(), ..demo::scenario() };
        let mut bench = Bench::new(&scenario, 1).expect("opens");
        bench.advance(1800);
        for inside in [true, false] {
            for unfold in [0.0, 1.0] {
                let mut scene = scene(inside, unfold);
                scene.snapshot = bench.snapshot(inside);
                let harness = harness(scene, (850.0, 544.0));
                let found = shapes::problems(harness.output(), true, false);
                problems.extend(
                    found.into_iter().map(|p| format!("{id}, inside {inside}, unfold {unfold}: {p}")),
                );
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

/// Parts carry the names of the rig's own topology.
#[test]
fn names_follow_the_topology() {
    for (id, there, absent) in [
        ("compact_car", "Receiver-drier", "Accumulator"),
        ("pickup", "Orifice tube", "Receiver-drier"),
        ("pickup", "Accumulator", "Expansion valve"),
        ("sedan", "Internal heat exchanger, liquid side", "Accumulator"),
        ("electric_van", "Chiller", "Compressor"),
        ("walk_in_cooler", "Hermetic compressor", "Blower"),
    ] {
        let scenario = Scenario { rig: id.into(), ..demo::scenario() };
        let mut bench = Bench::new(&scenario, 1).expect("opens");
        bench.advance(20);
        let mut scene = scene(true, 0.0);
        scene.snapshot = bench.snapshot(true);
        let harness = harness(scene, (850.0, 544.0));
        assert!(harness.query_by_label(there).is_some(), "{id} has no {there}");
        assert!(harness.query_by_label(absent).is_none(), "{id} has a {absent}");
    }
}

#[test]
fn every_share_of_unfolding_draws_open_and_shut_small_and_large() {
    let mut problems = Vec::new();
    for size in [(764.0, 496.0), (850.0, 544.0), (3000.0, 1700.0)] {
        for unfold in [0.0, 0.2, 0.5, 0.9, 1.0] {
            for inside in [true, false] {
                let harness = harness(scene(inside, unfold), size);
                if unfold > 0.0 && unfold < 1.0 {
                    // On the way, for half a second, labels may cross.
                    continue;
                }
                let found = shapes::problems(harness.output(), true, false);
                problems.extend(found.into_iter().map(|p| format!("{size:?}, {unfold}, {inside}: {p}")));
            }
        }
    }
    assert!(problems.is_empty(), "{}\n{} problems", problems.join("\n"), problems.len());
}

#[test]
fn the_drawing_is_cheap() {
    let harness = harness(scene(true, 0.0), (850.0, 544.0));
    let shapes = harness.output().shapes.len();
    assert!(shapes < 1200, "{shapes} shapes");
}

#[test]
fn parts_and_points_have_names() {
    for inside in [true, false] {
        let harness = harness(scene(inside, 0.0), (850.0, 544.0));
        for name in
            ["Condenser", "Subcooling pass", "Receiver-drier", "Expansion valve", "Evaporator", "Compressor"]
        {
            harness.get_by_label(name);
        }
        for place in PipePlace::ALL {
            harness.get_by_label(&format!("Point {}, {}", place.point(), place.name()));
        }
    }
}

#[test]
fn a_click_with_the_thermometer_clamps_it_on_and_a_second_one_reads_it() {
    let mut start = scene(false, 0.0);
    start.ui_state.tool = Some(Tool::PipeThermometer);
    let mut harness = harness(start, (850.0, 544.0));
    harness.get_by_label("Point 4, valve inlet pipe").click();
    harness.run_steps(2);
    let probe = Probe::Pipe(PipePlace::ValveInlet);
    assert_eq!(harness.state().out, vec![Command::Act(Action::Place(probe.clone()))]);
    harness.state_mut().out.clear();
    harness.state_mut().snapshot.instruments.placed.push((probe.clone(), 350.0));
    harness.get_by_label("Point 4, valve inlet pipe").click();
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![Command::Act(Action::Read(probe))]);
}

#[test]
fn without_a_tool_a_click_does_nothing() {
    let mut harness = harness(scene(false, 0.0), (850.0, 544.0));
    harness.get_by_label("Point 2, compressor outlet pipe").click();
    harness.run_steps(2);
    assert!(harness.state().out.is_empty());
}

#[test]
fn odd_states_draw() {
    let shapes: [fn(&mut Inside); 5] = [
        |i| {
            // Standing and level.
            for p in &mut i.points {
                (p.p_pa, p.p_total_pa, p.flow_kg_s) = (8.0e5, 8.0e5, 0.0);
            }
        },
        |i| {
            // Empty: a little vapour.
            i.receiver_level = 0.0;
            for p in &mut i.points {
                (p.p_pa, p.p_total_pa, p.void_fraction, p.x) = (2.0e4, 1.2e5, 1.0, f64::NAN);
            }
        },
        |i| {
            // Air.
            for p in &mut i.points[1..4] {
                p.p_total_pa += 2.5e5;
            }
        },
        |i| {
            // Nothing is a number.
            for p in &mut i.points {
                (p.p_pa, p.h_j_per_kg, p.t_k, p.void_fraction) = (f64::NAN, f64::NAN, f64::NAN, f64::NAN);
            }
        },
        |i| {
            i.condenser.clear();
            i.evaporator.clear();
        },
    ];
    // Where nothing is a number the drawing may say so; it must only stand.
    const NO_NUMBERS: usize = 3;
    for (state, change) in shapes.into_iter().enumerate() {
        for unfold in [0.0, 0.5, 1.0] {
            let mut odd = scene(true, unfold);
            odd.ghost = odd.snapshot.inside.clone();
            if let Some(inside) = &mut odd.snapshot.inside {
                change(inside);
            }
            let harness = harness(odd, (850.0, 544.0));
            let texts = shapes::texts(harness.output());
            let odd = texts.iter().any(|t| t.contains("NaN") || t.contains("inf"));
            assert!(!odd || state == NO_NUMBERS, "{state}, {unfold}: {texts:?}");
        }
    }
}

#[test]
fn the_whole_window_draws_in_both_themes_and_all_units() {
    for practice in [false, true] {
        let mut scenario = demo::scenario();
        if practice {
            (scenario.mode, scenario.inside_view) = (Mode::Practice, false);
        }
        let mut session = Session::new(&scenario, Keeping::Off).expect("opens");
        for command in [Command::ToggleTheme, Command::NextUnits, Command::ToggleUnfold, Command::NextUnits] {
            session.command(command);
            // Long enough for the unfolding to end.
            for _ in 0..10 {
                session.pass(0.1, Duration::from_secs(5));
            }
            let mut harness = Harness::builder().with_size(egui::vec2(1280.0, 720.0)).build_ui(|ui| {
                let mut out = Vec::new();
                if dressed(ui) {
                    let (view, papers) = session.desk();
                    layout::desk_ui(ui, &view, papers, &mut out);
                }
            });
            harness.run_steps(3);
            let found = shapes::problems(harness.output(), false, false);
            assert!(found.is_empty(), "practice {practice}: {}", found.join("\n"));
        }
    }
}
