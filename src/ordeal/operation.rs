//! One thing done to a loop.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::Rng;

use crate::plant::{CentreHose, Inputs, OpenPlace};

/// An operation of an ordeal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Operation {
    /// Drive or stop the compressor [rev/min].
    Compressor(f64),
    /// Condenser fan, 0 to 1.
    Fan(f64),
    /// Road speed [km/h].
    Road(f64),
    /// Blower [%].
    Blower(f64),
    /// Recirculation flap.
    Recirculate(bool),
    /// Weather: temperature [K] and humidity ratio. Up to 80 °C, as under a bonnet after a stop.
    Weather(f64, f64),
    /// Service hoses.
    Hoses(bool),
    /// Hand valves, low and high, 0 to 1.
    HandValves(f64, f64),
    /// What the centre hose ends in.
    Centre(CentreHose),
    /// A hole of this flow constant [m2] somewhere; 0 closes it.
    Open(OpenPlace, f64),
    /// Hold the expansion valve, or let it go.
    Valve(Option<f64>),
    /// Blocked share of the condenser face.
    Fins(f64),
    /// Share of the flow that leaks back through the reeds.
    Reeds(f64),
    /// Charge put in or taken out at the receiver [kg/s].
    Charge(f64),
}

/// An even number in [low, high).
pub(super) fn between(rng: &mut ChaCha8Rng, low: f64, high: f64) -> f64 {
    let share = (rng.next_u64() >> 11) as f64 / 9_007_199_254_740_992.0;
    low + share * (high - low)
}

/// True once in `n`.
pub(super) fn one_in(rng: &mut ChaCha8Rng, n: u64) -> bool {
    rng.next_u64().is_multiple_of(n)
}

impl Operation {
    /// Anything, by chance.
    pub(super) fn random(rng: &mut ChaCha8Rng) -> Self {
        match rng.next_u64() % 20 {
            0..=3 => Self::Compressor(if one_in(rng, 3) { 0.0 } else { between(rng, 400.0, 9000.0) }),
            4 | 5 => Self::Fan(between(rng, 0.0, 1.0)),
            6 => Self::Road(between(rng, 0.0, 130.0)),
            7 => Self::Blower(between(rng, 0.0, 100.0)),
            8 => Self::Recirculate(one_in(rng, 2)),
            9 => Self::Weather(between(rng, 253.15, 353.15), between(rng, 0.0005, 0.03)),
            10 => Self::Hoses(!one_in(rng, 4)),
            11 | 12 => {
                let turn = |rng: &mut ChaCha8Rng| if one_in(rng, 3) { 0.0 } else { between(rng, 0.0, 1.0) };
                Self::HandValves(turn(rng), turn(rng))
            }
            13 | 14 => Self::Centre(match rng.next_u64() % 6 {
                0 | 1 => CentreHose::Capped,
                2 => CentreHose::Open,
                3 => CentreHose::VacuumPump,
                4 => CentreHose::CylinderVapour,
                _ => CentreHose::CylinderLiquid,
            }),
            15 => {
                let place = match rng.next_u64() % 5 {
                    0 => OpenPlace::SuctionLine,
                    1 => OpenPlace::DischargeLine,
                    2 => OpenPlace::Condenser,
                    3 => OpenPlace::LiquidLine,
                    _ => OpenPlace::Evaporator,
                };
                // From a weeping seal to a burst hose.
                let k = if one_in(rng, 3) { 0.0 } else { libm::exp(between(rng, -25.0, -11.0)) };
                Self::Open(place, k)
            }
            16 => Self::Valve(if one_in(rng, 2) { None } else { Some(between(rng, 0.0, 3.0)) }),
            17 => Self::Fins(between(rng, 0.0, 0.95)),
            18 => Self::Reeds(if one_in(rng, 2) { 0.0 } else { between(rng, 0.0, 0.9) }),
            _ => Self::Charge(if one_in(rng, 2) { 0.0 } else { between(rng, -0.004, 0.004) }),
        }
    }
    /// Turn it into inputs of the plant.
    pub(super) fn change(self, i: &mut Inputs) {
        // Charging by the fault's own path lasts for one operation only.
        i.charge_kg_s = 0.0;
        match self {
            Self::Compressor(rpm) => {
                i.compressor_rpm = rpm;
                i.engine_on = rpm > 0.0;
            }
            Self::Fan(x) => i.fan_share = x,
            Self::Road(x) => i.road_kmh = x,
            Self::Blower(x) => i.blower_pct = x,
            Self::Recirculate(x) => i.recirculate = x,
            Self::Weather(t_k, w) => (i.ambient_t_k, i.ambient_w) = (t_k, w),
            Self::Hoses(x) => *i = i.with_hoses(x),
            Self::HandValves(low, high) => (i.manifold_low, i.manifold_high) = (low, high),
            Self::Centre(x) => i.centre_hose = x,
            Self::Open(place, k) => (i.open_place, i.open_m2) = (place, k),
            Self::Valve(x) => i.metering.held = x,
            Self::Fins(x) => i.fins_blocked = x,
            Self::Reeds(x) => i.reed_leak = x,
            Self::Charge(x) => i.charge_kg_s = x,
        }
    }
}
