//! Fixed points, saturation tables, reference states and cycle points of reference/physics.md section 1, which holds
//! figures of CoolProp 8.0.0 as printed. The tolerances are those the page suggests for tables.

use pintle::refrigerant::{Phase, Refrigerant};

use super::worst::Worst;

fn by_name(name: &str) -> &'static Refrigerant {
    Refrigerant::by_name(name).unwrap()
}

/// Section 1.4: T [C], p [kPa], rho_l, rho_v [kg/m3], h_l, h_v [kJ/kg], s_l, s_v, cp_l, cp_v [kJ/(kg K)].
type Saturation = [f64; 10];

const R134A: [Saturation; 12] = [
    [-30.0, 84.38, 1388.4, 4.426, 160.79, 380.32, 0.8486, 1.7515, 1.273, 0.781],
    [-20.0, 132.73, 1358.3, 6.784, 173.64, 386.55, 0.9002, 1.7413, 1.293, 0.816],
    [-10.0, 200.60, 1327.1, 10.041, 186.70, 392.66, 0.9506, 1.7334, 1.316, 0.854],
    [0.0, 292.80, 1294.8, 14.428, 200.00, 398.60, 1.0000, 1.7271, 1.341, 0.897],
    [10.0, 414.61, 1261.0, 20.226, 213.58, 404.32, 1.0485, 1.7221, 1.370, 0.945],
    [20.0, 571.71, 1225.3, 27.780, 227.47, 409.75, 1.0962, 1.7180, 1.405, 1.001],
    [30.0, 770.20, 1187.5, 37.535, 241.72, 414.82, 1.1435, 1.7145, 1.446, 1.065],
    [40.0, 1016.59, 1146.7, 50.085, 256.41, 419.43, 1.1905, 1.7111, 1.498, 1.145],
    [50.0, 1317.91, 1102.3, 66.272, 271.62, 423.44, 1.2375, 1.7072, 1.566, 1.246],
    [60.0, 1681.78, 1052.9, 87.379, 287.50, 426.63, 1.2848, 1.7024, 1.660, 1.387],
    [70.0, 2116.83, 996.2, 115.572, 304.28, 428.65, 1.3332, 1.6956, 1.804, 1.605],
    [80.0, 2633.20, 928.2, 155.078, 322.39, 428.81, 1.3836, 1.6850, 2.065, 2.012],
];

const R1234YF: [Saturation; 12] = [
    [-30.0, 98.93, 1264.7, 5.843, 162.23, 343.34, 0.8543, 1.5992, 1.218, 0.813],
    [-20.0, 150.86, 1236.3, 8.698, 174.55, 350.14, 0.9038, 1.5974, 1.243, 0.847],
    [-10.0, 221.79, 1206.8, 12.548, 187.13, 356.87, 0.9523, 1.5973, 1.270, 0.882],
    [0.0, 315.88, 1176.1, 17.634, 200.00, 363.48, 1.0000, 1.5985, 1.300, 0.922],
    [10.0, 437.63, 1143.8, 24.250, 213.18, 369.93, 1.0470, 1.6006, 1.333, 0.966],
    [20.0, 591.84, 1109.7, 32.769, 226.71, 376.14, 1.0935, 1.6032, 1.372, 1.016],
    [30.0, 783.62, 1073.1, 43.683, 240.65, 382.03, 1.1396, 1.6060, 1.418, 1.075],
    [40.0, 1018.47, 1033.6, 57.674, 255.05, 387.48, 1.1857, 1.6086, 1.475, 1.149],
    [50.0, 1302.35, 989.9, 75.754, 270.02, 392.34, 1.2318, 1.6104, 1.551, 1.248],
    [60.0, 1641.83, 940.6, 99.553, 285.73, 396.35, 1.2786, 1.6107, 1.660, 1.395],
    [70.0, 2044.45, 882.5, 132.040, 302.45, 399.04, 1.3268, 1.6083, 1.840, 1.646],
    [80.0, 2519.49, 809.1, 179.914, 320.80, 399.43, 1.3779, 1.6005, 2.224, 2.218],
];

