//! What goes wrong with the tools themselves.

use super::{PLAIN, graded, rows};

rows! {
    LowGaugeOff "low_gauge_off" "Low gauge off its zero", Instruments:
        "The needle of the low gauge stands so much higher than it should (lower where negative).",
        graded("offset", "bar", [-2.0, 2.0, 0.8]), 0.01 PRACTICE, cured by [ZeroGauges],
        not by [RechargeByWeight: "the loop was right"], needs [];
    HighGaugeOff "high_gauge_off" "High gauge off its zero", Instruments:
        "The needle of the high gauge stands so much higher than it should (lower where negative).",
        graded("offset", "bar", [-6.0, 6.0, 3.0]), 0.01 PRACTICE, cured by [ZeroGauges],
        not by [RechargeByWeight: "the loop was right"], needs [];
    HighHoseShut "high_hose_shut" "Valve of the high-side hose shut", Instruments:
        "The coupler of the high-side hose stays shut, so its gauge feels the air that was in the hose.",
        PLAIN, 0.01 PRACTICE, cured by [OpenHoseValve],
        not by [TopUp: "the gauge shows nothing of it; the loop overfills"], needs [];
    ClampBadlySeated "clamp_badly_seated" "Clamp thermometer badly seated", Instruments:
        "The clamp feels the surroundings besides the pipe, by a share.",
        graded("share of the surroundings in what it feels", "", [0.1, 0.9, 0.4]), 0.02 PRACTICE, cured by [SeatClamp],
        not by [TopUp: "a superheat that was never there cannot be filled away"], needs [];
}
