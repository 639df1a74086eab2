//! Short tubes and orifice tubes: choked flow from subcooled liquid or a wet mixture.
//!
//! Payne & O'Neal, HVAC&R Research 10(1) (2004) 73-87; Kim, O'Neal & Yuan, ASHRAE Trans. 100(2) (1994) 582; Choi, Chung
//! & Kim, Int. J. Refrig. 27 (2004) 393-400. Coefficients as read in open codes (HPSim `ShortTube.f90`; Payne & O'Neal also
//! in ACHP, identical). The methods differ by up to 20 %. The usual car tube, 38.1 mm long, is longer
//! than any Payne & O'Neal measured (25.4 mm): results carry a flag.

use super::{clamp_quality, power, smooth_step, soft_positive};

/// A sharp-edged short tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShortTube {
    /// Length [m].
    pub length_m: f64,
    /// Bore [m].
    pub diameter_m: f64,
}

/// The refrigerant ahead of the tube; saturated properties at the pressure there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeInlet {
    /// Pressure [Pa absolute].
    pub p_pa: f64,
    /// Saturation pressure at the inlet's temperature [Pa absolute]; the pressure itself if wet.
    pub p_sat_pa: f64,
    /// Saturation temperature minus temperature [K], 0 if wet.
    pub subcooling_k: f64,
    /// Quality, 0 or below in liquid.
    pub quality: f64,
    /// Density of saturated liquid [kg/m3].
    pub rho_l: f64,
    /// Density of saturated vapour [kg/m3].
    pub rho_v: f64,
    /// Density of the liquid as it is [kg/m3].
    pub rho_in: f64,
    /// Viscosity of saturated liquid and vapour [Pa s].
    pub mu: (f64, f64),
    /// Surface tension [N/m].
    pub sigma: f64,
    /// Critical pressure [Pa].
    pub p_critical_pa: f64,
    /// Critical temperature [K].
    pub t_critical_k: f64,
}

/// A mass flow and whether the method was fitted to such a tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeFlow {
    /// Choked mass flow [kg/s].
    pub mass_kg_s: f64,
    /// Within the method's stated range.
    pub in_range: bool,
}

/// Subcooling above which Payne & O'Neal's term is held [K]: its denominator crosses zero near 30 K. Measured up
/// to 13.9 K.
const MOST_SUBCOOLING_K: f64 = 15.0;
/// Quality over which the two-phase factor takes hold. Its value at x = 0 is not 1 (0.95 to 1.1 depending on
/// pressure and L/D), so flow would jump there.
const TAKE_HOLD: f64 = 0.02;
/// Quality above which flow goes with the root of the mixture's density: the factor was not fitted beyond about
/// 0.1 and falls to nothing in vapour.
const WETTEST: f64 = 0.2;

impl ShortTube {
    fn area_m2(&self) -> f64 {
        0.25 * core::f64::consts::PI * self.diameter_m * self.diameter_m
    }
    fn slenderness(&self) -> f64 {
        (self.length_m / self.diameter_m.max(1e-6)).clamp(1.0, 200.0)
    }

