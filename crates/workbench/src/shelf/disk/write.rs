//! Writing a file whole or not at all.

use std::fs;
use std::io;
use std::path::Path;

use super::litter::Temporary;
use super::seen::Seen;
use super::through::{Target, target_of, write_through};
use super::words::reason;
use super::{Disk, RealDisk};
use crate::shelf::file::FileProblem;

/// What became of a file that was to be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Written {
    /// It is written and safe.
    Safe,
    /// It holds something else than what was last seen in it, and was left alone.
    Changed,
}

/// Writes a text or bytes so that the file holds either all of it or what it held before: into a temporary file in
/// the same folder, made safe on the disk, read back, and then renamed. A link stays a link and the file that
/// it names is replaced; pipes and devices are written through.
///
/// # Errors
/// Says in plain words why it could not be saved; what was there before is then still there.
pub fn save_atomically(path: &Path, content: impl AsRef<[u8]>) -> Result<(), FileProblem> {
    write_whole(&RealDisk, path, content.as_ref(), None).map(|_| ())
}

/// The same on any disk, and only over a file that holds one of `seen`, where that is given. A file that is
/// not there holds nothing that could be lost.
///
/// # Errors
/// Says in plain words why it could not be saved.
pub(crate) fn write_whole(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    seen: Option<&[Seen]>,
) -> Result<Written, FileProblem> {
    let name = path.display().to_string();
    let refuse = |error: io::Error| {
        let right = "what was there before is untouched: save under another name or in another folder";
        FileProblem::whole(&name, format!("it could not be saved: {}", reason(&error)), right)
    };
    let target = match target_of(path).map_err(refuse)? {
        Target::File(target) => target,
        Target::Through => {
            return match write_through(path, bytes) {
                Ok(()) => Ok(Written::Safe),
                Err(error) => {
                    let what = format!("it could not be written to: {}", reason(&error));
                    Err(FileProblem::whole(name, what, "name a plain file"))
                }
            };
        }
    };
    let folder = target.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let Some(temporary) = prepare(disk, &target, folder, bytes, seen).map_err(refuse)? else {
        return Ok(Written::Changed);
    };
    disk.rename(temporary.path(), &target).map_err(refuse)?;
    temporary.stay();
    disk.sync_folder(folder).map_err(|error| {
        let what = format!("it was written, but the disk does not say that it is safe: {}", reason(&error));
        FileProblem::whole(name, what, "save it again on another disk")
    })?;
    Ok(Written::Safe)
}

/// Everything up to the renaming. `None` where the file holds something that was not seen.
fn prepare(
    disk: &dyn Disk,
    target: &Path,
    folder: &Path,
    bytes: &[u8],
    seen: Option<&[Seen]>,
) -> io::Result<Option<Temporary>> {
    let before = fs::metadata(target).ok();
    // Renaming over a file asks nobody whether that file may be written.
    if before.as_ref().is_some_and(|before| before.permissions().readonly()) {
        return Err(io::Error::other("the file is marked as read-only"));
    }
    let mut temporary = Temporary::create(disk, folder)?;
    disk.write(&mut temporary.file, bytes)?;
    if let Some(before) = &before {
        temporary.file.set_permissions(before.permissions())?;
    }
    disk.sync(&temporary.file)?;
    if disk.read(temporary.path())? != bytes {
        return Err(io::Error::other("it reads back otherwise than it was written, so the disk cannot be trusted"));
    }
    // As late as can be, since making it safe may take long.
    let changed = match seen {
        Some(seen) => match disk.read(target) {
            Ok(there) => !seen.contains(&Seen::of(&there)),
            Err(error) if error.kind() == io::ErrorKind::NotFound => false,
            Err(error) => return Err(error),
        },
        None => false,
    };
    Ok((!changed).then_some(temporary))
}
