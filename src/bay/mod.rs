//! The service bay: hoses, machines and vessels as they are connected, the ledger of refrigerant and oil, and the
//! work record. What flows is the plant's ([`crate::plant`]); this says what is open to what.

mod action;
mod setup;
mod words;
pub mod worked;

pub use action::{
    BayAction, CentreEnd, Hose, OilKind, RecordField, RecordValue, StationStep, VesselValve, WorkedUnit,
    WorkedValue,
};
pub use setup::BaySetup;
