//! A small plot as data: the report draws it.

use serde::Serialize;

/// How a series is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// Low side or first of two: blue, dashed.
    Low,
    /// High side or second of two: vermillion, solid.
    High,
    /// Something else: black, dotted.
    Other,
}

/// A line or a row of dots.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Series {
    /// Name in the legend.
    pub name: String,
    /// Its look.
    pub look: Look,
    /// Dots instead of a line.
    pub dots: bool,
    /// Points (x, y).
    pub points: Vec<(f64, f64)>,
}

/// A band that is expected: (x, low, high) at each x.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Band {
    /// Name in the legend.
    pub name: String,
    /// Its look, paler.
    pub look: Look,
    /// Edges.
    pub edges: Vec<(f64, f64, f64)>,
}

/// A plot.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plot {
    /// Title.
    pub title: String,
    /// Label of the x axis, with unit.
    pub x_label: &'static str,
    /// Label of the y axis, with unit.
    pub y_label: &'static str,
    /// Lines.
    pub series: Vec<Series>,
    /// Bands.
    pub bands: Vec<Band>,
}
