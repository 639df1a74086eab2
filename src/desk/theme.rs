//! One set of tokens for colours, sizes and number styles; nothing else in the desk names a colour.

use egui::{Color32, CornerRadius, Stroke, Style, Visuals};

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
    /// Liquid refrigerant in the drawing (dense slow dots come first, colour second).
    pub liquid: Color32,
    /// Vapour refrigerant in the drawing.
    pub vapour: Color32,
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
    liquid: Color32::from_rgb(0x8E, 0xCB, 0xF2),
    vapour: Color32::from_rgb(0xF6, 0xD3, 0xB3),
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
    liquid: Color32::from_rgb(0x0A, 0x62, 0xA3),
    vapour: Color32::from_rgb(0x8F, 0x3B, 0x00),
    dark: false,
};

/// Width of the ring round whatever has the keyboard.
pub const FOCUS_RING: f32 = 2.0;

impl Theme {
    /// A mix of two colours of the theme; `share` 0 gives `a`, 1 gives `b`.
    pub fn mix(a: Color32, b: Color32, share: f32) -> Color32 {
        a.lerp_to_gamma(b, share.clamp(0.0, 1.0))
    }

    /// Dress an egui context in this theme.
    pub fn apply(&self, ctx: &egui::Context) {
        ctx.set_theme(if self.dark { egui::Theme::Dark } else { egui::Theme::Light });
        ctx.all_styles_mut(|style| self.dress(style));
    }

    fn dress(&self, style: &mut Style) {
        style.text_styles = super::fonts::text_styles();
        let spacing = &mut style.spacing;
        spacing.item_spacing = egui::vec2(8.0, 6.0);
        spacing.button_padding = egui::vec2(8.0, 4.0);
        spacing.interact_size = egui::vec2(28.0, 26.0);
        spacing.scroll = egui::style::ScrollStyle::solid();
        style.interaction.selectable_labels = false;
        style.interaction.tooltip_delay = 0.3;
        let mut visuals = if self.dark { Visuals::dark() } else { Visuals::light() };
        visuals.override_text_color = None;
        visuals.weak_text_color = Some(self.muted);
        visuals.hyperlink_color = self.low;
        visuals.warn_fg_color = self.chosen;
        visuals.error_fg_color = self.high;
        visuals.panel_fill = self.panel;
        visuals.window_fill = self.panel;
        visuals.window_stroke = Stroke::new(1.0, self.line);
        visuals.extreme_bg_color = self.ground;
        visuals.faint_bg_color = Self::mix(self.panel, self.raised, 0.5);
        visuals.code_bg_color = self.raised;
        visuals.slider_trailing_fill = true;
        visuals.selection.bg_fill = Self::mix(self.panel, self.chosen, 0.30);
        visuals.selection.stroke = Stroke::new(FOCUS_RING, self.chosen);
        let radius = CornerRadius::same(5);
        let widgets = &mut visuals.widgets;
        for widget in [
            &mut widgets.noninteractive,
            &mut widgets.inactive,
            &mut widgets.hovered,
            &mut widgets.active,
            &mut widgets.open,
        ] {
            widget.corner_radius = radius;
            widget.expansion = 0.0;
            widget.bg_fill = self.raised;
            widget.weak_bg_fill = self.raised;
            widget.bg_stroke = Stroke::new(1.0, self.line);
            widget.fg_stroke = Stroke::new(1.0, self.text);
        }
        let lifted = Self::mix(self.raised, self.text, 0.10);
        widgets.noninteractive.bg_stroke = Stroke::new(1.0, self.line);
        widgets.hovered.bg_fill = lifted;
        widgets.hovered.weak_bg_fill = lifted;
        widgets.hovered.bg_stroke = Stroke::new(1.0, self.muted);
        // egui draws a focused widget as active, so this is the focus ring.
        widgets.active.bg_fill = lifted;
        widgets.active.weak_bg_fill = lifted;
        widgets.active.bg_stroke = Stroke::new(FOCUS_RING, self.chosen);
        style.visuals = visuals;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn luminance(colour: Color32) -> f64 {
        let channel = |byte: u8| {
            let v = f64::from(byte) / 255.0;
            if v <= 0.04045 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * channel(colour.r()) + 0.7152 * channel(colour.g()) + 0.0722 * channel(colour.b())
    }

    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn text_tokens_pass_wcag_aa() {
        for theme in [DARK, LIGHT] {
            for ground in [theme.ground, theme.panel, theme.raised] {
                for (name, text) in [
                    ("text", theme.text),
                    ("muted", theme.muted),
                    ("low", theme.low),
                    ("high", theme.high),
                    ("good", theme.good),
                    ("chosen", theme.chosen),
                ] {
                    let ratio = contrast(text, ground);
                    assert!(ratio >= 4.5, "{name} on {ground:?} has {ratio:.2} (dark: {})", theme.dark);
                }
            }
            assert!(contrast(theme.on_chosen, theme.chosen) >= 4.5);
            assert!(contrast(theme.liquid, theme.ground) >= 4.5);
            assert!(contrast(theme.vapour, theme.ground) >= 4.5);
        }
    }
}
