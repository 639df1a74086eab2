//! Checks of the boiling correlations.

use super::super::fluid::tests::{absurd, at_5c};
use super::super::testing::{grid, largest_jump, near};
use super::*;

const TUBE: Channel = Channel { flux_kg_s_m2: 200.0, diameter_m: 0.008 };
const SMALL: Channel = Channel { flux_kg_s_m2: 200.0, diameter_m: 0.0015 };
/// Wall 5 K above 5 °C: 414.61 - 349.66 kPa (CoolProp 8.0.0).
const WALL: (f64, f64) = (5.0, 64_949.0);

/// Computed with the open library ht 1.2.0: R-134a, 5 °C, G 200, 8 mm, wall superheat 5 K.
#[test]
fn the_printed_values_of_a_tube() {
    let f = at_5c();
    for (x, edelstein, bennett, liu) in [
        (0.2, 3666.0, 4334.0, 2390.0),
        (0.4, 3988.0, 4949.0, 2855.0),
        (0.6, 4215.0, 5371.0, 3200.0),
        (0.8, 4339.0, 5595.0, 3483.0),
    ] {
        near(
            &format!("Chen, Edelstein {x}"),
            chen(&f, &TUBE, x, WALL, ChenFactors::Edelstein),
            edelstein,
            2e-3,
        );
        near(&format!("Chen, Bennett {x}"), chen(&f, &TUBE, x, WALL, ChenFactors::Bennett), bennett, 2e-3);
        near(&format!("Liu & Winterton {x}"), liu_winterton(&f, &TUBE, x, Drive::SuperheatK(5.0)), liu, 2e-3);
    }
}

/// Computed with the open library ht 1.2.0: R-134a, 5 °C, G 200, 1.5 mm, 10 kW/m2.
#[test]
fn the_printed_values_of_a_small_channel() {
    near("Sun & Mishima", sun_mishima(&at_5c(), &SMALL, 1e4), 2891.0, 2e-3);
    near("Lazarek & Black", lazarek_black(&at_5c(), &SMALL, 1e4), 2135.0, 2e-3);
}

/// Heat flux and superheat are two sides of one law: h at q = h dT.
#[test]
fn pool_boiling_by_flux_and_by_superheat_agree() {
    let f = at_5c();
    let h = cooper(&f, Drive::SuperheatK(5.0));
    near("Cooper", cooper(&f, Drive::HeatFlux(5.0 * h)), h, 1e-9);
    // The open library ht 1.2.0, Cooper(P=349660, Pc=4059280, MW=102.032, q=1e4).
    near("Cooper at 10 kW/m2", cooper(&f, Drive::HeatFlux(1e4)), COOPER_10KW, 1e-3);
}
/// Computed with ht 1.2.0.
const COOPER_10KW: f64 = 1875.94;

/// No library here has Gungor & Winterton, so it is held against Chen, whose form it has: on a wall 5 K above
/// saturation within 40 % of Chen's two variants, as far as accepted methods lie apart. (It is up to 80 %
/// above Liu & Winterton there at low quality.)
#[test]
fn gungor_winterton_stands_beside_chen() {
    let f = at_5c();
    for x in [0.2, 0.4, 0.6, 0.8] {
        let mut h = 3000.0;
        for _ in 0..60 {
            h = gungor_winterton(&f, &TUBE, x, 5.0 * h);
        }
        for factors in [ChenFactors::Edelstein, ChenFactors::Bennett] {
            let other = chen(&f, &TUBE, x, WALL, factors);
            assert!((1.0 / 1.4..1.4).contains(&(h / other)), "{x}: {h} {other}");
        }
    }
}

fn all(f: &FilmFluid, c: &Channel, x: f64, q: f64) -> [f64; 6] {
    [
        chen(f, c, x, (q / 2000.0, 13e3 * q / 2000.0), ChenFactors::Edelstein),
        chen(f, c, x, (q / 2000.0, 13e3 * q / 2000.0), ChenFactors::Bennett),
        gungor_winterton(f, c, x, q),
        liu_winterton(f, c, x, Drive::HeatFlux(q)),
        sun_mishima(f, c, q),
        lazarek_black(f, c, q),
    ]
}

#[test]
fn heat_flux_helps_and_quality_makes_no_jump() {
    let f = at_5c();
    for channel in [TUBE, SMALL] {
        let low = all(&f, &channel, 0.5, 2e3);
        let high = all(&f, &channel, 0.5, 2e4);
        assert!(low.iter().zip(high).all(|(a, b)| b > *a), "{low:?} {high:?}");
        for i in 0..6 {
            // Chen's F and the other powers are steep at x = 0 and 1: a fine grid, and still no jump.
            let jump = largest_jump(|x| all(&f, &channel, x, 5e3)[i], -0.1, 1.1, 20_000);
            assert!(jump < 0.02, "{i}: {jump}");
            let jump = largest_jump(|q| all(&f, &channel, 0.5, q)[i], -100.0, 2e4, 20_000);
            assert!(jump < 0.02, "by heat flux {i}: {jump}");
        }
    }
    let rising: Vec<f64> =
        grid(0.0, 1.0, 500).map(|x| liu_winterton(&f, &SMALL, x, Drive::HeatFlux(5e3))).collect();
    assert!(rising.windows(2).all(|w| w[1] > w[0]));
}

#[test]
fn rest_and_absurd_input_stay_finite() {
    let still = Channel { flux_kg_s_m2: 0.0, diameter_m: 0.0015 };
    let f = at_5c();
    let at_rest = all(&f, &still, 0.5, 5e3);
    assert!(at_rest.iter().all(|h| h.is_finite() && *h >= 0.0), "{at_rest:?}");
    near("pool boiling remains", at_rest[3], cooper(&f, Drive::HeatFlux(5e3)), 1e-12);
    for fluid in absurd() {
        for flux in [0.0, 1e5, -1e5] {
            for x in [-5.0, 0.0, 0.5, 1.0, 5.0] {
                for q in [-1e9, 0.0, 1e9] {
                    let c = Channel { flux_kg_s_m2: flux, diameter_m: 0.0 };
                    assert!(all(&fluid, &c, x, q).iter().all(|h| h.is_finite()), "{fluid:?} {flux} {x} {q}");
                }
            }
        }
    }
}

#[test]
fn the_wall_dries_smoothly() {
    assert_eq!((dry_out(2000.0, 150.0, 0.5), dry_out(2000.0, 150.0, 1.2)), (2000.0, 150.0));
    near("half way", dry_out(2000.0, 150.0, 0.925), 1075.0, 1e-9);
    let falls: Vec<f64> = grid(0.0, 1.1, 1000).map(|x| dry_out(2000.0, 150.0, x)).collect();
    assert!(falls.windows(2).all(|w| w[1] <= w[0]));
}
