//! What the bay's tools do as time goes by, and what comes of it: station, interlocks, the log of the work.

use super::bay::oil_kg;
use super::{Bench, TICK_S};
use crate::bay::{BayLog, BayMistake, Ledger, NitrogenLog, StationAsks, StationSees};
use crate::fault::{Fault, FaultId, FaultSet, effects};
use crate::plant::{CentreHose, Inputs, Units, Vessel};

/// Ticks of a second: the log is kept by the second.
const SECOND_TICKS: u64 = 20;
/// A loop that holds less than this share of its charge counts as empty.
const EMPTY_SHARE: f64 = 0.02;
/// A loop below this pressure counts as evacuated [Pa absolute].
const EVACUATED_PA: f64 = 1000.0;
/// Water that does no harm [kg].
const DRY_KG: f64 = 3e-4;
/// The low side counts as a vacuum below this [Pa absolute].
const VACUUM_PA: f64 = 3e4;
/// Time in which a running compressor carries dye round [s] (common practice, no source: ten minutes show it).
const DYE_ROUND_S: f64 = 200.0;
/// Air changes of a shop an hour, doors shut and with extraction (common practice, no source).
const CHANGES_H: (f64, f64) = (2.0, 20.0);

/// What faults have asked of the contents of the loop so far: in a bay they change it once and then leave it to hands.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize)]
pub(super) struct Asked {
    pub air_kg: f64,
    pub oil_kg: f64,
    pub water_kg: f64,
    /// Oil that was put in (negative: taken out) so far [kg].
    pub oil_given_kg: f64,
    /// Charge that faults which are gone had asked for [kg].
    pub charge_kg: f64,
}

impl Bench {
    /// Charge, air, oil and water that faults imposed or cleared now put in or take out, as rates for a second.
    pub(super) fn contents_in_bay(&mut self, inputs: &mut Inputs) {
        let due = self.charge_offset_kg() + self.asked.charge_kg
            - self.soaked_offset_kg
            - self.plant.at(self.time_s(), |s| s.serviced_kg);
        inputs.charge_kg_s = if due.abs() < 1e-7 { 0.0 } else { due.clamp(-0.01, 0.01) };
        let second = SECOND_TICKS as f64 * TICK_S;
        let step = |target: f64, asked: &mut f64, most: f64| {
            let rate = ((target - *asked) / second).clamp(-most, most);
            *asked += rate * second;
            rate
        };
        let (air, oil, water) = (self.air_target_kg(), self.oil_target_kg(), self.water_target_kg());
        inputs.air_kg_s = step(air, &mut self.asked.air_kg, 2e-4);
        inputs.oil_kg_s = step(oil, &mut self.asked.oil_kg, 5e-3);
        inputs.water_kg_s = step(water, &mut self.asked.water_kg, 2e-4);
        self.asked.oil_given_kg += inputs.oil_kg_s * second;
    }

    /// Begin the books anew with what is there now.
    pub(super) fn begin_books(&mut self) {
        self.asked = Asked {
            air_kg: self.air_target_kg(),
            oil_kg: self.oil_target_kg(),
            water_kg: self.water_target_kg(),
            ..Asked::default()
        };
        let now = self.time_s();
        let all_kg = self.plant.at(now, |s| s.mass_kg.iter().sum::<f64>() + s.oil.dissolved_kg);
        self.bay_start = (all_kg, self.plant.at(now, |s| s.oil.total_kg()));
        self.bay_seen = (0.0, 0.0);
        if let Some(bay) = self.bay.as_deref_mut() {
            let mistakes = std::mem::take(&mut bay.log.mistakes);
            bay.log = BayLog { mistakes, ..BayLog::default() };
            bay.opened = None;
        }
    }

    /// After a tick: end what hands do in a moment, let the station work, keep the log.
    pub(super) fn bay_tick(&mut self) {
        let tick = self.tick;
        let Some(bay) = self.bay.as_deref_mut() else { return };
        bay.spurts.retain(|spurt| spurt.until_tick > tick);
        if bay.station.as_ref().is_some_and(|s| s.step().is_some()) {
            self.station_tick();
        }
        if tick.is_multiple_of(SECOND_TICKS) {
            self.bay_second();
        }
    }

    fn station_tick(&mut self) {
        let now = self.time_s();
        let l = self.plant.layout();
        let p = |i: usize| self.plant.look(i, now).p_pa;
        let sees = StationSees {
            time_s: now,
            ambient_pa: self.controls.ambient_pa(),
            hose_pa: p(l.low_hose).max(p(l.high_hose)),
            recovery_kg: self.vessel_kg(Vessel::Recovery),
            supply_kg: self.vessel_kg(Vessel::Supply),
            running: self.plant.inputs().compressor_rpm > 0.0,
        };
        let full = sees.recovery_kg >= self.vessel_limit_kg(Vessel::Recovery);
        let Some(bay) = self.bay.as_deref_mut() else { return };
        let Some(station) = &mut bay.station else { return };
        if full && station.centre_hose() == CentreHose::RecoveryMachine {
            station.give_up(&sees);
            return;
        }
        if let StationAsks::OilMl(ml) = station.advance(&sees) {
            bay.log.oil_added_kg += oil_kg(ml);
            self.plant.pour_oil(now, Units::Joint, oil_kg(ml));
        }
    }

