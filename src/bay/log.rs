//! The log of the work: figures taken from the model as it goes, second by second.

use serde::{Deserialize, Serialize};

use super::mistake::BayMistake;
use super::{dye, shop_air};
use crate::places::BySearchPlace;
use crate::plant::CentreHose;

/// The low side counts as a vacuum below this, and an evacuation as a new one above it [Pa absolute].
const VACUUM_PA: f64 = 3e4;
/// Centre hose over outside pressure from which the pump blows refrigerant out.
const BLOWS: f64 = 1.5;
/// Share of a full charge from which nitrogen counts as let into a charged loop.
const CHARGED_SHARE: f64 = 0.1;

/// A hold under nitrogen as it went: pressures [Pa absolute], temperatures of the loop [K], ticks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct NitrogenLog {
    /// Pressure when it was shut off.
    pub start_pa: f64,
    /// Temperature then.
    pub start_t_k: f64,
    /// When.
    pub start_tick: u64,
    /// Pressure when it was last left alone.
    pub end_pa: f64,
    /// Temperature then.
    pub end_t_k: f64,
    /// When.
    pub end_tick: u64,
    /// Hands did something to it since.
    pub over: bool,
}

/// Figures of the work so far, taken from the model as it goes.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BayLog {
    /// Lowest pressure in the loop under the pump since it last stood above a tenth of a bar [Pa absolute].
    pub deepest_pa: Option<f64>,
    /// Time the pump has drawn on the loop since then [s].
    pub pumped_s: f64,
    /// The pump draws on the loop now.
    pub drawing: bool,
    /// Pressure in the loop when the pump was last shut off, and when.
    pub shut_off: Option<(f64, u64)>,
    /// Highest pressure since then while nothing but the loop itself could raise it [Pa absolute].
    pub risen_to_pa: f64,
    /// Time it was watched [s].
    pub watched_s: f64,
    /// Something else was opened to the loop since: the watch is over.
    pub watch_over: bool,
    /// The hold under nitrogen.
    pub nitrogen: Option<NitrogenLog>,
    /// Refrigerant left in the loop when it was first opened or evacuated [kg].
    pub left_in_kg: Option<f64>,
    /// Oil poured in [kg].
    pub oil_added_kg: f64,
    /// Oil that came out with parts [kg].
    pub oil_taken_kg: f64,
    /// Oil of the wrong kind among that [kg].
    pub foreign_oil_kg: f64,
    /// Oil in new parts as they came [kg].
    pub new_part_oil_kg: f64,
    /// Dye put in [kg].
    pub dye_kg: f64,
    /// Share of the dye that has been carried round.
    pub dye_mixed: f64,
    /// Dye that came out with oil; it stays where it is [kg].
    pub dye_out_kg: BySearchPlace<f64>,
    /// Refrigerant that hangs in the air of the bay [kg].
    pub bay_air_kg: f64,
    /// Refrigerant that came with fresh cans, and went with empty ones [kg].
    pub cans_kg: (f64, f64),
    /// Mistakes, each once, with their first tick.
    pub mistakes: Vec<(BayMistake, u64)>,
}

impl BayLog {
    /// Write a mistake down, once.
    pub fn mistake(&mut self, kind: BayMistake, tick: u64) {
        if self.mistakes.iter().all(|(k, _)| *k != kind) {
            self.mistakes.push((kind, tick));
        }
    }
}

/// What the log sees of a second.
#[derive(Clone, Copy, Debug)]
pub struct LogSees {
    /// When.
    pub tick: u64,
    /// Pressure in the loop, the higher of suction and liquid line [Pa absolute].
    pub loop_pa: f64,
    /// Temperature of the loop [K].
    pub loop_t_k: f64,
    /// Pressure in the suction line [Pa absolute].
    pub suction_pa: f64,
    /// Pressure in the centre hose [Pa absolute].
    pub centre_pa: f64,
    /// Outside air [Pa absolute].
    pub ambient_pa: f64,
    /// What the centre hose ends in.
    pub centre: CentreHose,
    /// The centre hose is open to the loop through the low-side hose.
    pub joined_low: bool,
    /// The centre hose is open to the loop through either hose.
    pub joined: bool,
    /// A joint is apart.
    pub joint_open: bool,
    /// A fitting is cracked or being changed.
    pub cracked: bool,
    /// The compressor turns.
    pub running: bool,
    /// The service station works, not hands.
    pub station: bool,
    /// Extraction runs, doors are open.
    pub ventilated: bool,
    /// Refrigerant in the loop [kg].
    pub charge_kg: f64,
    /// Charge on the label [kg].
    pub full_kg: f64,
    /// Refrigerant let out within this second [kg].
    pub released_kg: f64,
    /// Oil in all places [kg].
    pub oil_kg: f64,
    /// Oil lost within this second [kg].
    pub oil_lost_kg: f64,
}

