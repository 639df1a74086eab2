//! Words follow the state: thresholds on numbers of our own, and whole cars on the bench with a fault in them. What is
//! expected of a fault's signs is common practice unless a source stands beside it.

use super::*;
use crate::bench::{Action, Bench};
use crate::fault::FaultId;
use crate::instrument::Probe;
use crate::plant::OpenPlace;
use crate::scenario::{Scenario, load};
use crate::units::ZERO_C_K;

fn car_with(faults: &[(FaultId, f64)], change: impl FnOnce(&mut Scenario)) -> Bench {
    let mut scenario = load("healthy").expect("ships");
    change(&mut scenario);
    let mut bench = Bench::new(&scenario, 1).expect("a bench");
    for &(id, severity) in faults {
        bench.apply(Action::ImposeFault { id, severity }).expect("allowed");
    }
    bench
}

/// The car at idle and 35 °C after ten minutes.
fn car(faults: &[(FaultId, f64)]) -> Bench {
    let mut bench = car_with(faults, |_| {});
    bench.advance(12_000);
    bench
}

fn seen(bench: &Bench) -> Perceived {
    bench.snapshot(false).perceived
}

fn hear(felt: &Felt, sound: Sound) -> f64 {
    felt.value(Sense::Listen(sound)).expect("every car has sounds")
}

#[test]
fn skin_has_borders() {
    let at = |c: f64| Sense::Touch(Place::LiquidPipe).words(ZERO_C_K + c);
    assert_eq!(
        [-1.0, 5.0, 20.0, 33.0, 40.0, 55.0, 60.0].map(at),
        ["freezing cold", "cold", "cool", "neither warm nor cool", "warm", "hot", "too hot to touch"]
    );
    // 60 °C leaves a margin below the burn threshold of bare metal at a second's touch, 65 to 70 °C (ISO 13732-1, from
    // memory).
    const { assert!(TOO_HOT_K < ZERO_C_K + 65.0) }
}

#[test]
fn nobody_feels_how_hot_a_burning_pipe_is() {
    let mut felt = Felt::of(&car(&[]));
    felt.surface_k[Place::DischargePipe as usize] = Some(ZERO_C_K + 95.0);
    let of = Perceived::of(&felt);
    let pipe = of.get(Sense::Touch(Place::DischargePipe)).expect("has one");
    assert_eq!((pipe.words, pipe.caution, pipe.value), ("too hot to touch", Some("S16b"), TOO_HOT_K));
    felt.surface_k[Place::DischargePipe as usize] = Some(ZERO_C_K + 59.0);
    let of = Perceived::of(&felt);
    assert_eq!(of.get(Sense::Touch(Place::DischargePipe)).expect("has one").caution, None);
}

#[test]
fn frost_needs_cold_and_water() {
    let mut felt = Felt::of(&car(&[]));
    let mut at = |wall_c: f64, dew_c: f64| {
        felt.surface_k[Place::SuctionPipe as usize] = Some(ZERO_C_K + wall_c);
        felt.dew_k = ZERO_C_K + dew_c;
        Perceived::of(&felt).words(Sense::Surface(Place::SuctionPipe))
    };
    assert_eq!(
        [at(15.0, 12.0), at(5.0, 12.0), at(-5.0, 12.0), at(-5.0, -9.0)],
        ["dry", "wet with dew", "white with frost", "dry"]
    );
}

#[test]
fn a_hand_finds_a_block_inside_the_condenser_and_no_standing_liquid() {
    let mut felt = Felt::of(&car(&[]));
    let mut sweep = |walls_c: &[f64]| {
        felt.condenser_k = walls_c.iter().map(|c| c + ZERO_C_K).collect();
        felt.value(Sense::Sweep).map(|v| Sense::Sweep.words(v))
    };
    let even = Some("no sudden step");
    assert_eq!(sweep(&[75.0, 58.0, 58.0, 57.5, 57.0, 56.8, 54.0, 51.0]), even);
    // Liquid standing in the last part cools on and on.
    assert_eq!(sweep(&[66.7, 66.7, 66.7, 54.6, 47.8, 43.3, 40.5, 38.7, 38.3, 38.5]), even);
    // Behind a narrow place pressure, and with it the boiling point, is lower all at once: the cold band.
    assert_ne!(sweep(&[78.0, 70.0, 69.8, 69.7, 55.0, 54.8, 54.6, 53.0]), even);
    assert_eq!(sweep(&[50.0, 40.0]), None);
}

