//! Files on disk: read whole, written whole or not at all, and read back before they count as saved.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Read, Write};
use std::path::Path;

use elbowroom_bending::Part;
use tempfile::Builder;

use super::problem::FileProblem;
use super::reading::{read_part, write_part};

/// Files beyond this size are refused unread, bytes: a hundred times the largest part that can be meant.
const LARGEST_FILE: u64 = 64 << 20;

/// Reads a text file.
///
/// # Errors
/// Says in plain words why it cannot be read.
pub fn read_text(path: &Path) -> Result<String, FileProblem> {
    let file = path.display().to_string();
    let refuse = |error: &io::Error| {
        let what = format!("it cannot be read: {}", reason(error));
        FileProblem::whole(&file, what, "name a file that is there and may be read")
    };
    let mut bytes = Vec::new();
    let opened = File::open(path).map_err(|error| refuse(&error))?;
    opened.take(LARGEST_FILE + 1).read_to_end(&mut bytes).map_err(|error| refuse(&error))?;
    if bytes.len() as u64 > LARGEST_FILE {
        let what = format!("it is larger than {} MiB", LARGEST_FILE >> 20);
        return Err(FileProblem::whole(file, what, "name a text file of this program's own kinds"));
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = good.iter().filter(|&&byte| byte == b'\n').count() + 1;
        FileProblem::on_line(file, line, "this is no text", "the file must be text in UTF-8")
    })
}

/// Writes a text so that the file holds either all of it or what it held before: into a temporary file in
/// the same folder, made safe on the disk, then renamed, and read back.
///
/// # Errors
/// Says in plain words why it could not be saved; what was there before is then still there.
pub fn save_atomically(path: &Path, text: &str) -> Result<(), FileProblem> {
    let file = path.display().to_string();
    let refuse = |error: io::Error| {
        let right = "what was there before is untouched: save under another name or in another folder";
        FileProblem::whole(&file, format!("it could not be saved: {}", reason(&error)), right)
    };
    // A link is followed, so that it stays a link and the file that it names is replaced.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    replace(&target, text).map_err(refuse)?;
    match read_text(&target) {
        Ok(back) if back == text => Ok(()),
        Ok(_) => Err(FileProblem::whole(&file, "it reads back otherwise than it was written", ELSEWHERE)),
        Err(problem) => Err(FileProblem::whole(&file, format!("it was written, but {}", problem.what), ELSEWHERE)),
    }
}

/// What helps when a disk does not keep what it is given.
const ELSEWHERE: &str = "save it again on another disk";

/// Writes a part and reads it back before it counts as saved.
///
/// # Errors
/// Says in plain words why it could not be saved.
pub fn save_part(path: &Path, part: &Part) -> Result<(), FileProblem> {
    let text = write_part(part);
    let file = path.display().to_string();
    match read_part(&text, &file).map(|back| as_held(back, part)) {
        Ok(back) if back == *part => save_atomically(path, &text),
        Ok(_) => Err(FileProblem::whole(file, "the part would not read back as it is", "nothing was written")),
        Err(problem) => {
            Err(FileProblem::whole(file, format!("the part would be refused: {}", problem.what), "nothing was written"))
        }
    }
}

/// A part that was read back, with what its version of the file does not hold: from which end and to which side it is
/// bent.
fn as_held(mut back: Part, part: &Part) -> Part {
    (back.tooling.from, back.tooling.hand) = (part.tooling.from, part.tooling.hand);
    back
}

fn replace(target: &Path, text: &str) -> io::Result<()> {
    let folder = target.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let before = fs::metadata(target).ok();
    if before.as_ref().is_some_and(fs::Metadata::is_dir) {
        return Err(ErrorKind::IsADirectory.into());
    }
    // Renaming over a file asks nobody whether that file may be written.
    if before.as_ref().is_some_and(|before| before.permissions().readonly()) {
        return Err(io::Error::other("the file is marked as read-only"));
    }
    let mut builder = Builder::new();
    builder.prefix(".elbowroom-").suffix(".part");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut temporary = builder.tempfile_in(folder)?;
    temporary.write_all(text.as_bytes())?;
    if let Some(before) = before {
        temporary.as_file().set_permissions(before.permissions())?;
    }
    temporary.as_file().sync_all()?;
    temporary.persist(target)?;
    sync_folder(folder)
}

/// Makes the new name safe on the disk.
fn sync_folder(folder: &Path) -> io::Result<()> {
    // Only there can a folder be opened to be synced; elsewhere renaming is as safe as the system makes it.
    #[cfg(unix)]
    match File::open(folder)?.sync_all() {
        Err(error) if !matches!(error.kind(), ErrorKind::InvalidInput | ErrorKind::Unsupported) => return Err(error),
        _ => {}
    }
    let _ = folder;
    Ok(())
}

/// Why the system refused, in plain words.
fn reason(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::PermissionDenied => "you have no permission there".into(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "there is no space left on the disk".into(),
        ErrorKind::ReadOnlyFilesystem => "the disk can only be read".into(),
        ErrorKind::NotFound => "the file or its folder is not there".into(),
        ErrorKind::NotADirectory => "the folder it should be in is no folder".into(),
        ErrorKind::IsADirectory => "there is a folder of that name".into(),
        ErrorKind::InvalidFilename => "the name is too long or not allowed".into(),
        _ => error.to_string(),
    }
}
