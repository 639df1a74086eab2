//! Refrigerant that hangs in the air of the shop.

/// Air in the workshop [m3]: a shop of 6 by 5 by 3.3 m (common practice, no source).
pub const WORKSHOP_M3: f64 = 100.0;
/// Air changes an hour, doors shut (common practice, no source).
const SHUT_H: f64 = 2.0;
/// The same with extraction and doors open.
const VENTILATED_H: f64 = 20.0;

/// What hangs there a second later [kg], when so much more came out of the loop [kg].
pub fn hangs_kg(held_kg: f64, came_kg: f64, ventilated: bool) -> f64 {
    let changes_h = if ventilated { VENTILATED_H } else { SHUT_H };
    (held_kg + came_kg.max(0.0)) * (1.0 - changes_h / 3600.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn doors_clear_a_shop_ten_times_as_fast() {
        let after = |ventilated| (0..360).fold(1.0, |kg, _| hangs_kg(kg, 0.0, ventilated));
        assert!((after(false) - 0.8186_f64).abs() < 1e-3, "a tenth of an hour at two changes: exp(-0.2)");
        assert!((after(true) - 0.1342_f64).abs() < 1e-3);
        assert!(hangs_kg(0.0, -1.0, false) == 0.0, "air that comes in takes nothing away");
    }
}