#[test]
fn a_fan_sings_at_the_frequency_of_its_blades_and_a_still_one_leaves_the_floor() {
    let mut felt = Felt::of(&car(&[(FaultId::ClutchCoilOpen, 1.0)]));
    (felt.engine_rpm, felt.pulley_rpm, felt.blower_share) = (0.0, 0.0, 0.0);
    let mut bands = |share: f64| {
        felt.fan_share = share;
        (Perceived::of(&felt).spectrum_db, hear(&felt, Sound::Fan))
    };
    let loudest = |db: &[f64; BANDS]| (0..BANDS).max_by(|&a, &b| db[a].total_cmp(&db[b])).expect("bands");
    // Seven blades at 2400 rev/min: 280 Hz.
    let (full, loud) = bands(1.0);
    let top = loudest(&full);
    assert!((250.0..=315.0).contains(&BAND_HZ[top]), "{} Hz", BAND_HZ[top]);
    let (half, quiet) = bands(0.5);
    assert!(loudest(&half) + 3 == top, "an octave lower at half speed");
    // Fifth power of speed: 15 dB for a half.
    assert!((loud - quiet - 15.05).abs() < 0.2, "{loud} {quiet}");
    let (still, none) = bands(0.0);
    assert_eq!((none, still[top].round()), (0.0, 22.0));
    assert!(still.iter().all(|db| (db - 22.0).abs() < 1e-9));
}

#[test]
fn the_engine_drowns_what_is_faint() {
    let mut felt = Felt::of(&car(&[]));
    assert!(hear(&felt, Sound::ValveHiss) > 0.0);
    felt.jet_w = 0.4;
    assert_eq!(hear(&felt, Sound::ValveHiss), 0.0, "under the blower");
    (felt.blower_share, felt.fan_share, felt.engine_rpm) = (0.0, 0.0, 0.0);
    assert!(hear(&felt, Sound::ValveHiss) > 0.0, "in the quiet");
}

#[test]
fn liquid_knocks_dry_bearings_growl_and_an_idle_shaft_does_neither() {
    let mut felt = Felt::of(&car(&[]));
    assert_eq!(
        (hear(&felt, Sound::Knock), hear(&felt, Sound::Growl), hear(&felt, Sound::Rattle)),
        (0.0, 0.0, 0.0)
    );
    let mut last = 0.0;
    for wet in [0.15, 0.3, 0.6, 1.0] {
        felt.wet = wet;
        let now = hear(&felt, Sound::Knock);
        assert!(now > last, "{wet}: {now}");
        last = now;
    }
    (felt.film, felt.battered) = (0.2, 0.4);
    assert!(hear(&felt, Sound::Growl) > 60.0 && hear(&felt, Sound::Rattle) > 55.0);
    felt.shaft_rpm = 0.0;
    for sound in [Sound::Compressor, Sound::Knock, Sound::Growl, Sound::Rattle] {
        assert_eq!(hear(&felt, sound), 0.0, "{sound:?}");
    }
}

#[test]
fn fan_wheel_belt_leak_and_smells_follow_their_numbers() {
    let mut felt = Felt::of(&car(&[]));
    let quiet = [Sound::FanRumble, Sound::Belt, Sound::ClutchSqueal, Sound::Leak];
    assert!(quiet.iter().all(|s| hear(&felt, *s) == 0.0));
    assert!(Smell::ALL.iter().all(|s| !Perceived::of(&felt).get(Sense::Smell(*s)).expect("a nose").notable));
    (felt.fan_unbalance, felt.belt_nm, felt.slip_w, felt.leak_kg_s) = (0.8, 40.0, 2000.0, 3e-3);
    (felt.leak_place, felt.oil_lost_kg) = (OpenPlace::Condenser, 8e-3);
    (felt.coolant_k, felt.coil_water) = (Some(ZERO_C_K + 126.0), 2.0);
    assert!(quiet.iter().all(|s| hear(&felt, *s) > 0.0));
    let of = Perceived::of(&felt);
    assert_eq!(of.words(Sense::Smell(Smell::Clutch)), "sharp smell of a burnt clutch");
    assert_eq!(of.words(Sense::Smell(Smell::Musty)), "stale water, strong and musty");
    assert_eq!(of.words(Sense::Smell(Smell::Coolant)), "sweet steam of hot coolant");
    assert_eq!(of.get(Sense::Smell(Smell::Mist)).expect("a nose").caution, Some("S2"));
    assert_eq!(of.words(Sense::Look(View::OilAtCondenser)), "wet with oil");
    assert_eq!(of.words(Sense::Look(View::OilAtLiquid)), "clean and dry");
    assert_eq!(of.words(Sense::Dash(Dash::EngineHot)), "lit");
}

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
    let mut without = Felt::of(&healthy);
    let with = Perceived::of(&without).spectrum_db[band];
    without.fan_share = 0.0;
    assert!(with > Perceived::of(&without).spectrum_db[band] + 1.5);
}

