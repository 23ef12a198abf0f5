//! A disk that fails at any step: what was there before stays, nothing is left behind, and the reason is told.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs::{self, File};
use std::io::Read;

use super::faulty::Faulty;
use super::faulty::Step::{self, Create, Read as ReadBack, Rename, Sync, SyncFolder, Write};
use super::{RealDisk, Seen, Written, save_atomically, write_whole};

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
    let disk = Faulty::sound();
    assert_eq!(write_whole(&disk, &file, b"new", None).unwrap(), Written::Safe);
    assert_eq!(disk.steps(), [Create, Write, Sync, ReadBack, Rename, SyncFolder]);
    assert_eq!(disk.steps(), Step::ALL, "each of them is tried below");
    assert_eq!(fs::read_to_string(&file).unwrap(), "new");
}

#[test]
fn whatever_step_fails_the_file_holds_what_it_held_and_nothing_is_left_behind() {
    for at in [Create, Write, Sync, ReadBack, Rename] {
        let (folder, file) = folder();
        let problem = write_whole(&Faulty::at(at), &file, b"new", None).unwrap_err().to_string();
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
        let disk = Faulty::at(at).silently();
        let problem = write_whole(&disk, &file, b"new", None).unwrap_err().to_string();
        assert!(problem.contains("it reads back otherwise than it was written"), "{at:?}: {problem}");
        assert_eq!(fs::read_to_string(&file).unwrap(), "old", "{at:?}");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }
}

#[test]
fn a_name_that_is_not_safe_yet_is_told() {
    let (_folder, file) = folder();
    let problem = write_whole(&Faulty::at(SyncFolder), &file, b"new", None).unwrap_err().to_string();
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
