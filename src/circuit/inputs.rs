//! What a circuit is told, and what it answers.

use serde::{Deserialize, Serialize};

use super::sensed::{Knob, Place};

/// What stands at the places where switches and sensors feel.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Senses {
    /// Suction line or accumulator [Pa gauge].
    pub suction_gauge_pa: f64,
    /// Liquid line [Pa gauge].
    pub liquid_gauge_pa: f64,
    /// Discharge line [Pa gauge].
    pub discharge_gauge_pa: f64,
    /// Evaporator fins [K].
    pub fin_t_k: f64,
    /// Pipe at the evaporator's outlet [K].
    pub evaporator_out_t_k: f64,
    /// Air of cabin or cold room [K].
    pub box_t_k: f64,
    /// Engine coolant [K].
    pub coolant_t_k: f64,
    /// Outside air [K].
    pub ambient_t_k: f64,
    /// Coolant of the traction battery [K].
    pub battery_t_k: f64,
}

impl Senses {
    /// Pressure [Pa gauge] or temperature [K] at a place.
    pub fn at(&self, place: Place) -> f64 {
        match place {
            Place::Suction => self.suction_gauge_pa,
            Place::Liquid => self.liquid_gauge_pa,
            Place::Discharge => self.discharge_gauge_pa,
            Place::Fin => self.fin_t_k,
            Place::EvaporatorOut => self.evaporator_out_t_k,
            Place::Box => self.box_t_k,
            Place::Coolant => self.coolant_t_k,
            Place::Ambient => self.ambient_t_k,
            Place::Battery => self.battery_t_k,
        }
    }
}

/// What a fault does to a part.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Change {
    /// Broken inside: ten megohm, for a part or a supply's charging alike.
    Open,
    /// Bridged inside: two hundredths of an ohm.
    Shorted,
    /// Resistance on top of its own [ohm]: corrosion, burnt contact, bad crimp.
    AddedOhm(f64),
    /// Share of its own resistance that is left: turns bridged inside a coil.
    ShareOfOhm(f64),
    /// A contact or switch stays open.
    StuckOpen,
    /// A contact or switch stays closed.
    StuckClosed,
    /// A sensor or a sensing switch reads so much more [Pa or K]; a supply gives so many volts more [V].
    Offset(f64),
    /// Air gap of a clutch [mm].
    Gap(f64),
    /// Share of its charge that a battery has lost, 0 to 1.
    WeakBattery(f64),
    /// Share of its capacitance that a capacitor has lost, 0 to 1.
    WeakCapacitor(f64),
    /// Share of the torque that a clutch holds that is lost with its facing, 0 to 1.
    WornFacing(f64),
    /// Worn bearings: share of its speed that a motor has lost at the same volts, 0 to 1; 1 stands still and shows its
    /// resistance at rest.
    Dragging(f64),
}

/// A fault of a part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PartFault {
    /// Which part (or supply, or `alternator`), by id.
    pub part: String,
    /// What it does.
    pub change: Change,
}

/// Something a tool hangs between two points.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Load {
    /// One point, or `ground`.
    pub a: String,
    /// The other.
    pub b: String,
    /// Resistance [ohm]: jumper lead 0.02, test lamp 29 (12 V, 5 W), shunt 0.01, meter 1e7.
    pub ohm: f64,
    /// Its own fuse [A]; infinite without one. Taking the load away renews it.
    pub fuse_a: f64,
}

/// What the circuit is told each tick. Lists are compared with those of the tick before: leave them alone and nothing
/// is solved anew.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CircuitInputs {
    /// Ignition on and engine running, or the vehicle ready; a stationary rig's main switch. The 12 V side is charged.
    pub engine_on: bool,
    /// Engine speed while it runs [rev/min].
    pub engine_rpm: f64,
    /// A/C button pressed.
    pub ac_request: bool,
    /// Blower setting [%].
    pub blower_pct: f64,
    /// Wanted temperature of cabin or cold room [K].
    pub setting_k: f64,
    /// Throttle wide open.
    pub throttle_open: bool,
    /// A door of the cold room stands open.
    pub door_open: bool,
    /// What switches and sensors feel.
    pub senses: Senses,
    /// Clutch coil winding [K]; taken in whole kelvin between 200 and 500.
    pub coil_t_k: f64,
    /// Torque that the compressor asks for at its shaft [N m].
    pub load_nm: f64,
    /// The compressor does not turn.
    pub seized: bool,
    /// Pressure difference over the compressor at rest [Pa]: a hermetic one does not break away against much.
    pub standing_pa: f64,
    /// Faults of parts.
    pub faults: Vec<PartFault>,
    /// What tools hang on.
    pub loads: Vec<Load>,
    /// Connectors unplugged.
    pub unplugged: Vec<String>,
    /// Pairs of relays that have changed sockets.
    pub swapped: Vec<(String, String)>,
    /// Isolators opened by hand, by part id.
    pub isolated: Vec<String>,
}