#[test]
fn a_valve_held_shut_frosts_and_a_valve_held_open_floods() {
    let of = seen(&car(&[(FaultId::TxvStuckClosed, 0.0)]));
    // Frost at the valve, no cooling: reference/faults.md 2.2 (negative low side).
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
        (bench.plant().at(bench.time_s(), |s| s.water.ice_kg), seen(&bench))
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
    for off in [Action::AcRequest(false), Action::BlowerPct(0.0)] {
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
        s.mode = crate::scenario::Mode::Practice;
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
        crate::lesson::cautions::before(&action).iter().map(|c| c.id).collect::<Vec<_>>()
    };
    assert_eq!(before(Place::DischargePipe), ["S16b"]);
    assert!(before(Place::SuctionPipe).is_empty());
    for sense in Sense::all() {
        for value in [-5.0, 0.0, 0.5, 1.0, 50.0, 400.0, f64::INFINITY, f64::NAN] {
            assert!(!sense.words(value).is_empty());
            let known = sense.caution(value).is_none_or(|id| crate::lesson::cautions::by_id(id).is_some());
            assert!(known, "{sense:?} at {value}");
        }
    }
}

/// Ears, hands and eyes alone, with no tool at all, lead a systematic person to the right part of the car.
#[test]
fn senses_alone_point_at_the_part() {
    use crate::diagnosis::{predict_all, stories, weigh};
    use crate::scenario::{HiddenFault, Onset};
    for (id, severity) in [
        (FaultId::CondenserFanMotorOpen, None),
        (FaultId::TxvStuckClosed, Some(0.0)),
        (FaultId::Undercharge, Some(0.5)),
    ] {
        let hide = |s: &mut Scenario| {
            s.faults = vec![HiddenFault { id, severity, onset: Onset::default(), grows_over_s: 0.0 }];
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
        let told =
            predict_all(bench.scenario(), 1, bench.journal(), bench.tick(), &stories()).expect("stories");
        let belief = weigh(bench.notebook(), &told);
        let group = belief[0].fault.map(|f| f.info().group);
        assert_eq!(group, Some(id.info().group), "{id:?}: {:?}", &belief[..3]);
        println!(
            "{id:?}: {:?} {:.2}, {:?} {:.2}",
            belief[0].fault, belief[0].share, belief[1].fault, belief[1].share
        );
    }
}

/// Every rig is noticed by what it has, and by nothing it has not.
#[test]
fn rigs_are_noticed_by_their_parts() {
    for id in crate::rig::Rig::ids() {
        let mut bench = car_with(&[], |s| s.rig = id.into());
        bench.advance(2400);
        let topology = bench.snapshot(false).topology;
        let of = seen(&bench);
        let has = |sense| of.get(sense).is_some();
        let l = bench.plant().layout();
        assert_eq!(has(Sense::Touch(Place::DrierIn)), l.receiver.is_some(), "{id}");
        assert_eq!(has(Sense::Touch(Place::DrierOut)), l.receiver.is_some(), "{id}");
        assert_eq!(has(Sense::Touch(Place::Accumulator)), l.accumulator.is_some(), "{id}");
        let belt = bench.plant().spec().compressor.drive.pulley_ratio().is_some();
        assert_eq!(has(Sense::Touch(Place::HeaterHose)), belt, "{id}");
        assert_eq!(has(Sense::Dash(Dash::EngineHot)), belt, "{id}");
        let clutch = topology.drive == crate::bench::DriveKind::Belt;
        assert_eq!(has(Sense::Look(View::ClutchPlate)), clutch, "{id}");
        assert!(of.percepts.iter().all(|p| p.value.is_finite() && !p.words.is_empty()), "{id}");
        assert!(of.spectrum_db.iter().all(|db| (0.0..120.0).contains(db)), "{id}");
        let pipe = Felt::of(&bench).touch_k(Place::AfterMetering).expect("every rig has one");
        assert!((200.0..350.0).contains(&pipe), "{id}: {pipe} K");
    }
}
