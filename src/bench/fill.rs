//! What faults and repairs put into the loop and take out of it: charge, air, oil, water. It goes in and out at a pace, since
//! nothing jumps.
//!
//! Outside a bay the loop is kept at what the faults say. In a bay a fault changes what is in the loop once, and leaves it to
//! hands then.

use serde::Serialize;

use super::clock::{SECOND_TICKS, TICK_S};
use crate::fault::PlantEffects;
use crate::plant::{Inputs, Plant, PlantSpec, charged_j_kg};

/// Fastest that charge goes in or out [kg/s], and what is let be [kg].
const CHARGE: Pace = Pace { most_kg_s: 0.01, let_be_kg: 1e-7 };
/// The same of air.
const AIR: Pace = Pace { most_kg_s: 2e-4, let_be_kg: 1e-9 };
/// The same of oil.
const OIL: Pace = Pace { most_kg_s: 5e-3, let_be_kg: 1e-6 };
/// The same of water.
const WATER: Pace = Pace { most_kg_s: 2e-4, let_be_kg: 1e-7 };

/// Rates hold for so long [s].
const SECOND_S: f64 = SECOND_TICKS as f64 * TICK_S;

/// How fast an amount may change.
struct Pace {
    most_kg_s: f64,
    let_be_kg: f64,
}

impl Pace {
    /// Rate for the next second at which what is due goes in [kg/s].
    fn rate(&self, due_kg: f64) -> f64 {
        if due_kg.abs() < self.let_be_kg { 0.0 } else { due_kg.clamp(-self.most_kg_s, self.most_kg_s) }
    }
    /// The same towards a target, taken down in what was asked so far.
    fn step(&self, target_kg: f64, asked_kg: &mut f64) -> f64 {
        let rate = ((target_kg - *asked_kg) / SECOND_S).clamp(-self.most_kg_s, self.most_kg_s);
        *asked_kg += rate * SECOND_S;
        rate
    }
}

/// What the faults of a moment want in the loop.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// Refrigerant over a full charge, negative when missing [kg].
    pub charge_offset_kg: f64,
    /// Air [kg].
    pub air_kg: f64,
    /// Oil [kg].
    pub oil_kg: f64,
    /// Water [kg].
    pub water_kg: f64,
}

impl Wanted {
    /// In a loop with these faults.
    pub fn of(wrong: &PlantEffects, spec: &PlantSpec) -> Self {
        Self {
            // Nothing less than an empty loop.
            charge_offset_kg: spec.full_charge_kg * wrong.charge_share.max(-1.0),
            air_kg: wrong.air_kg,
            oil_kg: spec.oil.full_kg * wrong.oil_share,
            water_kg: wrong.water_kg,
        }
    }
}

/// What faults have asked of the contents of the loop so far: in a bay they change it once and then leave it to hands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Asked {
    /// Air [kg].
    pub air_kg: f64,
    /// Oil [kg].
    pub oil_kg: f64,
    /// Water [kg].
    pub water_kg: f64,
    /// Oil that was put in (negative: taken out) so far [kg].
    pub oil_given_kg: f64,
    /// Charge that faults which are gone had asked for [kg].
    pub charge_kg: f64,
}

/// What was put in and taken out.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Fill {
    /// Charge offset the loop was soaked with [kg].
    soaked_offset_kg: f64,
    /// Water it was soaked with [kg].
    soaked_water_kg: f64,
    /// Refrigerant that repairs put in besides what the faults say [kg].
    pub added_kg: f64,
    /// Oil that repairs put in to make up for what was lost [kg].
    pub added_oil_kg: f64,
    /// What faults have asked of the contents, in a bay.
    asked: Asked,
}

impl Fill {
    /// What faults have asked for so far.
    pub fn asked(&self) -> &Asked {
        &self.asked
    }
    /// The loop was soaked with what is wanted.
    pub fn soaked(&mut self, wanted: &Wanted) {
        self.soaked_offset_kg = wanted.charge_offset_kg;
        self.soaked_water_kg = wanted.water_kg;
        self.asked = Asked::default();
        self.take_as_given(wanted);
    }
    fn take_as_given(&mut self, wanted: &Wanted) {
        (self.asked.air_kg, self.asked.oil_kg, self.asked.water_kg) =
            (wanted.air_kg, wanted.oil_kg, wanted.water_kg);
    }
    /// A fault of the contents went without the contents changing: what was wanted before it went and after.
    pub fn settled(&mut self, before: &Wanted, after: &Wanted) {
        self.asked.charge_kg += before.charge_offset_kg - after.charge_offset_kg;
        self.take_as_given(after);
    }

    /// Rates for a second outside a bay: the loop is kept at what is wanted.
    pub fn keep(&self, inputs: &mut Inputs, wanted: &Wanted, plant: &Plant, now: f64) {
        let due = wanted.charge_offset_kg + self.added_kg
            - self.soaked_offset_kg
            - plant.at(now, |s| s.serviced_kg);
        inputs.charge_kg_s = CHARGE.rate(due);
        inputs.charge_h_j_kg = charged_j_kg(plant.refrigerant(), inputs.ambient_t_k);
        let air = wanted.air_kg - plant.at(now, |s| s.air_kg.iter().sum());
        // What a hole lets in or out is no service.
        inputs.air_kg_s = if inputs.open_m2 > 0.0 { 0.0 } else { AIR.rate(air) };
        let oil = wanted.oil_kg + self.added_oil_kg - plant.at(now, |s| s.oil.total_kg() + s.oil.lost_kg);
        inputs.oil_kg_s = OIL.rate(oil);
        let water = wanted.water_kg - self.soaked_water_kg - plant.at(now, |s| s.water.in_kg);
        inputs.water_kg_s = WATER.rate(water);
    }

    /// Rates for a second in a bay: what faults imposed or cleared now put in or take out.
    pub fn ask(&mut self, inputs: &mut Inputs, wanted: &Wanted, plant: &Plant, now: f64) {
        let due = wanted.charge_offset_kg + self.asked.charge_kg
            - self.soaked_offset_kg
            - plant.at(now, |s| s.serviced_kg);
        inputs.charge_kg_s = CHARGE.rate(due);
        inputs.air_kg_s = AIR.step(wanted.air_kg, &mut self.asked.air_kg);
        inputs.oil_kg_s = OIL.step(wanted.oil_kg, &mut self.asked.oil_kg);
        inputs.water_kg_s = WATER.step(wanted.water_kg, &mut self.asked.water_kg);
        self.asked.oil_given_kg += inputs.oil_kg_s * SECOND_S;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_little_is_let_be_and_much_takes_its_time() {
        assert_eq!(CHARGE.rate(5e-8), 0.0);
        assert_eq!(CHARGE.rate(-0.2), -0.01);
        let mut asked = 0.0;
        let seconds = (0..10).filter(|_| AIR.step(1e-3, &mut asked) > 1e-9).count();
        assert_eq!(seconds, 5);
        assert!((asked - 1e-3).abs() < 1e-12);
    }
}
