//! Desks to draw: a healthy loop in Explore, a practice with a full notebook, and one with long words.

use std::sync::OnceLock;

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use pintle::bay::facts::Facts;
use pintle::bench::{Action, Bench, Inside, Snapshot, Standing};
use pintle::desk::brief::{Brief, Instructor, Log};
use pintle::desk::kept::Kept;
use pintle::desk::loop_view::{DomeData, Motion};
use pintle::desk::{
    Case, Command, DeskView, History, Listed, Panel, Papers, UiState, Working, demo, fonts, theme,
};
use pintle::fault::{Fault, FaultId, Group};
use pintle::instrument::{AirPlace, MeterMode, PipePlace, Probe, Reading};
use pintle::knobs::Change;
use pintle::lesson::{Belief, Debrief, DebriefLine, Hypothesis};
use pintle::procedure::{Guide, Part};
use pintle::rig::Rig;
use pintle::scenario::{Mode, Scenario, load};
use pintle::units::{GaugePa, Kelvin, Units};

/// The healthy car after five minutes with some driving, worked out once for all tests.
static DRIVE: OnceLock<Drive> = OnceLock::new();

type Drive = (Bench, History);

fn drive() -> Drive {
    let mut bench = Bench::new(&demo::scenario(), 1).expect("the healthy car opens");
    let mut history = History::new();
    let deeds = [
        (100, Action::Set(Change::AcRequest(false)), ""),
        (120, Action::Set(Change::AcRequest(true)), "A/C on"),
        (140, Action::Set(Change::EngineRpm(2000.0)), ""),
        (180, Action::Set(Change::EngineRpm(900.0)), "stopped at the lights"),
        (184, Action::Set(Change::BlowerPct(50.0)), "blower 50 %"),
        (220, Action::Set(Change::BlowerPct(100.0)), ""),
    ];
    for half_second in 0..600_u32 {
        for (_, deed, words) in deeds.iter().filter(|(at, ..)| at * 2 == half_second) {
            bench.apply(deed.clone()).expect("is allowed");
            if !words.is_empty() {
                history.mark(bench.time_s(), *words);
            }
        }
        bench.advance(10);
        history.record(&bench.snapshot(true));
    }
    (bench, history)
}

/// Everything a view borrows.
#[derive(Clone)]
pub struct World {
    pub snapshot: Snapshot,
    pub scenario: Scenario,
    pub journal: Vec<(u64, Action)>,
    pub brief: Brief,
    pub log: Log,
    pub instructor: Option<Instructor>,
    pub history: History,
    pub dome: DomeData,
    pub motion: Motion,
    pub units: Units,
    pub shelf: Vec<Listed>,
    pub kept: Vec<Kept>,
    pub standing: Vec<String>,
    pub working: Option<Working>,
    pub rig: Rig,
    pub amps: Vec<f64>,
    pub debrief: Option<Debrief>,
    pub guide: Option<(Guide, Vec<Part>)>,
    pub facts: Option<Facts>,
    pub ui_state: UiState,
}

impl World {
    /// The healthy loop, everything open.
    pub fn explore() -> Self {
        let (bench, history) = DRIVE.get_or_init(drive);
        Self {
            snapshot: bench.snapshot(true),
            scenario: bench.scenario().clone(),
            journal: Vec::new(),
            brief: Brief::of(bench.scenario(), &[]),
            log: Log::default(),
            instructor: Some(Instructor { present: Some(Vec::new()) }),
            history: history.clone(),
            dome: DomeData::r134a(),
            motion: Motion::default(),
            units: Units::Bar,
            shelf: Vec::new(),
            kept: kept(),
            standing: Vec::new(),
            working: None,
            rig: Rig::load("compact_car").expect("is shipped"),
            amps: Vec::new(),
            debrief: None,
            guide: None,
            facts: None,
            ui_state: UiState { show_inside: true, ..UiState::default() },
        }
    }

    /// What the low gauge shows.
    pub fn low(&self) -> GaugePa {
        GaugePa(self.snapshot.instruments.low_gauge_pa)
    }

    /// The true states.
    pub fn inside(&self) -> &Inside {
        self.snapshot.inside.as_ref().expect("the inside is open")
    }

