//! The one list of instruments. A line is a file of this folder, the tool in it, and the instruments that belong to the
//! tool with the place each is put on; names are those of the file's own types.
//!
//! The order is that of the bench. From the list come [`Tool`] and [`Probe`], which scenarios, action files and records
//! name in small letters, and everything that is looked up by them.

use serde::{Deserialize, Serialize};
use strum::{EnumCount, VariantArray};

use super::describe::{Facts, Instrument, Need};
use super::dial::MeterMode;
use super::kit::{Kit, Shelf};
use super::leak_detector::DetectorScale;
use super::say::Say;
use super::word::Word;
use crate::circuit::CircuitSpec;
use crate::perceive;
use crate::places::{AirPlace, PipePlace, SearchPlace};

macro_rules! instruments {
    ($(
        $file:ident: $tool:ident [
            $( $probe:ident $(($place:ident: $held:ty))? $({ $($field:ident: $kind:ty),+ })? ),*
        ]
    )*) => {
        /// A tool that can lie on the bench.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, EnumCount, VariantArray)]
        #[serde(rename_all = "snake_case")]
        pub enum Tool {
            $( #[doc = concat!("See the file `instrument/", stringify!($file), ".rs`.")] $tool, )*
        }

        /// A tool on a place: everything a learner can measure or look at.
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum Probe {
            $($(
                #[doc = concat!("See `", stringify!($probe), "` in the file `instrument/", stringify!($file), ".rs`.")]
                $probe
                $((#[doc = concat!("Its ", stringify!($place), ".")] $held))?
                $({ $( #[doc = concat!("Its ", stringify!($field), ".")] $field: $kind, )+ })?,
            )*)*
        }

        impl Tool {
            /// What holds of it.
            pub fn kit(self) -> &'static Kit {
                match self { $( Self::$tool => &super::$file::TOOL, )* }
            }
            /// Its instruments on every place that a circuit, or any rig, has for them.
            pub fn probes(self, circuit: &CircuitSpec) -> Vec<Probe> {
                let mut all = Vec::new();
                match self {$(
                    Self::$tool => {$(
                        all.extend(super::$file::$probe::everywhere(circuit).into_iter().map(|at| {
                            let super::$file::$probe $(($place))? $({ $($field),+ })? = at;
                            Probe::$probe $(($place))? $({ $($field),+ })?
                        }));
                    )*}
                )*}
                all
            }
        }

        impl Probe {
            /// The tool it belongs to.
            pub fn tool(&self) -> Tool {
                match self { $($( Self::$probe { .. } => Tool::$tool, )*)* }
            }
            /// Ask its file.
            pub fn ask<R>(&self, question: impl FnOnce(&dyn Instrument) -> R) -> R {
                match self {$($(
                    Self::$probe $(($place))? $({ $($field),+ })? => question(
                        &super::$file::$probe $((Clone::clone($place)))? $({ $($field: Clone::clone($field)),+ })?
                    ),
                )*)*}
            }
            /// One of each kind, on no place in particular.
            pub fn kinds() -> Vec<Self> {
                vec![$($(
                    Self::$probe $((<$held>::default()))? $({ $($field: <$kind>::default()),+ })?,
                )*)*]
            }
            /// Words for its place, in order.
            fn words(&self) -> Vec<Option<String>> {
                match self {$($(
                    Self::$probe $(($place))? $({ $($field),+ })? =>
                        vec![$($place.word())? $($($field.word()),+)?],
                )*)*}
            }
            /// One of the same kind on the place that some words stand for.
            fn put<'a>(&self, words: &mut impl Iterator<Item = &'a str>) -> Result<Self, String> {
                Ok(match self {$($(
                    Self::$probe { .. } => Self::$probe
                        $((<$held>::read(words.next())?))?
                        $({ $($field: <$kind>::read(words.next())?),+ })?,
                )*)*})
            }
        }
    };
}

instruments! {
    gauge: GaugeSet [LowGauge, HighGauge]
    pipe_thermometer: PipeThermometer [Pipe(place: PipePlace)]
    air_thermometer: AirThermometer [Air(place: AirPlace)]
    jumper: Jumper []
    sight_glass: SightGlass [SightGlass]
    meter: Meter [Meter { mode: MeterMode, red: String, black: String }]
    lamp: TestLamp [Lamp { tip: String, clip: String }]
    clamp: ClampAmmeter [Clamp(part: String)]
    reader: Reader [UnitValue { unit: String, id: String }]
    vacuum_gauge: VacuumGauge [VacuumGauge]
    scales: Scales [RecoveryScale, ChargingScale, OilGraduation]
    infrared: InfraredThermometer [Infrared { place: PipePlace, taped: bool }]
    psychrometer: Psychrometer [WetBulb(place: AirPlace)]
    airflow: AirflowMeter [Airflow]
    leak_detector: LeakDetector [LeakDetector { place: SearchPlace, scale: DetectorScale }]
    soap: SoapSolution [Soap(place: SearchPlace)]
    uv_lamp: UvLamp [UvLamp(place: SearchPlace)]
    identifier: Identifier [Identifier, IdentifierAir]
    senses: Senses [Sense(sense: perceive::Sense)]
}

impl Tool {
    /// All tools in the order they lie on the bench. Senses, the last, are not among them: they cannot be left out.
    pub const ALL: [Self; Self::COUNT - 1] = *Self::VARIANTS.first_chunk().unwrap();

    /// Its name for people.
    pub fn name(self) -> &'static str {
        self.kit().name
    }
    /// What it can touch, in one line.
    pub fn touches(self) -> &'static str {
        self.kit().touches
    }
    /// Where on the desk it is worked.
    pub fn shelf(self) -> Shelf {
        self.kit().shelf
    }
    /// It has a use in the service bay alone.
    pub fn needs_bay(self) -> bool {
        self.kit().needs_bay
    }
}

impl Probe {
    /// What holds of it wherever it is put.
    pub fn facts(&self) -> &'static Facts {
        self.ask(|i| i.facts())
    }
    /// Its name with its place, for notebook and timeline.
    pub fn name(&self) -> String {
        self.ask(|i| i.name())
    }
    /// Its place where the tool is plain to see.
    pub fn short(&self) -> String {
        self.ask(|i| i.short())
    }
    /// Its place in the list of places of its tool.
    pub fn choice(&self) -> String {
        self.ask(|i| i.choice())
    }
    /// Unit of what it shows, as it stands in the notebook; empty for what has none.
    pub fn unit(&self) -> &'static str {
        self.ask(|i| i.unit())
    }
    /// A value in words.
    pub fn text(&self, value: f64, say: &Say) -> String {
        self.ask(|i| i.text(value, say))
    }
    /// What must be there for it to be put on its place.
    pub fn needs(&self) -> Vec<Need> {
        self.ask(|i| i.needs())
    }
    /// What to say to one who reads it while it shows nothing.
    pub fn silent(&self) -> String {
        self.ask(|i| i.silent())
    }
    /// Error limit at a shown value, same unit.
    pub fn limit(&self, value: f64) -> f64 {
        self.ask(|i| i.limit(value))
    }
    /// Half-width of the 95 % band: 0.95 of the limit, which is all that is known of where within the limit an
    /// instrument stands (even distribution, GUM type B).
    pub fn uncertainty(&self, value: f64) -> f64 {
        0.95 * self.limit(value)
    }
    /// Standard deviation a diagnosis should reckon with: the limit over the square root of three (even
    /// distribution).
    pub fn sigma(&self, value: f64) -> f64 {
        self.limit(value) / 3.0_f64.sqrt()
    }
    /// Standard deviation of a reading about a prediction: the instrument, and the coarse net of severities.
    pub fn spread(&self, value: f64, predicted: f64) -> f64 {
        let instrument = self.sigma(value);
        let (net, share) = self.ask(|i| (i.net(predicted), i.steepness()));
        let steepness = if share > 0.0 { share * predicted.abs() } else { 0.0 };
        (instrument * instrument + net * net + steepness * steepness).sqrt()
    }
    /// As it is written on the command line.
    pub fn notation(&self) -> String {
        let words = self.words().into_iter().flatten();
        head(self.facts().notation).map(str::to_owned).chain(words).collect::<Vec<_>>().join(":")
    }
    /// From what is written on the command line.
    ///
    /// # Errors
    /// When there is no such instrument or it has no such place; what may help comes with it.
    pub fn parse(text: &str) -> Result<Self, String> {
        let told: Vec<&str> = text.split(':').collect();
        for kind in Self::kinds() {
            let notation = kind.facts().notation;
            let first: Vec<&str> = head(notation).collect();
            if let Some(rest) = told.strip_prefix(&first[..]).filter(|rest| rest.len() <= kind.words().len())
            {
                let put = kind.put(&mut rest.iter().copied());
                return put.map_err(|error| format!("`{text}`: {error} (hint: {notation})"));
            }
        }
        let hint = match told[..] {
            ["volts", point] => format!("the meter shows volts: meter:v:{point}:ground"),
            _ => "see --help".into(),
        };
        Err(format!("`{text}` is no probe (hint: {hint})"))
    }
}

/// The small words that a notation begins with.
fn head(notation: &'static str) -> impl Iterator<Item = &'static str> {
    let fixed = |word: &&str| !word.contains(|c: char| c.is_ascii_uppercase() || c == '|');
    notation.split(':').take_while(fixed)
}

#[cfg(test)]
#[path = "table_tests.rs"]
mod tests;
