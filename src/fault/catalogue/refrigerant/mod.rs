//! Amount and purity of the refrigerant, and how it gets away.

pub(super) mod flow;

use super::{PLAIN, graded, rows};
use crate::fault::needs::Need::{Belt, Desiccant};

rows! {
    Undercharge "undercharge" "Undercharge", Charge:
        "A share of the full charge of refrigerant is missing.",
        graded("share of the charge missing", "", [0.0, 1.0, 0.3]), 0.22 SURVEYS, cured by [RechargeByWeight],
        not by [ReplaceCompressor: "a new compressor pumps the same thin vapour",
                ReplaceExpansionValve: "the valve was wide open and starved",
                TopUp: "nobody knows how much is in it now"], needs [];
    Overcharge "overcharge" "Overcharge", Charge:
        "A share of the full charge is added on top of it.",
        graded("share of the charge added", "", [0.0, 1.0, 0.4]), 0.08 SURVEYS, cured by [RechargeByWeight],
        not by [CleanCondenser: "pressure stays up: liquid stands in the tubes",
                ReplaceFanMotor: "there was air enough",
                TopUp: "even more"], needs [];
    LeakShaftSeal "leak_shaft_seal" "Shaft seal leaks", Charge:
        "A small hole opens from the suction side of the compressor to the air.",
        graded("loss of vapour at 10 bar", "g/h", [0.001, 2000.0, 100.0]), 0.03 SURVEYS, cured by [ReplaceShaftSeal, ReplaceCompressor],
        not by [TopUp: "cold again for a while", RechargeByWeight: "cold again for a while"], needs [Belt];
    LeakHose "leak_hose" "Discharge hose leaks", Charge:
        "A small hole opens from the discharge line to the air.",
        graded("loss of vapour at 10 bar", "g/h", [0.001, 2000.0, 100.0]), 0.03 SURVEYS, cured by [ReplaceDischargeLine],
        not by [TopUp: "cold again for a while", RechargeByWeight: "cold again for a while"], needs [];
    LeakCondenserJoint "leak_condenser_joint" "Joint at the condenser leaks", Charge:
        "A small hole opens at the condenser's outlet to the air.",
        graded("loss of vapour at 10 bar", "g/h", [0.001, 2000.0, 100.0]), 0.03 SURVEYS, cured by [MendJoints, ReplaceCondenser],
        not by [TopUp: "cold again for a while", RechargeByWeight: "cold again for a while"], needs [];
    LeakEvaporator "leak_evaporator" "Evaporator leaks", Charge:
        "A small hole opens in the evaporator to the air of its box.",
        graded("loss of vapour at 10 bar", "g/h", [0.001, 2000.0, 100.0]), 0.02 SURVEYS, cured by [ReplaceEvaporator],
        not by [TopUp: "cold again for a while", RechargeByWeight: "cold again for a while"], needs [];
    LeakServiceValve "leak_service_valve" "Service valve leaks", Charge:
        "A small hole opens at the service valve of the liquid side to the air.",
        graded("loss of vapour at 10 bar", "g/h", [0.001, 2000.0, 100.0]), 0.03 SURVEYS, cured by [MendServiceValve],
        not by [TopUp: "cold again for a while", RechargeByWeight: "cold again for a while"], needs [];
    HoseBurst "hose_burst" "Hose burst", Charge:
        "A large hole opens from the discharge line to the air, and the loop empties in a minute or two.",
        graded("area of the hole", "mm2", [0.5, 10.0, 2.0]), 0.02 PRACTICE, cured by [ReplaceDischargeLine],
        not by [TopUp: "it hisses out again"], needs [];
    AirInLoop "air_in_loop" "Air in the loop", Contamination:
        "A mass of air is mixed into the vapour of the loop.",
        graded("grams of air", "g", [0.0, 20.0, 3.0]), 0.05 SURVEYS, cured by [RechargeByWeight],
        not by [CleanCondenser: "the high side stays up: air fills the tubes from inside",
                ReplaceFanMotor: "there was air enough outside",
                TopUp: "more of everything, higher still"], needs [];
    Moisture "moisture" "Water in the loop", Contamination:
        "A mass of water is in the loop: bound by the drier, dissolved in oil and refrigerant, or free to freeze.",
        graded("grams of water", "g", [0.0, 15.0, 5.0]), 0.02 SURVEYS, cured by [ReplaceDrier],
        not by [ReplaceExpansionValve: "the new valve freezes up as well",
                RechargeByWeight: "pumping for half an hour does not dry a soaked drier"], needs [];
    DesiccantSaturated "desiccant_saturated" "Desiccant saturated", Contamination:
        "A share of what the desiccant can hold is used up, so water stays in the refrigerant.",
        graded("share of the desiccant used up", "", [0.0, 1.0, 1.0]), 0.01 SURVEYS, cured by [ReplaceDrier],
        not by [RechargeByWeight: "a vacuum does not regenerate desiccant"], needs [Desiccant];
    PoorEvacuation "poor_evacuation" "Evacuated too briefly", Contamination:
        "A share of the outside air that fills the empty loop, and the water in it, was left in when it was charged.",
        graded("share of the air left in", "", [0.05, 1.0, 0.7]), 0.03 PRACTICE, cured by [RechargeByWeight],
        not by [CleanCondenser: "the high side stays up: air fills the tubes from inside",
                TopUp: "more of everything, higher still"], needs [];
}
