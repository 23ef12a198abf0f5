//! Work that a crash left behind: one recovery file for each running program, held by a locked file beside
//! it, and offered by the next program that finds the lock free.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use elbowroom_bending::System;

use crate::shelf::disk::Seen;
use crate::shelf::file::{FileProblem, Recovered, read_plain_text, read_recovery};

/// A lock without a recovery file is swept away once it is this old: a younger one may be that of a
/// program which is just starting.
const STALE: Duration = Duration::from_secs(60);

/// A recovery file that this program alone may write, for as long as it runs.
pub(crate) struct Hold {
    work: PathBuf,
    lock: PathBuf,
    /// Locked; the system frees it however the program ends.
    _held: File,
}

/// Work that no running program holds.
pub(crate) struct Offer {
    hold: Hold,
    /// The tubes.
    pub system: Arc<System>,
    /// The file it was opened from.
    pub file: Option<PathBuf>,
    /// What that held when the program last read or wrote it; `None` where nobody noted it.
    pub seen: Option<Vec<Seen>>,
    /// How long ago it was written, in words.
    pub age: String,
    written: SystemTime,
    /// When the program began that held it.
    pub began: Option<SystemTime>,
}

impl Hold {
    /// Takes a new recovery file in a folder, which is made if need be. The file is not written yet.
    ///
    /// # Errors
    /// Where the folder cannot be written to.
    pub fn take(folder: &Path) -> io::Result<Self> {
        fs::create_dir_all(folder)?;
        let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default().as_nanos();
        let name = format!("work-{}-{now}", std::process::id());
        let lock = folder.join(format!("{name}.lock"));
        let held = OpenOptions::new().write(true).create_new(true).open(&lock)?;
        held.try_lock()?;
        Ok(Self { work: folder.join(format!("{name}.ron")), lock, _held: held })
    }

    /// The recovery file.
    pub fn work(&self) -> &Path {
        &self.work
    }
}

impl Drop for Hold {
    fn drop(&mut self) {
        // The lock goes only where no work needs it; if it stays, the next start sweeps it away.
        if !self.work.exists() {
            let _ = fs::remove_file(&self.lock);
        }
    }
}

impl Offer {
    /// Removes the recovery file: its work is elsewhere by now, or not wanted.
    ///
    /// # Errors
    /// Where it cannot be removed.
    pub fn remove(self) -> io::Result<()> {
        fs::remove_file(&self.hold.work)
    }
}

/// Work that could not be read: its file, and why.
pub(crate) type Unread = (PathBuf, FileProblem);

/// All work in a folder that no running program holds, the latest first, and what could not be read.
///
/// # Errors
/// Where the folder is there and cannot be read.
pub(crate) fn offers(folder: &Path) -> io::Result<(Vec<Offer>, Vec<Unread>)> {
    let mut problems = Vec::new();
    let mut found: Vec<Offer> = Vec::new();
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok((found, problems)),
        entries => entries?,
    };
    for path in entries.flatten().map(|entry| entry.path()) {
        match path.extension().and_then(|extension| extension.to_str()) {
            Some("ron") => match offer(&path) {
                Ok(offer) => found.extend(offer),
                Err(problem) => problems.push((path, problem)),
            },
            Some("lock") => sweep(&path),
            _ => {}
        }
    }
    // Files written within one tick of the system's clock say the same; the name tells which began later.
    found.sort_by(|a, b| (b.written, &b.hold.work).cmp(&(a.written, &a.hold.work)));
    Ok((found, problems))
}

/// The work of one recovery file; `None` while a program holds it.
///
/// # Errors
/// Says why it cannot be read.
pub(crate) fn offer(work: &Path) -> Result<Option<Offer>, FileProblem> {
    let lock = work.with_extension("lock");
    let opened = OpenOptions::new().write(true).create(true).truncate(false).open(&lock);
    let held = opened.map_err(|error| FileProblem::whole(lock.display().to_string(), error.to_string(), ""))?;
    match held.try_lock() {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => return Ok(None),
        Err(TryLockError::Error(error)) => {
            return Err(FileProblem::whole(lock.display().to_string(), error.to_string(), ""));
        }
    }
    let Recovered { system, file, seen } = read_recovery(&read_plain_text(work)?, &work.display().to_string())?;
    let written = fs::metadata(work).and_then(|data| data.modified()).unwrap_or(UNIX_EPOCH);
    let age = in_words(written.elapsed().unwrap_or_default());
    let hold = Hold { work: work.to_owned(), lock, _held: held };
    let system = Arc::new(system);
    let began = began(work);
    Ok(Some(Offer { hold, system, file, seen, age, written, began }))
}

/// When the program began that made a recovery file of this name.
fn began(work: &Path) -> Option<SystemTime> {
    let nanoseconds = work.file_stem()?.to_str()?.rsplit('-').next()?.parse().ok()?;
    UNIX_EPOCH.checked_add(Duration::from_nanos(nanoseconds))
}

/// Removes an old lock that holds nothing.
fn sweep(lock: &Path) {
    let age = fs::metadata(lock).and_then(|data| data.modified()).map(|written| written.elapsed().unwrap_or_default());
    if lock.with_extension("ron").exists() || age.is_ok_and(|age| age < STALE) {
        return;
    }
    if File::open(lock).is_ok_and(|file| file.try_lock().is_ok()) {
        // It is only litter: if it cannot be removed now, it will be another time.
        let _ = fs::remove_file(lock);
    }
}

/// A length of time as a person says it.
fn in_words(age: Duration) -> String {
    let seconds = age.as_secs();
    let (count, unit) = match seconds {
        0..60 => return "less than a minute ago".into(),
        60..3600 => (seconds / 60, "minute"),
        3600..86_400 => (seconds / 3600, "hour"),
        _ => (seconds / 86_400, "day"),
    };
    format!("{count} {unit}{} ago", if count == 1 { "" } else { "s" })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ages_are_said_as_a_person_says_them() {
        let said = [5, 60, 150, 3600, 90_000, 200_000].map(|seconds| in_words(Duration::from_secs(seconds)));
        let words = ["less than a minute", "1 minute", "2 minutes", "1 hour", "1 day", "2 days"];
        assert_eq!(said, words.map(|words| format!("{words} ago")));
    }

    #[test]
    fn a_lock_that_holds_nothing_is_swept_once_it_is_old() {
        let folder = tempfile::tempdir().expect("a folder");
        let old = SystemTime::now() - Duration::from_secs(3600);
        let lock = |name: &str, modified: Option<SystemTime>| {
            let path = folder.path().join(name);
            let file = File::create(&path).expect("a new file");
            if let Some(time) = modified {
                file.set_modified(time).expect("a time");
            }
            path
        };
        let (starting, left) = (lock("work-1-1.lock", None), lock("work-2-2.lock", Some(old)));
        let held = lock("work-3-3.lock", Some(old));
        let program = File::open(&held).expect("it is there");
        program.lock().expect("nobody else holds it");
        let (found, _) = offers(folder.path()).expect("the folder can be read");
        assert!(found.is_empty());
        assert_eq!([starting, left, held].map(|lock| lock.exists()), [true, false, true]);
    }
}
