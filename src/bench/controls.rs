//! What the driver and the weather do: the knobs of the bench.

use serde::{Deserialize, Serialize};

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
}

/// The driver.
fn one() -> f64 {
    1.0
}

impl Controls {
    /// Allowed range of each number: name, unit, lowest, highest.
    pub const RANGES: [(&'static str, &'static str, f64, f64); 7] = [
        ("engine_rpm", "rev/min", 500.0, 6000.0),
        ("blower_pct", "%", 0.0, 100.0),
        ("road_speed_kmh", "km/h", 0.0, 180.0),
        ("ambient_c", "°C", -20.0, 55.0),
        ("relative_humidity_pct", "%", 0.0, 100.0),
        ("solar_w_m2", "W/m2", 0.0, 1200.0),
        ("people", "", 0.0, 7.0),
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
        }
    }
}
