//! What a part remembers from tick to tick, and how time passes for it.

use serde::Serialize;

use super::alter::Alter;
use super::inputs::CircuitInputs;
use super::spec::{Kind, Moves, Turns};
use super::switch::{Hysteresis, Lag};

/// Fuses: current that never melts them, and how fast heat builds up in the wire. With these two a blade fuse melts
/// within the times of ISO 8820-3 (from memory): 110 % never, 135 % 0.75 to 600 s, 200 % 0.15 to 5 s, 350 % 0.04 to
/// 0.5 s, 600 % 0.02 to 0.1 s.
const BLADE: (f64, f64) = (1.2, 2.0);
/// The same for mains fuses (gG): IEC 60269-1 (from memory) has those of 16 A and more hold 125 % for an hour and melt
/// within it at 160 %.
const SLOW: (f64, f64) = (1.3, 100.0);
/// A bimetal closes again when this share of its heat is left.
const BIMETAL_COLD: f64 = 0.3;
/// Steps in which a motor's resistance follows its speed.
const MOTOR_STEPS: f64 = 20.0;
/// A sensor's signal follows the pressure in steps of so much of its span, a thermistor the temperature in these [K].
const SENSOR_STEP: f64 = 0.0025;
const THERMISTOR_STEP_K: f64 = 0.1;
/// The capacitor of an inverter is looked at so often [s], while it differs by more than this [V].
const CAPACITOR_S: f64 = 0.5;
const CAPACITOR_V: f64 = 0.05;
/// An inverter runs above these volts of its own supply and of traction (common practice, no source).
const INVERTER_V: (f64, f64) = (9.0, 150.0);
/// It gives up after so long with a locked rotor [s].
const LOCKED_S: f64 = 2.0;
/// Nominal mains [V].
pub const MAINS_V: f64 = 230.0;
/// A hermetic rotor comes up in this time and stops in this time [s]; pressure that doubles the current it needs
/// to break away [Pa] (own estimates).
const ROTOR_UP_S: f64 = 0.4;
const ROTOR_DOWN_S: f64 = 0.3;
const ROTOR_AGAINST_PA: f64 = 4.0e5;

/// What a fuse remembers; jumper leads have one too.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct FuseState {
    heat: f64,
    /// Melted.
    pub blown: bool,
}

impl FuseState {
    /// Carry a current [A] for a while; says whether it melted just now.
    pub fn carry(&mut self, amps: f64, rated_a: f64, slow: bool, dt_s: f64) -> bool {
        let (holds, warms_s) = if slow { SLOW } else { BLADE };
        let load = amps / (holds * rated_a);
        if self.blown
            || !(load * load).is_finite()
            || rated_a <= 0.0
            || (self.heat == 0.0 && load * load < 0.7)
        {
            return false;
        }
        // The exact answer for a current that stays: the moment of melting does not hang on the length of a tick.
        let decay = libm::exp(-dt_s / warms_s);
        self.heat = load * load + (self.heat - load * load) * decay;
        if load * load < 0.7 && self.heat - load * load < 1e-3 {
            self.heat = 0.0;
        }
        self.blown = self.heat >= 1.0;
        self.blown
    }
}

/// An inverter with its compressor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct InverterState {
    pub rpm: f64,
    pub capacitor_v: f64,
    since_s: f64,
    pub watts: f64,
    locked_s: f64,
    pub locked: bool,
    pub given_up: bool,
}

/// What a part remembers.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub enum Memory {
    Nothing,
    /// Pulled in (coil, clutch).
    Pulled(bool),
    /// A clutch and its winding in whole kelvin.
    Clutch {
        pulled: bool,
        coil_k: i32,
    },
    Fuse(FuseState),
    /// Sensing switch: first limit, whether that one closes on fall, and a second limit.
    Sensing {
        first: Hysteresis,
        on_fall: bool,
        over: Option<Hysteresis>,
    },
    /// Signal of a sensor.
    Level(f64),
    Motor {
        speed: Lag,
        target: f64,
        caught: f64,
    },
    /// Share that a power module passes on.
    Share(f64),
    Solenoid {
        place: Lag,
        target: f64,
    },
    Stepper {
        place: f64,
        fed: bool,
    },
    Inverter(InverterState),
    Rotor {
        speed: f64,
        seen: f64,
        load: f64,
    },
    Overload {
        heat: f64,
        open: bool,
    },
    Clock {
        s: f64,
        open: bool,
    },
}

