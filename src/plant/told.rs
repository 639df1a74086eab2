//! In which steps the plant is told of what creeps or dithers, so that it cuts no solver step for nothing.

/// Share of a step that a value may lie away from what was told before the plant hears of it.
const DEAD_BAND: f64 = 0.6;

/// What the plant has been told, until the value is more than half a step away or comes to rest or away from it; then the nearest
/// whole step. A value that dithers about the border of two steps so cuts no solver step.
pub fn held(told: f64, value: f64, step: f64) -> f64 {
    let near = (value - told).abs() < DEAD_BAND * step && (value > 0.0) == (told > 0.0);
    if near { told } else { libm::round(value / step) * step }
}

/// The same of a value that creeps all the time: as it is, once it has moved by a `step`.
pub fn crept(told: f64, value: f64, step: f64) -> f64 {
    if (value - told).abs() < step && (value > 0.0) == (told > 0.0) { told } else { value }
}

/// Nearest whole step of so many to one.
pub fn stepped(value: f64, steps: f64) -> f64 {
    libm::round(value * steps) / steps
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_that_dithers_is_told_once() {
        assert_eq!(held(0.50, 0.51, 0.02), 0.50);
        assert!((held(0.50, 0.534, 0.02) - 0.54).abs() < 1e-12);
        assert_eq!(held(0.02, 0.0, 0.02), 0.0, "coming to rest is always told");
        assert_eq!(crept(0.50, 0.52, 0.03), 0.50);
        assert_eq!(crept(0.50, 0.54, 0.03), 0.54);
        assert_eq!(stepped(0.513, 50.0), 0.52);
        assert_eq!(stepped(10.13, 4.0), 10.25);
    }
}
