//! Refrigerant properties against outside references, and against themselves.
//!
//! Run with `--nocapture` to see the worst error each comparison reached. Feature `tables` adds the comparison
//! with the equation of state itself.

mod coolprop;
mod coolprop_points;
mod worst;

use pintle::refrigerant::{Phase, Refrigerant};
use proptest::prelude::*;

fn r134a() -> &'static Refrigerant {
    Refrigerant::r134a()
}

/// The shipped refrigerants: what holds for one must hold for all.
const NAMES: [&str; 4] = ["R-134a", "R-1234yf", "R-32", "R-290"];

fn some_refrigerant() -> impl Strategy<Value = &'static Refrigerant> {
    (0..NAMES.len()).prop_map(|i| Refrigerant::by_name(NAMES[i]).unwrap())
}

/// A refrigerant, and a value of ln p inside its range, near its ends, or far outside.
fn some_place() -> impl Strategy<Value = (&'static Refrigerant, f64)> {
    let share = prop_oneof![
        4 => (0.0..1.0).prop_map(|share| (share, 0.0)),
        1 => (-0.1..0.1).prop_map(|beyond| (1.0, beyond)),
        1 => (-0.5..0.5).prop_map(|beyond| (0.0, beyond)),
        1 => (-20.0..25.0).prop_map(|beyond| (0.0, beyond)),
    ];
    (some_refrigerant(), share).prop_map(|(r, (share, beyond))| (r, share * libm::log(r.max_p_pa()) + beyond))
}

