//! Whole cars on the bench with a fault in them, and what is noticed of it. What is expected of a fault's signs is
//! common practice unless a source stands beside it.

mod words;

use pintle::bench::Action;
use pintle::fault::FaultId;
use pintle::instrument::Probe;
use pintle::knobs::Change;
use pintle::perceive::{BAND_HZ, Dash, Felt, Perceived, Place, Sense, Smell, Sound, Vent, View};
use pintle::scenario::Scenario;
use words::{car, car_with, seen};

#[test]
fn a_sound_car_feels_as_the_trade_teaches() {
    let of = seen(&car(&[]));
    let touch = |p| of.words(Sense::Touch(p));
    assert_eq!(touch(Place::DischargePipe), "too hot to touch");
    assert_eq!(touch(Place::LiquidPipe), "hot");
    assert_eq!(touch(Place::AfterMetering), "cold");
    assert!(["cold", "cool"].contains(&touch(Place::SuctionPipe)));
    assert_eq!(of.words(Sense::Sweep), "no sudden step");
    assert_eq!(of.words(Sense::Listen(Sound::Compressor)), "even hum");
    assert_eq!(of.words(Sense::Look(View::ClutchPlate)), "turns with the pulley");
    assert_eq!(of.words(Sense::Look(View::Drip)), "steady dripping");
    assert_eq!(of.words(Sense::Dash(Dash::AcLamp)), "lit");
    assert_eq!(
        (of.words(Sense::Dash(Dash::Battery)), of.words(Sense::Dash(Dash::EngineHot))),
        ("dark", "dark")
    );
    assert_eq!(
        (of.words(Sense::Vent(Vent::Strength)), of.words(Sense::Vent(Vent::Feel))),
        ("strongly", "cool")
    );
    assert!(of.get(Sense::Touch(Place::Accumulator)).is_none(), "this car has none");
    for knock in
        [Sound::Knock, Sound::Growl, Sound::Rattle, Sound::ClutchSqueal, Sound::Belt, Sound::ValveGurgle]
    {
        assert_eq!(of.words(Sense::Listen(knock)), "nothing to hear", "{knock:?}");
    }
}

#[test]
fn a_dead_fan_is_silent_and_still_and_the_high_side_burns() {
    let (healthy, dead) = (car(&[]), car(&[(FaultId::CondenserFanMotorOpen, 1.0)]));
    let of = seen(&dead);
    assert_eq!(of.words(Sense::Listen(Sound::Fan)), "silent");
    assert_eq!(of.words(Sense::Look(View::Fan)), "stands still");
    assert_eq!(of.words(Sense::Touch(Place::LiquidPipe)), "too hot to touch");
    assert_eq!(of.words(Sense::Touch(Place::CondenserMiddle)), "too hot to touch");
    // 200 Hz: the blades at low speed.
    let band = BAND_HZ.iter().position(|hz| *hz == 200.0).expect("a band");
    let mut without = healthy.felt();
    let with = Perceived::of(&without).spectrum_db[band];
    without.fan_share = 0.0;
    assert!(with > Perceived::of(&without).spectrum_db[band] + 1.5);
}

#[test]
fn a_valve_held_shut_frosts_and_a_valve_held_open_floods() {
    let of = seen(&car(&[(FaultId::TxvStuckClosed, 0.0)]));
    // Frost at the valve, no cooling: negative low side in Nissan's gauge table and three more, undated.
    assert_eq!(of.words(Sense::Surface(Place::AfterMetering)), "white with frost");
    assert_eq!(of.words(Sense::Touch(Place::AfterMetering)), "freezing cold");
    assert_eq!(of.words(Sense::Touch(Place::EvaporatorOut)), "warm");
    assert_eq!(of.words(Sense::Vent(Vent::Feel)), "hot");
    assert_eq!(of.words(Sense::Listen(Sound::Compressor)), "runs very softly, hardly any load");
    let of = seen(&car(&[(FaultId::TxvStuckOpen, 1.5)]));
    assert!(of.get(Sense::Listen(Sound::Knock)).expect("an ear").notable);
    assert_eq!(of.words(Sense::Surface(Place::SuctionPipe)), "wet with dew");
}

