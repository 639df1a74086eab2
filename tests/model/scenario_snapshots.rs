//! A short table of what each shipped scenario reads after ten minutes and what it cost the solver, so that
//! a change of the model or of the rig shows in a review. Rounded, so that it does not shout at trifles.

use pintle::bench::Bench;
use pintle::scenario::{self, SHIPPED};

fn table(id: &str) -> String {
    let scenario = scenario::load(id).expect("a shipped scenario");
    let mut bench = Bench::new(&scenario, 1).expect("a bench");
    bench.advance(12_000);
    assert_eq!(bench.troubles(), [] as [String; 0], "{id}");
    let snapshot = bench.snapshot(true);
    let (o, i) = (snapshot.outside, snapshot.inside.expect("inside"));
    let c = bench.counts();
    format!(
        "low {:.1} bar, high {:.1} bar, superheat {:.0} K, subcooling {:.0} K, bubbles {:.1}, level {:.1}\n\
         vent {:.0} °C, cabin {:.0} °C, suction pipe {:.0} °C, discharge pipe {:.0} °C\n\
         clutch {}, fan {:.0} %, charge {:.3} kg, released {:.3} kg\n\
         steps {}, iterations {}, rejected {}, cut {}",
        i.gauge_low_pa / 1e5,
        i.gauge_high_pa / 1e5,
        i.superheat_k,
        i.subcooling_k,
        i.sight_glass_bubbles,
        i.receiver_level,
        i.vent_t_k - 273.15,
        i.cabin_t_k - 273.15,
        i.points[0].t_k - 273.15,
        i.points[1].t_k - 273.15,
        if o.clutch_engaged { "in" } else { "out" },
        o.fan_speed_pct,
        i.charge_kg,
        i.released_kg,
        c.steps,
        c.iterations,
        c.rejected,
        c.cut,
    )
}

#[test]
fn shipped_scenarios_after_ten_minutes() {
    for shipped in SHIPPED {
        insta::assert_snapshot!(shipped.id, table(shipped.id));
    }
}
