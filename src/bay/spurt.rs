//! Fittings that are open to the air for a moment, while hands change them. Nothing jumps: what was in a hose vents and air
//! comes in.

use serde::{Deserialize, Serialize};

use super::Hose;
use crate::plant::OpenPlace;

/// Flow constant of a coupler that comes off with its knob open, and of a hose end that is being changed [m2] (own
/// estimate).
const COMES_OFF_M2: f64 = 1e-6;
/// How long a coupler spits, in ticks of 50 ms.
const COMES_OFF_TICKS: u64 = 10;
/// How long it takes to change the end of the centre hose, in ticks.
const CHANGE_TICKS: u64 = 40;
/// Flow constant of the identifier's sampling nozzle [m2] (own estimate).
const NOZZLE_M2: f64 = 1e-8;
/// Time the identifier draws, in ticks.
const SAMPLE_TICKS: u64 = 400;
/// Flow constant of a cracked fitting [m2] (own estimate).
pub const CRACK_M2: f64 = 1e-7;

/// A fitting that is open to the air for a moment, while hands change it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spurt {
    /// Where.
    pub place: OpenPlace,
    /// Flow constant [m2].
    pub m2: f64,
    /// Until which tick.
    pub until_tick: u64,
}

impl Spurt {
    /// A coupler is pulled off with its knob open: the valve core of the port shuts behind it, but not before some has spat out
    /// of the hose.
    pub fn coupler_off(hose: Hose, tick: u64) -> Self {
        Self { place: hose.own_end(), m2: COMES_OFF_M2, until_tick: tick + COMES_OFF_TICKS }
    }
    /// The end of the centre hose is screwed to something else.
    pub fn centre_changed(tick: u64) -> Self {
        Self { place: OpenPlace::CentreHose, m2: COMES_OFF_M2, until_tick: tick + CHANGE_TICKS }
    }
    /// The identifier draws a sample.
    pub fn sampling(tick: u64) -> Self {
        Self { place: OpenPlace::SuctionLine, m2: NOZZLE_M2, until_tick: tick + SAMPLE_TICKS }
    }
}
