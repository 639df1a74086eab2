//! A session at the desk: the bench, the healthy ghost beside it, and the choices of the person. It turns
//! commands and wall time into a [`DeskView`] and knows no window.

use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use super::history::History;
use super::keep::{self, Keeper};
use super::loop_view::{DomeData, Motion};
use super::pace::Pace;
use super::theme::{DARK, LIGHT, Theme};
use super::view::{DeskView, Listed, Screen, UiState};
use super::{Command, shelf};
use crate::bay::facts::Facts;
use crate::bench::{Action, Bench, BenchError, Inside, PointState, Snapshot};
use crate::lesson::{Debrief, review};
use crate::procedure::{self, Guide, Part};
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;
use crate::scenario::{Mode, Scenario};
use crate::units::Units;

/// Unfolding takes so long [s].
const UNFOLD_S: f64 = 0.5;
/// Ticks done between two looks at the clock.
const STRETCH: u32 = 10;
/// Seed of the instruments' noise, until a session chooses its own.
const SEED: u64 = 1;
/// What came of the work in the bay is gathered so often [ticks].
const FACTS_TICKS: u64 = 20;

/// A session.
pub struct Session {
    bench: Bench,
    ghost: Option<Bench>,
    snapshot: Snapshot,
    ghost_inside: Option<Inside>,
    history: History,
    motion: Motion,
    dome: DomeData,
    pace: Pace,
    shelf: Vec<Listed>,
    debrief: Option<Debrief>,
    /// The debrief being worked out beside the drawing.
    reviewing: Option<JoinHandle<Result<Option<Debrief>, BenchError>>>,
    circuit_points: Vec<(String, String)>,
    rig: Rig,
    amps: Vec<f64>,
    guide: Option<Guide>,
    guide_parts: Vec<Part>,
    facts: Option<Facts>,
    /// When they were gathered.
    facts_tick: u64,
    keeper: Keeper,
    /// A kept session that can be taken up again.
    kept: Option<std::path::PathBuf>,
    /// Choices of the person.
    pub ui_state: UiState,
    units: Units,
    theme: Theme,
    speed: u32,
    paused: bool,
    unfold: f64,
    clock_s: f64,
    quit: bool,
}

fn new_bench(scenario: &Scenario) -> Result<Bench, String> {
    Bench::new(scenario, SEED).map_err(|e| e.to_string())
}

/// The healthy twin of an Explore scenario.
fn healthy_twin(scenario: &Scenario) -> Option<Bench> {
    (scenario.mode == Mode::Explore).then(|| {
        let healthy = Scenario { faults: Vec::new(), ..scenario.clone() };
        new_bench(&healthy).ok()
    })?
}

impl Session {
    /// A session on a scenario, at tick 0, running.
    pub fn new(scenario: &Scenario) -> Result<Self, String> {
        Self::of(new_bench(scenario)?)
    }

    /// A session on a bench as it stands, running.
    fn of(bench: Bench) -> Result<Self, String> {
        let scenario = &bench.scenario().clone();
        let rig = Rig::load(&scenario.rig).map_err(|e| e.to_string())?;
        let show_inside = scenario.mode == Mode::Explore || scenario.inside_view;
        let mut session = Self {
            snapshot: bench.snapshot(show_inside),
            ghost: healthy_twin(scenario),
            circuit_points: bench
                .circuit()
                .points()
                .iter()
                .map(|p| (p.id.clone(), p.label.clone()))
                .collect(),
            bench,
            amps: Vec::new(),
            ghost_inside: None,
            history: History::new(),
            motion: Motion::default(),
            dome: Refrigerant::by_name(&rig.plant.refrigerant).map_or_else(DomeData::r134a, DomeData::of),
            rig,
            pace: Pace::default(),
            shelf: shelf::list(),
            debrief: None,
            reviewing: None,
            guide: None,
            guide_parts: Vec::new(),
            facts: None,
            facts_tick: 0,
            keeper: Keeper::new(&scenario.id),
            kept: keep::newest(),
            ui_state: UiState { show_inside, ..UiState::default() },
            units: Units::default(),
            theme: DARK,
            speed: 1,
            paused: false,
            unfold: 0.0,
            clock_s: 0.0,
            quit: false,
        };
        session.look();
        Ok(session)
    }

