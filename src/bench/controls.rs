//! What the driver and the weather do: the knobs of the bench.

use serde::{Deserialize, Serialize};

use crate::units::ATMOSPHERE_PA;

/// Engine, climate controls, road and weather.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Controls {
    /// Engine running.
    pub engine_on: bool,
    /// Engine speed while it runs [rev/min].
    pub engine_rpm: f64,
    /// A/C button pressed.
    pub ac_request: bool,
    /// Blower setting [% of full].
    pub blower_pct: f64,
    /// Recirculation flap closed to outside air.
    pub recirculate: bool,
    /// Road speed [km/h].
    pub road_speed_kmh: f64,
    /// Outside air temperature [°C].
    pub ambient_c: f64,
    /// Outside relative humidity [%].
    pub relative_humidity_pct: f64,
    /// Sun on a horizontal plane [W/m2]; none in a workshop or in the shade.
    #[serde(default)]
    pub solar_w_m2: f64,
    /// People in the car while its engine runs.
    #[serde(default = "one")]
    pub people: f64,
    /// Height above the sea [m].
    #[serde(default, skip_serializing_if = "is_zero")]
    pub altitude_m: f64,
    /// Share of the time the doors of a cold room stand open [%].
    #[serde(default, skip_serializing_if = "is_zero")]
    pub doors_open_pct: f64,
    /// Heat the traction battery gives to its coolant [W].
    #[serde(default, skip_serializing_if = "is_zero")]
    pub battery_heat_w: f64,
}

/// Knobs that few rigs have are left out of files and hashes while they stand at nothing.
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_zero(x: &f64) -> bool {
    *x == 0.0
}

/// The driver.
fn one() -> f64 {
    1.0
}

impl Controls {
    /// Pressure of the outside air [Pa]: US Standard Atmosphere 1976 up to 11 km.
    pub fn ambient_pa(&self) -> f64 {
        if self.altitude_m == 0.0 {
            return ATMOSPHERE_PA;
        }
        ATMOSPHERE_PA * libm::pow(1.0 - 2.255_77e-5 * self.altitude_m, 5.255_88)
    }
    /// Allowed range of each number: name, unit, lowest, highest.
    pub const RANGES: [(&'static str, &'static str, f64, f64); 10] = [
        ("engine_rpm", "rev/min", 500.0, 6000.0),
        ("blower_pct", "%", 0.0, 100.0),
        ("road_speed_kmh", "km/h", 0.0, 180.0),
        ("ambient_c", "°C", -20.0, 55.0),
        ("relative_humidity_pct", "%", 0.0, 100.0),
        ("solar_w_m2", "W/m2", 0.0, 1200.0),
        ("people", "", 0.0, 7.0),
        ("altitude_m", "m", 0.0, 4000.0),
        ("doors_open_pct", "%", 0.0, 100.0),
        ("battery_heat_w", "W", 0.0, 8000.0),
    ];
}

impl Default for Controls {
    /// The compact car at idle on a hot day: 35 °C, 40 %, 900 rpm, full blower, recirculation, shade,
    /// the driver alone.
    fn default() -> Self {
        Self {
            engine_on: true,
            engine_rpm: 900.0,
            ac_request: true,
            blower_pct: 100.0,
            recirculate: true,
            road_speed_kmh: 0.0,
            ambient_c: 35.0,
            relative_humidity_pct: 40.0,
            solar_w_m2: 0.0,
            people: one(),
            altitude_m: 0.0,
            doors_open_pct: 0.0,
            battery_heat_w: 0.0,
        }
    }
}
