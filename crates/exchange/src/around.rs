//! What stands around the tubes of a system, read from where it lies and ready to be measured against.

use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::around::{Neighbour, NeighbourKind, Stands};
use elbowroom_bending::{MeshSource, Obstacle, Shape, System};
use elbowroom_geometry::{Body, Length};

use crate::triangles::{MeshFrame, ReadMesh, mesh_of, read_mesh};

/// Every obstacle of a system. Meshes are sought from the folder of the system's own file. One that is not there or cannot
/// be read says so in place of standing there, and one that has changed says so too: neither is left out. `clearance`
/// takes the place of what each wants.
pub fn neighbours(system: &System, folder: &Path, clearance: Option<Length>) -> Vec<Neighbour> {
    system.obstacles().iter().map(|obstacle| neighbour(obstacle, folder, clearance)).collect()
}

fn neighbour(obstacle: &Obstacle, folder: &Path, clearance: Option<Length>) -> Neighbour {
    let mut doubt = None;
    let body = match &obstacle.shape {
        Shape::Mesh(source) => mesh(source, folder).map(|mesh| {
            if mesh.fingerprint != source.fingerprint {
                doubt = Some("its file has changed since it was taken in".into());
            }
            Some(Body::mesh(Arc::new(mesh.mesh)))
        }),
        typed => typed.body().map_err(|refusal| refusal.to_string().into()),
    };
    let placed = |body: Option<Body>| body.map(|body| Stands::Body(body, obstacle.placement));
    Neighbour {
        name: obstacle.name.as_str().into(),
        kind: NeighbourKind::Obstacle(obstacle.kind),
        wanted: obstacle.kind.wanted(clearance.or(obstacle.clearance)),
        stands: body.and_then(|body| placed(body).ok_or_else(|| "it has no body".into())),
        doubt,
    }
}

fn mesh(source: &MeshSource, folder: &Path) -> Result<ReadMesh, Arc<str>> {
    let frame = MeshFrame { unit: Some(source.unit), up: Some(source.up) };
    let file = folder.join(&source.file);
    let read = match &source.packed {
        Some(bytes) => mesh_of(bytes, &file, frame),
        None => read_mesh(&file, frame),
    };
    read.map_err(|problem| problem.to_string().into())
}
