//! A disk for tests: the machine's own, which notes each step and fails at one of them.
#![allow(clippy::unwrap_used)]

use std::fs::File;
use std::io;
use std::path::Path;
use std::sync::Mutex;

use super::{Disk, RealDisk};

/// A step of writing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Step {
    Create,
    Write,
    Sync,
    Read,
    Rename,
    SyncFolder,
}

impl Step {
    /// All of them, in the order in which they are made.
    pub const ALL: [Self; 6] = [Self::Create, Self::Write, Self::Sync, Self::Read, Self::Rename, Self::SyncFolder];
}

/// The disk.
pub(crate) struct Faulty {
    at: Option<Step>,
    /// It does as if all went well, and does something else: half is written, other bytes are read.
    silently: bool,
    /// It fails so often.
    times: Mutex<usize>,
    steps: Mutex<Vec<Step>>,
}

impl Faulty {
    /// One that never fails.
    pub fn sound() -> Self {
        Self { at: None, silently: false, times: Mutex::new(0), steps: Mutex::default() }
    }

    /// One that fails at a step, always.
    pub fn at(step: Step) -> Self {
        Self { at: Some(step), times: Mutex::new(usize::MAX), ..Self::sound() }
    }

    /// One that fails at a step once.
    pub fn once_at(step: Step) -> Self {
        Self { times: Mutex::new(1), ..Self::at(step) }
    }

    /// The same, which does as if all went well.
    pub fn silently(self) -> Self {
        Self { silently: true, ..self }
    }

    /// The steps that were made.
    pub fn steps(&self) -> Vec<Step> {
        self.steps.lock().unwrap().clone()
    }

    /// Notes a step. Gives whether it is to go wrong in silence.
    fn step(&self, step: Step) -> io::Result<bool> {
        self.steps.lock().unwrap().push(step);
        let mut times = self.times.lock().unwrap();
        if self.at != Some(step) || *times == 0 {
            return Ok(false);
        }
        *times -= 1;
        if self.silently { Ok(true) } else { Err(io::ErrorKind::StorageFull.into()) }
    }
}

impl Disk for Faulty {
    fn create(&self, path: &Path) -> io::Result<File> {
        self.step(Step::Create)?;
        RealDisk.create(path)
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        let half = self.step(Step::Write)?;
        RealDisk.write(file, if half { &bytes[..bytes.len() / 2] } else { bytes })
    }

    fn sync(&self, file: &File) -> io::Result<()> {
        self.step(Step::Sync)?;
        RealDisk.sync(file)
    }

    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        let garbled = self.step(Step::Read)?;
        let mut bytes = RealDisk.read(path)?;
        if garbled {
            bytes[0] ^= 1;
        }
        Ok(bytes)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step(Step::Rename)?;
        RealDisk.rename(from, to)
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        self.step(Step::SyncFolder)?;
        RealDisk.sync_folder(folder)
    }
}
