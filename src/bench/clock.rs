//! The clock of a bench: everything lands on ticks.

/// Length of a tick [s].
pub const TICK_S: f64 = 0.05;
/// Ticks of a second: what need not follow every tick is done by the second.
pub const SECOND_TICKS: u64 = 20;
/// Ticks of a minute.
pub const MINUTE_TICKS: u64 = 1200;

/// Time of a tick since the scenario began [s].
pub fn time_s(tick: u64) -> f64 {
    tick as f64 * TICK_S
}

/// The tick nearest to a time [s]; 0 for a negative one.
pub fn ticks(seconds: f64) -> u64 {
    libm::round(seconds.max(0.0) / TICK_S) as u64
}
