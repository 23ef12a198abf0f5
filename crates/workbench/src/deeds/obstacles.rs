//! Taking in meshes as obstacles.

use std::path::{Path, absolute};
use std::sync::Arc;

use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::text::{harmless, sentence};
use elbowroom_bending::{MeshSource, MeshUnit, Obstacle, ObstacleId, Shape, SystemEdit, UpAxis};
use elbowroom_geometry::Frame;

use crate::Workbench;
use crate::shelf::seen_from::seen_from;

impl Workbench {
    /// Takes in a mesh where it stands in its own file, as bodywork, named after that file. It is kept by the way that
    /// leads to it from the system's own file, where there is one.
    pub(crate) fn add_obstacle_mesh(&mut self, path: &Path, unit: MeshUnit, up: UpAxis) {
        let folder = self.folder();
        let full = absolute(path).map_err(|error| error.to_string());
        let file = full.and_then(|full| {
            let seen = match folder.map(absolute) {
                Some(Ok(folder)) => seen_from(&folder, &full),
                _ => full.to_str().map(str::to_owned),
            };
            seen.ok_or_else(|| format!("{}: its name cannot be written into a file", full.display()))
        });
        let read = file.and_then(|file| {
            let fingerprint = String::new();
            let mut source = MeshSource { file, fingerprint, unit, up, packed: None };
            self.document.fingerprint(&mut source).map_err(|why| why.to_string())?;
            Ok(source)
        });
        let source = match read {
            Ok(source) => source,
            Err(why) => return self.refuse_edit(sentence(&why)),
        };
        let name = harmless(&path.file_stem().unwrap_or(path.as_os_str()).to_string_lossy()).trim().to_owned();
        let obstacle = Obstacle {
            id: ObstacleId::new(0),
            name: if name.is_empty() { "Mesh".to_owned() } else { name },
            shape: Shape::Mesh(source),
            placement: Frame::world(),
            kind: ObstacleKind::default(),
            clearance: None,
            hidden: false,
            locked: false,
        };
        self.edit_system(&SystemEdit::AddObstacle(Arc::new(obstacle)));
    }
}
