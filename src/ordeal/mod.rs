//! Ordeals: long random sequences of anything a person can do to a loop, and things nobody should.
//!
//! An ordeal is a plant, a seed and a number: the same three give the same sequence everywhere. After every
//! operation the books are checked: no step refused, no value that is not finite or not physical, no gram of
//! refrigerant or air lost. The property test runs a few, the command `pintle ordeal` as many as asked for.

mod operation;

pub use operation::Operation;

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use crate::plant::{Contents, Inputs, Plant, PlantSpec};
use crate::refrigerant::Refrigerant;

/// What went wrong in an ordeal.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Harm {
    /// A step did not solve.
    #[error("{0}")]
    Step(String),
    /// A value is not finite or outside what can be.
    #[error("{what} of volume {volume} is {value}")]
    Value {
        /// Which quantity.
        what: &'static str,
        /// Where.
        volume: usize,
        /// What it is.
        value: f64,
    },
    /// The books do not close.
    #[error("{what}: {lost_kg:e} kg lost")]
    Books {
        /// Refrigerant, air.
        what: &'static str,
        /// How much.
        lost_kg: f64,
    },
}

/// One random sequence under way.
#[derive(Clone, Debug)]
pub struct Ordeal {
    plant: Plant,
    inputs: Inputs,
    time_s: f64,
    rng: ChaCha8Rng,
    log: Vec<(f64, Operation)>,
    /// Refrigerant, air, oil and water that should be constant.
    start_kg: [f64; 4],
}

impl Ordeal {
    /// Sequence `number` of `seed` on a loop.
    pub fn new(spec: &PlantSpec, refrigerant: &'static Refrigerant, seed: u64, number: u64) -> Self {
        let mut key = [0_u8; 32];
        key[..8].copy_from_slice(&seed.to_le_bytes());
        key[8..23].copy_from_slice(b"pintle ordeal 1");
        let mut rng = ChaCha8Rng::from_seed(key);
        rng.set_stream(number);
        let inputs = at_rest(&mut rng);
        let charge_kg = spec.full_charge_kg * operation::between(&mut rng, 0.0, 1.6);
        // Two in five loops hold air from the start, up to what an unevacuated one holds.
        let air_kg = (operation::between(&mut rng, -6e-3, 4e-3)).max(0.0);
        // One in three is wet, some are short of oil.
        let water_kg = (operation::between(&mut rng, -1e-2, 5e-3)).max(0.0);
        let oil_kg = spec.oil.full_kg * operation::between(&mut rng, 0.1, 1.3).min(1.0);
        let contents = Contents { charge_kg, air_kg, oil_kg, water_kg };
        let plant = Plant::soaked_with(spec, refrigerant, inputs, contents);
        let mut ordeal = Self { plant, inputs, time_s: 0.0, rng, log: Vec::new(), start_kg: [0.0; 4] };
        ordeal.start_kg = ordeal.held_kg();
        ordeal
    }
    /// Do something at random; gives the seconds to let pass.
    pub fn operate(&mut self) -> f64 {
        let operation = Operation::random(&mut self.rng);
        operation.change(&mut self.inputs);
        self.plant.set_inputs(self.time_s, self.inputs);
        self.log.push((self.time_s, operation));
        // From a second to ten minutes, short ones more often.
        libm::exp(operation::between(&mut self.rng, 0.0, libm::log(600.0)))
    }
    /// Let time pass.
    pub fn advance(&mut self, seconds: f64) {
        self.time_s += seconds;
        self.plant.advance_to(self.time_s);
    }
    /// The plant.
    pub fn plant(&self) -> &Plant {
        &self.plant
    }
    /// Time so far [s].
    pub fn time_s(&self) -> f64 {
        self.time_s
    }
    /// What was done and when [s].
    pub fn log(&self) -> &[(f64, Operation)] {
        &self.log
    }
    /// Refrigerant, air, oil and water that should be constant: held, less what came, plus what went [kg].
    fn held_kg(&self) -> [f64; 4] {
        let s = self.plant.committed().1;
        let mass = s.mass_kg.iter().sum::<f64>() + s.oil.dissolved_kg;
        let air: f64 = s.air_kg.iter().sum();
        [
            mass + s.released_kg() - s.serviced_kg - s.from_cylinder_kg,
            air - s.air_in_kg,
            s.oil.total_kg() + s.oil.lost_kg,
            s.water.total_kg() - s.water.in_kg - s.water.breathed_kg,
        ]
    }
    /// Is all well?
    ///
    /// # Errors
    /// The first harm found.
    pub fn check(&self) -> Result<(), Harm> {
        if let Some(trouble) = self.plant.troubles().first() {
            return Err(Harm::Step(trouble.clone()));
        }
        for volume in 0..self.plant.layout().len() {
            let look = self.plant.look(volume, self.time_s);
            let wall_k = self.plant.at(self.time_s, |s| s.wall_k[volume]);
            let mass_kg = self.plant.at(self.time_s, |s| s.mass_kg[volume]);
            let air_kg = self.plant.at(self.time_s, |s| s.air_kg[volume]);
            for (what, value, low, high) in [
                ("pressure", look.p_pa, 0.0, 8e6),
                // The gas of a compressor on its way to seizing may be very hot.
                ("temperature", look.t_k, 150.0, 700.0),
                ("wall temperature", wall_k, 170.0, 560.0),
                ("void", look.void, -1e-6, 1.0 + 1e-6),
                ("mass", mass_kg, -1e-9, 10.0),
                ("air", air_kg, -1e-9, 1.0),
                ("oil", self.plant.at(self.time_s, |s| s.oil.kg[volume]), 0.0, 1.0),
                ("water", self.plant.at(self.time_s, |s| s.water.kg[volume]), -1e-15, 1.0),
            ] {
                if !(value >= low && value <= high) {
                    return Err(Harm::Value { what, volume, value });
                }
            }
        }
        let names = ["refrigerant", "air", "oil", "water"];
        for ((what, now), before) in names.into_iter().zip(self.held_kg()).zip(self.start_kg) {
            let lost_kg = before - now;
            if lost_kg.is_nan() || lost_kg.abs() > 1e-9 {
                return Err(Harm::Books { what, lost_kg });
            }
        }
        Ok(())
    }
}

/// A parked car in some weather.
fn at_rest(rng: &mut ChaCha8Rng) -> Inputs {
    let ambient_t_k = operation::between(rng, 253.15, 323.15);
    Inputs {
        ambient_w: operation::between(rng, 0.001, 0.02),
        ..Inputs::parked(ambient_t_k).with_hoses(operation::one_in(rng, 2))
    }
}
