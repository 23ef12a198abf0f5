//! What stands around the tubes of a check: meshes that are named, and the other tubes.

use std::sync::Arc;

use elbowroom_bending::around::{Clearance, Neighbour, NeighbourKind, Stands};
use elbowroom_bending::surrounding::{ObstacleKind, Wanted};
use elbowroom_bending::text::harmless;
use elbowroom_bending::{MeshUnit, Part, Solved, UpAxis};
use elbowroom_exchange::triangles::{MeshFrame, read_mesh};
use elbowroom_geometry::{Body, Centreline, Frame, Nearness};
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
            stands: Ok(Stands::Body(Body::mesh(Arc::new(mesh.mesh)), Frame::world())),
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
pub fn measured(tubes: &[(Part, Solved)], others: &[Part], neighbours: &[Neighbour]) -> Vec<Vec<Clearance>> {
    let of_tube = |part: &Part, centreline: Centreline| Neighbour {
        name: part.name.as_str().into(),
        kind: NeighbourKind::Tube,
        wanted: Wanted::apart(),
        stands: Ok(Stands::Tube(Arc::new(centreline), part.tube.od.mm())),
        doubt: None,
    };
    let asked = tubes.iter().map(|(part, solved)| of_tube(part, solved.centreline.clone()));
    let others = others.iter().map(|part| of_tube(part, Centreline::of(&part.path.bend_form().path)));
    let beside: Vec<Neighbour> =
        if tubes.len() + others.len() > 1 { asked.chain(others).collect() } else { Vec::new() };
    let clearances = |(index, (part, solved)): (usize, &(Part, Solved))| {
        let not_itself = beside.iter().enumerate().filter(move |(other, _)| *other != index).map(|(_, other)| other);
        let to = neighbours.iter().chain(not_itself);
        to.filter_map(|other| other.measured(&solved.centreline, part.tube.od.mm(), &mut Nearness::default())).collect()
    };
    tubes.iter().enumerate().map(clearances).collect()
}
