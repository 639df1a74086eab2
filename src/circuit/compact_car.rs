//! The circuit of the compact car, advanced once per tick.
//!
//! Relays and the clutch pull in and drop out by coil *current*: that is what makes the pull, it equals the
//! stated volts for a whole cold coil, a broken coil never pulls however many volts stand across it, and a
//! hot clutch coil needs more volts. The fan turns by motor current for the same reason.

use serde::{Deserialize, Serialize};

use super::parts::Parts;
use super::switch::{Hysteresis, Lag, Sensing};
use super::wiring::{Contacts, Drive, NODES, POINTS, TestPoint, wire};
use crate::bench::Relay;

/// Rounds allowed to let relays and the jumper fuse settle within one tick.
const MOST_ROUNDS: usize = 12;

/// What the circuit is told each tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CircuitInputs {
    /// Engine running: the ignition feed is live and the alternator charges.
    pub engine_on: bool,
    /// A/C button pressed.
    pub ac_request: bool,
    /// Blower setting [% of full]; the A/C switch is fed through the blower switch.
    pub blower_pct: f64,
    /// Pressure in the liquid line [Pa gauge].
    pub liquid_line_gauge_pa: f64,
    /// Evaporator fins where the thermistor sits [K].
    pub evaporator_fin_t_k: f64,
    /// Clutch coil winding [K]; taken in whole kelvin between 200 and 500.
    pub coil_t_k: f64,
    /// Jumper lead across contact 30 to 87 of a relay.
    pub jumper: Option<Relay>,
    /// Fault: fan motor winding broken.
    pub fan_motor_open: bool,
    /// Fault: fan relay coil broken.
    pub fan_relay_open: bool,
    /// Fault: clutch coil broken.
    pub clutch_coil_open: bool,
}

/// The electrical side of the compact car.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Circuit {
    pub(super) parts: Parts,
    sensing: Sensing,
    drive: Drive,
    settled: bool,
    fan_relay: Hysteresis,
    high_relay: Hysteresis,
    clutch_relay: Hysteresis,
    clutch: Hysteresis,
    jumper_fuse_blown: bool,
    volts: [f64; NODES],
    clutch_a: f64,
    fan_a: f64,
    fan_target: f64,
    fan: Lag,
    changed: bool,
}

/// Speed of the fan (0 to 1) for the volts its current makes in a whole winding: proportional, with a soft
/// knee at full speed. A linear law is the plain textbook one for a fan near its working point; no source.
fn fan_speed(volts: f64, full_v: f64) -> f64 {
    let u = volts / full_v;
    let soft = |u: f64| 0.5 * (u + 1.0 - ((u - 1.0) * (u - 1.0) + 0.0025).sqrt());
    if u < 1e-3 { 0.0 } else { (soft(u) - soft(0.0)).clamp(0.0, 1.0) }
}

impl Circuit {
    /// The compact car with everything at rest.
    pub fn compact_car() -> Self {
        Self::with_parts(Parts::COMPACT_CAR)
    }
    /// The same wiring with other parts.
    pub fn with_parts(parts: Parts) -> Self {
        let relay =
            |ohm: f64| Hysteresis::new(parts.relay_pull_in_v / ohm, parts.relay_drop_out_v / ohm, false);
        let clutch = Hysteresis::new(
            parts.clutch_pull_in_v / parts.clutch_ohm,
            parts.clutch_drop_out_v / parts.clutch_ohm,
            false,
        );
        let mut circuit = Self {
            parts,
            sensing: Sensing::COMPACT_CAR,
            drive: Drive { coil_k: 293, ..Drive::default() },
            settled: false,
            fan_relay: relay(parts.relay_coil_ohm),
            high_relay: relay(parts.relay_coil_ohm),
            clutch_relay: relay(parts.relay_coil_ohm),
            clutch,
            jumper_fuse_blown: false,
            volts: [0.0; NODES],
            clutch_a: 0.0,
            fan_a: 0.0,
            fan_target: 0.0,
            fan: Lag::new(parts.fan_lag_s, 0.0),
            changed: false,
        };
        circuit.settle();
        circuit
    }

