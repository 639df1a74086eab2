//! What rides with the refrigerant or is moved by it, taken a step further: oil, water, the compressor's body.

use super::layout::Layout;
use super::spec::PlantSpec;
use super::system::Outcome;
use super::water::Ride;
use super::{Inputs, State};

/// Move oil, water and the body on over a converged step that ended in `next`. Returns the friction power [W].
pub fn move_on(
    spec: &PlantSpec,
    layout: &Layout,
    inputs: &Inputs,
    out: &Outcome,
    dt_s: f64,
    next: &mut State,
) -> f64 {
    let (l, nodes) = (layout, &out.nodes);
    next.oil.service(inputs.oil_kg_s * dt_s);
    next.oil.step(&spec.oil, l, nodes, &out.flows, &out.leaving, dt_s);
    let State { water, oil, wall_k, .. } = next;
    water.boiled(l, &out.boiling, &out.steam_kg_s, wall_k, dt_s);
    let (flows, leaving) = (&out.flows[..], &out.leaving[..]);
    water.step(&Ride { spec, layout, nodes, oil, flows, leaving, inputs }, dt_s);

    let (s, suction) = (l.suction, &nodes[l.suction]);
    let flow = out.flows[0];
    let turning = flow.mass_kg_s > 0.0;
    // Refrigerant in or out of the sump's oil: the gas carries its enthalpy, the body gives or takes the latent heat.
    let dissolving = next.oil.uptake_kg(suction.p_ref, out.shell_saturation_pa, turning, dt_s);
    let dissolving = dissolving.clamp(-next.oil.dissolved_kg, 0.2 * next.mass_kg[s].max(0.0));
    let latent = suction.sat.h_v - suction.sat.h_l;
    let h = suction.h_out.v.max(suction.sat.h_l);
    next.mass_kg[s] -= dissolving;
    next.energy_j[s] -= dissolving * h;
    next.oil.dissolved_kg += dissolving;
    next.oil.dissolved_j += dissolving * (h - latent);
    let latent_w = dissolving * latent / dt_s;

    let rpm = if turning { inputs.compressor_rpm } else { 0.0 };
    let wet = if turning { (1.0 - suction.quality.v).clamp(0.0, 1.0) } else { 0.0 };
    let film = next.oil.film(&spec.oil) * inputs.oil_film.clamp(0.0, 1.0);
    let air_t_k = inputs.ambient_t_k
        + spec.discharge_line.engine_bay_share * (next.engine_bay.bay_t_k - inputs.ambient_t_k);
    // A motor in the body heats it with what it loses of the shaft power.
    let shaft_w = if turning { flow.in_w - flow.out_w + out.shell_w } else { 0.0 };
    let motor_w = spec.compressor.drive.motor_loss() * shaft_w.max(0.0);
    next.shell.step(&spec.shell, rpm, out.shell_w + latent_w + motor_w, film, wet, air_t_k, dt_s)
}
