//! Where the knobs stand.

use super::Controls;
use crate::units::ATMOSPHERE_PA;

impl Controls {
    /// Pressure of the outside air [Pa]: US Standard Atmosphere 1976 up to 11 km.
    pub fn ambient_pa(&self) -> f64 {
        if self.altitude_m == 0.0 {
            return ATMOSPHERE_PA;
        }
        ATMOSPHERE_PA * libm::pow(1.0 - 2.255_77e-5 * self.altitude_m, 5.255_88)
    }
}
