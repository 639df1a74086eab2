//! Rigs: the cars on the bench, each a strict RON file embedded in the program.

use serde::{Deserialize, Serialize};

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
}

/// A rig that does not exist, or whose file is broken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RigError {
    /// No rig of that name.
    #[error("there is no rig `{id}`; there is {known}")]
    Unknown {
        /// Name asked for.
        id: String,
        /// Names that exist.
        known: String,
    },
    /// The embedded file does not parse.
    #[error("rig file {id}: {reason}")]
    Broken {
        /// Which.
        id: &'static str,
        /// Why.
        reason: String,
    },
}

const FILES: [(&str, &str); 1] = [("compact_car", include_str!("../assets/rigs/compact_car.ron"))];

impl Rig {
    /// Names of all rigs.
    pub fn ids() -> impl Iterator<Item = &'static str> {
        FILES.iter().map(|(id, _)| *id)
    }
    /// Load an embedded rig.
    pub fn load(id: &str) -> Result<Self, RigError> {
        let Some((name, text)) = FILES.iter().find(|(name, _)| *name == id) else {
            return Err(RigError::Unknown {
                id: id.into(),
                known: Self::ids().collect::<Vec<_>>().join(", "),
            });
        };
        ron::from_str(text).map_err(|e| RigError::Broken { id: name, reason: e.to_string() })
    }
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
    }
}