#[test]
fn half_a_charge_whistles_and_warms_the_suction_pipe() {
    let bench = car(&[(FaultId::Undercharge, 0.5)]);
    let of = seen(&bench);
    assert_eq!(of.words(Sense::Listen(Sound::ValveGurgle)), "hisses and whistles: gas with the liquid");
    assert_eq!(of.words(Sense::Listen(Sound::ValveHiss)), "sharp hiss");
    assert_eq!(of.words(Sense::Touch(Place::DischargePipe)), "too hot to touch");
    assert_eq!(of.words(Sense::Touch(Place::EvaporatorOut)), "neither warm nor cool");
    assert_eq!(of.words(Sense::Vent(Vent::Feel)), "warm");
}

#[test]
fn freezing_water_shuts_the_valve_as_dirt_would() {
    let cool = |faults: &[(FaultId, f64)]| {
        let mut bench = car_with(faults, |s| s.start.ambient_c = 20.0);
        bench.advance(20 * 1200);
        (bench.plant().at(bench.time_s(), |s| s.water.icing.ice_kg), seen(&bench))
    };
    let (ice, wet) = cool(&[(FaultId::Moisture, 14.0)]);
    let (none, dry) = cool(&[]);
    assert!(ice > 1e-4 && none == 0.0, "{ice} {none}");
    let told = |of: &Perceived| {
        [
            Sense::Surface(Place::AfterMetering),
            Sense::Vent(Vent::Feel),
            Sense::Listen(Sound::Compressor),
            Sense::Look(View::Drip),
        ]
        .map(|sense| of.words(sense))
    };
    assert_eq!(told(&wet), ["white with frost", "lukewarm", "runs very softly, hardly any load", "dry"]);
    for (wet, dry) in told(&wet).into_iter().zip(told(&dry)).skip(1).take(2) {
        assert_ne!(wet, dry);
    }
}

#[test]
fn a_compressor_without_oil_growls_then_sticks_and_the_clutch_burns() {
    let mut bench = car_with(&[(FaultId::LowOil, 1.0)], |_| {});
    bench.advance(600);
    assert_eq!(seen(&bench).words(Sense::Listen(Sound::Growl)), "growls, metal on metal");
    bench.advance(20 * 1200);
    let of = seen(&bench);
    assert!(bench.plant().at(bench.time_s(), |s| s.shell.wear) >= 1.0);
    assert_eq!(of.words(Sense::Listen(Sound::Compressor)), "silent");
    assert_eq!(of.words(Sense::Look(View::ClutchPlate)), "pulled in, but it slips");
    assert_eq!(of.words(Sense::Listen(Sound::ClutchSqueal)), "squeals");
    assert_eq!(of.words(Sense::Listen(Sound::Belt)), "squeals");
    assert_eq!(of.words(Sense::Smell(Smell::Clutch)), "sharp smell of a burnt clutch");
}

#[test]
fn after_a_stop_the_clutch_clicks_and_pressures_hiss_even() {
    let mut bench = car(&[]);
    for off in [Action::Set(Change::AcRequest(false)), Action::Set(Change::BlowerPct(0.0))] {
        bench.apply(off).expect("allowed");
    }
    bench.advance(10);
    let of = seen(&bench);
    assert_eq!(of.words(Sense::Listen(Sound::ClutchClick)), "a click");
    assert_eq!(of.words(Sense::Look(View::ClutchPlate)), "stands still while the pulley turns");
    assert_eq!(of.words(Sense::Dash(Dash::AcLamp)), "dark");
    bench.advance(40);
    assert!(seen(&bench).get(Sense::Listen(Sound::Equalising)).expect("an ear").notable);
    assert_eq!(seen(&bench).words(Sense::Listen(Sound::ClutchClick)), "nothing to hear");
    bench.advance(20 * 1200);
    assert_eq!(seen(&bench).words(Sense::Listen(Sound::Equalising)), "nothing to hear");
}

