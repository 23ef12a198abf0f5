//! Short texts beside what is pointed at or dragged.

use bevy::math::Vec2;
use bevy::prelude::*;
use elbowroom_bending::{Part, Path, Solved};
use elbowroom_geometry::units::format_angle;
use elbowroom_geometry::{Angle, HandleId, Length, Point3};
use elbowroom_workbench::{Target, vertices_under};

use crate::camera::{Eye, View};
use crate::figure::{length_text, place_text};
use crate::input::Hand;
use crate::mirror::least_room;
use crate::seen::middle_of;
use crate::{Desk, SceneArea, SceneLabel, SceneLabels};

/// A name that is longer than this is cut short beside a tube, characters.
const LONGEST_NAME: usize = 48;

/// What a label calls a tube.
fn called(name: &str) -> String {
    let name = name.trim();
    match name.char_indices().nth(LONGEST_NAME) {
        _ if name.is_empty() => "Tube without a name".to_owned(),
        Some((end, _)) => format!("{}\u{2026}", name[..end].trim_end()),
        None => name.to_owned(),
    }
}

/// Writes the labels of this frame.
pub fn write_labels(
    desk: Res<Desk>,
    area: Res<SceneArea>,
    eye: Res<Eye>,
    hand: Res<Hand>,
    mut labels: ResMut<SceneLabels>,
) {
    let Some(view) = View::new(&eye, &area) else { return };
    let (part, solved) = (desk.0.part(), desk.0.solved());
    let mut wanted: Vec<(Point3<f64>, String, bool)> = Vec::new();
    let mut od_mm = part.tube.od.mm();
    if let Some(drag) = hand.drag() {
        let dragged = drag.target.counted(&solved.nodes);
        let turn = dragged.and_then(Target::bend).and_then(|bend| solved.form.path.rows().get(bend));
        let turn = turn.map_or_else(String::new, |row| format!(", bend {}", format_angle(row.angle, 1)));
        wanted.push((drag.at, format!("{}{turn}\n{}", drag.label(), drag.place()), true));
        for target in dragged.map_or_else(Vec::new, |target| beside(target, solved)) {
            wanted.extend(label_of(target, part, solved).map(|(at, text)| (at, text, false)));
        }
    } else if let Some((at, text)) = desk.0.hover().and_then(|target| label_of(target, part, solved)) {
        wanted.push((at, text, true));
    } else if let Some((tube, solved)) = desk.0.other_tubes().find(|(tube, _)| Some(tube.id) == desk.0.tube_hover()) {
        // Where the pointer is; where another view points at the tube, at its middle.
        let at = hand.over().filter(|(over, _)| *over == tube.id).map_or_else(|| middle_of(solved), |(_, at)| at);
        wanted.push((at, called(tube.name()), true));
        od_mm = tube.part.tube.od.mm();
    }
    if let Some(between) = desk.0.screen().measuring_open.then(|| desk.0.between_measured()).flatten() {
        let middle = between.from + between.along() / 2.0;
        wanted.push((middle, length_text(Length::from_mm(between.distance_mm()), part.units), false));
    }
    if let Some((gap, clearance)) = least_room(solved) {
        let middle = gap.on_tube + (gap.on_other - gap.on_tube) / 2.0;
        let length = |mm: f64| length_text(Length::from_mm(mm), part.units);
        let said = match gap.least_mm {
            into if into < 0.0 => format!("{} into {}", length(-into), clearance.to),
            room => format!("{} to {}", length(room), clearance.to),
        };
        wanted.push((middle, said, false));
    }
    // A single vertex or end that is selected says where it lies, unless something is being moved.
    if let (None, [target]) = (hand.drag(), desk.0.selection().targets())
        && let [(_, point)] = vertices_under(part, solved, &[*target])[..]
        && !matches!(target, Target::Straight(_))
    {
        wanted.push((point, place_text(&point, part.units), false));
    }
    let placed: Vec<SceneLabel> = wanted
        .into_iter()
        .filter_map(|(at, text, strong)| {
            // Beside the tube, not on it.
            let aside = (od_mm / 2.0 / view.pixel_mm(&at)?).min(80.0) as f32;
            Some(SceneLabel { at: view.project(&at)? + Vec2::new(aside, -0.5 * aside), text, strong })
        })
        .collect();
    if placed != labels.0 {
        labels.0 = placed;
    }
}

/// The straights that change when a handle is dragged.
fn beside(target: Target, solved: &Solved) -> Vec<Target> {
    match (target, target.bend()) {
        (Target::Handle(HandleId::Start), _) => vec![Target::Straight(0)],
        (Target::Handle(HandleId::Finish), _) => vec![Target::Straight(solved.centreline.bends())],
        (_, Some(bend)) => vec![Target::Straight(bend), Target::Straight(bend + 1)],
        (_, None) => Vec::new(),
    }
}

/// Where a target's label belongs and what it says. A vertex without a bend says the radius it would bend with.
fn label_of(target: Target, part: &Part, solved: &Solved) -> Option<(Point3<f64>, String)> {
    match target {
        Target::Straight(straight) => {
            let element = solved.centreline.straight(straight)?;
            let text = length_text(Length::from_mm(element.length_mm), part.units);
            Some((element.turned(0.5).origin, text))
        }
        Target::Bend(bend)
        | Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend) | HandleId::ArcEnd(bend)) => {
            let (element, row) = (solved.centreline.arc(bend)?, solved.form.path.rows().get(bend)?);
            let angle = format_angle(row.angle, 1);
            Some((element.turned(0.5).origin, format!("{angle}, CLR {}", length_text(row.clr, part.units))))
        }
        Target::Handle(HandleId::Start) => label_of(Target::Straight(0), part, solved),
        Target::Handle(HandleId::Finish) => label_of(Target::Straight(solved.centreline.bends()), part, solved),
        Target::Vertex(vertex) => {
            let Path::Vertices(path) = &part.path else { return None };
            let (point, clr) = (path.points().get(vertex)?, path.clr().get(vertex.checked_sub(1)?)?);
            Some((*point, format!("{}, CLR {}", format_angle(Angle::ZERO, 1), length_text(*clr, part.units))))
        }
    }
}
