//! The thread that saves systems, so that no frame waits for a disk: one save after the other, in the order in
//! which they were asked for.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;

use elbowroom_bending::System;

use crate::Waker;
use crate::shelf::disk::{Disk, Seen, Written, write_whole};
use crate::shelf::file::{FileProblem, certain_text, sweep_beside};

/// A system that is to be saved.
#[derive(Clone)]
pub(crate) struct Job {
    /// The tubes.
    pub system: Arc<System>,
    /// Its file.
    pub path: PathBuf,
    /// It is written only over a file that holds one of these; over any file where nothing is named.
    pub seen: Option<Vec<Seen>>,
}

/// What came of it.
pub(crate) struct Saved {
    /// The tubes.
    pub system: Arc<System>,
    /// Its file.
    pub path: PathBuf,
    /// What was to be written; `None` where it could not even be put into words. A save that fails at its last step has
    /// written it all the same, and nobody else has.
    pub tried: Option<Seen>,
    /// What the file holds now, `None` where it was left alone since somebody else has changed it; or why it
    /// could not be saved.
    pub outcome: Result<Option<Seen>, FileProblem>,
}

impl Job {
    /// Saves.
    pub fn run(self, disk: &dyn Disk) -> Saved {
        let mut tried = None;
        let outcome = self.save(disk, &mut tried);
        Saved { system: self.system, path: self.path, tried, outcome }
    }

    fn save(&self, disk: &dyn Disk, tried: &mut Option<Seen>) -> Result<Option<Seen>, FileProblem> {
        let text = certain_text(&self.system, &self.path.display().to_string())?;
        let ours = *tried.insert(Seen::of(text.as_bytes()));
        // What holds the same already has not been changed by anybody.
        let seen = self.seen.as_ref().map(|seen| [&seen[..], &[ours]].concat());
        match write_whole(disk, &self.path, text.as_bytes(), seen.as_deref())? {
            Written::Changed => Ok(None),
            Written::Safe => {
                sweep_beside(&self.path);
                Ok(Some(ours))
            }
        }
    }
}

/// The thread, and the ways to it and back. Dropping it saves what waits and ends it.
pub(crate) struct Saver {
    jobs: Option<Sender<Job>>,
    /// Behind a lock because the window's engine shares the workbench between threads, which a receiver alone forbids.
    saved: Mutex<Receiver<Saved>>,
    thread: Option<JoinHandle<()>>,
}

impl Saver {
    /// Starts the thread. It wakes somebody after each save.
    ///
    /// # Errors
    /// Where the system gives no thread.
    pub fn start(disk: Arc<dyn Disk>, waker: Waker) -> io::Result<Self> {
        let (jobs, received) = channel::<Job>();
        let (told, saved) = channel();
        let run = move || {
            // What this thread has written is not somebody else's change, though nobody has heard of it yet.
            let mut last: Option<(PathBuf, Seen)> = None;
            for mut job in received {
                if let (Some(seen), Some((_, mark))) = (&mut job.seen, last.as_ref().filter(|(at, _)| *at == job.path))
                {
                    seen.push(*mark);
                }
                let done = job.run(&*disk);
                if let Some(mark) = done.tried {
                    last = Some((done.path.clone(), mark));
                }
                // Whoever asked may have gone; what matters is written.
                let _ = told.send(done);
                waker();
            }
        };
        let thread = std::thread::Builder::new().name("saver".into()).spawn(run)?;
        Ok(Self { jobs: Some(jobs), saved: Mutex::new(saved), thread: Some(thread) })
    }

    /// Saves, some time soon; gives the job back where the thread is gone.
    ///
    /// # Errors
    /// Where the thread is gone.
    pub fn save(&self, job: Job) -> Result<(), Job> {
        match &self.jobs {
            Some(jobs) => jobs.send(job).map_err(|refused| refused.0),
            None => Err(job),
        }
    }

