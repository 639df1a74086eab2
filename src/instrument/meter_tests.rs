//! Meter and lamp on the circuits of the rigs, as a technician would use them.

use super::*;
use crate::circuit::{Change, CircuitInputs, PartFault};
use crate::instrument::Probe;
use crate::instrument::electrical::Electrical;
use crate::instrument::lamp;
use crate::rig::Rig;

/// A circuit with its tools, as a bench runs them.
struct Stand {
    circuit: Circuit,
    inputs: CircuitInputs,
    tools: Electrical,
    seed: u64,
    tick: u64,
}

impl Stand {
    fn new(rig: &str, inputs: CircuitInputs) -> Self {
        let spec = Rig::load(rig).unwrap().circuit;
        let mut stand =
            Self { circuit: Circuit::new(&spec), inputs, tools: Electrical::default(), seed: 5, tick: 0 };
        stand.wait(20.0);
        stand
    }
    fn wait(&mut self, seconds: f64) {
        for _ in 0..(seconds / 0.05) as u32 {
            self.inputs.loads = self.tools.meter_load().into_iter().chain(self.tools.lamp_load()).collect();
            self.circuit.update(&self.inputs, 0.05);
            let on_amps = self.tools.meter_load().is_some_and(|l| l.fuse_a.is_finite());
            self.tools.keys.fuse_blown |= on_amps && self.circuit.load_blown(0);
            self.tick += 1;
            self.tools.advance(0.05, &self.circuit, self.seed);
        }
    }
    fn read(&mut self, probe: &Probe) -> f64 {
        assert!(self.tools.place(probe, &self.circuit), "{probe:?}");
        self.wait(3.0);
        self.tools.shown(probe, self.seed, self.tick).unwrap()
    }
    fn meter(&mut self, mode: MeterMode, red: &str, black: &str) -> f64 {
        self.read(&Probe::Meter { mode, red: red.into(), black: black.into() })
    }
}

fn running() -> CircuitInputs {
    let mut i = CircuitInputs {
        engine_on: true,
        engine_rpm: 900.0,
        ac_request: true,
        blower_pct: 100.0,
        ..CircuitInputs::default()
    };
    i.senses.liquid_gauge_pa = 14.0e5;
    i.senses.discharge_gauge_pa = 14.5e5;
    i.senses.suction_gauge_pa = 2.2e5;
    i
}

fn with(part: &str, change: Change, inputs: CircuitInputs) -> CircuitInputs {
    CircuitInputs { faults: vec![PartFault { part: part.into(), change }], ..inputs }
}

/// A 3.6 ohm coil (trade figure: 3 to 4 ohm) with leads of 0.2 ohm (from memory) shows 3.8; the relative key takes the leads
/// off.
#[test]
fn leads_count_until_the_relative_key_takes_them_off() {
    let unplugged = CircuitInputs { unplugged: vec!["clutch_plug".into()], ..CircuitInputs::default() };
    for seed in 0..20 {
        let mut s = Stand::new("compact_car", unplugged.clone());
        s.seed = seed;
        let leads = lead_ohm(seed);
        assert!((0.1..=0.3).contains(&leads));
        let raw = s.meter(MeterMode::Ohm, "clutch_coil_plus", "clutch_coil_minus");
        let most = limit(MeterMode::Ohm, MeterRange::Auto, raw);
        assert!((raw - 3.6 - leads).abs() <= most, "{raw} with leads of {leads}");
        let tips = s.meter(MeterMode::Ohm, "ground", "ground");
        assert!((tips - leads).abs() <= 0.2, "{tips}");
        assert!(s.tools.relative(true));
        let coil = s.meter(MeterMode::Ohm, "clutch_coil_plus", "clutch_coil_minus");
        assert!((coil - 3.6).abs() <= most, "{coil}");
    }
    assert!((ohms_between(MeterMode::Ohm, 3.6, 0.0, 0.2) - 3.8).abs() < 1e-9);
}

/// A relay contact with 0.025 ohm too much: half a volt under load (Land Rover service bulletin P92-007 allows 0.025 V an ampere), nothing on ohms.
#[test]
fn a_bad_contact_shows_under_load_only() {
    let drop = |inputs| {
        let mut s = Stand::new("compact_car", inputs);
        let amps = s.circuit.current("fan_motor").unwrap();
        (s.meter(MeterMode::VoltsDc, "fan_relay_30", "fan_relay_87"), amps)
    };
    let (good, _) = drop(running());
    let (bad, amps) = drop(with("fan_relay_contact", Change::AddedOhm(0.025), running()));
    assert!((bad - good - 0.025 * amps).abs() < 0.03, "{bad} after {good} at {amps} A");
    assert!(bad > good + 0.2 && amps > 8.0, "{bad} after {good}");
    // The same at rest, with a joint that an ohmmeter can reach: it lies within two digits.
    let ohms =
        |inputs| Stand::new("compact_car", inputs).meter(MeterMode::Ohm, "battery_plus", "fan_fuse_out");
    let off = CircuitInputs::default();
    let (good, bad) = (ohms(off.clone()), ohms(with("fan_fuse", Change::AddedOhm(0.025), off)));
    assert!((bad - good).abs() <= limit(MeterMode::Ohm, MeterRange::Auto, good), "{bad} {good}");
}

