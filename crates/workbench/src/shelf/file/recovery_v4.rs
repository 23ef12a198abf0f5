//! Recovery files of version 4: a system of version 3, the file it was opened from, and what that file held. They are read
//! and no longer written.

use std::path::PathBuf;

use serde::Deserialize;

use super::format::parse;
use super::problem::FileProblem;
use super::recovery_v5::{HeldV5, Recovered};
use super::system_v3::SystemV3;
use super::system_v4::on_its_line;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-recovery/4";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecoveryV4 {
    #[serde(rename = "format")]
    _format: String,
    file: Option<String>,
    held: Vec<HeldV5>,
    system: SystemV3,
}

/// Reads a recovery file of version 4.
pub(crate) fn read(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    let stored: RecoveryV4 = parse(text, name)?;
    let system = stored.system.live().map_err(|refusal| on_its_line(&refusal, text, name))?;
    let seen = Some(stored.held.into_iter().map(HeldV5::seen).collect());
    Ok(Recovered { system, file: stored.file.map(PathBuf::from), seen })
}
