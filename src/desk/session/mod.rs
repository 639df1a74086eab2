//! A session at the desk. It turns commands and wall time into a [`DeskView`] and knows no window.
//!
//! By job: what runs ([`run`]), what is seen of it ([`seen`]), where the person is ([`seat`]), what they have begun
//! ([`Papers`]), what is kept ([`keep`]), what is reviewed ([`review`]), the how-to ([`howto`]) and what came of the
//! work ([`outcome`]). The session only says which of them a command is for.

mod archive;
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

use self::archive::{Archive, TakenUp};
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
use super::kept::Keeping;
use super::loop_view::Motion;
use super::papers::Papers;
use super::screen::Screen;
use super::shelf::{self, Shelf};
use super::theme::Theme;
use super::view::{DeskView, Working};
use crate::bench::{Action, Bench};
use crate::scenario::Scenario;

/// Needles and numbers follow the bench so often [s of wall time]; what flows and turns moves on in every frame.
const READ_S: f64 = 0.09;

/// A session.
pub struct Session {
    run: Run,
    seen: Seen,
    /// The bench or the choices changed since it was read.
    stale: bool,
    /// Wall time since the bench was read [s].
    read_age_s: f64,
    seat: Seat,
    papers: Papers,
    keeper: Keeper,
    archive: Archive,
    /// What is to be known of a session that was taken up.
    remarks: Vec<String>,
    /// All that a person must know as long as it lasts.
    standing: Vec<String>,
    review: Review,
    howto: HowTo,
    outcome: Outcome,
    shelf: Shelf,
}

impl Session {
    /// A session on a scenario, at tick 0, running.
    ///
    /// # Errors
    /// The scenario's bench cannot be built, for people.
    pub fn new(scenario: &Scenario, place: Keeping) -> Result<Self, String> {
        Self::of(new_bench(scenario)?, place)
    }

    /// A session on a bench as it stands, running.
    fn of(bench: Bench, place: Keeping) -> Result<Self, String> {
        let show_inside = inside_allowed(bench.scenario());
        Ok(Self {
            seen: Seen::of(&bench, show_inside)?,
            stale: true,
            read_age_s: 0.0,
            seat: Seat::new(show_inside),
            papers: Papers::default(),
            keeper: Keeper::new(place, &bench.scenario().id),
            archive: Archive::default(),
            remarks: Vec::new(),
            standing: Vec::new(),
            review: Review::default(),
            howto: HowTo::default(),
            outcome: Outcome::default(),
            shelf: Shelf::default(),
            run: Run::of(bench),
        })
    }

    /// Wall time passes; at most `budget` of work is done on the model.
    pub fn pass(&mut self, wall_s: f64, budget: Duration) {
        if let Err(reason) = self.review.collect() {
            self.seat.say(&reason);
        }
        match self.archive.collect() {
            Some(Ok(taken)) => self.go_on(taken),
            Some(Err(reason)) => self.seat.say(&reason),
            None => {}
        }
        self.keeper.pass(wall_s, &self.run.bench);
        self.seat.pass(wall_s);
        self.shelf.collect(self.seat.ui_state.screen == Screen::Start);
        self.read_age_s += wall_s;
        self.stale |= self.read_age_s >= READ_S;
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
    }

    fn time_runs(&self) -> bool {
        !self.run.paused && self.seat.ui_state.screen.runs()
    }

    /// Read the bench for the panels, unless nothing changed since.
    fn read(&mut self) {
        if std::mem::take(&mut self.stale) {
            self.read_age_s = 0.0;
            let state = &self.seat.ui_state;
            self.seen.read(&self.run, state, self.seat.unfold() > 0.0);
            self.howto.read(&self.run.bench);
            self.outcome.read(&self.run.bench, state.screen == Screen::Bay);
            self.standing.clear();
            self.standing.extend(self.keeper.trouble().map(str::to_owned));
            self.standing.extend(unsolved(&self.run.bench));
            self.standing.extend_from_slice(&self.remarks);
        }
    }

