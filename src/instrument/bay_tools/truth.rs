//! What is true where the service bay's tools are put: plain numbers, so that the tools know neither plant nor bench.

/// What is true at a place where a leak is searched for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LeakTruth {
    /// Refrigerant that comes out [kg/s].
    pub refrigerant_kg_s: f64,
    /// Gas of any kind that comes out, at the pressure of the outside air [m3/s]; negative where air goes in.
    pub gas_m3_s: f64,
    /// Dye that came out there with oil [kg].
    pub dye_kg: f64,
    /// Speed of the air past the place [m/s].
    pub wind_m_s: f64,
}

/// What is true where the tools of the bay are put. The default is a place without a bay, with nothing in the air.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BayTruth {
    /// Pressure in the centre hose [Pa absolute].
    pub centre_hose_pa: f64,
    /// Recovery cylinder with what is in it [kg].
    pub recovery_scale_kg: f64,
    /// Vessel last put on the centre hose, with what is in it [kg].
    pub charging_scale_kg: f64,
    /// Oil in the measuring glass of the recovery machine [m3].
    pub recovered_oil_m3: f64,
    /// Pipes an infrared thermometer is aimed at, in the order of [`crate::instrument::PipePlace::ALL`] [K].
    pub pipe_t_k: [f64; 6],
    /// Wet bulbs in the order of [`crate::instrument::AirPlace::ALL`] [K].
    pub wet_bulb_k: [f64; 4],
    /// Air out of the vents [m3/s].
    pub airflow_m3_s: f64,
    /// In the order of [`crate::instrument::SearchPlace::ALL`].
    pub leaks: [LeakTruth; 9],
    /// Refrigerant that hangs in the air of the bay [kg/m3].
    pub bay_air_kg_m3: f64,
    /// The compressor's shaft turns.
    pub shaft_turning: bool,
    /// The sample at the identifier: share that is refrigerant and share that is air, by mass, 0 to 1.
    pub sample: Option<(f64, f64)>,
}

/// Air in the bay [m3]: a shop of 6 by 5 by 3.3 m (common practice, no source).
pub const BAY_M3: f64 = 100.0;
