//! What the bay's tools do as time goes by, and what comes of it: station, interlocks, the log of the work.

use super::hands::{Service, is_full};
use crate::bay::{LogSees, StationAsks, StationSees};
use crate::bench::clock::{SECOND_TICKS, time_s};
use crate::bench::search::shares_of_openings;
use crate::fault::InLoop;
use crate::places::SearchPlace;
use crate::plant::{CentreHose, LoopPart, Plant, Vessel, oil_kg};

impl Service {
    /// After a tick: end what hands do in a moment, let the station work, keep the log. Once a second it says what is in the
    /// loop then.
    pub fn tick(&mut self, plant: &mut Plant, tick: u64) -> Option<InLoop> {
        let bay = self.bay.as_deref_mut()?;
        bay.spurts.retain(|spurt| spurt.until_tick > tick);
        if bay.at_work().is_some() {
            self.station(plant, time_s(tick));
        }
        tick.is_multiple_of(SECOND_TICKS).then(|| self.second(plant, tick))
    }

    fn station(&mut self, plant: &mut Plant, now: f64) {
        let l = plant.layout();
        let p = |i: usize| plant.look(i, now).p_pa;
        let inputs = plant.inputs();
        let sees = StationSees {
            time_s: now,
            ambient_pa: inputs.ambient_pa,
            hose_pa: p(l.low_hose).max(p(l.high_hose)),
            recovery_kg: plant.vessel_kg(Vessel::Recovery, now),
            supply_kg: plant.vessel_kg(Vessel::Supply, now),
            running: inputs.compressor_rpm > 0.0,
        };
        let full = is_full(plant, Vessel::Recovery, now);
        let Some(bay) = self.bay.as_deref_mut() else { return };
        let Some(station) = &mut bay.station else { return };
        if full && station.centre_hose() == CentreHose::RecoveryMachine {
            station.give_up(&sees);
            return;
        }
        if let StationAsks::OilMl(ml) = station.advance(&sees) {
            bay.log.oil_added_kg += oil_kg(ml);
            plant.pour_oil(now, LoopPart::Joint, oil_kg(ml));
        }
    }

    fn second(&mut self, plant: &Plant, tick: u64) -> InLoop {
        let now = time_s(tick);
        let l = plant.layout();
        let look = |i: usize| plant.look(i, now).p_pa;
        let inputs = plant.inputs();
        let suction_pa = look(l.suction);
        let loop_pa = suction_pa.max(look(l.liquid));
        let reaches = |hand: f64, hose: Option<_>| hand > 0.0 && hose.is_some();
        let joined_low = reaches(inputs.manifold_low, inputs.low_hose);
        let (charge_kg, full_kg) = (plant.charge_kg(now), plant.spec().full_charge_kg);
        let released_kg = plant.at(now, |s| s.released_kg());
        let oil_lost_kg = plant.at(now, |s| s.oil.lost_kg);
        let oil_kg = plant.at(now, |s| s.oil.total_kg());
        let books = &mut self.books;
        let released_now_kg = released_kg - books.released_kg;
        let oil_lost_now_kg = oil_lost_kg - books.oil_lost_kg;
        (books.released_kg, books.oil_lost_kg) = (released_kg, oil_lost_kg);
        if inputs.open_m2 > 0.0 {
            books.leaks_at(inputs.open_place);
        }
        let in_loop = InLoop {
            charge_share: charge_kg / full_kg,
            pa: loop_pa,
            water_kg: plant.at(now, |s| s.water.total_kg()),
            oil_share: oil_kg / plant.spec().oil.full_kg,
        };
        let Some(bay) = self.bay.as_deref_mut() else { return in_loop };
        if is_full(plant, Vessel::Recovery, now) {
            bay.machine_on = false;
        }
        let dye_kg = bay.log.second(&LogSees {
            tick,
            loop_pa,
            loop_t_k: plant.loop_t_k(now),
            suction_pa,
            centre_pa: look(l.centre),
            ambient_pa: inputs.ambient_pa,
            centre: inputs.centre_hose,
            joined_low,
            joined: joined_low || reaches(inputs.manifold_high, inputs.high_hose),
            joint_open: inputs.joint_m2 > 0.0,
            cracked: inputs.crack_m2 > 0.0,
            running: inputs.compressor_rpm > 0.0,
            station: bay.station.is_some(),
            ventilated: bay.ventilated,
            charge_kg,
            full_kg,
            released_kg: released_now_kg,
            oil_kg: oil_kg.max(1e-6),
            oil_lost_kg: oil_lost_now_kg,
        });
        let shares = shares_of_openings(plant, released_now_kg);
        for place in SearchPlace::ALL {
            bay.log.dye_out_kg[place] += shares[place] * dye_kg;
        }
        in_loop
    }
}
