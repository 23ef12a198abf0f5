//! Where a name leads that is to be written to: to a file, which is replaced, or to a pipe or device, which
//! is written through.

use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// More links than this in a row lead in a circle.
const MOST_LINKS: usize = 40;

/// How long whoever reads a pipe may take nothing out of it.
const LONGEST_STANDSTILL: Duration = Duration::from_secs(30);

/// Where a name leads.
pub(super) enum Target {
    /// To a file of this name, which is there or not; all links are followed.
    File(PathBuf),
    /// To a pipe or device.
    Through,
}

/// Where a name leads.
///
/// # Errors
/// To a folder, or nowhere that can be found out.
pub(super) fn target_of(path: &Path) -> io::Result<Target> {
    match fs::metadata(path) {
        Ok(data) if data.is_dir() => Err(ErrorKind::IsADirectory.into()),
        // What is open but has no name any more can only be written through.
        Ok(data) if data.is_file() => Ok(fs::canonicalize(path).map_or(Target::Through, Target::File)),
        Ok(_) => Ok(Target::Through),
        Err(error) if error.kind() == ErrorKind::NotFound => end_of_links(path).map(Target::File),
        Err(error) => Err(error),
    }
}

/// The name that a chain of links ends at, where nothing is yet.
fn end_of_links(path: &Path) -> io::Result<PathBuf> {
    let mut at = path.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::read_link(&at) {
            // A link is meant from the folder that it lies in.
            Ok(next) => at = at.parent().unwrap_or(Path::new("")).join(next),
            Err(_) => return Ok(at),
        }
    }
    Err(io::Error::other("its links lead in a circle"))
}

/// Writes to a pipe or device, which stays what it is.
///
/// # Errors
/// Those of the system; a pipe that nobody reads is one.
pub(super) fn write_through(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut out = open(path)?;
    let (mut at, mut moved) = (0, Instant::now());
    while at < bytes.len() {
        match out.write(&bytes[at..]) {
            Ok(0) => return Err(ErrorKind::WriteZero.into()),
            Ok(count) => (at, moved) = (at + count, Instant::now()),
            Err(error) if error.kind() == ErrorKind::Interrupted => {}
            Err(error) if error.kind() == ErrorKind::WouldBlock && moved.elapsed() < LONGEST_STANDSTILL => {
                std::thread::sleep(Duration::from_millis(2));
            }
            Err(error) => return Err(error),
        }
    }
    Ok(())
}

/// Opens a pipe or device without waiting for whoever might read it.
fn open(path: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::custom_flags(&mut options, libc::O_NONBLOCK | libc::O_NOCTTY);
    options.write(true).open(path).map_err(|error| {
        #[cfg(unix)]
        if error.raw_os_error() == Some(libc::ENXIO) {
            return io::Error::other("it is a pipe, and nobody reads from it");
        }
        error
    })
}
