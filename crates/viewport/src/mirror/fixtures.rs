//! What stands on the tube: handles, rings at the ends of stops, cut faces, and the clamp of the selected bend.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::platform::collections::HashMap;
use bevy::prelude::*;
use elbowroom_bending::{NodeId, Numbering, Part, Severity, Solved};
use elbowroom_geometry::{Frame, HandleId};
use elbowroom_workbench::{Selection, Target};

use super::Shadow;
use super::fixture::Fixture;
use super::hidden::SmallMarks;
use super::shapes::Shapes;
use crate::camera::{Eye, View};
use crate::look::{Lit, Paint, Paints, Wearer};
use crate::pick::{CROWD, Knob, Knobs};
use crate::place::{SceneOrigin, turn};
use crate::{Desk, SceneArea};

/// Radius of a handle, logical pixels.
const HANDLE_PIXELS: f64 = 7.0;
/// Radius of a handle that is a ring, logical pixels.
const HOLLOW_PIXELS: f64 = 10.5;
/// The side of the block that stands where a place is held, in radii of a handle: as large as the handle, and no ball.
const PIN_RADII: f64 = 1.75;
/// Length and thickness of the rod along a direction that is held, in radii of a handle.
const COURSE_RADII: (f64, f64) = (7.0, 0.6);
/// The clamp block is drawn this much thicker than the tube. The clamp's true outside is not known to the shop file.
const BLOCK_DIAMETERS: f64 = 1.45;

/// More rings than this are a crowd: each is a collar and its line.
const MOST_RINGS: usize = CROWD / 2;
/// A ring at the end of a stop is so long and stands out so far: the first in diameters, or in logical pixels where that
/// is more, so that it is seen however far away the tube is.
const RING_LENGTH: (f64, f64) = (0.16, 7.0);
/// See [`RING_LENGTH`].
const RING_RISE: (f64, f64) = (0.06, 2.5);
/// The bright line along a ring takes this share of its length, and lies over it by this share of its radius.
const RING_LINE: (f64, f64) = (0.36, 0.02);

/// A fixture as it should be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// What it is.
    pub fixture: Fixture,
    /// Where it is, and how large.
    pub transform: Transform,
    /// How it is painted.
    pub wearer: Wearer,
}

/// Makes the fixtures follow part, selection, pointer and eye.
#[allow(clippy::too_many_arguments, clippy::type_complexity, reason = "a system names each resource it touches")]
pub fn follow_fixtures(
    desk: Res<Desk>,
    shadow: Res<Shadow>,
    eye: Res<Eye>,
    area: Res<SceneArea>,
    origin: Res<SceneOrigin>,
    paints: Res<Paints>,
    knobs: Res<Knobs>,
    mut shapes: ResMut<Shapes>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut commands: Commands,
    mut fixtures: Query<(Entity, &Fixture, &mut Transform, &mut MeshMaterial3d<Paint>)>,
) {
    let (part, solved) = (desk.0.part(), desk.0.solved());
    shapes.fit_face(part.tube.wall.mm() / part.tube.od.mm(), &mut meshes);
    let view = View::new(&eye, &area);
    let mut wanted = on_tube(part, solved, &shadow, desk.0.selection(), &origin);
    wanted.extend(rings(part, solved, &shadow, view.as_ref(), &origin));
    if let Some(view) = view {
        let small = SmallMarks::of(&shadow.marks, solved, &view);
        let lit = |target| lit(target, desk.0.selection(), desk.0.hover());
        wanted.extend(handles(knobs.shown(), (part, solved), lit, &small, &view, &origin));
    }
    let mut old: HashMap<Fixture, Entity> = fixtures.iter().map(|(entity, fixture, ..)| (*fixture, entity)).collect();
    for Wanted { fixture, transform, wearer } in wanted {
        let paint = paints.of(wearer);
        if let Some((_, _, mut placed, mut worn)) =
            old.remove(&fixture).and_then(|entity| fixtures.get_mut(entity).ok())
        {
            placed.set_if_neq(transform);
            if worn.0 != paint {
                worn.0 = paint;
            }
        } else {
            commands.spawn((fixture, Mesh3d(shapes.of(fixture)), MeshMaterial3d(paint), transform, NoFrustumCulling));
        }
    }
    for entity in old.into_values() {
        commands.entity(entity).despawn();
    }
}

