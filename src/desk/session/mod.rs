//! A session at the desk. It turns commands and wall time into a [`DeskView`] and knows no window.
//!
//! By job: what runs ([`run`]), what is seen of it ([`seen`]), where the person is ([`seat`]), what they have begun
//! ([`Papers`]), what is kept ([`keep`]), what is reviewed ([`review`]), the how-to ([`howto`]) and what came of the
//! work ([`outcome`]). The session only says which of them a command is for.

mod howto;
mod keep;
mod marks;
mod outcome;
mod pace;
mod review;
mod run;
mod seat;
mod seen;
#[cfg(test)]
mod tests;

use std::time::{Duration, Instant};

use self::howto::HowTo;
use self::keep::Keeper;
use self::marks::mark;
use self::outcome::Outcome;
use self::review::Review;
use self::run::{Run, new_bench};
use self::seat::Seat;
use self::seen::Seen;
use super::Command;
use super::brief::inside_allowed;
use super::loop_view::Motion;
use super::papers::Papers;
use super::screen::Screen;
use super::shelf::{self, Listed};
use super::theme::Theme;
use super::view::DeskView;
use crate::bench::{Action, Bench};
use crate::scenario::Scenario;

/// A session.
pub struct Session {
    run: Run,
    seen: Seen,
    /// The bench or the choices changed since it was read.
    stale: bool,
    seat: Seat,
    papers: Papers,
    keeper: Keeper,
    review: Review,
    howto: HowTo,
    outcome: Outcome,
    shelf: Vec<Listed>,
}

impl Session {
    /// A session on a scenario, at tick 0, running.
    ///
    /// # Errors
    /// The scenario's bench cannot be built, for people.
    pub fn new(scenario: &Scenario) -> Result<Self, String> {
        Self::of(new_bench(scenario)?)
    }

    /// A session on a bench as it stands, running.
    fn of(bench: Bench) -> Result<Self, String> {
        let show_inside = inside_allowed(bench.scenario());
        Ok(Self {
            seen: Seen::of(&bench, show_inside)?,
            stale: true,
            seat: Seat::new(show_inside),
            papers: Papers::default(),
            keeper: Keeper::new(&bench.scenario().id),
            review: Review::default(),
            howto: HowTo::default(),
            outcome: Outcome::default(),
            shelf: shelf::list(),
            run: Run::of(bench),
        })
    }

    /// Wall time passes; at most `budget` of work is done on the model.
    pub fn pass(&mut self, wall_s: f64, budget: Duration) {
        if let Err(reason) = self.review.collect() {
            self.seat.say(&reason);
        }
        if let Some(reason) = self.keeper.pass(wall_s, &self.run.bench) {
            self.seat.say(&reason);
        }
        self.seat.pass(wall_s);
        self.stale = true;
        if !self.time_runs() {
            self.run.rest();
            return;
        }
        self.run.owe(wall_s);
        let started = Instant::now();
        loop {
            let ticks = self.run.due();
            if ticks == 0 || started.elapsed() > budget {
                break;
            }
            self.advance(ticks);
            self.run.paid(ticks);
        }
        if !self.seat.ui_state.reduced_motion {
            self.read();
            self.seen.motion.advance(wall_s.min(0.1), &self.seen.snapshot);
        }
    }

    fn advance(&mut self, ticks: u32) {
        self.run.advance(ticks);
        // What an instrument shows between two looks is not seen, so a how-to looks oftener than a frame comes.
        self.howto.follow(&self.run.bench);
        self.seen.record(&self.run.bench, self.seat.ui_state.show_inside);
        self.stale = true;
    }

    fn time_runs(&self) -> bool {
        !self.run.paused && self.seat.ui_state.screen.runs()
    }

    /// Read the bench for the panels, unless nothing changed since.
    fn read(&mut self) {
        if std::mem::take(&mut self.stale) {
            let state = &self.seat.ui_state;
            self.seen.read(&self.run, state, self.seat.unfold() > 0.0);
            self.howto.read(&self.run.bench);
            self.outcome.read(&self.run.bench, state.screen == Screen::Bay);
        }
    }

    /// What the panels read now, and the papers that they write on.
    pub fn desk(&mut self) -> (DeskView<'_>, &mut Papers) {
        self.read();
        let Self { run, seen, seat, papers, keeper, review, howto, outcome, shelf, .. } = self;
        let (run, seen, seat) = (&*run, &*seen, &*seat);
        let view = DeskView {
            snapshot: &seen.snapshot,
            ghost: seen.ghost(),
            brief: &seen.brief,
            log: &seen.log,
            instructor: seen.instructor.as_ref(),
            history: &seen.history,
            dome: &seen.dome,
            motion: &seen.motion,
            units: seat.units,
            theme: &seat.theme,
            speed: run.speed(),
            lagging_at: run.lagging_at(),
            paused: run.paused,
            unfold: seat.unfold(),
            clock_s: seat.clock_s,
            shelf,
            kept: keeper.has_last(),
            rig: &seen.rig,
            amps: &seen.amps,
            debrief: review.debrief(),
            guide: howto.shown(),
            facts: outcome.told(),
            ui_state: &seat.ui_state,
        };
        (view, papers)
    }

