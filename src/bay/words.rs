//! What was done in the bay, in words.

use super::{BayAction, CentreEnd, Hose, OilKind, StationStep, VesselValve};
use crate::plant::{OpenPlace, Port};

impl Hose {
    /// As people read it, such as "low-side hose".
    pub fn name(self) -> &'static str {
        match self {
            Self::Low => "low-side hose",
            Self::High => "high-side hose",
        }
    }
    /// The port it belongs on.
    pub fn own_port(self) -> Port {
        match self {
            Self::Low => Port::Low,
            Self::High => Port::High,
        }
    }
    /// Its end, where it may be open to the air.
    pub fn own_end(self) -> OpenPlace {
        match self {
            Self::Low => OpenPlace::LowHose,
            Self::High => OpenPlace::HighHose,
        }
    }
}

impl VesselValve {
    /// As people read it, such as "shut".
    pub fn name(self) -> &'static str {
        match self {
            Self::Shut => "shut",
            Self::Gas => "gas",
            Self::Liquid => "liquid",
        }
    }
}

impl StationStep {
    /// In words.
    pub fn words(self) -> String {
        match self {
            Self::Recover => "recover".into(),
            Self::EvacuateMin(min) => format!("evacuate {min:.0} min"),
            Self::HoldMin(min) => format!("hold {min:.0} min"),
            Self::OilMl(ml) => format!("oil {ml:.0} mL"),
            Self::ChargeG(g) => format!("charge {g:.0} g"),
        }
    }
}

fn port_name(port: Port) -> &'static str {
    match port {
        Port::Low => "low-side port",
        Port::High => "high-side port",
    }
}

impl BayAction {
    /// In words; none for what is not worth a line.
    pub fn words(&self) -> Option<String> {
        let on = |v: bool| if v { "on" } else { "off" };
        Some(match self {
            Self::Protect(v) => format!("goggles and gloves {}", on(*v)),
            Self::Ventilate(true) => "extraction on, doors open".into(),
            Self::Ventilate(false) => "extraction off, doors shut".into(),
            Self::Identify => "took a sample to the identifier".into(),
            Self::Fit { hose, port: Some(port) } => format!("{} on the {}", hose.name(), port_name(*port)),
            Self::Fit { hose, port: None } => format!("{} taken off", hose.name()),
            Self::Knob { hose, open } => {
                format!("coupler knob of the {} {}", hose.name(), if *open { "opened" } else { "shut" })
            }
            Self::Centre(CentreEnd::Nothing) => "centre hose left open".into(),
            Self::Centre(end) => format!("centre hose on the {}", end.name()),
            Self::Loosen(true) => "cracked the centre hose's end".into(),
            Self::Loosen(false) => "tightened the centre hose's end".into(),
            Self::Pump(v) => format!("vacuum pump {}", on(*v)),
            Self::Machine(v) => format!("recovery machine {}", on(*v)),
            Self::Valve { vessel, valve } => format!("{}: {}", vessel.name(), valve.name()),
            Self::Warm(true) => "vessel in a warm bath".into(),
            Self::Warm(false) => "warm bath taken away".into(),
            Self::Flame => "a flame to the vessel".into(),
            Self::RegulatorBar(bar) if *bar > 0.0 => format!("nitrogen regulator {bar:.1} bar"),
            Self::RegulatorBar(_) => "nitrogen shut".into(),
            Self::Oil { ml, kind: OilKind::AsLabelled } => format!("{ml:.0} mL of oil in"),
            Self::Oil { ml, kind: OilKind::Other } => format!("{ml:.0} mL of oil of another kind in"),
            Self::DyeMl(ml) => format!("{ml:.1} mL of dye in"),
            Self::Spray(v) => format!("water on the condenser {}", on(*v)),
            Self::CoverPct(pct) => format!("condenser covered {pct:.0} %"),
            Self::NewPartOilMl(ml) => format!("new part drained, {ml:.0} mL of oil in it"),
            Self::CloseUp => "closed up with new seals".into(),
            Self::FreshCan => "a fresh can on the tap".into(),
            Self::Station(steps) => {
                let steps: Vec<String> = steps.iter().map(|s| s.words()).collect();
                format!("station: {}", steps.join(", "))
            }
            Self::StationStop => "station stopped".into(),
            Self::Write { .. } => return None,
            Self::HandOver => "handed the work record in".into(),
            Self::Work { what, .. } => format!("worked out {}", what.name()),
        })
    }
}

impl super::WorkedValue {
    /// As people read it, such as "superheat".
    pub fn name(self) -> &'static str {
        match self {
            Self::Superheat => "superheat",
            Self::Subcooling => "subcooling",
            Self::Approach => "approach",
            Self::Split => "split",
            Self::Saturation => "saturation temperature",
            Self::Absolute => "absolute pressure",
        }
    }
}