/// The handles, as large on the screen wherever they are.
fn handles(
    knobs: &[Knob],
    (part, solved): (&Part, &Solved),
    lit: impl Fn(Target) -> Lit,
    small: &SmallMarks,
    view: &View,
    origin: &SceneOrigin,
) -> Vec<Wanted> {
    let nodes = &solved.nodes;
    let wanted = knobs.iter().filter_map(|knob| {
        // A mark that would hide below the handle is seen through it.
        let hollow = view.project(&knob.at).is_some_and(|at| small.any_near(at, HANDLE_PIXELS as f32));
        let radius = if hollow { HOLLOW_PIXELS } else { HANDLE_PIXELS } * view.pixel_mm(&knob.at)?;
        let lit = lit(knob.target);
        let larger = if lit == Lit::Plain { 1.0 } else { 1.25 };
        let transform =
            Transform::from_translation(origin.point(&knob.at)).with_scale(Vec3::splat((radius * larger) as f32));
        let (target, wearer) = (knob.target.named(nodes), Wearer::Handle(lit, hollow));
        let hold = part.keep.of(place_of(knob.target, nodes));
        let side = Vec3::splat((radius * larger * PIN_RADII) as f32);
        let knob_or_pin = if hold.place {
            Wanted { fixture: Fixture::Pin(target), transform: transform.with_scale(side), wearer }
        } else {
            Wanted { fixture: Fixture::Knob(target), transform, wearer }
        };
        let courses = if hold.direction { courses(knob.target, solved) } else { Vec::new() };
        let rods = courses.into_iter().map(move |(goes_out, direction)| {
            let (length, thickness) = ((radius * COURSE_RADII.0) as f32, (radius * COURSE_RADII.1) as f32);
            let rotation = Quat::from_rotation_arc(Vec3::X, direction);
            let transform = Transform { rotation, scale: Vec3::new(length, thickness, thickness), ..transform };
            Wanted { fixture: Fixture::Course(target, goes_out), transform, wearer }
        });
        Some(std::iter::once(knob_or_pin).chain(rods).collect::<Vec<_>>())
    });
    wanted.flatten().collect()
}

/// The place of the path at which a handle stands.
fn place_of(target: Target, nodes: &Numbering) -> NodeId {
    match target {
        Target::Handle(HandleId::Start) => nodes.start(),
        Target::Handle(HandleId::Finish) => nodes.finish(),
        Target::Vertex(vertex) => nodes.vertex(vertex),
        other => other.bend().map_or(NodeId::NOWHERE, |bend| nodes.bend(bend)),
    }
}

/// The directions in which the tube comes in and goes out at a handle, as far as it does.
fn courses(target: Target, solved: &Solved) -> Vec<(bool, Vec3)> {
    let line = &solved.centreline;
    let tangent = |frame: Frame| {
        let [x, y, z] = frame.tangent.into();
        Vec3::new(x as f32, y as f32, z as f32).normalize_or(Vec3::X)
    };
    match target {
        Target::Handle(HandleId::Start) => line.straight(0).map(|leg| (true, tangent(leg.start))).into_iter().collect(),
        Target::Handle(HandleId::Finish) => vec![(false, tangent(line.end()))],
        other => {
            let arc = other.bend().and_then(|bend| line.arc(bend));
            arc.map(|arc| vec![(false, tangent(arc.start)), (true, tangent(arc.end()))]).unwrap_or_default()
        }
    }
}

/// How a handle is lit up.
fn lit(target: Target, selection: &Selection, hover: Option<Target>) -> Lit {
    if is_selected(target, selection) {
        Lit::Selected
    } else if hover == Some(target) {
        Lit::Hovered
    } else {
        Lit::Plain
    }
}

/// Whether a handle is selected, by itself or with its bend.
fn is_selected(target: Target, selection: &Selection) -> bool {
    let with_bend = |handle: HandleId| handle.bend().is_some_and(|bend| selection.contains(Target::Bend(bend)));
    selection.contains(target) || matches!(target, Target::Handle(handle) if with_bend(handle))
}

