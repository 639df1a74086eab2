//! What panels and drawing read. They take a [`DeskView`], draw, and push
//! [`Command`](crate::desk::Command)s; they change nothing themselves.

use crate::bay::facts::Facts;
use crate::bench::{Action, Inside, Snapshot};
use crate::desk::history::History;
use crate::desk::loop_view::{DomeData, Motion};
use crate::desk::theme::Theme;
use crate::instrument::Tool;
use crate::lesson::Debrief;
use crate::procedure::{Guide, Part};
use crate::rig::Rig;
use crate::scenario::Scenario;
use crate::units::Units;

/// Everything a panel may read in one frame.
#[derive(Clone, Copy)]
pub struct DeskView<'a> {
    /// The bench at this moment; `inside` is `None` where the viewer may not look.
    pub snapshot: &'a Snapshot,
    /// The healthy loop in the same weather (Explore only).
    pub ghost: Option<&'a Inside>,
    /// The scenario that runs.
    pub scenario: &'a Scenario,
    /// Everything applied so far with its tick; the diagnosis handed in is in here.
    pub journal: &'a [(u64, Action)],
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
    /// There is a kept session that can be taken up again.
    pub kept: bool,
    /// Points of the circuit a meter lead can touch: name in files and label for people.
    pub circuit_points: &'a [(String, String)],
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

impl DeskView<'_> {
    /// May this viewer look inside at all (shown or not)?
    pub fn inside_allowed(&self) -> bool {
        self.scenario.mode == crate::scenario::Mode::Explore || self.scenario.inside_view
    }
}

/// One scenario file of the start list.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// What [`Command::OpenScenario`](crate::desk::Command::OpenScenario) takes: id or path.
    pub key: String,
    /// The scenario, or why the file is broken.
    pub scenario: Result<Scenario, String>,
}

/// Which screen fills the window.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Screen {
    /// The list of scenarios.
    Start,
    /// The bench.
    #[default]
    Bench,
    /// The rig: label, places, wiring, blocks.
    Rig,
    /// The service bay.
    Bay,
    /// The debrief.
    Debrief,
}

/// Choices of the person at the desk. Changed by the shell alone, on commands.
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
