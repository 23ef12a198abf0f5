//! Recovery files of version 1: a single part, and the file it was opened from. They are read and no longer written.

use std::path::PathBuf;

use elbowroom_bending::{Part, System};
use serde::Deserialize;

use super::format::parse;
use super::part_v1::PartV1;
use super::problem::FileProblem;
use super::recovery_v5::Recovered;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-recovery/1";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecoveryV1 {
    #[serde(rename = "format")]
    _format: String,
    /// The part's own file. Left out where there is none, or where its name is not text.
    file: Option<String>,
    part: PartV1,
}

/// Reads a recovery file of version 1.
pub(crate) fn read(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    let stored: RecoveryV1 = parse(text, name)?;
    let system = System::of(Part::from(stored.part));
    Ok(Recovered { system, file: stored.file.map(PathBuf::from), seen: None })
}
