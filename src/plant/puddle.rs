//! Water under vacuum. A puddle that boils is colder than the wall it lies on, since the heat of its steam has to come
//! through it; pumped on harder than heat can follow it freezes, and ice gives off little.
//!
//! Sizes of puddles are own estimates: grams leave a loop in tens of minutes, as they do in practice.

use super::dual::D3;
use crate::constants::{R_DRY_AIR, R_STEAM, TRIPLE_POINT_K};
use crate::moist_air;

/// Mass of air that makes the pressure of a kilogram of steam.
pub const AIR_PER_STEAM: f64 = R_STEAM / R_DRY_AIR;
/// Heat that boiling takes, and that ice takes to become steam, near 0 °C [J/kg].
const LATENT_J_KG: f64 = 2.5e6;
const SUBLIMATION_J_KG: f64 = 2.83e6;
/// Mass that the numbers of a puddle below are stated for [kg]; area goes with the power 2/3 of the mass.
const GRAM_KG: f64 = 1e-3;
/// Conductance from the wall through a gram of water [W/K]: some square centimetres, some millimetres deep.
const CONTACT_W_K: f64 = 0.1;
/// The same of ice over that of water: it touches the wall in places only, and thin gas fills some tenths of a millimetre.
const ICE_CONTACT: f64 = 0.1;
/// Boiling from the surface of a gram per pascal below its vapour pressure [kg/(s Pa)]: a few hundredths of what the
/// kinetic theory of gases would let go (order of magnitude from memory).
const SURFACE_KG_S_PA: f64 = 1e-8;
/// Pressure above which no water in a loop at bearable temperatures boils [Pa].
const BOILS_BELOW_PA: f64 = 5e4;
/// Pressure difference over which boiling sets in [Pa].
const SETS_IN_PA: f64 = 0.5;

/// Water of one volume at rest between heat from the wall and boiling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Puddle {
    /// Temperature [K]: below the triple point it is ice.
    pub t_k: f64,
    /// Steam that leaves it [kg/s].
    pub steam_kg_s: f64,
    /// How much less leaves per pascal more above it, its temperature having followed [kg/(s Pa)].
    pub per_pa: f64,
}

impl Puddle {
    /// Where `kg` of water on a wall at `wall_k` comes to rest under `p_pa`. Its vapour pressure is the share `activity`
    /// of that of pure water: 1 where it is free, less where it is dissolved.
    pub fn at(kg: f64, activity: f64, wall_k: f64, p_pa: f64) -> Self {
        let area = libm::pow(kg.max(0.0) / GRAM_KG, 2.0 / 3.0);
        let surface = SURFACE_KG_S_PA * area;
        let balance = |contact_w_k: f64, latent_j_kg: f64| {
            let mut t = wall_k;
            let vapour_pa = |t: f64| activity * moist_air::saturation_pressure_pa(t);
            let slope = |t: f64| activity * moist_air::saturation_pressure_slope(t);
            // Newton's way down from the wall's temperature: the balance is convex, so it never oversteps.
            for _ in 0..12 {
                let off = latent_j_kg * surface * (vapour_pa(t) - p_pa) - contact_w_k * (wall_k - t);
                let step = off / (latent_j_kg * surface * slope(t) + contact_w_k);
                t -= step;
                if step.abs() < 1e-6 {
                    break;
                }
            }
            let steam_kg_s = surface * (vapour_pa(t) - p_pa);
            // Surface and heat resist one after the other.
            let per_pa = 1.0 / (1.0 / surface + latent_j_kg * slope(t) / contact_w_k);
            Self { t_k: t, steam_kg_s, per_pa }
        };
        let contact = CONTACT_W_K * area;
        let water = balance(contact, LATENT_J_KG);
        if water.t_k >= TRIPLE_POINT_K { water } else { balance(ICE_CONTACT * contact, SUBLIMATION_J_KG) }
    }
    /// Is it ice?
    pub fn frozen(&self) -> bool {
        self.t_k < TRIPLE_POINT_K
    }
}

/// How the water of one volume boils over a step: a straight line in the pressure above it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Boiling {
    /// Pressure at which it stops [Pa].
    below_pa: f64,
    /// Steam per pascal below that [kg/(s Pa)].
    per_pa: f64,
    /// All there is, over the step [kg/s].
    most_kg_s: f64,
    /// Heat it takes from the wall [J/kg].
    pub latent_j_kg: f64,
    /// Ice [kg].
    pub frozen_kg: f64,
}

