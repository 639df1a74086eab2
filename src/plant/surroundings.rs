//! What stands around the loop: which air each wall faces over a step, and how that air moves on after it.

use super::coil::{CoilAir, VentAir};
use super::condenser_air::FrontAir;
use super::heat::AirSide;
use super::layout::{Layout, PlantSpec};
use super::{Inputs, State};

/// Air side of every wall over a step of `dt_s` from `state`.
pub fn air_sides(
    spec: &PlantSpec,
    layout: &Layout,
    state: &State,
    inputs: &Inputs,
    coil: &CoilAir,
    dt_s: f64,
) -> Vec<AirSide> {
    let (l, s) = (layout, spec);
    let mut sides = vec![AirSide::default(); l.len()];
    let front = FrontAir::of(s, l, inputs, state);
    for i in l.condenser.clone() {
        sides[i] = front.cell((1.0 - s.subcooler_face) / l.condenser.len() as f64);
    }
    for i in l.subcooler.clone() {
        sides[i] = front.cell(s.subcooler_face / l.subcooler.len() as f64);
    }
    for (i, water) in l.evaporator.clone().zip(&state.coil.cells) {
        sides[i] = coil.cell(state.wall_k[i], water, dt_s).side();
    }
    for (i, pipe) in [
        (l.suction, &s.suction_line),
        (l.discharge, &s.discharge_line),
        (l.receiver, &s.receiver),
        (l.liquid, &s.liquid_line),
        (l.low_hose, &s.hose),
        (l.high_hose, &s.hose),
        (l.centre, &s.hose),
    ] {
        let t_k = inputs.ambient_t_k + pipe.bay_share * (state.bay.bay_t_k - inputs.ambient_t_k);
        sides[i] = AirSide { conductance_w_k: pipe.outside_w_k, t_k, ..AirSide::default() };
    }
    sides
}

/// Move coil, cabin and engine bay on over a step from `from` that ended with the walls at `next.wall_k`.
/// Returns the air off the vents and the water the coil took from it [kg/s].
pub fn move_on(
    spec: &PlantSpec,
    layout: &Layout,
    inputs: &Inputs,
    coil: &CoilAir,
    from: &State,
    dt_s: f64,
    next: &mut State,
) -> (VentAir, f64) {
    let cells = layout.evaporator.clone();
    let (old_k, new_k) = (&from.wall_k[cells.clone()], &next.wall_k[cells]);
    let (vent, condensing_kg_s) = next.coil.step(coil, old_k, new_k, dt_s);
    let front = FrontAir::of(spec, layout, inputs, from);
    let off = front.off_condenser_t_k(spec, layout, &next.wall_k);
    next.bay.step(&spec.engine_bay, inputs, &front, off, from.cabin.t_k, dt_s);
    let firewall = (spec.engine_bay.firewall_w_k, next.bay.bay_t_k);
    next.cabin.step(&spec.cabin, inputs, coil, vent, firewall, next.bay.engine_t_k, dt_s);
    (vent, condensing_kg_s)
}
