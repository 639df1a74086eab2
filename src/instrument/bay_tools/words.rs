//! Names and shown values of the service bay's tools, in words.

use super::identifier;
use crate::instrument::meter;
use crate::instrument::places::Probe;
use crate::units::{DeltaK, Kelvin, Units};

/// Pascals in a micron of mercury.
pub const MICRON_PA: f64 = 0.133_322;

/// Strength from which a leak detector sounds its alarm, soap bubbles well and dye glows clearly.
pub const CLEAR_SIGN: f64 = 0.5;

/// Plain name of a tool of the bay on its place; of any other tool the name of what it is.
pub fn name(probe: &Probe) -> String {
    match probe {
        Probe::VacuumGauge => "vacuum gauge".into(),
        Probe::RecoveryScale => "scale under the recovery cylinder".into(),
        Probe::ChargingScale => "charging scale".into(),
        Probe::OilGraduation => "oil in the measuring glass".into(),
        Probe::Infrared { place, taped } => {
            format!("infrared, {} {}", place.name(), if *taped { "on tape" } else { "on bare metal" })
        }
        Probe::WetBulb(place) => format!("wet bulb, {}", place.name()),
        Probe::Airflow => "airflow at the vents".into(),
        Probe::LeakDetector { place, scale } => {
            format!("leak detector at {}, {}", scale.name(), place.name())
        }
        Probe::Soap(place) => format!("soap on the {}", place.name()),
        Probe::UvLamp(place) => format!("UV lamp on the {}", place.name()),
        Probe::Identifier => "identifier, refrigerant".into(),
        Probe::IdentifierAir => "identifier, air".into(),
        Probe::LowGauge | Probe::HighGauge => "gauge".into(),
        Probe::Pipe(_) | Probe::Air(_) => "thermometer".into(),
        Probe::Volts(_) | Probe::Meter { .. } => "meter".into(),
        Probe::Lamp { .. } => "test lamp".into(),
        Probe::Clamp(_) => "clamp".into(),
        Probe::UnitValue { .. } => "reader".into(),
        Probe::SightGlass => "sight glass".into(),
        Probe::Sense(sense) => sense.name().into(),
    }
}

/// A value one of these tools shows, with its unit.
pub fn value(units: Units, probe: &Probe, si: f64) -> String {
    match probe {
        Probe::VacuumGauge if meter::is_over(si) => "over range".into(),
        Probe::VacuumGauge => format!("{si:.1} Pa ({:.0} micron)", si / MICRON_PA),
        Probe::RecoveryScale | Probe::ChargingScale if meter::is_over(si) => "over range".into(),
        Probe::RecoveryScale | Probe::ChargingScale => format!("{si:.3} kg"),
        Probe::OilGraduation => format!("{:.0} mL", 1e6 * si),
        Probe::Infrared { .. } | Probe::WetBulb(_) => units.temperature(Kelvin(si)),
        Probe::Airflow => format!("{:.0} m³/h", 3600.0 * si),
        Probe::LeakDetector { .. } => sign(si, ["silent", "ticks faster", "alarm", "full alarm"]),
        Probe::Soap(_) => sign(si, ["no bubbles", "a few small bubbles", "bubbles", "foam"]),
        Probe::UvLamp(_) => sign(si, ["dark", "faint glow", "glow", "bright glow"]),
        Probe::Identifier => format!("{:.1} % ({})", 100.0 * si, verdict(si)),
        Probe::IdentifierAir => format!("{:.1} %", 100.0 * si),
        _ => format!("{si:.2}"),
    }
}

/// A value with the half-width of its 95 % band; signs have none in words.
pub fn value_with_uncertainty(units: Units, probe: &Probe, v: f64, u: f64) -> String {
    match probe {
        Probe::VacuumGauge if !meter::is_over(v) => {
            format!("{v:.1} ± {u:.1} Pa ({:.0} micron)", v / MICRON_PA)
        }
        Probe::RecoveryScale | Probe::ChargingScale if !meter::is_over(v) => format!("{v:.3} ± {u:.3} kg"),
        Probe::OilGraduation => format!("{:.0} ± {:.0} mL", 1e6 * v, 1e6 * u),
        Probe::Infrared { .. } | Probe::WetBulb(_) => {
            let (v, u) = (units.temperature_value(Kelvin(v)), units.difference_value(DeltaK(u)));
            format!("{v:.1} ± {u:.1} {}", units.temperature_unit())
        }
        Probe::Airflow => format!("{:.0} ± {:.0} m³/h", 3600.0 * v, 3600.0 * u),
        Probe::Identifier => format!("{:.1} ± {:.1} % ({})", 100.0 * v, 100.0 * u, verdict(v)),
        Probe::IdentifierAir => format!("{:.1} ± {:.1} %", 100.0 * v, 100.0 * u),
        tool => value(units, tool, v),
    }
}

/// Whether a share of refrigerant is enough to recover it for recycling.
fn verdict(share: f64) -> &'static str {
    if share >= identifier::PURE { "pass" } else { "fail" }
}

/// Words for the strength of a sign, 0 to 1.
fn sign(strength: f64, words: [&'static str; 4]) -> String {
    let word = match strength {
        s if s < 0.1 => words[0],
        s if s < CLEAR_SIGN => words[1],
        s if s < 0.9 => words[2],
        s if s.is_nan() => words[0],
        _ => words[3],
    };
    word.into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::{DetectorScale, SearchPlace};

    #[test]
    fn values_carry_their_units() {
        let vacuum = |pa| value(Units::Bar, &Probe::VacuumGauge, pa);
        // reference/physics.md section 2: 500 micron are 66.66 Pa.
        assert_eq!(vacuum(66.661), "66.7 Pa (500 micron)");
        assert_eq!((vacuum(meter::OVER), vacuum(f64::NAN)), ("over range".into(), "over range".into()));
        assert_eq!(value(Units::Psi, &Probe::WetBulb(crate::instrument::AirPlace::Vent), 283.15), "50.0 °F");
        assert_eq!(value(Units::Bar, &Probe::OilGraduation, 30e-6), "30 mL");
        let detector = Probe::LeakDetector { place: SearchPlace::ShaftSeal, scale: DetectorScale::G7 };
        assert_eq!(name(&detector), "leak detector at 7 g/year, shaft seal");
        let words = [0.0, 0.3, 0.6, 1.0, f64::NAN].map(|v| value(Units::Bar, &detector, v));
        assert_eq!(words, ["silent", "ticks faster", "alarm", "full alarm", "silent"]);
    }
}