#[test]
fn the_windows_fog_where_air_is_damp_and_glass_is_cold() {
    let winter = |recirculate| {
        let mut bench = car_with(&[], |s| {
            s.start.ambient_c = 4.0;
            s.start.relative_humidity_pct = 90.0;
            s.start.people = 5.0;
            (s.start.recirculate, s.start.ac_request, s.start.blower_pct) = (recirculate, false, 30.0);
        });
        bench.advance(15 * 1200);
        seen(&bench).words(Sense::Vent(Vent::Fog))
    };
    assert_eq!((winter(true), winter(false)), ("fogged inside", "clear"));
    let mut bench = car_with(&[], |s| {
        s.start.ambient_c = 30.0;
        s.start.relative_humidity_pct = 90.0;
    });
    bench.advance(20 * 1200);
    assert_eq!(seen(&bench).words(Sense::Vent(Vent::Fog)), "fogged outside");
}

#[test]
fn what_is_noticed_can_be_written_down_and_is_predicted_alike() {
    let mut bench = car(&[]);
    let probe = |sense| Probe::Sense(sense);
    for sense in Sense::all() {
        let there = bench.snapshot(false).perceived.get(sense).copied();
        let result = bench.apply(Action::Read(probe(sense)));
        assert_eq!(result.is_ok(), there.is_some(), "{sense:?}");
        let Some(percept) = there else { continue };
        let reading = bench.notebook().last().expect("just written").clone();
        assert_eq!((&reading.probe, reading.value), (&probe(sense), percept.value));
        assert_eq!(sense.words(reading.value), percept.words, "the notebook says what was noticed");
        assert_eq!(bench.expected(&probe(sense)), Some(reading.value));
        assert!(reading.uncertainty > 0.0);
        assert!(bench.apply(Action::Place(probe(sense))).is_err(), "senses are not put anywhere");
    }
    // Every action is in the record and comes back from it as it was.
    for (_, action) in bench.journal() {
        let text = ron::to_string(action).expect("writes");
        assert_eq!(&ron::from_str::<Action>(&text).expect("reads"), action, "{text}");
    }
}

#[test]
fn senses_need_no_tool_and_no_leave_to_look_inside() {
    let mut bench = car_with(&[], |s| {
        s.mode = pintle::scenario::Mode::Practice;
        s.inside_view = false;
        s.tools.clear();
    });
    bench.advance(1200);
    assert!(bench.snapshot(false).inside.is_none());
    assert_eq!(seen(&bench).words(Sense::Listen(Sound::Compressor)), "even hum");
    bench
        .apply(Action::Read(Probe::Sense(Sense::Touch(Place::SuctionPipe))))
        .expect("a hand is always there");
}

#[test]
fn a_bare_hand_is_warned_before_it_goes_near_hot_parts() {
    let before = |place| {
        let action = Action::Read(Probe::Sense(Sense::Touch(place)));
        pintle::lesson::cautions::before(&action).iter().map(|c| c.id).collect::<Vec<_>>()
    };
    assert_eq!(before(Place::DischargePipe), ["S16b"]);
    assert!(before(Place::SuctionPipe).is_empty());
    for sense in Sense::all() {
        for value in [-5.0, 0.0, 0.5, 1.0, 50.0, 400.0, f64::INFINITY, f64::NAN] {
            assert!(!sense.words(value).is_empty());
            let known = sense.caution(value).is_none_or(|id| pintle::lesson::cautions::by_id(id).is_some());
            assert!(known, "{sense:?} at {value}");
        }
    }
}

/// Ears, hands and eyes alone, with no tool at all, lead a systematic person to the right part of the car.
#[test]
fn senses_alone_point_at_the_part() {
    use pintle::diagnosis::{predict_all, stories, weigh};
    use pintle::scenario::{HiddenFault, Onset};
    for (id, severity) in [
        (FaultId::CondenserFanMotorOpen, None),
        (FaultId::TxvStuckClosed, Some(0.0)),
        (FaultId::Undercharge, Some(0.5)),
    ] {
        let hide = |s: &mut Scenario| {
            s.faults = vec![HiddenFault {
                id,
                severity,
                onset: Onset::default(),
                grows_over_s: 0.0,
                comes_and_goes: None,
            }];
        };
        let mut bench = car_with(&[], hide);
        bench.advance(6000);
        for sense in [
            Sense::Listen(Sound::Fan),
            Sense::Listen(Sound::Compressor),
            Sense::Listen(Sound::ValveGurgle),
            Sense::Touch(Place::LiquidPipe),
            Sense::Touch(Place::EvaporatorOut),
            Sense::Touch(Place::DischargePipe),
            Sense::Surface(Place::AfterMetering),
            Sense::Vent(Vent::Feel),
        ] {
            bench.apply(Action::Read(Probe::Sense(sense))).expect("senses are always there");
        }
        let told = predict_all(
            bench.scenario(),
            1,
            bench.journal(),
            bench.tick(),
            &stories(bench.rig()),
            &pintle::effort::Effort::default(),
        )
        .expect("stories");
        let belief = weigh(bench.notebook(), &told);
        let group = belief[0].hypothesis.fault().map(|f| f.info().group);
        assert_eq!(group, Some(id.info().group), "{id:?}: {:?}", &belief[..3]);
        println!(
            "{id:?}: {:?} {:.2}, {:?} {:.2}",
            belief[0].hypothesis, belief[0].share, belief[1].hypothesis, belief[1].share
        );
    }
}

