//! The service bay: hoses, machines and vessels as they are connected, the ledger of refrigerant and oil, and the
//! work record. What flows is the plant's ([`crate::plant`]); this says what is open to what.

mod action;
pub mod chart;
pub mod cylinder;
mod danger;
mod dye;
pub mod facts;
mod ledger;
mod log;
mod mistake;
pub mod oil_balance;
mod opening;
pub mod published;
pub mod record;
mod setup;
pub mod shop_air;
mod spurt;
mod state;
mod station;
mod stops;
mod tells;
mod words;
pub mod worked;

pub use action::{
    BayAction, CentreEnd, Hose, OilKind, RecordField, RecordValue, StationStep, VesselValve, WorkedUnit,
    WorkedValue,
};
pub use danger::{BayDanger, DangerWords};
pub use ledger::Ledger;
pub use log::{BayLog, LogSees, NitrogenLog};
pub use mistake::BayMistake;
pub use opening::{JOINT_M2, Opened, opens};
pub use setup::{BaySetup, most_kg};
pub use spurt::Spurt;
pub use state::{Bay, Coupler, Sample, WorkedDone};
pub use station::{Station, StationAsks, StationDone, StationSees};
pub use stops::{LOW_SIDE_TEST_PA, StopSees};
