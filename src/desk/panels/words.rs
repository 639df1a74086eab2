//! Numbers and places as people say them, in the units they chose.

use crate::bench::Relay;
use crate::desk::DeskView;
use crate::fault::{FaultId, Group};
use crate::instrument::{MeterMode, PipePlace, Probe, Reading, bay_tools, lamp, meter};
use crate::units::{DeltaK, GaugePa, Kelvin, Units};

/// A time as minutes and seconds.
pub fn clock(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    format!("{}:{:02}", whole / 60, whole % 60)
}

/// A place on a pipe, without saying "pipe" again.
pub fn pipe(place: PipePlace) -> &'static str {
    place.name().trim_end_matches(" pipe")
}

/// Where a tool sits, in words.
pub fn place(view: &DeskView, probe: &Probe) -> String {
    match probe {
        Probe::LowGauge => "low side".into(),
        Probe::HighGauge => "high side".into(),
        Probe::Pipe(place) => pipe(*place).into(),
        Probe::Air(place) => place.name().into(),
        Probe::Volts(id) => volts_place(view, id),
        Probe::Meter { .. } | Probe::Lamp { .. } | Probe::Clamp(_) | Probe::UnitValue { .. } => {
            crate::lesson::timeline::probe_words(probe)
        }
        Probe::SightGlass => "sight glass".into(),
        Probe::Sense(sense) => sense.name().into(),
        tool => bay_tools::name(tool),
    }
}

fn volts_place(view: &DeskView, id: &str) -> String {
    let label = view.circuit_points.iter().find(|(point, _)| point == id).map(|(_, label)| label.clone());
    label.unwrap_or_else(|| id.replace('_', " "))
}

/// What a sight glass looks like at a share of bubbles.
pub fn glass(share: f64) -> &'static str {
    match share {
        s if s < 0.02 => "clear",
        s if s < 0.2 => "a few bubbles",
        s if s < 0.7 => "steady bubbles",
        _ => "mostly vapour",
    }
}

/// A value a tool shows, with its unit.
pub fn value(units: Units, probe: &Probe, si: f64) -> String {
    let text = match probe {
        Probe::LowGauge | Probe::HighGauge => units.pressure(GaugePa(si)),
        Probe::Pipe(_) | Probe::Air(_) => units.temperature(Kelvin(si)),
        Probe::Volts(_) => format!("{si:.1} V"),
        Probe::Meter { mode, .. } => meter_value(*mode, si),
        Probe::Clamp(_) => format!("{si:.2} A"),
        Probe::Lamp { .. } => lamp::words(si).into(),
        Probe::UnitValue { .. } => format!("{si:.2}"),
        Probe::SightGlass => glass(si).into(),
        Probe::Sense(sense) => sense.words(si).into(),
        tool => bay_tools::value(units, tool, si),
    };
    signed(&text)
}

/// What a multimeter shows.
fn meter_value(mode: MeterMode, value: f64) -> String {
    if meter::is_over(value) { "OL".into() } else { format!("{value:.3} {}", mode.unit()) }
}

/// A reading with its uncertainty and unit.
pub fn value_with_uncertainty(units: Units, reading: &Reading) -> String {
    let (v, u) = (reading.value, reading.uncertainty);
    let text = match reading.probe {
        Probe::LowGauge | Probe::HighGauge => {
            let (v, u) = (units.pressure_value(v), units.pressure_value(u));
            let unit = units.pressure_unit();
            if units == Units::Bar {
                format!("{v:.1} ± {u:.1} {unit}")
            } else {
                format!("{v:.0} ± {u:.0} {unit}")
            }
        }
        Probe::Pipe(_) | Probe::Air(_) => {
            let (v, u) = (units.temperature_value(Kelvin(v)), units.difference_value(DeltaK(u)));
            format!("{v:.1} ± {u:.1} {}", units.temperature_unit())
        }
        Probe::Volts(_) => format!("{v:.1} ± {u:.1} V"),
        Probe::Meter { mode, .. } if meter::is_over(v) => meter_value(mode, v),
        Probe::Meter { mode, .. } => format!("{v:.3} ± {u:.3} {}", mode.unit()),
        Probe::Clamp(_) => format!("{v:.2} ± {u:.2} A"),
        Probe::Lamp { .. } => lamp::words(v).into(),
        Probe::UnitValue { .. } => format!("{v:.2}"),
        Probe::SightGlass => glass(v).into(),
        Probe::Sense(sense) => sense.words(v).into(),
        ref tool => bay_tools::value_with_uncertainty(units, tool, v, u),
    };
    text.split_once(" ±").map_or_else(|| text.clone(), |(v, rest)| format!("{} ±{rest}", signed(v)))
}

