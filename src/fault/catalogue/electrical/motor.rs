//! Mains or traction side of a compressor with its own motor.

use super::{PLAIN, graded, rows};

rows! {
    StartCapacitorWeak "start_capacitor_weak" "Start capacitor weak", MotorSupply:
        "The start capacitor has lost a share of its capacitance.",
        graded("share of the capacitance lost", "", [0.1, 1.0, 1.0]), 0.05 PRACTICE, cured by [ReplaceStartCapacitor],
        not by [ReplaceCompressor: "the new one hums and trips as well"], needs [];
    RunCapacitorWeak "run_capacitor_weak" "Run capacitor weak", MotorSupply:
        "The run capacitor has lost a share of its capacitance.",
        graded("share of the capacitance lost", "", [0.1, 1.0, 1.0]), 0.04 PRACTICE, cured by [ReplaceRunCapacitor],
        not by [ReplaceCompressor: "the new one draws too much as well"], needs [];
    StartRelayOpen "start_relay_open" "Contact of the start relay stays open", MotorSupply:
        "The contact of the potential relay stays open, so the start winding gets the run capacitor alone.",
        PLAIN, 0.04 PRACTICE, cured by [ReplaceStartRelay],
        not by [ReplaceStartCapacitor: "nothing joins the new one to the winding"], needs [];
    StartWindingOpen "start_winding_open" "Start winding open circuit", MotorSupply:
        "The start winding becomes very large, so the rotor hums without turning.",
        PLAIN, 0.01 CLAIMS, cured by [ReplaceCompressor],
        not by [ReplaceStartCapacitor: "it hums as before"], needs [];
    OverloadOpen "overload_open" "Overload stays open", MotorSupply:
        "The overload becomes very large, so the windings get no return.",
        PLAIN, 0.02 CLAIMS, cured by [ReplaceOverload],
        not by [ReplaceCompressor: "its windings were good"], needs [];
    ContactorCoilOpen "contactor_coil_open" "Contactor coil open circuit", MotorSupply:
        "The coil of the contactor becomes very large, so its contact never closes.",
        PLAIN, 0.03 CLAIMS, cured by [ReplaceContactor],
        not by [ReplaceCompressor: "the new one gets no volts either"], needs [];
    ContactorContactWorn "contactor_contact_worn" "Contactor contact burnt", MotorSupply:
        "The contact of the contactor gains resistance, so the compressor starts on fewer volts.",
        graded("resistance of the contact", "ohm", [0.1, 50.0, 4.0]), 0.03 CLAIMS, cured by [ReplaceContactor],
        not by [ReplaceStartCapacitor: "it starts as badly"], needs [];
    CompressorFuseBlown "compressor_fuse_blown" "Compressor fuse blown", MotorSupply:
        "The fuse ahead of the compressor becomes very large.",
        PLAIN, 0.03 CLAIMS, cured by [ReplaceCompressorFuse],
        not by [ReplaceCompressor: "the new one gets no volts either"], needs [];
    InterlockOpen "interlock_open" "Interlock loop open", MotorSupply:
        "The interlock contact of the compressor's plug becomes very large, so the contactors are not let in.",
        PLAIN, 0.03 CLAIMS, cured by [MendWiring],
        not by [ReplaceCompressor: "the new one gets no volts either",
                ReplaceContactor: "nobody lets the new one in"], needs [];
}
