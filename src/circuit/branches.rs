//! Each part as branches of the network, as it stands now.

use super::alter::Alter;
use super::inputs::CircuitInputs;
use super::memory::{MAINS_V, Memory};
use super::network::{Branch, End};
use super::spec::{CircuitSpec, Kind, SupplyKind};
use super::unit::UnitState;
use super::wiring::Wiring;

/// Output resistance of a sensor, and what it draws from its feed [ohm] (common practice, no source).
const SIGNAL_OHM: f64 = 100.0;
const SENSOR_OHM: f64 = 800.0;
/// Mains frequency as angular frequency [rad/s].
const OMEGA: f64 = 100.0 * core::f64::consts::PI;

/// Everything that decides the branches.
pub struct Standing<'a> {
    pub spec: &'a CircuitSpec,
    pub wiring: &'a Wiring,
    pub memory: &'a [Memory],
    pub alter: &'a [Alter],
    pub units: &'a [UnitState],
    pub inputs: &'a CircuitInputs,
    pub volts: &'a [f64],
}

impl Standing<'_> {
    fn at(&self, end: End) -> f64 {
        end.and_then(|n| self.volts.get(n)).copied().unwrap_or(0.0)
    }

    /// The branches of a part: two places, the second seldom used. `direct` is what a meter's direct current meets.
    pub fn part(&self, n: usize, direct: bool) -> [Branch; 2] {
        let (Some(part), Some(&(from, to)), Some(alter)) =
            (self.spec.parts.get(n), self.wiring.ends.get(n), self.alter.get(n))
        else {
            return [Branch::NONE; 2];
        };
        let third = self.wiring.third[n];
        let memory = &self.memory[n];
        let join = |ohm: f64| Branch::join(from, to, ohm);
        let contact = |wants: bool, ohm: f64| join(alter.contact_ohm(wants, ohm));
        let mut extra = Branch::NONE;
        let main = match &part.kind {
            Kind::Wire { ohm }
            | Kind::Coil { ohm, .. }
            | Kind::Resistor { ohm }
            | Kind::Lamp { ohm }
            | Kind::Solenoid { ohm, .. }
            | Kind::Stepper { ohm, .. }
            | Kind::Isolator { ohm } => join(alter.ohm(*ohm)),
            Kind::Diode => {
                let ohm = if alter.shorted && !alter.cut { alter.ohm(0.0) } else { f64::INFINITY };
                join(ohm)
            }
            Kind::Fuse { ohm, .. } => {
                let blown = matches!(memory, Memory::Fuse(f) if f.blown);
                contact(!blown, *ohm)
            }
            Kind::Contact { normally_closed, ohm, .. } => {
                let on = self.wiring.told_by[n].is_some_and(|(coil, _)| self.memory[coil].share() > 0.5);
                contact(on != *normally_closed, *ohm)
            }
            Kind::Switch { by, above, up_to, ohm } => {
                let value = self.inputs.knob(*by);
                contact(value > *above && value <= *up_to, *ohm)
            }
            Kind::PressureSwitch { ohm, .. } | Kind::Thermostat { ohm, .. } => {
                contact(self.sensing_closed(n), *ohm)
            }
            Kind::Timer { ohm, .. } => contact(!matches!(memory, Memory::Clock { open: true, .. }), *ohm),
            Kind::Overload { ohm, .. } => {
                contact(!matches!(memory, Memory::Overload { open: true, .. }), *ohm)
            }
            Kind::ClutchCoil { ohm, copper_per_k, .. } => {
                let coil_k = if let Memory::Clutch { coil_k, .. } = memory { *coil_k } else { 293 };
                join(alter.ohm(clutch_ohm(*ohm, *copper_per_k, coil_k)))
            }
            Kind::Motor { .. } => join(alter.ohm(motor_ohm(&part.kind, memory, alter))),
            Kind::Regulator { ohm, .. } => {
                let share = memory.share();
                if alter.stuck == Some(true) {
                    join(alter.ohm(*ohm))
                } else if share > 0.0 {
                    Branch::mean(from, None, to, share, alter.ohm(*ohm))
                } else {
                    Branch::NONE
                }
            }
            Kind::PressureSensor { .. } => {
                let share = if let Memory::Level(share) = memory { *share } else { 0.1 };
                let cut = if alter.cut { f64::INFINITY } else { SENSOR_OHM };
                extra = Branch::join(from, third, cut);
                let signal = if alter.shorted { 0.0 } else { share };
                let ohm = if alter.open || alter.cut { f64::INFINITY } else { SIGNAL_OHM + alter.added_ohm };
                Branch::mean(from, third, to, signal, ohm)
            }
            Kind::Thermistor { r25_ohm, beta_k, .. } => {
                let t_k = if let Memory::Level(t_k) = memory { *t_k } else { f64::NAN };
                join(alter.ohm(thermistor_ohm(*r25_ohm, *beta_k, t_k)))
            }
            Kind::Reference { volts, ohm, .. } => {
                let awake =
                    self.wiring.told_by[n].and_then(|(u, _)| self.units.get(u)).is_some_and(UnitState::awake);
                if awake { Branch::feed(from, to, *volts, alter.ohm(*ohm)) } else { Branch::NONE }
            }
            Kind::Driver { ohm, .. } => {
                let told = self.wiring.told_by[n];
                let share = told.and_then(|(u, o)| Some(self.units.get(u)?.output(o))).unwrap_or(0.0);
                let share = alter.stuck.map_or(share, |on| f64::from(u8::from(on)));
                if share > 0.0 { Branch::mean(from, third, to, share, alter.ohm(*ohm)) } else { Branch::NONE }
            }
            Kind::Inverter { farad, bleed_ohm, locked_a, .. } => {
                let state = if let Memory::Inverter(state) = memory { *state } else { Default::default() };
                let (siemens, source) =
                    state.across(*farad, *bleed_ohm, *locked_a, self.at(from) - self.at(to));
                let ohm = alter.ohm(1.0 / siemens);
                Branch::against(from, to, ohm, if alter.shorted { 0.0 } else { source })
            }
            Kind::Capacitor { farad } => {
                let left = farad * (1.0 - alter.weak);
                if alter.shorted {
                    join(alter.ohm(0.0))
                } else if direct || left <= 0.0 || alter.open {
                    Branch::NONE
                } else {
                    join(alter.ohm(1.0 / (OMEGA * left)))
                }
            }
            Kind::RunWinding { ohm, locked_a, full_load_a, .. } => {
                let (speed, load) = match memory {
                    Memory::Rotor { seen, load, .. } => (*seen, *load),
                    _ => (0.0, 0.0),
                };
                // A hermetic motor draws about a third of its current with nothing to do (common practice, no source).
                let amps = locked_a + (full_load_a * (0.35 + 0.65 * load) - locked_a) * speed * speed;
                join(alter.ohm(if direct { *ohm } else { MAINS_V / amps.max(0.01) }))
            }
            Kind::StartWinding { ohm, locked_ohm, turning_v, .. } => {
                let speed = self.rotor_speed();
                if direct {
                    join(alter.ohm(*ohm))
                } else {
                    let lives = !(alter.open || alter.shorted || alter.cut);
                    Branch::against(
                        from,
                        to,
                        alter.ohm(*locked_ohm),
                        if lives { turning_v * speed } else { 0.0 },
                    )
                }
            }
        };
        [main, extra]
    }

    fn rotor_speed(&self) -> f64 {
        self.memory
            .iter()
            .find_map(|m| if let Memory::Rotor { seen, .. } = m { Some(*seen) } else { None })
            .unwrap_or(0.0)
    }

    /// A switch that feels wants to be closed.
    pub fn sensing_closed(&self, n: usize) -> bool {
        match &self.memory[n] {
            Memory::Sensing { first, on_fall, over } => {
                first.on() != *on_fall && !over.is_some_and(|o| o.on())
            }
            _ => false,
        }
    }

    /// The branch of a supply.
    pub fn supply(&self, n: usize) -> Branch {
        let parts = self.spec.parts.len();
        let (Some(supply), Some(&(minus, plus)), Some(alter)) =
            (self.spec.supplies.get(n), self.wiring.ends.get(parts + n), self.alter.get(parts + n))
        else {
            return Branch::NONE;
        };
        let (volts, ohm) = match supply.kind {
            SupplyKind::Battery { rest_v, ohm, charging_v, charging_ohm } => {
                let alternator = self.alter.last().copied().unwrap_or(Alter::NOTHING);
                // Common practice, no source: a battery that rests at 10.6 V is flat, and its resistance has risen tenfold.
                let (rest_v, ohm) = (rest_v - 2.0 * alter.weak, ohm * (1.0 + 9.0 * alter.weak));
                let charging_v = charging_v + alternator.offset;
                if self.inputs.engine_on && !alternator.open && charging_v > rest_v {
                    (charging_v, charging_ohm + alternator.added_ohm)
                } else {
                    (rest_v, ohm)
                }
            }
            SupplyKind::Traction { volts, ohm } | SupplyKind::Mains { volts, ohm } => (volts, ohm),
        };
        let ohm = if alter.open { f64::INFINITY } else { ohm + alter.added_ohm };
        Branch::feed(minus, plus, volts + alter.offset, ohm)
    }
}

/// Resistance of a clutch coil [ohm] at a temperature [K].
pub fn clutch_ohm(ohm: f64, copper_per_k: f64, coil_k: i32) -> f64 {
    ohm * (1.0 + copper_per_k * (f64::from(coil_k) - 293.0)).max(0.2)
}

/// Resistance that a motor shows [ohm]: from that of its winding at rest to that at speed.
pub fn motor_ohm(kind: &Kind, memory: &Memory, alter: &Alter) -> f64 {
    let (Kind::Motor { ohm, start_ohm, .. }, Memory::Motor { caught, .. }) = (kind, memory) else {
        return f64::INFINITY;
    };
    start_ohm + (ohm - start_ohm) * caught * (1.0 - alter.drag)
}

/// Resistance of a thermistor [ohm] at a temperature [K].
pub fn thermistor_ohm(r25_ohm: f64, beta_k: f64, t_k: f64) -> f64 {
    r25_ohm * libm::exp(beta_k * (1.0 / t_k - 1.0 / 298.15))
}
