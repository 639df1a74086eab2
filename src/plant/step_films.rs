//! The films that a step goes by, settled at its start.

use super::State;
use super::layout::Layout;
use super::wall_films::WallFilms;
use crate::refrigerant::Refrigerant;

/// Films of every wall for a step that starts from `state`: those it remembers where little has changed since, new
/// ones elsewhere. A pure function of the state.
pub fn at(refrigerant: &Refrigerant, layout: &Layout, state: &State) -> Vec<WallFilms> {
    let mut all = Vec::with_capacity(layout.len());
    for (i, wall) in layout.walls.iter().enumerate() {
        let (flow_kg_s, ln_p, heat_w) = (state.through_kg_s[i], state.u[i], state.heat_w[i]);
        all.push(match state.films.get(i) {
            Some(old) if old.still_hold(wall, flow_kg_s, ln_p, heat_w) => *old,
            _ => {
                WallFilms { flow_kg_s, ln_p, heat_w, films: wall.films(refrigerant, flow_kg_s, ln_p, heat_w) }
            }
        });
    }
    all
}
