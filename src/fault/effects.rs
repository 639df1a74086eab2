//! The one place that says what each fault changes. Faults combine: shares that are left multiply, masses add up, of
//! two holdings the worse one counts.

use serde::Serialize;

use super::wiring::part_fault;
use super::{FaultId, FaultSet};
use crate::circuit::PartFault;
use crate::plant::{Layout, MeteringState, OpenPlace, Passages};
use crate::rig::Rig;

/// What the faults of a moment change.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Effects {
    /// At the plant and its surroundings.
    pub plant: PlantEffects,
    /// At parts of the circuit.
    pub circuit: Vec<PartFault>,
    /// At the instruments.
    pub instruments: InstrumentEffects,
}

/// What changes at the plant; the fields as in [`Inputs`](crate::plant::Inputs) unless said otherwise.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PlantEffects {
    /// Refrigerant on top of the full charge, share of it (negative: missing).
    pub charge_share: f64,
    /// Air in the loop [kg].
    pub air_kg: f64,
    /// Oil over its full amount.
    pub oil_share: f64,
    /// Water in the loop [kg].
    pub water_kg: f64,
    /// Share of the desiccant that is used up.
    pub desiccant_taken: f64,
    /// Share left of the lubricating film.
    pub oil_film: f64,
    /// The metering; a blocked equaliser is told by `equaliser_blocked`, since the pressure it holds is the plant's.
    pub metering: MeteringState,
    /// The equaliser is blocked.
    pub equaliser_blocked: bool,
    /// Restricted passages.
    pub passages: Passages,
    /// Share left of the condenser's conductance to the air.
    pub condenser_film: f64,
    /// Share of the condenser face that is blocked.
    pub fins_blocked: f64,
    /// Hot air that comes round to the condenser besides the usual.
    pub recirculated_extra: f64,
    /// Share left of the radiator's conductance.
    pub radiator: f64,
    /// Share left of a viscous coupling's grip.
    pub coupling_grip: f64,
    /// Share left of the evaporator's conductance to the air.
    pub evaporator_film: f64,
    /// Share of the blower's air that gets through.
    pub evaporator_air: f64,
    /// Share of the air that passes the heater core.
    pub heater_share: f64,
    /// Share of the air that reaches the vents; only a hand at the vents feels it.
    pub vent_share: f64,
    /// The fresh-air door stands open whatever its switch says.
    pub fresh_air: bool,
    /// Share of the water off the coil that finds the drain.
    pub drain: f64,
    /// Share left of the internal heat exchanger's conductance.
    pub exchanger_film: f64,
    /// Share of the design flow that leaks back through the reeds.
    pub reed_leak: f64,
    /// Share of its speed that the compressor gets from its belt.
    pub belt_share: f64,
    /// The shaft does not turn.
    pub seized: bool,
    /// Stroke held at its least (0) or its full length (1).
    pub stroke: Option<f64>,
    /// A hole: its flow constant [m2] and its place. Of several the largest alone; the model knows one at a time.
    pub hole: Option<(f64, OpenPlace)>,
}

/// What changes at the instruments.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct InstrumentEffects {
    /// The low gauge stands so much too high [Pa].
    pub low_gauge_pa: f64,
    /// The high gauge stands so much too high [Pa].
    pub high_gauge_pa: f64,
    /// The coupler of the high-side hose is shut; its gauge feels the air that was in the hose.
    pub high_hose_shut: bool,
    /// Share of the surroundings in what the clamp thermometer feels, besides its usual error.
    pub clamp_loose: f64,
}

impl PlantEffects {
    /// Nothing wrong.
    pub const NONE: Self = Self {
        charge_share: 0.0,
        air_kg: 0.0,
        oil_share: 1.0,
        water_kg: 0.0,
        desiccant_taken: 0.0,
        oil_film: 1.0,
        metering: MeteringState::SOUND,
        equaliser_blocked: false,
        passages: Passages::OPEN,
        condenser_film: 1.0,
        fins_blocked: 0.0,
        recirculated_extra: 0.0,
        radiator: 1.0,
        coupling_grip: 1.0,
        evaporator_film: 1.0,
        evaporator_air: 1.0,
        heater_share: 0.0,
        vent_share: 1.0,
        fresh_air: false,
        drain: 1.0,
        exchanger_film: 1.0,
        reed_leak: 0.0,
        belt_share: 1.0,
        seized: false,
        stroke: None,
        hole: None,
    };

    /// A hole that lets so much vapour of R-134a out at 10 bar [g/h]: 50 kg/m3 against 10 bar make 7071 kg/s for each
    /// square metre of flow constant.
    fn leak(&mut self, g_h: f64, place: OpenPlace) {
        self.open(g_h / 3.6e6 / 7071.0, place);
    }
    fn open(&mut self, m2: f64, place: OpenPlace) {
        if self.hole.is_none_or(|(larger, _)| larger < m2) {
            self.hole = Some((m2, place));
        }
    }