/// What a part meets in a tick.
pub struct Met<'a> {
    pub inputs: &'a CircuitInputs,
    pub alter: &'a Alter,
    /// Its current [A].
    pub amps: f64,
    /// Volts between its ends [V].
    pub volts: f64,
    /// Volts of its third point [V].
    pub third_v: f64,
    /// Share that a control unit tells it.
    pub told: f64,
    /// For a run winding the current of the start winding [A] and the current that breaks the rotor away [A].
    pub start_a: (f64, f64),
    pub dt_s: f64,
}

/// Speed of a fan (0 to 1) for the volts its current makes in a whole winding: proportional, with a soft
/// knee at full speed. A linear law is the plain textbook one for a fan near its working point; no source.
pub fn fan_speed(volts: f64, full_v: f64) -> f64 {
    let u = volts / full_v;
    let soft = |u: f64| 0.5 * (u + 1.0 - ((u - 1.0) * (u - 1.0) + 0.0025).sqrt());
    if u < 1e-3 { 0.0 } else { (soft(u) - soft(0.0)).clamp(0.0, 1.0) }
}

fn sensing(closes: f64, opens: f64, over: Option<(f64, f64)>, starts_open: bool) -> Memory {
    let on_fall = closes < opens;
    let first = Hysteresis::new(closes.max(opens), closes.min(opens), starts_open == on_fall);
    Memory::Sensing {
        first,
        on_fall,
        over: over.map(|(opens, closes)| Hysteresis::new(opens, closes, false)),
    }
}

impl Memory {
    /// A part out of its box.
    pub fn new(kind: &Kind) -> Self {
        match kind {
            Kind::Coil { .. } => Self::Pulled(false),
            Kind::ClutchCoil { .. } => Self::Clutch { pulled: false, coil_k: 293 },
            Kind::Fuse { .. } => Self::Fuse(FuseState::default()),
            Kind::PressureSwitch { closes_gauge_pa, opens_gauge_pa, over, starts_open, .. } => {
                sensing(*closes_gauge_pa, *opens_gauge_pa, *over, *starts_open)
            }
            Kind::Thermostat { closes_k, opens_k, .. } => sensing(*closes_k, *opens_k, None, false),
            Kind::PressureSensor { .. } => Self::Level(0.1),
            Kind::Thermistor { .. } => Self::Level(293.15),
            Kind::Motor { lag_s, .. } => {
                Self::Motor { speed: Lag::new(lag_s.max(1e-3), 0.0), target: 0.0, caught: 0.0 }
            }
            Kind::Regulator { .. } => Self::Share(0.0),
            Kind::Solenoid { lag_s, .. } => {
                Self::Solenoid { place: Lag::new(lag_s.max(1e-3), 0.0), target: 0.0 }
            }
            Kind::Stepper { .. } => Self::Stepper { place: 0.0, fed: false },
            Kind::Inverter { .. } => Self::Inverter(InverterState::default()),
            Kind::RunWinding { .. } => Self::Rotor { speed: 0.0, seen: 0.0, load: 0.0 },
            Kind::Overload { .. } => Self::Overload { heat: 0.0, open: false },
            Kind::Timer { .. } => Self::Clock { s: 0.0, open: false },
            _ => Self::Nothing,
        }
    }

