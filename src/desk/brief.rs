//! What a learner is told about the case in hand, and what they have done so far, as they may read it. Panels get
//! these in place of the scenario and the journal: a [`Scenario`] knows the hidden faults, the causes that count as
//! right and what is said afterwards, and a journal may hold faults that an instructor put in. Nothing here does.

use crate::bench::Action;
use crate::fault::Fault;
use crate::instrument::Tool;
use crate::knobs::Controls;
use crate::scenario::{Mode, Scenario};

/// The case as it lies before a learner.
#[derive(Clone, Debug, PartialEq)]
pub struct Brief {
    /// Short name on the command line.
    pub id: String,
    /// Title for people.
    pub title: String,
    /// What it trains, one sentence that does not give the fault away.
    pub trains: String,
    /// The complaint as the customer would say it.
    pub work_order: String,
    /// Rig by id.
    pub rig: String,
    /// Everything open, or something to find.
    pub mode: Mode,
    /// Driving and weather at the start.
    pub start: Controls,
    /// Hints asked for, and how many there are.
    pub hints: Hints,
    /// May this person look inside at all (shown or not)?
    pub inside_allowed: bool,
    tools: Vec<Tool>,
}

/// Hints of the case. The words of those that nobody asked for stay in the file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hints {
    /// Those asked for, mildest first.
    pub taken: Vec<String>,
    /// How many more there are.
    pub left: usize,
}

impl Brief {
    /// Of a scenario, after what was done so far with its ticks.
    pub fn of(scenario: &Scenario, journal: &[(u64, Action)]) -> Self {
        let mut brief = Self {
            id: scenario.id.clone(),
            title: scenario.title.clone(),
            trains: scenario.trains.clone(),
            work_order: scenario.work_order.clone(),
            rig: scenario.rig.clone(),
            mode: scenario.mode,
            start: scenario.start,
            hints: Hints::default(),
            inside_allowed: inside_allowed(scenario),
            tools: scenario.bench_tools().collect(),
        };
        brief.follow(scenario, journal);
        brief
    }
    /// A hint may have been taken since.
    pub fn follow(&mut self, scenario: &Scenario, journal: &[(u64, Action)]) {
        let all = &scenario.hints;
        let taken = journal.iter().filter(|(_, a)| *a == Action::Hint).count().min(all.len());
        if taken != self.hints.taken.len() || self.hints.left != all.len() - taken {
            self.hints = Hints { taken: all[..taken].to_vec(), left: all.len() - taken };
        }
    }
    /// Tools that lie on the bench, in their order.
    pub fn bench_tools(&self) -> impl Iterator<Item = Tool> + '_ {
        self.tools.iter().copied()
    }
    /// This tool lies on the bench.
    pub fn has(&self, tool: Tool) -> bool {
        self.tools.contains(&tool)
    }
}

/// May a person at this scenario look inside?
pub fn inside_allowed(scenario: &Scenario) -> bool {
    scenario.mode == Mode::Explore || scenario.inside_view
}

/// What was done so far, as far as the panels tell it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    /// Remarks and predictions with their ticks, oldest first.
    pub remarks: Vec<(u64, String)>,
    /// Something was noted, measured or put in place.
    pub begun: bool,
    /// A cause was handed in.
    pub handed_in: bool,
    /// Something was repaired, or cleared by the instructor.
    pub repaired: bool,
    /// So many entries of the journal are in here.
    read: usize,
}

impl Log {
    /// Of a journal: everything applied so far with its tick.
    pub fn of(journal: &[(u64, Action)]) -> Self {
        let mut log = Self::default();
        log.follow(journal);
        log
    }
    /// Read on where the last reading ended. The journal only ever grows.
    pub fn follow(&mut self, journal: &[(u64, Action)]) {
        for (tick, action) in &journal[self.read.min(journal.len())..] {
            match action {
                Action::Note(text) => {
                    self.remarks.push((*tick, text.clone()));
                    self.begun = true;
                }
                Action::Read(_) | Action::Place(_) => self.begun = true,
                Action::Diagnose(_) => self.handed_in = true,
                Action::ClearFault { .. } | Action::Repair(_) => self.repaired = true,
                _ => {}
            }
        }
        self.read = journal.len();
    }
}

/// What an instructor gets on top. It exists in Explore alone, where everything is open.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Instructor {
    /// Faults that are in now; `None` while the inside is hidden, so that a class may look on.
    pub present: Option<Vec<Fault>>,
}
