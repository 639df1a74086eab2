//! Cases and lines as both files of the transients make them.

use super::{Case, Look, Section, Series, Standing};

pub(super) fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Transients, name, source, standing)
}

pub(super) fn line(name: &str, look: Look, points: Vec<(f64, f64)>) -> Series {
    Series { name: name.to_owned(), look, dots: false, points }
}
