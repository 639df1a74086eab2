//! Everything the outside does to the plant.

use serde::{Deserialize, Serialize};

use super::openings::{CentreHose, OpenPlace, Port, Vessel};
use crate::units::ATMOSPHERE_PA;

/// Open share of passages that may be narrowed from inside: 1 as built, towards 0 blocked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Passages {
    /// Discharge line, between compressor and condenser.
    pub discharge: f64,
    /// Half way through the condenser.
    pub condenser: f64,
    /// Outlet of the receiver-drier (of the accumulator in a loop without one).
    pub drier: f64,
    /// Liquid line ahead of its service port's far end: between condenser (or drier) and metering.
    pub liquid: f64,
    /// Suction line, ahead of the compressor's service port.
    pub suction: f64,
    /// Vapour side of the internal heat exchanger.
    pub exchanger: f64,
}

impl Passages {
    /// As built.
    pub const OPEN: Self =
        Self { discharge: 1.0, condenser: 1.0, drier: 1.0, liquid: 1.0, suction: 1.0, exchanger: 1.0 };
}

/// Open share of the liquid line that is left where its solenoid valve is shut: it leaks a little (own estimate).
pub const SOLENOID_LEAK: f64 = 1e-4;

/// What is wrong with the metering device, whichever it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct MeteringState {
    /// Held at this lift, counted in full lifts; 0 is shut but for the bleed.
    pub held: Option<f64>,
    /// Open share of the screen or the tube's bore: 1 as built, towards 0 plugged, above 1 a bore too wide or missing.
    pub bore: f64,
    /// Share of the bulb's charge that is lost.
    pub bulb_lost: f64,
    /// How far the bulb hangs off its pipe: 0 clamped and insulated, 1 in the air around it.
    pub bulb_loose: f64,
    /// The equaliser is blocked: the diaphragm feels the pressure it felt when that began [Pa absolute].
    pub equaliser_held_pa: Option<f64>,
}

impl MeteringState {
    /// Nothing wrong.
    pub const SOUND: Self =
        Self { held: None, bore: 1.0, bulb_lost: 0.0, bulb_loose: 0.0, equaliser_held_pa: None };
}

/// Everything the outside does to the plant; constant over a solver step.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Inputs {
    /// The engine runs; people sit in the car then.
    pub engine_on: bool,
    /// Engine speed while it runs [rev/min].
    pub engine_rpm: f64,
    /// Compressor speed, 0 with the clutch out [rev/min].
    pub compressor_rpm: f64,
    /// Condenser fan speed, share of full.
    pub fan_share: f64,
    /// Road speed [km/h].
    pub road_kmh: f64,
    /// Blower [%].
    pub blower_pct: f64,
    /// Recirculation flap shut to outside air.
    pub recirculate: bool,
    /// Outside air [K].
    pub ambient_t_k: f64,
    /// Outside humidity ratio.
    pub ambient_w: f64,
    /// Pressure of the outside air [Pa absolute]: less at altitude, and thinner air for every fan.
    pub ambient_pa: f64,
    /// Sun on a horizontal plane [W/m2].
    pub solar_w_m2: f64,
    /// People in the car.
    pub people: f64,
    /// Port the low-side (blue) hose is open to.
    pub low_hose: Option<Port>,
    /// Port the high-side (red) hose is open to.
    pub high_hose: Option<Port>,
    /// The vessel of the service bay that stands in a bath of warm water.
    pub warm_bath: Option<Vessel>,
    /// Hand valve, low side, 0 to 1.
    pub manifold_low: f64,
    /// Hand valve, high side, 0 to 1.
    pub manifold_high: f64,
    /// Share of the condenser face blocked.
    pub fins_blocked: f64,
    /// Hot air that comes round to the condenser at rest beyond the rig's own share: missing seals, 0 to 0.5.
    pub recirculated_extra: f64,
    /// What is wrong with the metering.
    pub metering: MeteringState,
    /// Passages narrowed from inside.
    pub passages: Passages,
    /// Share of its full stroke that a variable compressor makes, 0 to 1; 1 for any other.
    pub stroke: f64,
    /// Opening an electronic expansion valve is told, 0 to 1.
    pub expansion_opening: f64,
    /// Opening the chiller's valve is told, 0 to 1 (0: branch shut).
    pub chiller_opening: f64,
    /// Heat the battery gives to the chiller's coolant [W].
    pub battery_w: f64,
    /// Share left of the condenser's air-side conductance at the same air flow (corroded, bent or coated fins).
    pub condenser_film: f64,
    /// Share left of the evaporator's air-side conductance at the same air flow.
    pub evaporator_film: f64,
    /// Share of the blower's air that filter, fins and ducts let through.
    pub evaporator_air: f64,
    /// Share left of the radiator's conductance.
    pub radiator: f64,
    /// Share of the air off the evaporator that passes the heater core on its way to the vents.
    pub heater_share: f64,
    /// Share left of the internal heat exchanger's conductance.
    pub exchanger_film: f64,
    /// Share of the time the doors of a cold room stand open.
    pub doors_open: f64,
    /// Share of the design flow that leaks back through the reed valves.
    pub reed_leak: f64,
    /// Refrigerant put in at the receiver (negative: taken out) [kg/s].
    pub charge_kg_s: f64,
    /// Enthalpy of refrigerant put in [J/kg].
    pub charge_h_j_kg: f64,
    /// Air let in at the suction line (negative: taken out everywhere) [kg/s].
    pub air_kg_s: f64,
    /// Oil put into the sump (negative: taken out everywhere) [kg/s].
    pub oil_kg_s: f64,
    /// Water let in at the suction line [kg/s].
    pub water_kg_s: f64,
    /// Share of the desiccant that is used up.
    pub desiccant_taken: f64,
    /// Share left of the lubricating film: 1 with oil of the right kind.
    pub oil_film: f64,
    /// Share of the water off the evaporator that finds the drain.
    pub drain: f64,
    /// What the centre hose ends in.
    pub centre_hose: CentreHose,
    /// Flow constant of a hole to the outside [m2].
    pub open_m2: f64,
    /// Where that hole is.
    pub open_place: OpenPlace,
    /// The same of a joint that is taken apart.
    pub joint_m2: f64,
    /// Where that joint is.
    pub joint_place: OpenPlace,
    /// The same of a fitting that is cracked open or being changed.
    pub crack_m2: f64,
    /// Where that fitting is.
    pub crack_place: OpenPlace,
    /// How much cooler water sprayed ahead of the condenser makes the air on its face [K].
    pub spray_k: f64,
}

