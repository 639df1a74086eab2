//! Refrigerant properties against outside references, and against themselves.
//!
//! Run with `--nocapture` to see the worst error each comparison reached. Feature `tables` adds the comparison
//! with the equation of state itself.

use pintle::refrigerant::{Phase, Refrigerant};
use proptest::prelude::*;

fn r134a() -> &'static Refrigerant {
    Refrigerant::r134a()
}

/// The worst of a set of errors, where it happened, and the bound it must keep.
struct Worst {
    what: &'static str,
    bound: f64,
    error: f64,
    place: String,
}

impl Worst {
    fn new(what: &'static str, bound: f64) -> Self {
        Self { what, bound, error: 0.0, place: String::new() }
    }

    fn see(&mut self, error: f64, place: impl Fn() -> String) {
        if error.abs() > self.error || error.is_nan() {
            self.error = if error.is_nan() { f64::INFINITY } else { error.abs() };
            self.place = place();
        }
    }

    fn hold(self) {
        println!("{}: worst {:.3e} (bound {:.3e}) at {}", self.what, self.error, self.bound, self.place);
        assert!(self.error <= self.bound, "{}: {} at {}", self.what, self.error, self.place);
    }
}

/// CoolProp 8.0.0 (reference/physics.md 1.4, recomputed there): T [C], p [kPa], rho_l, rho_v [kg/m3], h_l, h_v
/// [kJ/kg], s_l, s_v [kJ/(kg K)]. Tolerances as that page suggests for tables.
const SATURATION: [[f64; 8]; 12] = [
    [-30.0, 84.38, 1388.4, 4.426, 160.79, 380.32, 0.8486, 1.7515],
    [-20.0, 132.73, 1358.3, 6.784, 173.64, 386.55, 0.9002, 1.7413],
    [-10.0, 200.60, 1327.1, 10.041, 186.70, 392.66, 0.9506, 1.7334],
    [0.0, 292.80, 1294.8, 14.428, 200.00, 398.60, 1.0000, 1.7271],
    [10.0, 414.61, 1261.0, 20.226, 213.58, 404.32, 1.0485, 1.7221],
    [20.0, 571.71, 1225.3, 27.780, 227.47, 409.75, 1.0962, 1.7180],
    [30.0, 770.20, 1187.5, 37.535, 241.72, 414.82, 1.1435, 1.7145],
    [40.0, 1016.59, 1146.7, 50.085, 256.41, 419.43, 1.1905, 1.7111],
    [50.0, 1317.91, 1102.3, 66.272, 271.62, 423.44, 1.2375, 1.7072],
    [60.0, 1681.78, 1052.9, 87.379, 287.50, 426.63, 1.2848, 1.7024],
    [70.0, 2116.83, 996.2, 115.572, 304.28, 428.65, 1.3332, 1.6956],
    [80.0, 2633.20, 928.2, 155.078, 322.39, 428.81, 1.3836, 1.6850],
];

#[test]
fn saturation_table_of_the_reference_page() {
    let r = r134a();
    let mut p_worst = Worst::new("psat, relative", 1e-3);
    let mut rho_l = Worst::new("rho_l, relative", 1e-3);
    let mut rho_v = Worst::new("rho_v, relative", 3e-3);
    let mut h = Worst::new("h, kJ/kg", 0.3);
    let mut s = Worst::new("s, kJ/(kg K)", 1e-3);
    let mut t = Worst::new("Tsat(p), K", 0.05);
    for [t_c, p_kpa, l, v, h_l, h_v, s_l, s_v] in SATURATION {
        let place = || format!("{t_c} C");
        let p = r.saturation_p_pa(t_c + 273.15);
        let sat = r.saturation(p.ln());
        p_worst.see(p / (p_kpa * 1e3) - 1.0, place);
        rho_l.see(sat.rho_l / l - 1.0, place);
        rho_v.see(sat.rho_v / v - 1.0, place);
        h.see(sat.h_l * 1e-3 - h_l, place);
        h.see(sat.h_v * 1e-3 - h_v, place);
        s.see(sat.s_l * 1e-3 - s_l, place);
        s.see(sat.s_v * 1e-3 - s_v, place);
        t.see(r.saturation((p_kpa * 1e3).ln()).t_k - 273.15 - t_c, place);
    }
    for worst in [p_worst, rho_l, rho_v, h, s, t] {
        worst.hold();
    }
}

