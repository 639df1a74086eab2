//! The numbers a person's senses meet. `bench/felt.rs` gathers them from plant and circuit; nothing else in here knows
//! where they come from.

use super::Place;
use crate::plant::OpenPlace;

/// Everything senses meet at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Felt {
    /// Engine speed, 0 when it stands or where there is none [rev/min].
    pub engine_rpm: f64,
    /// Speed the compressor's pulley turns at [rev/min].
    pub pulley_rpm: f64,
    /// Speed of the compressor's shaft, 0 when it is stuck [rev/min].
    pub shaft_rpm: f64,
    /// There is a clutch between belt and compressor.
    pub has_clutch: bool,
    /// The clutch plate is pulled in.
    pub clutch_in: bool,
    /// Time since the plate last moved [s]; none if it never did.
    pub since_click_s: Option<f64>,
    /// Torque that turns the compressor's shaft [N m].
    pub shaft_nm: f64,
    /// Torque the shaft takes from the belt, slipping plate included [N m].
    pub belt_nm: f64,
    /// Heat made between plate and pulley [W].
    pub slip_w: f64,
    /// Liquid in what the compressor draws, share by mass, 0 to 1.
    pub wet: f64,
    /// Oil film in its bearings, 0 to 1.
    pub film: f64,
    /// Wear of its bearings, 1 when stuck.
    pub wear: f64,
    /// Damage to its reeds, 0 to 1.
    pub battered: f64,
    /// Condenser fan, share of full speed.
    pub fan_share: f64,
    /// How far the fan's wheel is out of balance, 0 to 1.
    pub fan_unbalance: f64,
    /// Blower, share of full speed.
    pub blower_share: f64,
    /// Air out of the vents, share of the full flow of a clean car.
    pub vent_share: f64,
    /// Gas ahead of the metering, share of the volume, 0 to 1.
    pub inlet_gas: f64,
    /// Flow through the metering [kg/s].
    pub metered_kg_s: f64,
    /// Power of the jet in it: volume flow times pressure drop [W].
    pub jet_w: f64,
    /// Refrigerant that escapes [kg/s].
    pub leak_kg_s: f64,
    /// Where it escapes.
    pub leak_place: OpenPlace,
    /// Oil lost there so far [kg].
    pub oil_lost_kg: f64,
    /// Surfaces in the order of [`Place::ALL`] [K]; none where the rig has no such part.
    pub surface_k: [Option<f64>; Place::ALL.len()],
    /// Dew point of the air around the pipes [K].
    pub dew_k: f64,
    /// Pressure of the air [Pa].
    pub air_pa: f64,
    /// Condenser walls in flow order, subcooling pass last [K].
    pub condenser_k: Vec<f64>,
    /// Water that leaves the evaporator's drain [kg/s].
    pub drip_kg_s: f64,
    /// Water on the evaporator over what clings at most; above 1 it stands in the housing.
    pub coil_water: f64,
    /// Mean of the evaporator's surface [K].
    pub coil_k: f64,
    /// Engine and coolant; none without an engine [K].
    pub coolant_k: Option<f64>,
    /// People sit in it, behind windows and a dash.
    pub has_cabin: bool,
    /// Outside air [K].
    pub outside_k: f64,
    /// Cabin air: temperature [K] and humidity ratio.
    pub cabin: (f64, f64),
    /// Air off the vents: temperature [K] and humidity ratio.
    pub vent: (f64, f64),
    /// The engine's electrics are on.
    pub ignition_on: bool,
    /// Feed of the A/C lamp, behind its button [V]; none where the circuit has no such point.
    pub ac_feed_v: Option<f64>,
    /// Battery [V].
    pub battery_v: Option<f64>,
}

impl Felt {
    /// Surface of a place [K].
    pub fn touch_k(&self, place: Place) -> Option<f64> {
        self.surface_k[place as usize]
    }
    /// The compressor turns.
    pub fn turning(&self) -> bool {
        self.shaft_rpm > 1.0
    }
}
