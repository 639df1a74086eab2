//! The table of knobs, and what is made of it.

use serde::{Deserialize, Serialize};

use super::Fits::{Car, Chiller, ColdRoom, Engine, Every};
use super::TurnedBy::{Condition, Driver, Instructor, Weather};
use super::{Info, Range, Scale, Value};

const fn number(unit: &'static str, min: f64, max: f64, step: f64) -> Scale {
    Scale::Number { range: Range::new(unit, min, max), step }
}

/// Knobs that few rigs have are left out of files and hashes while they stand at nothing.
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_zero(x: &f64) -> bool {
    *x == 0.0
}

/// Makes everything of a line: its sentence, how files have it, name in files, name in code (type), where it stands when
/// nobody turned it, scale, name on the desk, how a turn of it is told, who turns it, which rigs have it.
macro_rules! knobs {
    ($(
        $(#[doc = $meaning:literal])+
        $(#[serde($($file:tt)*)])?
        $key:ident: $Knob:ident($kind:ty) = $usual:expr, $scale:expr, $label:literal, $told:literal, $by:expr, $fits:expr;
    )+) => {
        /// Where all knobs stand. The default is the compact car at idle on a hot day: 35 °C, 40 %, 900 rev/min, full
        /// blower, recirculation, shade, the driver alone. A file may leave out what stands there.
        #[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub struct Controls {
            $( $(#[doc = $meaning])+ $(#[serde($($file)*)])? pub $key: $kind, )+
        }

        impl Default for Controls {
            fn default() -> Self {
                Self { $( $key: $usual, )+ }
            }
        }

        /// The name of a knob.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Knob {
            $( $(#[doc = $meaning])+ $Knob, )+
        }

        /// One knob and its new value.
        #[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum Change {
            $( $(#[doc = $meaning])+ $Knob($kind), )+
        }

        static TABLE: &[Info] = &[$(
            Info {
                key: stringify!($key),
                doc: concat!($($meaning),+),
                label: $label,
                told: $told,
                scale: $scale,
                turned_by: $by,
                fits: $fits,
            },
        )+];

        impl Knob {
            /// All knobs, in the order of the table.
            pub const ALL: &[Self] = &[$( Self::$Knob, )+];

            /// Its line of the table.
            pub fn info(self) -> &'static Info {
                &TABLE[self as usize]
            }
            /// A turn to a value; none where the knob takes another kind of value.
            pub fn to(self, value: Value) -> Option<Change> {
                match self {
                    $( Self::$Knob => <$kind>::try_from(value).ok().map(Change::$Knob), )+
                }
            }
        }

        impl Controls {
            /// A knob and where it stands.
            pub fn get(&self, knob: Knob) -> Change {
                match knob {
                    $( Knob::$Knob => Change::$Knob(self.$key), )+
                }
            }
            /// Turn a knob.
            pub fn turn(&mut self, change: Change) {
                match change {
                    $( Change::$Knob(value) => self.$key = value, )+
                }
            }
        }

        impl Change {
            /// Which knob.
            pub fn knob(self) -> Knob {
                match self {
                    $( Self::$Knob(_) => Knob::$Knob, )+
                }
            }
            /// Its new value.
            pub fn value(self) -> Value {
                match self {
                    $( Self::$Knob(value) => value.into(), )+
                }
            }
        }
    };
}

// The order is that of the state hash. A new knob is left out of files and hashes while it stands at its usual value, so
// that old records keep theirs.
knobs! {
    /// Engine running.
    engine_on: EngineOn(bool) = true, Scale::Switch, "Engine", "engine {}", Driver, Every;
    /// Engine speed while it runs [rev/min].
    engine_rpm: EngineRpm(f64) = 900.0, number("rev/min", 500.0, 6000.0, 50.0),
        "Engine speed", "engine speed {}", Driver, Engine;
    /// A/C button pressed.
    ac_request: AcRequest(bool) = true, Scale::Switch, "A/C request", "A/C {}", Driver, Car;
    /// Blower setting [% of full].
    blower_pct: BlowerPct(f64) = 100.0, number("%", 0.0, 100.0, 5.0), "Blower", "blower {}", Driver, Car;
    /// Recirculation flap closed to outside air.
    recirculate: Recirculate(bool) = true, Scale::Switch, "Recirculation", "recirculation {}", Driver, Car;
    /// Road speed [km/h].
    road_speed_kmh: RoadSpeedKmh(f64) = 0.0, number("km/h", 0.0, 180.0, 5.0),
        "Road speed", "road speed {}", Driver, Car;
    /// Outside air temperature [°C].
    ambient_c: AmbientC(f64) = 35.0, number("°C", -20.0, 55.0, 1.0),
        "Outside air", "outside air {}", Weather, Every;
    /// Outside relative humidity [%].
    relative_humidity_pct: RelativeHumidityPct(f64) = 40.0, number("%", 0.0, 100.0, 5.0),
        "Humidity", "humidity {}", Weather, Every;
    /// Sun on a horizontal plane [W/m2]; none in a workshop or in the shade.
    solar_w_m2: SolarWM2(f64) = 0.0, number("W/m2", 0.0, 1200.0, 50.0), "Sun", "sun {}", Instructor, Car;
    /// People in the car while its engine runs.
    people: People(f64) = 1.0, number("", 0.0, 7.0, 1.0), "People", "{} in the car", Instructor, Car;
    /// Height above the sea [m].
    #[serde(skip_serializing_if = "is_zero")]
    altitude_m: AltitudeM(f64) = 0.0, number("m", 0.0, 4000.0, 100.0), "Height", "height {}", Instructor, Every;
    /// Share of the time the doors of a cold room stand open [%].
    #[serde(skip_serializing_if = "is_zero")]
    doors_open_pct: DoorsOpenPct(f64) = 0.0, number("%", 0.0, 100.0, 5.0),
        "Door open", "doors open {} of the time", Condition, ColdRoom;
    /// Heat the traction battery gives to its coolant [W].
    #[serde(skip_serializing_if = "is_zero")]
    battery_heat_w: BatteryHeatW(f64) = 0.0, number("W", 0.0, 8000.0, 100.0),
        "Battery heat", "battery heat {}", Condition, Chiller;
}