    /// Payne & O'Neal 2004 (HVAC&R Research 10(1):73): R-12, R-134a, R-502, R-22, R-407C, R-410A, more than 1200
    /// points, L 9.5 to 25.4 mm, D 1.09 to 1.94 mm, sharp-edged, about choked, subcooling to about 14 K (the
    /// flag tells all four). Densities at the inlet's pressure as HPSim does; ACHP takes them at the inlet's
    /// temperature, 0.3 to 1.4 % apart.
    ///
    /// Ours: subcooling held above 15 K, the two-phase factor never above 1 (as ACHP) and taking hold over a
    /// quality of 0.02, and above 0.2 the root of the mixture's density. So flow is continuous, falls with
    /// quality, and rises with pressure and, condensing above about 35 °C, with subcooling; below that the
    /// correlation itself dips by up to 9 % over the first 8 K. C1 but for corners at x = 0, at 0.2 and 15 K.
    pub fn payne_oneal(&self, inlet: &TubeInlet) -> TubeFlow {
        const A: [f64; 7] = [0.388_11, 11.427, -14.194, 1.0703, -0.091_928, 21.425, -581.95];
        let pc = inlet.p_critical_pa.max(1e3);
        let wet = inlet.quality > 0.0;
        let margin = if wet { 0.0 } else { ((inlet.p_pa - inlet.p_sat_pa) / pc).max(0.0) };
        let cold =
            if wet { 0.0 } else { inlet.subcooling_k.clamp(0.0, MOST_SUBCOOLING_K) / inlet.t_critical_k };
        let ratio = (inlet.rho_v / inlet.rho_l.max(1e-3)).clamp(0.0, 1.0);
        let slender = self.slenderness();
        let above = A[0] + A[1] * margin + A[2] * cold + A[3] * ratio + A[4] * libm::log(slender);
        let below = (1.0 + A[5] * margin + A[6] * cold * cold).max(0.1);
        let flux = (above / below).max(0.0) * (inlet.rho_l.max(0.0) * pc).sqrt();
        let share = if wet { self.wet_share(inlet) } else { 1.0 };
        let in_range = (9.5e-3..=25.4e-3).contains(&self.length_m)
            && (1.09e-3..=1.94e-3).contains(&self.diameter_m)
            && inlet.subcooling_k <= 14.0
            && inlet.quality <= 0.1;
        TubeFlow { mass_kg_s: flux * self.area_m2() * share, in_range }
    }

    /// Payne & O'Neal's two-phase factor as the paper has it.
    fn wet_factor(&self, inlet: &TubeInlet, x: f64) -> f64 {
        const B: [f64; 9] =
            [1.1831, -1.4680, -0.152_85, -14.639, 9.8401, -0.019_798, -1.5348, -2.0533, -17.195];
        let square = |v: f64| v * v;
        let ratio = (inlet.rho_l / inlet.rho_v.max(1e-6)).clamp(1.0, 1e6);
        let density = 1.0 / ((1.0 - x) + x * ratio);
        let reduced = (inlet.p_pa / inlet.p_critical_pa.max(1e3)).clamp(0.0, 0.95);
        let rest = square(libm::log(1.0 - reduced));
        let above = B[0] * density
            + B[1] * density * density
            + B[2] * square(libm::log(density))
            + (B[3] + B[4]) * rest
            + B[5] * square(libm::log(self.slenderness()));
        let wet = x / (1.0 - x) * ratio.sqrt();
        above / (1.0 + B[6] * density + B[7] * wet + B[8] * reduced * reduced * reduced).min(-1e-3)
    }

    /// Flow of a wet inlet over that of saturated liquid: 1 at x = 0, falling.
    fn wet_share(&self, inlet: &TubeInlet) -> f64 {
        let x = clamp_quality(inlet.quality);
        let at = x.min(WETTEST);
        let missing = soft_positive(1.0 - self.wet_factor(inlet, at), 0.005) * smooth_step(at / TAKE_HOLD);
        let share = (1.0 - missing).max(0.05);
        let ratio = (inlet.rho_l / inlet.rho_v.max(1e-6)).clamp(1.0, 1e6);
        let volume = |x: f64| (1.0 - x) + x * ratio;
        share * (volume(at) / volume(x)).sqrt()
    }

