//! How wall time becomes ticks: time × speed, a bounded stretch of work per frame, nothing lost in silence.

use crate::bench::TICK_S;

/// Behind by more than so much wall time, the desk says at what speed it really runs and stops catching up [s].
const PATIENCE_S: f64 = 0.4;
/// The reached speed is averaged over so much wall time [s].
const WINDOW_S: f64 = 1.0;

/// Turns wall time into ticks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pace {
    owed_s: f64,
    window: (f64, f64),
    lagging_at: Option<f64>,
    short_in_window: bool,
}

impl Pace {
    /// Wall time `wall_s` has passed at `speed` times real time.
    pub fn owe(&mut self, wall_s: f64, speed: u32) {
        let wall_s = wall_s.max(0.0);
        self.owed_s += wall_s * f64::from(speed);
        let most = PATIENCE_S * f64::from(speed);
        if self.owed_s > most {
            self.owed_s = most;
            self.short_in_window = true;
        }
        self.window.0 += wall_s;
        if self.window.0 >= WINDOW_S {
            let reached = self.window.1 / self.window.0;
            self.lagging_at = self.short_in_window.then_some(reached);
            self.window = (0.0, 0.0);
            self.short_in_window = false;
        }
    }

    /// Ticks that are due now, at most `most`.
    pub fn due(&self, most: u32) -> u32 {
        ((self.owed_s / TICK_S + 1e-9) as u32).min(most)
    }

    /// So many ticks were done.
    pub fn paid(&mut self, ticks: u32) {
        let s = f64::from(ticks) * TICK_S;
        self.owed_s = (self.owed_s - s).max(0.0);
        self.window.1 += s;
    }

    /// Times real time reached, while it is less than asked for.
    pub fn lagging_at(&self) -> Option<f64> {
        self.lagging_at
    }

    /// Forget what is owed, as when time was stopped.
    pub fn rest(&mut self) {
        *self = Self::default();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(fps: f64, speed: u32, seconds: f64) -> u32 {
        let (mut pace, mut ticks) = (Pace::default(), 0);
        for _ in 0..(fps * seconds) as u32 {
            pace.owe(1.0 / fps, speed);
            let due = pace.due(u32::MAX);
            pace.paid(due);
            ticks += due;
        }
        assert_eq!(pace.lagging_at(), None);
        ticks
    }

    #[test]
    fn the_frame_rate_does_not_change_the_number_of_ticks() {
        for fps in [10.0, 30.0, 144.0] {
            for speed in [1, 2, 5, 20] {
                let expected = 10.0 / TICK_S * f64::from(speed);
                assert!((f64::from(run(fps, speed, 10.0)) - expected).abs() <= 1.0, "{fps} {speed}");
            }
        }
    }

    #[test]
    fn a_slow_machine_is_told_so() {
        let mut pace = Pace::default();
        for _ in 0..90 {
            pace.owe(1.0 / 30.0, 20);
            pace.paid(pace.due(4));
        }
        let reached = pace.lagging_at().unwrap_or_default();
        assert!((reached - 6.0).abs() < 0.5, "{reached}");
    }
}
