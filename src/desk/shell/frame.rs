//! One frame: wall time in, panels drawn, commands carried out, next frame asked for when it is needed.

use std::time::{Duration, Instant};

use bevy::app::AppExit;
use bevy::prelude::*;
use bevy::time::Real;
use bevy::window::{Monitor, PrimaryMonitor, PrimaryWindow};
use bevy::winit::{UpdateMode, WinitSettings};
use bevy_egui::{EguiContext, EguiFullOutput, EguiInput, EguiPreUpdateSet, egui};

use super::display;
use crate::desk::{Session, fonts, keys, layout};

/// Most work on the model in one frame.
const BUDGET: Duration = Duration::from_millis(14);
/// Frames after which the first one is certainly on the screen (the render thread runs one behind).
const SHOWN_AFTER: u32 = 2;

/// The session and what the shell remembers of its frames.
#[derive(Resource)]
pub struct Desk {
    /// The session.
    pub session: Session,
    started: Instant,
    frames: u32,
    dressed: Option<bool>,
    /// When the first frame was shown.
    pub shown: Option<Instant>,
    pace: (Instant, u32),
}

impl Desk {
    /// A desk that was started at `started`.
    pub fn new(session: Session, started: Instant) -> Self {
        Self { session, started, frames: 0, dressed: None, shown: None, pace: (started, 0) }
    }

    fn count(&mut self) {
        self.frames += 1;
        if self.frames == SHOWN_AFTER + 1 {
            display::first_frame_shown();
            self.shown = Some(Instant::now());
            eprintln!("first frame after {:.1} s", self.started.elapsed().as_secs_f64());
        }
        // With PINTLE_FPS set, tell how fast frames come; for checks.
        self.pace.1 += 1;
        if self.pace.0.elapsed() > Duration::from_secs(2) {
            if std::env::var_os("PINTLE_FPS").is_some() {
                let fps = f64::from(self.pace.1) / self.pace.0.elapsed().as_secs_f64();
                eprintln!("{fps:.1} frames a second");
            }
            self.pace = (Instant::now(), 0);
        }
    }
}

/// Systems of the frame.
pub fn plugin(app: &mut App) {
    app.add_systems(
        PreUpdate,
        drop_idle_modifier_events.after(EguiPreUpdateSet::ProcessInput).before(EguiPreUpdateSet::BeginPass),
    )
    .add_systems(Update, (fit_to_monitor, frame, pace_frames).chain());
}

/// A monitor at most so much larger than the window gets a maximised window [pt].
const SPARE: Vec2 = Vec2::new(160.0, 140.0);

/// Once, when the monitor is known: on a small laptop take the whole screen, and never be larger than it.
fn fit_to_monitor(
    monitors: Query<(&Monitor, Has<PrimaryMonitor>)>,
    mut windows: Query<&mut Window, With<PrimaryWindow>>,
    mut done: Local<bool>,
) {
    let monitor = monitors.iter().max_by_key(|(_, primary)| *primary);
    let (false, Some((monitor, _)), Ok(mut window)) = (*done, monitor, windows.single_mut()) else {
        return;
    };
    *done = true;
    let scale = window.scale_factor();
    let room = Vec2::new(monitor.physical_width as f32, monitor.physical_height as f32) / scale;
    let size = window.size();
    if room.cmplt(size + SPARE).any() {
        window.set_maximized(true);
    }
    if room.cmplt(size).any() && room.min_element() > 0.0 {
        let fitting = size.min(room);
        window.resolution.set(fitting.x, fitting.y);
    }
}

/// Workaround for bevy_egui 0.42 (its pull request 505): it pushes `ModifiersChanged` every frame and
/// egui answers each with an immediate repaint, so the desk would never rest. Delete with bevy_egui 0.43.
fn drop_idle_modifier_events(mut contexts: Query<(&mut EguiContext, &mut EguiInput)>) {
    for (mut context, mut input) in &mut contexts {
        let now = context.get_mut().input(|i| i.modifiers);
        input.events.retain(|event| !matches!(event, egui::Event::ModifiersChanged(m) if *m == now));
    }
}

fn frame(
    mut desk: ResMut<Desk>,
    time: Res<Time<Real>>,
    mut contexts: Query<(&mut EguiContext, &mut EguiInput, &mut EguiFullOutput)>,
    mut clear: ResMut<ClearColor>,
    mut exit: MessageWriter<AppExit>,
) -> Result {
    let (mut context, mut input, mut output) = contexts.single_mut()?;
    let ctx = context.get_mut();
    dress(&mut desk, ctx, &mut clear);
    let wall_s = if desk.shown.is_some() { time.delta_secs_f64() } else { 0.0 };
    desk.session.pass(wall_s, BUDGET.max(Duration::from_secs_f64(wall_s.min(0.5) * 0.4)));
    let mut wishes = Vec::new();
    let (view, papers) = desk.session.desk();
    let drawn = ctx.run_ui(input.take(), |ui| {
        // A frame may need two passes, and only the first one sees the events: what it wished counts, and what
        // a second one wishes is the same wish again.
        let mut wished = Vec::new();
        layout::desk_ui(ui, &view, papers, &mut wished);
        keys::keys(ui.ctx(), &view, papers, &mut wished);
        if wishes.is_empty() {
            wishes = wished;
        }
    });
    **output = Some(drawn);
    for wish in wishes {
        desk.session.command(wish);
    }
    if desk.session.wants_to_quit() {
        exit.write(AppExit::Success);
    }
    desk.count();
    Ok(())
}

/// Fonts once, colours when the theme changes.
fn dress(desk: &mut Desk, ctx: &egui::Context, clear: &mut ClearColor) {
    let dark = desk.session.theme().dark;
    if desk.dressed.is_none() {
        ctx.set_fonts(fonts::definitions());
    }
    if desk.dressed != Some(dark) {
        let [r, g, b, _] = desk.session.theme().panel.to_array();
        clear.0 = Color::srgb_u8(r, g, b);
        desk.session.theme().apply(ctx);
        desk.dressed = Some(dark);
    }
}

/// Ask for frames only as often as something moves.
fn pace_frames(desk: Res<Desk>, mut settings: ResMut<WinitSettings>) {
    let rest = if desk.shown.is_none() { Duration::from_millis(1) } else { desk.session.may_rest() };
    let focused = UpdateMode::reactive(rest);
    let unfocused = UpdateMode::reactive_low_power(rest.max(Duration::from_millis(33)));
    if settings.focused_mode != focused || settings.unfocused_mode != unfocused {
        settings.focused_mode = focused;
        settings.unfocused_mode = unfocused;
    }
}