    /// Kim & O'Neal 1994 with coefficients for R-134a, D_ref 1.35 mm: m = A sqrt(2 rho (p - P_f)) with an adjusted
    /// downstream pressure P_f. ASHRAE Transactions 100(1):323 and 100(2):582; range from memory: L 9.5 to
    /// 25.4 mm, D 1.1 to 1.7 mm. Liquid inlets only: a wet one counts as saturated liquid and is flagged. Weak
    /// in the evaporator's pressure, as measured. C1 for subcooling above 0.
    pub fn kim_oneal_r134a(&self, inlet: &TubeInlet, p_evaporator_pa: f64) -> TubeFlow {
        let pc = inlet.p_critical_pa.max(1e3);
        let cold = inlet.subcooling_k.max(0.0) / inlet.t_critical_k;
        let slender = self.slenderness();
        let subcooled = 10.0612
            * power((inlet.p_pa / pc).clamp(1e-3, 1.0), -0.3296)
            * power(slender, -0.1758)
            * power(cold, 1.0831);
        let short = 0.1802
            * libm::exp(-0.002_14 * (self.diameter_m / 1.35e-3).clamp(0.0, 100.0) * power(slender, 2.9596));
        let evaporator = 0.0745 * ((pc - p_evaporator_pa) / pc).clamp(0.0, 1.0);
        let adjusted = inlet.p_sat_pa * (1.0156 + subcooled - short - evaporator);
        let mass = self.area_m2() * (2.0 * inlet.rho_in.max(0.0) * (inlet.p_pa - adjusted).max(0.0)).sqrt();
        let in_range = (9.5e-3..=25.4e-3).contains(&self.length_m)
            && (1.1e-3..=1.7e-3).contains(&self.diameter_m)
            && inlet.quality <= 0.0;
        TubeFlow { mass_kg_s: mass, in_range }
    }

    /// Choi, Chung & Kim 2004 (International Journal of Refrigeration 27:393), liquid inlets: a product of powers;
    /// standard deviation 6.1 %, single points -21 to +18 %. As coded in HPSim, R-12, R-22, R-134a, R-290, R-407C
    /// and R-410A (from memory). Its factor subcooling^0.082 sends flow to nothing at saturation, so subcooling
    /// is held at 1 K there (ours). The wet branch as transcribed in HPSim gives a seventh of the flow of the
    /// liquid branch; it is taken for a slip in transcription and left out: wet inlets count as 1 K subcooled and
    /// are flagged.
    pub fn choi(&self, inlet: &TubeInlet, p_evaporator_pa: f64) -> TubeFlow {
        let pc = inlet.p_critical_pa.max(1e3);
        let left = |p: f64| ((pc - p) / pc).clamp(1e-3, 1.0);
        let cold = inlet.subcooling_k.max(1.0) / inlet.t_critical_k;
        let thick = ((inlet.mu.0 - inlet.mu.1) / inlet.mu.1.max(1e-7)).max(1e-3);
        let d = self.diameter_m.max(1e-6);
        let number = 0.1378
            * power(left(inlet.p_pa), -0.950)
            * power(left(p_evaporator_pa), 0.033)
            * power(left(inlet.p_sat_pa), 0.769)
            * power(cold, 0.082)
            * power(self.slenderness(), -0.099)
            * power((inlet.rho_l / inlet.rho_v.max(1e-6)).clamp(1.0, 1e6), -0.104)
            * power(thick, 0.554)
            * power((inlet.sigma / (d * inlet.p_pa.max(1e3))).max(1e-9), -0.034);
        let mass = number * d * d * (inlet.rho_l.max(0.0) * inlet.p_pa.max(0.0)).sqrt();
        TubeFlow { mass_kg_s: mass, in_range: inlet.quality <= 0.0 && inlet.subcooling_k >= 1.0 }
    }
}

/// Share of choked flow that passes at a smaller pressure difference: an ellipse from 0 at no difference to 1 where
/// the outlet falls to `p_choke_pa` (about saturation pressure at the inlet's temperature, Kim & O'Neal 1995).
/// Our own; rounded at zero so that its slope stays finite, odd for backward differences, C1.
pub fn unchoked_share(p_in_pa: f64, p_out_pa: f64, p_choke_pa: f64) -> f64 {
    const ROUND: f64 = 1e-3;
    let room = (p_in_pa - p_choke_pa).max(0.05 * p_in_pa).max(1.0);
    let r = ((p_in_pa - p_out_pa) / room).clamp(-1.0, 1.0);
    let s = r.abs() * (2.0 - r.abs());
    let full = (1.0_f64 + ROUND * ROUND).sqrt().sqrt();
    r.signum() * s / (s * s + ROUND * ROUND).sqrt().sqrt() * full
}

#[cfg(test)]
#[path = "short_tube_tests.rs"]
mod tests;
