//! From the plant's state to the true states that are shown.

use super::inside::{CellState, ChillerState, ExchangerState, Inside, PointState, VesselState};
use super::now::Now;
use crate::circuit::Circuit;
use crate::fault::FaultSet;
use crate::plant::{Node, Plant};

fn point(node: &Node, h_j_per_kg: f64, flow_kg_s: f64) -> PointState {
    PointState {
        p_pa: node.p_ref,
        p_total_pa: node.p.v,
        h_j_per_kg,
        t_k: node.t.v,
        x: node.reported_x(),
        void_fraction: node.void.clamp(0.0, 1.0),
        flow_kg_s,
    }
}

/// Subcooling at the liquid line [K]; 0 with bubbles in it.
pub fn subcooling_k(plant: &Plant, time_s: f64) -> f64 {
    subcooled(&plant.node(plant.layout().liquid, time_s))
}

fn subcooled(liquid: &Node) -> f64 {
    if liquid.quality.v < 0.0 { (liquid.sat.t_k - liquid.t.v).max(0.0) } else { 0.0 }
}

/// The true states at a moment. Gauges sit on the hoses where those are fitted, else on the ports.
pub fn inside(now: &Now, hoses_fitted: bool, circuit: &Circuit, faults: &FaultSet) -> Inside {
    let (plant, ambient_pa, ambient_t_k) = (now.plant, now.ambient_pa(), now.ambient_k());
    let (l, now) = (plant.layout(), now.time_s());
    let nodes: Vec<Node> = (0..l.len()).map(|i| plant.node(i, now)).collect();
    let h: Vec<f64> = (0..l.len()).map(|i| plant.at(now, |s| s.h[i])).collect();
    let walls: Vec<f64> = (0..l.len()).map(|i| plant.at(now, |s| s.wall_k[i])).collect();
    let heats = plant.heats_w();
    let flows = plant.flows();
    let between = |a: usize, b: usize| -> f64 {
        flows.iter().filter(|f| f.from == a && f.to == b).map(|f| f.mass_kg_s).sum()
    };
    let (compressor, leak, metering) =
        (plant.compressor_flow(), plant.reed_leak_kg_s(), plant.metering_kg_s());
    let at = |i: usize, flow: f64| point(&nodes[i], h[i], flow);
    let (evaporator_out, condenser_out) = (l.evaporator.end - 1, l.condenser_outlet());
    let valve_in = l.metering_inlet();

    // Point 5: just after the valve, the enthalpy of the liquid at the evaporator's pressure.
    let first = &nodes[l.evaporator.start];
    let after_valve = plant.at_pressure(first.p_ref, nodes[valve_in].h_out.v);
    let mut point_5 = point(&after_valve, nodes[valve_in].h_out.v, metering);
    point_5.p_total_pa = first.p.v;

    let cell = |i: usize, flow: f64| CellState { point: at(i, flow), wall_t_k: walls[i], heat_w: heats[i] };
    let mut condenser = Vec::new();
    let mut upstream = l.discharge;
    for i in l.condenser.clone() {
        condenser.push(cell(i, between(upstream, i)));
        upstream = i;
    }
    upstream = l.receiver.unwrap_or(upstream);
    for i in l.subcooler.clone() {
        condenser.push(cell(i, between(upstream, i)));
        upstream = i;
    }
    let mut evaporator = Vec::new();
    upstream = l.metering_inlet();
    for i in l.evaporator.clone() {
        evaporator.push(cell(i, between(upstream, i)));
        upstream = i;
    }
    let sum = |range: std::ops::Range<usize>| -> f64 { range.map(|i| heats[i]).sum() };
    let others = [l.suction, l.discharge, l.liquid, l.low_hose, l.high_hose, l.centre];
    let others = others.into_iter().chain(l.receiver).chain(l.accumulator);
    let (lift, bulb_t_k, bulb_pa) = plant.valve();
    let (vent_t_k, condensate_kg_s) = plant.vent();
    let (condenser_air_kg_s, condenser_air_on_t_k, condenser_air_off_t_k) = plant.condenser_air();
    let liquid = &nodes[l.liquid];
    // What leaves a vessel, and how far it is full of liquid.
    let vessel = |i: usize| VesselState {
        level: (1.0 - nodes[i].void).clamp(0.0, 1.0),
        point: point(
            &nodes[i],
            nodes[i].h_out.v,
            flows.iter().filter(|f| f.from == i).map(|f| f.mass_kg_s).sum(),
        ),
    };
    let receiver = l.receiver.map(vessel);
    let cells =
        |range: &std::ops::Range<usize>| range.clone().map(|i| cell(i, plant.at(now, |s| s.through_kg_s[i])));
    let port = |line: usize, hose: usize| nodes[if hoses_fitted { hose } else { line }].p.v - ambient_pa;
    Inside {
        points: [
            at(l.suction, compressor.mass_kg_s),
            at(l.discharge, compressor.mass_kg_s - leak),
            at(condenser_out, between(condenser_out, l.liquid)),
            at(valve_in, metering),
            point_5,
            at(evaporator_out, flows.iter().filter(|f| f.from == evaporator_out).map(|f| f.mass_kg_s).sum()),
        ],
        condenser,
        condenser_main_cells: l.condenser.len(),
        evaporator,
        receiver_level: receiver.map_or(0.0, |r| r.level),
        receiver: receiver.map(|r| r.point).unwrap_or_default(),
        accumulator: l.accumulator.map(vessel),
        exchanger: plant.spec().exchanger.as_ref().map(|_| ExchangerState {
            liquid: cells(&l.exchanger_liquid).collect(),
            vapour: cells(&l.exchanger_vapour).collect(),
            heat_w: plant.at(now, |s| s.exchanger_w.iter().sum()),
        }),
        chiller: plant.spec().chiller.as_ref().map(|_| ChillerState {
            cells: cells(&l.chiller).collect(),
            coolant_t_k: plant.at(now, |s| s.coolant_t_k.unwrap_or(0.0)),
            heat_w: sum(l.chiller.clone()),
        }),
        sight_glass_bubbles: if liquid.quality.v > 0.0 { liquid.void } else { 0.0 },
        valve_lift: lift.max(0.0),
        valve_bulb_pa: bulb_pa,
        valve_evaporator_pa: nodes[evaporator_out].p.v,
        valve_spring_pa: plant
            .spec()
            .metering
            .thermostatic()
            .map_or(0.0, |valve| valve.spring_pa + valve.spring_rate_pa * lift.clamp(0.0, 1.0)),
        bulb_t_k,
        m_compressor_kg_s: compressor.mass_kg_s,
        m_metering_kg_s: metering,
        q_condenser_w: -sum(l.condenser.clone()) - sum(l.subcooler.clone()),
        q_evaporator_w: sum(l.evaporator.clone()),
        w_compressor_w: plant.compression_w(),
        q_other_w: others.map(|i| heats[i]).sum(),
        superheat_k: nodes[evaporator_out].superheat_k(),
        subcooling_k: subcooled(liquid),
        gauge_low_pa: port(l.suction, l.low_hose),
        gauge_high_pa: port(l.liquid, l.high_hose),
        compressor_rpm: plant.inputs().compressor_rpm,
        charge_kg: plant.charge_kg(now),
        released_kg: plant.at(now, |s| s.released_kg()),
        serviced_kg: plant.at(now, |s| s.serviced_kg),
        air_kg: plant.at(now, |s| s.air_kg.iter().sum()),
        vent_t_k,
        cabin_t_k: plant.at(now, |s| s.cabin.t_k),
        ambient_t_k,
        condenser_air_on_t_k,
        condenser_air_off_t_k,
        condenser_air_kg_s,
        condensate_kg_s,
        evaporator_air_kg_s: plant.coil_air_kg_s(),
        shell_t_k: plant.at(now, |s| s.shell.t_k),
        friction_w: plant.friction_w(),
        compressor_wear: plant.at(now, |s| s.shell.wear),
        reeds_battered: plant.at(now, |s| s.shell.battered),
        oil_sump_kg: plant.at(now, |s| s.oil.sump_kg),
        oil_kg: plant.at(now, |s| s.oil.total_kg()),
        dissolved_kg: plant.at(now, |s| s.oil.dissolved_kg),
        water_kg: plant.at(now, |s| s.water.total_kg()),
        water_bound_kg: plant.at(now, |s| s.water.bound_kg),
        valve_ice_kg: plant.at(now, |s| s.water.icing.ice_kg),
        coil_water_kg: plant.at(now, |s| s.coil.film_kg()),
        coil_frost_kg: plant.at(now, |s| s.coil.frost_kg()),
        drained_kg: plant.at(now, |s| s.coil.drained_kg),
        engine_t_k: plant.at(now, |s| s.engine_bay.engine_t_k),
        bay_t_k: plant.at(now, |s| s.engine_bay.bay_t_k),
        volts: circuit.all_volts().map(|(id, volts)| (id.to_owned(), volts)).collect(),
        faults: faults.iter().collect(),
    }
}
