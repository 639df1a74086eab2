//! 5,000 random states of each refrigerant from CoolProp 8.0.0 (`tests/reference/coolprop_states.py`), a third of them
//! within 2 K of saturation. The bounds are those the refrigerants were asked for with.

use pintle::refrigerant::{Phase, Refrigerant};

use super::worst::Worst;

/// Single-phase states of R-32 for which CoolProp has no conductivity: its solver for the conformal state of propane
/// fails in thin cold vapour. There is nothing to compare with.
pub const WITHOUT_CONDUCTIVITY: [(&str, usize); 4] =
    [("R-134a", 0), ("R-1234yf", 0), ("R-32", 105), ("R-290", 0)];

/// A state of the reference files.
#[derive(Debug, Clone, Copy)]
pub struct Reference {
    pub p: f64,
    pub h: f64,
    pub t: f64,
    pub rho: f64,
    pub s: f64,
    /// NaN outside the dome.
    pub x: f64,
    /// Saturation pressure at `t`; NaN above the temperature of 98 % of the critical pressure.
    pub p_sat: f64,
    pub mu: f64,
    pub k: f64,
}

/// The states, and the saturation states as T, p, mu_l, mu_v, k_l, k_v, cp_l, cp_v, sigma.
pub fn read(name: &str) -> (Vec<Reference>, Vec<[f64; 9]>) {
    let path = format!("{}/tests/reference/states/{name}.bin", env!("CARGO_MANIFEST_DIR"));
    let bytes = std::fs::read(path).unwrap();
    let count = |at: usize| u32::from_le_bytes(bytes[at..at + 4].try_into().unwrap()) as usize;
    let rows: Vec<[f64; 9]> = bytes[8..]
        .chunks_exact(40)
        .map(|row| {
            let single = |i: usize| f32::from_le_bytes(row[8 + 4 * i..12 + 4 * i].try_into().unwrap());
            let first = f64::from_le_bytes(row[..8].try_into().unwrap());
            std::array::from_fn(|i| if i == 0 { first } else { f64::from(single(i - 1)) })
        })
        .collect();
    assert_eq!(rows.len(), count(0) + count(4), "{name}");
    let states = rows[..count(0)]
        .iter()
        .map(|&[h, p, t, rho, s, x, p_sat, mu, k]| Reference { p, h, t, rho, s, x, p_sat, mu, k })
        .collect();
    (states, rows[count(0)..].to_vec())
}

/// The worst of temperature [K], density, entropy, saturation pressure, quality and of the two inverses.
pub fn worst_of_states(name: &str) -> [Worst; 7] {
    let r = Refrigerant::by_name(name).unwrap();
    let bound = |what: &str, bound| Worst::new(format!("{name}, {what} against CoolProp"), bound);
    let mut t = bound("T, K", 0.02);
    let mut rho = bound("density, relative", 1e-3);
    let mut s = bound("entropy, J/(kg K)", 0.5);
    let mut p_sat = bound("saturation pressure, relative", 5e-4);
    let mut x = bound("quality", 1e-4);
    let mut h = bound("h_from_pt, as temperature, K", 0.02);
    let mut d = bound("density_at_pt, relative", 1e-3);
    let states = read(name).0;
    assert_eq!(states.len(), 5000);
    let mut near = 0;
    for c in &states {
        let place = || format!("{c:?}");
        let ln_p = libm::log(c.p);
        let state = r.state(ln_p, c.h);
        assert!(state.valid && r.out_of_range(ln_p, &state).is_none(), "{name}: {c:?} {state:?}");
        t.see(state.t_k - c.t, place);
        rho.see(state.rho_kg_m3 / c.rho - 1.0, place);
        s.see(state.s_j_per_kg_k - c.s, place);
        if c.p_sat.is_finite() {
            p_sat.see(r.saturation_p_pa(c.t) / c.p_sat - 1.0, place);
        }
        let t_sat = r.saturation(ln_p).t_k;
        near += usize::from((c.t - t_sat).abs() <= 2.0 && c.x.is_nan());
        if c.x.is_finite() {
            assert_eq!(state.phase, Phase::TwoPhase, "{name}: {c:?}");
            x.see(state.x - c.x, place);
        } else {
            let phase = if c.t < t_sat { Phase::Liquid } else { Phase::Vapour };
            assert_eq!(state.phase, phase, "{name}: {c:?}");
            assert!(state.x.is_nan());
            d.see(r.density_at_pt(c.p, c.t, phase) / c.rho - 1.0, place);
            // As temperature, since near the critical point a hundredth of a kelvin is hundreds of J/kg.
            h.see((r.h_from_pt(c.p, c.t, phase) - c.h) * state.dt_dh, place);
        }
    }
    assert!(near >= 1666, "{near} states near saturation");
    [t, rho, s, p_sat, x, h, d]
}

/// The worst of viscosity and conductivity of single-phase states, and of seven curves of saturation; all relative.
pub fn worst_of_transport(name: &str, without: usize) -> ([Worst; 2], [Worst; 7]) {
    let r = Refrigerant::by_name(name).unwrap();
    let bound = |what: &str| Worst::new(format!("{name}, {what} against CoolProp, relative"), 0.02);
    let (mut mu, mut k) = (bound("viscosity"), bound("conductivity"));
    let mut unknown = 0;
    let (states, saturations) = read(name);
    for c in states.iter().filter(|c| c.x.is_nan()) {
        let place = || format!("{c:?}");
        let ln_p = libm::log(c.p);
        let (by_density, by_state) =
            (r.transport(c.t, c.rho), r.transport_of(&r.saturation(ln_p), &r.state(ln_p, c.h)));
        for got in [by_density, by_state] {
            assert!(got.valid, "{name}: {c:?} {got:?}");
            mu.see(got.mu_pa_s / c.mu - 1.0, place);
            if c.k.is_finite() {
                k.see(got.k_w_m_k / c.k - 1.0, place);
            }
        }
        unknown += usize::from(c.k.is_nan());
    }
    assert_eq!(unknown, without, "{name}");
    let mut curves = ["mu_l", "mu_v", "k_l", "k_v", "cp_l", "cp_v", "surface tension"].map(bound);
    for c in &saturations {
        let s = r.saturation_transport(libm::log(c[1]));
        assert!(s.valid, "{name}: {c:?}");
        let got = [s.mu_l, s.mu_v, s.k_l, s.k_v, s.cp_l, s.cp_v, s.sigma_n_m];
        for ((worst, got), expected) in curves.iter_mut().zip(got).zip(&c[2..]) {
            if expected.is_finite() {
                worst.see(got / expected - 1.0, || format!("{} K", c[0]));
            }
        }
    }
    ([mu, k], curves)
}

#[test]
fn states() {
    for (name, _) in WITHOUT_CONDUCTIVITY {
        for worst in worst_of_states(name) {
            worst.hold();
        }
    }
}

#[test]
fn transport() {
    for (name, without) in WITHOUT_CONDUCTIVITY {
        let (single_phase, curves) = worst_of_transport(name, without);
        for worst in single_phase.into_iter().chain(curves) {
            worst.hold();
        }
    }
}