/// Fixed points and constants (reference/physics.md 1.2, CoolProp 8.0.0) and the definition of the IIR reference.
#[test]
fn fixed_points() {
    let r = r134a();
    assert_eq!(r.name(), "R-134a");
    assert!((r.critical_t_k() - 374.212).abs() < 3e-3);
    assert!((r.critical_p_pa() - 4059.28e3).abs() < 10.0);
    assert!((r.critical_rho_kg_m3() - 511.95).abs() < 0.1);
    assert!((r.molar_mass_kg_mol() - 102.032e-3).abs() < 1e-9);
    assert!((r.triple_t_k() - 169.85).abs() < 1e-9);
    assert!((r.max_p_pa() / r.critical_p_pa() - 0.98).abs() < 1e-12);
    assert!((r.min_p_pa() - 1.0).abs() < 1e-12);
    assert!((r.saturation(101_325f64.ln()).t_k - 273.15 + 26.07).abs() < 0.01);
    let (ln_p, slope) = r.saturation_ln_p(273.15);
    let ice = r.saturation(ln_p);
    assert!((ice.h_l - 200e3).abs() < 0.1 && (ice.s_l - 1e3).abs() < 1e-3, "{} {}", ice.h_l, ice.s_l);
    assert!((r.saturation_dp_dt(273.15) / (slope * r.saturation_p_pa(273.15)) - 1.0).abs() < 1e-12);
    assert!(Refrigerant::by_name("R-134a").is_some() && Refrigerant::by_name("water").is_none());
}

/// Cycle points of reference/physics.md 1.7 (CoolProp 8.0.0): evaporating and condensing temperature [C],
/// superheat, subcooling [K], isentropic efficiency; then p_s, p_d [kPa], q, w [kJ/kg], COP, discharge temperature,
/// isentropic discharge temperature [C], flash quality, volumetric capacity [kJ/m3].
const CYCLES: [([f64; 5], [f64; 9]); 5] = [
    ([0.0, 40.0, 0.0, 0.0, 1.0], [292.8, 1016.6, 142.19, 25.88, 5.494, 44.49, 44.49, 0.2840, 2051.6]),
    ([0.0, 50.0, 10.0, 5.0, 0.65], [292.8, 1317.9, 143.62, 50.85, 2.824, 80.56, 64.52, 0.3217, 1971.8]),
    ([5.0, 45.0, 5.0, 5.0, 0.70], [349.7, 1159.9, 149.69, 36.60, 4.090, 63.75, 53.81, 0.2549, 2498.3]),
    ([7.2, 54.4, 11.1, 8.3, 0.70], [377.2, 1469.8, 147.44, 42.89, 3.438, 80.44, 69.18, 0.2891, 2569.2]),
    ([5.0, 60.0, 10.0, 10.0, 0.65], [349.7, 1681.8, 139.14, 53.03, 2.624, 90.18, 74.39, 0.3323, 2265.6]),
];

#[test]
fn cycle_points_of_the_reference_page() {
    let r = r134a();
    let mut worst = Worst::new("cycle points, relative", 3e-3);
    for ([te, tc, superheat, subcooling, efficiency], expected) in CYCLES {
        let (p_s, p_d) = (r.saturation_p_pa(te + 273.15), r.saturation_p_pa(tc + 273.15));
        let h1 = r.h_from_pt(p_s, te + 273.15 + superheat, Phase::Vapour);
        let h3 = r.h_from_pt(p_d, tc + 273.15 - subcooling, Phase::Liquid);
        let suction = r.state(p_s.ln(), h1);
        let h2s = r.isentropic_h(p_d.ln(), suction.s_j_per_kg_k, h1);
        let w = (h2s - h1) / efficiency;
        let got = [
            p_s * 1e-3,
            p_d * 1e-3,
            (h1 - h3) * 1e-3,
            w * 1e-3,
            (h1 - h3) / w,
            r.state(p_d.ln(), h1 + w).t_k - 273.15,
            r.state(p_d.ln(), h2s).t_k - 273.15,
            r.state(p_s.ln(), h3).x,
            (h1 - h3) * suction.rho_kg_m3 * 1e-3,
        ];
        for (column, (g, e)) in got.iter().zip(expected).enumerate() {
            worst.see(g / e - 1.0, || format!("{te}/{tc} C, column {column}"));
        }
    }
    worst.hold();
}

