//! The flows that every loop has, by name.

use super::{Flow, Plant};

/// Places in [`Plant::flows`].
const COMPRESSOR: usize = 0;
const REED_LEAK: usize = 1;
const METERING: usize = 2;

impl Plant {
    fn flow(&self, place: usize) -> Flow {
        self.flows().get(place).copied().unwrap_or_default()
    }
    /// Through the compressor over the present step.
    pub fn compressor_flow(&self) -> Flow {
        self.flow(COMPRESSOR)
    }
    /// Work of the compressor on the refrigerant over the present step [W].
    pub fn compression_w(&self) -> f64 {
        let flow = self.compressor_flow();
        flow.in_w - flow.out_w
    }
    /// Back through the compressor's reeds over the present step [kg/s].
    pub fn reed_leak_kg_s(&self) -> f64 {
        self.flow(REED_LEAK).mass_kg_s
    }
    /// Through the metering over the present step [kg/s]; negative backwards.
    pub fn metering_kg_s(&self) -> f64 {
        self.flow(METERING).mass_kg_s
    }
}
