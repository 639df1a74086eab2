//! One frame: wall time in, panels drawn, commands carried out. When a frame is drawn says [`pace`](super::pace), what of
//! it is painted says the [`Canvas`].

use std::time::{Duration, Instant};

use bevy::app::AppExit;
use bevy::ecs::system::SystemParam;
use bevy::prelude::*;
use bevy::time::Real;
use bevy::window::{
    Monitor, PrimaryMonitor, PrimaryWindow, RequestRedraw, WindowFocused, WindowOccluded, WindowResized,
    WindowScaleFactorChanged,
};
use bevy::winit::{UpdateMode, WinitSettings};
use bevy_egui::{EguiContext, EguiFullOutput, EguiInput, EguiPostUpdateSet, EguiPreUpdateSet, egui};

use super::display;
use super::pace::Pace;
use super::painting::Painting;
use crate::desk::repaint::Canvas;
use crate::desk::{Session, fonts, keys, layout};

/// Most work on the model in one frame.
const BUDGET: Duration = Duration::from_millis(14);
/// Frames after which the first one is certainly on the screen (the render thread runs one behind).
const SHOWN_AFTER: u32 = 2;
/// Frames painted whole, one right after the other, once letters were added to their texture: it reaches the renderer a
/// frame or two later.
const SETTLING: u32 = 3;
/// The same when the window opens: shaders come as assets too.
const OPENING: u32 = 12;
/// While nothing is drawn the session still hears of the time so often: it looks after work of its own.
const HEARS: Duration = Duration::from_millis(100);

/// The session and what the shell remembers of its frames.
#[derive(Resource)]
pub struct Desk {
    /// The session.
    pub session: Session,
    /// When a frame is drawn.
    pub pace: Pace,
    started: Instant,
    dressed: Option<bool>,
    /// When the first frame was shown.
    pub shown: Option<Instant>,
    canvas: Canvas,
    points: f32,
    settling: u32,
    /// The next frame is wanted at once.
    again: bool,
    owed: Duration,
    drew: bool,
}

impl Desk {
    /// A desk that was started at `started`.
    pub fn new(session: Session, started: Instant) -> Self {
        Self {
            session,
            pace: Pace::new(started),
            started,
            dressed: None,
            shown: None,
            canvas: Canvas::default(),
            points: 0.0,
            settling: OPENING,
            again: true,
            owed: Duration::ZERO,
            drew: false,
        }
    }

    /// A frame is wanted as soon as it can be had.
    pub fn hurries(&self) -> bool {
        self.again || self.settling > 0
    }

    fn count(&mut self) {
        if self.shown.is_none() && self.pace.drawn() > SHOWN_AFTER {
            display::first_frame_shown();
            self.shown = Some(Instant::now());
            eprintln!("first frame after {:.1} s", self.started.elapsed().as_secs_f64());
        }
    }

    /// Let the session live through the time since it last heard of it.
    fn pass(&mut self) {
        let wall = std::mem::take(&mut self.owed);
        let wall = if self.shown.is_some() { wall } else { Duration::ZERO };
        let most = wall.min(Duration::from_millis(500)).mul_f64(0.4);
        self.session.pass(wall.as_secs_f64(), BUDGET.max(most));
    }
}