fn some_h() -> impl Strategy<Value = f64> {
    prop_oneof![6 => 30e3..850e3, 1 => -500e3..2e6]
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
    fn derivatives_are_those_of_the_interpolant((r, ln_p) in some_place(), h in some_h()) {
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
    fn derivatives_along_saturation((r, ln_p) in some_place()) {
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
    fn no_step_at_the_dome((r, ln_p) in some_place()) {
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
        (r, ln_p) in prop_oneof![
            some_place(),
            (some_refrigerant(), -1e6..1e6f64),
            (some_refrigerant(), proptest::num::f64::NORMAL),
        ],
        h in prop_oneof![some_h(), -1e7..1e7f64, proptest::num::f64::NORMAL],
        t in prop_oneof![1.0..2000.0f64, proptest::num::f64::NORMAL],
        rho in prop_oneof![1e-6..2000.0f64, proptest::num::f64::NORMAL],
    ) {
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
        prop_assert_eq!(r.out_of_range(ln_p, &s).is_none(), s.valid);
        for transport in [r.transport(t, rho), r.transport_of(&sat, &s)] {
            prop_assert!(transport.mu_pa_s.is_finite() && transport.mu_pa_s > 0.0, "{transport:?}");
            prop_assert!(transport.k_w_m_k.is_finite() && transport.k_w_m_k > 0.0, "{transport:?}");
        }
        let along = r.saturation_transport(ln_p);
        for v in [along.mu_l, along.mu_v, along.k_l, along.k_v, along.cp_l, along.cp_v, along.sigma_n_m] {
            prop_assert!(v.is_finite() && v > 0.0, "{along:?}");
        }
    }

    /// T rises and density falls with h; density rises with p (strictly, where the tables hold).
    #[test]
    fn monotone((r, ln_p) in some_place(), h in some_h()) {
        let s = r.state(ln_p, h);
        if s.valid {
            prop_assert!(s.drho_dh < 0.0 && s.drho_dlnp > 0.0, "{s:?}");
            prop_assert!(s.phase == Phase::TwoPhase || s.dt_dh > 0.0, "{s:?}");
        }
    }

    /// The inverse look-ups undo the look-ups.
    #[test]
    fn inverses((r, ln_p) in some_place(), h in some_h()) {
        let s = r.state(ln_p, h);
        prop_assume!(s.valid);
        prop_assert!((r.isentropic_h(ln_p, s.s_j_per_kg_k, h + 30e3) - h).abs() < 0.02, "isentropic_h");
        if s.phase != Phase::TwoPhase {
            let p = libm::exp(ln_p);
            // Temperature and density lead back to the same state, so to the same transport.
            let (there, back) = (r.transport_of(&r.saturation(ln_p), &s), r.transport(s.t_k, s.rho_kg_m3));
            prop_assert!(back.valid, "{s:?}");
            prop_assert!((back.mu_pa_s / there.mu_pa_s - 1.0).abs() < 1e-6, "{back:?} {there:?}");
            prop_assert!((back.k_w_m_k / there.k_w_m_k - 1.0).abs() < 1e-4, "{back:?} {there:?}");
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
    for name in NAMES {
        let r = Refrigerant::by_name(name).unwrap();
        let gas = 8.314_471 / r.molar_mass_kg_mol();
        for p in [1e-6, 1e-3, 0.1, 1.0, 10.0] {
            let s = r.state(libm::log(p), r.saturation(0.0).h_v + 150e3);
            assert!((p / (s.rho_kg_m3 * gas * s.t_k) - 1.0).abs() < 1e-4, "{name}, {p} Pa: {s:?}");
        }
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
    // Both ends of the temperature range, on both sides of the dome.
    for name in NAMES {
        let r = Refrigerant::by_name(name).unwrap();
        for (t, phase, valid) in [
            (213.2, Phase::Liquid, true),
            (213.1, Phase::Liquid, false),
            (213.2, Phase::Vapour, true),
            (213.1, Phase::Vapour, false),
            (r.valid_to_t_k() - 0.05, Phase::Vapour, true),
            (r.valid_to_t_k() + 0.05, Phase::Vapour, false),
        ] {
            let p = if phase == Phase::Liquid { 0.5 * r.critical_p_pa() } else { 1e3 };
            let state = r.state(libm::log(p), r.h_from_pt(p, t, phase));
            assert_eq!(state.valid, valid, "{name} at {t} K: {state:?}");
            assert_eq!(r.transport(state.t_k, state.rho_kg_m3).valid, valid, "{name} at {t} K");
        }
    }
}

/// Densities that no single-phase state has: inside the dome, beyond the greatest pressure, in the critical band.
#[test]
fn transport_is_flagged_too() {
    for name in NAMES {
        let r = Refrigerant::by_name(name).unwrap();
        let (tc, rho_c) = (r.critical_t_k(), r.critical_rho_kg_m3());
        for (t, rho) in [
            (300.0, rho_c),
            (tc, rho_c),
            (1.01 * tc, rho_c),
            (400.0, 2.0 * rho_c),
            (300.0, 4.0 * rho_c),
            (500.0, 1.0),
            (200.0, 0.001),
            (300.0, 1e-9),
            (300.0, -1.0),
            (f64::NAN, 1.0),
            (300.0, f64::NAN),
        ] {
            let got = r.transport(t, rho);
            assert!(
                !got.valid && got.mu_pa_s > 0.0 && got.k_w_m_k > 0.0,
                "{name} at {t} K, {rho} kg/m3: {got:?}"
            );
        }
        assert!(r.transport(300.0, 0.1).valid, "{name}");
    }
}

/// Nanoseconds per state; meaningful only with `--release`, so it is printed, not judged.
#[test]
fn time_per_state() {
    // The fastest of many short rounds: what the code costs when nothing else wants the processor.
    let time = |inputs: &[(f64, f64)], f: &dyn Fn(f64, f64) -> f64| {
        let rounds = if cfg!(debug_assertions) { 20 } else { 2000 };
        let one_round = || {
            let start = std::time::Instant::now();
            std::hint::black_box(inputs.iter().map(|&(x, h)| f(x, h)).sum::<f64>());
            start.elapsed().as_secs_f64() * 1e9 / inputs.len() as f64
        };
        (0..rounds).map(|_| one_round()).fold(f64::INFINITY, f64::min)
    };
    for name in NAMES {
        let path = format!("{}/assets/refrigerants/{name}.tbl", env!("CARGO_MANIFEST_DIR"));
        let bytes = std::fs::read(path).unwrap();
        let start = std::time::Instant::now();
        let r = Refrigerant::from_bytes(&bytes).unwrap();
        println!("{name}: reading the table {:.2} ms", start.elapsed().as_secs_f64() * 1e3);
        // What a loop asks for, from 1 % to 75 % of the critical pressure, from subcooled to superheated.
        let inputs: Vec<(f64, f64)> = (0..1024u32)
            .map(|i| {
                let f = |k: u32| f64::from(i.wrapping_mul(k) % 1021) / 1021.0;
                let ln_p = libm::log(0.0125 * r.critical_p_pa()) + 4.0 * f(389);
                let sat = r.saturation(ln_p);
                (ln_p, sat.h_l + (sat.h_v - sat.h_l) * (1.6 * f(617) - 0.3))
            })
            .collect();
        let time = |f: &dyn Fn(f64, f64) -> f64| time(&inputs, f);
        let sat = r.saturation(13.0);
        println!(
            "{name}: saturation {:.0} ns, state {:.0} ns, state with saturation known {:.0} ns",
            time(&|x, _| std::hint::black_box(r.saturation(x)).t_k),
            time(&|x, h| std::hint::black_box(r.state(x, h)).t_k),
            time(&|_, h| std::hint::black_box(r.state_with(&sat, h)).t_k),
        );
        println!(
            "{name}: saturation_transport {:.0} ns, transport_of {:.0} ns, transport {:.0} ns",
            time(&|x, _| std::hint::black_box(r.saturation_transport(x)).mu_l),
            time(&|x, h| std::hint::black_box(r.transport_of(&r.saturation(x), &r.state(x, h))).mu_pa_s),
            time(&|x, h| {
                let s = r.state(x, h);
                std::hint::black_box(r.transport(s.t_k, s.rho_kg_m3)).mu_pa_s
            }),
        );
        println!(
            "{name}: exp {:.0} ns, psat {:.0} ns, isentropic_h {:.0} ns",
            time(&|x, _| libm::exp(x)),
            time(&|_, h| r.saturation_p_pa(h * 1e-3)),
            time(&|x, h| r.isentropic_h(x, 1750.0, h)),
        );
    }
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

/// The command writes what the library says, for the whole reference file of every refrigerant.
#[test]
fn the_properties_command() {
    let path = std::env::temp_dir().join(format!("pintle-states-{}.csv", std::process::id()));
    for name in NAMES {
        let (states, _) = coolprop::read(name);
        let mut csv = String::from("p_pa,h_j_per_kg\n");
        for c in &states {
            csv += &format!("{},{}\n", c.p, c.h);
        }
        csv += &format!("{},3e5\n", 0.99 * Refrigerant::by_name(name).unwrap().critical_p_pa());
        std::fs::write(&path, csv).unwrap();
        let mut out = Vec::new();
        pintle::commands::properties::run(name, &path, &mut out).unwrap();
        let out = String::from_utf8(out).unwrap();
        let lines: Vec<Vec<&str>> = out.lines().map(|line| line.split(',').collect()).collect();
        let added = ["t_k", "rho_kg_m3", "s_j_per_kg_k", "x", "phase", "mu_pa_s", "k_w_m_k", "range"];
        assert_eq!(lines[0][2..], added);
        assert_eq!(lines.len(), states.len() + 2);
        for (cells, c) in lines[1..].iter().zip(&states) {
            let n = |i: usize| cells[i].parse::<f64>().unwrap();
            assert!((n(2) - c.t).abs() < 0.02 && (n(3) / c.rho - 1.0).abs() < 1e-3, "{name}: {cells:?}");
            assert!((n(4) - c.s).abs() < 0.5 && n(5).is_nan() == c.x.is_nan(), "{name}: {cells:?}");
            assert_eq!((n(7).is_nan(), n(8).is_nan()), (!c.x.is_nan(), !c.x.is_nan()), "{name}: {cells:?}");
            assert!(c.mu.is_nan() || (n(7) / c.mu - 1.0).abs() < 0.02, "{name}: {cells:?}");
            assert_eq!(cells[9], "ok");
        }
        let beyond = lines.last().unwrap();
        assert_eq!((beyond[2], beyond[6]), ("NaN", "out-of-range"));
        assert!(["critical-band", "above-pressure-range"].contains(&beyond[9]), "{beyond:?}");
    }
    std::fs::remove_file(&path).unwrap();
}

#[cfg(feature = "tables")]
mod with_the_equation {
    use super::worst::Worst;
    use super::*;
    use pintle::refrigerant::equation::Equation;

    const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/assets/refrigerants");

    fn equation(name: &str) -> Equation {
        Equation::from_json(&std::fs::read_to_string(format!("{FOLDER}/{name}.json")).unwrap()).unwrap()
    }

    /// Makes the committed tables again, elsewhere, and compares: the assets are what the source says. Exponentials
    /// of another libc may differ in the last bit, hence the small allowance.
    #[test]
    fn the_committed_tables_are_those_the_source_makes() {
        let folder = std::env::temp_dir().join(format!("pintle-tables-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        for name in NAMES {
            std::fs::copy(format!("{FOLDER}/{name}.json"), folder.join(format!("{name}.json"))).unwrap();
            let start = std::time::Instant::now();
            pintle::commands::tables::run(name, &folder, &mut std::io::sink()).unwrap();
            println!("{name}: made in {:.2} s", start.elapsed().as_secs_f64());
            let new = std::fs::read(folder.join(format!("{name}.tbl"))).unwrap();
            let (new, old) = (Refrigerant::from_bytes(&new).unwrap(), Refrigerant::by_name(name).unwrap());
            for i in 0..5000u32 {
                let (ln_p, h) = (f64::from(i % 71) * 14.9 / 71.0, 100e3 + 100.0 * f64::from(i));
                let (a, b) = (new.state(ln_p, h), old.state(ln_p, h));
                assert!((a.t_k - b.t_k).abs() < 1e-4 && (a.rho_kg_m3 / b.rho_kg_m3 - 1.0).abs() < 1e-6);
                let (a, b) = (new.saturation_transport(ln_p), old.saturation_transport(ln_p));
                assert!((a.mu_l / b.mu_l - 1.0).abs() < 1e-6 && (a.k_v / b.k_v - 1.0).abs() < 1e-6);
            }
        }
        std::fs::remove_dir_all(&folder).unwrap();
    }

    /// Over the whole valid range, 1 Pa to 98 % of the critical pressure, and beyond it in temperature.
    #[test]
    fn the_tables_against_the_equations() {
        NAMES.iter().for_each(|name| one_table_against_its_equation(name));
    }

    fn one_table_against_its_equation(name: &str) {
        let (r, eq) = (Refrigerant::by_name(name).unwrap(), equation(name));
        let bound = |what: &str, bound| Worst::new(format!("{name}, {what} against the equation"), bound);
        let mut sat_t = bound("Tsat, K", 1e-3);
        let mut sat_rho = bound("saturated density, relative", 1e-4);
        let mut sat_h = bound("saturated h, J/kg", 20.0);
        let mut t = bound("T, K", 0.01);
        let mut rho = bound("density, relative", 5e-4);
        let mut s = bound("entropy, J/(kg K)", 0.05);
        let start = eq.at_0_c().unwrap();
        let zero = libm::log(start[0].p);
        for (from, to) in [(zero, libm::log(r.max_p_pa())), (zero, 0.0)] {
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
                // Growing steps to the edge of the range; a step per state, so that the guess stays near.
                let mut at = v;
                for j in 1..=40 {
                    at = eq.at_ph(p, v.h + 500e3 * (f64::from(j) / 40.0).powi(3), &at).unwrap();
                    if at.t > r.valid_to_t_k() {
                        break;
                    }
                    one(&at);
                }
                at = l;
                for j in 1..=40 {
                    at = eq.at_ph(p, l.h - 500e3 * (f64::from(j) / 40.0).powi(3), &at).unwrap();
                    if at.t < r.valid_from_t_k() {
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

    /// `cargo test --no-default-features --features tables --test model make_tables -- --ignored`
    #[test]
    #[ignore = "writes the committed tables"]
    fn make_tables() {
        for name in NAMES {
            pintle::commands::tables::run(name, FOLDER.as_ref(), &mut std::io::stdout()).unwrap();
        }
    }
}
