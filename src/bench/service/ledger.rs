//! Where every gram is.

use super::hands::Service;
use crate::bay::Ledger;
use crate::plant::{PerVessel, Plant, State};

impl Service {
    /// The ledger at a time; none without a bay. `imposed_oil_kg` is oil that faults have put in since the start [kg].
    pub fn ledger(&self, plant: &Plant, now: f64, imposed_oil_kg: f64) -> Option<Ledger> {
        let log = &self.bay()?.log;
        let l = plant.layout();
        let hoses = [l.low_hose, l.high_hose, l.centre];
        let n = l.loop_len();
        let at = |pick: &dyn Fn(&State) -> f64| plant.at(now, pick);
        let hoses_kg = hoses.iter().map(|&i| at(&|s| s.mass_kg[i])).sum::<f64>();
        let all_loop_kg = at(&|s| s.mass_kg[..n].iter().sum::<f64>() + s.oil.dissolved_kg);
        let vessels_kg = PerVessel::new(|vessel| plant.vessel_kg(vessel, now));
        Some(Ledger {
            loop_kg: all_loop_kg - hoses_kg,
            hoses_kg,
            vessels_kg,
            released_kg: at(&|s| s.released_kg()),
            cans_kg: log.cans_kg.0 - log.cans_kg.1,
            imposed_kg: at(&|s| s.serviced_kg),
            start_kg: self.books.start_kg,
            oil_loop_kg: at(&|s| s.oil.sump_kg + s.oil.kg[..n].iter().sum::<f64>()),
            oil_vessels_kg: at(&|s| s.oil.kg[n..].iter().sum::<f64>()),
            oil_lost_kg: at(&|s| s.oil.lost_kg),
            oil_taken_kg: log.oil_taken_kg,
            oil_added_kg: log.oil_added_kg + log.new_part_oil_kg,
            oil_start_kg: self.books.oil_start_kg + imposed_oil_kg,
        })
    }
}
