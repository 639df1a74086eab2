//! The lines of the work record.

use strum::VariantArray;

use crate::bay::RecordField;
use crate::variants::all;

/// Where a line stands on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum Section {
    /// As it came.
    Before,
    /// Recovery.
    Recovery,
    /// Repair and leak.
    Repair,
    /// Hold under nitrogen.
    Hold,
    /// Evacuation.
    Vacuum,
    /// Oil and refrigerant put in.
    Filling,
    /// As it goes.
    After,
}

impl Section {
    /// All, as they stand on the sheet.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// Heading.
    pub fn title(self) -> &'static str {
        match self {
            Self::Before => "As it came",
            Self::Recovery => "Recovery",
            Self::Repair => "Repair",
            Self::Hold => "Hold under nitrogen",
            Self::Vacuum => "Vacuum",
            Self::Filling => "Filling",
            Self::After => "As it goes",
        }
    }
}

/// A line of the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LineInfo {
    /// What it asks for.
    pub title: &'static str,
    /// Unit in the trade; empty for words.
    pub unit: &'static str,
    /// Where it stands.
    pub section: Section,
}

impl RecordField {
    /// All, in the order of the enum.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();

    /// Title, unit and place on the sheet.
    pub fn line(self) -> LineInfo {
        use Section as S;
        let (title, unit, section) = match self {
            Self::Refrigerant => ("Refrigerant found", "", S::Before),
            Self::LowBeforeBar => ("Low side before", "bar gauge", S::Before),
            Self::HighBeforeBar => ("High side before", "bar gauge", S::Before),
            Self::VentBeforeC => ("Vents before", "°C", S::Before),
            Self::RecoveredG => ("Recovered", "g", S::Recovery),
            Self::OilRecoveredMl => ("Oil recovered with it", "mL", S::Recovery),
            Self::CylinderLabel => ("Label of the recovery cylinder", "", S::Recovery),
            Self::PartReplaced => ("Part replaced", "", S::Repair),
            Self::LeakPlace => ("Where it leaked", "", S::Repair),
            Self::NitrogenBar => ("Nitrogen at the start", "bar gauge", S::Hold),
            Self::NitrogenHeldMin => ("Held for", "min", S::Hold),
            Self::NitrogenChangeBar => ("Change, at one temperature", "bar", S::Hold),
            Self::VacuumPa => ("Deepest vacuum", "Pa absolute", S::Vacuum),
            Self::PumpedMin => ("Pump ran", "min", S::Vacuum),
            Self::RisePa => ("Rise after shut-off", "Pa", S::Vacuum),
            Self::OilAddedMl => ("Oil put in", "mL", S::Filling),
            Self::ChargedG => ("Charged", "g", S::Filling),
            Self::LowAfterBar => ("Low side after", "bar gauge", S::After),
            Self::HighAfterBar => ("High side after", "bar gauge", S::After),
            Self::VentAfterC => ("Vents after", "°C", S::After),
        };
        LineInfo { title, unit, section }
    }
    /// The line takes words, not a number.
    pub fn takes_words(self) -> bool {
        self.line().unit.is_empty()
    }
}
