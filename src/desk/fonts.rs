//! The one typeface of the desk, embedded (see assets/fonts/README.md), and its sizes.

use std::sync::Arc;

use egui::{FontData, FontDefinitions, FontFamily, FontId, TextStyle};

/// Size of body text [pt].
pub const BODY: f32 = 14.0;
/// The smallest text of the desk [pt].
pub const SMALL: f32 = 12.0;
/// Headings [pt].
pub const HEADING: f32 = 16.0;

/// The semibold cut.
pub fn semibold() -> FontFamily {
    FontFamily::Name("semibold".into())
}

/// Regular text of a size.
pub fn regular(size: f32) -> FontId {
    FontId::new(size, FontFamily::Proportional)
}

/// Semibold text of a size.
pub fn bold(size: f32) -> FontId {
    FontId::new(size, semibold())
}

/// Text styles of the desk.
pub fn text_styles() -> std::collections::BTreeMap<TextStyle, FontId> {
    [
        (TextStyle::Small, regular(SMALL)),
        (TextStyle::Body, regular(BODY)),
        (TextStyle::Button, regular(BODY)),
        (TextStyle::Monospace, regular(BODY)),
        (TextStyle::Heading, bold(HEADING)),
    ]
    .into()
}

/// Inter with tabular figures; every family falls back on the same face, so no glyph comes from elsewhere.
pub fn definitions() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    let mut add = |name: &str, bytes: &'static [u8]| {
        fonts.font_data.insert(name.into(), Arc::new(FontData::from_static(bytes)));
    };
    add("inter", include_bytes!("../../assets/fonts/Inter-Regular.ttf"));
    add("inter-semibold", include_bytes!("../../assets/fonts/Inter-SemiBold.ttf"));
    for family in [FontFamily::Proportional, FontFamily::Monospace] {
        fonts.families.insert(family, vec!["inter".into()]);
    }
    fonts.families.insert(semibold(), vec!["inter-semibold".into(), "inter".into()]);
    fonts
}