    /// Read scenario and journal anew, as a session does for every frame.
    pub fn read(&mut self) {
        self.brief = Brief::of(&self.scenario, &self.journal);
        self.log = Log::of(&self.journal);
    }

    pub fn view(&self) -> DeskView<'_> {
        DeskView {
            snapshot: &self.snapshot,
            ghost: None,
            brief: &self.brief,
            log: &self.log,
            instructor: self.instructor.as_ref(),
            history: &self.history,
            dome: &self.dome,
            motion: &self.motion,
            units: self.units,
            theme: &theme::DARK,
            speed: 1,
            lagging_at: None,
            paused: false,
            unfold: 0.0,
            clock_s: 0.0,
            shelf: &self.shelf,
            kept: &self.kept,
            standing: &self.standing,
            working: self.working,
            rig: &self.rig,
            amps: &self.amps,
            debrief: self.debrief.as_ref(),
            guide: self.guide.as_ref().map(|(guide, parts)| (guide, parts.as_slice())),
            facts: self.facts.as_ref(),
            ui_state: &self.ui_state,
        }
    }
}

/// Sessions as the folder holds them: good ones, and one of a newer program.
fn kept() -> Vec<Kept> {
    let of = |file: &str, title: &str, progress: Result<&str, &str>, ago: &str| Kept {
        path: file.into(),
        title: title.into(),
        progress: progress.map(Into::into).map_err(Into::into),
        ago: ago.into(),
        handed_in: false,
    };
    vec![
        of("4.session", "Warm on the motorway", Ok("0:40 worked · 3 acts"), "just now"),
        of("3.session", "Weak at idle", Ok("3:20 worked · 4 readings"), "12 minutes ago"),
        of("2.session", "2.session", Err("cannot be opened: format 9 is not known"), "2 hours ago"),
        of("1.session", "Oldest", Ok("0:10 worked"), "3 days ago"),
    ]
}

/// The meter's red lead on a point, its black one on ground.
fn volts(point: &str) -> Probe {
    Probe::Meter { mode: MeterMode::VoltsDc, red: point.into(), black: "ground".into() }
}

fn reading(seconds: u64, probe: Probe, value: f64, uncertainty: f64) -> Reading {
    Reading { tick: seconds * 20, probe, value, uncertainty }
}

/// A hidden fault half found: notebook, suspects, remark, debrief, a shelf with a broken file.
pub fn practice() -> World {
    let mut world = World::explore();
    let healthy = world.scenario.clone();
    world.scenario = Scenario {
        id: "bakery".into(),
        title: "Bakery van: cold only on the road".into(),
        unit: "Air over the condenser".into(),
        trains: "Reading condenser air flow by head pressure and speed.".into(),
        mode: Mode::Practice,
        work_order:
            "Loaves in the back go soft in town. On the bypass it blows cold as you like. Started when \
                     the weather turned hot."
                .into(),
        inside_view: false,
        ..healthy.clone()
    };
    world.snapshot.inside = None;
    world.instructor = None;
    let notebook = &mut world.snapshot.instruments.notebook;
    *notebook = vec![
        reading(130, Probe::LowGauge, 2.2e5, 0.18e5),
        reading(365, Probe::HighGauge, 27.1e5, 0.58e5),
        reading(400, Probe::Air(AirPlace::Vent), Kelvin::from_c(11.8).0, 1.0),
        reading(751, Probe::Pipe(PipePlace::CompressorOutlet), Kelvin::from_c(103.4).0, 2.5),
        reading(760, volts("fan_relay_86"), 13.6, 0.1),
        reading(770, Probe::SightGlass, 0.3, 0.1),
    ];
    for (group, standing) in &mut world.snapshot.instruments.suspects {
        *standing = match group {
            Group::CondenserAirflow => Standing::Suspected,
            Group::Charge => Standing::Cleared,
            _ => Standing::Open,
        };
    }
    world.journal = vec![(740 * 20, Action::Note("I expect the high side to stay".into()))];
    world.shelf = vec![
        Listed { key: "healthy".into(), case: Ok(Case::of(&healthy)) },
        Listed { key: "bakery".into(), case: Ok(Case::of(&world.scenario)) },
        Listed {
            key: "scenarios/torn.ron".into(),
            case: Err("scenarios/torn.ron:3:7: unknown field `titel`, did you mean `title`?".into()),
        },
    ];
    world.debrief = Some(debrief(&world.snapshot.instruments.notebook));
    world
}