/// 600 states from CoolProp 8.0.0 (`tests/data/make_r134a_points.py`), a third of them within 2 K of saturation.
#[test]
fn states_against_coolprop() {
    let r = r134a();
    let mut t = Worst::new("T against CoolProp, K", 0.05);
    let mut rho = Worst::new("density against CoolProp, relative", 2e-3);
    let mut s = Worst::new("entropy against CoolProp, J/(kg K)", 0.1);
    let mut x = Worst::new("quality against CoolProp", 1e-4);
    let mut h = Worst::new("h_from_pt against CoolProp, J/kg", 20.0);
    let mut d = Worst::new("density_at_pt against CoolProp, relative", 2e-3);
    let mut count = 0;
    for line in include_str!("data/r134a_points.csv").lines().skip(2) {
        let cells: Vec<&str> = line.split(',').collect();
        let n = |i: usize| cells[i].parse::<f64>().unwrap();
        let state = r.state(n(1).ln(), n(2));
        assert!(state.valid, "{line}");
        assert_eq!(state.phase.word(), cells[7], "{line}");
        t.see(state.t_k - n(3), || line.to_owned());
        rho.see(state.rho_kg_m3 / n(4) - 1.0, || line.to_owned());
        s.see(state.s_j_per_kg_k - n(5), || line.to_owned());
        if state.phase == Phase::TwoPhase {
            x.see(state.x - n(6), || line.to_owned());
        } else {
            assert!(state.x.is_nan());
            h.see(r.h_from_pt(n(1), n(3), state.phase) - n(2), || line.to_owned());
            d.see(r.density_at_pt(n(1), n(3), state.phase) / n(4) - 1.0, || line.to_owned());
        }
        count += 1;
    }
    assert_eq!(count, 600);
    for worst in [t, rho, s, x, h, d] {
        worst.hold();
    }
}

/// Values of ln p inside the range, near its ends, and far outside.
fn some_ln_p() -> impl Strategy<Value = f64> {
    let top = r134a().max_p_pa().ln();
    prop_oneof![4 => 0.0..top, 1 => top - 0.1..top + 0.1, 1 => -0.5..0.5, 1 => -20.0..25.0]
}

