//! Why the system refused, in plain words.

use std::io::{self, ErrorKind};

/// Why the system refused, in plain words.
pub(crate) fn reason(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::PermissionDenied => "you have no permission there".into(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "there is no space left on the disk".into(),
        ErrorKind::ReadOnlyFilesystem => "the disk can only be read".into(),
        ErrorKind::NotFound => "the file or its folder is not there".into(),
        ErrorKind::NotADirectory => "the folder it should be in is no folder".into(),
        ErrorKind::IsADirectory => "there is a folder of that name".into(),
        ErrorKind::InvalidFilename => "the name is too long or not allowed".into(),
        _ => error.to_string(),
    }
}
