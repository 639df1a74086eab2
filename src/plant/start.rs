//! The state a scenario starts from: soaked, at rest, one pressure everywhere.

use super::boundary::Released;
use super::cabin::Cabin;
use super::coil_water::CoilWater;
use super::engine_bay::EngineBay;
use super::layout::Layout;
use super::oil::Oil;
use super::openings::Vessel;
use super::service_bay::PerVessel;
use super::shell::Shell;
use super::spec::PlantSpec;
use super::volume::{self, Kind};
use super::water::{self, Water};
use super::{Contents, Inputs, State};
use crate::constants::R_DRY_AIR;
use crate::refrigerant::Refrigerant;

/// The loop at outside temperature, the cabin as the sun has left it; liquid lies in the receiver first, then in condenser and evaporator.
pub fn soaked(
    spec: &PlantSpec,
    l: &Layout,
    r: &'static Refrigerant,
    inputs: &Inputs,
    contents: Contents,
    vessels_kg: PerVessel<f64>,
) -> State {
    let mut oil = Oil::soaked(&spec.oil, l, contents.oil_kg);
    // Soaked oil holds what it can, out of the charge.
    oil.dissolved_kg = oil.uptake_kg(1.0, 1.0, true, 1e9).clamp(0.0, 0.2 * contents.charge_kg);
    oil.dissolved_j = oil.dissolved_kg * r.saturation(libm::log(r.saturation_p_pa(inputs.ambient_t_k))).h_l;
    let (charge_kg, air_kg) = (contents.charge_kg - oil.dissolved_kg, contents.air_kg);
    let t = inputs.ambient_t_k;
    let n = l.len();
    let p_sat = r.saturation_p_pa(t);
    let hose = |i: usize| i == l.low_hose || i == l.high_hose || i == l.centre;
    // Hoses hold a trace of vapour until they are fitted.
    let fitted = |i: usize| {
        (i == l.low_hose && inputs.low_hose.is_some()) || (i == l.high_hose && inputs.high_hose.is_some())
    };
    let vessel = |i: usize| i >= l.loop_len();
    let in_use = |i: usize| !vessel(i) && (!hose(i) || fitted(i));
    // In the service bay hoses are full of air until somebody purges or evacuates them.
    let airy = |i: usize| l.vessels.is_some() && hose(i) && !fitted(i);
    let trace_pa = p_sat.min(crate::units::ATMOSPHERE_PA);
    let room: f64 = (0..n).filter(|&i| in_use(i)).map(|i| l.volumes_m3[i]).sum();
    let vapour = |p: f64| vapour_state(r, p, t);
    let all_vapour = room * vapour(p_sat).1;

    let mut u = vec![0.0; n];
    let mut h = vec![0.0; n];
    let charge_kg = charge_kg.max(room * 1e-3);
    let held = |u: &[f64], h: &[f64]| -> f64 {
        let mass = |i: usize| volume::evaluate(r, l.kinds[i], l.volumes_m3[i], 0.0, u[i], h[i]).mass.v;
        (0..l.loop_len()).map(mass).sum()
    };
    // What the hoses hold counts too, so the amount to spread over the loop is found in a few rounds.
    let mut spread_kg = charge_kg;
    for _ in 0..6 {
        let (p, liquid_kg) = if spread_kg >= all_vapour {
            (p_sat, spread_kg - all_vapour)
        } else {
            (pressure_for_density(r, t, spread_kg / room, p_sat), 0.0)
        };
        for i in 0..n {
            if vessel(i) {
                let vessel = Vessel::ALL[i - l.loop_len()];
                (u[i], h[i]) = rested(r, vessel, vessels_kg[vessel], t);
                continue;
            }
            let p_here = if in_use(i) {
                p
            } else if airy(i) {
                TRACE_PA
            } else {
                trace_pa.min(p)
            };
            u[i] = libm::log(p_here);
            h[i] = if p_here >= p_sat * 0.999_999 { r.saturation(u[i]).h_v } else { vapour(p_here).0 };
        }
        if liquid_kg > 0.0 {
            let sat = r.saturation(libm::log(p));
            let extra = sat.rho_l - sat.rho_v;
            // Fill levels: the receiver (or accumulator) up to 80 %, what is left evenly over the channels.
            let store = l.store();
            let receiver = (liquid_kg / (extra * l.volumes_m3[store])).min(0.8);
            let left = liquid_kg - receiver * extra * l.volumes_m3[store];
            let channels: f64 =
                (0..n).filter(|&i| in_use(i) && !hose(i) && i != store).map(|i| l.volumes_m3[i]).sum();
            let share = (left / (extra * channels)).min(0.999);
            for i in (0..n).filter(|&i| in_use(i) && !hose(i)) {
                let level = if i == store { receiver } else { share };
                h[i] = enthalpy_for_void(r, u[i], l.kinds[i], 1.0 - level);
            }
        }
        let off = charge_kg - held(&u, &h);
        if off.abs() < 1e-9 {
            break;
        }
        spread_kg = (spread_kg + off).max(room * 1e-4);
    }
    let mut air = vec![0.0; n];
    let gas: f64 = (0..n).filter(|&i| in_use(i)).map(|i| void(r, l, i, u[i], h[i])).sum();
    for i in (0..n).filter(|&i| in_use(i)) {
        air[i] = air_kg * void(r, l, i, u[i], h[i]) / gas;
    }
    for i in (0..n).filter(|&i| airy(i)) {
        air[i] = inputs.ambient_pa * l.volumes_m3[i] / (R_DRY_AIR * t);
    }
    let nodes: Vec<_> =
        (0..n).map(|i| volume::evaluate(r, l.kinds[i], l.volumes_m3[i], air[i], u[i], h[i])).collect();
    let mut mass: Vec<f64> = nodes.iter().map(|x| x.mass.v).collect();
    let mut energy: Vec<f64> = nodes.iter().map(|x| x.energy.v).collect();
    let mut water = soaked_water(spec, l, inputs, &oil, &mass, contents.water_kg);
    // Air of the hoses is as moist as that around them.
    for i in (0..n).filter(|&i| airy(i)) {
        let vapour_kg = air[i] * inputs.ambient_w;
        water.kg[i] += vapour_kg;
        water.breathed_kg += vapour_kg;
    }
    // Put the last crumb right where most of the charge is, with the energy that goes with it.
    let off = charge_kg - mass[..l.loop_len()].iter().sum::<f64>();
    let most = (0..l.loop_len()).max_by(|&a, &b| mass[a].total_cmp(&mass[b])).unwrap_or(0);
    energy[most] *= 1.0 + off / mass[most];
    mass[most] += off;
    State {
        time_s: 0.0,
        u,
        h,
        energy_j: energy,
        air_kg: air,
        wall_k: vec![t; n],
        through_kg_s: vec![0.0; n],
        heat_w: vec![0.0; n],
        films: Vec::new(),
        bulb_t_k: t,
        fin_t_k: t,
        cabin: Cabin::soaked(&spec.cabin, inputs),
        coil: CoilWater::dry(l.evaporator.len()),
        engine_bay: EngineBay::at_start(&spec.engine_bay, inputs.engine_on, t),
        shell: Shell::sound(t),
        water,
        oil,
        mass_kg: mass,
        air_in_kg: 0.0,
        released: Released::default(),
        serviced_kg: 0.0,
        from_cylinder_kg: 0.0,
        exchanger_w: vec![0.0; l.exchanger_liquid.len()],
        coolant_t_k: spec.chiller.as_ref().map(|_| t),
    }
}

