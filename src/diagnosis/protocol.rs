//! A fixed piece of work on a car: what a thorough technician does from the cold car to the equalised one, with every
//! tool. Two faults are held against each other by what it reads.

use crate::bench::{Action, Relay, TICK_S};
use crate::circuit::spec::GROUND;
use crate::instrument::{AirPlace, MeterMode, PipePlace, Probe, Tool};
use crate::knobs::{Change, Controls};
use crate::perceive::Sense;
use crate::rig::Rig;
use crate::scenario::{Mode, Scenario};

/// How long a thermometer stays on its place [s]: five time constants of the clamp.
const STAY_S: f64 = 20.0;
/// Until the display of the meter stands on a point [s].
const DISPLAY_S: f64 = 0.5;

/// One tool on one place, watched through a moment.
#[derive(Clone, Debug)]
pub struct Watched {
    /// When.
    pub moment: &'static str,
    /// Tool and place.
    pub probe: Probe,
    /// Its readings, as indices into the predictions of a shadow bench.
    pub readings: Vec<usize>,
}

/// The work, as a journal that shadow benches play.
#[derive(Clone, Debug)]
pub struct Protocol {
    scenario: Scenario,
    journal: Vec<(u64, Action)>,
    watched: Vec<Watched>,
    readings: usize,
    tick: u64,
    points: Vec<String>,
}

impl Protocol {
    /// The work on a rig at an outside temperature [°C], about half an hour.
    pub fn new(rig: &Rig, ambient_c: f64) -> Self {
        let mut p = Self {
            scenario: soaked(rig, ambient_c),
            journal: Vec::new(),
            watched: Vec::new(),
            readings: 0,
            tick: 0,
            points: rig.circuit.points.iter().map(|point| point.id.clone()).collect(),
        };
        p.wait(5.0);
        p.look("before the start");
        p.act(Action::Hoses(true));
        p.act(Action::Place(Probe::SightGlass));
        p.wait(55.0);
        p.gauges("at rest");
        for action in [
            Action::Set(Change::EngineOn(true)),
            Action::Set(Change::AcRequest(true)),
            Action::Set(Change::BlowerPct(100.0)),
        ] {
            p.act(action);
        }
        p.watch("first minute");
        p.wait(180.0);
        p.walk("at idle");
        p.act(Action::Set(Change::EngineRpm(1500.0)));
        p.wait(120.0);
        p.walk("at 1500 rev/min");
        p.act(Action::Set(Change::EngineRpm(2200.0)));
        p.act(Action::Set(Change::RoadSpeedKmh(80.0)));
        p.wait(120.0);
        p.walk("at 80 km/h");
        p.act(Action::Set(Change::RoadSpeedKmh(0.0)));
        p.act(Action::Set(Change::EngineRpm(900.0)));
        p.wait(60.0);
        p.watch("at idle after the road");
        for (relay, moment) in [(Relay::Fan, "fan relay bridged"), (Relay::Clutch, "clutch relay bridged")] {
            p.act(Action::Jumper(Some(relay)));
            p.watch(moment);
        }
        p.act(Action::Jumper(None));
        p.act(Action::Set(Change::EngineOn(false)));
        p.wait(5.0);
        p.look("just stopped");
        p.wait(25.0);
        p.look("half a minute after the stop");
        p.wait(270.0);
        p.look("five minutes after the stop");
        p
    }

    /// The car it is done on.
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }
    /// What is done.
    pub fn journal(&self) -> &[(u64, Action)] {
        &self.journal
    }
    /// When it ends.
    pub fn end_tick(&self) -> u64 {
        self.tick
    }
    /// What is watched, in order.
    pub fn watched(&self) -> &[Watched] {
        &self.watched
    }

    fn act(&mut self, action: Action) {
        self.journal.push((self.tick, action));
    }
    fn wait(&mut self, seconds: f64) {
        self.tick += libm::round(seconds / TICK_S) as u64;
    }
    fn read(&mut self, moment: &'static str, probe: Probe) {
        let n = self.readings;
        match self.watched.iter_mut().find(|w| w.moment == moment && w.probe == probe) {
            Some(watched) => watched.readings.push(n),
            None => self.watched.push(Watched { moment, probe: probe.clone(), readings: vec![n] }),
        }
        self.readings += 1;
        self.act(Action::Read(probe));
    }
    fn gauges(&mut self, moment: &'static str) {
        for probe in [Probe::LowGauge, Probe::HighGauge, Probe::SightGlass] {
            self.read(moment, probe);
        }
    }
    /// Everything that takes no time, gauges, glass and senses, and then the meter on one point after the other.
    fn look(&mut self, moment: &'static str) {
        self.notice(moment);
        self.round(moment);
    }
    /// Gauges, glass and senses.
    fn notice(&mut self, moment: &'static str) {
        self.gauges(moment);
        for sense in Sense::all() {
            self.read(moment, Probe::Sense(sense));
        }
    }
    /// The meter on one point after the other, each until its display stands.
    fn round(&mut self, moment: &'static str) {
        for point in self.points.clone() {
            let volts = Probe::Meter { mode: MeterMode::VoltsDc, red: point, black: GROUND.into() };
            self.act(Action::Place(volts.clone()));
            self.wait(DISPLAY_S);
            self.read(moment, volts);
        }
    }
    /// Some time with the meter's round at its end, or as long as the round takes.
    fn busy(&mut self, seconds: f64, moment: &'static str) {
        self.wait((seconds - DISPLAY_S * self.points.len() as f64).max(0.0));
        self.round(moment);
    }
    /// A minute of looking, or six rounds of the meter.
    fn watch(&mut self, moment: &'static str) {
        for _ in 0..6 {
            self.busy(10.0, moment);
            self.notice(moment);
        }
    }
    /// Twice round with clamp and air thermometer, looking at everything else on the way: four minutes, so that a cycling
    /// clutch shows more than one phase of its cycle.
    fn walk(&mut self, moment: &'static str) {
        for (i, pipe) in PipePlace::ALL.into_iter().enumerate().cycle().take(2 * PipePlace::ALL.len()) {
            let air = AirPlace::ALL.get(i).copied();
            let probes: Vec<Probe> =
                [Some(Probe::Pipe(pipe)), air.map(Probe::Air)].into_iter().flatten().collect();
            for probe in &probes {
                self.act(Action::Place(probe.clone()));
            }
            self.busy(STAY_S, moment);
            for probe in probes {
                self.read(moment, probe);
            }
            self.notice(moment);
        }
    }
}

/// The rig parked and soaked, every tool on the bench.
fn soaked(rig: &Rig, ambient_c: f64) -> Scenario {
    let start =
        Controls { engine_on: false, ac_request: false, blower_pct: 0.0, ambient_c, ..Controls::default() };
    Scenario {
        format: 1,
        id: "compare".into(),
        title: "Two faults compared".into(),
        unit: String::new(),
        tasks: Vec::new(),
        trains: String::new(),
        mode: Mode::Practice,
        work_order: String::new(),
        rig: rig.id.clone(),
        start,
        comes_on_after_s: 0.0,
        moments: Vec::new(),
        faults: Vec::new(),
        tools: Tool::ALL.to_vec(),
        hoses_fitted: false,
        bay: None,
        inside_view: false,
        accepted_causes: Vec::new(),
        nothing_wrong: false,
        hints: Vec::new(),
        debrief: String::new(),
    }
}
