//! Recovery files of version 3: a system, and the file it was opened from.

use std::path::PathBuf;

use elbowroom_bending::System;
use serde::{Deserialize, Serialize};

use super::format::{parse, print};
use super::problem::FileProblem;
use super::system_v2::{SystemV2, on_its_line};

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-recovery/3";

/// Unsaved work: a system, and its own file where it has one.
pub type Recovered = (System, Option<PathBuf>);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RecoveryV3 {
    format: String,
    /// The system's own file. Left out where there is none, or where its name is not text.
    file: Option<String>,
    system: SystemV2,
}

/// Writes the recovery file of a system.
pub(crate) fn write_recovery(system: &System, file: Option<&PathBuf>) -> String {
    let file = file.and_then(|file| file.to_str()).map(str::to_owned);
    let stored = RecoveryV3 { format: STAMP.to_owned(), file, system: SystemV2::from(system) };
    print("Work that was not saved. Elbowroom offers it when it starts again.", &stored, 6)
}

/// Reads a recovery file of version 3.
pub(crate) fn read(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    let stored: RecoveryV3 = parse(text, name)?;
    let system = stored.system.live().map_err(|refusal| on_its_line(&refusal, text, name))?;
    Ok((system, stored.file.map(PathBuf::from)))
}