/// Systems of the frame.
pub fn plugin(app: &mut App) {
    app.add_systems(
        PreUpdate,
        drop_idle_modifier_events.after(EguiPreUpdateSet::ProcessInput).before(EguiPreUpdateSet::BeginPass),
    )
    .add_systems(Update, (fit_to_monitor, frame, set_pace).chain())
    // Nothing was laid out, so there is nothing to hand on.
    .configure_sets(PostUpdate, EguiPostUpdateSet::ProcessOutput.run_if(|desk: Res<Desk>| desk.drew));
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

/// What happened to the window, after which its picture is not known.
#[derive(SystemParam)]
pub struct Disturbed<'w, 's> {
    resized: MessageReader<'w, 's, WindowResized>,
    scaled: MessageReader<'w, 's, WindowScaleFactorChanged>,
    focused: MessageReader<'w, 's, WindowFocused>,
    occluded: MessageReader<'w, 's, WindowOccluded>,
}

impl Disturbed<'_, '_> {
    fn take(&mut self) -> bool {
        let counts = [
            self.resized.read().count(),
            self.scaled.read().count(),
            self.focused.read().count(),
            self.occluded.read().count(),
        ];
        counts.into_iter().any(|count| count > 0)
    }
}

/// Draw a frame if one is due.
pub fn frame(
    mut desk: ResMut<Desk>,
    time: Res<Time<Real>>,
    mut contexts: Query<(&mut EguiContext, &mut EguiInput, &mut EguiFullOutput)>,
    mut disturbed: Disturbed,
    mut painting: ResMut<Painting>,
    mut exit: MessageWriter<AppExit>,
) -> Result {
    let (mut context, mut input, mut output) = contexts.single_mut()?;
    let desk = &mut *desk;
    desk.pace.wake();
    desk.owed += time.delta();
    desk.drew = false;
    if disturbed.take() {
        desk.settling = desk.settling.max(SETTLING);
    }
    if desk.shown.is_none() {
        painting.ask();
    }
    let hurry = desk.hurries() || !input.events.is_empty() || !input.dropped_files.is_empty();
    if desk.session.wants_to_quit() || !(hurry || desk.pace.is_due()) {
        if desk.owed >= HEARS {
            desk.pass();
        }
        return Ok(());
    }
    let ctx = context.get_mut();
    dress(desk, ctx);
    desk.pass();
    let mut wishes = Vec::new();
    let (view, papers) = desk.session.desk();
    let mut drawn = ctx.run_ui(input.take(), |ui| {
        // A frame may need two passes, and only the first one sees the events: what it wished counts, and what
        // a second one wishes is the same wish again.
        let mut wished = Vec::new();
        layout::desk_ui(ui, &view, papers, &mut wished);
        keys::keys(ui.ctx(), &view, papers, &mut wished);
        if wishes.is_empty() {
            wishes = wished;
        }
    });
    let screen = ctx.viewport_rect();
    paint(desk, &mut drawn, screen, &mut painting);
    let asked = drawn.viewport_output.get(&egui::ViewportId::ROOT).map(|view| view.repaint_delay);
    // What was wished for is seen in the next frame, so that comes at once.
    desk.again = !wishes.is_empty();
    **output = Some(drawn);
    desk.drew = true;
    for wish in wishes {
        desk.session.command(wish);
    }
    if desk.session.wants_to_quit() {
        exit.write(AppExit::Success);
    }
    let rest = desk.session.may_rest();
    desk.pace.draw(rest, asked.unwrap_or(Duration::MAX));
    desk.count();
    Ok(())
}

/// Leave in the frame's output what of it has to be painted.
fn paint(desk: &mut Desk, drawn: &mut egui::FullOutput, screen: egui::Rect, painting: &mut Painting) {
    let letters = !drawn.textures_delta.is_empty();
    if letters {
        desk.settling = desk.settling.max(SETTLING);
    }
    if desk.settling > 0 || desk.points != drawn.pixels_per_point {
        desk.settling = desk.settling.saturating_sub(1);
        desk.canvas.forget();
        desk.points = drawn.pixels_per_point;
    }
    let shapes = std::mem::take(&mut drawn.shapes);
    let changed = desk.canvas.turn_to(shapes, screen, desk.session.theme().panel);
    if changed.is_some() || letters || desk.pace.must_show() {
        painting.ask();
        desk.pace.show();
    }
    drawn.shapes = changed.unwrap_or_default();
}

/// Fonts once, colours when the theme changes.
fn dress(desk: &mut Desk, ctx: &egui::Context) {
    let dark = desk.session.theme().dark;
    if desk.dressed.is_none() {
        ctx.set_fonts(fonts::definitions());
    }
    if desk.dressed != Some(dark) {
        desk.session.theme().apply(ctx);
        desk.dressed = Some(dark);
    }
}

/// Wake as often as frames are due, and at once when one is wanted now.
fn set_pace(desk: Res<Desk>, mut settings: ResMut<WinitSettings>, mut redraw: MessageWriter<RequestRedraw>) {
    let wait = if desk.shown.is_none() { Duration::from_millis(1) } else { desk.pace.wait() };
    if desk.hurries() {
        redraw.write(RequestRedraw);
    }
    // Input comes by the window's own events; the raw ones of a mouse would only wake it twice.
    let mode = UpdateMode::reactive_low_power(wait);
    if settings.focused_mode != mode || settings.unfocused_mode != mode {
        settings.focused_mode = mode;
        settings.unfocused_mode = mode;
    }
}
