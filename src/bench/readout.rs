//! From the plant's state to what a snapshot shows.

use super::snapshot::{
    CellState, ChillerState, ExchangerState, Inside, Instruments, Outside, PointState, Snapshot, Topology,
    VesselState,
};
use super::{Bench, Standing};
use crate::fault::Group;
use crate::perceive::{Felt, Perceived};
use crate::plant::Node;
use crate::units::ZERO_C_K;

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

impl Bench {
    /// What can be seen now, the inside only when asked for by someone who may see it.
    pub fn snapshot(&self, inside: bool) -> Snapshot {
        let engine_rpm = if self.controls.engine_on { self.controls.engine_rpm } else { 0.0 };
        let shown = |probe| self.rack.shown(&probe, self.tick).map_or(0.0, |(value, _)| value);
        Snapshot {
            tick: self.tick,
            time_s: self.time_s(),
            controls: self.controls,
            topology: Topology::of(self.plant.spec()),
            outside: Outside {
                engine_rpm,
                clutch_engaged: self.drives.clutch_engaged && self.controls.engine_on,
                fan_speed_pct: 100.0 * self.drives.fan_share,
                blower_pct: self.plant.inputs().blower_pct,
            },
            perceived: Perceived::of(&Felt::of(self)),
            instruments: Instruments {
                hoses_fitted: self.bay.as_deref().map_or(self.hoses_fitted, crate::bay::Bay::any_fitted),
                low_gauge_pa: shown(crate::instrument::Probe::LowGauge),
                high_gauge_pa: shown(crate::instrument::Probe::HighGauge),
                manifold_low_pct: self.manifold_low_pct,
                manifold_high_pct: self.manifold_high_pct,
                jumper: self.jumper,
                jumper_fuse_blown: (self.jumper.is_some() || self.electrics.jumper_between.is_some())
                    && self.circuit.load_blown(0),
                placed: self
                    .rack
                    .placed()
                    .filter_map(|p| self.rack.shown(&p, self.tick).map(|(value, _)| (p, value)))
                    .collect(),
                notebook: self.notebook.clone(),
                suspects: Group::ALL.iter().copied().zip(self.suspects).collect::<Vec<(Group, Standing)>>(),
                repairs: self.repairs.clone(),
                parts_replaced: self.parts_replaced(),
                electrical: self.electrical_faces(),
            },
            bay: self.bay_face(inside),
            inside: inside.then(|| self.inside()),
        }
    }

    pub(super) fn inside(&self) -> Inside {
        let now = self.time_s();
        let (plant, l) = (&self.plant, self.plant.layout());
        let nodes: Vec<Node> = (0..l.len()).map(|i| plant.node(i, now)).collect();
        let h: Vec<f64> = (0..l.len()).map(|i| plant.at(now, |s| s.h[i])).collect();
        let walls: Vec<f64> = (0..l.len()).map(|i| plant.at(now, |s| s.wall_k[i])).collect();
        let heats = plant.heats_w();
        let flows = plant.flows();
        let between = |a: usize, b: usize| -> f64 {
            flows.iter().filter(|f| f.from == a && f.to == b).map(|f| f.mass_kg_s).sum()
        };
        let (compressor, leak, metering) = (flows[0], flows[1].mass_kg_s, flows[2].mass_kg_s);
        let at = |i: usize, flow: f64| point(&nodes[i], h[i], flow);
        let (evaporator_out, condenser_out) = (l.evaporator.end - 1, l.condenser_outlet());
        let valve_in = l.metering_inlet();

        // Point 5: just after the valve, the enthalpy of the liquid at the evaporator's pressure.
        let first = &nodes[l.evaporator.start];
        let after_valve = plant.at_pressure(first.p_ref, nodes[valve_in].h_out.v);
        let mut point_5 = point(&after_valve, nodes[valve_in].h_out.v, metering);
        point_5.p_total_pa = first.p.v;

        let cell =
            |i: usize, flow: f64| CellState { point: at(i, flow), wall_t_k: walls[i], heat_w: heats[i] };
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
        let cells = |range: &std::ops::Range<usize>| {
            range.clone().map(|i| cell(i, plant.at(now, |s| s.through_kg_s[i])))
        };
        let ambient_pa = self.controls.ambient_pa();
        let port =
            |line: usize, hose: usize| nodes[if self.hoses_fitted { hose } else { line }].p.v - ambient_pa;
        Inside {
            points: [
                at(l.suction, compressor.mass_kg_s),
                at(l.discharge, compressor.mass_kg_s - leak),
                at(condenser_out, between(condenser_out, l.liquid)),
                at(valve_in, metering),
                point_5,
                at(
                    evaporator_out,
                    flows.iter().filter(|f| f.from == evaporator_out).map(|f| f.mass_kg_s).sum(),
                ),
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
            w_compressor_w: compressor.in_w - compressor.out_w,
            q_other_w: others.map(|i| heats[i]).sum(),
            superheat_k: nodes[evaporator_out].superheat_k(),
            subcooling_k: if liquid.quality.v < 0.0 { (liquid.sat.t_k - liquid.t.v).max(0.0) } else { 0.0 },
            gauge_low_pa: port(l.suction, l.low_hose),
            gauge_high_pa: port(l.liquid, l.high_hose),
            compressor_rpm: plant.inputs().compressor_rpm,
            charge_kg: plant.charge_kg(now),
            released_kg: plant.at(now, |s| s.released_kg()),
            serviced_kg: plant.at(now, |s| s.serviced_kg),
            air_kg: plant.at(now, |s| s.air_kg.iter().sum()),
            vent_t_k,
            cabin_t_k: plant.at(now, |s| s.cabin.t_k),
            ambient_t_k: self.controls.ambient_c + ZERO_C_K,
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
            engine_t_k: plant.at(now, |s| s.bay.engine_t_k),
            bay_t_k: plant.at(now, |s| s.bay.bay_t_k),
            volts: self.circuit.all_volts().map(|(id, volts)| (id.to_owned(), volts)).collect(),
            faults: self.faults.iter().collect(),
        }
    }
}
