//! What stands around the tubes of a check: meshes that are named, and the other tubes.

use std::sync::Arc;

use elbowroom_bending::around::{Clearance, Neighbour, NeighbourKind, Stands};
use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::surroundings::{Laid, Surroundings};
use elbowroom_bending::text::harmless;
use elbowroom_bending::{MeshUnit, Part, Solved, UpAxis};
use elbowroom_exchange::triangles::{MeshFrame, read_mesh};
use elbowroom_geometry::{Body, Centreline, Frame};
use elbowroom_workbench::file::FileProblem;

use super::Failure;
use super::arguments::{Around, Unit, Up};

/// The meshes that are named on the command line, ready to be measured against.
///
/// # Errors
/// Says which of them cannot be read, and why.
pub fn named(arguments: &Around) -> Result<Vec<Neighbour>, Failure> {
    let unit = arguments.around_unit.map(|unit| match unit {
        Unit::Mm => MeshUnit::Millimetre,
        Unit::In => MeshUnit::Inch,
        Unit::M => MeshUnit::Metre,
    });
    let up = arguments.around_up.map(|up| match up {
        Up::X => UpAxis::X,
        Up::Y => UpAxis::Y,
        Up::Z => UpAxis::Z,
    });
    let read = |file: &std::path::PathBuf| {
        let mesh = read_mesh(file, MeshFrame { unit, up }).map_err(|problem| with_option(problem, unit.is_none()))?;
        let name = file.file_name().unwrap_or(file.as_os_str()).to_string_lossy();
        Ok(Neighbour {
            name: harmless(&name).as_ref().into(),
            kind: NeighbourKind::Obstacle(ObstacleKind::Body),
            wanted: ObstacleKind::Body.wanted(arguments.clearance),
            stands: Ok(Stands::Body(Arc::new(Body::mesh(Arc::new(mesh.mesh))), Frame::world())),
            doubt: None,
        })
    };
    arguments.around.iter().map(read).collect()
}

/// Says by which option a unit is named, where it is missing.
fn with_option(mut problem: FileProblem, is_missing: bool) -> Failure {
    if is_missing && problem.right.starts_with("name it:") {
        problem.right = "name it with --around-unit: mm, in or m".into();
    }
    problem.into()
}

/// How near each tube comes to all of these, and to the other tubes, those that are not asked for included.
pub fn measured(tubes: &[(Part, Solved)], others: &[Part], neighbours: Vec<Neighbour>) -> Vec<Vec<Clearance>> {
    let asked: Vec<_> = tubes.iter().map(|(part, solved)| Arc::new(Laid::of(part, &solved.centreline))).collect();
    let drawn = |part: &Part| Arc::new(Laid::of(part, &Centreline::of(&part.path.bend_form().path)));
    let others: Vec<_> = others.iter().map(drawn).collect();
    let neighbours = neighbours.into_iter().map(Arc::new).collect();
    let around = Surroundings::measured(&asked, &others, neighbours, &[], &mut 0);
    let clearances = |place: usize| around.of_tube(place).map(|around| around.clearances()).unwrap_or_default();
    (0..tubes.len()).map(clearances).collect()
}
