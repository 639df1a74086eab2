//! The Bevy shell: window, frames, screenshots. Everything the person sees is drawn by the panels; this
//! only brings wall time and input in and pictures out.

mod display;
#[cfg(all(unix, not(target_os = "macos")))]
mod focus;
mod frame;
mod leaving;
mod pace;
mod painting;
mod picture;

use std::path::PathBuf;
use std::process::ExitCode;
use std::time::Instant;

use bevy::app::TerminalCtrlCHandlerPlugin;
use bevy::log::LogPlugin;
use bevy::prelude::*;
use bevy::render::RenderPlugin;
use bevy::window::{PresentMode, WindowPlugin, WindowResolution};
use bevy::winit::WinitSettings;
use bevy_egui::{EguiContextSettings, EguiPlugin, EguiStartupSet};

use super::kept::Keeping;
use super::{Command, Screen, Session, demo, shelf};

/// What the desk is asked to do at its start.
#[derive(Clone, Debug, Default)]
pub struct DeskOptions {
    /// Id of an embedded scenario or path of a file; the healthy car when left out.
    pub scenario: Option<String>,
    /// Save a picture of the window here, then leave.
    pub screenshot: Option<PathBuf>,
    /// When the picture is taken, counted from the first frame [s].
    pub after_s: f64,
}

/// Bevy's own log: warnings and worse, and nothing from the graphics layers, which warn of plain facts.
const LOG_FILTER: &str = "warn,bevy_render=error,bevy_winit=error,bevy_egui=error,wgpu=off,wgpu_core=off,wgpu_hal=off,naga=off,\
     calloop=off,winit=off,sctk=off";

/// Open the desk and stay until the person leaves. Exit codes: 0 left, 1 something went wrong, 2 no
/// display, no graphics adapter or no such scenario.
pub fn run(options: DeskOptions) -> ExitCode {
    let started = Instant::now();
    // A broken file never stops the program: its reason is printed, and the desk opens on the list.
    let (scenario, broken) = match options.scenario.as_deref().map(shelf::open).transpose() {
        Ok(scenario) => (scenario.unwrap_or_else(demo::scenario), None),
        Err(reason) => (demo::scenario(), Some(reason)),
    };
    if let Some(reason) = &broken {
        eprintln!("{reason}");
    }
    let place = Keeping::of_account();
    let has_kept = place.has_any();
    let mut session = match Session::new(&scenario, place) {
        Ok(session) => session,
        Err(reason) => return refuse(&reason),
    };
    if let Some(reason) = broken {
        session.begin_at_list(reason);
    } else if has_kept && options.scenario.is_none() {
        // Whoever has worked before finds that work first.
        session.command(Command::Show(Screen::Start));
    }
    if let Err(reason) = display::reachable() {
        return refuse(&display::message(&reason));
    }
    display::explain_failures_before_first_frame();
    match app(session, options, started).run() {
        AppExit::Success => ExitCode::SUCCESS,
        AppExit::Error(code) => ExitCode::from(code.get()),
    }
}

fn refuse(reason: &str) -> ExitCode {
    eprintln!("pintle: {reason}");
    ExitCode::from(2)
}

fn app(session: Session, options: DeskOptions, started: Instant) -> App {
    let window = Window {
        title: "Pintle".into(),
        name: Some("pintle".into()),
        resolution: WindowResolution::new(1366, 768),
        resize_constraints: WindowResizeConstraints { min_width: 1024.0, min_height: 600.0, ..default() },
        present_mode: PresentMode::AutoVsync,
        ..default()
    };
    let filter = std::env::var("RUST_LOG").unwrap_or_else(|_| LOG_FILTER.into());
    let mut app = App::new();
    app.add_plugins(
        DefaultPlugins
            .set(WindowPlugin { primary_window: Some(window), close_when_requested: false, ..default() })
            // The first frame is then a whole frame, and leaving cannot cut a compilation short.
            .set(RenderPlugin { synchronous_pipeline_compilation: true, ..default() })
            .set(LogPlugin { filter, ..default() })
            // Signals go the way of Ctrl+Q (`leaving.rs`).
            .disable::<TerminalCtrlCHandlerPlugin>(),
    )
    .add_plugins(EguiPlugin { bindless_mode_array_size: None })
    .insert_resource(WinitSettings::game())
    .insert_resource(frame::Desk::new(session, started))
    .add_systems(
        PreStartup,
        (
            painting::spawn_camera.before(EguiStartupSet::InitContexts),
            run_egui_by_hand.after(EguiStartupSet::InitContexts),
        ),
    );
    painting::plugin(&mut app);
    frame::plugin(&mut app);
    leaving::plugin(&mut app);
    #[cfg(all(unix, not(target_os = "macos")))]
    focus::plugin(&mut app);
    if let Some(path) = options.screenshot {
        picture::plugin(&mut app, path, options.after_s);
    }
    painting::on_one_thread(&mut app);
    app
}

/// Panels need a root `Ui`, which only `Context::run_ui` gives (emilk/egui issue 8535).
fn run_egui_by_hand(mut settings: Query<&mut EguiContextSettings>) -> Result {
    settings.single_mut()?.run_manually = true;
    Ok(())
}
