//! The engine's camera follows the eye, and draws into the scene's part of the window alone.

use bevy::camera::{CameraOutputMode, ScalingMode, Viewport};
use bevy::core_pipeline::tonemapping::{DebandDither, Tonemapping};
use bevy::math::Mat3;
use bevy::prelude::*;
use bevy::render::renderer::RenderAdapterInfo;
use bevy::window::PrimaryWindow;
use elbowroom_workbench::palette;
use wgpu_types::DeviceType;

use super::{Eye, FIELD_OF_VIEW_RAD, Lens};
use crate::place::{SceneOrigin, direction};
use crate::{Desk, SceneArea};

/// The nearest thing that perspective draws, as a share of the distance to the focus.
const NEAR: f32 = 0.02;
/// The farthest thing that is drawn, in distances to the focus.
const FAR: f32 = 60.0;

/// The camera of the scene.
#[derive(Component)]
pub struct SceneCamera;

/// Spawns the camera; the cheap look where the graphics adapter is a processor.
pub fn spawn_camera(mut commands: Commands, adapter: Option<Res<RenderAdapterInfo>>) {
    let cheap = adapter.is_none_or(|adapter| adapter.device_type == DeviceType::Cpu);
    commands.spawn((
        Name::new("scene"),
        SceneCamera,
        Camera3d::default(),
        Camera { order: 0, is_active: false, output_mode: CameraOutputMode::default(), ..default() },
        if cheap { Msaa::Off } else { Msaa::Sample4 },
        Tonemapping::None,
        DebandDither::Disabled,
    ));
}

/// Puts the camera where the eye is.
#[allow(clippy::type_complexity, reason = "a query names each component it touches")]
pub fn place_camera(
    eye: Res<Eye>,
    area: Res<SceneArea>,
    origin: Res<SceneOrigin>,
    desk: Res<Desk>,
    window: Option<Single<&Window, With<PrimaryWindow>>>,
    camera: Option<Single<(&mut Transform, &mut Projection, &mut Camera), With<SceneCamera>>>,
    mut placed: Local<Option<(Eye, SceneOrigin, SceneArea, UVec2, f32)>>,
) {
    let (Some(window), Some(camera)) = (window, camera) else { return };
    let (mut transform, mut projection, mut camera) = camera.into_inner();
    let background = palette(desk.0.screen().theme).scene_background.rgb();
    let background = Color::srgb_u8(background[0], background[1], background[2]);
    if !matches!(camera.clear_color, ClearColorConfig::Custom(old) if old == background) {
        camera.clear_color = ClearColorConfig::Custom(background);
    }
    let window_size = window.physical_size();
    let now = (*eye, *origin, *area, window_size, window.scale_factor());
    if placed.replace(now) == Some(now) {
        return;
    }
    let viewport = viewport(&area, window_size, window.scale_factor());
    camera.is_active = viewport.is_some();
    camera.viewport = viewport;
    *transform = Transform { translation: origin.point(&eye.position()), rotation: rotation(&eye), scale: Vec3::ONE };
    let distance = eye.distance_mm as f32;
    *projection = match eye.lens {
        Lens::Perspective => Projection::Perspective(PerspectiveProjection {
            fov: FIELD_OF_VIEW_RAD as f32,
            near: distance * NEAR,
            far: distance * FAR,
            aspect_ratio: area.size.x / area.size.y.max(1.0),
            near_clip_plane: Vec4::new(0.0, 0.0, -1.0, -distance * NEAR),
        }),
        Lens::Parallel => Projection::Orthographic(OrthographicProjection {
            near: -distance * FAR,
            far: distance * FAR,
            scaling_mode: ScalingMode::FixedVertical { viewport_height: 2.0 * eye.half_height_mm() as f32 },
            ..OrthographicProjection::default_3d()
        }),
    };
}

/// The turn of the eye: x to the right, y up, z back.
fn rotation(eye: &Eye) -> Quat {
    let [right, up, back] = [eye.right(), eye.up(), eye.back()].map(|axis| direction(&axis));
    Quat::from_mat3(&Mat3::from_cols(right, up, back)).normalize()
}

/// The scene's area in physical pixels, cut to the window; `None` where nothing is left of it.
fn viewport(area: &SceneArea, window: UVec2, scale: f32) -> Option<Viewport> {
    let low = (area.min * scale).round().max(Vec2::ZERO).as_uvec2().min(window);
    let high = ((area.min + area.size) * scale).round().max(Vec2::ZERO).as_uvec2().min(window);
    let size = high.saturating_sub(low);
    (size.x > 0 && size.y > 0).then_some(Viewport { physical_position: low, physical_size: size, depth: 0.0..1.0 })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn the_viewport_is_in_physical_pixels_and_within_the_window() {
        let area = SceneArea { min: Vec2::new(10.0, 30.0), size: Vec2::new(400.0, 300.0), ..default() };
        let viewport_at =
            |window, scale| viewport(&area, window, scale).map(|v| (v.physical_position, v.physical_size));
        let whole = viewport_at(UVec2::new(900, 800), 1.5);
        assert_eq!(whole, Some((UVec2::new(15, 45), UVec2::new(600, 450))));
        let cut = viewport_at(UVec2::new(200, 100), 1.0);
        assert_eq!(cut, Some((UVec2::new(10, 30), UVec2::new(190, 70))));
        assert_eq!(viewport_at(UVec2::new(5, 5), 1.0), None);
    }

    #[test]
    fn the_camera_looks_the_way_the_eye_does() {
        let eye = Eye::default();
        assert!((rotation(&eye) * Vec3::NEG_Z + direction(&eye.back())).length() < 1e-6);
        assert!((rotation(&eye) * Vec3::Y - direction(&eye.up())).length() < 1e-6);
    }
}
