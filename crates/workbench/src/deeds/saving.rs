//! Saving: where to, over what, and what goes on once it is done.

use std::path::Path;
use std::sync::Arc;

use crate::shelf::disk::{RealDisk, Seen};
use crate::shelf::file::{EXTENSION, todays_stamp};
use crate::shelf::saver::{Job, Saved, same_file};
use crate::shelf::under_way::UnderWay;
use crate::{Command, MessageKind, Question, Request, Workbench};
use elbowroom_bending::text::stopped;

impl Workbench {
    /// Whether a save is under way.
    pub fn saving(&self) -> bool {
        !self.saving.under_way.is_empty()
    }

    /// Saves to a file, unless somebody else has changed it, and goes on with `then` once the work is safe.
    pub(crate) fn save(&mut self, path: &Path, then: Option<Command>) {
        // Over another file than its own the person has been asked already, by whoever asked for the name.
        let own = self.file.as_ref().is_some_and(|file| same_file(file, path));
        let seen = own.then(|| self.saving.seen.clone());
        self.save_over(path, seen, then);
    }

    fn save_over(&mut self, path: &Path, seen: Option<Vec<Seen>>, then: Option<Command>) {
        let system = Arc::clone(&self.document.committed().system);
        let was_older = self.file_is_older && self.file.as_deref() == Some(path);
        let under_way = UnderWay { system: Arc::clone(&system), bench: self.saving.bench, was_older, then };
        let mut job = Job { system, path: path.to_owned(), seen };
        if let Some(saver) = &self.saving.saver {
            match saver.save(job) {
                Ok(()) => return self.saving.under_way.push_back(under_way),
                Err(refused) => job = refused,
            }
        }
        self.saved(job.run(&RealDisk), under_way);
    }

    /// Hears of the saves that are done. Gives whether there were any.
    pub(crate) fn hear_saved(&mut self) -> bool {
        let mut heard = false;
        while let Some(saver) = &self.saving.saver {
            let next = saver.saved();
            match (next, self.saving.under_way.pop_front()) {
                (Ok(Some(saved)), Some(under_way)) => self.saved(saved, under_way),
                (Ok(None), Some(under_way)) => {
                    self.saving.under_way.push_front(under_way);
                    break;
                }
                (Err(()), Some(_)) => {
                    self.saving.saver = None;
                    self.saving.under_way.clear();
                    self.saving.leaving = false;
                    self.refuse("Not saved: what saves has met a fault of its own. Save again.");
                }
                (_, None) => break,
            }
            heard = true;
        }
        heard
    }

    /// Takes in what came of a save.
    fn saved(&mut self, saved: Saved, under_way: UnderWay) {
        let of_this_part = under_way.bench == self.saving.bench;
        match saved.outcome {
            Ok(Some(mark)) => {
                if of_this_part {
                    self.safe = Some(saved.system);
                    self.file = Some(saved.path.clone());
                    if self.document.lie_in(saved.path.parent()) {
                        self.show_anew();
                    }
                    self.saving.seen = vec![mark];
                    self.file_is_older = false;
                    self.note_change();
                }
                self.settings.remember(&saved.path);
                self.remember();
                let mut told = format!("Saved to {}.", saved.path.display());
                if under_way.was_older {
                    let format = todays_stamp();
                    told += &format!(" The file is {format} now: older programs cannot read it any more.");
                }
                self.done(told);
                if let Some(then) = under_way.then {
                    self.perform(then);
                }
            }
            Ok(None) if of_this_part => {
                self.saving.leaving = false;
                self.drop_preview();
                self.screen.question = Some(Question::Changed { file: saved.path, then: under_way.then.map(Box::new) });
            }
            Ok(None) => {
                self.saving.leaving = false;
                let name = saved.path.display();
                self.refuse(format!("Not saved. {name} was changed by another program or window meanwhile."));
            }
            Err(problem) => {
                self.saving.leaving = false;
                // It may stand there all the same, and is then nobody else's.
                if of_this_part && self.file.as_ref() == Some(&saved.path) {
                    self.saving.seen.extend(saved.tried);
                }
                self.refuse(format!("Not saved. {}", stopped(&problem.to_string())));
            }
        }
        if self.saving.leaving && !self.saving() {
            self.leave();
        }
    }

    /// Whether a command that would lose work waits until a save that is under way has made the work safe.
    pub(crate) fn waits_for_save(&mut self, command: &Command) -> bool {
        let committed = &self.document.committed().system;
        let last = self.saving.under_way.back_mut().filter(|last| last.system.holds_the_same_as(committed));
        let Some(last) = last else { return false };
        last.then = Some(command.clone());
        self.say(MessageKind::Busy, "Saving; what you asked for comes right after.".into());
        true
    }

    /// Saves under a name that was asked for, and goes on with what waited for it.
    pub(crate) fn save_as(&mut self, path: &Path) {
        let waiting = self.waiting.take();
        let extension = path.extension().map(|extension| extension.to_string_lossy().to_lowercase());
        let others = self.importers.iter().map(|importer| importer.extension);
        let mut others = others.chain(self.exporters.iter().map(|exporter| exporter.extension));
        if others.any(|other| Some(other) == extension.as_deref()) {
            let text = "Not saved. A part is saved under a name that ends in .ron; Export writes it in other formats.";
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
        self.save(&full, waiting);
    }

    /// Answers a question with yes, save it or take it back.
    pub(crate) fn answer_save(&mut self) {
        match self.screen.question.take() {
            Some(Question::Unsaved { then }) => match self.file.clone() {
                Some(file) => self.save(&file, Some(*then)),
                None => self.ask_for_name(Some(*then)),
            },
            Some(Question::Changed { file, then }) => self.save_over(&file, None, then.map(|then| *then)),
            Some(Question::Recovery { .. }) => self.perform(Command::TakeBackRecovery),
            None => {}
        }
    }

    /// Answers a question with no, lose it or throw it away.
    pub(crate) fn answer_discard(&mut self) {
        match self.screen.question.take() {
            Some(Question::Unsaved { then }) => self.carry_out(*then),
            Some(Question::Changed { file, .. }) => self.open(&file),
            Some(Question::Recovery { .. }) => self.discard_recovery(),
            None => {}
        }
    }

    /// Answers the question about a changed file with another name.
    pub(crate) fn answer_other_name(&mut self) {
        if let Some(Question::Changed { then, .. }) = self.screen.question.take() {
            self.ask_for_name(then.map(|then| *then));
        }
    }

    fn ask_for_name(&mut self, then: Option<Command>) {
        self.waiting = then;
        self.requests.push(Request::AskSaveAs);
    }

    /// Closes the program; by now all work is saved, given up, or on its way to the disk.
    pub(crate) fn leave(&mut self) {
        self.drop_preview();
        if self.saving() {
            self.saving.leaving = true;
            return self.say(MessageKind::Busy, "Saving; the program closes right after.".into());
        }
        if let Some(keeper) = &self.keeper {
            keeper.nothing_to_keep();
            keeper.flush();
        }
        self.requests.push(Request::Quit);
    }
}
