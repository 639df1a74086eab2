//! What a step does to the water on the evaporator: taken from the air as dew or frost, clinging, frozen or melted,
//! dried off again or run out of the drain.

use super::cabin::VentAir;
use super::coil::CoilAir;
use super::coil_cell::CONDENSING;
use super::coil_water::CoilWater;
use crate::moist_air::{self, CP_DRY_AIR};
use crate::units::ZERO_C_K;

impl CoilWater {
    /// Move on over a step of `dt_s` in which the walls went from `old_k` to `new_k`. Returns the air off the coil
    /// and the water it left there [kg/s].
    pub fn step(&mut self, coil: &CoilAir, old_k: &[f64], new_k: &[f64], dt_s: f64) -> (VentAir, f64) {
        let (mut heat_w, mut left_kg_s, mut gone_kg_s) = (0.0, 0.0, 0.0);
        for ((cell, &old), &new) in self.cells.iter_mut().zip(old_k).zip(new_k) {
            let (heat, mut taken, melting) = coil.cell(old, cell, dt_s).taken(new);
            // A freezing wall takes and gives frost, a warmer one water, also where old frost still melts.
            let exchanged = if old < ZERO_C_K { &mut cell.frost_kg } else { &mut cell.film_kg };
            taken = taken.max(-*exchanged / dt_s);
            *exchanged = (*exchanged + taken * dt_s).max(0.0);
            heat_w += heat;
            left_kg_s += taken.max(0.0);
            gone_kg_s += (-taken).max(0.0);
            let melted = (melting * dt_s).clamp(-cell.film_kg, cell.frost_kg);
            cell.frost_kg -= melted;
            cell.film_kg += melted;
        }
        let mut vent = VentAir {
            t_k: coil.t_k - heat_w / (coil.flow_kg_s * CP_DRY_AIR),
            w: coil.w - (left_kg_s - gone_kg_s) / coil.flow_kg_s,
        };
        left_kg_s += settle_fog(&mut vent, coil.p_pa, |fog| {
            let fog_kg = fog * coil.flow_kg_s * dt_s / coil.path.cells;
            self.cells.iter_mut().for_each(|c| c.film_kg += fog_kg);
        }) * coil.flow_kg_s;
        let most = coil.surface.holdup_kg_m2 * coil.surface.surface_m2 / coil.path.cells;
        for cell in &mut self.cells {
            let drained = (cell.film_kg - most).max(0.0);
            cell.film_kg -= drained;
            self.drained_kg += drained * coil.drain;
            self.pool_kg += drained * (1.0 - coil.drain);
        }
        self.condensed_kg += left_kg_s * dt_s;
        self.evaporated_kg += gone_kg_s * dt_s;
        (vent, left_kg_s)
    }
}

/// A mixture of moist and of saturated air can be fog. Its droplets settle in the fins and their heat stays with
/// the air, down to saturation: `keep` is told, and the return value is, the water that falls out per air.
fn settle_fog(vent: &mut VentAir, p_pa: f64, keep: impl FnOnce(f64)) -> f64 {
    let before = vent.w;
    let (mut saturated, mut slope) = moist_air::saturated_with_slope(vent.t_k, p_pa);
    if before <= saturated {
        return 0.0;
    }
    for _ in 0..4 {
        let rise_k = (vent.w - saturated) * CONDENSING / (CP_DRY_AIR + CONDENSING * slope);
        vent.t_k += rise_k;
        vent.w -= rise_k * CP_DRY_AIR / CONDENSING;
        (saturated, slope) = moist_air::saturated_with_slope(vent.t_k, p_pa);
    }
    vent.w = vent.w.min(saturated);
    keep(before - vent.w);
    before - vent.w
}

#[cfg(test)]
mod tests {
    use super::super::coil_cell::MELTING;
    use super::super::coil_water::CellWater;
    use super::*;
    use crate::plant::testing::rig;
    use crate::plant::{Inputs, PlantSpec};
    use crate::units::ATMOSPHERE_PA;

    fn car() -> PlantSpec {
        rig("compact_car")
    }

    /// Air at a temperature [°C] and humidity ratio that meets the rig's coil.
    fn air(t_c: f64, w: f64, blower_pct: f64, water: &CoilWater) -> CoilAir {
        let spec = car();
        let cabin = crate::plant::Cabin { t_k: t_c + ZERO_C_K, w, trim_k: t_c + ZERO_C_K };
        let inputs = Inputs {
            blower_pct,
            ambient_t_k: t_c + ZERO_C_K,
            ambient_w: w,
            ..super::super::slopes_tests::inputs()
        };
        let mut spec_cabin = spec.cabin;
        spec_cabin.blower_w = 0.0;
        CoilAir::new(&spec_cabin, &spec.coil, &inputs, &cabin, water)
    }

