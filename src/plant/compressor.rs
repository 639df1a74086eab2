//! Fixed-displacement reciprocating compressor.
//!
//! Volumetric and isentropic efficiency of a 169 cm3 automotive R-134a compressor after Darr & Crawford,
//! ACRC TR-14 (1992), coefficients as coded in the open library AixLib (R134a_169; its fourth term lacks R, which is put back here;
//! stated for pressure ratios 3 to 10; idle speeds are below its range, an extrapolation):
//!   eta_is = 0.8405 - 4.8711e-5 N - 0.1105 / rho_s,
//!   eta_v = (0.8889 - 1.0025e-4 N) (1 - R (rho_2s / rho_s - 1)),
//! N in rev/min, rho in lb/ft3. Outside the range both are held within sane bounds.

use super::dual::{D2, D6};
use super::shell::{self, ShellSpec};
use super::volume::{CLING_PA, Node};
use crate::refrigerant::Refrigerant;
use serde::{Deserialize, Serialize};

/// What turns the compressor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Drive {
    /// The engine's belt, through a clutch.
    Belt {
        /// Compressor turns per engine turn.
        pulley_ratio: f64,
    },
    /// The engine's belt; a valve sets the stroke between least and full.
    VariableBelt {
        /// Compressor turns per engine turn.
        pulley_ratio: f64,
        /// Least stroke, share of the full one.
        least_stroke: f64,
    },
    /// A motor on the traction voltage, in the compressor's body.
    Electric {
        /// Highest speed [rev/min].
        most_rpm: f64,
        /// Share of the shaft power that the motor and its inverter lose into the body.
        motor_loss: f64,
    },
    /// A mains motor in the compressor's body, in one welded shell.
    Hermetic {
        /// Speed under load [rev/min].
        rpm: f64,
        /// Share of the shaft power that the motor loses into the body.
        motor_loss: f64,
    },
}

impl Drive {
    /// Compressor turns per engine turn; none where no belt drives it.
    pub fn pulley_ratio(self) -> Option<f64> {
        match self {
            Self::Belt { pulley_ratio } | Self::VariableBelt { pulley_ratio, .. } => Some(pulley_ratio),
            Self::Electric { .. } | Self::Hermetic { .. } => None,
        }
    }
    /// Stroke that a control valve asks for, 0 (the least) to 1: share of the full one.
    pub fn stroke(self, asked: f64) -> f64 {
        let least = match self {
            Self::VariableBelt { least_stroke, .. } => least_stroke,
            _ => 0.0,
        };
        least + (1.0 - least) * asked
    }
    /// Share of the shaft power that a motor in the body loses into it.
    pub fn motor_loss(self) -> f64 {
        match self {
            Self::Belt { .. } | Self::VariableBelt { .. } => 0.0,
            Self::Electric { motor_loss, .. } | Self::Hermetic { motor_loss, .. } => motor_loss,
        }
    }
}

/// Compressor data of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompressorSpec {
    /// Swept volume per revolution [m3].
    pub displacement_m3: f64,
    /// Clearance volume over swept volume.
    pub clearance: f64,
    /// What turns it.
    pub drive: Drive,
    /// Opening across healthy reed valves [m2].
    pub reed_leak_m2: f64,
    /// Opening that leaks the whole design flow back [m2].
    pub full_leak_m2: f64,
}

/// Kilograms per cubic metre in one pound per cubic foot.
const KG_M3_PER_LB_FT3: f64 = 16.018_463;
/// Suction pressure below which the valves no longer open fully [Pa]; flow fades in vacuum.
const FADE_PA: f64 = 8_000.0;

/// Flow and work of one moment.
#[derive(Clone, Copy, Debug)]
pub struct Pumping {
    /// Mass flow from suction to discharge [kg/s].
    pub mass_kg_s: D6,
    /// Enthalpy flow into the discharge volume [W].
    pub discharge_w: D6,
    /// Enthalpy flow out of the suction volume [W].
    pub suction_w: D6,
    /// Heat the gas gave to the body [W].
    pub shell_w: f64,
}

impl Pumping {
    /// Standing still.
    pub const STILL: Self = Self {
        mass_kg_s: D6::constant(0.0),
        discharge_w: D6::constant(0.0),
        suction_w: D6::constant(0.0),
        shell_w: 0.0,
    };
}

/// Isentropic efficiency at a speed [rev/min] and suction density [kg/m3].
pub fn isentropic_efficiency(rpm: f64, rho_kg_m3: f64) -> f64 {
    (0.8405 - 4.8711e-5 * rpm - 0.1105 * KG_M3_PER_LB_FT3 / rho_kg_m3.max(0.5)).clamp(0.3, 0.85)
}

/// Volumetric efficiency at a speed [rev/min] and the density ratio of isentropic compression.
pub fn volumetric_efficiency(rpm: f64, clearance: f64, density_ratio: f64) -> f64 {
    (0.8889 - 1.0025e-4 * rpm).max(0.2) * (1.0 - clearance * (density_ratio - 1.0))
}

