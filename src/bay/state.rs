//! How everything in the bay is connected, and what has come of it.

use serde::{Deserialize, Serialize};

use super::log::BayLog;
use super::opening::Opened;
use super::spurt::Spurt;
use super::station::Station;
use super::{BaySetup, CentreEnd, Hose, RecordField, RecordValue, VesselValve, WorkedUnit, WorkedValue};
use crate::plant::{CentreHose, PerVessel, Port, Vessel};

/// A hose's coupler.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Coupler {
    /// Port it sits on.
    pub port: Option<Port>,
    /// Its knob is open.
    pub open: bool,
}

impl Coupler {
    /// On a port with its knob open, or off.
    pub fn on(port: Option<Port>) -> Self {
        Self { port, open: port.is_some() }
    }
    /// The port the hose is open to.
    pub fn reaches(self) -> Option<Port> {
        self.port.filter(|_| self.open)
    }
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

impl Sample {
    /// Of what stands at the low-side port: refrigerant and air there [kg].
    pub fn of(refrigerant_kg: f64, air_kg: f64, tick: u64) -> Self {
        let all_kg = (refrigerant_kg + air_kg).max(1e-9);
        Self { refrigerant: refrigerant_kg / all_kg, air: air_kg / all_kg, tick }
    }
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
    /// Valves of the vessels.
    pub valves: PerVessel<VesselValve>,
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
            valves: PerVessel::new(|_| VesselValve::Shut),
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
            end => match end.vessel().map(|vessel| (vessel, self.valves[vessel])) {
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