fn some_h() -> impl Strategy<Value = f64> {
    prop_oneof![6 => 50e3..650e3, 1 => -500e3..2e6]
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 4000,
        max_global_rejects: 40_000,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(134),
        ..ProptestConfig::default()
    })]

    /// The derivatives a Newton solver gets are those of the values it gets.
    #[test]
    fn derivatives_are_those_of_the_interpolant(ln_p in some_ln_p(), h in some_h()) {
        let r = r134a();
        let at = r.state(ln_p, h);
        let (ex, eh) = (1e-6, 0.5);
        let around = [
            r.state(ln_p - ex, h), r.state(ln_p + ex, h), r.state(ln_p, h - eh), r.state(ln_p, h + eh),
        ];
        prop_assume!(around.iter().all(|s| s.phase == at.phase));
        let [xa, xb, ha, hb] = around;
        let check = |name: &str, a: f64, b: f64, step: f64, slope: f64, scale: f64| {
            let measured = (b - a) / (2.0 * step);
            // Rounding of the difference, and what curvature leaves of it.
            let slack = 2e-5 * slope.abs() + 1e-13 * scale / step + 1e-9 * scale;
            prop_assert!((measured - slope).abs() <= slack, "{name}: {measured} against {slope}");
            Ok(())
        };
        check("dT/dlnp", xa.t_k, xb.t_k, ex, at.dt_dlnp, at.t_k)?;
        check("dT/dh", ha.t_k, hb.t_k, eh, at.dt_dh, at.t_k * 1e-5)?;
        // Through the volume, which is straight in h inside the dome where density is a hyperbola.
        let v = |s: &pintle::refrigerant::State| 1.0 / s.rho_kg_m3;
        let per_rho = -v(&at) * v(&at);
        check("drho/dlnp", v(&xa), v(&xb), ex, per_rho * at.drho_dlnp, v(&at))?;
        check("drho/dh", v(&ha), v(&hb), eh, per_rho * at.drho_dh, v(&at) * 1e-5)?;
    }

    #[test]
    fn derivatives_along_saturation(ln_p in some_ln_p()) {
        let r = r134a();
        let e = 1e-6;
        let (a, at, b) = (r.saturation(ln_p - e), r.saturation(ln_p), r.saturation(ln_p + e));
        for (name, a, v, b, slope) in [
            ("t", a.t_k, at.t_k, b.t_k, at.dt_dlnp),
            ("h_l", a.h_l, at.h_l, b.h_l, at.dh_l_dlnp),
            ("h_v", a.h_v, at.h_v, b.h_v, at.dh_v_dlnp),
            ("rho_l", a.rho_l, at.rho_l, b.rho_l, at.drho_l_dlnp),
            ("rho_v", a.rho_v, at.rho_v, b.rho_v, at.drho_v_dlnp),
            ("s_l", a.s_l, at.s_l, b.s_l, at.ds_l_dlnp),
            ("s_v", a.s_v, at.s_v, b.s_v, at.ds_v_dlnp),
        ] {
            let measured = (b - a) / (2.0 * e);
            let slack = 2e-5 * slope.abs() + 1e-6 * v.abs();
            prop_assert!((measured - slope).abs() <= slack, "{name}: {measured} against {slope}");
        }
    }

    /// On both saturation lines the states of both sides and the saturation curve are one.
    #[test]
    fn no_step_at_the_dome(ln_p in some_ln_p()) {
        let r = r134a();
        let sat = r.saturation(ln_p);
        let (liquid, vapour) = (r.state_with(&sat, sat.h_l), r.state_with(&sat, sat.h_v));
        prop_assert_eq!(liquid.t_k, sat.t_k);
        prop_assert_eq!(liquid.rho_kg_m3, sat.rho_l);
        prop_assert_eq!(liquid.s_j_per_kg_k, sat.s_l);
        prop_assert_eq!(vapour.t_k, sat.t_k);
        prop_assert_eq!(vapour.rho_kg_m3, sat.rho_v);
        prop_assert_eq!(vapour.s_j_per_kg_k, sat.s_v);
        // Just inside the dome the volume is off by no more than the share of enthalpy.
        let e = 1e-6;
        let (wet, dry) = (r.state_with(&sat, sat.h_l + e), r.state_with(&sat, sat.h_v - e));
        prop_assert_eq!((wet.phase, dry.phase), (Phase::TwoPhase, Phase::TwoPhase));
        let share = 1.01 * e / (sat.h_v - sat.h_l) * (1.0 / sat.rho_v - 1.0 / sat.rho_l);
        prop_assert!((1.0 / wet.rho_kg_m3 - 1.0 / sat.rho_l).abs() <= share + 1e-12 / sat.rho_l);
        prop_assert!((1.0 / dry.rho_kg_m3 - 1.0 / sat.rho_v).abs() <= share + 1e-12 / sat.rho_v);
    }

    /// Whatever finite numbers come in, finite ones come out, and volumes and temperatures stay positive.
    #[test]
    fn finite_everywhere(
        ln_p in prop_oneof![some_ln_p(), -1e6..1e6f64, proptest::num::f64::NORMAL],
        h in prop_oneof![some_h(), -1e7..1e7f64, proptest::num::f64::NORMAL],
        t in prop_oneof![1.0..2000.0f64, proptest::num::f64::NORMAL],
    ) {
        let r = r134a();
        let s = r.state(ln_p, h);
        for v in [s.t_k, s.rho_kg_m3, s.s_j_per_kg_k, s.dt_dlnp, s.dt_dh, s.drho_dlnp, s.drho_dh] {
            prop_assert!(v.is_finite(), "{s:?}");
        }
        prop_assert!(s.t_k > 0.0 && s.rho_kg_m3 > 0.0, "{s:?}");
        prop_assert!(s.dt_dh >= 0.0 && s.drho_dh <= 0.0, "{s:?}");
        let sat = r.saturation(ln_p);
        prop_assert!(sat.h_v > sat.h_l && sat.rho_l > 0.0 && sat.dt_dlnp > 0.0, "{sat:?}");
        prop_assert!(r.saturation_p_pa(t).is_finite() && r.saturation_dp_dt(t).is_finite());
        for phase in [Phase::Liquid, Phase::TwoPhase, Phase::Vapour] {
            prop_assert!(r.h_from_pt(libm::exp(ln_p.clamp(-700.0, 700.0)), t, phase).is_finite());
        }
        prop_assert!(r.isentropic_h(ln_p, s.s_j_per_kg_k, h).is_finite());
    }

    /// T rises and density falls with h; density rises with p (strictly, where the tables hold).
    #[test]
    fn monotone(ln_p in some_ln_p(), h in some_h()) {
        let s = r134a().state(ln_p, h);
        if s.valid {
            prop_assert!(s.drho_dh < 0.0 && s.drho_dlnp > 0.0, "{s:?}");
            prop_assert!(s.phase == Phase::TwoPhase || s.dt_dh > 0.0, "{s:?}");
        }
    }

    /// The inverse look-ups undo the look-ups.
    #[test]
    fn inverses(ln_p in 0.0..15.196f64, h in 80e3..640e3f64) {
        let r = r134a();
        let s = r.state(ln_p, h);
        prop_assume!(s.valid);
        prop_assert!((r.isentropic_h(ln_p, s.s_j_per_kg_k, h + 30e3) - h).abs() < 0.02, "isentropic_h");
        if s.phase != Phase::TwoPhase {
            let p = libm::exp(ln_p);
            prop_assert!((r.h_from_pt(p, s.t_k, s.phase) - h).abs() < 0.02, "h_from_pt");
            prop_assert!((r.density_at_pt(p, s.t_k, s.phase) / s.rho_kg_m3 - 1.0).abs() < 1e-6);
        }
        let sat = r.saturation(ln_p);
        prop_assert!((r.saturation_ln_p(sat.t_k).0 - ln_p).abs() < 1e-11);
    }
}

