//! The steps by which a file is written, one by one, so that a test can let each of them fail.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::Path;

/// A disk. Every step does what the system does unless it is written otherwise.
pub trait Disk: Send + Sync {
    /// Makes a new file, which must not be there yet.
    ///
    /// # Errors
    /// Those of the system.
    fn create(&self, path: &Path) -> io::Result<File> {
        OpenOptions::new().read(true).write(true).create_new(true).open(path)
    }

    /// Writes all bytes to a file.
    ///
    /// # Errors
    /// Those of the system.
    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        file.write_all(bytes)
    }

    /// Makes what was written to a file safe.
    ///
    /// # Errors
    /// Those of the system.
    fn sync(&self, file: &File) -> io::Result<()> {
        file.sync_all()
    }

    /// Reads a whole file.
    ///
    /// # Errors
    /// Those of the system.
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        fs::read(path)
    }

    /// Gives a file another name, in place of whatever has that name.
    ///
    /// # Errors
    /// Those of the system.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    /// Makes the names in a folder safe.
    ///
    /// # Errors
    /// Those of the system.
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        // Only there can a folder be opened to be synced; elsewhere renaming is as safe as the system makes it.
        #[cfg(unix)]
        match File::open(folder)?.sync_all() {
            Err(error) if !matches!(error.kind(), io::ErrorKind::InvalidInput | io::ErrorKind::Unsupported) => {
                return Err(error);
            }
            _ => {}
        }
        let _ = folder;
        Ok(())
    }
}

/// The disk of the machine.
#[derive(Clone, Copy, Debug, Default)]
pub struct RealDisk;

impl Disk for RealDisk {}
