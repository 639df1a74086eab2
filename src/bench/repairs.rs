//! Repairs, right or wrong. What a repair cures goes; everything else follows from the model.

use serde::Serialize;

use super::clock::time_s;
use super::electrical::ElectricalSide;
use super::faults::Faults;
use super::fill::Fill;
use super::refusal::{Refusal, no};
use super::service::Service;
use crate::bay::{Opened, opens};
use crate::fault::{Deed, FaultId, RepairId, TOP_UP_SHARE};
use crate::plant::Plant;
use crate::rig::Rig;

/// A repair as it was carried out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RepairDone {
    /// On which tick.
    pub tick: u64,
    /// Which repair.
    pub repair: RepairId,
    /// Faults that it took away, in catalogue order.
    pub cured: Vec<FaultId>,
    /// A part was replaced that was good.
    pub good_part: bool,
}

/// Can it be done now?
pub fn check(id: RepairId, rig: &Rig, engine_on: bool, service: &Service) -> Result<(), Refusal> {
    let info = id.info();
    if !id.applies_to(rig) {
        return no(format!("there is nothing on this rig to {}", info.words));
    }
    if service.bay().is_some() && matches!(id, RepairId::TopUp | RepairId::RechargeByWeight) {
        return no("in the bay that is done by hand: hoses, cylinder, scale");
    }
    if service.is_open() && info.deed.recharges() {
        return no("the loop is open already: close up first");
    }
    // Refrigerant goes in while it runs; tools are set right at any time.
    let running = info.deed == Deed::TopUp || info.id.is_on_tools();
    if engine_on && !running {
        let why = if info.caution.is_empty() { "nobody works on what runs" } else { info.caution };
        return no(format!("switch off first: {why}"));
    }
    Ok(())
}

/// What a repair puts its hands on.
pub struct Hands<'a> {
    /// When.
    pub tick: u64,
    /// The loop.
    pub plant: &'a mut Plant,
    /// What is wrong.
    pub faults: &'a mut Faults,
    /// What is put in without a bay.
    pub fill: &'a mut Fill,
    /// Circuit and fuses.
    pub electrical: &'a mut ElectricalSide,
    /// The bay, where the loop is opened by hand.
    pub service: &'a mut Service,
}

impl Hands<'_> {
    /// Carry a repair out.
    pub fn repair(self, id: RepairId) -> RepairDone {
        let deed = id.info().deed;
        let spent = self.spent(id);
        let there = &*self.faults;
        let cures = |id: RepairId| id.cures().filter(move |fault| there.has_in_it(*fault));
        let mut cured: Vec<FaultId> = cures(id).collect();
        let good_part = deed.is_part() && cured.is_empty() && !spent;
        let by_hand = self.service.bay().is_some();
        if deed.recharges() && !by_hand {
            cured.extend(cures(RepairId::RechargeByWeight));
            cured.sort_unstable();
            cured.dedup();
        }
        for &fault in &cured {
            self.faults.clear(fault);
        }
        let (tick, now) = (self.tick, time_s(self.tick));
        if by_hand {
            if deed.recharges() {
                self.service.open(open_loop(id, self.plant, tick));
            }
        } else {
            put_in(id, self.plant, self.fill, now);
        }
        self.electrical.renew(id.fuses());
        RepairDone { tick, repair: id, cured, good_part }
    }

    /// Is the part spent by what happened since the start, fault or no fault?
    fn spent(&self, id: RepairId) -> bool {
        let worn = self.plant.compressor_spent(time_s(self.tick));
        self.electrical.any_blown(id.fuses()) || (id == RepairId::ReplaceCompressor && worn)
    }
}

/// Without a bay: recovered, evacuated and charged by weight in one step.
fn put_in(id: RepairId, plant: &mut Plant, fill: &mut Fill, now: f64) {
    let deed = id.info().deed;
    if deed == Deed::TopUp {
        fill.added_kg += TOP_UP_SHARE * plant.spec().full_charge_kg;
    }
    if deed.recharges() {
        // By weight: what was let out is put back, what was topped up is gone.
        fill.added_kg = plant.at(now, |s| s.released_kg());
    }
    if deed == Deed::Compressor || id == RepairId::SetOil {
        fill.added_oil_kg = plant.at(now, |s| s.oil.lost_kg);
    }
    if deed == Deed::Compressor {
        plant.renew_compressor(now);
    }
}

/// In the bay: the old part comes out with its oil and water, and the joint stays open.
fn open_loop(id: RepairId, plant: &mut Plant, tick: u64) -> Opened {
    let accumulator = plant.spec().receiver.is_none();
    let (part, place) = opens(id, accumulator);
    let taken = plant.renew_part(time_s(tick), part);
    Opened::by(id, (part, place), tick, taken, plant.spec().oil.full_kg)
}
