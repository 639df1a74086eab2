//! What a person has begun and not handed in yet: an action waiting behind its caution, a remark, a
//! diagnosis. It lives in egui's memory, is nobody else's business, and is forgotten on restart.

use egui::Context;

use crate::bench::Action;
use crate::desk::{Command, DeskView};
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
    scenario: String,
    tick: u64,
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
    /// The sentence "next time I will ..." being typed.
    pub next_time: String,
}

impl Draft {
    fn fresh(scenario: &str, tick: u64) -> Self {
        Self {
            scenario: scenario.into(),
            tick,
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
            door: Door::default(),
            next_time: String::new(),
        }
    }

    fn id() -> egui::Id {
        egui::Id::new("pintle_draft")
    }

    /// The draft of this session; a fresh one after a restart or with another scenario.
    pub fn load(ctx: &Context, view: &DeskView) -> Self {
        let (scenario, tick) = (view.scenario.id.as_str(), view.snapshot.tick);
        let kept = ctx.data(|data| data.get_temp::<Self>(Self::id()));
        match kept {
            Some(draft) if draft.scenario == scenario && draft.tick <= tick => Self { tick, ..draft },
            Some(draft) => Self { tab: draft.tab, door: draft.door, ..Self::fresh(scenario, tick) },
            None => Self::fresh(scenario, tick),
        }
    }

    /// Does an action wait behind its caution?
    pub fn waits(ctx: &Context) -> bool {
        ctx.data(|data| data.get_temp::<Self>(Self::id())).is_some_and(|draft| draft.pending.is_some())
    }

    /// Keep the draft for the next panel and the next frame.
    pub fn save(self, ctx: &Context) {
        ctx.data_mut(|data| data.insert_temp(Self::id(), self));
    }

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

/// Ask for an action from outside the panels, such as a click on the drawing. An action with cautions
/// waits in the tools or controls panel until they are confirmed there.
pub fn propose(ctx: &Context, view: &DeskView, action: Action, out: &mut Vec<Command>) {
    let mut draft = Draft::load(ctx, view);
    draft.ask(action, out);
    draft.save(ctx);
}
