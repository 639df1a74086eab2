//! The faces of the electrical tools for a snapshot.

use super::done::Electrics;
use super::side::ElectricalSide;
use crate::circuit::Guard;
use crate::circuit::spec::{Kind, Part};
use crate::instrument::{Electrical, MeterMode, MeterRange, Probe, meter};

/// Faces of the electrical tools. What meter, lamp and clamp show stands in [`Instruments::placed`](crate::bench::Instruments::placed) as well.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ElectricalFaces {
    /// Range of the multimeter for volts.
    pub meter_range: MeterRange,
    /// The relative key is on.
    pub meter_relative: bool,
    /// The fuse of its ampere socket has blown: it shows zero until `RenewFuse("meter")`.
    pub meter_fuse_blown: bool,
    /// It was tried on a known source within the last ten minutes.
    pub meter_proven: bool,
    /// It sounds (continuity, less than 30 ohm).
    pub meter_sounds: bool,
    /// The clamp has been zeroed.
    pub clamp_zeroed: bool,
    /// What the reader shows; none while it is not plugged in.
    pub reader: Option<ReaderFace>,
    /// Jumper, plugs, relays, isolators, proving, mistakes and unsafe acts as they stand.
    pub done: Electrics,
    /// Names of all connectors that can be unplugged.
    pub connectors: Vec<String>,
    /// Fuses of the rig by part id and name.
    pub fuses: Vec<(String, String)>,
    /// Relays of the rig.
    pub relays: Vec<String>,
    /// Parts that a clamp fits round, by id and name.
    pub parts: Vec<(String, String)>,
    /// Guards of the rig that can be isolated.
    pub guards: Vec<Guard>,
}

/// A reader's screen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReaderFace {
    /// Control unit id, value id, name, value (none where its signal is implausible) and unit.
    pub values: Vec<(String, String, String, Option<f64>, String)>,
    /// Control unit id, what the code says, whether it is present now.
    pub codes: Vec<(String, String, bool)>,
}

impl ElectricalSide {
    /// Faces of the tools at a tick, with the noise of a seed.
    pub fn faces(&self, tools: &Electrical, seed: u64, tick: u64) -> ElectricalFaces {
        let parts = self.circuit.parts();
        let isolates =
            |plug: &str| parts.iter().any(|p| p.connector == plug && matches!(p.kind, Kind::Isolator { .. }));
        let mut connectors: Vec<String> = parts
            .iter()
            .map(|p| p.connector.clone())
            .filter(|plug| !plug.is_empty() && !isolates(plug))
            .collect();
        connectors.sort();
        connectors.dedup();
        let continuity = |p: &Probe| matches!(p, Probe::Meter { mode: MeterMode::Continuity, .. });
        let sounds = tools
            .placed()
            .filter(continuity)
            .filter_map(|p| tools.shown(&p, seed, tick))
            .any(|ohm| ohm < meter::CONTINUITY_OHM);
        let named = |p: &Part| (p.id.clone(), p.name.clone());
        ElectricalFaces {
            meter_range: tools.keys.range,
            meter_relative: tools.keys.relative.is_some(),
            meter_fuse_blown: tools.keys.fuse_blown,
            meter_proven: self.meter_is_proven(tick),
            meter_sounds: sounds,
            clamp_zeroed: tools.clamp.zeroed.is_some(),
            reader: self.done.reader.then(|| self.reader_face()),
            done: self.done.clone(),
            connectors,
            fuses: parts.iter().filter(|p| matches!(p.kind, Kind::Fuse { .. })).map(named).collect(),
            relays: parts
                .iter()
                .filter_map(|p| match &p.kind {
                    Kind::Coil { relay, .. } => Some(relay.clone()),
                    _ => None,
                })
                .collect(),
            parts: parts.iter().map(named).collect(),
            guards: [Guard::Traction, Guard::Mains]
                .into_iter()
                .filter(|g| self.isolators(*g).next().is_some())
                .collect(),
        }
    }

    fn reader_face(&self) -> ReaderFace {
        let values = self.circuit.values().into_iter();
        let codes = self.circuit.codes().into_iter();
        ReaderFace {
            values: values
                .map(|v| (v.unit.into(), v.id.into(), v.name.into(), v.value, v.in_unit.into()))
                .collect(),
            codes: codes.map(|c| (c.unit.into(), c.words.into(), c.present)).collect(),
        }
    }
}
