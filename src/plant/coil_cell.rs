//! One cell of the evaporator on its air side.
//!
//! A cell sends the share `1 - exp(-NTU)` of its air to the state of its surface and lets the rest by (Lewis
//! number one), so air leaves on the straight line between both states. The surface is the wall, or the outside
//! of the frost on it, whose temperature follows from a balance linear in the wall's own; so the wall of
//! `heat.rs` stays implicit and exact. Water condenses, freezes, melts and dries by the same lines.

use super::coil_water::CellWater;
use super::frost;
use super::heat::AirSide;
use crate::moist_air::{self, CP_DRY_AIR};
use crate::units::ZERO_C_K;

/// Latent heats of water [J/kg]: condensing near 5 °C and melting at 0 °C (ASHRAE Fundamentals, psychrometrics).
pub const CONDENSING: f64 = 2.49e6;
/// See [`CONDENSING`].
pub const MELTING: f64 = 3.34e5;
/// Conductance between wall and melting or freezing water, per surface [W/(m2 K)]: some tenths of a millimetre
/// of slush and the air in it (own estimate).
const PHASE_W_M2_K: f64 = 60.0;

/// One cell of the coil over one step, linear in its wall's temperature.
#[derive(Clone, Copy, Debug)]
pub struct Cell {
    air_t_k: f64,
    /// Air to surface [W/K].
    conductance_w_k: f64,
    /// Air that gives or takes water [kg/s].
    wet_kg_s: f64,
    /// Heat of the water it gives [J/kg].
    latent: f64,
    /// Surface temperature at which `excess` and `slope` are taken [K].
    surface_k: f64,
    /// Humidity ratio of the air above that of the surface; negative where it dries.
    excess: f64,
    /// How the surface's ratio grows [1/K].
    slope: f64,
    /// Surface to wall, none without frost [W/K].
    through_w_k: Option<f64>,
    /// Wall to melting or freezing water [W/K].
    phase_w_k: f64,
    /// Housing to wall [W/K] and its temperature [K].
    housing: (f64, f64),
    /// Wall at the start [K].
    wall_k: f64,
}

impl Cell {
    /// A cell in air of a temperature, humidity ratio and pressure, `mass_kg_s` of which comes to the state of its surface,
    /// with so much area [m2] that holds so much water [kg] before it drips.
    pub fn new(
        (air_t_k, w, p_pa): (f64, f64, f64),
        mass_kg_s: f64,
        (area_m2, most_kg): (f64, f64),
        housing: (f64, f64),
        (wall_k, water): (f64, &CellWater),
        dt_s: f64,
    ) -> Self {
        let conductance_w_k = mass_kg_s * CP_DRY_AIR;
        let cold = wall_k < ZERO_C_K;
        let latent = if cold { CONDENSING + MELTING } else { CONDENSING };
        let through_w_k = frost::conductance_w_k(area_m2, water.frost_kg);
        let mut surface_k = wall_k;
        let (mut saturated, mut slope) = moist_air::saturated_with_slope(wall_k, p_pa);
        if let Some(through) = through_w_k {
            // One Newton step from the wall is near enough to draw the tangent there; frost is no warmer than ice.
            let pull = mass_kg_s * latent;
            let sum = through * wall_k + conductance_w_k * air_t_k + pull * (w - saturated + slope * wall_k);
            surface_k = (sum / (through + conductance_w_k + pull * slope)).min(ZERO_C_K.max(wall_k));
            (saturated, slope) = moist_air::saturated_with_slope(surface_k, p_pa);
        }
        let excess = w - saturated;
        let there = if cold { water.frost_kg } else { water.film_kg };
        let wet = if excess > 0.0 {
            1.0
        } else {
            // Fins dry out from the top, so the wet share of the surface goes with what clings. What could dry in a
            // step stands beside it, so that never more dries than is there.
            (there / (most_kg - dt_s * mass_kg_s * excess)).min(1.0)
        };
        let off = (wall_k - ZERO_C_K).abs();
        let turning = if cold { water.film_kg } else { water.frost_kg };
        // No more than what is there could do in a step.
        let phase_w_k = (PHASE_W_M2_K * area_m2).min(turning * MELTING / (dt_s * off.max(1.0)));
        Self {
            air_t_k,
            conductance_w_k,
            wet_kg_s: mass_kg_s * wet,
            latent,
            surface_k,
            excess,
            slope,
            through_w_k,
            phase_w_k,
            housing,
            wall_k,
        }
    }

    /// What pulls at the surface besides the wall: conductance [W/K].
    fn at_surface_w_k(&self) -> f64 {
        self.conductance_w_k + self.wet_kg_s * self.latent * self.slope
    }

    /// The cell as its wall sees it: a conductance to a temperature, and latent heat with its slope.
    pub fn side(&self) -> AirSide {
        // Share of the surface's balance that reaches the wall through the frost.
        let reach = self.through_w_k.map_or(1.0, |g| g / (g + self.at_surface_w_k()));
        let air = reach * self.conductance_w_k;
        let pull = reach * self.wet_kg_s * self.latent;
        let conductance_w_k = air + self.phase_w_k + self.housing.0;
        let sum = air * self.air_t_k + self.phase_w_k * ZERO_C_K + self.housing.0 * self.housing.1;
        AirSide {
            conductance_w_k,
            t_k: sum / conductance_w_k,
            latent_w: pull * (self.excess + self.slope * (self.surface_k - self.wall_k)),
            latent_slope_w_k: pull * self.slope,
        }
    }

    /// With the wall at `wall_k` at the end of the step: heat from the air [W], water from the air [kg/s], frost
    /// that melts [kg/s]; each may be negative.
    pub fn taken(&self, wall_k: f64) -> (f64, f64, f64) {
        let surface_k = self.through_w_k.map_or(wall_k, |through| {
            let pull = self.wet_kg_s * self.latent * (self.excess + self.slope * self.surface_k);
            (through * wall_k + self.conductance_w_k * self.air_t_k + pull)
                / (through + self.at_surface_w_k())
        });
        (
            self.conductance_w_k * (self.air_t_k - surface_k),
            self.wet_kg_s * (self.excess - self.slope * (surface_k - self.surface_k)),
            self.phase_w_k * (wall_k - ZERO_C_K) / MELTING,
        )
    }

    /// Heat of the water the air gives [J/kg].
    #[cfg(test)]
    pub fn latent(&self) -> f64 {
        self.latent
    }
}
