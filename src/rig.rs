//! Rigs: what stands on the bench, each a folder of strict RON files embedded in the program: `loop.ron`
//! is the loop, `circuit.ron` the electrical side, `pictures.ron` what is drawn of it.

pub mod pictures;

use std::sync::{LazyLock, OnceLock};

use serde::{Deserialize, Serialize};

use self::pictures::Pictures;
use crate::assets::{RIGS, by_id};
use crate::circuit::spec::{Supply, SupplyKind};
use crate::circuit::{CircuitSpec, part};
use crate::message::{WORD, fit};
use crate::plant::PlantSpec;

/// A rig file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rig {
    /// Name in scenario files.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it is, in a line.
    pub words: String,
    /// Its loop.
    pub plant: PlantSpec,
    /// Its circuit, from `circuit.ron`.
    #[serde(skip)]
    pub circuit: CircuitSpec,
    /// Its pictures, from `pictures.ron`.
    #[serde(skip)]
    pub pictures: Pictures,
}

/// A rig that does not exist, or whose file is broken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RigError {
    /// No rig of that name.
    #[error("there is no rig `{}`; there is {known}", fit(.id, WORD))]
    Unknown {
        /// Name asked for.
        id: String,
        /// Names that exist.
        known: String,
    },
    /// An embedded file is missing or does not parse.
    #[error("rig file {id}/{file}: {reason}")]
    Broken {
        /// Which rig.
        id: &'static str,
        /// Which of its files.
        file: &'static str,
        /// Why.
        reason: String,
    },
}

impl Rig {
    /// Names of all rigs: the folders that hold a loop.
    pub fn ids() -> impl Iterator<Item = &'static str> {
        RIGS.iter().filter_map(|shipped| shipped.id.strip_suffix("/loop"))
    }
    /// The text of an embedded file of a rig's folder.
    pub(crate) fn file(id: &str, name: &str) -> Option<&'static str> {
        by_id(RIGS, &format!("{id}/{}", name.strip_suffix(".ron")?)).map(|shipped| shipped.text)
    }
    /// Has its circuit a part, a supply or (as `alternator`) the charging of a 12 V battery of this name?
    pub fn has_part(&self, id: &str) -> bool {
        let charged = |s: &Supply| matches!(s.kind, SupplyKind::Battery { .. });
        self.circuit.parts.iter().any(|part| part.id == id)
            || self.circuit.supplies.iter().any(|s| s.id == id || (id == part::ALTERNATOR && charged(s)))
    }
    /// A copy of an embedded rig.
    ///
    /// # Errors
    /// When there is none of that name, or its files are broken.
    pub fn load(id: &str) -> Result<Self, RigError> {
        Self::shipped(id).cloned()
    }
    /// An embedded rig. Its files are read once, when it is first asked for.
    ///
    /// # Errors
    /// When there is none of that name, or its files are broken.
    pub fn shipped(id: &str) -> Result<&'static Self, RigError> {
        match SHIPPED.iter().find(|(known, _)| *known == id) {
            Some((id, rig)) => rig.get_or_init(|| Self::parse(id)).as_ref().map_err(Clone::clone),
            None => {
                Err(RigError::Unknown { id: id.into(), known: Self::ids().collect::<Vec<_>>().join(", ") })
            }
        }
    }
    fn parse(id: &'static str) -> Result<Self, RigError> {
        let mut rig: Self = read(id, "loop.ron")?;
        rig.circuit = read(id, "circuit.ron")?;
        let problems = rig.circuit.problems();
        if !problems.is_empty() {
            return Err(RigError::Broken { id, file: "circuit.ron", reason: problems.join("; ") });
        }
        rig.pictures = read(id, "pictures.ron")?;
        let problems = rig.pictures.problems(&rig.circuit);
        if !problems.is_empty() {
            return Err(RigError::Broken { id, file: "pictures.ron", reason: problems.join("; ") });
        }
        Ok(rig)
    }
    /// The line of its service label that tells rigs apart: refrigerant, charge, oil.
    pub fn label_line(&self) -> String {
        format!(
            "{}, {:.0} g · {}, {:.0} g",
            self.plant.refrigerant,
            self.plant.full_charge_kg * 1e3,
            self.pictures.label.oil,
            self.plant.oil.full_kg * 1e3
        )
    }
}

/// All embedded rigs by id, each once it was asked for.
static SHIPPED: LazyLock<Vec<(&'static str, OnceLock<Result<Rig, RigError>>)>> =
    LazyLock::new(|| Rig::ids().map(|id| (id, OnceLock::new())).collect());

/// One file of a rig's folder.
fn read<T: serde::de::DeserializeOwned>(id: &'static str, file: &'static str) -> Result<T, RigError> {
    let broken = |reason: String| RigError::Broken { id, file, reason };
    let text = Rig::file(id, file).ok_or_else(|| broken("missing".into()))?;
    ron::from_str(text).map_err(|e| broken(e.to_string()))
}

#[cfg(test)]
mod tests {
    use super::Rig;

    #[test]
    fn every_rig_loads() {
        for id in Rig::ids() {
            assert_eq!(Rig::load(id).unwrap().id, id);
        }
        assert!(Rig::load("submarine").is_err());
        let once = Rig::shipped("sedan").unwrap();
        assert!(core::ptr::eq(once, Rig::shipped("sedan").unwrap()), "read once");
    }
}
