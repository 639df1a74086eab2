//! Helpers of the tests that drive the real bench: the car of the qualification guide, in the units that workshops write
//! down, with a panic wherever the guide has an error; hands in the service bay.

pub mod hands;

use std::ops::{Deref, DerefMut};

use pintle::bench::{Action, Bench};
use pintle::constants::{ATMOSPHERE_PA, BAR_PA, ZERO_C_K};
use pintle::fault::FaultId;
use pintle::qualify::car;
pub use pintle::qualify::car::{IDLE, PER_S, Setting};
use pintle::refrigerant::Refrigerant;
use pintle::scenario::Scenario;

/// A car on the bench.
#[derive(Clone)]
pub struct Car(car::Car);

impl Deref for Car {
    type Target = car::Car;
    fn deref(&self) -> &car::Car {
        &self.0
    }
}

impl DerefMut for Car {
    fn deref_mut(&mut self) -> &mut car::Car {
        &mut self.0
    }
}

/// Readings over a stretch of time, means over the moments with the clutch engaged (0 when there were none).
#[derive(Clone, Copy, Debug, Default)]
pub struct Seen {
    /// Low side [bar gauge].
    pub low: f64,
    /// High side at the liquid line [bar gauge].
    pub high: f64,
    /// Superheat at the evaporator outlet [K].
    pub superheat: f64,
    /// Subcooling ahead of the valve [K].
    pub subcooling: f64,
    /// Condensing temperature minus outside air [K], from the high-side pressure.
    pub lift_k: f64,
    /// Air at the vents [°C].
    pub vent: f64,
    /// Cabin air [°C].
    pub cabin: f64,
    /// Pipe at the compressor inlet [°C].
    pub suction: f64,
    /// Pipe at the compressor outlet [°C].
    pub discharge: f64,
    /// Bubbles in the sight glass, 0 to 1.
    pub bubbles: f64,
    /// Receiver level, 0 to 1.
    pub level: f64,
    /// Valve lift.
    pub valve: f64,
    /// Slowest and fastest condenser fan [%].
    pub fan: (f64, f64),
    /// Highest high side [bar gauge].
    pub peak: f64,
    /// Share of the time with the clutch engaged.
    pub running: f64,
    /// Times the clutch pulled in.
    pub starts: usize,
}

impl From<car::Seen> for Seen {
    fn from(s: car::Seen) -> Self {
        let watched = Self {
            fan: s.fan_pct,
            peak: s.peak_pa / BAR_PA,
            running: s.running,
            starts: s.starts,
            ..Self::default()
        };
        if s.running == 0.0 {
            return watched;
        }
        Self {
            low: s.low_pa / BAR_PA,
            high: s.high_pa / BAR_PA,
            superheat: s.superheat_k,
            subcooling: s.subcooling_k,
            lift_k: s.lift_k,
            vent: s.vent_k - ZERO_C_K,
            cabin: s.cabin_k - ZERO_C_K,
            suction: s.suction_k - ZERO_C_K,
            discharge: s.discharge_k - ZERO_C_K,
            bubbles: s.bubbles,
            level: s.level,
            valve: s.valve_lift,
            ..watched
        }
    }
}

impl Car {
    /// A scenario's car.
    pub fn of(scenario: &Scenario) -> Self {
        Self(car::Car::of(scenario).expect("a bench"))
    }
    /// The healthy scenario, changed as asked.
    pub fn with(change: impl FnOnce(&mut Scenario)) -> Self {
        Self(car::Car::with(change).expect("a bench"))
    }
    /// The healthy car in a setting.
    pub fn healthy(at: Setting) -> Self {
        Self(car::Car::at(at).expect("a bench"))
    }
    /// A car in a setting with faults from the start.
    pub fn faulty(at: Setting, faults: &[(FaultId, f64)]) -> Self {
        Self(car::Car::faulty(at, faults).expect("a bench"))
    }
    /// A healthy car whose fan was driven to high speed by a covered face, now open again: the pressure switch
    /// keeps that speed while the high side stands above its lower point.
    pub fn fan_latched(at: Setting) -> Self {
        let (id, severity) = (FaultId::CondenserFinsBlocked, 0.6);
        let mut car = Self::faulty(at, &[(id, severity)]);
        car.wait(120).act(Action::ClearFault { id });
        car
    }
    /// The car parked and soaked, engine, blower and A/C off.
    pub fn parked(ambient_c: f64, faults: &[(FaultId, f64)]) -> Self {
        Self(car::Car::parked(ambient_c, faults).expect("a bench"))
    }
    /// The bench alone.
    pub fn into_bench(self) -> Bench {
        self.0.bench
    }
    /// Do something.
    pub fn act(&mut self, action: Action) {
        self.0.act(action).expect("an action that makes sense");
    }
    /// Let seconds pass.
    pub fn wait(&mut self, seconds: u32) -> &mut Self {
        self.0.wait(seconds);
        assert_eq!(self.bench.troubles(), [] as [String; 0], "at {} s", self.bench.time_s());
        self
    }
    /// Is the clutch engaged?
    pub fn engaged(&self) -> bool {
        self.bench.snapshot(false).outside.clutch_engaged
    }
    /// Watch for some seconds, twice a second.
    pub fn watch(&mut self, seconds: u32) -> Seen {
        let seen = self.0.watch(seconds);
        assert_eq!(self.bench.troubles(), [] as [String; 0]);
        seen.into()
    }
    /// Wait, then watch for two minutes.
    pub fn after(&mut self, seconds: u32) -> Seen {
        self.wait(seconds).watch(120)
    }
}

impl Seen {
    /// The fan stood at low speed all the time.
    pub fn fan_low(&self) -> bool {
        self.fan.0 > 65.0 && self.fan.1 < 75.0
    }
    /// The fan stood at high speed all the time.
    pub fn fan_high(&self) -> bool {
        self.fan.0 > 95.0
    }
}

/// Saturation pressure at a temperature [bar gauge].
pub fn saturation_bar(celsius: f64) -> f64 {
    (Refrigerant::r134a().saturation_p_pa(celsius + ZERO_C_K) - ATMOSPHERE_PA) / BAR_PA
}

/// Say a number and hold it within a band.
pub fn within(what: &str, value: f64, low: f64, high: f64) {
    println!("{what}: {value:.3} in [{low}, {high}]");
    assert!(value >= low && value <= high, "{what}: {value} is not in [{low}, {high}]");
}