/// Every rig is noticed by what it has, and by nothing it has not.
#[test]
fn rigs_are_noticed_by_their_parts() {
    for id in pintle::rig::Rig::ids() {
        let mut bench = car_with(&[], |s| s.rig = id.into());
        bench.advance(2400);
        let topology = bench.topology();
        let of = seen(&bench);
        let has = |sense| of.get(sense).is_some();
        let l = bench.plant().layout();
        assert_eq!(has(Sense::Touch(Place::DrierIn)), l.receiver.is_some(), "{id}");
        assert_eq!(has(Sense::Touch(Place::DrierOut)), l.receiver.is_some(), "{id}");
        assert_eq!(has(Sense::Touch(Place::Accumulator)), l.accumulator.is_some(), "{id}");
        let belt = bench.plant().spec().compressor.drive.pulley_ratio().is_some();
        assert_eq!(has(Sense::Touch(Place::HeaterHose)), belt, "{id}");
        assert_eq!(has(Sense::Dash(Dash::EngineHot)), belt, "{id}");
        let clutch = topology.drive == pintle::bench::DriveKind::Belt;
        assert_eq!(has(Sense::Look(View::ClutchPlate)), clutch, "{id}");
        assert!(of.percepts.iter().all(|p| p.value.is_finite() && !p.words.is_empty()), "{id}");
        assert!(of.spectrum_db.iter().all(|db| (0.0..120.0).contains(db)), "{id}");
        let pipe = bench.felt().touch_k(Place::AfterMetering).expect("every rig has one");
        assert!((200.0..350.0).contains(&pipe), "{id}: {pipe} K");
    }
}

/// The plant itself narrowed at a passage, five minutes on: what a hand finds on it.
fn narrowed(change: impl Fn(&mut pintle::plant::Passages)) -> Felt {
    let bench = car(&[]);
    let mut plant = bench.plant().clone();
    let (from, mut inputs) = (bench.time_s(), *plant.inputs());
    change(&mut inputs.passages);
    plant.set_inputs(from, inputs);
    plant.advance_to(from + 300.0);
    let l = plant.layout();
    let wall = |i: usize| plant.at(from + 300.0, |s| s.wall_k[i]);
    let mut felt = bench.felt();
    felt.condenser_k = l.condenser.clone().chain(l.subcooler.clone()).map(wall).collect();
    felt.surface_k[Place::DrierIn as usize] = l.receiver.map(wall);
    let out = plant.look(l.subcooler.start, from + 300.0).t_k;
    felt.surface_k[Place::DrierOut as usize] = Some(out);
    felt
}

#[test]
fn narrow_places_are_found_by_hand() {
    let sweep = |open: f64| Perceived::of(&narrowed(|p| p.condenser = open)).words(Sense::Sweep);
    assert_eq!((sweep(1.0), sweep(0.2)), ("no sudden step", "no sudden step"), "a fifth open still hides");
    assert_ne!(sweep(0.03), "no sudden step");
    // A clogged drier: outlet colder than inlet (the same gauge tables).
    let fall = |open: f64| {
        let felt = narrowed(|p| p.drier = open);
        felt.touch_k(Place::DrierIn).expect("has one") - felt.touch_k(Place::DrierOut).expect("has one")
    };
    assert!(fall(1.0) < 3.0 && fall(0.03) > 8.0, "{} {}", fall(1.0), fall(0.03));
}
