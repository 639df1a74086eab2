//! Samples for the strips: a ring buffer that stays small however long a session runs.

use crate::bench::Snapshot;

/// One moment on the strips.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Time since the scenario began [s].
    pub time_s: f64,
    /// Low gauge needle [Pa gauge].
    pub low_gauge_pa: f64,
    /// High gauge needle [Pa gauge].
    pub high_gauge_pa: f64,
    /// True states, where the viewer may look inside.
    pub inside: Option<InsideSample>,
}

/// True states on the strips.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InsideSample {
    /// Superheat at the evaporator outlet [K].
    pub superheat_k: f64,
    /// Subcooling at the valve [K].
    pub subcooling_k: f64,
    /// Air off the vents [K].
    pub vent_t_k: f64,
}

/// Samples and marks of a session, oldest first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    samples: Vec<Sample>,
    marks: Vec<(f64, String)>,
    every_s: f64,
}

impl History {
    /// At most so many samples are kept; when full, every second one goes and the spacing doubles.
    pub const CAPACITY: usize = 2_400;

    /// An empty history with a sample every half second.
    pub fn new() -> Self {
        Self { samples: Vec::with_capacity(Self::CAPACITY), marks: Vec::new(), every_s: 0.5 }
    }

    /// Is the last sample so old that another one is due at `time_s` [s]?
    pub fn is_due(&self, time_s: f64) -> bool {
        self.samples.last().is_none_or(|last| time_s - last.time_s >= self.every_s - 1e-9)
    }

    /// Take a sample, unless the last one is younger than the spacing. Hoses that are off give no gauge
    /// readings; the faces then stand at zero.
    pub fn record(&mut self, snapshot: &Snapshot) {
        if !self.is_due(snapshot.time_s) {
            return;
        }
        if self.samples.len() >= Self::CAPACITY {
            let mut index = 0;
            self.samples.retain(|_| {
                index += 1;
                index % 2 == 1
            });
            self.every_s *= 2.0;
        }
        self.samples.push(Sample {
            time_s: snapshot.time_s,
            low_gauge_pa: snapshot.instruments.low_gauge_pa,
            high_gauge_pa: snapshot.instruments.high_gauge_pa,
            inside: snapshot.inside.as_ref().map(|i| InsideSample {
                superheat_k: i.superheat_k,
                subcooling_k: i.subcooling_k,
                vent_t_k: i.vent_t_k,
            }),
        });
    }

    /// Mark a moment with a few words, such as "A/C on".
    pub fn mark(&mut self, time_s: f64, text: impl Into<String>) {
        self.marks.push((time_s, text.into()));
    }

    /// Samples, oldest first.
    pub fn samples(&self) -> &[Sample] {
        &self.samples
    }

    /// Marks: time [s] and words.
    pub fn marks(&self) -> &[(f64, String)] {
        &self.marks
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::Bench;
    use crate::desk::demo;

    #[test]
    fn a_long_session_stays_small_and_in_order() {
        let mut history = History::new();
        let mut snapshot = Bench::new(&demo::scenario(), 1).expect("opens").snapshot(true);
        for tick in 0..200_000_u32 {
            snapshot.time_s = f64::from(tick) * 0.05;
            history.record(&snapshot);
        }
        assert!(history.samples().len() <= History::CAPACITY);
        assert!(history.samples().windows(2).all(|w| w[0].time_s < w[1].time_s));
        assert!(history.samples().len() > History::CAPACITY / 3);
    }
}
