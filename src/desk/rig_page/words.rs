//! Words of the wiring: what parts are, and what is measured on them.

use crate::circuit::spec::Kind;

/// A current short enough to stand on the drawing.
pub fn amps_words(amps: f64) -> String {
    let size = amps.abs();
    if size < 0.0005 {
        "0 A".into()
    } else if size < 0.1 {
        format!("{:.0} mA", size * 1e3)
    } else {
        format!("{size:.1} A")
    }
}

/// Volts short enough to stand on the drawing.
pub fn volts_words(volts: f64) -> String {
    let text = if volts.abs() < 99.95 { format!("{volts:.1} V") } else { format!("{volts:.0} V") };
    crate::desk::panels::words::signed(if text == "-0.0 V" { "0.0 V" } else { &text })
}

/// What a part is, with its rating.
pub fn kind_words(kind: &Kind) -> String {
    match kind {
        Kind::Fuse { amps, .. } => format!("fuse, {amps:.0} A"),
        Kind::Coil { ohm, .. } => format!("relay coil, {ohm:.0} ohm"),
        Kind::Contact { normally_closed: true, .. } => "relay contact, closed at rest".into(),
        Kind::Contact { .. } => "relay contact, open at rest".into(),
        Kind::Switch { .. } => "switch worked by hand".into(),
        Kind::PressureSwitch { closes_gauge_pa, opens_gauge_pa, .. } => format!(
            "pressure switch: closes at {:.1}, opens at {:.1} bar gauge",
            closes_gauge_pa / 1e5,
            opens_gauge_pa / 1e5
        ),
        Kind::Thermostat { .. } => "temperature switch".into(),
        Kind::Timer { .. } => "clock with a contact".into(),
        Kind::ClutchCoil { ohm, .. } => format!("clutch coil, {ohm:.1} ohm cold"),
        Kind::Diode => "diode: takes the kick of the coil".into(),
        Kind::Motor { .. } => "motor".into(),
        Kind::Resistor { ohm } if *ohm >= 1e6 => format!("{:.0} Mohm", ohm / 1e6),
        Kind::Resistor { ohm } if *ohm >= 1e3 => format!("{:.1} kohm", ohm / 1e3),
        Kind::Resistor { ohm } => format!("{ohm:.2} ohm"),
        Kind::Lamp { .. } => "lamp".into(),
        Kind::Regulator { .. } => "power module: holds the motor at a share".into(),
        Kind::PressureSensor { .. } => "three-wire pressure sensor".into(),
        Kind::Thermistor { r25_ohm, .. } => format!("thermistor, {:.1} kohm at 25 °C", r25_ohm / 1e3),
        Kind::Reference { volts, .. } => format!("steady {volts:.0} V of the control unit"),
        Kind::Driver { .. } => "output of a control unit".into(),
        Kind::Solenoid { .. } => "solenoid valve".into(),
        Kind::Stepper { .. } => "stepper motor".into(),
        Kind::Inverter { .. } => "inverter with its motor".into(),
        Kind::Capacitor { farad } => format!("capacitor, {:.0} microfarad", farad * 1e6),
        Kind::RunWinding { ohm, .. } | Kind::StartWinding { ohm, .. } => {
            format!("winding, {ohm:.1} ohm cold")
        }
        Kind::Overload { holds_a, .. } => format!("overload, holds {holds_a:.0} A"),
        Kind::Isolator { .. } => "isolator".into(),
        Kind::Wire { ohm } => format!("wire, {:.0} mohm", ohm * 1e3),
    }
}