    fn bay_second(&mut self) {
        let now = self.time_s();
        let l = self.plant.layout();
        let look = |i: usize| self.plant.look(i, now).p_pa;
        let (suction_pa, centre_pa) = (look(l.suction), look(l.centre));
        let loop_pa = suction_pa.max(look(l.liquid));
        let room: f64 = l.volumes_m3[..l.low_hose].iter().sum();
        let loop_t_k = self.plant.at(now, |s| {
            s.wall_k[..l.low_hose].iter().zip(&l.volumes_m3).map(|(t, v)| t * v).sum::<f64>() / room
        });
        let inputs = *self.plant.inputs();
        let running = inputs.compressor_rpm > 0.0;
        let reaches = |hand: f64, hose: Option<_>| hand > 0.0 && hose.is_some();
        let joined =
            reaches(inputs.manifold_low, inputs.low_hose) || reaches(inputs.manifold_high, inputs.high_hose);
        let ambient_pa = inputs.ambient_pa;
        let released_kg = self.plant.at(now, |s| s.released_kg());
        let lost_oil_kg = self.plant.at(now, |s| s.oil.lost_kg);
        let oil_kg = self.plant.at(now, |s| s.oil.total_kg()).max(1e-6);
        let charge_kg = self.plant.charge_kg(now);
        let full_kg = self.plant.spec().full_charge_kg;
        let machine_full = self.vessel_kg(Vessel::Recovery) >= self.vessel_limit_kg(Vessel::Recovery);
        let tick = self.tick;
        let (released_before, lost_before) = self.bay_seen;
        self.bay_seen = (released_kg, lost_oil_kg);
        if inputs.open_m2 > 0.0 && !self.leak_places.contains(&inputs.open_place) {
            self.leak_places.push(inputs.open_place);
        }
        let dye_places = self.shares_of_openings(released_kg - released_before);
        let Some(bay) = self.bay.as_deref_mut() else { return };
        if machine_full {
            bay.machine_on = false;
        }
        let (station, ventilated) = (bay.station.is_some(), bay.ventilated);
        let log = &mut bay.log;

        let drawing = inputs.centre_hose == CentreHose::VacuumPump && joined;
        if drawing && !log.drawing && loop_pa > VACUUM_PA {
            // A new evacuation.
            (log.deepest_pa, log.pumped_s) = (None, 0.0);
        }
        log.drawing = drawing;
        if drawing {
            log.pumped_s += 1.0;
            let deepest = log.deepest_pa.map_or(loop_pa, |p| p.min(loop_pa));
            log.deepest_pa = Some(deepest);
            (log.shut_off, log.risen_to_pa, log.watched_s) = (None, 0.0, 0.0);
            if centre_pa > 1.5 * ambient_pa && !station {
                log.mistake(BayMistake::PumpOnPressure, tick);
            }
        } else if log.deepest_pa.is_some() {
            // Watched as long as nothing but the loop itself can raise the pressure.
            let left_alone = !joined || inputs.centre_hose == CentreHose::Capped;
            if log.shut_off.is_none() {
                log.shut_off = Some((loop_pa, tick));
                log.risen_to_pa = loop_pa;
            } else if left_alone && !log.watch_over && inputs.joint_m2 == 0.0 {
                log.risen_to_pa = log.risen_to_pa.max(loop_pa);
                log.watched_s += 1.0;
            } else {
                log.watch_over = true;
            }
        }
        if drawing {
            log.watch_over = false;
        }
        if inputs.joint_m2 > 0.0 {
            // Opened again: that vacuum counts no more.
            (log.deepest_pa, log.pumped_s, log.shut_off) = (None, 0.0, None);
        }
        let nitrogen = matches!(inputs.centre_hose, CentreHose::Nitrogen { .. }) && joined;
        if nitrogen {
            log.nitrogen = Some(NitrogenLog {
                start_pa: loop_pa,
                start_t_k: loop_t_k,
                start_tick: tick,
                end_pa: loop_pa,
                end_t_k: loop_t_k,
                end_tick: tick,
                over: false,
            });
            if charge_kg > 0.1 * full_kg {
                log.mistake(BayMistake::NitrogenOnCharge, tick);
            }
        }
        if let Some(hold) = log.nitrogen.as_mut().filter(|hold| !nitrogen && !hold.over) {
            let alone = !joined || inputs.centre_hose == CentreHose::Capped;
            if alone && inputs.joint_m2 == 0.0 && inputs.crack_m2 == 0.0 && !running {
                (hold.end_pa, hold.end_t_k, hold.end_tick) = (loop_pa, loop_t_k, tick);
            } else {
                hold.over = true;
            }
        }
        if drawing || inputs.joint_m2 > 0.0 {
            log.left_in_kg.get_or_insert(charge_kg);
        }
        let liquid = matches!(inputs.centre_hose, CentreHose::Vessel { liquid: true, .. });
        if running && liquid && reaches(inputs.manifold_low, inputs.low_hose) {
            log.mistake(BayMistake::LiquidIntoRunning, tick);
        }
        if running && suction_pa < VACUUM_PA {
            log.mistake(BayMistake::RanInVacuum, tick);
        }
        // Refrigerant that hangs in the shop, and dye.
        let changes = if ventilated { CHANGES_H.1 } else { CHANGES_H.0 };
        log.bay_air_kg =
            (log.bay_air_kg + (released_kg - released_before).max(0.0)) * (1.0 - changes / 3600.0);
        if running {
            log.dye_mixed += (1.0 - log.dye_mixed) / DYE_ROUND_S;
        }
        let share = log.dye_kg / oil_kg * log.dye_mixed;
        let dye_kg = (lost_oil_kg - lost_before).max(0.0) * share.min(1.0);
        for (out_kg, part) in log.dye_out_kg.iter_mut().zip(dye_places) {
            *out_kg += part * dye_kg;
        }
        self.contents_settled(charge_kg / full_kg, loop_pa);
    }

