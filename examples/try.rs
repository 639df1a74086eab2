//! The plant alone, run from the command line while it is being tuned.

use pintle::plant::*;
use pintle::{moist_air, refrigerant::Refrigerant, rig::Rig};
fn arg(k: &str, d: f64) -> f64 {
    std::env::args().find_map(|a| a.strip_prefix(&format!("{k}=")).map(|v| v.parse().unwrap())).unwrap_or(d)
}
fn main() {
    let rig: Rig = ron::from_str(
        &std::fs::read_to_string(std::env::var("RIG").unwrap_or("assets/rigs/compact_car.ron".into()))
            .unwrap(),
    )
    .unwrap();
    let r = Refrigerant::r134a();
    let amb = arg("amb", 35.0) + 273.15;
    let held = arg("held", -1.0);
    let mut i = Inputs {
        compressor_rpm: 0.0,
        fan_share: 0.0,
        road_kmh: arg("road", 0.0),
        blower_pct: arg("blower", 100.0),
        recirculate: true,
        ambient_t_k: amb,
        ambient_w: moist_air::humidity_ratio(amb, arg("rh", 40.0) / 100.0, 101325.0),
        hoses_fitted: true,
        manifold_low: 0.0,
        manifold_high: 0.0,
        fins_blocked: arg("fins", 0.0),
        valve_held: if held >= 0.0 { Some(held) } else { None },
        reed_leak: arg("leak", 0.0),
        charge_kg_s: 0.0,
        charge_h_j_kg: 2.5e5,
        air_kg_s: 0.0,
    };
    let charge = rig.plant.full_charge_kg * arg("charge", 1.0);
    let mut p = Plant::soaked(&rig.plant, r, i, charge, arg("air", 0.0) * 1e-3);
    let m0: f64 = p.committed().1.mass_kg.iter().sum();
    let minutes = arg("min", 10.0);
    let every = arg("every", 30.0);
    let t0 = std::time::Instant::now();
    let mut next = 0.0;
    let ticks = (minutes * 1200.0) as u64;
    for k in 0..=ticks {
        let t = k as f64 * 0.05;
        if k == 100 {
            i.compressor_rpm = arg("rpm", 900.0) * rig.plant.compressor.pulley_ratio;
            i.fan_share = arg("fan", 1.0);
            p.set_inputs(t, i);
        }
        p.advance_to(t);
        if t >= next - 1e-9 {
            next += every;
            let l = p.layout().clone();
            let n = |j: usize| p.node(j, t);
            let f = p.flows();
            let (lift, bt, _) = p.valve();
            let q = |rg: std::ops::Range<usize>| rg.map(|c| p.heats_w()[c]).sum::<f64>();
            let e = n(l.evaporator.end - 1);
            let li = n(l.liquid);
            let st = p.committed().1;
            println!(
                "t{:6.1} low {:5.2} high {:5.2} bar g | mc {:5.1} mv {:5.1} g/s lift {:.2} bulb {:5.1} | sh {:4.1} sc {:4.1} lvl {:.2} glass {:.2} | T1 {:5.1} T2 {:5.1} T4 {:5.1} | Qe {:5.0} Qc {:5.0} W {:5.0} | vent {:4.1} cab {:4.1} fin {:4.1} | Tc-amb {:4.1} steps {} it {} rej {} cut {}",
                t,
                (n(l.suction).p.v - 101325.0) / 1e5,
                (n(l.liquid).p.v - 101325.0) / 1e5,
                f[0].mass_kg_s * 1e3,
                f[2].mass_kg_s * 1e3,
                lift,
                bt - 273.15,
                e.superheat_k(),
                (li.sat.t_k - li.t.v).max(0.0),
                1.0 - n(l.receiver).void,
                li.void,
                n(l.suction).t.v - 273.15,
                n(l.discharge).t.v - 273.15,
                li.t.v - 273.15,
                q(l.evaporator.clone()),
                -q(l.condenser.clone()) - q(l.subcooler.clone()),
                f[0].in_w - f[0].out_w,
                p.vent().0 - 273.15,
                st.cabin.t_k - 273.15,
                st.fin_t_k - 273.15,
                n(l.condenser.start + 2).sat.t_k - amb,
                p.counts().steps,
                p.counts().iterations,
                p.counts().rejected,
                p.counts().cut
            );
            if arg("cells", 0.0) > 0.0 {
                for j in 0..l.len() {
                    let x = n(j);
                    println!(
                        "   {j:2} p {:8.3} bar h {:6.1} q {:6.3} T {:5.1} wall {:5.1} m {:6.2} g air {:.3} g Q {:6.0} flow {:5.1}",
                        x.p.v / 1e5,
                        st.h[j] / 1e3,
                        x.quality.v,
                        x.t.v - 273.15,
                        st.wall_k[j] - 273.15,
                        st.mass_kg[j] * 1e3,
                        st.air_kg[j] * 1e3,
                        p.heats_w()[j],
                        st.through_kg_s[j] * 1e3
                    );
                }
            }
        }
    }
    let el = t0.elapsed().as_secs_f64();
    let m1: f64 = p.committed().1.mass_kg.iter().sum();
    println!(
        "drift {:.2e} released {:.4} x real time {:.0}  troubles {:?}",
        (m1 - m0) / m0,
        p.committed().1.released_kg,
        minutes * 60.0 / el,
        p.troubles()
    );
}
