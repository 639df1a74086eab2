//! What can be seen of the service bay: hoses, machines, vessels, scales.

use super::hands::{Service, limit_kg};
use crate::bay::{Bay, BayLog, Ledger};
use crate::plant::{Plant, Vessel};

/// A hose of the manifold as it hangs there.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HoseFace {
    /// Pressure in it [Pa absolute].
    pub p_pa: f64,
    /// Share of its volume that is liquid, 0 to 1.
    pub liquid: f64,
    /// Share of its gas that is air or nitrogen, by pressure, 0 to 1.
    pub air: f64,
    /// Refrigerant in it [kg].
    pub held_kg: f64,
    /// Flow of refrigerant: of the low-side and high-side hose into the loop, of the centre hose towards the manifold
    /// [kg/s].
    pub flow_kg_s: f64,
    /// Flow of air or nitrogen, the same way [kg/s].
    pub air_kg_s: f64,
}

/// A vessel of the bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VesselFace {
    /// Which.
    pub vessel: Vessel,
    /// Share of its volume that is liquid, 0 to 1.
    pub level: f64,
    /// Pressure [Pa absolute].
    pub p_pa: f64,
    /// Its wall [K].
    pub t_k: f64,
    /// Refrigerant in it [kg].
    pub held_kg: f64,
    /// Weight with everything in it [kg]; oil that came along stands in the recovery machine's measuring glass.
    pub gross_kg: f64,
    /// Weight empty [kg].
    pub tare_kg: f64,
    /// Most it may weigh: tare and 80 % of its volume as liquid [kg].
    pub limit_gross_kg: f64,
}

/// The service bay at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct BayFace {
    /// How everything is connected, the record and the answers. Its log holds the mistakes alone unless the viewer may
    /// look inside.
    pub bay: Bay,
    /// Low-side, high-side and centre hose.
    pub hoses: [HoseFace; 3],
    /// The vessels, in the order of [`Vessel::ALL`].
    pub vessels: [VesselFace; 4],
    /// Fittings of both ports are alike on this rig: hoses can be crossed.
    pub like_fittings: bool,
    /// Refrigerant let out so far [kg]; never silent.
    pub released_kg: f64,
    /// Where every gram is; only for who may look inside.
    pub ledger: Option<Ledger>,
    /// Refrigerant by name.
    pub refrigerant: String,
    /// Charge on the label [kg].
    pub label_charge_kg: f64,
    /// Oil on the label [kg].
    pub label_oil_kg: f64,
}

impl Service {
    /// What can be seen of the bay; none in a scenario without one. The ledger is for who may look inside.
    pub fn face(&self, plant: &Plant, now: f64, ledger: Option<Ledger>) -> Option<BayFace> {
        let mut bay = self.bay()?.clone();
        if ledger.is_none() {
            let mistakes = std::mem::take(&mut bay.log.mistakes);
            bay.log = BayLog { mistakes, ..BayLog::default() };
        }
        let l = plant.layout();
        let flows = plant.flows();
        // Refrigerant and air.
        let into = |from: usize, to: usize| -> (f64, f64) {
            flows.iter().fold((0.0, 0.0), |(mass, air), f| match (f.from, f.to) {
                (a, b) if (a, b) == (from, to) => (mass + f.mass_kg_s, air + f.air_kg_s),
                (a, b) if (b, a) == (from, to) => (mass - f.mass_kg_s, air - f.air_kg_s),
                _ => (mass, air),
            })
        };
        let hose = |i: usize, (flow_kg_s, air_kg_s): (f64, f64)| {
            let node = plant.node(i, now);
            HoseFace {
                p_pa: node.p.v,
                liquid: (1.0 - node.void).clamp(0.0, 1.0),
                air: (1.0 - node.p_ref / node.p.v.max(1e-9)).clamp(0.0, 1.0),
                held_kg: plant.at(now, |s| s.mass_kg[i]),
                flow_kg_s,
                air_kg_s,
            }
        };
        let both = |a: (f64, f64), b: (f64, f64)| (a.0 + b.0, a.1 + b.1);
        let loop_flow = |i: usize| both(into(i, l.suction), into(i, l.liquid));
        // Through the hand valves: whatever the centre hose ends in, this leaves it towards the manifold.
        let through_valves = both(into(l.centre, l.low_hose), into(l.centre, l.high_hose));
        let vessels = Vessel::ALL.map(|vessel| {
            let spec = vessel.spec();
            let tare_kg = spec.tare_kg;
            let limit_gross_kg = tare_kg + limit_kg(plant, vessel);
            let held_kg = plant.vessel_kg(vessel, now);
            let (mut level, mut p_pa, mut t_k) = (0.0, 0.0, 0.0);
            if let Some(i) = l.vessel(vessel) {
                let node = plant.node(i, now);
                level = (1.0 - node.void).clamp(0.0, 1.0);
                p_pa = node.p.v;
                t_k = plant.at(now, |s| s.wall_k[i]);
            }
            VesselFace {
                vessel,
                level,
                p_pa,
                t_k,
                held_kg,
                gross_kg: plant.vessel_gross_kg(vessel, now),
                tare_kg,
                limit_gross_kg,
            }
        });
        let spec = plant.spec();
        Some(BayFace {
            bay,
            hoses: [
                hose(l.low_hose, loop_flow(l.low_hose)),
                hose(l.high_hose, loop_flow(l.high_hose)),
                hose(l.centre, through_valves),
            ],
            vessels,
            like_fittings: spec.like_fittings,
            released_kg: plant.at(now, |s| s.released_kg()),
            ledger,
            refrigerant: spec.refrigerant.clone(),
            label_charge_kg: spec.full_charge_kg,
            label_oil_kg: spec.oil.full_kg,
        })
    }
}
