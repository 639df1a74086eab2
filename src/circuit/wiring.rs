//! The wiring of the compact car: which point is joined to which, and through what.
//!
//! ```text
//! battery + ─┬─ fan fuse ── 30 fan relay 87 ─┬─ low-speed resistor ──────┬─ fan motor ── ground
//!            │                               └─ 30 high-speed relay 87 ──┘
//!            ├─ clutch fuse ── 30 clutch relay 87 ── clutch coil ── ground
//!            └─ ignition ── blower switch ── A/C switch ─┬─ pressure switch ── thermostat ── 86 clutch relay 85 ─ gnd
//!                                                        ├─ 86 fan relay 85 ── ground
//!                                                        └─ medium switch ── 86 high-speed relay 85 ── ground
//! ```

use serde::{Deserialize, Serialize};

use super::network::{BranchId, End, Network};
use super::parts::Parts;
use crate::bench::Relay;

/// A point of the circuit a meter lead can touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TestPoint {
    /// Name in files and on the command line.
    pub id: &'static str,
    /// Name for people.
    pub label: &'static str,
}

macro_rules! nodes {
    ($($node:ident $id:literal $label:literal,)*) => {
        /// The nodes of the network, each a test point.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(super) enum Node { $($node,)* }
        /// All test points in the order of [`Node`].
        pub(super) const POINTS: &[TestPoint] = &[$(TestPoint { id: $id, label: $label },)*];
    };
}

nodes! {
    BatteryPlus "battery_plus" "Battery plus",
    FanFuseOut "fan_fuse_out" "Fan fuse, load side",
    ClutchFuseOut "clutch_fuse_out" "Clutch fuse, load side",
    Ignition15 "ignition_15" "Ignition feed, terminal 15",
    BlowerSwitchOut "blower_switch_out" "Blower switch, out",
    AcSwitchOut "ac_switch_out" "A/C switch, out",
    PressureSwitchOut "pressure_switch_out" "Dual pressure switch, out",
    ThermostatOut "thermostat_out" "Thermostat contact, out",
    MediumSwitchOut "medium_switch_out" "Medium-pressure switch, out",
    ClutchRelay30 "clutch_relay_30" "Clutch relay 30, supply",
    ClutchRelay87 "clutch_relay_87" "Clutch relay 87, load",
    ClutchRelay86 "clutch_relay_86" "Clutch relay 86, coil in",
    ClutchRelay85 "clutch_relay_85" "Clutch relay 85, coil ground",
    ClutchCoilPlus "clutch_coil_plus" "Clutch coil plus",
    ClutchCoilMinus "clutch_coil_minus" "Clutch coil minus",
    FanRelay30 "fan_relay_30" "Fan relay 30, supply",
    FanRelay87 "fan_relay_87" "Fan relay 87, load",
    FanRelay86 "fan_relay_86" "Fan relay 86, coil in",
    FanRelay85 "fan_relay_85" "Fan relay 85, coil ground",
    HighRelay30 "high_relay_30" "High-speed relay 30, supply",
    HighRelay87 "high_relay_87" "High-speed relay 87, load",
    HighRelay86 "high_relay_86" "High-speed relay 86, coil in",
    HighRelay85 "high_relay_85" "High-speed relay 85, coil ground",
    FanMotorPlus "fan_motor_plus" "Fan motor plus",
    FanMotorMinus "fan_motor_minus" "Fan motor minus",
}

/// Number of nodes.
pub(super) const NODES: usize = POINTS.len();

/// Which contacts are closed and which parts are broken: all that decides the volts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Drive {
    pub engine_on: bool,
    pub blower_on: bool,
    pub ac_request: bool,
    pub pressure_closed: bool,
    pub medium_closed: bool,
    pub thermostat_closed: bool,
    pub jumper: Option<Relay>,
    pub fan_motor_open: bool,
    pub fan_relay_open: bool,
    pub clutch_coil_open: bool,
    /// Clutch coil temperature in whole kelvin.
    pub coil_k: i32,
}

/// State of the three relay contacts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Contacts {
    pub fan: bool,
    pub high: bool,
    pub clutch: bool,
}

/// The wired network with the branches whose current matters.
pub(super) struct Wired {
    pub net: Network,
    pub fan_relay_coil: BranchId,
    pub high_relay_coil: BranchId,
    pub clutch_relay_coil: BranchId,
    pub clutch_coil: BranchId,
    pub motor: BranchId,
    pub jumper: Option<BranchId>,
}

