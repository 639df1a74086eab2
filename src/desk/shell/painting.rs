//! What the desk needs of the renderer: one pass that paints egui's shapes over the picture that stands, one that hands
//! the picture to the window, and neither while the picture stays as it is.

use bevy::camera::ClearColorConfig;
use bevy::core_pipeline::upscaling::upscaling;
use bevy::ecs::schedule::{
    InternedScheduleLabel, ScheduleBuildSettings, ScheduleLabel, Schedules, SingleThreadedExecutor,
};
use bevy::prelude::*;
use bevy::render::camera::CameraRenderGraph;
use bevy::render::{RenderApp, RenderScheduleOrder};
use bevy::shader::Shader;
use bevy_egui::render::{EGUI_SHADER_HANDLE, egui_pass, prepare_egui_pass};

/// The passes of the desk. Bevy's own list for two dimensions clears a depth buffer that nothing here reads.
#[derive(ScheduleLabel, Debug, Hash, PartialEq, Eq, Clone, Default)]
struct DeskPasses;

/// Is this update painted?
#[derive(Resource, Debug, Default)]
pub struct Painting(bool);

impl Painting {
    /// Paint this update.
    pub fn ask(&mut self) {
        self.0 = true;
    }
}

/// Paint through [`DeskPasses`], and only when asked to.
pub fn plugin(app: &mut App) {
    app.init_resource::<Painting>();
    let ours = Shader::from_wgsl(include_str!("egui.wgsl"), "src/desk/shell/egui.wgsl");
    let mut shaders = app.world_mut().resource_mut::<Assets<Shader>>();
    if let Err(problem) = shaders.insert(&EGUI_SHADER_HANDLE, ours) {
        // Theirs paints the same, more slowly.
        warn!("the desk's shader was not taken: {problem}");
    }
    let Some(render) = app.get_sub_app_mut(RenderApp) else { return };
    let mut passes = Schedule::new(DeskPasses);
    passes.set_build_settings(ScheduleBuildSettings { auto_insert_apply_deferred: false, ..default() });
    passes.add_systems((prepare_egui_pass, egui_pass, upscaling).chain());
    render.add_schedule(passes);

    let Some(mut extract) = render.take_extract() else { return };
    let mut order: Vec<InternedScheduleLabel> = Vec::new();
    render.set_extract(move |main, world| {
        let paints = std::mem::take(&mut main.resource_mut::<Painting>().0);
        if let Some(mut now) = world.get_resource_mut::<RenderScheduleOrder>() {
            if !now.labels.is_empty() {
                order = std::mem::take(&mut now.labels);
            }
            if paints {
                now.labels.clone_from(&order);
            }
        }
        if paints {
            extract(main, world);
        }
    });
}

/// The systems of a frame are many and short: handing them from thread to thread costs more than it saves.
pub fn on_one_thread(app: &mut App) {
    let alone = |world: &mut World| {
        for (_, schedule) in world.resource_mut::<Schedules>().iter_mut() {
            schedule.set_executor(SingleThreadedExecutor::new());
        }
    };
    alone(app.world_mut());
    if let Some(render) = app.get_sub_app_mut(RenderApp) {
        alone(render.world_mut());
    }
}

/// The camera that egui paints with. It never clears: what stands is painted over.
pub fn spawn_camera(mut commands: Commands) {
    commands.spawn((
        Camera { clear_color: ClearColorConfig::None, ..default() },
        Projection::Orthographic(OrthographicProjection::default_2d()),
        CameraRenderGraph::new(DeskPasses),
        Msaa::Off,
    ));
}
