//! What can be seen of a bench at one tick. The inside is handed out only when asked for by someone
//! who may see it; a learner's window gets the outside alone.

use super::action::{Relay, Standing};
use super::electrical::ElectricalFaces;
use super::inside::Inside;
use super::service::BayFace;
use super::topology::Topology;
use crate::fault::{Group, RepairId};
use crate::instrument::{Probe, Reading};
use crate::knobs::Controls;
use crate::perceive::Perceived;

/// One moment of a bench.
#[derive(Clone, Debug)]
pub struct Snapshot {
    /// Tick number (50 ms each).
    pub tick: u64,
    /// Time since the scenario began [s].
    pub time_s: f64,
    /// Knobs as they stand.
    pub controls: Controls,
    /// Which parts the loop has.
    pub topology: Topology,
    /// What eyes and hands notice without a tool.
    pub outside: Outside,
    /// What a person without tools gets; it needs no leave to look inside.
    pub perceived: Perceived,
    /// Instrument faces.
    pub instruments: Instruments,
    /// The service bay, in a scenario that has one.
    pub bay: Option<BayFace>,
    /// True states; `None` unless the viewer may look inside.
    pub inside: Option<Inside>,
}

/// What anybody at the car can notice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// Engine speed [rev/min]; 0 when stopped.
    pub engine_rpm: f64,
    /// The clutch plate turns with the pulley.
    pub clutch_engaged: bool,
    /// Condenser fan speed [% of full].
    pub fan_speed_pct: f64,
    /// Blower speed [% of full].
    pub blower_pct: f64,
}

/// Faces of the instruments on the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct Instruments {
    /// Hoses are fitted.
    pub hoses_fitted: bool,
    /// Low gauge needle [Pa gauge], with the gauge's own lag and flutter.
    pub low_gauge_pa: f64,
    /// High gauge needle [Pa gauge].
    pub high_gauge_pa: f64,
    /// Hand valve, low side [% open].
    pub manifold_low_pct: f64,
    /// Hand valve, high side [% open].
    pub manifold_high_pct: f64,
    /// Jumper lead in place.
    pub jumper: Option<Relay>,
    /// Jumper fuse has blown.
    pub jumper_fuse_blown: bool,
    /// Tools in place now and what they show (SI), one of each kind.
    pub placed: Vec<(Probe, f64)>,
    /// The notebook.
    pub notebook: Vec<Reading>,
    /// Suspect cards.
    pub suspects: Vec<(Group, Standing)>,
    /// Repairs so far with their ticks; what they cured is for the learner to find out.
    pub repairs: Vec<(u64, RepairId)>,
    /// Good parts that were replaced.
    pub parts_replaced: usize,
    /// Electrical tools, and what hands have done to the circuit.
    pub electrical: ElectricalFaces,
}
