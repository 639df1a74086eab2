//! Residuals and slopes of one step of the network: volumes, walls, flows, and what goes to the outside.

use super::boundary::{self, Exchange, Leaving, Outside};
use super::compressor;
use super::dual::{D2, D3};
use super::flow::Flow;
use super::heat::wall_heat;
use super::link;
use super::metering::Metering;
use super::openings::{CentreHose, Port, Vessel};
use super::puddle::AIR_PER_STEAM;
use super::scratch::Scratch;
use super::service_bay::{self, VESSEL_VALVE_M2};
use super::system::{Given, Outcome, System};
use super::volume::{self, Node};
use super::{Inputs, State};

/// Pressure at which the couplers of a service hose let go [Pa absolute] (hoses are rated to some 40 bar and burst above
/// 200; own estimate between).
const COUPLERS_GIVE_PA: f64 = 5.5e6;
/// Pressure at which half the asked flow still comes out of an accumulator [Pa].
const DRAWN_PA: f64 = 2e4;

impl System<'_> {
    fn nodes(&self, out: &Outcome, nodes: &mut Vec<Node>) {
        nodes.clear();
        let l = self.layout;
        for i in 0..l.len() {
            nodes.push(volume::evaluate(
                self.refrigerant,
                l.kinds[i],
                l.volumes_m3[i],
                out.air_kg[i],
                out.u[i],
                out.h[i],
            ));
        }
    }

    /// Evaluate the volumes at the current unknowns and clear what is summed up next.
    pub(super) fn begin(&self, state: &State, inputs: &Inputs, out: &mut Outcome, scratch: &mut Scratch) {
        let n = self.layout.len();
        let mut nodes = std::mem::take(&mut out.nodes);
        self.nodes(out, &mut nodes);
        let with_air =
            state.air_kg.iter().sum::<f64>() > 0.0 || inputs.lets_air_in() || !out.boiling.is_empty();
        scratch.reset(&self.layout.pattern, with_air);
        if with_air {
            self.loads(&nodes, out);
        } else {
            out.load.clear();
            out.load.resize(n, D3::constant(0.0));
        }
        out.flows.clear();
        out.wall_k.clear();
        out.steam_kg_s.clear();
        out.heat_w.clear();
        out.air_rate_kg_s.clear();
        out.air_rate_kg_s.resize(n, 0.0);
        out.air_lost_kg_s = 0.0;
        out.nodes = nodes;
    }

    /// What each volume holds more than before, and the heat of its wall.
    pub(super) fn walls(&self, given: Given, out: &mut Outcome, scratch: &mut Scratch) {
        let Given { state, inputs, sides, films, dt_s } = given;
        let l = self.layout;
        let with_air = scratch.with_air();
        let total_air: f64 = if with_air { state.air_kg.iter().sum() } else { 0.0 };
        for i in 0..l.len() {
            let node = &out.nodes[i];
            let clean = state.oil.clean_share(i, l.volumes_m3[i]);
            let film = films[i].films.times(clean);
            let wall = wall_heat(&film, l.walls[i].capacity_j_k(), node, state.wall_k[i], &sides[i], dt_s);
            out.wall_k.push(wall.wall_t_k);
            out.heat_w.push(wall.into_refrigerant_w.v);
            scratch.add_own(i, 0, (node.mass - state.mass_kg[i]) * (1.0 / dt_s));
            scratch.add_own(i, 1, (node.energy - state.energy_j[i]) * (1.0 / dt_s) - wall.into_refrigerant_w);
            if with_air {
                scratch.add_air(i, (out.air_kg[i] - state.air_kg[i]) / dt_s, 1.0 / dt_s);
                // Air let in at the suction line, or taken out everywhere alike.
                let (come, go) =
                    (inputs.air_kg_s.max(0.0), (-inputs.air_kg_s).max(0.0) / total_air.max(1e-9));
                let come = if i == l.suction { come } else { 0.0 };
                scratch.add_air(i, go * out.air_kg[i] - come, go);
                out.air_rate_kg_s[i] += come - go * out.air_kg[i];
                out.air_lost_kg_s += go * out.air_kg[i] - come;
                if let Some(boiling) = out.boiling.get(i) {
                    let steam = boiling.steam_kg_s(boundary::pressure(node));
                    let none = D3::constant(0.0);
                    let come = steam * AIR_PER_STEAM;
                    let air_kg_s = -come;
                    scratch.add_exchange(
                        i,
                        &Exchange { mass_kg_s: none, heat_w: none, air_kg_s, outside_air_kg_s: 0.0 },
                    );
                    out.steam_kg_s.push(steam.v);
                    out.air_rate_kg_s[i] += come.v;
                    out.air_lost_kg_s -= come.v;
                }
            }
        }
    }

    /// All flows between the volumes and to the outside.
    pub(super) fn links(
        &self,
        state: &State,
        inputs: &Inputs,
        dt_s: f64,
        out: &mut Outcome,
        scratch: &mut Scratch,
    ) {
        let (l, spec) = (self.layout, self.spec);
        let with_air = scratch.with_air();
        let nodes = std::mem::take(&mut out.nodes);
        let (s, d) = (l.suction, l.discharge);
        let rpm = if state.shell.seized() { 0.0 } else { inputs.compressor_rpm };
        let pumping = compressor::pump(
            self.refrigerant,
            (&spec.compressor, &spec.shell),
            (rpm, inputs.stroke, state.shell.t_k),
            &nodes[s],
            &nodes[d],
        );
        out.shell_w = pumping.shell_w;
        let (m, suction_w, discharge_w) = (pumping.mass_kg_s, pumping.suction_w, pumping.discharge_w);
        let air = if with_air {
            let air = m * out.load[s].first();
            scratch.add_loaded_flow((s, d), m, suction_w, discharge_w, air);
            air.v
        } else {
            scratch.add_flow((s, d), m.pair(), suction_w.pair(), discharge_w.pair());
            0.0
        };
        out.flows.push(Flow {
            from: s,
            to: d,
            mass_kg_s: m.v,
            out_w: suction_w.v,
            in_w: discharge_w.v,
            air_kg_s: air,
        });
        out.air_rate_kg_s[s] -= air;
        out.air_rate_kg_s[d] += air;

        let leak = spec.compressor.reed_leak_m2
            + spec.compressor.full_leak_m2 * (inputs.reed_leak + state.shell.reed_leak()).min(0.95);
        self.connect((d, s), leak, &nodes, scratch, out);

        self.meter(state, inputs, dt_s, &nodes, out, scratch);
        if let (Some(chiller), Some(first)) = (&spec.chiller, l.chiller.clone().next()) {
            let k = chiller.valve.orifice_m2(inputs.chiller_opening);
            self.connect((l.metering_inlet(), first), k, &nodes, scratch, out);
        }

        for pipe in &l.pipes {
            let k = pipe.flow_m2 * pipe.narrowing.open(&inputs.passages);
            self.connect((pipe.from, pipe.to), k, &nodes, scratch, out);
        }
        let port = |on: Option<Port>, own: Port| if on == Some(own) { spec.port_flow_m2 } else { 0.0 };
        for (i, j, k) in [
            (s, l.low_hose, port(inputs.low_hose, Port::Low)),
            (l.liquid, l.high_hose, port(inputs.high_hose, Port::High)),
            // Where the fittings are alike, hoses can be crossed.
            (l.liquid, l.low_hose, port(inputs.low_hose, Port::High)),
            (s, l.high_hose, port(inputs.high_hose, Port::Low)),
            (l.low_hose, l.centre, spec.hand_valve_flow_m2 * inputs.manifold_low),
            (l.high_hose, l.centre, spec.hand_valve_flow_m2 * inputs.manifold_high),
        ] {
            if k > 0.0 {
                self.connect((i, j), k, &nodes, scratch, out);
            }
        }

        // Relief valve at the discharge line; couplers of hoses let go before a liquid-full one bursts.
        out.leaving.clear();
        for (i, opens_pa) in [
            (d, spec.relief_pa),
            (l.low_hose, COUPLERS_GIVE_PA),
            (l.high_hose, COUPLERS_GIVE_PA),
            (l.centre, COUPLERS_GIVE_PA),
        ] {
            if nodes[i].p.v <= opens_pa - 2e5 {
                continue;
            }
            let relief = (nodes[i].p - opens_pa).soft_positive(1e3) * spec.relief_kg_s_pa;
            let relief_w = relief * nodes[i].h_out;
            scratch.add_own(i, 0, relief);
            scratch.add_own(i, 1, relief_w);
            out.leaving.push(Leaving {
                volume: i,
                mass_kg_s: relief.v,
                heat_w: relief_w.v,
                air_out_kg_s: if with_air { relief.v * out.load[i].v } else { 0.0 },
                air_in_kg_s: 0.0,
                to: Outside::Relief,
            });
            if with_air {
                let gone = relief.v * out.load[i].v;
                scratch.add_air(i, gone, relief.v * out.load[i].d[2]);
                out.air_rate_kg_s[i] -= gone;
                out.air_lost_kg_s += gone;
            }
        }

        let air_outside = (inputs.ambient_pa, inputs.ambient_t_k);
        // Holes and open joints, and what hangs on the centre hose.
        // The first is a hole, the others hands have opened.
        for ((m2, place), to) in
            inputs.openings().into_iter().zip([Outside::Leak, Outside::Vent, Outside::Vent])
        {
            if m2 <= 0.0 {
                continue;
            }
            let i = l.open_place(place);
            let e = boundary::opening(&nodes[i], out.load[i], m2, air_outside);
            self.give(i, &e, to, scratch, out);
        }
        let c = l.centre;
        let load = out.load[c];
        let (k, t) = (spec.hand_valve_flow_m2, inputs.ambient_t_k);
        let at_hose = match inputs.centre_hose {
            CentreHose::Capped => None,
            CentreHose::Open => Some(boundary::opening(&nodes[c], load, k, air_outside)),
            CentreHose::VacuumPump => Some(boundary::vacuum_pump(&nodes[c], load)),
            CentreHose::CylinderVapour => {
                Some(boundary::cylinder(self.refrigerant, &nodes[c], load, k, t, false))
            }
            CentreHose::CylinderLiquid => {
                Some(boundary::cylinder(self.refrigerant, &nodes[c], load, k, t, true))
            }
            CentreHose::Nitrogen { set_pa } => Some(service_bay::nitrogen(&nodes[c], load, k, set_pa, t)),
            CentreHose::Vessel { vessel, .. } => {
                if let Some(i) = l.vessel(vessel) {
                    self.connect((i, c), VESSEL_VALVE_M2, &nodes, scratch, out);
                }
                None
            }
            CentreHose::RecoveryMachine => {
                if let Some(i) = l.vessel(Vessel::Recovery) {
                    self.recover((c, i), t, &nodes, scratch, out);
                }
                None
            }
        };
        if let Some(e) = at_hose {
            let to = match inputs.centre_hose {
                CentreHose::VacuumPump => Outside::Pump,
                hose if hose.is_cylinder() => Outside::Cylinder,
                _ => Outside::Vent,
            };
            self.give(c, &e, to, scratch, out);
        }

        // Charge put in as liquid at outside temperature, or taken out as the receiver (or what stands for it) gives it.
        let r = l.store();
        let (m, w) = if inputs.charge_kg_s > 0.0 {
            (D2::constant(inputs.charge_kg_s), D2::constant(inputs.charge_kg_s * inputs.charge_h_j_kg))
        } else {
            // Slower and slower as it runs empty.
            let fade = (nodes[r].mass / (nodes[r].mass + 1e-3)).square();
            // An accumulator gives gas, and no machine draws a vacuum this way.
            let fade =
                if l.receiver.is_some() { fade } else { fade * (nodes[r].p / (nodes[r].p + DRAWN_PA)) };
            let m = fade * inputs.charge_kg_s;
            (m, m * nodes[r].h_out)
        };
        scratch.add_own(r, 0, -m);
        scratch.add_own(r, 1, -w);
        out.leaving.push(Leaving {
            volume: r,
            mass_kg_s: -m.v,
            heat_w: -w.v,
            air_out_kg_s: 0.0,
            air_in_kg_s: 0.0,
            to: Outside::Service,
        });
        out.nodes = nodes;
    }

    /// The metering device, from the liquid side into the evaporator.
    fn meter(
        &self,
        state: &State,
        inputs: &Inputs,
        dt_s: f64,
        nodes: &[Node],
        out: &mut Outcome,
        scratch: &mut Scratch,
    ) {
        let l = self.layout;
        let (a, b, end) = (l.metering_inlet(), l.evaporator.start, l.evaporator.end - 1);
        // Ice narrows the passage at every lift, so does what clogs the screen.
        let open = state.water.open_share(&self.spec.water) * inputs.metering.bore;
        match &self.spec.metering {
            Metering::Thermostatic(valve) => {
                // Two ends and, through bulb and diaphragm, the evaporator outlet.
                let loose = (inputs.metering.bulb_loose, state.cabin.t_k);
                let bulb_t = valve.bulb_t(state.bulb_t_k, &nodes[end], loose, dt_s);
                let bulb_pa = valve.bulb_pa(self.refrigerant, bulb_t, inputs.metering.bulb_lost);
                let (lift, lift_per_pa) = match inputs.metering.held {
                    Some(held) => (D2::constant(held), 0.0),
                    None => valve.lift(bulb_pa, &nodes[end], &inputs.metering),
                };
                (out.bulb_t_k, out.bulb_pa, out.lift) = (bulb_t.v, bulb_pa.v, lift.v);
                let k = valve.orifice_m2(lift.v) * open;
                let flow = self.connect((a, b), k, nodes, scratch, out);
                let per_lift = (valve.orifice_m2(1.0) - valve.orifice_m2(0.0)) * open / k;
                scratch.add_remote(
                    (a, b),
                    end,
                    [flow.mass_kg_s * per_lift, flow.out_w * per_lift, flow.air_kg_s * per_lift],
                    lift.d,
                    lift_per_pa * nodes[end].p_per_air,
                );
            }
            Metering::OrificeTube(tube) => {
                let k = tube.constant(self.refrigerant, &nodes[a], nodes[b].p.v, open);
                let flow = self.connect((a, b), k.flow_m2, nodes, scratch, out);
                let per = 1.0 / k.flow_m2.max(1e-15);
                // In choked flow slopes all but cancel, so that of the heat is taken along exactly.
                let heat = link::heat_per_mass(flow.mass_kg_s, nodes[a].h_out.v, nodes[b].h_out.v);
                let per = [flow.mass_kg_s, flow.mass_kg_s * heat, flow.air_kg_s].map(|x| x * per);
                scratch.add_remote((a, b), a, per, k.by_inlet, nodes[a].p_per_air * k.per_air_pa);
                let p = nodes[b].p.d.map(|slope| slope * k.per_outlet_pa);
                scratch.add_remote((a, b), b, per, p, nodes[b].p_per_air * k.per_outlet_pa);
                (out.bulb_t_k, out.bulb_pa, out.lift) = (state.bulb_t_k, 0.0, open);
            }
            Metering::Electronic(valve) => {
                let lift = inputs.metering.held.unwrap_or(inputs.expansion_opening);
                self.connect((a, b), valve.orifice_m2(lift) * open, nodes, scratch, out);
                (out.bulb_t_k, out.bulb_pa, out.lift) = (state.bulb_t_k, 0.0, lift);
            }
        }
    }

    /// Air that leaves each volume per kilogram of refrigerant. In vapour this is the composition itself. Where
    /// liquid moves too, the share is held as it was when the step began: it answers steeply to void, and the step
    /// would have to chase it.
    fn loads(&self, nodes: &[Node], out: &mut Outcome) {
        out.load.clear();
        for (i, node) in nodes.iter().enumerate() {
            let share = if node.quality.v >= 1.0 { node.air_share } else { D2::constant(out.air_share[i]) };
            let kg = D3 { v: out.air_kg[i], d: [0.0, 0.0, 1.0] };
            // The books may hold a rounding below zero; nothing can leave of that.
            out.load.push(if kg.v > 0.0 { share.with_air(0.0) * kg } else { D3::constant(0.0) });
        }
    }

    /// The recovery machine between the centre hose and the recovery cylinder.
    fn recover(
        &self,
        (c, i): (usize, usize),
        ambient_t_k: f64,
        nodes: &[Node],
        scratch: &mut Scratch,
        out: &mut Outcome,
    ) {
        let (taken, h) = service_bay::recovery_machine(
            self.refrigerant,
            &nodes[c],
            out.load[c],
            nodes[i].p.v,
            ambient_t_k,
        );
        let (m, out_w, air) = (taken.mass_kg_s.first(), taken.heat_w.first(), taken.air_kg_s.first());
        let in_w = m * h;
        if scratch.with_air() {
            scratch.add_loaded_flow((c, i), m, out_w, in_w, air);
            out.air_rate_kg_s[c] -= air.v;
            out.air_rate_kg_s[i] += air.v;
        } else {
            scratch.add_flow((c, i), m.pair(), out_w.pair(), in_w.pair());
        }
        out.flows.push(Flow {
            from: c,
            to: i,
            mass_kg_s: m.v,
            out_w: out_w.v,
            in_w: in_w.v,
            air_kg_s: air.v,
        });
    }

    /// What the volume gives to the outside through `exchange`.
    fn give(&self, i: usize, exchange: &Exchange, to: Outside, scratch: &mut Scratch, out: &mut Outcome) {
        scratch.add_exchange(i, exchange);
        let (mass_kg_s, heat_w) = (exchange.mass_kg_s.v, exchange.heat_w.v);
        let air_in_kg_s = exchange.outside_air_kg_s;
        let air_out_kg_s = (exchange.air_kg_s.v + air_in_kg_s).max(0.0);
        out.leaving.push(Leaving { volume: i, mass_kg_s, heat_w, air_out_kg_s, air_in_kg_s, to });
        out.air_rate_kg_s[i] -= exchange.air_kg_s.v;
        out.air_lost_kg_s += exchange.air_kg_s.v;
    }

    /// Connect two volumes by a turbulent link of constant `k` and note the flow.
    fn connect(
        &self,
        (i, j): (usize, usize),
        k: f64,
        nodes: &[Node],
        scratch: &mut Scratch,
        out: &mut Outcome,
    ) -> Flow {
        let flow = if scratch.with_air() {
            let stream = link::loaded_stream(&nodes[i], &nodes[j], k, (out.load[i], out.load[j]));
            let (m, w, air) = (stream.mass_kg_s, stream.heat_w, stream.air_kg_s);
            scratch.add_loaded_flow((i, j), m, w, w, air);
            out.air_rate_kg_s[i] -= air.v;
            out.air_rate_kg_s[j] += air.v;
            Flow { from: i, to: j, mass_kg_s: m.v, out_w: w.v, in_w: w.v, air_kg_s: air.v }
        } else {
            let stream = link::stream(&nodes[i], &nodes[j], k);
            let (m, w) = (stream.mass_kg_s, stream.heat_w);
            scratch.add_flow((i, j), m, w, w);
            Flow { from: i, to: j, mass_kg_s: m.v, out_w: w.v, in_w: w.v, air_kg_s: 0.0 }
        };
        out.flows.push(flow);
        flow
    }
}
