//! Opening, saving, beginning and leaving: everything that passes between the workbench and files.

use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::text::harmless;
use elbowroom_bending::{ExtraStock, Nodes, Part, Shop, System, ToolingChoice, Tube, solve};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, Point3, VertexPath};

use crate::document::editing::sentence;
use crate::document::history::History;
use crate::shelf::file::{
    EXTENSION, certain_text, demo_parts, is_of_older_format, read_part, read_plain_text, save_atomically, sweep_beside,
};
use crate::{Command, Question, Request, Selection, ViewCommand, Workbench};

/// A format that is read beside the program's own.
#[derive(Clone, Copy, Debug)]
pub struct Importer {
    /// Its file name extension, without the dot, in lower case.
    pub extension: &'static str,
    /// Makes a part of a text on a shop; an error says on which line what is wrong, without the file's
    /// name. The part is named after its file where its name is left empty.
    pub read: fn(&str, &Shop) -> Result<Part, String>,
}

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
        units,
    }
}

impl Workbench {
    /// Starts a new part, of the tube and in the units of the last one.
    pub(crate) fn begin(&mut self) {
        let part = Arc::new(new_part(self.committed.tube.clone(), self.committed.units));
        self.safe = Some(Arc::clone(&part));
        self.file = None;
        self.take_up(part);
    }

    /// Opens a file.
    pub(crate) fn open(&mut self, path: &Path) {
        let extension = path.extension().map(|extension| extension.to_string_lossy().to_lowercase());
        let importer = self.importers.iter().find(|importer| Some(importer.extension) == extension.as_deref()).copied();
        let name = path.display().to_string();
        let text = read_plain_text(path).map_err(|problem| problem.to_string());
        let read = text.and_then(|text| match importer {
            None => {
                let older = is_of_older_format(&text);
                read_part(&text, &name).map(|part| (part, older)).map_err(|problem| problem.to_string())
            }
            Some(importer) => match (importer.read)(&text, &self.shop) {
                Ok(part) => Ok((part, false)),
                Err(error) => Err(format!("{name}: {error}")),
            },
        });
        match read {
            Ok((mut part, older)) => {
                if importer.is_some() && part.name.is_empty() {
                    part.name = harmless(&path.file_stem().unwrap_or_default().to_string_lossy()).into_owned();
                }
                let part = Arc::new(part);
                self.safe = Some(Arc::clone(&part));
                self.file = importer.is_none().then(|| path.to_owned());
                self.take_up(part);
                self.file_is_older = older;
                self.settings.remember(path);
                self.remember();
            }
            Err(problem) => {
                if !path.exists() {
                    self.settings.recent.retain(|recent| recent != path);
                    self.remember();
                }
                self.refuse(sentence(&problem));
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
                let part = Arc::new(part);
                self.safe = Some(Arc::clone(&part));
                self.file = None;
                self.take_up(part);
            }
            Err(problem) => self.refuse(problem.to_string()),
        }
    }

    /// Lays a part on the bench in place of the one there, without a history.
    pub(crate) fn take_up(&mut self, part: Arc<Part>) {
        self.preview = None;
        self.file_is_older = false;
        self.history = History::default();
        self.free_id = 0;
        self.selection = Selection::default();
        self.screen.message = None;
        let solved = Arc::new(solve(&part, &self.shop));
        self.committed = Arc::clone(&part);
        self.committed_solved = Arc::clone(&solved);
        self.put(part, solved);
        self.note_change();
        self.requests.push(Request::View(ViewCommand::FrameAll));
    }

    /// Notes whether there is unsaved work, and hands it to the keeper.
    pub(crate) fn note_change(&mut self) {
        self.unsaved = self.safe.as_ref().is_none_or(|safe| **safe != *self.committed);
        if let Some(keeper) = &self.keeper {
            if self.unsaved {
                keeper.keep(&self.committed, self.file.as_ref());
            } else {
                keeper.nothing_to_keep();
            }
        }
    }

    /// Saves to a file and says how it went. Gives whether the work is safe.
    pub(crate) fn save(&mut self, path: &Path) -> bool {
        let was_its_file = self.file.as_deref() == Some(path);
        let text = certain_text(&System::of(Arc::clone(&self.committed)), &path.display().to_string());
        match text.and_then(|text| save_atomically(path, &text)) {
            Ok(()) => {
                sweep_beside(path);
                self.safe = Some(Arc::clone(&self.committed));
                self.file = Some(path.to_owned());
                self.note_change();
                self.settings.remember(path);
                self.remember();
                let mut told = format!("Saved to {}.", path.display());
                if self.file_is_older && was_its_file {
                    told +=
                        " The file holds a system now (elbowroom-system/1): older programs cannot read it any more.";
                }
                self.file_is_older = false;
                self.done(told);
                true
            }
            Err(problem) => {
                self.refuse(format!("Not saved. {}", sentence(&problem.to_string())));
                false
            }
        }
    }

    /// Saves under a name that was asked for, and goes on with what waited for it.
    pub(crate) fn save_as(&mut self, path: &Path) {
        let waiting = self.waiting.take();
        let extension = path.extension().map(|extension| extension.to_string_lossy().to_lowercase());
        if self.importers.iter().any(|importer| Some(importer.extension) == extension.as_deref()) {
            let text = "Not saved. A part is saved under a name that ends in .ron; `elbowroom convert` makes a points table of it.";
            return self.refuse(text);
        }
        let mut full = path.to_owned();
        if extension.as_deref() != Some(EXTENSION) {
            full.as_mut_os_string().push(format!(".{EXTENSION}"));
            if full.exists() {
                let name = full.display();
                return self
                    .refuse(format!("Not saved. {name} is there already; choose it by its full name to replace it."));
            }
        }
        if self.save(&full)
            && let Some(waiting) = waiting
        {
            self.carry_out(waiting);
        }
    }

    /// Answers a question with yes, save it or take it back.
    pub(crate) fn answer_save(&mut self) {
        match self.screen.question.take() {
            Some(Question::Unsaved { then }) => match self.file.clone() {
                Some(file) => {
                    if self.save(&file) {
                        self.carry_out(*then);
                    }
                }
                None => {
                    self.waiting = Some(*then);
                    self.requests.push(Request::AskSaveAs);
                }
            },
            Some(Question::Recovery { .. }) => self.perform(Command::TakeBackRecovery),
            None => {}
        }
    }

    /// Closes the program; by now all work is saved or given up.
    pub(crate) fn leave(&mut self) {
        self.drop_preview();
        if let Some(keeper) = &self.keeper {
            keeper.nothing_to_keep();
            keeper.flush();
        }
        self.requests.push(Request::Quit);
    }
}