impl CircuitInputs {
    /// The same without its lists.
    pub(super) fn numbers(&self) -> Self {
        Self {
            faults: Vec::new(),
            loads: Vec::new(),
            unplugged: Vec::new(),
            swapped: Vec::new(),
            isolated: Vec::new(),
            ..*self
        }
    }
    /// A knob as a number; yes is 1.
    pub fn knob(&self, knob: Knob) -> f64 {
        let yes = |yes: bool| if yes { 1.0 } else { 0.0 };
        match knob {
            Knob::Ignition => yes(self.engine_on),
            Knob::Blower => self.blower_pct,
            Knob::AcButton => yes(self.ac_request),
            Knob::Throttle => yes(self.throttle_open),
            Knob::Door => yes(self.door_open),
        }
    }
}

impl Default for CircuitInputs {
    /// A car at rest on a mild day, everything off.
    fn default() -> Self {
        let t = 293.15;
        Self {
            engine_on: false,
            engine_rpm: 0.0,
            ac_request: false,
            blower_pct: 0.0,
            setting_k: 295.15,
            throttle_open: false,
            door_open: false,
            senses: Senses {
                suction_gauge_pa: 4.7e5,
                liquid_gauge_pa: 4.7e5,
                discharge_gauge_pa: 4.7e5,
                fin_t_k: t,
                evaporator_out_t_k: t,
                box_t_k: t,
                coolant_t_k: t,
                ambient_t_k: t,
                battery_t_k: t,
            },
            coil_t_k: t,
            load_nm: 0.0,
            seized: false,
            standing_pa: 0.0,
            faults: Vec::new(),
            loads: Vec::new(),
            unplugged: Vec::new(),
            swapped: Vec::new(),
            isolated: Vec::new(),
        }
    }
}

/// What two meter leads see: a source behind a resistance (Thevenin), everything as it stands now.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Port {
    /// Volts of the red lead against the black one, nothing drawn [V].
    pub volts: f64,
    /// Resistance that a direct current from the meter meets, sources off [ohm]: capacitors open, motors at rest at their
    /// windings, mains windings at what copper has.
    pub ohm: f64,
}

/// What the circuit does to the rest of the rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drives {
    /// The clutch plate is pulled in; true where there is no clutch.
    pub clutch_engaged: bool,
    /// Share of the pulley's speed that the clutch passes on: 1 unless it slips.
    pub clutch_grip: f64,
    /// Heat in the clutch coil's winding [W].
    pub clutch_coil_w: f64,
    /// Speed of the condenser fan, share of full.
    pub fan_share: f64,
    /// Speed of the blower (or of a cold room's fans), share of full.
    pub blower_share: f64,
    /// Stroke of a variable compressor, 0 to 1; 1 for any other.
    pub stroke: f64,
    /// Speed of an inverter's compressor [rev/min]; `None` where there is no inverter.
    pub electric_rpm: Option<f64>,
    /// Speed of a hermetic compressor [rev/min]; `None` where there is none.
    pub hermetic_rpm: Option<f64>,
    /// Opening of an electronic expansion valve, 0 to 1; `None` where there is none.
    pub expansion_opening: Option<f64>,
    /// Opening of the chiller's valve, 0 to 1; `None` where there is none.
    pub chiller_opening: Option<f64>,
    /// Opening of the liquid-line solenoid; 1 where there is none.
    pub liquid_line_open: f64,
}

impl Drives {
    /// Everything at rest in a circuit that has none of it.
    pub const REST: Self = Self {
        clutch_engaged: true,
        clutch_grip: 1.0,
        clutch_coil_w: 0.0,
        fan_share: 0.0,
        blower_share: 0.0,
        stroke: 1.0,
        electric_rpm: None,
        hermetic_rpm: None,
        expansion_opening: None,
        chiller_opening: None,
        liquid_line_open: 1.0,
    };
}

/// One value as a reader of a control unit shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitValue<'a> {
    /// Control unit, by id.
    pub unit: &'a str,
    /// Input or output, by id.
    pub id: &'a str,
    /// Name for people.
    pub name: &'a str,
    /// Unit: `Pa`, `K`, `V`, `%`, `rev/min`; empty for yes and no. Outputs are in `%`.
    pub in_unit: &'a str,
    /// Value as the unit believes it; none where its signal is implausible.
    pub value: Option<f64>,
}

/// One stored code as a reader shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitCode<'a> {
    /// Control unit, by id.
    pub unit: &'a str,
    /// What it says.
    pub words: &'a str,
    /// The condition holds now; else it is stored from before.
    pub present: bool,
}