/// Below the table the vapour is an ideal gas: p*v = R*T within the departure that is left at 1 Pa.
#[test]
fn deep_vacuum_is_an_ideal_gas() {
    let r = r134a();
    let gas = 8.314_471 / r.molar_mass_kg_mol();
    for p in [1e-6, 1e-3, 0.1, 1.0, 10.0] {
        let s = r.state(libm::log(p), 420e3);
        assert!((p / (s.rho_kg_m3 * gas * s.t_k) - 1.0).abs() < 1e-4, "{p} Pa: {s:?}");
    }
}

#[test]
fn the_range_is_flagged() {
    let r = r134a();
    let top = r.max_p_pa();
    for (p, h, valid) in [
        (top * 0.999, 450e3, true),
        (top * 1.001, 450e3, false),
        (1.001, 400e3, true),
        (0.999, 400e3, false),
        (1e6, 130e3, true),
        (1e6, 20e3, false),
        (1e6, 900e3, false),
        // Two-phase below the triple point: the liquid would be solid.
        (100.0, 250e3, false),
    ] {
        assert_eq!(r.state(libm::log(p), h).valid, valid, "{p} Pa, {h} J/kg");
    }
}

/// Nanoseconds per state; meaningful only with `--release`, so it is printed, not judged.
#[test]
fn time_per_state() {
    let r = r134a();
    let inputs: Vec<(f64, f64)> = (0..1024u32)
        .map(|i| {
            let f = |k: u32| f64::from(i.wrapping_mul(k) % 1021) / 1021.0;
            (libm::log(50e3) + 4.0 * f(389), 150e3 + 350e3 * f(617))
        })
        .collect();
    // The fastest of many short rounds: what the code costs when nothing else wants the processor.
    let time = |f: &dyn Fn(f64, f64) -> f64| {
        let rounds = if cfg!(debug_assertions) { 20 } else { 2000 };
        let one_round = || {
            let start = std::time::Instant::now();
            std::hint::black_box(inputs.iter().map(|&(x, h)| f(x, h)).sum::<f64>());
            start.elapsed().as_secs_f64() * 1e9 / inputs.len() as f64
        };
        (0..rounds).map(|_| one_round()).fold(f64::INFINITY, f64::min)
    };
    println!("saturation: {:.0} ns", time(&|x, _| std::hint::black_box(r.saturation(x)).t_k));
    println!("state: {:.0} ns", time(&|x, h| std::hint::black_box(r.state(x, h)).t_k));
    println!("exp: {:.0} ns", time(&|x, _| libm::exp(x)));
    println!("state, saturation known: {:.0} ns", {
        let sat = r.saturation(13.0);
        time(&|_, h| std::hint::black_box(r.state_with(&sat, h)).t_k)
    });
    println!("psat: {:.0} ns", time(&|_, h| r.saturation_p_pa(h * 1e-3)));
    println!("isentropic_h: {:.0} ns", time(&|x, h| r.isentropic_h(x, 1750.0, h)));
    let bytes =
        std::fs::read(concat!(env!("CARGO_MANIFEST_DIR"), "/assets/refrigerants/R-134a.tbl")).unwrap();
    let start = std::time::Instant::now();
    Refrigerant::from_bytes(&bytes).unwrap();
    println!("reading the table: {:.2} ms", start.elapsed().as_secs_f64() * 1e3);
}