    /// One tick: read the switches, solve again if anything changed, let the fan follow for `dt_s` seconds.
    pub fn update(&mut self, i: &CircuitInputs, dt_s: f64) {
        self.sensing.update(i.liquid_line_gauge_pa, i.evaporator_fin_t_k);
        if i.jumper.is_none() {
            self.jumper_fuse_blown = false;
        }
        let coil_t_k = if i.coil_t_k.is_nan() { 293.0 } else { i.coil_t_k.clamp(200.0, 500.0) };
        let drive = Drive {
            engine_on: i.engine_on,
            blower_on: i.blower_pct > 0.0,
            ac_request: i.ac_request,
            pressure_closed: self.sensing.pressure_closed(),
            medium_closed: self.sensing.medium_closed(),
            thermostat_closed: self.sensing.thermostat_closed(),
            jumper: if self.jumper_fuse_blown { None } else { i.jumper },
            fan_motor_open: i.fan_motor_open,
            fan_relay_open: i.fan_relay_open,
            clutch_coil_open: i.clutch_coil_open,
            coil_k: coil_t_k.round() as i32,
        };
        self.changed = false;
        if drive != self.drive || !self.settled {
            let before = (self.clutch.on(), self.fan_target);
            self.drive = drive;
            self.settle();
            self.changed = before != (self.clutch.on(), self.fan_target);
        }
        self.fan.advance(dt_s, self.fan_target);
    }

    fn contacts(&self) -> Contacts {
        Contacts { fan: self.fan_relay.on(), high: self.high_relay.on(), clutch: self.clutch_relay.on() }
    }

    /// Solve, move the relays, solve again until nothing moves.
    fn settle(&mut self) {
        self.settled = false;
        for _ in 0..MOST_ROUNDS {
            let contacts = self.contacts();
            let wired = wire(&self.parts, &self.drive, contacts);
            let volts = wired.net.solve();
            let amps = |id| wired.net.current(id, &volts);
            self.fan_relay.update(amps(wired.fan_relay_coil));
            self.high_relay.update(amps(wired.high_relay_coil));
            self.clutch_relay.update(amps(wired.clutch_relay_coil));
            self.clutch_a = amps(wired.clutch_coil);
            self.fan_a = amps(wired.motor);
            self.volts.copy_from_slice(&volts);
            if wired.jumper.is_some_and(|id| amps(id).abs() > self.parts.jumper_fuse_a) {
                self.jumper_fuse_blown = true;
                self.drive.jumper = None;
            } else if contacts == self.contacts() {
                self.settled = true;
                break;
            }
        }
        self.clutch.update(self.clutch_a);
        self.fan_target = fan_speed(self.fan_a * self.parts.motor_ohm, self.parts.motor_full_v);
    }

    /// The clutch plate is pulled in.
    pub fn clutch_engaged(&self) -> bool {
        self.clutch.on()
    }
    /// Fan speed now, 0 to 1; follows the target with a lag.
    pub fn fan_speed_fraction(&self) -> f64 {
        self.fan.value()
    }
    /// Fan speed the present current leads to, 0 to 1.
    pub fn fan_speed_target(&self) -> f64 {
        self.fan_target
    }
    /// Current through the clutch coil [A].
    pub fn clutch_current_a(&self) -> f64 {
        self.clutch_a
    }
    /// Current through the fan motor [A].
    pub fn fan_current_a(&self) -> f64 {
        self.fan_a
    }
    /// The fuse of the jumper lead has blown; taking the lead away renews it.
    pub fn jumper_fuse_blown(&self) -> bool {
        self.jumper_fuse_blown
    }
    /// All test points in the order of the wiring.
    pub fn points(&self) -> &'static [TestPoint] {
        POINTS
    }
    /// Volts of a point against battery minus; `None` for a name that is no point.
    pub fn volts(&self, id: &str) -> Option<f64> {
        POINTS.iter().position(|p| p.id == id).map(|n| self.volts[n])
    }
    /// All points with their volts, in the order of [`Self::points`].
    pub fn all_volts(&self) -> impl Iterator<Item = (&'static str, f64)> + '_ {
        POINTS.iter().zip(self.volts).map(|(p, v)| (p.id, v))
    }
    /// Contact 30 to 87 of a relay is closed by its own coil.
    pub fn relay_closed(&self, relay: Relay) -> bool {
        match relay {
            Relay::Clutch => self.clutch_relay.on(),
            Relay::Fan => self.fan_relay.on(),
        }
    }
    /// Contact of the high-speed relay is closed.
    pub fn high_relay_closed(&self) -> bool {
        self.high_relay.on()
    }
    /// Dual pressure switch is closed.
    pub fn pressure_switch_closed(&self) -> bool {
        self.sensing.pressure_closed()
    }
    /// Medium-pressure switch is closed.
    pub fn medium_switch_closed(&self) -> bool {
        self.sensing.medium_closed()
    }
    /// Thermistor amplifier contact is closed.
    pub fn thermostat_closed(&self) -> bool {
        self.sensing.thermostat_closed()
    }
    /// The clutch, or the speed the fan is heading for, changed in the last update.
    pub fn changed(&self) -> bool {
        self.changed
    }
}
