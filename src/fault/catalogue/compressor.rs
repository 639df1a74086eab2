//! The compressor, its belt and its clutch.

use super::{PLAIN, graded, rows};
use crate::fault::needs::Need::{Belt, VariableStroke};

rows! {
    CompressorLeak "compressor_leak" "Compressor leaking inside", Compressor:
        "An opening across the reed valves lets a share of the flow back from discharge to suction.",
        graded("share of the flow leaking back", "", [0.0, 0.9, 0.4]), 0.05 SURVEYS, cured by [ReplaceCompressor],
        not by [TopUp: "more refrigerant in the same circle",
                ReplaceExpansionValve: "the low side stays high: it is the pump"], needs [];
    LowOil "low_oil" "Too little oil", Compressor:
        "A share of the oil is missing; the film in the compressor thins, friction and wear rise.",
        graded("share of the oil missing", "", [0.0, 1.0, 0.8]), 0.02 SURVEYS, cured by [SetOil],
        not by [ReplaceCompressor: "the new one runs dry as well", TopUp: "refrigerant does not lubricate"], needs [];
    ExcessOil "excess_oil" "Too much oil", Compressor:
        "A share of the full amount of oil is in the loop on top of it and logs coils and lines.",
        graded("share of the oil added", "", [0.1, 3.0, 1.5]), 0.01 SURVEYS, cured by [SetOil],
        not by [RechargeByWeight: "most of the oil stays behind"], needs [];
    WrongOil "wrong_oil" "Oil of the wrong kind", Compressor:
        "A share of the lubricating film is lost at the same amount of oil.",
        graded("share of the film lost", "", [0.1, 0.9, 0.6]), 0.01 PRACTICE, cured by [SetOil],
        not by [ReplaceCompressor: "the new one runs in the same oil"], needs [];
    CompressorSeized "compressor_seized" "Compressor seized", Compressor:
        "The shaft does not turn; what drives it slips, stalls or trips.",
        PLAIN, 0.02 CLAIMS, cured by [ReplaceCompressor],
        not by [ReplaceClutch: "the new clutch slips and smokes as well",
                ReplaceBelt: "the new belt squeals as well"], needs [];
    StrokeStuckLeast "stroke_stuck_least" "Displacement stuck at least stroke", Compressor:
        "The stroke stays at its least share whatever the control valve says.",
        PLAIN, 0.03 PRACTICE, cured by [ReplaceCompressor],
        not by [TopUp: "the low side is high already",
                ReplaceControlValve: "it answers, the plate does not"], needs [VariableStroke];
    StrokeStuckFull "stroke_stuck_full" "Displacement stuck at full stroke", Compressor:
        "The stroke stays at its full length whatever the control valve says.",
        PLAIN, 0.02 PRACTICE, cured by [ReplaceCompressor],
        not by [ReplaceExpansionValve: "the evaporator still freezes",
                ReplaceControlValve: "it answers, the plate does not"], needs [VariableStroke];
    ControlValveOpen "control_valve_open" "Displacement control valve open circuit", Compressor:
        "The resistance of the control valve's coil becomes very large, so the stroke falls to its least.",
        PLAIN, 0.03 PRACTICE, cured by [ReplaceControlValve],
        not by [ReplaceCompressor: "cured only because a new valve came with it",
                TopUp: "the low side is high already"], needs [];
    BeltSlip "belt_slip" "Belt slips", Drive:
        "The compressor turns at a share of the speed that its pulley should have.",
        graded("share of the speed lost", "", [0.05, 1.0, 0.4]), 0.03 PRACTICE, cured by [ReplaceBelt],
        not by [ReplaceCompressor: "the new one turns as slowly",
                TopUp: "the low side is high already"], needs [Belt];
    ClutchGapWide "clutch_gap_wide" "Clutch air gap too wide", Drive:
        "The air gap grows, so the coil needs more volts to pull the plate in, above all when hot.",
        graded("air gap", "mm", [0.5, 2.0, 0.9]), 0.03 PRACTICE, cured by [SetClutchGap, ReplaceClutch],
        not by [ReplaceClutchRelay: "the volts were there before"], needs [];
    ClutchFacingWorn "clutch_facing_worn" "Clutch facing worn", Drive:
        "A share of the torque that the pulled-in clutch holds is lost, so it slips under load.",
        graded("share of the torque lost", "", [0.1, 1.0, 0.96]), 0.02 PRACTICE, cured by [ReplaceClutch],
        not by [ReplaceBelt: "the belt held, the plate slipped"], needs [];
    ClutchCoilOpen "clutch_coil_open" "Clutch coil open circuit", Electrical:
        "The resistance of the clutch coil becomes very large, so the clutch cannot pull in.",
        PLAIN, 0.07 SURVEYS, cured by [ReplaceClutchCoil],
        not by [ReplaceClutchRelay: "the new relay brings the same volts to a dead coil",
                TopUp: "nothing pumps"], needs [];
    ClutchCoilShorted "clutch_coil_shorted" "Clutch coil with bridged turns", Drive:
        "Only a share of the clutch coil's resistance is left, so its current rises and its fuse melts.",
        graded("share of the resistance left", "", [0.02, 0.9, 0.3]), 0.02 CLAIMS, cured by [ReplaceClutchCoil],
        not by [ReplaceClutchFuse: "the new fuse melts as well"], needs [];
}
