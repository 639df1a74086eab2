//! A change of one knob: what it does to the bench, and whether its value is allowed.

use super::Change;
use crate::bench::{Action, Controls};

impl Change {
    /// The knob by its name in [`Controls`].
    pub fn key(self) -> &'static str {
        match self {
            Self::EngineOn(_) => "engine_on",
            Self::EngineRpm(_) => "engine_rpm",
            Self::AcRequest(_) => "ac_request",
            Self::BlowerPct(_) => "blower_pct",
            Self::Recirculate(_) => "recirculate",
            Self::RoadSpeedKmh(_) => "road_speed_kmh",
            Self::AmbientC(_) => "ambient_c",
            Self::RelativeHumidityPct(_) => "relative_humidity_pct",
            Self::SolarWM2(_) => "solar_w_m2",
            Self::People(_) => "people",
            Self::AltitudeM(_) => "altitude_m",
            Self::DoorsOpenPct(_) => "doors_open_pct",
            Self::BatteryHeatW(_) => "battery_heat_w",
        }
    }
    /// The new value, where it is a number.
    pub fn number(self) -> Option<f64> {
        match self {
            Self::EngineRpm(v)
            | Self::BlowerPct(v)
            | Self::RoadSpeedKmh(v)
            | Self::AmbientC(v)
            | Self::RelativeHumidityPct(v)
            | Self::SolarWM2(v)
            | Self::People(v)
            | Self::AltitudeM(v)
            | Self::DoorsOpenPct(v)
            | Self::BatteryHeatW(v) => Some(v),
            Self::EngineOn(_) | Self::AcRequest(_) | Self::Recirculate(_) => None,
        }
    }
    /// Why the value is not allowed, if it is not.
    pub fn fault_in_value(self) -> Option<String> {
        let value = self.number()?;
        let (_, unit, min, max) = Controls::RANGES.into_iter().find(|range| range.0 == self.key())?;
        out_of_range(value, unit, min, max)
    }
    /// The same change as something done to a bench.
    pub fn action(self) -> Action {
        match self {
            Self::EngineOn(v) => Action::EngineOn(v),
            Self::EngineRpm(v) => Action::EngineRpm(v),
            Self::AcRequest(v) => Action::AcRequest(v),
            Self::BlowerPct(v) => Action::BlowerPct(v),
            Self::Recirculate(v) => Action::Recirculate(v),
            Self::RoadSpeedKmh(v) => Action::RoadSpeedKmh(v),
            Self::AmbientC(v) => Action::AmbientC(v),
            Self::RelativeHumidityPct(v) => Action::RelativeHumidityPct(v),
            Self::SolarWM2(v) => Action::SolarWM2(v),
            Self::People(v) => Action::People(v),
            Self::AltitudeM(v) => Action::AltitudeM(v),
            Self::DoorsOpenPct(v) => Action::DoorsOpenPct(v),
            Self::BatteryHeatW(v) => Action::BatteryHeatW(v),
        }
    }
    /// Turn the knob in a set of controls.
    pub fn turn(self, controls: &mut Controls) {
        match self {
            Self::EngineOn(v) => controls.engine_on = v,
            Self::EngineRpm(v) => controls.engine_rpm = v,
            Self::AcRequest(v) => controls.ac_request = v,
            Self::BlowerPct(v) => controls.blower_pct = v,
            Self::Recirculate(v) => controls.recirculate = v,
            Self::RoadSpeedKmh(v) => controls.road_speed_kmh = v,
            Self::AmbientC(v) => controls.ambient_c = v,
            Self::RelativeHumidityPct(v) => controls.relative_humidity_pct = v,
            Self::SolarWM2(v) => controls.solar_w_m2 = v,
            Self::People(v) => controls.people = v,
            Self::AltitudeM(v) => controls.altitude_m = v,
            Self::DoorsOpenPct(v) => controls.doors_open_pct = v,
            Self::BatteryHeatW(v) => controls.battery_heat_w = v,
        }
    }
}

/// Why a number is outside its range, if it is. Not-a-number and infinity always are.
pub fn out_of_range(value: f64, unit: &str, min: f64, max: f64) -> Option<String> {
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    if !value.is_finite() {
        return Some(format!("{value} is not a usable number; {min} to {max}{unit} is allowed"));
    }
    let inside = value >= min && value <= max;
    (!inside).then(|| format!("{value}{unit} is outside {min} to {max}{unit}"))
}
