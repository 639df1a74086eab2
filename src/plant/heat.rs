//! Heat between refrigerant, wall and air of one volume, written so that a Newton step cannot find two
//! answers: a saturation part on (T_sat - T_wall) and a sensible part on (T - T_sat), the first kept alive
//! into superheated vapour while the wall condenses and into subcooled liquid while it boils.

use super::correlations::Films;
use super::dual::D2;
use super::volume::Node;

/// The air (or surroundings) side of a wall during one solver step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AirSide {
    /// Conductance wall to air [W/K].
    pub conductance_w_k: f64,
    /// Temperature of the air [K].
    pub t_k: f64,
    /// Heat of condensing water into the wall at the wall's old temperature [W].
    pub latent_w: f64,
    /// How that falls as the wall warms [W/K], not negative.
    pub latent_slope_w_k: f64,
}

/// Result of one wall: heat into the refrigerant and the wall's new temperature.
#[derive(Clone, Copy, Debug)]
pub struct WallHeat {
    /// Heat into the refrigerant [W].
    pub into_refrigerant_w: D2,
    /// Wall temperature at the end of the step [K].
    pub wall_t_k: f64,
}

/// Smooth step from 0 to 1 on [0, 1] with its slope.
fn smooth_step(s: f64) -> (f64, f64) {
    if s <= 0.0 {
        (0.0, 0.0)
    } else if s >= 1.0 {
        (1.0, 0.0)
    } else {
        (s * s * (3.0 - 2.0 * s), 6.0 * s * (1.0 - s))
    }
}

/// Quality over which condensing film gives way to liquid film.
const WET_OUT: f64 = 0.1;
/// Quality above which a boiling wall begins to dry out.
const DRY_OUT: f64 = 0.85;

/// Saturation conductance as a function of quality, between condensing and boiling by the old wall.
fn saturation_conductance(films: &Films, node: &Node, wall_old_k: f64) -> D2 {
    let condensing = {
        let (liquid, two) = (films.liquid_w_k, films.condensing_w_k);
        let (s, slope) = smooth_step(node.quality.v / WET_OUT);
        node.quality.chain(liquid + (two - liquid) * s, (two - liquid) * slope / WET_OUT)
    };
    let boiling = {
        let (two, vapour) = (films.boiling_w_k, films.vapour_w_k);
        let width = 1.0 - DRY_OUT;
        let (s, slope) = smooth_step((node.quality.v - DRY_OUT) / width);
        node.quality.chain(two + (vapour - two) * s, (vapour - two) * slope / width)
    };
    let (weight, _) = smooth_step(0.5 + 0.5 * (node.sat.t_k - wall_old_k));
    condensing * weight + boiling * (1.0 - weight)
}

/// Heat of a wall of `capacity_j_k` with `films` over one implicit step of `dt_s`, the wall eliminated exactly.
pub fn wall_heat(
    films: &Films,
    capacity_j_k: f64,
    node: &Node,
    wall_old_k: f64,
    air: &AirSide,
    dt_s: f64,
) -> WallHeat {
    let sat = saturation_conductance(films, node, wall_old_k);
    let sensible = if node.quality.v > 1.0 { films.vapour_w_k } else { films.liquid_w_k };
    // Sensible part: zero inside the dome where T equals T_sat.
    let excess = node.t - node.t_sat;
    let store = capacity_j_k / dt_s;
    let wall = (sat * node.t_sat
        + excess * sensible
        + (store * wall_old_k
            + air.conductance_w_k * air.t_k
            + air.latent_w
            + air.latent_slope_w_k * wall_old_k))
        / (sat + (store + air.conductance_w_k + air.latent_slope_w_k));
    let into = sat * (wall - node.t_sat) - excess * sensible;
    WallHeat { into_refrigerant_w: into, wall_t_k: wall.v }
}
