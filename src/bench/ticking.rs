//! How time passes on a bench, and how it starts over at tick 0.

use super::clock::{MINUTE_TICKS, SECOND_TICKS, TICK_S, time_s};
use super::machine::Bench;
use super::now::Now;
use super::pipes::pipe_t_k;
use super::plant_inputs::{still, told};
use super::truth::Here;
use crate::effort::{Effort, GivenUp};
use crate::fault::Conditions;
use crate::plant::{Contents, PerVessel, Plant};
use crate::units::ZERO_C_K;

impl Bench {
    /// Let time pass.
    pub fn advance(&mut self, ticks: u32) {
        for _ in 0..ticks {
            self.one_tick();
        }
    }

    /// Let time pass until a tick as a piece of long work, which looks now and then whether anybody still waits.
    ///
    /// # Errors
    /// When nobody does; some time may have passed then.
    pub fn advance_until(&mut self, tick: u64, effort: &Effort) -> Result<(), GivenUp> {
        while self.tick < tick {
            if effort.is_given_up() {
                return Err(GivenUp);
            }
            let stretch = (tick - self.tick).min(MINUTE_TICKS);
            self.advance(stretch as u32);
            effort.add(stretch);
        }
        Ok(())
    }

    fn one_tick(&mut self) {
        self.disturb();
        let now = Now { tick: self.tick, controls: &self.controls, plant: &self.plant };
        self.electrical.tick(&now, self.faults.effects(), &mut self.rack.electrical);
        let time = now.time_s();
        let mut inputs = told(&now, self.electrical.drives(), self.faults.effects(), &self.service);
        if self.tick.is_multiple_of(SECOND_TICKS) {
            let wanted = self.faults.wanted(self.plant.spec());
            if self.service.bay().is_some() {
                self.fill.ask(&mut inputs, &wanted, &self.plant, time);
            } else {
                self.fill.keep(&mut inputs, &wanted, &self.plant, time);
            }
        }
        self.plant.set_inputs(time, inputs);
        self.tick += 1;
        let then = time_s(self.tick);
        self.plant.advance_to(then);
        if let Some(found) = self.service.tick(&mut self.plant, self.tick) {
            self.faults.settle(&mut self.fill, &found, &self.rig);
        }
        let here = Here {
            now: Now { tick: self.tick, controls: &self.controls, plant: &self.plant },
            wrong: self.faults.effects(),
            service: &self.service,
            circuit: self.electrical.circuit(),
        };
        self.rack.advance(TICK_S, &here);
    }

    /// Moments, onsets and ramps that are due on this tick, and faults that come and go.
    pub(super) fn disturb(&mut self) {
        let now = self.time_s();
        let discharge = self.plant.look(self.plant.layout().discharge, now);
        self.faults.run(self.tick, &self.scenario, discharge.t_k - ZERO_C_K, &mut self.controls);
        let c = &self.controls;
        let felt = Conditions {
            pipe_c: &|place| pipe_t_k(&self.plant, place, now) - ZERO_C_K,
            engine_rpm: if c.engine_on { c.engine_rpm } else { 0.0 },
            road_kmh: c.road_speed_kmh,
            high_bar: (discharge.p_pa - c.ambient_pa()) / 1e5,
            seed: self.seed,
            minute: self.tick / MINUTE_TICKS,
        };
        self.faults.come_and_go(self.tick, &felt);
        self.faults.follow(&self.rig);
    }

    /// Start over from rest with what stands now; only at tick 0, so that whatever is done before the first
    /// tick belongs to the soaked car.
    pub(super) fn soak(&mut self) {
        let spec = self.plant.spec().clone();
        let refrigerant = self.plant.refrigerant();
        let wanted = self.faults.wanted(&spec);
        let mut inputs = still(&self.controls, self.service.manifold().fitted);
        inputs.desiccant_taken = self.faults.effects().plant.desiccant_taken;
        let left_open = self.scenario.bay.is_some_and(|setup| setup.left_open);
        let open_air_kg = if left_open { self.plant.layout().open_air_kg(&inputs) } else { 0.0 };
        let contents = Contents {
            charge_kg: if left_open { 0.0 } else { spec.full_charge_kg + wanted.charge_offset_kg },
            air_kg: wanted.air_kg + open_air_kg,
            oil_kg: wanted.oil_kg,
            water_kg: wanted.water_kg,
        };
        self.plant = match self.scenario.bay {
            Some(setup) => {
                let vessels_kg = PerVessel::new(|vessel| setup.start_kg(vessel));
                Plant::in_service_bay_with(&spec, refrigerant, inputs, contents, vessels_kg)
            }
            None => Plant::soaked_with(&spec, refrigerant, inputs, contents),
        };
        self.fill.soaked(&wanted);
        self.service.begin_books(&self.plant, self.time_s());
        self.electrical.soak(self.now().ambient_k());
    }
}