/// A damaged file is an error, wherever the damage is, and never a panic.
#[test]
fn a_damaged_table_is_an_error() {
    let bytes =
        std::fs::read(concat!(env!("CARGO_MANIFEST_DIR"), "/assets/refrigerants/R-134a.tbl")).unwrap();
    for end in (0..400).chain((400..bytes.len()).step_by(997)) {
        assert!(Refrigerant::from_bytes(&bytes[..end]).is_err(), "cut at {end}");
    }
    for at in (0..400).chain((400..bytes.len()).step_by(4999)) {
        let mut bad = bytes.clone();
        bad[at] ^= 0x41;
        assert!(Refrigerant::from_bytes(&bad).is_err(), "damaged at {at}");
    }
    let mut longer = bytes.clone();
    longer.push(0);
    assert!(Refrigerant::from_bytes(&longer).is_err());
}

/// The command writes what the library says, for the whole reference file.
#[test]
fn the_properties_command() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/r134a_points.csv");
    let mut out = Vec::new();
    pintle::commands::properties::run("R-134a", &path, &mut out).unwrap();
    let out = String::from_utf8(out).unwrap();
    assert_eq!(out.lines().count(), 602);
    for line in out.lines().skip(2) {
        let cells: Vec<&str> = line.split(',').collect();
        assert_eq!((cells.len(), cells[7]), (13, cells[12]));
        let n = |i: usize| cells[i].parse::<f64>().unwrap();
        assert!((n(3) - n(8)).abs() < 0.05 && (n(4) / n(9) - 1.0).abs() < 2e-3, "{line}");
    }
}

#[cfg(feature = "tables")]
mod with_the_equation {
    use super::*;
    use pintle::refrigerant::equation::Equation;

    const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/assets/refrigerants");

    fn equation() -> Equation {
        Equation::from_json(&std::fs::read_to_string(format!("{FOLDER}/R-134a.json")).unwrap()).unwrap()
    }

