//! Air in the loop: after each step it is carried by the flows just found, in one implicit linear solve, so
//! that it stays positive and no gram is lost at any step length.

use super::layout::Layout;
use super::linear;
use super::link;
use super::system::Outcome;

/// New air mass of each volume after `dt_s`; `source_kg_s` goes into volume `at`.
pub fn carry(
    layout: &Layout,
    air_kg: &[f64],
    out: &Outcome,
    at: usize,
    source_kg_s: f64,
    dt_s: f64,
) -> Vec<f64> {
    let n = layout.len();
    let total: f64 = air_kg.iter().sum();
    if total <= 0.0 && source_kg_s <= 0.0 {
        return air_kg.to_vec();
    }
    let mut matrix = vec![0.0; n * n];
    let mut next = air_kg.to_vec();
    next[at] += source_kg_s.max(0.0) * dt_s;
    for i in 0..n {
        matrix[i * n + i] = 1.0;
    }
    for flow in &out.flows {
        let (i, j) = (flow.from, flow.to);
        let volumes = (layout.volumes_m3[i], layout.volumes_m3[j]);
        let (forward, backward) = link::air_rates(&out.nodes[i], &out.nodes[j], volumes, flow.mass_kg_s);
        matrix[i * n + i] += dt_s * forward;
        matrix[j * n + i] -= dt_s * forward;
        matrix[j * n + j] += dt_s * backward;
        matrix[i * n + j] -= dt_s * backward;
    }
    if !linear::solve(&mut matrix, &mut next, n) {
        return air_kg.to_vec();
    }
    // A sink takes the same share everywhere.
    if source_kg_s < 0.0 && total > 0.0 {
        let keep = (1.0 + source_kg_s * dt_s / total).max(0.0);
        for x in &mut next {
            *x *= keep;
        }
    }
    next
}
