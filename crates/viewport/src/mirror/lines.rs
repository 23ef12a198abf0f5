//! Thin lines: from the tangent points of a bend to its vertex, the edges of the clamp block, the way of a drag.

use bevy::prelude::*;
use elbowroom_bending::Solved;
use elbowroom_bending::around::{Clearance, Gap};
use elbowroom_geometry::{HandleId, Point3, Vector3};
use elbowroom_workbench::{Colour, Target, palette};

use super::clamp_block;
use crate::Desk;
use crate::camera::Eye;
use crate::input::Hand;
use crate::pick::Knobs;
use crate::place::{SceneOrigin, turn};

/// Room that is told even where none is wanted, such as between tubes, mm.
const NEAR_MM: f64 = 10.0;

/// The lines of the scene.
#[derive(Default, Reflect, GizmoConfigGroup)]
pub struct SceneLines;

/// Lines that are seen through everything.
#[derive(Default, Reflect, GizmoConfigGroup)]
pub struct LinesOnTop;

/// Lines thinner than the engine's own.
pub fn set_up_lines(mut store: ResMut<GizmoConfigStore>) {
    store.config_mut::<SceneLines>().0.line.width = 1.5;
    let (on_top, _) = store.config_mut::<LinesOnTop>();
    on_top.line.width = 1.5;
    on_top.depth_bias = -1.0;
}

/// Draws the lines of this frame.
pub fn draw_lines(
    mut lines: Gizmos<SceneLines>,
    mut on_top: Gizmos<LinesOnTop>,
    desk: Res<Desk>,
    eye: Res<Eye>,
    origin: Res<SceneOrigin>,
    hand: Res<Hand>,
    knobs: Res<Knobs>,
) {
    let (part, solved) = (desk.0.part(), desk.0.solved());
    let colours = palette(desk.0.screen().theme);
    for knob in knobs.shown() {
        let Target::Handle(HandleId::Vertex(bend)) = knob.target else { continue };
        let Some(arc) = solved.centreline.arc(bend) else { continue };
        let at = origin.point(&knob.at);
        for end in [arc.start, arc.end()].map(|frame| origin.point(&frame.origin)) {
            lines.line(end, at, solid(colours.handle));
        }
    }
    if let Some((frame, size)) = clamp_block(part, solved, desk.0.selection()) {
        let transform = Transform { translation: origin.point(&frame.origin), rotation: turn(&frame), scale: size };
        lines.cube(transform, solid(colours.clamp_block));
        // The clamp's axis over the tube: where it leaves the centreline, the clamp reaches over an arc.
        let half = frame.tangent * f64::from(size.x) / 2.0;
        on_top.line(
            origin.point(&(frame.origin - half)),
            origin.point(&(frame.origin + half)),
            solid(colours.clamp_block),
        );
    }
    if let Some(between) = desk.0.screen().measuring_open.then(|| desk.0.between_measured()).flatten() {
        let [from, to] = [between.from, between.to].map(|point| origin.point(&point));
        on_top.line(from, to, solid(colours.accent));
        let reach = eye.distance_mm as f32 * 0.004;
        for end in [from, to] {
            on_top.sphere(end, reach, solid(colours.accent));
        }
    }
    if let Some((gap, clearance)) = least_room(solved) {
        let missed = clearance.hits() || clearance.missed().is_some();
        let ink = solid(if missed { colours.stop } else { colours.axis });
        on_top.line(origin.point(&gap.on_tube), origin.point(&gap.on_other), ink);
    }
    if let Some(drag) = hand.drag() {
        on_top.line(origin.point(&drag.knob.at), origin.point(&drag.at), solid(colours.handle_hovered));
        if let Some(axis) = drag.keys.constraint.axis() {
            let (from, to) = long_line(&drag.knob.at, &axis, eye.distance_mm);
            lines.line(origin.point(&from), origin.point(&to), solid(colours.axis));
        }
    }
}

/// The gap to what stands around the tube that leaves the least of what is wanted, and not more than four times that.
pub fn least_room(solved: &Solved) -> Option<(&Gap, &Clearance)> {
    let gaps = solved.clearances.iter().filter_map(|clearance| Some((clearance.measured.as_ref().ok()?, clearance)));
    let near = gaps.filter(|(gap, clearance)| gap.least_mm <= 4.0 * clearance.wanted.clearance_mm.max(NEAR_MM));
    near.min_by(|(a, of_a), (b, of_b)| {
        (a.least_mm - of_a.wanted.clearance_mm).total_cmp(&(b.least_mm - of_b.wanted.clearance_mm))
    })
}

/// A line through a point that leaves the picture on both sides.
fn long_line(through: &Point3<f64>, along: &Vector3<f64>, distance_mm: f64) -> (Point3<f64>, Point3<f64>) {
    (through - along * (4.0 * distance_mm), through + along * (4.0 * distance_mm))
}

/// A colour of the theme, without its translucence.
pub fn solid(colour: Colour) -> Color {
    let [red, green, blue] = colour.rgb();
    Color::srgb_u8(red, green, blue)
}
