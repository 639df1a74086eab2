//! What the panels ask for. A panel reads a view, draws, and pushes commands; it changes nothing itself.

use std::path::PathBuf;

use super::screen::Screen;
use crate::bench::Action;
use crate::instrument::Tool;

/// One wish of the person at the desk.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Do something to the bench.
    Act(Action),
    /// Pause or go on.
    TogglePause,
    /// Run at 1, 2, 5 or 20 times real time.
    Speed(u32),
    /// One tick, then pause.
    SingleTick,
    /// Start the scenario again.
    Restart,
    /// Unfold the drawing into the p-h chart, or fold it back.
    ToggleUnfold,
    /// Next set of units.
    NextUnits,
    /// Show or hide the inside view (only where it is allowed).
    ToggleInside,
    /// Dark or light.
    ToggleTheme,
    /// Open an embedded scenario by id, or a file by path.
    OpenScenario(String),
    /// Explore a rig without a fault, by its id.
    ExploreRig(String),
    /// Explore a rig in the service bay, by its id.
    ExploreBay(String),
    /// Show a page.
    Show(Screen),
    /// Show a page, or go back from it to the bench.
    Toggle(Screen),
    /// Follow a shipped how-to of the service bay by its id, or put it away.
    Follow(Option<String>),
    /// Go to a step of the how-to by hand.
    FollowStep(usize),
    /// Go on where a kept session was left, by its file.
    TakeUp(PathBuf),
    /// Leave long work that is being done.
    GiveUp,
    /// Show or hide the shortcut sheet.
    ToggleHelp,
    /// Take a tool in hand, or put it down.
    ChooseTool(Option<Tool>),
    /// After a debrief: back to the bench with the inside open.
    LookInside,
    /// The notice has been read.
    DismissNotice,
    /// Less movement, or all of it.
    ToggleReducedMotion,
    /// Close the desk.
    Quit,
}