    /// Wall time passes; at most `budget` of work is done on the model.
    pub fn pass(&mut self, wall_s: f64, budget: Duration) {
        self.clock_s += wall_s;
        self.collect_review();
        if let Some(reason) = self.keeper.pass(wall_s, &self.bench) {
            self.say(&reason);
        }
        let step = if self.ui_state.reduced_motion { 1.0 } else { wall_s / UNFOLD_S };
        let way = if self.ui_state.unfolded { step } else { -step };
        self.unfold = (self.unfold + way).clamp(0.0, 1.0);
        if self.paused || !self.time_runs() {
            self.pace.rest();
        } else {
            self.pace.owe(wall_s, self.speed);
            let started = Instant::now();
            loop {
                let ticks = self.pace.due(STRETCH);
                if ticks == 0 || started.elapsed() > budget {
                    break;
                }
                self.advance(ticks);
                self.pace.paid(ticks);
            }
            if !self.ui_state.reduced_motion {
                self.motion.advance(wall_s.min(0.1), &self.snapshot);
            }
        }
        self.look();
    }

    fn advance(&mut self, ticks: u32) {
        self.bench.advance(ticks);
        if let Some(ghost) = &mut self.ghost {
            ghost.advance(ticks);
        }
        self.look();
        self.history.record(&self.snapshot);
    }

    /// Time goes on where the person can see what it does: at the bench, at the wiring and in the bay.
    fn time_runs(&self) -> bool {
        matches!(self.ui_state.screen, Screen::Bench | Screen::Rig | Screen::Bay)
    }

    fn look(&mut self) {
        self.look_at_bay();
        self.amps.clear();
        if self.ui_state.show_inside && self.ui_state.screen == Screen::Rig {
            let circuit = self.bench.circuit();
            self.amps.extend(circuit.parts().iter().map(|p| circuit.current(&p.id).unwrap_or(0.0)));
        }
        self.snapshot = self.bench.snapshot(self.ui_state.show_inside);
        let ghost = self.ghost.as_ref().filter(|_| self.ui_state.show_inside && self.unfold > 0.0);
        self.ghost_inside = ghost.and_then(|ghost| ghost.snapshot(true).inside);
    }

    /// Follow the how-to, and gather what came of the work where that may be told.
    fn look_at_bay(&mut self) {
        if let Some(guide) = &mut self.guide {
            guide.follow(&self.bench);
            self.guide_parts = guide.parts(&self.bench);
        }
        let told = self.ui_state.screen == Screen::Bay
            && self
                .bench
                .bay()
                .is_some_and(|bay| bay.handed_over.is_some() || self.bench.scenario().mode == Mode::Explore);
        if !told {
            self.facts = None;
        } else if self.facts.is_none() || self.bench.tick() >= self.facts_tick + FACTS_TICKS {
            self.facts = self.bench.bay_facts();
            self.facts_tick = self.bench.tick();
        }
    }

