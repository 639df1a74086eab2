//! What is true where the tools of the service bay are put. Only what a tool in place asks for is worked out.

use super::Bench;
use crate::bay::{Bay, Sample};
use crate::instrument::bay_tools::truth::BAY_M3;
use crate::instrument::{AirPlace, BayTruth, LeakTruth, Probe, SearchPlace};
use crate::moist_air;
use crate::plant::{OIL_KG_M3, Vessel};
use crate::units::ZERO_C_K;

/// Time the identifier takes from sample to result: a minute (common practice, no source).
const IDENTIFIER_TICKS: u64 = 1200;
/// Molar gas constant [J/(mol K)].
const R_MOLAR: f64 = 8.314_463;
/// Gas constant of air [J/(kg K)].
const R_AIR: f64 = moist_air::R_DRY_AIR;
/// Air that the condenser fan drives past the front of the car at full speed [m/s] (own estimate).
const FAN_M_S: f64 = 3.0;
/// Air that a running engine stirs about its belt [m/s] (own estimate).
const STIRRED_M_S: f64 = 0.3;
/// Share of the road speed that reaches the front of the car, and the space under the bonnet (own estimates).
const ROAD: (f64, f64) = (0.5, 0.2);
/// Section of the evaporator's housing above its drain [m2] (own estimate).
const HOUSING_M2: f64 = 0.04;

impl Bench {
    /// What the tools of the bay meet now. Without a bay nothing hangs on the centre hose and the air is clean.
    pub(super) fn bay_truth(&self, now: f64, bay: Option<&Bay>) -> BayTruth {
        let mut truth = BayTruth::default();
        for probe in self.rack.bay.placed() {
            match probe {
                Probe::VacuumGauge => {
                    truth.centre_hose_pa = self.plant.look(self.plant.layout().centre, now).p_pa;
                }
                Probe::RecoveryScale => truth.recovery_scale_kg = self.weight_kg(Vessel::Recovery, now),
                Probe::ChargingScale => {
                    truth.charging_scale_kg = bay.map_or(0.0, |bay| self.weight_kg(bay.on_scale, now));
                }
                Probe::OilGraduation => truth.recovered_oil_m3 = self.recovered_oil_m3(now),
                Probe::Infrared { place, .. } => truth.pipe_t_k[place as usize] = self.pipe_t_k(place, now),
                Probe::WetBulb(place) => truth.wet_bulb_k[place as usize] = self.wet_bulb_k(place, now),
                Probe::Airflow => truth.airflow_m3_s = self.vent_m3_s(),
                Probe::LeakDetector { place, .. } | Probe::Soap(place) | Probe::UvLamp(place) => {
                    truth.leaks[place as usize] = self.leak(place, bay);
                }
                _ => {}
            }
        }
        truth.shaft_turning = self.plant.inputs().compressor_rpm > 0.0;
        if let Some(bay) = bay {
            truth.bay_air_kg_m3 = bay.log.bay_air_kg / BAY_M3;
            // It takes its time over a sample.
            let ready = |sample: &Sample| self.tick >= sample.tick + IDENTIFIER_TICKS;
            truth.sample = bay.sample.filter(ready).map(|sample| (sample.refrigerant, sample.air));
        }
        truth
    }

    /// The rig has such a place to search for a leak.
    pub(super) fn has_place(&self, place: SearchPlace) -> bool {
        let spec = self.plant.spec();
        match place {
            SearchPlace::ShaftSeal => spec.compressor.drive.pulley_ratio().is_some(),
            SearchPlace::ReceiverJoint => spec.receiver.is_some(),
            _ => true,
        }
    }

    /// A vessel with the refrigerant and air in it [kg]; 0 where there is none. Oil that comes along with recovered
    /// refrigerant falls into the measuring glass before the cylinder.
    pub(super) fn weight_kg(&self, vessel: Vessel, now: f64) -> f64 {
        let inside = |i: usize| self.plant.at(now, |s| s.mass_kg[i] + s.air_kg[i]);
        self.plant.layout().vessel(vessel).map_or(0.0, |i| vessel.spec().tare_kg + inside(i))
    }

