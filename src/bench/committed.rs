//! The committed state and its hash. Each part hands out its piece; names and order are part of every hash ever written
//! down, so they stay whatever the parts look like inside.

use serde::Serialize;

use super::action::{Diagnosis, Relay, Standing};
use super::disturbance::Disturbances;
use super::electrical::Electrics;
use super::fill::Asked;
use super::machine::Bench;
use super::repairs::RepairDone;
use crate::bay::Bay;
use crate::circuit::Circuit;
use crate::fault::FaultSet;
use crate::instrument::{InstrumentRack, Reading};
use crate::knobs::Controls;
use crate::plant::{SolverCounts, State};

#[derive(Serialize)]
struct Committed<'a> {
    tick: u64,
    controls: &'a Controls,
    faults: &'a FaultSet,
    disturbances: &'a Disturbances,
    plant: (&'a State, &'a State),
    counts: SolverCounts,
    circuit: &'a Circuit,
    rack: &'a InstrumentRack,
    coil_t_k: f64,
    service: (bool, f64, f64, Option<Relay>),
    notebook: &'a [Reading],
    suspects: &'a [Standing],
    diagnosis: Option<&'a Diagnosis>,
    repairs: (&'a [RepairDone], f64, f64),
    #[serde(skip_serializing_if = "Electrics::is_untouched")]
    electrics: &'a Electrics,
    #[serde(skip_serializing_if = "Option::is_none")]
    bay: Option<(&'a Bay, &'a Asked)>,
}

/// FNV-1a, 64 bits (Fowler, Noll, Vo): offset basis and prime.
const FNV: (u64, u64) = (0xcbf2_9ce4_8422_2325, 0x0100_0000_01b3);

impl Bench {
    /// Hash of the committed state: equal records give equal hashes, at any frame rate, on any machine.
    pub fn state_hash(&self) -> u64 {
        let manifold = self.service.manifold();
        let committed = Committed {
            tick: self.tick,
            controls: &self.controls,
            faults: self.faults.present(),
            disturbances: self.faults.disturbances(),
            plant: self.plant.committed(),
            counts: self.plant.counts(),
            circuit: self.electrical.circuit(),
            rack: &self.rack,
            coil_t_k: self.electrical.coil_t_k(),
            service: (manifold.fitted, manifold.low_pct, manifold.high_pct, self.electrical.jumper()),
            notebook: self.notebook.readings(),
            suspects: self.learner.standings(),
            diagnosis: self.learner.diagnosis(),
            repairs: (&self.repairs, self.fill.added_kg, self.fill.added_oil_kg),
            electrics: self.electrical.done(),
            bay: self.service.bay().map(|bay| (bay, self.fill.asked())),
        };
        // Text of the shortest exact decimals, so the hash depends on values, not on memory layout.
        let bytes = serde_json::to_vec(&committed).unwrap_or_default();
        let (basis, prime) = FNV;
        bytes.iter().fold(basis, |hash, &b| (hash ^ u64::from(b)).wrapping_mul(prime))
    }
}