fn debrief(notebook: &[Reading]) -> Debrief {
    let line = |reading: &Reading| DebriefLine {
        reading: reading.clone(),
        healthy: reading.value * 0.97,
        named: reading.value * 0.99,
        truth: reading.value,
        sigma: reading.uncertainty / 2.0,
        used_as_evidence: reading.tick == 130 * 20,
        note: String::new(),
    };
    let belief = |id, share| Belief { hypothesis: Hypothesis::Fault(id), share };
    Debrief {
        verdict_right: false,
        named: Hypothesis::Fault(FaultId::Overcharge),
        confidence: 0.7,
        because: "the high side is far too high".into(),
        truth: vec![Fault { id: FaultId::CondenserFanRelayOpen, severity: 1.0 }],
        lines: notebook.iter().map(line).collect(),
        belief: vec![
            belief(FaultId::CondenserFanRelayOpen, 0.62),
            belief(FaultId::CondenserFanMotorOpen, 0.3),
            belief(FaultId::Overcharge, 0.06),
            Belief { hypothesis: Hypothesis::Healthy, share: 0.02 },
        ],
        inside: vec!["The fan stood still although the engine computer asked for high speed.".into()],
        cautions: vec!["The relay was bridged without hands clear.".into()],
        bay: Vec::new(),
        mistakes: vec!["0:40: too much current through the jumper lead: its fuse blew".into()],
        repairs: vec!["replace the condenser, evacuate, charge by weight: cured nothing; the part taken out was good (150 min)".into()],
        parts_replaced: 1,
        scenario_debrief: "A dead fan is felt in town, not on the road: the wind does its work.".into(),
        unsolved: Vec::new(),
        timeline: vec![(12.0, "Hoses fitted".into()), (130.0, "Low gauge read".into())],
    }
}

/// Everything as long as it can get.
pub fn long_words() -> World {
    let mut world = practice();
    world.scenario.title =
        "A car with a very long title that somebody wrote without thinking of the width".into();
    world.scenario.trains = "Training everything at once in a sentence that runs on and on ".repeat(4);
    world.scenario.work_order = "The customer talks and talks and nobody can stop him. ".repeat(7);
    world.scenario.rig = "a_rig_with_an_endless_name_that_does_not_stop_r134a".into();
    let instruments = &mut world.snapshot.instruments;
    instruments.low_gauge_pa = -0.95e5;
    instruments.high_gauge_pa = 36.0e5;
    instruments.manifold_low_pct = 100.0;
    instruments.manifold_high_pct = 55.0;
    instruments.jumper_fuse_blown = true;
    instruments.placed = vec![
        (Probe::Pipe(PipePlace::EvaporatorOutlet), 255.37),
        (Probe::Air(AirPlace::CondenserOff), 388.9),
        (volts("high_relay_85"), -13.84),
        (Probe::SightGlass, 0.9),
    ];
    for tick in 0..60 {
        instruments.notebook.push(reading(
            4_000 + tick,
            Probe::Pipe(PipePlace::EvaporatorOutlet),
            388.9,
            2.5,
        ));
    }
    world.snapshot.controls.engine_rpm = 6_000.0;
    world.snapshot.controls.road_speed_kmh = 180.0;
    world.snapshot.controls.ambient_c = -20.0;
    for second in 0..40 {
        world.history.mark(200.0 + f64::from(second) * 2.0, "engine speed 6000 rpm");
    }
    world.snapshot.inside = World::explore().snapshot.inside;
    if let Some(inside) = &mut world.snapshot.inside {
        inside.superheat_k = 58.4;
        inside.subcooling_k = 0.0;
        inside.vent_t_k = 318.0;
    }
    let present = FaultId::ALL.map(|id| Fault { id, severity: id.default_severity() }).to_vec();
    world.instructor = Some(Instructor { present: Some(present) });
    world
}

