//! Words follow the numbers, one at a time.

use pintle::bench::{Action, Bench};
use pintle::fault::FaultId;
use pintle::perceive::{BAND_HZ, BANDS, Dash, Felt, Perceived, Place, Sense, Smell, Sound, TOO_HOT_K, View};
use pintle::plant::OpenPlace;
use pintle::scenario::{Scenario, load};
use pintle::units::ZERO_C_K;

pub fn car_with(faults: &[(FaultId, f64)], change: impl FnOnce(&mut Scenario)) -> Bench {
    let mut scenario = load("healthy").expect("ships");
    change(&mut scenario);
    let mut bench = Bench::new(&scenario, 1).expect("a bench");
    for &(id, severity) in faults {
        bench.apply(Action::ImposeFault { id, severity }).expect("allowed");
    }
    bench
}

/// The car at idle and 35 °C after ten minutes.
pub fn car(faults: &[(FaultId, f64)]) -> Bench {
    let mut bench = car_with(faults, |_| {});
    bench.advance(12_000);
    bench
}

pub fn seen(bench: &Bench) -> Perceived {
    bench.snapshot(false).perceived
}

fn hear(felt: &Felt, sound: Sound) -> f64 {
    felt.value(Sense::Listen(sound)).expect("every car has sounds")
}

#[test]
fn skin_has_borders() {
    let at = |c: f64| Sense::Touch(Place::LiquidPipe).words(ZERO_C_K + c);
    assert_eq!(
        [-1.0, 5.0, 20.0, 33.0, 40.0, 55.0, 60.0].map(at),
        ["freezing cold", "cold", "cool", "neither warm nor cool", "warm", "hot", "too hot to touch"]
    );
    // 60 °C leaves a margin below the burn threshold of bare metal at a second's touch, 65 to 70 °C (ISO 13732-1, from
    // memory).
    const { assert!(TOO_HOT_K < ZERO_C_K + 65.0) }
}

#[test]
fn nobody_feels_how_hot_a_burning_pipe_is() {
    let mut felt = car(&[]).felt();
    felt.surface_k[Place::DischargePipe as usize] = Some(ZERO_C_K + 95.0);
    let of = Perceived::of(&felt);
    let pipe = of.get(Sense::Touch(Place::DischargePipe)).expect("has one");
    assert_eq!((pipe.words, pipe.caution, pipe.value), ("too hot to touch", Some("S16b"), TOO_HOT_K));
    felt.surface_k[Place::DischargePipe as usize] = Some(ZERO_C_K + 59.0);
    let of = Perceived::of(&felt);
    assert_eq!(of.get(Sense::Touch(Place::DischargePipe)).expect("has one").caution, None);
}

#[test]
fn frost_needs_cold_and_water() {
    let mut felt = car(&[]).felt();
    let mut at = |wall_c: f64, dew_c: f64| {
        felt.surface_k[Place::SuctionPipe as usize] = Some(ZERO_C_K + wall_c);
        felt.dew_k = ZERO_C_K + dew_c;
        Perceived::of(&felt).words(Sense::Surface(Place::SuctionPipe))
    };
    assert_eq!(
        [at(15.0, 12.0), at(5.0, 12.0), at(-5.0, 12.0), at(-5.0, -9.0)],
        ["dry", "wet with dew", "white with frost", "dry"]
    );
}

#[test]
fn a_hand_finds_a_block_inside_the_condenser_and_no_standing_liquid() {
    let mut felt = car(&[]).felt();
    let mut sweep = |walls_c: &[f64]| {
        felt.condenser_k = walls_c.iter().map(|c| c + ZERO_C_K).collect();
        felt.value(Sense::Sweep).map(|v| Sense::Sweep.words(v))
    };
    let even = Some("no sudden step");
    assert_eq!(sweep(&[75.0, 58.0, 58.0, 57.5, 57.0, 56.8, 54.0, 51.0]), even);
    // Liquid standing in the last part cools on and on.
    assert_eq!(sweep(&[66.7, 66.7, 66.7, 54.6, 47.8, 43.3, 40.5, 38.7, 38.3, 38.5]), even);
    // Behind a narrow place pressure, and with it the boiling point, is lower all at once: the cold band.
    assert_ne!(sweep(&[78.0, 70.0, 69.8, 69.7, 55.0, 54.8, 54.6, 53.0]), even);
    assert_eq!(sweep(&[50.0, 40.0]), None);
}

