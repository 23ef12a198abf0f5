//! The thread that writes unsaved work and settings a moment after they change, so that no frame waits
//! for a disk.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};
use std::{fs, io};

use elbowroom_bending::{Part, System};

use crate::shelf::file::{FileProblem, save_atomically, write_recovery};

/// How long the thread waits: for a pause in the changes, but never longer than so.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pace {
    /// This long without a change is a pause.
    pub pause: Duration,
    /// From the first change that is not written, this long at most.
    pub longest: Duration,
}

impl Pace {
    /// Work is on the disk within 2 s of a change: a second and a half, and time to write it.
    pub const USUAL: Self = Self { pause: Duration::from_millis(400), longest: Duration::from_millis(1500) };
}

enum Note {
    Work(Arc<Part>, Option<PathBuf>),
    NoWork,
    Settings(String),
    Flush(Sender<()>),
}

/// What the thread writes to.
pub(crate) struct Places {
    /// The recovery file; `None` where no folder could be had for it.
    pub work: Option<PathBuf>,
    /// The settings file.
    pub settings: PathBuf,
}

/// The thread, and the way to it. Dropping it writes what waits and ends it.
pub(crate) struct Keeper {
    notes: Option<Sender<Note>>,
    thread: Option<JoinHandle<()>>,
    trouble: Arc<Mutex<Option<String>>>,
}

impl Keeper {
    /// Starts the thread.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(places: Places, pace: Pace) -> io::Result<Self> {
        let (notes, received) = channel();
        let trouble = Arc::default();
        let desk = Desk { places, trouble: Arc::clone(&trouble), work: None, settings: None };
        let thread = std::thread::Builder::new().name("keeper".into()).spawn(move || desk.run(&received, pace))?;
        Ok(Self { notes: Some(notes), thread: Some(thread), trouble })
    }

    /// There is unsaved work: this part, whose own file is that.
    pub fn keep(&self, part: &Arc<Part>, file: Option<&PathBuf>) {
        self.send(Note::Work(Arc::clone(part), file.cloned()));
    }

    /// There is no unsaved work any more; the recovery file goes.
    pub fn nothing_to_keep(&self) {
        self.send(Note::NoWork);
    }

    /// The settings have changed.
    pub fn settings(&self, text: String) {
        self.send(Note::Settings(text));
    }

    /// Waits until everything is written.
    pub fn flush(&self) {
        let (written, wait) = channel();
        self.send(Note::Flush(written));
        // An error means that the thread is gone, and then there is nothing to wait for.
        let _ = wait.recv();
    }

    /// What went wrong since this was last asked.
    pub fn take_trouble(&self) -> Option<String> {
        self.trouble.lock().unwrap_or_else(PoisonError::into_inner).take()
    }

    fn send(&self, note: Note) {
        if let Some(notes) = &self.notes
            && notes.send(note).is_err()
        {
            let text = "The recovery copy is no longer written; save your work.".to_owned();
            *self.trouble.lock().unwrap_or_else(PoisonError::into_inner) = Some(text);
        }
    }
}

impl Drop for Keeper {
    fn drop(&mut self) {
        self.notes = None;
        if let Some(thread) = self.thread.take() {
            // A panic over there has been reported by its own message; there is nothing to add here.
            let _ = thread.join();
        }
    }
}

/// What the thread holds: its places, and what waits to be written.
struct Desk {
    places: Places,
    trouble: Arc<Mutex<Option<String>>>,
    work: Option<(Arc<Part>, Option<PathBuf>)>,
    settings: Option<String>,
}

impl Desk {
    fn run(mut self, notes: &Receiver<Note>, pace: Pace) {
        let mut latest: Option<Instant> = None;
        let mut due: Option<Instant> = None;
        loop {
            let note = match due {
                None => notes.recv().map_err(|_| RecvTimeoutError::Disconnected),
                Some(due) => notes.recv_timeout(due.saturating_duration_since(Instant::now())),
            };
            match note {
                Ok(Note::Work(part, file)) => self.work = Some((part, file)),
                Ok(Note::Settings(text)) => self.settings = Some(text),
                Ok(Note::NoWork) => {
                    self.work = None;
                    self.clear();
                }
                Ok(Note::Flush(written)) => {
                    self.write();
                    // Whoever asked may have gone; what matters is written.
                    let _ = written.send(());
                }
                Err(RecvTimeoutError::Timeout) => self.write(),
                Err(RecvTimeoutError::Disconnected) => return self.write(),
            }
            if self.work.is_none() && self.settings.is_none() {
                (latest, due) = (None, None);
            } else {
                let now = Instant::now();
                let latest = *latest.get_or_insert(now + pace.longest);
                due = Some(latest.min(now + pace.pause));
            }
        }
    }