    /// Faults of what is in the loop go when hands have emptied, evacuated or filled it: what is in it now is their doing.
    fn contents_settled(&mut self, charge_share: f64, loop_pa: f64) {
        let water_kg = self.plant.at(self.time_s(), |s| s.water.total_kg());
        let oil_share = self.plant.at(self.time_s(), |s| s.oil.total_kg()) / self.plant.spec().oil.full_kg;
        let contents: Vec<Fault> = self.faults.iter().filter(|f| f.id.is_contents()).collect();
        for fault in contents {
            let mut alone = FaultSet::default();
            alone.impose(fault);
            let does = effects(&alone, &self.rig).plant;
            let over = (does.charge_share == 0.0 || charge_share < EMPTY_SHARE)
                && (does.air_kg == 0.0 || loop_pa < EVACUATED_PA)
                && (does.water_kg == 0.0 || water_kg < DRY_KG)
                && (does.oil_share == 1.0 || (oil_share - 1.0).abs() < 0.1);
            if over {
                self.clear_contents(fault.id);
            }
        }
    }

    /// Take a fault of the contents away without touching the contents.
    fn clear_contents(&mut self, id: FaultId) {
        let before_kg = self.charge_offset_kg();
        self.disturbances.stop(id);
        self.faults.clear(id);
        self.follow_faults();
        self.asked.charge_kg += before_kg - self.charge_offset_kg();
        (self.asked.air_kg, self.asked.oil_kg, self.asked.water_kg) =
            (self.air_target_kg(), self.oil_target_kg(), self.water_target_kg());
    }

    /// Where every gram is; none without a bay.
    pub fn ledger(&self) -> Option<Ledger> {
        let bay = self.bay.as_deref()?;
        let (l, now) = (self.plant.layout(), self.time_s());
        let hoses = [l.low_hose, l.high_hose, l.centre];
        let n = l.loop_len();
        let at = |pick: &dyn Fn(&crate::plant::State) -> f64| self.plant.at(now, pick);
        let hoses_kg = hoses.iter().map(|&i| at(&|s| s.mass_kg[i])).sum::<f64>();
        let all_loop_kg = at(&|s| s.mass_kg[..n].iter().sum::<f64>() + s.oil.dissolved_kg);
        let vessels_kg = Vessel::ALL.map(|vessel| self.vessel_kg(vessel));
        let (start_kg, oil_start_kg) = self.bay_start;
        let log = &bay.log;
        Some(Ledger {
            loop_kg: all_loop_kg - hoses_kg,
            hoses_kg,
            vessels_kg,
            released_kg: at(&|s| s.released_kg()),
            cans_kg: log.cans_kg.0 - log.cans_kg.1,
            imposed_kg: at(&|s| s.serviced_kg),
            start_kg,
            oil_loop_kg: at(&|s| s.oil.sump_kg + s.oil.kg[..n].iter().sum::<f64>()),
            oil_vessels_kg: at(&|s| s.oil.kg[n..].iter().sum::<f64>()),
            oil_lost_kg: at(&|s| s.oil.lost_kg),
            oil_taken_kg: log.oil_taken_kg,
            oil_added_kg: log.oil_added_kg + log.new_part_oil_kg,
            oil_start_kg: oil_start_kg + self.asked.oil_given_kg,
        })
    }
}