/// Which relay, as the name of a switch.
pub fn relay_name(relay: Relay) -> &'static str {
    match relay {
        Relay::Clutch => "Clutch relay",
        Relay::Fan => "Fan relay",
    }
}

/// A proper minus sign, and none before a zero.
pub fn signed(text: &str) -> String {
    let zero = text.starts_with('-') && !text.chars().any(|c| ('1'..='9').contains(&c));
    if zero { text.trim_start_matches('-').to_owned() } else { text.replace('-', "−") }
}

/// Which relay, in words.
pub fn relay(relay: Relay) -> &'static str {
    match relay {
        Relay::Clutch => "clutch relay",
        Relay::Fan => "fan relay",
    }
}

/// What belongs to a group, for its card.
pub fn parts_of(group: Group) -> &'static str {
    match group {
        Group::Charge => "too little, too much refrigerant",
        Group::Contamination => "air, water, wrong oil",
        Group::CondenserAirflow => "fan motor, fan relay, dirty fins",
        Group::Metering => "valve or orifice too open, too shut",
        Group::Compressor => "leaking inside, worn, seized",
        Group::Electrical => "supply, fuses, relays, grounds",
        Group::Restriction => "lines, drier, coils narrowed",
        Group::Drive => "belt, clutch plate, gap",
        Group::Controls => "switches, sensors, thermostat",
        Group::CabinAirflow => "blower, filter, ice on the coil",
        Group::AirDoors => "mixing, recirculation, drain",
        Group::MotorSupply => "capacitors, contactor, overload",
        Group::Instruments => "zero error, shut hose, bad clamp",
    }
}

/// Groups that hold a fault which this rig can have, in display order.
pub fn groups(view: &DeskView) -> Vec<Group> {
    let here: std::collections::BTreeSet<Group> = FaultId::on(view.rig).map(|id| id.info().group).collect();
    Group::ALL.into_iter().filter(|group| here.contains(group)).collect()
}

/// Does a search find this fault? Letters of its name, its group or what it changes; nothing typed finds all.
pub fn found(id: FaultId, typed: &str) -> bool {
    let typed = typed.trim().to_lowercase();
    let info = id.info();
    let near = |text: &str| text.to_lowercase().contains(&typed);
    typed.is_empty() || near(info.name) || near(info.group.name()) || near(info.changes)
}

/// How sure a share sounds.
pub fn confidence(share: f64) -> &'static str {
    match share {
        s if s < 0.5 => "guess",
        s if s < 0.85 => "likely",
        _ => "sure",
    }
}

/// A rig's file name as people say it: `compact_car_r134a` becomes `Compact car, R-134a`.
pub fn rig(name: &str) -> String {
    let (words, refrigerant): (Vec<_>, Vec<_>) = name.split('_').partition(|w| !is_refrigerant(w));
    let mut text = words.join(" ");
    if let Some(first) = text.get(..1) {
        text = first.to_uppercase() + text.get(1..).unwrap_or_default();
    }
    for r in refrigerant {
        text = format!("{text}, R-{}", r.get(1..).unwrap_or_default());
    }
    text
}

fn is_refrigerant(word: &str) -> bool {
    word.starts_with('r') && word.chars().nth(1).is_some_and(|c| c.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_for_numbers() {
        assert_eq!(clock(760.9), "12:40");
        assert_eq!(clock(-1.0), "0:00");
        assert_eq!(rig("compact_car_r134a"), "Compact car, R-134a");
        assert_eq!(rig(""), "");
        assert_eq!((signed("-0.0 °F"), signed("-0.4 °C")), ("0.0 °F".to_owned(), "−0.4 °C".to_owned()));
        assert_eq!((confidence(0.3), confidence(0.6), confidence(0.9)), ("guess", "likely", "sure"));
        assert_eq!((glass(0.0), glass(0.3)), ("clear", "steady bubbles"));
        let reading = Reading { tick: 0, probe: Probe::LowGauge, value: 2.2e5, uncertainty: 1.8e4 };
        assert_eq!(value_with_uncertainty(Units::Bar, &reading), "2.2 ± 0.2 bar");
        assert_eq!(value_with_uncertainty(Units::Psi, &reading), "32 ± 3 psi");
    }
}
