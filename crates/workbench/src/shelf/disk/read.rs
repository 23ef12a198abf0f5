//! Reading a file whole, with a limit, and without waiting for ever where it is a pipe.

use std::fs::{File, Metadata, OpenOptions};
use std::io::{self, ErrorKind, Read};
use std::path::Path;
use std::str::Utf8Error;
use std::time::{Duration, Instant};

use super::words::reason;
use crate::shelf::file::FileProblem;

/// Files beyond this size are refused unread, bytes: a hundred times the largest part that can be meant.
const LARGEST_FILE: u64 = 64 << 20;

/// How long somebody may take to begin writing to a pipe that is read.
const UNTIL_A_WRITER: Duration = Duration::from_secs(2);

/// How long whoever writes to a pipe may be silent.
const LONGEST_SILENCE: Duration = Duration::from_secs(30);

/// Reads a text file. A pipe or device is read too, as long as somebody writes to it.
///
/// # Errors
/// Says in plain words why it cannot be read.
pub fn read_text(path: &Path) -> Result<String, FileProblem> {
    text(read(path, true, LARGEST_FILE)?, path)
}

/// Reads a file of any kind as [`read_text`] does.
///
/// # Errors
/// Says in plain words why it cannot be read.
pub fn read_bytes(path: &Path) -> Result<Vec<u8>, FileProblem> {
    read(path, true, LARGEST_FILE)
}

/// Reads a file of any kind as [`read_text`] does, of up to so many bytes.
///
/// # Errors
/// Says in plain words why it cannot be read.
pub fn read_bytes_up_to(path: &Path, most: u64) -> Result<Vec<u8>, FileProblem> {
    read(path, true, most)
}

/// Reads a file of any kind that lies on a disk.
///
/// # Errors
/// Says in plain words why it cannot be read.
pub(crate) fn read_plain_bytes(path: &Path) -> Result<Vec<u8>, FileProblem> {
    read(path, false, LARGEST_FILE)
}

/// Reads a text file that lies on a disk. Pipes and devices are refused at once: a window cannot wait for
/// them.
///
/// # Errors
/// Says in plain words why it cannot be read.
pub fn read_plain_text(path: &Path) -> Result<String, FileProblem> {
    text(read(path, false, LARGEST_FILE)?, path)
}

/// The text that bytes are. `file` stands in the errors.
///
/// # Errors
/// Says on which line they are none.
pub fn text_of<'a>(bytes: &'a [u8], file: &str) -> Result<&'a str, FileProblem> {
    std::str::from_utf8(bytes).map_err(|error| no_text(bytes, error, file))
}

fn text(bytes: Vec<u8>, path: &Path) -> Result<String, FileProblem> {
    String::from_utf8(bytes).map_err(|error| no_text(error.as_bytes(), error.utf8_error(), &path.display().to_string()))
}

fn no_text(bytes: &[u8], error: Utf8Error, file: &str) -> FileProblem {
    let line = bytes[..error.valid_up_to()].iter().filter(|&&byte| byte == b'\n').count() + 1;
    FileProblem::on_line(file, line, "this is no text", "the file must be text in UTF-8")
}

fn read(path: &Path, pipes: bool, most: u64) -> Result<Vec<u8>, FileProblem> {
    let file = path.display().to_string();
    let refuse = |why: String| {
        FileProblem::whole(&file, format!("it cannot be read: {why}"), "name a file that is there and may be read")
    };
    let mut opened = open(path).map_err(|error| refuse(reason(&error)))?;
    let data = opened.metadata().map_err(|error| refuse(reason(&error)))?;
    let bytes = if data.is_file() {
        // Room for all of it at once: growing by doubling would take up to three times as much.
        let mut bytes = Vec::with_capacity(data.len().min(most) as usize + 1);
        opened.take(most + 1).read_to_end(&mut bytes).map(|_| bytes)
    } else if data.is_dir() {
        Err(ErrorKind::IsADirectory.into())
    } else if pipes {
        read_patiently(&mut opened, &data, most)
    } else {
        return Err(refuse("it is no plain file but a pipe or device".into()));
    };
    let bytes = bytes.map_err(|error| refuse(reason(&error)))?;
    if bytes.len() as u64 > most {
        let what = format!("it is larger than {} MiB", most >> 20);
        let right =
            if most == LARGEST_FILE { "name a text file of this program's own kinds" } else { "name a smaller one" };
        return Err(FileProblem::whole(file, what, right));
    }
    Ok(bytes)
}

/// Opens a file without waiting for whoever might write to it.
fn open(path: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::custom_flags(&mut options, libc::O_NONBLOCK | libc::O_NOCTTY);
    options.read(true).open(path)
}

/// Reads what comes out of a pipe or device until its end, but waits for no one for ever.
fn read_patiently(file: &mut File, data: &Metadata, most: u64) -> io::Result<Vec<u8>> {
    let (mut bytes, mut chunk) = (Vec::new(), [0; 1 << 14]);
    let mut heard = Instant::now();
    loop {
        let wait = match file.read(&mut chunk) {
            // A pipe that nobody writes to reads as if it were at its end.
            Ok(0) if bytes.is_empty() && is_pipe(data) => UNTIL_A_WRITER,
            Ok(0) => return Ok(bytes),
            Ok(count) => {
                bytes.extend_from_slice(&chunk[..count]);
                if bytes.len() as u64 > most {
                    return Ok(bytes);
                }
                heard = Instant::now();
                continue;
            }
            Err(error) if error.kind() == ErrorKind::WouldBlock => LONGEST_SILENCE,
            Err(error) if error.kind() == ErrorKind::Interrupted => continue,
            Err(error) => return Err(error),
        };
        if heard.elapsed() > wait {
            return Err(io::Error::other("it is a pipe, and nobody writes to it"));
        }
        std::thread::sleep(Duration::from_millis(2));
    }
}

#[cfg(unix)]
fn is_pipe(data: &Metadata) -> bool {
    std::os::unix::fs::FileTypeExt::is_fifo(&data.file_type())
}

#[cfg(not(unix))]
fn is_pipe(_: &Metadata) -> bool {
    false
}

/// Whether the system says that there is nothing of this name, as against not being able to say.
pub(crate) fn is_nothing_there(path: &Path) -> bool {
    std::fs::symlink_metadata(path).is_err_and(|error| error.kind() == ErrorKind::NotFound)
}