    /// Add a fault at severity `s`. Those of circuit and instruments change nothing here.
    fn add(&mut self, id: FaultId, s: f64, rig: &Rig) {
        let left = 1.0 - s;
        match id {
            FaultId::Undercharge => self.charge_share -= s,
            FaultId::Overcharge => self.charge_share += s,
            FaultId::LeakShaftSeal => self.leak(s, OpenPlace::SuctionLine),
            FaultId::LeakHose => self.leak(s, OpenPlace::DischargeLine),
            FaultId::LeakCondenserJoint => self.leak(s, OpenPlace::Condenser),
            FaultId::LeakEvaporator => self.leak(s, OpenPlace::Evaporator),
            FaultId::LeakServiceValve => self.leak(s, OpenPlace::LiquidLine),
            // A sharp-edged hole passes six tenths of its area.
            FaultId::HoseBurst => self.open(0.6e-6 * std::f64::consts::SQRT_2 * s, OpenPlace::DischargeLine),
            FaultId::AirInLoop => self.air_kg += 1e-3 * s,
            FaultId::Moisture => self.water_kg += 1e-3 * s,
            FaultId::DesiccantSaturated => self.desiccant_taken = self.desiccant_taken.max(s),
            FaultId::PoorEvacuation => {
                // Air of 1.2 kg/m3 with a hundredth of its mass in water.
                let air_kg = s * 1.2 * loop_m3(rig);
                self.air_kg += air_kg;
                self.water_kg += 0.01 * air_kg;
            }
            // A pintle held shut stays shut whatever else pulls at it.
            FaultId::TxvStuckOpen => self.metering.held = self.metering.held.or(Some(s)),
            FaultId::TxvStuckClosed | FaultId::ElectronicValveJammed => self.metering.held = Some(s),
            FaultId::TxvScreenClogged | FaultId::OrificeTubeClogged => self.metering.bore *= left,
            FaultId::OrificeTubeTooWide => self.metering.bore *= s,
            FaultId::BulbChargeLost => self.metering.bulb_lost = self.metering.bulb_lost.max(s),
            FaultId::BulbLoose => self.metering.bulb_loose = self.metering.bulb_loose.max(s),
            FaultId::EqualiserBlocked => self.equaliser_blocked = true,
            FaultId::DischargeLineRestricted => self.passages.discharge *= left,
            FaultId::CondenserBlockedInside => self.passages.condenser *= left,
            FaultId::DrierClogged => self.passages.drier *= left,
            FaultId::LiquidLineKinked => self.passages.liquid *= left,
            FaultId::SuctionLineRestricted => self.passages.suction *= left,
            FaultId::ExchangerRestricted => self.passages.exchanger *= left,
            FaultId::ExchangerFouled => self.exchanger_film *= left,
            FaultId::CondenserFinsBlocked => self.fins_blocked = self.fins_blocked.max(s),
            FaultId::CondenserFinsCorroded => self.condenser_film *= left,
            FaultId::CondenserAirRecirculation => self.recirculated_extra = self.recirculated_extra.max(s),
            FaultId::RadiatorClogged => self.radiator *= left,
            FaultId::ViscousCouplingWorn => self.coupling_grip *= left,
            FaultId::CompressorLeak => self.reed_leak = self.reed_leak.max(s),
            FaultId::LowOil => self.oil_share -= s,
            FaultId::ExcessOil => self.oil_share += s,
            FaultId::WrongOil => self.oil_film *= left,
            FaultId::CompressorSeized => self.seized = true,
            FaultId::StrokeStuckLeast => self.stroke = Some(0.0),
            FaultId::StrokeStuckFull => self.stroke = self.stroke.or(Some(1.0)),
            FaultId::BeltSlip => self.belt_share *= left,
            FaultId::CabinFilterClogged => self.evaporator_air *= left,
            FaultId::EvaporatorFouled => {
                self.evaporator_air *= left;
                self.evaporator_film *= 1.0 - 0.5 * s;
            }
            FaultId::EvaporatorFinsCorroded => self.evaporator_film *= left,
            FaultId::BlendDoorStuck => self.heater_share = self.heater_share.max(s),
            FaultId::FreshAirDoorOpen => self.fresh_air = true,
            FaultId::ModeDoorStuck => self.vent_share *= left,
            FaultId::DrainBlocked => self.drain *= left,
            _ => {}
        }
        self.oil_share = self.oil_share.max(0.0);
    }
}

impl InstrumentEffects {
    fn add(&mut self, id: FaultId, s: f64) {
        match id {
            FaultId::LowGaugeOff => self.low_gauge_pa += s * 1e5,
            FaultId::HighGaugeOff => self.high_gauge_pa += s * 1e5,
            FaultId::HighHoseShut => self.high_hose_shut = true,
            FaultId::ClampBadlySeated => self.clamp_loose = self.clamp_loose.max(s),
            _ => {}
        }
    }
}

/// Room inside a loop without hoses [m3].
fn loop_m3(rig: &Rig) -> f64 {
    let layout = Layout::new(&rig.plant, false);
    let hoses = [layout.low_hose, layout.high_hose, layout.centre];
    (0..layout.len()).filter(|i| !hoses.contains(i)).map(|i| layout.volumes_m3[i]).sum()
}

/// What these faults change on a rig. A fault that the rig cannot have changes nothing.
pub fn effects(faults: &FaultSet, rig: &Rig) -> Effects {
    let mut all =
        Effects { plant: PlantEffects::NONE, circuit: Vec::new(), instruments: InstrumentEffects::default() };
    for fault in faults.iter().filter(|fault| fault.id.info().applies_to(rig)) {
        all.plant.add(fault.id, fault.severity, rig);
        all.instruments.add(fault.id, fault.severity);
        all.circuit.extend(part_fault(fault.id, fault.severity, rig));
    }
    all
}
