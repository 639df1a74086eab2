//! The service bay: hoses, machines and vessels as they are connected, the ledger of refrigerant and oil, and the
//! work record. What flows is the plant's ([`crate::plant`]); this says what is open to what.

mod action;
pub mod chart;
pub mod cylinder;
mod danger;
pub mod facts;
mod ledger;
pub mod oil_balance;
mod opening;
pub mod published;
pub mod record;
mod setup;
mod state;
mod station;
mod words;
pub mod worked;

pub use action::{
    BayAction, CentreEnd, Hose, OilKind, RecordField, RecordValue, StationStep, VesselValve, WorkedUnit,
    WorkedValue,
};
pub use danger::{BayDanger, DangerWords};
pub use ledger::Ledger;
pub use opening::{JOINT_M2, Opened, opens};
pub use setup::BaySetup;
pub use state::{Bay, BayLog, BayMistake, Coupler, NitrogenLog, Sample, Spurt, WorkedDone};
pub use station::{Station, StationAsks, StationDone, StationSees};