impl LogSees {
    fn left_alone(&self) -> bool {
        !self.joined || self.centre == CentreHose::Capped
    }
}

impl BayLog {
    /// Take down a second of work. Returns the dye that came out with oil in it, wherever that was [kg].
    pub fn second(&mut self, sees: &LogSees) -> f64 {
        let drawing = sees.centre == CentreHose::VacuumPump && sees.joined;
        self.evacuation(drawing, sees);
        self.nitrogen_hold(sees);
        if drawing || sees.joint_open {
            self.left_in_kg.get_or_insert(sees.charge_kg);
        }
        let liquid = matches!(sees.centre, CentreHose::Vessel { liquid: true, .. });
        if sees.running && liquid && sees.joined_low {
            self.mistake(BayMistake::LiquidIntoRunning, sees.tick);
        }
        if sees.running && sees.suction_pa < VACUUM_PA {
            self.mistake(BayMistake::RanInVacuum, sees.tick);
        }
        self.bay_air_kg = shop_air::hangs_kg(self.bay_air_kg, sees.released_kg, sees.ventilated);
        if sees.running {
            self.dye_mixed = dye::mixed(self.dye_mixed);
        }
        dye::out_kg(self.dye_kg, self.dye_mixed, sees.oil_kg, sees.oil_lost_kg)
    }

    fn evacuation(&mut self, drawing: bool, sees: &LogSees) {
        if drawing && !self.drawing && sees.loop_pa > VACUUM_PA {
            // A new evacuation.
            (self.deepest_pa, self.pumped_s) = (None, 0.0);
        }
        self.drawing = drawing;
        if drawing {
            self.pumped_s += 1.0;
            self.deepest_pa = Some(self.deepest_pa.map_or(sees.loop_pa, |p| p.min(sees.loop_pa)));
            (self.shut_off, self.risen_to_pa, self.watched_s) = (None, 0.0, 0.0);
            if sees.centre_pa > BLOWS * sees.ambient_pa && !sees.station {
                self.mistake(BayMistake::PumpOnPressure, sees.tick);
            }
        } else if self.deepest_pa.is_some() {
            // Watched as long as nothing but the loop itself can raise the pressure.
            if self.shut_off.is_none() {
                self.shut_off = Some((sees.loop_pa, sees.tick));
                self.risen_to_pa = sees.loop_pa;
            } else if sees.left_alone() && !self.watch_over && !sees.joint_open {
                self.risen_to_pa = self.risen_to_pa.max(sees.loop_pa);
                self.watched_s += 1.0;
            } else {
                self.watch_over = true;
            }
        }
        if drawing {
            self.watch_over = false;
        }
        if sees.joint_open {
            // Opened again: that vacuum counts no more.
            (self.deepest_pa, self.pumped_s, self.shut_off) = (None, 0.0, None);
        }
    }

    fn nitrogen_hold(&mut self, sees: &LogSees) {
        let filling = matches!(sees.centre, CentreHose::Nitrogen { .. }) && sees.joined;
        if filling {
            self.nitrogen = Some(NitrogenLog {
                start_pa: sees.loop_pa,
                start_t_k: sees.loop_t_k,
                start_tick: sees.tick,
                end_pa: sees.loop_pa,
                end_t_k: sees.loop_t_k,
                end_tick: sees.tick,
                over: false,
            });
            if sees.charge_kg > CHARGED_SHARE * sees.full_kg {
                self.mistake(BayMistake::NitrogenOnCharge, sees.tick);
            }
        }
        if let Some(hold) = self.nitrogen.as_mut().filter(|hold| !filling && !hold.over) {
            if sees.left_alone() && !sees.joint_open && !sees.cracked && !sees.running {
                (hold.end_pa, hold.end_t_k, hold.end_tick) = (sees.loop_pa, sees.loop_t_k, sees.tick);
            } else {
                hold.over = true;
            }
        }
    }
}

#[cfg(test)]
#[path = "log_tests.rs"]
mod tests;
