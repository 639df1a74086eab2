//! What can be seen of a bench: all at once as a [`Snapshot`], or one of its pieces, for who looks often and needs little.

use super::facts::{Work, work_span};
use super::felt::felt;
use super::inside::Inside;
use super::machine::Bench;
use super::readout;
use super::service::BayFace;
use super::snapshot::{Instruments, Outside, Snapshot};
use super::topology::Topology;
use crate::bay::Ledger;
use crate::bay::facts::Facts;
use crate::instrument::Probe;
use crate::perceive::{Felt, Perceived};
use crate::plant::Vessel;

impl Bench {
    /// What can be seen now, the inside only when asked for by someone who may see it.
    pub fn snapshot(&self, inside: bool) -> Snapshot {
        Snapshot {
            tick: self.tick,
            time_s: self.time_s(),
            controls: self.controls,
            topology: self.topology(),
            outside: self.outside(),
            perceived: self.perceived(),
            instruments: self.instruments(),
            bay: self.bay_face(inside),
            inside: inside.then(|| self.inside()),
        }
    }

    /// Which parts the loop has.
    pub fn topology(&self) -> Topology {
        Topology::of(self.plant.spec())
    }
    /// What anybody at the car can notice.
    pub fn outside(&self) -> Outside {
        let drives = self.electrical.drives();
        Outside {
            engine_rpm: if self.controls.engine_on { self.controls.engine_rpm } else { 0.0 },
            clutch_engaged: drives.clutch_engaged && self.controls.engine_on,
            fan_speed_pct: 100.0 * drives.fan_share,
            blower_pct: self.plant.inputs().blower_pct,
        }
    }
    /// The numbers that a person's senses meet.
    pub fn felt(&self) -> Felt {
        felt(&self.now(), &self.electrical, &self.faults.effects().plant)
    }
    /// What a person without tools gets.
    pub fn perceived(&self) -> Perceived {
        Perceived::of(&self.felt())
    }
    /// Faces of the instruments.
    pub fn instruments(&self) -> Instruments {
        let shown = |probe| self.rack.shown(&probe, self.tick).map_or(0.0, |(value, _)| value);
        let manifold = self.service.manifold();
        Instruments {
            hoses_fitted: self.service.any_fitted(),
            low_gauge_pa: shown(Probe::LowGauge),
            high_gauge_pa: shown(Probe::HighGauge),
            manifold_low_pct: manifold.low_pct,
            manifold_high_pct: manifold.high_pct,
            jumper: self.electrical.jumper(),
            jumper_fuse_blown: self.electrical.lead_blown(),
            placed: self
                .rack
                .placed()
                .filter_map(|p| self.rack.shown(&p, self.tick).map(|(value, _)| (p, value)))
                .collect(),
            notebook: self.notebook.readings().to_vec(),
            suspects: self.learner.suspects().collect(),
            repairs: self.repairs.iter().map(|done| (done.tick, done.repair)).collect(),
            parts_replaced: self.parts_replaced(),
            electrical: self.electrical.faces(&self.rack.electrical, self.seed, self.tick),
        }
    }
    /// What can be seen of the bay; none in a scenario without one.
    pub fn bay_face(&self, inside: bool) -> Option<BayFace> {
        let ledger = if inside { self.ledger() } else { None };
        self.service.face(&self.plant, self.time_s(), ledger)
    }
    /// The true states; only for someone who may look inside.
    pub fn inside(&self) -> Inside {
        let fitted = self.service.manifold().fitted;
        readout::inside(&self.now(), fitted, self.circuit(), self.faults.present())
    }

    /// Where every gram is; none without a bay.
    pub fn ledger(&self) -> Option<Ledger> {
        self.service.ledger(&self.plant, self.time_s(), self.fill.asked().oil_given_kg)
    }
    /// Refrigerant in a vessel [kg]; none without a bay.
    pub fn vessel_kg(&self, vessel: Vessel) -> f64 {
        self.plant.vessel_kg(vessel, self.time_s())
    }
    /// What came of the work in the bay so far; none without a bay.
    pub fn bay_facts(&self) -> Option<Facts> {
        Work {
            now: self.now(),
            service: &self.service,
            ledger: self.ledger()?,
            journal: &self.journal,
            notebook: &self.notebook,
            repairs: &self.repairs,
            unsafe_acts: &self.electrics().unsafe_acts,
        }
        .facts()
    }
    /// When hands first began to change what is in the loop; none without a bay or before that.
    pub fn work_began(&self) -> Option<u64> {
        self.bay().and_then(|_| work_span(&self.journal).0)
    }
}
