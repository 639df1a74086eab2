//! What a person has begun and not handed in yet: an action waiting behind its caution, a remark, a
//! diagnosis. It lies among the [`Papers`](crate::desk::Papers), is nobody else's business, and is forgotten on restart.

use crate::bench::Action;
use crate::desk::Command;
use crate::fault::{FaultId, RepairId};
use crate::lesson::{Hypothesis, cautions};

/// Which page of the right panel is open in Explore.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// Faults to impose.
    #[default]
    Faults,
    /// True values.
    Values,
    /// The notebook.
    Notebook,
}

/// Which door of the start screen stands open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Door {
    /// All scenarios.
    #[default]
    All,
    /// Those with a hidden fault.
    Practise,
}

/// Unfinished business of the person at the desk.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// An action that waits until its cautions are confirmed.
    pub pending: Option<Action>,
    /// The cards of the waiting action have still to be brought into sight.
    pub bring_up: bool,
    /// Notebook readings chosen as evidence.
    pub evidence: Vec<usize>,
    /// The diagnosis form is open.
    pub form_open: bool,
    /// The list of repairs is open.
    pub repairing: bool,
    /// Repair whose time, cost and caution are read.
    pub repair: Option<RepairId>,
    /// Cause chosen in the form.
    pub cause: Option<Hypothesis>,
    /// How sure, 0 to 1.
    pub confidence: f64,
    /// Why, in the learner's words.
    pub because: String,
    /// Letters typed to find a cause or a fault.
    pub find: String,
    /// How a fault is to come, by its place in the instructor's list.
    pub pattern: usize,
    /// What the form still lacks, said after the first try.
    pub lacks: Option<&'static str>,
    /// A remark or prediction being typed.
    pub remark: String,
    /// The notebook is sorted by place instead of time.
    pub by_place: bool,
    /// Page of the right panel in Explore.
    pub tab: Tab,
    /// Fault whose controls are open.
    pub fault: Option<FaultId>,
    /// Severity set for each fault.
    pub severity: [f64; FaultId::COUNT],
    /// Door of the start screen.
    pub door: Door,
    /// All kept sessions are listed, not only the newest.
    pub all_kept: bool,
    /// The sentence "next time I will ..." being typed.
    pub next_time: String,
}

impl Default for Draft {
    fn default() -> Self {
        Self {
            pending: None,
            bring_up: false,
            evidence: Vec::new(),
            form_open: false,
            repairing: false,
            repair: None,
            cause: None,
            confidence: 0.6,
            because: String::new(),
            find: String::new(),
            pattern: 0,
            lacks: None,
            remark: String::new(),
            by_place: false,
            tab: Tab::default(),
            fault: None,
            severity: FaultId::ALL.map(FaultId::default_severity),
            all_kept: false,
            door: Door::default(),
            next_time: String::new(),
        }
    }
}

impl Draft {
    /// Ask for an action: one with cautions waits until they are confirmed, any other goes straight out.
    pub fn ask(&mut self, action: Action, out: &mut Vec<Command>) {
        let free = cautions::before(&action).is_empty();
        self.ask_behind(action, !free, out);
    }

    /// The same where it is known whether cautions stand before it.
    pub fn ask_behind(&mut self, action: Action, behind: bool, out: &mut Vec<Command>) {
        if !behind {
            self.pending = None;
            out.push(Command::Act(action));
        } else {
            self.pending = Some(action);
            self.bring_up = true;
        }
    }
}
