//! The exact slopes of the network against differences, at states of a real run.

use super::coil::CoilAir;
use super::scratch::Scratch;
use super::system::{Outcome, System};
use super::testing::rigs;
use super::{CentreHose, Drive, Inputs, OpenPlace, Plant};
use crate::refrigerant::Refrigerant;

pub fn inputs() -> Inputs {
    Inputs {
        engine_on: true,
        engine_rpm: 900.0,
        fan_share: 1.0,
        blower_pct: 100.0,
        ambient_w: 0.0142,
        people: 1.0,
        manifold_high: 0.3,
        reed_leak: 0.1,
        centre_hose: CentreHose::Open,
        open_m2: 3e-7,
        open_place: OpenPlace::Evaporator,
        ..Inputs::parked(308.15).with_hoses(true)
    }
}

/// Compare every slope of every equation with a central difference at the present state.
fn compare(plant: &mut Plant, say: &str) {
    let layout = plant.layout.clone();
    let system = System { refrigerant: plant.refrigerant, spec: &plant.spec, layout: &layout, accuracy: 1.0 };
    let state = plant.after.clone();
    let coil = CoilAir::entering(&plant.spec, &plant.inputs, &state);
    let dt = 0.05;
    let residuals = |u: &[f64], h: &[f64], air: &[f64]| {
        let mut scratch = Scratch::default();
        let air_share = plant.outcome.nodes.iter().map(|node| node.air_share.v).collect();
        let mut out =
            Outcome { u: u.to_vec(), h: h.to_vec(), air_kg: air.to_vec(), air_share, ..Outcome::default() };
        system.assemble_for_test(&state, &plant.inputs, &coil, dt, &mut out, &mut scratch);
        scratch
    };
    // Shifted off the solution, so that the storage terms and flows are in full swing.
    let (u, h, air) = (state.u.clone(), state.h.clone(), state.air_kg.clone());
    let base = residuals(&u, &h, &air);
    let stride = base.stride();
    for column in 0..stride * layout.len() {
        let (i, k) = (column / stride, column % stride);
        // A trace of air is clipped at zero by the shift.
        if k == 2 && air[i] < 1e-6 {
            continue;
        }
        let e = [1e-6, 0.2, 1e-10][k];
        let shifted = |sign: f64| {
            let (mut u, mut h, mut air) = (u.clone(), h.clone(), air.clone());
            match k {
                0 => u[i] += sign * e,
                1 => h[i] += sign * e,
                _ => air[i] += sign * e,
            }
            residuals(&u, &h, &air)
        };
        let (plus, minus) = (shifted(1.0), shifted(-1.0));
        for row in 0..stride * layout.len() {
            // The compressor's slopes hold its efficiencies constant on purpose: they are only there to converge.
            if i == layout.suction && (row / stride == layout.suction || row / stride == layout.discharge) {
                continue;
            }
            let equation = (row / stride, row % stride);
            let (_, slope) = base.look(equation, (i, k));
            let difference = (plus.look(equation, (0, 0)).0 - minus.look(equation, (0, 0)).0) / (2.0 * e);
            // Rounding of a difference, as a share of the equation's own change with its own unknown.
            let own = base.look(equation, equation).1.abs() * [1.0, 1e5, 1e-3][row % stride];
            let scale = difference.abs().max(slope.abs());
            // A difference of two residuals cannot be better than the rounding of what they are summed from.
            let stored =
                [state.mass_kg[equation.0], state.energy_j[equation.0].abs(), state.air_kg[equation.0]];
            let rounding = 32.0 * f64::EPSILON * stored[row % stride] / dt / e;
            let floor = 1e-9 * own.max(1e-6) * [1.0, 1e-5, 1e3][k] + rounding;
            assert!(
                (slope - difference).abs() <= 0.05 * scale + floor,
                "{say}: equation {row} (volume {}, kind {}) by unknown {column} (volume {i}, kind {k}): {slope:e} against {difference:e}",
                row / stride,
                row % stride
            );
        }
    }
}

/// Every rig: orifice tube, accumulator, exchanger, both electronic valves and each drive among them.
#[test]
fn network_slopes_agree_with_differences() {
    let rigs = rigs();
    for (id, spec, air_kg) in rigs.iter().flat_map(|(id, spec)| [(id, spec, 0.0), (id, spec, 1e-3)]) {
        let refrigerant = Refrigerant::by_name(&spec.refrigerant).unwrap();
        let mut i = inputs();
        let mut plant = Plant::soaked(spec, refrigerant, i, spec.full_charge_kg, air_kg);
        i.compressor_rpm = 1200.0;
        if matches!(spec.compressor.drive, Drive::VariableBelt { .. }) {
            i.stroke = 0.6;
        }
        (i.expansion_opening, i.chiller_opening, i.battery_w) = (0.3, 0.2, 2000.0);
        plant.set_inputs(0.0, i);
        // Through a valve that has all but shut, as this one has at first, what flows is on the verge of turning round,
        // and the slope of its heat by the lift leaves that out.
        let times = if id == "walk_in_cooler" { [60.0, 75.0, 90.0] } else { [2.0, 8.0, 30.0] };
        for t in times {
            plant.advance_to(t);
            compare(&mut plant, &format!("{id}, {air_kg} kg of air at {t} s"));
        }
    }
}
