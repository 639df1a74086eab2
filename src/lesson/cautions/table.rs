//! The cautions themselves, S1 to S25, in words of our own. They gather what makers' manuals, EPA 608 and 609, ASHRAE 34,
//! IEC 60335-2-40, 29 CFR 1910.147 and the trade's practice ask for; signal words as in ANSI Z535.4.

use super::{Caution, SignalWord};
use crate::bay::BayDanger;
use crate::bench::guarding;

const fn of(
    id: &'static str,
    signal: SignalWord,
    hazard: &'static str,
    consequence: &'static str,
    avoidance: &'static str,
) -> Caution {
    Caution { id, signal, hazard, consequence, avoidance }
}
/// The words of an act in the bay that is stopped.
const fn stopped(danger: BayDanger, signal: SignalWord) -> Caution {
    let words = danger.caution();
    of(words.id, signal, words.hazard, words.consequence, words.avoidance)
}
use SignalWord::{Caution as CAUTION, Danger as DANGER, Notice as NOTICE, Warning as WARNING};

/// Liquid refrigerant on skin and eyes.
pub const S1: Caution = of(
    "S1",
    WARNING,
    "Refrigerant spits out when hoses go on or off.",
    "It freezes skin and blinds eyes.",
    "Goggles and gloves on. If it hits you: rinse 15 minutes, see a doctor.",
);
/// Escaping refrigerant.
pub const S2: Caution = of(
    "S2",
    WARNING,
    "Escaping refrigerant is heavier than air and gathers low.",
    "It takes the air you breathe and upsets the heart.",
    "Stop the engine, open the doors, step away until it has cleared. No flame.",
);
/// Flame and refrigerant.
pub const S3: Caution = of(
    "S3",
    WARNING,
    "Flame or glowing metal breaks refrigerant down.",
    "The acid gases that come of it burn lungs.",
    "No smoking, no torch near a charged loop or one not yet purged.",
);
/// Refrigerant of class A2L.
pub const S4: Caution = of(
    "S4",
    WARNING,
    "Refrigerant of class A2L burns when it meets a flame or a spark.",
    "A gas cloud can flash over.",
    "No sparks. Extraction on. Machine, pump and detector made for A2L. Never bypass a leak sensor.",
);
/// Refrigerant of class A1.
pub const S4B: Caution = of(
    "S4b",
    NOTICE,
    "Refrigerant of class A1 does not burn in open air.",
    "It still breaks down in a flame and takes your breath.",
    "Extraction on. No flame.",
);
/// Refrigerant of class A3.
pub const S4C: Caution = of(
    "S4c",
    DANGER,
    "Refrigerant of class A3 burns like bottled gas.",
    "A leak indoors explodes.",
    "No sparks, gas alarm on, tools made for A3. Follow local codes and licensed practice.",
);
/// Compressed air in a loop.
pub const S5: Caution = stopped(BayDanger::CompressedAir, DANGER);
/// Pressure test.
pub const S6: Caution = of(
    "S6",
    DANGER,
    "A nitrogen bottle holds 200 bar. Oxygen explodes with oil.",
    "The loop or a hose bursts.",
    "Dry nitrogen only, by regulator and relief valve. Stay below the marked test pressure. Never oxygen.",
);
/// Venting.
pub const S7: Caution = of(
    "S7",
    NOTICE,
    "Letting refrigerant out on purpose is against the law.",
    "It harms the air for everyone and costs a fine.",
    "Recover it first. Follow local codes and licensed practice.",
);
/// Nitrogen on top of a charge.
pub const S8: Caution = of(
    "S8",
    NOTICE,
    "Nitrogen on top of a charge cannot be parted from it again.",
    "Letting that mixture go is venting.",
    "Recover the charge first, then test with nitrogen.",
);
/// Who may do it.
pub const S9: Caution = of(
    "S9",
    NOTICE,
    "Refrigerant work for pay needs a certificate and machines approved for that refrigerant.",
    "Without them it is against the law.",
    "Follow local codes and licensed practice. Write down what you did.",
);
/// Recovery cylinder.
pub const S10: Caution = stopped(BayDanger::FullCylinder, DANGER);
/// Warming a vessel.
pub const S11: Caution = stopped(BayDanger::Flame, WARNING);
/// Pressure in a standing loop.
pub const S12: Caution = of(
    "S12",
    WARNING,
    "The loop holds pressure with the engine off, over 20 bar when it runs.",
    "A hose let go under pressure whips and cuts.",
    "Hand valves shut, low-loss fittings. Follow local codes and licensed practice.",
);
/// Traction voltage.
pub const S13: Caution = of(
    "S13",
    DANGER,
    guarding::TRACTION.hazard,
    guarding::TRACTION.consequence,
    guarding::TRACTION.avoidance,
);
/// Oil of an electric compressor.
pub const S14: Caution = of(
    "S14",
    WARNING,
    "PAG oil or dye in an electric compressor lets its current through.",
    "Traction voltage may reach the body of the car.",
    "Ester oil of the label only, flushed hoses, no dye unless the maker allows it.",
);
/// Fans and belts.
pub const S15: Caution = of(
    "S15",
    WARNING,
    "The fan may start without warning.",
    "Fans and belts take fingers, hair and sleeves.",
    "Hands, hair and rings clear before you bridge the relay.",
);
/// Working in front of the fan.
pub const S15B: Caution = of(
    "S15b",
    WARNING,
    "The fan behind the condenser may start without warning.",
    "It takes fingers, hair and sleeves.",
    "Stay in front of the grille. Hands, hair and rings clear.",
);
/// Hot pipes.
pub const S16: Caution = of(
    "S16",
    CAUTION,
    "The compressor and its outlet pipe are hot.",
    "They burn skin at a touch.",
    "Gloves on. Hold the clamp by its grips.",
);
/// Bare hands on hot parts, near what turns.
pub const S16B: Caution = of(
    "S16b",
    CAUTION,
    "This part can be hotter than 60 °C, and belts turn close by.",
    "Bare metal that hot burns skin within a second or two.",
    "Hold the hand near first. Touch nothing that feels hot from there. Sleeves clear.",
);
/// Mains.
pub const S17: Caution =
    of("S17", DANGER, guarding::MAINS.hazard, guarding::MAINS.consequence, guarding::MAINS.avoidance);