const R32: [Saturation; 11] = [
    [-30.0, 273.44, 1151.0, 7.639, 149.45, 506.27, 0.8060, 2.2735, 1.631, 1.004],
    [-20.0, 405.75, 1120.6, 11.157, 165.94, 509.97, 0.8720, 2.2310, 1.661, 1.075],
    [-10.0, 582.63, 1088.8, 15.870, 182.76, 513.02, 0.9365, 2.1915, 1.698, 1.156],
    [0.0, 813.10, 1055.3, 22.091, 200.00, 515.30, 1.0000, 2.1543, 1.745, 1.251],
    [10.0, 1106.91, 1019.7, 30.232, 217.74, 516.66, 1.0628, 2.1185, 1.806, 1.367],
    [20.0, 1474.57, 981.4, 40.856, 236.12, 516.90, 1.1253, 2.0831, 1.886, 1.514],
    [30.0, 1927.51, 939.6, 54.776, 255.32, 515.72, 1.1881, 2.0471, 1.997, 1.712],
    [40.0, 2478.31, 893.0, 73.268, 275.61, 512.71, 1.2520, 2.0091, 2.163, 2.001],
    [50.0, 3141.23, 839.3, 98.550, 297.49, 507.10, 1.3183, 1.9670, 2.439, 2.477],
    [60.0, 3933.23, 773.3, 135.213, 321.93, 497.44, 1.3898, 1.9166, 3.001, 3.441],
    [70.0, 4876.82, 680.9, 196.688, 351.73, 479.52, 1.4740, 1.8464, 4.865, 6.639],
];

const R290: [Saturation; 12] = [
    [-30.0, 167.83, 566.6, 3.867, 127.97, 540.38, 0.7231, 2.4192, 2.305, 1.513],
    [-20.0, 244.52, 554.5, 5.505, 151.36, 552.13, 0.8168, 2.3999, 2.361, 1.580],
    [-10.0, 345.28, 541.8, 7.632, 175.35, 563.65, 0.9090, 2.3846, 2.423, 1.655],
    [0.0, 474.46, 528.6, 10.351, 200.00, 574.87, 1.0000, 2.3724, 2.493, 1.739],
    [10.0, 636.60, 514.7, 13.783, 225.40, 585.67, 1.0902, 2.3626, 2.573, 1.835],
    [20.0, 836.46, 500.1, 18.082, 251.64, 595.95, 1.1799, 2.3544, 2.666, 1.949],
    [30.0, 1079.00, 484.4, 23.451, 278.83, 605.54, 1.2695, 2.3471, 2.777, 2.088],
    [40.0, 1369.42, 467.5, 30.165, 307.15, 614.21, 1.3594, 2.3399, 2.913, 2.263],
    [50.0, 1713.30, 448.9, 38.630, 336.80, 621.66, 1.4502, 2.3317, 3.089, 2.499],
    [60.0, 2116.75, 428.0, 49.493, 368.14, 627.36, 1.5429, 2.3210, 3.337, 2.841],
    [70.0, 2586.76, 403.6, 63.916, 401.75, 630.37, 1.6389, 2.3052, 3.735, 3.421],
    [80.0, 3131.88, 373.3, 84.406, 438.93, 628.73, 1.7417, 2.2791, 4.545, 4.707],
];

#[test]
fn saturation_tables() {
    let tables: [(&str, &[Saturation]); 4] =
        [("R-134a", &R134A), ("R-1234yf", &R1234YF), ("R-32", &R32), ("R-290", &R290)];
    for (name, rows) in tables {
        let r = by_name(name);
        let bound = |what: &str, bound| Worst::new(format!("{name}, {what}"), bound);
        let mut p_worst = bound("psat, relative", 1e-3);
        let mut rho_l = bound("rho_l, relative", 1e-3);
        let mut rho_v = bound("rho_v, relative", 3e-3);
        let mut h = bound("h, kJ/kg", 0.3);
        let mut s = bound("s, kJ/(kg K)", 1e-3);
        let mut cp = bound("cp, kJ/(kg K)", 2e-3);
        let mut t = bound("Tsat(p), K", 0.05);
        for &[t_c, p_kpa, l, v, h_l, h_v, s_l, s_v, cp_l, cp_v] in rows {
            let place = || format!("{t_c} C");
            let p = r.saturation_p_pa(t_c + 273.15);
            let sat = r.saturation(libm::log(p));
            assert!(sat.valid && r.saturates_at(t_c + 273.15));
            p_worst.see(p / (p_kpa * 1e3) - 1.0, place);
            rho_l.see(sat.rho_l / l - 1.0, place);
            rho_v.see(sat.rho_v / v - 1.0, place);
            h.see(sat.h_l * 1e-3 - h_l, place);
            h.see(sat.h_v * 1e-3 - h_v, place);
            s.see(sat.s_l * 1e-3 - s_l, place);
            s.see(sat.s_v * 1e-3 - s_v, place);
            let transport = r.saturation_transport(libm::log(p));
            cp.see(transport.cp_l * 1e-3 - cp_l, place);
            cp.see(transport.cp_v * 1e-3 - cp_v, place);
            t.see(r.saturation(libm::log(p_kpa * 1e3)).t_k - 273.15 - t_c, place);
        }
        for worst in [p_worst, rho_l, rho_v, h, s, cp, t] {
            worst.hold();
        }
    }
}

