//! Checks of the summariser.

use super::super::boiling::sun_mishima;
use super::super::fluid::tests::{absurd, at_5c, at_50c};
use super::super::testing::{grid, largest_jump, near};
use super::*;

#[test]
#[ignore]
fn explore() {
    let (hot, cold) = (at_50c(), at_5c());
    for d in [0.8e-3, 1.0e-3, 1.2e-3] {
        for a in [0.8e-4, 1.0e-4, 1.44e-4, 2.0e-4, 2.9e-4] {
            let g = ChannelGeometry {
                hydraulic_diameter_m: d,
                flow_area_m2: a,
                heated_area_m2: 4.0 * 1.6e-4 / d,
            };
            let f = film_conductances(&hot, &g, 0.028, 5e3);
            let dp = friction_pa(&hot, &g, 0.028, (0.0, 1.0));
            println!(
                "cond d {d} a {a} G {:.0} A {:.3} L {:.2} {f:?} dp {dp:.0} k {:.3e}",
                g.flux(0.028),
                g.heated_area_m2,
                g.length_m(),
                equivalent_flow_m2(&hot, 0.028, dp, (0.0, 1.0))
            );
        }
    }
    for d in [2.0e-3, 2.5e-3, 3.0e-3] {
        for a in [2e-4, 3e-4, 4e-4, 6e-4] {
            let g = ChannelGeometry {
                hydraulic_diameter_m: d,
                flow_area_m2: a,
                heated_area_m2: 4.0 * 4.64e-4 / d,
            };
            let f = film_conductances(&cold, &g, 0.028, 4e3);
            let dp = friction_pa(&cold, &g, 0.028, (0.3, 1.0));
            let c = Channel { flux_kg_s_m2: g.flux(0.028), diameter_m: d };
            println!(
                "evap d {d} a {a} G {:.0} A {:.3} L {:.2} {f:?} sm {:.0} dp {dp:.0} k {:.3e}",
                g.flux(0.028),
                g.heated_area_m2,
                g.length_m(),
                sun_mishima(&cold, &c, 4e3 / g.heated_area_m2) * g.heated_area_m2,
                equivalent_flow_m2(&cold, 0.028, dp, (0.3, 1.0))
            );
        }
    }
    let mid = |x: f64, q: f64, d: f64, v: f64, a: f64, f: &FilmFluid, xs: (f64, f64)| {
        let g = ChannelGeometry { hydraulic_diameter_m: d, flow_area_m2: a, heated_area_m2: 4.0 * v / d };
        let films = film_conductances(f, &g, x, q);
        let dp = friction_pa(f, &g, x, xs);
        println!(
            "pick d {d} a {a} G {:.0} A {:.3} L {:.2} {films:?} dp {dp:.0} k {:.3e}",
            g.flux(x),
            g.heated_area_m2,
            g.length_m(),
            equivalent_flow_m2(f, x, dp, xs)
        );
    };
    for share in [1.0, 0.5, 0.25, 0.1, 0.0] {
        println!("share {share}");
        mid(0.028 * share, 5e3 * share, 1e-3, 1.6e-4, 1.41e-4, &hot, (0.0, 1.0));
        mid(0.028 * share, 5e3 * share, 0.65e-3, 1.6e-4, 2.38e-4, &hot, (0.0, 1.0));
        mid(0.028 * share, 1e3 * share, 0.8e-3, 1.52e-5, 3.0e-5, &hot, (0.0, 0.0));
        mid(0.028 * share, 1e3 * share, 0.8e-3, 1.52e-5, 3.2e-5, &hot, (0.0, 0.0));
        mid(0.028 * share, 4e3 * share, 2e-3, 4.64e-4, 5.1e-4, &cold, (0.3, 1.0));
        mid(0.028 * share, 4e3 * share, 2.5e-3, 4.64e-4, 3.5e-4, &cold, (0.3, 1.0));
    }
    let g = ChannelGeometry { hydraulic_diameter_m: 1e-3, flow_area_m2: 1.44e-4, heated_area_m2: 0.64 };
    let began = std::time::Instant::now();
    let mut sum = 0.0;
    for i in 0..1_000_000 {
        sum += film_conductances(&hot, &g, 0.02 + 1e-8 * i as f64, 1e3).boiling_w_k;
    }
    println!("{sum} {:?} per million", began.elapsed());
    let _ = (absurd(), grid(0.0, 1.0, 2), largest_jump(|x| x, 0.0, 1.0, 3), near("", 1.0, 1.0, 0.1));
    let _ = (
        LAMINAR,
        liquid_only(&hot, 1.0, 1.0),
        shah_mean_factor(0.3),
        liu_winterton(&hot, &Channel { flux_kg_s_m2: 1.0, diameter_m: 1.0 }, 0.5, Drive::HeatFlux(1.0)),
    );
}
