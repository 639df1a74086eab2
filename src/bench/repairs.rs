//! Repairs, right or wrong. What a repair cures goes; everything else follows from the model.

use serde::Serialize;

use super::{Bench, Refusal};
use crate::bay::{Opened, opens};
use crate::fault::{Deed, FaultId, RepairId};
use crate::plant::Units;

/// Share of a full charge that a top-up adds.
const TOP_UP_SHARE: f64 = 0.2;
/// Wear of bearings or damage to reeds from which a compressor does not count as a good part.
const SPENT: f64 = 0.2;

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

impl Bench {
    pub(super) fn check_repair(&self, id: RepairId) -> Result<(), Refusal> {
        let info = id.info();
        if !id.applies_to(&self.rig) {
            return Err(Refusal::NotNow(format!("there is nothing on this rig to {}", info.words)));
        }
        if self.bay.is_some() && matches!(id, RepairId::TopUp | RepairId::RechargeByWeight) {
            return Err(Refusal::NotNow("in the bay that is done by hand: hoses, cylinder, scale".into()));
        }
        if self.bay().is_some_and(|bay| bay.opened.is_some()) && info.deed.recharges() {
            return Err(Refusal::NotNow("the loop is open already: close up first".into()));
        }
        // Refrigerant goes in while it runs; tools are set right at any time.
        let running = info.deed == Deed::TopUp || info.id.is_on_tools();
        if self.controls.engine_on && !running {
            let why = if info.caution.is_empty() { "nobody works on what runs" } else { info.caution };
            return Err(Refusal::NotNow(format!("switch off first: {why}")));
        }
        Ok(())
    }

    pub(super) fn repair(&mut self, id: RepairId) {
        let deed = id.info().deed;
        let spent = self.spent(id);
        let mut cured: Vec<FaultId> = id.cures().filter(|fault| self.has_in_it(*fault)).collect();
        let good_part = deed.is_part() && cured.is_empty() && !spent;
        let by_hand = self.bay.is_some();
        if deed.recharges() && !by_hand {
            cured.extend(RepairId::RechargeByWeight.cures().filter(|fault| self.has_in_it(*fault)));
            cured.sort_unstable();
            cured.dedup();
        }
        for &fault in &cured {
            self.disturbances.stop(fault);
            self.faults.clear(fault);
        }
        let now = self.time_s();
        if by_hand {
            if deed.recharges() {
                self.open_loop(id);
            }
            self.finish_repair(id, cured, good_part);
            return;
        }
        if deed == Deed::TopUp {
            self.added_kg += TOP_UP_SHARE * self.plant.spec().full_charge_kg;
        }
        if deed.recharges() {
            // By weight: what was let out is put back, what was topped up is gone.
            self.added_kg = self.plant.at(now, |s| s.released_kg());
        }
        if deed == Deed::Compressor || id == RepairId::SetOil {
            self.added_oil_kg = self.plant.at(now, |s| s.oil.lost_kg);
        }
        if deed == Deed::Compressor {
            self.plant.renew_compressor(now);
        }
        self.finish_repair(id, cured, good_part);
    }

    /// Open the loop in the bay: the old part comes out with its oil and water, and the joint stays open.
    fn open_loop(&mut self, id: RepairId) {
        let now = self.time_s();
        let accumulator = self.plant.spec().receiver.is_none();
        let (part, place) = opens(id, accumulator);
        let taken = self.plant.renew_part(now, part);
        // A replacement compressor comes with the full fill of the system in it (common practice, no source).
        let new_oil_kg = if part == Units::Compressor { self.plant.spec().oil.full_kg } else { 0.0 };
        if let Some(bay) = self.bay.as_deref_mut() {
            bay.log.oil_taken_kg += taken.oil_kg;
            bay.opened = Some(Opened { repair: id, part, place, tick: self.tick, taken, new_oil_kg });
        }
    }

    fn finish_repair(&mut self, id: RepairId, cured: Vec<FaultId>, good_part: bool) {
        for fuse in fuses(id) {
            self.circuit.renew_fuse(fuse);
        }
        self.repairs.push(RepairDone { tick: self.tick, repair: id, cured, good_part });
    }

    /// Is the fault there, on its way, or waiting for what makes it come back?
    fn has_in_it(&self, id: FaultId) -> bool {
        self.faults.has(id) || self.disturbances.holds(id)
    }

    /// Is the part spent by what happened since the start, fault or no fault?
    fn spent(&self, id: RepairId) -> bool {
        let worn = self.plant.at(self.time_s(), |s| s.shell.wear.max(s.shell.battered)) >= SPENT;
        fuses(id).iter().any(|fuse| self.circuit.fuse_blown(fuse))
            || (id == RepairId::ReplaceCompressor && worn)
    }

    /// Repairs so far.
    pub fn repairs(&self) -> &[RepairDone] {
        &self.repairs
    }
    /// Good parts that were replaced.
    pub fn parts_replaced(&self) -> usize {
        self.repairs.iter().filter(|done| done.good_part).count()
    }
}

/// Fuses that a repair renews.
fn fuses(id: RepairId) -> &'static [&'static str] {
    match id {
        RepairId::ReplaceFanFuse => &["fan_fuse"],
        RepairId::ReplaceClutchFuse => &["clutch_fuse", "ac_fuse"],
        RepairId::ReplaceBlowerFuse => &["blower_fuse"],
        RepairId::ReplaceCompressorFuse => &["compressor_fuse", "main_fuse", "control_fuse"],
        _ => &[],
    }
}