    /// What came of the next save, if it is done.
    ///
    /// # Errors
    /// Where the thread is gone.
    pub fn saved(&self) -> Result<Option<Saved>, ()> {
        match self.saved.lock().unwrap_or_else(PoisonError::into_inner).try_recv() {
            Ok(saved) => Ok(Some(saved)),
            Err(TryRecvError::Empty) => Ok(None),
            Err(TryRecvError::Disconnected) => Err(()),
        }
    }
}

impl Drop for Saver {
    fn drop(&mut self) {
        self.jobs = None;
        if let Some(thread) = self.thread.take() {
            // A panic over there has been reported by its own message; there is nothing to add here.
            let _ = thread.join();
        }
    }
}

/// Whether two names mean the same file.
pub(crate) fn same_file(one: &Path, other: &Path) -> bool {
    let real = |path: &Path| std::fs::canonicalize(path).or_else(|_| std::path::absolute(path)).ok();
    one == other || real(one).is_some_and(|one| Some(one) == real(other))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::fs;

    use super::*;
    use crate::shelf::disk::faulty::{Faulty, Step};
    use crate::shelf::file::{demo_parts, read_system};

    /// The window's engine hands the workbench from thread to thread; without this the windowless build alone would pass.
    #[test]
    fn a_workbench_can_be_shared_between_threads() {
        fn shared<T: Send + Sync>() {}
        shared::<crate::Workbench>();
    }

    /// Whichever step of saving fails: the file is as it was, or it is whole and that it may not be safe yet is told. The
    /// next save goes through, and nobody is asked about a change that nobody made.
    #[test]
    fn a_save_that_fails_at_any_step_leaves_the_old_file_and_is_told() {
        let system = Arc::new(System::of(demo_parts().next().unwrap().read().unwrap()));
        for step in Step::ALL {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("tube.ron");
            fs::write(&path, "old").unwrap();
            let (woken, wait) = channel();
            let waker: Waker = Arc::new(move || woken.send(()).unwrap_or_default());
            let saver = Saver::start(Arc::new(Faulty::once_at(step)), waker).unwrap();
            let job = Job { system: Arc::clone(&system), path: path.clone(), seen: Some(vec![Seen::of(b"old")]) };
            let saved = |job: Job| {
                assert!(saver.save(job).is_ok());
                wait.recv().unwrap();
                saver.saved().unwrap().unwrap()
            };
            let failed = saved(job.clone());
            let there = Seen::of(&fs::read(&path).unwrap());
            assert_eq!(failed.tried == Some(there), step == Step::SyncFolder, "{step:?}: what is there is known");
            let said = failed.outcome.unwrap_err().to_string();
            let (named, kept) = match step {
                Step::SyncFolder => ("it was written, but the disk does not say that it is safe", false),
                _ => ("what was there before is untouched", true),
            };
            assert!(said.contains(named) && said.contains("tube.ron"), "{step:?}: {said}");
            assert_eq!(fs::read_to_string(&path).unwrap() == "old", kept, "{step:?}");
            assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "{step:?} leaves something behind");
            assert!(saved(job).outcome.unwrap().is_some(), "{step:?}: the next one is written");
            let text = fs::read_to_string(&path).unwrap();
            assert!(read_system(&text, "test").unwrap().holds_the_same_as(&system), "{step:?}");
        }
    }

    /// Two saves are asked for before anybody has heard of the first, which is written but not known to be safe.
    #[test]
    fn what_a_failed_save_has_written_is_nobody_elses_for_the_save_behind_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("tube.ron");
        fs::write(&path, "old").unwrap();
        let saver = Saver::start(Arc::new(Faulty::once_at(Step::SyncFolder)), Arc::new(|| {})).unwrap();
        for demo in demo_parts().take(2) {
            let system = Arc::new(System::of(demo.read().unwrap()));
            let job = Job { system, path: path.clone(), seen: Some(vec![Seen::of(b"old")]) };
            assert!(saver.save(job).is_ok());
        }
        let next = || {
            let told = (0..20_000).find_map(|_| {
                std::thread::sleep(std::time::Duration::from_millis(1));
                saver.saved().unwrap()
            });
            told.unwrap().outcome
        };
        assert!(next().is_err());
        assert!(matches!(next(), Ok(Some(_))), "it was taken for somebody else's");
    }
}