/// Exhaust gas indoors.
pub const S18: Caution = of(
    "S18",
    WARNING,
    "A running engine indoors makes carbon monoxide.",
    "You cannot smell it and it kills.",
    "Exhaust hose on, wheels chocked, doors open.",
);
/// Oil and oil mist.
pub const S19: Caution = of(
    "S19",
    CAUTION,
    "Oil mist and used oil hurt lungs and skin.",
    "Used oil may be acid. It also eats paint and drinks water from the air.",
    "Gloves, extraction on, wipe spills, close the bottle at once.",
);
/// Compressor in a vacuum.
pub const S20: Caution = of(
    "S20",
    NOTICE,
    "A compressor that runs in a vacuum gets no oil and no cooling.",
    "It seizes.",
    "Charge first. Never run it, never prove its windings, under vacuum.",
);
/// Liquid into a running compressor.
pub const S20B: Caution = of(
    "S20b",
    NOTICE,
    "Liquid does not squeeze together.",
    "A running compressor breaks its valves on it.",
    "Liquid into the high side, engine off. Into a running low side gas only.",
);
/// Blends.
pub const S21: Caution = of(
    "S21",
    NOTICE,
    "Gas over a blend is not the blend: one part boils off first.",
    "The loop gets the wrong mixture.",
    "Charge blends as liquid, throttled, and never top up after a leak.",
);
/// Unknown contents.
pub const S22: Caution = of(
    "S22",
    NOTICE,
    "Nobody knows yet what is in this loop: mixtures, air, sealant.",
    "It spoils machine, cylinder and the next car.",
    "Take a sample to the identifier before you connect machine or cylinder.",
);
/// Compressed air at people.
pub const S23: Caution = of(
    "S23",
    DANGER,
    "Compressed air goes through skin, eyes and ears.",
    "A bubble in the blood kills.",
    "Never at people or clothes. For cleaning 2 bar (30 psi) at most.",
);
/// High hand valve with a can on the hose.
pub const S24: Caution = stopped(BayDanger::VesselOnHighSide, WARNING);
/// Cut-outs made useless by the jumper.
pub const S25: Caution = of(
    "S25",
    WARNING,
    "A bridged clutch relay defeats both pressure cut-outs.",
    "The compressor can burst a hose or run dry and seize.",
    "Prove the charge first. Engine at idle. Seconds only.",
);

/// All cautions of bench and bay.
pub const ALL: [&Caution; 30] = [
    &S1, &S2, &S3, &S4, &S4B, &S4C, &S5, &S6, &S7, &S8, &S9, &S10, &S11, &S12, &S13, &S14, &S15, &S15B, &S16,
    &S16B, &S17, &S18, &S19, &S20, &S20B, &S21, &S22, &S23, &S24, &S25,
];
