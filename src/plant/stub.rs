//! The stub of pipe right behind the metering, no volume of its own, and how fast the state grows.

use super::{Plant, State};

/// Flow that keeps a short pipe half as cold as itself against the warmth around it [kg/s] (own estimate).
const TRICKLE_KG_S: f64 = 5e-5;

impl Plant {
    /// Flow through the metering into the evaporator over the present step, never negative [kg/s].
    pub fn metered_kg_s(&self) -> f64 {
        self.metering_kg_s().max(0.0)
    }
    /// The stub right behind the metering [K]: as cold as what flashes there, as far as anything flows.
    pub fn after_metering_k(&self, now: f64) -> f64 {
        let l = &self.layout;
        let (fed, cell) = (self.node(l.metering_inlet(), now), self.node(l.evaporator.start, now));
        let flow = self.metered_kg_s();
        let flashed = self.at_pressure(cell.p_ref, fed.h_out.v);
        cell.t.v + flow / (flow + TRICKLE_KG_S) * (flashed.t.v - cell.t.v)
    }
    /// Power of the jet behind the metering [W].
    pub fn metering_jet_w(&self, now: f64) -> f64 {
        let l = &self.layout;
        let (inlet, outlet) = (self.look(l.metering_inlet(), now), self.look(l.evaporator.start, now));
        let drop_pa = (inlet.p_pa - outlet.p_pa).max(0.0);
        self.metered_kg_s() * drop_pa / self.node(l.metering_inlet(), now).rho_out.v.max(0.1)
    }
    /// How fast something of the state grows over the present step [1/s].
    pub fn growth(&self, pick: fn(&State) -> f64) -> f64 {
        let (before, after) = self.committed();
        let dt_s = after.time_s - before.time_s;
        if dt_s > 0.0 { (pick(after) - pick(before)) / dt_s } else { 0.0 }
    }
}
