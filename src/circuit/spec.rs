//! The circuit of a rig as its file `circuit.ron` holds it: supplies, points, parts and control units. Strict: a name
//! that does not exist is an error of the file, never a guess.

use serde::{Deserialize, Serialize};

use super::rules::ControlUnit;
use super::sensed::{Knob, Place};

/// Name of the end every rig has without writing it: battery minus, the body, protective earth.
pub const GROUND: &str = "ground";

/// A circuit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CircuitSpec {
    /// Where the volts come from.
    pub supplies: Vec<Supply>,
    /// Places that a meter lead can touch, in the order in which people list them.
    pub points: Vec<Point>,
    /// Everything between two points.
    pub parts: Vec<Part>,
    /// Wanted temperature that its knob stands at [K]: 22 C for a cabin.
    #[serde(default = "cabin")]
    pub setting_k: f64,
    /// Control units; none where switches and relays do it all.
    #[serde(default)]
    pub units: Vec<ControlUnit>,
}

/// A source behind its inner resistance. A fault may name it as it names a part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Supply {
    /// Name in files.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Its plus (phase) point.
    pub plus: String,
    /// Its minus (neutral) point.
    #[serde(default = "ground")]
    pub minus: String,
    /// What it is.
    pub kind: SupplyKind,
    /// Where it sits in the location picture.
    #[serde(default)]
    pub place: String,
}

/// Kinds of supply.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum SupplyKind {
    /// A 12 V battery, charged while the engine runs (or the converter of an electric vehicle works). A fault of part
    /// `alternator` concerns the charging alone: open, it does not charge; an offset is in volts.
    Battery {
        /// At rest [V].
        rest_v: f64,
        /// Inner resistance at rest [ohm].
        ohm: f64,
        /// While charged [V].
        charging_v: f64,
        /// Droop while charged [ohm].
        charging_ohm: f64,
    },
    /// A traction battery.
    Traction {
        /// Volts [V].
        volts: f64,
        /// Inner resistance [ohm].
        ohm: f64,
    },
    /// Alternating mains, in effective values: phases between volts and amperes are left out.
    Mains {
        /// Volts [V].
        volts: f64,
        /// Inner resistance [ohm].
        ohm: f64,
    },
}

/// What must be isolated and proved dead before hands or leads come near.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "PascalCase")]
pub enum Guard {
    /// Nothing: extra-low voltage.
    #[default]
    None,
    /// Traction voltage.
    Traction,
    /// Mains.
    Mains,
}

/// A place that a meter lead can touch; a node of the network.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// Name in files and on the command line.
    pub id: String,
    /// Name for people.
    pub label: String,
    /// Terminal number of DIN 72552 where one applies: 15, 30, 31, 85, 86, 87, 87a ...; else empty.
    #[serde(default)]
    pub terminal: String,
    /// Connector that it is a pin of, if any.
    #[serde(default)]
    pub connector: String,
    /// Column and row on the grid of the wiring drawing.
    pub at: (u16, u16),
    /// What it may carry.
    #[serde(default)]
    pub guard: Guard,
}

/// Something between two points.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Name in files: its role.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// One end: a point or `ground`.
    pub from: String,
    /// The other end.
    #[serde(default = "ground")]
    pub to: String,
    /// What it is.
    pub kind: Kind,
    /// Where it sits in the location picture; empty for a length of harness.
    #[serde(default)]
    pub place: String,
    /// Connector that cuts it when unplugged, if any.
    #[serde(default)]
    pub connector: String,
}

fn ground() -> String {
    GROUND.into()
}

