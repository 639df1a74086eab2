//! Thermostatic expansion valve after Li, Braun & Shen, International Refrigeration and Air Conditioning
//! Conference at Purdue 2004, paper 705, as coded in the open code ACHP.
//!
//! The rigs use the force balance of `plant/metering.rs`; this quasi-static form is a check on it, and serves
//! measured valves that come as these four numbers. Neither branch of the published code holds flow at zero
//! below the static superheat; here lift is held at zero there and a bleed remains.

use super::soft_positive;

/// Numbers of a valve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiValve {
    /// Superheat at which the pintle leaves its seat [K].
    pub static_superheat_k: f64,
    /// Further superheat to full lift [K].
    pub opening_superheat_k: f64,
    /// Flow constant: flow per root of density times pressure difference [m2], per kelvin in the linear form.
    pub constant: f64,
    /// Share of the constant that an adjustment leaves.
    pub adjustment: f64,
    /// Flow constant of the bleed with the pintle on its seat [m2].
    pub bleed_m2: f64,
}

/// Superheat over which the seat and the stop are rounded, as a share of the opening superheat (ours).
const ROUND: f64 = 0.02;

impl LiValve {
    /// Lift from 0 to 1 at a superheat: 0 below static, 1 above full opening, rounded at both ends. C1, rises.
    pub fn lift(&self, superheat_k: f64) -> f64 {
        let open = (superheat_k - self.static_superheat_k) / self.opening_superheat_k.max(1e-3);
        let at_seat = soft_positive(open, ROUND);
        (1.0 - soft_positive(1.0 - at_seat, ROUND)).clamp(0.0, 1.0)
    }
    fn flow(&self, opening: f64, rho_l_kg_m3: f64, dp_pa: f64) -> f64 {
        let root = (rho_l_kg_m3.max(0.0) * dp_pa.abs()).sqrt();
        (self.constant * self.adjustment * opening + self.bleed_m2) * root * dp_pa.signum()
    }
    /// Linear form [kg/s]: constant per kelvin times superheat above static, at most the opening superheat.
    /// `rho_l_kg_m3` is saturated liquid at the inlet's pressure. Continuous; the slope by pressure difference is
    /// unbounded at none, as of any orifice: round it where the solver works near there.
    pub fn linear_kg_s(&self, superheat_k: f64, rho_l_kg_m3: f64, dp_pa: f64) -> f64 {
        self.flow(self.lift(superheat_k) * self.opening_superheat_k, rho_l_kg_m3, dp_pa)
    }
    /// Non-linear form [kg/s]: constant times 2A - A^2 with A the lift, as the cone of a pintle opens. Likewise.
    pub fn cone_kg_s(&self, superheat_k: f64, rho_l_kg_m3: f64, dp_pa: f64) -> f64 {
        let a = self.lift(superheat_k);
        self.flow(2.0 * a - a * a, rho_l_kg_m3, dp_pa)
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::{grid, largest_jump, near};
    use super::*;

    /// The example numbers in ACHP (not an automotive valve).
    const VALVE: LiValve = LiValve {
        static_superheat_k: 4.0,
        opening_superheat_k: 6.0,
        constant: 1.2656e-6,
        adjustment: 0.763,
        bleed_m2: 1e-8,
    };

    /// By hand: 0.763 * 1.2656e-6 * 3 K * sqrt(1100 * 1e6), and the bleed's 1e-8 sqrt(1.1e9).
    #[test]
    fn between_seat_and_stop_the_printed_form_holds() {
        near("linear", VALVE.linear_kg_s(7.0, 1100.0, 1e6), 0.096_079 + 3.317e-4, 5e-3);
        let a: f64 = 0.5;
        let cone = 0.763 * 1.2656e-6 * (2.0 * a - a * a) * (1.1e9_f64).sqrt() + 3.317e-4;
        near("cone", VALVE.cone_kg_s(7.0, 1100.0, 1e6), cone, 5e-3);
    }

    #[test]
    fn below_static_superheat_only_the_bleed_flows() {
        let bleed = 1e-8 * (1.1e9_f64).sqrt();
        for superheat in [-40.0, 0.0, 2.0] {
            for flow in [VALVE.linear_kg_s(superheat, 1100.0, 1e6), VALVE.cone_kg_s(superheat, 1100.0, 1e6)] {
                assert!(flow >= bleed && flow < 2.0 * bleed, "{superheat}: {flow}");
            }
        }
        // Full lift and no more.
        near("stop", VALVE.lift(40.0), 1.0, 1e-3);
        assert!(VALVE.lift(1e9) <= 1.0);
    }

    #[test]
    fn lift_rises_without_a_jump_and_flow_follows_the_difference() {
        let lift: Vec<f64> = grid(-10.0, 30.0, 4000).map(|s| VALVE.lift(s)).collect();
        assert!(lift.windows(2).all(|w| w[1] >= w[0]));
        assert!(largest_jump(|s| VALVE.lift(s), -10.0, 30.0, 4000) < 2e-3);
        assert_eq!(VALVE.cone_kg_s(8.0, 1100.0, -1e6), -VALVE.cone_kg_s(8.0, 1100.0, 1e6));
        assert_eq!(VALVE.linear_kg_s(8.0, 1100.0, 0.0), 0.0);
        near("root", VALVE.linear_kg_s(8.0, 1100.0, 4e5) / VALVE.linear_kg_s(8.0, 1100.0, 1e5), 2.0, 1e-12);
        assert!(LiValve { opening_superheat_k: 0.0, ..VALVE }.cone_kg_s(1e9, -1.0, 1e300).is_finite());
    }
}
