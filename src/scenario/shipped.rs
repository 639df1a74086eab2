//! The scenarios that travel inside the program, so that it runs from any folder.

/// A scenario file embedded in the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shipped {
    /// Its id on the command line; also its file name.
    pub id: &'static str,
    /// Where it stands in the source tree.
    pub file: &'static str,
    /// Its text.
    pub text: &'static str,
}

macro_rules! shipped {
    ($($id:literal),* $(,)?) => {
        /// All embedded scenarios, in the order of the course.
        pub const SHIPPED: &[Shipped] = &[$(Shipped {
            id: $id,
            file: concat!("scenarios/", $id, ".ron"),
            text: include_str!(concat!("../../scenarios/", $id, ".ron")),
        }),*];
    };
}

shipped![
    "healthy",
    "cold_only_on_the_road",
    "cold_for_a_while",
    "weaker_by_the_mile",
    "lukewarm_all_day",
    "quiet_and_lukewarm",
    "dripping_and_tired",
    "gauges_too_low",
    "hot_out_of_the_car_park",
    "drops_out_on_the_hill",
    "now_and_then",
    "warm_under_load",
    "no_bite_after_the_gravel",
    "never_really_cold",
    "silent_after_the_wash",
    "hums_and_clicks",
    "iced_by_noon",
    "bay_open_bench",
    "bay_hissing_hose",
    "bay_topped_up_twice",
];

/// The embedded scenario with this id.
pub fn by_id(id: &str) -> Option<Shipped> {
    SHIPPED.iter().copied().find(|shipped| shipped.id == id)
}
