//! The internal heat exchanger: walls of the liquid side against walls of the vapour side, in counterflow.
//!
//! Over a step a fixed heat passes between the two walls of a pair, the same out of one and into the other, so nothing is
//! lost. It follows what the present walls ask for, held back as far as the step is long: `Q += (G dT - Q) / (1 + G dt
//! (1 / (Cl + dt Fl) + 1 / (Cv + dt Fv)))` with the heat capacities C and films F of both walls, which is the implicit
//! step of both walls with their fluids held, and stable at any length.

use super::State;
use super::layout::Layout;
use super::spec::ExchangerSpec;

/// Heat from each cell of the liquid side to its partner over a step of `dt_s` [W].
pub fn heats_w(spec: &ExchangerSpec, layout: &Layout, state: &State, film: f64, dt_s: f64) -> Vec<f64> {
    let cells = layout.exchanger_liquid.len();
    let g = spec.conductance_w_k * film.max(0.0) / cells.max(1) as f64;
    let yields = |i: usize| {
        let film = state.films.get(i).map_or(0.0, |f| f.films.vapour_w_k.min(f.films.liquid_w_k));
        1.0 / (layout.walls[i].capacity_j_k() + dt_s * film)
    };
    pairs(layout)
        .zip(&state.exchanger_w)
        .map(|((liquid, vapour), before)| {
            let asked = g * (state.wall_k[liquid] - state.wall_k[vapour]);
            before + (asked - before) / (1.0 + g * dt_s * (yields(liquid) + yields(vapour)))
        })
        .collect()
}

/// Cells that touch: the first of the liquid side and the last of the vapour side, and so on.
pub fn pairs(layout: &Layout) -> impl Iterator<Item = (usize, usize)> + use<> {
    layout.exchanger_liquid.clone().zip(layout.exchanger_vapour.clone().rev())
}