    /// What the panels read now.
    pub fn view(&self) -> DeskView<'_> {
        let apart = |ghost: &&Inside| self.snapshot.inside.as_ref().is_some_and(|i| differs(i, ghost));
        let unfold = self.unfold as f32;
        DeskView {
            snapshot: &self.snapshot,
            ghost: self.ghost_inside.as_ref().filter(apart),
            scenario: self.bench.scenario(),
            journal: self.bench.journal(),
            history: &self.history,
            dome: &self.dome,
            motion: &self.motion,
            units: self.units,
            theme: &self.theme,
            speed: self.speed,
            lagging_at: self.pace.lagging_at(),
            paused: self.paused,
            unfold: unfold * unfold * (3.0 - 2.0 * unfold),
            clock_s: self.clock_s,
            shelf: &self.shelf,
            kept: self.kept.is_some(),
            circuit_points: &self.circuit_points,
            rig: &self.rig,
            amps: &self.amps,
            debrief: self.debrief.as_ref(),
            guide: self.guide.as_ref().map(|guide| (guide, self.guide_parts.as_slice())),
            facts: self.facts.as_ref(),
            ui_state: &self.ui_state,
        }
    }

    /// The theme in force.
    pub fn theme(&self) -> &Theme {
        &self.theme
    }

    /// The person wants to leave.
    pub fn wants_to_quit(&self) -> bool {
        self.quit
    }

    /// How long the drawing may stay as it is.
    pub fn may_rest(&self) -> Duration {
        let unfolding = self.unfold > 0.0 && self.unfold < 1.0;
        let turning = self.unfold != f64::from(u8::from(self.ui_state.unfolded));
        if unfolding || turning {
            Duration::from_millis(16)
        } else if self.paused || !self.time_runs() {
            Duration::from_millis(500)
        } else if self.ui_state.screen == Screen::Rig {
            Duration::from_millis(100)
        } else if self.ui_state.screen == Screen::Bay {
            let moves = Motion::moves_in_bay(&self.snapshot) && !self.ui_state.reduced_motion;
            Duration::from_millis(if moves { 33 } else { 100 })
        } else if Motion::moves(&self.snapshot) && !self.ui_state.reduced_motion {
            Duration::from_millis(16)
        } else {
            Duration::from_millis(100)
        }
    }

    /// Carry out a wish.
    pub fn command(&mut self, command: Command) {
        match command {
            Command::Act(action) => self.act(action),
            Command::TogglePause => self.paused = !self.paused,
            Command::Speed(speed) => self.speed = speed.clamp(1, 20),
            Command::SingleTick => {
                self.paused = true;
                self.advance(1);
            }
            Command::Restart => self.open(&self.bench.scenario().clone()),
            Command::ToggleUnfold => self.ui_state.unfolded = !self.ui_state.unfolded,
            Command::NextUnits => self.units = self.units.next(),
            Command::ToggleInside => self.toggle_inside(),
            Command::ToggleTheme => self.theme = if self.theme.dark { LIGHT } else { DARK },
            Command::OpenScenario(key) => match shelf::open(&key) {
                Ok(scenario) => self.open(&scenario),
                Err(reason) => self.say(&reason),
            },
            Command::ExploreRig(id) => match shelf::explore(&id) {
                Ok(scenario) => self.open(&scenario),
                Err(reason) => self.say(&reason),
            },
            Command::ExploreBay(id) => match shelf::explore_bay(&id) {
                Ok(scenario) => {
                    self.open(&scenario);
                    self.ui_state.screen = Screen::Bay;
                }
                Err(reason) => self.say(&reason),
            },
            Command::ShowStart => self.ui_state.screen = Screen::Start,
            Command::ShowDebrief => self.ui_state.screen = Screen::Debrief,
            Command::ToggleRig => {
                let open = self.ui_state.screen == Screen::Rig;
                self.ui_state.screen = if open { Screen::Bench } else { Screen::Rig };
            }
            Command::ToggleBay => {
                let open = self.ui_state.screen == Screen::Bay;
                let there = self.snapshot.bay.is_some();
                self.ui_state.screen = if open || !there { Screen::Bench } else { Screen::Bay };
            }
            Command::Follow(id) => self.follow(id.as_deref()),
            Command::FollowStep(step) => {
                if let Some(guide) = &mut self.guide {
                    guide.begin(step, &self.bench);
                }
            }
            Command::ShowBench => self.ui_state.screen = Screen::Bench,
            Command::ToggleHelp => self.ui_state.help = !self.ui_state.help,
            Command::ChooseTool(tool) => self.ui_state.tool = tool,
            Command::LookInside => {
                self.ui_state.screen = Screen::Bench;
                self.ui_state.show_inside = true;
            }
            Command::DismissNotice => self.ui_state.notice = None,
            Command::ToggleReducedMotion => self.ui_state.reduced_motion = !self.ui_state.reduced_motion,
            Command::TakeUp => self.take_up(),
            Command::Quit => {
                drop(self.keeper.write(&self.bench));
                self.quit = true;
            }
        }
        self.look();
    }

    fn act(&mut self, action: Action) {
        let mark = mark(&action);
        let answered = matches!(action, Action::Diagnose(_));
        if let Some(ghost) = self.ghost.as_mut().filter(|_| matches!(action, Action::Set(_))) {
            // The twin feels every knob; what it refuses the bench refuses too.
            let _refused_twice = ghost.apply(action.clone());
        }
        match self.bench.apply(action) {
            Ok(()) => {
                self.ui_state.notice = None;
                if answered {
                    self.start_review();
                }
                if let Some(text) = mark {
                    self.history.mark(self.snapshot.time_s, text);
                }
            }
            Err(refusal) => self.say(&refusal.to_string()),
        }
    }

    /// Start working out the debrief; the bench stands still for it, so a copy may be played again elsewhere.
    fn start_review(&mut self) {
        let bench = self.bench.clone();
        self.debrief = None;
        self.reviewing = Some(std::thread::spawn(move || review(&bench)));
    }

    fn collect_review(&mut self) {
        if !self.reviewing.as_ref().is_some_and(JoinHandle::is_finished) {
            return;
        }
        match self.reviewing.take().map(JoinHandle::join) {
            Some(Ok(Ok(debrief))) => self.debrief = debrief,
            Some(Ok(Err(reason))) => self.say(&format!("the debrief could not be worked out: {reason}")),
            Some(Err(_)) => {
                self.say("The debrief could not be worked out: the model stopped. Your readings are kept.");
            }
            None => {}
        }
    }

    fn follow(&mut self, id: Option<&str>) {
        self.guide_parts.clear();
        self.guide = match id.map(procedure::load) {
            Some(Ok(procedure)) => Some(Guide::new(procedure, &self.bench)),
            Some(Err(bad)) => {
                self.say(&bad.to_string());
                None
            }
            None => None,
        };
    }

    fn toggle_inside(&mut self) {
        if self.view().inside_allowed() {
            self.ui_state.show_inside = !self.ui_state.show_inside;
        } else {
            self.say("The inside stays shut in this scenario: use your instruments.");
        }
    }

    fn say(&mut self, text: &str) {
        let mut letters = text.chars();
        let start: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
        let mut sentence = start + letters.as_str();
        if !sentence.ends_with(['.', '!', '?', ')']) {
            sentence.push('.');
        }
        self.ui_state.notice = Some(sentence);
    }

    fn open(&mut self, scenario: &Scenario) {
        // What was done so far stays on disk before the bench is cleared.
        drop(self.keeper.write(&self.bench));
        self.replace_by(Self::new(scenario));
    }

    /// Go on where the newest kept session was left.
    fn take_up(&mut self) {
        drop(self.keeper.write(&self.bench));
        let Some(path) = self.kept.clone() else { return };
        self.replace_by(keep::take_up(&path).and_then(Self::of));
        if self.bench.diagnosis().is_some() {
            self.start_review();
        }
    }

    fn replace_by(&mut self, fresh: Result<Self, String>) {
        match fresh {
            Ok(fresh) => {
                let keep = UiState {
                    screen: Screen::Bench,
                    show_inside: fresh.ui_state.show_inside,
                    unfolded: self.ui_state.unfolded,
                    reduced_motion: self.ui_state.reduced_motion,
                    ..UiState::default()
                };
                let (units, theme, unfold, clock_s) = (self.units, self.theme, self.unfold, self.clock_s);
                *self = Self { ui_state: keep, units, theme, unfold, clock_s, ..fresh };
            }
            Err(reason) => self.say(&reason),
        }
    }
}

