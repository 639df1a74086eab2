//! Out of which place what leaves the loop comes to light.

use crate::places::{BySearchPlace, SearchPlace};
use crate::plant::Plant;

/// Share of the refrigerant let out in the second gone by, `released_kg`, that came out at each place where a leak is
/// searched for; the rest went out at the centre hose.
pub fn shares_of_openings(plant: &Plant, released_kg: f64) -> BySearchPlace<f64> {
    let mut shares = BySearchPlace::default();
    for (k_m2, hole) in plant.inputs().openings() {
        let Some(place) = SearchPlace::of(hole).filter(|_| k_m2 > 0.0 && released_kg > 0.0) else {
            continue;
        };
        let (kg_s, _) = plant.through_opening(plant.layout().open_place(hole), k_m2);
        shares[place] += (kg_s / released_kg).clamp(0.0, 1.0);
    }
    shares
}
