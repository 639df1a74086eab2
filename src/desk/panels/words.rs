//! Numbers and places as people say them, in the units they chose.

use crate::bench::Relay;
use crate::desk::DeskView;
use crate::fault::{FaultId, Group};
use crate::instrument::{Probe, Reading, Say};
use crate::units::Units;
pub use crate::units::clock;

/// A value a tool shows, with its unit.
pub fn value(units: Units, probe: &Probe, si: f64) -> String {
    signed(&probe.text(si, &Say::read(units, None)))
}

/// A reading with its uncertainty and unit.
pub fn value_with_uncertainty(units: Units, reading: &Reading) -> String {
    let text = reading.probe.text(reading.value, &Say::read(units, Some(reading.uncertainty)));
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
        Group::Restriction => "lines, drier, coils restricted",
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
        let glass = |share| value(Units::Bar, &Probe::SightGlass, share);
        assert_eq!((glass(0.0), glass(0.3)), ("clear".to_owned(), "steady bubbles".to_owned()));
        let reading = Reading { tick: 0, probe: Probe::LowGauge, value: 2.2e5, uncertainty: 1.8e4 };
        assert_eq!(value_with_uncertainty(Units::Bar, &reading), "2.2 ± 0.2 bar");
        assert_eq!(value_with_uncertainty(Units::Psi, &reading), "32 ± 3 psi");
    }
}
