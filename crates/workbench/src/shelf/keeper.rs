//! The thread that writes unsaved work and settings a moment after they change, so that no frame waits
//! for a disk.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};
use std::{fs, io};

use elbowroom_bending::System;

use crate::Waker;
use crate::shelf::disk::{Disk, Seen, reason, write_whole};
use crate::shelf::file::{FileProblem, write_recovery};

/// How long the thread waits: for a pause in the changes, but never longer than so.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pace {
    /// This long without a change is a pause.
    pub pause: Duration,
    /// From the first change that is not written, this long at most.
    pub longest: Duration,
    /// What could not be written is tried again after so long.
    pub again: Duration,
}

impl Pace {
    /// Work is on the disk within 2 s of a change: a second and a half, and time to write it.
    pub const USUAL: Self =
        Self { pause: Duration::from_millis(400), longest: Duration::from_millis(1500), again: Duration::from_secs(5) };
}

enum Note {
    Work(Work),
    NoWork,
    Settings(String),
    Again,
    Flush(Sender<()>),
}

/// Unsaved work.
pub(crate) struct Work {
    /// The tubes.
    pub system: Arc<System>,
    /// Their own file.
    pub file: Option<PathBuf>,
    /// What that file held when it was last read or written here.
    pub seen: Vec<Seen>,
}

/// What the thread writes to.
pub(crate) struct Places {
    /// The recovery file; `None` where no folder could be had for it.
    pub work: Option<PathBuf>,
    /// The settings file.
    pub settings: PathBuf,
    /// The disk that both are on.
    pub disk: Arc<dyn Disk>,
}

/// The thread, and the way to it. Dropping it writes what waits and ends it.
pub(crate) struct Keeper {
    notes: Option<Sender<Note>>,
    thread: Option<JoinHandle<()>>,
    told: Arc<Told>,
}

/// What cannot be written at present, and why; `None` where all is well.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Kept {
    /// The work.
    pub work: Option<String>,
    /// The settings.
    pub settings: Option<String>,
}

/// What the thread tells.
#[derive(Default)]
struct Told {
    kept: Mutex<(Kept, bool)>,
    waker: Mutex<Option<Waker>>,
}

impl Told {
    fn kept(&self) -> MutexGuard<'_, (Kept, bool)> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Tells how things stand, and wakes whoever is to hear of it where that is new.
    fn tell(&self, change: impl FnOnce(&mut Kept)) {
        let mut told = self.kept();
        let before = told.0.clone();
        change(&mut told.0);
        if told.0 == before {
            return;
        }
        told.1 = true;
        drop(told);
        let waker = self.waker.lock().unwrap_or_else(PoisonError::into_inner).clone();
        if let Some(waker) = waker {
            waker();
        }
    }
}

