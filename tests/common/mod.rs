//! Helpers of the tests that drive the real bench: a car set up from `scenarios/healthy.ron`, time, means
//! over the time in which the clutch is engaged.

#![allow(dead_code, reason = "each test file uses a part of these helpers")]

use pintle::bench::{Action, Bench, Inside};
use pintle::fault::FaultId;
use pintle::knobs::Change;
use pintle::scenario::{self, Scenario};

/// Ticks in a second.
pub const PER_S: u32 = 20;

/// A car on the bench.
#[derive(Clone)]
pub struct Car {
    /// The bench itself.
    pub bench: Bench,
}

/// Weather and driving of a check.
#[derive(Clone, Copy, Debug)]
pub struct Setting {
    /// Outside air [°C].
    pub ambient_c: f64,
    /// Engine speed [rev/min].
    pub rpm: f64,
    /// Road speed [km/h].
    pub kmh: f64,
}

/// Idle at 35 °C: the setting of the healthy scenario.
pub const IDLE: Setting = Setting { ambient_c: 35.0, rpm: 900.0, kmh: 0.0 };

/// Readings over a stretch of time, means over the moments with the clutch engaged.
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

impl Car {
    /// The healthy scenario, changed as asked.
    pub fn with(change: impl FnOnce(&mut Scenario)) -> Self {
        let mut scenario = scenario::load("healthy").expect("the healthy scenario loads");
        change(&mut scenario);
        Self { bench: Bench::new(&scenario, 1).expect("a bench") }
    }
    /// The healthy car in a setting.
    pub fn healthy(at: Setting) -> Self {
        Self::with(|s| {
            s.start.ambient_c = at.ambient_c;
            s.start.engine_rpm = at.rpm;
            s.start.road_speed_kmh = at.kmh;
        })
    }
    /// A car in a setting with faults from the start.
    pub fn faulty(at: Setting, faults: &[(FaultId, f64)]) -> Self {
        let mut car = Self::healthy(at);
        for &(id, severity) in faults {
            car.act(Action::ImposeFault { id, severity });
        }
        car
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
        let mut car = Self::faulty(Setting { ambient_c, ..IDLE }, faults);
        car.act(Action::Set(Change::EngineOn(false)));
        car.act(Action::Set(Change::AcRequest(false)));
        car.act(Action::Set(Change::BlowerPct(0.0)));
        car
    }
    /// Do something.
    pub fn act(&mut self, action: Action) {
        self.bench.apply(action).expect("an action that makes sense");
    }
    /// Let seconds pass.
    pub fn wait(&mut self, seconds: u32) -> &mut Self {
        self.bench.advance(seconds * PER_S);
        assert_eq!(self.bench.troubles(), [] as [String; 0], "at {} s", self.bench.time_s());
        self
    }
    /// The inside now.
    pub fn inside(&self) -> Inside {
        self.bench.snapshot(true).inside.expect("the inside")
    }
    /// Is the clutch engaged?
    pub fn engaged(&self) -> bool {
        self.bench.snapshot(false).outside.clutch_engaged
    }
    /// Watch for some seconds, twice a second.
    pub fn watch(&mut self, seconds: u32) -> Seen {
        let mut seen = Seen { fan: (f64::INFINITY, 0.0), ..Seen::default() };
        let (mut count, mut was) = (0.0, self.engaged());
        for _ in 0..2 * seconds {
            self.bench.advance(PER_S / 2);
            let snapshot = self.bench.snapshot(true);
            let engaged = snapshot.outside.clutch_engaged;
            seen.starts += usize::from(engaged && !was);
            was = engaged;
            let fan = snapshot.outside.fan_speed_pct;
            seen.fan = (seen.fan.0.min(fan), seen.fan.1.max(fan));
            let inside = snapshot.inside.expect("the inside");
            seen.peak = seen.peak.max(inside.gauge_high_pa / 1e5);
            if engaged {
                count += 1.0;
                seen.add(&inside);
            }
        }
        assert_eq!(self.bench.troubles(), [] as [String; 0]);
        seen.running = count / f64::from(2 * seconds);
        if count > 0.0 {
            seen.over(count);
        }
        seen
    }
    /// Wait, then watch for two minutes.
    pub fn after(&mut self, seconds: u32) -> Seen {
        self.wait(seconds).watch(120)
    }
}

impl Seen {
    fn means(&mut self) -> [&mut f64; 12] {
        [
            &mut self.low,
            &mut self.high,
            &mut self.superheat,
            &mut self.subcooling,
            &mut self.lift_k,
            &mut self.vent,
            &mut self.cabin,
            &mut self.suction,
            &mut self.discharge,
            &mut self.bubbles,
            &mut self.level,
            &mut self.valve,
        ]
    }
    fn add(&mut self, i: &Inside) {
        let condensing = saturation_k(i.gauge_high_pa / 1e5);
        let now = [
            i.gauge_low_pa / 1e5,
            i.gauge_high_pa / 1e5,
            i.superheat_k,
            i.subcooling_k,
            condensing - i.ambient_t_k,
            i.vent_t_k - 273.15,
            i.cabin_t_k - 273.15,
            i.points[0].t_k - 273.15,
            i.points[1].t_k - 273.15,
            i.sight_glass_bubbles,
            i.receiver_level,
            i.valve_lift,
        ];
        for (mean, x) in self.means().into_iter().zip(now) {
            *mean += x;
        }
    }
    fn over(&mut self, count: f64) {
        for mean in self.means() {
            *mean /= count;
        }
    }
    /// The fan stood at low speed all the time.
    pub fn fan_low(&self) -> bool {
        self.fan.0 > 65.0 && self.fan.1 < 75.0
    }
    /// The fan stood at high speed all the time.
    pub fn fan_high(&self) -> bool {
        self.fan.0 > 95.0
    }
}

/// Saturation temperature at a gauge pressure [K].
pub fn saturation_k(bar_gauge: f64) -> f64 {
    let r = pintle::refrigerant::Refrigerant::r134a();
    r.saturation(((bar_gauge + 1.01325) * 1e5).ln()).t_k
}

/// Saturation pressure at a temperature [bar gauge].
pub fn saturation_bar(celsius: f64) -> f64 {
    let r = pintle::refrigerant::Refrigerant::r134a();
    r.saturation_p_pa(celsius + 273.15) / 1e5 - 1.01325
}

/// Say a number and hold it within a band.
pub fn within(what: &str, value: f64, low: f64, high: f64) {
    println!("{what}: {value:.3} in [{low}, {high}]");
    assert!(value >= low && value <= high, "{what}: {value} is not in [{low}, {high}]");
}
