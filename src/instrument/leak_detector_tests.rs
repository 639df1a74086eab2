//! The detector against what SAE J2791 asks of one, and its own mistakes.

use super::*;
use crate::instrument::say::CLEAR_SIGN;
use crate::instrument::still::Still;

const PLACE: SearchPlace = SearchPlace::CondenserJoint;

/// A leak of so many grams a year at `PLACE`, in a wind and a cloud.
fn truth(g_year: f64, wind_m_s: f64, cloud_kg_m3: f64) -> Still {
    let mut truth = Still { workshop_air_kg_m3: cloud_kg_m3, ..Still::default() };
    let leak = &mut truth.leaks[PLACE];
    (leak.refrigerant_kg_s, leak.wind_m_s) = (1e-3 * g_year / YEAR_S, wind_m_s);
    truth
}

fn hold(detector: &mut Detector, seconds: f64, truth: &Still) {
    for _ in 0..(seconds / 0.05) as usize {
        detector.advance(0.05, truth);
    }
}

fn after(scale: DetectorScale, seconds: f64, truth: &Still) -> Detector {
    let mut detector = Detector::new(PLACE, scale);
    hold(&mut detector, seconds, truth);
    detector
}

/// SAE J2791: on its scale it finds a leak of 4, 7 or 14 g/year, and half of that does not
/// sound.
#[test]
fn it_finds_the_leak_of_its_scale_in_still_air_and_not_half_of_it() {
    for scale in DetectorScale::ALL {
        for seed in 0..300 {
            let whole = after(scale, 5.0, &truth(scale.g_year(), 0.0, 0.0)).shown(seed, 100);
            let half = after(scale, 5.0, &truth(0.5 * scale.g_year(), 0.0, 0.0)).shown(seed, 100);
            assert!(whole >= CLEAR_SIGN && half < CLEAR_SIGN, "{scale:?}: {whole} and {half}");
        }
    }
    let fine = after(DetectorScale::G4, 5.0, &truth(7.0, 0.0, 0.0)).expected();
    let coarse = after(DetectorScale::G14, 5.0, &truth(7.0, 0.0, 0.0)).expected();
    assert!(fine > CLEAR_SIGN && coarse < CLEAR_SIGN, "{fine} {coarse}");
}

#[test]
fn it_takes_seconds_and_clears_within_twenty() {
    let leak = truth(200.0, 0.0, 0.0);
    let mut detector = after(DetectorScale::G7, 0.05, &truth(0.0, 0.0, 0.0));
    assert!(detector.expected() < 0.01);
    hold(&mut detector, 3.0, &leak);
    assert!(detector.expected() > 0.9);
    // Away from the leak it clears within 20 s (SAE J2791).
    hold(&mut detector, 20.0, &truth(0.0, 0.0, 0.0));
    assert!(detector.expected() < 0.01, "{}", detector.expected());
}

#[test]
fn wind_hides_a_small_leak() {
    let still = after(DetectorScale::G7, 5.0, &truth(14.0, 0.0, 0.0)).expected();
    let windy = after(DetectorScale::G7, 5.0, &truth(14.0, 3.0, 0.0)).expected();
    assert!(still > CLEAR_SIGN && windy < 0.25, "{still} {windy}");
}

#[test]
fn a_cloud_sounds_first_and_deafens_then() {
    let cloud = 5e-4;
    let mut detector = after(DetectorScale::G7, 5.0, &truth(0.0, 0.0, 0.0));
    hold(&mut detector, 2.0, &truth(0.0, 0.0, cloud));
    assert!(detector.expected() > CLEAR_SIGN, "it comes into the cloud: {}", detector.expected());
    hold(&mut detector, 60.0, &truth(0.0, 0.0, cloud));
    assert!(detector.expected() < 0.01, "it is used to it");
    hold(&mut detector, 5.0, &truth(10.0, 0.0, cloud));
    assert!(detector.expected() < CLEAR_SIGN, "and deaf: {}", detector.expected());
    hold(&mut detector, 60.0, &truth(10.0, 0.0, 0.0));
    assert!(detector.expected() > CLEAR_SIGN, "in clean air it hears again: {}", detector.expected());
    // A loop that draws air in gives no sign, and nothing strange upsets it.
    assert!(after(DetectorScale::G4, 5.0, &truth(-50.0, 0.0, 0.0)).expected() < 1e-9);
    let odd = after(DetectorScale::G4, 1.0, &truth(f64::NAN, f64::NAN, f64::NAN));
    assert!((0.0..=1.0).contains(&odd.shown(1, 1)));
}