    /// Makes the committed table again, next to it, and compares: the asset is what the source says. Exponentials
    /// of another libc may differ in the last bit, hence the small allowance.
    #[test]
    fn the_committed_table_is_the_one_the_source_makes() {
        let folder = std::env::temp_dir().join(format!("pintle-tables-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::copy(format!("{FOLDER}/R-134a.json"), folder.join("R-134a.json")).unwrap();
        pintle::commands::tables::run("R-134a", &folder, &mut std::io::sink()).unwrap();
        let new = Refrigerant::from_bytes(&std::fs::read(folder.join("R-134a.tbl")).unwrap()).unwrap();
        std::fs::remove_dir_all(&folder).unwrap();
        for i in 0..5000u32 {
            let (ln_p, h) = (f64::from(i % 71) * 15.2 / 71.0, 100e3 + 100.0 * f64::from(i));
            let (a, b) = (new.state(ln_p, h), r134a().state(ln_p, h));
            assert!((a.t_k - b.t_k).abs() < 1e-4 && (a.rho_kg_m3 / b.rho_kg_m3 - 1.0).abs() < 1e-6);
        }
    }

    /// Over the whole valid range, 1 Pa to 98 % of the critical pressure.
    #[test]
    fn the_table_against_the_equation() {
        let (r, eq) = (r134a(), equation());
        let mut sat_t = Worst::new("Tsat against the equation, K", 1e-3);
        let mut sat_rho = Worst::new("saturated density against the equation, relative", 1e-4);
        let mut sat_h = Worst::new("saturated h against the equation, J/kg", 20.0);
        let mut t = Worst::new("T against the equation, K", 0.01);
        let mut rho = Worst::new("density against the equation, relative", 5e-4);
        let mut s = Worst::new("entropy against the equation, J/(kg K)", 0.05);
        let start = eq.at_0_c().unwrap();
        let zero = libm::log(start[0].p);
        for (from, to) in [(zero, r.max_p_pa().ln()), (zero, 0.0)] {
            let (mut pair, steps) = (start, 300);
            for i in 0..=steps {
                // Closer together towards the ends, where the properties bend most.
                let f = 1.0 - (1.0 - f64::from(i) / f64::from(steps)).powi(2);
                let x = from + (to - from) * f;
                let p = libm::exp(x);
                pair = eq.saturation(p, &pair).unwrap();
                let [l, v] = pair;
                let sat = r.saturation(x);
                let place = || format!("{p} Pa");
                sat_t.see(sat.t_k - l.t, place);
                sat_rho.see(sat.rho_l / l.rho - 1.0, place);
                sat_rho.see(sat.rho_v / v.rho - 1.0, place);
                sat_h.see(sat.h_l - l.h, place);
                sat_h.see(sat.h_v - v.h, place);
                let mut one = |at: &pintle::refrigerant::equation::Single| {
                    let state = r.state(x, at.h);
                    let place = || format!("{p} Pa, {} K, {} J/kg, {:?}", at.t, at.h, state.phase);
                    t.see(state.t_k - at.t, place);
                    rho.see(state.rho_kg_m3 / at.rho - 1.0, place);
                    s.see(state.s_j_per_kg_k - at.s, place);
                };
                let mut at = v;
                for j in 1..=40 {
                    let q = 255e3 * (f64::from(j) / 40.0).powi(3);
                    at = eq.at_ph(p, v.h + q, &at).unwrap();
                    one(&at);
                }
                at = l;
                for j in 1..=40 {
                    let q = 265e3 * (f64::from(j) / 40.0).powi(3);
                    at = eq.at_ph(p, l.h - q, &at).unwrap();
                    if at.t < r.triple_t_k() {
                        break;
                    }
                    one(&at);
                }
            }
        }
        for worst in [sat_t, sat_rho, sat_h, t, rho, s] {
            worst.hold();
        }
    }

    /// `cargo test --no-default-features --features tables --test properties make_tables -- --ignored`
    #[test]
    #[ignore = "writes the committed table"]
    fn make_tables() {
        pintle::commands::tables::run("R-134a", FOLDER.as_ref(), &mut std::io::stdout()).unwrap();
    }
}
