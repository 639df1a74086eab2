//! .
#[cfg(feature = "tables")]
#[test]
#[ignore = "writes the committed table"]
fn make_tables() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/refrigerants");
    pintle::commands::tables::run("R-134a", &folder, &mut std::io::stdout()).unwrap();
}

#[test]
fn quick() {
    use pintle::refrigerant::{Phase, Refrigerant};
    let r = Refrigerant::r134a();
    let text =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/r134a_points.csv")).unwrap();
    let mut worst = std::collections::BTreeMap::<String, [f64; 3]>::new();
    for line in text.lines().skip(2) {
        let c: Vec<&str> = line.split(',').collect();
        let n = |i: usize| c[i].parse::<f64>().unwrap();
        let s = r.state(n(1).ln(), n(2));
        let w = worst.entry(format!("{} {}", c[0], c[7])).or_default();
        let e =
            [(s.t_k - n(3)).abs(), 100.0 * (s.rho_kg_m3 / n(4) - 1.0).abs(), (s.s_j_per_kg_k - n(5)).abs()];
        for k in 0..3 {
            if e[k] > w[k] {
                w[k] = e[k];
                if e[1] > 0.01 || e[0] > 0.01 {
                    println!("{line} {e:?} {:?}", s.phase == Phase::Liquid);
                }
            }
        }
    }
    println!("{worst:#?}");
    let t = std::time::Instant::now();
    let mut sum = 0.0;
    for i in 0..1_000_000 {
        let f = i as f64 / 1e6;
        let s = r.state(7.0 + 8.0 * f, 200e3 + 300e3 * ((f * 977.0) % 1.0));
        sum += s.t_k + s.rho_kg_m3 + s.dt_dh + s.drho_dh + s.dt_dlnp + s.drho_dlnp;
    }
    println!("{sum} {} ns", t.elapsed().as_nanos() as f64 / 1e6);
}
