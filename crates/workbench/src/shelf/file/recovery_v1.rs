//! Recovery files of version 1: a part, and the file it was opened from.

use std::path::PathBuf;

use elbowroom_bending::Part;
use serde::{Deserialize, Serialize};

use super::FileProblem;
use super::format::{self, Format};
use super::part_v1::PartV1;

const RECOVERY: Format = Format { tag: "elbowroom-recovery", noun: "recovery file", newest: 1 };

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
    let stored = RecoveryV1 { format: RECOVERY.stamp(1), file, part: PartV1::from(part) };
    format::print("Work that was not saved. Elbowroom offers it when it starts again.", &stored)
}

/// Reads a recovery file: the part, and its own file.
///
/// # Errors
/// Says on which line what is wrong.
pub(crate) fn read_recovery(text: &str, name: &str) -> Result<(Part, Option<PathBuf>), FileProblem> {
    RECOVERY.version(text, name)?;
    let stored: RecoveryV1 = format::parse(text, name)?;
    Ok((stored.part.into(), stored.file.map(PathBuf::from)))
}
