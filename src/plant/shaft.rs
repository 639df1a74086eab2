//! Power and torque at the compressor's shaft.

/// Turns a minute below which the shaft counts as standing: no torque is told of it [rev/min].
const STANDS_RPM: f64 = 1.0;

/// Torque between clutch plate and pulley while they slip [N m]; a small automotive clutch (from memory).
pub const CLUTCH_HOLDS_NM: f64 = 45.0;

/// Radians a second of turns a minute.
pub fn rad_s(rpm: f64) -> f64 {
    rpm * core::f64::consts::PI / 30.0
}

/// Torque of a power [W] at a speed [rev/min], in N m; none of a shaft that stands.
pub fn torque_nm(power_w: f64, rpm: f64) -> f64 {
    if rpm > STANDS_RPM { power_w / rad_s(rpm) } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kilowatt_at_955_turns_is_ten_newton_metres() {
        assert!((torque_nm(1000.0, 954.93) - 10.0).abs() < 1e-4);
        assert_eq!(torque_nm(1000.0, 0.5), 0.0);
    }
}
