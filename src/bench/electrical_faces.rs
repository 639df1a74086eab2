//! The faces of the electrical tools for a snapshot.

use super::Bench;
use super::snapshot::{ElectricalFaces, ReaderFace};
use crate::circuit::{Guard, spec::Kind};
use crate::instrument::{MeterMode, Probe, meter};

impl Bench {
    pub(super) fn electrical_faces(&self) -> ElectricalFaces {
        let (tools, parts) = (&self.rack.electrical, self.circuit.parts());
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
            .filter_map(|p| tools.shown(&p, self.seed, self.tick))
            .any(|ohm| ohm < meter::SOUNDS_OHM);
        let named = |p: &crate::circuit::spec::Part| (p.id.clone(), p.name.clone());
        ElectricalFaces {
            meter_range: tools.keys.range,
            meter_relative: tools.keys.relative.is_some(),
            meter_fuse_blown: tools.keys.fuse_blown,
            meter_proven: self.meter_is_proven(),
            meter_sounds: sounds,
            clamp_zeroed: tools.clamp.zeroed.is_some(),
            reader: self.electrics.reader.then(|| self.reader_face()),
            done: self.electrics.clone(),
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
