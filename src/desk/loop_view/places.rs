//! Places a tool can be put on: the six points, the air, the service ports, the sight glass. They light up
//! for the tool in hand and work by click and by keyboard (Tab, then Enter).

use egui::{Pos2, Rect, Sense, Stroke, Ui, Vec2, vec2};

use crate::bench::Action;
use crate::desk::panels::Draft;
use crate::desk::theme::{FOCUS_RING, Theme};
use crate::desk::{Command, DeskView, fonts, panels};
use crate::instrument::{AirPlace, PipePlace, Probe, Tool};
use crate::units::{Kelvin, Units};

/// Something in the drawing a tool can touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// A pipe at a numbered point.
    Pipe(PipePlace),
    /// Air.
    Air(AirPlace),
    /// The low-side service port.
    LowPort,
    /// The high-side service port.
    HighPort,
    /// The sight glass.
    SightGlass,
}

impl Target {
    /// The tool that fits here.
    pub fn tool(self) -> Tool {
        self.probe().tool()
    }

    /// The probe this makes.
    pub fn probe(self) -> Probe {
        match self {
            Self::Pipe(place) => Probe::Pipe(place),
            Self::Air(place) => Probe::Air(place),
            Self::LowPort => Probe::LowGauge,
            Self::HighPort => Probe::HighGauge,
            Self::SightGlass => Probe::SightGlass,
        }
    }

    /// As people read it, such as "low-side service port".
    pub fn name(self) -> String {
        match self {
            Self::Pipe(place) => format!("Point {}, {}", place.point(), place.name()),
            Self::Air(place) => place.name().into(),
            Self::LowPort => "low-side service port".into(),
            Self::HighPort => "high-side service port".into(),
            Self::SightGlass => "sight glass".into(),
        }
    }

    /// What a click does now, if anything.
    fn wish(self, view: &DeskView) -> Option<(Command, &'static str)> {
        let in_hand = view.ui_state.tool == Some(self.tool());
        let instruments = &view.snapshot.instruments;
        let probe = self.probe();
        if matches!(self, Self::LowPort | Self::HighPort) {
            return match (in_hand, instruments.hoses_fitted) {
                (true, false) => Some((Command::Act(Action::Hoses(true)), "Fit both hoses.")),
                (_, true) => Some((Command::Act(Action::Read(probe)), "Write the gauge down.")),
                (false, false) => None,
            };
        }
        if instruments.placed.iter().any(|(placed, _)| *placed == probe) {
            Some((Command::Act(Action::Read(probe)), "Write the reading down."))
        } else if in_hand {
            let text = match self.tool() {
                Tool::SightGlass => "Look into it.",
                Tool::AirThermometer => "Hang the thermometer here.",
                _ => "Clamp the thermometer on here.",
            };
            Some((Command::Act(Action::Place(probe)), text))
        } else {
            None
        }
    }
}

/// Value a placed tool shows now.
fn shown(target: Target, view: &DeskView) -> Option<f64> {
    let probe = target.probe();
    view.snapshot.instruments.placed.iter().find(|(placed, _)| *placed == probe).map(|&(_, value)| value)
}

/// What the thermometer or glass shows, as text.
fn reading(target: Target, value: f64, units: Units) -> String {
    match target {
        Target::SightGlass => super::words::sight_glass(value).into(),
        _ => units.temperature(Kelvin(value)),
    }
}

/// Make a place work and show its state: lit for the tool in hand, ringed with the keyboard on it, a chip
/// with the value where a tool is in place. `extra` is told on hover.
pub fn place(
    ui: &mut Ui,
    view: &DeskView,
    draft: &mut Draft,
    out: &mut Vec<Command>,
    target: Target,
    centre: Pos2,
    radius: f32,
    extra: &str,
) {
    let theme = view.theme;
    let wish = target.wish(view);
    let lit = view.ui_state.tool == Some(target.tool());
    let value = shown(target, view);
    let id = ui.id().with(("place", target.name()));
    let rect = Rect::from_center_size(centre, Vec2::splat(radius * 2.0).max(vec2(24.0, 24.0)));
    // Without a wish it can still be reached by Tab where it is a numbered point.
    let sense =
        if wish.is_some() || matches!(target, Target::Pipe(_)) { Sense::click() } else { Sense::hover() };
    let response = ui.interact(rect, id, sense);
    response
        .widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Button, wish.is_some(), target.name()));
    let painter = ui.painter();
    if lit {
        painter.circle_filled(centre, radius + 7.0, theme.chosen.gamma_multiply(0.22));
        painter.circle_stroke(centre, radius + 3.0, Stroke::new(2.0, theme.chosen));
    }
    if response.hovered() && wish.is_some() {
        painter.circle_stroke(centre, radius + 6.0, Stroke::new(2.0, theme.text));
    }
    if response.has_focus() {
        painter.circle_stroke(centre, radius + 5.0, Stroke::new(FOCUS_RING + 0.5, theme.text));
        painter.circle_stroke(centre, radius + 7.5, Stroke::new(1.0, theme.ground));
    }
    if let Some(value) = value {
        let way = chip_side(target, view.unfold);
        chip(painter, centre + way * (radius + 6.0), way, &reading(target, value, view.units), radius, theme);
    }
    if response.clicked()
        && let Some((command, _)) = &wish
    {
        match command {
            // Acts with a caution wait until it is confirmed in the tools panel.
            Command::Act(action) => draft.ask(action.clone(), out),
            other => out.push(other.clone()),
        }
    }
    let mut hint = panels::parts::capital(&target.name());
    hint.push('.');
    for part in [extra, wish.as_ref().map_or("", |w| w.1)] {
        if !part.is_empty() {
            hint.push(' ');
            hint.push_str(part);
        }
    }
    response.on_hover_text(hint);
}

/// Where the plate with the value stands: away from the labels of the drawing.
fn chip_side(target: Target, unfold: f32) -> Vec2 {
    match target {
        Target::Pipe(PipePlace::CompressorInlet | PipePlace::CompressorOutlet) if unfold < 0.5 => -Vec2::X,
        Target::Pipe(PipePlace::ValveOutlet | PipePlace::EvaporatorOutlet) if unfold < 0.5 => -Vec2::Y,
        _ => Vec2::Y,
    }
}

/// A small plate with the value of a tool in place, with the middle of one side at `at`.
fn chip(painter: &egui::Painter, at: Pos2, way: Vec2, text: &str, radius: f32, theme: &Theme) {
    let font = fonts::bold((radius * 1.3).clamp(12.5, 19.0));
    let galley = painter.layout_no_wrap(text.into(), font, theme.on_chosen);
    let size = galley.size() + vec2(10.0, 4.0);
    let rect = Rect::from_center_size(at + way * size * 0.5, size);
    painter.rect_filled(rect, 4.0, theme.chosen);
    painter.galley(rect.min + vec2(5.0, 2.0), galley, theme.on_chosen);
}
