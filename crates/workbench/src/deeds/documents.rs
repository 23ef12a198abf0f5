//! Opening, saving, beginning and leaving: everything that passes between the workbench and files.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use elbowroom_bending::text::harmless;
use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, System, ToolingChoice, Tube};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, Point3, VertexPath};

use crate::shelf::disk::Seen;
use crate::shelf::file::{demo_parts, older_stamp, read_plain_bytes, read_system, text_of};
use crate::shelf::keeper::Work;
use crate::shelf::other_formats::extension_of;
use crate::{Measured, Request, Selection, ViewCommand, Workbench};
use elbowroom_bending::text::stopped;

/// The length of tube that a new part starts as.
const NEW_PART_MM: f64 = 600.0;

/// A new part: a straight piece of tube along x.
pub(crate) fn new_part(tube: Tube, units: LengthUnit) -> Part {
    let points = vec![Point3::origin(), Point3::new(NEW_PART_MM, 0.0, 0.0)];
    Part {
        name: "New part".into(),
        note: String::new(),
        tube,
        tooling: ToolingChoice::default(),
        path: elbowroom_bending::Path::Vertices(
            VertexPath::new(points, Vec::<Length>::new()).expect("two points and no radius make a path"),
        ),
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units,
    }
}

/// What was read from another format, a single tube named after its file where its name was left empty.
fn named_after(system: System, path: &Path) -> System {
    match system.tubes() {
        [tube] if tube.name().is_empty() => {
            let name = harmless(&path.file_stem().unwrap_or_default().to_string_lossy()).into_owned();
            System::of(Part { name, ..Part::clone(&tube.part) })
        }
        _ => system,
    }
}

impl Workbench {
    /// Starts a new part, of the tube and in the units of the last one.
    pub(crate) fn begin(&mut self) {
        let there = self.committed_part();
        let system = Arc::new(System::of(new_part(there.tube.clone(), there.units)));
        self.safe = Some(Arc::clone(&system));
        self.file = None;
        self.take_up(system);
    }

    /// Opens a file.
    pub(crate) fn open(&mut self, path: &Path) {
        let extension = extension_of(path);
        let importer = self.importers.iter().find(|importer| Some(importer.extension) == extension.as_deref()).cloned();
        let name = path.display().to_string();
        let bytes = read_plain_bytes(path).map_err(|problem| problem.to_string());
        let seen = bytes.as_ref().ok().map(|bytes| Seen::of(bytes));
        let mut notes = Vec::new();
        let read = bytes.and_then(|bytes| match &importer {
            None => {
                let text = text_of(&bytes, &name).map_err(|problem| problem.to_string())?;
                let older = older_stamp(text).is_some();
                read_system(text, &name).map(|system| (system, older)).map_err(|problem| problem.to_string())
            }
            Some(importer) => match (importer.read)(&bytes, self.shop()) {
                Ok(imported) => {
                    notes = imported.notes;
                    Ok((named_after(imported.system, path), false))
                }
                Err(error) => Err(format!("{name}: {error}")),
            },
        });
        match read {
            Ok((system, older)) => {
                let system = Arc::new(system);
                self.safe = Some(Arc::clone(&system));
                self.file = importer.is_none().then(|| path.to_owned());
                self.take_up(system);
                self.file_is_older = older;
                self.saving.seen = seen.into_iter().collect();
                self.settings.remember(path);
                self.remember();
                if !notes.is_empty() {
                    self.done(format!("Opened. {}", notes.join(" ")));
                }
            }
            Err(problem) => {
                if !path.exists() {
                    self.settings.recent.retain(|recent| recent != path);
                    self.remember();
                }
                self.refuse(stopped(&problem));
            }
        }
    }

    /// Opens a demo part.
    pub(crate) fn open_demo(&mut self, name: &str) {
        let Some(demo) = demo_parts().find(|demo| demo.name == name) else {
            let known: Vec<_> = demo_parts().map(|demo| demo.name).collect();
            return self.refuse(format!("There is no demo part {name}; there are {}.", known.join(", ")));
        };
        match demo.read() {
            Ok(part) => {
                let system = Arc::new(System::of(part));
                self.safe = Some(Arc::clone(&system));
                self.file = None;
                self.take_up(system);
            }
            Err(problem) => self.refuse(problem.to_string()),
        }
    }

    /// Lays a system on the bench in place of the one there, without a history.
    pub(crate) fn take_up(&mut self, system: Arc<System>) {
        self.before_preview = None;
        self.file_is_older = false;
        self.saving.bench += 1;
        self.saving.seen.clear();
        self.hold(&Selection::default());
        (self.hover, self.tube_hover) = (None, None);
        (self.measured, self.gone_to) = (Measured::default(), None);
        self.screen.message = None;
        self.screen.tubes_open |= system.tubes().len() > 1;
        let folder = self.folder();
        self.document.take_up(system, folder);
        self.show_anew();
        self.note_change();
        self.requests.push(Request::View(ViewCommand::FrameAll));
    }

    /// The folder of the system's own file.
    pub(crate) fn folder(&self) -> Option<PathBuf> {
        self.file.as_deref().and_then(Path::parent).map(Path::to_owned)
    }

    /// Notes whether there is unsaved work, and hands it to the keeper.
    pub(crate) fn note_change(&mut self) {
        let system = &self.document.committed().system;
        self.unsaved = self.safe.as_ref().is_none_or(|safe| !safe.holds_the_same_as(system));
        if let Some(keeper) = &self.keeper {
            if self.unsaved {
                let (system, file) = (Arc::clone(system), self.file.clone());
                keeper.keep(Work { system, file, seen: self.saving.seen.clone() });
            } else {
                keeper.nothing_to_keep();
            }
        }
    }
}