/// A few words on the strips for actions that change the course of things.
fn mark(action: &Action) -> Option<String> {
    let switch = |what: &str, on: bool| format!("{what} {}", if on { "on" } else { "off" });
    Some(match action {
        // What slides from value to value would crowd the strips.
        Action::Set(change) if change.number().is_none() => change.words(),
        Action::Hoses(on) => switch("hoses", *on),
        Action::Jumper(Some(relay)) => format!("jumper on {} relay", format!("{relay:?}").to_lowercase()),
        Action::Jumper(None) => "jumper off".into(),
        Action::JumperBetween(Some(_)) => "jumper on".into(),
        Action::JumperBetween(None) => "jumper off".into(),
        Action::Unplug(_, out) => if *out { "unplugged" } else { "plugged in" }.into(),
        Action::SwapRelays(..) => "relays swapped".into(),
        Action::RenewFuse(_) => "new fuse".into(),
        Action::Isolate(_, open) => if *open { "isolated" } else { "switched on" }.into(),
        Action::ImposeFault { .. } | Action::RampFault { .. } => "fault set".into(),
        Action::ClearFault { .. } => "fault cleared".into(),
        _ => return None,
    })
}

/// Is the loop visibly away from its healthy twin?
fn differs(a: &Inside, b: &Inside) -> bool {
    let apart = |a: &PointState, b: &PointState| {
        (a.h_j_per_kg - b.h_j_per_kg).abs() > 2.0e3 || (a.p_pa / b.p_pa.max(1.0)).ln().abs() > 0.025
    };
    a.points.iter().zip(&b.points).any(|(a, b)| apart(a, b))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::demo;

    fn session() -> Session {
        Session::new(&demo::scenario()).expect("the demo opens")
    }

    #[test]
    fn ticks_follow_wall_time_and_speed_whatever_the_frame_rate() {
        let mut hashes = Vec::new();
        for fps in [10_u32, 30, 144] {
            let mut session = session();
            session.command(Command::Speed(5));
            for _ in 0..fps * 4 {
                session.pass(1.0 / f64::from(fps), Duration::from_secs(5));
            }
            while session.bench.tick() < 400 {
                session.advance(1);
            }
            hashes.push((session.bench.tick(), session.bench.state_hash()));
        }
        assert!(hashes.windows(2).all(|w| w[0] == w[1]), "{hashes:?}");
    }

    #[test]
    fn paused_time_stands_and_single_ticks_move_it() {
        let mut session = session();
        session.command(Command::TogglePause);
        session.pass(3.0, Duration::from_secs(1));
        assert_eq!(session.bench.tick(), 0);
        session.command(Command::SingleTick);
        assert_eq!(session.bench.tick(), 1);
    }

    #[test]
    fn the_inside_stays_shut_where_it_is_not_granted() {
        let practice = Scenario { mode: Mode::Practice, inside_view: false, ..demo::scenario() };
        let mut session = Session::new(&practice).expect("opens");
        session.command(Command::ToggleInside);
        assert!(session.view().snapshot.inside.is_none());
        assert!(session.ui_state.notice.is_some());
    }

    #[test]
    fn hints_go_on_record_until_there_are_none_left() {
        let mut session = session();
        let all = session.view().scenario.hints.len();
        assert!(all > 0);
        for taken in 1..=all {
            session.command(Command::Act(Action::Hint));
            let recorded = session.view().journal.iter().filter(|(_, a)| *a == Action::Hint).count();
            assert_eq!((recorded, &session.ui_state.notice), (taken, &None));
        }
        session.command(Command::Act(Action::Hint));
        assert_eq!(session.view().journal.len(), all);
        assert_eq!(session.ui_state.notice.as_deref(), Some("There are no more hints."));
    }

    #[test]
    fn the_bay_opens_only_where_there_is_one_and_every_rig_has_one() {
        let mut plain = session();
        plain.command(Command::ToggleBay);
        assert_eq!(plain.ui_state.screen, Screen::Bench);
        for rig in Rig::ids() {
            plain.command(Command::ExploreBay(rig.to_owned()));
            assert_eq!((plain.ui_state.screen, &plain.ui_state.notice), (Screen::Bay, &None), "{rig}");
            assert!(plain.view().snapshot.bay.is_some() && plain.view().rig.id == rig, "{rig}");
        }
        plain.command(Command::Follow(Some("hook_up".into())));
        assert!(plain.view().guide.is_some_and(|(guide, parts)| guide.step() == 0 && !parts.is_empty()));
        plain.command(Command::ToggleBay);
        assert_eq!(plain.ui_state.screen, Screen::Bench);
    }

    #[test]
    fn restarting_keeps_units_and_theme() {
        let mut session = session();
        session.command(Command::NextUnits);
        session.command(Command::ToggleTheme);
        session.pass(1.0, Duration::from_secs(1));
        session.command(Command::Restart);
        assert_eq!((session.bench.tick(), session.units, session.theme.dark), (0, Units::Kpa, false));
    }
}
