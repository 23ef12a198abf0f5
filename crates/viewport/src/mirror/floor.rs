//! The grid: lines at round steps that suit the distance, on the floor, which lies where a person has set it; seen from a
//! side in the plane of that side, behind everything.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::math::Mat3;
use bevy::prelude::*;
use elbowroom_geometry::Vector3;
use elbowroom_workbench::{ViewFrom, palette};

use super::Shadow;
use super::shapes::Shapes;
use crate::Desk;
use crate::camera::Eye;
use crate::look::{Floor, FloorUniform, Paints, linear, opacity};
use crate::place::{SceneOrigin, direction};

/// The floor is drawn as far as this many distances from the focus.
const PATCH: f64 = 3.0;
/// Fine lines are this far apart at least, as a share of the distance.
const FINE: f64 = 1.0 / 24.0;
/// How strong fine lines, coarse lines and axes are: the floor is to be seen, not looked at.
const STRENGTH: (f32, f32, f32) = (0.55, 0.8, 0.45);
/// The plane of a side lies this many distances behind the focus, so that no line of it runs over the tube. Seen in
/// parallel it looks the same wherever it lies.
const BEHIND: f64 = 20.0;

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

/// The step of the lines of the grid that are seen best from a distance, mm.
pub fn seen_step_mm(distance_mm: f64) -> f64 {
    let (step_mm, faded) = steps(distance_mm);
    if faded < 0.5 { step_mm } else { 10.0 * step_mm }
}

/// The plane that the grid lies in: its two directions and the direction from it to the eye, the world's axes.
fn plane_of(side: Option<ViewFrom>) -> [Vector3<f64>; 2] {
    match side {
        Some(ViewFrom::Front | ViewFrom::Back) => [Vector3::x(), Vector3::z()],
        Some(ViewFrom::Left | ViewFrom::Right) => [Vector3::y(), Vector3::z()],
        Some(ViewFrom::Top | ViewFrom::Bottom | ViewFrom::Isometric) | None => [Vector3::x(), Vector3::y()],
    }
}

/// Makes the grid follow the eye and the floor.
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
    let floor_mm = desk.0.system().floor().mm();
    let side = eye.side();
    let [along, upward] = plane_of(side);
    let radius_mm = (PATCH * eye.distance_mm).max(3.0 * shadow.reach_mm).min(40.0 * eye.distance_mm);
    let mut middle = eye.focus;
    if side.is_some() {
        middle -= eye.back() * (BEHIND * eye.distance_mm);
    } else {
        middle.z = floor_mm;
    }
    let middle = origin.point(&middle);
    let axes = [along, upward, along.cross(&upward)].map(|axis| direction(&axis));
    let wanted = Transform {
        translation: middle,
        rotation: Quat::from_mat3(&Mat3::from_cols(axes[0], axes[1], axes[2])),
        scale: Vec3::new(radius_mm as f32, radius_mm as f32, 1.0),
    };
    transform.set_if_neq(wanted);
    let (step_mm, faded) = steps(eye.distance_mm);
    // The world's origin may lie far away; a whole number of coarse steps nearer it, the lines are the same. The strong
    // lines are then out of sight.
    let coarse_mm = 10.0 * step_mm;
    let near = |from_mm: f64| {
        if from_mm.abs() <= 100.0 * radius_mm { from_mm } else { from_mm.rem_euclid(coarse_mm) }
    };
    // The strong lines are the axes; from a side the lower one is the floor.
    let strong = |axis: &Vector3<f64>| {
        let at_mm = if *axis == Vector3::z() { floor_mm } else { 0.0 };
        at_mm - origin.0.coords.dot(axis)
    };
    let strong = [strong(&along), strong(&upward)];
    let axes_seen = strong.iter().all(|at_mm| at_mm.abs() <= 100.0 * radius_mm);
    let colours = palette(desk.0.screen().theme);
    let [u, v] = [along, upward].map(|axis| near(-origin.0.coords.dot(&axis)) as f32);
    let uniform = FloorUniform {
        fine: linear(colours.grid, STRENGTH.0 * opacity(colours.grid)),
        coarse: linear(colours.grid_strong, STRENGTH.1 * opacity(colours.grid_strong)),
        axis: linear(colours.axis, if axes_seen { STRENGTH.2 * opacity(colours.axis) } else { 0.0 }),
        place: Vec4::new(u, v, step_mm as f32, faded as f32),
        patch: middle.extend(radius_mm as f32),
        along: axes[0].extend(strong[0] as f32),
        upward: axes[1].extend(strong[1] as f32),
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
    fn the_grid_lies_in_the_plane_of_the_side_that_one_looks_from() {
        use crate::camera::Eye;

        for from in [ViewFrom::Front, ViewFrom::Back, ViewFrom::Left, ViewFrom::Right, ViewFrom::Top, ViewFrom::Bottom]
        {
            let eye = Eye::default().looking_from(from);
            for axis in plane_of(eye.side()) {
                assert!(axis.dot(&eye.back()).abs() < 1e-12, "{from:?}: {axis:?} is not in the picture");
            }
        }
        let free = Eye::default().looking_from(ViewFrom::Front).orbited(0.1, 0.0);
        assert_eq!(plane_of(free.side()), [Vector3::x(), Vector3::y()], "freely seen it is the floor");
    }
}
