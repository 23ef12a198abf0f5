//! Parts to be written, at random and by hand, and what two of them have in common.

use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, Path, Seam, System, SystemTube, ToolingChoice, Tube, TubeId};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, BendRow, Centreline, Frame, Length, Point3, Vector3};
use proptest::prelude::*;

/// A row: straight (mm), rotation and angle (degrees), CLR (mm).
pub type Row = (f64, f64, f64, f64);

/// A tube of 60.3 × 2 mm that follows these rows, its start anywhere.
pub fn part_from(start: Frame, rows: &[Row], tail_mm: f64) -> Part {
    let row = |&(straight, rotation, angle, clr): &Row| BendRow {
        straight: Length::from_mm(straight),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        clr: Length::from_mm(clr),
    };
    let path = BendPath::new(start, rows.iter().map(row).collect(), Length::from_mm(tail_mm)).unwrap();
    Part {
        name: "Downpipe".into(),
        note: String::new(),
        tube: Tube::new(Length::from_mm(60.3), Length::from_mm(2.0), "304 stainless", Seam::Welded).unwrap(),
        tooling: ToolingChoice::default(),
        path: Path::Bends(path),
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    }
}

/// The same from the origin of the world.
pub fn part(rows: &[Row], tail_mm: f64) -> Part {
    part_from(Frame::world(), rows, tail_mm)
}

/// A system of parts.
pub fn system(parts: Vec<Part>) -> System {
    let tubes = (1..).zip(parts).map(|(id, part)| SystemTube { id: TubeId::new(id), hidden: false, part: part.into() });
    System::new("Hill climb", LengthUnit::Millimetre, tubes.collect(), TubeId::new(1)).unwrap()
}

/// Rows as people draw them, among others: right angles, equal lengths, no straight at all, half turns and beyond.
pub fn rows() -> impl Strategy<Value = (Frame, Vec<Row>, f64)> {
    let straight = prop_oneof![Just(0.0), Just(50.0), Just(120.0), Just(300.0), 0.5..400.0];
    let rotation = prop_oneof![Just(0.0), Just(90.0), Just(180.0), Just(-45.0), -180.0..180.0];
    let angle = prop_oneof![
        Just(0.0),
        Just(30.0),
        Just(45.0),
        Just(90.0),
        Just(150.0),
        Just(180.0),
        Just(195.0),
        0.5..170.0,
        180.0..300.0
    ];
    let clr = prop_oneof![Just(60.3), Just(90.5), Just(120.6), 40.0..500.0];
    let place = prop_oneof![Just((0.0, 0.0, 0.0)), (-2000.0..2000.0, -2000.0..2000.0, -2000.0..2000.0)];
    let along = prop_oneof![Just((1.0, 0.0, 0.0)), Just((0.0, 0.0, -1.0)), (-1.0..1.0, -1.0..1.0, 0.1..1.0f64)];
    let start = (place, along).prop_map(|(at, to)| {
        Frame::along(Point3::new(at.0, at.1, at.2), Vector3::new(to.0, to.1, to.2), Vector3::y()).unwrap()
    });
    let tail = prop_oneof![Just(150.0), 1.0..400.0];
    (start, prop::collection::vec((straight, rotation, angle, clr), 0..7), tail)
}

/// The centreline of a part.
pub fn centreline(part: &Part) -> Centreline {
    Centreline::of(&part.path.bend_form().path)
}

/// How far two centrelines lie apart at most, mm, measured at two hundred places along them and at both ends.
pub fn apart_mm(one: &Part, other: &Part) -> f64 {
    let [one, other] = [centreline(one), centreline(other)];
    let lengths = (one.length_mm() - other.length_mm()).abs();
    let at = |share: f64| (one.point_at(one.length_mm() * share) - other.point_at(other.length_mm() * share)).norm();
    (0..=200).map(|step| at(f64::from(step) / 200.0)).fold(lengths, f64::max)
}

/// Whether the tube comes back to a tangent point that it was at before: nobody can tell from a solid how it goes on there.
pub fn comes_back(part: &Part) -> bool {
    let line = centreline(part);
    let mut points: Vec<Point3<f64>> = Vec::new();
    for element in line.elements().iter().filter(|element| element.length_mm > 1e-6) {
        let end = element.end().origin;
        if points.is_empty() {
            points.push(element.start.origin);
        }
        if points.iter().any(|point| (point - end).norm() < 0.01) {
            return true;
        }
        points.push(end);
    }
    false
}