impl Inputs {
    /// A parked car with nothing wrong and no hoses on, in still air at a temperature [K].
    pub fn parked(ambient_t_k: f64) -> Self {
        Self {
            engine_on: false,
            engine_rpm: 0.0,
            compressor_rpm: 0.0,
            fan_share: 0.0,
            road_kmh: 0.0,
            blower_pct: 0.0,
            recirculate: true,
            ambient_t_k,
            ambient_w: 0.008,
            ambient_pa: ATMOSPHERE_PA,
            solar_w_m2: 0.0,
            people: 0.0,
            recirculated_extra: 0.0,
            low_hose: None,
            high_hose: None,
            warm_bath: None,
            manifold_low: 0.0,
            manifold_high: 0.0,
            fins_blocked: 0.0,
            metering: MeteringState::SOUND,
            passages: Passages::OPEN,
            stroke: 1.0,
            expansion_opening: 0.0,
            chiller_opening: 0.0,
            battery_w: 0.0,
            condenser_film: 1.0,
            evaporator_film: 1.0,
            evaporator_air: 1.0,
            radiator: 1.0,
            heater_share: 0.0,
            exchanger_film: 1.0,
            doors_open: 0.0,
            reed_leak: 0.0,
            charge_kg_s: 0.0,
            charge_h_j_kg: 2.5e5,
            air_kg_s: 0.0,
            oil_kg_s: 0.0,
            water_kg_s: 0.0,
            desiccant_taken: 0.0,
            oil_film: 1.0,
            drain: 1.0,
            centre_hose: CentreHose::Capped,
            open_m2: 0.0,
            open_place: OpenPlace::SuctionLine,
            joint_m2: 0.0,
            joint_place: OpenPlace::SuctionLine,
            crack_m2: 0.0,
            crack_place: OpenPlace::CentreHose,
            spray_k: 0.0,
        }
    }
    /// Can air come in?
    pub(crate) fn lets_air_in(&self) -> bool {
        let open = self.openings().iter().any(|(m2, _)| *m2 > 0.0);
        self.air_kg_s > 0.0 || open || self.centre_hose.lets_air_in()
    }
    /// All openings to the outside air but the centre hose's own: flow constant [m2] and place.
    pub fn openings(&self) -> [(f64, OpenPlace); 3] {
        [
            (self.open_m2, self.open_place),
            (self.joint_m2, self.joint_place),
            (self.crack_m2, self.crack_place),
        ]
    }
    /// With both hoses on their own ports, or off.
    pub fn with_hoses(self, fitted: bool) -> Self {
        let on = |port| fitted.then_some(port);
        Self { low_hose: on(Port::Low), high_hose: on(Port::High), ..self }
    }
    /// Density of the outside air over that at sea level, temperature aside: fans move volumes.
    pub(super) fn thin_air(&self) -> f64 {
        self.ambient_pa / ATMOSPHERE_PA
    }
    /// Does this differ from `other` by so little that the plant goes on as it did?
    pub(super) fn near(&self, other: &Self) -> bool {
        let speed = (self.compressor_rpm - other.compressor_rpm).abs();
        let fan = (self.fan_share - other.fan_share).abs();
        let weather = (self.ambient_t_k - other.ambient_t_k).abs();
        let rest = Self {
            compressor_rpm: other.compressor_rpm,
            fan_share: other.fan_share,
            ambient_t_k: other.ambient_t_k,
            ambient_w: other.ambient_w,
            road_kmh: other.road_kmh,
            // These act on engine bay and cabin alone, which are slow.
            engine_rpm: other.engine_rpm,
            solar_w_m2: other.solar_w_m2,
            people: other.people,
            battery_w: other.battery_w,
            stroke: other.stroke,
            expansion_opening: other.expansion_opening,
            chiller_opening: other.chiller_opening,
            ..*self
        };
        rest == *other
            && speed <= 0.03 * other.compressor_rpm
            && fan <= 0.03
            && (self.stroke - other.stroke).abs() <= 0.03
            && (self.expansion_opening - other.expansion_opening).abs() <= 0.03
            && (self.chiller_opening - other.chiller_opening).abs() <= 0.03
            && weather <= 0.3
            && (self.road_kmh - other.road_kmh).abs() <= 3.0
            && (self.ambient_w - other.ambient_w).abs() <= 3e-4
    }
}