    /// What the panels read now, and the papers that they write on.
    pub fn desk(&mut self) -> (DeskView<'_>, &mut Papers) {
        self.read();
        let Self { run, seen, seat, papers, archive, standing, review, howto, outcome, shelf, .. } = self;
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
            shelf: shelf.listed(),
            kept: archive.kept(),
            standing,
            working: archive.share().map(Working::TakingUp).or(review.share().map(Working::Reviewing)),
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
        // Thirty a second are smooth to the eye; a needle is followed at ten.
        Duration::from_millis(if self.seat.unfolds() {
            33
        } else if !self.time_runs() {
            500
        } else if (state.screen == Screen::Bay && moves(Motion::moves_in_bay))
            || (state.screen == Screen::Bench && moves(Motion::moves))
        {
            33
        } else {
            100
        })
    }

    /// Open on the list of scenarios, with word of what could not be opened.
    pub fn begin_at_list(&mut self, reason: String) {
        self.command(Command::Show(Screen::Start));
        self.seat.ui_state.notice = Some(reason);
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
            Command::TakeUp(path) => self.archive.take_up(path),
            Command::GiveUp => {
                self.archive.give_up();
                self.review.give_up();
                if self.seat.ui_state.screen == Screen::Debrief {
                    self.seat.ui_state.screen = Screen::Bench;
                }
            }
            Command::Show(screen) => {
                state.screen = screen;
                if screen == Screen::Start {
                    self.archive.look(self.keeper.place(), self.keeper.file());
                }
                self.review_if_wanted();
            }
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
                self.keeper.leave(&self.run.bench);
                self.seat.quit = true;
            }
        }
        self.keeper.follow(&self.run.bench);
        self.howto.follow(&self.run.bench);
        self.stale = true;
    }

    /// Somebody looks for the debrief, and nobody works it out: it was left, or the program ended meanwhile.
    fn review_if_wanted(&mut self) {
        let wanted = self.seat.ui_state.screen == Screen::Debrief && self.run.bench.diagnosis().is_some();
        if wanted && self.review.debrief().is_none() && self.review.share().is_none() {
            self.review.start(&self.run.bench);
        }
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

    /// Open a case on a page.
    fn open(&mut self, scenario: Result<Scenario, String>, screen: Screen) {
        let place = self.keeper.place().clone();
        self.turn_to(scenario.and_then(|scenario| Self::new(&scenario, place)), screen);
    }

    /// Go on where a kept session was left.
    fn go_on(&mut self, taken: TakenUp) {
        let TakenUp { reopened, whole, earlier, remarks } = taken;
        let acts = reopened.bench.journal().len();
        let fresh = Self::of(reopened.bench, self.keeper.place().clone()).map(|mut fresh| {
            fresh.keeper.go_on(acts, whole, earlier);
            fresh.remarks = remarks;
            fresh
        });
        self.turn_to(fresh, Screen::Bench);
        if self.run.bench.diagnosis().is_some() {
            self.review.start(&self.run.bench);
        }
    }

    /// Another session in place of this one; the person and how they like to see things stay.
    fn turn_to(&mut self, fresh: Result<Self, String>, screen: Screen) {
        match fresh {
            Ok(fresh) => {
                let papers = self.papers.fresh();
                // What was done so far is whole on disk before the bench is cleared.
                self.keeper.leave(&self.run.bench);
                let old = std::mem::replace(self, fresh);
                self.archive = old.archive;
                let new = std::mem::replace(&mut self.seat, old.seat);
                self.seat.turn_to(new);
                self.seat.ui_state.screen = screen;
                self.papers = papers;
                self.shelf = old.shelf;
            }
            Err(reason) => self.seat.say(&reason),
        }
    }
}

/// That the model could not solve some of its steps, as long as the session lies open.
fn unsolved(bench: &Bench) -> Option<String> {
    let first = bench.troubles().first()?;
    let n = bench.troubles().len();
    let steps = if n == 1 { "a step".to_owned() } else { format!("{n} steps") };
    Some(format!(
        "The model could not solve {steps}, so what instruments show may be wrong. The first: {first}."
    ))
}
