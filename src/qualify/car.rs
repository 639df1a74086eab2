//! The car of the healthy scenario on the real bench, and means over the time its clutch is engaged. The rows of the guide
//! drive it, and so do the tests (`tests/common`).

use super::QualifyError;
use crate::bench::{Action, Bench, Inside};
use crate::fault::FaultId;
use crate::knobs::Change;
use crate::refrigerant::Refrigerant;
use crate::scenario::{SHIPPED, Scenario, load::from_text};
use crate::units::ZERO_C_K;

/// Ticks in a second.
pub const PER_S: u32 = 20;

/// Weather and driving.
#[derive(Clone, Copy, Debug)]
pub struct Setting {
    /// Outside air [°C].
    pub ambient_c: f64,
    /// Engine speed [rev/min].
    pub rpm: f64,
    /// Road speed [km/h].
    pub kmh: f64,
    /// Outside humidity [%].
    pub humidity_pct: f64,
}

/// Idle on a hot day: the setting of the healthy scenario.
pub const IDLE: Setting = Setting { ambient_c: 35.0, rpm: 900.0, kmh: 0.0, humidity_pct: 40.0 };

/// A car.
#[derive(Clone, Debug)]
pub struct Car {
    /// The bench.
    pub bench: Bench,
}

/// Means over the moments with the clutch engaged; not numbers when there were none or when a step of the solver
/// did not solve.
#[derive(Clone, Copy, Debug, Default)]
pub struct Seen {
    /// Low side [Pa gauge].
    pub low_pa: f64,
    /// High side [Pa gauge].
    pub high_pa: f64,
    /// Condensing temperature, from the high-side pressure [K].
    pub condensing_k: f64,
    /// Evaporating temperature, from the low-side pressure [K].
    pub evaporating_k: f64,
    /// Condensing temperature minus outside air [K].
    pub lift_k: f64,
    /// Superheat [K].
    pub superheat_k: f64,
    /// Subcooling [K].
    pub subcooling_k: f64,
    /// Vent air [K].
    pub vent_k: f64,
    /// Cabin air [K].
    pub cabin_k: f64,
    /// Refrigerant at the evaporator outlet [K].
    pub evaporator_out_k: f64,
    /// Refrigerant at the compressor inlet [K].
    pub suction_k: f64,
    /// Discharge pipe [K].
    pub discharge_k: f64,
    /// Bubbles in the sight glass, 0 to 1.
    pub bubbles: f64,
    /// Lift of the valve, 0 to 1.
    pub valve_lift: f64,
    /// Heat into the evaporator [W].
    pub capacity_w: f64,
    /// Heat out of the condenser [W].
    pub condenser_w: f64,
    /// Shaft power into the refrigerant [W].
    pub power_w: f64,
    /// Heat into lines, hoses and shell [W].
    pub other_w: f64,
    /// Compressor flow [kg/s].
    pub flow_kg_s: f64,
    /// Compressor speed [rev/min].
    pub compressor_rpm: f64,
    /// Suction gas [kg/m3].
    pub suction_kg_m3: f64,
    /// Receiver level.
    pub level: f64,
    /// Share of the time with the clutch engaged.
    pub running: f64,
    /// Times the clutch pulled in.
    pub starts: usize,
    /// Highest high side, clutch engaged or not [Pa gauge].
    pub peak_pa: f64,
    /// Slowest and fastest condenser fan, clutch engaged or not [%].
    pub fan_pct: (f64, f64),
}

impl Seen {
    fn means(&mut self) -> [&mut f64; 22] {
        [
            &mut self.low_pa,
            &mut self.high_pa,
            &mut self.condensing_k,
            &mut self.evaporating_k,
            &mut self.lift_k,
            &mut self.superheat_k,
            &mut self.subcooling_k,
            &mut self.vent_k,
            &mut self.cabin_k,
            &mut self.evaporator_out_k,
            &mut self.suction_k,
            &mut self.discharge_k,
            &mut self.bubbles,
            &mut self.valve_lift,
            &mut self.capacity_w,
            &mut self.condenser_w,
            &mut self.power_w,
            &mut self.other_w,
            &mut self.flow_kg_s,
            &mut self.compressor_rpm,
            &mut self.suction_kg_m3,
            &mut self.level,
        ]
    }

