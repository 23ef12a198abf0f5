//! What stands around the tubes of a system, read from where it lies and ready to be measured against.

use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::around::{Neighbour, Surveyed, SurveyedMesh};
use elbowroom_bending::{MeshSource, System};
use elbowroom_geometry::Length;

use crate::triangles::{MeshFrame, mesh_of, read_mesh};

/// Every obstacle of a system. Meshes are sought from the folder of the system's own file. One that is not there or cannot
/// be read says so in place of standing there, and one that has changed says so too: neither is left out. `clearance`
/// takes the place of what each wants.
pub fn neighbours(system: &System, folder: &Path, clearance: Option<Length>) -> Vec<Neighbour> {
    let survey = |source: &MeshSource| survey_mesh(source, folder);
    system.obstacles().iter().map(|obstacle| Neighbour::of(obstacle, clearance, survey)).collect()
}

/// Reads a mesh, seen from the folder of the system's own file: what is packed into that, else the file.
///
/// # Errors
/// Says why it cannot be read.
pub fn survey_mesh(source: &MeshSource, folder: &Path) -> Surveyed {
    let frame = MeshFrame { unit: Some(source.unit), up: Some(source.up) };
    let file = folder.join(&source.file);
    let read = match &source.packed {
        Some(bytes) => mesh_of(bytes, &file, frame),
        None => read_mesh(&file, frame),
    };
    let read = read.map_err(|problem| -> Arc<str> { problem.to_string().into() })?;
    Ok(SurveyedMesh { mesh: Arc::new(read.mesh), fingerprint: read.fingerprint })
}