/// Section 1.2: critical temperature [K], pressure [kPa] and density [kg/m3], molar mass [g/mol], normal boiling point
/// [C], triple point and highest temperature [K].
const FIXED: [(&str, [f64; 7]); 4] = [
    ("R-134a", [374.212, 4059.28, 511.95, 102.032, -26.07, 169.85, 455.0]),
    ("R-1234yf", [367.85, 3384.37, 476.69, 114.042, -29.46, 121.6, 410.0]),
    ("R-32", [351.255, 5782.65, 424.0, 52.024, -51.65, 136.34, 435.0]),
    ("R-290", [369.890, 4251.17, 220.48, 44.096, -42.11, 85.53, 650.0]),
];

#[test]
fn fixed_points() {
    for (name, [tc, pc, rho_c, molar_mass, boiling, triple, hottest]) in FIXED {
        let r = by_name(name);
        assert_eq!(r.name(), name);
        // Half a unit of the last printed place.
        assert!((r.critical_t_k() - tc).abs() <= 5.1e-4, "{name}: {}", r.critical_t_k());
        assert!((r.critical_p_pa() * 1e-3 - pc).abs() <= 5.1e-3, "{name}: {}", r.critical_p_pa());
        assert!((r.critical_rho_kg_m3() - rho_c).abs() <= 5.1e-3, "{name}: {}", r.critical_rho_kg_m3());
        assert!((r.molar_mass_kg_mol() * 1e3 - molar_mass).abs() <= 5.1e-4, "{name}");
        assert!((r.triple_t_k() - triple).abs() <= 5.1e-3, "{name}");
        assert_eq!(r.max_t_k(), hottest, "{name}");
        let nbp = r.saturation(libm::log(101_325.0)).t_k - 273.15;
        assert!((nbp - boiling).abs() <= 5.1e-3, "{name}: {nbp}");
        assert!((r.max_p_pa() / r.critical_p_pa() - 0.98).abs() < 1e-12);
        assert!((r.min_p_pa() - 1.0).abs() < 1e-12);
        assert!((r.valid_from_t_k() - 213.15).abs() < 1e-9, "{name}");
        assert!((r.valid_to_t_k() - hottest.min(433.15)).abs() < 1e-9, "{name}");
    }
    assert!(Refrigerant::by_name("water").is_none());
}

/// Section 1.3: h and s of the IIR reference less those of the ASHRAE reference (zero in liquid at -40 C) [kJ/kg] and
/// [kJ/(kg K)]; and the IIR reference itself, 200 kJ/kg and 1 kJ/(kg K) in liquid at 0 C.
#[test]
fn reference_states() {
    for (name, h_offset, s_offset) in [
        ("R-134a", 148.144, 0.79561),
        ("R-1234yf", 150.151, 0.80370),
        ("R-32", 133.226, 0.73819),
        ("R-290", 105.123, 0.62751),
    ] {
        let r = by_name(name);
        let (ln_p, slope) = r.saturation_ln_p(273.15);
        let ice = r.saturation(ln_p);
        assert!((ice.h_l - 200e3).abs() < 0.2 && (ice.s_l - 1e3).abs() < 1e-3, "{name}: {ice:?}");
        assert!((r.saturation_dp_dt(273.15) / (slope * r.saturation_p_pa(273.15)) - 1.0).abs() < 1e-12);
        let cold = r.saturation(r.saturation_ln_p(233.15).0);
        // A few J/kg for the table.
        assert!((cold.h_l * 1e-3 - h_offset).abs() < 2e-3, "{name}: {}", cold.h_l);
        assert!((cold.s_l * 1e-3 - s_offset).abs() < 2e-5, "{name}: {}", cold.s_l);
    }
}

