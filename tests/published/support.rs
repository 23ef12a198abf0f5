//! Building centrelines in whatever unit a source uses, and looking at them through the public API.

use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, Path, Seam, Solved, ToolingChoice, Tube, solve};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3, VertexPath};
use elbowroom_workbench::file::built_in_shop;

/// Millimetres in an inch, exact by definition.
pub const INCH: f64 = 25.4;

/// Fails unless two figures agree to a tolerance.
#[track_caller]
pub fn close(found: f64, wanted: f64, tolerance: f64) {
    assert!((found - wanted).abs() <= tolerance, "found {found}, wanted {wanted} within {tolerance}");
}

/// A path through points given in some unit, with one radius for every bend, in the same unit.
pub fn vertices(points: &[[f64; 3]], clr: f64, unit_mm: f64) -> VertexPath {
    let points: Vec<_> = points.iter().map(|p| Point3::new(p[0], p[1], p[2]) * unit_mm).collect();
    let bends = points.len() - 2;
    VertexPath::new(points, vec![Length::from_mm(clr * unit_mm); bends]).unwrap()
}

/// One bend between two straights of a length, all in one unit.
pub fn one_bend(angle_deg: f64, clr: f64, straight: f64, unit_mm: f64) -> BendPath {
    let row = BendRow {
        straight: Length::from_mm(straight * unit_mm),
        rotation: Angle::ZERO,
        angle: Angle::from_degrees(angle_deg),
        clr: Length::from_mm(clr * unit_mm),
    };
    BendPath::new(Frame::world(), vec![row], Length::from_mm(straight * unit_mm)).unwrap()
}

/// The path as the program solves it, on a tube of the given outside diameter in mm.
pub fn solved(path: Path, od_mm: f64) -> Solved {
    let tube = Tube::new(
        Length::from_mm(od_mm),
        Length::from_mm((od_mm / 40.0).max(0.05)),
        Tube::USUAL_MATERIAL,
        Seam::Welded,
    );
    let part = Part {
        name: "a published case".into(),
        note: String::new(),
        tube: tube.unwrap(),
        tooling: ToolingChoice::default(),
        path,
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    };
    solve(&part, &built_in_shop())
}