    /// What the panels read now.
    pub fn view(&mut self) -> DeskView<'_> {
        self.desk().0
    }

    /// The theme in force.
    pub fn theme(&self) -> &Theme {
        &self.seat.theme
    }

    /// The person wants to leave.
    pub fn wants_to_quit(&self) -> bool {
        self.seat.quit
    }

    /// How long the drawing may stay as it is.
    pub fn may_rest(&self) -> Duration {
        let state = &self.seat.ui_state;
        let moves =
            |moves: fn(&crate::bench::Snapshot) -> bool| moves(&self.seen.snapshot) && !state.reduced_motion;
        Duration::from_millis(if self.seat.unfolds() {
            16
        } else if !self.time_runs() {
            500
        } else if state.screen == Screen::Bay && moves(Motion::moves_in_bay) {
            33
        } else if state.screen == Screen::Bench && moves(Motion::moves) {
            16
        } else {
            100
        })
    }

    /// Open on the list of scenarios, with word of what could not be opened.
    pub fn begin_at_list(&mut self, reason: String) {
        self.seat.ui_state.screen = Screen::Start;
        self.seat.ui_state.notice = Some(reason);
        self.stale = true;
    }

    /// Carry out a wish.
    pub fn command(&mut self, command: Command) {
        let state = &mut self.seat.ui_state;
        match command {
            Command::Act(action) => self.act(action),
            Command::TogglePause => self.run.paused = !self.run.paused,
            Command::Speed(speed) => self.run.set_speed(speed),
            Command::SingleTick => {
                self.run.paused = true;
                self.advance(1);
            }
            Command::Restart => self.open(Ok(self.run.bench.scenario().clone()), Screen::Bench),
            Command::OpenScenario(key) => self.open(shelf::open(&key), Screen::Bench),
            Command::ExploreRig(id) => self.open(shelf::explore(&id), Screen::Bench),
            Command::ExploreBay(id) => self.open(shelf::explore_bay(&id), Screen::Bay),
            Command::TakeUp => self.take_up(),
            Command::Show(screen) => state.screen = screen,
            Command::Toggle(screen) => {
                let there = !screen.needs_bay() || self.run.bench.bay().is_some();
                state.screen = if state.screen == screen || !there { Screen::Bench } else { screen };
            }
            Command::Follow(id) => {
                if let Err(reason) = self.howto.choose(id.as_deref(), &self.run.bench) {
                    self.seat.say(&reason);
                }
            }
            Command::FollowStep(step) => self.howto.begin(step, &self.run.bench),
            Command::ToggleInside if self.seen.brief.inside_allowed => {
                state.show_inside = !state.show_inside;
            }
            Command::ToggleInside => {
                self.seat.say("The inside stays shut in this scenario: use your instruments.");
            }
            Command::LookInside => {
                state.screen = Screen::Bench;
                // Once the cause is named there is nothing left to give away.
                state.show_inside |= self.seen.brief.inside_allowed || self.run.bench.diagnosis().is_some();
            }
            Command::ToggleUnfold => state.unfolded = !state.unfolded,
            Command::ToggleHelp => state.help = !state.help,
            Command::ChooseTool(tool) => state.tool = tool,
            Command::DismissNotice => state.notice = None,
            Command::ToggleReducedMotion => state.reduced_motion = !state.reduced_motion,
            Command::NextUnits => self.seat.units = self.seat.units.next(),
            Command::ToggleTheme => self.seat.toggle_theme(),
            Command::Quit => {
                drop(self.keeper.write(&self.run.bench));
                self.seat.quit = true;
            }
        }
        self.howto.follow(&self.run.bench);
        self.stale = true;
    }

    fn act(&mut self, action: Action) {
        let mark = mark(&action);
        let answered = matches!(action, Action::Diagnose(_));
        match self.run.apply(action) {
            Ok(()) => {
                self.seat.ui_state.notice = None;
                if answered {
                    self.review.start(&self.run.bench);
                }
                if let Some(text) = mark {
                    self.seen.history.mark(self.run.bench.time_s(), text);
                }
            }
            Err(refusal) => self.seat.say(&refusal.to_string()),
        }
    }

    /// Open a case on a page. What was done so far stays on disk before the bench is cleared.
    fn open(&mut self, scenario: Result<Scenario, String>, screen: Screen) {
        if scenario.is_ok() {
            drop(self.keeper.write(&self.run.bench));
        }
        self.turn_to(scenario.and_then(|scenario| Self::new(&scenario)), screen);
    }

    /// Go on where the newest kept session was left.
    fn take_up(&mut self) {
        drop(self.keeper.write(&self.run.bench));
        let Some(bench) = self.keeper.take_up_last() else { return };
        self.turn_to(bench.and_then(Self::of), Screen::Bench);
        if self.run.bench.diagnosis().is_some() {
            self.review.start(&self.run.bench);
        }
    }

    /// Another session in place of this one; the person and how they like to see things stay.
    fn turn_to(&mut self, fresh: Result<Self, String>, screen: Screen) {
        match fresh {
            Ok(fresh) => {
                let papers = self.papers.fresh();
                let old = std::mem::replace(self, fresh);
                let new = std::mem::replace(&mut self.seat, old.seat);
                self.seat.turn_to(new);
                self.seat.ui_state.screen = screen;
                self.papers = papers;
            }
            Err(reason) => self.seat.say(&reason),
        }
    }
}