/// Enthalpy and density of what fills the cylinder, by the unknowns of the suction volume. Liquid that the
/// suction gas carries meets walls far above its boiling point and evaporates as the cylinder fills; its vapour
/// takes the room of suction gas, so a stroke holds saturated vapour, not the denser mixture. A flooded
/// compressor therefore moves no more than a dry one at the same pressure. The heat of evaporation comes from
/// the walls and goes missing in the discharge gas, so the flow still carries the enthalpy of the mixture.
fn filling(suction: &Node) -> (D2, D2) {
    if suction.quality.v >= 1.0 {
        return (suction.h_out, suction.rho_out);
    }
    let sat = &suction.sat;
    (D2 { v: sat.h_v, d: [sat.dh_v_dlnp, 0.0] }, D2 { v: sat.rho_v, d: [sat.drho_v_dlnp, 0.0] })
}

/// Least stroke anything is worked out at; the clearance is that of the full one, so it weighs more on a short stroke.
const LEAST_STROKE: f64 = 0.02;

/// Pump from `suction` to `discharge` at compressor speed `rpm` and a share of the full stroke.
pub fn pump(
    refrigerant: &Refrigerant,
    (spec, shell): (&CompressorSpec, &ShellSpec),
    (rpm, stroke, shell_t_k): (f64, f64, f64),
    suction: &Node,
    discharge: &Node,
) -> Pumping {
    if rpm <= 0.0 {
        return Pumping::STILL;
    }
    let p1 = suction.p.with_air(suction.p_per_air).first();
    let p2 = discharge.p.with_air(discharge.p_per_air).second();
    let h1 = suction.h_out.with_air(0.0).first();
    let (h_fill, rho_fill) = filling(suction);
    let h_fill = h_fill.with_air(0.0).first();
    let rho_fill = rho_fill.with_air(0.0).first();
    let compressing = p2.v > p1.v;

    // Isentropic enthalpy rise of what fills the cylinder and its exact slopes: dh2s = v2 dp2 + T2 ds,
    // T1 ds = dh1 - v1 dp1.
    let (rise, density_ratio) = if compressing {
        let u2 = libm::log(p2.v);
        // Compressed as refrigerant at the total pressure: air in the charge takes part in the work as if it were.
        let start = refrigerant.state(libm::log(p1.v), h_fill.v);
        let entropy = start.s_j_per_kg_k;
        let guess = h_fill.v + 1.1 * (p2.v - p1.v) / start.rho_kg_m3 * 0.5;
        let h2s = refrigerant.isentropic_h(u2, entropy, guess);
        let end = refrigerant.state(u2, h2s);
        let ratio_t = end.t_k / suction.t.v;
        let mut rise = p2.chain((h2s - h_fill.v).max(0.0), 1.0 / end.rho_kg_m3);
        for i in 0..6 {
            rise.d[i] += h_fill.d[i] * (ratio_t - 1.0) - p1.d[i] * ratio_t / start.rho_kg_m3;
        }
        (rise, (end.rho_kg_m3 / start.rho_kg_m3).max(1.0))
    } else {
        (D6::constant(0.0), 1.0)
    };

    // The density ratio enters through its local power law in the pressure ratio.
    let ratio = p2 / p1;
    let ratio_dual = if compressing {
        let power = libm::log(density_ratio) / libm::log(ratio.v).max(1e-9);
        ratio.chain(density_ratio, density_ratio * power / ratio.v)
    } else {
        D6::constant(1.0)
    };
    let base = volumetric_efficiency(rpm, 0.0, 1.0);
    let stroke = stroke.clamp(LEAST_STROKE, 1.0);
    let eta_v = ((ratio_dual - 1.0) * (-spec.clearance / stroke * base) + base).soft_positive(0.01);
    // The last traces stay behind, see there.
    let own = D2 { v: suction.p_ref, d: [suction.p_ref, 0.0] }.with_air(0.0).first();
    let fade = p1 / (p1 + FADE_PA) * (own / (own + CLING_PA));
    let mass = rho_fill * eta_v * fade * (spec.displacement_m3 * stroke * rpm / 60.0);
    let eta_is = isentropic_efficiency(rpm, rho_fill.v);
    let suction_w = mass * h1;
    let h2 = h1 + rise * (1.0 / eta_is);
    let end = refrigerant.state(libm::log(p2.v), h2.v);
    let mut t2 = p2.chain(end.t_k, end.dt_dlnp / p2.v);
    for i in 0..6 {
        t2.d[i] += end.dt_dh * h2.d[i];
    }
    let to_shell = shell::heat_to_shell(shell, shell_t_k, mass, t2);
    Pumping { mass_kg_s: mass, suction_w, discharge_w: mass * h2 - to_shell, shell_w: to_shell.v }
}
