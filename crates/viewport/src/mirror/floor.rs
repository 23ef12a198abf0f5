//! The floor grid: lines at round steps that suit the distance, at height zero or as low as the tube reaches.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use elbowroom_workbench::palette;

use super::shapes::Shapes;
use super::{Others, Shadow};
use crate::Desk;
use crate::camera::Eye;
use crate::look::{Floor, FloorUniform, Paints, linear, opacity};
use crate::place::SceneOrigin;

/// The floor is drawn as far as this many distances from the focus.
const PATCH: f64 = 3.0;
/// Fine lines are this far apart at least, as a share of the distance.
const FINE: f64 = 1.0 / 24.0;
/// How strong fine lines, coarse lines and axes are: the floor is to be seen, not looked at.
const STRENGTH: (f32, f32, f32) = (0.55, 0.8, 0.45);
/// A tube higher above zero than this many times its own reach gets its floor right below it.
const FAR_REACHES: f64 = 20.0;

/// The height of the floor for a tube whose lowest skin is at `lowest_mm`: zero, or lower where the tube reaches lower,
/// so that no line runs over it.
fn height_mm(lowest_mm: f64, reach_mm: f64) -> f64 {
    if !lowest_mm.is_finite() || (0.0..=FAR_REACHES * reach_mm + 1e4).contains(&lowest_mm) { 0.0 } else { lowest_mm }
}

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
    others: Res<Others>,
    paints: Res<Paints>,
    mut floors: ResMut<Assets<Floor>>,
    floor: Option<Single<&mut Transform, With<FloorGrid>>>,
    mut height: Local<Option<f64>>,
) {
    let Some(mut transform) = floor else { return };
    // The floor keeps still while something is dragged.
    if !desk.0.previewing() || height.is_none() {
        let lowest_mm = shadow.lowest_mm - shadow.od_mm / 2.0;
        let lowest_mm = others.lowest_mm.map_or(lowest_mm, |other_mm| other_mm.min(lowest_mm));
        *height = Some(height_mm(lowest_mm, shadow.reach_mm));
    }
    let radius_mm = (PATCH * eye.distance_mm).max(3.0 * shadow.reach_mm).min(40.0 * eye.distance_mm);
    let mut middle = eye.focus;
    middle.z = height.unwrap_or(0.0);
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
        fine: linear(colours.grid, STRENGTH.0 * opacity(colours.grid)),
        coarse: linear(colours.grid_strong, STRENGTH.1 * opacity(colours.grid_strong)),
        axis: linear(colours.axis, if axes_seen { STRENGTH.2 * opacity(colours.axis) } else { 0.0 }),
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
        let rows = [(24.0, 1.0, 0.0), (240.0, 10.0, 0.0), (24.0 * 31.6228, 10.0, 0.5), (2399.0, 10.0, 1.0)];
        for (distance_mm, step_mm, faded) in rows {
            let (step, fade) = steps(distance_mm);
            assert!((step - step_mm).abs() < 1e-9 && (fade - faded).abs() < 1e-3, "{distance_mm}: {step} {fade}");
        }
    }

    #[test]
    fn the_floor_lies_at_zero_or_below_the_tube() {
        let rows = [(300.0, 0.0), (-25.0, -25.0), (f64::INFINITY, 0.0), (5e7, 5e7), (-5e7, -5e7)];
        for (lowest, height) in rows {
            assert_eq!(height_mm(lowest, 900.0), height, "{lowest}");
        }
    }
}
