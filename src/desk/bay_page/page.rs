//! What a person has chosen and begun on the page of the service bay.

use std::collections::BTreeMap;

use egui::Rect;

use super::sum::Sum;
use crate::bay::{OilKind, RecordField, StationStep};

/// Tabs of the column.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// How it is done.
    #[default]
    Guide,
    /// Where everything is.
    Ledger,
    /// Instruments in the hand.
    Instruments,
    /// The notebook.
    Notebook,
    /// The work record.
    Record,
    /// Values worked out.
    Worked,
    /// Repairs that open the loop.
    Repair,
    /// Performance chart of the day.
    Chart,
}

impl Tab {
    /// All of them with their names, in rows.
    pub const ALL: [(Self, &'static str); 8] = [
        (Self::Guide, "How-to"),
        (Self::Ledger, "Ledger"),
        (Self::Instruments, "Tools"),
        (Self::Notebook, "Notebook"),
        (Self::Record, "Record"),
        (Self::Worked, "Work out"),
        (Self::Repair, "Repair"),
        (Self::Chart, "Chart"),
    ];
}

/// What a person has chosen on the page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Open tab of the column.
    pub tab: Tab,
    /// Where the act stands that waits behind its caution.
    pub anchor: Option<Rect>,
    /// Oil in the injector [mL], and which.
    pub oil_ml: f64,
    /// Kind of oil in the injector.
    pub oil: OilKind,
    /// Dye in its syringe [mL].
    pub dye_ml: f64,
    /// Oil to go into a new part [mL].
    pub part_oil_ml: f64,
    /// Letters being typed into lines of the record.
    pub typed: BTreeMap<RecordField, String>,
    /// The record is checked as it stands.
    pub checking: bool,
    /// Step of the how-to that was brought into sight.
    pub step: Option<usize>,
    /// A sum that has been begun.
    pub sum: Sum,
    /// Program being put together for the station: step, and whether it is wanted.
    pub program: Vec<(StationStep, bool)>,
}

impl Page {
    /// Before anything was done, for a rig whose label says so much [kg].
    pub fn fresh(label_charge_kg: f64) -> Self {
        let grams = (1e3 * label_charge_kg / 10.0).round() * 10.0;
        Self {
            tab: Tab::default(),
            anchor: None,
            oil_ml: 30.0,
            oil: OilKind::AsLabelled,
            dye_ml: 6.0,
            part_oil_ml: 30.0,
            typed: BTreeMap::new(),
            checking: false,
            step: None,
            sum: Sum::default(),
            program: vec![
                (StationStep::Recover, true),
                (StationStep::EvacuateMin(30.0), true),
                (StationStep::HoldMin(15.0), true),
                (StationStep::OilMl(10.0), false),
                (StationStep::ChargeG(grams), true),
            ],
        }
    }
}
