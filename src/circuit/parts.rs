//! The parts of the circuit in numbers.

use serde::{Deserialize, Serialize};

/// The figures of the parts. Ranges that match them: reference/faults.md 3.3; the rest is common practice,
/// no source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Parts {
    /// Battery at rest [V].
    pub battery_v: f64,
    /// Alternator charging [V].
    pub alternator_v: f64,
    /// Inner resistance of the supply [ohm].
    pub supply_ohm: f64,
    /// One blade fuse of the car [ohm].
    pub fuse_ohm: f64,
    /// One length of harness, or one ground strap [ohm].
    pub wire_ohm: f64,
    /// A closed contact of a switch or relay [ohm].
    pub contact_ohm: f64,
    /// Coil of a relay [ohm]; mini relays have 60 to 120.
    pub relay_coil_ohm: f64,
    /// Coil volts above which a whole relay pulls in [V].
    pub relay_pull_in_v: f64,
    /// Coil volts below which a whole relay drops out [V].
    pub relay_drop_out_v: f64,
    /// Clutch coil at 20 °C [ohm]; 2.9 to 3.8 in one workshop manual.
    pub clutch_ohm: f64,
    /// Rise of copper resistance [1/K].
    pub copper_per_k: f64,
    /// Volts across the cold clutch coil above which it pulls in [V].
    pub clutch_pull_in_v: f64,
    /// Volts across the cold clutch coil below which it drops out [V].
    pub clutch_drop_out_v: f64,
    /// Fan motor at speed [ohm].
    pub motor_ohm: f64,
    /// Volts across the motor for full speed [V].
    pub motor_full_v: f64,
    /// Low-speed resistor [ohm].
    pub low_speed_ohm: f64,
    /// Time constant of the fan [s].
    pub fan_lag_s: f64,
    /// Jumper lead with its fuse and clips [ohm].
    pub jumper_ohm: f64,
    /// Fuse of the jumper lead [A].
    pub jumper_fuse_a: f64,
    /// A broken winding [ohm].
    pub broken_ohm: f64,
}

impl Parts {
    /// The compact car.
    pub const COMPACT_CAR: Self = Self {
        battery_v: 12.6,
        alternator_v: 14.2,
        supply_ohm: 0.02,
        fuse_ohm: 0.004,
        wire_ohm: 0.005,
        contact_ohm: 0.01,
        relay_coil_ohm: 80.0,
        relay_pull_in_v: 8.0,
        relay_drop_out_v: 4.0,
        clutch_ohm: 3.6,
        copper_per_k: 0.0039,
        clutch_pull_in_v: 7.5,
        clutch_drop_out_v: 4.0,
        motor_ohm: 0.9,
        motor_full_v: 13.5,
        low_speed_ohm: 0.38,
        fan_lag_s: 1.5,
        jumper_ohm: 0.02,
        jumper_fuse_a: 15.0,
        broken_ohm: 1e7,
    };
}