/// A shipped practice well under way on its real bench: twelve readings, two remarks, cards moved.
pub fn busy_bench(id: &str) -> Bench {
    let scenario = load(id).expect("is shipped");
    let mut bench = Bench::new(&scenario, 1).expect("opens");
    let apply = |bench: &mut Bench, action: Action| bench.apply(action).expect("is allowed");
    if bench.bay().is_some() {
        apply(&mut bench, Action::Bay(pintle::bay::BayAction::Protect(true)));
    }
    apply(&mut bench, Action::Hoses(true));
    bench.advance(1200);
    let mut probes = vec![Probe::LowGauge, Probe::HighGauge, Probe::SightGlass];
    probes.extend(PipePlace::ALL.map(Probe::Pipe));
    probes.extend(AirPlace::ALL.into_iter().take(2).map(Probe::Air));
    // The point with the longest name that a lead may touch without isolating; mains have none.
    let free = bench.circuit().points().iter().filter(|p| p.guard == pintle::circuit::Guard::None);
    let longest = free.max_by_key(|p| p.label.len()).map(|p| volts(&p.id));
    probes.push(longest.unwrap_or(Probe::Air(AirPlace::ALL[2])));
    for probe in probes {
        if !matches!(probe, Probe::LowGauge | Probe::HighGauge) {
            apply(&mut bench, Action::Place(probe.clone()));
        }
        bench.advance(100);
        apply(&mut bench, Action::Read(probe));
    }
    for text in ["It blows warm at the lights.", "I expect the high side to climb when the car stands."] {
        apply(&mut bench, Action::Note(text.into()));
    }
    let suspect = |group, standing| Action::Suspect { group, standing };
    apply(&mut bench, suspect(Group::CondenserAirflow, Standing::Suspected));
    apply(&mut bench, suspect(Group::Charge, Standing::Cleared));
    assert_eq!(bench.snapshot(false).instruments.notebook.len(), 12);
    bench
}

/// The desk on a bench as it stands.
pub fn world_of(bench: &Bench) -> World {
    let mut world = World::explore();
    world.snapshot = bench.snapshot(false);
    world.scenario = bench.scenario().clone();
    world.rig = Rig::load(&bench.scenario().rig).expect("is shipped");
    world.journal = bench.journal().to_vec();
    world.instructor = (bench.scenario().mode == Mode::Explore).then(Instructor::default);
    world.ui_state.show_inside = false;
    world
}

/// A world and what the panel asked for.
pub struct State {
    pub world: World,
    pub papers: Papers,
    pub out: Vec<Command>,
    dressed: bool,
}

/// One panel on a screen of its own.
pub struct Desk {
    pub harness: Harness<'static, State>,
}

impl Desk {
    pub fn new(panel: Panel, size: egui::Vec2, world: World) -> Self {
        let app = move |ui: &mut egui::Ui, state: &mut State| {
            if !state.dressed {
                // Fonts count from the next frame on.
                ui.ctx().set_fonts(fonts::definitions());
                theme::DARK.apply(ui.ctx());
                state.dressed = true;
                return;
            }
            // The harness keeps a margin of 8; the panel gets exactly its size.
            let rect = egui::Rect::from_min_size(ui.max_rect().min, size);
            let State { world, papers, out, .. } = state;
            world.read();
            ui.scope_builder(egui::UiBuilder::new().max_rect(rect), |ui| {
                ui.set_clip_rect(rect.expand(1.0));
                panel(ui, &world.view(), papers, out);
            });
        };
        let state = State { world, papers: Papers::default(), out: Vec::new(), dressed: false };
        let mut harness =
            Harness::builder().with_size(size + egui::vec2(16.0, 16.0)).build_ui_state(app, state);
        harness.run_steps(3);
        Self { harness }
    }

    /// Click the control with this name.
    pub fn click(&mut self, label: &str) {
        self.harness.run_steps(1);
        self.harness.get_by_label(label).click();
        self.harness.run_steps(2);
    }

    /// What was asked for since the last time.
    pub fn taken(&mut self) -> Vec<Command> {
        std::mem::take(&mut self.harness.state_mut().out)
    }
}