impl Boiling {
    /// Of `kg` of water, `free_kg` of it not dissolved, under `p_pa`; none where it does not boil.
    pub fn of((kg, free_kg): (f64, f64), activity: f64, wall_k: f64, p_pa: f64, dt_s: f64) -> Option<Self> {
        if kg <= 0.0 || p_pa >= BOILS_BELOW_PA {
            return None;
        }
        let vapour_pa = activity * moist_air::saturation_pressure_pa(wall_k);
        if p_pa > 2.0 * vapour_pa {
            return None;
        }
        let puddle = Puddle::at(kg, activity, wall_k, p_pa.min(vapour_pa));
        let frozen = puddle.frozen();
        Some(Self {
            below_pa: p_pa.min(vapour_pa) + puddle.steam_kg_s / puddle.per_pa.max(f64::MIN_POSITIVE),
            per_pa: puddle.per_pa,
            most_kg_s: kg / dt_s,
            latent_j_kg: if frozen { SUBLIMATION_J_KG } else { LATENT_J_KG },
            frozen_kg: if frozen { free_kg } else { 0.0 },
        })
    }
    /// Steam at a pressure of the volume [kg/s].
    pub fn steam_kg_s(&self, p: D3) -> D3 {
        let steam = (-p + self.below_pa).soft_positive(SETS_IN_PA) * self.per_pa;
        // Never more than there is, and without a corner.
        steam / (steam * (1.0 / self.most_kg_s.max(1e-12)) + 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::constants::{ATMOSPHERE_PA, INCH_HG_PA, MICRON_PA, ZERO_C_K};

    fn gram(t_c: f64, p_pa: f64) -> Puddle {
        Puddle::at(1e-3, 1.0, t_c + ZERO_C_K, p_pa)
    }

    /// IAPWS-95 through CoolProp 8.0.0: water of 70 °F boils at 18,790 micron, 2.505 kPa; the absolute pressure counts, so a gauge at
    /// 5,000 ft, which reads 84.3 kPa below zero at most, shows it at another number.
    #[test]
    fn water_at_21_degrees_boils_below_two_and_a_half_kilopascals() {
        let boils = 18_790.0 * MICRON_PA;
        let boiling = |p_pa: f64| Boiling::of((1e-3, 1e-3), 1.0, 21.11 + ZERO_C_K, p_pa, 1.0);
        let steam = |p: f64| boiling(p).map_or(0.0, |b| b.steam_kg_s(D3::constant(p)).v);
        assert!(
            steam(1.01 * boils) < 1e-3 * steam(0.9 * boils),
            "{} {}",
            steam(1.01 * boils),
            steam(0.9 * boils)
        );
        assert!(steam(0.99 * boils) > 5.0 * steam(1.01 * boils));
        assert!(steam(0.9 * boils) > 1e-8);
        let inch_hg = |outside_pa: f64| (outside_pa - boils) / INCH_HG_PA;
        assert!((inch_hg(ATMOSPHERE_PA) - 29.182).abs() < 0.01 && (inch_hg(84_307.0) - 24.16).abs() < 0.01);
    }

    #[test]
    fn a_puddle_boils_colder_than_its_wall_and_freezes_when_pulled_too_hard() {
        let slow = gram(21.0, 1500.0);
        assert!(!slow.frozen() && slow.t_k < 294.15 && slow.t_k > 284.15, "{slow:?}");
        // The heat of the steam is what comes through from the wall.
        let heat = CONTACT_W_K * (294.15 - slow.t_k);
        assert!((slow.steam_kg_s * LATENT_J_KG / heat - 1.0).abs() < 1e-4);
        let hard = gram(21.0, 100.0);
        assert!(hard.frozen() && hard.t_k < 273.16, "{hard:?}");
        // Ice gives off less than water does under a pressure fifteen times as high.
        assert!(hard.steam_kg_s < slow.steam_kg_s, "{hard:?} {slow:?}");
        // Warm walls keep it from freezing at the same pull.
        assert!(!gram(60.0, 700.0).frozen());
    }

    /// Above 611 Pa there is no ice on a warm wall; well below it there is.
    #[test]
    fn freezing_needs_less_than_the_triple_point() {
        for p in [620.0, 1000.0, 2000.0] {
            assert!(!gram(21.0, p).frozen(), "{p}");
        }
        for p in [20.0, 100.0, 300.0] {
            assert!(gram(5.0, p).frozen(), "{p}");
        }
    }

    #[test]
    fn the_straight_line_touches_the_balance() {
        for p in [50.0, 400.0, 900.0, 1800.0] {
            let wall_k = 295.0;
            let at = Puddle::at(2e-3, 1.0, wall_k, p);
            let line = Boiling::of((2e-3, 2e-3), 1.0, wall_k, p, 1.0).unwrap();
            let got = line.steam_kg_s(D3::constant(p)).v;
            assert!((got / at.steam_kg_s - 1.0).abs() < 1e-3, "{p}: {got} {}", at.steam_kg_s);
            let more = Puddle::at(2e-3, 1.0, wall_k, p + 1.0);
            let slope = at.steam_kg_s - more.steam_kg_s;
            assert!((slope / at.per_pa - 1.0).abs() < 0.01, "{p}: {slope:e} {:e}", at.per_pa);
        }
    }

    #[test]
    fn dissolved_water_boils_later() {
        let wall_k = 295.0;
        let p = 1500.0;
        assert!(Boiling::of((1e-4, 0.0), 1.0, wall_k, p, 1.0).is_some());
        let late =
            Boiling::of((1e-4, 0.0), 0.3, wall_k, p, 1.0).map_or(0.0, |b| b.steam_kg_s(D3::constant(p)).v);
        assert!(late < 1e-12, "{late}");
    }
}
