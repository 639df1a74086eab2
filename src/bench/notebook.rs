//! The notebook: what was read, when, with which tool.

use serde::Serialize;

use core::ops::Range;

use crate::instrument::{Probe, Reading};

/// The readings of a bench in the order they were taken.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Notebook {
    readings: Vec<Reading>,
}

impl Notebook {
    /// All readings.
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }
    /// Have these instead: what was read under another model.
    pub fn recall(&mut self, readings: &[Reading]) {
        self.readings = readings.to_vec();
    }
    /// Write one down.
    pub fn write(&mut self, reading: Reading) {
        self.readings.push(reading);
    }
    /// The last reading of a tool on its place within some ticks.
    pub fn last(&self, probe: &Probe, ticks: Range<u64>) -> Option<&Reading> {
        self.readings.iter().rev().find(|r| r.probe == *probe && ticks.contains(&r.tick))
    }
    /// The tool was ever read on its place.
    pub fn has_read(&self, probe: &Probe) -> bool {
        self.readings.iter().any(|r| r.probe == *probe)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_reading_within_some_ticks_is_found() {
        let mut notebook = Notebook::default();
        for (tick, value) in [(10, 1.0), (20, 2.0), (30, 3.0)] {
            notebook.write(Reading { tick, probe: Probe::LowGauge, value, uncertainty: 0.1 });
        }
        let last = |ticks| notebook.last(&Probe::LowGauge, ticks).map(|r| r.value);
        assert_eq!(last(0..30), Some(2.0));
        assert_eq!(last(31..u64::MAX), None);
        assert!(notebook.has_read(&Probe::LowGauge) && !notebook.has_read(&Probe::HighGauge));
    }
}
