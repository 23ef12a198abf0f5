//! The application put together: plugins, window, systems and their order.

use std::path::PathBuf;
use std::time::Instant;

use bevy::camera::visibility::RenderLayers;
use bevy::camera::{CameraOutputMode, ClearColorConfig};
use bevy::log::LogPlugin;
use bevy::prelude::*;
use bevy::render::RenderPlugin;
use bevy::render::pipelined_rendering::PipelinedRenderingPlugin;
use bevy::render::render_resource::BlendState;
use bevy::render::settings::{Backends, WgpuSettings};
use bevy::window::{ExitCondition, WindowResolution};
use bevy_egui::{
    EguiContextSettings, EguiGlobalSettings, EguiPlugin, EguiPostUpdateSet, EguiPrimaryContextPass, PrimaryEguiContext,
};
use elbowroom_viewport::{
    Compass, Desk, MenuWish, SceneArea, SceneBox, SceneLabels, SceneSigns, Step, ViewWishes, ViewportPlugin, Wishes,
};

use super::dialogs::Dialogs;
use super::{account, input, mishap, opening, panels, redraw, requests, timing, title};

/// The application, ready to run.
pub fn build(file: Option<PathBuf>, started: Instant) -> App {
    let mut app = App::new();
    app.add_plugins(engine());
    app.add_plugins(EguiPlugin { bindless_mode_array_size: None });
    app.insert_resource(timing::Started(started));
    app.insert_resource(redraw::sleep_between_events());
    app.add_plugins((redraw::plugin, timing::plugin));
    let waker = redraw::waker(&app);
    app.insert_resource(Desk(opening::workbench(file, waker)));
    add_systems(&mut app);
    app.add_plugins((ViewportPlugin, account::plugin));
    app
}

/// The engine's plugins. Rendering is not pipelined: it would show every change one frame late.
fn engine() -> bevy::app::PluginGroupBuilder {
    let window = Window {
        title: "Elbowroom".into(),
        name: Some("elbowroom".into()),
        resolution: WindowResolution::new(1440, 900),
        resize_constraints: WindowResizeConstraints { min_width: 800.0, min_height: 560.0, ..default() },
        ..default()
    };
    DefaultPlugins
        .build()
        .disable::<PipelinedRenderingPlugin>()
        .set(LogPlugin { filter: "error".into(), ..default() })
        .set(RenderPlugin { render_creation: graphics().into(), ..default() })
        .set(WindowPlugin {
            primary_window: Some(window),
            exit_condition: ExitCondition::OnPrimaryClosed,
            close_when_requested: false,
            ..default()
        })
}

/// The system's first-rate graphics interface; `WGPU_BACKEND` chooses another.
fn graphics() -> WgpuSettings {
    WgpuSettings { backends: Some(Backends::from_env().unwrap_or(Backends::PRIMARY)), ..default() }
}

/// The window's own resources and systems, without the engine's.
fn add_systems(app: &mut App) {
    app.init_resource::<Wishes>()
        .init_resource::<ViewWishes>()
        .init_resource::<SceneArea>()
        .init_resource::<SceneLabels>()
        .init_resource::<SceneSigns>()
        .init_resource::<Compass>()
        .init_resource::<SceneBox>()
        .init_resource::<MenuWish>()
        .init_resource::<Dialogs>()
        .init_resource::<panels::Typing>()
        .configure_sets(Update, (Step::Input, Step::Perform, Step::Mirror).chain())
        .add_systems(Startup, (set_up, title::fit_to_monitor))
        .add_systems(
            Update,
            (
                (requests::hear, panels::freshen_area).chain().before(Step::Input),
                (requests::wish_for_dropped_files, requests::wish_to_close, requests::wish_for_answered_file)
                    .chain()
                    .after(Step::Input)
                    .before(Step::Perform),
                (requests::perform_wishes, requests::fulfil_requests).chain().in_set(Step::Perform),
            ),
        )
        .add_systems(EguiPrimaryContextPass, panels::show)
        .add_systems(PostUpdate, (panels::dress, input::hear).chain().before(EguiPostUpdateSet::EndPass))
        .add_systems(PostUpdate, (requests::fulfil_requests, title::follow).chain().after(EguiPostUpdateSet::EndPass))
        .add_systems(Last, mishap::now_running);
}

/// The camera that carries the panels: it covers the whole window and draws over the scene's own.
fn set_up(mut commands: Commands, mut settings: ResMut<EguiGlobalSettings>) {
    settings.auto_create_primary_context = false;
    commands.spawn((
        Name::new("panels"),
        PrimaryEguiContext,
        EguiContextSettings { capture_pointer_input: false, ..default() },
        Camera2d,
        Msaa::Off,
        RenderLayers::none(),
        Camera {
            order: 1,
            clear_color: ClearColorConfig::Custom(Color::NONE),
            output_mode: CameraOutputMode::Write {
                blend_state: Some(BlendState::PREMULTIPLIED_ALPHA_BLENDING),
                clear_color: ClearColorConfig::None,
            },
            ..default()
        },
    ));
}

#[cfg(test)]
mod tests {
    use bevy::asset::AssetPlugin;
    use bevy::ecs::schedule::{LogLevel, ScheduleBuildSettings, ScheduleLabel, Schedules};
    use bevy::gizmos::GizmoPlugin;

    use super::*;

    /// Every pair of the program's own systems that touch the same thing has an order. The engine's systems
    /// are not in this application.
    #[test]
    fn the_program_s_systems_have_an_order() {
        let mut app = App::new();
        app.add_plugins((AssetPlugin::default(), GizmoPlugin));
        add_systems(&mut app);
        app.add_plugins((ViewportPlugin, redraw::plugin));
        let labels = [Startup.intern(), PreUpdate.intern(), Update.intern(), PostUpdate.intern(), Last.intern()];
        for label in labels.into_iter().chain([EguiPrimaryContextPass.intern()]) {
            let Some(mut schedule) = app.world_mut().resource_mut::<Schedules>().remove(label) else { continue };
            schedule.set_build_settings(ScheduleBuildSettings { ambiguity_detection: LogLevel::Error, ..default() });
            let built = schedule.initialize(app.world_mut());
            assert!(
                built.is_ok(),
                "{label:?}: {:?}",
                built.err().map(|error| error.to_string(schedule.graph(), app.world()))
            );
        }
    }
}
