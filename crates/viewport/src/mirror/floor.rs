//! The floor grid: lines at round steps that suit the distance, at height zero.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use elbowroom_workbench::palette;

use super::Shadow;
use super::shapes::Shapes;
use crate::Desk;
use crate::camera::Eye;
use crate::look::{Floor, FloorUniform, Paints, linear, opacity};
use crate::place::SceneOrigin;

/// The floor is drawn as far as this many distances from the focus.
const PATCH: f64 = 3.0;
/// Fine lines are this far apart at least, as a share of the distance.
const FINE: f64 = 1.0 / 60.0;
/// A tube farther from height zero than this many times its own reach gets its floor right below it.
const FAR_REACHES: f64 = 20.0;

/// The floor.
#[derive(Component)]
pub struct FloorGrid;

/// Spawns the floor.
pub fn spawn_floor(mut commands: Commands, shapes: Res<Shapes>, paints: Res<Paints>) {
    let (mesh, material) = (Mesh3d(shapes.floor.clone()), MeshMaterial3d(paints.floor.clone()));
    commands.spawn((FloorGrid, mesh, material, Transform::IDENTITY, NoFrustumCulling));
}

/// The step of the fine lines for a distance, mm, and how far they have faded, 0 to 1: they fade until the next step,
/// ten times as wide, takes their place.
pub fn steps(distance_mm: f64) -> (f64, f64) {
    let decades = (distance_mm * FINE).max(1e-3).log10();
    let step_mm = 10.0_f64.powf(decades.floor());
    (step_mm, decades - decades.floor())
}

/// Makes the floor follow the eye.
#[allow(clippy::too_many_arguments, reason = "a system names each resource it touches")]
pub fn follow_floor(
    desk: Res<Desk>,
    eye: Res<Eye>,
    origin: Res<SceneOrigin>,
    shadow: Res<Shadow>,
    paints: Res<Paints>,
    mut floors: ResMut<Assets<Floor>>,
    floor: Option<Single<&mut Transform, With<FloorGrid>>>,
) {
    let Some(mut transform) = floor else { return };
    let below_tube = shadow.lowest_mm - shadow.od_mm / 2.0;
    let far = below_tube.is_finite() && below_tube.abs() > FAR_REACHES * shadow.reach_mm + 1e4;
    let height_mm = if far { below_tube } else { 0.0 };
    let radius_mm = (PATCH * eye.distance_mm).max(3.0 * shadow.reach_mm).min(40.0 * eye.distance_mm);
    let mut middle = eye.focus;
    middle.z = height_mm;
    let middle = origin.point(&middle);
    let wanted = Transform::from_translation(middle).with_scale(Vec3::new(radius_mm as f32, radius_mm as f32, 1.0));
    transform.set_if_neq(wanted);
    let (step_mm, faded) = steps(eye.distance_mm);
    // The world's origin may lie far away; a whole number of coarse steps nearer it, the lines are the same. The axes are
    // then out of sight.
    let coarse_mm = 10.0 * step_mm;
    let near = |from_mm: f64| {
        if from_mm.abs() <= 100.0 * radius_mm { from_mm } else { from_mm.rem_euclid(coarse_mm) }
    };
    let axes_seen = origin.0.x.abs().max(origin.0.y.abs()) <= 100.0 * radius_mm;
    let colours = palette(desk.0.screen().theme);
    let uniform = FloorUniform {
        fine: linear(colours.grid, opacity(colours.grid)),
        coarse: linear(colours.grid_strong, opacity(colours.grid_strong)),
        axis: linear(colours.axis, if axes_seen { opacity(colours.axis) } else { 0.0 }),
        place: Vec4::new(near(-origin.0.x) as f32, near(-origin.0.y) as f32, step_mm as f32, faded as f32),
        patch: Vec4::new(middle.x, middle.y, radius_mm as f32, 0.0),
    };
    if floors.get(&paints.floor).is_some_and(|floor| floor.uniform != uniform)
        && let Some(mut floor) = floors.get_mut(&paints.floor)
    {
        floor.uniform = uniform;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_powers_of_ten_that_fade_one_into_the_next() {
        let rows = [(60.0, 1.0, 0.0), (600.0, 10.0, 0.0), (60.0 * 31.6228, 10.0, 0.5), (5999.0, 10.0, 1.0)];
        for (distance_mm, step_mm, faded) in rows {
            let (step, fade) = steps(distance_mm);
            assert!((step - step_mm).abs() < 1e-9 && (fade - faded).abs() < 1e-3, "{distance_mm}: {step} {fade}");
        }
    }
}