/// Kinds of part. Resistances [ohm] unless the name says otherwise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Kind {
    /// A length of harness, a ground strap or a joint.
    Wire {
        /// Resistance [ohm].
        ohm: f64,
    },
    /// A fuse; melts by heat: current squared over time.
    Fuse {
        /// Rating [A].
        amps: f64,
        /// Resistance [ohm].
        ohm: f64,
        /// A mains fuse (gG) that lets a motor start; else a blade fuse.
        #[serde(default)]
        slow: bool,
    },
    /// Coil of a relay or contactor. It pulls in and drops out by the current of a whole coil at these volts.
    Coil {
        /// Name of the relay.
        relay: String,
        /// Resistance [ohm].
        ohm: f64,
        /// Pulls in at these volts [V].
        pull_in_v: f64,
        /// Drops out at these volts [V].
        drop_out_v: f64,
        /// A diode across the coil takes its kick when it is cut.
        #[serde(default)]
        diode: bool,
    },
    /// Contact of a relay or contactor.
    Contact {
        /// Name of the relay.
        relay: String,
        /// Closed while the relay is at rest (30 to 87a).
        #[serde(default)]
        normally_closed: bool,
        /// Resistance when closed [ohm].
        ohm: f64,
    },
    /// A switch for a hand, closed while its knob stands between two values.
    Switch {
        /// Which knob.
        by: Knob,
        /// Closed above this value; a knob of yes and no counts 1 and 0.
        #[serde(default)]
        above: f64,
        /// ... and up to this value.
        #[serde(default = "always")]
        up_to: f64,
        /// Resistance when closed [ohm].
        ohm: f64,
    },
    /// A switch moved by pressure. It closes on rise where `closes_gauge_pa` is the larger, else on fall.
    PressureSwitch {
        /// Where it feels.
        at: Place,
        /// Closes here [Pa gauge].
        closes_gauge_pa: f64,
        /// Opens here [Pa gauge].
        opens_gauge_pa: f64,
        /// A second limit in the same body, as in a dual switch: opens above the first, closes again below the second
        /// [Pa gauge].
        #[serde(default)]
        over: Option<(f64, f64)>,
        /// State in which it comes out of its box, if the pressure lies between its limits at the start.
        #[serde(default)]
        starts_open: bool,
        /// Resistance when closed [ohm].
        ohm: f64,
    },
    /// A switch moved by temperature, or a contact of a thermistor amplifier. It closes on rise where `closes_k` is
    /// the larger, else on fall.
    Thermostat {
        /// Where it feels.
        at: Place,
        /// Closes here [K].
        closes_k: f64,
        /// Opens here [K].
        opens_k: f64,
        /// Both are differences to the wanted temperature.
        #[serde(default)]
        follows_setting: bool,
        /// Resistance when closed [ohm].
        ohm: f64,
    },
    /// A contact that a clock opens for some minutes now and then (off-cycle defrost).
    Timer {
        /// One round [s].
        every_s: f64,
        /// Open for this long in each round [s].
        open_s: f64,
        /// Resistance when closed [ohm].
        ohm: f64,
    },
    /// Coil of a magnetic clutch. Its pull goes with (current / gap) squared.
    ClutchCoil {
        /// At 20 C [ohm].
        ohm: f64,
        /// Rise of resistance of its copper [1/K].
        copper_per_k: f64,
        /// A cold whole coil pulls the plate in at these volts, at the gap as built [V].
        pull_in_v: f64,
        /// ... and lets go at these [V].
        drop_out_v: f64,
        /// Air gap as built [mm].
        gap_mm: f64,
        /// Torque that the pulled-in clutch holds at 12 V cold [N m].
        torque_nm: f64,
    },
    /// A diode across a coil, blocking from `from` (plus) to `to` (minus); shorted it bridges the coil, open it lets
    /// the kick through, which no meter shows.
    Diode,
    /// A direct-current motor that turns a fan.
    Motor {
        /// What it turns.
        which: Turns,
        /// Resistance that it shows at full speed: winding and back-EMF together [ohm].
        ohm: f64,
        /// Resistance that it shows at rest [ohm].
        start_ohm: f64,
        /// Volts for full speed [V].
        full_v: f64,
        /// Time constant of its speed [s].
        lag_s: f64,
    },
    /// A resistor: pull-up, speed resistor, heater, interlock.
    Resistor {
        /// Resistance [ohm].
        ohm: f64,
    },
    /// A lamp.
    Lamp {
        /// Resistance when lit [ohm].
        ohm: f64,
    },
    /// A power module between a feed (`from`) and a motor (`to`) that holds the motor at a share of `full_v`.
    Regulator {
        /// Which knob tells the share [%].
        by: Knob,
        /// Volts at 100 % [V].
        full_v: f64,
        /// Resistance of its transistor, fully on [ohm].
        ohm: f64,
        /// Point that must be live for it to work.
        enable: String,
    },
    /// A three-wire pressure sensor: `from` its 5 V feed, `to` its signal.
    PressureSensor {
        /// Where it feels.
        at: Place,
        /// Its ground point.
        minus: String,
        /// Pressure at 10 % and at 90 % of its feed [Pa gauge].
        range_gauge_pa: (f64, f64),
    },
    /// A thermistor, negative coefficient: r25 * exp(beta * (1/T - 1/298.15)).
    Thermistor {
        /// Where it feels.
        at: Place,
        /// At 25 C [ohm].
        r25_ohm: f64,
        /// Beta [K].
        beta_k: f64,
    },
    /// The steady feed that a control unit gives its sensors: `from` the unit's ground, `to` the feed.
    Reference {
        /// Which unit.
        unit: String,
        /// Volts [V].
        volts: f64,
        /// Inner resistance [ohm].
        ohm: f64,
    },
    /// An output of a control unit: a transistor from `from` (plus rail for a high-side, ground for a low-side one) to
    /// `to` (the load). Pulsed, the point shows the mean.
    Driver {
        /// Which unit.
        unit: String,
        /// Which of its outputs.
        output: String,
        /// Resistance, fully on [ohm].
        ohm: f64,
        /// Where the load's current runs on in the pauses: the other rail.
        freewheel: String,
    },
    /// A solenoid valve.
    Solenoid {
        /// What it moves.
        which: Moves,
        /// Resistance [ohm].
        ohm: f64,
        /// It begins to move at this current [A].
        from_a: f64,
        /// ... and is at its end at this one [A].
        full_a: f64,
        /// Time constant [s].
        lag_s: f64,
    },
    /// A stepper motor's supply; it goes where its control unit's output says while it is fed, and stays when not.
    Stepper {
        /// What it moves.
        which: Moves,
        /// Resistance of its windings together [ohm].
        ohm: f64,
        /// Which unit tells it.
        unit: String,
        /// Which of its outputs.
        output: String,
        /// From end to end [s].
        stroke_s: f64,
    },
    /// An inverter with its compressor motor on traction voltage.
    Inverter {
        /// Which unit tells the speed, by bus.
        unit: String,
        /// Which of its outputs, share of `full_rpm`.
        output: String,
        /// Point of its own 12 V feed, without which it stands still.
        enable: String,
        /// Highest speed [rev/min].
        full_rpm: f64,
        /// Lowest speed at which it runs [rev/min].
        lowest_rpm: f64,
        /// Change of speed [rev/min per s].
        ramp_rpm_s: f64,
        /// Capacitor across its input [F].
        farad: f64,
        /// Resistor that empties the capacitor [ohm].
        bleed_ohm: f64,
        /// Current with the rotor locked, before it gives up [A].
        locked_a: f64,
        /// Overall efficiency from its terminals to the shaft.
        efficiency: f64,
    },
    /// A capacitor on mains; a direct-current ohmmeter sees none of it.
    Capacitor {
        /// Capacitance [F].
        farad: f64,
    },
    /// Run winding of a hermetic compressor: `from` run terminal, `to` common.
    RunWinding {
        /// What an ohmmeter shows, cold [ohm].
        ohm: f64,
        /// Current at 230 V with the rotor locked [A].
        locked_a: f64,
        /// Current at 230 V and full load [A].
        full_load_a: f64,
        /// Shaft power at full load [W].
        full_load_w: f64,
        /// Speed at full load [rev/min].
        rpm: f64,
    },
    /// Start winding of the same: `from` start terminal, `to` common.
    StartWinding {
        /// What an ohmmeter shows, cold [ohm].
        ohm: f64,
        /// What mains sees with the rotor locked [ohm].
        locked_ohm: f64,
        /// Volts that the turning rotor makes in it at full speed [V].
        turning_v: f64,
        /// Current with which the rotor breaks away against a loop in balance [A].
        breakaway_a: f64,
    },
    /// Bimetal overload: heated by its current, opens, closes again when cold.
    Overload {
        /// Resistance [ohm].
        ohm: f64,
        /// Current that it carries for ever [A].
        holds_a: f64,
        /// Time to open from cold at three times that current [s].
        trip_s: f64,
        /// Time to close again [s].
        reset_s: f64,
    },
    /// A plug or switch that isolates a guarded supply; opened by hand.
    Isolator {
        /// Resistance [ohm].
        ohm: f64,
    },
}

fn cabin() -> f64 {
    295.15
}

fn always() -> f64 {
    f64::MAX
}

/// What a motor turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Turns {
    /// Condenser fan.
    CondenserFan,
    /// Blower of the cabin, or fans of the cold room's evaporator.
    Blower,
}

/// What a solenoid or stepper moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Moves {
    /// Stroke of a variable compressor.
    Stroke,
    /// Electronic expansion valve.
    Expansion,
    /// Valve of the chiller branch.
    Chiller,
    /// Liquid-line solenoid of a stationary rig.
    LiquidLine,
}
