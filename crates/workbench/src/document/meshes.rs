//! Where the meshes of obstacles are read from, and by whom. The document itself knows no format of a mesh.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use elbowroom_bending::around::{Neighbour, Surveyed};
use elbowroom_bending::{MeshSource, Obstacle};

/// What reads a mesh, seen from a folder.
pub type SurveyMesh = fn(&MeshSource, &Path) -> Surveyed;

/// Where meshes are read from. It is replaced as a whole where that changes, so that what was read elsewhere is known.
#[derive(Debug, Default)]
pub(super) struct Meshes {
    /// By whom.
    survey: Option<SurveyMesh>,
    /// The folder of the system's own file; `None` for work that is in no file.
    folder: Option<PathBuf>,
    /// What was read for an obstacle that is about to come in.
    at_hand: Mutex<Option<(MeshSource, Surveyed)>>,
}

impl Meshes {
    /// Meshes of another system, or of one that lies elsewhere now.
    pub fn in_folder(&self, folder: Option<PathBuf>) -> Self {
        Self { survey: self.survey, folder, at_hand: Mutex::default() }
    }

    /// Meshes read by another one.
    pub fn read_by(&self, survey: SurveyMesh) -> Self {
        Self { survey: Some(survey), folder: self.folder.clone(), at_hand: Mutex::default() }
    }

    /// The folder that they are sought from.
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    /// An obstacle as it stands.
    pub fn neighbour(&self, obstacle: &Obstacle) -> Neighbour {
        Neighbour::of(obstacle, None, |source| self.read(source))
    }

    /// Notes by which the bytes of a mesh are known again, and keeps the mesh at hand.
    ///
    /// # Errors
    /// Says why it cannot be read.
    pub fn fingerprint(&self, source: &mut MeshSource) -> Result<(), Arc<str>> {
        let read = self.read(source)?;
        source.fingerprint.clone_from(&read.fingerprint);
        let at_hand = Some((source.clone(), Ok(read)));
        *self.at_hand.lock().unwrap_or_else(PoisonError::into_inner) = at_hand;
        Ok(())
    }

    fn read(&self, source: &MeshSource) -> Surveyed {
        let at_hand = self.at_hand.lock().unwrap_or_else(PoisonError::into_inner).take();
        if let Some((_, read)) = at_hand.filter(|(of, _)| of == source) {
            return read;
        }
        let survey = self.survey.ok_or_else(|| Arc::from("nothing here reads meshes"))?;
        let stands_alone = source.packed.is_some() || Path::new(&source.file).is_absolute();
        match &self.folder {
            Some(folder) => survey(source, folder),
            None if stands_alone => survey(source, Path::new("")),
            None => Err("its file is sought from the folder of the system, which is in no file yet".into()),
        }
    }
}