    fn write(&mut self) {
        if let (Some((part, file)), Some(place)) = (self.work.take(), &self.places.work) {
            let saved = save_atomically(place, &write_recovery(&System::of(part), file.as_ref()));
            self.report(saved);
        }
        if let Some(text) = self.settings.take() {
            let folder = self.places.settings.parent().map_or(Ok(()), fs::create_dir_all);
            let saved = match folder {
                Ok(()) => save_atomically(&self.places.settings, &text),
                Err(error) => {
                    Err(FileProblem::whole(self.places.settings.display().to_string(), error.to_string(), ""))
                }
            };
            self.report(saved);
        }
    }

    fn clear(&self) {
        let Some(place) = &self.places.work else { return };
        match fs::remove_file(place) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => {
                let what = format!("it could not be removed: {error}");
                self.report(Err(FileProblem::whole(place.display().to_string(), what, "")));
            }
            _ => {}
        }
    }

    fn report(&self, outcome: Result<(), FileProblem>) {
        if let Err(problem) = outcome {
            *self.trouble.lock().unwrap_or_else(PoisonError::into_inner) = Some(problem.to_string());
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use super::*;
    use crate::shelf::file::{demo_parts, read_recovery, read_text};

    const FOREVER: Duration = Duration::from_secs(3600);
    const SOON: Duration = Duration::from_millis(20);

    /// Waits for a file, as long as a broken machine may take; a sound one takes a few milliseconds.
    fn appears(path: &std::path::Path) -> bool {
        (0..20_000).any(|_| {
            path.exists() || {
                std::thread::sleep(Duration::from_millis(1));
                false
            }
        })
    }

    fn part() -> Arc<Part> {
        Arc::new(demo_parts().next().unwrap().read().unwrap())
    }

    fn keeper(folder: &std::path::Path, pace: Pace) -> (Keeper, PathBuf) {
        let work = folder.join("work.ron");
        let places = Places { work: Some(work.clone()), settings: folder.join("settings.ron") };
        (Keeper::start(places, pace).unwrap(), work)
    }

    #[test]
    fn work_is_written_in_a_pause() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: SOON, longest: FOREVER });
        let part = part();
        keeper.keep(&part, Some(&PathBuf::from("tube.ron")));
        assert!(appears(&work));
        let (back, file) = read_recovery(&read_text(&work).unwrap(), "test").unwrap();
        assert_eq!((back, file), (System::of(part), Some(PathBuf::from("tube.ron"))));
    }

    #[test]
    fn work_is_written_amid_changes_without_a_pause() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: FOREVER, longest: SOON });
        keeper.keep(&part(), None);
        assert!(appears(&work));
        fs::remove_file(&work).unwrap();
        keeper.keep(&part(), None);
        assert!(appears(&work), "the clock starts again after each write");
    }

    #[test]
    fn the_usual_pace_is_within_two_seconds() {
        assert!(Pace::USUAL.pause <= Pace::USUAL.longest);
        assert!(Pace::USUAL.longest <= Duration::from_millis(1500));
    }

    #[test]
    fn what_waits_is_written_at_the_end_and_what_is_safe_is_removed() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: FOREVER, longest: FOREVER });
        keeper.keep(&part(), None);
        keeper.flush();
        assert!(work.exists());
        keeper.nothing_to_keep();
        keeper.flush();
        assert!(!work.exists());
        keeper.keep(&part(), None);
        drop(keeper);
        assert!(work.exists());
    }

    #[test]
    fn trouble_is_told_once() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: FOREVER, longest: FOREVER });
        fs::create_dir(work).unwrap();
        keeper.keep(&part(), None);
        keeper.flush();
        assert!(keeper.take_trouble().unwrap().contains("there is a folder of that name"));
        assert_eq!(keeper.take_trouble(), None);
    }
}
