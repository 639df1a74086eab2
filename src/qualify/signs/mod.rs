//! What faults do: sign tables, gauge tables and magnitudes of reference/faults.md, on the rigs.

mod differences;
mod gauges;
mod magnitudes;
mod stand;
mod table;
mod tables;

use super::{Part, QualifyError};

/// The section; its parts side by side, in order.
pub fn part() -> Result<Part, QualifyError> {
    let parts: [fn() -> Result<Vec<super::Row>, QualifyError>; 6] = [
        tables::orifice,
        tables::thermostatic,
        differences::rows,
        gauges::rows,
        gauges::clutches,
        magnitudes::rows,
    ];
    let mut rows = Vec::new();
    for part in parts {
        rows.extend(part()?);
    }
    Ok(rows.into())
}
