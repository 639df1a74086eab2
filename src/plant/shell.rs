//! The body of the compressor: warmed by friction and by the gas it compresses, cooled by the air around it; worn by
//! running hot or dry, battered by liquid, and seized when that has gone too far.
//!
//! Sizes and rates here are estimates for a small swash-plate compressor (own estimates, no source); what follows
//! from them is checked as behaviour: a compressor driven in a vacuum cannot heat without limit, one without oil
//! seizes within minutes, one that swallows liquid loses its reeds.

use serde::{Deserialize, Serialize};

use super::dual::D6;

/// Body data of a rig's compressor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShellSpec {
    /// Heat capacity of the body [J/K].
    pub capacity_j_k: f64,
    /// Conductance gas to body [W/K].
    pub gas_w_k: f64,
    /// Conductance body to the air under the bonnet [W/K].
    pub outside_w_k: f64,
    /// Friction torque with a full oil film [N m].
    pub friction_nm: f64,
}

/// State of the body.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shell {
    /// Temperature [K].
    pub t_k: f64,
    /// Wear of the bearings, 1 when they seize.
    pub wear: f64,
    /// Damage to the reeds by liquid, 0 to 1.
    pub battered: f64,
}

/// Friction without any film over that with a full one (boundary against film lubrication; own estimate).
const DRY_FRICTION: f64 = 6.0;
/// Body temperature from which oil coke and clearances wear the bearings [K] (160 °C; common practice, no source).
const HOT_K: f64 = 433.15;
/// Heat capacity of the gas as it meets the body [J/(kg K)].
const GAS_CP: f64 = 1000.0;
/// Share of the flow that fully battered reeds let back.
const BATTERED_LEAK: f64 = 0.6;

impl Shell {
    /// A sound compressor at a temperature [K].
    pub fn sound(t_k: f64) -> Self {
        Self { t_k, wear: 0.0, battered: 0.0 }
    }
    /// Will it never turn again?
    pub fn seized(&self) -> bool {
        self.wear >= 1.0
    }
    /// Share of the flow that leaks back through battered reeds.
    pub fn reed_leak(&self) -> f64 {
        BATTERED_LEAK * self.battered
    }
    /// Friction at an oil film, 0 (none) to 1 (full).
    pub fn friction(film: f64) -> f64 {
        1.0 + (DRY_FRICTION - 1.0) * (1.0 - film) * (1.0 - film)
    }
    /// Move on by a step: `gas_w` is the heat from the gas, `film` the oil film (0 to 1), `wet` the liquid
    /// share of what a stroke swallows, by mass. Returns the friction power [W].
    pub fn step(
        &mut self,
        spec: &ShellSpec,
        rpm: f64,
        gas_w: f64,
        film: f64,
        wet: f64,
        air_t_k: f64,
        dt_s: f64,
    ) -> f64 {
        let turning = rpm * std::f64::consts::PI / 30.0;
        let friction_w = spec.friction_nm * Self::friction(film) * turning;
        let store = spec.capacity_j_k / dt_s;
        self.t_k =
            (store * self.t_k + gas_w + friction_w + spec.outside_w_k * air_t_k) / (store + spec.outside_w_k);
        if rpm > 0.0 {
            // Without a film bearings last some minutes at idle speed, less when fast or hot.
            let dry = (1.0 - film / 0.3).max(0.0);
            let hot = ((self.t_k - HOT_K) / 40.0).max(0.0);
            self.wear += dt_s * (rpm / 1500.0) * (dry * dry / 300.0 + hot / 300.0);
            self.wear = self.wear.min(1.0);
            // A little liquid evaporates in the warm cylinder; half and half it knocks and washes the film off.
            let beyond = (wet - 0.5).max(0.0);
            self.battered = (self.battered + dt_s * (rpm / 1500.0) * 0.05 * beyond).min(1.0);
        }
        friction_w
    }
}

/// Heat that compressed gas of flow `mass_kg_s` at `t` gives to the body, and its exact slopes [W]. A thin flow leaves
/// at the temperature of the body; a thick one hardly notices it.
pub fn heat_to_shell(spec: &ShellSpec, shell_t_k: f64, mass_kg_s: D6, t: D6) -> D6 {
    let m = mass_kg_s.v.max(1e-12);
    let decay = libm::exp(-spec.gas_w_k / (m * GAS_CP));
    let slope = GAS_CP * (1.0 - decay * (1.0 + spec.gas_w_k / (m * GAS_CP)));
    let exchanging = mass_kg_s.chain(GAS_CP * m * (1.0 - decay), slope);
    exchanging * (t - shell_t_k)
}

#[cfg(test)]
mod tests {
    use super::*;

    const SPEC: ShellSpec =
        ShellSpec { capacity_j_k: 2000.0, gas_w_k: 5.0, outside_w_k: 2.5, friction_nm: 0.35 };

    #[test]
    fn a_dry_compressor_seizes_within_minutes_and_an_oiled_one_does_not() {
        let run = |film: f64| {
            let mut shell = Shell::sound(308.15);
            let mut minutes = 0;
            while !shell.seized() && minutes < 240 {
                for _ in 0..60 {
                    shell.step(&SPEC, 1620.0, 100.0, film, 0.0, 328.15, 1.0);
                }
                minutes += 1;
            }
            (minutes, shell)
        };
        let (dry, _) = run(0.0);
        let (oiled, shell) = run(1.0);
        assert!((1..=10).contains(&dry), "{dry} min");
        assert!(oiled == 240 && shell.wear == 0.0 && shell.t_k < 420.0, "{oiled} min, {} K", shell.t_k);
    }

    #[test]
    fn thin_gas_leaves_at_the_temperature_of_the_body() {
        let heat = |m: f64| heat_to_shell(&SPEC, 350.0, D6::constant(m), D6::constant(450.0)).v;
        assert!((heat(1e-6) - 1e-6 * GAS_CP * 100.0).abs() < 1e-9);
        assert!(heat(1.0) < 1.01 * SPEC.gas_w_k * 100.0 && heat(1.0) > 0.98 * SPEC.gas_w_k * 100.0);
    }

    #[test]
    fn liquid_batters_the_reeds() {
        let mut shell = Shell::sound(300.0);
        for _ in 0..60 {
            shell.step(&SPEC, 1500.0, 0.0, 1.0, 0.8, 300.0, 1.0);
        }
        assert!(shell.reed_leak() > 0.3, "{shell:?}");
        let mut dry = Shell::sound(300.0);
        dry.step(&SPEC, 1500.0, 0.0, 1.0, 0.1, 300.0, 60.0);
        assert_eq!(dry.battered, 0.0);
    }
}
