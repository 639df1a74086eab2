//! A scenario drawn by chance, over the whole range of every field that a file may hold.

use pintle::bay::{BaySetup, most_kg};
use pintle::fault::{FaultId, Recurs};
use pintle::instrument::{PipePlace, Tool};
use pintle::knobs::{Change, Controls, Knob, Scale, Value};
use pintle::plant::Vessel;
use pintle::rig::Rig;
use pintle::scenario::{HiddenFault, Mode, Moment, Onset, Scenario};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Longest run of a drawn scenario [s].
pub const LONGEST_S: f64 = 60.0;
/// Longest time that a file may name [s].
const DAY_S: f64 = 86_400.0;

/// Chance, and what is drawn with it.
pub struct Draw(ChaCha8Rng);

impl Draw {
    /// The same scenario for the same number, everywhere.
    pub fn new(number: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(number))
    }
    /// True so often.
    pub fn chance(&mut self, share: f64) -> bool {
        self.0.random_bool(share)
    }
    fn pick<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.0.random_range(0..list.len())]
    }
    /// A number of a range, one in four at its ends.
    pub fn number(&mut self, min: f64, max: f64) -> f64 {
        match self.0.random_range(0..8) {
            0 => min,
            1 => max,
            _ => min + self.0.random::<f64>() * (max - min),
        }
    }
    /// Seconds: most of them within the run, some anywhere in the day that a file may name.
    fn seconds(&mut self) -> f64 {
        let most = if self.chance(0.85) { LONGEST_S } else { DAY_S };
        self.number(0.0, most)
    }
    fn turn(&mut self, knob: Knob) -> Change {
        let value = match knob.info().scale {
            Scale::Switch => Value::Switch(self.chance(0.5)),
            Scale::Number { range, .. } => Value::Number(self.number(range.min, range.max)),
        };
        knob.to(value).expect("its own kind of value")
    }
    fn start(&mut self) -> Controls {
        let mut controls = Controls::default();
        for &knob in Knob::ALL {
            controls.turn(self.turn(knob));
        }
        // A car that stands with everything off tells little.
        controls.engine_on |= self.chance(0.6);
        controls.ac_request |= self.chance(0.6);
        controls
    }
    fn moments(&mut self) -> Vec<Moment> {
        let mut times: Vec<f64> = (0..self.0.random_range(0..5)).map(|_| self.seconds()).collect();
        times.sort_by(f64::total_cmp);
        let moment = |at_s| {
            let knob = self.pick(Knob::ALL);
            Moment { at_s, change: self.turn(knob) }
        };
        times.into_iter().map(moment).collect()
    }
    fn recurs(&mut self) -> Recurs {
        let place = self.pick(&PipePlace::ALL);
        match self.0.random_range(0..6) {
            0 => Recurs::WhenHot { above_c: self.number(-20.0, 150.0), place },
            1 => Recurs::WhenCold { below_c: self.number(-40.0, 60.0), place },
            2 => {
                let from_rpm = self.number(0.0, 8000.0);
                Recurs::WhenVibrating { from_rpm, to_rpm: self.number(from_rpm, 8000.0) }
            }
            3 => Recurs::WhenOnTheRoad { above_kmh: self.number(0.0, 180.0) },
            4 => Recurs::WhenLoaded { above_bar: self.number(0.0, 40.0) },
            _ => Recurs::OnceInAWhile { share: self.number(0.0, 1.0) },
        }
    }
    fn fault(&mut self, id: FaultId) -> HiddenFault {
        let severity = id.info().severity.map(|s| self.number(s.min, s.max));
        let onset = match self.0.random_range(0..8) {
            0..=3 => Onset::Start,
            4 | 5 => Onset::AfterS(self.seconds()),
            6 => Onset::WhenDischargeAboveC(self.number(-20.0, 150.0)),
            _ => Onset::WhenSlowerThanKmh(self.number(0.1, 180.0)),
        };
        let comes_and_goes = (!id.is_contents() && self.chance(0.2)).then(|| self.recurs());
        let grows = comes_and_goes.is_none() && self.chance(0.3);
        HiddenFault {
            id,
            severity: severity.filter(|_| self.chance(0.9)),
            onset,
            grows_over_s: if grows { self.seconds() } else { 0.0 },
            comes_and_goes,
        }
    }
    fn faults(&mut self, rig: &Rig) -> Vec<HiddenFault> {
        let possible: Vec<FaultId> = FaultId::on(rig).collect();
        let mut ids: Vec<FaultId> = (0..self.0.random_range(0..4)).map(|_| self.pick(&possible)).collect();
        ids.sort_unstable();
        ids.dedup();
        ids.into_iter().map(|id| self.fault(id)).collect()
    }
    fn bay(&mut self, rig: &Rig) -> BaySetup {
        let mut amount = |vessel| self.chance(0.6).then(|| self.number(0.0, most_kg(vessel, rig)));
        BaySetup {
            supply_kg: amount(Vessel::Supply),
            recovery_kg: amount(Vessel::Recovery),
            charging_kg: amount(Vessel::Charging),
            left_open: self.chance(0.3),
        }
    }

    /// A scenario.
    pub fn scenario(&mut self, number: u64) -> Scenario {
        let ids: Vec<&str> = Rig::ids().collect();
        let rig = Rig::shipped(self.pick(&ids)).expect("is shipped");
        let faults = self.faults(rig);
        let nothing_wrong = faults.is_empty() && self.chance(0.5);
        let mode = if nothing_wrong || !faults.is_empty() {
            self.pick(&[Mode::Explore, Mode::Practice])
        } else {
            Mode::Explore
        };
        Scenario {
            format: 1,
            id: format!("drawn_{number}"),
            title: "Drawn by chance".into(),
            unit: "0".into(),
            tasks: vec!["T1".into(), "T21".into()],
            trains: "Anything.".into(),
            mode,
            work_order: "It does something.\n\t\"Sometimes.\"".into(),
            rig: rig.id.clone(),
            start: self.start(),
            comes_on_after_s: if self.chance(0.7) { 0.0 } else { self.seconds() },
            moments: self.moments(),
            accepted_causes: faults.iter().map(|fault| fault.id).collect(),
            faults,
            tools: Tool::ALL.into_iter().filter(|_| self.chance(0.8)).collect(),
            hoses_fitted: self.chance(0.5),
            bay: self.chance(0.4).then(|| self.bay(rig)),
            inside_view: self.chance(0.5),
            nothing_wrong,
            hints: vec!["Look.".into(); self.0.random_range(0..3)],
            debrief: String::new(),
        }
    }
    /// Seconds to let pass.
    pub fn run_s(&mut self) -> u32 {
        self.0.random_range(15..=LONGEST_S as u32)
    }
}
