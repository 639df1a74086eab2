//! Which way faults move what instruments show, against published tables of signs.
//!
//! A sign is the difference between the loop with a fault and the healthy loop at the same boundary conditions: air
//! into evaporator and condenser held, compressor speed and fan held (`stand.rs`). It counts as up or down beyond a
//! neutral band, as in NIST SP 1087 (Kim, Yoon, Payne & Domanski 2008); the bands here are about the uncertainty of good
//! instruments: 0.3 K for temperatures, 0.5 K for superheat and subcooling, 0.05 bar, 1 % of power. "No change" means within
//! 1 K for temperatures, 2 K for superheat and subcooling (own choice).
//!
//! Signs that sources contest are told, not judged; a sign that the source of a row prints is judged, whatever else is said
//! elsewhere. What the model does not do at all is one row without a value.

mod electrical;
mod expansion_valve;
mod gauges;
mod magnitudes;
mod more;
mod orifice;
mod stand;
mod table;

use super::{Part, QualifyError};

/// All signs.
pub fn part() -> Result<Part, QualifyError> {
    let mut part = Part::default();
    let parts = [
        orifice::rows()?,
        expansion_valve::rows()?,
        gauges::rows()?,
        magnitudes::rows()?,
        electrical::rows()?,
        more::rows()?,
    ];
    for rows in parts {
        part.extend(rows.into());
    }
    Ok(part)
}
