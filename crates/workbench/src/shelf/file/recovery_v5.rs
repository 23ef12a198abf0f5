//! Recovery files of version 5: a system, the file it was opened from, and what that file held when this program last read
//! or wrote it.

use std::path::PathBuf;

use elbowroom_bending::System;
use serde::{Deserialize, Serialize};

use super::format::{parse, print};
use super::problem::FileProblem;
use super::system_v4::{SystemV4, on_its_line};
use crate::shelf::disk::Seen;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-recovery/5";

/// Unsaved work.
#[derive(Clone, Debug, PartialEq)]
pub struct Recovered {
    /// What was drawn.
    pub system: System,
    /// Its own file where it has one.
    pub file: Option<PathBuf>,
    /// The marks of what that file held; `None` where the recovery file is older than such marks.
    pub(crate) seen: Option<Vec<Seen>>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RecoveryV5 {
    format: String,
    /// The system's own file. Left out where there is none, or where its name is not text.
    file: Option<String>,
    /// What it held when it was last read or written here. Anything else in it is somebody else's.
    held: Vec<HeldV5>,
    system: SystemV4,
}

/// The mark of a content: its length in bytes, and its checksum by FNV-1a.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HeldV5 {
    length: u64,
    fnv_1a: u64,
}

impl HeldV5 {
    /// The mark itself.
    pub(super) fn seen(self) -> Seen {
        Seen { length: self.length, checksum: self.fnv_1a }
    }
}

/// Writes the recovery file of a system.
pub(crate) fn write_recovery(system: &System, file: Option<&PathBuf>, seen: &[Seen]) -> String {
    let file = file.and_then(|file| file.to_str()).map(str::to_owned);
    let held = seen.iter().map(|seen| HeldV5 { length: seen.length, fnv_1a: seen.checksum }).collect();
    let stored = RecoveryV5 { format: STAMP.to_owned(), file, held, system: SystemV4::from(system) };
    print("Work that was not saved. Elbowroom offers it when it starts again.", &stored, 6)
}

/// Reads a recovery file of version 5.
pub(crate) fn read(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    let stored: RecoveryV5 = parse(text, name)?;
    let system = stored.system.live().map_err(|refusal| on_its_line(&refusal, text, name))?;
    let seen = stored.held.into_iter().map(HeldV5::seen).collect();
    Ok(Recovered { system, file: stored.file.map(PathBuf::from), seen: Some(seen) })
}
