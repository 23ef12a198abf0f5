//! What can be moved, and where the floor lies.

use std::fmt;

use elbowroom_bending::SystemTube;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{BoundingBox, Length, Point3};
use elbowroom_workbench::{Workbench, vertices_under};

/// What can be moved, and where the floor lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// How many vertices are selected that move together; 0 where the whole tube moves.
    pub vertices: usize,
    /// The unit in which lengths are shown and typed.
    pub units: LengthUnit,
    /// Where the start of the tube lies, mm.
    pub start: Point3<f64>,
    /// The middle of what moves, mm.
    pub middle: Point3<f64>,
    /// Where the floor lies.
    pub floor: Length,
    /// The lowest height of all tubes that are shown.
    pub lowest: Option<Length>,
    /// The name of the tube.
    pub name: String,
}

impl Model {
    /// Of the tube that is worked on and what of it is selected.
    pub fn of(workbench: &Workbench) -> Self {
        let part = workbench.part();
        let mut vertices = vertices_under(part, workbench.solved(), workbench.selection().targets());
        if vertices.len() == part.path.places() {
            vertices.clear();
        }
        let od_mm = |tube: &SystemTube| tube.part.tube.od.mm();
        let shown = workbench.tubes().filter(|(tube, _)| !tube.hidden);
        let lowest = shown.map(|(tube, solved)| solved.centreline.tube_bounding_box(od_mm(tube)).min.z);
        let lowest = lowest.reduce(f64::min).filter(|mm| mm.is_finite());
        let around = vertices.iter().map(|(_, point)| BoundingBox::of_point(*point)).reduce(|a, b| a.union(&b));
        let around = around.unwrap_or_else(|| workbench.solved().centreline.bounding_box());
        Self {
            vertices: vertices.len(),
            units: workbench.system().units(),
            start: part.start(),
            middle: around.centre(),
            floor: workbench.system().floor(),
            lowest: lowest.map(Length::from_mm),
            name: part.name.clone(),
        }
    }

    /// What moves, as a heading says it.
    pub fn what(&self) -> String {
        match self.vertices {
            0 => "The whole tube moves.".to_owned(),
            1 => "The selected vertex moves.".to_owned(),
            several => format!("The {several} selected vertices move together."),
        }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}", self.what())?;
        write!(out, "floor {}", self.units.shown(self.floor.mm()))
    }
}
