//! What the panels see of the bench: read from it once for a frame.

use super::run::Run;
use crate::bench::{Bench, Inside, PointState, Snapshot};
use crate::desk::brief::{Brief, Instructor, Log};
use crate::desk::history::History;
use crate::desk::loop_view::{DomeData, Motion};
use crate::desk::screen::Screen;
use crate::desk::view::UiState;
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;
use crate::scenario::Mode;

/// The bench as it is shown.
pub struct Seen {
    /// The bench at this moment, without the list of faults.
    pub snapshot: Snapshot,
    /// Samples for the strips.
    pub history: History,
    /// Phases of what moves.
    pub motion: Motion,
    /// Dome of the refrigerant.
    pub dome: DomeData,
    /// The rig.
    pub rig: Rig,
    /// The case as a learner knows it.
    pub brief: Brief,
    /// What was done, as a learner may read it.
    pub log: Log,
    /// What an instructor gets.
    pub instructor: Option<Instructor>,
    /// Current through each part of the circuit [A], in its order; empty while the inside is hidden.
    pub amps: Vec<f64>,
    ghost: Option<Inside>,
}

impl Seen {
    /// Of a bench as it stands.
    ///
    /// # Errors
    /// The rig cannot be loaded.
    pub fn of(bench: &Bench, show_inside: bool) -> Result<Self, String> {
        let scenario = bench.scenario();
        let rig = Rig::load(&scenario.rig).map_err(|e| e.to_string())?;
        Ok(Self {
            snapshot: bench.snapshot(show_inside),
            history: History::new(),
            motion: Motion::default(),
            dome: Refrigerant::by_name(&rig.plant.refrigerant).map_or_else(DomeData::r134a, DomeData::of),
            rig,
            brief: Brief::of(scenario, bench.journal()),
            log: Log::of(bench.journal()),
            instructor: (scenario.mode == Mode::Explore).then(Instructor::default),
            amps: Vec::new(),
            ghost: None,
        })
    }
    /// Read everything for a frame; `unfolds` says whether the chart, where the twin is drawn, is to be seen.
    pub fn read(&mut self, run: &Run, ui_state: &UiState, unfolds: bool) {
        let (bench, open) = (&run.bench, ui_state.show_inside);
        self.look(bench, open);
        self.amps.clear();
        if open && ui_state.screen == Screen::Rig {
            let circuit = bench.circuit();
            self.amps.extend(circuit.parts().iter().map(|p| circuit.current(&p.id).unwrap_or(0.0)));
        }
        let ghost = run.ghost.as_ref().filter(|_| open && unfolds);
        self.ghost = ghost.and_then(|ghost| ghost.snapshot(true).inside);
        self.brief.follow(bench.scenario(), bench.journal());
        self.log.follow(bench.journal());
    }
    /// Take a sample for the strips if one is due.
    pub fn record(&mut self, bench: &Bench, open: bool) {
        if self.history.is_due(bench.time_s()) {
            self.look(bench, open);
            self.history.record(&self.snapshot);
        }
    }
    /// The healthy loop, while ours is visibly away from it.
    pub fn ghost(&self) -> Option<&Inside> {
        let inside = self.snapshot.inside.as_ref()?;
        self.ghost.as_ref().filter(|ghost| differs(inside, ghost))
    }
    fn look(&mut self, bench: &Bench, open: bool) {
        self.snapshot = bench.snapshot(open);
        // The true states may be granted to a learner; which faults are in is for an instructor alone.
        let present = self.snapshot.inside.as_mut().map(|inside| std::mem::take(&mut inside.faults));
        if let Some(instructor) = &mut self.instructor {
            instructor.present = present;
        }
    }
}

/// Is the loop visibly away from its healthy twin?
fn differs(a: &Inside, b: &Inside) -> bool {
    let apart = |a: &PointState, b: &PointState| {
        (a.h_j_per_kg - b.h_j_per_kg).abs() > 2.0e3 || (a.p_pa / b.p_pa.max(1.0)).ln().abs() > 0.025
    };
    a.points.iter().zip(&b.points).any(|(a, b)| apart(a, b))
}