    fn add(&mut self, r: &Refrigerant, i: &Inside) {
        let saturated = |gauge_pa: f64| r.saturation(libm::log(gauge_pa + crate::units::ATMOSPHERE_PA)).t_k;
        let condensing = saturated(i.gauge_high_pa);
        let suction = r.state(libm::log(i.points[0].p_pa), i.points[0].h_j_per_kg);
        let now = [
            i.gauge_low_pa,
            i.gauge_high_pa,
            condensing,
            saturated(i.gauge_low_pa),
            condensing - i.ambient_t_k,
            i.superheat_k,
            i.subcooling_k,
            i.vent_t_k,
            i.cabin_t_k,
            i.points[5].t_k,
            i.points[0].t_k,
            i.points[1].t_k,
            i.sight_glass_bubbles,
            i.valve_lift,
            i.q_evaporator_w,
            i.q_condenser_w,
            i.w_compressor_w,
            i.q_other_w,
            i.m_compressor_kg_s,
            i.compressor_rpm,
            suction.rho_kg_m3,
            i.receiver_level,
        ];
        for (mean, x) in self.means().into_iter().zip(now) {
            *mean += x;
        }
    }
}

/// The healthy scenario, from inside the program.
pub fn healthy() -> Result<Scenario, QualifyError> {
    let shipped = SHIPPED.iter().find(|s| s.id == "healthy").ok_or(QualifyError::NoScenario("healthy"))?;
    from_text(shipped.file, shipped.text).map_err(|e| QualifyError::Scenario(e.to_string()))
}

impl Car {
    /// A scenario's car.
    pub fn of(scenario: &Scenario) -> Result<Self, QualifyError> {
        Ok(Self { bench: Bench::new(scenario, 1)? })
    }
    /// The healthy scenario, changed as asked.
    pub fn with(change: impl FnOnce(&mut Scenario)) -> Result<Self, QualifyError> {
        let mut scenario = healthy()?;
        change(&mut scenario);
        Self::of(&scenario)
    }
    /// The healthy car in a setting.
    pub fn at(at: Setting) -> Result<Self, QualifyError> {
        Self::with(|s| {
            s.start.ambient_c = at.ambient_c;
            s.start.engine_rpm = at.rpm;
            s.start.road_speed_kmh = at.kmh;
            s.start.relative_humidity_pct = at.humidity_pct;
        })
    }
    /// A car in a setting with faults from the start.
    pub fn faulty(at: Setting, faults: &[(FaultId, f64)]) -> Result<Self, QualifyError> {
        let mut car = Self::at(at)?;
        for &(id, severity) in faults {
            car.act(Action::ImposeFault { id, severity })?;
        }
        Ok(car)
    }
    /// Parked and soaked, engine, blower and A/C off.
    pub fn parked(ambient_c: f64, faults: &[(FaultId, f64)]) -> Result<Self, QualifyError> {
        let mut car = Self::faulty(Setting { ambient_c, ..IDLE }, faults)?;
        for action in [
            Action::Set(Change::EngineOn(false)),
            Action::Set(Change::AcRequest(false)),
            Action::Set(Change::BlowerPct(0.0)),
        ] {
            car.act(action)?;
        }
        Ok(car)
    }
    /// Do something.
    pub fn act(&mut self, action: Action) -> Result<(), QualifyError> {
        Ok(self.bench.apply(action)?)
    }
    /// Let seconds pass.
    pub fn wait(&mut self, seconds: u32) -> &mut Self {
        self.bench.advance(seconds * PER_S);
        self
    }
    /// The inside now.
    pub fn inside(&self) -> Inside {
        self.bench.inside()
    }
    /// Steps that did not solve so far.
    pub fn troubles(&self) -> f64 {
        self.bench.troubles().len() as f64
    }
    /// Watch for some seconds, twice a second.
    pub fn watch(&mut self, seconds: u32) -> Seen {
        let refrigerant = self.bench.plant().refrigerant();
        let mut seen = Seen { fan_pct: (f64::INFINITY, 0.0), ..Seen::default() };
        let mut was = self.bench.outside().clutch_engaged;
        let mut count = 0.0;
        for _ in 0..2 * seconds {
            self.bench.advance(PER_S / 2);
            let snapshot = self.bench.snapshot(true);
            let engaged = snapshot.outside.clutch_engaged;
            seen.starts += usize::from(engaged && !was);
            was = engaged;
            let fan = snapshot.outside.fan_speed_pct;
            seen.fan_pct = (seen.fan_pct.0.min(fan), seen.fan_pct.1.max(fan));
            let Some(inside) = snapshot.inside else { continue };
            seen.peak_pa = seen.peak_pa.max(inside.gauge_high_pa);
            if engaged {
                count += 1.0;
                seen.add(refrigerant, &inside);
            }
        }
        seen.running = count / f64::from(2 * seconds.max(1));
        // Nothing seen, or a solver in trouble: no value rather than a wrong one.
        let divisor = if count > 0.0 && self.bench.troubles().is_empty() { count } else { f64::NAN };
        for mean in seen.means() {
            *mean /= divisor;
        }
        seen
    }
    /// Wait, then watch for two minutes.
    pub fn after(&mut self, seconds: u32) -> Seen {
        self.wait(seconds).watch(120)
    }
}

/// Kelvin to °C.
pub fn c(t_k: f64) -> f64 {
    t_k - ZERO_C_K
}
