//! The action files that travel inside the program, one for each procedure.

/// An action file embedded in the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shipped {
    /// Its id; also its file name.
    pub id: &'static str,
    /// Where it stands in the source tree.
    pub file: &'static str,
    /// Its text.
    pub text: &'static str,
}

macro_rules! shipped {
    ($($id:literal),* $(,)?) => {
        /// All embedded action files, in the order of the trade.
        pub const SHIPPED: &[Shipped] = &[$(Shipped {
            id: $id,
            file: concat!("assets/procedures/", $id, ".ron"),
            text: include_str!(concat!("../../assets/procedures/", $id, ".ron")),
        }),*];
    };
}

shipped![
    "hook_up",
    "identify",
    "standing_check",
    "running_check",
    "air_side",
    "worked_values",
    "valves_left_open",
    "leak_search",
    "recover",
    "open_and_replace",
    "nitrogen_hold",
    "evacuate",
    "boil_off_water",
    "oil_and_dye",
    "charge_by_weight_liquid",
    "charge_gas_running",
    "charge_from_can",
    "top_up_by_pressure",
    "station_program",
    "before_and_after",
    "whole_job",
];

/// The embedded action file with this id.
pub fn by_id(id: &str) -> Option<Shipped> {
    SHIPPED.iter().copied().find(|shipped| shipped.id == id)
}