    /// Physics.md section 3: 27 °C and 50 % to 8 °C and 95 %, 0.12 kg/s: 4.85 g/kg, 2.10 kg/h (CoolProp).
    #[test]
    fn the_published_coil_case_condenses_as_much() {
        let mut water = CoilWater::dry(6);
        let coil = air(27.0, 0.011_196, 100.0 * 0.12 / car().cabin.blower_kg_s, &water);
        assert!((coil.flow_kg_s - 0.12).abs() < 1e-9);
        // The wall that makes 8 °C.
        let (mut low, mut high) = (263.15, 281.15);
        for _ in 0..60 {
            let wall = 0.5 * (low + high);
            let vent = water.clone().step(&coil, &[wall; 6], &[wall; 6], 1.0).0;
            if vent.t_k < 281.15 { low = wall } else { high = wall }
        }
        let (vent, kg_s) = water.step(&coil, &[low; 6], &[low; 6], 1.0);
        let per_hour = kg_s * 3600.0;
        println!("wall {:.2} °C, {per_hour:.3} kg/h, off at {:.5}", low - ZERO_C_K, vent.w);
        assert!((vent.t_k - 281.15).abs() < 1e-6);
        assert!((per_hour / 2.10 - 1.0).abs() < 0.10, "{per_hour} kg/h");
    }

    /// What the wall gets is what the air loses, sensible and latent, less what frost melts with.
    #[test]
    fn heat_of_a_cell_closes() {
        for (wall, frost_kg, film_kg) in [
            (280.0, 0.0, 0.0),
            (280.0, 0.0, 0.01),
            (300.0, 0.0, 0.01),
            (265.0, 0.0, 0.01),
            (265.0, 0.05, 0.0),
            (275.0, 0.05, 0.01),
        ] {
            let water = CoilWater { cells: vec![CellWater { film_kg, frost_kg }; 6], ..CoilWater::default() };
            let coil = air(27.0, 0.0112, 50.0, &water);
            let cell = coil.cell(wall, &water.cells[0], 1.0);
            let side = cell.side();
            for new in [wall - 1.0, wall, wall + 2.0] {
                let housing = 0.5 * car().coil.box_w_k / 6.0 * (300.15 - new);
                let got = side.conductance_w_k * (side.t_k - new) + side.latent_w
                    - side.latent_slope_w_k * (new - wall)
                    - housing;
                let (heat, taken, melting) = cell.taken(new);
                let want = heat + taken * cell.latent() - melting * MELTING;
                assert!((got - want).abs() < 1e-6, "{wall} {frost_kg}: {got} {want}");
            }
        }
    }

    /// Any wall, any air: books close, nothing turns negative, and air off the coil holds no more than it can.
    #[test]
    fn air_off_the_coil_is_never_fog_and_the_books_close() {
        let mut water = CoilWater::dry(6);
        let mut old = [290.0; 6];
        for step in 0..4000_u32 {
            // A fixed walk through odd states.
            let f = |k: u32| f64::from((step.wrapping_mul(2_654_435_761) >> k) % 1000) / 1000.0;
            let t_c = -15.0 + 65.0 * f(3);
            let w = f(7) * moist_air::saturated_humidity_ratio(t_c + ZERO_C_K, ATMOSPHERE_PA);
            let coil = air(t_c, w, 100.0 * f(11), &water);
            let mut new = old;
            for (i, x) in new.iter_mut().enumerate() {
                *x = (*x + 6.0 * (f(5 + u32::try_from(i).unwrap()) - 0.5)).clamp(250.0, 320.0);
            }
            let (vent, left) = water.step(&coil, &old, &new, 0.05 + 1.95 * f(9));
            let most = moist_air::saturated_humidity_ratio(vent.t_k, ATMOSPHERE_PA);
            assert!(vent.w <= most * (1.0 + 1e-9) && vent.w >= -1e-12, "{vent:?} {most}");
            assert!(left >= 0.0 && water.cells.iter().all(|c| c.film_kg >= 0.0 && c.frost_kg >= 0.0));
            old = new;
        }
        let kept = water.film_kg() + water.frost_kg() + water.evaporated_kg + water.drained_kg;
        println!("{water:?}");
        assert!((water.condensed_kg - kept).abs() < 1e-9, "{} {kept}", water.condensed_kg);
        assert!(water.drained_kg > 0.0 && water.evaporated_kg > 0.0);
    }
}