/// Section 1.7: evaporating and condensing temperature [C], superheat, subcooling [K], isentropic efficiency; then p_s,
/// p_d [kPa], q, w [kJ/kg], COP, discharge temperature, isentropic discharge temperature [C], flash quality, volumetric
/// capacity [kJ/m3].
const CYCLES: [(&str, [f64; 5], [f64; 9]); 10] = [
    (
        "R-134a",
        [0.0, 40.0, 0.0, 0.0, 1.0],
        [292.8, 1016.6, 142.19, 25.88, 5.494, 44.49, 44.49, 0.2840, 2051.6],
    ),
    (
        "R-134a",
        [0.0, 50.0, 10.0, 5.0, 0.65],
        [292.8, 1317.9, 143.62, 50.85, 2.824, 80.56, 64.52, 0.3217, 1971.8],
    ),
    (
        "R-134a",
        [5.0, 45.0, 5.0, 5.0, 0.70],
        [349.7, 1159.9, 149.69, 36.60, 4.090, 63.75, 53.81, 0.2549, 2498.3],
    ),
    (
        "R-134a",
        [7.2, 54.4, 11.1, 8.3, 0.70],
        [377.2, 1469.8, 147.44, 42.89, 3.438, 80.44, 69.18, 0.2891, 2569.2],
    ),
    (
        "R-134a",
        [5.0, 60.0, 10.0, 10.0, 0.65],
        [349.7, 1681.8, 139.14, 53.03, 2.624, 90.18, 74.39, 0.3323, 2265.6],
    ),
    (
        "R-1234yf",
        [0.0, 40.0, 0.0, 0.0, 1.0],
        [315.9, 1018.5, 108.43, 20.85, 5.201, 40.00, 40.00, 0.3367, 1912.2],
    ),
    (
        "R-1234yf",
        [5.0, 45.0, 5.0, 5.0, 0.70],
        [373.0, 1153.9, 116.44, 29.54, 3.941, 54.38, 46.79, 0.3025, 2350.8],
    ),
    (
        "R-1234yf",
        [5.0, 60.0, 10.0, 10.0, 0.65],
        [373.0, 1641.8, 106.37, 42.48, 2.504, 77.18, 65.49, 0.3949, 2093.8],
    ),
    (
        "R-32",
        [5.0, 45.0, 5.0, 5.0, 0.70],
        [951.4, 2794.8, 247.14, 63.82, 3.872, 95.01, 80.26, 0.2163, 6179.8],
    ),
    (
        "R-290",
        [5.0, 45.0, 5.0, 5.0, 0.70],
        [551.1, 1534.3, 282.21, 70.27, 4.016, 63.17, 53.78, 0.2569, 3288.7],
    ),
];

#[test]
fn cycle_points() {
    let mut worst = Worst::new("cycle points, relative", 3e-3);
    for (name, [te, tc, superheat, subcooling, efficiency], expected) in CYCLES {
        let r = by_name(name);
        let (p_s, p_d) = (r.saturation_p_pa(te + 273.15), r.saturation_p_pa(tc + 273.15));
        let h1 = r.h_from_pt(p_s, te + 273.15 + superheat, Phase::Vapour);
        let h3 = r.h_from_pt(p_d, tc + 273.15 - subcooling, Phase::Liquid);
        let suction = r.state(libm::log(p_s), h1);
        let h2s = r.isentropic_h(libm::log(p_d), suction.s_j_per_kg_k, h1);
        let w = (h2s - h1) / efficiency;
        let got = [
            p_s * 1e-3,
            p_d * 1e-3,
            (h1 - h3) * 1e-3,
            w * 1e-3,
            (h1 - h3) / w,
            r.state(libm::log(p_d), h1 + w).t_k - 273.15,
            r.state(libm::log(p_d), h2s).t_k - 273.15,
            r.state(libm::log(p_s), h3).x,
            (h1 - h3) * suction.rho_kg_m3 * 1e-3,
        ];
        for (column, (g, e)) in got.iter().zip(expected).enumerate() {
            worst.see(g / e - 1.0, || format!("{name}, {te}/{tc} C, column {column}"));
        }
    }
    worst.hold();
}

/// Section 1.7: R-1234yf compressed from its dew line at 0 C to 40 C ends wet, at 40.00 C and a quality of 0.9762
/// (CoolProp 8.0.0); R-134a ends dry.
#[test]
fn r1234yf_folds_back_into_the_dome() {
    for (name, phase) in [("R-1234yf", Phase::TwoPhase), ("R-134a", Phase::Vapour)] {
        let r = by_name(name);
        let dew = r.saturation(r.saturation_ln_p(273.15).0);
        let (ln_p, _) = r.saturation_ln_p(313.15);
        let end = r.state(ln_p, r.isentropic_h(ln_p, dew.s_v, dew.h_v));
        assert_eq!(end.phase, phase, "{name}: {end:?}");
        assert!(phase == Phase::Vapour || (end.t_k - 313.15).abs() < 5e-3 && (end.x - 0.9762).abs() < 1e-4);
    }
}

/// Section 1.2: at 80 C R-32 is above its critical point, and that is said.
#[test]
fn r32_does_not_saturate_at_80_c() {
    let r = by_name("R-32");
    assert!(!r.saturates_at(353.15) && r.saturates_at(343.15));
    assert!(!r.saturation(r.saturation_ln_p(353.15).0).valid);
    assert!(by_name("R-290").saturates_at(353.15));
}
