//! What a plant says of its parts at a time: vessels and compressor.

use super::Plant;
use super::openings::Vessel;

/// Wear of bearings or damage to reeds from which a compressor does not count as a good part.
const SPENT: f64 = 0.2;

impl Plant {
    /// Refrigerant in a vessel [kg]; none where there is no such vessel.
    pub fn vessel_kg(&self, vessel: Vessel, time_s: f64) -> f64 {
        self.layout.vessel(vessel).map_or(0.0, |i| self.at(time_s, |s| s.mass_kg[i]))
    }
    /// A vessel with the refrigerant and air in it [kg]; 0 where there is none. Oil that comes along with recovered
    /// refrigerant falls into the measuring glass before the cylinder.
    pub fn vessel_gross_kg(&self, vessel: Vessel, time_s: f64) -> f64 {
        let inside = |i: usize| self.at(time_s, |s| s.mass_kg[i] + s.air_kg[i]);
        self.layout.vessel(vessel).map_or(0.0, |i| vessel.spec().tare_kg + inside(i))
    }
    /// Bearings or reeds of the compressor are worn so far that it is no good part any more.
    pub fn compressor_spent(&self, time_s: f64) -> bool {
        self.at(time_s, |s| s.shell.wear.max(s.shell.battered)) >= SPENT
    }
    /// The compressor has seized.
    pub fn compressor_seized(&self, time_s: f64) -> bool {
        self.at(time_s, |s| s.shell.wear) >= 1.0
    }
}
