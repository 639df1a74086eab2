//! What panels and drawing read. They take a [`DeskView`], draw, write on their
//! [`Papers`](crate::desk::papers::Papers) and push [`Command`](crate::desk::Command)s; nothing else changes.

use crate::bay::facts::Facts;
use crate::bench::{Inside, Snapshot};
use crate::desk::brief::{Brief, Instructor, Log};
use crate::desk::history::History;
use crate::desk::kept::Kept;
use crate::desk::loop_view::{DomeData, Motion};
use crate::desk::screen::Screen;
use crate::desk::shelf::Listed;
use crate::desk::theme::Theme;
use crate::instrument::Tool;
use crate::lesson::Debrief;
use crate::procedure::{Guide, Part};
use crate::rig::Rig;
use crate::units::Units;

/// Everything a panel may read in one frame. What a learner must not see has no way in: there is no scenario here, no
/// journal, and no bench.
#[derive(Clone, Copy, Debug)]
pub struct DeskView<'a> {
    /// The bench at this moment; `inside` is `None` where the viewer may not look.
    pub snapshot: &'a Snapshot,
    /// The healthy loop in the same weather (Explore only).
    pub ghost: Option<&'a Inside>,
    /// The case as a learner knows it.
    pub brief: &'a Brief,
    /// What was done so far, as a learner may read it.
    pub log: &'a Log,
    /// What an instructor gets on top; exists in Explore alone.
    pub instructor: Option<&'a Instructor>,
    /// Samples for the strips.
    pub history: &'a History,
    /// Saturation dome and isotherms of the refrigerant.
    pub dome: &'a DomeData,
    /// Phases of everything that moves in the drawing.
    pub motion: &'a Motion,
    /// Units the reader chose.
    pub units: Units,
    /// Colours.
    pub theme: &'a Theme,
    /// Times real time asked for: 1, 2, 5 or 20.
    pub speed: u32,
    /// Times real time reached, when the machine cannot keep up.
    pub lagging_at: Option<f64>,
    /// Time stands still.
    pub paused: bool,
    /// 0 = schematic, 1 = p-h chart, already eased.
    pub unfold: f32,
    /// Wall clock for small animations [s].
    pub clock_s: f64,
    /// Scenarios of the start list, broken files included.
    pub shelf: &'a [Listed],
    /// Sessions that were kept, newest first.
    pub kept: &'a [Kept],
    /// What the person must know as long as it lasts: not kept, not solved, made by another version.
    pub standing: &'a [String],
    /// Long work that is being done.
    pub working: Option<Working>,
    /// The rig that stands on the bench, with its pictures.
    pub rig: &'a Rig,
    /// Current through each part of the rig's circuit [A], in its order; empty while the inside is hidden.
    pub amps: &'a [f64],
    /// What the diagnosis handed in is worth; `None` while it is being worked out.
    pub debrief: Option<&'a Debrief>,
    /// The how-to being followed, and what its present step asks for.
    pub guide: Option<(&'a Guide, &'a [Part])>,
    /// What came of the work in the bay: in Explore, and once the record is handed in.
    pub facts: Option<&'a Facts>,
    /// Choices of the person at the desk.
    pub ui_state: &'a UiState,
}

/// Long work beside the drawing, and how far it is, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Working {
    /// A kept session is played up to where it was left.
    TakingUp(f32),
    /// The debrief is worked out.
    Reviewing(f32),
}

/// Choices of the person at the desk. Changed by the session alone, on commands.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct UiState {
    /// Which screen is shown.
    pub screen: Screen,
    /// Tool in hand.
    pub tool: Option<Tool>,
    /// The inside is shown (where it is allowed).
    pub show_inside: bool,
    /// The drawing is, or is on its way to, the p-h chart.
    pub unfolded: bool,
    /// Less movement.
    pub reduced_motion: bool,
    /// The shortcut sheet lies open.
    pub help: bool,
    /// Last thing the bench said to the person (a refusal, a file problem), in a full sentence.
    pub notice: Option<String>,
}
