//! What really came of the work in the bay, as plain numbers: what the work record and the debrief are checked against.
//! The bench fills it in from the model and from the notebook; nothing here looks inside.

use super::chart::Performance;
use super::cylinder::FillLimit;
use super::{BayDanger, BayMistake};
use crate::fault::RepairId;

/// Refrigerant from which something was recovered or charged on purpose [kg]; less is what hoses hold as gas.
const MOVED_KG: f64 = 5e-3;

/// A hold under nitrogen, from shutting the regulator to the last look.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NitrogenHold {
    /// Pressure at the start [Pa gauge].
    pub start_pa: f64,
    /// Temperature of the loop at the start [K].
    pub start_t_k: f64,
    /// Pressure at the end [Pa gauge].
    pub end_pa: f64,
    /// Temperature of the loop at the end [K].
    pub end_t_k: f64,
    /// How long it was held [s].
    pub held_s: f64,
}

impl NitrogenHold {
    /// Change of pressure once the end is brought to the temperature of the start by the gas law [Pa]; negative when gas
    /// was lost. `ambient_pa` is the air around the gauge.
    pub fn change_pa(&self, ambient_pa: f64) -> f64 {
        if self.end_t_k <= 0.0 {
            return 0.0;
        }
        (self.end_pa + ambient_pa) * self.start_t_k / self.end_t_k - (self.start_pa + ambient_pa)
    }
}

/// An evacuation, and the rise after the pump was shut off.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vacuum {
    /// Lowest pressure in the loop [Pa absolute].
    pub deepest_pa: f64,
    /// Time the pump drew on it [s].
    pub pumped_s: f64,
    /// Rise after the pump was shut off, and how long it was watched [Pa], [s]; none when nobody watched.
    pub rise: Option<(f64, f64)>,
}

/// Refrigerant that got out, and by what.
#[derive(Clone, Debug, PartialEq)]
pub struct Vented {
    /// By what, in words that follow "g by", such as `the cracked centre hose`.
    pub how: String,
    /// How much [kg].
    pub kg: f64,
    /// It was hands that let it out, not a leak that was there.
    pub by_hand: bool,
}

/// The recovery cylinder as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RecoveryCylinder {
    /// On the scale [kg].
    pub gross_kg: f64,
    /// What it may hold.
    pub limit: FillLimit,
}

/// What really came of the work. A default is a rig on which nothing was done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    /// Refrigerant in the loop, such as `R-134a`.
    pub refrigerant: String,
    /// Charge on the label [kg].
    pub label_charge_kg: f64,
    /// Oil of a full loop [kg].
    pub label_oil_kg: f64,
    /// A receiver holds the liquid that is over (else an accumulator, or nothing).
    pub receiver: bool,
    /// Pressure of the air around the gauges [Pa].
    pub ambient_pa: f64,
    /// A sample went to the identifier before anything else was connected.
    pub identified: bool,
    /// Refrigerant in the loop now [kg].
    pub charge_kg: f64,
    /// Refrigerant in the hoses now [kg].
    pub hoses_kg: f64,
    /// Oil in the loop now [kg].
    pub oil_kg: f64,
    /// Running check before the work, as the notebook has it.
    pub before: Performance,
    /// Running check after it.
    pub after: Performance,
    /// Subcooling at the metering inlet when the work was done [K].
    pub subcooling_k: Option<f64>,
    /// Refrigerant recovered [kg].
    pub recovered_kg: f64,
    /// Oil that came along with it [kg].
    pub recovered_oil_kg: f64,
    /// Refrigerant left in the loop when it was opened or evacuated [kg].
    pub left_in_kg: f64,
    /// The recovery cylinder, once something was recovered.
    pub cylinder: Option<RecoveryCylinder>,
    /// The repair that opened the loop.
    pub repair: Option<RepairId>,
    /// Where it leaked, a place each, such as `shaft seal`.
    pub leaks: Vec<String>,
    /// Hold under nitrogen, if there was one.
    pub nitrogen: Option<NitrogenHold>,
    /// Evacuation, if there was one.
    pub vacuum: Option<Vacuum>,
    /// Oil that came out with the old part [kg].
    pub drained_oil_kg: f64,
    /// Oil poured in, new parts included [kg].
    pub oil_added_kg: f64,
    /// Refrigerant put in [kg].
    pub charged_kg: f64,
    /// The scale was read, or the station weighed, while it was put in.
    pub weighed: bool,
    /// Refrigerant that got out, largest first.
    pub vented: Vec<Vented>,
    /// Damage to the reeds of the compressor by liquid, 0 to 1.
    pub battered: f64,
    /// Mistakes that were not stopped, with their first tick.
    pub mistakes: Vec<(BayMistake, u64)>,
    /// Acts that were stopped, with their tick.
    pub stopped: Vec<(BayDanger, u64)>,
}

impl Facts {
    /// The loop was opened.
    pub fn opened(&self) -> bool {
        self.repair.is_some()
    }
    /// Something was recovered, not only a hose's content.
    pub fn recovered(&self) -> bool {
        self.recovered_kg > MOVED_KG
    }
    /// Refrigerant was put in, not only let into a hose.
    pub fn charged(&self) -> bool {
        self.charged_kg > MOVED_KG
    }
    /// Refrigerant that got out in all [kg].
    pub fn lost_kg(&self) -> f64 {
        self.vented.iter().map(|v| v.kg).sum()
    }
    /// Refrigerant that hands let out [kg].
    pub fn vented_kg(&self) -> f64 {
        self.vented.iter().filter(|v| v.by_hand).map(|v| v.kg).sum()
    }
}

#[cfg(test)]
impl Facts {
    /// A clean job for tests: a condenser that leaked was replaced on a car with 349 g of R-134a and 120 g of oil.
    pub(crate) fn condenser_replaced() -> Self {
        Self {
            refrigerant: "R-134a".into(),
            label_charge_kg: 0.349,
            label_oil_kg: 0.12,
            receiver: true,
            ambient_pa: crate::units::ATMOSPHERE_PA,
            identified: true,
            recovered_kg: 0.2,
            repair: Some(RepairId::ReplaceCondenser),
            leaks: vec!["condenser joint".into()],
            nitrogen: Some(NitrogenHold {
                start_pa: 10e5,
                start_t_k: 300.0,
                end_pa: 10e5,
                end_t_k: 300.0,
                held_s: 900.0,
            }),
            charged_kg: 0.349,
            weighed: true,
            ..Self::default()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::ATMOSPHERE_PA;

    #[test]
    fn a_hold_is_brought_to_one_temperature_by_the_gas_law() {
        // p/T constant: 11 bar absolute at 300 K is 11.1833 bar at 305 K.
        let tight = NitrogenHold {
            start_pa: 11e5 - ATMOSPHERE_PA,
            start_t_k: 300.0,
            end_pa: 11e5 * 305.0 / 300.0 - ATMOSPHERE_PA,
            end_t_k: 305.0,
            held_s: 900.0,
        };
        assert!(tight.end_pa - tight.start_pa > 0.18e5, "the gauge rose");
        assert!(tight.change_pa(ATMOSPHERE_PA).abs() < 1e-6, "and nothing went in or out");
        let leaking = NitrogenHold { end_pa: tight.start_pa, ..tight };
        assert!((leaking.change_pa(ATMOSPHERE_PA) + 11e5 * 5.0 / 305.0).abs() < 1.0);
        assert_eq!(NitrogenHold::default().change_pa(ATMOSPHERE_PA), 0.0);
    }
}
