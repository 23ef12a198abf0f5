//! The points of the drawing, and the inspection list with boxes to fill in.

use elbowroom_bending::first_off::points::BY_ARC_ENDS_FROM;
use elbowroom_geometry::units::format_number;
use elbowroom_geometry::{ElementKind, Point3};

use crate::sheet::layout::{Breadth, Cell, Section, Table};
use crate::sheet::work::Work;

/// A point of the drawing.
struct DrawnPoint {
    /// What it is called.
    name: String,
    /// Where it lies, mm.
    at: Point3<f64>,
    /// The radius of the bend there, mm.
    clr_mm: Option<f64>,
}

/// The points of a tube: both ends, and for each bend its vertex, or the ends of its arc where it is a U.
fn points(work: &Work) -> Vec<DrawnPoint> {
    let centreline = &work.solved.centreline;
    let point = |name: &str, at, clr_mm| DrawnPoint { name: name.to_owned(), at, clr_mm };
    let mut points: Vec<DrawnPoint> =
        centreline.straight(0).map(|first| point("Start", first.start.origin, None)).into_iter().collect();
    for (index, bend) in work.solved.bends.iter().enumerate().filter(|(_, bend)| bend.is_bent()) {
        let Some(arc) = centreline.arc(index) else { continue };
        let ElementKind::Arc { radius_mm, angle_rad } = arc.kind else { continue };
        let name = format!("Bend {}", index + 1);
        if angle_rad < BY_ARC_ENDS_FROM.radians() {
            let tangent = radius_mm * (bend.angle_rad / 2.0).tan();
            points.push(point(&name, arc.start.origin + arc.start.tangent * tangent, Some(radius_mm)));
        } else {
            points.push(point(&format!("{name} begins"), arc.start.origin, Some(radius_mm)));
            points.push(point(&format!("{name} ends"), arc.end().origin, Some(radius_mm)));
        }
    }
    points.push(point("Finish", centreline.end().origin, None));
    points
}

/// The points as a table.
pub fn vertices(work: &Work, width: f64) -> Section {
    let unit = work.part.units;
    let length = |length_mm: f64| Cell::Figure(unit.bare(length_mm).to_string());
    let points = points(work);
    let row = |(index, point): (usize, &DrawnPoint)| {
        let none = || Cell::Figure(String::new());
        vec![
            Cell::Words(point.name.clone()),
            length(point.at.x),
            length(point.at.y),
            length(point.at.z),
            point.clr_mm.map_or_else(none, length),
            points.get(index + 1).map_or_else(none, |next| length((next.at - point.at).norm())),
        ]
    };
    let table = Table {
        head: ["Point", "x", "y", "z", "CLR", "Leg to next"].map(str::to_owned).to_vec(),
        rows: points.iter().enumerate().map(row).collect(),
    };
    let mut section = Section::new(format!("Points of the drawing, {}", unit.name()), Breadth::Half);
    let (head, pieces) = table.pieces(width);
    (section.head, section.pieces) = (Some(head), pieces);
    section
}

/// Straights, rotations and angles as drawn, each with a box for what is measured.
pub fn inspection(work: &Work, width: f64) -> Section {
    let unit = work.part.units;
    let degrees = |angle_rad: f64| Cell::Figure(format_number(angle_rad.to_degrees(), 1));
    let straights = &work.solved.straights_mm;
    let straight = |index: usize| {
        Cell::Figure(straights.get(index).map_or_else(String::new, |length_mm| unit.bare(*length_mm).to_string()))
    };
    let mut turned = false;
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for (index, bend) in work.solved.bends.iter().enumerate() {
        // Before the first bend there is no plane to turn from.
        let rotation = if turned {
            [degrees(bend.rotation_rad), Cell::Box]
        } else {
            [Cell::Figure(String::new()), Cell::Words(String::new())]
        };
        turned |= bend.is_bent();
        let [rotation, rotation_box] = rotation;
        rows.push(vec![
            Cell::Words((index + 1).to_string()),
            straight(index),
            Cell::Box,
            rotation,
            rotation_box,
            degrees(bend.angle_rad),
            Cell::Box,
        ]);
    }
    let none = || Cell::Words(String::new());
    rows.push(vec![
        Cell::Words("finish".into()),
        straight(work.solved.bends.len()),
        Cell::Box,
        none(),
        none(),
        none(),
        none(),
    ]);
    let measured = "measured";
    let table = Table {
        head: ["Bend", "Straight before", measured, "Rotation", measured, "Angle", measured]
            .map(str::to_owned)
            .to_vec(),
        rows,
    };
    let mut section = Section::new(format!("Inspection, {} and degrees", unit.name()), Breadth::Half);
    let (head, pieces) = table.pieces(width);
    (section.head, section.pieces) = (Some(head), pieces);
    section
}

/// What can be measured over all with a tape, with boxes.
pub fn overall(work: &Work, width: f64) -> Section {
    let unit = work.part.units;
    let size = work.solved.centreline.tube_bounding_box(work.part.tube.od.mm()).size();
    let first = work.solved.centreline.straight(0).map_or_else(Point3::origin, |first| first.start.origin);
    let apart = (work.solved.centreline.end().origin - first).norm();
    let rows = [
        ("Along x, outside", size.x),
        ("Along y, outside", size.y),
        ("Along z, outside", size.z),
        ("End to end, middle to middle", apart),
    ];
    let row = |(name, length_mm): &(&str, f64)| {
        vec![Cell::Words((*name).to_owned()), Cell::Figure(unit.bare(*length_mm).to_string()), Cell::Box]
    };
    let table = Table {
        head: ["Over all", "drawn", "measured"].map(str::to_owned).to_vec(),
        rows: rows.iter().map(row).chain([signed()]).collect(),
    };
    let mut section = Section::new(format!("Inspection over all, {}", unit.name()), Breadth::Half);
    let (head, pieces) = table.pieces(width);
    (section.head, section.pieces) = (Some(head), pieces);
    section
}

fn signed() -> Vec<Cell> {
    vec![Cell::Words("Inspected by, date".into()), Cell::Figure(String::new()), Cell::Box]
}