    /// Let a tick pass; says whether the network must be solved again.
    pub fn live(&mut self, kind: &Kind, met: &Met<'_>) -> bool {
        let (inputs, alter, dt_s) = (met.inputs, met.alter, met.dt_s);
        match (self, kind) {
            (Self::Sensing { first, over, .. }, Kind::PressureSwitch { at, .. }) => {
                let value = inputs.senses.at(*at) + alter.offset;
                let before = (first.on(), over.map(|o| o.on()));
                first.update(value);
                if let Some(over) = over {
                    over.update(value);
                }
                before != (first.on(), over.map(|o| o.on()))
            }
            (Self::Sensing { first, .. }, Kind::Thermostat { at, follows_setting, .. }) => {
                let wanted = if *follows_setting { inputs.setting_k } else { 0.0 };
                let before = first.on();
                first.update(inputs.senses.at(*at) + alter.offset - wanted) != before
            }
            (Self::Level(level), Kind::PressureSensor { at, range_gauge_pa: (low, high), .. }) => {
                let share = 0.1 + 0.8 * (inputs.senses.at(*at) + alter.offset - low) / (high - low);
                follow(level, share.clamp(0.06, 0.94), SENSOR_STEP)
            }
            (Self::Level(level), Kind::Thermistor { at, .. }) => {
                let t_k = (inputs.senses.at(*at) + alter.offset).clamp(200.0, 450.0);
                follow(level, t_k, THERMISTOR_STEP_K)
            }
            (Self::Clutch { coil_k, .. }, _) => {
                let t_k = if inputs.coil_t_k.is_nan() { 293.0 } else { inputs.coil_t_k.clamp(200.0, 500.0) };
                let before = *coil_k;
                *coil_k = t_k.round() as i32;
                *coil_k != before
            }
            (Self::Fuse(fuse), Kind::Fuse { amps, slow, .. }) => fuse.carry(met.amps, *amps, *slow, dt_s),
            (Self::Motor { speed, target, caught }, Kind::Motor { lag_s, .. }) => {
                if *lag_s > 0.0 {
                    speed.advance(dt_s, *target);
                } else {
                    *speed = Lag::new(1e-3, *target);
                }
                let share = if *target > 1e-3 { speed.value() / *target } else { speed.value() };
                let before = *caught;
                *caught = libm::round(share.min(1.0) * MOTOR_STEPS) / MOTOR_STEPS;
                *caught != before
            }
            (Self::Solenoid { place, target }, _) => {
                place.advance(dt_s, *target);
                false
            }
            (Self::Stepper { place, fed }, Kind::Stepper { stroke_s, .. }) => {
                if *fed && !alter.open && alter.stuck.is_none() {
                    let most = dt_s / stroke_s.max(0.1);
                    *place += (met.told - *place).clamp(-most, most);
                }
                false
            }
            (Self::Inverter(state), Kind::Inverter { .. }) => state.live(kind, met),
            (Self::Rotor { speed, seen, load }, Kind::RunWinding { full_load_w, rpm, .. }) => {
                rotor(speed, seen, load, *full_load_w, *rpm, met)
            }
            (Self::Overload { heat, open }, Kind::Overload { holds_a, trip_s, reset_s, .. }) => {
                let load = met.amps / holds_a;
                let tau_s =
                    if *open { -reset_s / libm::log(BIMETAL_COLD) } else { trip_s / libm::log(9.0 / 8.0) };
                *heat = load * load + (*heat - load * load) * libm::exp(-dt_s / tau_s.max(0.1));
                let before = *open;
                *open = if before { *heat > BIMETAL_COLD } else { *heat >= 1.0 };
                *open != before
            }
            (Self::Clock { s, open }, Kind::Timer { every_s, open_s, .. }) => {
                let before = *open;
                *s = (*s + dt_s) % every_s.max(1.0);
                *open = *s >= every_s - open_s;
                *open != before
            }
            _ => false,
        }
    }

    /// Speed, place or share, 0 to 1.
    pub fn share(&self) -> f64 {
        match self {
            Self::Motor { speed, .. } => speed.value(),
            Self::Solenoid { place, .. } => place.value(),
            Self::Stepper { place, .. } => *place,
            Self::Share(share) => *share,
            Self::Rotor { speed, .. } => *speed,
            Self::Pulled(on) | Self::Clutch { pulled: on, .. } => f64::from(u8::from(*on)),
            _ => 0.0,
        }
    }
}

/// Let a level follow a value in steps; says whether it moved.
fn follow(level: &mut f64, value: f64, step: f64) -> bool {
    if value.is_nan() || (*level - value).abs() < step {
        return false;
    }
    *level = value;
    true
}

