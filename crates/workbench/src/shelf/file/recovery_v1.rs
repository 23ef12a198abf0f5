//! Recovery files of version 1: a part, and the file it was opened from.

use std::path::PathBuf;

use elbowroom_bending::Part;
use serde::{Deserialize, Serialize};

use super::format::{parse, print};
use super::part_v1::PartV1;
use super::problem::FileProblem;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-recovery/1";

/// Unsaved work: a part, and its own file where it has one.
pub(crate) type Recovered = (Part, Option<PathBuf>);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RecoveryV1 {
    format: String,
    /// The part's own file. Left out where there is none, or where its name is not text.
    file: Option<String>,
    part: PartV1,
}

/// Writes the recovery file of a part.
pub(crate) fn write_recovery(part: &Part, file: Option<&PathBuf>) -> String {
    let file = file.and_then(|file| file.to_str()).map(str::to_owned);
    let stored = RecoveryV1 { format: STAMP.to_owned(), file, part: PartV1::from(part) };
    print("Work that was not saved. Elbowroom offers it when it starts again.", &stored)
}

/// Reads a recovery file of version 1.
pub(crate) fn read(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    let stored: RecoveryV1 = parse(text, name)?;
    Ok((stored.part.into(), stored.file.map(PathBuf::from)))
}
