use super::*;
use crate::bench::{Action, Bench};
use crate::fault::FaultId;
use crate::scenario::load;

fn car(fault: Option<(FaultId, f64)>, minutes: u32) -> Bench {
    let mut bench = Bench::new(&load("healthy").expect("ships"), 1).expect("a bench");
    if let Some((id, severity)) = fault {
        bench.apply(Action::ImposeFault { id, severity }).expect("allowed");
    }
    bench.advance(minutes * 1200);
    bench
}

#[test]
fn scratch() {
    for (id, s) in [
        (None, 0.0),
        (Some(FaultId::CondenserFanMotorOpen), 1.0),
        (Some(FaultId::TxvStuckClosed), 0.0),
        (Some(FaultId::TxvStuckOpen), 1.5),
        (Some(FaultId::Undercharge), 0.5),
        (Some(FaultId::Undercharge), 0.8),
        (Some(FaultId::Overcharge), 0.5),
        (Some(FaultId::LowOil), 0.9),
        (Some(FaultId::Moisture), 14.0),
        (Some(FaultId::CompressorLeak), 0.6),
        (Some(FaultId::AirInLoop), 6.0),
        (Some(FaultId::CondenserFinsBlocked), 0.7),
    ] {
        let mut b = car(id.map(|i| (i, s)), 3);
        let mut peak: f64 = 0.0;
        for _ in 0..80 {
            b.advance(120);
            peak = peak.max(Felt::of(&b).value(Sense::Listen(Sound::Compressor)).unwrap());
        }
        let f = Felt::of(&b);
        println!(
            "{id:?} {s}: shaft {:.1} rpm {:.0} wet {:.2} film {:.2} gas {:.2} jet {:.1} m {:.1} click {:?}",
            f.shaft_nm,
            f.shaft_rpm,
            f.wet,
            f.film,
            f.inlet_gas,
            f.jet_w,
            f.metered_kg_s * 1e3,
            f.since_click_s
        );
        println!(
            "   comp {:.1} peak {peak:.1} step {:.1} drip {:.1} coilw {:.2} after {:.1}",
            f.value(Sense::Listen(Sound::Compressor)).unwrap(),
            f.value(Sense::Sweep).unwrap(),
            f.drip_kg_s * 60e3,
            f.coil_water,
            f.touch_k(Place::AfterMetering).unwrap() - 273.15
        );
        println!(
            "   cond {:?}",
            f.condenser_k.iter().map(|k| ((k - 273.15) * 10.0).round() / 10.0).collect::<Vec<_>>()
        );
        println!(
            "   {:?}",
            Sound::ALL
                .map(|s| (s, f.value(Sense::Listen(s)).unwrap().round()))
                .into_iter()
                .filter(|x| x.1 > 0.0)
                .collect::<Vec<_>>()
        );
    }
    for open in [1.0, 0.3, 0.1, 0.05, 0.03] {
        let b = car(None, 5);
        let mut p = b.plant().clone();
        let mut i = *p.inputs();
        i.passages.condenser = open;
        let t0 = b.time_s();
        p.set_inputs(t0, i);
        p.advance_to(t0 + 300.0);
        let l = p.layout();
        println!(
            "{open} {:?}",
            l.condenser
                .clone()
                .chain(l.subcooler.clone())
                .map(|c| (p.at(t0 + 300.0, |s| s.wall_k[c]) * 10.0 - 2731.5).round() / 10.0)
                .collect::<Vec<_>>()
        );
    }
}
