//! x
use pintle::plant::{CentreHose, Contents, Inputs, Plant};
use pintle::refrigerant::Refrigerant;
use pintle::rig::Rig;

fn run(t_c: f64, water_g: f64, oil: f64, charge_kg: f64, hand: f64) {
    let spec = Rig::load("compact_car").expect("the rig").plant;
    let mut i = Inputs::parked(t_c + 273.15).with_hoses(true);
    (i.manifold_low, i.manifold_high) = (hand, hand);
    i.centre_hose = CentreHose::VacuumPump;
    i.desiccant_taken = 1.0;
    let contents = Contents { charge_kg, air_kg: 2e-3, oil_kg: oil, water_kg: water_g * 1e-3 };
    let mut plant = Plant::in_bay(&spec, Refrigerant::r134a(), i, contents);
    let l = plant.layout().clone();
    println!("--- {t_c} C, {water_g} g, oil {oil}, charge {charge_kg}, hand {hand}");
    let began = std::time::Instant::now();
    if std::env::var("FINE").is_ok() {
        for k in 0..30 {
            let t = 50.0 + 3.0 * k as f64;
            plant.advance_to(t);
            print!("{t} frozen {:.3} ", plant.at(t, |s| s.water.frozen_kg) * 1e3);
            for i in [
                l.suction,
                l.condenser.start,
                l.receiver.unwrap(),
                l.liquid,
                l.evaporator.start,
                l.low_hose,
                l.high_hose,
                l.centre,
            ] {
                print!(
                    "| {:.0} {:.0}C {:.3}g {:.2e}",
                    plant.look(i, t).p_pa,
                    plant.look(i, t).t_k - 273.15,
                    plant.at(t, |s| s.water.kg[i]) * 1e3,
                    plant.node(i, t).p_ref
                );
            }
            println!();
        }
    }
    for m in [1, 2, 5, 10, 15, 20, 30, 45, 60, 90, 120, 180] {
        let t = 60.0 * m as f64;
        plant.advance_to(t);
        println!(
            "{m} min: suction {:.0} Pa, centre {:.0} Pa, evap {:.0}, water {:.3} g, frozen {:.3}, wall {:.1} C",
            plant.look(l.suction, t).p_pa,
            plant.look(l.centre, t).p_pa,
            plant.look(l.evaporator.start, t).p_pa,
            plant.at(t, |s| s.water.total_kg()) * 1e3,
            plant.at(t, |s| s.water.frozen_kg) * 1e3,
            plant.at(t, |s| s.wall_k[l.suction]) - 273.15,
        );
        println!("   {:?} {:?}", began.elapsed(), plant.counts());
    }
    println!("{:?} {:?} {:?}", began.elapsed(), plant.troubles(), plant.counts());
}

#[test]
fn explore() {
    let get = |k: &str, d: f64| std::env::var(k).ok().and_then(|x| x.parse().ok()).unwrap_or(d);
    run(get("T", 25.0), get("W", 10.0), get("OIL", 0.0), get("CH", 1e-3), get("HAND", 1.0));
}
