//! How everything in the bay is connected, and what has come of it.

use serde::{Deserialize, Serialize};

use super::opening::Opened;
use super::station::Station;
use super::{BaySetup, CentreEnd, Hose, RecordField, RecordValue, VesselValve, WorkedUnit, WorkedValue};
use crate::plant::{CentreHose, OpenPlace, Port, Vessel};

/// A hose's coupler.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Coupler {
    /// Port it sits on.
    pub port: Option<Port>,
    /// Its knob is open.
    pub open: bool,
}

impl Coupler {
    /// The port the hose is open to.
    pub fn reaches(self) -> Option<Port> {
        self.port.filter(|_| self.open)
    }
}

/// A fitting that is open to the air for a moment, while hands change it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spurt {
    /// Where.
    pub place: OpenPlace,
    /// Flow constant [m2].
    pub m2: f64,
    /// Until which tick.
    pub until_tick: u64,
}

/// What the identifier found.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sample {
    /// Share of refrigerant, by mass.
    pub refrigerant: f64,
    /// Share of air, by mass.
    pub air: f64,
    /// When it was taken.
    pub tick: u64,
}

/// An answer of arithmetic.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WorkedDone {
    /// What.
    pub what: WorkedValue,
    /// Readings it was worked out from.
    pub readings: Vec<usize>,
    /// The answer.
    pub answer: f64,
    /// Its unit.
    pub unit: WorkedUnit,
    /// When.
    pub tick: u64,
}

/// Something done in the bay that hurts the loop, the tools or the air, and was not stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BayMistake {
    /// Liquid let into the low side of a running compressor.
    LiquidIntoRunning,
    /// The compressor ran with the low side in a vacuum.
    RanInVacuum,
    /// The vacuum pump was opened to a loop under pressure.
    PumpOnPressure,
    /// Hoses were fitted before the refrigerant was identified.
    NotIdentified,
    /// Oil of the wrong kind was put in.
    WrongOil,
    /// Nitrogen was let into a loop that still held refrigerant.
    NitrogenOnCharge,
}

impl BayMistake {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::LiquidIntoRunning => {
                "liquid went into the low side of a running compressor: it cannot squeeze liquid"
            }
            Self::RanInVacuum => "the compressor ran with its low side in a vacuum: no oil comes back to it",
            Self::PumpOnPressure => {
                "the vacuum pump was opened to pressure: it blows refrigerant into the air"
            }
            Self::NotIdentified => "hoses went on before the refrigerant was identified",
            Self::WrongOil => "oil of another kind than the label's was put in",
            Self::NitrogenOnCharge => {
                "nitrogen went into a loop that still held its charge: now it must all be recovered"
            }
        }
    }
}

/// A hold under nitrogen as it went: pressures [Pa absolute], temperatures of the loop [K], ticks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct NitrogenLog {
    /// Pressure when it was shut off.
    pub start_pa: f64,
    /// Temperature then.
    pub start_t_k: f64,
    /// When.
    pub start_tick: u64,
    /// Pressure when it was last left alone.
    pub end_pa: f64,
    /// Temperature then.
    pub end_t_k: f64,
    /// When.
    pub end_tick: u64,
    /// Hands did something to it since.
    pub over: bool,
}

/// Figures of the work so far, taken from the model as it goes.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BayLog {
    /// Lowest pressure in the loop under the pump since it last stood above a tenth of a bar [Pa absolute].
    pub deepest_pa: Option<f64>,
    /// Time the pump has drawn on the loop since then [s].
    pub pumped_s: f64,
    /// The pump draws on the loop now.
    pub drawing: bool,
    /// Pressure in the loop when the pump was last shut off, and when.
    pub shut_off: Option<(f64, u64)>,
    /// Highest pressure since then while nothing but the loop itself could raise it [Pa absolute].
    pub risen_to_pa: f64,
    /// Time it was watched [s].
    pub watched_s: f64,
    /// Something else was opened to the loop since: the watch is over.
    pub watch_over: bool,
    /// The hold under nitrogen.
    pub nitrogen: Option<NitrogenLog>,
    /// Refrigerant left in the loop when it was first opened or evacuated [kg].
    pub left_in_kg: Option<f64>,
    /// Oil poured in [kg].
    pub oil_added_kg: f64,
    /// Oil that came out with parts [kg].
    pub oil_taken_kg: f64,
    /// Oil of the wrong kind among that [kg].
    pub foreign_oil_kg: f64,
    /// Oil in new parts as they came [kg].
    pub new_part_oil_kg: f64,
    /// Dye put in [kg].
    pub dye_kg: f64,
    /// Share of the dye that has been carried round.
    pub dye_mixed: f64,
    /// Dye that came out with oil, in the order of [`crate::instrument::SearchPlace::ALL`]; it stays where it is [kg].
    pub dye_out_kg: [f64; 9],
    /// Refrigerant that hangs in the air of the bay [kg].
    pub bay_air_kg: f64,
    /// Refrigerant that came with fresh cans, and went with empty ones [kg].
    pub cans_kg: (f64, f64),
    /// Mistakes, each once, with their first tick.
    pub mistakes: Vec<(BayMistake, u64)>,
}

