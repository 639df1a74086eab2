//! One set of tokens for colours, sizes and number styles; nothing else in the desk names a colour.

use egui::Color32;

/// Colour tokens of one theme. Contrast against `ground` and `panel` is at least 4.5:1 for text tokens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Theme {
    /// Behind the drawing.
    pub ground: Color32,
    /// Side panels.
    pub panel: Color32,
    /// Buttons, cards.
    pub raised: Color32,
    /// Hairlines and outlines.
    pub line: Color32,
    /// Main text.
    pub text: Color32,
    /// Secondary text.
    pub muted: Color32,
    /// Low side (always dashed as well).
    pub low: Color32,
    /// High side (always solid as well).
    pub high: Color32,
    /// Good, on, cleared.
    pub good: Color32,
    /// Chosen, attention.
    pub chosen: Color32,
    /// Text on `chosen`.
    pub on_chosen: Color32,
    /// Is the ground dark?
    pub dark: bool,
}

/// Dark theme.
pub const DARK: Theme = Theme {
    ground: Color32::from_rgb(0x11, 0x16, 0x1B),
    panel: Color32::from_rgb(0x18, 0x20, 0x28),
    raised: Color32::from_rgb(0x21, 0x2B, 0x35),
    line: Color32::from_rgb(0x33, 0x41, 0x4E),
    text: Color32::from_rgb(0xE9, 0xEE, 0xF2),
    muted: Color32::from_rgb(0xA3, 0xB3, 0xC1),
    low: Color32::from_rgb(0x56, 0xB4, 0xE9),
    high: Color32::from_rgb(0xF0, 0x81, 0x3A),
    good: Color32::from_rgb(0x35, 0xB6, 0x8A),
    chosen: Color32::from_rgb(0xF0, 0xE4, 0x42),
    on_chosen: Color32::from_rgb(0x11, 0x16, 0x1B),
    dark: true,
};

/// Light theme.
pub const LIGHT: Theme = Theme {
    ground: Color32::from_rgb(0xFB, 0xFC, 0xFD),
    panel: Color32::from_rgb(0xF0, 0xF3, 0xF5),
    raised: Color32::from_rgb(0xE2, 0xE8, 0xEC),
    line: Color32::from_rgb(0xB4, 0xC0, 0xCA),
    text: Color32::from_rgb(0x14, 0x1B, 0x21),
    muted: Color32::from_rgb(0x47, 0x56, 0x63),
    low: Color32::from_rgb(0x00, 0x5F, 0x9E),
    high: Color32::from_rgb(0xA8, 0x43, 0x00),
    good: Color32::from_rgb(0x00, 0x6B, 0x4A),
    chosen: Color32::from_rgb(0x7A, 0x5C, 0x00),
    on_chosen: Color32::from_rgb(0xFF, 0xFF, 0xFF),
    dark: false,
};
