//! What the camera is asked to do: frame, look from a side, change the lens.

use bevy::math::Vec2;
use bevy::prelude::*;
use elbowroom_bending::{Part, Path, Solved};
use elbowroom_geometry::{HandleId, Point3};
use elbowroom_workbench::{Selection, Target, ViewCommand, Workbench};

use super::{Eye, View, framed, middle, outline, reach_mm};
use crate::pick::Knobs;
use crate::{Desk, SceneArea, ViewWishes};

/// What is selected is framed with this many diameters of room around it.
const ROOM_DIAMETERS: f64 = 1.5;

/// Beyond both ends there is room for the words that stand there: this share of how far the tube reaches.
const ROOM_FOR_WORDS: f64 = 0.11;

/// Whether the eye frames the whole by itself. It does from the start and after framing, whenever the scene's area
/// changes its shape, until a hand moves the eye.
#[derive(Resource, Default)]
pub struct Framing {
    /// Whether a hand has moved the eye since the whole was framed.
    pub by_hand: bool,
    framed_for: Option<Vec2>,
}

/// Does what the camera is asked to.
pub fn follow_requests(
    desk: Res<Desk>,
    area: Res<SceneArea>,
    knobs: Res<Knobs>,
    mut wishes: ResMut<ViewWishes>,
    mut framing: ResMut<Framing>,
    mut eye: ResMut<Eye>,
) {
    let Some(view) = View::new(&eye, &area) else { return };
    let (part, solved) = (desk.0.part(), desk.0.solved());
    let whole = |eye: &Eye| {
        let (points, radius_mm) = everything(&desk.0, &knobs);
        framed(eye, &points, radius_mm, view.aspect())
    };
    let mut moved = *eye;
    if !framing.by_hand && framing.framed_for != Some(area.size) {
        moved = whole(&moved);
        framing.framed_for = Some(area.size);
    }
    if !wishes.0.is_empty() {
        for wish in std::mem::take(&mut wishes.0) {
            framing.by_hand = matches!(wish, ViewCommand::FrameSelection | ViewCommand::ToggleProjection);
            moved = match wish {
                ViewCommand::FrameAll => whole(&moved),
                ViewCommand::From(side) => whole(&moved.looking_from(side)),
                ViewCommand::ToggleProjection => moved.other_lens(),
                ViewCommand::FrameSelection => {
                    let points = selected(part, solved, desk.0.selection());
                    if points.is_empty() {
                        whole(&moved)
                    } else {
                        framed(&moved, &points, part.tube.od.mm() * ROOM_DIAMETERS, view.aspect())
                    }
                }
            };
        }
        framing.framed_for = Some(area.size);
    }
    eye.set_if_neq(moved);
}

/// Everything that wants to be seen, and how thick it is: the tube with its handles, and the tubes beside it.
fn everything(workbench: &Workbench, knobs: &Knobs) -> (Vec<Point3<f64>>, f64) {
    let (part, solved) = (workbench.part(), workbench.solved());
    let mut points = outline(&solved.centreline, |_| true);
    points.extend(knobs.all().iter().map(|knob| knob.at));
    let (first_mm, last_mm) = solved.centreline.stations_mm();
    let reach_mm = middle(&points).map_or(0.0, |middle| reach_mm(&points, &middle));
    for (station_mm, outward) in [(first_mm, -1.0), (last_mm, 1.0)] {
        let end = solved.centreline.frame_at(station_mm);
        let word = end.origin + end.tangent * (outward * ROOM_FOR_WORDS * reach_mm);
        points.extend(Some(word).filter(|word| word.iter().all(|coordinate| coordinate.is_finite())));
    }
    let mut od_mm = part.tube.od.mm();
    for (tube, solved) in workbench.other_tubes() {
        points.extend(outline(&solved.centreline, |_| true));
        od_mm = od_mm.max(tube.part.tube.od.mm());
    }
    (points, od_mm / 2.0)
}

/// What is selected.
fn selected(part: &Part, solved: &Solved, selection: &Selection) -> Vec<Point3<f64>> {
    let tail = solved.centreline.bends();
    let element_of = |target: &Target| match target {
        Target::Straight(straight) => Some(2 * straight),
        Target::Bend(bend) => Some(2 * bend + 1),
        Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend) | HandleId::ArcEnd(bend)) => {
            Some(2 * bend + 1)
        }
        Target::Handle(HandleId::Start) => Some(0),
        Target::Handle(HandleId::Finish) => Some(2 * tail),
        Target::Vertex(_) => None,
    };
    let elements: Vec<usize> = selection.targets().iter().filter_map(element_of).collect();
    let mut points = outline(&solved.centreline, |element| elements.contains(&element));
    if let Path::Vertices(path) = &part.path {
        points.extend(selection.targets().iter().filter_map(|target| match target {
            Target::Vertex(vertex) => path.points().get(*vertex).copied(),
            _ => None,
        }));
    }
    points
}