    fn recovered_oil_m3(&self, now: f64) -> f64 {
        let i = self.plant.layout().vessel(Vessel::Recovery);
        i.map_or(0.0, |i| self.plant.at(now, |s| s.oil.kg[i]) / OIL_KG_M3)
    }

    fn wet_bulb_k(&self, place: AirPlace, now: f64) -> f64 {
        let inputs = self.plant.inputs();
        let w = match place {
            AirPlace::Outside | AirPlace::CondenserOff => inputs.ambient_w,
            AirPlace::Cabin => self.plant.at(now, |s| s.cabin.w),
            AirPlace::Vent => self.plant.vent_humidity_ratio(),
        };
        moist_air::wet_bulb_k(self.air_t_k(place, now), w, inputs.ambient_pa)
    }

    /// Air out of the vents [m3/s].
    fn vent_m3_s(&self) -> f64 {
        let (t_k, w) = (self.plant.vent().0, self.plant.vent_humidity_ratio());
        let volume = moist_air::specific_volume(t_k, w, self.plant.inputs().ambient_pa);
        self.plant.coil_air_kg_s() * self.effects.plant.vent_share * volume
    }

    /// What comes out at a place, and the wind past it.
    fn leak(&self, place: SearchPlace, bay: Option<&Bay>) -> LeakTruth {
        let inputs = self.plant.inputs();
        let volume_m3_mol = R_MOLAR * inputs.ambient_t_k / inputs.ambient_pa;
        let refrigerant_m3_kg = volume_m3_mol / self.plant.refrigerant().molar_mass_kg_mol();
        let air_m3_kg = R_AIR * inputs.ambient_t_k / inputs.ambient_pa;
        let mut leak = LeakTruth { wind_m_s: self.wind_m_s(place), ..LeakTruth::default() };
        for (k_m2, hole) in inputs.openings() {
            if k_m2 > 0.0 && SearchPlace::of(hole) == Some(place) {
                let (kg_s, air_kg_s) = self.plant.through_opening(self.plant.layout().open_place(hole), k_m2);
                leak.refrigerant_kg_s += kg_s;
                leak.gas_m3_s += kg_s * refrigerant_m3_kg + air_kg_s * air_m3_kg;
            }
        }
        leak.dye_kg = bay.map_or(0.0, |bay| bay.log.dye_out_kg[place as usize]);
        leak
    }

    /// Share of the refrigerant let out in the second gone by, `released_kg`, that came out at each place where a leak is
    /// searched for, in the order of [`SearchPlace::ALL`]; the rest went out at the centre hose.
    pub(super) fn shares_of_openings(&self, released_kg: f64) -> [f64; 9] {
        let mut shares = [0.0; 9];
        for (k_m2, hole) in self.plant.inputs().openings() {
            let Some(place) = SearchPlace::of(hole).filter(|_| k_m2 > 0.0 && released_kg > 0.0) else {
                continue;
            };
            let (kg_s, _) = self.plant.through_opening(self.plant.layout().open_place(hole), k_m2);
            shares[place as usize] += (kg_s / released_kg).clamp(0.0, 1.0);
        }
        shares
    }

    /// Speed of the air past a place [m/s].
    fn wind_m_s(&self, place: SearchPlace) -> f64 {
        let inputs = self.plant.inputs();
        let road_m_s = inputs.road_kmh / 3.6;
        let fan_m_s = FAN_M_S * inputs.fan_share;
        let stirred_m_s = if inputs.engine_on { STIRRED_M_S } else { 0.0 };
        match place {
            SearchPlace::CondenserJoint | SearchPlace::ReceiverJoint => fan_m_s + ROAD.0 * road_m_s,
            // Inside the housing: the blower's air, and none from outside.
            SearchPlace::EvaporatorDrain => {
                self.plant.coil_air_kg_s() * R_AIR * (self.controls.ambient_c + ZERO_C_K)
                    / inputs.ambient_pa
                    / HOUSING_M2
            }
            _ => 0.3 * fan_m_s + ROAD.1 * road_m_s + stirred_m_s,
        }
    }
}
