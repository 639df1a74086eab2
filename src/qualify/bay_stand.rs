//! A loop in the service bay with its hoses on, as the rows of the bay handle it.

use crate::constants::MICRON_PA;
use crate::plant::{CentreHose, Contents, Inputs, Plant, PlantSpec, Vessel};
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

use super::QualifyError;
use crate::bench::BenchError;

/// 500 micron: the usual target of an evacuation (common practice, no source).
pub const TARGET_PA: f64 = 500.0 * MICRON_PA;

/// The compact car in the bay.
pub fn spec() -> Result<PlantSpec, QualifyError> {
    Ok(Rig::load("compact_car").map_err(BenchError::from)?.plant)
}

/// A plant in the bay with its inputs and its clock.
pub struct Stand {
    /// The plant.
    pub plant: Plant,
    inputs: Inputs,
    /// Time [s].
    pub time_s: f64,
    start_kg: f64,
    /// Largest amount of refrigerant that was ever unaccounted for [kg].
    pub astray_kg: f64,
}

impl Stand {
    /// A car at a temperature with hoses on and hand valves open, changed as asked.
    pub fn new(spec: &PlantSpec, t_c: f64, contents: Contents, change: impl Fn(&mut Inputs)) -> Self {
        let mut inputs = Inputs::parked(t_c + ZERO_C_K).with_hoses(true);
        (inputs.manifold_low, inputs.manifold_high) = (1.0, 1.0);
        change(&mut inputs);
        let refrigerant = Refrigerant::by_name(&spec.refrigerant).unwrap_or_else(Refrigerant::r134a);
        let plant = Plant::in_service_bay(spec, refrigerant, inputs, contents);
        let mut stand = Self { plant, inputs, time_s: 0.0, start_kg: 0.0, astray_kg: 0.0 };
        stand.start_kg = stand.all_kg();
        stand
    }
    fn all_kg(&self) -> f64 {
        self.plant.at(self.time_s, |s| s.mass_kg.iter().sum::<f64>() + s.oil.dissolved_kg + s.released_kg())
    }
    /// Turn valves and change what hangs on the centre hose.
    pub fn turn(&mut self, change: impl Fn(&mut Inputs)) -> &mut Self {
        change(&mut self.inputs);
        self.plant.set_inputs(self.time_s, self.inputs);
        self
    }
    /// Let time pass [s].
    pub fn wait(&mut self, seconds: f64) -> &mut Self {
        self.time_s += seconds;
        self.plant.advance_to(self.time_s);
        self.astray_kg = self.astray_kg.max((self.all_kg() - self.start_kg).abs());
        self
    }
    /// Put something on the centre hose and wait [s].
    pub fn on_centre(&mut self, hose: CentreHose, seconds: f64) -> &mut Self {
        self.turn(|i| i.centre_hose = hose).wait(seconds)
    }
    /// Pressure at the suction line [Pa].
    pub fn low_pa(&self) -> f64 {
        self.plant.look(self.plant.layout().suction, self.time_s).p_pa
    }
    /// Pressure at the high-side port [Pa].
    pub fn high_pa(&self) -> f64 {
        self.plant.look(self.plant.layout().liquid, self.time_s).p_pa
    }
    /// Refrigerant in a vessel [kg].
    pub fn held_kg(&self, vessel: Vessel) -> f64 {
        let i = self.plant.layout().vessel(vessel);
        i.map_or(0.0, |i| self.plant.at(self.time_s, |s| s.mass_kg[i]))
    }
    /// Refrigerant in loop and hoses, and in the hoses alone [kg].
    pub fn charge_kg(&self) -> (f64, f64) {
        let l = self.plant.layout();
        let hoses = [l.low_hose, l.high_hose, l.centre];
        let in_hoses = self.plant.at(self.time_s, |s| hoses.iter().map(|&i| s.mass_kg[i]).sum());
        (self.plant.charge_kg(self.time_s), in_hoses)
    }
    /// Minutes until the pressure that `look` sees is down to a value; none within six hours.
    pub fn minutes_to(&mut self, pa: f64, look: impl Fn(&Self) -> f64) -> Option<f64> {
        let began = self.time_s;
        while look(self) > pa {
            if self.time_s - began > 6.0 * 3600.0 {
                return None;
            }
            self.wait(15.0);
        }
        Some((self.time_s - began) / 60.0)
    }
    /// Liquid from the supply cylinder into the stopped high side until its scale has fallen by `kg`, hoses full of
    /// whatever they are full of; the cylinder stands in warm water.
    pub fn charge_by_weight(&mut self, kg: f64) {
        let before = self.held_kg(Vessel::Supply);
        self.turn(|i| {
            i.manifold_low = 0.0;
            i.centre_hose = CentreHose::Vessel { vessel: Vessel::Supply, liquid: true };
            // Air in the loop holds a cold cylinder's liquid back.
            i.warm_bath = Some(Vessel::Supply);
        });
        let began = self.time_s;
        while before - self.held_kg(Vessel::Supply) < kg && self.time_s - began < 3600.0 {
            self.wait(0.25);
        }
        self.turn(|i| (i.centre_hose, i.warm_bath) = (CentreHose::Capped, None));
    }
    /// Run at idle with both hand valves shut [s].
    pub fn run(&mut self, seconds: f64) {
        self.turn(|i| {
            (i.manifold_low, i.manifold_high) = (0.0, 0.0);
            (i.engine_on, i.engine_rpm, i.compressor_rpm) = (true, 900.0, 1620.0);
            (i.fan_share, i.blower_pct) = (0.7, 100.0);
        });
        self.wait(300.0);
        // The fan's high speed comes in at 16.5 bar (Saab's figure).
        if self.high_pa() - ATMOSPHERE_PA > 16.5e5 {
            self.turn(|i| i.fan_share = 1.0);
        }
        self.wait(seconds);
    }
    /// Run at idle with the high coupler shut and both hand valves open, so that the low side draws the hoses empty.
    pub fn run_hoses_empty(&mut self, seconds: f64) {
        self.run(0.0);
        self.turn(|i| (i.high_hose, i.manifold_low, i.manifold_high) = (None, 1.0, 1.0)).wait(300.0);
        self.turn(|i| (i.manifold_low, i.manifold_high) = (0.0, 0.0)).wait(seconds);
    }
}