impl Keeper {
    /// Starts the thread.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(places: Places, pace: Pace) -> io::Result<Self> {
        let (notes, received) = channel();
        let told = Arc::default();
        let desk = Desk { places, told: Arc::clone(&told), work: None, settings: None, failed: false };
        let thread = std::thread::Builder::new().name("keeper".into()).spawn(move || desk.run(&received, pace))?;
        Ok(Self { notes: Some(notes), thread: Some(thread), told })
    }

    /// There is unsaved work.
    pub fn keep(&self, work: Work) {
        self.send(Note::Work(work));
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

    /// What could not be written is to be tried again now.
    pub fn try_again(&self) {
        self.send(Note::Again);
    }

    /// What cannot be written at present.
    pub fn kept(&self) -> Kept {
        self.told.kept().0.clone()
    }

    /// The same, where it has changed since this was last asked.
    pub fn heard(&self) -> Option<Kept> {
        let mut told = self.told.kept();
        std::mem::take(&mut told.1).then(|| told.0.clone())
    }

    /// Wakes somebody by this whenever there is something new to hear.
    pub fn wake_with(&self, waker: &Waker) {
        *self.told.waker.lock().unwrap_or_else(PoisonError::into_inner) = Some(Arc::clone(waker));
    }

    fn send(&self, note: Note) {
        if let Some(notes) = &self.notes
            && notes.send(note).is_err()
        {
            let text = "what writes it has ended; save your work and start the program again".to_owned();
            self.told.tell(|kept| kept.work = Some(text));
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
    told: Arc<Told>,
    work: Option<Work>,
    settings: Option<String>,
    /// Whether what was tried last could not be written.
    failed: bool,
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
                Ok(Note::Work(work)) => self.work = Some(work),
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
                Ok(Note::Again) | Err(RecvTimeoutError::Timeout) => self.write(),
                Err(RecvTimeoutError::Disconnected) => return self.write(),
            }
            if self.work.is_none() && self.settings.is_none() {
                (latest, due) = (None, None);
            } else if std::mem::take(&mut self.failed) {
                (latest, due) = (None, Some(Instant::now() + pace.again));
            } else {
                let now = Instant::now();
                let latest = *latest.get_or_insert(now + pace.longest);
                due = Some(latest.min(now + pace.pause));
            }
        }
    }

    /// Writes what waits. What cannot be written goes on waiting.
    fn write(&mut self) {
        if let Some(work) = &self.work {
            let text = || write_recovery(&work.system, work.file.as_ref(), &work.seen);
            match self.places.work.as_ref().map(|place| self.save(place, &text())) {
                // Where there is no place there is nothing to wait for; that has been told.
                None => self.work = None,
                Some(outcome) => {
                    let problem = outcome.err().map(|problem| problem.to_string());
                    (self.work, self.failed) = (self.work.take().filter(|_| problem.is_some()), problem.is_some());
                    self.told.tell(|kept| kept.work = problem);
                }
            }
        }
        if let Some(text) = &self.settings {
            let problem = self.write_settings(text).err().map(|problem| problem.to_string());
            self.failed |= problem.is_some();
            self.settings = self.settings.take().filter(|_| problem.is_some());
            self.told.tell(|kept| kept.settings = problem);
        }
    }

    fn write_settings(&self, text: &str) -> Result<(), FileProblem> {
        let place = &self.places.settings;
        place.parent().map_or(Ok(()), fs::create_dir_all).map_err(|error| {
            let what = format!("its folder cannot be made: {}", reason(&error));
            FileProblem::whole(place.display().to_string(), what, "")
        })?;
        self.save(place, text)
    }

    /// Writes a file whole or not at all.
    fn save(&self, place: &Path, text: &str) -> Result<(), FileProblem> {
        write_whole(&*self.places.disk, place, text.as_bytes(), None).map(drop)
    }

    fn clear(&self) {
        let Some(place) = &self.places.work else { return };
        let problem = match fs::remove_file(place) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => {
                let what = format!("it could not be removed: {}", reason(&error));
                Some(FileProblem::whole(place.display().to_string(), what, "").to_string())
            }
            _ => None,
        };
        self.told.tell(|kept| kept.work = problem);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use super::*;
    use crate::shelf::disk::RealDisk;
    use crate::shelf::disk::faulty::{Faulty, Step};
    use crate::shelf::file::{demo_parts, read_recovery, read_text};

    const FOREVER: Duration = Duration::from_secs(3600);
    const SOON: Duration = Duration::from_millis(20);

    /// Waits for a file, as long as a broken machine may take; a sound one takes a few milliseconds.
    fn appears(path: &Path) -> bool {
        (0..20_000).any(|_| {
            path.exists() || {
                std::thread::sleep(Duration::from_millis(1));
                false
            }
        })
    }

    fn tubes() -> Arc<System> {
        Arc::new(System::of(demo_parts().next().unwrap().read().unwrap()))
    }

    /// Work on tubes that are in no file.
    fn unsaved(system: &Arc<System>) -> Work {
        Work { system: Arc::clone(system), file: None, seen: Vec::new() }
    }

    fn keeper(folder: &Path, pace: Pace) -> (Keeper, PathBuf) {
        keeper_on(Arc::new(RealDisk), folder, pace)
    }

    fn keeper_on(disk: Arc<dyn Disk>, folder: &Path, pace: Pace) -> (Keeper, PathBuf) {
        let work = folder.join("work.ron");
        let places = Places { work: Some(work.clone()), settings: folder.join("settings.ron"), disk };
        (Keeper::start(places, pace).unwrap(), work)
    }

    #[test]
    fn work_is_written_in_a_pause() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: SOON, longest: FOREVER, again: FOREVER });
        let tubes = tubes();
        let (file, seen) = (Some(PathBuf::from("tube.ron")), vec![Seen::of(b"old"), Seen::of(b"older")]);
        keeper.keep(Work { system: Arc::clone(&tubes), file: file.clone(), seen: seen.clone() });
        assert!(appears(&work));
        let back = read_recovery(&read_text(&work).unwrap(), "test").unwrap();
        assert_eq!((back.system, back.file, back.seen), ((*tubes).clone(), file, Some(seen)));
    }

    #[test]
    fn work_is_written_amid_changes_without_a_pause() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: FOREVER, longest: SOON, again: FOREVER });
        keeper.keep(unsaved(&tubes()));
        assert!(appears(&work));
        fs::remove_file(&work).unwrap();
        keeper.keep(unsaved(&tubes()));
        assert!(appears(&work), "the clock starts again after each write");
    }

    #[test]
    fn the_usual_pace_is_within_two_seconds() {
        assert!(Pace::USUAL.pause <= Pace::USUAL.longest);
        assert!(Pace::USUAL.longest <= Duration::from_millis(1500));
        assert!(Pace::USUAL.again <= Duration::from_secs(10));
    }

    #[test]
    fn what_waits_is_written_at_the_end_and_what_is_safe_is_removed() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: FOREVER, longest: FOREVER, again: FOREVER });
        keeper.keep(unsaved(&tubes()));
        keeper.flush();
        assert!(work.exists());
        keeper.nothing_to_keep();
        keeper.flush();
        assert!(!work.exists());
        keeper.keep(unsaved(&tubes()));
        drop(keeper);
        assert!(work.exists());
    }

    /// Waits until something is told, as long as a broken machine may take.
    fn told(keeper: &Keeper) -> Kept {
        (0..20_000)
            .find_map(|_| {
                std::thread::sleep(Duration::from_millis(1));
                keeper.heard()
            })
            .unwrap()
    }

    #[test]
    fn what_cannot_be_written_is_told_once_wakes_and_is_tried_again_until_it_can() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: SOON, longest: FOREVER, again: SOON });
        let woken = Arc::new(std::sync::atomic::AtomicUsize::new(0));
        let count = Arc::clone(&woken);
        let waker: Waker = Arc::new(move || {
            count.fetch_add(1, std::sync::atomic::Ordering::SeqCst);
        });
        keeper.wake_with(&waker);
        fs::create_dir(&work).unwrap();
        let tubes = tubes();
        keeper.keep(unsaved(&tubes));
        assert!(told(&keeper).work.unwrap().contains("there is a folder of that name"));
        std::thread::sleep(5 * SOON);
        assert_eq!(keeper.heard(), None, "it is told once");
        assert_eq!(woken.load(std::sync::atomic::Ordering::SeqCst), 1);
        fs::remove_dir(&work).unwrap();
        assert_eq!(told(&keeper), Kept::default(), "and told when it is over");
        assert_eq!(woken.load(std::sync::atomic::Ordering::SeqCst), 2);
        let back = read_recovery(&read_text(&work).unwrap(), "test").unwrap();
        assert_eq!(back.system, *tubes, "the work was not dropped");
    }

    #[test]
    fn what_could_not_be_written_is_tried_again_at_a_word_and_at_the_end() {
        for at_the_end in [false, true] {
            let folder = tempfile::tempdir().unwrap();
            let (keeper, work) = keeper(folder.path(), Pace { pause: SOON, longest: FOREVER, again: FOREVER });
            fs::create_dir(&work).unwrap();
            keeper.keep(unsaved(&tubes()));
            assert!(told(&keeper).work.is_some());
            fs::remove_dir(&work).unwrap();
            if at_the_end {
                drop(keeper);
                assert!(work.is_file());
            } else {
                keeper.try_again();
                assert!(appears(&work));
            }
        }
    }

    /// Whichever step of writing fails: the copy before stays whole, it is told, and the next try writes all of it.
    #[test]
    fn a_disk_that_fails_once_costs_neither_the_copy_before_nor_the_work() {
        for step in Step::ALL {
            let folder = tempfile::tempdir().unwrap();
            let place = folder.path().join("work.ron");
            fs::write(&place, "the copy before").unwrap();
            let disk = Arc::new(Faulty::once_at(step));
            let pace = Pace { pause: FOREVER, longest: FOREVER, again: FOREVER };
            let (keeper, work) = keeper_on(disk, folder.path(), pace);
            let tubes = tubes();
            keeper.keep(unsaved(&tubes));
            keeper.flush();
            let said = keeper.kept().work.unwrap();
            let named =
                if step == Step::SyncFolder { "does not say that it is safe" } else { "no space left on the disk" };
            assert!(said.contains(named) && said.contains("work.ron"), "{step:?}: {said}");
            let there = fs::read_to_string(&work).unwrap();
            assert_eq!(there == "the copy before", step != Step::SyncFolder, "{step:?}: {there}");
            keeper.try_again();
            keeper.flush();
            assert_eq!(keeper.kept(), Kept::default(), "{step:?}: over once it is written");
            let back = read_recovery(&read_text(&work).unwrap(), "test").unwrap();
            assert_eq!(back.system, *tubes, "{step:?}");
            assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "{step:?} leaves something behind");
        }
    }

    #[test]
    fn work_that_cannot_be_written_is_tried_again_in_its_time_though_settings_could() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, work) = keeper(folder.path(), Pace { pause: FOREVER, longest: FOREVER, again: SOON });
        fs::create_dir(&work).unwrap();
        keeper.keep(unsaved(&tubes()));
        keeper.settings("(dark: true)".into());
        keeper.flush();
        let kept = keeper.kept();
        assert!(kept.work.is_some() && kept.settings.is_none(), "{kept:?}");
        fs::remove_dir(&work).unwrap();
        assert!(appears(&work));
    }

    #[test]
    fn settings_that_cannot_be_written_are_not_dropped() {
        let folder = tempfile::tempdir().unwrap();
        let (keeper, _) = keeper(folder.path(), Pace { pause: FOREVER, longest: FOREVER, again: FOREVER });
        let place = folder.path().join("settings.ron");
        fs::create_dir(&place).unwrap();
        keeper.settings("(dark: true)".into());
        keeper.flush();
        assert!(keeper.kept().settings.is_some());
        fs::remove_dir(&place).unwrap();
        keeper.try_again();
        keeper.flush();
        assert_eq!((keeper.kept(), fs::read_to_string(&place).unwrap()), (Kept::default(), "(dark: true)".to_owned()));
    }
}