/// A hermetic rotor: breaks away with the start winding's current, runs on the run winding alone.
fn rotor(speed: &mut f64, seen: &mut f64, load: &mut f64, full_load_w: f64, rpm: f64, met: &Met<'_>) -> bool {
    let volts = met.volts.abs();
    let standing = 1.0 + met.inputs.standing_pa.max(0.0) / ROTOR_AGAINST_PA;
    let turns = if *speed < 0.7 {
        let breaks = met.start_a.0.abs() >= met.start_a.1 * if *speed < 0.05 { standing } else { 0.5 };
        breaks && volts > 0.75 * MAINS_V
    } else {
        volts > 0.6 * MAINS_V
    };
    let step = if turns && !met.inputs.seized { met.dt_s / ROTOR_UP_S } else { -met.dt_s / ROTOR_DOWN_S };
    *speed = (*speed + step).clamp(0.0, 1.0);
    let watts = met.inputs.load_nm * rpm * core::f64::consts::PI / 30.0;
    let share = (watts / full_load_w).clamp(0.0, 2.0);
    let before = (*seen, *load);
    *seen = libm::round(*speed * 10.0) / 10.0;
    *load = libm::round(share * 20.0) / 20.0;
    before != (*seen, *load)
}

impl InverterState {
    fn live(&mut self, kind: &Kind, met: &Met<'_>) -> bool {
        let Kind::Inverter { full_rpm, lowest_rpm, ramp_rpm_s, efficiency, .. } = kind else { return false };
        let before = (self.watts, self.locked);
        let volts = met.volts.abs();
        if met.third_v < INVERTER_V.0 {
            (self.given_up, self.locked_s) = (false, 0.0);
        }
        let ready = met.third_v >= INVERTER_V.0 && volts >= INVERTER_V.1 && !met.alter.open;
        let asked = met.told * full_rpm;
        let wanted = if ready && !self.given_up && asked >= *lowest_rpm { asked } else { 0.0 };
        self.locked = wanted > 0.0 && met.inputs.seized;
        if self.locked {
            self.rpm = 0.0;
            self.locked_s += met.dt_s;
            self.given_up |= self.locked_s >= LOCKED_S;
        } else if ready {
            let most = ramp_rpm_s * met.dt_s;
            self.rpm += (wanted - self.rpm).clamp(-4.0 * most, most);
        } else {
            self.rpm = 0.0;
        }
        let shaft_w = met.inputs.load_nm.max(0.0) * self.rpm * core::f64::consts::PI / 30.0;
        self.watts = libm::round(shaft_w / efficiency.max(0.1) / 20.0) * 20.0;
        self.since_s += met.dt_s;
        // Ten ticks make half a second but for rounding: without the slack it would sometimes take eleven.
        let due = self.since_s >= CAPACITOR_S - 1e-9;
        let charging = due && (volts - self.capacitor_v).abs() > CAPACITOR_V;
        if charging {
            // The motor takes it down no lower than the volts at which it stops.
            let floor = if before.0 > 0.0 { self.capacitor_v.min(INVERTER_V.1) } else { 0.0 };
            self.capacitor_v = volts.max(floor);
        }
        if due {
            self.since_s = 0.0;
        }
        charging || before != (self.watts, self.locked)
    }
    /// The three things across its terminals as one: conductance [S] and source [V].
    /// Without its own 12 V supply the motor draws nothing from this very moment.
    pub fn across(&self, farad: f64, bleed_ohm: f64, locked_a: f64, volts: f64, own_v: f64) -> (f64, f64) {
        let capacitor = farad / CAPACITOR_S;
        let at = volts.abs().max(50.0);
        let load = match (own_v < INVERTER_V.0, self.locked) {
            (true, _) => 0.0,
            (_, true) => locked_a / at,
            _ => self.watts / (at * at),
        };
        let all = capacitor + 1.0 / bleed_ohm.max(1.0) + load;
        (all, self.capacitor_v * capacitor / all)
    }
}

/// Does this part turn or move something of that name?
pub fn turns(kind: &Kind, what: Turns) -> bool {
    matches!(kind, Kind::Motor { which, .. } if *which == what)
}

/// Does this part move something of that name?
pub fn moves(kind: &Kind, what: Moves) -> bool {
    matches!(kind, Kind::Solenoid { which, .. } | Kind::Stepper { which, .. } if *which == what)
}
