//! What is true where instruments are put, asked for only when one is there. The bench answers; instruments know neither
//! plant nor bench.

use crate::circuit::Circuit;
use crate::places::{AirPlace, PipePlace, SearchPlace};

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

/// What is true now. An instrument that senses something new adds a question here, and its answer in `bench/truth.rs`.
pub trait Truth {
    /// The gauges feel what is in their hoses; without them they feel open air.
    fn gauges_live(&self) -> bool;
    /// Pressure where the low gauge sits [Pa gauge].
    fn low_gauge_pa(&self) -> f64;
    /// Pressure where the high gauge sits [Pa gauge].
    fn high_gauge_pa(&self) -> f64;
    /// The compressor's shaft turns: it pumps, which makes needles flutter, and no soap film holds on its seal.
    fn compressor_turns(&self) -> bool;
    /// Air around pipes and tools not in use [K].
    fn surroundings_k(&self) -> f64;
    /// Wall of a pipe [K].
    fn pipe_k(&self, place: PipePlace) -> f64;
    /// What a clamp on a pipe touches [K]: its wall, or less of it where the clamp sits badly.
    fn clamped_k(&self, place: PipePlace) -> f64;
    /// Air, dry bulb [K].
    fn air_k(&self, place: AirPlace) -> f64;
    /// Air, wet bulb [K].
    fn wet_bulb_k(&self, place: AirPlace) -> f64;
    /// Air out of the vents [m3/s].
    fn vent_m3_s(&self) -> f64;
    /// Share of bubbles in the sight glass, 0 to 1.
    fn bubbles(&self) -> f64;
    /// The circuit that electrical tools hang on; without one they find no place.
    fn circuit(&self) -> Option<&Circuit>;
    /// Pressure in the centre hose [Pa absolute].
    fn centre_hose_pa(&self) -> f64;
    /// Recovery cylinder with what is in it [kg].
    fn recovery_scale_kg(&self) -> f64;
    /// Vessel last put on the centre hose, with what is in it [kg].
    fn charging_scale_kg(&self) -> f64;
    /// Oil in the measuring glass of the recovery machine [m3].
    fn recovered_oil_m3(&self) -> f64;
    /// What comes out where a leak is searched for.
    fn leak(&self, place: SearchPlace) -> LeakTruth;
    /// Refrigerant that hangs in the air of the workshop [kg/m3].
    fn workshop_air_kg_m3(&self) -> f64;
    /// The sample at the identifier, once it is through with it: share that is refrigerant and share that is air, by mass,
    /// 0 to 1.
    fn sample(&self) -> Option<(f64, f64)>;
}