/// Refrigerant left in a vessel or hose that counts as empty [Pa].
const TRACE_PA: f64 = 100.0;

/// ln p and h of a vessel of the service bay with so much refrigerant in it, rested at a temperature.
pub(super) fn rested(r: &'static Refrigerant, vessel: Vessel, held_kg: f64, t: f64) -> (f64, f64) {
    let spec = vessel.spec();
    let p_sat = r.saturation_p_pa(t);
    let density = held_kg.max(0.0) / spec.volume_m3;
    let sat = r.saturation(libm::log(p_sat));
    if density <= sat.rho_v {
        let p = if held_kg > 0.0 { pressure_for_density(r, t, density, p_sat) } else { TRACE_PA };
        return (libm::log(p), vapour_state(r, p, t).0);
    }
    // Never quite full of liquid, whoever filled it.
    let void = (1.0 - (density - sat.rho_v) / (sat.rho_l - sat.rho_v)).max(0.02);
    (libm::log(p_sat), enthalpy_for_void(r, libm::log(p_sat), Kind::Separator, void))
}

/// Water at rest: the desiccant took what it could, the rest is where refrigerant and oil are.
fn soaked_water(
    spec: &PlantSpec,
    l: &Layout,
    inputs: &Inputs,
    oil: &Oil,
    mass_kg: &[f64],
    water_kg: f64,
) -> Water {
    let capacity = water::capacity_kg(&spec.water, inputs.ambient_t_k, inputs.desiccant_taken);
    let bound_kg = water_kg.min(0.9 * capacity);
    let n = l.loop_len();
    let mut holding: Vec<f64> = mass_kg.iter().zip(&oil.kg).map(|(m, o)| m + o).collect();
    holding[n..].fill(0.0);
    let all: f64 = holding.iter().sum();
    let kg = holding.iter().map(|x| (water_kg - bound_kg) * x / all).collect();
    Water { kg, bound_kg, ..Water::default() }
}

fn void(r: &'static Refrigerant, l: &Layout, i: usize, u: f64, h: f64) -> f64 {
    volume::evaluate(r, l.kinds[i], l.volumes_m3[i], 0.0, u, h).void * l.volumes_m3[i]
}

/// (h, rho) of vapour at p and t, at most saturated.
fn vapour_state(r: &'static Refrigerant, p: f64, t: f64) -> (f64, f64) {
    let u = libm::log(p);
    let sat = r.saturation(u);
    let (mut low, mut high) = (sat.h_v, sat.h_v + 2.5e5);
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if r.state_with(&sat, mid).t_k < t { low = mid } else { high = mid }
    }
    (low, r.state_with(&sat, low).rho_kg_m3)
}

fn pressure_for_density(r: &'static Refrigerant, t: f64, rho: f64, p_sat: f64) -> f64 {
    let (mut low, mut high) = (10.0, p_sat);
    for _ in 0..60 {
        let mid = (low * high).sqrt();
        if vapour_state(r, mid, t).1 < rho { low = mid } else { high = mid }
    }
    low
}

/// Enthalpy at which a volume has this void share.
fn enthalpy_for_void(r: &'static Refrigerant, u: f64, kind: Kind, void: f64) -> f64 {
    let sat = r.saturation(u);
    let (mut low, mut high) = (sat.h_l, sat.h_v);
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        if volume::evaluate(r, kind, 1.0, 0.0, u, mid).void < void { low = mid } else { high = mid }
    }
    0.5 * (low + high)
}