impl BayLog {
    /// Write a mistake down, once.
    pub fn mistake(&mut self, kind: BayMistake, tick: u64) {
        if self.mistakes.iter().all(|(k, _)| *k != kind) {
            self.mistakes.push((kind, tick));
        }
    }
}

/// The service bay of one bench.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bay {
    /// How it was set up.
    pub setup: BaySetup,
    /// Coupler of the blue hose.
    pub low: Coupler,
    /// Coupler of the red hose.
    pub high: Coupler,
    /// What the centre hose is screwed to.
    pub centre: CentreEnd,
    /// Its end is cracked open.
    pub loose: bool,
    /// Fittings that are being changed.
    pub spurts: Vec<Spurt>,
    /// The vacuum pump runs.
    pub pump_on: bool,
    /// The recovery machine runs.
    pub machine_on: bool,
    /// Valves of the vessels, in the order of [`Vessel::ALL`].
    pub valves: [VesselValve; 4],
    /// Regulator of the nitrogen [Pa gauge]; 0: shut.
    pub regulator_pa: f64,
    /// The vessel on the charging scale.
    pub on_scale: Vessel,
    /// A warm bath stands under it.
    pub warm: bool,
    /// Water is sprayed on the condenser.
    pub spray: bool,
    /// Share of the condenser's face that is covered.
    pub cover: f64,
    /// Goggles and gloves are on.
    pub protected: bool,
    /// Extraction runs, doors are open.
    pub ventilated: bool,
    /// What a repair left open.
    pub opened: Option<Opened>,
    /// What the identifier found last.
    pub sample: Option<Sample>,
    /// The service station at work.
    pub station: Option<Station>,
    /// The work record, line by line.
    pub record: Vec<(RecordField, RecordValue)>,
    /// Answers of arithmetic.
    pub worked: Vec<WorkedDone>,
    /// When the record was handed in.
    pub handed_over: Option<u64>,
    /// What has come of it.
    pub log: BayLog,
}

impl Bay {
    /// A bay as it is found: nothing fitted, everything shut.
    pub fn new(setup: BaySetup) -> Self {
        Self {
            setup,
            low: Coupler::default(),
            high: Coupler::default(),
            centre: CentreEnd::Cap,
            loose: false,
            spurts: Vec::new(),
            pump_on: false,
            machine_on: false,
            valves: [VesselValve::Shut; 4],
            regulator_pa: 0.0,
            on_scale: Vessel::Supply,
            warm: false,
            spray: false,
            cover: 0.0,
            protected: false,
            ventilated: false,
            opened: None,
            sample: None,
            station: None,
            record: Vec::new(),
            worked: Vec::new(),
            handed_over: None,
            log: BayLog::default(),
        }
    }
    /// The coupler of a hose.
    pub fn coupler(&self, hose: Hose) -> Coupler {
        match hose {
            Hose::Low => self.low,
            Hose::High => self.high,
        }
    }
    /// The same, to change it.
    pub fn coupler_mut(&mut self, hose: Hose) -> &mut Coupler {
        match hose {
            Hose::Low => &mut self.low,
            Hose::High => &mut self.high,
        }
    }
    /// A coupler sits on the loop.
    pub fn any_fitted(&self) -> bool {
        self.low.port.is_some() || self.high.port.is_some()
    }
    /// What the centre hose ends in for the plant, with an outside pressure [Pa absolute].
    pub fn centre_hose(&self, ambient_pa: f64) -> CentreHose {
        if let Some(station) = self.station.as_ref().filter(|s| s.step().is_some()) {
            return station.centre_hose();
        }
        match self.centre {
            CentreEnd::Nothing => CentreHose::Open,
            CentreEnd::VacuumPump if self.pump_on => CentreHose::VacuumPump,
            CentreEnd::RecoveryMachine if self.machine_on => CentreHose::RecoveryMachine,
            CentreEnd::Nitrogen if self.regulator_pa > 0.0 => {
                CentreHose::Nitrogen { set_pa: self.regulator_pa + ambient_pa }
            }
            end => match end.vessel().map(|vessel| (vessel, self.valves[vessel as usize])) {
                Some((vessel, VesselValve::Gas)) => CentreHose::Vessel { vessel, liquid: false },
                Some((vessel, VesselValve::Liquid)) => CentreHose::Vessel { vessel, liquid: true },
                _ => CentreHose::Capped,
            },
        }
    }
    /// The line of the record, if it is filled in.
    pub fn written(&self, field: RecordField) -> Option<&RecordValue> {
        self.record.iter().find(|(f, _)| *f == field).map(|(_, value)| value)
    }
}
