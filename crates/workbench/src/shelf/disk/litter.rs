//! Temporary files: named so that they are known again, held by a lock while they are written, and swept
//! away where whoever wrote them is gone.

use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use super::Disk;

const HEAD: &str = ".elbowroom-";
const TAIL: &str = ".part";

/// Where nobody can say whether its writer lives, a temporary file without a lock is litter once it is this
/// old: a younger one may not have its lock yet.
const STALE: Duration = Duration::from_secs(60);

/// Where a disk knows no locks, a temporary file is litter once it is this old.
const STALE_WITHOUT_LOCKS: Duration = Duration::from_secs(24 * 3600);

/// A temporary file that goes away with this value, unless it has been given its own name.
pub(super) struct Temporary {
    path: PathBuf,
    /// Locked until it is dropped; the system frees it however the program ends.
    pub file: File,
    stays: bool,
}

impl Temporary {
    /// Makes a temporary file in a folder.
    ///
    /// # Errors
    /// Those of the system.
    pub fn create(disk: &dyn Disk, folder: &Path) -> io::Result<Self> {
        static COUNT: AtomicU64 = AtomicU64::new(0);
        loop {
            let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default().as_nanos();
            let count = COUNT.fetch_add(1, Ordering::Relaxed);
            let path = folder.join(format!("{HEAD}{}-{now:x}-{count}{TAIL}", std::process::id()));
            let file = match disk.create(&path) {
                Err(error) if error.kind() == ErrorKind::AlreadyExists => continue,
                made => made?,
            };
            let made = Self { path, file, stays: false };
            match made.file.try_lock() {
                // Somebody sweeps and has taken it for litter.
                Err(TryLockError::WouldBlock) => {}
                // Some disks know no locks; the name and the age must do there.
                Ok(()) | Err(TryLockError::Error(_)) => return Ok(made),
            }
        }
    }

    /// Its name for now.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// It has its own name now and stays.
    pub fn stay(mut self) {
        self.stays = true;
    }
}

impl Drop for Temporary {
    fn drop(&mut self) {
        if !self.stays {
            // If it cannot be removed now, the next start sweeps it away.
            let _ = fs::remove_file(&self.path);
        }
    }
}

/// Removes the temporary files in a folder whose writers are gone. Those of a program that still runs stay,
/// and so does everything else.
pub fn sweep(folder: &Path) {
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let Some(name) = name.to_str().filter(|name| name.starts_with(HEAD) && name.ends_with(TAIL)) else { continue };
        if entry.file_type().is_ok_and(|kind| kind.is_file()) && is_litter(&entry.path(), name) {
            // It is only litter: if it cannot be removed now, it will be another time.
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// The same in the folder where a file lies, links followed.
pub fn sweep_beside(file: &Path) {
    let real = fs::canonicalize(file).unwrap_or_else(|_| file.to_owned());
    if let Some(folder) = real.parent() {
        sweep(folder);
    }
}

fn is_litter(path: &Path, name: &str) -> bool {
    let Ok(file) = File::open(path) else { return false };
    let age = file.metadata().and_then(|data| data.modified()).map(|made| made.elapsed().unwrap_or_default());
    let older = |limit| age.as_ref().is_ok_and(|age| *age > limit);
    match file.try_lock() {
        Ok(()) => writer_of(name).is_some_and(is_gone) || older(STALE),
        Err(TryLockError::WouldBlock) => false,
        Err(TryLockError::Error(_)) => older(STALE_WITHOUT_LOCKS),
    }
}

/// The process that made a temporary file of this name.
fn writer_of(name: &str) -> Option<u32> {
    name.strip_prefix(HEAD)?.split('-').next()?.parse().ok()
}

/// Whether a process is known to be gone.
fn is_gone(process: u32) -> bool {
    let list = Path::new("/proc/self");
    process != std::process::id() && list.exists() && !list.with_file_name(process.to_string()).exists()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::super::RealDisk;
    use super::*;

    #[test]
    fn only_what_the_dead_left_is_swept() {
        let folder = tempfile::tempdir().unwrap();
        let living = Temporary::create(&RealDisk, folder.path()).unwrap();
        // The largest process number that Linux gives is 2^22 (kernel documentation, pid_max).
        let dead = folder.path().join(".elbowroom-4194999-1a2b-0.part");
        let nameless = folder.path().join(".elbowroom-AbCdEf.part");
        let others = [folder.path().join("tube.part"), folder.path().join(".elbowroom-4194999.ron")];
        for path in others.iter().chain([&dead, &nameless]) {
            fs::write(path, "half").unwrap();
        }
        // A lock tells of a living writer, whatever the number says.
        let held = folder.path().join(".elbowroom-4194998-1a2b-0.part");
        let lock = File::create(&held).unwrap();
        lock.lock().unwrap();
        sweep(folder.path());
        assert!(living.path().exists() && held.exists() && others.iter().all(|path| path.exists()));
        assert_eq!(dead.exists(), !Path::new("/proc/self").exists());
        assert!(nameless.exists(), "it may be that of a program which is just starting");
        let old = SystemTime::now() - Duration::from_secs(3600);
        File::options().write(true).open(&nameless).unwrap().set_modified(old).unwrap();
        living.file.set_modified(old).unwrap();
        sweep(folder.path());
        assert!(!nameless.exists() && living.path().exists());
    }

    #[test]
    fn a_temporary_file_goes_unless_it_stays() {
        let folder = tempfile::tempdir().unwrap();
        drop(Temporary::create(&RealDisk, folder.path()).unwrap());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
        let temporary = Temporary::create(&RealDisk, folder.path()).unwrap();
        fs::rename(temporary.path(), folder.path().join("a")).unwrap();
        temporary.stay();
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }
}
