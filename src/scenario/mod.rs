//! Scenarios: a strict RON file that says who complains about what, in which weather, with which hidden
//! fault, with which tools on the bench and what the learner may see. Data only.

pub mod check;
mod explain;
pub mod load;
pub(crate) mod locate;
pub mod nearest;
pub mod source;

pub use crate::assets::{SCENARIOS as SHIPPED, Shipped};
pub(crate) use explain::parse;
pub use load::load;
pub use source::{BadFile, Problem};

use serde::{Deserialize, Serialize};

use crate::bay::BaySetup;
use crate::fault::{FaultId, Recurs};
use crate::instrument::Tool;
use crate::knobs::{Change, Controls};

/// What kind of session a scenario makes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mode {
    /// Everything open: inside view, p-h chart, fault controls.
    #[default]
    Explore,
    /// A hidden fault to find; the inside stays shut unless granted.
    Practice,
}

/// When a hidden fault sets in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Onset {
    /// Present from the first tick.
    #[default]
    Start,
    /// After so many seconds.
    AfterS(f64),
    /// The first time the discharge pipe is hotter than this [°C].
    WhenDischargeAboveC(f64),
    /// The first time the car rolls slower than this [km/h] after having rolled faster.
    WhenSlowerThanKmh(f64),
}

/// A hidden fault of a scenario.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HiddenFault {
    /// Which fault.
    pub id: FaultId,
    /// How bad; the catalogue default when left out.
    #[serde(default)]
    pub severity: Option<f64>,
    /// When it sets in.
    #[serde(default)]
    pub onset: Onset,
    /// Over how many seconds it grows from nothing once it sets in.
    #[serde(default)]
    pub grows_over_s: f64,
    /// What makes it come and go once it has set in; it stays when left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub comes_and_goes: Option<Recurs>,
}

/// A change of driving or weather at a set time, such as stopping at the lights.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Moment {
    /// When [s].
    pub at_s: f64,
    /// What changes.
    pub change: Change,
}

impl Scenario {
    /// Tools on the bench: those listed, without those that have no use where there is no service bay.
    pub fn bench_tools(&self) -> impl Iterator<Item = Tool> + '_ {
        self.tools.iter().copied().filter(|tool| self.bay.is_some() || !tool.needs_bay())
    }
    /// This tool lies on the bench.
    pub fn has(&self, tool: Tool) -> bool {
        self.bench_tools().any(|t| t == tool)
    }
}

fn all_tools() -> Vec<Tool> {
    Tool::ALL.to_vec()
}

/// A scenario file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scenario {
    /// Version of the file format; 1.
    pub format: u32,
    /// Short name on the command line.
    pub id: String,
    /// Title for people.
    pub title: String,
    /// Course unit it belongs to.
    pub unit: String,
    /// Learner tasks it exercises, `T1` to `T21` (see DEVELOPERS.md).
    #[serde(default)]
    pub tasks: Vec<String>,
    /// What it trains, one sentence, without giving the fault away.
    pub trains: String,
    /// Kind of session.
    #[serde(default)]
    pub mode: Mode,
    /// The complaint as the customer would say it.
    pub work_order: String,
    /// Rig by name.
    pub rig: String,
    /// Knobs at the start.
    #[serde(default)]
    pub start: Controls,
    /// Engine and A/C stay off for so long after the start, then come on as `start` says [s].
    #[serde(default)]
    pub comes_on_after_s: f64,
    /// Changes of driving and weather later on.
    #[serde(default)]
    pub moments: Vec<Moment>,
    /// Hidden faults.
    #[serde(default)]
    pub faults: Vec<HiddenFault>,
    /// Tools on the bench; all when left out.
    #[serde(default = "all_tools")]
    pub tools: Vec<Tool>,
    /// Service hoses already fitted at the start.
    #[serde(default)]
    pub hoses_fitted: bool,
    /// The car stands in a service bay with its vessels and machines.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bay: Option<BaySetup>,
    /// The learner may look inside.
    #[serde(default)]
    pub inside_view: bool,
    /// Nothing is wrong, and that is the answer.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub nothing_wrong: bool,
    /// Causes accepted as right.
    #[serde(default)]
    pub accepted_causes: Vec<FaultId>,
    /// Hints, mildest first.
    #[serde(default)]
    pub hints: Vec<String>,
    /// What to say afterwards.
    #[serde(default)]
    pub debrief: String,
}
