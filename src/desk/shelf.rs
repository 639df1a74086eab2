//! Scenarios the desk can open. Until the scenario loader lands here stands the one written in code, and
//! files are read as they are.

use super::demo;
use super::view::Listed;
use crate::scenario::Scenario;

/// Everything on the start list.
pub fn list() -> Vec<Listed> {
    let healthy = demo::scenario();
    vec![Listed { key: healthy.id.clone(), scenario: Ok(healthy) }]
}

/// The scenario behind an id or a path, or one sentence on why not.
pub fn open(key: &str) -> Result<Scenario, String> {
    for listed in list() {
        if listed.key == key {
            return listed.scenario;
        }
    }
    let text = std::fs::read_to_string(key).map_err(|e| format!("cannot read scenario {key}: {e}"))?;
    ron::Options::default()
        .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
        .from_str(&text)
        .map_err(|e| format!("{key}:{e}"))
}
