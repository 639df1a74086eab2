//! Whatever is done to any rig's circuit: finite volts, currents and drives, and no panic.

use proptest::prelude::*;

use super::*;
use crate::circuit::spec::Kind;

/// Numbers a sensor or a fault may have, and some that none should.
fn number(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => low..high,
        1 => prop::sample::select(vec![0.0, -1.0, 1e9, -1e9, f64::NAN, f64::INFINITY, f64::NEG_INFINITY]),
    ]
}

fn change() -> impl Strategy<Value = Change> {
    prop_oneof![
        Just(Change::Open),
        Just(Change::Shorted),
        Just(Change::StuckOpen),
        Just(Change::StuckClosed),
        number(0.0, 100.0).prop_map(Change::AddedOhm),
        number(0.0, 2.0).prop_map(Change::ShareOfOhm),
        number(-1e6, 1e6).prop_map(Change::Offset),
        number(0.0, 3.0).prop_map(Change::Gap),
        number(0.0, 1.0).prop_map(Change::WeakBattery),
        number(0.0, 1.0).prop_map(Change::WeakCapacitor),
        number(0.0, 1.0).prop_map(Change::WornFacing),
        number(0.0, 1.0).prop_map(Change::Dragging),
    ]
}

/// Knobs, places and body.
fn inputs() -> impl Strategy<Value = CircuitInputs> {
    let knobs = (any::<[bool; 4]>(), number(0.0, 6000.0), number(0.0, 100.0), number(270.0, 300.0));
    let pressures = [number(-1e5, 40e5), number(-1e5, 40e5), number(-1e5, 40e5)];
    let places = prop::array::uniform6(number(230.0, 400.0));
    let body = (number(230.0, 500.0), number(0.0, 60.0), any::<bool>(), number(0.0, 20e5));
    (knobs, pressures, places, body).prop_map(|(knobs, p, t, body)| {
        let ([engine_on, ac_request, throttle_open, door_open], engine_rpm, blower_pct, setting_k) = knobs;
        CircuitInputs {
            engine_on,
            engine_rpm,
            ac_request,
            blower_pct,
            setting_k,
            throttle_open,
            door_open,
            senses: Senses {
                suction_gauge_pa: p[0],
                liquid_gauge_pa: p[1],
                discharge_gauge_pa: p[2],
                fin_t_k: t[0],
                evaporator_out_t_k: t[1],
                box_t_k: t[2],
                coolant_t_k: t[3],
                ambient_t_k: t[4],
                battery_t_k: t[5],
            },
            coil_t_k: body.0,
            load_nm: body.1,
            seized: body.2,
            standing_pa: body.3,
            ..CircuitInputs::default()
        }
    })
}

/// One state of a circuit: inputs, faults by number of part, isolator opened, connector off, and how long it lasts.
type Deed = (CircuitInputs, Vec<(prop::sample::Index, Change)>, bool, Option<prop::sample::Index>, f64);

fn deed() -> impl Strategy<Value = Deed> {
    let faults = prop::collection::vec((any::<prop::sample::Index>(), change()), 0..5);
    (inputs(), faults, any::<bool>(), any::<Option<prop::sample::Index>>(), 0.0..8.0f64)
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 48,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(1),
        ..ProptestConfig::default()
    })]

    #[test]
    fn nothing_breaks_a_circuit(deeds in prop::collection::vec(deed(), 1..6)) {
        for (rig, spec) in circuits() {
            let mut c = Circuit::new(&spec);
            let ids: Vec<&String> =
                spec.parts.iter().map(|p| &p.id).chain(spec.supplies.iter().map(|s| &s.id)).collect();
            let plugs: Vec<&String> = spec.points.iter().map(|p| &p.connector).filter(|c| !c.is_empty()).collect();
            for (inputs, faults, isolated, plug, seconds) in &deeds {
                let faults = faults.iter().map(|(n, change)| PartFault {
                    part: (*n.get(&ids)).clone(),
                    change: *change,
                });
                let opened = spec.parts.iter().filter(|p| *isolated && matches!(p.kind, Kind::Isolator { .. }));
                let i = CircuitInputs {
                    faults: faults.collect(),
                    isolated: opened.map(|p| p.id.clone()).collect(),
                    unplugged: plug.iter().filter(|_| !plugs.is_empty()).map(|n| (*n.get(&plugs)).clone()).collect(),
                    ..inputs.clone()
                };
                pass(&mut c, &i, *seconds);
                for (point, volts) in c.all_volts() {
                    prop_assert!(volts.is_finite() && volts.abs() < 1e6, "{rig} {point}: {volts} V");
                }
                for part in &spec.parts {
                    let amps = a(&c, &part.id);
                    prop_assert!(amps.is_finite(), "{rig} {}: {amps} A", part.id);
                }
                let d = c.drives();
                for share in [
                    d.clutch_grip,
                    d.fan_share,
                    d.blower_share,
                    d.stroke,
                    d.expansion_opening.unwrap_or(0.0),
                    d.chiller_opening.unwrap_or(0.0),
                    d.liquid_line_open,
                ] {
                    prop_assert!((0.0..=1.0).contains(&share), "{rig}: {d:?}");
                }
                for rpm in [d.electric_rpm, d.hermetic_rpm].into_iter().flatten() {
                    prop_assert!((0.0..=20_000.0).contains(&rpm), "{rig}: {rpm} rev/min");
                }
                prop_assert!(d.clutch_coil_w.is_finite() && d.clutch_coil_w >= 0.0, "{rig}: {d:?}");
            }
        }
    }
}
