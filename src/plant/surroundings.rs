//! What stands around the loop: which air each wall faces over a step, and how that air moves on after it.

use super::cabin::VentAir;
use super::coil::CoilAir;
use super::condenser_air::FrontAir;
use super::exchanger;
use super::heat::AirSide;
use super::layout::Layout;
use super::openings::Vessel;
use super::spec::PlantSpec;
use super::{Inputs, State};

/// How near air through the heater core comes to the coolant (from memory: 0.6 to 0.8).
const HEATER_EFFECTIVENESS: f64 = 0.7;
/// Water to warm a vessel in [K]: 40 °C, the most that is printed on small cans (common practice, no source).
const WARM_BATH_K: f64 = 313.15;
/// A wet wall takes heat so many times as well as one in still air (order of magnitude from memory).
const WARM_BATH_GAIN: f64 = 20.0;

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
    if let Some(exchanger) = &s.exchanger {
        let heats = exchanger::heats_w(exchanger, l, state, inputs.exchanger_film, dt_s);
        for ((liquid, vapour), heat_w) in exchanger::pairs(l).zip(heats) {
            sides[liquid].latent_w = -heat_w;
            sides[vapour].latent_w = heat_w;
        }
    }
    if let (Some(chiller), Some(t_k)) = (&s.chiller, state.coolant_t_k) {
        let conductance_w_k = chiller.coolant_w_k / l.chiller.len() as f64;
        for i in l.chiller.clone() {
            sides[i] = AirSide { conductance_w_k, t_k, ..AirSide::default() };
        }
    }
    for (i, water) in l.evaporator.clone().zip(&state.coil.cells) {
        sides[i] = coil.cell(state.wall_k[i], water, dt_s).side();
    }
    for vessel in Vessel::ALL {
        if let Some(i) = l.vessel(vessel) {
            let (conductance_w_k, t_k) = if inputs.warm_bath == Some(vessel) {
                (WARM_BATH_GAIN * vessel.spec().outside_w_k, WARM_BATH_K)
            } else {
                (vessel.spec().outside_w_k, inputs.ambient_t_k)
            };
            sides[i] = AirSide { conductance_w_k, t_k, ..AirSide::default() };
        }
    }
    let vessels = [
        (l.receiver, s.receiver.as_ref()),
        (l.accumulator, s.accumulator.as_ref().map(|a| &a.vessel)),
        (Some(l.suction), Some(&s.suction_line)),
        (Some(l.discharge), Some(&s.discharge_line)),
        (Some(l.liquid), Some(&s.liquid_line)),
        (Some(l.low_hose), Some(&s.hose)),
        (Some(l.high_hose), Some(&s.hose)),
        (Some(l.centre), Some(&s.hose)),
    ];
    for (i, pipe) in vessels.into_iter().filter_map(|(i, pipe)| i.zip(pipe)) {
        let t_k =
            inputs.ambient_t_k + pipe.engine_bay_share * (state.engine_bay.bay_t_k - inputs.ambient_t_k);
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
    if let Some(exchanger) = &spec.exchanger {
        next.exchanger_w = exchanger::heats_w(exchanger, layout, from, inputs.exchanger_film, dt_s);
    }
    if let (Some(chiller), Some(t_k)) = (&spec.chiller, from.coolant_t_k) {
        // What the walls took over the step, so that none is lost; the coolant is heavy enough to follow after.
        let each_w_k = chiller.coolant_w_k / layout.chiller.len() as f64;
        let given_w: f64 = layout.chiller.clone().map(|i| each_w_k * (t_k - next.wall_k[i])).sum();
        next.coolant_t_k = Some(t_k + dt_s * (inputs.battery_w - given_w) / chiller.coolant_j_k);
    }
    let cells = layout.evaporator.clone();
    let (old_k, new_k) = (&from.wall_k[cells.clone()], &next.wall_k[cells]);
    let (mut vent, condensing_kg_s) = next.coil.step(coil, old_k, new_k, dt_s);
    // Hot coolant goes round while the engine runs.
    if inputs.heater_share > 0.0 && inputs.engine_on {
        vent.t_k += inputs.heater_share * HEATER_EFFECTIVENESS * (from.engine_bay.engine_t_k - vent.t_k);
    }
    let front = FrontAir::of(spec, layout, inputs, from);
    let off = front.off_condenser_t_k(spec, layout, &next.wall_k);
    next.engine_bay.step(&spec.engine_bay, inputs, &front, off, from.cabin.t_k, dt_s);
    let firewall = (spec.engine_bay.firewall_w_k, next.engine_bay.bay_t_k);
    next.cabin.step(&spec.cabin, inputs, coil.flow_kg_s, vent, firewall, next.engine_bay.engine_t_k, dt_s);
    (vent, condensing_kg_s)
}
