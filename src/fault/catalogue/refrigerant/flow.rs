//! Metering and restrictions.

use super::{PLAIN, graded, rows};
use crate::fault::needs::Need::{
    Desiccant, ElectronicValve, InternalExchanger, OrificeTube, ThermostaticValve,
};

rows! {
    TxvStuckOpen "txv_stuck_open" "Expansion valve stuck open", Metering:
        "The valve is held at a fixed opening, counted in full lifts.",
        graded("held opening over full lift", "", [0.5, 3.0, 1.0]), 0.06 SURVEYS, cured by [ReplaceExpansionValve],
        not by [RechargeByWeight: "the right amount floods the evaporator as well",
                ReplaceCompressor: "liquid will batter the new one too"], needs [ThermostaticValve];
    TxvStuckClosed "txv_stuck_closed" "Expansion valve stuck closed", Metering:
        "The valve is held at a fixed small opening, counted in full lifts.",
        graded("held opening over full lift", "", [0.0, 0.2, 0.0]), 0.06 SURVEYS, cured by [ReplaceExpansionValve],
        not by [TopUp: "liquid stacks up in the condenser: the high side rises, the low side does not"],
        needs [ThermostaticValve];
    TxvScreenClogged "txv_screen_clogged" "Screen of the expansion valve clogged", Metering:
        "A share of the valve's passage is lost at every lift.",
        graded("share of the passage lost", "", [0.2, 0.99, 0.8]), 0.02 PRACTICE, cured by [ReplaceExpansionValve],
        not by [TopUp: "liquid stacks up in the condenser: the high side rises, the low side does not",
                ReplaceCompressor: "its crumbs may be what clogs the screen"], needs [ThermostaticValve];
    BulbChargeLost "bulb_charge_lost" "Bulb of the expansion valve has lost its charge", Metering:
        "A share of the pressure that opens the valve is lost.",
        graded("share of the bulb's pressure lost", "", [0.1, 1.0, 1.0]), 0.02 PRACTICE, cured by [ReplaceExpansionValve],
        not by [FastenBulb: "warming the bulb in the hand moves nothing",
                TopUp: "liquid stacks up in the condenser"], needs [ThermostaticValve];
    BulbLoose "bulb_loose" "Bulb of the expansion valve loose", Metering:
        "The bulb feels the air around it besides the pipe, by a share.",
        graded("share of the air in what it feels", "", [0.1, 1.0, 0.5]), 0.02 PRACTICE, cured by [FastenBulb],
        not by [ReplaceExpansionValve: "cured only if the new bulb is fastened; the old valve was good"],
        needs [ThermostaticValve];
    EqualiserBlocked "equaliser_blocked" "Equaliser blocked", Metering:
        "The pressure under the diaphragm stays as it was when the passage blocked.",
        PLAIN, 0.005 PRACTICE, cured by [ReplaceExpansionValve],
        not by [FastenBulb: "the bulb did its part"], needs [ThermostaticValve];
    OrificeTubeClogged "orifice_tube_clogged" "Orifice tube clogged", Metering:
        "A share of the tube's passage is lost.",
        graded("share of the passage lost", "", [0.2, 0.99, 0.7]), 0.08 PRACTICE, cured by [ReplaceOrificeTube],
        not by [TopUp: "liquid stacks up in the condenser: the high side rises, the low side does not",
                ReplaceCompressor: "its crumbs may be what clogs the tube"], needs [OrificeTube];
    OrificeTubeTooWide "orifice_tube_too_wide" "Orifice tube missing or too wide", Metering:
        "The tube's passage is a multiple of what it should be.",
        graded("passage over that of the proper tube", "", [1.2, 8.0, 3.0]), 0.01 PRACTICE, cured by [ReplaceOrificeTube],
        not by [ReplaceCompressor: "a good compressor cannot hold pressures apart across an open hole"],
        needs [OrificeTube];
    ElectronicValveJammed "electronic_valve_jammed" "Electronic expansion valve jammed", Metering:
        "The needle stays at a fixed opening whatever it is told.",
        graded("held opening", "", [0.0, 1.0, 0.05]), 0.03 PRACTICE, cured by [ReplaceExpansionValve],
        not by [MendWiring: "the motor's windings and wires were good"], needs [ElectronicValve];
    ElectronicValveOpen "electronic_valve_open" "Electronic expansion valve open circuit", Metering:
        "The resistance of the stepper's windings becomes very large, so the needle stays where it was.",
        PLAIN, 0.02 PRACTICE, cured by [ReplaceExpansionValve],
        not by [RechargeByWeight: "the right amount meets the same opening"], needs [];
    ChillerValveOpen "chiller_valve_open" "Chiller valve open circuit", Metering:
        "The resistance of the stepper's windings becomes very large, so the branch of the chiller stays as it was.",
        PLAIN, 0.02 PRACTICE, cured by [ReplaceChillerValve],
        not by [RechargeByWeight: "the right amount meets the same opening"], needs [];
    DischargeLineRestricted "discharge_line_restricted" "Discharge line or muffler restricted", Restriction:
        "A share of the discharge line's passage is lost, ahead of condenser and liquid-side port.",
        graded("share of the passage lost", "", [0.3, 0.99, 0.93]), 0.01 PRACTICE, cured by [ReplaceDischargeLine],
        not by [CleanCondenser: "the heat never gets as far"], needs [];
    CondenserBlockedInside "condenser_blocked_inside" "Condenser blocked inside", Restriction:
        "A share of the passage half way through the condenser is lost.",
        graded("share of the passage lost", "", [0.3, 0.99, 0.95]), 0.02 PRACTICE, cured by [ReplaceCondenser],
        not by [CleanCondenser: "the dirt sits inside",
                TopUp: "liquid stands ahead of the block"], needs [];
    DrierClogged "drier_clogged" "Drier clogged", Restriction:
        "A share of the passage out of the vessel with the desiccant is lost.",
        graded("share of the passage lost", "", [0.3, 0.99, 0.93]), 0.03 PRACTICE, cured by [ReplaceDrier],
        not by [TopUp: "the vessel fills up: the high side rises, the low side does not",
                ReplaceExpansionValve: "the valve was starved"], needs [Desiccant];
    LiquidLineKinked "liquid_line_kinked" "Liquid line kinked", Restriction:
        "A share of the liquid line's passage is lost.",
        graded("share of the passage lost", "", [0.3, 0.99, 0.93]), 0.02 PRACTICE, cured by [ReplaceLiquidLine],
        not by [TopUp: "liquid stacks up in the condenser: the high side rises, the low side does not",
                ReplaceExpansionValve: "the valve was starved"], needs [];
    SuctionLineRestricted "suction_line_restricted" "Suction line collapsed inside", Restriction:
        "A share of the suction line's passage is lost, ahead of the compressor and its port.",
        graded("share of the passage lost", "", [0.3, 0.99, 0.9]), 0.01 PRACTICE, cured by [ReplaceSuctionLine],
        not by [TopUp: "the gauge stays low: the evaporator was full enough",
                ReplaceExpansionValve: "the evaporator was fed well enough"], needs [];
    ExchangerRestricted "exchanger_restricted" "Internal heat exchanger restricted", Restriction:
        "A share of the passage of the exchanger's vapour side is lost.",
        graded("share of the passage lost", "", [0.3, 0.99, 0.9]), 0.01 PRACTICE, cured by [ReplaceExchanger],
        not by [TopUp: "the gauge stays low"], needs [InternalExchanger];
    ExchangerFouled "exchanger_fouled" "Internal heat exchanger fouled", Restriction:
        "A share of the conductance between liquid and vapour is lost.",
        graded("share of the conductance lost", "", [0.1, 1.0, 0.7]), 0.005 PRACTICE, cured by [ReplaceExchanger],
        not by [ReplaceExpansionValve: "the valve follows what it is given"], needs [InternalExchanger];
}
