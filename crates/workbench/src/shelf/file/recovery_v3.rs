//! Recovery files of version 3: a system of version 2, the file it was opened from, and what that file held. They are read
//! and no longer written.

use std::path::PathBuf;

use serde::Deserialize;

use super::format::parse;
use super::problem::FileProblem;
use super::recovery_v5::{HeldV5, Recovered};
use super::system_v2::SystemV2;
use super::system_v4::on_its_line;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-recovery/3";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecoveryV3 {
    #[serde(rename = "format")]
    _format: String,
    file: Option<String>,
    held: Vec<HeldV5>,
    system: SystemV2,
}

/// Reads a recovery file of version 3.
pub(crate) fn read(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    let stored: RecoveryV3 = parse(text, name)?;
    let system = stored.system.live().map_err(|refusal| on_its_line(&refusal, text, name))?;
    let seen = Some(stored.held.into_iter().map(HeldV5::seen).collect());
    Ok(Recovered { system, file: stored.file.map(PathBuf::from), seen })
}