#[test]
fn a_fan_sings_at_the_frequency_of_its_blades_and_a_still_one_leaves_the_floor() {
    let mut felt = car(&[(FaultId::ClutchCoilOpen, 1.0)]).felt();
    (felt.engine_rpm, felt.pulley_rpm, felt.blower_share) = (0.0, 0.0, 0.0);
    let mut bands = |share: f64| {
        felt.fan_share = share;
        (Perceived::of(&felt).spectrum_db, hear(&felt, Sound::Fan))
    };
    let loudest = |db: &[f64; BANDS]| (0..BANDS).max_by(|&a, &b| db[a].total_cmp(&db[b])).expect("bands");
    // Seven blades at 2400 rev/min: 280 Hz.
    let (full, loud) = bands(1.0);
    let top = loudest(&full);
    assert!((250.0..=315.0).contains(&BAND_HZ[top]), "{} Hz", BAND_HZ[top]);
    let (half, quiet) = bands(0.5);
    assert!(loudest(&half) + 3 == top, "an octave lower at half speed");
    // Fifth power of speed: 15 dB for a half.
    assert!((loud - quiet - 15.05).abs() < 0.2, "{loud} {quiet}");
    let (still, none) = bands(0.0);
    assert_eq!((none, still[top].round()), (0.0, 22.0));
    assert!(still.iter().all(|db| (db - 22.0).abs() < 1e-9));
}

#[test]
fn the_engine_drowns_what_is_faint() {
    let mut felt = car(&[]).felt();
    assert!(hear(&felt, Sound::ValveHiss) > 0.0);
    felt.jet_w = 0.4;
    assert_eq!(hear(&felt, Sound::ValveHiss), 0.0, "under the blower");
    (felt.blower_share, felt.fan_share, felt.engine_rpm) = (0.0, 0.0, 0.0);
    assert!(hear(&felt, Sound::ValveHiss) > 0.0, "in the quiet");
}

#[test]
fn liquid_knocks_dry_bearings_growl_and_an_idle_shaft_does_neither() {
    let mut felt = car(&[]).felt();
    assert_eq!(
        (hear(&felt, Sound::Knock), hear(&felt, Sound::Growl), hear(&felt, Sound::Rattle)),
        (0.0, 0.0, 0.0)
    );
    let mut last = 0.0;
    for wet in [0.15, 0.3, 0.6, 1.0] {
        felt.wet = wet;
        let now = hear(&felt, Sound::Knock);
        assert!(now > last, "{wet}: {now}");
        last = now;
    }
    (felt.film, felt.battered) = (0.2, 0.4);
    assert!(hear(&felt, Sound::Growl) > 60.0 && hear(&felt, Sound::Rattle) > 55.0);
    felt.shaft_rpm = 0.0;
    for sound in [Sound::Compressor, Sound::Knock, Sound::Growl, Sound::Rattle] {
        assert_eq!(hear(&felt, sound), 0.0, "{sound:?}");
    }
}

#[test]
fn fan_wheel_belt_leak_and_smells_follow_their_numbers() {
    let mut felt = car(&[]).felt();
    let quiet = [Sound::FanRumble, Sound::Belt, Sound::ClutchSqueal, Sound::Leak];
    assert!(quiet.iter().all(|s| hear(&felt, *s) == 0.0));
    assert!(Smell::ALL.iter().all(|s| !Perceived::of(&felt).get(Sense::Smell(*s)).expect("a nose").notable));
    (felt.fan_unbalance, felt.belt_nm, felt.slip_w, felt.leak_kg_s) = (0.8, 40.0, 2000.0, 3e-3);
    (felt.leak_place, felt.oil_lost_kg) = (OpenPlace::Condenser, 8e-3);
    (felt.coolant_k, felt.coil_water) = (Some(ZERO_C_K + 126.0), 2.0);
    assert!(quiet.iter().all(|s| hear(&felt, *s) > 0.0));
    let of = Perceived::of(&felt);
    assert_eq!(of.words(Sense::Smell(Smell::Clutch)), "sharp smell of a burnt clutch");
    assert_eq!(of.words(Sense::Smell(Smell::Musty)), "stale water, strong and musty");
    assert_eq!(of.words(Sense::Smell(Smell::Coolant)), "sweet steam of hot coolant");
    assert_eq!(of.get(Sense::Smell(Smell::Mist)).expect("a nose").caution, Some("S2"));
    assert_eq!(of.words(Sense::Look(View::OilAtCondenser)), "wet with oil");
    assert_eq!(of.words(Sense::Look(View::OilAtLiquid)), "clean and dry");
    assert_eq!(of.words(Sense::Dash(Dash::EngineHot)), "lit");
}
