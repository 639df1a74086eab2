//! A rig between two rooms of held air with a fault in it, and what the research on faults measures there.
//!
//! Residuals are faulty minus healthy at the same boundary conditions: air into both coils and speed are held, so what
//! differs comes from the fault.

use crate::plant::{Inputs, PlantSpec};
use crate::qualify::calorimeter::{Calorimeter, Held, STANDARD};
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;
use crate::units::ZERO_C_K;

use super::super::QualifyError;

/// Air into the condenser [°C]. Packaged units were measured at about 16 to 38 °C; a car stands in warmer air.
pub const AMBIENTS_C: [f64; 3] = [25.0, 32.0, 40.0];
/// Until everything stands still [s].
const SETTLE_S: f64 = 2400.0;
/// What a wet outlet counts as, so that less superheat than none can be told: enthalpy over this [J/(kg K)].
const VAPOUR_J_KG_K: f64 = 950.0;
/// The same for an outlet with vapour in it.
const LIQUID_J_KG_K: f64 = 1450.0;

/// A fault in the plant.
pub struct Trial {
    /// How bad, for people.
    pub words: String,
    /// Share of the full charge.
    pub charge_share: f64,
    /// Air in the loop [kg].
    pub air_kg: f64,
    /// What it changes.
    pub change: Box<dyn Fn(&mut Inputs)>,
}

impl Trial {
    /// A fault that is a change of inputs.
    pub fn of(words: impl Into<String>, change: impl Fn(&mut Inputs) + 'static) -> Self {
        Self { words: words.into(), charge_share: 1.0, air_kg: 0.0, change: Box::new(change) }
    }
    /// Nothing wrong.
    pub fn none() -> Self {
        Self::of("healthy", |_| {})
    }
    /// Another charge.
    pub fn charge(share: f64) -> Self {
        let words = format!("{:.0} % of the charge", 100.0 * share);
        Self { charge_share: share, ..Self::of(words, |_| {}) }
    }
    /// Air in the loop.
    pub fn air(grams: f64) -> Self {
        Self { air_kg: 1e-3 * grams, ..Self::of(format!("{grams} g of air"), |_| {}) }
    }
}

/// What is seen of a loop that stands still.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Evaporating temperature at the coil's outlet [K].
    pub evaporating_k: f64,
    /// Saturation temperature at the compressor's inlet [K].
    pub suction_sat_k: f64,
    /// Superheat at the coil's outlet, negative when wet [K].
    pub superheat_k: f64,
    /// Superheat at the compressor's inlet, negative when wet [K].
    pub suction_superheat_k: f64,
    /// Condensing temperature, from the total pressure at the condenser's inlet [K].
    pub condensing_k: f64,
    /// Subcooling at the condenser's outlet, from the total pressure, negative with vapour in it [K].
    pub subcooling_k: f64,
    /// Discharge [K].
    pub discharge_k: f64,
    /// Rise of the condenser's air [K].
    pub condenser_air_k: f64,
    /// Drop of the evaporator's air [K].
    pub evaporator_air_k: f64,
    /// Shaft power into the refrigerant [W].
    pub power_w: f64,
    /// Heat into the evaporator [W].
    pub capacity_w: f64,
    /// Pressure drop from condenser to metering over that from condenser to evaporator.
    pub liquid_drop: f64,
    /// Total pressure at the liquid line [Pa absolute].
    pub liquid_pa: f64,
    /// Pressure at the compressor's inlet [Pa absolute].
    pub suction_pa: f64,
}

/// A rig on the stand.
pub struct Stand {
    spec: PlantSpec,
    refrigerant: &'static Refrigerant,
    rpm: f64,
}

impl Stand {
    /// A rig whose compressor turns at a speed.
    pub fn new(rig: &str, rpm: f64) -> Result<Self, QualifyError> {
        let rig = Rig::load(rig)?;
        Ok(Self { spec: rig.plant, refrigerant: Refrigerant::r134a(), rpm })
    }

    /// Run a fault until it stands still.
    pub fn run(&self, outside_c: f64, trial: &Trial) -> Seen {
        let held = Held { outside_c, compressor_rpm: self.rpm, charge_share: trial.charge_share, ..STANDARD };
        // The rigs are filled to be right with hoses on, as gauges are read.
        let mut inputs = Inputs { hoses_fitted: true, ..Inputs::parked(outside_c + ZERO_C_K) };
        (trial.change)(&mut inputs);
        let mut stand = Calorimeter::of(&self.spec, self.refrigerant, inputs, held, trial.air_kg);
        let moment = stand.run(SETTLE_S);
        let (plant, l) = (stand.plant(), stand.plant().layout());
        let node = |i: usize| plant.node(i, moment.time_s);
        let saturated = |pa: f64| self.refrigerant.saturation(libm::log(pa)).t_k;
        let superheat = |i: usize| {
            let n = node(i);
            let wet = (1.0 - n.quality.v).max(0.0) * (n.sat.h_v - n.sat.h_l) / VAPOUR_J_KG_K;
            (n.t.v - n.sat.t_k).max(0.0) - wet
        };
        let (inlet, outlet) = (node(l.condenser.start), node(l.condenser_outlet()));
        let vapour = outlet.quality.v.clamp(0.0, 1.0) * (outlet.sat.h_v - outlet.sat.h_l) / LIQUID_J_KG_K;
        let (_, on_k, off_k) = plant.condenser_air();
        let (before, behind) = (outlet.p.v, node(l.metering_inlet()).p.v);
        let coil_out = l.evaporator.end - 1;
        Seen {
            evaporating_k: moment.evaporating_k,
            suction_sat_k: saturated(node(l.suction).p_ref),
            superheat_k: superheat(coil_out),
            suction_superheat_k: superheat(l.suction),
            condensing_k: saturated(inlet.p.v),
            subcooling_k: saturated(outlet.p.v) - outlet.t.v - vapour,
            discharge_k: moment.discharge_k,
            condenser_air_k: off_k - on_k,
            evaporator_air_k: STANDARD.room_c + ZERO_C_K - moment.vent_k,
            power_w: moment.power_w,
            capacity_w: moment.capacity_w,
            liquid_drop: (before - behind) / (before - node(l.evaporator.start).p.v),
            liquid_pa: moment.high_pa,
            suction_pa: moment.low_pa,
        }
    }

    /// How far the liquid line is open when it drops this share of the pressure between condenser and evaporator.
    pub fn narrowed(&self, outside_c: f64, drop: f64) -> f64 {
        let (mut low, mut high) = (libm::log(0.01), 0.0);
        for _ in 0..9 {
            let middle = 0.5 * (low + high);
            let trial = Trial::of("", move |i| i.passages.liquid = libm::exp(middle));
            // More drop than wanted: too narrow.
            if self.run(outside_c, &trial).liquid_drop > drop { low = middle } else { high = middle }
        }
        libm::exp(0.5 * (low + high))
    }
}
