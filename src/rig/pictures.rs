//! What is drawn of a rig and does not follow from its loop or circuit: the words of its service label, an outline and
//! where things sit in it. Read from `pictures.ron`.

use serde::{Deserialize, Serialize};

use crate::circuit::CircuitSpec;

/// Size of the sheet that outlines and places are drawn on; y runs down.
pub const SHEET: (f32, f32) = (160.0, 90.0);

/// Pictures of a rig.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pictures {
    /// Words of the service label.
    pub label: ServiceLabel,
    /// What the outline shows: "Plan view, front at the left".
    pub view: String,
    /// Strokes of the outline, in order.
    pub outline: Vec<Outline>,
    /// Where things sit.
    pub places: Vec<PlaceMark>,
}

/// Words of the service label. Refrigerant, charge and amount of oil come from the loop.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ServiceLabel {
    /// Kind of oil.
    pub oil: String,
    /// Flammability of the refrigerant in words, with its class of ISO 817; empty where it does not burn.
    #[serde(default)]
    pub flammable: String,
    /// Caution lines.
    pub cautions: Vec<String>,
}

/// A stroke of the outline, on the sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Outline {
    /// A closed line with rounded corners, filled a little.
    Round(Vec<(f32, f32)>),
    /// A closed line with sharp corners.
    Closed(Vec<(f32, f32)>),
    /// A line.
    Line(Vec<(f32, f32)>),
    /// A circle: centre and radius.
    Circle((f32, f32), f32),
    /// A refrigerant pipe of the high side.
    High(Vec<(f32, f32)>),
    /// A refrigerant pipe of the low side.
    Low(Vec<(f32, f32)>),
}

/// Where something sits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaceMark {
    /// Name that parts of the circuit use as their `place`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// On the sheet.
    pub at: (f32, f32),
}

impl Pictures {
    /// What does not fit: a place off the sheet or drawn twice, a part of the circuit at a place that is not drawn.
    pub fn problems(&self, circuit: &CircuitSpec) -> Vec<String> {
        let mut found = Vec::new();
        for (n, mark) in self.places.iter().enumerate() {
            let (x, y) = mark.at;
            if !(0.0..=SHEET.0).contains(&x) || !(0.0..=SHEET.1).contains(&y) {
                found.push(format!("place `{}` lies off the sheet", mark.id));
            }
            if self.places[..n].iter().any(|other| other.id == mark.id) {
                found.push(format!("place `{}` is drawn twice", mark.id));
            }
        }
        let parts = circuit.parts.iter().map(|p| (&p.id, &p.place));
        let supplies = circuit.supplies.iter().map(|s| (&s.id, &s.place));
        let units = circuit.units.iter().map(|u| (&u.id, &u.place));
        for (id, place) in parts.chain(supplies).chain(units) {
            if !place.is_empty() && !self.places.iter().any(|mark| mark.id == *place) {
                found.push(format!("`{id}` sits at `{place}`, which is not drawn"));
            }
        }
        found
    }
}
