//! The columns of a trace: one moment of a bench as named numbers, SI throughout.

use serde::ser::{Serialize, SerializeMap, Serializer};

use crate::bench::{Bench, Snapshot};

/// One row: names and values in the order of the columns; booleans are 0 or 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Row(pub Vec<(&'static str, f64)>);

const POINTS: [[&str; 4]; 6] = [
    ["p1_pa", "h1_j_per_kg", "t1_k", "x1"],
    ["p2_pa", "h2_j_per_kg", "t2_k", "x2"],
    ["p3_pa", "h3_j_per_kg", "t3_k", "x3"],
    ["p4_pa", "h4_j_per_kg", "t4_k", "x4"],
    ["p5_pa", "h5_j_per_kg", "t5_k", "x5"],
    ["p6_pa", "h6_j_per_kg", "t6_k", "x6"],
];

impl Row {
    /// The row of a bench as it stands.
    pub fn of(bench: &Bench) -> Self {
        Self::from_snapshot(&bench.snapshot(true))
    }

    /// The row of a snapshot; without an inside, only what can be seen from outside.
    pub fn from_snapshot(snapshot: &Snapshot) -> Self {
        let inside = snapshot.inside.clone().unwrap_or_default();
        let outside = &snapshot.outside;
        let mut row = vec![
            ("time_s", snapshot.time_s),
            ("engine_rpm", outside.engine_rpm),
            ("compressor_rpm", inside.compressor_rpm),
            ("clutch_engaged", f64::from(u8::from(outside.clutch_engaged))),
            ("fan_speed_pct", outside.fan_speed_pct),
        ];
        for (names, point) in POINTS.iter().zip(&inside.points) {
            row.extend(names.iter().copied().zip([point.p_pa, point.h_j_per_kg, point.t_k, point.x]));
        }
        row.extend([
            ("m_compressor_kg_s", inside.m_compressor_kg_s),
            ("m_metering_kg_s", inside.m_metering_kg_s),
            ("q_condenser_w", inside.q_condenser_w),
            ("q_evaporator_w", inside.q_evaporator_w),
            ("w_compressor_w", inside.w_compressor_w),
            ("q_other_w", inside.q_other_w),
            ("superheat_k", inside.superheat_k),
            ("subcooling_k", inside.subcooling_k),
            ("gauge_low_pa", inside.gauge_low_pa),
            ("gauge_high_pa", inside.gauge_high_pa),
            ("charge_kg", inside.charge_kg),
            ("released_kg", inside.released_kg),
            ("receiver_level", inside.receiver_level),
            ("sight_glass_bubbles", inside.sight_glass_bubbles),
            ("vent_t_k", inside.vent_t_k),
            ("cabin_t_k", inside.cabin_t_k),
            ("ambient_t_k", inside.ambient_t_k),
            ("air_kg", inside.air_kg),
            ("valve_lift", inside.valve_lift),
            ("engine_t_k", inside.engine_t_k),
            ("bay_t_k", inside.bay_t_k),
            ("condenser_air_on_t_k", inside.condenser_air_on_t_k),
            ("coil_water_kg", inside.coil_water_kg),
            ("coil_frost_kg", inside.coil_frost_kg),
            ("drained_kg", inside.drained_kg),
            ("shell_t_k", inside.shell_t_k),
            ("friction_w", inside.friction_w),
            ("compressor_wear", inside.compressor_wear),
            ("reeds_battered", inside.reeds_battered),
            ("oil_sump_kg", inside.oil_sump_kg),
            ("oil_kg", inside.oil_kg),
            ("dissolved_kg", inside.dissolved_kg),
            ("water_kg", inside.water_kg),
            ("water_bound_kg", inside.water_bound_kg),
            ("valve_ice_kg", inside.valve_ice_kg),
        ]);
        Self(row)
    }

    /// First line of a trace.
    pub fn header(&self) -> String {
        self.0.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(",")
    }

    /// This row as a line of a trace.
    pub fn line(&self) -> String {
        self.0.iter().map(|(_, value)| value.to_string()).collect::<Vec<_>>().join(",")
    }

    /// Columns that should be numbers and are not. Vapour shares are NaN in a single phase by design.
    pub fn not_finite(&self) -> impl Iterator<Item = &'static str> + '_ {
        self.0
            .iter()
            .filter(|(name, value)| !(value.is_finite() || value.is_nan() && name.starts_with('x')))
            .map(|(name, _)| *name)
    }
}

impl Serialize for Row {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(Some(self.0.len()))?;
        for (name, value) in &self.0 {
            map.serialize_entry(name, value)?;
        }
        map.end()
    }
}
