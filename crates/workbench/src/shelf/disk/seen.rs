//! What a file held when it was last read or written, so that a change by somebody else is noticed.

/// The mark of a file's content. Times are left out: they change without the content, and on some disks
/// stay the same when it changes. It outlives the program in recovery files, so that it must come out the same
/// on every machine and in every version.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Seen {
    /// Bytes.
    pub length: u64,
    /// The bytes by FNV-1a.
    pub checksum: u64,
}

impl Seen {
    /// The mark of this content.
    pub fn of(content: &[u8]) -> Self {
        Self { length: content.len() as u64, checksum: fnv_1a(content) }
    }
}

/// FNV-1a in 64 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv). It finds slips; nobody is kept from forging it.
fn fnv_1a(content: &[u8]) -> u64 {
    content.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vectors of the IETF draft-eastlake-fnv, 64 bits, FNV-1a; from memory.
    #[test]
    fn the_checksum_is_the_published_one() {
        let rows = [("", 0xcbf2_9ce4_8422_2325), ("a", 0xaf63_dc4c_8601_ec8c), ("foobar", 0x8594_4171_f739_67e8)];
        for (text, checksum) in rows {
            assert_eq!(Seen::of(text.as_bytes()), Seen { length: text.len() as u64, checksum }, "{text}");
        }
    }
}
