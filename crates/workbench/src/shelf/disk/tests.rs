//! A disk that fails at any step: what was there before stays, nothing is left behind, and the reason is told.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;
use std::sync::Mutex;

use super::steps::Disk;
use super::{RealDisk, Seen, Written, save_atomically, write_whole};

/// A step of writing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    Create,
    Write,
    Sync,
    Read,
    Rename,
    SyncFolder,
}

use Step::{Create, Read as ReadBack, Rename, Sync, SyncFolder, Write};

/// The machine's disk, which notes each step and fails at one of them.
struct Faulty {
    at: Option<Step>,
    /// It does as if all went well, and does something else: half is written, other bytes are read.
    silently: bool,
    steps: Mutex<Vec<Step>>,
}

impl Faulty {
    fn at(at: Option<Step>) -> Self {
        Self { at, silently: false, steps: Mutex::default() }
    }

    fn step(&self, step: Step) -> io::Result<bool> {
        self.steps.lock().unwrap().push(step);
        match self.at == Some(step) {
            true if !self.silently => Err(io::ErrorKind::StorageFull.into()),
            fails => Ok(fails),
        }
    }
}

impl Disk for Faulty {
    fn create(&self, path: &Path) -> io::Result<File> {
        self.step(Create)?;
        RealDisk.create(path)
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        let half = self.step(Write)?;
        RealDisk.write(file, if half { &bytes[..bytes.len() / 2] } else { bytes })
    }

    fn sync(&self, file: &File) -> io::Result<()> {
        self.step(Sync)?;
        RealDisk.sync(file)
    }

    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        let garbled = self.step(ReadBack)?;
        let mut bytes = RealDisk.read(path)?;
        if garbled {
            bytes[0] ^= 1;
        }
        Ok(bytes)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step(Rename)?;
        RealDisk.rename(from, to)
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        self.step(SyncFolder)?;
        RealDisk.sync_folder(folder)
    }
}

/// A folder with a file that holds `old`.
fn folder() -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tube.ron");
    fs::write(&file, "old").unwrap();
    (folder, file)
}

#[test]
fn a_file_is_safe_and_read_back_before_it_takes_its_name() {
    let (_folder, file) = folder();
    let disk = Faulty::at(None);
    assert_eq!(write_whole(&disk, &file, b"new", None).unwrap(), Written::Safe);
    assert_eq!(*disk.steps.lock().unwrap(), [Create, Write, Sync, ReadBack, Rename, SyncFolder]);
    assert_eq!(fs::read_to_string(&file).unwrap(), "new");
}

#[test]
fn whatever_step_fails_the_file_holds_what_it_held_and_nothing_is_left_behind() {
    for at in [Create, Write, Sync, ReadBack, Rename] {
        let (folder, file) = folder();
        let problem = write_whole(&Faulty::at(Some(at)), &file, b"new", None).unwrap_err().to_string();
        assert!(problem.contains("there is no space left on the disk"), "{at:?}: {problem}");
        assert!(problem.contains("what was there before is untouched"), "{at:?}: {problem}");
        assert_eq!(fs::read_to_string(&file).unwrap(), "old", "{at:?}");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "{at:?} leaves something behind");
    }
}

#[test]
fn a_disk_that_keeps_half_or_gives_back_something_else_is_not_trusted() {
    for at in [Write, ReadBack] {
        let (folder, file) = folder();
        let disk = Faulty { silently: true, ..Faulty::at(Some(at)) };
        let problem = write_whole(&disk, &file, b"new", None).unwrap_err().to_string();
        assert!(problem.contains("it reads back otherwise than it was written"), "{at:?}: {problem}");
        assert_eq!(fs::read_to_string(&file).unwrap(), "old", "{at:?}");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }
}

#[test]
fn a_name_that_is_not_safe_yet_is_told() {
    let (_folder, file) = folder();
    let problem = write_whole(&Faulty::at(Some(SyncFolder)), &file, b"new", None).unwrap_err().to_string();
    assert!(problem.contains("it was written, but the disk does not say that it is safe"), "{problem}");
    assert_eq!(fs::read_to_string(&file).unwrap(), "new");
}

/// Whoever has the old file open goes on reading the old file: another one takes its name, and no byte of the
/// old one is written over, which a crash could leave half done.
#[test]
fn the_old_file_is_replaced_and_not_written_over() {
    let (folder, file) = folder();
    let mut reader = File::open(&file).unwrap();
    let linked = folder.path().join("linked.ron");
    fs::hard_link(&file, &linked).unwrap();
    save_atomically(&file, "new").unwrap();
    let mut held = String::new();
    reader.read_to_string(&mut held).unwrap();
    let there = [&file, &linked].map(|path| fs::read_to_string(path).unwrap());
    assert_eq!((held.as_str(), there), ("old", ["new".to_owned(), "old".to_owned()]));
}

#[test]
fn what_somebody_else_wrote_is_left_alone() {
    let (folder, file) = folder();
    let [old, other] = ["old", "other"].map(|text| Seen::of(text.as_bytes()));
    let write = |seen: &[Seen]| write_whole(&RealDisk, &file, b"new", Some(seen)).unwrap();
    assert_eq!(write(&[other]), Written::Changed);
    assert_eq!(write(&[]), Written::Changed, "where nothing is known, what is there is somebody else's");
    assert_eq!(fs::read_to_string(&file).unwrap(), "old");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    assert_eq!(write(&[other, old]), Written::Safe);
    fs::remove_file(&file).unwrap();
    assert_eq!(write(&[other]), Written::Safe, "a file that is gone holds nothing that could be lost");
    assert_ne!(Seen::of(b"ab"), Seen::of(b"ba"));
}
