//! What a section gives: rows and plots.

use serde::Serialize;

use super::{Plot, Row};

/// Rows and plots of a section.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Part {
    /// Rows.
    pub rows: Vec<Row>,
    /// Plots.
    pub plots: Vec<Plot>,
}

impl Part {
    /// Add another.
    pub(super) fn extend(&mut self, other: Self) {
        self.rows.extend(other.rows);
        self.plots.extend(other.plots);
    }
}

impl From<Vec<Row>> for Part {
    fn from(rows: Vec<Row>) -> Self {
        Self { rows, plots: Vec::new() }
    }
}
