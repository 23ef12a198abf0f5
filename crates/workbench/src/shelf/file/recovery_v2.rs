//! Recovery files of version 2: a system of version 1, and the file it was opened from. They are read and no longer
//! written.

use std::path::PathBuf;

use serde::Deserialize;

use super::format::parse;
use super::problem::FileProblem;
use super::recovery_v5::Recovered;
use super::system_v1::SystemV1;
use super::system_v4::on_its_line;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-recovery/2";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecoveryV2 {
    #[serde(rename = "format")]
    _format: String,
    /// The system's own file. Left out where there is none, or where its name is not text.
    file: Option<String>,
    system: SystemV1,
}

/// Reads a recovery file of version 2.
pub(crate) fn read(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    let stored: RecoveryV2 = parse(text, name)?;
    let system = stored.system.live().map_err(|refusal| on_its_line(&refusal, text, name))?;
    Ok(Recovered { system, file: stored.file.map(PathBuf::from), seen: None })
}
