//! What is true where instruments are put. Only what one in place asks for is worked out.

use super::now::Now;
use super::pipes::pipe_t_k;
use super::service::Service;
use crate::bay::Sample;
use crate::bay::shop_air::WORKSHOP_M3;
use crate::circuit::Circuit;
use crate::constants::{R_DRY_AIR, R_MOLAR};
use crate::fault::Effects;
use crate::instrument::{LeakTruth, Truth};
use crate::moist_air;
use crate::places::{AirPlace, PipePlace, SearchPlace};
use crate::plant::{Draught, OIL_KG_M3, Vessel};

/// Time the identifier takes from sample to result: a minute (common practice, no source).
const IDENTIFIER_TICKS: u64 = 1200;

/// A moment of the bench, as instruments meet it.
pub struct Here<'a> {
    /// The moment.
    pub now: Now<'a>,
    /// What faults change.
    pub wrong: &'a Effects,
    /// Hoses and the service bay.
    pub service: &'a Service,
    /// The electrical side.
    pub circuit: &'a Circuit,
}

impl Here<'_> {
    fn vessel_kg(&self, vessel: Vessel) -> f64 {
        self.now.plant.vessel_gross_kg(vessel, self.now.time_s())
    }
}

impl Truth for Here<'_> {
    fn gauges_live(&self) -> bool {
        self.service.gauges_live()
    }
    /// A needle off its zero is off with the hoses on and off.
    fn low_gauge_pa(&self) -> f64 {
        let hose = self.now.plant.layout().low_hose;
        let felt = if self.gauges_live() { self.now.gauge_pa(hose) } else { 0.0 };
        felt + self.wrong.instruments.low_gauge_pa
    }
    /// A shut coupler leaves outside air in the hose.
    fn high_gauge_pa(&self) -> f64 {
        let open = self.gauges_live() && !self.wrong.instruments.high_hose_shut;
        let hose = self.now.plant.layout().high_hose;
        let felt = if open { self.now.gauge_pa(hose) } else { 0.0 };
        felt + self.wrong.instruments.high_gauge_pa
    }
    fn compressor_turns(&self) -> bool {
        self.now.compressor_runs()
    }
    fn surroundings_k(&self) -> f64 {
        self.now.ambient_k()
    }
    fn pipe_k(&self, place: PipePlace) -> f64 {
        pipe_t_k(self.now.plant, place, self.now.time_s())
    }
    fn clamped_k(&self, place: PipePlace) -> f64 {
        let pipe_k = self.pipe_k(place);
        pipe_k + self.wrong.instruments.clamp_loose * (self.surroundings_k() - pipe_k)
    }
    fn air_k(&self, place: AirPlace) -> f64 {
        let plant = self.now.plant;
        match place {
            AirPlace::Outside => self.now.ambient_k(),
            AirPlace::CondenserOff => plant.condenser_air().2,
            AirPlace::Cabin => plant.at(self.now.time_s(), |s| s.cabin.t_k),
            AirPlace::Vent => plant.vent().0,
        }
    }
    fn wet_bulb_k(&self, place: AirPlace) -> f64 {
        let plant = self.now.plant;
        let w = match place {
            AirPlace::Outside | AirPlace::CondenserOff => plant.inputs().ambient_w,
            AirPlace::Cabin => plant.at(self.now.time_s(), |s| s.cabin.w),
            AirPlace::Vent => plant.vent_humidity_ratio(),
        };
        moist_air::wet_bulb_k(self.air_k(place), w, plant.inputs().ambient_pa)
    }
    fn vent_m3_s(&self) -> f64 {
        let plant = self.now.plant;
        let (t_k, w) = (plant.vent().0, plant.vent_humidity_ratio());
        let volume = moist_air::specific_volume(t_k, w, plant.inputs().ambient_pa);
        plant.coil_air_kg_s() * self.wrong.plant.vent_share * volume
    }
    fn bubbles(&self) -> f64 {
        let glass = self.now.plant.look(self.now.plant.layout().liquid, self.now.time_s());
        if glass.quality > 0.0 { glass.void } else { 0.0 }
    }
    fn circuit(&self) -> Option<&Circuit> {
        Some(self.circuit)
    }
    fn centre_hose_pa(&self) -> f64 {
        self.now.plant.look(self.now.plant.layout().centre, self.now.time_s()).p_pa
    }
    fn recovery_scale_kg(&self) -> f64 {
        self.vessel_kg(Vessel::Recovery)
    }
    fn charging_scale_kg(&self) -> f64 {
        self.service.bay().map_or(0.0, |bay| self.vessel_kg(bay.on_scale))
    }
    fn recovered_oil_m3(&self) -> f64 {
        let i = self.now.plant.layout().vessel(Vessel::Recovery);
        i.map_or(0.0, |i| self.now.plant.at(self.now.time_s(), |s| s.oil.kg[i]) / OIL_KG_M3)
    }
    fn leak(&self, place: SearchPlace) -> LeakTruth {
        let plant = self.now.plant;
        let inputs = plant.inputs();
        let volume_m3_mol = R_MOLAR * inputs.ambient_t_k / inputs.ambient_pa;
        let refrigerant_m3_kg = volume_m3_mol / plant.refrigerant().molar_mass_kg_mol();
        let air_m3_kg = R_DRY_AIR * inputs.ambient_t_k / inputs.ambient_pa;
        let draught = match place {
            SearchPlace::CondenserJoint | SearchPlace::ReceiverJoint => Draught::Front,
            SearchPlace::EvaporatorDrain => Draught::Housing,
            _ => Draught::Bonnet,
        };
        let wind_m_s = plant.draught_m_s(draught, self.now.ambient_k());
        let mut leak = LeakTruth { wind_m_s, ..LeakTruth::default() };
        for (k_m2, hole) in inputs.openings() {
            if k_m2 > 0.0 && SearchPlace::of(hole) == Some(place) {
                let (kg_s, air_kg_s) = plant.through_opening(plant.layout().open_place(hole), k_m2);
                leak.refrigerant_kg_s += kg_s;
                leak.gas_m3_s += kg_s * refrigerant_m3_kg + air_kg_s * air_m3_kg;
            }
        }
        leak.dye_kg = self.service.bay().map_or(0.0, |bay| bay.log.dye_out_kg[place]);
        leak
    }
    /// Without a bay the air is clean.
    fn workshop_air_kg_m3(&self) -> f64 {
        self.service.bay().map_or(0.0, |bay| bay.log.bay_air_kg / WORKSHOP_M3)
    }
    fn sample(&self) -> Option<(f64, f64)> {
        // It takes its time over a sample.
        let ready = |sample: &Sample| self.now.tick >= sample.tick + IDENTIFIER_TICKS;
        self.service.bay()?.sample.filter(ready).map(|sample| (sample.refrigerant, sample.air))
    }
}
