//! How warm the winding of a magnetic clutch is. Copper that is warmer has more ohms, so the clutch pulls less.

use serde::Serialize;

/// Time in which the coil follows [s] (own estimate).
const TIME_S: f64 = 120.0;
/// How much warmer than outside it is under the bonnet while the engine runs [K] (own estimate).
const UNDER_BONNET_K: f64 = 25.0;
/// Rise for each watt in it [K/W] (own estimate: 35 K at the 50 W of a healthy coil).
const RISE_K_W: f64 = 0.7;
/// Share of the slip's heat that reaches the coil (own estimate).
const SLIP_TO_COIL: f64 = 0.02;
/// Torque that a slipping plate rubs with at least, whatever the compressor asks for [N m] (own estimate).
const RUBS_NM: f64 = 20.0;
/// Radians a second of a turn a minute, in round figures: what it multiplies is an estimate.
const RAD_S_RPM: f64 = 0.1;

/// Heat that a slipping clutch sends into its coil [W]: at a torque asked for [N m], a share of the pulley's speed that it
/// passes on, and an engine speed [rev/min].
pub fn slip_w(load_nm: f64, grip: f64, engine_rpm: f64) -> f64 {
    load_nm.max(RUBS_NM) * (1.0 - grip) * engine_rpm * RAD_S_RPM * SLIP_TO_COIL
}

/// Warmth of the coil, a single lump.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CoilWarmth {
    /// Winding [K].
    pub t_k: f64,
}

impl CoilWarmth {
    /// A coil that has stood in air of a temperature [K].
    pub fn soaked(ambient_t_k: f64) -> Self {
        Self { t_k: ambient_t_k }
    }
    /// Let it follow for `dt_s` seconds what heats it [W] and the air around it.
    pub fn advance(&mut self, dt_s: f64, ambient_t_k: f64, engine_on: bool, heat_w: f64) {
        let bonnet_k = if engine_on { UNDER_BONNET_K } else { 0.0 };
        let goal_k = ambient_t_k + bonnet_k + RISE_K_W * heat_w;
        self.t_k += dt_s / TIME_S * (goal_k - self.t_k);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_healthy_coil_ends_35_k_above_the_air_under_the_bonnet() {
        let mut coil = CoilWarmth::soaked(300.0);
        for _ in 0..24_000 {
            coil.advance(0.05, 300.0, true, 50.0);
        }
        assert!((coil.t_k - 360.0).abs() < 0.1, "{coil:?}");
        coil.advance(0.05, 300.0, false, 0.0);
        assert!(coil.t_k < 360.0);
    }

    #[test]
    fn a_plate_that_holds_sends_no_heat() {
        assert_eq!(slip_w(10.0, 1.0, 3000.0), 0.0);
        assert!(slip_w(10.0, 0.5, 3000.0) > 0.0);
        assert_eq!(slip_w(5.0, 0.0, 900.0), slip_w(15.0, 0.0, 900.0), "it rubs with its least torque");
    }
}