/// Resistance of the clutch coil [ohm] at a temperature [K].
pub(super) fn clutch_ohm(parts: &Parts, coil_k: i32) -> f64 {
    let rise = parts.copper_per_k * (f64::from(coil_k) - 293.0);
    parts.clutch_ohm * (1.0 + rise).max(0.2)
}

/// Wire the car up.
pub(super) fn wire(parts: &Parts, drive: &Drive, contacts: Contacts) -> Wired {
    use Node as N;
    const GROUND: End = None;
    let p = parts;
    let mut net = Network::new(NODES);
    let at = |node: Node| Some(node as usize);
    let closed = |yes: bool| if yes { p.contact_ohm } else { f64::INFINITY };
    let whole = |broken: bool, ohm: f64| if broken { p.broken_ohm } else { ohm };
    let wire = p.wire_ohm;

    let volts = if drive.engine_on { p.alternator_v } else { p.battery_v };
    net.feed(N::BatteryPlus as usize, volts, p.supply_ohm);
    net.join(at(N::BatteryPlus), at(N::FanFuseOut), p.fuse_ohm);
    net.join(at(N::BatteryPlus), at(N::ClutchFuseOut), p.fuse_ohm);

    // Control path.
    net.join(at(N::BatteryPlus), at(N::Ignition15), closed(drive.engine_on) + p.fuse_ohm);
    net.join(at(N::Ignition15), at(N::BlowerSwitchOut), closed(drive.blower_on) + wire);
    net.join(at(N::BlowerSwitchOut), at(N::AcSwitchOut), closed(drive.ac_request) + wire);
    net.join(at(N::AcSwitchOut), at(N::PressureSwitchOut), closed(drive.pressure_closed) + wire);
    net.join(at(N::PressureSwitchOut), at(N::ThermostatOut), closed(drive.thermostat_closed) + wire);
    net.join(at(N::ThermostatOut), at(N::ClutchRelay86), wire);
    let clutch_relay_coil = net.join(at(N::ClutchRelay86), at(N::ClutchRelay85), p.relay_coil_ohm);
    net.join(at(N::ClutchRelay85), GROUND, wire);
    net.join(at(N::AcSwitchOut), at(N::FanRelay86), wire);
    let fan_coil_ohm = whole(drive.fan_relay_open, p.relay_coil_ohm);
    let fan_relay_coil = net.join(at(N::FanRelay86), at(N::FanRelay85), fan_coil_ohm);
    net.join(at(N::FanRelay85), GROUND, wire);
    net.join(at(N::AcSwitchOut), at(N::MediumSwitchOut), closed(drive.medium_closed) + wire);
    net.join(at(N::MediumSwitchOut), at(N::HighRelay86), wire);
    let high_relay_coil = net.join(at(N::HighRelay86), at(N::HighRelay85), p.relay_coil_ohm);
    net.join(at(N::HighRelay85), GROUND, wire);

    // Fan path.
    net.join(at(N::FanFuseOut), at(N::FanRelay30), wire);
    net.join(at(N::FanRelay30), at(N::FanRelay87), closed(contacts.fan));
    net.join(at(N::FanRelay87), at(N::FanMotorPlus), p.low_speed_ohm + wire);
    net.join(at(N::FanRelay87), at(N::HighRelay30), wire);
    net.join(at(N::HighRelay30), at(N::HighRelay87), closed(contacts.high));
    net.join(at(N::HighRelay87), at(N::FanMotorPlus), wire);
    let motor_ohm = whole(drive.fan_motor_open, p.motor_ohm);
    let motor = net.join(at(N::FanMotorPlus), at(N::FanMotorMinus), motor_ohm);
    net.join(at(N::FanMotorMinus), GROUND, wire);

    // Clutch path.
    net.join(at(N::ClutchFuseOut), at(N::ClutchRelay30), wire);
    net.join(at(N::ClutchRelay30), at(N::ClutchRelay87), closed(contacts.clutch));
    net.join(at(N::ClutchRelay87), at(N::ClutchCoilPlus), wire);
    let coil_ohm = whole(drive.clutch_coil_open, clutch_ohm(p, drive.coil_k));
    let clutch_coil = net.join(at(N::ClutchCoilPlus), at(N::ClutchCoilMinus), coil_ohm);
    net.join(at(N::ClutchCoilMinus), GROUND, wire);

    let jumper = drive.jumper.map(|relay| {
        let (from, to) = match relay {
            Relay::Clutch => (N::ClutchRelay30, N::ClutchRelay87),
            Relay::Fan => (N::FanRelay30, N::FanRelay87),
        };
        net.join(at(from), at(to), p.jumper_ohm)
    });
    Wired { net, fan_relay_coil, high_relay_coil, clutch_relay_coil, clutch_coil, motor, jumper }
}