/// Ohms with volts in the circuit are nonsense: common practice, no source.
#[test]
fn volts_spoil_ohms() {
    let mut s = Stand::new("compact_car", running());
    let shown = s.meter(MeterMode::Ohm, "clutch_coil_plus", "clutch_coil_minus");
    assert!((shown - 3.8).abs() > 100.0, "{shown}");
    assert!(s.tools.live_ohms(&s.circuit));
    let back = s.meter(MeterMode::Ohm, "clutch_coil_minus", "clutch_coil_plus");
    assert!(is_over(back), "{back}");
    let mut rest = Stand::new("compact_car", CircuitInputs::default());
    rest.meter(MeterMode::Ohm, "clutch_coil_plus", "clutch_coil_minus");
    assert!(!rest.tools.live_ohms(&rest.circuit));
}

/// Amperes in series; across the battery the meter's fuse blows and it shows nothing from then on: common practice,
/// no source.
#[test]
fn amperes_in_series_and_across_the_battery() {
    // In series: the fuse is taken out (broken for the test), the meter takes its place.
    let mut s = Stand::new("compact_car", with("clutch_fuse", Change::Open, running()));
    assert!(s.circuit.current("clutch_coil").unwrap().abs() < 1e-3);
    let amps = s.meter(MeterMode::AmpsDc, "battery_plus", "clutch_fuse_out");
    let truth = s.circuit.current("clutch_coil").unwrap();
    assert!((3.0..4.2).contains(&amps), "{amps}");
    assert!((amps - truth).abs() < limit(MeterMode::AmpsDc, MeterRange::Auto, amps) + 0.01, "{amps} {truth}");
    assert!(!s.tools.keys.fuse_blown);
    let across = s.meter(MeterMode::AmpsDc, "battery_plus", "ground");
    assert!(s.tools.keys.fuse_blown && across.abs() < 0.01, "{across}");
    let again = s.meter(MeterMode::AmpsDc, "battery_plus", "clutch_fuse_out");
    assert!(again.abs() < 0.01, "a blown fuse shows zero: {again}");
}

/// A corroded joint of 100 ohm: the voltmeter sees the battery, the lamp stays dark. Common practice, no source.
#[test]
fn a_lamp_finds_the_joint_that_a_voltmeter_misses() {
    let lamp = Probe::Lamp { tip: "clutch_fuse_out".into(), clip: "ground".into() };
    let look = |inputs| {
        let mut s = Stand::new("compact_car", inputs);
        let volts = s.meter(MeterMode::VoltsDc, "clutch_fuse_out", "ground");
        s.tools.leads = None;
        let light = s.read(&lamp);
        (volts, light)
    };
    let (volts, light) = look(with("clutch_fuse", Change::AddedOhm(100.0), CircuitInputs::default()));
    assert!((volts - 12.6).abs() < 0.1, "{volts}");
    assert_eq!(lamp::words(light), "dark", "{light}");
    let (volts, light) = look(CircuitInputs::default());
    assert!((volts - 12.6).abs() < 0.1, "{volts}");
    assert_eq!(lamp::words(light), "bright", "{light}");
}

/// The filament settles: the circuit is not solved anew for ever.
#[test]
fn a_lamp_comes_to_rest() {
    for ohm in [0.0, 1.0, 5.0, 20.0, 100.0] {
        let off = with("clutch_fuse", Change::AddedOhm(ohm), CircuitInputs::default());
        let mut s = Stand::new("compact_car", off);
        s.read(&Probe::Lamp { tip: "clutch_fuse_out".into(), clip: "ground".into() });
        let before = s.tools.lamp.as_ref().unwrap().ohm();
        for _ in 0..40 {
            s.wait(0.05);
            assert_eq!(s.tools.lamp.as_ref().unwrap().ohm(), before, "behind {ohm} ohm");
        }
    }
}

/// Ten megohm across a divider of the same size halves what is there: the burden is a real load.
#[test]
fn the_meter_loads_what_it_measures() {
    let broken = with("clutch_fuse", Change::Open, CircuitInputs::default());
    let mut s = Stand::new("compact_car", broken);
    let shown = s.meter(MeterMode::VoltsDc, "clutch_fuse_out", "ground");
    assert!((shown - 6.3).abs() < 0.2, "{shown}");
}

#[test]
fn ranges_and_their_ends() {
    let mut s = Stand::new("compact_car", CircuitInputs::default());
    for (range, over) in
        [(MeterRange::Six, true), (MeterRange::Sixty, false), (MeterRange::SixHundred, false)]
    {
        s.tools.keys.range = range;
        let shown = s.meter(MeterMode::VoltsDc, "battery_plus", "ground");
        assert_eq!(is_over(shown), over, "{range:?}: {shown}");
        assert_eq!(limit(MeterMode::VoltsDc, range, shown) == 0.0, over);
    }
    let open = s.meter(MeterMode::Continuity, "clutch_relay_30", "clutch_relay_87");
    assert!(is_over(open), "an open contact: {open}");
    assert!(s.meter(MeterMode::Continuity, "clutch_fuse_out", "clutch_relay_30") < CONTINUITY_OHM);
    for strange in [f64::NAN, f64::INFINITY, -1.0] {
        assert!(is_over(ohms_between(MeterMode::Ohm, strange, f64::NAN, 0.2)));
    }
}

/// 0.5 % and two digits are kept (from memory).
#[test]
fn readings_stay_within_the_limit() {
    let keys = Keys::default();
    let mut outside = 0;
    for seed in 0..40 {
        for volts in [0.0, 0.08, 7.9, 14.1, 355.0] {
            let mut leads = Leads::placed(MeterMode::VoltsDc, "a", "b");
            leads.held = Some(volts);
            for tick in (0..600).step_by(6) {
                let shown = leads.shown(&keys, seed, tick).unwrap();
                outside += u32::from((shown - volts).abs() > limit(MeterMode::VoltsDc, keys.range, volts));
            }
        }
    }
    assert!(outside < 20, "{outside} of 20000");
}
