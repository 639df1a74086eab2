//! The value itself, from chosen readings.

use crate::bay::WorkedValue;
use crate::instrument::Reading;
use crate::refrigerant::Refrigerant;

/// Saturation temperature [K] and its slope [K/Pa]; none where there is none.
pub(super) fn saturation(refrigerant: &Refrigerant, absolute_pa: f64) -> Option<(f64, f64)> {
    if !(absolute_pa >= refrigerant.min_p_pa() && absolute_pa <= refrigerant.max_p_pa()) {
        return None;
    }
    let s = refrigerant.saturation(libm::log(absolute_pa));
    Some((s.t_k, s.dt_dlnp / absolute_pa))
}

/// The value from chosen readings when gauge readings become absolute by adding `added_pa`.
pub(super) fn value(
    what: WorkedValue,
    used: &[&Reading],
    refrigerant: &Refrigerant,
    added_pa: f64,
) -> Option<f64> {
    let first = used.first()?.value;
    Some(match what {
        WorkedValue::Absolute => first + added_pa,
        WorkedValue::Saturation => saturation(refrigerant, first + added_pa)?.0,
        WorkedValue::Split => first - used.get(1)?.value,
        WorkedValue::Superheat | WorkedValue::Subcooling | WorkedValue::Approach => {
            let boils_k = saturation(refrigerant, first + added_pa)?.0;
            let place_k = used.get(1)?.value;
            if what == WorkedValue::Superheat { place_k - boils_k } else { boils_k - place_k }
        }
    })
}
