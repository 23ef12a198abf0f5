//! What a file held when it was last read or written, so that a change by somebody else is noticed.

use std::hash::{DefaultHasher, Hasher};

/// The mark of a file's content. Times are left out: they change without the content, and on some disks
/// stay the same when it changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Seen {
    length: usize,
    hash: u64,
}

impl Seen {
    /// The mark of this content.
    pub fn of(content: &[u8]) -> Self {
        let mut hasher = DefaultHasher::new();
        hasher.write(content);
        Self { length: content.len(), hash: hasher.finish() }
    }
}