/// Across the tube at a frame, as large as the tube.
fn across(part: &Part, frame: &Frame, origin: &SceneOrigin) -> Transform {
    let radius = part.tube.od.mm() / 2.0;
    Transform { translation: origin.point(&frame.origin), rotation: turn(frame), scale: Vec3::splat(radius as f32) }
}

/// A ring at each end of every stop; of a crowd of them those in the picture, unless they crowd there too: on a tube
/// that is seen so small its colour and pattern are what tells a stop.
fn rings(part: &Part, solved: &Solved, shadow: &Shadow, view: Option<&View>, origin: &SceneOrigin) -> Vec<Wanted> {
    let stops = || shadow.marks.iter().filter(|mark| mark.severity == Severity::Stop).enumerate();
    let is_crowd = stops().nth(MOST_RINGS / 2).is_some();
    let is_seen = |frame: &Frame| {
        !is_crowd || view.is_some_and(|view| view.project(&frame.origin).is_some_and(|at| view.has(at)))
    };
    let ends = stops().flat_map(|(number, mark)| [(number, false, mark.from_mm), (number, true, mark.to_mm)]);
    let rings = ends.map(|(number, end, station_mm)| (number, end, solved.centreline.frame_at(station_mm)));
    let od_mm = part.tube.od.mm();
    let wanted = rings.filter(|(.., frame)| is_seen(frame)).map(|(number, end, frame)| {
        let pixel_mm = view.and_then(|view| view.pixel_mm(&frame.origin)).unwrap_or(0.0);
        let size = |(diameters, pixels): (f64, f64)| (diameters * od_mm).max(pixels * pixel_mm);
        let (length_mm, radius_mm) = (size(RING_LENGTH), od_mm / 2.0 + size(RING_RISE));
        let collar = |fixture, wearer, length_mm: f64, radius_mm: f64| {
            let scale = Vec3::new(length_mm as f32, radius_mm as f32, radius_mm as f32);
            let transform = Transform { translation: origin.point(&frame.origin), rotation: turn(&frame), scale };
            Wanted { fixture, transform, wearer }
        };
        let (line, over) = RING_LINE;
        [
            collar(Fixture::Ring(number, end), Wearer::Ring, length_mm, radius_mm),
            collar(Fixture::RingLine(number, end), Wearer::RingLine, line * length_mm, (1.0 + over) * radius_mm),
        ]
    });
    let wanted: Vec<[Wanted; 2]> = wanted.take(if is_crowd { MOST_RINGS + 1 } else { usize::MAX }).collect();
    if is_crowd && wanted.len() > MOST_RINGS { Vec::new() } else { wanted.into_iter().flatten().collect() }
}

/// Faces and the clamp.
fn on_tube(part: &Part, solved: &Solved, shadow: &Shadow, selection: &Selection, origin: &SceneOrigin) -> Vec<Wanted> {
    let mut wanted = Vec::new();
    if !shadow.has_skin() {
        return wanted;
    }
    let (first_mm, last_mm) = solved.centreline.stations_mm();
    for (end, station_mm) in [(false, first_mm), (true, last_mm)] {
        let transform = across(part, &solved.centreline.frame_at(station_mm), origin);
        wanted.push(Wanted { fixture: Fixture::Face(end), transform, wearer: Wearer::EndFace });
    }
    if let Some((frame, size)) = clamp_block(part, solved, selection) {
        let transform = Transform { translation: origin.point(&frame.origin), rotation: turn(&frame), scale: size };
        wanted.push(Wanted { fixture: Fixture::Clamp, transform, wearer: Wearer::Clamp });
    }
    wanted
}

/// The clamp of the selected bend: the frame at its middle, and its size along, towards and across. The clamp lies along
/// the straight up to which the bend is made in its full length, whatever the tube does below it.
pub fn clamp_block(part: &Part, solved: &Solved, selection: &Selection) -> Option<(Frame, Vec3)> {
    let bend = selection.bend()?;
    let clamp = solved.bends.get(bend)?.clamp.as_ref()?;
    let made_from = solved.made_from(bend)?;
    let thick = (part.tube.od.mm() * BLOCK_DIAMETERS) as f32;
    Some((made_from.advanced(-clamp.length_mm / 2.0), Vec3::new(clamp.length_mm as f32, thick, thick)))
}
